/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stretch of a boil-off on which one compound may come over: the head hardly rises. */
#include "curve/level.h"

#include <math.h>

#include "curve/finding_limits.h"

static bool in_use(const struct bc_point *point)
{
	return point->used && !point->slip && point->kind == BC_READING_AMOUNT;
}

/* Mean slope of the whole [degC/%], and its span; false without readings. */
static bool measure(const struct bc_boiloff *boiloff, double *slope, double *span_c)
{
	const struct bc_point *first = NULL;
	const struct bc_point *last = NULL;

	for (size_t i = 0; i < boiloff->n; i++) {
		if (!in_use(&boiloff->points[i]))
			continue;
		first = first ? first : &boiloff->points[i];
		last = &boiloff->points[i];
	}
	if (!first || !(last->recovered_pct > first->recovered_pct))
		return false;
	*span_c = last->corrected_c - first->corrected_c;
	*slope = *span_c / (last->recovered_pct - first->recovered_pct);
	return true;
}

/* How far the stretch from here goes with no step steeper than allowed; how many readings. */
static const struct bc_point *follow(
	const struct bc_boiloff *boiloff, size_t from, double allowed, size_t *count)
{
	const struct bc_point *end = &boiloff->points[from];

	*count = 1;
	for (size_t i = from + 1; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		if (!in_use(point))
			continue;
		double width = point->recovered_pct - end->recovered_pct;
		if (point->corrected_c - end->corrected_c > allowed * width)
			break;
		end = point;
		++*count;
	}
	return end;
}

struct bc_level bc_level_seen(const struct bc_boiloff *boiloff)
{
	struct bc_level level = {.found = false};
	double slope;
	double span_c;

	if (!measure(boiloff, &slope, &span_c))
		return level;
	double most = span_c < BC_COMPOUND_NARROW_C ? BC_COMPOUND_NARROW_C_PER_PCT
						    : BC_COMPOUND_C_PER_PCT;
	double allowed = fmin(most, BC_COMPOUND_SHARE * slope);
	if (span_c < BC_COMPOUND_NARROW_C)
		allowed = most;
	double widest = BC_COMPOUND_WIDTH_PCT;
	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *start = &boiloff->points[i];
		size_t count;
		if (!in_use(start))
			continue;
		const struct bc_point *end = follow(boiloff, i, allowed, &count);
		double width = end->recovered_pct - start->recovered_pct;
		if (count < BC_COMPOUND_READINGS || width < widest ||
			(level.found && width <= widest))
			continue;
		widest = width;
		level = (struct bc_level){true, start->recovered_pct, end->recovered_pct,
			start->observed_c, end->observed_c,
			0.5 * (start->corrected_c + end->corrected_c)};
	}
	return level;
}
