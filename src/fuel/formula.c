/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of published formulae, each callable by its id with its inputs in order. */
#include "fuel/formula.h"

#include <math.h>
#include <string.h>

#include "curve/conditions.h"
#include "curve/correction.h"
#include "fuel/average.h"
#include "fuel/component.h"
#include "fuel/density.h"
#include "fuel/flash.h"
#include "fuel/heat.h"
#include "fuel/ignition.h"
#include "fuel/slices.h"
#include "fuel/tbp.h"
#include "fuel/viscosity.h"

#define BC_EVAL(name) static enum bc_status eval_##name(const double *in, double *out)

/* Functions that give NaN where they have nothing to say. */
static enum bc_status plain(double value, double *out)
{
	*out = value;
	return isfinite(value) ? BC_OK : BC_BAD_DOMAIN;
}

BC_EVAL(sydney_young) { return bc_sydney_young_corrected_c(in[0], in[1], out); }
BC_EVAL(sydney_young_inverse) { return bc_sydney_young_observed_c(in[0], in[1], out); }
BC_EVAL(loss_corrected) { return bc_loss_corrected_pct(in[0], in[1], out); }
BC_EVAL(recovery_corrected) { return bc_recovery_corrected_pct(in[0], in[1], in[2], out); }
BC_EVAL(evaporated_linear)
{
	return bc_temp_at_evaporated_c(in[0], in[1], in[2], in[3], in[4], in[5], out);
}
BC_EVAL(stem_emergent) { return bc_stem_correction_c(in[0], in[1], in[2], out); }
BC_EVAL(two_point) { return bc_two_point_c(in[0], in[1], in[2], in[3], out); }
BC_EVAL(water_boils) { return bc_water_boils_c(in[0], out); }
BC_EVAL(water_pressure) { return bc_water_pressure_kpa(in[0], out); }
BC_EVAL(altitude_pressure) { return bc_pressure_from_altitude_kpa(in[0], out); }
BC_EVAL(d86_reproducibility) { return bc_d86_reproducibility_c(in[0], in[1], out); }
BC_EVAL(thermometer_delta) { return plain(bc_thermometer_delta_c(in[0]), out); }
BC_EVAL(corrected_from_true) { return plain(bc_corrected_from_true(in[0]), out); }
BC_EVAL(true_from_corrected) { return plain(bc_true_from_corrected(in[0]), out); }

BC_EVAL(tbp_riazi_daubert) { return bc_tbp_from_d86_c(in[0], in[1], out); }
BC_EVAL(tbp_riazi_daubert_inverse) { return bc_d86_from_tbp_c(in[0], in[1], out); }
BC_EVAL(tbp_daubert)
{
	double tbp_c[BC_TBP_POINTS];
	enum bc_status status = bc_tbp_from_d86_daubert_c(in + 1, tbp_c);
	*out = NAN;
	for (size_t i = 0; i < BC_TBP_POINTS; i++)
		if (bc_tbp_point_pct[i] == in[0])
			*out = tbp_c[i];
	return isnan(*out) ? BC_BAD_DOMAIN : status;
}

BC_EVAL(average_volume)
{
	struct bc_average_boiling average;
	enum bc_status status = bc_average_boiling_from_d86(in, &average);
	*out = average.volume_c;
	return status;
}
BC_EVAL(average_mass)
{
	struct bc_average_boiling average;
	enum bc_status status = bc_average_boiling_from_d86(in, &average);
	*out = average.mass_c;
	return status;
}
BC_EVAL(average_molar)
{
	struct bc_average_boiling average;
	enum bc_status status = bc_average_boiling_from_d86(in, &average);
	*out = average.molar_c;
	return status;
}
BC_EVAL(average_cubic)
{
	struct bc_average_boiling average;
	enum bc_status status = bc_average_boiling_from_d86(in, &average);
	*out = average.cubic_c;
	return status;
}
BC_EVAL(average_mean)
{
	struct bc_average_boiling average;
	enum bc_status status = bc_average_boiling_from_d86(in, &average);
	*out = average.mean_c;
	return status;
}

