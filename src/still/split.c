/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The perfect split: the largest cut of an oil that meets a standard, by two bisections in turn. */
#include "still/split.h"

#include <math.h>
#include <string.h>

#include "base/units.h"

/* A thinner product is no product; common practice. */
#define THINNEST_FRAC 0.03
/* 1/4096 of the charge: far finer than a tap is turned */
#define FINEST_FRAC (1.0 / 4096.0)
/* first step inwards: the first round may have far to go, later ones mend what the other edge did
 */
#define FIRST_STEP_FRAC (1.0 / 32.0)
#define LATER_STEP_FRAC (1.0 / 1024.0)
#define ROUNDS_MAX 12
#define CRITERIA_MAX BC_CUT_CRITERIA_MAX

/* 95 % on a product point. Riazi-Daubert backwards: 5 degC on average in its source's data; end
 * points are worse, taken as twice that. */
static const double point_half_width_c = 5.0;
static const double end_half_width_c = 10.0;

/* Counting limits of one standard, parted by the side that mends them. */
struct plan {
	const struct bc_slices *slices;
	const struct bc_limit *heavier[CRITERIA_MAX]; /* mended by a later start of the product */
	size_t n_heavier;
	const struct bc_limit *lighter[CRITERIA_MAX]; /* mended by an earlier end */
	size_t n_lighter;
	enum bc_grade_name grade;
	const char *standard;
	double thinnest_frac; /* a product must be thicker */
	double ceiling_frac;  /* no product ends later */
	const struct bc_parent *parent;
};

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

static void fill_points(struct bc_cut *cut)
{
	struct bc_points *points = &cut->product_points;
	const struct bc_slices *slices = &cut->product_slices;
	for (size_t i = BC_AT_IBP; i < BC_AT_FBP; i++)
		points->at[i] = bc_estimate_new(between_d86_c(cut->product_d86_c, bc_point_pct[i]),
			i == BC_AT_IBP ? end_half_width_c : point_half_width_c, BC_ESTIMATED);
	double last_c = bc_temp_c_from_k(slices->items[slices->n - 1].to_k);
	double end_c = fmax(bc_corrected_from_true(last_c), points->at[BC_AT_T95].value);
	points->at[BC_AT_FBP] = bc_estimate_new(end_c, end_half_width_c, BC_ESTIMATED);
}

static struct bc_evidence evidence_of(const struct bc_cut *cut)
{
	return (struct bc_evidence){.points = &cut->product_points, .oil = &cut->product};
}

static void fill_shares(struct bc_cut *cut)
{
	struct bc_points *points = &cut->product_points;
	struct bc_evidence evidence = evidence_of(cut);
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
	const struct bc_slices *slices, double from_frac, double to_frac, struct bc_cut *cut)
{
	cut->light_until_frac = from_frac;
	cut->product_until_frac = to_frac;
	enum bc_status status = bc_slices_cut(slices, from_frac, to_frac, &cut->product_slices);
	if (!bc_failed(status))
		status = bc_slices_d86_c(&cut->product_slices, cut->product_d86_c);
	if (!bc_failed(status))
		fill_points(cut);
	return status;
}

static enum bc_status predict_oil(const struct plan *plan, struct bc_cut *cut)
{
	return bc_oil_from_slices(
		&cut->product_slices, cut->product_d86_c, plan->parent, &cut->product);
}

enum bc_status bc_flask_points(const struct bc_slices *slices, struct bc_points *points)
{
	struct bc_cut whole = {0};
	enum bc_status status = predict_curve(slices, 0.0, 1.0, &whole);
	if (bc_failed(status))
		return status;
	fill_shares(&whole);
	*points = whole.product_points;
	return BC_OK;
}

/* ---- the limits of a standard */

/* A share recovered falls where boiling points, density, flash and the like rise. */
static bool falls_when_heavier(const char *property)
{
	return property[0] == 'E' || strncmp(property, "recovered", strlen("recovered")) == 0 ||
	       strncmp(property, "evaporated", strlen("evaporated")) == 0;
}

