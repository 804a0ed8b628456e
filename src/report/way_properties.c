/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each property from its formula, and what makes its bounds. */
#include <math.h>

#include "fuel/density.h"
#include "fuel/viscosity.h"
#include "report/way.h"
#include "report/way_basis.h"

const char *const bc_property_formulae[BC_PROPERTIES][BC_WAY_FORMULAE_MAX] = {
	[BC_DENSITY15] = {"density.sg_from_curve"},
	[BC_FLASH] = {"vapour_pressure.lee_kesler", "lower_limit.jones",
		"lower_limit.at_temperature"},
	[BC_FLASH_T10] = {"flash.t10_api"},
	[BC_FLASH_VAPOUR] = {"vapour_pressure.lee_kesler", "lower_limit.jones",
		"lower_limit.at_temperature"},
	[BC_CETANE_INDEX] = {"cetane.d4737a"},
	[BC_CETANE_INDEX_D976] = {"cetane.d976"},
	[BC_VISC40] = {"viscosity.abbott_37_8", "viscosity.abbott_98_9", "viscosity.d341"},
	[BC_MOLAR_MASS] = {"molar_mass.api"},
	[BC_WATSON_K] = {"watson.k"},
	[BC_MEAN_AVERAGE_BP] = {"average.mean"},
	[BC_NET_HEAT] = {"heat.net_d4868"},
	[BC_VAPOUR_PRESSURE_37_8] = {"vapour_pressure.lee_kesler"},
	[BC_DRIVEABILITY_INDEX] = {"driveability.index"},
	[BC_VISC20] = {"viscosity.abbott_37_8", "viscosity.abbott_98_9", "viscosity.d341"},
};

/* What the method itself may be off by, and who says so; properties.h and oil_error.c. */
static const char *const method_errors[BC_PROPERTIES] = {
	[BC_FLASH_T10] = "it reads high where the front is wide: measured on 26 oils with an IBP",
	[BC_CETANE_INDEX] =
		"the method: D4737, 4 (under 2 for 65 % of fuels); 45 with polypropylene or "
		"outside its range",
	[BC_CETANE_INDEX_D976] = "the method: 6.5, measured on 46 diesels; 45 as for D4737",
	[BC_VISC40] =
		"the method: 20 %, measured from kerosenes up; 60 % below 0.9 mm2/s, more outside "
		"its range",
	[BC_VISC20] = "the method: 25 %, assumed; 70 % for the thin ones",
	[BC_MOLAR_MASS] = "the method: 14 %, twice the average error that API 2B2.1 states",
	[BC_WATSON_K] = "no error of its own",
	[BC_MEAN_AVERAGE_BP] = "the method: 2 degC, assumed",
	[BC_NET_HEAT] = "the method: 0.4 MJ/kg, D4868, from memory",
	[BC_VAPOUR_PRESSURE_37_8] =
		"the method: 4.5 % for each degC of the flash's half-width, at most a "
		"factor 3",
};

/* Ends a property: its bounds and what they are made of. */
static void bounds(const struct bc_oil *oil, enum bc_property property, struct bc_way *way)
{
	const struct bc_estimate *own = &oil->property[property];
	bool factor = property == BC_VISC40 || property == BC_VISC20 || property == BC_MOLAR_MASS ||
		      property == BC_VAPOUR_PRESSURE_37_8;
	bc_way_bounds(way, own);
	if (own->how == BC_MEASURED || method_errors[property] == NULL)
		return;
	if (factor)
		bc_way_note(way, "bounds: readings and density %.3g %% down, %.3g %% up; %s",
			100.0 * (1.0 - exp(-oil->reach.low[property])),
			100.0 * (exp(oil->reach.high[property]) - 1.0), method_errors[property]);
	else
		bc_way_note(way, "bounds: readings and density %.3g down, %.3g up; %s",
			oil->reach.low[property], oil->reach.high[property],
			method_errors[property]);
	if (own->how == BC_NOT_VALID)
		bc_way_note(way, "not valid for this oil");
}

/* A property that one formula gives. */
static void by_formula(const struct bc_oil *oil, enum bc_property property, const double *inputs,
	struct bc_way *way)
{
	const struct bc_estimate *own = &oil->property[property];
	if (!bc_estimate_present(own))
		return;
	bc_way_formula(way, bc_property_keys[property], bc_property_formulae[property][0], inputs,
		own->value);
	bounds(oil, property, way);
}

static void average_steps(
	const struct bc_oil *oil, const struct bc_way_basis *basis, struct bc_way *way)
{
	const double *d86_c = basis->d86_c;
	const double five[] = {d86_c[BC_WAY_T10], d86_c[BC_WAY_T30], d86_c[BC_WAY_T50],
		d86_c[BC_WAY_T70], d86_c[BC_WAY_T90]};
	const double in[] = {oil->property[BC_MEAN_AVERAGE_BP].value, basis->sg};
	by_formula(oil, BC_MEAN_AVERAGE_BP, five, way);
	by_formula(oil, BC_WATSON_K, in, way);
}

