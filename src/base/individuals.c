/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The individuals and moving-range chart: constants and limits. */
#include "base/individuals.h"

#include <math.h>

enum bc_status bc_chart_sigma(double mean_range, double *sigma)
{
	*sigma = NAN;
	if (!isfinite(mean_range) || mean_range < 0.0)
		return BC_BAD_DOMAIN;
	*sigma = mean_range / BC_D2_OF_TWO;
	return BC_OK;
}

enum bc_status bc_chart_upper(double mean, double mean_range, double *upper)
{
	double sigma = NAN;
	*upper = NAN;
	enum bc_status status = bc_chart_sigma(mean_range, &sigma);
	if (bc_failed(status) || !isfinite(mean))
		return BC_BAD_DOMAIN;
	*upper = mean + 3.0 * sigma;
	return status;
}

enum bc_status bc_chart_lower(double mean, double mean_range, double *lower)
{
	enum bc_status status = bc_chart_upper(mean, mean_range, lower);
	*lower = 2.0 * mean - *lower;
	return status;
}

enum bc_status bc_chart_range_upper(double mean_range, double *range_upper)
{
	*range_upper = NAN;
	if (!isfinite(mean_range) || mean_range < 0.0)
		return BC_BAD_DOMAIN;
	*range_upper = BC_D4_OF_TWO * mean_range;
	return BC_OK;
}

enum bc_status bc_individuals_chart(const double *values, size_t n, struct bc_individuals *chart)
{
	*chart = (struct bc_individuals){NAN, NAN, NAN, NAN, NAN, NAN};
	if (n < 2)
		return BC_TOO_FEW;
	double sum = 0.0;
	double ranges = 0.0;
	for (size_t i = 0; i < n; i++) {
		sum += values[i];
		if (i > 0)
			ranges += fabs(values[i] - values[i - 1]);
	}
	if (!isfinite(sum) || !isfinite(ranges))
		return BC_BAD_DOMAIN;
	chart->mean = sum / (double)n;
	chart->mean_range = ranges / (double)(n - 1);
	bc_chart_sigma(chart->mean_range, &chart->sigma);
	bc_chart_upper(chart->mean, chart->mean_range, &chart->upper);
	bc_chart_lower(chart->mean, chart->mean_range, &chart->lower);
	bc_chart_range_upper(chart->mean_range, &chart->range_upper);
	return BC_OK;
}
