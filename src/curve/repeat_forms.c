/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Critical range and Grubbs' test: whether results of one sample under one hand go together. */
#include "curve/repeat_forms.h"

#include <math.h>
#include <stddef.h>

#include <gsl/gsl_cdf.h>

/* f(n) from n = 2; ISO 5725-6:1994, from memory, recomputed as the range of normal values */
static const double range_factor[] = {2.8, 3.3, 3.6, 3.9, 4.0, 4.2, 4.3, 4.4, 4.5, 4.6, 4.6, 4.7,
	4.7, 4.8, 4.8, 4.9, 4.9, 5.0, 5.0};

enum bc_status bc_critical_range(double repeatability, double n, double *range)
{
	*range = NAN;
	if (!isfinite(repeatability) || repeatability < 0.0 ||
		!(n >= 2.0 && n <= (double)BC_CRITICAL_RANGE_MAX) || floor(n) != n)
		return BC_BAD_DOMAIN;
	*range = range_factor[(size_t)n - 2] / range_factor[0] * repeatability;
	return BC_OK;
}

enum bc_status bc_grubbs_critical(double n, double alpha, double *critical)
{
	*critical = NAN;
	if (!isfinite(n) || n < 3.0 || floor(n) != n || !(alpha > 0.0 && alpha < 1.0))
		return BC_BAD_DOMAIN;
	double t = gsl_cdf_tdist_Qinv(alpha / (2.0 * n), n - 2.0);
	*critical = (n - 1.0) / sqrt(n) * sqrt(t * t / (n - 2.0 + t * t));
	return n > 1000.0 ? BC_OUTSIDE_RANGE : BC_OK;
}
