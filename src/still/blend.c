/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several oils poured together: the union of their slices, merged where it makes least difference.
 */
#include "still/blend.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include <gsl/gsl_sort.h>

#include "base/memory.h"
#include "fuel/component.h"
#include "fuel/flash.h"

#define NORMAL_KPA 101.325
#define UNION_MAX ((size_t)BC_BLEND_PARTS_MAX * BC_SLICES_MAX)

/* Shares of the whole mixture. */
struct piece {
	double boiling_k;
	double volume;
	double mass; /* volume times SG */
	double moles;
	double extrapolated; /* volume beyond the readings */
	double weight;       /* volume and vapour */
};

struct pieces {
	struct piece items[UNION_MAX];
	size_t n;
};

/* Volume boiled away below a temperature; straight between knots that rise. */
struct boiled {
	double temp_k[3 * UNION_MAX];
	double volume[3 * UNION_MAX];
	size_t n;
};

struct work {
	struct pieces pieces;
	struct boiled boiled;
};

static bool parts_good(const struct bc_blend_part *parts, size_t n)
{
	bool good = n > 0 && n <= BC_BLEND_PARTS_MAX;
	for (size_t i = 0; good && i < n; i++)
		good = parts[i].volume > 0.0 && isfinite(parts[i].volume) && parts[i].slices->n > 0;
	return good;
}

/* ---- the union */

static void take_piece(const struct bc_slice *slice, double share, struct pieces *pieces)
{
	double volume = share * slice->volume_frac;
	pieces->items[pieces->n++] = (struct piece){
		.boiling_k = slice->boiling_k,
		.volume = volume,
		.mass = volume * slice->sg,
		.moles = volume * slice->sg / slice->molar_mass_gmol,
		.extrapolated = slice->extrapolated ? volume : 0.0,
	};
}

/* What a slice brings to the vapour, but for a common factor. */
static double vapour_of(const struct bc_slice *slice, double share, double flash_k)
{
	double limit_pct = NAN;
	bc_lower_limit_jones_pct(slice->molar_mass_gmol, &limit_pct);
	return share * slice->volume_frac * slice->sg / slice->molar_mass_gmol *
	       bc_slice_vapour_bar(slice, flash_k) / limit_pct;
}

static void weigh(const struct bc_blend_part *parts, size_t n, double total, struct pieces *pieces)
{
	double flash_k = 273.15 + 400.0;
	for (size_t i = 0; i < n; i++) {
		double flash_c = NAN;
		if (!bc_failed(bc_flash_vapour_space_c(parts[i].slices, NORMAL_KPA, &flash_c)))
			flash_k = fmin(flash_k, 273.15 + flash_c);
	}
	double sum = 0.0;
	size_t at = 0;
	for (size_t i = 0; i < n; i++)
		for (size_t k = 0; k < parts[i].slices->n; k++) {
			pieces->items[at].weight = vapour_of(
				&parts[i].slices->items[k], parts[i].volume / total, flash_k);
			sum += pieces->items[at++].weight;
		}
	for (size_t i = 0; i < pieces->n; i++)
		pieces->items[i].weight =
			pieces->items[i].volume + (sum > 0.0 ? pieces->items[i].weight / sum : 0.0);
}

static int by_boiling(const void *a, const void *b)
{
	double first = ((const struct piece *)a)->boiling_k;
	double second = ((const struct piece *)b)->boiling_k;
	return (first > second) - (first < second);
}

static void unite(const struct bc_blend_part *parts, size_t n, struct pieces *pieces)
{
	double total = 0.0;
	pieces->n = 0;
	for (size_t i = 0; i < n; i++)
		total += parts[i].volume;
	for (size_t i = 0; i < n; i++)
		for (size_t k = 0; k < parts[i].slices->n; k++)
			take_piece(&parts[i].slices->items[k], parts[i].volume / total, pieces);
	weigh(parts, n, total, pieces);
	qsort(pieces->items, pieces->n, sizeof pieces->items[0], by_boiling);
}

/* ---- merging */

/* Header, note 2. */
static double cost_of(const struct piece *a, const struct piece *b)
{
	double apart = b->boiling_k - a->boiling_k;
	return a->weight * b->weight / (a->weight + b->weight) * apart * apart;
}

static void merge_into(struct piece *a, const struct piece *b)
{
	a->boiling_k = (a->moles * a->boiling_k + b->moles * b->boiling_k) / (a->moles + b->moles);
	a->volume += b->volume;
	a->mass += b->mass;
	a->moles += b->moles;
	a->extrapolated += b->extrapolated;
	a->weight += b->weight;
}

/* Slices of equal boiling point are one, however few there are. */
static void merge(struct pieces *pieces, size_t most)
{
	while (pieces->n > 1) {
		size_t best = 0;
		double least = INFINITY;
		for (size_t i = 0; i + 1 < pieces->n; i++) {
			double cost = cost_of(&pieces->items[i], &pieces->items[i + 1]);
			if (cost < least) {
				least = cost;
				best = i;
			}
		}
		if (pieces->n <= most && least > 0.0)
			return;
		merge_into(&pieces->items[best], &pieces->items[best + 1]);
		pieces->n--;
		for (size_t i = best + 1; i < pieces->n; i++)
			pieces->items[i] = pieces->items[i + 1];
	}
}

/* ---- edges */

/* A slice of one component boils over no range; it is given this much [K]. */
static const double thinnest_k = 1e-6;

