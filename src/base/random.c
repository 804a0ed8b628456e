/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws from distributions, on GSL's generator, and what intervals they fill. */
#include "base/random.h"

#include <float.h>
#include <math.h>

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_math.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics_double.h>

#include "base/memory.h"
#include "base/stats.h"

struct bc_random {
	gsl_rng *rng;
};

struct bc_random *bc_random_new(unsigned long seed)
{
	struct bc_random *random = bc_alloc(sizeof *random);
	if (!random)
		return NULL;
	random->rng = gsl_rng_alloc(gsl_rng_mt19937);
	if (!random->rng) {
		bc_free(random);
		return NULL;
	}
	bc_random_restart(random, seed);
	return random;
}

void bc_random_free(struct bc_random *random)
{
	if (!random)
		return;
	gsl_rng_free(random->rng);
	bc_free(random);
}

void bc_random_restart(struct bc_random *random, unsigned long seed)
{
	gsl_rng_set(random->rng, seed);
}

double bc_random_uniform(struct bc_random *random) { return gsl_rng_uniform(random->rng); }

double bc_random_normal(struct bc_random *random)
{
	return gsl_ran_gaussian_ziggurat(random->rng, 1.0);
}

double bc_random_rectangular(struct bc_random *random, double low, double high)
{
	return low + (high - low) * bc_random_uniform(random);
}

double bc_random_triangular(struct bc_random *random, double low, double high)
{
	double sum = bc_random_uniform(random) + bc_random_uniform(random);
	return low + 0.5 * (high - low) * sum;
}

double bc_random_arc_sine(struct bc_random *random, double low, double high)
{
	double swing = sin(2.0 * M_PI * bc_random_uniform(random));
	return 0.5 * (low + high) + 0.5 * (high - low) * swing;
}

double bc_random_curved_trapezoid(struct bc_random *random, double low, double high, double doubt)
{
	double from = low - doubt + 2.0 * doubt * bc_random_uniform(random);
	double to = low + high - from; /* the middle is known */
	return from + (to - from) * bc_random_uniform(random);
}

double bc_random_t(struct bc_random *random, double degrees)
{
	return gsl_ran_tdist(random->rng, degrees);
}

void bc_random_strata(struct bc_random *random, double *z, size_t n)
{
	for (size_t i = 0; i < n; i++) {
		double share = ((double)i + bc_random_uniform(random)) / (double)n;
		z[i] = gsl_cdf_ugaussian_Pinv(fmax(share, DBL_MIN));
	}
	gsl_ran_shuffle(random->rng, z, n, sizeof *z);
}

double bc_half_and_half(double z, double value, double low, double high)
{
	return value + z / BC_Z95 * (z < 0.0 ? value - low : high - value);
}

/* Brings what is finite to the front, sorted; how many. */
static size_t sort_finite(double *values, size_t n)
{
	size_t kept = 0;
	for (size_t i = 0; i < n; i++)
		if (isfinite(values[i]))
			values[kept++] = values[i];
	gsl_sort(values, 1, kept);
	return kept;
}

void bc_spread_of(double *values, size_t n, double *low, double *high)
{
	*low = *high = NAN;
	size_t kept = sort_finite(values, n);
	if (kept < 2 || 2 * kept < n)
		return;
	*low = gsl_stats_quantile_from_sorted_data(values, 1, kept, 0.025);
	*high = gsl_stats_quantile_from_sorted_data(values, 1, kept, 0.975);
}

void bc_shortest_interval(double *values, size_t n, double share, double *low, double *high)
{
	*low = *high = NAN;
	size_t kept = sort_finite(values, n);
	size_t inside = (size_t)(share * (double)kept + 0.5);
	if (inside < 1 || inside >= kept)
		return;
	size_t best = 0;
	for (size_t i = 1; i + inside < kept; i++)
		if (values[i + inside] - values[i] < values[best + inside] - values[best])
			best = i;
	*low = values[best];
	*high = values[best + inside];
}
