/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Small statistics on GSL. */
#include "base/stats.h"

#include <math.h>

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics_double.h>

double bc_probit_from_pct(double pct)
{
	if (!(pct >= 0.0 && pct <= 100.0))
		return NAN;
	return gsl_cdf_ugaussian_Pinv(pct / 100.0);
}

double bc_pct_from_probit(double probit) { return 100.0 * gsl_cdf_ugaussian_P(probit); }

double bc_student95(double freedom)
{
	return freedom > 0.0 ? gsl_cdf_tdist_Pinv(0.975, freedom) : (double)NAN;
}

double bc_median(double *values, size_t n)
{
	if (n == 0)
		return NAN;
	gsl_sort(values, 1, n);
	return gsl_stats_median_from_sorted_data(values, 1, n);
}

double bc_root_sum_square(const double *values, size_t n)
{
	double sum = 0.0;
	for (size_t i = 0; i < n; i++)
		sum += values[i] * values[i];
	return sqrt(sum);
}
