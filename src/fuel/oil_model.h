/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_OIL_MODEL_H
#define BC_FUEL_OIL_MODEL_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "fuel/slices.h"
#include "fuel/tbp.h"

/* What is known of an oil before anything is computed from it. */
#define BC_OIL_POINTS_MAX BC_TBP_KNOTS_MAX
struct bc_oil_input {
	double pct[BC_OIL_POINTS_MAX];    /* percent recovered, rising; 0 is the IBP */
	double temp_c[BC_OIL_POINTS_MAX]; /* D86 basis, or true vapour when tbp; NaN: not known */
	size_t n;
	bool tbp;         /* true boiling points: of such a distillation, or found by inversion */
	bool flask_front; /* with tbp: percent 0 is what a flask's IBP converts to */
	double density15_kgm3;
	double read_from_pct;
	double read_to_pct;
};

/* Figures without error; NaN where one could not be computed. The status fields say
 * BC_OUTSIDE_RANGE where the source does not cover the oil. */
struct bc_oil_figures {
	double d86_c[BC_TBP_POINTS];
	double flash_t10_c;
	double flash_vapour_c;
	double cetane_index;
	enum bc_status cetane_status;
	double cetane_index_d976;
	double visc40_mm2s;
	double visc20_mm2s;
	enum bc_status visc_status;
	double visc_outside_frac; /* volume share of slices outside the range of Abbott */
	double molar_mass_gmol;
	double watson_k;
	double mean_average_bp_c;
	double net_heat_mjkg;
	enum bc_status heat_status;
	double vapour_pressure_37_8_kpa;
};

/*
 * bc_oil_build - true boiling points, curve and slices of an oil
 *
 * Given     input
 * Returned  d86_c, tbp_c at bc_tbp_point_pct (NaN where input has none), *curve, *slices
 * Status    that of the conversion (BC_OUTSIDE_RANGE, BC_REPAIRED), BC_TOO_FEW with fewer than two
 *           points, BC_BAD_DOMAIN
 */
enum bc_status bc_oil_build(const struct bc_oil_input *input, double d86_c[BC_TBP_POINTS],
	double tbp_c[BC_TBP_POINTS], struct bc_tbp_curve *curve, struct bc_slices *slices);

/* All figures of slices that show d86_c in the flask and have this density. */
void bc_oil_figures_of(const struct bc_slices *slices, const double d86_c[BC_TBP_POINTS],
	double density15_kgm3, struct bc_oil_figures *figures);

/* T90 - T10 above which viscosity is blended over slices, and the oil is called wide [degC]. */
#define BC_WIDE_BOILING_C 180.0

#endif
