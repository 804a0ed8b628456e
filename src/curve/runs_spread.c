/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The spread between runs of one oil, and what it leaves of the doubt in their mean. */
#include "curve/runs_spread.h"

#include <math.h>

#include <gsl/gsl_cdf.h>

#include "base/stats.h"

/* runs_spread.h, bc_runs_half_width_c */
#define ASSUMED_FREEDOM 8.0

double bc_runs_spread_c(const struct bc_runs_spread *spread, double pct)
{
	const double *at = spread->pct;
	const double *half = spread->half_width_c;
	size_t i = 0;

	if (spread->n == 0)
		return 0.0;
	if (pct <= at[0])
		return half[0];
	while (i + 1 < spread->n && at[i + 1] < pct)
		i++;
	if (i + 1 == spread->n)
		return half[i];
	return half[i] + (pct - at[i]) / (at[i + 1] - at[i]) * (half[i + 1] - half[i]);
}

double bc_runs_sigma_c(double assumed_c, double sd_c, size_t n)
{
	if (n == 0)
		return NAN;
	double sigma_c = assumed_c / BC_Z95;
	double own = (double)n - 1.0;
	double square = ASSUMED_FREEDOM * sigma_c * sigma_c + (n > 1 ? own * sd_c * sd_c : 0.0);
	return sqrt(square / (ASSUMED_FREEDOM + own));
}

double bc_runs_half_width_c(double assumed_c, double sd_c, size_t n)
{
	if (n == 0)
		return NAN;
	double t = gsl_cdf_tdist_Pinv(0.975, ASSUMED_FREEDOM + (double)n - 1.0);
	return t * bc_runs_sigma_c(assumed_c, sd_c, n) / sqrt((double)n);
}
