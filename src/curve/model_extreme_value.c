/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Generalised extreme value distribution: T = m + s [(-ln x)^(-k) - 1]/k. */
#include <math.h>

#include "curve/model.h"

enum { PLACE, SCALE, SHAPE };

static double temp_k(const double *p, double frac)
{
	double gumbel = -log(-log(frac));
	double bent = p[SHAPE] * gumbel;

	/* expm1(b)/b tends to 1: the curve of Gumbel */
	double factor = fabs(bent) > 1e-12 ? expm1(bent) / bent : 1.0;
	return p[PLACE] + p[SCALE] * gumbel * factor;
}

static int start(size_t k, const double *frac, const double *temp, size_t n, double *p)
{
	static const double shapes[] = {-0.25, 0.15};
	double x[BC_START_POINTS];
	size_t used = n < BC_START_POINTS ? n : BC_START_POINTS;

	if (k >= sizeof shapes / sizeof *shapes)
		return 0;
	const double unit[] = {0.0, 1.0, shapes[k]};
	for (size_t i = 0; i < used; i++)
		x[i] = temp_k(unit, frac[i]);
	struct bc_line line = bc_line_through(x, temp, used);
	p[PLACE] = line.intercept;
	p[SCALE] = fmax(line.slope, 0.1);
	p[SHAPE] = shapes[k];
	return 1;
}

const struct bc_model bc_model_extreme_value = {
	.name = "extreme value",
	.source = "generalised extreme value distribution, Jenkinson 1955; from memory",
	.n_parameters = 3,
	.parameter_names = {"place_k", "scale_k", "shape"},
	.temp_k = temp_k,
	.positive = 1u << SCALE,
	.start = start,
};
