/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A batch still from an oil to its jars: sets up the run, and reads it back at any place. */
#include "still/column.h"

#include <math.h>

#include "base/memory.h"
#include "base/units.h"
#include "fuel/component.h"
#include "still/march.h"

#define ROUGH_ROW_K 8.0 /* K within 0.2 %, 0.1 K */
/* Slices below this share of a jar are traces. */
static const double trace_frac = 1e-9;
/* Places thinner than this are no jar. */
static const double thinnest_frac = 1e-12;
static const double normal_bar = 1.01325;

struct bc_run *bc_run_new(void) { return bc_alloc(sizeof(struct bc_run)); }
void bc_run_free(struct bc_run *run) { bc_free(run); }
struct bc_still_work *bc_still_work_new(void) { return bc_alloc(sizeof(struct bc_still_work)); }
void bc_still_work_free(struct bc_still_work *work) { bc_free(work); }

enum bc_status bc_column_run(const struct bc_slices *slices, const struct bc_column *column,
	const struct bc_run_options *options, struct bc_still_work *work, struct bc_run *run)
{
	run->n = 0;
	double row_k = options->steps == BC_STEPS_ROUGH ? ROUGH_ROW_K : BC_K_ROW_K;
	enum bc_status status =
		bc_k_table_of_slices(slices, column->pressure_kpa, row_k, &work->table);
	if (bc_failed(status))
		return status;
	run->charge = *slices;
	run->column = *column;
	work->charge.n = slices->n;
	for (size_t i = 0; i < slices->n; i++) {
		const struct bc_slice *slice = &slices->items[i];
		work->charge.volume[i] = slice->volume_frac;
		work->charge.molar_volume[i] = slice->molar_mass_gmol / slice->sg;
	}
	return bc_march(work, column, options, run);
}

/* ---- reading a run */

/* Node before over_frac; false outside the run. */
static bool find_node(const struct bc_run *run, double over_frac, size_t *node)
{
	if (run->n == 0 || !(over_frac >= 0.0 && over_frac <= run->over_frac[run->n - 1]))
		return false;
	size_t low = 0;
	size_t high = run->n - 1;
	while (high - low > 1 && high > 0) {
		size_t middle = (low + high) / 2;
		if (run->over_frac[middle] <= over_frac)
			low = middle;
		else
			high = middle;
	}
	*node = low;
	return true;
}

/* Cubic Hermite on 0..h, slopes held to what keeps it monotone (Fritsch & Carlson 1980). */
static double monotone(
	double left, double right, double left_slope, double right_slope, double h, double place)
{
	double secant = (right - left) / h;
	double s = place / h;
	double t = 1.0 - s;
	double m0 = left_slope * secant <= 0.0 ? 0.0 : left_slope;
	double m1 = right_slope * secant <= 0.0 ? 0.0 : right_slope;
	if (fabs(m0) > 3.0 * fabs(secant))
		m0 = 3.0 * secant;
	if (fabs(m1) > 3.0 * fabs(secant))
		m1 = 3.0 * secant;
	return left + s * s * (3.0 - 2.0 * s) * (right - left) + s * t * (t * m0 - s * m1) * h;
}

double bc_run_over(const struct bc_run *run, size_t i, double over_frac)
{
	size_t node;
	if (i >= run->charge.n || !find_node(run, over_frac, &node))
		return NAN;
	double place = over_frac - run->over_frac[node];
	if (place <= 0.0 || node + 1 >= run->n)
		return run->over[node][i];
	double h = run->over_frac[node + 1] - run->over_frac[node];
	return monotone(run->over[node][i], run->over[node + 1][i], run->leaving[node][i],
		run->leaving[node + 1][i], h, place);
}

