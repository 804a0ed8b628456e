/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Viscosity, the cold end, density, each formula behind the one signature. */
#include "fuel/formula_eval.h"

#include "fuel/d2887.h"
#include "fuel/flow_forms.h"
#include "fuel/volume_correction.h"

BC_EVAL(eval_density_factor_54a)
{
	return bc_volume_correction_15c(BC_PRODUCT_CRUDE, in[0], in[1], out);
}
BC_EVAL(eval_density_factor_54d)
{
	return bc_volume_correction_15c(BC_PRODUCT_LUBRICATING, in[0], in[1], out);
}
BC_EVAL(eval_density_factor_6a)
{
	return bc_volume_correction_api(BC_PRODUCT_CRUDE, in[0], in[1], out);
}
BC_EVAL(eval_density_factor_6b)
{
	return bc_volume_correction_api(BC_PRODUCT_BY_DENSITY, in[0], in[1], out);
}
BC_EVAL(eval_density_factor_6d)
{
	return bc_volume_correction_api(BC_PRODUCT_LUBRICATING, in[0], in[1], out);
}
BC_EVAL(eval_density_at_15_crude)
{
	return bc_density15_of_product_kgm3(BC_PRODUCT_CRUDE, in[0], in[1], out);
}
BC_EVAL(eval_gravity_from_api) { return bc_eval_plain(bc_sg_from_api(in[0]), out); }

BC_EVAL(eval_viscosity_blend)
{
	const double share[] = {in[0], 1.0 - in[0]};
	return bc_visc_blend_mm2s(share, &in[1], 2, out);
}

BC_EVAL_2(density_sg_from_tbp, bc_sg_from_tbp)
BC_EVAL_2(density_sg_from_efv, bc_sg_from_efv)
BC_EVAL_2(viscosity_api_37_8, bc_visc_api_37_8_mm2s)
BC_EVAL_2(viscosity_api_98_9, bc_visc_api_98_9_mm2s)
BC_EVAL_1(viscosity_d341_z, bc_d341_z)
BC_EVAL_1(viscosity_d341_from_z, bc_d341_visc_from_z)
BC_EVAL_4(viscosity_d341_a, bc_d341_a)
BC_EVAL_4(viscosity_d341_b, bc_d341_b)
BC_EVAL_3(cold_pour, bc_pour_api_c)
BC_EVAL_2(cold_pour_plain, bc_pour_plain_api_c)
BC_EVAL_2(cold_cloud, bc_cloud_api_c)
BC_EVAL_2(cold_freeze, bc_freeze_api_c)
BC_EVAL_2(density_api60_5b, bc_api60_from_hydrometer)
BC_EVAL_2(density_at_15_hydrometer, bc_density15_from_hydrometer_kgm3)
BC_EVAL_1(density_glass_15, bc_glass_factor_15c)
BC_EVAL_1(density_glass_60, bc_glass_factor_60f)
