/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_STILL_TAP_H
#define BC_STILL_TAP_H

#include "base/strings.h"
#include "still/column.h"
#include "still/search.h"

/* A run of a still, and what its taps are turned for. One run serves any number of searches. */
struct bc_tap_still {
	const struct bc_run *run;
	const struct bc_run *worst_run; /* of the still at the low end of its plates (95 %): the low
					   bound of a flash holds there too; NULL: not known */
	const struct bc_parent *parent; /* the charge; NULL: its error is not known */
	const struct bc_grades *grades; /* the charge against the standards; NULL: not known */
	double carry_frac;              /* what head and lines hold, of the charge, 0 or more */
	double carry_high_frac;         /* ... and at most (95 %) */
	double floor_frac;              /* the product starts no earlier */
	double ceiling_frac;            /* the heat goes off, and what head and lines hold runs into
					   the jar that is being filled */
	double margin_c;                /* as in struct bc_search */
};

/*
 * bc_tap_jar - what lands in the jar between two turns of the tap
 *
 * Given     still; 0 <= from_frac < to_frac, places over the head as volume of the charge, to
 *           ceiling_frac; to_frac 1: what stays in the pot is poured in too
 * Returned  as bc_run_jar
 * Status    as bc_run_jar
 * Notes     1. head and lines hold carry_frac, well stirred: what leaves them is the mean of what
 *              came over before, weighted by exp(-(v - u)/carry). So what they hold at a turn,
 *              rich in the last of the jar before, lands in the next jar, and no jar is thicker
 *              for it but the last
 *           2. within a few carry_frac of the first drop the lines are still filling
 *           3. 1 % of the charge, 0.5 to 2, is judgement: wetted walls of a small still
 * Source    stirred vessel in series (textbook); Gauss-Laguerre rule of 4 points, Abramowitz &
 *           Stegun, table 25.9
 * Checks    tests/unit/still/test_tap.c
 */
enum bc_status bc_tap_jar(const struct bc_tap_still *still, double from_frac, double to_frac,
	struct bc_slices *slices, double *share_frac);

/* A product of a real still smears: its last drop is read at this share of its volume. Common
 * practice: half a percent stays in a flask as film and loss. */
#define BC_TAP_END_FRAC 0.995

/* Slices, curve and oil of a jar into product_* of *cut. Status as bc_tap_jar, bc_slices_d86_c. */
enum bc_status bc_tap_product(
	const struct bc_tap_still *still, double from_frac, double to_frac, struct bc_cut *cut);

/*
 * bc_tap_best - the two turns that give the largest product of a grade
 *
 * Given     still; limits; want and standard as bc_search_best
 * Returned  *cut: places, percents in the jars, product; head temperatures are NaN
 * Status    BC_NOT_FOUND  no cut of 3 % or more meets it
 * Notes     1. flash with its margin, vapour pressure, T10 and the like move the front, T95, FBP,
 *              viscosity and the like the back, both only inwards: bc_search_close_in
 *           2. against a grid of all pairs: tests/unit/still/test_tap.c
 */
enum bc_status bc_tap_best(const struct bc_tap_still *still, const struct bc_limits *limits,
	enum bc_grade_name want, const char *standard, struct bc_cut *cut);

/* The largest product whose flash has the value flash_c or more, without margin, and that keeps the
 * heavy-end limits of a standard (NULL: none). Status as bc_tap_best. */
enum bc_status bc_tap_at_flash(const struct bc_tap_still *still, const struct bc_limits *limits,
	const char *standard, double flash_c, struct bc_cut *cut);

/* What stops a larger product than *cut; or, with NULL for cut, what no cut of the standard meets.
 * end: what the ceiling is, "pot limit 330 degC". */
void bc_tap_binding(const struct bc_tap_still *still, const struct bc_limits *limits,
	const char *standard, const struct bc_cut *cut, const char *end,
	struct bc_strings *binding);

#endif
