/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Curves measured otherwise, averages, constants, vacuum, each formula behind the one signature. */
#include "fuel/formula_eval.h"

#include <math.h>
#include <stddef.h>

#include "fuel/average.h"
#include "fuel/constants.h"
#include "fuel/d2887.h"
#include "fuel/known_mixture.h"
#include "fuel/tbp.h"
#include "fuel/vacuum.h"

/* Of the points of a converted curve the one at pct. */
static enum bc_status point_at(const double *pct, const double *temp_c, size_t n, double wanted,
	enum bc_status status, double *out)
{
	*out = NAN;
	for (size_t i = 0; i < n && !bc_failed(status); i++)
		if (pct[i] == wanted)
			*out = temp_c[i];
	return bc_failed(status) || isnan(*out) ? BC_BAD_DOMAIN : status;
}

BC_EVAL(eval_d2887_tbp)
{
	double tbp_c[BC_D2887_TBP_POINTS];
	enum bc_status status = bc_tbp_from_d2887_c(in + 1, tbp_c);
	return point_at(bc_d2887_tbp_pct, tbp_c, BC_D2887_TBP_POINTS, in[0], status, out);
}

BC_EVAL(eval_d2887_d86)
{
	double d86_c[BC_D2887_D86_POINTS];
	enum bc_status status = bc_d86_from_d2887_c(in + 1, d86_c);
	return point_at(bc_d2887_d86_pct, d86_c, BC_D2887_D86_POINTS, in[0], status, out);
}

BC_EVAL(eval_tbp_daubert_inverse)
{
	double d86_c[BC_TBP_POINTS];
	enum bc_status status = bc_d86_from_tbp_daubert_c(in + 1, d86_c);
	return point_at(bc_tbp_point_pct, d86_c, BC_TBP_POINTS, in[0], status, out);
}

BC_EVAL(eval_average_slope)
{
	struct bc_average_boiling average;
	enum bc_status status = bc_average_boiling_from_d86(in, &average);
	*out = average.slope_c_per_pct;
	return status;
}

/* A mixture as a row gives it: five components, some of them with a share of nothing. */
enum { PARTS = 5 };

BC_EVAL(eval_average_known) { return bc_known_average_c(in, in + PARTS, PARTS, out); }
BC_EVAL(eval_average_known_cubic) { return bc_known_cubic_c(in, in + PARTS, PARTS, out); }
BC_EVAL(eval_average_known_cubic_rankine)
{
	return bc_known_cubic_rankine_c(in, in + PARTS, PARTS, out);
}
BC_EVAL(eval_average_known_mean)
{
	return bc_known_mean_c(in, in + PARTS, in + 2 * PARTS, PARTS, out);
}

BC_EVAL_4(d2887_d86_riazi_daubert, bc_d86_from_d2887_riazi_c)
BC_EVAL_3(efv_riazi_daubert, bc_efv_from_d86_c)
BC_EVAL_2(molar_mass_goossens, bc_molar_mass_goossens_gmol)
BC_EVAL_2(molar_mass_kesler_lee, bc_molar_mass_kesler_lee_gmol)
BC_EVAL_2(critical_temperature_rd80, bc_critical_temp_rd80_k)
BC_EVAL_2(critical_pressure_rd80, bc_critical_pressure_rd80_bar)
BC_EVAL_2(critical_temperature_api, bc_critical_temp_api_k)
BC_EVAL_2(critical_pressure_api, bc_critical_pressure_api_bar)
BC_EVAL_2(omega_heavy, bc_omega_heavy)
BC_EVAL_4(vapour_pressure_antoine, bc_antoine_bar)
BC_EVAL_4(boiling_antoine, bc_antoine_boiling_k)
BC_EVAL_4(water_plateau, bc_water_plateau_c)
BC_EVAL_2(vacuum_pressure, bc_maxwell_bonnell_mmhg)
BC_EVAL_3(vacuum_pressure_watson, bc_maxwell_bonnell_watson_mmhg)
BC_EVAL_1(vacuum_a_mmhg, bc_aet_a_mmhg)
BC_EVAL_1(vacuum_a_kpa, bc_aet_a_kpa)
BC_EVAL_2(vacuum_aet, bc_aet_c)
BC_EVAL_2(vacuum_aet_kpa, bc_aet_kpa_c)
BC_EVAL_2(vacuum_from_aet, bc_temp_from_aet_c)
BC_EVAL_3(vacuum_aet_watson, bc_aet_watson_c)
BC_EVAL_2(watson_k_d2892, bc_watson_k_d2892)
