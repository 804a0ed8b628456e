/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_SLICES_H
#define BC_FUEL_SLICES_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "fuel/tbp.h"

#define BC_SLICES_MAX 64
#define BC_SLICES_DEFAULT 40

/* A pseudo-component: a slice of the true-boiling-point curve. */
struct bc_slice {
	double from_frac; /* edges on volume, 0..1 of the whole oil that was cut */
	double to_frac;
	double volume_frac; /* share of this oil; adds up to 1 */
	double from_k;      /* boiling points at the edges */
	double to_k;
	double boiling_k;
	double sg; /* 60/60 degF */
	double molar_mass_gmol;
	double critical_k;
	double critical_bar;
	double omega; /* solved so that the slice boils at boiling_k at 1.01325 bar */
	double mole_frac;
	bool extrapolated; /* lies beyond the readings */
};

struct bc_slices {
	struct bc_slice items[BC_SLICES_MAX];
	size_t n;
	double watson_k; /* the constant that makes the slices weigh what the oil weighs; NaN for
			    slices made from components */
	double sg;       /* of the whole, 60/60 degF */
	double molar_mass_gmol;
};

/*
 * bc_slices_from_tbp - an oil as pseudo-components
 *
 * Given     curve    true boiling points
 *           sg       of the whole oil, 60/60 degF
 *           n        how many, a multiple of 4, 4..BC_SLICES_MAX; half of the edges are uniform in
 *                    volume, half uniform in probit between 0.2 and 99.8 %
 *           read_from_pct, read_to_pct  what was read; slices beyond are marked extrapolated
 * Returned  *slices: each boils where the curve is at its middle, all have one Watson K, and
 *           together they weigh what the oil weighs
 * Status    BC_OUTSIDE_RANGE  a slice outside the range of the molar mass formula
 *           BC_BAD_DOMAIN     sg not positive, a bad n, or a slice without a critical point;
 *                             slices->n is then 0
 * Notes     1. 40 slices put head temperatures within 0.4 degC of 160 (computed)
 *           2. what the curve puts above 700 degC boils at 700: no reading is taken above, the best
 *              of methods ends at 720 (ASTM D7169, n-C100; from memory), and Kesler-Lee's critical
 *              point meets the boiling point further on
 *           3. what it puts below propane, -42.1 degC, boils there: lighter gas does not stay in an
 *              oil (judgement)
 * Source    constant Watson K, API 2B2.1, Kesler-Lee, Lee-Kesler: fuel/component.h
 */
enum bc_status bc_slices_from_tbp(const struct bc_tbp_curve *curve, double sg, size_t n,
	double read_from_pct, double read_to_pct, struct bc_slices *slices);

/* Pure or known components, e.g. for checks: boiling points [K], SG, volume shares (any positive
 * numbers, brought to add up to 1). Status as above. */
enum bc_status bc_slices_from_components(const double *boiling_k, const double *sg,
	const double *volume_frac, size_t n, struct bc_slices *slices);

/*
 * bc_slices_cut - what stays of the oil between two volume fractions when it is cut perfectly
 *
 * Given     whole; from_frac, to_frac on the volume of whole, 0 <= from < to <= 1
 * Returned  *part: edge slices are split, boiling points of the pieces lie on the line through
 *           their edges and middle; the Watson K of whole is kept. Yield is to_frac - from_frac.
 * Status    BC_BAD_DOMAIN     not such fractions; part->n is then 0
 */
enum bc_status bc_slices_cut(
	const struct bc_slices *whole, double from_frac, double to_frac, struct bc_slices *part);

/* True boiling point [K] at a volume fraction 0..1 of these slices: inside a slice straight from
 * its edge to its middle to its other edge. NaN outside. */
double bc_slices_temp_k(const struct bc_slices *slices, double frac);

/* D86 points (0 10 30 50 70 90 95 %, degC) that these slices would show: Riazi-Daubert backwards,
 * the IBP from the slices' 2.3 %. Status as bc_d86_points_from_tbp. */
enum bc_status bc_slices_d86_c(const struct bc_slices *slices, double d86_c[BC_TBP_POINTS]);

/* Vapour pressure of a slice [bar], Lee-Kesler. */
double bc_slice_vapour_bar(const struct bc_slice *slice, double temp_k);

#endif
