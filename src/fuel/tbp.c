/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the standard's flask to true boiling points and back, and the curve through them. */
#include "fuel/tbp.h"

#include <assert.h>
#include <math.h>

#include "base/stats.h"
#include "base/units.h"

const double bc_tbp_point_pct[BC_TBP_POINTS] = {0.0, 10.0, 30.0, 50.0, 70.0, 90.0, 95.0};

static const struct {
	double pct;
	double a;
	double b;
	double d86_min_c;
	double d86_max_c;
	const char *source;
	const char *trust;
} riazi_daubert[] = {
#include "tbp-riazi-daubert.inc"
};

static const struct {
	double upper_pct;
	double lower_pct;
	double a;
	double b;
	const char *source;
	const char *trust;
} daubert[] = {
#include "tbp-daubert.inc"
};

enum { RIAZI_DAUBERT_ROWS = sizeof riazi_daubert / sizeof riazi_daubert[0] };
enum { DAUBERT_ROWS = sizeof daubert / sizeof daubert[0] };

static int row_of(double pct)
{
	for (int i = 0; i < RIAZI_DAUBERT_ROWS; i++)
		if (riazi_daubert[i].pct == pct)
			return i;
	return -1;
}

static enum bc_status range_status(int row, double d86_c)
{
	return d86_c >= riazi_daubert[row].d86_min_c && d86_c <= riazi_daubert[row].d86_max_c
		       ? BC_OK
		       : BC_OUTSIDE_RANGE;
}

enum bc_status bc_tbp_from_d86_c(double pct, double d86_c, double *tbp_c)
{
	*tbp_c = NAN;
	int row = row_of(pct);
	if (row < 0 || !isfinite(d86_c) || d86_c <= -273.15)
		return BC_BAD_DOMAIN;
	/* TBP = a D86^b, kelvin */
	*tbp_c = bc_temp_c_from_k(
		riazi_daubert[row].a * pow(bc_temp_k_from_c(d86_c), riazi_daubert[row].b));
	return range_status(row, d86_c);
}

enum bc_status bc_d86_from_tbp_c(double pct, double tbp_c, double *d86_c)
{
	*d86_c = NAN;
	int row = row_of(pct);
	if (row < 0 || !isfinite(tbp_c) || tbp_c <= -273.15)
		return BC_BAD_DOMAIN;
	/* D86 = (TBP / a)^(1/b), kelvin */
	*d86_c = bc_temp_c_from_k(
		pow(bc_temp_k_from_c(tbp_c) / riazi_daubert[row].a, 1.0 / riazi_daubert[row].b));
	return range_status(row, *d86_c);
}

enum bc_status bc_tbp_from_d86_daubert_c(
	const double d86_c[BC_TBP_POINTS], double tbp_c[BC_TBP_POINTS])
{
	enum { MIDDLE = 3 };
	double f[BC_TBP_POINTS];
	double tbp_f[BC_TBP_POINTS];
	for (int i = 0; i < BC_TBP_POINTS; i++) {
		tbp_c[i] = NAN;
		f[i] = bc_temp_f_from_c(d86_c[i]);
	}
	for (int i = 0; i < BC_TBP_POINTS; i++)
		if (!isfinite(f[i]) || (i > 0 && f[i] < f[i - 1]))
			return BC_BAD_DOMAIN;
	if (!(f[MIDDLE] > 0.0))
		return BC_BAD_DOMAIN;

	tbp_f[MIDDLE] = 0.87180 * pow(f[MIDDLE], 1.0258); /* 3A1.1, 50 % in degF */
	for (int i = MIDDLE; i < DAUBERT_ROWS; i++)
		tbp_f[i + 1] = tbp_f[i] + daubert[i].a * pow(f[i + 1] - f[i], daubert[i].b);
	for (int i = MIDDLE - 1; i >= 0; i--)
		tbp_f[i] = tbp_f[i + 1] - daubert[i].a * pow(f[i + 1] - f[i], daubert[i].b);
	for (int i = 0; i < BC_TBP_POINTS; i++)
		tbp_c[i] = bc_temp_c_from_f(tbp_f[i]);
	return BC_OK;
}

/* Least rise between neighbours after pooling [degC]; only keeps the curve invertible. */
static const double least_rise_c = 0.01;

