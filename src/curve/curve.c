/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The monotone curve through the corrected points: falls are pooled, then Steffen's interpolation
 * (M. Steffen, Astron. Astrophys. 239 (1990) 443) as GSL has it, read both ways. */
#include "curve/curve.h"

#include <gsl/gsl_interp.h>
#include <math.h>

#include "base/memory.h"

struct bc_curve {
	size_t n;
	double *pct;
	double *temp_c;
	gsl_interp *interp;
};

/* Pool-adjacent-violators with equal weights, in place: after it temp_c never falls. Returns 1
 * when anything was pooled, -1 without memory. */
static int pool_falls(double *temp_c, size_t n)
{
	size_t *length = bc_alloc_array(n, sizeof *length);
	if (!length)
		return -1;
	int pooled = 0;
	size_t blocks =
		0; /* block b keeps its mean in temp_c[b], which no later point needs any more */
	for (size_t i = 0; i < n; i++) {
		double mean = temp_c[i];
		size_t count = 1;
		while (blocks > 0 && temp_c[blocks - 1] > mean) {
			size_t before = length[blocks - 1];
			mean = (mean * (double)count + temp_c[blocks - 1] * (double)before) /
			       (double)(count + before);
			count += before;
			blocks--;
			pooled = 1;
		}
		temp_c[blocks] = mean;
		length[blocks++] = count;
	}
	for (size_t b = blocks, end = n; b-- > 0;) {
		double mean = temp_c[b];
		for (size_t i = 0; i < length[b]; i++)
			temp_c[--end] = mean;
	}
	bc_free(length);
	return pooled;
}

static enum bc_status check_points(const double *pct, const double *temp_c, size_t n)
{
	if (n < 2)
		return BC_TOO_FEW;
	for (size_t i = 0; i < n; i++) {
		if (!isfinite(pct[i]) || !isfinite(temp_c[i]) || (i > 0 && pct[i] <= pct[i - 1]))
			return BC_BAD_DOMAIN;
	}
	return BC_OK;
}

enum bc_status bc_curve_new(
	const double *pct, const double *temp_c, size_t n, struct bc_curve **curve)
{
	*curve = NULL;
	enum bc_status status = check_points(pct, temp_c, n);
	if (bc_failed(status))
		return status;
	struct bc_curve *new_curve = bc_alloc(sizeof *new_curve);
	if (!new_curve)
		return BC_NO_MEMORY;
	new_curve->n = n;
	new_curve->pct = bc_alloc_array(n, sizeof *new_curve->pct);
	new_curve->temp_c = bc_alloc_array(n, sizeof *new_curve->temp_c);
	/* Steffen's method needs three points. */
	new_curve->interp = gsl_interp_alloc(n > 2 ? gsl_interp_steffen : gsl_interp_linear, n);
	status = BC_NO_MEMORY;
	if (!new_curve->pct || !new_curve->temp_c || !new_curve->interp)
		goto done;
	for (size_t i = 0; i < n; i++) {
		new_curve->pct[i] = pct[i];
		new_curve->temp_c[i] = temp_c[i];
	}
	int pooled = pool_falls(new_curve->temp_c, n);
	if (pooled < 0)
		goto done;
	status = bc_status_from_gsl(
		gsl_interp_init(new_curve->interp, new_curve->pct, new_curve->temp_c, n));
	if (bc_failed(status))
		goto done;
	status = pooled ? BC_REPAIRED : BC_OK;
	*curve = new_curve;
	new_curve = NULL;
done:
	bc_curve_free(new_curve);
	return status;
}

void bc_curve_free(struct bc_curve *curve)
{
	if (!curve)
		return;
	if (curve->interp)
		gsl_interp_free(curve->interp);
	bc_free(curve->pct);
	bc_free(curve->temp_c);
	bc_free(curve);
}

double bc_curve_first_pct(const struct bc_curve *curve) { return curve->pct[0]; }
double bc_curve_last_pct(const struct bc_curve *curve) { return curve->pct[curve->n - 1]; }

static int on_curve(const struct bc_curve *curve, double pct)
{
	return pct >= bc_curve_first_pct(curve) && pct <= bc_curve_last_pct(curve);
}

double bc_curve_temp_c(const struct bc_curve *curve, double pct)
{
	double temp_c = NAN;
	if (!on_curve(curve, pct) || gsl_interp_eval_e(curve->interp, curve->pct, curve->temp_c,
					     pct, NULL, &temp_c) != 0)
		return NAN;
	return temp_c;
}

double bc_curve_slope_c_per_pct(const struct bc_curve *curve, double pct)
{
	double slope = NAN;
	if (!on_curve(curve, pct) || gsl_interp_eval_deriv_e(curve->interp, curve->pct,
					     curve->temp_c, pct, NULL, &slope) != 0)
		return NAN;
	return slope;
}

/* The last point that is not hotter than temp_c; temp_c lies on the curve. */
static size_t last_not_above(const struct bc_curve *curve, double temp_c)
{
	size_t low = 0;
	size_t high = curve->n; /* the first point known to be hotter */
	while (high - low > 1) {
		size_t middle = low + (high - low) / 2;
		if (curve->temp_c[middle] <= temp_c)
			low = middle;
		else
			high = middle;
	}
	return low;
}

double bc_curve_pct(const struct bc_curve *curve, double temp_c)
{
	if (!(temp_c >= curve->temp_c[0] && temp_c <= curve->temp_c[curve->n - 1]))
		return NAN;
	size_t i = last_not_above(curve, temp_c);
	if (i + 1 == curve->n || curve->temp_c[i] == temp_c)
		return curve->pct[i];

	/* Newton's method held inside a shrinking bracket; the curve rises between the two points.
	 */
	double low = curve->pct[i];
	double high = curve->pct[i + 1];
	double share = (temp_c - curve->temp_c[i]) / (curve->temp_c[i + 1] - curve->temp_c[i]);
	double pct = low + share * (high - low);
	for (int step = 0; step < 100 && high - low > 1e-12; step++) {
		double miss = bc_curve_temp_c(curve, pct) - temp_c;
		if (miss == 0.0)
			break;
		if (miss < 0.0)
			low = pct;
		else
			high = pct;
		double next = pct - miss / bc_curve_slope_c_per_pct(curve, pct);
		if (fabs(next - pct) < 1e-13)
			break;
		pct = next > low && next < high ? next : 0.5 * (low + high);
	}
	return pct;
}
