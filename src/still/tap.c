/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where to turn the tap of a still: jars with what the lines carry over, and the best two turns. */
#include "still/tap.h"

#include <math.h>
#include <string.h>

/* ---- jars */

/* Abramowitz & Stegun, table 25.9, n = 4 */
static const double laguerre_at[] = {
	0.322547689619392, 1.745761101158347, 4.536620296921128, 9.395070912301133};
static const double laguerre_weight[] = {
	0.603154104341634, 0.357418692437800, 0.0388879085150054, 0.000539294705561327};
enum { LAGUERRE_POINTS = sizeof laguerre_at / sizeof laguerre_at[0] };

/* What has left the lines of each slice while over_frac is over the head. */
static void run_out(
	const struct bc_tap_still *still, double carry_frac, double over_frac, double *volume)
{
	for (size_t i = 0; i < still->run->charge.n; i++) {
		volume[i] = 0.0;
		for (size_t k = 0; k < LAGUERRE_POINTS && carry_frac > 0.0; k++) {
			double before = over_frac - carry_frac * laguerre_at[k];
			if (before > 0.0)
				volume[i] +=
					laguerre_weight[k] * bc_run_over(still->run, i, before);
		}
		if (!(carry_frac > 0.0))
			volume[i] = bc_run_over(still->run, i, over_frac);
	}
}

static enum bc_status fill_jar(const struct bc_tap_still *still, double carry_frac,
	double from_frac, double to_frac, struct bc_slices *slices, double *share_frac)
{
	const struct bc_run *run = still->run;
	double before[BC_SLICES_MAX];
	double after[BC_SLICES_MAX];
	slices->n = 0;
	if (share_frac)
		*share_frac = NAN;
	if (run->n == 0 || !(from_frac >= 0.0 && from_frac < to_frac) ||
		(to_frac < 1.0 && !(to_frac <= run->over_frac[run->n - 1])))
		return BC_BAD_DOMAIN;
	run_out(still, carry_frac, from_frac, before);
	/* the heat is off: the lines run empty */
	run_out(still, to_frac < still->ceiling_frac ? carry_frac : 0.0,
		fmin(to_frac, run->over_frac[run->n - 1]), after);
	for (size_t i = 0; i < run->charge.n; i++) {
		if (to_frac >= 1.0)
			after[i] = run->charge.items[i].volume_frac;
		after[i] = fmax(after[i] - before[i], 0.0);
	}
	return bc_run_oil(&run->charge, after, slices, share_frac);
}

enum bc_status bc_tap_jar(const struct bc_tap_still *still, double from_frac, double to_frac,
	struct bc_slices *slices, double *share_frac)
{
	return fill_jar(still, still->carry_frac, from_frac, to_frac, slices, share_frac);
}

static enum bc_status cut_cleanly(
	const void *context, double from_frac, double to_frac, struct bc_slices *slices)
{
	return bc_tap_jar(context, from_frac, to_frac, slices, NULL);
}

/* ---- searches */

/* dirty is room for a still as dirty as it may be, and must live as long as the search. */
static struct bc_search search_of(const struct bc_tap_still *still, struct bc_tap_still *dirty)
{
	*dirty = *still;
	dirty->carry_frac = still->carry_high_frac;
	if (still->worst_run)
		dirty->run = still->worst_run;
	return (struct bc_search){
		.cutter = cut_cleanly,
		.context = still,
		.dirtier = still->carry_high_frac > still->carry_frac || still->worst_run ? dirty
											  : NULL,
		.parent = still->parent,
		.end_frac = BC_TAP_END_FRAC,
		.margin_c = still->margin_c,
		.thinnest_frac = BC_THINNEST_FRAC,
		.floor_frac = still->floor_frac,
		.ceiling_frac = still->ceiling_frac,
		.grade = BC_GRADES,
	};
}

enum bc_status bc_tap_product(
	const struct bc_tap_still *still, double from_frac, double to_frac, struct bc_cut *cut)
{
	struct bc_tap_still dirty;
	struct bc_search search = search_of(still, &dirty);
	return bc_search_product(&search, from_frac, to_frac, cut);
}

static void fill_percents(const struct bc_tap_still *still, struct bc_cut *cut)
{
	struct bc_slices slices;
	double light = 0.0;
	double product = 0.0;
	if (cut->light_until_frac > 0.0 &&
		bc_failed(bc_tap_jar(still, 0.0, cut->light_until_frac, &slices, &light)))
		light = 0.0; /* the lines are not yet full */
	bc_tap_jar(still, cut->light_until_frac, cut->product_until_frac, &slices, &product);
	cut->light_pct = 100.0 * light;
	cut->product_pct = 100.0 * product;
	cut->tail_pct = 100.0 - cut->light_pct - cut->product_pct;
	cut->basis = "simulated still";
}

static enum bc_status find(const void *context, const struct bc_limits *limits,
	const char *standard, double thinnest_frac, struct bc_cut *cut)
{
	const struct bc_tap_still *still = context;
	struct bc_tap_still dirty;
	struct bc_cut work;
	struct bc_search search = search_of(still, &dirty);
	bc_cut_forget(cut);
	if (bc_search_unmendable(still->grades, standard) ||
		!bc_search_plan(limits, standard, &search))
		return BC_NOT_FOUND;
	search.thinnest_frac = thinnest_frac;
	enum bc_status status = bc_search_run(&search, cut);
	if (bc_failed(status))
		return status;
	bc_cut_forget(&work);
	fill_percents(still, cut);
	cut->heavy_end =
		!bc_search_kept(&search, search.floor_frac, search.ceiling_frac, false, &work);
	return BC_OK;
}

