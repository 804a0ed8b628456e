/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heats of combustion, of vaporization and of warming by the published forms. */
#include "fuel/heat_forms.h"

#include <math.h>
#include <stdbool.h>

#include "base/units.h"

static const double btulb_kjkg = 2.326;    /* 1 Btu/lb, definition */
static const double btulbf_kjkgk = 4.1868; /* 1 Btu/(lb degF), definition */
static const double gas_j = 8.314;         /* J/(mol K), as the forms were printed */

static bool positive(double x) { return isfinite(x) && x > 0.0; }

static bool clean_shares(double water, double ash, double sulphur)
{
	return water >= 0.0 && ash >= 0.0 && sulphur >= 0.0 && water + ash + sulphur <= 1.0;
}

static enum bc_status d4868_status(double density15_kgm3)
{
	return density15_kgm3 >= 750.0 && density15_kgm3 <= 1000.0 ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_gross_heat_d4868_mjkg(double density15_kgm3, double water_frac, double ash_frac,
	double sulphur_frac, double *heat_mjkg)
{
	*heat_mjkg = NAN;
	if (!positive(density15_kgm3) || !clean_shares(water_frac, ash_frac, sulphur_frac))
		return BC_BAD_DOMAIN;
	double clean = 51.916 - 8.792e-6 * density15_kgm3 * density15_kgm3;
	*heat_mjkg = clean * (1.0 - (water_frac + ash_frac + sulphur_frac)) + 9.420 * sulphur_frac;
	return d4868_status(density15_kgm3);
}

enum bc_status bc_net_heat_impure_d4868_mjkg(double density15_kgm3, double water_frac,
	double ash_frac, double sulphur_frac, double *heat_mjkg)
{
	*heat_mjkg = NAN;
	if (!positive(density15_kgm3) || !clean_shares(water_frac, ash_frac, sulphur_frac))
		return BC_BAD_DOMAIN;
	double clean =
		46.423 - 8.792e-6 * density15_kgm3 * density15_kgm3 + 3.170e-3 * density15_kgm3;
	*heat_mjkg = clean * (1.0 - (water_frac + ash_frac + sulphur_frac)) + 9.420 * sulphur_frac -
		     2.449 * water_frac;
	return d4868_status(density15_kgm3);
}

/* The sources state no span of density: this one catches other units [kg/m3]. */
static bool plausible_density(double d) { return d >= 600.0 && d <= 1100.0; }

enum bc_status bc_net_heat_d4529_mjkg(
	double aniline_c, double density15_kgm3, double sulphur_pct, double *heat_mjkg)
{
	*heat_mjkg = NAN;
	double a = aniline_c;
	double d = density15_kgm3;
	if (!isfinite(a) || !positive(d) || !(sulphur_pct >= 0.0 && sulphur_pct <= 100.0))
		return BC_BAD_DOMAIN;
	*heat_mjkg = 22.9596 - 0.0126587 * a + 26640.9 / d + 32.622 * a / d - 6.69030e-5 * a * a -
		     9217760.0 / (d * d) - 0.1163 * sulphur_pct;
	bool inside = a >= -60.0 && a <= 150.0 && plausible_density(d); /* note 1 */
	return inside ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_net_heat_d3338_mjkg(
	double aromatics_pct, double mean_c, double density15_kgm3, double *heat_mjkg)
{
	*heat_mjkg = NAN;
	double a = aromatics_pct;
	double t = mean_c;
	if (!isfinite(t) || !positive(density15_kgm3) || !(a >= 0.0 && a <= 100.0))
		return BC_BAD_DOMAIN;
	*heat_mjkg = (5528.73 - 92.6499 * a + 10.1601 * t + 0.314169 * a * t) / density15_kgm3 +
		     0.0791707 * a - 0.00944893 * t - 0.000292178 * a * t + 35.9936;
	bool inside = t >= -20.0 && t <= 400.0 && plausible_density(density15_kgm3); /* note 2 */
	return inside ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_gross_heat_cragoe_btulb(double sg, double *heat_btulb)
{
	*heat_btulb = NAN;
	if (!positive(sg))
		return BC_BAD_DOMAIN;
	*heat_btulb = 22320.0 - 3780.0 * sg * sg;
	return BC_OK;
}

enum bc_status bc_latent_cragoe_kjkg(double temp_c, double sg, double *latent_kjkg)
{
	*latent_kjkg = NAN;
	double latent_btulb = (110.9 - 0.09 * bc_temp_f_from_c(temp_c)) / sg;
	if (!isfinite(temp_c) || !positive(sg) || !(latent_btulb > 0.0))
		return BC_BAD_DOMAIN;
	*latent_kjkg = btulb_kjkg * latent_btulb;
	return BC_OK;
}

enum bc_status bc_latent_riazi_kjmol(double boiling_k, double sg, double *latent_kjmol)
{
	*latent_kjmol = NAN;
	if (!positive(boiling_k) || !positive(sg))
		return BC_BAD_DOMAIN;
	*latent_kjmol = 37.32315 * pow(boiling_k, 1.14086) * pow(sg, 0.00977089) / 1000.0;
	return BC_OK;
}

enum bc_status bc_latent_kistiakowsky_kjmol(double boiling_k, double *latent_kjmol)
{
	*latent_kjmol = NAN;
	if (!positive(boiling_k))
		return BC_BAD_DOMAIN;
	*latent_kjmol = boiling_k * (36.61 + gas_j * log(boiling_k)) / 1000.0;
	return BC_OK;
}

enum bc_status bc_latent_riedel_kjmol(
	double boiling_k, double critical_k, double critical_bar, double *latent_kjmol)
{
	*latent_kjmol = NAN;
	double reduced = boiling_k / critical_k;
	if (!positive(boiling_k) || !positive(critical_k) || !positive(critical_bar) ||
		reduced >= 0.93)
		return BC_BAD_DOMAIN;
	*latent_kjmol = 1.093 * gas_j * boiling_k * (log(critical_bar) - 1.013) /
			(0.930 - reduced) / 1000.0;
	return BC_OK;
}

enum bc_status bc_latent_watson_kjmol(double latent_kjmol, double boiling_k, double critical_k,
	double temp_k, double *there_kjmol)
{
	*there_kjmol = NAN;
	if (!positive(latent_kjmol) || !positive(boiling_k) || !positive(critical_k) ||
		!positive(temp_k) || boiling_k >= critical_k || temp_k >= critical_k)
		return BC_BAD_DOMAIN;
	*there_kjmol = latent_kjmol * pow((critical_k - temp_k) / (critical_k - boiling_k), 0.38);
	return BC_OK;
}

enum bc_status bc_liquid_heat_kesler_lee_kjkgk(
	double temp_k, double watson_k, double sg, double *heat_kjkgk)
{
	*heat_kjkgk = NAN;
	if (!positive(temp_k) || !positive(watson_k) || !positive(sg))
		return BC_BAD_DOMAIN;
	*heat_kjkgk = (1.4651 + 0.2302 * watson_k) *
		      (0.306469 - 0.16734 * sg + (0.001467 - 0.000551 * sg) * temp_k);
	return BC_OK;
}

enum bc_status bc_liquid_heat_cragoe_kjkgk(double temp_c, double sg, double *heat_kjkgk)
{
	*heat_kjkgk = NAN;
	double temp_f = bc_temp_f_from_c(temp_c);
	if (!isfinite(temp_c) || !positive(sg))
		return BC_BAD_DOMAIN;
	*heat_kjkgk = btulbf_kjkgk * (0.388 + 0.00045 * temp_f) / sqrt(sg);
	return temp_f >= 0.0 && temp_f <= 400.0 ? BC_OK : BC_OUTSIDE_RANGE;
}
