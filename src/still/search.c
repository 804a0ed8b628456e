/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The largest cut that meets a standard, by two bisections in turn, for any way of cutting. */
#include "still/search.h"

#include <math.h>
#include <string.h>

#include "base/units.h"
#include "fuel/flash.h"

#define NORMAL_KPA 101.325

/* first step inwards: the first round may have far to go, later ones mend what the other edge did
 */
#define FIRST_STEP_FRAC (1.0 / 32.0)
#define LATER_STEP_FRAC (1.0 / 1024.0)
#define ROUNDS_MAX 12

/* 95 % on a product point. Riazi-Daubert backwards: 5 degC on average in its source's data; end
 * points are worse, taken as twice that. */
static const double point_half_width_c = 5.0;
static const double end_half_width_c = 10.0;

/* ---- the product between two fractions */

static double between_d86_c(const double d86_c[BC_TBP_POINTS], double pct)
{
	size_t i = 1;
	while (i + 1 < BC_TBP_POINTS && bc_tbp_point_pct[i] < pct)
		i++;
	double share =
		(pct - bc_tbp_point_pct[i - 1]) / (bc_tbp_point_pct[i] - bc_tbp_point_pct[i - 1]);
	return d86_c[i - 1] + share * (d86_c[i] - d86_c[i - 1]);
}

static void fill_points(double end_frac, struct bc_cut *cut)
{
	struct bc_points *points = &cut->product_points;
	const struct bc_slices *slices = &cut->product_slices;
	for (size_t i = BC_AT_IBP; i < BC_AT_FBP; i++)
		points->at[i] = bc_estimate_new(between_d86_c(cut->product_d86_c, bc_point_pct[i]),
			i == BC_AT_IBP ? end_half_width_c : point_half_width_c, BC_ESTIMATED);
	double last_c = bc_temp_c_from_k(bc_slices_temp_k(slices, end_frac));
	double end_c = fmax(bc_corrected_from_true(last_c), points->at[BC_AT_T95].value);
	points->at[BC_AT_FBP] = bc_estimate_new(end_c, end_half_width_c, BC_ESTIMATED);
}

static struct bc_evidence evidence_of(const struct bc_cut *cut)
{
	return (struct bc_evidence){.points = &cut->product_points, .oil = &cut->product};
}

void bc_points_fill_shares(struct bc_points *points)
{
	const struct bc_evidence evidence = {.points = points};
	for (size_t i = 0; i < BC_EVAPORATED_POINTS; i++) {
		/* 10, 50 and 90 %: a product on paper has no loss */
		static const char *const ids[BC_EVAPORATED_POINTS] = {"T10", "T50", "T90"};
		points->evaporated_point[i] = bc_evidence_value(&evidence, ids[i], "evaporated");
	}
	static const char *const at[BC_EVAPORATED_AT] = {"E70", "E100", "E150", "E180"};
	for (size_t i = 0; i < BC_EVAPORATED_AT; i++)
		points->evaporated_at[i] = bc_evidence_value(&evidence, at[i], "evaporated");
	static const char *const over[BC_RECOVERED_AT] = {"recovered_at_180C", "recovered_at_200C",
		"recovered_at_210C", "recovered_at_250C", "recovered_at_300C", "recovered_at_350C",
		"recovered_at_360C"};
	for (size_t i = 0; i < BC_RECOVERED_AT; i++)
		points->recovered_at[i] = bc_evidence_value(&evidence, over[i], "recovered");
}

static enum bc_status predict_curve(
	const struct bc_search *search, double from_frac, double to_frac, struct bc_cut *cut)
{
	cut->light_until_frac = from_frac;
	cut->product_until_frac = to_frac;
	enum bc_status status =
		search->cutter(search->context, from_frac, to_frac, &cut->product_slices);
	if (!bc_failed(status))
		status = bc_slices_d86_c(&cut->product_slices, cut->product_d86_c);
	if (!bc_failed(status))
		fill_points(search->end_frac, cut);
	return status;
}

