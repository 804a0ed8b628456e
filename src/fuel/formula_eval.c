/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The formulae of the main way from a boil-off to a judgement, each behind the one signature. */
#include "fuel/formula_eval.h"

#include <math.h>

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

enum bc_status bc_eval_plain(double value, double *out)
{
	*out = value;
	return isfinite(value) ? BC_OK : BC_BAD_DOMAIN;
}

BC_EVAL(eval_sydney_young) { return bc_sydney_young_corrected_c(in[0], in[1], out); }
BC_EVAL(eval_sydney_young_inverse) { return bc_sydney_young_observed_c(in[0], in[1], out); }
BC_EVAL(eval_loss_corrected) { return bc_loss_corrected_pct(in[0], in[1], out); }
BC_EVAL(eval_recovery_corrected) { return bc_recovery_corrected_pct(in[0], in[1], in[2], out); }
BC_EVAL(eval_evaporated_linear)
{
	return bc_temp_at_evaporated_c(in[0], in[1], in[2], in[3], in[4], in[5], out);
}
BC_EVAL(eval_stem_emergent) { return bc_stem_correction_c(in[0], in[1], in[2], out); }
BC_EVAL(eval_two_point) { return bc_two_point_c(in[0], in[1], in[2], in[3], out); }
BC_EVAL(eval_water_boils) { return bc_water_boils_c(in[0], out); }
BC_EVAL(eval_water_pressure) { return bc_water_pressure_kpa(in[0], out); }
BC_EVAL(eval_altitude_pressure) { return bc_pressure_from_altitude_kpa(in[0], out); }
BC_EVAL(eval_d86_reproducibility) { return bc_d86_reproducibility_c(in[0], in[1], out); }
BC_EVAL(eval_thermometer_delta) { return bc_eval_plain(bc_thermometer_delta_c(in[0]), out); }
BC_EVAL(eval_corrected_from_true) { return bc_eval_plain(bc_corrected_from_true(in[0]), out); }
BC_EVAL(eval_true_from_corrected) { return bc_eval_plain(bc_true_from_corrected(in[0]), out); }

BC_EVAL(eval_tbp_riazi_daubert) { return bc_tbp_from_d86_c(in[0], in[1], out); }
BC_EVAL(eval_tbp_riazi_daubert_inverse) { return bc_d86_from_tbp_c(in[0], in[1], out); }
BC_EVAL(eval_tbp_daubert)
{
	double tbp_c[BC_TBP_POINTS];
	enum bc_status status = bc_tbp_from_d86_daubert_c(in + 1, tbp_c);
	*out = NAN;
	for (size_t i = 0; i < BC_TBP_POINTS; i++)
		if (bc_tbp_point_pct[i] == in[0])
			*out = tbp_c[i];
	return isnan(*out) ? BC_BAD_DOMAIN : status;
}

BC_EVAL(eval_average_volume)
{
	struct bc_average_boiling average;
	enum bc_status status = bc_average_boiling_from_d86(in, &average);
	*out = average.volume_c;
	return status;
}
BC_EVAL(eval_average_mass)
{
	struct bc_average_boiling average;
	enum bc_status status = bc_average_boiling_from_d86(in, &average);
	*out = average.mass_c;
	return status;
}
BC_EVAL(eval_average_molar)
{
	struct bc_average_boiling average;
	enum bc_status status = bc_average_boiling_from_d86(in, &average);
	*out = average.molar_c;
	return status;
}
BC_EVAL(eval_average_cubic)
{
	struct bc_average_boiling average;
	enum bc_status status = bc_average_boiling_from_d86(in, &average);
	*out = average.cubic_c;
	return status;
}
BC_EVAL(eval_average_mean)
{
	struct bc_average_boiling average;
	enum bc_status status = bc_average_boiling_from_d86(in, &average);
	*out = average.mean_c;
	return status;
}

BC_EVAL(eval_watson_k) { return bc_watson_k(in[0], in[1], out); }
BC_EVAL(eval_gravity_api) { return bc_eval_plain(bc_api_from_sg(in[0]), out); }
BC_EVAL(eval_gravity_from_density15) { return bc_eval_plain(bc_sg_from_density15(in[0]), out); }
BC_EVAL(eval_density_at_15) { return bc_density15_from_observed_kgm3(in[0], in[1], out); }
BC_EVAL(eval_density_factor_54b) { return bc_volume_correction_54b(in[0], in[1], out); }
BC_EVAL(eval_density_sg_from_curve) { return bc_sg_from_d86(in[0], in[1], out); }
BC_EVAL(eval_molar_mass_api) { return bc_molar_mass_api_gmol(in[0], in[1], out); }
BC_EVAL(eval_molar_mass_rd80) { return bc_molar_mass_rd80_gmol(in[0], in[1], out); }
BC_EVAL(eval_critical_temperature) { return bc_critical_temp_kesler_lee_k(in[0], in[1], out); }
BC_EVAL(eval_critical_pressure) { return bc_critical_pressure_kesler_lee_bar(in[0], in[1], out); }
BC_EVAL(eval_omega_from_boiling) { return bc_omega_from_boiling(in[0], in[1], in[2], out); }
BC_EVAL(eval_vapour_pressure)
{
	return bc_vapour_pressure_lee_kesler_bar(in[0], in[1], in[2], in[3], out);
}
BC_EVAL(eval_lower_limit_jones) { return bc_lower_limit_jones_pct(in[0], out); }
BC_EVAL(eval_lower_limit_at_temperature) { return bc_lower_limit_at_temp_pct(in[0], in[1], out); }
BC_EVAL(eval_flash_t10_api) { return bc_flash_from_t10_api(in[0], out); }
BC_EVAL(eval_flash_vapour_space_pure)
{
	const double whole = 1.0;
	struct bc_slices slices;
	*out = NAN;
	enum bc_status status = bc_slices_from_components(&in[0], &in[1], &whole, 1, &slices);
	return bc_failed(status) ? status : bc_flash_vapour_space_c(&slices, 101.325, out);
}
BC_EVAL(eval_flash_at_standard_pressure) { return bc_flash_corrected_c(in[0], in[1], out); }
BC_EVAL(eval_cetane_d4737a) { return bc_cetane_index_d4737a(in[0], in[1], in[2], in[3], out); }
BC_EVAL(eval_cetane_d976) { return bc_cetane_index_d976(in[0], in[1], out); }
BC_EVAL(eval_driveability_index) { return bc_driveability_index(in[0], in[1], in[2], out); }
BC_EVAL(eval_viscosity_abbott_37_8) { return bc_visc_abbott_37_8_mm2s(in[0], in[1], out); }
BC_EVAL(eval_viscosity_abbott_98_9) { return bc_visc_abbott_98_9_mm2s(in[0], in[1], out); }
BC_EVAL(eval_viscosity_d341) { return bc_visc_d341_mm2s(in[0], in[1], in[2], in[3], in[4], out); }
BC_EVAL(eval_heat_net_d4868) { return bc_net_heat_d4868_mjkg(in[0], out); }
