/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Molar mass, critical constants and acentric factor by other published forms; Antoine. */
#include "fuel/constants.h"

#include <math.h>
#include <stdbool.h>

#include "base/units.h"
#include "curve/correction.h"

static bool positive(double x) { return isfinite(x) && x > 0.0; }

enum bc_status bc_molar_mass_goossens_gmol(
	double boiling_k, double density20_gml, double *molar_mass_gmol)
{
	*molar_mass_gmol = NAN;
	if (!positive(boiling_k) || !positive(density20_gml) || boiling_k >= 1078.0)
		return BC_BAD_DOMAIN;
	double beta = 1.52869 + 0.06486 * log(boiling_k / (1078.0 - boiling_k));
	*molar_mass_gmol = 0.01077 * pow(boiling_k, beta) / density20_gml;
	/* note 2 */
	bool inside = boiling_k >= 250.0 && density20_gml >= 0.6 && density20_gml <= 1.1;
	return inside ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_molar_mass_kesler_lee_gmol(double boiling_k, double sg, double *molar_mass_gmol)
{
	*molar_mass_gmol = NAN;
	if (!positive(boiling_k) || !positive(sg))
		return BC_BAD_DOMAIN;
	double t = boiling_k;
	double mass = -12272.6 + 9486.4 * sg + (8.3741 - 5.9917 * sg) * t +
		      (1.0 - 0.77084 * sg - 0.02058 * sg * sg) * (0.7465 - 222.466 / t) * 1e7 / t +
		      (1.0 - 0.80882 * sg + 0.02226 * sg * sg) * (0.3228 - 17.335 / t) * 1e12 /
			      (t * t * t);
	if (!(mass > 0.0))
		return BC_BAD_DOMAIN;
	*molar_mass_gmol = mass;
	return BC_OK;
}

enum bc_status bc_critical_temp_rd80_k(double boiling_k, double sg, double *critical_k)
{
	*critical_k = NAN;
	if (!positive(boiling_k) || !positive(sg))
		return BC_BAD_DOMAIN;
	*critical_k = 19.06232 * pow(boiling_k, 0.58848) * pow(sg, 0.3596);
	return BC_OK;
}

enum bc_status bc_critical_pressure_rd80_bar(double boiling_k, double sg, double *critical_bar)
{
	*critical_bar = NAN;
	if (!positive(boiling_k) || !positive(sg))
		return BC_BAD_DOMAIN;
	*critical_bar = 5.53027e7 * pow(boiling_k, -2.3125) * pow(sg, 2.3201);
	return BC_OK;
}

enum bc_status bc_critical_temp_api_k(double boiling_k, double sg, double *critical_k)
{
	*critical_k = NAN;
	if (!positive(boiling_k) || !positive(sg))
		return BC_BAD_DOMAIN;
	/* 4D3.1 */
	*critical_k = 9.5233 *
		      exp(-9.314e-4 * boiling_k - 0.544442 * sg + 6.4791e-4 * boiling_k * sg) *
		      pow(boiling_k, 0.81067) * pow(sg, 0.53691);
	return BC_OK;
}

enum bc_status bc_critical_pressure_api_bar(double boiling_k, double sg, double *critical_bar)
{
	*critical_bar = NAN;
	if (!positive(boiling_k) || !positive(sg))
		return BC_BAD_DOMAIN;
	/* 4D4.1 */
	*critical_bar = 3.1958e5 *
			exp(-8.505e-3 * boiling_k - 4.8014 * sg + 5.749e-3 * boiling_k * sg) *
			pow(boiling_k, -0.4844) * pow(sg, 4.0846);
	return BC_OK;
}

enum bc_status bc_omega_heavy(double watson_k, double reduced_boiling, double *omega)
{
	*omega = NAN;
	if (!positive(watson_k) || !positive(reduced_boiling))
		return BC_BAD_DOMAIN;
	double k = watson_k;
	*omega = -7.904 + 0.1352 * k - 0.007465 * k * k + 8.359 * reduced_boiling +
		 (1.408 - 0.01063 * k) / reduced_boiling;
	return reduced_boiling > 0.8 && reduced_boiling < 1.0 ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_antoine_bar(double a, double b, double c, double temp_k, double *pressure_bar)
{
	*pressure_bar = NAN;
	if (!isfinite(a) || !isfinite(b) || !isfinite(c) || !isfinite(temp_k) || temp_k + c <= 0.0)
		return BC_BAD_DOMAIN;
	*pressure_bar = pow(10.0, a - b / (temp_k + c));
	return BC_OK;
}

enum bc_status bc_antoine_boiling_k(
	double a, double b, double c, double pressure_bar, double *boiling_k)
{
	*boiling_k = NAN;
	if (!isfinite(a) || !isfinite(b) || !isfinite(c) || !positive(pressure_bar))
		return BC_BAD_DOMAIN;
	double drop = a - log10(pressure_bar);
	double temp_k = b / drop - c;
	if (drop <= 0.0 || !positive(temp_k))
		return BC_BAD_DOMAIN;
	*boiling_k = temp_k;
	return BC_OK;
}

/* Both vapours together, less the pressure [kPa]; NaN where one of them has none. */
static double too_much_kpa(double a, double b, double c, double pressure_kpa, double temp_c)
{
	double water_kpa = NAN;
	double oil_bar = NAN;
	if (bc_failed(bc_water_pressure_kpa(temp_c, &water_kpa)) ||
		bc_failed(bc_antoine_bar(a, b, c, bc_temp_k_from_c(temp_c), &oil_bar)))
		return NAN;
	return water_kpa + 100.0 * oil_bar - pressure_kpa;
}

enum bc_status bc_water_plateau_c(
	double a, double b, double c, double pressure_kpa, double *plateau_c)
{
	double low = 5.0;
	double high = 120.0;
	*plateau_c = NAN;
	if (!positive(pressure_kpa) || !(too_much_kpa(a, b, c, pressure_kpa, low) < 0.0) ||
		!(too_much_kpa(a, b, c, pressure_kpa, high) > 0.0))
		return BC_BAD_DOMAIN;
	while (high - low > 1e-9) {
		double middle = 0.5 * (low + high);
		if (too_much_kpa(a, b, c, pressure_kpa, middle) < 0.0)
			low = middle;
		else
			high = middle;
	}
	*plateau_c = 0.5 * (low + high);
	return BC_OK;
}