/* What a dirtier cut takes off the flash joins the low bound by squares, as causes of their own. */
static void widen_flash(const struct bc_search *search, struct bc_cut *cut)
{
	struct bc_slices slices;
	double cleaner_c;
	double dirtier_c;
	struct bc_estimate *flash = &cut->product.property[BC_FLASH];
	if (!search->dirtier || !(cut->light_until_frac > 0.0) ||
		bc_failed(search->cutter(search->dirtier, cut->light_until_frac,
			cut->product_until_frac, &slices)) ||
		bc_failed(bc_flash_vapour_space_c(&cut->product_slices, NORMAL_KPA, &cleaner_c)) ||
		bc_failed(bc_flash_vapour_space_c(&slices, NORMAL_KPA, &dirtier_c)))
		return;
	flash->low = flash->value - hypot(flash->value - flash->low, cleaner_c - dirtier_c);
}

static enum bc_status predict_oil(const struct bc_search *search, struct bc_cut *cut)
{
	enum bc_status status = bc_oil_from_slices(
		&cut->product_slices, cut->product_d86_c, search->parent, &cut->product);
	if (!bc_failed(status))
		widen_flash(search, cut);
	return status;
}

enum bc_status bc_search_product(
	const struct bc_search *search, double from_frac, double to_frac, struct bc_cut *cut)
{
	enum bc_status status = predict_curve(search, from_frac, to_frac, cut);
	if (!bc_failed(status))
		status = predict_oil(search, cut);
	if (!bc_failed(status))
		bc_points_fill_shares(&cut->product_points);
	return status;
}

enum bc_status bc_jar_points(const struct bc_slices *slices, double end_frac,
	double d86_c[BC_TBP_POINTS], struct bc_points *points)
{
	struct bc_cut whole = {.product_slices = *slices};
	enum bc_status status = bc_slices_d86_c(slices, whole.product_d86_c);
	if (bc_failed(status))
		return status;
	fill_points(end_frac, &whole);
	bc_points_fill_shares(&whole.product_points);
	*points = whole.product_points;
	if (d86_c)
		memcpy(d86_c, whole.product_d86_c, sizeof whole.product_d86_c);
	return BC_OK;
}

enum bc_status bc_flask_points(const struct bc_slices *slices, struct bc_points *points)
{
	return bc_jar_points(slices, 1.0, NULL, points);
}

/* ---- the limits of a standard */

/* A share recovered falls where boiling points, density, flash and the like rise. */
static bool falls_when_heavier(const char *property)
{
	return property[0] == 'E' || strncmp(property, "recovered", strlen("recovered")) == 0 ||
	       strncmp(property, "evaporated", strlen("evaporated")) == 0;
}

bool bc_search_plan(const struct bc_limits *limits, const char *standard, struct bc_search *search)
{
	bool any = false;
	for (size_t i = 0; i < limits->n; i++) {
		const struct bc_limit *limit = &limits->items[i];
		if (!limit->in_force || strcmp(limit->standard, standard) != 0)
			continue;
		any = true;
		search->grade = limit->grade;
		search->standard = limit->standard; /* outlives the caller's word for it */
		if (!bc_limit_counts(limit, false))
			continue;
		bool falls = falls_when_heavier(limit->property);
		bool low_side = !isnan(falls ? limit->max : limit->min);
		bool high_side = !isnan(falls ? limit->min : limit->max);
		if (low_side && search->n_heavier < BC_CUT_CRITERIA_MAX)
			search->heavier[search->n_heavier++] = limit;
		if (high_side && search->n_lighter < BC_CUT_CRITERIA_MAX)
			search->lighter[search->n_lighter++] = limit;
	}
	return any;
}

/* One side of a limit against a product; what a product on paper does not have is left to others.
 */
static bool keeps(const struct bc_search *search, const struct bc_limit *limit,
	const struct bc_evidence *evidence, bool heavier)
{
	struct bc_limit side = *limit;
	bool min_side = heavier != falls_when_heavier(limit->property);
	if (min_side)
		side.max = NAN;
	else
		side.min = NAN;
	struct bc_estimate value = bc_evidence_value(evidence, limit->property, limit->basis);
	if (!bc_estimate_present(&value))
		return limit->role != BC_ROLE_SAFETY;
	if (limit->role == BC_ROLE_SAFETY && min_side && isfinite(search->margin_c))
		return bc_limit_met(&side, value.value - search->margin_c);
	if (limit->role == BC_ROLE_SAFETY)
		return bc_limit_met(&side, min_side ? value.low : value.high);
	return bc_limit_met(&side, value.value);
}