static bool plan_limits(const struct bc_limits *limits, struct plan *plan)
{
	bool any = false;
	for (size_t i = 0; i < limits->n; i++) {
		const struct bc_limit *limit = &limits->items[i];
		if (!limit->in_force || strcmp(limit->standard, plan->standard) != 0)
			continue;
		any = true;
		plan->grade = limit->grade;
		plan->standard = limit->standard; /* outlives the caller's word for it */
		if (!bc_limit_counts(limit, false))
			continue;
		bool falls = falls_when_heavier(limit->property);
		bool low_side = !isnan(falls ? limit->max : limit->min);
		bool high_side = !isnan(falls ? limit->min : limit->max);
		if (low_side && plan->n_heavier < CRITERIA_MAX)
			plan->heavier[plan->n_heavier++] = limit;
		if (high_side && plan->n_lighter < CRITERIA_MAX)
			plan->lighter[plan->n_lighter++] = limit;
	}
	return any;
}

/* One side of a limit against a product; what a product on paper does not have is left to others.
 */
static bool keeps(const struct bc_limit *limit, const struct bc_evidence *evidence, bool heavier)
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

/* Whether the product between two fractions keeps all limits of one side. */
static bool side_kept(const struct plan *plan, double from_frac, double to_frac, bool heavier,
	struct bc_cut *work)
{
	struct bc_evidence evidence = evidence_of(work);
	const struct bc_limit *const *list = heavier ? plan->heavier : plan->lighter;
	size_t n = heavier ? plan->n_heavier : plan->n_lighter;
	bool of_oil = false;
	if (bc_failed(predict_curve(plan->slices, from_frac, to_frac, work)))
		return false;
	for (size_t i = 0; i < n; i++) {
		if (!on_curve(list[i]))
			of_oil = true;
		else if (!keeps(list[i], &evidence, heavier))
			return false;
	}
	if (of_oil && bc_failed(predict_oil(plan, work)))
		return false;
	for (size_t i = 0; i < n && of_oil; i++) {
		if (!on_curve(list[i]) && !keeps(list[i], &evidence, heavier))
			return false;
	}
	return true;
}

/* Methods that do not hold for thin or end cuts may still show which way to go; for the product
 * itself they must hold. */
static bool methods_hold(const struct plan *plan, const struct bc_cut *cut)
{
	struct bc_evidence evidence = evidence_of(cut);
	for (size_t i = 0; i < plan->n_heavier + plan->n_lighter; i++) {
		const struct bc_limit *limit =
			i < plan->n_heavier ? plan->heavier[i] : plan->lighter[i - plan->n_heavier];
		struct bc_estimate value =
			bc_evidence_value(&evidence, limit->property, limit->basis);
		if (value.how == BC_NOT_VALID)
			return false;
	}
	return true;
}

/* ---- the two bisections */

/* Steps inwards from *edge, each step twice the last, to a place that is kept; *edge stays at the
 * last one that was not, *good is the first that was. */
