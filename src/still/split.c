/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The perfect split: the largest cut of an oil that meets a standard, by two bisections in turn. */
#include "still/split.h"

#include <math.h>
#include <string.h>

#include "base/units.h"

static void place_turn(const struct bc_slices *slices, double frac,
	const struct bc_conditions *conditions, double *turn_c, double *reading_c)
{
	*turn_c = bc_corrected_from_true(bc_temp_c_from_k(bc_slices_temp_k(slices, frac)));
	*reading_c = bc_reading_from_corrected(conditions, *turn_c);
}

/* A light jar that stays empty has no turn; the product always ends somewhere. */
static void place_turns(
	const struct bc_slices *slices, const struct bc_conditions *conditions, struct bc_cut *cut)
{
	if (cut->light_until_frac > 0.0)
		place_turn(slices, cut->light_until_frac, conditions, &cut->light_until_c,
			&cut->light_until_reading_c);
	place_turn(slices, cut->product_until_frac, conditions, &cut->product_until_c,
		&cut->product_until_reading_c);
	cut->light_pct = 100.0 * cut->light_until_frac;
	cut->tail_pct = 100.0 * (1.0 - cut->product_until_frac);
	cut->product_pct = 100.0 - cut->light_pct - cut->tail_pct;
}

static enum bc_status cut_perfectly(
	const void *context, double from_frac, double to_frac, struct bc_slices *slices)
{
	return bc_slices_cut(context, from_frac, to_frac, slices);
}

static enum bc_status find(const struct bc_charge *charge, const struct bc_limits *limits,
	const char *standard, double thinnest_frac, struct bc_cut *cut)
{
	struct bc_search search = {.cutter = cut_perfectly,
		.context = charge->slices,
		.end_frac = 1.0,
		.margin_c = NAN,
		.thinnest_frac = thinnest_frac,
		.ceiling_frac = fmin(charge->ceiling_frac, 1.0),
		.parent = charge->parent};
	struct bc_cut work;
	bc_cut_forget(cut);
	if (charge->slices->n == 0 || bc_search_unmendable(charge->grades, standard) ||
		!bc_search_plan(limits, standard, &search))
		return BC_NOT_FOUND;
	enum bc_status status = bc_search_run(&search, cut);
	if (bc_failed(status))
		return status;
	bc_cut_forget(&work);
	cut->basis = "perfect split, the bound that no still reaches";
	cut->heavy_end = !bc_search_kept(&search, 0.0, 1.0, false, &work);
	place_turns(charge->slices, charge->conditions, cut);
	return BC_OK;
}

enum bc_status bc_split_find(const struct bc_charge *charge, const struct bc_limits *limits,
	const char *standard, struct bc_cut *cut)
{
	return find(charge, limits, standard, BC_THINNEST_FRAC, cut);
}

double bc_split_head_frac(const struct bc_slices *slices, double head_c)
{
	double low = 0.0;
	double high = 1.0;
	while (high - low > BC_FINEST_FRAC) {
		double middle = 0.5 * (low + high);
		double true_c = bc_temp_c_from_k(bc_slices_temp_k(slices, middle));
		if (bc_corrected_from_true(true_c) > head_c)
			high = middle;
		else
			low = middle;
	}
	double last_c = bc_temp_c_from_k(bc_slices_temp_k(slices, 1.0));
	return bc_corrected_from_true(last_c) > head_c ? low : 1.0;
}

/* ---- over all standards */

/* Gasoline and variants that are not judged of themselves are cut only when asked for. */
static bool asked_for(const struct bc_limit *limit, enum bc_grade_name want, const char *standard)
{
	if (!bc_standard_asked_for(limit->grade, limit->standard, want, standard))
		return false;
	return want != BC_GRADES || standard != NULL ||
	       (limit->judged && limit->grade != BC_GRADE_GASOLINE);
}

/* A product that is no road diesel, whichever of those standards it was cut for. */
static bool too_light_for_road(const struct bc_limits *limits, const struct bc_cut *cut)
{
	for (size_t i = 0; i < limits->n; i++) {
		if (bc_limit_too_light(&limits->items[i], &cut->product.property[BC_DENSITY15]))
			return true;
	}
	return false;
}

enum bc_status bc_split_best(const struct bc_charge *charge, const struct bc_limits *limits,
	enum bc_grade_name want, const char *standard, struct bc_cut *cut)
{
	bool any_grade = want == BC_GRADES && standard == NULL;
	double best_frac = BC_THINNEST_FRAC;
	enum bc_status status = BC_NOT_FOUND;
	bc_cut_forget(cut);
	for (size_t i = 0; i < limits->n; i++) {
		const struct bc_limit *limit = &limits->items[i];
		if (!asked_for(limit, want, standard) || !bc_limits_first_of_standard(limits, i))
			continue;
		struct bc_cut found;
		if (bc_failed(find(charge, limits, limit->standard, best_frac, &found)))
			continue;
		if (any_grade && found.grade == BC_GRADE_DIESEL &&
			too_light_for_road(limits, &found))
			continue;
		if (status == BC_OK && !(found.product_pct > cut->product_pct))
			continue;
		*cut = found;
		best_frac = cut->product_until_frac - cut->light_until_frac;
		status = BC_OK;
	}
	return status;
}