/* Share of a slice that boils below temp_k; straight from edge to middle to edge. */
static double below(const struct bc_slice *slice, double temp_k)
{
	double from_k = fmin(slice->from_k, slice->boiling_k - thinnest_k);
	double to_k = fmax(slice->to_k, slice->boiling_k + thinnest_k);
	if (temp_k <= from_k)
		return 0.0;
	if (temp_k >= to_k)
		return 1.0;
	if (temp_k < slice->boiling_k)
		return 0.5 * (temp_k - from_k) / (slice->boiling_k - from_k);
	return 0.5 + 0.5 * (temp_k - slice->boiling_k) / (to_k - slice->boiling_k);
}

static void boil_away(const struct bc_blend_part *parts, size_t n, struct boiled *boiled)
{
	double total = 0.0;
	boiled->n = 0;
	for (size_t i = 0; i < n; i++) {
		total += parts[i].volume;
		for (size_t k = 0; k < parts[i].slices->n; k++) {
			const struct bc_slice *slice = &parts[i].slices->items[k];
			boiled->temp_k[boiled->n++] =
				fmin(slice->from_k, slice->boiling_k - thinnest_k);
			boiled->temp_k[boiled->n++] = slice->boiling_k;
			boiled->temp_k[boiled->n++] =
				fmax(slice->to_k, slice->boiling_k + thinnest_k);
		}
	}
	gsl_sort(boiled->temp_k, 1, boiled->n);
	for (size_t j = 0; j < boiled->n; j++) {
		boiled->volume[j] = 0.0;
		for (size_t i = 0; i < n; i++)
			for (size_t k = 0; k < parts[i].slices->n; k++) {
				const struct bc_slice *slice = &parts[i].slices->items[k];
				boiled->volume[j] += parts[i].volume / total * slice->volume_frac *
						     below(slice, boiled->temp_k[j]);
			}
	}
}

/* The temperature at which so much has boiled away. */
static double temp_at_k(const struct boiled *boiled, double volume)
{
	size_t low = 0;
	size_t high = boiled->n - 1;
	while (high - low > 1) {
		size_t middle = (low + high) / 2;
		if (boiled->volume[middle] < volume)
			low = middle;
		else
			high = middle;
	}
	double span = boiled->volume[high] - boiled->volume[low];
	double share = span > 0.0 ? (volume - boiled->volume[low]) / span : 0.0;
	share = fmin(fmax(share, 0.0), 1.0);
	return boiled->temp_k[low] + share * (boiled->temp_k[high] - boiled->temp_k[low]);
}

static void set_edges(const struct boiled *boiled, struct bc_slices *blend)
{
	double over = 0.0;
	for (size_t i = 0; i < blend->n; i++) {
		struct bc_slice *slice = &blend->items[i];
		double before_k = i > 0 ? blend->items[i - 1].to_k : boiled->temp_k[0];
		slice->from_frac = over;
		over += slice->volume_frac;
		slice->to_frac = over;
		slice->from_k = fmin(before_k, slice->boiling_k);
		slice->to_k =
			i + 1 < blend->n ? temp_at_k(boiled, over) : boiled->temp_k[boiled->n - 1];
		if (i + 1 < blend->n)
			slice->to_k = fmin(slice->to_k, blend->items[i + 1].boiling_k);
		slice->to_k = fmax(slice->to_k, slice->boiling_k);
	}
}

/* ---- the whole */

static enum bc_status complete(const struct piece *piece, struct bc_slice *slice)
{
	*slice = (struct bc_slice){
		.volume_frac = piece->volume,
		.boiling_k = piece->boiling_k,
		.sg = piece->mass / piece->volume,
		.molar_mass_gmol = piece->mass / piece->moles,
		.extrapolated = piece->extrapolated > 0.5 * piece->volume,
	};
	enum bc_status status =
		bc_critical_temp_kesler_lee_k(slice->boiling_k, slice->sg, &slice->critical_k);
	if (!bc_failed(status))
		status = bc_critical_pressure_kesler_lee_bar(
			slice->boiling_k, slice->sg, &slice->critical_bar);
	if (!bc_failed(status))
		status = bc_omega_from_boiling(
			slice->boiling_k, slice->critical_k, slice->critical_bar, &slice->omega);
	return status;
}

static enum bc_status finish(const struct pieces *pieces, struct bc_slices *blend)
{
	double mass = 0.0;
	double moles = 0.0;
	double watson = 0.0; /* sum v (1.8 T)^(1/3) */
	for (size_t i = 0; i < pieces->n; i++) {
		const struct piece *piece = &pieces->items[i];
		enum bc_status status = complete(piece, &blend->items[i]);
		if (bc_failed(status))
			return status;
		mass += piece->mass;
		moles += piece->moles;
		watson += piece->volume * cbrt(1.8 * piece->boiling_k);
	}
	for (size_t i = 0; i < pieces->n; i++)
		blend->items[i].mole_frac = pieces->items[i].moles / moles;
	blend->n = pieces->n;
	blend->sg = mass; /* volumes add up to 1 */
	blend->molar_mass_gmol = mass / moles;
	blend->watson_k = watson / mass;
	return BC_OK;
}

enum bc_status bc_blend_slices(
	const struct bc_blend_part *parts, size_t n, size_t most, struct bc_slices *blend)
{
	*blend = (struct bc_slices){.watson_k = NAN, .sg = NAN, .molar_mass_gmol = NAN};
	if (!parts_good(parts, n) || most < 4 || most > BC_SLICES_MAX)
		return BC_BAD_DOMAIN;
	struct work *work = bc_alloc(sizeof *work);
	if (work == NULL)
		return BC_NO_MEMORY;
	unite(parts, n, &work->pieces);
	merge(&work->pieces, most);
	enum bc_status status = finish(&work->pieces, blend);
	if (bc_failed(status)) {
		blend->n = 0;
	} else {
		boil_away(parts, n, &work->boiled);
		set_edges(&work->boiled, blend);
	}
	bc_free(work);
	return status;
}
