/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_REPEAT_FORMS_H
#define BC_CURVE_REPEAT_FORMS_H

#include "base/status.h"

/* Whether results of one sample under one hand go together. */

/* Most results that the table of critical ranges holds here. */
#define BC_CRITICAL_RANGE_MAX 20

/*
 * bc_critical_range - widest range that n results of one sample should show
 *
 * Given     repeatability r, 2.8 times the standard deviation under one hand [unit of the property]
 *           n  results, a whole number, 2..20
 * Returned  range = f(n) r/2.8, exceeded by chance in 5 % of cases; NaN on failure
 * Status    BC_BAD_DOMAIN  not finite, r negative, n outside 2..20 or not whole
 * Notes     1. f(n) is the 95 % point of the range of n standard normal values
 * Source    ISO 5725-6:1994, critical range factors; from memory, recomputed to the last digit
 * Checks    tests/outside/reading.chk
 */
enum bc_status bc_critical_range(double repeatability, double n, double *range);

/*
 * bc_grubbs_critical - how far, in standard deviations, the farthest of n values may lie off
 *
 * Given     n      values, a whole number, 3..1000 (note 1)
 *           alpha  chance of a false alarm, both sides together, above 0, below 1
 * Returned  (n - 1)/sqrt(n) sqrt(t^2/(n - 2 + t^2)), t the alpha/(2 n) point of Student's t with
 *           n - 2 degrees of freedom; |x - mean|/s beyond it is an outlier; NaN on failure
 * Status    BC_OUTSIDE_RANGE  n above 1000, value still computed
 *           BC_BAD_DOMAIN     not finite, n below 3 or not whole, alpha outside
 * Notes     1. the source states no range; tables end at 40 to 100
 * Source    Grubbs 1969; ISO 5725-2:1994, table of one outlying value; from memory
 * Checks    tests/outside/reading.chk
 */
enum bc_status bc_grubbs_critical(double n, double alpha, double *critical);

#endif
