/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_WATER_H
#define BC_CURVE_WATER_H

#include <stdbool.h>
#include <stddef.h>

#include "curve/boiloff.h"

/* Water in a boil-off; inside curve/ only. */

/* Water at 20 degC [g/mL]; Tanaka's formula, tabulated value seen in a public copy. */
#define BC_WATER_G_PER_ML 0.998

/* Where water came over among points sorted by percent. */
struct bc_shelf {
	bool found;
	size_t first;    /* reading on the shelf, the IBP among them */
	size_t last;     /* also on it */
	double from_pct; /* between these the water came over, on the percents as they stand */
	double to_pct;
};

/*
 * bc_shelf_seen - a shelf that the readings alone show
 *
 * Given     points, n   sorted by percent, IBP first
 * Returned  at least two readings (the IBP counts) that lie from 31 degC below to 4 degC above
 *           water's boiling point at the site and rise slowly, and a jump behind them
 * Notes     1. the jump is 40 degC within the next 10 %; after a nearly level stretch 15 degC at
 *              2.5 degC/% are enough
 *           2. a shelf lies in the first 60 %: a light naphtha ends near 100 degC
 */
struct bc_shelf bc_shelf_seen(
	const struct bc_conditions *conditions, const struct bc_point *points, size_t n);

/* The stretch on which water that was measured in the receiver came over: up to where the head
 * leaves its boiling point, from where it came within 31 degC. */
struct bc_shelf bc_shelf_of_stated_water(
	const struct bc_conditions *conditions, const struct bc_point *points, size_t n);

/* Takes water [% of the charge] out of the percents of the shelf and above, and brings them to
 * the dry charge. Readings that were water alone are no longer used. */
void bc_water_taken_out(
	double water_pct, const struct bc_shelf *shelf, struct bc_point *points, size_t n);

/* Readings on the shelf boil as oil and water together: no longer used, nor an IBP at or below
 * it. Where fewer than three percent readings were left, these stay and only the IBP goes. */
void bc_shelf_not_used(const struct bc_conditions *conditions, const struct bc_shelf *shelf,
	struct bc_point *points, size_t n);

#endif
