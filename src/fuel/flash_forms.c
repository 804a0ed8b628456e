/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Flash points by other published forms, of blends, and as the standards correct and judge them. */
#include "fuel/flash_forms.h"

#include <math.h>
#include <stdbool.h>

#include "base/units.h"
#include "fuel/constants.h"

static bool temperature(double temp_c) { return isfinite(temp_c) && temp_c > -273.15; }

enum bc_status bc_flash_linear_c(double t10_c, double *flash_c)
{
	*flash_c = NAN;
	if (!temperature(t10_c))
		return BC_BAD_DOMAIN;
	/* eq. (3.115) */
	*flash_c = bc_temp_c_from_k(15.48 + 0.70704 * bc_temp_k_from_c(t10_c));
	return BC_OK;
}

/* slope T - offset, all in degF */
static enum bc_status line_f(double temp_c, double slope, double offset_f, double *flash_c)
{
	*flash_c = NAN;
	if (!temperature(temp_c))
		return BC_BAD_DOMAIN;
	*flash_c = bc_temp_c_from_f(slope * bc_temp_f_from_c(temp_c) - offset_f);
	return BC_OK;
}

enum bc_status bc_flash_closed_1997_c(double t10_c, double *flash_c)
{
	return line_f(t10_c, 0.69, 118.2, flash_c);
}

enum bc_status bc_flash_open_1997_c(double t10_c, double *flash_c)
{
	return line_f(t10_c, 0.68, 109.6, flash_c);
}

enum bc_status bc_flash_butler_c(double boiling_c, double *flash_c)
{
	return line_f(boiling_c, 0.683, 119.0, flash_c);
}