BC_EVAL(watson_k) { return bc_watson_k(in[0], in[1], out); }
BC_EVAL(gravity_api) { return plain(bc_api_from_sg(in[0]), out); }
BC_EVAL(gravity_from_density15) { return plain(bc_sg_from_density15(in[0]), out); }
BC_EVAL(density_at_15) { return bc_density15_from_observed_kgm3(in[0], in[1], out); }
BC_EVAL(density_factor_54b) { return bc_volume_correction_54b(in[0], in[1], out); }
BC_EVAL(density_sg_from_curve) { return bc_sg_from_d86(in[0], in[1], out); }
BC_EVAL(molar_mass_api) { return bc_molar_mass_api_gmol(in[0], in[1], out); }
BC_EVAL(molar_mass_rd80) { return bc_molar_mass_rd80_gmol(in[0], in[1], out); }
BC_EVAL(critical_temperature) { return bc_critical_temp_kesler_lee_k(in[0], in[1], out); }
BC_EVAL(critical_pressure) { return bc_critical_pressure_kesler_lee_bar(in[0], in[1], out); }
BC_EVAL(omega_from_boiling) { return bc_omega_from_boiling(in[0], in[1], in[2], out); }
BC_EVAL(vapour_pressure)
{
	return bc_vapour_pressure_lee_kesler_bar(in[0], in[1], in[2], in[3], out);
}
BC_EVAL(lower_limit_jones) { return bc_lower_limit_jones_pct(in[0], out); }
BC_EVAL(lower_limit_at_temperature) { return bc_lower_limit_at_temp_pct(in[0], in[1], out); }
BC_EVAL(flash_t10_api) { return bc_flash_from_t10_api(in[0], out); }
BC_EVAL(flash_vapour_space_pure)
{
	const double whole = 1.0;
	struct bc_slices slices;
	*out = NAN;
	enum bc_status status = bc_slices_from_components(&in[0], &in[1], &whole, 1, &slices);
	return bc_failed(status) ? status : bc_flash_vapour_space_c(&slices, 101.325, out);
}
BC_EVAL(flash_at_standard_pressure) { return bc_flash_corrected_c(in[0], in[1], out); }
BC_EVAL(cetane_d4737a) { return bc_cetane_index_d4737a(in[0], in[1], in[2], in[3], out); }
BC_EVAL(cetane_d976) { return bc_cetane_index_d976(in[0], in[1], out); }
BC_EVAL(driveability_index) { return bc_driveability_index(in[0], in[1], in[2], out); }
BC_EVAL(viscosity_abbott_37_8) { return bc_visc_abbott_37_8_mm2s(in[0], in[1], out); }
BC_EVAL(viscosity_abbott_98_9) { return bc_visc_abbott_98_9_mm2s(in[0], in[1], out); }
BC_EVAL(viscosity_d341) { return bc_visc_d341_mm2s(in[0], in[1], in[2], in[3], in[4], out); }
BC_EVAL(heat_net_d4868) { return bc_net_heat_d4868_mjkg(in[0], out); }

/* The flat list of an entry's inputs, four to each, as braces around four. */
#define BC_IN1(a, b, c, d)                                                                         \
	{                                                                                          \
		a, b, c, d                                                                         \
	}
#define BC_IN2(a, b, c, d, ...) {a, b, c, d}, BC_IN1(__VA_ARGS__)
#define BC_IN3(a, b, c, d, ...) {a, b, c, d}, BC_IN2(__VA_ARGS__)
#define BC_IN4(a, b, c, d, ...) {a, b, c, d}, BC_IN3(__VA_ARGS__)
#define BC_IN5(a, b, c, d, ...) {a, b, c, d}, BC_IN4(__VA_ARGS__)
#define BC_IN6(a, b, c, d, ...) {a, b, c, d}, BC_IN5(__VA_ARGS__)
#define BC_IN7(a, b, c, d, ...) {a, b, c, d}, BC_IN6(__VA_ARGS__)
#define BC_IN8(a, b, c, d, ...) {a, b, c, d}, BC_IN7(__VA_ARGS__)
#define BC_33RD(a1, a2, a3, a4, a5, a6, a7, a8, a9, a10, a11, a12, a13, a14, a15, a16, a17, a18,   \
	a19, a20, a21, a22, a23, a24, a25, a26, a27, a28, a29, a30, a31, a32, a33, ...)            \
	a33
#define BC_GROUPS(...)                                                                             \
	BC_33RD(__VA_ARGS__, 8, 8, 8, 8, 7, 7, 7, 7, 6, 6, 6, 6, 5, 5, 5, 5, 4, 4, 4, 4, 3, 3, 3,  \
		3, 2, 2, 2, 2, 1, 1, 1, 1, 0)
#define BC_PASTE(a, b) a##b
#define BC_JOIN(a, b) BC_PASTE(a, b)
#define BC_FORMULA(id, eval, unit, source, trust, ...)                                             \
	{id, unit, source, trust, BC_GROUPS(__VA_ARGS__),                                          \
		{BC_JOIN(BC_IN, BC_GROUPS(__VA_ARGS__))(__VA_ARGS__)}, eval},

const struct bc_formula bc_formulae[] = {
#include "curve/formula.def"
#include "fuel/formula.def"
};
const size_t bc_formula_count = sizeof bc_formulae / sizeof bc_formulae[0];

const struct bc_formula *bc_formula_find(const char *id)
{
	for (size_t i = 0; i < bc_formula_count; i++)
		if (strcmp(bc_formulae[i].id, id) == 0)
			return &bc_formulae[i];
	return NULL;
}

const char *bc_trust_text(enum bc_trust trust)
{
	switch (trust) {
	case BC_TRUST_PRINTED:
		return "printed";
	case BC_TRUST_SEEN:
		return "seen";
	case BC_TRUST_MEMORY:
		return "from memory";
	}
	return "";
}
