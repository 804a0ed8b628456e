/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How an oil flows by other published forms, and where it stops. */
#include "fuel/flow_forms.h"

#include <math.h>
#include <stdbool.h>

#include "base/units.h"

static bool positive(double x) { return isfinite(x) && x > 0.0; }

enum bc_status bc_visc_api_37_8_mm2s(double boiling_k, double sg, double *visc_mm2s)
{
	*visc_mm2s = NAN;
	if (!positive(boiling_k) || !positive(sg))
		return BC_BAD_DOMAIN;
	double r = 1.8 * boiling_k;
	double k = cbrt(r) / sg;
	/* 11A4.2: reference and correction, degR */
	double log_ref = -1.35579 + 8.16059e-4 * r + 8.38505e-7 * r * r;
	double c1 = 34.9310 - 8.84387e-2 * r + 6.73513e-5 * r * r - 1.01394e-8 * r * r * r;
	double c2 = -2.92649 + 6.98405e-3 * r - 5.09947e-6 * r * r + 7.49378e-10 * r * r * r;
	double visc = pow(10.0, log_ref) + pow(10.0, c1 + c2 * k);
	if (!positive(visc))
		return BC_BAD_DOMAIN;
	*visc_mm2s = visc;
	return BC_OK;
}

enum bc_status bc_visc_api_98_9_mm2s(double boiling_k, double sg, double *visc_mm2s)
{
	double cool = NAN;
	*visc_mm2s = NAN;
	enum bc_status status = bc_visc_api_37_8_mm2s(boiling_k, sg, &cool);
	if (bc_failed(status))
		return status;
	double r = 1.8 * boiling_k;
	*visc_mm2s = pow(10.0, -1.92353 + 2.41071e-4 * r + 0.51130 * log10(r * cool));
	return status;
}

enum bc_status bc_d341_z(double visc_mm2s, double *z)
{
	*z = NAN;
	double v = visc_mm2s;
	if (!isfinite(v) || v < 0.21)
		return BC_BAD_DOMAIN;
	*z = v + 0.7 + exp(-1.47 - 1.84 * v - 0.51 * v * v);
	return BC_OK;
}

enum bc_status bc_d341_visc_from_z(double z, double *visc_mm2s)
{
	*visc_mm2s = NAN;
	double y = z - 0.7;
	if (!isfinite(z) || z <= 0.9)
		return BC_BAD_DOMAIN;
	double visc = y - exp(-0.7487 - 3.295 * y + 0.6119 * y * y - 0.3193 * y * y * y);
	if (!positive(visc))
		return BC_BAD_DOMAIN;
	*visc_mm2s = visc;
	return BC_OK;
}

static enum bc_status d341_line(
	double temp1_c, double visc1_mm2s, double temp2_c, double visc2_mm2s, double *a, double *b)
{
	const double zero = 273.0; /* as the worked sheet rounds it */
	*a = *b = NAN;
	if (!positive(temp1_c + zero) || !positive(temp2_c + zero) || temp1_c == temp2_c ||
		!isfinite(visc1_mm2s) || !isfinite(visc2_mm2s) || visc1_mm2s <= 0.3 ||
		visc2_mm2s <= 0.3)
		return BC_BAD_DOMAIN;
	double x1 = log10(temp1_c + zero);
	double x2 = log10(temp2_c + zero);
	double y1 = log10(log10(visc1_mm2s + 0.7));
	double y2 = log10(log10(visc2_mm2s + 0.7));
	*b = (y1 - y2) / (x2 - x1);
	*a = y1 + *b * x1;
	return visc1_mm2s > 2.0 && visc2_mm2s > 2.0 ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_visc_blend_mm2s(
	const double *volume_frac, const double *visc_mm2s, size_t n, double *blend_mm2s)
{
	double share = 0.0;
	double ordinate = 0.0;
	*blend_mm2s = NAN;
	for (size_t i = 0; i < n; i++) {
		double z = NAN;
		if (!(volume_frac[i] >= 0.0) || bc_failed(bc_d341_z(visc_mm2s[i], &z)))
			return BC_BAD_DOMAIN;
		share += volume_frac[i];
		ordinate += volume_frac[i] * log10(log10(z));
	}
	if (!(fabs(share - 1.0) <= 0.001))
		return BC_BAD_DOMAIN;
	return bc_d341_visc_from_z(pow(10.0, pow(10.0, ordinate)), blend_mm2s);
}

enum bc_status bc_d341_a(
	double temp1_c, double visc1_mm2s, double temp2_c, double visc2_mm2s, double *a)
{
	double b = NAN;
	return d341_line(temp1_c, visc1_mm2s, temp2_c, visc2_mm2s, a, &b);
}

enum bc_status bc_d341_b(
	double temp1_c, double visc1_mm2s, double temp2_c, double visc2_mm2s, double *b)
{
	double a = NAN;
	return d341_line(temp1_c, visc1_mm2s, temp2_c, visc2_mm2s, &a, b);
}

enum bc_status bc_pour_api_c(double sg, double molar_mass_gmol, double visc38_mm2s, double *pour_c)
{
	*pour_c = NAN;
	if (!positive(sg) || !positive(molar_mass_gmol) || !positive(visc38_mm2s))
		return BC_BAD_DOMAIN;
	/* 2B8.1, kelvin */
	*pour_c = bc_temp_c_from_k(130.47 * pow(sg, 2.970566) *
				   pow(molar_mass_gmol, 0.61235 - 0.47357 * sg) *
				   pow(visc38_mm2s, 0.310331 - 0.32834 * sg));
	return BC_OK;
}

/* 10^-(0.712 R^0.315 + 0.133 SG), common to pour and cloud; degR */
static double waxing(double r, double sg)
{
	return pow(10.0, -(0.712 * pow(r, 0.315) + 0.133 * sg));
}

enum bc_status bc_pour_plain_api_c(double boiling_k, double sg, double *pour_c)
{
	*pour_c = NAN;
	if (!positive(boiling_k) || !positive(sg))
		return BC_BAD_DOMAIN;
	double r = 1.8 * boiling_k;
	*pour_c = bc_temp_c_from_k((3.85e-8 * pow(r, 5.49) * waxing(r, sg) + 1.4) / 1.8);
	return BC_OK;
}

enum bc_status bc_cloud_api_c(double boiling_k, double sg, double *cloud_c)
{
	*cloud_c = NAN;
	if (!positive(boiling_k) || !positive(sg))
		return BC_BAD_DOMAIN;
	double r = 1.8 * boiling_k;
	/* 2B12.1: log T = -7.41 + 5.49 log R - 0.712 R^0.315 - 0.133 SG, degR */
	*cloud_c = bc_temp_c_from_k(pow(10.0, -7.41) * pow(r, 5.49) * waxing(r, sg) / 1.8);
	return BC_OK;
}

enum bc_status bc_freeze_api_c(double boiling_k, double sg, double *freeze_c)
{
	*freeze_c = NAN;
	if (!positive(boiling_k) || !positive(sg))
		return BC_BAD_DOMAIN;
	double r = 1.8 * boiling_k;
	double watson_k = cbrt(r) / sg;
	*freeze_c =
		bc_temp_c_from_k((-2390.42 + 1826.0 * sg + 122.49 * watson_k - 0.135 * r) / 1.8);
	return BC_OK;
}