static void narrow_viscosity(
	const struct bc_oil *oil, const struct bc_way_basis *basis, struct bc_way *way)
{
	const struct bc_estimate *own = &oil->property[BC_VISC40];
	bc_way_formula(way, "API gravity", "gravity.api", &basis->sg, bc_api_from_sg(basis->sg));
	const double in[] = {oil->property[BC_WATSON_K].value, bc_way_result(way)};
	bc_way_formula(way, "viscosity at 37.8 degC", "viscosity.abbott_37_8", in, (double)NAN);
	double cool = bc_way_result(way);
	bc_way_formula(way, "viscosity at 98.9 degC", "viscosity.abbott_98_9", in, (double)NAN);
	const double between[] = {37.8, cool, 98.9, bc_way_result(way), 40.0};
	bc_way_formula(way, bc_property_keys[BC_VISC40], "viscosity.d341", between, own->value);
}

static void viscosity_steps(
	const struct bc_oil *oil, const struct bc_way_basis *basis, struct bc_way *way)
{
	const struct bc_estimate *own = &oil->property[BC_VISC40];
	double blended = NAN;
	double outside_frac = NAN;
	if (!bc_estimate_present(own))
		return;
	if (own->how == BC_MEASURED) {
		bc_way_plain(way, bc_property_keys[BC_VISC40], own->value, "mm2/s");
		bc_way_source(way, "measured; ISO 3104, R = 0.0082 (X + 1), from memory");
	} else if (basis->d86_c[BC_WAY_T90] - basis->d86_c[BC_WAY_T10] > BC_WIDE_BOILING_C) {
		bc_visc_of_slices_mm2s(&oil->slices, 40.0, &blended, &outside_frac);
		bc_way_plain(way, bc_property_keys[BC_VISC40], blended, "mm2/s");
		bc_way_reported(way, own->value);
		bc_way_input(way, "slices", (double)oil->slices.n, "");
		bc_way_input(way, "outside the range", 100.0 * outside_frac, "%");
		bc_way_source(way, "T90 - T10 above 180 degC: viscosity.abbott_37_8, .abbott_98_9 "
				   "and .d341 on each slice, blended on the cube root by mole "
				   "(Kendall & Monroe 1917, from memory)");
	} else {
		narrow_viscosity(oil, basis, way);
	}
	bounds(oil, BC_VISC40, way);
}

/* Sums over the slices, whose constants stand above. */
static void sum_steps(const struct bc_oil *oil, struct bc_way *way)
{
	const struct bc_slice *light = bc_way_light_slice(&oil->slices);
	const struct bc_estimate *pressure = &oil->property[BC_VAPOUR_PRESSURE_37_8];
	const double in[] = {273.15 + 37.8, light->critical_k, light->critical_bar, light->omega};
	bc_way_plain(way, bc_property_keys[BC_MOLAR_MASS], oil->slices.molar_mass_gmol, "g/mol");
	bc_way_reported(way, oil->property[BC_MOLAR_MASS].value);
	bc_way_input(way, "slices", (double)oil->slices.n, "");
	bc_way_source(way, "mass over moles, summed over the slices (molar_mass.api)");
	bounds(oil, BC_MOLAR_MASS, way);
	if (!bc_estimate_present(pressure))
		return;
	bc_way_formula(way, "the slice's pressure at 37.8 degC", "vapour_pressure.lee_kesler", in,
		bc_slice_vapour_bar(light, 273.15 + 37.8));
	double bar = bc_way_result(way);
	double sum_bar = 0.0;
	for (size_t i = 0; i < oil->slices.n; i++)
		sum_bar += oil->slices.items[i].mole_frac *
			   bc_slice_vapour_bar(&oil->slices.items[i], 273.15 + 37.8);
	bc_way_plain(way, bc_property_keys[BC_VAPOUR_PRESSURE_37_8], 100.0 * sum_bar, "kPa");
	bc_way_reported(way, pressure->value);
	bc_way_input(way, "of it this slice", 100.0 * light->mole_frac * bar, "kPa");
	bc_way_source(way, "Raoult: sum of mole fraction times pressure over the slices");
	bounds(oil, BC_VAPOUR_PRESSURE_37_8, way);
}

void bc_way_properties(const struct bc_judgement *judgement, struct bc_way *way)
{
	const struct bc_oil *oil = &judgement->oil;
	const struct bc_estimate *evaporated = judgement->points.evaporated_point;
	struct bc_way_basis basis;
	bc_way_basis_find(judgement, &basis);
	const double *d86_c = basis.d86_c;
	const double cetane[] = {
		basis.density15_kgm3, d86_c[BC_WAY_T10], d86_c[BC_WAY_T50], d86_c[BC_WAY_T90]};
	const double d976[] = {basis.density15_kgm3, d86_c[BC_WAY_T50]};
	const double driveability[] = {
		evaporated[0].value, evaporated[1].value, evaporated[2].value};
	bc_way_section(way, "Properties");
	average_steps(oil, &basis, way);
	by_formula(oil, BC_CETANE_INDEX, cetane, way);
	by_formula(oil, BC_CETANE_INDEX_D976, d976, way);
	viscosity_steps(oil, &basis, way);
	by_formula(oil, BC_NET_HEAT, &basis.density15_kgm3, way);
	sum_steps(oil, way);
	by_formula(oil, BC_DRIVEABILITY_INDEX, driveability, way);
}