enum bc_status bc_tap_best(const struct bc_tap_still *still, const struct bc_limits *limits,
	enum bc_grade_name want, const char *standard, struct bc_cut *cut)
{
	return bc_search_best(find, still, limits, want, standard, cut);
}

enum bc_status bc_tap_at_flash(const struct bc_tap_still *still, const struct bc_limits *limits,
	const char *standard, double flash_c, struct bc_cut *cut)
{
	static char property[] = "flash_point";
	static char none[] = "";
	struct bc_limit flash = {.grade = BC_GRADES,
		.property = property,
		.basis = none,
		.min = flash_c,
		.max = NAN,
		.role = BC_ROLE_JUDGE};
	struct bc_tap_still dirty;
	struct bc_search search = search_of(still, &dirty);
	bc_cut_forget(cut);
	if (standard && !bc_search_plan(limits, standard, &search))
		return BC_NOT_FOUND;
	search.heavier[0] = &flash;
	search.n_heavier = 1;
	enum bc_status status = bc_search_run(&search, cut);
	if (bc_failed(status))
		return status;
	fill_percents(still, cut);
	cut->standard = standard;
	return BC_OK;
}

/* ---- what binds */

/* 1/1024: a limit that a step this long breaks is one that stops the product here */
static const double step_frac = 1.0 / 1024.0;

static void name_limits(const struct bc_limit *const *limits, size_t n, struct bc_strings *binding)
{
	for (size_t i = 0; i < n; i++) {
		char property[64];
		const struct bc_limit *limit = limits[i];
		bc_limit_property_text(limit->property, property, sizeof property);
		if (isnan(limit->max))
			bc_strings_add_once(
				binding, "%s, at least %g %s", property, limit->min, limit->unit);
		else if (isnan(limit->min))
			bc_strings_add_once(
				binding, "%s, at most %g %s", property, limit->max, limit->unit);
		else
			bc_strings_add_once(binding, "%s, %g to %g %s", property, limit->min,
				limit->max, limit->unit);
	}
}

static void name_missed(const struct bc_search *search, double from_frac, double to_frac,
	bool heavier, struct bc_strings *binding)
{
	const struct bc_limit *missed[BC_CUT_CRITERIA_MAX];
	struct bc_cut work;
	bc_cut_forget(&work);
	size_t n = bc_search_missed(
		search, from_frac, to_frac, heavier, &work, missed, BC_CUT_CRITERIA_MAX);
	name_limits(missed, n, binding);
}

/* The edges have closed in and yet there is no product. */
static void bind_closed(const struct bc_search *search, double from_frac, double to_frac,
	struct bc_strings *binding)
{
	struct bc_cut product;
	bc_cut_forget(&product);
	if (bc_failed(bc_search_product(search, from_frac, to_frac, &product)))
		return;
	const struct bc_limit *unsure = bc_search_unsure(search, &product);
	if (unsure) {
		char property[64];
		bc_limit_property_text(unsure->property, property, sizeof property);
		bc_strings_add(binding, "%s: its method does not hold for this oil", property);
	} else {
		bc_strings_add(binding, "density, %.0f kg/m3: an oil of another kind",
			product.product.property[BC_DENSITY15].value);
	}
}

static void bind_none(const struct bc_search *search, const char *end, struct bc_strings *binding)
{
	struct bc_cut work;
	double from_frac;
	double to_frac;
	size_t before = binding->n;
	bc_cut_forget(&work);
	if (!(search->ceiling_frac - search->floor_frac > search->thinnest_frac)) {
		bc_strings_add(binding, "%s", end);
	} else if (bc_search_close_in(search, &from_frac, &to_frac, &work)) {
		bind_closed(search, from_frac, to_frac, binding);
	} else {
		name_missed(search, from_frac, to_frac, true, binding);
		name_missed(search, from_frac, to_frac, false, binding);
		if (to_frac >= search->ceiling_frac)
			bc_strings_add(binding, "%s", end);
	}
	if (binding->n == before)
		bc_strings_add(binding, "the limits leave no product of 3 %% of the charge");
}

void bc_tap_binding(const struct bc_tap_still *still, const struct bc_limits *limits,
	const char *standard, const struct bc_cut *cut, const char *end, struct bc_strings *binding)
{
	struct bc_tap_still dirty;
	struct bc_search search = search_of(still, &dirty);
	if (!bc_search_plan(limits, standard, &search))
		return;
	if (bc_search_unmendable(still->grades, standard)) {
		bc_strings_add(binding, "a measured figure that no cut mends");
		return;
	}
	if (!cut) {
		bind_none(&search, end, binding);
		return;
	}
	double from_frac = cut->light_until_frac;
	double to_frac = cut->product_until_frac;
	if (from_frac > still->floor_frac)
		name_missed(&search, fmax(from_frac - step_frac, still->floor_frac), to_frac, true,
			binding);
	if (to_frac >= still->ceiling_frac)
		bc_strings_add(binding, "%s", end);
	else
		name_missed(&search, from_frac, fmin(to_frac + step_frac, still->ceiling_frac),
			false, binding);
}
