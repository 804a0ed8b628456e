/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_OIL_ERROR_H
#define BC_FUEL_OIL_ERROR_H

#include "fuel/method_errors.h"
#include "fuel/oil_model.h"
#include "fuel/oil_points.h"
#include "fuel/properties.h"

/* How far the errors carry the figures: by differences, each point's and the density's added by
 * squares, then one move of all points down and one up. */
void bc_oil_reach(const struct bc_oil_input *input, const struct bc_oil_errors *errors,
	const struct bc_oil_figures *base, struct bc_reach *reach);

/* The density alone, wrong by move_kgm3 either way, joined to reach by squares; d86_c at
 * bc_tbp_point_pct. */
void bc_oil_reach_of_density(const struct bc_slices *slices, const double d86_c[BC_TBP_POINTS],
	double density15_kgm3, double move_kgm3, const struct bc_oil_figures *base,
	struct bc_reach *reach);

/* A property among the figures, NaN where it is none of them; and whether its error is a factor,
 * since it is never negative. */
double bc_oil_figure(const struct bc_oil_figures *figures, enum bc_property property);
bool bc_property_is_factor(enum bc_property property);

/* Every property (BC_PROPERTIES of them) that the figures give, the error of its method joined to
 * reach; absent where a figure is NaN. Density and the flash that rules are left to the caller.
 * Half-widths of the methods: cetane indices above; viscosity 20 % at 40 degC and 25 % at 20 degC,
 * a factor 1.6 and 1.7 for oils thinner than 0.9 mm2/s at 40 degC, a factor 2 for slices outside
 * the range of its formula; molar mass 14 %; net heat 0.4 MJ/kg; mean average boiling point 2 degC;
 * vapour pressure the factor that the flash's half-width means, at most 3. */
void bc_oil_estimates(const struct bc_oil_figures *figures, double cetane_half_width,
	const struct bc_reach *reach, struct bc_estimate *property);

/* T10, T50, T90 at percent evaporated into the driveability index, with their errors. */
struct bc_estimate bc_driveability_of(
	const struct bc_conditions *conditions, const struct bc_points *points);

#endif
