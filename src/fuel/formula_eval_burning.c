/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Flash, flammable limits, ignition, volatility, heat, each formula behind the one signature. */
#include "fuel/formula_eval.h"

#include "fuel/flash_forms.h"
#include "fuel/heat_forms.h"
#include "fuel/ignition_forms.h"
#include "fuel/lower_limit.h"

BC_EVAL(eval_flash_liaw)
{
	const struct bc_flash_part parts[2] = {
		{in[0], in[1], in[2], in[3], in[4]}, {in[5], in[6], in[7], in[8], in[9]}};
	return bc_flash_liaw_c(parts, 2, out);
}

BC_EVAL(eval_lower_limit_mixture) { return bc_lower_limit_mixture_pct(in, in + 4, 4, out); }

BC_EVAL_1(flash_linear, bc_flash_linear_c)
BC_EVAL_1(flash_closed_1997, bc_flash_closed_1997_c)
BC_EVAL_1(flash_open_1997, bc_flash_open_1997_c)
BC_EVAL_1(flash_butler, bc_flash_butler_c)
BC_EVAL_1(flash_walsh_mortimer, bc_flash_walsh_mortimer_c)
BC_EVAL_1(flash_index_wickey, bc_flash_index_wickey)
BC_EVAL_1(flash_from_index_wickey, bc_flash_from_index_wickey_c)
BC_EVAL_3(flash_blend_wickey, bc_flash_blend_wickey_c)
BC_EVAL_3(flash_blend_thiele, bc_flash_blend_thiele_c)
BC_EVAL_3(flash_blend_hu_burns, bc_flash_blend_hu_burns_c)
BC_EVAL_2(flash_at_standard_pressure_f, bc_flash_corrected_f)
BC_EVAL_2(flash_at_standard_pressure_d93, bc_flash_corrected_d93_c)
BC_EVAL_2(flash_at_standard_pressure_d3828, bc_flash_corrected_d3828_c)
BC_EVAL_1(precision_d93_r, bc_flash_r_d93_c)
BC_EVAL_1(precision_d93_R, bc_flash_R_d93_c)
BC_EVAL_1(precision_d7236_r, bc_flash_r_d7236_c)
BC_EVAL_1(precision_d7236_R, bc_flash_R_d7236_c)
BC_EVAL_2(lower_limit_atoms, bc_lower_limit_atoms_pct)
BC_EVAL_1(lower_limit_alkane, bc_lower_limit_alkane_pct)
BC_EVAL_3(lower_limit_burgess_wheeler, bc_lower_limit_burgess_wheeler_pct)
BC_EVAL_4(cetane_d4737b, bc_cetane_index_d4737b)
BC_EVAL_2(cetane_d976_api, bc_cetane_index_d976_api)
BC_EVAL_2(diesel_index, bc_diesel_index)
BC_EVAL_1(cetane_from_diesel_index, bc_cetane_from_diesel_index)
BC_EVAL_2(aniline_linden, bc_aniline_linden_c)
BC_EVAL_2(aniline_api, bc_aniline_api_c)
BC_EVAL_4(driveability_index_f, bc_driveability_index_f)
BC_EVAL_4(driveability_index_ethanol, bc_driveability_index_ethanol)
BC_EVAL_3(volatility_vapour_liquid_20, bc_vapour_liquid_20_c)
BC_EVAL_3(volatility_vapour_liquid_20_f, bc_vapour_liquid_20_f)
BC_EVAL_2(volatility_vapour_lock_index, bc_vapour_lock_index)
BC_EVAL_3(vapour_pressure_ap42, bc_true_vapour_pressure_ap42_psi)
BC_EVAL_2(vapour_pressure_crude, bc_true_vapour_pressure_crude_psi)
BC_EVAL_4(heat_gross_d4868, bc_gross_heat_d4868_mjkg)
BC_EVAL_4(heat_net_d4868_impure, bc_net_heat_impure_d4868_mjkg)
BC_EVAL_3(heat_net_d4529, bc_net_heat_d4529_mjkg)
BC_EVAL_3(heat_net_d3338, bc_net_heat_d3338_mjkg)
BC_EVAL_1(heat_gross_cragoe, bc_gross_heat_cragoe_btulb)
BC_EVAL_2(latent_cragoe, bc_latent_cragoe_kjkg)
BC_EVAL_2(latent_riazi, bc_latent_riazi_kjmol)
BC_EVAL_1(latent_kistiakowsky, bc_latent_kistiakowsky_kjmol)
BC_EVAL_3(latent_riedel, bc_latent_riedel_kjmol)
BC_EVAL_4(latent_watson, bc_latent_watson_kjmol)
BC_EVAL_3(liquid_heat_kesler_lee, bc_liquid_heat_kesler_lee_kjkgk)
BC_EVAL_2(liquid_heat_cragoe, bc_liquid_heat_cragoe_kjkgk)
