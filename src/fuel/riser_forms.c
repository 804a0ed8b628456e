/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the riser of a small still does with its vapour, from its size alone. */
#include "fuel/riser_forms.h"

#include <math.h>

#include "base/units.h"

#define PI 3.14159265358979323846
#define GAS_CONSTANT 8.314462618 /* J/(mol K), CODATA 2018 */
#define WOOL_WMK 0.045           /* mineral wool when warm; common practice */
#define AIR_WM2K 12.0            /* still air and radiation on a warm pipe; common practice */
#define THICKEST_MM 300.0

enum bc_status bc_riser_wall_w(
	double u_wm2k, double inner_mm, double height_mm, double warmer_c, double *power_w)
{
	*power_w = NAN;
	if (!(u_wm2k > 0.0 && inner_mm > 0.0 && height_mm > 0.0 && warmer_c >= 0.0) ||
		!isfinite(u_wm2k * inner_mm * height_mm * warmer_c))
		return BC_BAD_DOMAIN;
	*power_w = u_wm2k * PI * inner_mm * height_mm * 1e-6 * warmer_c;
	return u_wm2k >= 0.5 && u_wm2k <= 50.0 ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_riser_u_lagged_wm2k(double inner_mm, double thickness_mm, double *u_wm2k)
{
	*u_wm2k = NAN;
	if (!(inner_mm > 0.0 && thickness_mm >= 0.0 && thickness_mm <= THICKEST_MM) ||
		!isfinite(inner_mm))
		return BC_BAD_DOMAIN;
	double wider = (inner_mm + 2.0 * thickness_mm) / inner_mm;
	double wool = inner_mm * 1e-3 * log(wider) / (2.0 * WOOL_WMK);
	*u_wm2k = 1.0 / (wool + 1.0 / (wider * AIR_WM2K));
	return BC_OK;
}

enum bc_status bc_riser_wall_reflux(double wall_w, double boil_w, double *reflux)
{
	*reflux = NAN;
	if (!(wall_w >= 0.0 && wall_w < boil_w) || !isfinite(boil_w))
		return BC_BAD_DOMAIN;
	*reflux = wall_w / (boil_w - wall_w);
	return BC_OK;
}

enum bc_status bc_riser_power_w(double inner_mm, double f_factor, double pressure_kpa,
	double temp_c, double molar_mass_gmol, double latent_kjmol, double *power_w)
{
	double temp_k = bc_temp_k_from_c(temp_c);
	*power_w = NAN;
	if (!(inner_mm > 0.0 && f_factor > 0.0 && pressure_kpa > 0.0 && temp_k > 0.0 &&
		    molar_mass_gmol > 0.0 && latent_kjmol > 0.0))
		return BC_BAD_DOMAIN;
	double density_kgm3 = pressure_kpa * molar_mass_gmol / (GAS_CONSTANT * temp_k);
	double area_m2 = 0.25 * PI * inner_mm * inner_mm * 1e-6;
	double latent_jkg = 1e6 * latent_kjmol / molar_mass_gmol;
	double power = f_factor * sqrt(density_kgm3) * area_m2 * latent_jkg;
	if (!isfinite(power))
		return BC_BAD_DOMAIN;
	*power_w = power;
	return f_factor >= 0.1 && f_factor <= 4.0 ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_riser_stages(double height_mm, double hetp_mm, double *stages)
{
	*stages = NAN;
	if (!(height_mm > 0.0 && hetp_mm > 0.0) || !isfinite(height_mm / hetp_mm))
		return BC_BAD_DOMAIN;
	*stages = 1.0 + height_mm / hetp_mm;
	return BC_OK;
}