/* Pools falling neighbours to their mean (pool-adjacent-violators); true when any fell. */
static bool made_rising(double *temp_c, size_t n)
{
	double mean[BC_TBP_KNOTS_MAX];
	size_t count[BC_TBP_KNOTS_MAX];
	size_t blocks = 0;
	for (size_t i = 0; i < n; i++) {
		mean[blocks] = temp_c[i];
		count[blocks++] = 1;
		while (blocks > 1 && !(mean[blocks - 1] > mean[blocks - 2])) {
			size_t both = count[blocks - 2] + count[blocks - 1];
			mean[blocks - 2] = (mean[blocks - 2] * (double)count[blocks - 2] +
						   mean[blocks - 1] * (double)count[blocks - 1]) /
					   (double)both;
			count[blocks - 2] = both;
			blocks--;
		}
	}
	size_t i = 0;
	for (size_t b = 0; b < blocks; b++)
		for (size_t k = 0; k < count[b]; k++, i++) {
			temp_c[i] = mean[b];
			if (i > 0 && temp_c[i] < temp_c[i - 1] + least_rise_c)
				temp_c[i] = temp_c[i - 1] + least_rise_c;
		}
	return blocks < n;
}

static enum bc_status convert_points(const double from_c[BC_TBP_POINTS], double to_c[BC_TBP_POINTS],
	enum bc_status (*convert)(double, double, double *))
{
	enum bc_status result = BC_OK;
	double kept[BC_TBP_POINTS];
	size_t at[BC_TBP_POINTS];
	size_t n = 0;
	for (size_t i = 0; i < BC_TBP_POINTS; i++) {
		to_c[i] = NAN;
		if (isnan(from_c[i]))
			continue;
		enum bc_status status = convert(bc_tbp_point_pct[i], from_c[i], &kept[n]);
		if (bc_failed(status))
			result = status;
		else if (status == BC_OUTSIDE_RANGE && result == BC_OK)
			result = status;
		at[n++] = i;
	}
	if (bc_failed(result))
		return result;
	bool repaired = made_rising(kept, n);
	for (size_t k = 0; k < n; k++)
		to_c[at[k]] = kept[k];
	return result == BC_OK && repaired ? BC_REPAIRED : result;
}

enum bc_status bc_tbp_points_from_d86(
	const double d86_c[BC_TBP_POINTS], double tbp_c[BC_TBP_POINTS])
{
	return convert_points(d86_c, tbp_c, bc_tbp_from_d86_c);
}

enum bc_status bc_d86_points_from_tbp(
	const double tbp_c[BC_TBP_POINTS], double d86_c[BC_TBP_POINTS])
{
	return convert_points(tbp_c, d86_c, bc_d86_from_tbp_c);
}

/* Where an IBP stands and how the curve leaves its knots: header, notes 1 and 2. */
static const double ibp_pct_d86 = 2.3;
static const double ibp_pct_tbp = 0.5;
static const double front_slope_max = 45.0;
static const double front_share_tbp = 0.5;
static const double back_share = 0.7;

