/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Average boiling points of a mixture of known components. */
#include "fuel/known_mixture.h"

#include <math.h>

#include "base/units.h"

static enum bc_status mixture_status(const double *share, const double *boiling_c, size_t n)
{
	double sum = 0.0;
	for (size_t i = 0; i < n; i++) {
		if (!isfinite(boiling_c[i]) || !(share[i] >= 0.0))
			return BC_BAD_DOMAIN;
		sum += share[i];
	}
	return fabs(sum - 1.0) <= 0.001 ? BC_OK : BC_BAD_DOMAIN;
}

enum bc_status bc_known_average_c(
	const double *share, const double *boiling_c, size_t n, double *average_c)
{
	*average_c = NAN;
	enum bc_status status = mixture_status(share, boiling_c, n);
	if (bc_failed(status))
		return status;
	double sum = 0.0;
	double shares = 0.0;
	for (size_t i = 0; i < n; i++) {
		sum += share[i] * boiling_c[i];
		shares += share[i];
	}
	*average_c = sum / shares;
	return BC_OK;
}

/* zero_f: where the scale of the cube root has its zero [degF] */
static enum bc_status cubic(
	const double *share, const double *boiling_c, size_t n, double zero_f, double *average_c)
{
	*average_c = NAN;
	enum bc_status status = mixture_status(share, boiling_c, n);
	if (bc_failed(status))
		return status;
	double sum = 0.0;
	double shares = 0.0;
	for (size_t i = 0; i < n; i++) {
		sum += share[i] * cbrt(bc_temp_f_from_c(boiling_c[i]) - zero_f);
		shares += share[i];
	}
	sum /= shares;
	*average_c = bc_temp_c_from_f(sum * sum * sum + zero_f);
	return BC_OK;
}

enum bc_status bc_known_cubic_c(
	const double *share, const double *boiling_c, size_t n, double *average_c)
{
	return cubic(share, boiling_c, n, 0.0, average_c);
}

enum bc_status bc_known_cubic_rankine_c(
	const double *share, const double *boiling_c, size_t n, double *average_c)
{
	return cubic(share, boiling_c, n, -459.67, average_c);
}

enum bc_status bc_known_mean_c(const double *mole_share, const double *volume_share,
	const double *boiling_c, size_t n, double *average_c)
{
	double molar_c = NAN;
	double cubic_c = NAN;
	*average_c = NAN;
	enum bc_status status = bc_known_average_c(mole_share, boiling_c, n, &molar_c);
	if (!bc_failed(status))
		status = bc_known_cubic_c(volume_share, boiling_c, n, &cubic_c);
	if (bc_failed(status))
		return status;
	*average_c = 0.5 * (molar_c + cubic_c);
	return BC_OK;
}
