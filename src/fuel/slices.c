/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An oil as pseudo-components: made from a curve or from known components, cut, and read back. */
#include "fuel/slices.h"

#include <math.h>

#include "base/stats.h"
#include "base/units.h"
#include "fuel/component.h"

/* Edge temperatures of the outermost slices: the curve has none at 0 and 100 %, so they are read a
 * tenth of the outermost probit edge (0.2 %) from the ends. */
static const double outermost_edge_pct = 0.02;
/* Beyond these nothing is told apart: header, notes 2 and 3. */
static const double hottest_c = 700.0;
static const double coldest_c = -42.1;

/* Constants of a slice whose boiling point and SG are known. */
static enum bc_status complete(struct bc_slice *slice)
{
	enum bc_status mass_status =
		bc_molar_mass_api_gmol(slice->boiling_k, slice->sg, &slice->molar_mass_gmol);
	if (bc_failed(mass_status))
		return mass_status;
	enum bc_status status =
		bc_critical_temp_kesler_lee_k(slice->boiling_k, slice->sg, &slice->critical_k);
	if (!bc_failed(status))
		status = bc_critical_pressure_kesler_lee_bar(
			slice->boiling_k, slice->sg, &slice->critical_bar);
	if (!bc_failed(status))
		status = bc_omega_from_boiling(
			slice->boiling_k, slice->critical_k, slice->critical_bar, &slice->omega);
	return bc_failed(status) ? status : mass_status;
}

/* Volume and mole shares, and the sums over all slices. */
static void add_up(struct bc_slices *slices)
{
	double volume = 0.0;
	double mass = 0.0;
	double moles = 0.0;
	for (size_t i = 0; i < slices->n; i++) {
		const struct bc_slice *slice = &slices->items[i];
		volume += slice->volume_frac;
		mass += slice->volume_frac * slice->sg;
		moles += slice->volume_frac * slice->sg / slice->molar_mass_gmol;
	}
	slices->sg = mass / volume;
	slices->molar_mass_gmol = mass / moles;
	for (size_t i = 0; i < slices->n; i++) {
		struct bc_slice *slice = &slices->items[i];
		slice->mole_frac = slice->volume_frac * slice->sg / slice->molar_mass_gmol / moles;
		slice->volume_frac /= volume;
	}
}

/* Completes every slice and adds up; on failure slices->n is 0. */
static enum bc_status finish(struct bc_slices *slices)
{
	enum bc_status result = BC_OK;
	for (size_t i = 0; i < slices->n; i++) {
		enum bc_status status = complete(&slices->items[i]);
		if (bc_failed(status)) {
			slices->n = 0;
			return status;
		}
		if (status == BC_OUTSIDE_RANGE)
			result = status;
	}
	add_up(slices);
	return result;
}

/* n + 1 edges in percent: n/2 + 1 uniform from 0 to 100, and n/2 + 1 uniform in probit of which the
 * middle one is 50 % too. */
static void fill_edges(size_t n, double *edge_pct)
{
	size_t half = n / 2;
	size_t count = 0;
	size_t next = 0; /* of those uniform in volume */
	double z_low = bc_probit_from_pct(0.2);
	for (size_t i = 0; i <= half; i++) {
		double pct = bc_pct_from_probit(z_low * (1.0 - 2.0 * (double)i / (double)half));
		if (half % 2 == 0 && i == half / 2)
			continue;
		for (; next <= half && 100.0 * (double)next / (double)half <= pct; next++)
			edge_pct[count++] = 100.0 * (double)next / (double)half;
		edge_pct[count++] = pct;
	}
	for (; next <= half; next++)
		edge_pct[count++] = 100.0 * (double)next / (double)half;
}

static double curve_temp_k(const struct bc_tbp_curve *curve, double pct)
{
	double inside = fmin(fmax(pct, outermost_edge_pct), 100.0 - outermost_edge_pct);
	double temp_c = bc_tbp_curve_temp_c(curve, inside);
	return bc_temp_k_from_c(fmax(fmin(temp_c, hottest_c), coldest_c));
}

enum bc_status bc_slices_from_tbp(const struct bc_tbp_curve *curve, double sg, size_t n,
	double read_from_pct, double read_to_pct, struct bc_slices *slices)
{
	*slices = (struct bc_slices){.watson_k = NAN, .sg = NAN, .molar_mass_gmol = NAN};
	if (!isfinite(sg) || sg <= 0.0 || n < 4 || n > BC_SLICES_MAX || n % 4 != 0 || curve->n < 2)
		return BC_BAD_DOMAIN;
	double edge_pct[BC_SLICES_MAX + 2] = {0.0};
	fill_edges(n, edge_pct);
	double k_times_sg = 0.0; /* sum of v (1.8 T)^(1/3) */
	for (size_t i = 0; i < n; i++) {
		struct bc_slice *slice = &slices->items[i];
		double middle_pct = 0.5 * (edge_pct[i] + edge_pct[i + 1]);
		slice->from_frac = edge_pct[i] / 100.0;
		slice->to_frac = edge_pct[i + 1] / 100.0;
		slice->volume_frac = slice->to_frac - slice->from_frac;
		slice->from_k = curve_temp_k(curve, edge_pct[i]);
		slice->to_k = curve_temp_k(curve, edge_pct[i + 1]);
		slice->boiling_k = curve_temp_k(curve, middle_pct);
		slice->extrapolated = middle_pct < read_from_pct || middle_pct > read_to_pct;
		if (!(slice->boiling_k > 0.0))
			return BC_BAD_DOMAIN;
		k_times_sg += slice->volume_frac * cbrt(1.8 * slice->boiling_k);
	}
	slices->n = n;
	slices->watson_k = k_times_sg / sg;
	for (size_t i = 0; i < n; i++)
		slices->items[i].sg = cbrt(1.8 * slices->items[i].boiling_k) / slices->watson_k;
	return finish(slices);
}

