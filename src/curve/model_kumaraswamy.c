/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Kumaraswamy's distribution between two ends: T = T0 + W [1 - (1 - x)^(1/b)]^(1/a). */
#include <math.h>

#include "curve/model.h"

enum { T0, WIDTH, A, B };

static double unit(double frac, double b) { return -expm1(log1p(-frac) / b); }

static double temp_k(const double *p, double frac)
{
	return p[T0] + p[WIDTH] * pow(unit(frac, p[B]), 1.0 / p[A]);
}

static double straight(double frac, double b) { return log(unit(frac, b)); }

static int start(size_t k, const double *frac, const double *temp, size_t n, double *p)
{
	static const double shares[] = {0.1, 0.1, 0.5, 0.5};
	static const double shapes[] = {1.3, 6.0, 1.3, 6.0};

	if (k >= sizeof shares / sizeof *shares)
		return 0;
	p[T0] = bc_origin_below_k(temp, n, shares[k]);
	p[B] = shapes[k];
	struct bc_line line = bc_line_through_logs(frac, temp, n, p[T0], 1.0, p[B], straight);
	p[A] = 1.0 / fmax(line.slope, 0.05);
	p[WIDTH] = exp(line.intercept);
	return 1;
}

const struct bc_model bc_model_kumaraswamy = {
	.name = "kumaraswamy",
	.source = "Kumaraswamy's distribution between two ends; among the best of 25 on boiling "
		  "curves in Sanchez, Ancheyta & McCaffrey, Energy & Fuels 21 (2007) 2955; formula "
		  "from memory",
	.n_parameters = 4,
	.parameter_names = {"t0_k", "width_k", "a", "b"},
	.temp_k = temp_k,
	.positive = 1u << WIDTH | 1u << A | 1u << B,
	.start = start,
};
