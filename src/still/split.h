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

/* What goes into the pot. */
struct bc_charge {
	const struct bc_slices *slices;
	const struct bc_parent *parent; /* no product is known better; NULL: inherits nothing */
	const struct bc_conditions *conditions;
	/* No product ends later, 0..1: the head limit, and what comes over at all. */
	double ceiling_frac;
	/* The oil held against the standards: one that a measured figure rules out for every jar is
	 * left out. NULL: not known. */
	const struct bc_grades *grades;
};

/* Two turns of the tap and what lands in each jar. Volume fractions of the charge, 0..1. */
struct bc_cut {
	const char *basis; /* "perfect split, the bound that no still reaches" */
	enum bc_grade_name grade;
	const char *standard;
	double light_until_frac;
	double product_until_frac;
	double light_until_c; /* D86 basis; NaN when there is no light jar */
	/* Always set: where no tail must be cut off it is the ceiling of the charge, at which the
	 * heat goes off and the rest stays in the pot; nothing is distilled to dryness. */
	double product_until_c;
	double light_until_reading_c; /* what this thermometer shows here */
	double product_until_reading_c;
	double light_pct;
	double product_pct;
	double tail_pct; /* tail and pot, with all that never comes over */
	bool heavy_end;  /* uncut, the oil fails this standard by its heavy end */
	struct bc_slices product_slices;
	double product_d86_c[BC_TBP_POINTS];
	struct bc_oil product;
	struct bc_points product_points;
};

/*
 * bc_split_find - the largest cut that meets one standard, cut perfectly on the slices
 *
 * The front share is the least for which the flash with its margin (the product's low bound) meets
 * the limit, the tail the least for which the heavy-end limits hold and the ceiling is kept; other
 * limits are checked afterwards, by plain value. A product whose density is unlike its grade is
 * none. BC_NOT_FOUND: no cut of 3 % or more meets it.
 */
enum bc_status bc_split_find(const struct bc_charge *charge, const struct bc_limits *limits,
	const char *standard, struct bc_cut *cut);

/* Over all standards of a grade (BC_GRADES: of every grade that a verdict may name but
 * gasoline-range), the one with the largest product; standard, if not NULL, fixes it. */
enum bc_status bc_split_best(const struct bc_charge *charge, const struct bc_limits *limits,
	enum bc_grade_name want, const char *standard, struct bc_cut *cut);

/* The share of the slices (0..1, volume) that is over when the head reads head_c on the D86 basis;
 * 1 where all of it is. */
double bc_split_head_frac(const struct bc_slices *slices, double head_c);

#define BC_CUT_CRITERIA_MAX 24
/* The product held against the standard it was cut for; limits must outlive grade. Statuses of
 * bc_standard_assess. */
enum bc_status bc_cut_assess(const struct bc_cut *cut, const struct bc_limits *limits,
	struct bc_grade *grade, struct bc_criterion room[BC_CUT_CRITERIA_MAX]);

/* What a flask would show of these slices, Riazi-Daubert backwards: for an oil whose own readings
 * come from a better column, since limits are defined on the flask. */
enum bc_status bc_flask_points(const struct bc_slices *slices, struct bc_points *points);

#endif