enum bc_status bc_slices_from_components(const double *boiling_k, const double *sg,
	const double *volume_frac, size_t n, struct bc_slices *slices)
{
	*slices = (struct bc_slices){.watson_k = NAN, .sg = NAN, .molar_mass_gmol = NAN};
	double total = 0.0;
	for (size_t i = 0; i < n && i < BC_SLICES_MAX; i++) {
		if (!(volume_frac[i] > 0.0 && boiling_k[i] > 0.0 && sg[i] > 0.0))
			return BC_BAD_DOMAIN;
		total += volume_frac[i];
	}
	if (n == 0 || n > BC_SLICES_MAX || !isfinite(total))
		return BC_BAD_DOMAIN;
	double from = 0.0;
	for (size_t i = 0; i < n; i++) {
		struct bc_slice *slice = &slices->items[i];
		slice->volume_frac = volume_frac[i] / total;
		slice->from_frac = from;
		from += slice->volume_frac;
		slice->to_frac = from;
		slice->from_k = slice->to_k = slice->boiling_k = boiling_k[i];
		slice->sg = sg[i];
	}
	slices->n = n;
	return finish(slices);
}

/* Boiling point at a place 0..1 within a slice. */
static double temp_within_k(const struct bc_slice *slice, double place)
{
	if (place < 0.5)
		return slice->from_k + 2.0 * place * (slice->boiling_k - slice->from_k);
	return slice->boiling_k + (2.0 * place - 1.0) * (slice->to_k - slice->boiling_k);
}

/* The piece of a slice between two places 0..1; heavier or lighter pieces keep the Watson K. */
static struct bc_slice piece(const struct bc_slice *slice, double from, double to)
{
	struct bc_slice part = *slice;
	double width = slice->to_frac - slice->from_frac;
	part.from_frac = slice->from_frac + from * width;
	part.to_frac = slice->from_frac + to * width;
	part.volume_frac = slice->volume_frac * (to - from);
	part.from_k = temp_within_k(slice, from);
	part.to_k = temp_within_k(slice, to);
	part.boiling_k = temp_within_k(slice, 0.5 * (from + to));
	part.sg = slice->sg * cbrt(part.boiling_k / slice->boiling_k);
	return part;
}

/* Pieces thinner than this share of the oil are rounding, not a cut. */
static const double thinnest_frac = 1e-12;

enum bc_status bc_slices_cut(
	const struct bc_slices *whole, double from_frac, double to_frac, struct bc_slices *part)
{
	*part = (struct bc_slices){.watson_k = whole->watson_k, .sg = NAN, .molar_mass_gmol = NAN};
	if (!(from_frac >= 0.0 && to_frac <= 1.0 && to_frac - from_frac > thinnest_frac))
		return BC_BAD_DOMAIN;
	double start = 0.0;
	for (size_t i = 0; i < whole->n; i++) {
		const struct bc_slice *slice = &whole->items[i];
		double end = i + 1 == whole->n ? 1.0 : start + slice->volume_frac;
		double from = fmax(from_frac, start);
		double to = fmin(to_frac, end);
		if (to - from > thinnest_frac)
			part->items[part->n++] = piece(slice, (from - start) / (end - start),
				(to - start) / (end - start));
		start = end;
	}
	return part->n == 0 ? BC_BAD_DOMAIN : finish(part);
}

double bc_slices_temp_k(const struct bc_slices *slices, double frac)
{
	if (slices->n == 0 || !(frac >= 0.0 && frac <= 1.0))
		return NAN;
	double start = 0.0;
	size_t i = 0;
	while (i + 1 < slices->n && frac > start + slices->items[i].volume_frac)
		start += slices->items[i++].volume_frac;
	const struct bc_slice *slice = &slices->items[i];
	return temp_within_k(slice, fmin((frac - start) / slice->volume_frac, 1.0));
}

enum bc_status bc_slices_d86_c(const struct bc_slices *slices, double d86_c[BC_TBP_POINTS])
{
	double tbp_c[BC_TBP_POINTS];
	for (size_t i = 0; i < BC_TBP_POINTS; i++) {
		/* an IBP leads to the 2.3 % point: bc_tbp_curve_from_points, note 1 */
		double pct = i == 0 ? 2.3 : bc_tbp_point_pct[i];
		tbp_c[i] = bc_temp_c_from_k(bc_slices_temp_k(slices, pct / 100.0));
	}
	return bc_d86_points_from_tbp(tbp_c, d86_c);
}

double bc_slice_vapour_bar(const struct bc_slice *slice, double temp_k)
{
	double pressure_bar = NAN;
	bc_vapour_pressure_lee_kesler_bar(
		temp_k, slice->critical_k, slice->critical_bar, slice->omega, &pressure_bar);
	return pressure_bar;
}