/* Three-point slope at a node; at the ends the secant. */
static double slope_at(const struct bc_run *run, const double *values, size_t node)
{
	const double *v = run->over_frac;
	if (node == 0)
		return (values[1] - values[0]) / (v[1] - v[0]);
	if (node + 1 == run->n)
		return (values[node] - values[node - 1]) / (v[node] - v[node - 1]);
	double h0 = v[node] - v[node - 1];
	double h1 = v[node + 1] - v[node];
	double d0 = (values[node] - values[node - 1]) / h0;
	double d1 = (values[node + 1] - values[node]) / h1;
	return (h1 * d0 + h0 * d1) / (h0 + h1);
}

static double value_at(const struct bc_run *run, const double *values, double over_frac)
{
	size_t node;
	if (!find_node(run, over_frac, &node))
		return NAN;
	double place = over_frac - run->over_frac[node];
	if (place <= 0.0 || node + 1 >= run->n)
		return values[node];
	double h = run->over_frac[node + 1] - run->over_frac[node];
	return monotone(values[node], values[node + 1], slope_at(run, values, node),
		slope_at(run, values, node + 1), h, place);
}

struct bc_run_point bc_run_at(const struct bc_run *run, double over_frac)
{
	return (struct bc_run_point){
		value_at(run, run->head_c, over_frac), value_at(run, run->pot_c, over_frac)};
}

/* First place where a temperature is reached; within a step it is monotone. */
static double first_at(const struct bc_run *run, const double *values, double wanted)
{
	if (run->n == 0 || !isfinite(wanted))
		return NAN;
	if (values[0] >= wanted)
		return 0.0;
	size_t node = 1;
	while (node < run->n && values[node] < wanted)
		node++;
	if (node == run->n)
		return NAN;
	double low = run->over_frac[node - 1];
	double high = run->over_frac[node];
	while (high - low > 1e-12) {
		double middle = 0.5 * (low + high);
		if (value_at(run, values, middle) < wanted)
			low = middle;
		else
			high = middle;
	}
	return high;
}

double bc_run_frac_at_head(const struct bc_run *run, double head_c)
{
	return first_at(run, run->head_c, head_c);
}

double bc_run_frac_at_pot(const struct bc_run *run, double pot_c)
{
	return first_at(run, run->pot_c, pot_c);
}

double bc_run_mass_frac(const struct bc_run *run, double over_frac)
{
	double over = 0.0;
	double whole = 0.0;
	for (size_t i = 0; i < run->charge.n; i++) {
		const struct bc_slice *slice = &run->charge.items[i];
		over += bc_run_over(run, i, over_frac) * slice->sg;
		whole += slice->volume_frac * slice->sg;
	}
	return whole > 0.0 ? over / whole : (double)NAN;
}

double bc_run_frac_at_mass(const struct bc_run *run, double mass_frac)
{
	if (run->n == 0 || !(mass_frac >= 0.0))
		return NAN;
	double low = 0.0;
	double high = run->over_frac[run->n - 1];
	if (mass_frac > bc_run_mass_frac(run, high))
		return NAN;
	while (high - low > 1e-12) {
		double middle = 0.5 * (low + high);
		if (bc_run_mass_frac(run, middle) < mass_frac)
			low = middle;
		else
			high = middle;
	}
	return high;
}

/* What comes over at a place, moles (not brought to 1). */
static bool leaving_moles(const struct bc_run *run, double over_frac, double *moles)
{
	size_t node;
	if (!find_node(run, over_frac, &node))
		return false;
	bool last = node + 1 >= run->n;
	double share = last ? 0.0
			    : (over_frac - run->over_frac[node]) /
				       (run->over_frac[node + 1] - run->over_frac[node]);
	for (size_t i = 0; i < run->charge.n; i++) {
		const struct bc_slice *slice = &run->charge.items[i];
		double volume = (1.0 - share) * run->leaving[node][i] +
				share * run->leaving[last ? node : node + 1][i];
		moles[i] = volume * slice->sg / slice->molar_mass_gmol;
	}
	return true;
}

