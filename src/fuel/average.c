/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Average boiling points of an oil from its boil-off, and the Watson factor. */
#include "fuel/average.h"

#include <math.h>

#include "base/units.h"

enum bc_status bc_average_boiling_from_d86(
	const double d86_c[5], struct bc_average_boiling *average)
{
	*average = (struct bc_average_boiling){NAN, NAN, NAN, NAN, NAN, NAN};
	double sum = 0.0;
	for (int i = 0; i < 5; i++)
		sum += d86_c[i];
	double slope = (d86_c[4] - d86_c[0]) / 80.0;
	double volume_c = sum / 5.0;
	if (!isfinite(sum) || !(slope > 0.0) || !(volume_c > 0.0))
		return BC_BAD_DOMAIN;

	double sl = 1.8 * slope;
	double x = 1.8 * volume_c; /* VABP - 32, degF */
	/* API 2B1.1, degF set */
	double mass = exp(-3.062123 - 0.01829 * pow(x, 0.6667) + 4.45818 * pow(sl, 0.25));
	double molar = exp(-0.563793 - 0.007981 * pow(x, 0.6667) + 3.04729 * pow(sl, 0.333));
	double cubic = exp(-0.23589 - 0.06906 * pow(x, 0.45) + 1.8858 * pow(sl, 0.45));
	double mean = exp(-0.94402 - 0.00865 * pow(x, 0.6667) + 2.99791 * pow(sl, 0.333));

	average->volume_c = volume_c;
	average->mass_c = volume_c + mass / 1.8;
	average->molar_c = volume_c - molar / 1.8;
	average->cubic_c = volume_c - cubic / 1.8;
	average->mean_c = volume_c - mean / 1.8;
	average->slope_c_per_pct = slope;
	return BC_OK;
}

enum bc_status bc_watson_k(double mean_average_c, double sg, double *watson_k)
{
	*watson_k = NAN;
	if (!isfinite(mean_average_c) || !isfinite(sg) || mean_average_c <= -273.15 || sg <= 0.0)
		return BC_BAD_DOMAIN;
	*watson_k = cbrt(1.8 * bc_temp_k_from_c(mean_average_c)) / sg;
	return BC_OK;
}
