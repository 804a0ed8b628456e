/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings whose temperatures fall: one that is out of line is left out, a fall at the end ends the
 * curve, more of them mean that the sheet cannot be trusted. */
#include "curve/order.h"

#include <math.h>
#include <stdlib.h>

#include "base/memory.h"
#include "curve/finding_limits.h"

static bool in_use(const struct bc_point *point)
{
	return point->used && !point->slip && point->kind == BC_READING_AMOUNT;
}

/* The percent readings in use, and which of them the longest rising chain takes. */
struct chain {
	struct bc_point **readings;
	const struct bc_point *ibp; /* in use, or NULL */
	size_t n;
	bool *kept;
	size_t left_out;
	/* for the search */
	double *sorted;  /* temperatures */
	size_t *tree;    /* of prefixes of sorted: the reading, from 1, at which the longest ends */
	size_t *length;  /* of the longest chain that ends at a reading */
	size_t *earlier; /* the reading, from 1, before it in that chain; 0 for none */
};

static void chain_release(struct chain *chain)
{
	bc_free(chain->readings);
	bc_free(chain->kept);
	bc_free(chain->sorted);
	bc_free(chain->tree);
	bc_free(chain->length);
	bc_free(chain->earlier);
}

static enum bc_status chain_init(struct chain *chain, struct bc_boiloff *boiloff)
{
	size_t room = boiloff->n + 1;

	*chain = (struct chain){
		.readings = bc_alloc_array(room, sizeof(struct bc_point *)),
		.kept = bc_alloc_array(room, sizeof *chain->kept),
		.sorted = bc_alloc_array(room, sizeof *chain->sorted),
		.tree = bc_alloc_array(room, sizeof *chain->tree),
		.length = bc_alloc_array(room, sizeof *chain->length),
		.earlier = bc_alloc_array(room, sizeof *chain->earlier),
	};
	if (chain->readings && chain->kept && chain->sorted && chain->tree && chain->length &&
		chain->earlier)
		return BC_OK;
	chain_release(chain);
	return BC_NO_MEMORY;
}

static int by_value(const void *a, const void *b)
{
	double p = *(const double *)a;
	double q = *(const double *)b;

	return (p > q) - (p < q);
}

/* How many of the sorted temperatures are not above a limit. */
static size_t count_up_to(const struct chain *chain, double limit)
{
	size_t low = 0;
	size_t high = chain->n;

	while (low < high) {
		size_t middle = low + (high - low) / 2;
		if (chain->sorted[middle] <= limit)
			low = middle + 1;
		else
			high = middle;
	}
	return low;
}

static bool is_longer(const struct chain *chain, size_t a, size_t b)
{
	return a != 0 && (b == 0 || chain->length[a - 1] > chain->length[b - 1]);
}

/* The longest chain whose last reading is among the count coolest; a Fenwick tree of maxima. */
static size_t longest_among(const struct chain *chain, size_t count)
{
	size_t best = 0;

	for (size_t at = count; at > 0; at -= at & (~at + 1)) {
		if (is_longer(chain, chain->tree[at], best))
			best = chain->tree[at];
	}
	return best;
}

static void enter(struct chain *chain, size_t reading)
{
	size_t at = count_up_to(chain, chain->readings[reading - 1]->corrected_c);

	for (; at <= chain->n; at += at & (~at + 1)) {
		if (is_longer(chain, reading, chain->tree[at]))
			chain->tree[at] = reading;
	}
}

static void find_chain(struct chain *chain, struct bc_boiloff *boiloff)
{
	size_t best = 0;

	chain->n = 0;
	chain->ibp = NULL;
	for (size_t i = 0; i < boiloff->n; i++) {
		if (boiloff->points[i].kind == BC_READING_IBP && boiloff->points[i].used)
			chain->ibp = &boiloff->points[i];
		if (!in_use(&boiloff->points[i]))
			continue;
		chain->sorted[chain->n] = boiloff->points[i].corrected_c;
		chain->kept[chain->n] = false;
		chain->readings[chain->n++] = &boiloff->points[i];
	}
	qsort(chain->sorted, chain->n, sizeof *chain->sorted, by_value);
	for (size_t i = 0; i <= chain->n; i++)
		chain->tree[i] = 0;
	for (size_t i = 0; i < chain->n; i++) {
		double here_c = chain->readings[i]->corrected_c;
		size_t earlier = longest_among(chain, count_up_to(chain, here_c + BC_FALL_C));
		chain->earlier[i] = earlier;
		chain->length[i] = earlier ? chain->length[earlier - 1] + 1 : 1;
		if (is_longer(chain, i + 1, best))
			best = i + 1;
		enter(chain, i + 1);
	}
	chain->left_out = chain->n - (best ? chain->length[best - 1] : 0);
	for (; best != 0; best = chain->earlier[best - 1])
		chain->kept[best - 1] = true;
}

