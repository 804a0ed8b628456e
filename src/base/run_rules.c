/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules that tell a drift from chance on a chart of individual values. */
#include "base/run_rules.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"

const char *const bc_run_rule_names[BC_RUN_RULES] = {
	"beyond", "jump", "side", "rise", "zigzag", "far", "off", "quiet", "split"};

const struct bc_run_set bc_run_sets[BC_RUN_SETS] = {
	{"limits", {{[BC_RULE_BEYOND] = true, [BC_RULE_JUMP] = true}, 7, 7}, 105.0},
	{"runs", {{[BC_RULE_BEYOND] = true, [BC_RULE_SIDE] = true, [BC_RULE_RISE] = true}, 7, 7},
		93.0},
	{"zones",
		{{[BC_RULE_BEYOND] = true,
			 [BC_RULE_SIDE] = true,
			 [BC_RULE_FAR] = true,
			 [BC_RULE_OFF] = true},
			8, 6},
		91.75},
	{"all", {{true, true, true, true, true, true, true, true, true}, 9, 6}, 51.0},
};

static bool same_rules(const struct bc_run_rules *a, const struct bc_run_rules *b)
{
	bool same = true;
	for (size_t i = 0; i < BC_RUN_RULES; i++)
		same = same && a->on[i] == b->on[i];
	return same && (!a->on[BC_RULE_SIDE] || a->side == b->side) &&
	       (!a->on[BC_RULE_RISE] || a->rise == b->rise);
}

double bc_run_rules_once_in(const struct bc_run_rules *rules)
{
	for (size_t i = 0; i < BC_RUN_SETS; i++) {
		if (same_rules(rules, &bc_run_sets[i].rules))
			return bc_run_sets[i].once_in;
	}
	return NAN;
}

/* the lengths that ISO 8258:1991 prints, seen in public copies */
#define ZIGZAG_POINTS 14
#define QUIET_POINTS 15
#define SPLIT_POINTS 8

static bool turn_on(const char *word, size_t length, struct bc_run_rules *rules)
{
	for (size_t i = 0; i < BC_RUN_RULES; i++) {
		if (strlen(bc_run_rule_names[i]) == length &&
			strncmp(bc_run_rule_names[i], word, length) == 0) {
			rules->on[i] = true;
			return true;
		}
	}
	return false;
}

bool bc_run_rules_parse(const char *words, struct bc_run_rules *rules)
{
	for (size_t i = 0; i < BC_RUN_SETS; i++) {
		if (strcmp(words, bc_run_sets[i].name) == 0) {
			*rules = bc_run_sets[i].rules;
			return true;
		}
	}
	*rules = (struct bc_run_rules){.side = 9, .rise = 6};
	for (;;) {
		size_t length = strcspn(words, ",");
		if (!turn_on(words, length, rules))
			return false;
		if (words[length] == '\0')
			return true;
		words += length + 1;
	}
}

/* ---- looking */

struct search {
	const double *values;
	size_t n;
	const struct bc_individuals *chart;
	double grain; /* differences below are none */
	struct bc_run_stretches *found;
	bool failed;
};

/* Joins what overlaps the last find of the same rule and side. */
static void add(struct search *search, enum bc_run_rule rule, size_t first, size_t last, int side)
{
	struct bc_run_stretches *found = search->found;
	struct bc_run_stretch *before = found->n > 0 ? &found->items[found->n - 1] : NULL;
	bool alone = rule == BC_RULE_BEYOND || rule == BC_RULE_JUMP;
	if (before != NULL && before->rule == rule && before->side == side &&
		first <= before->last + (alone ? 1 : 0)) {
		before->last = last;
		return;
	}
	void *items = found->items;
	if (search->failed ||
		bc_grow(&items, found->n, &found->capacity, sizeof *found->items) != 0) {
		search->failed = true;
		return;
	}
	found->items = items;
	found->items[found->n++] = (struct bc_run_stretch){rule, first, last, side};
}

/* 1 above mean + sigmas sigma, -1 below mean - sigmas sigma, 0 between. */
static int zone(const struct search *search, size_t i, double sigmas)
{
	double off = search->values[i] - search->chart->mean;
	double edge = sigmas * search->chart->sigma + search->grain;
	return (off > edge) - (off < -edge);
}

static int direction(const struct search *search, size_t i)
{
	double step = search->values[i] - search->values[i - 1];
	return (step > search->grain) - (step < -search->grain);
}

static void find_beyond(struct search *search)
{
	for (size_t i = 0; i < search->n; i++) {
		int side = zone(search, i, 3.0);
		if (side != 0)
			add(search, BC_RULE_BEYOND, i, i, side);
	}
}

static void find_jumps(struct search *search)
{
	for (size_t i = 1; i < search->n; i++) {
		double range = fabs(search->values[i] - search->values[i - 1]);
		if (range > search->chart->range_upper + search->grain)
			add(search, BC_RULE_JUMP, i, i, 0);
	}
}

