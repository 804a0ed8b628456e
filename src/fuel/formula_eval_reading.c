/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Older units, barometers, weighing, precision, charts, each formula behind the one signature. */
#include "fuel/formula_eval.h"

#include "base/individuals.h"
#include "curve/precision_forms.h"
#include "curve/reading_forms.h"
#include "curve/repeat_forms.h"
#include "curve/site_forms.h"

BC_EVAL(eval_slope_d86)
{
	return bc_d86_slope_c_per_pct(in[0], in + 1, in[1 + BC_SLOPE_POINTS], out);
}

BC_EVAL_2(pressure_sydney_young_mmhg, bc_sydney_young_mmhg_c)
BC_EVAL_2(pressure_sydney_young_f, bc_sydney_young_mmhg_f)
BC_EVAL_2(loss_observed, bc_loss_observed_pct)
BC_EVAL_2(loss_corrected_mmhg, bc_loss_corrected_mmhg_pct)
BC_EVAL_1(loss_constant_a, bc_loss_constant_a)
BC_EVAL_1(loss_constant_b, bc_loss_constant_b)
BC_EVAL_6(evaporated_at_temperature, bc_evaporated_at_temp_pct)
BC_EVAL_4(stem_general, bc_stem_general)
BC_EVAL_4(riazi_temperature, bc_riazi_temp_k)
BC_EVAL_3(riazi_mean, bc_riazi_mean_k)
BC_EVAL_2(barometer_mercury_glass, bc_mercury_glass_mmhg)
BC_EVAL_2(barometer_mercury_brass, bc_mercury_brass_mmhg)
BC_EVAL_2(altitude_station, bc_station_from_sea_level_kpa)
BC_EVAL_1(altitude_inhg, bc_pressure_from_feet_inhg)
BC_EVAL_1(water_boils_us, bc_water_boils_us_f)
BC_EVAL_1(water_density, bc_water_density_kgm3)
BC_EVAL_4(pycnometer_volume, bc_pycnometer_volume_ml)
BC_EVAL_5(pycnometer_density, bc_pycnometer_density_gml)
BC_EVAL_4(pycnometer_kitchen_scale, bc_kitchen_scale_density_gml)
BC_EVAL(eval_precision_d86_1_manual_r)
{
	double other;
	return bc_d86_precision_c(BC_PRECISION_1_MANUAL, in[0], in[1], out, &other);
}
BC_EVAL(eval_precision_d86_1_manual_R)
{
	double other;
	return bc_d86_precision_c(BC_PRECISION_1_MANUAL, in[0], in[1], &other, out);
}
BC_EVAL(eval_precision_d86_1_automated_r)
{
	double other;
	return bc_d86_precision_c(BC_PRECISION_1_AUTOMATED, in[0], in[1], out, &other);
}
BC_EVAL(eval_precision_d86_1_automated_R)
{
	double other;
	return bc_d86_precision_c(BC_PRECISION_1_AUTOMATED, in[0], in[1], &other, out);
}
BC_EVAL(eval_precision_d86_24_manual_r)
{
	double other;
	return bc_d86_precision_c(BC_PRECISION_24_MANUAL, in[0], in[1], out, &other);
}
BC_EVAL(eval_precision_d86_24_manual_R)
{
	double other;
	return bc_d86_precision_c(BC_PRECISION_24_MANUAL, in[0], in[1], &other, out);
}
BC_EVAL(eval_precision_d86_24_automated_r)
{
	double other;
	return bc_d86_precision_c(BC_PRECISION_24_AUTOMATED, in[0], in[1], out, &other);
}
BC_EVAL(eval_precision_d86_24_automated_R)
{
	double other;
	return bc_d86_precision_c(BC_PRECISION_24_AUTOMATED, in[0], in[1], &other, out);
}
BC_EVAL_1(precision_d86_volume_r, bc_d86_volume_r_pct)
BC_EVAL_1(precision_d86_volume_R, bc_d86_volume_R_pct)
BC_EVAL_2(iso4259_upper, bc_iso4259_upper)
BC_EVAL_2(iso4259_lower, bc_iso4259_lower)
BC_EVAL_1(iso4259_half_width, bc_iso4259_half_width)
BC_EVAL_3(iso4259_mean_R, bc_iso4259_mean_R)
BC_EVAL_2(iso4259_outlier, bc_iso4259_outlier)
BC_EVAL_2(iso5725_critical_range, bc_critical_range)
BC_EVAL_2(grubbs_critical, bc_grubbs_critical)
BC_EVAL_2(chart_upper, bc_chart_upper)
BC_EVAL_2(chart_lower, bc_chart_lower)
BC_EVAL_1(chart_sigma, bc_chart_sigma)
BC_EVAL_1(chart_range_upper, bc_chart_range_upper)
