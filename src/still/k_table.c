/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Equilibrium ratios of all components, tabulated so that no stage has to compute an exponential.
 */
#include "still/k_table.h"

#include <math.h>
#include <stdbool.h>

static const double margin_k = 5.0;
/* where boiling points are looked for; wider than any oil at any pressure of a still */
static const double coldest_k = 120.0;
static const double hottest_k = 1000.0;
static const double highest_reduced = 1.3;

/* Constants of the slices as the vapour pressure needs them. */
struct raoult {
	size_t n;
	double ln_critical_k[BC_SLICES_MAX];
	double inverse_critical[BC_SLICES_MAX];
	double ln_factor[BC_SLICES_MAX]; /* ln(Pc/P) */
	double omega[BC_SLICES_MAX];
};

/* Lee-Kesler with its derivative; coefficients as in fuel/component.c */
static void raoult_row(const void *context, double temp_k, double *k, double *slope)
{
	const struct raoult *r = context;
	double ln_temp = log(temp_k);
	for (size_t i = 0; i < r->n; i++) {
		double tr = temp_k * r->inverse_critical[i];
		double ln_tr = ln_temp - r->ln_critical_k[i];
		bool clamped = tr > highest_reduced;
		if (clamped) {
			tr = highest_reduced;
			ln_tr = log(highest_reduced);
		}
		double inverse = 1.0 / tr;
		double tr5 = tr * tr * tr * tr * tr;
		double f0 = 5.92714 - 6.09648 * inverse - 1.28862 * ln_tr + 0.169347 * tr5 * tr;
		double f1 = 15.2518 - 15.6875 * inverse - 13.4721 * ln_tr + 0.43577 * tr5 * tr;
		double d0 = (6.09648 * inverse - 1.28862) * inverse + 6.0 * 0.169347 * tr5;
		double d1 = (15.6875 * inverse - 13.4721) * inverse + 6.0 * 0.43577 * tr5;
		k[i] = exp(r->ln_factor[i] + f0 + r->omega[i] * f1);
		slope[i] = clamped ? 0.0 : k[i] * (d0 + r->omega[i] * d1) * r->inverse_critical[i];
	}
}

enum bc_status bc_k_table_fill(struct bc_k_table *table, size_t n, double low_k, double high_k,
	double row_k, bc_k_function *function, const void *context)
{
	table->n = 0;
	if (n == 0 || n > BC_SLICES_MAX || !(low_k > 0.0) || !(high_k > low_k) || isinf(high_k) ||
		!(row_k > 0.0))
		return BC_BAD_DOMAIN;
	double range = high_k - low_k;
	double intervals = fmin(ceil(range / row_k), BC_K_ROWS_MAX - 1);
	table->rows = (size_t)intervals + 1;
	table->step_k = range / intervals;
	table->low_k = low_k;
	table->high_k = high_k;
	for (size_t row = 0; row < table->rows; row++) {
		double *k = table->value[row][0];
		double *slope = table->value[row][1];
		function(context, low_k + table->step_k * (double)row, k, slope);
		for (size_t i = 0; i < n; i++) {
			if (!(isfinite(k[i]) && k[i] > 0.0 && isfinite(slope[i])))
				return BC_BAD_DOMAIN;
			slope[i] *= table->step_k;
		}
	}
	table->n = n;
	return BC_OK;
}

double bc_slice_boils_k(const struct bc_slice *slice, double pressure_bar)
{
	double low = coldest_k;
	double high = hottest_k;
	if (!(bc_slice_vapour_bar(slice, low) < pressure_bar) ||
		!(bc_slice_vapour_bar(slice, high) > pressure_bar))
		return NAN;
	while (high - low > 0.01) {
		double middle = 0.5 * (low + high);
		if (bc_slice_vapour_bar(slice, middle) < pressure_bar)
			low = middle;
		else
			high = middle;
	}
	return low;
}

enum bc_status bc_k_table_of_slices(
	const struct bc_slices *slices, double pressure_kpa, double row_k, struct bc_k_table *table)
{
	table->n = 0;
	if (slices->n == 0 || !(pressure_kpa > 0.0) || isinf(pressure_kpa))
		return BC_BAD_DOMAIN;
	double pressure_bar = pressure_kpa / 100.0;
	struct raoult r = {.n = slices->n};
	const struct bc_slice *lightest = &slices->items[0];
	const struct bc_slice *heaviest = &slices->items[0];
	for (size_t i = 0; i < slices->n; i++) {
		const struct bc_slice *slice = &slices->items[i];
		r.ln_critical_k[i] = log(slice->critical_k);
		r.inverse_critical[i] = 1.0 / slice->critical_k;
		r.ln_factor[i] = log(slice->critical_bar / pressure_bar);
		r.omega[i] = slice->omega;
		if (slice->boiling_k < lightest->boiling_k)
			lightest = slice;
		if (slice->boiling_k > heaviest->boiling_k)
			heaviest = slice;
	}
	double low_k = bc_slice_boils_k(lightest, pressure_bar);
	double high_k = bc_slice_boils_k(heaviest, pressure_bar);
	if (isnan(low_k) || isnan(high_k))
		return BC_BAD_DOMAIN;
	return bc_k_table_fill(
		table, slices->n, low_k - margin_k, high_k + margin_k, row_k, raoult_row, &r);
}

void bc_k_table_at(const struct bc_k_table *table, double temp_k, double *k, double *slope)
{
	double inside = fmin(fmax(temp_k, table->low_k), table->high_k);
	double place = (inside - table->low_k) / table->step_k;
	size_t row = (size_t)place;
	if (row > table->rows - 2)
		row = table->rows - 2;
	double s = place - (double)row;
	double t = 1.0 - s;
	const double *k0 = table->value[row][0];
	const double *m0 = table->value[row][1];
	const double *k1 = table->value[row + 1][0];
	const double *m1 = table->value[row + 1][1];
	/* cubic Hermite and its derivative */
	double rise = s * s * (3.0 - 2.0 * s);
	double left = s * t * t;
	double right = -s * s * t;
	double inverse = 1.0 / table->step_k;
	double rise_d = 6.0 * s * t * inverse;
	double left_d = t * (1.0 - 3.0 * s) * inverse;
	double right_d = s * (3.0 * s - 2.0) * inverse;
	for (size_t i = 0; i < table->n; i++) {
		double difference = k1[i] - k0[i];
		k[i] = k0[i] + rise * difference + left * m0[i] + right * m1[i];
		slope[i] = rise_d * difference + left_d * m0[i] + right_d * m1[i];
	}
}
