/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A figure with its bounds, and the chance that it lies within limits. */
#include "base/estimate.h"

#include <math.h>
#include <stddef.h>

#include <gsl/gsl_cdf.h>

#include "base/stats.h"

struct bc_estimate bc_estimate_absent(void)
{
	return (struct bc_estimate){NAN, NAN, NAN, BC_ABSENT};
}

struct bc_estimate bc_estimate_new(double value, double half_width, enum bc_how how)
{
	if (isnan(value) || how == BC_ABSENT)
		return bc_estimate_absent();
	return (struct bc_estimate){value, value - half_width, value + half_width, how};
}

bool bc_estimate_present(const struct bc_estimate *estimate)
{
	return estimate->how != BC_ABSENT && !isnan(estimate->value);
}

const char *bc_how_text(enum bc_how how)
{
	switch (how) {
	case BC_ABSENT:
		return NULL;
	case BC_MEASURED:
		return "measured";
	case BC_ESTIMATED:
		return "estimated";
	case BC_ASSUMED:
		return "assumed";
	case BC_NOT_VALID:
		return "not valid";
	}
	return NULL;
}

/* Chance of lying below limit; a width of 0 puts all of it on the value, at_value says which side
 * a limit equal to the value counts. */
static double chance_below(double limit, double value, double width, double at_value)
{
	double distance = limit - value;
	if (width > 0.0)
		return gsl_cdf_ugaussian_P(BC_Z95 * distance / width);
	if (distance < 0.0 || distance > 0.0)
		return distance < 0.0 ? 0.0 : 1.0;
	return at_value;
}

double bc_estimate_chance_within(const struct bc_estimate *estimate, double min, double max)
{
	double value = estimate->value;
	double below = fabs(value - estimate->low);
	double above = fabs(estimate->high - value);
	if (isnan(below))
		below = above;
	if (isnan(above))
		above = below;
	if (!bc_estimate_present(estimate) || isnan(below))
		return NAN;
	double under_max = 1.0;
	if (!isnan(max))
		under_max = chance_below(max, value, max < value ? below : above, 1.0);
	double under_min = 0.0;
	if (!isnan(min))
		under_min = chance_below(min, value, min < value ? below : above, 0.0);
	return fmax(0.0, under_max - under_min);
}
