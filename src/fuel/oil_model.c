/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One oil through all formulae once, without errors: what the error models differentiate. */
#include "fuel/oil_model.h"

#include <math.h>
#include <string.h>

#include "fuel/average.h"
#include "fuel/density.h"
#include "fuel/flash.h"
#include "fuel/heat.h"
#include "fuel/ignition.h"
#include "fuel/viscosity.h"

enum { AT_IBP, AT_T10, AT_T30, AT_T50, AT_T70, AT_T90, AT_T95 };

/* The seven reported percents out of the points given. */
static void pick_points(const struct bc_oil_input *input, double temp_c[BC_TBP_POINTS])
{
	for (size_t i = 0; i < BC_TBP_POINTS; i++) {
		temp_c[i] = NAN;
		for (size_t k = 0; k < input->n; k++)
			if (input->pct[k] == bc_tbp_point_pct[i])
				temp_c[i] = input->temp_c[k];
	}
}

enum bc_status bc_oil_build(const struct bc_oil_input *input, double d86_c[BC_TBP_POINTS],
	double tbp_c[BC_TBP_POINTS], struct bc_tbp_curve *curve, struct bc_slices *slices)
{
	enum bc_status status;
	enum bc_status curve_status;
	*slices = (struct bc_slices){.n = 0};
	if (input->tbp) {
		pick_points(input, tbp_c);
		status = bc_d86_points_from_tbp(tbp_c, d86_c);
		if (status == BC_OUTSIDE_RANGE)
			status = BC_OK; /* the readings are the curve: nothing was converted */
		curve_status = bc_tbp_curve_from_points(
			input->pct, input->temp_c, input->n, !input->flask_front, curve);
	} else {
		pick_points(input, d86_c);
		status = bc_tbp_points_from_d86(d86_c, tbp_c);
		curve_status = bc_tbp_curve_from_points(
			bc_tbp_point_pct, tbp_c, BC_TBP_POINTS, false, curve);
	}
	if (bc_failed(status))
		return status;
	if (bc_failed(curve_status))
		return curve_status;
	enum bc_status slices_status =
		bc_slices_from_tbp(curve, bc_sg_from_density15(input->density15_kgm3),
			BC_SLICES_DEFAULT, input->read_from_pct, input->read_to_pct, slices);
	if (bc_failed(slices_status))
		return slices_status;
	return status == BC_OK ? curve_status : status;
}

/* Abbott at both temperatures and D341 between; temp_c [degC]. */
static enum bc_status whole_visc_mm2s(double watson_k, double api, double temp_c, double *visc)
{
	double cool = NAN;
	double hot = NAN;
	enum bc_status status = bc_visc_abbott_37_8_mm2s(watson_k, api, &cool);
	if (!bc_failed(status))
		status = bc_visc_abbott_98_9_mm2s(watson_k, api, &hot);
	enum bc_status carried = bc_visc_d341_mm2s(37.8, cool, 98.9, hot, temp_c, visc);
	return bc_failed(carried) ? carried : status;
}

static void fill_viscosity(const struct bc_slices *slices, const double d86_c[BC_TBP_POINTS],
	double api, struct bc_oil_figures *figures)
{
	bool wide = d86_c[AT_T90] - d86_c[AT_T10] > BC_WIDE_BOILING_C;
	if (wide) {
		figures->visc_status = bc_visc_of_slices_mm2s(
			slices, 40.0, &figures->visc40_mm2s, &figures->visc_outside_frac);
		bc_visc_of_slices_mm2s(
			slices, 20.0, &figures->visc20_mm2s, &figures->visc_outside_frac);
	} else {
		figures->visc_status =
			whole_visc_mm2s(figures->watson_k, api, 40.0, &figures->visc40_mm2s);
		whole_visc_mm2s(figures->watson_k, api, 20.0, &figures->visc20_mm2s);
	}
}

/* Raoult over the slices at 37.8 degC (100 degF), kPa. */
static double vapour_pressure_kpa(const struct bc_slices *slices)
{
	double sum_bar = 0.0;
	for (size_t i = 0; i < slices->n; i++)
		sum_bar += slices->items[i].mole_frac *
			   bc_slice_vapour_bar(&slices->items[i], 273.15 + 37.8);
	return 100.0 * sum_bar;
}

void bc_oil_figures_of(const struct bc_slices *slices, const double d86_c[BC_TBP_POINTS],
	double density15_kgm3, struct bc_oil_figures *figures)
{
	*figures = (struct bc_oil_figures){.visc40_mm2s = NAN, .visc20_mm2s = NAN};
	memcpy(figures->d86_c, d86_c, sizeof figures->d86_c);
	double sg = bc_sg_from_density15(density15_kgm3);
	double t10 = d86_c[AT_T10];
	double t50 = d86_c[AT_T50];
	double t90 = d86_c[AT_T90];

	bc_flash_from_t10_api(t10, &figures->flash_t10_c);
	bc_flash_vapour_space_c(slices, 101.325, &figures->flash_vapour_c);
	figures->cetane_status =
		bc_cetane_index_d4737a(density15_kgm3, t10, t50, t90, &figures->cetane_index);
	bc_cetane_index_d976(density15_kgm3, t50, &figures->cetane_index_d976);
	figures->heat_status = bc_net_heat_d4868_mjkg(density15_kgm3, &figures->net_heat_mjkg);
	figures->molar_mass_gmol = slices->molar_mass_gmol;
	figures->vapour_pressure_37_8_kpa = vapour_pressure_kpa(slices);

	const double five_c[5] = {t10, d86_c[AT_T30], t50, d86_c[AT_T70], t90};
	struct bc_average_boiling average;
	bc_average_boiling_from_d86(five_c, &average);
	figures->mean_average_bp_c = average.mean_c;
	bc_watson_k(average.mean_c, sg, &figures->watson_k);
	fill_viscosity(slices, d86_c, bc_api_from_sg(sg), figures);
}
