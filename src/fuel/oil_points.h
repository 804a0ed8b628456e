/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_OIL_POINTS_H
#define BC_FUEL_OIL_POINTS_H

#include <stdbool.h>

#include "curve/boiloff.h"
#include "curve/conditions.h"
#include "curve/points.h"
#include "fuel/oil_model.h"

/* Errors (95 %) of what goes into the model. Thermometer, pressure and calibration move all points
 * together, and not as far down as up; the rest moves each by itself. */
struct bc_oil_errors {
	double point_c[BC_OIL_POINTS_MAX];
	double common_low_c[BC_OIL_POINTS_MAX];
	double common_high_c[BC_OIL_POINTS_MAX];
	double density_kgm3;
	/* Parts of point_c: of points that nobody read, and of the conversion outside its range. */
	double unread_c[BC_OIL_POINTS_MAX];
	double outside_c[BC_OIL_POINTS_MAX];
};

/*
 * bc_oil_points_take - the points of a boil-off that carry the slices
 *
 * Given     conditions, boiloff, points
 * Returned  *input (but for the density) and *errors (but for the density); true when T50 or T90
 *           lies more than 30 % beyond the readings
 * Notes     1. a point that nobody read and no fit answers lies on the straight line in probit
 *              through the readings nearest that end, to half the way from the last of them, and
 *              at least 10 degC; assumed
 *           2. where a point lies outside Riazi-Daubert's range, 10 degC more; computed
 *           3. true boiling points: up to three readings from 1 to below 4.5 % as well, since
 *              below its lowest point the curve is only carried on; earlier ones stand too near the
 *              IBP for a slope
 */
bool bc_oil_points_take(const struct bc_conditions *conditions, const struct bc_boiloff *boiloff,
	const struct bc_points *points, struct bc_oil_input *input, struct bc_oil_errors *errors);

/* The part of a corrected temperature's error that all readings share: down and up [degC]. */
void bc_common_error_c(
	const struct bc_conditions *conditions, double corrected_c, double *low_c, double *high_c);

/* What is left of an estimate's half-width [degC] when the shared part is taken out. */
double bc_own_error_c(const struct bc_conditions *conditions, const struct bc_estimate *estimate);

/* The temperature [degC] at a percent of the input, NaN where it has none. */
double bc_oil_point_c(const struct bc_oil_input *input, double pct);

#endif
