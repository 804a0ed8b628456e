/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Log-logistic distribution from an origin: T = T0 + s (x/(1 - x))^(1/b). */
#include <math.h>

#include "curve/model.h"

enum { T0, SCALE, SHAPE };

static double temp_k(const double *p, double frac)
{
	return p[T0] + p[SCALE] * pow(frac / (1.0 - frac), 1.0 / p[SHAPE]);
}

static double straight(double frac, double shape)
{
	(void)shape;
	return log(frac / (1.0 - frac));
}

static int start(size_t k, const double *frac, const double *temp, size_t n, double *p)
{
	static const double shares[] = {0.1, 0.5, 3.0};

	if (k >= sizeof shares / sizeof *shares)
		return 0;
	p[T0] = bc_origin_below_k(temp, n, shares[k]);
	struct bc_line line = bc_line_through_logs(frac, temp, n, p[T0], 1.0, 0.0, straight);
	p[SHAPE] = 1.0 / fmax(line.slope, 0.02);
	p[SCALE] = exp(line.intercept);
	return 1;
}

const struct bc_model bc_model_log_logistic = {
	.name = "log-logistic",
	.source = "log-logistic distribution with origin, one of the families compared on boiling "
		  "curves by Sanchez, Ancheyta & McCaffrey, Energy & Fuels 21 (2007) 2955; "
		  "formula from memory",
	.n_parameters = 3,
	.parameter_names = {"t0_k", "scale_k", "shape"},
	.temp_k = temp_k,
	.positive = 1u << SCALE | 1u << SHAPE,
	.start = start,
};
