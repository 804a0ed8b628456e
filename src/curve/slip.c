/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings that do not belong among the others: each is held against the curve through the rest,
 * and leaves it only where the rest agree without it. */
#include "curve/slip.h"

#include <math.h>

#include "base/memory.h"
#include "base/stats.h"
#include "curve/finding_limits.h"

/* The readings in use in order, the IBP before and the FBP behind them, on probability paper. */
struct paper {
	struct bc_point **points;
	double *x; /* probit */
	double *y; /* corrected [degC] */
	size_t n;
	size_t n_amounts;
};

/* Without one of them. */
enum { NOBODY = -1 };

static void paper_release(struct paper *paper)
{
	bc_free(paper->points);
	bc_free(paper->x);
	bc_free(paper->y);
}

static enum bc_status paper_init(struct paper *paper, size_t n)
{
	size_t room = n + 1;

	*paper = (struct paper){
		.points = bc_alloc_array(room, sizeof(struct bc_point *)),
		.x = bc_alloc_array(room, sizeof *paper->x),
		.y = bc_alloc_array(room, sizeof *paper->y),
	};
	if (paper->points && paper->x && paper->y)
		return BC_OK;
	paper_release(paper);
	return BC_NO_MEMORY;
}

static bool is_amount(const struct paper *paper, size_t i)
{
	return paper->points[i]->kind == BC_READING_AMOUNT;
}

/* Where the first drop and the end stand: halfway to the edge at most. */
static double percent_on_paper(const struct bc_point *point, double first_pct, double last_pct)
{
	switch (point->kind) {
	case BC_READING_IBP:
		return fmin(BC_SLIP_IBP_PCT, 0.5 * first_pct);
	case BC_READING_FBP:
		return fmax(BC_SLIP_FBP_PCT, 0.5 * (100.0 + last_pct));
	case BC_READING_AMOUNT:
	case BC_READING_DRY:
		break;
	}
	return point->recovered_pct;
}

static void fill(struct paper *paper, struct bc_boiloff *boiloff)
{
	double first_pct = NAN;
	double last_pct = NAN;

	paper->n = 0;
	paper->n_amounts = 0;
	for (size_t i = 0; i < boiloff->n; i++) {
		struct bc_point *point = &boiloff->points[i];
		bool amount = point->kind == BC_READING_AMOUNT;
		bool inside = point->recovered_pct > 0.0 && point->recovered_pct < 100.0;
		if (!point->used || point->kind == BC_READING_DRY || (amount && !inside))
			continue;
		if (amount) {
			first_pct = isnan(first_pct) ? point->recovered_pct : first_pct;
			last_pct = point->recovered_pct;
			paper->n_amounts++;
		}
		paper->points[paper->n++] = point;
	}
	for (size_t i = 0; i < paper->n; i++) {
		paper->x[i] =
			bc_probit_from_pct(percent_on_paper(paper->points[i], first_pct, last_pct));
		paper->y[i] = paper->points[i]->corrected_c;
	}
}

/* Polynomial through m points, at x. */
static double through(const struct paper *paper, const size_t *at, size_t m, double x)
{
	double sum = 0.0;

	for (size_t i = 0; i < m; i++) {
		double weight = 1.0;
		for (size_t k = 0; k < m; k++)
			if (k != i)
				weight *=
					(x - paper->x[at[k]]) / (paper->x[at[i]] - paper->x[at[k]]);
		sum += weight * paper->y[at[i]];
	}
	return sum;
}

/* What the others ask for at i, none of them being 'without'; NaN at the edges. */
static double expected_c(const struct paper *paper, size_t i, long without)
{
	size_t at[4];
	size_t below = 0;
	size_t m = 0;

	for (size_t k = i; k-- > 0 && below < 2;) {
		if ((long)k != without) {
			at[m++] = k;
			below++;
		}
	}
	size_t left = m > 0 ? at[0] : 0;
	for (size_t k = i + 1; k < paper->n && m < below + 2; k++)
		if ((long)k != without)
			at[m++] = k;
	if (below == 0 || m == below)
		return NAN;
	size_t right = at[below];
	double low = fmin(paper->y[left], paper->y[right]);
	double high = fmax(paper->y[left], paper->y[right]);
	size_t pair[2] = {left, right};
	double straight = through(paper, pair, 2, paper->x[i]);
	double bent = fmin(fmax(through(paper, at, m, paper->x[i]), low), high);
	return 0.5 * (straight + bent);
}

static double off_c(const struct paper *paper, size_t i, long without)
{
	return paper->y[i] - expected_c(paper, i, without);
}

/* The median of what the readings around i lie off, when i is gone. */
static double scatter_c(const struct paper *paper, size_t i)
{
	double offs[2 * BC_SLIP_REACH];
	size_t m = 0;

	for (size_t k = i > BC_SLIP_REACH ? i - BC_SLIP_REACH : 0;
		k <= i + BC_SLIP_REACH && k < paper->n; k++) {
		double off = fabs(off_c(paper, k, (long)i));
		if (k != i && isfinite(off))
			offs[m++] = off;
	}
	return m > 0 ? bc_median(offs, m) : 0.0;
}

