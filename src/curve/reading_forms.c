/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The standard's corrections in older units, the slope of a curve, a distribution in closed form.
 */
#include "curve/reading_forms.h"

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

static bool positive(double x) { return isfinite(x) && x > 0.0; }

static bool percent(double x) { return x >= 0.0 && x <= 100.0; }

/* 0.00012 (760 - P)(zero + t) */
static enum bc_status young_mmhg(
	double observed, double zero, double absolute, double pressure_mmhg, double *corrected)
{
	*corrected = NAN;
	if (!isfinite(observed) || !positive(pressure_mmhg) || observed <= -absolute)
		return BC_BAD_DOMAIN;
	*corrected = observed + 0.00012 * (760.0 - pressure_mmhg) * (zero + observed);
	return pressure_mmhg >= 375.0 && pressure_mmhg <= 825.0 ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_sydney_young_mmhg_c(double observed_c, double pressure_mmhg, double *corrected_c)
{
	return young_mmhg(observed_c, 273.0, 273.15, pressure_mmhg, corrected_c);
}

enum bc_status bc_sydney_young_mmhg_f(double observed_f, double pressure_mmhg, double *corrected_f)
{
	return young_mmhg(observed_f, 460.0, 459.67, pressure_mmhg, corrected_f);
}

enum bc_status bc_loss_observed_pct(double recovery_pct, double residue_pct, double *loss_pct)
{
	*loss_pct = NAN;
	if (!percent(recovery_pct) || !percent(residue_pct))
		return BC_BAD_DOMAIN;
	*loss_pct = 100.0 - recovery_pct - residue_pct;
	return *loss_pct >= 0.0 ? BC_OK : BC_OUTSIDE_RANGE;
}

/* 1 + (760 - P)/60; NaN where it is not positive */
static double loss_denominator(double pressure_mmhg)
{
	double denominator = 1.0 + (760.0 - pressure_mmhg) / 60.0;
	if (!positive(pressure_mmhg) || denominator <= 0.0)
		return NAN;
	return denominator;
}

enum bc_status bc_loss_corrected_mmhg_pct(
	double loss_pct, double pressure_mmhg, double *corrected_pct)
{
	*corrected_pct = NAN;
	double denominator = loss_denominator(pressure_mmhg);
	if (!percent(loss_pct) || isnan(denominator))
		return BC_BAD_DOMAIN;
	*corrected_pct = 0.5 + (loss_pct - 0.5) / denominator;
	return loss_pct <= 20.0 && pressure_mmhg >= 525.0 && pressure_mmhg <= 819.0
		       ? BC_OK
		       : BC_OUTSIDE_RANGE;
}

enum bc_status bc_loss_constant_a(double pressure_mmhg, double *a)
{
	*a = 1.0 / loss_denominator(pressure_mmhg);
	if (isnan(*a))
		return BC_BAD_DOMAIN;
	return pressure_mmhg >= 560.0 && pressure_mmhg <= 760.0 ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_loss_constant_b(double pressure_mmhg, double *b)
{
	double a = NAN;
	enum bc_status status = bc_loss_constant_a(pressure_mmhg, &a);
	*b = 0.5 - 0.5 * a;
	return status;
}

enum bc_status bc_evaporated_at_temp_pct(double temp_c, double loss_pct, double low_pct,
	double low_c, double high_pct, double high_c, double *evaporated_pct)
{
	*evaporated_pct = NAN;
	if (!isfinite(temp_c) || !percent(loss_pct) || !isfinite(low_pct) || !isfinite(high_pct) ||
		!isfinite(low_c) || !isfinite(high_c) || high_c <= low_c)
		return BC_BAD_DOMAIN;
	*evaporated_pct =
		loss_pct + low_pct + (high_pct - low_pct) * (temp_c - low_c) / (high_c - low_c);
	return temp_c >= low_c && temp_c <= high_c ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_stem_general(
	double per_degree, double thread_degrees, double reading, double stem, double *correction)
{
	*correction = NAN;
	if (!isfinite(per_degree) || !isfinite(thread_degrees) || !isfinite(reading) ||
		!isfinite(stem) || per_degree < 0.0 || thread_degrees < 0.0)
		return BC_BAD_DOMAIN;
	*correction = per_degree * thread_degrees * (reading - stem);
	return BC_OK;
}

const double bc_slope_point_pct[BC_SLOPE_POINTS] = {
	0.0, 5.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0, 95.0, 100.0};

/* ASTM D86-04b/07b, slope table: the points below and above; from memory */
static const struct {
	size_t lower;
	size_t upper;
} slope_between[BC_SLOPE_POINTS] = {{0, 1}, {0, 2}, {0, 3}, {2, 4}, {3, 5}, {4, 6}, {5, 7}, {6, 8},
	{7, 9}, {8, 10}, {9, 10}, {10, 11}, {11, 12}};

enum bc_status bc_d86_slope_c_per_pct(
	double pct, const double temp_c[BC_SLOPE_POINTS], double end_pct, double *slope_c_per_pct)
{
	*slope_c_per_pct = NAN;
	size_t i = 0;
	while (i < BC_SLOPE_POINTS && bc_slope_point_pct[i] != pct)
		i++;
	if (i == BC_SLOPE_POINTS)
		return BC_BAD_DOMAIN;
	size_t lower = slope_between[i].lower;
	size_t upper = slope_between[i].upper;
	double upper_pct = upper == BC_SLOPE_POINTS - 1 ? end_pct : bc_slope_point_pct[upper];
	double width = upper_pct - bc_slope_point_pct[lower];
	double slope = (temp_c[upper] - temp_c[lower]) / width;
	if (!(width > 0.0) || !isfinite(slope))
		return BC_BAD_DOMAIN;
	*slope_c_per_pct = slope;
	return BC_OK;
}

enum bc_status bc_riazi_temp_k(double t0_k, double a, double b, double frac, double *temp_k)
{
	*temp_k = NAN;
	if (!positive(t0_k) || !positive(a) || !positive(b) || !(frac >= 0.0 && frac < 1.0))
		return BC_BAD_DOMAIN;
	*temp_k = t0_k * (1.0 + pow(a / b * -log1p(-frac), 1.0 / b));
	return BC_OK;
}

enum bc_status bc_riazi_mean_k(double t0_k, double a, double b, double *temp_k)
{
	*temp_k = NAN;
	if (!positive(t0_k) || !positive(a) || !positive(b))
		return BC_BAD_DOMAIN;
	*temp_k = t0_k * (1.0 + pow(a / b, 1.0 / b) * tgamma(1.0 + 1.0 / b));
	return BC_OK;
}