enum bc_status bc_flash_walsh_mortimer_c(double pressure_bar, double *flash_c)
{
	*flash_c = NAN;
	if (!isfinite(pressure_bar) || pressure_bar <= 0.0)
		return BC_BAD_DOMAIN;
	*flash_c = bc_temp_c_from_k(231.2 - 40.0 * log10(pressure_bar));
	return pressure_bar > 0.003 ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_flash_index_wickey(double flash_c, double *index)
{
	*index = NAN;
	double from_pole_f = bc_temp_f_from_c(flash_c) + 383.0;
	if (!isfinite(flash_c) || from_pole_f <= 0.0)
		return BC_BAD_DOMAIN;
	*index = pow(10.0, -6.1188 + 4345.2 / from_pole_f);
	return BC_OK;
}

enum bc_status bc_flash_from_index_wickey_c(double index, double *flash_c)
{
	*flash_c = NAN;
	double power = log10(index) + 6.1188;
	if (!isfinite(index) || index <= 0.0 || !(power > 0.0))
		return BC_BAD_DOMAIN;
	*flash_c = bc_temp_c_from_f(4345.2 / power - 383.0);
	return BC_OK;
}

static bool share(double frac) { return frac >= 0.0 && frac <= 1.0; }

enum bc_status bc_flash_blend_wickey_c(
	double volume_frac, double flash1_c, double flash2_c, double *flash_c)
{
	double index1 = NAN;
	double index2 = NAN;
	*flash_c = NAN;
	if (!share(volume_frac) || bc_failed(bc_flash_index_wickey(flash1_c, &index1)) ||
		bc_failed(bc_flash_index_wickey(flash2_c, &index2)))
		return BC_BAD_DOMAIN;
	return bc_flash_from_index_wickey_c(
		volume_frac * index1 + (1.0 - volume_frac) * index2, flash_c);
}

enum bc_status bc_flash_blend_thiele_c(
	double volume_frac, double flash1_c, double flash2_c, double *flash_c)
{
	*flash_c = NAN;
	if (!share(volume_frac) || !temperature(flash1_c) || !temperature(flash2_c))
		return BC_BAD_DOMAIN;
	double sum = volume_frac * pow(10.0, -bc_temp_f_from_c(flash1_c) / 100.0) +
		     (1.0 - volume_frac) * pow(10.0, -bc_temp_f_from_c(flash2_c) / 100.0);
	*flash_c = bc_temp_c_from_f(-100.0 * log10(sum));
	return BC_OK;
}

enum bc_status bc_flash_blend_hu_burns_c(
	double volume_frac, double flash1_c, double flash2_c, double *flash_c)
{
	const double x = -0.06; /* flash */
	*flash_c = NAN;
	if (!share(volume_frac) || !temperature(flash1_c) || !temperature(flash2_c))
		return BC_BAD_DOMAIN;
	double sum = volume_frac * pow(1.8 * bc_temp_k_from_c(flash1_c), 1.0 / x) +
		     (1.0 - volume_frac) * pow(1.8 * bc_temp_k_from_c(flash2_c), 1.0 / x);
	*flash_c = bc_temp_c_from_k(pow(sum, x) / 1.8);
	return BC_OK;
}

/* sum x P(T)/P(Tflash); NaN where a part has no vapour pressure */
static double liaw_sum(const struct bc_flash_part *parts, size_t n, double temp_c)
{
	double sum = 0.0;
	for (size_t i = 0; i < n; i++) {
		const struct bc_flash_part *part = &parts[i];
		double here = NAN;
		double alone = NAN;
		if (bc_failed(bc_antoine_bar(
			    part->a, part->b, part->c, bc_temp_k_from_c(temp_c), &here)) ||
			bc_failed(bc_antoine_bar(part->a, part->b, part->c,
				bc_temp_k_from_c(part->flash_c), &alone)))
			return NAN;
		sum += part->mole_frac * here / alone;
	}
	return sum;
}

enum bc_status bc_flash_liaw_c(const struct bc_flash_part *parts, size_t n, double *flash_c)
{
	double low = INFINITY;
	double high = -INFINITY;
	double shares = 0.0;
	*flash_c = NAN;
	for (size_t i = 0; i < n; i++) {
		if (!(parts[i].mole_frac >= 0.0) || !temperature(parts[i].flash_c))
			return BC_BAD_DOMAIN;
		shares += parts[i].mole_frac;
		low = fmin(low, parts[i].flash_c - 1.0);
		high = fmax(high, parts[i].flash_c + 1.0);
	}
	if (!(fabs(shares - 1.0) <= 0.001) || isnan(liaw_sum(parts, n, low)))
		return BC_BAD_DOMAIN;
	while (high - low > 1e-9) {
		double middle = 0.5 * (low + high);
		if (liaw_sum(parts, n, middle) < 1.0)
			low = middle;
		else
			high = middle;
	}
	*flash_c = 0.5 * (low + high);
	return BC_OK;
}

static enum bc_status barometer(
	double flash, double per_mmhg, double pressure_mmhg, double *corrected)
{
	*corrected = NAN;
	if (!isfinite(flash) || !isfinite(pressure_mmhg) || pressure_mmhg <= 0.0)
		return BC_BAD_DOMAIN;
	*corrected = flash + per_mmhg * (760.0 - pressure_mmhg);
	return BC_OK;
}

enum bc_status bc_flash_corrected_f(double flash_f, double pressure_mmhg, double *corrected_f)
{
	return barometer(flash_f, 0.06, pressure_mmhg, corrected_f);
}

enum bc_status bc_flash_corrected_d93_c(double flash_c, double pressure_mmhg, double *corrected_c)
{
	return barometer(flash_c, 0.033, pressure_mmhg, corrected_c);
}

enum bc_status bc_flash_corrected_d3828_c(double flash_c, double pressure_mmhg, double *corrected_c)
{
	return barometer(flash_c, 0.03, pressure_mmhg, corrected_c);
}

/* factor (x + shift), stated from 40 degC to max_c */
static enum bc_status precision(
	double flash_c, double factor, double shift_c, double max_c, double *out_c)
{
	*out_c = NAN;
	if (!isfinite(flash_c) || flash_c + shift_c <= 0.0)
		return BC_BAD_DOMAIN;
	*out_c = factor * (flash_c + shift_c);
	return flash_c >= 40.0 && flash_c <= max_c ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_flash_r_d93_c(double flash_c, double *r_c)
{
	return precision(flash_c, 0.029, 0.0, 250.0, r_c);
}

enum bc_status bc_flash_R_d93_c(double flash_c, double *R_c)
{
	return precision(flash_c, 0.071, 0.0, 250.0, R_c);
}

enum bc_status bc_flash_r_d7236_c(double flash_c, double *r_c)
{
	return precision(flash_c, 0.01285, 40.0, 135.0, r_c);
}

enum bc_status bc_flash_R_d7236_c(double flash_c, double *R_c)
{
	return precision(flash_c, 0.02482, 40.0, 135.0, R_c);
}