/* Whether a limit is read on the curve, which is cheaper to predict than the oil. */
static bool on_curve(const struct bc_limit *limit)
{
	return limit->basis[0] != '\0' || strcmp(limit->property, "FBP") == 0 ||
	       strcmp(limit->property, "IBP") == 0;
}

size_t bc_search_missed(const struct bc_search *search, double from_frac, double to_frac,
	bool heavier, struct bc_cut *work, const struct bc_limit **missed, size_t n)
{
	const struct bc_limit *const *list = heavier ? search->heavier : search->lighter;
	size_t count = heavier ? search->n_heavier : search->n_lighter;
	struct bc_evidence evidence = evidence_of(work);
	size_t found = 0;
	bool made = !bc_failed(predict_curve(search, from_frac, to_frac, work)) &&
		    !bc_failed(predict_oil(search, work));
	for (size_t i = 0; i < count && found < n; i++)
		if (!made || !keeps(search, list[i], &evidence, heavier))
			missed[found++] = list[i];
	return found;
}

/* Whether the product between two fractions keeps all limits of one side. */
bool bc_search_kept(const struct bc_search *search, double from_frac, double to_frac, bool heavier,
	struct bc_cut *work)
{
	struct bc_evidence evidence = evidence_of(work);
	const struct bc_limit *const *list = heavier ? search->heavier : search->lighter;
	size_t n = heavier ? search->n_heavier : search->n_lighter;
	bool of_oil = false;
	if (bc_failed(predict_curve(search, from_frac, to_frac, work)))
		return false;
	for (size_t i = 0; i < n; i++) {
		if (!on_curve(list[i]))
			of_oil = true;
		else if (!keeps(search, list[i], &evidence, heavier))
			return false;
	}
	if (of_oil && bc_failed(predict_oil(search, work)))
		return false;
	for (size_t i = 0; i < n && of_oil; i++) {
		if (!on_curve(list[i]) && !keeps(search, list[i], &evidence, heavier))
			return false;
	}
	return true;
}

/* Methods that do not hold for thin or end cuts may still show which way to go; for the product
 * itself they must hold. */
const struct bc_limit *bc_search_unsure(const struct bc_search *search, const struct bc_cut *cut)
{
	struct bc_evidence evidence = evidence_of(cut);
	for (size_t i = 0; i < search->n_heavier + search->n_lighter; i++) {
		const struct bc_limit *limit = i < search->n_heavier
						       ? search->heavier[i]
						       : search->lighter[i - search->n_heavier];
		struct bc_estimate value =
			bc_evidence_value(&evidence, limit->property, limit->basis);
		if (value.how == BC_NOT_VALID)
			return limit;
	}
	return NULL;
}

/* ---- the two bisections */

/* Steps inwards from *edge, each step twice the last, to a place that is kept; *edge stays at the
 * last one that was not, *good is the first that was. */
static bool bracket(const struct bc_search *search, bool heavier, double step, double *from_frac,
	double *to_frac, double *good, struct bc_cut *work)
{
	double *edge = heavier ? from_frac : to_frac;
	double other = heavier ? *to_frac : *from_frac;
	double last = heavier ? other - BC_THINNEST_FRAC : other + BC_THINNEST_FRAC;
	for (;;) {
		double bad = *edge;
		if (fabs(other - bad) < search->thinnest_frac)
			return false; /* the place lies this side of bad */
		*edge = heavier ? fmin(bad + step, last) : fmax(bad - step, last);
		if (bc_search_kept(search, *from_frac, *to_frac, heavier, work)) {
			*good = *edge;
			*edge = bad;
			return true;
		}
		if (*edge == last)
			return false;
		step *= 2.0;
	}
}

/* Moves *from_frac up, or *to_frac down, just as far as the limits of that side ask for. */
static bool mend(const struct bc_search *search, bool heavier, double step, double *from_frac,
	double *to_frac, struct bc_cut *work)
{
	if (bc_search_kept(search, *from_frac, *to_frac, heavier, work))
		return true;
	double good;
	if (!bracket(search, heavier, step, from_frac, to_frac, &good, work))
		return false;
	double *edge = heavier ? from_frac : to_frac;
	double bad = *edge;
	while (fabs(good - bad) > BC_FINEST_FRAC) {
		*edge = 0.5 * (bad + good);
		if (bc_search_kept(search, *from_frac, *to_frac, heavier, work))
			good = *edge;
		else
			bad = *edge;
	}
	*edge = good;
	return true;
}

