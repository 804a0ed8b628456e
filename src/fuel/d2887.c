/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Curves measured otherwise: simulated distillation to D86 and true boiling points, true boiling
 * points to D86 by differences, D86 to equilibrium flash. */
#include "fuel/d2887.h"

#include <math.h>
#include <stddef.h>

#include "base/units.h"
#include "fuel/tbp.h"

const double bc_d2887_tbp_pct[BC_D2887_TBP_POINTS] = {
	5.0, 10.0, 30.0, 50.0, 70.0, 90.0, 95.0, 100.0};
const double bc_d2887_d86_pct[BC_D2887_D86_POINTS] = {0.0, 10.0, 30.0, 50.0, 70.0, 90.0, 100.0};

/* difference out = a (difference in)^b, degF */
struct step {
	double upper_pct;
	double lower_pct;
	double a;
	double b;
	const char *source;
	const char *trust;
};

static const struct step to_tbp[] = {
#include "d2887-tbp.inc"
};
static const struct step to_d86[] = {
#include "d2887-d86.inc"
};
static const struct step d86_to_tbp[] = {
#include "tbp-daubert.inc"
};

/* out = a in^b third^c, kelvin */
struct power {
	double pct;
	double a;
	double b;
	double c;
	const char *source;
	const char *trust;
};

static const struct power to_d86_riazi[] = {
#include "d2887-d86-riazi.inc"
};
static const struct power to_efv[] = {
#include "efv-riazi-daubert.inc"
};

static double taken(const struct step *step, double difference)
{
	return step->a * pow(difference, step->b);
}

static double taken_back(const struct step *step, double difference)
{
	return pow(difference / step->a, 1.0 / step->b);
}

/* From the middle outwards until a point is missing; out_c[middle] is there already. */
static enum bc_status go_outwards(const struct step *steps, size_t n, size_t middle,
	const double *in_c, double *out_c, double (*take)(const struct step *, double))
{
	enum bc_status status = BC_OK;
	for (size_t i = middle; i + 1 < n && isfinite(in_c[i + 1]); i++) {
		double rise_f = 1.8 * (in_c[i + 1] - in_c[i]);
		out_c[i + 1] = out_c[i] + take(&steps[i], rise_f) / 1.8;
		if (!(rise_f >= 0.0))
			status = BC_BAD_DOMAIN;
	}
	for (size_t i = middle; i > 0 && isfinite(in_c[i - 1]); i--) {
		double rise_f = 1.8 * (in_c[i] - in_c[i - 1]);
		out_c[i - 1] = out_c[i] - take(&steps[i - 1], rise_f) / 1.8;
		if (!(rise_f >= 0.0))
			status = BC_BAD_DOMAIN;
	}
	if (bc_failed(status))
		for (size_t i = 0; i < n; i++)
			out_c[i] = NAN;
	return status;
}

enum bc_status bc_tbp_from_d2887_c(
	const double d2887_c[BC_D2887_TBP_POINTS], double tbp_c[BC_D2887_TBP_POINTS])
{
	enum { MIDDLE = 3 };
	for (size_t i = 0; i < BC_D2887_TBP_POINTS; i++)
		tbp_c[i] = NAN;
	if (!isfinite(d2887_c[MIDDLE]))
		return BC_BAD_DOMAIN;
	tbp_c[MIDDLE] = d2887_c[MIDDLE]; /* 3A3.1, 50 % */
	return go_outwards(to_tbp, BC_D2887_TBP_POINTS, MIDDLE, d2887_c, tbp_c, taken);
}

enum bc_status bc_d86_from_d2887_c(
	const double d2887_c[BC_D2887_D86_POINTS], double d86_c[BC_D2887_D86_POINTS])
{
	enum { MIDDLE = 3 };
	for (size_t i = 0; i < BC_D2887_D86_POINTS; i++)
		d86_c[i] = NAN;
	double middle_f = bc_temp_f_from_c(d2887_c[MIDDLE]);
	if (!isfinite(middle_f) || middle_f <= 0.0)
		return BC_BAD_DOMAIN;
	/* 3A3.2, 50 % in degF */
	d86_c[MIDDLE] = bc_temp_c_from_f(0.77601 * pow(middle_f, 1.0395));
	return go_outwards(to_d86, BC_D2887_D86_POINTS, MIDDLE, d2887_c, d86_c, taken);
}

enum bc_status bc_d86_from_tbp_daubert_c(const double tbp_c[7], double d86_c[7])
{
	enum { MIDDLE = 3 };
	enum bc_status status = BC_OK;
	for (size_t i = 0; i < BC_TBP_POINTS; i++) {
		d86_c[i] = NAN;
		if (!isfinite(tbp_c[i]))
			status = BC_BAD_DOMAIN;
	}
	double middle_f = bc_temp_f_from_c(tbp_c[MIDDLE]);
	if (bc_failed(status) || middle_f <= 0.0)
		return BC_BAD_DOMAIN;
	/* 3A1.1, 50 % in degF, solved */
	d86_c[MIDDLE] = bc_temp_c_from_f(pow(middle_f / 0.87180, 1.0 / 1.0258));
	return go_outwards(d86_to_tbp, BC_TBP_POINTS, MIDDLE, tbp_c, d86_c, taken_back);
}

static const struct power *power_at(const struct power *rows, size_t n, double pct)
{
	for (size_t i = 0; i < n; i++)
		if (rows[i].pct == pct)
			return &rows[i];
	return NULL;
}

static enum bc_status power_law(const struct power *row, double in_c, double third, double *out_c)
{
	*out_c = NAN;
	double in_k = bc_temp_k_from_c(in_c);
	if (row == NULL || !(in_k > 0.0 && isfinite(in_k) && third > 0.0 && isfinite(third)))
		return BC_BAD_DOMAIN;
	*out_c = bc_temp_c_from_k(row->a * pow(in_k, row->b) * pow(third, row->c));
	return BC_OK;
}

enum bc_status bc_d86_from_d2887_riazi_c(
	double pct, double d2887_c, double d2887_10_c, double d2887_50_c, double *d86_c)
{
	double f = 0.01411 * pow(bc_temp_k_from_c(d2887_10_c), 0.05434) *
		   pow(bc_temp_k_from_c(d2887_50_c), 0.6147);
	return power_law(power_at(to_d86_riazi, sizeof to_d86_riazi / sizeof *to_d86_riazi, pct),
		d2887_c, f, d86_c);
}

enum bc_status bc_efv_from_d86_c(double pct, double d86_c, double sg, double *efv_c)
{
	return power_law(power_at(to_efv, sizeof to_efv / sizeof *to_efv, pct), d86_c, sg, efv_c);
}

static enum bc_status sg_power(double a, double b, double c, double t10_c, double t50_c, double *sg)
{
	*sg = NAN;
	if (!isfinite(t10_c) || !isfinite(t50_c) || t10_c <= -273.15 || t50_c <= -273.15)
		return BC_BAD_DOMAIN;
	*sg = a * pow(bc_temp_k_from_c(t10_c), b) * pow(bc_temp_k_from_c(t50_c), c);
	return BC_OK;
}

/* eq. (3.17), its rows for true boiling points and for flash */
enum bc_status bc_sg_from_tbp(double t10_c, double t50_c, double *sg)
{
	return sg_power(0.10431, 0.12550, 0.20862, t10_c, t50_c, sg);
}

enum bc_status bc_sg_from_efv(double t10_c, double t50_c, double *sg)
{
	return sg_power(0.09138, -0.0153, 0.36844, t10_c, t50_c, sg);
}