double bc_run_head_normal_c(const struct bc_run *run, double over_frac)
{
	double moles[BC_SLICES_MAX];
	if (!leaving_moles(run, over_frac, moles))
		return NAN;
	double total = 0.0;
	double low_k = INFINITY;
	double high_k = 0.0;
	for (size_t i = 0; i < run->charge.n; i++) {
		total += moles[i];
		low_k = fmin(low_k, run->charge.items[i].boiling_k);
		high_k = fmax(high_k, run->charge.items[i].boiling_k);
	}
	while (high_k - low_k > 1e-6) {
		double middle = 0.5 * (low_k + high_k);
		double liquid = 0.0; /* sum y P/p: above 1 it condenses */
		for (size_t i = 0; i < run->charge.n; i++)
			if (moles[i] > 0.0)
				liquid += moles[i] / total * normal_bar /
					  bc_slice_vapour_bar(&run->charge.items[i], middle);
		if (liquid > 1.0)
			low_k = middle;
		else
			high_k = middle;
	}
	return bc_temp_c_from_k(0.5 * (low_k + high_k));
}

/* ---- jars */

enum bc_status bc_run_oil(const struct bc_slices *charge, const double *volume,
	struct bc_slices *slices, double *share_frac)
{
	double total = 0.0;
	for (size_t i = 0; i < charge->n; i++)
		total += volume[i];
	if (share_frac)
		*share_frac = total;
	*slices =
		(struct bc_slices){.watson_k = charge->watson_k, .sg = NAN, .molar_mass_gmol = NAN};
	if (!(total > thinnest_frac))
		return BC_BAD_DOMAIN;
	double kept = 0.0;
	double mass = 0.0;
	double moles = 0.0;
	for (size_t i = 0; i < charge->n; i++) {
		if (!(volume[i] > trace_frac * total))
			continue;
		struct bc_slice *slice = &slices->items[slices->n++];
		*slice = charge->items[i];
		slice->volume_frac = volume[i];
		slice->mole_frac = volume[i] * slice->sg / slice->molar_mass_gmol;
		kept += volume[i];
		mass += volume[i] * slice->sg;
		moles += slice->mole_frac;
	}
	for (size_t i = 0; i < slices->n; i++) {
		slices->items[i].volume_frac /= kept;
		slices->items[i].mole_frac /= moles;
	}
	slices->sg = mass / kept;
	slices->molar_mass_gmol = mass / moles;
	return BC_OK;
}

enum bc_status bc_run_jar(const struct bc_run *run, double from_frac, double to_frac,
	struct bc_slices *slices, double *share_frac)
{
	double volume[BC_SLICES_MAX];
	slices->n = 0;
	if (share_frac)
		*share_frac = NAN;
	if (run->n == 0 || !(from_frac >= 0.0 && from_frac < to_frac) ||
		!(to_frac <= run->over_frac[run->n - 1]))
		return BC_BAD_DOMAIN;
	for (size_t i = 0; i < run->charge.n; i++)
		volume[i] =
			fmax(bc_run_over(run, i, to_frac) - bc_run_over(run, i, from_frac), 0.0);
	return bc_run_oil(&run->charge, volume, slices, share_frac);
}

enum bc_status bc_run_pot(
	const struct bc_run *run, double over_frac, struct bc_slices *slices, double *share_frac)
{
	double volume[BC_SLICES_MAX];
	slices->n = 0;
	if (share_frac)
		*share_frac = NAN;
	if (run->n == 0 || !(over_frac >= 0.0 && over_frac <= run->over_frac[run->n - 1]))
		return BC_BAD_DOMAIN;
	for (size_t i = 0; i < run->charge.n; i++)
		volume[i] = fmax(
			run->charge.items[i].volume_frac - bc_run_over(run, i, over_frac), 0.0);
	return bc_run_oil(&run->charge, volume, slices, share_frac);
}