/* Degrees off the straight line of its neighbours; 0 where it has none below, so that it is to
 * blame only where nothing else is. */
static double off_line_c(const struct chain *chain, size_t i)
{
	const struct bc_point *before = i > 0 ? chain->readings[i - 1] : chain->ibp;
	const struct bc_point *after = chain->readings[i + 1];

	if (!before)
		return 0.0;
	double share = (chain->readings[i]->recovered_pct - before->recovered_pct) /
		       (after->recovered_pct - before->recovered_pct);

	return fabs(chain->readings[i]->corrected_c - before->corrected_c -
		    share * (after->corrected_c - before->corrected_c));
}

static bool rises_without(const struct chain *chain, size_t i)
{
	for (size_t k = 1; k < chain->n; k++) {
		size_t before = k - 1 == i ? i - 1 : k - 1;
		if (k == i || (i == 0 && k == 1))
			continue;
		if (chain->readings[before]->corrected_c - chain->readings[k]->corrected_c >
			BC_FALL_C)
			return false;
	}
	return true;
}

/* The one reading that is out of line; n where it may be the last one, a fall at the end. Either
 * side of a fall may be to blame: the one that lies further off its neighbours is taken. */
static size_t single_slip(const struct chain *chain)
{
	size_t slip = 0;
	double worst_c = -1.0;

	while (chain->kept[slip])
		slip++;
	size_t from = slip > 0 ? slip - 1 : 0;
	size_t to = slip + 1 < chain->n ? slip + 1 : slip;
	for (size_t i = from; i <= to; i++) {
		if (!rises_without(chain, i))
			continue;
		if (i + 1 == chain->n)
			return chain->n;
		double off_c = off_line_c(chain, i);
		if (off_c > worst_c) {
			worst_c = off_c;
			slip = i;
		}
	}
	return slip;
}

/* One to be left out, among good readings and those that were left out before. */
static bool is_one_slip(const struct chain *chain, const struct bc_boiloff *boiloff)
{
	size_t slips = 1;

	for (size_t i = 0; i < boiloff->n; i++)
		slips += boiloff->points[i].slip;
	return chain->left_out == 1 && slips <= BC_SLIPS_MAX &&
	       (double)slips <= BC_FALLS_SHARE * (double)(chain->n + slips - 1);
}

static void leave_out(struct chain *chain, size_t slip, bool keep_all, struct bc_findings *findings)
{
	struct bc_point *point = chain->readings[slip];

	point->used = keep_all;
	point->slip = true;
	bc_findings_say(findings, "reading-out-of-line", BC_FINDING_WARNING, point->recovered_pct,
		"Look at the sheet again: a slip of the pen, a bump or a draught there.",
		"the reading at %.1f %%, %.1f C, does not fit between its neighbours: %s",
		point->recovered_pct, point->observed_c, keep_all ? "kept as asked" : "not used");
	/* as in slip.c: in the front the first drop may be the wrong one */
	bc_findings_forbid(findings, point->recovered_pct <= BC_SLIP_FRONT_PCT, false);
}

static void say_disorder(const struct chain *chain, struct bc_findings *findings)
{
	size_t first = 0;

	while (chain->kept[first])
		first++;
	bc_findings_say(findings, "readings-disordered", BC_FINDING_WARNING,
		chain->readings[first]->recovered_pct,
		"Boil off again with a steady heat, and read each line as it comes.",
		"%zu of %zu readings, the first at %.1f %%, would have to go before the "
		"temperatures rise",
		chain->left_out, chain->n, chain->readings[first]->recovered_pct);
	bc_findings_forbid(findings, true, false);
}

