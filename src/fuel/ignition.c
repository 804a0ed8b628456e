/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Indices of how a fuel ignites and drives, from its density and its boil-off. */
#include "fuel/ignition.h"

#include <math.h>
#include <stdbool.h>

enum bc_status bc_cetane_index_d4737a(
	double density15_kgm3, double t10_c, double t50_c, double t90_c, double *cetane_index)
{
	*cetane_index = NAN;
	if (!isfinite(density15_kgm3) || density15_kgm3 <= 0.0 || !isfinite(t10_c) ||
		!isfinite(t50_c) || !isfinite(t90_c))
		return BC_BAD_DOMAIN;
	double d = density15_kgm3 / 1000.0;
	double t10n = t10_c - 215.0;
	double t50n = t50_c - 260.0;
	double t90n = t90_c - 310.0;
	double b = exp(-3.5 * (d - 0.85)) - 1.0;
	/* D4737 procedure A */
	*cetane_index = 45.2 + 0.0892 * t10n + (0.131 + 0.901 * b) * t50n +
			(0.0523 - 0.420 * b) * t90n + 0.00049 * (t10n * t10n - t90n * t90n) +
			107.0 * b + 60.0 * b * b;
	bool inside = d >= 0.805 && d <= 0.895 && t10_c >= 171.0 && t10_c <= 259.0 &&
		      t50_c >= 212.0 && t50_c <= 308.0 && t90_c >= 251.0 && t90_c <= 363.0;
	return inside ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_cetane_index_d976(double density15_kgm3, double t50_c, double *cetane_index)
{
	*cetane_index = NAN;
	if (!isfinite(density15_kgm3) || !isfinite(t50_c) || density15_kgm3 <= 0.0 || t50_c <= 0.0)
		return BC_BAD_DOMAIN;
	double d = density15_kgm3 / 1000.0;
	double log_b = log10(t50_c);
	/* D976, metric */
	*cetane_index =
		454.74 - 1641.416 * d + 774.74 * d * d - 0.554 * t50_c + 97.803 * log_b * log_b;
	bool inside = d >= 0.6 && d <= 1.1 && t50_c >= 50.0 && t50_c <= 400.0; /* note 3 */
	return inside ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_driveability_index(
	double t10_evaporated_c, double t50_evaporated_c, double t90_evaporated_c, double *index)
{
	*index = NAN;
	if (!isfinite(t10_evaporated_c) || !isfinite(t50_evaporated_c) ||
		!isfinite(t90_evaporated_c))
		return BC_BAD_DOMAIN;
	*index = 1.5 * t10_evaporated_c + 3.0 * t50_evaporated_c + t90_evaporated_c;
	return BC_OK;
}
