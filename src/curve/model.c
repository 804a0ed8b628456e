/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the families of boiling curves share: their list, and straight lines for their starts. */
#include "curve/model.h"

#include <math.h>

const struct bc_model *const bc_models[] = {
	&bc_model_riazi,
	&bc_model_normal,
	&bc_model_log_logistic,
	&bc_model_extreme_value,
	&bc_model_kumaraswamy,
	&bc_model_exponentiated_weibull,
	NULL,
};

struct bc_line bc_line_through(const double *x, const double *y, size_t n)
{
	double mean_x = 0.0;
	double mean_y = 0.0;
	double sum_xx = 0.0;
	double sum_xy = 0.0;

	for (size_t i = 0; i < n; i++) {
		mean_x += x[i] / (double)n;
		mean_y += y[i] / (double)n;
	}
	for (size_t i = 0; i < n; i++) {
		sum_xx += (x[i] - mean_x) * (x[i] - mean_x);
		sum_xy += (x[i] - mean_x) * (y[i] - mean_y);
	}
	double slope = sum_xx > 0.0 ? sum_xy / sum_xx : 0.0;
	return (struct bc_line){.intercept = mean_y - slope * mean_x, .slope = slope};
}

struct bc_line bc_line_through_logs(const double *frac, const double *temp_k, size_t n,
	double origin_k, double scale_k, double shape,
	double (*straight)(double frac, double shape))
{
	double x[BC_START_POINTS] = {0};
	double y[BC_START_POINTS] = {0};
	size_t used = n < BC_START_POINTS ? n : BC_START_POINTS;

	for (size_t i = 0; i < used; i++) {
		x[i] = straight(frac[i], shape);
		y[i] = log((temp_k[i] - origin_k) / scale_k);
	}
	return bc_line_through(x, y, used);
}

double bc_origin_below_k(const double *temp_k, size_t n, double share)
{
	double low = temp_k[0];
	double high = temp_k[0];

	for (size_t i = 1; i < n; i++) {
		low = fmin(low, temp_k[i]);
		high = fmax(high, temp_k[i]);
	}
	return low - share * fmax(high - low, 1.0);
}