/* The hottest of the readings in use, if it lies in the second half and is not the third yet. */
static size_t peak_of_run(const struct chain *chain)
{
	size_t peak = 0;

	for (size_t i = 1; i < chain->n; i++) {
		if (chain->readings[i]->corrected_c > chain->readings[peak]->corrected_c)
			peak = i;
	}
	if (peak < 2)
		return chain->n;
	double half_pct = 0.5 * chain->readings[chain->n - 1]->recovered_pct;
	return chain->readings[peak]->recovered_pct < half_pct ? chain->n : peak;
}

/* A temperature that falls at the end and stays down ends the curve: the oil was decomposing, or
 * no vapour reached the bulb any more. */
static void end_at_fall(
	const struct chain *chain, struct bc_boiloff *boiloff, struct bc_findings *findings)
{
	size_t peak = peak_of_run(chain);

	if (peak == chain->n)
		return;
	struct bc_point *top = chain->readings[peak];
	const struct bc_point *last = chain->readings[chain->n - 1];
	if (!(top->corrected_c - last->corrected_c > BC_FALL_C))
		return;
	bc_findings_say(findings, "temperature-falls", BC_FINDING_WARNING, top->recovered_pct,
		"Stop the boil-off there next time: the oil decomposes, or too little vapour "
		"reaches the bulb. Report no end point.",
		"the temperature falls from %.1f C at %.1f %% to %.1f C at %.1f %%; later readings "
		"are not used",
		top->observed_c, top->recovered_pct, last->observed_c, last->recovered_pct);
	for (struct bc_point *point = top + 1; point < boiloff->points + boiloff->n; point++)
		point->used = false;
}

/* An FBP below the last reading is no highest reading. */
static void drop_low_fbp(
	const struct chain *chain, struct bc_boiloff *boiloff, struct bc_findings *findings)
{
	const struct bc_point *last = chain->n > 0 ? chain->readings[chain->n - 1] : NULL;

	for (size_t i = 0; last && i < boiloff->n; i++) {
		struct bc_point *point = &boiloff->points[i];
		if (point->kind != BC_READING_FBP || !point->used ||
			!(last->corrected_c - point->corrected_c > BC_FALL_C))
			continue;
		point->used = false;
		bc_findings_say(findings, "temperature-falls", BC_FINDING_WARNING,
			last->recovered_pct,
			"FBP is the highest reading of the whole boil-off: write that one down.",
			"FBP %.1f C lies below the reading at %.1f %%, %.1f C: not used",
			point->observed_c, last->recovered_pct, last->observed_c);
	}
}

static void drop_high_ibp(
	const struct chain *chain, struct bc_boiloff *boiloff, struct bc_findings *findings)
{
	const struct bc_point *first = chain->n > 0 ? chain->readings[0] : NULL;

	for (size_t i = 0; first && i < boiloff->n; i++) {
		struct bc_point *point = &boiloff->points[i];
		if (point->kind != BC_READING_IBP || !point->used ||
			!(point->corrected_c - first->corrected_c > BC_FALL_C))
			continue;
		point->used = false;
		bc_findings_say(findings, "ibp-out-of-order", BC_FINDING_WARNING, 0.0,
			"Read the thermometer when the first drop falls, and repeat the boil-off: "
			"the flash point hangs on it.",
			"IBP %.1f C lies above the reading at %.1f %%, %.1f C: not used",
			point->observed_c, first->recovered_pct, first->observed_c);
		bc_findings_forbid(findings, true, false);
	}
}

enum bc_status bc_order_settle(
	struct bc_boiloff *boiloff, bool keep_all, struct bc_findings *findings)
{
	struct chain chain;
	enum bc_status status = chain_init(&chain, boiloff);

	if (bc_failed(status))
		return status;
	find_chain(&chain, boiloff);
	size_t slip = is_one_slip(&chain, boiloff) ? single_slip(&chain) : chain.n;
	bool end_falls = slip == peak_of_run(&chain); /* what is no plain slip (slip.c) */
	if (slip < chain.n && !end_falls) {
		leave_out(&chain, slip, keep_all, findings);
		find_chain(&chain, boiloff);
	} else if (chain.left_out > 0) {
		end_at_fall(&chain, boiloff, findings);
		find_chain(&chain, boiloff);
		if (chain.left_out > 0)
			say_disorder(&chain, findings);
	}
	drop_low_fbp(&chain, boiloff, findings);
	drop_high_ibp(&chain, boiloff, findings);
	chain_release(&chain);
	return BC_OK;
}
