/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Density, true boiling points and slices: what every property is computed from. */
#include <math.h>
#include <stdio.h>

#include "base/units.h"
#include "fuel/density.h"
#include "fuel/oil_points.h"
#include "judgement/inverted.h"
#include "report/way.h"
#include "report/way_basis.h"

void bc_way_basis_find(const struct bc_judgement *judgement, struct bc_way_basis *basis)
{
	struct bc_oil_errors errors;
	struct bc_tbp_curve curve;
	struct bc_slices slices;
	double tbp_c[BC_TBP_POINTS];
	if (judgement->by_inversion)
		basis->input = judgement->inverted_input;
	else
		bc_oil_points_take(&judgement->conditions, &judgement->boiloff, &judgement->points,
			&basis->input, &errors);
	basis->density15_kgm3 = judgement->oil.property[BC_DENSITY15].value;
	basis->input.density15_kgm3 = basis->density15_kgm3;
	bc_oil_build(&basis->input, basis->d86_c, tbp_c, &curve, &slices);
	basis->sg = bc_sg_from_density15(basis->density15_kgm3);
}

static void density_from_curve(const struct bc_way_basis *basis, struct bc_way *way)
{
	const double in[] = {
		bc_oil_point_c(&basis->input, 10.0), bc_oil_point_c(&basis->input, 50.0)};
	bc_way_formula(way, "specific gravity", "density.sg_from_curve", in, (double)NAN);
	bc_way_plain(way, "density15_kgm3", basis->density15_kgm3, "kg/m3");
	bc_way_input(way, "sg", bc_way_result(way), "");
	bc_way_source(way, "gravity.from_density15 solved for the density");
}

static void density_steps(
	const struct bc_judgement *judgement, const struct bc_way_basis *basis, struct bc_way *way)
{
	const struct bc_sample *sample = judgement->sample;
	const struct bc_estimate *density = &judgement->oil.property[BC_DENSITY15];
	double temp_c = isnan(sample->density_temp_c) ? 15.0 : sample->density_temp_c;
	double density15 = NAN;
	bc_density15_from_observed_kgm3(sample->density_kgm3, temp_c, &density15);
	if (density->how != BC_MEASURED) {
		density_from_curve(basis, way);
	} else if (isnan(density15)) {
		bc_way_plain(way, "density15_kgm3", density->value, "kg/m3");
		bc_way_source(way, "mass of the charge over its volume; 8 kg/m3, for 1 %% of a "
				   "measuring glass, common practice");
	} else {
		const double in[] = {sample->density_kgm3, temp_c};
		bc_way_formula(way, "density15_kgm3", "density.at_15", in, density->value);
		bc_way_note(way, "bounds: tables 2 kg/m3 (0.5 at 15 degC), half the last digit, "
				 "1 of the instrument, by squares; common practice");
	}
	bc_way_bounds(way, density);
	bc_way_formula(way, "specific gravity 60/60 degF", "gravity.from_density15",
		&basis->density15_kgm3, basis->sg);
}

static bool was_read(const struct bc_judgement *judgement, double pct)
{
	for (size_t i = 0; i < BC_POINTS; i++)
		if (bc_point_pct[i] == pct)
			return bc_estimate_present(&judgement->points.at[i]) &&
			       !judgement->points.extrapolated[i];
	return false;
}

static void tbp_steps(
	const struct bc_judgement *judgement, const struct bc_way_basis *basis, struct bc_way *way)
{
	const struct bc_oil *oil = &judgement->oil;
	char figure[48];
	for (size_t i = 0; i < BC_TBP_POINTS; i++) {
		double pct = bc_tbp_point_pct[i];
		if (isnan(oil->tbp_c[i]) || isnan(basis->d86_c[i]))
			continue;
		const double in[] = {pct, basis->input.tbp ? oil->tbp_c[i] : basis->d86_c[i]};
		if (basis->input.tbp) {
			snprintf(figure, sizeof figure, "d86 at %.0f %%", pct);
			bc_way_formula(
				way, figure, "tbp.riazi_daubert_inverse", in, basis->d86_c[i]);
		} else {
			snprintf(figure, sizeof figure, "tbp_points t%.0f_c", pct);
			bc_way_formula(way, figure, "tbp.riazi_daubert", in, oil->tbp_c[i]);
		}
		if (!was_read(judgement, pct))
			bc_way_note(way, "nobody read this point: the fit, or the straight line in "
					 "probit through the readings nearest");
	}
}

