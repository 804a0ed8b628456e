/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_STILL_SEARCH_H
#define BC_STILL_SEARCH_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
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

/* No cut at all. */
void bc_cut_forget(struct bc_cut *cut);

/* A thinner product is no product; common practice. */
#define BC_THINNEST_FRAC 0.03
/* 1/4096 of the charge: far finer than a tap is turned */
#define BC_FINEST_FRAC (1.0 / 4096.0)

#define BC_CUT_CRITERIA_MAX 24

/* What a way of cutting puts between two places, 0 <= from < to <= 1 of the charge. */
typedef enum bc_status bc_cutter(
	const void *context, double from_frac, double to_frac, struct bc_slices *slices);

/* A search for the largest cut, and the counting limits of its standard, parted by the side that
 * mends them. */
struct bc_search {
	bc_cutter *cutter;
	const void *context;
	const void *dirtier; /* context in which the front is cut as badly as it may be: its flash
				counts in the low bound; NULL: none */
	const struct bc_parent *parent;
	double end_frac;      /* of the product's volume at which its FBP is read */
	double margin_c;      /* held by the value of a flash; NaN: its low bound counts */
	double thinnest_frac; /* a product must be thicker */
	double floor_frac;    /* none starts earlier */
	double ceiling_frac;  /* none ends later */

	enum bc_grade_name grade;
	const char *standard;
	const struct bc_limit *heavier[BC_CUT_CRITERIA_MAX]; /* mended by a later start */
	size_t n_heavier;
	const struct bc_limit *lighter[BC_CUT_CRITERIA_MAX]; /* mended by an earlier end */
	size_t n_lighter;
};

/* Takes up the limits of a standard; false when the table has no such standard. */
bool bc_search_plan(const struct bc_limits *limits, const char *standard, struct bc_search *search);

/* What no cut takes out, such as sulphur, stays outside in every jar. grades: the oil itself, held
 * against the standards, or NULL. */
bool bc_search_unmendable(const struct bc_grades *grades, const char *standard);

/* Slices, curve and oil of the product between two places; *cut is changed in nothing else. */
enum bc_status bc_search_product(
	const struct bc_search *search, double from_frac, double to_frac, struct bc_cut *cut);

/* Whether the product between two places keeps all limits of one side. */
bool bc_search_kept(const struct bc_search *search, double from_frac, double to_frac, bool heavier,
	struct bc_cut *work);

/* Limits of one side that the product between two places does not keep, at most n of them. */
size_t bc_search_missed(const struct bc_search *search, double from_frac, double to_frac,
	bool heavier, struct bc_cut *work, const struct bc_limit **missed, size_t n);

/* The first limit of the standard whose property comes from a method that does not hold for the
 * product of *cut; NULL: none. */
const struct bc_limit *bc_search_unsure(const struct bc_search *search, const struct bc_cut *cut);

/*
 * bc_search_close_in - the largest product that keeps the limits
 *
 * A later start makes every limit that asks for a lighter product harder to keep, an earlier end
 * every one that asks for a heavier: so from all that comes over both edges only close in, and they
 * stop at the largest cut there is. False when there is none: the edges then stand where it failed.
 */
bool bc_search_close_in(
	const struct bc_search *search, double *from_frac, double *to_frac, struct bc_cut *work);

/*
 * bc_search_run - the largest cut for the planned standard
 *
 * Returned  *cut: places, slices, curve, oil, points, grade, standard; temperatures, percents and
 *           heavy_end are the caller's to fill
 * Status    BC_NOT_FOUND  no cut is thick enough and keeps the limits, a method does not hold for
 *                         it, or its density is unlike the grade's; *cut is forgotten
 */
enum bc_status bc_search_run(const struct bc_search *search, struct bc_cut *cut);

/* Finds the largest cut for one standard that is thicker than thinnest_frac. */
typedef enum bc_status bc_finder(const void *context, const struct bc_limits *limits,
	const char *standard, double thinnest_frac, struct bc_cut *cut);

/*
 * bc_search_best - the largest product over all standards of a grade
 *
 * Given     want (BC_GRADES: every grade that a verdict may name but gasoline-range, and no road
 *           diesel that is too light for the road); standard, if not NULL, fixes it
 * Status    BC_NOT_FOUND  no standard has a cut; *cut is forgotten
 */
enum bc_status bc_search_best(bc_finder *find, const void *context, const struct bc_limits *limits,
	enum bc_grade_name want, const char *standard, struct bc_cut *cut);

/* The product held against the standard it was cut for; limits must outlive grade. Statuses of
 * bc_standard_assess. */
enum bc_status bc_cut_assess(const struct bc_cut *cut, const struct bc_limits *limits,
	struct bc_grade *grade, struct bc_criterion room[BC_CUT_CRITERIA_MAX]);

/* What is read off the reported points of an oil on paper: evaporated points, shares at
 * temperatures. */
void bc_points_fill_shares(struct bc_points *points);

/*
 * bc_flask_points - what a flask would show of these slices, Riazi-Daubert backwards
 *
 * For an oil whose own readings come from a better column, since limits are defined on the flask,
 * and for what is in a jar. end_frac: where the last drop is read, 1 for slices cut perfectly.
 * d86_c may be NULL. Statuses of bc_slices_d86_c.
 */
enum bc_status bc_jar_points(const struct bc_slices *slices, double end_frac,
	double d86_c[BC_TBP_POINTS], struct bc_points *points);
enum bc_status bc_flask_points(const struct bc_slices *slices, struct bc_points *points);

#endif
