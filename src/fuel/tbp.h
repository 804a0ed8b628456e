/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_TBP_H
#define BC_FUEL_TBP_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"

#define BC_TBP_POINTS 7
extern const double bc_tbp_point_pct[BC_TBP_POINTS]; /* 0 10 30 50 70 90 95 */

/*
 * bc_tbp_from_d86_c, bc_d86_from_tbp_c - one point of Riazi-Daubert, TBP = a D86^b in kelvin
 *
 * Given     pct             one of bc_tbp_point_pct [vol %]
 *           d86_c or tbp_c  [degC]
 * Returned  the other one [degC]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  the D86 temperature is outside the range of the table (from memory),
 *                             value still computed
 *           BC_BAD_DOMAIN     another percent, not finite, or at or below absolute zero
 * Notes     1. stated mean error about 5 degC, worst at 0 and low percents
 *           2. the 0 % point is where the IBP leads, measured at 2.3 vol %: bc_tbp_curve
 * Source    API Technical Data Book 1987 (Riazi & Daubert); coefficients and example seen in print
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_tbp_from_d86_c(double pct, double d86_c, double *tbp_c);
enum bc_status bc_d86_from_tbp_c(double pct, double tbp_c, double *d86_c);

/*
 * bc_tbp_from_d86_daubert_c - the whole curve by differences from 50 %
 *
 * Given     d86_c   [degC] at bc_tbp_point_pct, rising
 * Returned  tbp_c   [degC] at the same percents; NaN on failure
 * Status    BC_BAD_DOMAIN  not finite, not rising, or 50 % at or below 0 degF
 * Notes     1. its last step is defined for 90-100 % and used here for 90-95 %
 * Source    API Technical Data Book procedure 3A1.1 (Daubert 1994); up to 70 % seen in a worked
 *           example, above from memory
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_tbp_from_d86_daubert_c(
	const double d86_c[BC_TBP_POINTS], double tbp_c[BC_TBP_POINTS]);

/*
 * bc_tbp_points_from_d86, bc_d86_points_from_tbp - Riazi-Daubert on a whole curve
 *
 * Given     seven temperatures [degC] at bc_tbp_point_pct; NaN stays NaN
 * Returned  the converted ones, rising: points that fall are pooled with their neighbours and set
 *           0.01 degC apart
 * Status    BC_OUTSIDE_RANGE  any point is outside its range (also when pooled)
 *           BC_REPAIRED       points were pooled
 *           BC_BAD_DOMAIN     a temperature at or below absolute zero
 */
enum bc_status bc_tbp_points_from_d86(
	const double d86_c[BC_TBP_POINTS], double tbp_c[BC_TBP_POINTS]);
enum bc_status bc_d86_points_from_tbp(
	const double tbp_c[BC_TBP_POINTS], double d86_c[BC_TBP_POINTS]);

/*
 * A true-boiling-point curve, monotone in probit(volume), straight beyond its knots.
 */
#define BC_TBP_KNOTS_MAX 16
struct bc_tbp_curve {
	double pct[BC_TBP_KNOTS_MAX];
	double probit[BC_TBP_KNOTS_MAX];
	double temp_c[BC_TBP_KNOTS_MAX];
	double slope[BC_TBP_KNOTS_MAX]; /* d temp / d probit at the knots, monotone */
	size_t n;
	double front_slope; /* below the first knot */
	double back_slope;  /* above the last knot */
	bool has_ibp;
};

/*
 * bc_tbp_curve_from_points - the curve through true boiling points, its front end placed by rule
 *
 * Given     pct, temp_c  n points [vol %, degC], rising in percent; percent 0 is the IBP; NaN
 *                        temperatures are left out; tbp: the readings themselves were true boiling
 *                        points (apparatus,tbp)
 * Returned  *curve; n = 0 on failure
 * Status    BC_REPAIRED    points that fell were pooled
 *           BC_TOO_FEW     fewer than two points
 *           BC_BAD_DOMAIN  percents that do not rise or are not below 100, or too many points
 * Notes     1. a converted D86 IBP stands at 2.3 vol %; an IBP that was a true boiling point stands
 *              at 0.5 % and half the local slope goes on below it. The slope below the first knot
 *              is at most 45 degC per probit unit for both: it is the same oil's true curve, and
 *              two readings close together at the front tell no steeper one
 *           2. above the last knot 0.7 of the local slope goes on
 *           3. Fritsch-Butland slopes with three-point ends, as PCHIP has them
 * Source    note 1: the composition of three jets gives the temperature that an IBP converts to at
 *           2.0..2.6 vol % and slopes of 40..56 below it (computed for this program); note 2:
 *           trials on batch stills (computed); note 3: Fritsch & Butland, SIAM J. Sci. Stat.
 * Comput. 5 (1984) 300
 */
enum bc_status bc_tbp_curve_from_points(
	const double pct[], const double temp_c[], size_t n, bool tbp, struct bc_tbp_curve *curve);

/* Read both ways: degC at a volume percent (NaN outside 0 < pct < 100), and back (0 or 100 where a
 * flat end never meets the temperature). */
double bc_tbp_curve_temp_c(const struct bc_tbp_curve *curve, double pct);
double bc_tbp_curve_pct(const struct bc_tbp_curve *curve, double temp_c);

#endif
