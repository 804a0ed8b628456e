/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_STILL_SPLIT_H
#define BC_STILL_SPLIT_H

#include <stdbool.h>

#include "base/status.h"
#include "curve/conditions.h"
#include "fuel/properties.h"
#include "fuel/slices.h"
#include "verdict/grade.h"
#include "verdict/limits.h"

/* Two turns of the tap and what lands in each jar. Volume fractions of the charge, 0..1. */
struct bc_cut {
	const char *basis; /* "perfect split, the bound that no still reaches" */
	enum bc_grade_name grade;
	const char *standard;
	double light_until_frac;
	double product_until_frac;
	double light_until_c;         /* D86 basis; NaN when there is no light jar */
	double product_until_c;       /* NaN when there is no tail */
	double light_until_reading_c; /* what this thermometer shows here */
	double product_until_reading_c;
	double light_pct;
	double product_pct;
	double tail_pct; /* tail and pot */
	struct bc_slices product_slices;
	double product_d86_c[BC_TBP_POINTS];
	struct bc_oil product;
	struct bc_points product_points;
};

/*
 * bc_split_find - the largest cut that meets one standard, cut perfectly on the slices
 *
 * flash_half_width_c is that of the oil that is cut: its product is known no better. The front
 * share is the least for which the flash with its margin (the product's low bound) meets the limit,
 * the tail the least for which the heavy-end limits hold; other limits are checked afterwards.
 * BC_NOT_FOUND: no cut of 3 % or more meets it.
 */
enum bc_status bc_split_find(const struct bc_slices *slices, const struct bc_limits *limits,
	const char *standard, double flash_half_width_c, const struct bc_conditions *conditions,
	struct bc_cut *cut);

/* Over all standards of a grade (BC_GRADES: of every grade that a verdict may name but
 * gasoline-range), the one with the largest product; standard, if not NULL, fixes it. */
enum bc_status bc_split_best(const struct bc_slices *slices, const struct bc_limits *limits,
	enum bc_grade_name want, const char *standard, double flash_half_width_c,
	const struct bc_conditions *conditions, struct bc_cut *cut);

/* What a flask would show of these slices, Riazi-Daubert backwards: for an oil whose own readings
 * come from a better column, since limits are defined on the flask. */
enum bc_status bc_flask_points(const struct bc_slices *slices, struct bc_points *points);

#endif
