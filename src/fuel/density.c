/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Density and its temperature: the 1980 petroleum tables, specific gravity, a guess from a curve.
 */
#include "fuel/density.h"

#include <math.h>
#include <stdbool.h>

#include "base/units.h"
#include "fuel/volume_correction.h"

/* Refined products by density: the product class is that of the density at 15 degC. */
static double correction_factor(double density15, double temp_c)
{
	double factor = NAN;
	bc_volume_correction_15c(BC_PRODUCT_BY_DENSITY, density15, temp_c, &factor);
	return factor;
}

static bool in_tables(double density15, double temp_c)
{
	return density15 >= 610.0 && density15 <= 1075.0 && temp_c >= -40.0 && temp_c <= 150.0;
}

enum bc_status bc_volume_correction_54b(double density15_kgm3, double temp_c, double *factor)
{
	*factor = NAN;
	if (!isfinite(density15_kgm3) || !isfinite(temp_c) || density15_kgm3 <= 0.0)
		return BC_BAD_DOMAIN;
	*factor = correction_factor(density15_kgm3, temp_c);
	return in_tables(density15_kgm3, temp_c) ? BC_OK : BC_OUTSIDE_RANGE;
}

/* density15 * VCF(density15) rises, but for jumps between classes of up to 0.001 kg/m3 for each
 * degree, so the root is bracketed and halved: no iteration from class to class without end. */
static enum bc_status density15_at(double density, double temp_c, double *density15)
{
	double low = 0.7 * density;
	double high = 1.4 * density;
	if (low * correction_factor(low, temp_c) > density ||
		high * correction_factor(high, temp_c) < density)
		return BC_NO_CONVERGENCE;
	while (high - low > 1e-9 * density) {
		double middle = 0.5 * (low + high);
		if (middle * correction_factor(middle, temp_c) < density)
			low = middle;
		else
			high = middle;
	}
	*density15 = 0.5 * (low + high);
	return BC_OK;
}

enum bc_status bc_density15_from_observed_kgm3(
	double density_kgm3, double temp_c, double *density15_kgm3)
{
	*density15_kgm3 = NAN;
	if (!isfinite(density_kgm3) || !isfinite(temp_c) || density_kgm3 < 300.0 ||
		density_kgm3 > 1500.0)
		return BC_BAD_DOMAIN;
	double density15 = NAN;
	enum bc_status status = density15_at(density_kgm3, temp_c, &density15);
	if (bc_failed(status))
		return status;
	*density15_kgm3 = density15;
	return in_tables(density15, temp_c) ? BC_OK : BC_OUTSIDE_RANGE;
}

static const double degf60_c = 140.0 / 9.0; /* 60 degF */

double bc_sg_from_density15(double density15_kgm3)
{
	double factor = NAN;
	if (bc_failed(bc_volume_correction_54b(density15_kgm3, degf60_c, &factor)))
		return NAN;
	return density15_kgm3 * factor / BC_WATER_DENSITY_60F_KGM3;
}

double bc_density15_from_sg(double sg)
{
	double density15 = NAN;
	if (!isfinite(sg) || sg <= 0.0 ||
		bc_failed(density15_at(sg * BC_WATER_DENSITY_60F_KGM3, degf60_c, &density15)))
		return NAN;
	return density15;
}

enum bc_status bc_sg_from_d86(double t10_c, double t50_c, double *sg)
{
	*sg = NAN;
	if (!isfinite(t10_c) || !isfinite(t50_c) || t10_c <= -273.15 || t50_c <= -273.15)
		return BC_BAD_DOMAIN;
	/* eq. (3.17) */
	*sg = 0.08342 * pow(bc_temp_k_from_c(t10_c), 0.10731) *
	      pow(bc_temp_k_from_c(t50_c), 0.26288);
	return BC_OK;
}

double bc_api_from_sg(double sg)
{
	if (!isfinite(sg) || sg <= 0.0)
		return NAN;
	return 141.5 / sg - 131.5;
}