/* The most that the readings beside i lie off, when i is gone. */
static double beside_c(const struct paper *paper, size_t i, size_t reach)
{
	double most = 0.0;

	for (size_t k = i > reach ? i - reach : 0; k <= i + reach && k < paper->n; k++) {
		double off = fabs(off_c(paper, k, (long)i));
		if (k != i && isfinite(off))
			most = fmax(most, off);
	}
	return most;
}

/* A temperature that falls at the end and stays down is no slip: order.c ends the curve there. From
 * i on nothing, no end point either, comes back to the reading before it. */
static bool falls_at_end(const struct paper *paper, size_t i)
{
	for (size_t k = i; k < paper->n; k++) {
		if (paper->y[k] > paper->y[i - 1] + (k == i ? 0.0 : BC_FALL_C))
			return false;
	}
	return true;
}

/* The reading before a fall at the end: what follows falls on, or lies lower than the readings
 * before it lead to, so that the fall, and not this reading, is the fault. */
static bool is_peak_of_fall(const struct paper *paper, size_t i)
{
	if (i < 2 || !falls_at_end(paper, i + 1))
		return false;
	if (i + 2 < paper->n && is_amount(paper, i + 2) && paper->y[i + 2] < paper->y[i + 1])
		return true;
	double rise = (paper->y[i - 1] - paper->y[i - 2]) / (paper->x[i - 1] - paper->x[i - 2]);
	double leads_to = rise * (paper->x[i + 1] - paper->x[i - 1]);

	return paper->y[i + 1] - paper->y[i - 1] < BC_SLIP_FALL_SHARE * leads_to;
}

/* Whether a reading lies off, to the same side, of where the two readings before it lead, and of
 * where the two behind it lead back: a bend or a steep end agrees with one of them. */
static bool is_off_both_sides(const struct paper *paper, size_t i, double off)
{
	for (int side = -1; side <= 1; side += 2) {
		long near = (long)i + side;
		long far = near + side;
		if (far < 0 || far >= (long)paper->n)
			continue;
		size_t pair[2] = {(size_t)near, (size_t)far};
		double here = paper->y[i] - through(paper, pair, 2, paper->x[i]);
		if (here * off < 0.0 || fabs(here) < BC_SLIP_SIDE_SHARE * fabs(off))
			return false;
	}
	return true;
}

/* How many times further off a reading lies than must be allowed for; below 1 it may belong. */
static double strength(const struct paper *paper, size_t i)
{
	double off = off_c(paper, i, NOBODY);
	bool edge = !is_amount(paper, i - 1) || !is_amount(paper, i + 1);
	double span = fabs(paper->y[i + 1] - paper->y[i - 1]);
	double allowed = fmax(
		edge ? BC_SLIP_EDGE_C : BC_SLIP_LEAST_C, BC_SLIP_MEDIANS * scatter_c(paper, i));
	bool between = (paper->y[i] - paper->y[i - 1]) * (paper->y[i + 1] - paper->y[i]) >= 0.0;

	if (between)
		allowed =
			fmax(allowed, (edge ? BC_SLIP_EDGE_SPAN_SHARE : BC_SLIP_SPAN_SHARE) * span);
	allowed = fmax(allowed, BC_SLIP_NEIGHBOURS * beside_c(paper, i, 1));
	return fabs(off) > allowed && is_off_both_sides(paper, i, off) ? fabs(off) / allowed : 0.0;
}

/* The reading behind a first one that is as low as it, before a jump: two that agree on a low front
 * are kept, for what lies low there is what lights. */
static bool is_of_low_front(const struct paper *paper, size_t i)
{
	if (i != 1 || i + 2 >= paper->n || !(paper->y[1] >= paper->y[0]))
		return false;
	size_t behind[2] = {i + 1, i + 2};
	double first = paper->y[0] - through(paper, behind, 2, paper->x[0]);
	double here = paper->y[i] - through(paper, behind, 2, paper->x[i]);

	return here < 0.0 && first < BC_SLIP_FIRST_SHARE * here;
}

static size_t strongest(const struct paper *paper)
{
	size_t which = paper->n;
	double most = 1.0;

	for (size_t i = 1; i + 1 < paper->n; i++) {
		if (!is_amount(paper, i) || falls_at_end(paper, i) || is_peak_of_fall(paper, i) ||
			is_of_low_front(paper, i))
			continue;
		double here = strength(paper, i);
		if (here > most) {
			most = here;
			which = i;
		}
	}
	return which;
}

static void exchange(struct paper *paper, size_t i)
{
	double kept = paper->y[i];

	paper->y[i] = paper->y[i + 1];
	paper->y[i + 1] = kept;
}

/* The most that these two and those beside them lie off when they change places. */
static double off_when_exchanged_c(struct paper *paper, size_t i)
{
	double most = 0.0;

	exchange(paper, i);
	for (size_t k = i > 0 ? i - 1 : 0; k <= i + 2 && k < paper->n; k++) {
		double off = fabs(off_c(paper, k, NOBODY));
		if (isfinite(off))
			most = fmax(most, off);
	}
	exchange(paper, i);
	return most;
}