bool bc_search_close_in(
	const struct bc_search *search, double *from_frac, double *to_frac, struct bc_cut *work)
{
	*from_frac = search->floor_frac;
	*to_frac = search->ceiling_frac;
	for (int round = 0; round < ROUNDS_MAX; round++) {
		double from = *from_frac;
		double to = *to_frac;
		double step = round == 0 ? FIRST_STEP_FRAC : LATER_STEP_FRAC;
		if (!mend(search, false, step, from_frac, to_frac, work) ||
			!mend(search, true, step, from_frac, to_frac, work) ||
			*to_frac - *from_frac < search->thinnest_frac)
			return false;
		if (round > 0 && from == *from_frac && to == *to_frac)
			return true;
	}
	return bc_search_kept(search, *from_frac, *to_frac, false, work);
}

void bc_cut_forget(struct bc_cut *cut)
{
	*cut = (struct bc_cut){.grade = BC_GRADES,
		.light_until_c = NAN,
		.product_until_c = NAN,
		.light_until_reading_c = NAN,
		.product_until_reading_c = NAN,
		.light_until_frac = NAN,
		.product_until_frac = NAN,
		.light_pct = NAN,
		.product_pct = NAN,
		.tail_pct = NAN};
}

/* A product far from the densities of its grade is of another kind, whatever it boils at. */
static bool is_unlike(const struct bc_cut *cut, enum bc_grade_name grade)
{
	double min_kgm3;
	double max_kgm3;
	const struct bc_estimate *density = &cut->product.property[BC_DENSITY15];
	return bc_grade_usual_density(grade, &min_kgm3, &max_kgm3) &&
	       (density->low > max_kgm3 || density->high < min_kgm3);
}

bool bc_search_unmendable(const struct bc_grades *grades, const char *standard)
{
	for (size_t i = 0; grades != NULL && i < grades->n; i++) {
		if (strcmp(grades->items[i].standard, standard) == 0)
			return grades->items[i].unmendable != NULL;
	}
	return false;
}

enum bc_status bc_search_run(const struct bc_search *search, struct bc_cut *cut)
{
	double from_frac;
	double to_frac;
	struct bc_cut work;
	bc_cut_forget(cut);
	bc_cut_forget(&work);
	if (!(search->ceiling_frac - search->floor_frac > search->thinnest_frac) ||
		search->n_heavier + search->n_lighter == 0 ||
		!bc_search_close_in(search, &from_frac, &to_frac, &work) ||
		bc_failed(bc_search_product(search, from_frac, to_frac, cut)) ||
		bc_search_unsure(search, cut) != NULL || is_unlike(cut, search->grade)) {
		bc_cut_forget(cut);
		return BC_NOT_FOUND;
	}
	cut->grade = search->grade;
	cut->standard = search->standard;
	return BC_OK;
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

enum bc_status bc_search_best(bc_finder *find, const void *context, const struct bc_limits *limits,
	enum bc_grade_name want, const char *standard, struct bc_cut *cut)
{
	bool any_grade = want == BC_GRADES && standard == NULL;
	double best_frac = BC_THINNEST_FRAC;
	enum bc_status status = BC_NOT_FOUND;
	bc_cut_forget(cut);
	for (size_t i = 0; i < limits->n; i++) {
		const struct bc_limit *limit = &limits->items[i];
		struct bc_cut found;
		if (!asked_for(limit, want, standard) || !bc_limits_first_of_standard(limits, i) ||
			bc_failed(find(context, limits, limit->standard, best_frac, &found)) ||
			(any_grade && found.grade == BC_GRADE_DIESEL &&
				too_light_for_road(limits, &found)) ||
			(status == BC_OK && !(found.product_pct > cut->product_pct)))
			continue;
		*cut = found;
		best_frac = cut->product_until_frac - cut->light_until_frac;
		status = BC_OK;
	}
	return status;
}

enum bc_status bc_cut_assess(const struct bc_cut *cut, const struct bc_limits *limits,
	struct bc_grade *grade, struct bc_criterion room[BC_CUT_CRITERIA_MAX])
{
	struct bc_evidence evidence = evidence_of(cut);
	return bc_standard_assess(
		limits, cut->standard, &evidence, grade, room, BC_CUT_CRITERIA_MAX);
}
