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

static enum bc_status find(const void *context, const struct bc_limits *limits,
	const char *standard, double thinnest_frac, struct bc_cut *cut)
{
	const struct bc_charge *charge = context;
	struct bc_search search = {.cutter = cut_perfectly,
		.context = charge->slices,
		.end_frac = 1.0,
		.margin_c = NAN,
		.thinnest_frac = thinnest_frac,
		.floor_frac = charge->floor_frac,
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
	cut->basis = BC_SPLIT_BOUND;
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

enum bc_status bc_split_best(const struct bc_charge *charge, const struct bc_limits *limits,
	enum bc_grade_name want, const char *standard, struct bc_cut *cut)
{
	return bc_search_best(find, charge, limits, want, standard, cut);
}
