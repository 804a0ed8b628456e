/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_MODEL_H
#define BC_CURVE_MODEL_H

#include <stddef.h>

#include "curve/fit.h"

/* The families, one file each; inside curve/ only. */
extern const struct bc_model bc_model_riazi;
extern const struct bc_model bc_model_normal;
extern const struct bc_model bc_model_log_logistic;
extern const struct bc_model bc_model_extreme_value;
extern const struct bc_model bc_model_kumaraswamy;
extern const struct bc_model bc_model_exponentiated_weibull;

/* Intercept and slope of the straight line through n points (x[i], y[i]) by least squares. */
struct bc_line {
	double intercept;
	double slope;
};
struct bc_line bc_line_through(const double *x, const double *y, size_t n);

/*
 * The line through a boiling curve made straight: y against ln((T - origin)/scale), x against
 * straight(frac, shape). At most BC_START_POINTS of the points are used.
 */
#define BC_START_POINTS 400
struct bc_line bc_line_through_logs(const double *frac, const double *temp_k, size_t n,
	double origin_k, double scale_k, double shape,
	double (*straight)(double frac, double shape));

/* An origin below the first point by a share of the span of the points [K]. */
double bc_origin_below_k(const double *temp_k, size_t n, double share);

#endif
