/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The measurement tables of 1980: every product class, both temperature scales, and the glass of a
 * hydrometer. */
#include "fuel/volume_correction.h"

#include <math.h>
#include <stdbool.h>
#include <stddef.h>
#include <string.h>

static const struct expansion {
	double base; /* 15: degC, 60: degF */
	const char *name;
	double from_kgm3;
	double to_kgm3;
	double k0;
	double k1;
	double k2;
	const char *source;
	const char *trust;
} rows[] = {
#include "volume-correction.inc"
};

static const double water_60f_kgm3 = 999.012; /* MPMS 11.1:1980 */

static bool row_fits(
	const struct expansion *row, double base, enum bc_product product, double density)
{
	if (row->base != base)
		return false;
	if (product == BC_PRODUCT_CRUDE)
		return strcmp(row->name, "crude") == 0;
	if (product == BC_PRODUCT_LUBRICATING)
		return strcmp(row->name, "lubricating") == 0;
	/* the rows by density alone have a lower end; the last of them no upper one */
	return !isnan(row->from_kgm3) && density >= row->from_kgm3 && !(density >= row->to_kgm3);
}

static double factor_of(double base, enum bc_product product, double density, double temp)
{
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		if (!row_fits(&rows[i], base, product, density))
			continue;
		double alpha = rows[i].k0 / (density * density) + rows[i].k1 / density + rows[i].k2;
		double step = alpha * (temp - base);
		return exp(-step * (1.0 + 0.8 * step));
	}
	return NAN;
}

static bool tabled(double density) { return density >= 610.0 && density <= 1163.0; }

static bool tabled_c(double temp_c) { return temp_c >= -40.0 && temp_c <= 150.0; }

static bool tabled_f(double temp_f) { return temp_f >= 0.0 && temp_f <= 300.0; }

enum bc_status bc_volume_correction_15c(
	enum bc_product product, double density15_kgm3, double temp_c, double *factor)
{
	*factor = NAN;
	if (!isfinite(density15_kgm3) || !isfinite(temp_c) || density15_kgm3 <= 0.0)
		return BC_BAD_DOMAIN;
	*factor = factor_of(15.0, product, density15_kgm3, temp_c);
	return tabled(density15_kgm3) && tabled_c(temp_c) ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_volume_correction_60f(
	enum bc_product product, double density60f_kgm3, double temp_f, double *factor)
{
	*factor = NAN;
	if (!isfinite(density60f_kgm3) || !isfinite(temp_f) || density60f_kgm3 <= 0.0)
		return BC_BAD_DOMAIN;
	*factor = factor_of(60.0, product, density60f_kgm3, temp_f);
	return tabled(density60f_kgm3) && tabled_f(temp_f) ? BC_OK : BC_OUTSIDE_RANGE;
}

double bc_sg_from_api(double api)
{
	if (!isfinite(api) || api <= -131.0)
		return NAN;
	return 141.5 / (api + 131.5);
}

enum bc_status bc_volume_correction_api(
	enum bc_product product, double api, double temp_f, double *factor)
{
	return bc_volume_correction_60f(
		product, water_60f_kgm3 * bc_sg_from_api(api), temp_f, factor);
}

enum bc_status bc_glass_factor_15c(double temp_c, double *factor)
{
	*factor = NAN;
	double step = temp_c - 15.0;
	if (!isfinite(temp_c))
		return BC_BAD_DOMAIN;
	/* tables 53 */
	*factor = 1.0 - 0.000023 * step - 0.00000002 * step * step;
	return tabled_c(temp_c) ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_glass_factor_60f(double temp_f, double *factor)
{
	*factor = NAN;
	double step = temp_f - 60.0;
	if (!isfinite(temp_f))
		return BC_BAD_DOMAIN;
	/* tables 5 */
	*factor = 1.0 - 0.00001278 * step - 0.0000000062 * step * step;
	return tabled_f(temp_f) ? BC_OK : BC_OUTSIDE_RANGE;
}

/* Density at base whose density at temp is the one given; halved, because classes make it jump. */
static enum bc_status at_base(
	double base, enum bc_product product, double density, double temp, double *base_density)
{
	*base_density = NAN;
	if (!isfinite(temp) || !(density >= 300.0 && density <= 1500.0))
		return BC_BAD_DOMAIN;
	double low = 0.7 * density;
	double high = 1.4 * density;
	if (!(low * factor_of(base, product, low, temp) <= density) ||
		!(high * factor_of(base, product, high, temp) >= density))
		return BC_NO_CONVERGENCE;
	while (high - low > 1e-9 * density) {
		double middle = 0.5 * (low + high);
		if (middle * factor_of(base, product, middle, temp) < density)
			low = middle;
		else
			high = middle;
	}
	*base_density = 0.5 * (low + high);
	return tabled(*base_density) ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_density15_of_product_kgm3(
	enum bc_product product, double density_kgm3, double temp_c, double *density15_kgm3)
{
	enum bc_status status = at_base(15.0, product, density_kgm3, temp_c, density15_kgm3);
	return status == BC_OK && !tabled_c(temp_c) ? BC_OUTSIDE_RANGE : status;
}

enum bc_status bc_density15_from_hydrometer_kgm3(
	double reading_kgm3, double temp_c, double *density15_kgm3)
{
	double glass = NAN;
	*density15_kgm3 = NAN;
	enum bc_status status = bc_glass_factor_15c(temp_c, &glass);
	if (bc_failed(status))
		return status;
	return bc_density15_of_product_kgm3(
		BC_PRODUCT_BY_DENSITY, reading_kgm3 * glass, temp_c, density15_kgm3);
}

enum bc_status bc_api60_from_hydrometer(double reading_api, double temp_f, double *api60)
{
	double glass = NAN;
	double density = NAN;
	*api60 = NAN;
	enum bc_status status = bc_glass_factor_60f(temp_f, &glass);
	if (bc_failed(status))
		return status;
	double read = water_60f_kgm3 * bc_sg_from_api(reading_api);
	enum bc_status base = at_base(60.0, BC_PRODUCT_BY_DENSITY, read * glass, temp_f, &density);
	if (bc_failed(base))
		return base;
	*api60 = 141.5 / (density / water_60f_kgm3) - 131.5;
	return base == BC_OK ? status : base;
}
