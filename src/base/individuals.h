/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_INDIVIDUALS_H
#define BC_BASE_INDIVIDUALS_H

#include <stddef.h>

#include "base/status.h"

/* Chart of individual values and moving ranges of two: what a process does by itself. */

/* Expected range of two normal values by their sigma, 2/sqrt(pi) = 1.128: Shewhart's d2(2). */
#define BC_D2_OF_TWO 1.128
/* Upper limit of the moving range by its mean, D4(2): ISO 7870-2, seen in a public copy. */
#define BC_D4_OF_TWO 3.267

struct bc_individuals {
	double mean;
	double mean_range; /* of neighbours */
	double sigma;      /* mean_range/1.128 */
	double upper;      /* mean + 3 sigma */
	double lower;      /* mean - 3 sigma */
	double range_upper;
};

/*
 * bc_individuals_chart - centre line and limits of n values in their order
 *
 * Given     values of any unit; n, at least 2 (use 15 or more before trusting the limits)
 * Returned  *chart; all NaN on failure
 * Status    BC_TOO_FEW     fewer than two values
 *           BC_BAD_DOMAIN  a value that is not finite
 * Source    ISO 7870-2, Shewhart individuals chart; constants and example seen in public copies
 * Checks    tests/unit/base/test_individuals.c
 */
enum bc_status bc_individuals_chart(const double *values, size_t n, struct bc_individuals *chart);

/*
 * bc_chart_upper, bc_chart_lower, bc_chart_sigma, bc_chart_range_upper - from the two means alone
 *
 * Given     mean and mean_range of the chart, mean_range 0 or more
 * Returned  mean +- 3 mean_range/1.128, mean_range/1.128, 3.267 mean_range; NaN on failure
 * Status    BC_BAD_DOMAIN  not finite, or negative
 * Source    ISO 7870-2, as above
 * Checks    tests/outside/reading.chk
 */
enum bc_status bc_chart_upper(double mean, double mean_range, double *upper);
enum bc_status bc_chart_lower(double mean, double mean_range, double *lower);
enum bc_status bc_chart_sigma(double mean_range, double *sigma);
enum bc_status bc_chart_range_upper(double mean_range, double *range_upper);

#endif