/* Three-point slope at an end, kept monotone: h0, d0 the interval at the end, h1, d1 the next. */
static double end_slope(double h0, double h1, double d0, double d1)
{
	double slope = ((2.0 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
	if (slope * d0 <= 0.0)
		return 0.0;
	if (d0 * d1 <= 0.0 && fabs(slope) > 3.0 * fabs(d0))
		return 3.0 * d0;
	return slope;
}

static void fill_slopes(struct bc_tbp_curve *curve)
{
	assert(curve->n >= 2);
	double h[BC_TBP_KNOTS_MAX];
	double d[BC_TBP_KNOTS_MAX];
	size_t last = curve->n - 1;
	for (size_t i = 0; i < last; i++) {
		h[i] = curve->probit[i + 1] - curve->probit[i];
		d[i] = (curve->temp_c[i + 1] - curve->temp_c[i]) / h[i];
	}
	if (last == 1) {
		curve->slope[0] = curve->slope[1] = d[0];
		return;
	}
	for (size_t i = 1; i < last; i++) {
		double w1 = 2.0 * h[i] + h[i - 1];
		double w2 = h[i] + 2.0 * h[i - 1];
		/* Fritsch-Butland: weighted harmonic mean */
		curve->slope[i] =
			d[i - 1] * d[i] <= 0.0 ? 0.0 : (w1 + w2) / (w1 / d[i - 1] + w2 / d[i]);
	}
	curve->slope[0] = end_slope(h[0], h[1], d[0], d[1]);
	curve->slope[last] = end_slope(h[last - 1], h[last - 2], d[last - 1], d[last - 2]);
}

static enum bc_status take_knots(
	const double pct[], const double temp_c[], size_t n, bool tbp, struct bc_tbp_curve *curve)
{
	double ibp_pct = tbp ? ibp_pct_tbp : ibp_pct_d86;
	double before = -1.0;
	for (size_t i = 0; i < n; i++) {
		if (!(pct[i] > before && pct[i] < 100.0))
			return BC_BAD_DOMAIN;
		before = pct[i];
		if (!isfinite(temp_c[i]) || (curve->has_ibp && pct[i] <= ibp_pct))
			continue;
		if (curve->n == BC_TBP_KNOTS_MAX)
			return BC_BAD_DOMAIN;
		curve->has_ibp = curve->has_ibp || pct[i] == 0.0;
		curve->pct[curve->n] = pct[i] == 0.0 ? ibp_pct : pct[i];
		curve->probit[curve->n] = bc_probit_from_pct(curve->pct[curve->n]);
		curve->temp_c[curve->n++] = temp_c[i];
	}
	return curve->n < 2 ? BC_TOO_FEW : BC_OK;
}

enum bc_status bc_tbp_curve_from_points(
	const double pct[], const double temp_c[], size_t n, bool tbp, struct bc_tbp_curve *curve)
{
	*curve = (struct bc_tbp_curve){.n = 0};
	enum bc_status status = take_knots(pct, temp_c, n, tbp, curve);
	if (bc_failed(status)) {
		*curve = (struct bc_tbp_curve){.n = 0};
		return status;
	}
	bool repaired = made_rising(curve->temp_c, curve->n);
	fill_slopes(curve);
	double front = curve->slope[0];
	curve->front_slope = fmin(tbp ? front_share_tbp * front : front, front_slope_max);
	curve->back_slope = back_share * curve->slope[curve->n - 1];
	return repaired ? BC_REPAIRED : BC_OK;
}

static double hermite_temp_c(const struct bc_tbp_curve *curve, size_t i, double probit)
{
	double h = curve->probit[i + 1] - curve->probit[i];
	double s = (probit - curve->probit[i]) / h;
	double s2 = s * s;
	double s3 = s2 * s;
	return (2.0 * s3 - 3.0 * s2 + 1.0) * curve->temp_c[i] +
	       (s3 - 2.0 * s2 + s) * h * curve->slope[i] +
	       (3.0 * s2 - 2.0 * s3) * curve->temp_c[i + 1] + (s3 - s2) * h * curve->slope[i + 1];
}

static double temp_at_probit(const struct bc_tbp_curve *curve, double probit)
{
	size_t last = curve->n - 1;
	if (probit <= curve->probit[0])
		return curve->temp_c[0] + curve->front_slope * (probit - curve->probit[0]);
	if (probit >= curve->probit[last])
		return curve->temp_c[last] + curve->back_slope * (probit - curve->probit[last]);
	size_t i = 0;
	while (probit > curve->probit[i + 1])
		i++;
	return hermite_temp_c(curve, i, probit);
}

double bc_tbp_curve_temp_c(const struct bc_tbp_curve *curve, double pct)
{
	if (curve->n < 2 || !(pct > 0.0 && pct < 100.0))
		return NAN;
	return temp_at_probit(curve, bc_probit_from_pct(pct));
}

double bc_tbp_curve_pct(const struct bc_tbp_curve *curve, double temp_c)
{
	if (curve->n < 2 || !isfinite(temp_c))
		return NAN;
	size_t last = curve->n - 1;
	if (temp_c <= curve->temp_c[0])
		return curve->front_slope > 0.0
			       ? bc_pct_from_probit(curve->probit[0] + (temp_c - curve->temp_c[0]) /
									       curve->front_slope)
			       : (temp_c < curve->temp_c[0] ? 0.0 : curve->pct[0]);
	if (temp_c >= curve->temp_c[last])
		return curve->back_slope > 0.0
			       ? bc_pct_from_probit(
					 curve->probit[last] +
					 (temp_c - curve->temp_c[last]) / curve->back_slope)
			       : (temp_c > curve->temp_c[last] ? 100.0 : curve->pct[last]);
	double low = curve->probit[0];
	double high = curve->probit[last];
	while (high - low > 1e-10) {
		double middle = 0.5 * (low + high);
		if (temp_at_probit(curve, middle) < temp_c)
			low = middle;
		else
			high = middle;
	}
	return bc_pct_from_probit(0.5 * (low + high));
}
