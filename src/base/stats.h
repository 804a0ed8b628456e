/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_STATS_H
#define BC_BASE_STATS_H

#include <stddef.h>

/* Normal quantile of a percentage, the "probit" on which a boiling curve is nearly straight. */
double bc_probit_from_pct(double pct);
double bc_pct_from_probit(double probit);

/* Two-sided 95 % point of the normal curve. */
#define BC_Z95 1.959963984540054
/* The same of Student's t; NaN for no degrees of freedom. */
double bc_student95(double freedom);

/* Median of n values, which are reordered; NaN for n == 0. */
double bc_median(double *values, size_t n);

/* Root of the sum of squares of n values. */
double bc_root_sum_square(const double *values, size_t n);

#endif
