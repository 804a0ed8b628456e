/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_CURVE_H
#define BC_CURVE_CURVE_H

#include <stddef.h>

#include "base/status.h"

/* A monotone curve (Steffen's) through points that rise in percent; falls are pooled first. */
struct bc_curve;

/*
 * pct[] must rise strictly; n >= 2 (two points make a straight line). Temperatures that fall are
 * pooled to their mean (pool-adjacent-violators): status BC_REPAIRED. BC_TOO_FEW, BC_BAD_DOMAIN,
 * BC_NO_MEMORY leave *curve NULL.
 */
enum bc_status bc_curve_new(
	const double *pct, const double *temp_c, size_t n, struct bc_curve **curve);
void bc_curve_free(struct bc_curve *curve);

/* Read both ways; NaN outside the first and last point, never extrapolated. On a shelf bc_curve_pct
 * gives its upper end. */
double bc_curve_temp_c(const struct bc_curve *curve, double pct);
double bc_curve_pct(const struct bc_curve *curve, double temp_c);
double bc_curve_slope_c_per_pct(const struct bc_curve *curve, double pct);
double bc_curve_first_pct(const struct bc_curve *curve);
double bc_curve_last_pct(const struct bc_curve *curve);

#endif
