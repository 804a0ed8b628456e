/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Precision of the standard test by group and hand, and ISO 4259 on a result. */
#include "curve/precision_forms.h"

#include <math.h>
#include <stdbool.h>
#include <stddef.h>
#include <string.h>

static const struct precision_row {
	const char *set;
	double from_pct;
	double to_pct;
	double r_c;
	double r_per_slope;
	double R_c;
	double R_per_slope;
	const char *source;
	const char *trust;
} rows[] = {
#include "d86-precision-groups.inc"
};

static const char *const set_names[] = {
	[BC_PRECISION_1_MANUAL] = "1 manual",
	[BC_PRECISION_1_AUTOMATED] = "1 automated",
	[BC_PRECISION_24_MANUAL] = "2-4 manual",
	[BC_PRECISION_24_AUTOMATED] = "2-4 automated",
};

/* Last row of the set that begins at or below the percent, first that ends at or above it. */
static void rows_around(const char *set, double pct, const struct precision_row **below,
	const struct precision_row **above)
{
	*below = *above = NULL;
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		if (strcmp(rows[i].set, set) != 0)
			continue;
		if (rows[i].from_pct <= pct)
			*below = &rows[i];
		if (*above == NULL && rows[i].to_pct >= pct)
			*above = &rows[i];
	}
}

enum bc_status bc_d86_precision_c(enum bc_precision_set set, double recovered_pct,
	double slope_c_per_pct, double *r_c, double *R_c)
{
	*r_c = *R_c = NAN;
	if (!(recovered_pct >= 0.0 && recovered_pct <= 100.0) || !isfinite(slope_c_per_pct) ||
		slope_c_per_pct < 0.0)
		return BC_BAD_DOMAIN;
	const struct precision_row *below = NULL;
	const struct precision_row *above = NULL;
	rows_around(set_names[set], recovered_pct, &below, &above);
	double share = below == above ? 0.0
				      : (recovered_pct - below->to_pct) /
						(above->from_pct - below->to_pct);
	double s = slope_c_per_pct;
	*r_c = (1.0 - share) * (below->r_c + below->r_per_slope * s) +
	       share * (above->r_c + above->r_per_slope * s);
	*R_c = (1.0 - share) * (below->R_c + below->R_per_slope * s) +
	       share * (above->R_c + above->R_per_slope * s);
	return below == above ? BC_OK : BC_OUTSIDE_RANGE;
}

static enum bc_status volume_precision(double a, double b, double slope_c_per_pct, double *pct)
{
	*pct = NAN;
	if (!isfinite(slope_c_per_pct) || slope_c_per_pct <= 0.0)
		return BC_BAD_DOMAIN;
	*pct = a + b / slope_c_per_pct;
	return BC_OK;
}

enum bc_status bc_d86_volume_r_pct(double slope_c_per_pct, double *r_pct)
{
	return volume_precision(0.7, 0.92, slope_c_per_pct, r_pct);
}

enum bc_status bc_d86_volume_R_pct(double slope_c_per_pct, double *R_pct)
{
	return volume_precision(1.5, 1.78, slope_c_per_pct, R_pct);
}

static bool precision(double x) { return isfinite(x) && x >= 0.0; }

static const double one_sided = 0.59; /* ISO 4259, as printed */

enum bc_status bc_iso4259_upper(double limit, double reproducibility, double *tolerated)
{
	*tolerated = NAN;
	if (!isfinite(limit) || !precision(reproducibility))
		return BC_BAD_DOMAIN;
	*tolerated = limit + one_sided * reproducibility;
	return BC_OK;
}

enum bc_status bc_iso4259_lower(double limit, double reproducibility, double *tolerated)
{
	*tolerated = NAN;
	if (!isfinite(limit) || !precision(reproducibility))
		return BC_BAD_DOMAIN;
	*tolerated = limit - one_sided * reproducibility;
	return BC_OK;
}

enum bc_status bc_iso4259_half_width(double reproducibility, double *half_width)
{
	*half_width = NAN;
	if (!precision(reproducibility))
		return BC_BAD_DOMAIN;
	*half_width = reproducibility / sqrt(2.0);
	return BC_OK;
}

static bool count_from(double k, double least)
{
	return isfinite(k) && k >= least && floor(k) == k;
}

enum bc_status bc_iso4259_mean_R(
	double repeatability, double reproducibility, double k, double *mean_R)
{
	*mean_R = NAN;
	if (!precision(repeatability) || !precision(reproducibility) || !count_from(k, 1.0))
		return BC_BAD_DOMAIN;
	double square =
		reproducibility * reproducibility - repeatability * repeatability * (1.0 - 1.0 / k);
	if (square < 0.0)
		return BC_BAD_DOMAIN;
	*mean_R = sqrt(square);
	return BC_OK;
}

enum bc_status bc_iso4259_outlier(double repeatability, double k, double *distance)
{
	*distance = NAN;
	if (!precision(repeatability) || !count_from(k, 2.0))
		return BC_BAD_DOMAIN;
	*distance = repeatability * sqrt(0.5 * (1.0 + 1.0 / (k - 1.0)));
	return BC_OK;
}
