/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lower flammable limits of compounds and mixtures by other published forms. */
#include "fuel/lower_limit.h"

#include <math.h>
#include <stdbool.h>

static bool positive(double x) { return isfinite(x) && x > 0.0; }

enum bc_status bc_lower_limit_atoms_pct(double carbon, double hydrogen, double *limit_pct)
{
	*limit_pct = NAN;
	if (!positive(carbon) || !isfinite(hydrogen) || hydrogen < 0.0)
		return BC_BAD_DOMAIN;
	/* 4.773 mol of air to one of oxygen */
	*limit_pct = 0.55 * 100.0 / (1.0 + 4.773 * (carbon + hydrogen / 4.0));
	return BC_OK;
}

enum bc_status bc_lower_limit_alkane_pct(double carbon, double *limit_pct)
{
	/* Bulletin 627, n-pentane to n-hexadecane; from memory */
	static const double limits[] = {
		1.4, 1.2, 1.05, 0.95, 0.85, 0.75, 0.68, 0.60, 0.55, 0.50, 0.46, 0.43};
	*limit_pct = NAN;
	if (!(carbon >= 5.0 && carbon <= 16.0) || floor(carbon) != carbon)
		return BC_BAD_DOMAIN;
	*limit_pct = limits[(size_t)carbon - 5];
	return BC_OK;
}

enum bc_status bc_lower_limit_burgess_wheeler_pct(
	double limit25_pct, double heat_kcalmol, double temp_c, double *limit_pct)
{
	*limit_pct = NAN;
	if (!positive(limit25_pct) || !positive(heat_kcalmol) || !isfinite(temp_c))
		return BC_BAD_DOMAIN;
	double limit = limit25_pct - 0.75 * (temp_c - 25.0) / heat_kcalmol;
	if (!(limit > 0.0))
		return BC_BAD_DOMAIN;
	*limit_pct = limit;
	return BC_OK;
}

enum bc_status bc_lower_limit_mixture_pct(
	const double *share, const double *limit_pct, size_t n, double *mixture_pct)
{
	double shares = 0.0;
	double sum = 0.0;
	*mixture_pct = NAN;
	for (size_t i = 0; i < n; i++) {
		if (!(share[i] >= 0.0) || (share[i] > 0.0 && !positive(limit_pct[i])))
			return BC_BAD_DOMAIN;
		shares += share[i];
		sum += share[i] > 0.0 ? share[i] / limit_pct[i] : 0.0;
	}
	if (!(fabs(shares - 1.0) <= 0.001))
		return BC_BAD_DOMAIN;
	*mixture_pct = shares / sum;
	return BC_OK;
}
