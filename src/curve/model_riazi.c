/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Riazi's three-parameter distribution: (T - T0)/T0 = [(A/B) ln(1/(1 - x))]^(1/B). */
#include <math.h>

#include "curve/model.h"

enum { T0, A, B };

static double temp_k(const double *p, double frac)
{
	return p[T0] * (1.0 + pow(p[A] / p[B] * -log1p(-frac), 1.0 / p[B]));
}

static double straight(double frac, double shape)
{
	(void)shape;
	return log(-log1p(-frac));
}

static int start(size_t k, const double *frac, const double *temp, size_t n, double *p)
{
	static const double shares[] = {0.1, 0.3, 1.0};

	if (k >= sizeof shares / sizeof *shares)
		return 0;
	p[T0] = fmax(bc_origin_below_k(temp, n, shares[k]), 100.0);
	struct bc_line line = bc_line_through_logs(frac, temp, n, p[T0], p[T0], 0.0, straight);
	p[B] = 1.0 / fmax(line.slope, 0.05);
	p[A] = p[B] * exp(line.intercept * p[B]);
	return 1;
}

const struct bc_model bc_model_riazi = {
	.name = "riazi",
	.source = "Riazi, Characterization and Properties of Petroleum Fractions, ASTM MNL50, "
		  "three-parameter distribution model; seen in a public copy",
	.n_parameters = 3,
	.parameter_names = {"t0_k", "a", "b"},
	.temp_k = temp_k,
	.positive = 1u << T0 | 1u << A | 1u << B,
	.start = start,
};
