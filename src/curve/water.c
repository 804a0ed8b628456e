/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Water in a boil-off: the shelf on which it came over, its share of the percents, and the readings
 * that are the boiling point of oil and water together. */
#include "curve/water.h"

#include <math.h>

#include "curve/finding_limits.h"

#define SAME_PCT 1e-9
enum { LEAST_READINGS = 3 };

static double above_water_c(const struct bc_conditions *conditions, const struct bc_point *point)
{
	return bc_site_from_reading(conditions, point->observed_c) - conditions->steam_true_c;
}

static bool on_shelf(const struct bc_conditions *conditions, const struct bc_point *point)
{
	double above_c = above_water_c(conditions, point);

	return above_c >= -BC_WATER_BELOW_C && above_c <= BC_WATER_ABOVE_C;
}

static double rise_c(const struct bc_point *a, const struct bc_point *b)
{
	return b->observed_c - a->observed_c;
}

static double slope(const struct bc_point *a, const struct bc_point *b)
{
	return rise_c(a, b) / fmax(b->recovered_pct - a->recovered_pct, SAME_PCT);
}

static bool is_slow(const struct bc_point *a, const struct bc_point *b)
{
	return slope(a, b) <= BC_WATER_SLOW_C_PER_PCT || rise_c(a, b) <= BC_WATER_SLOW_C;
}

/* The head leaves the shelf, whose last step is from before to end, for the next reading. */
static bool jumps(
	const struct bc_point *before, const struct bc_point *end, const struct bc_point *next)
{
	double shelf = slope(before, end);
	double jump = slope(end, next);
	bool large =
		rise_c(end, next) >= BC_WATER_JUMP_C &&
		next->recovered_pct - end->recovered_pct <= BC_WATER_JUMP_WITHIN_PCT + SAME_PCT &&
		jump >= BC_WATER_JUMP_STEEPER * shelf;
	bool small = shelf <= BC_WATER_FLAT_C_PER_PCT &&
		     rise_c(end, next) >= BC_WATER_SMALL_JUMP_C &&
		     jump >= BC_WATER_SMALL_JUMP_C_PER_PCT;

	return large || small;
}

/* What comes behind a jump stays up: a single slip is no jump. */
static bool stays_up(const struct bc_point *points, size_t n, size_t i)
{
	for (size_t k = i + 1; k < n; k++) {
		if (points[k].used && points[k].kind != BC_READING_DRY)
			return points[k].observed_c > points[i].observed_c - BC_FALL_C;
	}
	return true;
}

struct bc_shelf bc_shelf_seen(
	const struct bc_conditions *conditions, const struct bc_point *points, size_t n)
{
	struct bc_shelf shelf = {.found = false};
	const struct bc_point *before = NULL;
	const struct bc_point *end = NULL; /* of the stretch so far, before its one but last */

	for (size_t i = 0; i < n; i++) {
		const struct bc_point *point = &points[i];
		bool amount = point->kind == BC_READING_AMOUNT;
		if (!point->used || (!amount && point->kind != BC_READING_IBP))
			continue;
		if (before && amount && jumps(before, end, point) && stays_up(points, n, i)) {
			shelf.found = true;
			shelf.last = (size_t)(end - points);
			shelf.to_pct = end->recovered_pct;
			return shelf;
		}
		if (!on_shelf(conditions, point) || point->recovered_pct > BC_WATER_LATEST_PCT) {
			before = end = NULL;
			continue;
		}
		before = end && is_slow(end, point) ? end : NULL;
		if (!before) {
			shelf.first = i;
			shelf.from_pct = end ? end->recovered_pct : 0.0;
		}
		end = point;
	}
	return shelf;
}

struct bc_shelf bc_shelf_of_stated_water(
	const struct bc_conditions *conditions, const struct bc_point *points, size_t n)
{
	struct bc_shelf shelf = {.found = false};

	for (size_t i = 0; i < n; i++) {
		if (points[i].kind != BC_READING_AMOUNT)
			continue;
		double above_c = above_water_c(conditions, &points[i]);
		if (above_c > BC_WATER_ABOVE_C)
			break;
		shelf.to_pct = points[i].recovered_pct;
		if (above_c < -BC_WATER_BELOW_C) {
			shelf.from_pct = points[i].recovered_pct;
			shelf.found = false;
			continue;
		}
		if (!shelf.found)
			shelf.first = i;
		shelf.found = true;
		shelf.last = i;
	}
	return shelf;
}

void bc_water_taken_out(
	double water_pct, const struct bc_shelf *shelf, struct bc_point *points, size_t n)
{
	if (!(water_pct > 0.0 && water_pct < 100.0))
		return;
	/* no more water than distillate can have come over */
	double from_pct = shelf->from_pct;
	double to_pct = fmax(shelf->to_pct, from_pct + water_pct);
	double before = 0.0;
	for (size_t i = 0; i < n; i++) {
		struct bc_point *point = &points[i];
		if (point->kind != BC_READING_AMOUNT)
			continue;
		double share = (point->recovered_pct - from_pct) / (to_pct - from_pct);
		double out = water_pct * fmin(fmax(share, 0.0), 1.0);
		double oil = (point->recovered_pct - out) * 100.0 / (100.0 - water_pct);
		point->used = point->used && oil > before + SAME_PCT;
		point->recovered_pct = fmax(oil, before);
		before = point->recovered_pct;
	}
}

void bc_shelf_not_used(const struct bc_conditions *conditions, const struct bc_shelf *shelf,
	struct bc_point *points, size_t n)
{
	size_t left = 0;

	for (size_t i = 0; i < n; i++) {
		bool inside = shelf->found && i >= shelf->first && i <= shelf->last;
		if (points[i].kind == BC_READING_IBP &&
			(inside || above_water_c(conditions, &points[i]) <= BC_WATER_ABOVE_C))
			points[i].used = false;
		left += points[i].used && points[i].kind == BC_READING_AMOUNT && !inside;
	}
	if (!shelf->found || left < LEAST_READINGS)
		return;
	for (size_t i = shelf->first; i <= shelf->last; i++)
		points[i].used = false;
}