/* Simulated: no formula of the registry gives it. */
static void inversion_steps(const struct bc_judgement *judgement, struct bc_way *way)
{
	const struct bc_inversion *inversion = judgement->inversion;
	if (inversion == NULL)
		return;
	bc_way_plain(way, "inverted_points t50_c", bc_inverted_c(judgement, 50.0), "degC");
	for (size_t i = BC_AT_T5; i < BC_AT_FBP; i++)
		if (i != BC_AT_T50 && !isnan(bc_inverted_c(judgement, bc_point_pct[i])))
			bc_way_input(way, bc_point_keys[i],
				bc_inverted_c(judgement, bc_point_pct[i]), "degC");
	bc_way_source(way,
		"the smoothest oil whose simulated boil-off in this apparatus reads as it was "
		"read, to %.1f degC rms over %zu readings; percents with the loss",
		inversion->fit_rms_c, inversion->n_readings);
	bc_way_note(way, judgement->by_inversion
				 ? "the slices below are made of it"
				 : "beside the conversion, of which the slices below are made");
}

const struct bc_slice *bc_way_light_slice(const struct bc_slices *slices)
{
	const double warm_k = 273.15 + 37.8;
	size_t best = 0;
	double most = -1.0;
	for (size_t i = 0; i < slices->n; i++) {
		double bar =
			slices->items[i].mole_frac * bc_slice_vapour_bar(&slices->items[i], warm_k);
		if (bar > most) {
			most = bar;
			best = i;
		}
	}
	return &slices->items[best];
}

/* One slice through the constants that all have. */
static void slice_steps(const struct bc_slice *slice, struct bc_way *way)
{
	const double boiling[] = {slice->boiling_k, slice->sg, slice->critical_bar, slice->omega};
	const double omega[] = {slice->boiling_k, slice->critical_k, slice->critical_bar};
	bc_way_plain(way, "one slice boils at", slice->boiling_k, "K");
	bc_way_input(way, "from", 100.0 * slice->from_frac, "%");
	bc_way_input(way, "to", 100.0 * slice->to_frac, "%");
	bc_way_input(way, "sg", slice->sg, "");
	bc_way_source(way, "true boiling point at its middle; SG = (1.8 T)^(1/3) / Watson K");
	bc_way_note(way, "the slice that gives the most vapour at 37.8 degC stands for all");
	bc_way_formula(way, "its molar mass", "molar_mass.api", boiling, slice->molar_mass_gmol);
	bc_way_formula(way, "its critical temperature", "critical.temperature", boiling,
		slice->critical_k);
	bc_way_formula(
		way, "its critical pressure", "critical.pressure", boiling, slice->critical_bar);
	bc_way_formula(way, "its acentric factor", "omega.from_boiling", omega, slice->omega);
}

void bc_way_slices(const struct bc_judgement *judgement, struct bc_way *way)
{
	const struct bc_slices *slices = &judgement->oil.slices;
	struct bc_way_basis basis;
	bc_way_basis_find(judgement, &basis);
	bc_way_section(way, "Density, true boiling points, slices");
	density_steps(judgement, &basis, way);
	tbp_steps(judgement, &basis, way);
	inversion_steps(judgement, way);
	bc_way_plain(way, "slices", (double)slices->n, "");
	bc_way_input(way, "watson_k", slices->watson_k, "");
	bc_way_input(way, "sg", slices->sg, "");
	bc_way_source(way, "the true boiling curve, monotone in probit; one Watson K, with which "
			   "the slices weigh what the oil weighs");
	if (judgement->oil.tbp.has_ibp)
		bc_way_note(way,
			"front end: the IBP stands at %.2g %%, from there the curve goes on down "
			"at %.4g degC a probit; judgement on 26 measured oils",
			judgement->oil.tbp.pct[0], judgement->oil.tbp.front_slope);
	else
		bc_way_note(way, "front end: no IBP was read, the first knot's slope goes on");
	slice_steps(bc_way_light_slice(slices), way);
}
