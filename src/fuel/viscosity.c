/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Kinematic viscosity from gravity and Watson K, carried over temperature and over slices. */
#include "fuel/viscosity.h"

#include <math.h>
#include <stdbool.h>

#include "base/units.h"
#include "fuel/density.h"

static bool in_range(double k, double a) { return k >= 10.0 && k <= 13.0 && a >= 0.0 && a <= 60.0; }

enum bc_status bc_visc_abbott_37_8_mm2s(double watson_k, double api, double *visc_mm2s)
{
	*visc_mm2s = NAN;
	double k = watson_k;
	double a = api;
	double pole = a + 50.3642 - 4.78231 * k;
	if (!isfinite(k) || !isfinite(a) || !(pole > 0.0))
		return BC_BAD_DOMAIN;
	/* Abbott, 100 degF */
	double log_visc =
		4.39371 - 1.94733 * k + 0.12769 * k * k + 3.2629e-4 * a * a - 1.18246e-2 * k * a +
		(0.171617 * k * k + 10.9943 * a + 9.50663e-2 * a * a - 0.860218 * k * a) / pole;
	*visc_mm2s = pow(10.0, log_visc);
	return in_range(k, a) ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_visc_abbott_98_9_mm2s(double watson_k, double api, double *visc_mm2s)
{
	*visc_mm2s = NAN;
	double k = watson_k;
	double a = api;
	double pole = a + 26.786 - 2.6296 * k;
	if (!isfinite(k) || !isfinite(a) || !(pole > 0.0))
		return BC_BAD_DOMAIN;
	/* Abbott, 210 degF */
	double log_visc = -0.463634 - 0.166532 * a + 5.13447e-4 * a * a - 8.48995e-3 * k * a +
			  (8.0325e-2 * k + 1.24899 * a + 0.19768 * a * a) / pole;
	*visc_mm2s = pow(10.0, log_visc);
	return in_range(k, a) ? BC_OK : BC_OUTSIDE_RANGE;
}

/* D341: v -> log log Z */
static double d341_ordinate(double v)
{
	return log10(log10(v + 0.7 + exp(-1.47 - 1.84 * v - 0.51 * v * v)));
}

/* ... and back, z = Z - 0.7 */
static double d341_visc(double ordinate)
{
	double z = pow(10.0, pow(10.0, ordinate)) - 0.7;
	return z - exp(-0.7487 - 3.295 * z + 0.6119 * z * z - 0.3193 * z * z * z);
}

enum bc_status bc_visc_d341_mm2s(double temp1_c, double visc1_mm2s, double temp2_c,
	double visc2_mm2s, double temp_c, double *visc_mm2s)
{
	*visc_mm2s = NAN;
	double lowest = 0.21; /* D341: below it Z leaves the fit */
	if (!isfinite(temp1_c) || !isfinite(temp2_c) || !isfinite(temp_c) ||
		fmin(fmin(temp1_c, temp2_c), temp_c) <= -273.15 || temp1_c == temp2_c ||
		!(visc1_mm2s >= lowest && visc2_mm2s >= lowest && isfinite(visc1_mm2s) &&
			isfinite(visc2_mm2s)))
		return BC_BAD_DOMAIN;
	double x1 = log10(bc_temp_k_from_c(temp1_c));
	double x2 = log10(bc_temp_k_from_c(temp2_c));
	double x = log10(bc_temp_k_from_c(temp_c));
	double y1 = d341_ordinate(visc1_mm2s);
	double y2 = d341_ordinate(visc2_mm2s);
	/* log log Z = A - B log T */
	double visc = d341_visc(y1 + (y2 - y1) * (x - x1) / (x2 - x1));
	if (!isfinite(visc) || visc <= 0.0)
		return BC_BAD_DOMAIN;
	*visc_mm2s = visc;
	return BC_OK;
}

/* log log Z against log T falls by 3.6 to 4.3 over the whole range of Abbott (computed). */
static const double usual_slope = 4.0;

/* Beyond the range of Abbott the two branches run together and cross, so that viscosity would rise
 * with temperature: there the lower branch is carried along the usual slope. */
static enum bc_status slice_visc(
	const struct bc_slices *slices, size_t i, double temp_c, double *visc)
{
	double api = bc_api_from_sg(slices->items[i].sg);
	double cool = NAN;
	double hot = NAN;
	enum bc_status status = bc_visc_abbott_37_8_mm2s(slices->watson_k, api, &cool);
	if (bc_failed(status))
		return status;
	if (status == BC_OK)
		status = bc_visc_abbott_98_9_mm2s(slices->watson_k, api, &hot);
	if (status == BC_OK)
		return bc_visc_d341_mm2s(37.8, cool, 98.9, hot, temp_c, visc);
	double way = log10(bc_temp_k_from_c(temp_c)) - log10(bc_temp_k_from_c(37.8));
	*visc = d341_visc(d341_ordinate(cool) - usual_slope * way);
	return *visc > 0.0 ? BC_OUTSIDE_RANGE : BC_BAD_DOMAIN;
}

enum bc_status bc_visc_of_slices_mm2s(
	const struct bc_slices *slices, double temp_c, double *visc_mm2s, double *outside_frac)
{
	const double most_frac = 0.2; /* judgement */
	*visc_mm2s = NAN;
	*outside_frac = NAN;
	if (slices->n == 0 || !isfinite(temp_c) || temp_c <= -273.15)
		return BC_BAD_DOMAIN;
	double sum = 0.0;
	double outside = 0.0;
	for (size_t i = 0; i < slices->n; i++) {
		double visc = NAN;
		enum bc_status status = slice_visc(slices, i, temp_c, &visc);
		if (bc_failed(status))
			return status;
		if (status == BC_OUTSIDE_RANGE)
			outside += slices->items[i].volume_frac;
		sum += slices->items[i].mole_frac * cbrt(visc); /* Kendall-Monroe */
	}
	*visc_mm2s = sum * sum * sum;
	*outside_frac = outside;
	bool inside = temp_c >= 15.0 && temp_c <= 100.0 && outside <= most_frac;
	return inside ? BC_OK : BC_OUTSIDE_RANGE;
}
