/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_STILL_SPLIT_H
#define BC_STILL_SPLIT_H

#include <stdbool.h>

#include "base/status.h"
#include "curve/conditions.h"
#include "fuel/properties.h"
#include "fuel/slices.h"
#include "still/search.h"
#include "verdict/grade.h"
#include "verdict/limits.h"

/* The basis of such a cut, and that of one which a still outdoes all the same. */
#define BC_SPLIT_BOUND "perfect split, the bound that no still reaches"
#define BC_SPLIT_PLAIN "perfect split"

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
	double floor_frac; /* no product starts earlier, 0..1: gas that must go with the front */
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

#endif
