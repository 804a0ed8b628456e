/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exponentiated Weibull distribution from an origin: T = T0 + s [-ln(1 - x^(1/c))]^(1/b). */
#include <math.h>

#include "curve/model.h"

enum { T0, SCALE, SHAPE, POWER };

/* -ln(1 - x^(1/c)), without loss of digits at either end of x */
static double hazard(double frac, double power) { return -log(-expm1(log(frac) / power)); }

static double temp_k(const double *p, double frac)
{
	return p[T0] + p[SCALE] * pow(hazard(frac, p[POWER]), 1.0 / p[SHAPE]);
}

static double straight(double frac, double power) { return log(hazard(frac, power)); }

static int start(size_t k, const double *frac, const double *temp, size_t n, double *p)
{
	static const double shares[] = {0.1, 0.3, 0.3};
	static const double powers[] = {1.0, 0.5, 2.5};

	if (k >= sizeof shares / sizeof *shares)
		return 0;
	p[T0] = bc_origin_below_k(temp, n, shares[k]);
	p[POWER] = powers[k];
	struct bc_line line = bc_line_through_logs(frac, temp, n, p[T0], 1.0, p[POWER], straight);
	p[SHAPE] = 1.0 / fmax(line.slope, 0.05);
	p[SCALE] = exp(line.intercept);
	return 1;
}

const struct bc_model bc_model_exponentiated_weibull = {
	.name = "exponentiated weibull",
	.source = "Weibull distribution raised to a power, Mudholkar & Srivastava, IEEE Trans. "
		  "Reliability 42 (1993) 299; from memory",
	.n_parameters = 4,
	.parameter_names = {"t0_k", "scale_k", "shape", "power"},
	.temp_k = temp_k,
	.positive = 1u << SCALE | 1u << SHAPE | 1u << POWER,
	.start = start,
};
