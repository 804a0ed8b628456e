/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Indices of ignition and of volatility by other published forms. */
#include "fuel/ignition_forms.h"

#include <math.h>
#include <stdbool.h>

#include "base/units.h"
#include "fuel/density.h"

static bool positive(double x) { return isfinite(x) && x > 0.0; }

enum bc_status bc_cetane_index_d4737b(
	double density15_kgm3, double t10_c, double t50_c, double t90_c, double *cetane_index)
{
	*cetane_index = NAN;
	if (!positive(density15_kgm3) || !isfinite(t10_c) || !isfinite(t50_c) || !isfinite(t90_c))
		return BC_BAD_DOMAIN;
	/* procedure B */
	*cetane_index = -399.90 * density15_kgm3 / 1000.0 + 0.1113 * t10_c + 0.1212 * t50_c +
			0.0627 * t90_c + 309.33;
	/* note 1 */
	bool inside = density15_kgm3 >= 600.0 && density15_kgm3 <= 1100.0 && t10_c >= -20.0 &&
		      t10_c <= 400.0 && t50_c >= 50.0 && t50_c <= 400.0 && t90_c >= 50.0 &&
		      t90_c <= 450.0;
	return inside ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_cetane_index_d976_api(double api, double t50_f, double *cetane_index)
{
	*cetane_index = NAN;
	if (!isfinite(api) || !positive(t50_f))
		return BC_BAD_DOMAIN;
	double log_m = log10(t50_f);
	*cetane_index = -420.34 + 0.016 * api * api + 0.192 * api * log_m + 65.01 * log_m * log_m -
			0.0001809 * t50_f * t50_f;
	return BC_OK;
}

enum bc_status bc_diesel_index(double aniline_c, double api, double *diesel_index)
{
	*diesel_index = NAN;
	if (!isfinite(aniline_c) || !isfinite(api))
		return BC_BAD_DOMAIN;
	/* eq. (3.130) */
	*diesel_index = api * bc_temp_f_from_c(aniline_c) / 100.0;
	return BC_OK;
}

enum bc_status bc_cetane_from_diesel_index(double diesel_index, double *cetane_index)
{
	*cetane_index = NAN;
	if (!isfinite(diesel_index))
		return BC_BAD_DOMAIN;
	*cetane_index = 0.72 * diesel_index + 10.0;
	return BC_OK;
}

enum bc_status bc_aniline_linden_c(double boiling_k, double sg, double *aniline_c)
{
	*aniline_c = NAN;
	if (!positive(boiling_k) || !positive(sg))
		return BC_BAD_DOMAIN;
	/* eq. (3.125) */
	*aniline_c = -183.3 + 0.27 * bc_api_from_sg(sg) * cbrt(boiling_k) + 0.317 * boiling_k;
	return BC_OK;
}

enum bc_status bc_aniline_api_c(double boiling_k, double sg, double *aniline_c)
{
	*aniline_c = NAN;
	if (!positive(boiling_k) || !positive(sg))
		return BC_BAD_DOMAIN;
	double r = 1.8 * boiling_k;
	double watson_k = cbrt(r) / sg;
	/* 2B9.1, degR */
	double aniline_r = -1253.7 - 0.139 * r + 107.8 * watson_k + 868.7 * sg;
	*aniline_c = bc_temp_c_from_k(aniline_r / 1.8);
	return BC_OK;
}

static enum bc_status driveability(
	double t10, double t50, double t90, double per_ethanol, double ethanol_pct, double *index)
{
	*index = NAN;
	if (!isfinite(t10) || !isfinite(t50) || !isfinite(t90) || !isfinite(ethanol_pct) ||
		ethanol_pct < 0.0 || ethanol_pct > 100.0)
		return BC_BAD_DOMAIN;
	*index = 1.5 * t10 + 3.0 * t50 + t90 + per_ethanol * ethanol_pct;
	return ethanol_pct <= 15.0 ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_driveability_index_f(double t10_evaporated_f, double t50_evaporated_f,
	double t90_evaporated_f, double ethanol_pct, double *index)
{
	return driveability(
		t10_evaporated_f, t50_evaporated_f, t90_evaporated_f, 2.4, ethanol_pct, index);
}

enum bc_status bc_driveability_index_ethanol(double t10_evaporated_c, double t50_evaporated_c,
	double t90_evaporated_c, double ethanol_pct, double *index)
{
	return driveability(
		t10_evaporated_c, t50_evaporated_c, t90_evaporated_c, 1.33, ethanol_pct, index);
}

enum bc_status bc_vapour_liquid_20_c(
	double pressure_kpa, double t10_evaporated_c, double t50_evaporated_c, double *temp_c)
{
	*temp_c = NAN;
	if (!positive(pressure_kpa) || !isfinite(t10_evaporated_c) || !isfinite(t50_evaporated_c))
		return BC_BAD_DOMAIN;
	*temp_c = 52.47 - 0.33 * pressure_kpa + 0.20 * t10_evaporated_c + 0.17 * t50_evaporated_c;
	return BC_OK;
}

enum bc_status bc_vapour_liquid_20_f(
	double pressure_psi, double t10_evaporated_f, double t50_evaporated_f, double *temp_f)
{
	*temp_f = NAN;
	if (!positive(pressure_psi) || !isfinite(t10_evaporated_f) || !isfinite(t50_evaporated_f))
		return BC_BAD_DOMAIN;
	*temp_f = 114.6 - 4.1 * pressure_psi + 0.20 * t10_evaporated_f + 0.17 * t50_evaporated_f;
	return BC_OK;
}

enum bc_status bc_vapour_lock_index(double pressure_kpa, double e70_pct, double *index)
{
	*index = NAN;
	if (!positive(pressure_kpa) || !isfinite(e70_pct) || e70_pct < 0.0 || e70_pct > 100.0)
		return BC_BAD_DOMAIN;
	*index = 10.0 * pressure_kpa + 7.0 * e70_pct;
	return BC_OK;
}

static bool tank_temperature(double temp_f) { return temp_f >= 0.0 && temp_f <= 140.0; }

enum bc_status bc_true_vapour_pressure_ap42_psi(
	double rvp_psi, double slope_f_per_pct, double temp_f, double *pressure_psi)
{
	*pressure_psi = NAN;
	double r = temp_f + 459.67;
	if (!positive(rvp_psi) || !positive(slope_f_per_pct) || !positive(r))
		return BC_BAD_DOMAIN;
	double root = sqrt(slope_f_per_pct);
	double log_rvp = log(rvp_psi);
	double a = 15.64 - 1.854 * root - (0.8742 - 0.3280 * root) * log_rvp;
	double b = 8742.0 - 1042.0 * root - (1049.0 - 179.4 * root) * log_rvp;
	*pressure_psi = exp(a - b / r);
	return rvp_psi >= 1.0 && rvp_psi <= 20.0 && tank_temperature(temp_f) ? BC_OK
									     : BC_OUTSIDE_RANGE;
}

enum bc_status bc_true_vapour_pressure_crude_psi(
	double rvp_psi, double temp_f, double *pressure_psi)
{
	*pressure_psi = NAN;
	double r = temp_f + 459.67;
	if (!positive(rvp_psi) || !positive(r))
		return BC_BAD_DOMAIN;
	double log_rvp = log(rvp_psi);
	/* eq. (7.26) */
	double log_p = 7.78511307 - 1.08100387 * log_rvp + 0.05319502 * rvp_psi + 0.00451316 * r +
		       (-5756.8562305 + 1104.41248797 * log_rvp -
			       0.00068023 * rvp_psi * rvp_psi * rvp_psi * rvp_psi) /
			       r;
	*pressure_psi = exp(log_p);
	return rvp_psi >= 2.0 && rvp_psi <= 15.0 && tank_temperature(temp_f) ? BC_OK
									     : BC_OUTSIDE_RANGE;
}
