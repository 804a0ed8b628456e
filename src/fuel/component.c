/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Constants of a pseudo-component and the vapour pressure and lower limit that follow. */
#include "fuel/component.h"

#include <math.h>
#include <stdbool.h>

static bool positive(double x) { return isfinite(x) && x > 0.0; }

enum bc_status bc_molar_mass_api_gmol(double boiling_k, double sg, double *molar_mass_gmol)
{
	*molar_mass_gmol = NAN;
	if (!positive(boiling_k) || !positive(sg))
		return BC_BAD_DOMAIN;
	/* API 2B2.1, kelvin form */
	*molar_mass_gmol = 42.965 *
			   exp(2.097e-4 * boiling_k - 7.78712 * sg + 2.08476e-3 * boiling_k * sg) *
			   pow(boiling_k, 1.26007) * pow(sg, 4.98308);
	bool inside = boiling_k >= 293.15 && boiling_k <= 833.15 && sg >= 0.63 && sg <= 0.973 &&
		      *molar_mass_gmol >= 70.0 && *molar_mass_gmol <= 700.0;
	return inside ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_molar_mass_rd80_gmol(double boiling_k, double sg, double *molar_mass_gmol)
{
	*molar_mass_gmol = NAN;
	if (!positive(boiling_k) || !positive(sg))
		return BC_BAD_DOMAIN;
	/* Riazi-Daubert 1980, kelvin form */
	*molar_mass_gmol = 1.6607e-4 * pow(boiling_k, 2.1962) * pow(sg, -1.0164);
	return BC_OK;
}

enum bc_status bc_critical_temp_kesler_lee_k(double boiling_k, double sg, double *critical_k)
{
	*critical_k = NAN;
	if (!positive(boiling_k) || !positive(sg))
		return BC_BAD_DOMAIN;
	/* Kesler-Lee, Tc */
	double tc = 189.8 + 450.6 * sg + (0.4244 + 0.1174 * sg) * boiling_k +
		    (0.1441 - 1.0069 * sg) * 1e5 / boiling_k;
	if (!(tc > boiling_k))
		return BC_BAD_DOMAIN;
	*critical_k = tc;
	return BC_OK;
}

enum bc_status bc_critical_pressure_kesler_lee_bar(
	double boiling_k, double sg, double *critical_bar)
{
	*critical_bar = NAN;
	if (!positive(boiling_k) || !positive(sg))
		return BC_BAD_DOMAIN;
	double t = boiling_k;
	/* Kesler-Lee, ln Pc */
	double ln_pc = 5.689 - 0.0566 / sg -
		       (0.43639 + 4.1216 / sg + 0.21343 / (sg * sg)) * 1e-3 * t +
		       (0.47579 + 1.182 / sg + 0.15302 / (sg * sg)) * 1e-6 * t * t -
		       (2.4505 + 9.9099 / (sg * sg)) * 1e-10 * t * t * t;
	*critical_bar = exp(ln_pc);
	return BC_OK;
}

/* Lee-Kesler, the simple-fluid function f0 and the correction f1 */
static double lee_kesler_f0(double tr)
{
	return 5.92714 - 6.09648 / tr - 1.28862 * log(tr) + 0.169347 * pow(tr, 6.0);
}

static double lee_kesler_f1(double tr)
{
	return 15.2518 - 15.6875 / tr - 13.4721 * log(tr) + 0.43577 * pow(tr, 6.0);
}

enum bc_status bc_omega_from_boiling(
	double boiling_k, double critical_k, double critical_bar, double *omega)
{
	*omega = NAN;
	if (!positive(boiling_k) || !positive(critical_k) || !positive(critical_bar) ||
		boiling_k >= critical_k)
		return BC_BAD_DOMAIN;
	double tr = boiling_k / critical_k;
	/* ln(1.01325/Pc) = f0 + omega f1 */
	*omega = (log(1.01325 / critical_bar) - lee_kesler_f0(tr)) / lee_kesler_f1(tr);
	return BC_OK;
}

enum bc_status bc_vapour_pressure_lee_kesler_bar(
	double temp_k, double critical_k, double critical_bar, double omega, double *pressure_bar)
{
	*pressure_bar = NAN;
	if (!positive(temp_k) || !positive(critical_k) || !positive(critical_bar) ||
		!isfinite(omega))
		return BC_BAD_DOMAIN;
	double tr = temp_k / critical_k;
	*pressure_bar = critical_bar * exp(lee_kesler_f0(tr) + omega * lee_kesler_f1(tr));
	return tr > 1.0 ? BC_OUTSIDE_RANGE : BC_OK;
}

/* Mass of one CH2 [g/mol] and the oxygen that air brings: 1/0.2095 (standard atomic masses, dry
 * air). */
static const double ch2_gmol = 14.027;
static const double air_per_oxygen = 4.773;

enum bc_status bc_lower_limit_jones_pct(double molar_mass_gmol, double *limit_pct)
{
	*limit_pct = NAN;
	if (!positive(molar_mass_gmol))
		return BC_BAD_DOMAIN;
	double carbons = molar_mass_gmol / ch2_gmol;
	double oxygen = carbons + 2.0 * carbons / 4.0; /* CnH2n burns with n + h/4 */
	double stoichiometric_pct = 100.0 / (1.0 + air_per_oxygen * oxygen);
	*limit_pct = 0.55 * stoichiometric_pct; /* Jones */
	return BC_OK;
}

enum bc_status bc_lower_limit_at_temp_pct(double limit25_pct, double temp_c, double *limit_pct)
{
	*limit_pct = NAN;
	if (!positive(limit25_pct) || !isfinite(temp_c))
		return BC_BAD_DOMAIN;
	double limit = limit25_pct * (1.0 - 0.000721 * (temp_c - 25.0)); /* Zabetakis */
	if (!(limit > 0.0))
		return BC_BAD_DOMAIN;
	*limit_pct = limit;
	return BC_OK;
}