/* The first of two readings that stand in each other's place; paper->n where there are none. */
static size_t swapped_pair(struct paper *paper)
{
	size_t which = paper->n;
	double best = BC_SWAP_SHARE;

	for (size_t i = 0; i + 1 < paper->n; i++) {
		double fall = paper->y[i] - paper->y[i + 1];
		if (!is_amount(paper, i) || !is_amount(paper, i + 1) || !(fall > BC_SWAP_LEAST_C))
			continue;
		if (falls_at_end(paper, i + 1))
			continue;
		double swapped = off_when_exchanged_c(paper, i);
		bool alone = i > 0 && beside_c(paper, i, 1) <= swapped;
		bool other = beside_c(paper, i + 1, 1) <= swapped;
		if (swapped / fall < best && !alone && !other) {
			best = swapped / fall;
			which = i;
		}
	}
	return which;
}

static void say_slip(const struct paper *paper, size_t i, const struct bc_conditions *conditions,
	bool keep_all, struct bc_findings *findings)
{
	const struct bc_point *point = paper->points[i];
	double expected = bc_reading_from_corrected(conditions, expected_c(paper, i, NOBODY));
	double span = fabs(paper->points[i + 1]->observed_c - paper->points[i - 1]->observed_c);
	double near = fmax(BC_SLIP_NEAR_C, BC_SLIP_NEAR_SHARE * span);
	char slip[BC_SLIP_NAME_SIZE];

	bc_slip_name(point->observed_c, expected, paper->points[i - 1]->observed_c,
		paper->points[i + 1]->observed_c, near, slip);
	bc_findings_say(findings, "reading-out-of-line", BC_FINDING_WARNING, point->recovered_pct,
		"Look at the sheet again: a slip of the pen, a bump or a draught there. Correct the "
		"row if you are sure, or keep it with --keep-all.",
		"the reading at %.1f %%, %.1f C, does not belong among its neighbours: %s; %s",
		point->recovered_pct, point->observed_c, keep_all ? "kept as asked" : "not used",
		slip);
	/* in the front it may as well be the first drop that was written down wrongly: a lower one
	 * means a lower flash */
	bc_findings_forbid(findings,
		point->recovered_pct <= BC_SLIP_FRONT_PCT && point->observed_c < expected, false);
}

static void say_swap(
	const struct paper *paper, size_t i, bool keep_all, struct bc_findings *findings)
{
	const struct bc_point *first = paper->points[i];
	const struct bc_point *second = paper->points[i + 1];

	bc_findings_say(findings, "readings-swapped", BC_FINDING_WARNING, first->recovered_pct,
		"Look at the sheet again, and put the two rows right.",
		"the readings at %.1f %%, %.1f C, and at %.1f %%, %.1f C, would fit if they changed "
		"places: %s",
		first->recovered_pct, first->observed_c, second->recovered_pct, second->observed_c,
		keep_all ? "kept as asked" : "neither is used");
}

/* Takes row i, or with pair the two from i on, off the paper. */
static void take_off(struct paper *paper, size_t i, size_t count, bool keep_all)
{
	for (size_t k = i; k < i + count; k++) {
		paper->points[k]->used = keep_all;
		paper->points[k]->slip = true;
	}
	for (size_t k = i; k + count < paper->n; k++) {
		paper->points[k] = paper->points[k + count];
		paper->x[k] = paper->x[k + count];
		paper->y[k] = paper->y[k + count];
	}
	paper->n -= count;
}

enum { LEFT_MIN = 4 };

/* Finds one slip and takes it off; false when there is none. */
static bool settle_one(struct paper *paper, const struct bc_conditions *conditions, bool keep_all,
	struct bc_findings *findings)
{
	size_t swap = swapped_pair(paper);
	if (swap < paper->n) {
		say_swap(paper, swap, keep_all, findings);
		take_off(paper, swap, 2, keep_all);
		return true;
	}
	size_t slip = strongest(paper);
	if (slip == paper->n)
		return false;
	say_slip(paper, slip, conditions, keep_all, findings);
	take_off(paper, slip, 1, keep_all);
	return true;
}

enum bc_status bc_slips_settle(struct bc_boiloff *boiloff, const struct bc_conditions *conditions,
	bool keep_all, struct bc_findings *findings)
{
	struct paper paper;
	enum bc_status status = paper_init(&paper, boiloff->n);

	if (bc_failed(status))
		return status;
	fill(&paper, boiloff);
	size_t allowed = (size_t)(BC_SLIPS_SHARE * (double)paper.n_amounts);
	for (size_t i = 0; i < BC_SLIPS_MAX && i < allowed && paper.n >= LEFT_MIN; i++) {
		if (!settle_one(&paper, conditions, keep_all, findings))
			break;
		if (i > 0)
			bc_findings_forbid(findings, true, false);
	}
	paper_release(&paper);
	return BC_OK;
}
