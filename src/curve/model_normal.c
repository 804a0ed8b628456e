/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The straight line on probability paper: T = m + s z(x), z the normal quantile. */
#include <math.h>

#include "base/stats.h"
#include "curve/model.h"

enum { MIDDLE, SPREAD };

static double temp_k(const double *p, double frac)
{
	return p[MIDDLE] + p[SPREAD] * bc_probit_from_pct(100.0 * frac);
}

/* The line is the solution but for the robust loss. */
static int start(size_t k, const double *frac, const double *temp, size_t n, double *p)
{
	double z[BC_START_POINTS];
	size_t used = n < BC_START_POINTS ? n : BC_START_POINTS;

	if (k > 0)
		return 0;
	for (size_t i = 0; i < used; i++)
		z[i] = bc_probit_from_pct(100.0 * frac[i]);
	struct bc_line line = bc_line_through(z, temp, used);
	p[MIDDLE] = line.intercept;
	p[SPREAD] = fmax(line.slope, 0.1);
	return 1;
}

const struct bc_model bc_model_normal = {
	.name = "probability paper",
	.source = "straight line on normal probability paper, as distillation curves are plotted; "
		  "common practice, 10 % to 90 %",
	.n_parameters = 2,
	.parameter_names = {"middle_k", "spread_k"},
	.temp_k = temp_k,
	.positive = 1u << SPREAD,
	.start = start,
};