static bool bracket(const struct plan *plan, bool heavier, double step, double *from_frac,
	double *to_frac, double *good, struct bc_cut *work)
{
	double *edge = heavier ? from_frac : to_frac;
	double other = heavier ? *to_frac : *from_frac;
	double last = heavier ? other - THINNEST_FRAC : other + THINNEST_FRAC;
	for (;;) {
		double bad = *edge;
		if (fabs(other - bad) < plan->thinnest_frac)
			return false; /* the place lies this side of bad */
		*edge = heavier ? fmin(bad + step, last) : fmax(bad - step, last);
		if (side_kept(plan, *from_frac, *to_frac, heavier, work)) {
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
static bool mend(const struct plan *plan, bool heavier, double step, double *from_frac,
	double *to_frac, struct bc_cut *work)
{
	if (side_kept(plan, *from_frac, *to_frac, heavier, work))
		return true;
	double good;
	if (!bracket(plan, heavier, step, from_frac, to_frac, &good, work))
		return false;
	double *edge = heavier ? from_frac : to_frac;
	double bad = *edge;
	while (fabs(good - bad) > FINEST_FRAC) {
		*edge = 0.5 * (bad + good);
		if (side_kept(plan, *from_frac, *to_frac, heavier, work))
			good = *edge;
		else
			bad = *edge;
	}
	*edge = good;
	return true;
}

/*
 * A later start makes every limit that asks for a lighter product harder to keep, an earlier end
 * every one that asks for a heavier: so from all that comes over both edges only close in, and they
 * stop at the largest cut there is.
 */
static bool close_in(
	const struct plan *plan, double *from_frac, double *to_frac, struct bc_cut *work)
{
	*from_frac = 0.0;
	*to_frac = plan->ceiling_frac;
	for (int round = 0; round < ROUNDS_MAX; round++) {
		double from = *from_frac;
		double to = *to_frac;
		double step = round == 0 ? FIRST_STEP_FRAC : LATER_STEP_FRAC;
		if (!mend(plan, false, step, from_frac, to_frac, work) ||
			!mend(plan, true, step, from_frac, to_frac, work) ||
			*to_frac - *from_frac < plan->thinnest_frac)
			return false;
		if (round > 0 && from == *from_frac && to == *to_frac)
			return true;
	}
	return side_kept(plan, *from_frac, *to_frac, false, work);
}

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

static void forget(struct bc_cut *cut)
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

/* What no cut takes out, such as sulphur, stays outside in every jar. */
static bool is_unmendable(const struct bc_grades *grades, const char *standard)
{
	for (size_t i = 0; grades != NULL && i < grades->n; i++) {
		if (strcmp(grades->items[i].standard, standard) == 0)
			return grades->items[i].unmendable != NULL;
	}
	return false;
}

static enum bc_status find(const struct bc_charge *charge, const struct bc_limits *limits,
	const char *standard, double thinnest_frac, struct bc_cut *cut)
{
	struct plan plan = {.slices = charge->slices,
		.standard = standard,
		.thinnest_frac = thinnest_frac,
		.ceiling_frac = fmin(charge->ceiling_frac, 1.0),
		.parent = charge->parent};
	double from_frac;
	double to_frac;
	forget(cut);
	if (charge->slices->n == 0 || is_unmendable(charge->grades, standard) ||
		!(plan.ceiling_frac > thinnest_frac) || !plan_limits(limits, &plan) ||
		plan.n_heavier + plan.n_lighter == 0)
		return BC_NOT_FOUND;
	struct bc_cut work = *cut;
	if (!close_in(&plan, &from_frac, &to_frac, &work) ||
		bc_failed(predict_curve(charge->slices, from_frac, to_frac, cut)) ||
		bc_failed(predict_oil(&plan, cut)) || !methods_hold(&plan, cut) ||
		is_unlike(cut, plan.grade)) {
		forget(cut);
		return BC_NOT_FOUND;
	}
	cut->basis = "perfect split, the bound that no still reaches";
	cut->grade = plan.grade;
	cut->standard = plan.standard;
	cut->heavy_end = !side_kept(&plan, 0.0, 1.0, false, &work);
	fill_shares(cut);
	place_turns(charge->slices, charge->conditions, cut);
	return BC_OK;
}

enum bc_status bc_split_find(const struct bc_charge *charge, const struct bc_limits *limits,
	const char *standard, struct bc_cut *cut)
{
	return find(charge, limits, standard, THINNEST_FRAC, cut);
}

double bc_split_head_frac(const struct bc_slices *slices, double head_c)
{
	double low = 0.0;
	double high = 1.0;
	while (high - low > FINEST_FRAC) {
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

enum bc_status bc_cut_assess(const struct bc_cut *cut, const struct bc_limits *limits,
	struct bc_grade *grade, struct bc_criterion room[BC_CUT_CRITERIA_MAX])
{
	struct bc_evidence evidence = evidence_of(cut);
	return bc_standard_assess(
		limits, cut->standard, &evidence, grade, room, BC_CUT_CRITERIA_MAX);
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
	double best_frac = THINNEST_FRAC;
	enum bc_status status = BC_NOT_FOUND;
	forget(cut);
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