static void find_sides(struct search *search, size_t length)
{
	size_t run = 0;
	int held = 0;
	for (size_t i = 0; i < search->n; i++) {
		int side = zone(search, i, 0.0);
		run = side == 0 ? 0 : side == held ? run + 1 : 1;
		held = side;
		if (run >= length)
			add(search, BC_RULE_SIDE, i + 1 - length, i, side);
	}
}

static void find_rises(struct search *search, size_t length)
{
	size_t steps = 0;
	int held = 0;
	for (size_t i = 1; i < search->n; i++) {
		int way = direction(search, i);
		steps = way == 0 ? 0 : way == held ? steps + 1 : 1;
		held = way;
		if (way != 0 && steps + 1 >= length)
			add(search, BC_RULE_RISE, i + 1 - length, i, way);
	}
}

static void find_zigzags(struct search *search)
{
	size_t steps = 0;
	int held = 0;
	for (size_t i = 1; i < search->n; i++) {
		int way = direction(search, i);
		steps = way == 0 ? 0 : way == -held ? steps + 1 : 1;
		held = way;
		if (steps + 1 >= ZIGZAG_POINTS)
			add(search, BC_RULE_ZIGZAG, i + 1 - ZIGZAG_POINTS, i, 0);
	}
}

/* least of length points beyond sigmas sigma on one side, the last one among them */
static void find_most_beyond(
	struct search *search, enum bc_run_rule rule, size_t least, size_t length, double sigmas)
{
	for (size_t i = 0; i < search->n; i++) {
		int side = zone(search, i, sigmas);
		size_t count = 0;
		size_t first = i;
		if (side == 0)
			continue;
		for (size_t k = i + 1 > length ? i + 1 - length : 0; k <= i; k++) {
			if (zone(search, k, sigmas) != side)
				continue;
			first = count == 0 ? k : first;
			count++;
		}
		if (count >= least)
			add(search, rule, first, i, side);
	}
}

static void find_quiet(struct search *search)
{
	size_t run = 0;
	for (size_t i = 0; i < search->n; i++) {
		run = zone(search, i, 1.0) == 0 ? run + 1 : 0;
		if (run >= QUIET_POINTS && search->chart->sigma > search->grain)
			add(search, BC_RULE_QUIET, i + 1 - QUIET_POINTS, i, 0);
	}
}

static void find_split(struct search *search)
{
	size_t run = 0;
	size_t last[2] = {0, 0}; /* place behind the last one below, above */
	for (size_t i = 0; i < search->n; i++) {
		int side = zone(search, i, 1.0);
		run = side != 0 ? run + 1 : 0;
		if (side != 0)
			last[side > 0] = i + 1;
		size_t start = i + 1 - (run < SPLIT_POINTS ? run : SPLIT_POINTS);
		if (run >= SPLIT_POINTS && last[0] > start && last[1] > start)
			add(search, BC_RULE_SPLIT, start, i, 0);
	}
}

static bool is_finite(const double *values, size_t n, const struct bc_individuals *chart)
{
	bool finite = isfinite(chart->mean) && isfinite(chart->sigma);
	for (size_t i = 0; i < n; i++)
		finite = finite && isfinite(values[i]);
	return finite;
}

enum bc_status bc_run_stretches_find(const double *values, size_t n,
	const struct bc_individuals *chart, const struct bc_run_rules *rules,
	struct bc_run_stretches *found)
{
	*found = (struct bc_run_stretches){0};
	if (!is_finite(values, n, chart))
		return BC_BAD_DOMAIN;
	struct search search = {.values = values,
		.n = n,
		.chart = chart,
		.grain = 1e-9 * (fabs(chart->mean) + chart->sigma),
		.found = found};
	if (rules->on[BC_RULE_BEYOND])
		find_beyond(&search);
	if (rules->on[BC_RULE_JUMP])
		find_jumps(&search);
	if (rules->on[BC_RULE_SIDE])
		find_sides(&search, rules->side);
	if (rules->on[BC_RULE_RISE])
		find_rises(&search, rules->rise);
	if (rules->on[BC_RULE_ZIGZAG])
		find_zigzags(&search);
	if (rules->on[BC_RULE_FAR])
		find_most_beyond(&search, BC_RULE_FAR, 2, 3, 2.0);
	if (rules->on[BC_RULE_OFF])
		find_most_beyond(&search, BC_RULE_OFF, 4, 5, 1.0);
	if (rules->on[BC_RULE_QUIET])
		find_quiet(&search);
	if (rules->on[BC_RULE_SPLIT])
		find_split(&search);
	return search.failed ? BC_NO_MEMORY : BC_OK;
}

void bc_run_stretches_release(struct bc_run_stretches *found)
{
	if (found == NULL)
		return;
	bc_free(found->items);
	*found = (struct bc_run_stretches){0};
}

enum bc_status bc_chart_doubt_frac(size_t n, double *doubt_frac)
{
	*doubt_frac = NAN;
	if (n < 2)
		return BC_TOO_FEW;
	*doubt_frac = 1.96 * sqrt(0.8264 * (double)n - 1.082) / (double)(n - 1);
	return BC_OK;
}
