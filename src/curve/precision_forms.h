/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_PRECISION_FORMS_H
#define BC_CURVE_PRECISION_FORMS_H

#include "base/status.h"

/* The standard test's precision by group, and what a result says of a limit (ISO 4259). */

enum bc_precision_set {
	BC_PRECISION_1_MANUAL,
	BC_PRECISION_1_AUTOMATED,
	BC_PRECISION_24_MANUAL,
	BC_PRECISION_24_AUTOMATED
};

/*
 * bc_d86_precision_c - repeatability and reproducibility of the standard test at a point
 *
 * Given     set group 1 or groups 2 to 4, manual or automated; recovered_pct 0 for IBP, 100 for
 *           FBP [vol %]; slope_c_per_pct of the curve there [degC/%]
 * Returned  r_c, R_c [degC]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  between two rows of the table: straight line between them
 *           BC_BAD_DOMAIN     percent outside 0..100, negative slope, or not finite
 * Notes     1. group 1 is vapour pressure 65.5 kPa or more; a home rig meets no group: a floor
 *           2. editions from about 2010 tie it to the range of the test instead of the slope
 * Source    ASTM D86-04b/07b, precision tables; from memory (standards-notes/
 *           d86-precision-groups.csv)
 * Checks    tests/outside/reading.chk
 */
enum bc_status bc_d86_precision_c(enum bc_precision_set set, double recovered_pct,
	double slope_c_per_pct, double *r_c, double *R_c);

/*
 * bc_d86_volume_r_pct, bc_d86_volume_R_pct - of the percent recovered at a temperature
 *
 * Given     slope_c_per_pct [degC/%], above 0
 * Returned  0.7 + 0.92/S, 1.5 + 1.78/S [vol %]; NaN on failure
 * Status    BC_BAD_DOMAIN     not finite, or not positive
 * Source    ASTM D86-04b/07b, groups 2 to 4, manual; from memory
 * Checks    tests/outside/reading.chk
 */
enum bc_status bc_d86_volume_r_pct(double slope_c_per_pct, double *r_pct);
enum bc_status bc_d86_volume_R_pct(double slope_c_per_pct, double *R_pct);

/*
 * bc_iso4259_upper, bc_iso4259_lower - how far one result may lie beyond a limit
 *
 * Given     limit and reproducibility R [the unit of the property]
 * Returned  limit + 0.59 R (upper limit), limit - 0.59 R (lower); a result beyond it fails with
 *           95 % confidence; NaN on failure
 * Status    BC_BAD_DOMAIN     not finite, or R negative
 * Source    ISO 4259; rule seen in two public copies, 0.59 = 1.645/(1.96 sqrt 2)
 * Checks    tests/outside/reading.chk
 */
enum bc_status bc_iso4259_upper(double limit, double reproducibility, double *tolerated);
enum bc_status bc_iso4259_lower(double limit, double reproducibility, double *tolerated);

/*
 * bc_iso4259_half_width - 95 % interval of one result, R/sqrt(2)
 * bc_iso4259_mean_R - R of the mean of k results of one laboratory, sqrt(R^2 - r^2 (1 - 1/k))
 * bc_iso4259_outlier - farthest a result may lie from the mean of the k - 1 others
 *
 * Given     repeatability r, reproducibility R [unit of the property]; k results, a whole number
 * Returned  as above; the last r sqrt((1 + 1/(k - 1))/2); NaN on failure
 * Status    BC_BAD_DOMAIN     not finite, negative, R below r sqrt(1 - 1/k), k not whole or below 1
 *                             (outlier: 2)
 * Source    ISO 4259; from memory
 * Checks    tests/outside/reading.chk
 */
enum bc_status bc_iso4259_half_width(double reproducibility, double *half_width);
enum bc_status bc_iso4259_mean_R(
	double repeatability, double reproducibility, double k, double *mean_R);
enum bc_status bc_iso4259_outlier(double repeatability, double k, double *distance);

#endif
