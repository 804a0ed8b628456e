/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a sample to the boil-off on the D86 basis: percents by volume in order, temperatures
 * corrected, end points in their places, what cannot be used marked and said. */
#include "curve/boiloff.h"

#include <math.h>
#include <stdlib.h>

#include "base/memory.h"
#include "curve/amounts.h"
#include "curve/correction.h"
#include "curve/finding_limits.h"
#include "curve/order.h"
#include "curve/slip.h"
#include "curve/water.h"

/* Percents nearer than this are the same reading written twice. */
#define SAME_PCT 1e-9
/* The finest a receiver is read [%]: FBP stands at least this far above the last reading. */
#define FINEST_PCT 0.1
/* A receiver read to 0.5 mL, and drops on the way to it; a small cylinder for the residue, 95 %;
 * common practice [mL]. */
#define VOLUME_HALF_WIDTH_ML 0.7
#define REST_HALF_WIDTH_ML 0.5

static int kind_rank(enum bc_reading_kind kind)
{
	switch (kind) {
	case BC_READING_IBP:
		return 0;
	case BC_READING_AMOUNT:
		return 1;
	case BC_READING_FBP:
		return 2;
	case BC_READING_DRY:
		return 3;
	}
	return 4;
}

static int by_percent(const void *a, const void *b)
{
	const struct bc_point *p = a;
	const struct bc_point *q = b;
	int order = kind_rank(p->kind) - kind_rank(q->kind);

	if (order == 0)
		order = (p->recovered_pct > q->recovered_pct) -
			(p->recovered_pct < q->recovered_pct);
	if (order == 0)
		order = (p->line > q->line) - (p->line < q->line);
	return order;
}

/* The rows that carry a head temperature, with percents on the sample's own basis. */
static void take_readings(const struct bc_sample *sample, const struct bc_conditions *conditions,
	struct bc_boiloff *boiloff)
{
	for (size_t i = 0; i < sample->n_readings; i++) {
		const struct bc_reading *reading = &sample->readings[i];
		int amount = reading->kind == BC_READING_AMOUNT;
		if (!isfinite(reading->head_c) || (amount && !isfinite(reading->amount)))
			continue;
		boiloff->points[boiloff->n++] = (struct bc_point){
			.kind = reading->kind,
			.recovered_pct = amount ? bc_share_pct(sample, reading->amount) : 0.0,
			.observed_c = reading->head_c,
			.corrected_c = bc_corrected_from_reading(conditions, reading->head_c),
			.pot_c = reading->pot_c,
			.time_s = reading->time_s,
			.used = true,
			.line = reading->line,
		};
	}
	qsort(boiloff->points, boiloff->n, sizeof *boiloff->points, by_percent);
}

/* Whether an end point takes the place of another of its kind: the lowest IBP, since the flash
 * hangs on it, the highest FBP, the first dry point. */
static bool is_better(const struct bc_point *point, const struct bc_point *than)
{
	if (point->kind == BC_READING_IBP)
		return point->observed_c < than->observed_c;
	return point->kind == BC_READING_FBP && point->observed_c > than->observed_c;
}

/* Of several end points of one kind only one is used. */
static void single_end_points(struct bc_boiloff *boiloff)
{
	const struct bc_point *chosen[4] = {NULL};

	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		const struct bc_point **best = &chosen[kind_rank(point->kind)];
		if (!*best || is_better(point, *best))
			*best = point;
	}
	for (size_t i = 0; i < boiloff->n; i++) {
		struct bc_point *point = &boiloff->points[i];
		if (point->kind != BC_READING_AMOUNT)
			point->used = point == chosen[kind_rank(point->kind)];
	}
}

/* A reading at 0 % is the IBP where none was written; percents above 100 cannot be. */
static void settle_edges(struct bc_boiloff *boiloff)
{
	bool ibp = boiloff->n > 0 && boiloff->points[0].kind == BC_READING_IBP;

	for (size_t i = 0; i < boiloff->n; i++) {
		struct bc_point *point = &boiloff->points[i];
		if (point->kind != BC_READING_AMOUNT || !point->used)
			continue;
		if (point->recovered_pct <= SAME_PCT && !ibp) {
			point->kind = BC_READING_IBP;
			ibp = true;
		} else if (point->recovered_pct <= SAME_PCT || point->recovered_pct > 100.0) {
			point->used = false;
		}
	}
}

/* Readings at one percent become their mean. */
static void average_repeated(struct bc_boiloff *boiloff, struct bc_findings *findings)
{
	struct bc_point *points = boiloff->points;
	size_t kept = 0;
	size_t merged = 0;
	double first_pct = NAN;

	for (size_t i = 0; i < boiloff->n;) {
		struct bc_point point = points[i];
		size_t end = i + 1;
		while (end < boiloff->n && point.kind == BC_READING_AMOUNT &&
			points[end].kind == BC_READING_AMOUNT &&
			points[end].recovered_pct - point.recovered_pct <= SAME_PCT) {
			point.observed_c += points[end].observed_c;
			point.corrected_c += points[end].corrected_c;
			end++;
		}
		double count = (double)(end - i);
		point.observed_c /= count;
		point.corrected_c /= count;
		if (end - i > 1 && merged == 0)
			first_pct = point.recovered_pct;
		merged += end - i - 1;
		points[kept++] = point;
		i = end;
	}
	boiloff->n = kept;
	if (merged > 0)
		bc_findings_say(findings, "repeated-percent", BC_FINDING_NOTE, first_pct,
			"Check that no line was written twice with a slip.",
			"%zu reading%s at a percent that stands there already, the first at %.1f "
			"%%: averaged",
			merged, merged == 1 ? "" : "s", first_pct);
}

static bool in_use(const struct bc_point *point)
{
	return point->used && point->kind == BC_READING_AMOUNT;
}

/* The loss on the balance, where the boil-off was weighed. */
static void read_weighed_loss(
	const struct bc_sample *sample, struct bc_boiloff *boiloff, struct bc_strings *assumed)
{
	boiloff->mass_loss_pct = 100.0 *
				 (sample->charge_g - sample->distillate_g - sample->residue_g) /
				 sample->charge_g;
	if (boiloff->loss_known || !(boiloff->mass_loss_pct >= 0.0))
		return;
	boiloff->loss_known = true;
	boiloff->loss_pct = boiloff->mass_loss_pct;
	bc_strings_add(assumed,
		"loss not given: the weighed loss of %.1f %% by mass taken as percent by volume",
		boiloff->mass_loss_pct);
}

static void read_residue_and_loss(
	const struct bc_sample *sample, struct bc_boiloff *boiloff, struct bc_strings *assumed)
{
	boiloff->loss_pct = bc_part_pct(sample, sample->loss_ml, sample->loss_pct);
	boiloff->loss_known = isfinite(boiloff->loss_pct);
	read_weighed_loss(sample, boiloff, assumed);
	if (!boiloff->loss_known) {
		boiloff->loss_pct = 0.0;
		bc_strings_add(assumed, "loss not given: 0 %%");
	}
	boiloff->residue_pct = bc_part_pct(sample, sample->residue_ml, sample->residue_pct);
	boiloff->residue_known = isfinite(boiloff->residue_pct);
	if (boiloff->residue_known)
		return;
	boiloff->residue_pct = 0.0;
	if (isfinite(sample->residue_g) && isfinite(sample->charge_g)) {
		boiloff->residue_known = true;
		boiloff->residue_pct = 100.0 * sample->residue_g / sample->charge_g;
		bc_strings_add(
			assumed, "residue weighed only: its mass percent taken as volume percent");
	} else {
		bc_strings_add(assumed, "residue not given: what was not read above the last "
					"percent counts as heavy");
	}
}

/* More out than in: the loss, which is the difference of the others, is not believed. */
static void balance(struct bc_boiloff *boiloff, double highest_pct, struct bc_findings *findings)
{
	double left_pct = 100.0 - boiloff->residue_pct - highest_pct;

	if (highest_pct + boiloff->residue_pct + boiloff->loss_pct >
		100.0 + BC_BALANCE_PCT + SAME_PCT) {
		bc_findings_say(findings, "balance-impossible", BC_FINDING_WARNING, highest_pct,
			"Check charge, residue, loss and the receiver's scale, and boil off again.",
			"%.1f %% recovered, %.1f %% residue and %.1f %% loss are more than the "
			"charge",
			highest_pct, boiloff->residue_pct, boiloff->loss_pct);
		bc_findings_forbid(findings, true, false);
		boiloff->loss_known = false;
	}
	boiloff->loss_pct = fmax(fmin(boiloff->loss_pct, left_pct), 0.0);
}

/* Less out than in, where the run ended without an end point and all three were measured. */
static void find_short_balance(
	const struct bc_boiloff *boiloff, double highest_pct, struct bc_findings *findings)
{
	double sum_pct = highest_pct + boiloff->residue_pct + boiloff->loss_pct;

	if (!boiloff->residue_known || !boiloff->loss_known ||
		!(sum_pct < 100.0 - BC_BALANCE_SHORT_PCT))
		return;
	bc_findings_say(findings, "balance-short", BC_FINDING_WARNING, highest_pct,
		"Measure what is left in the flask cold, and what was lost as the rest; boil off "
		"again if something was spilled.",
		"%.1f %% recovered, %.1f %% residue and %.1f %% loss: %.1f %% of the charge is "
		"missing",
		highest_pct, boiloff->residue_pct, boiloff->loss_pct, 100.0 - sum_pct);
}

static double stated_or(double stated, double otherwise)
{
	return stated >= 0.0 ? stated : otherwise;
}

static void read_volume_error(const struct bc_sample *sample, struct bc_boiloff *boiloff)
{
	double volume_ml = stated_or(sample->volume_error_ml, VOLUME_HALF_WIDTH_ML);
	double rest_ml = stated_or(sample->rest_error_ml, REST_HALF_WIDTH_ML);

	boiloff->volume_half_width_pct = 100.0 * volume_ml / boiloff->charge_ml;
	boiloff->rest_half_width_pct = 100.0 * rest_ml / boiloff->charge_ml;
}

static void place_end(struct bc_boiloff *boiloff, struct bc_findings *findings)
{
	double highest_pct = boiloff->last_pct;
	bool fbp = false;
	bool ended = false;

	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		fbp = fbp || (point->kind == BC_READING_FBP && point->used);
		ended = ended || point->kind == BC_READING_FBP || point->kind == BC_READING_DRY;
		if (point->kind == BC_READING_AMOUNT)
			highest_pct = fmax(highest_pct, point->recovered_pct);
	}
	if (!ended)
		find_short_balance(boiloff, highest_pct, findings);
	balance(boiloff, highest_pct, findings);
	double end_pct = fmax(100.0 - boiloff->residue_pct - boiloff->loss_pct, 0.0);
	double least = boiloff->last_pct + (fbp ? FINEST_PCT : 0.0);
	boiloff->end_pct = fmin(fmax(end_pct, least), 100.0);
}

/* First, last and number of the readings in use; BC_TOO_FEW below three. */
static enum bc_status count_readings(struct bc_boiloff *boiloff)
{
	boiloff->n_amounts = 0;
	for (size_t i = 0; i < boiloff->n; i++) {
		if (!in_use(&boiloff->points[i]))
			continue;
		if (boiloff->n_amounts++ == 0)
			boiloff->first_pct = boiloff->points[i].recovered_pct;
		boiloff->last_pct = boiloff->points[i].recovered_pct;
	}
	return boiloff->n_amounts < 3 ? BC_TOO_FEW : BC_OK;
}

static void finish_points(struct bc_boiloff *boiloff)
{
	for (size_t i = 0; i < boiloff->n; i++) {
		struct bc_point *point = &boiloff->points[i];
		switch (point->kind) {
		case BC_READING_IBP:
			if (point->used)
				boiloff->ibp_c = point->corrected_c;
			break;
		case BC_READING_FBP:
			point->recovered_pct = boiloff->end_pct;
			if (point->used)
				boiloff->fbp_c = point->corrected_c;
			/* at 100 % a percent reading stands there already */
			point->used = point->used && boiloff->end_pct > boiloff->last_pct;
			break;
		case BC_READING_DRY:
			point->recovered_pct = boiloff->end_pct;
			if (point->used)
				boiloff->dry_c = point->corrected_c;
			point->used = false;
			break;
		case BC_READING_AMOUNT:
			break;
		}
		point->evaporated_pct = fmin(point->recovered_pct + boiloff->loss_pct, 100.0);
	}
}

/* The densities of charge, distillate and residue, where the boil-off was weighed. */
static void weigh(const struct bc_sample *sample, struct bc_boiloff *boiloff)
{
	double water_ml = boiloff->water_ml;
	double recovered_pct = boiloff->loss_known && boiloff->residue_known ? boiloff->end_pct
									     : boiloff->last_pct;
	double oil_ml = recovered_pct / 100.0 * boiloff->charge_ml;
	double residue_ml = boiloff->residue_pct / 100.0 * boiloff->charge_ml;
	bool residue_measured = isfinite(sample->residue_ml) || isfinite(sample->residue_pct);

	if (sample->charge_stated && !sample->charge_ml_computed && !sample->charge_g_computed)
		boiloff->charge_kgm3 = 1000.0 * (sample->charge_g - BC_WATER_G_PER_ML * water_ml) /
				       boiloff->charge_ml;
	if (oil_ml > 0.0)
		boiloff->distillate_kgm3 =
			1000.0 * (sample->distillate_g - BC_WATER_G_PER_ML * water_ml) / oil_ml;
	if (residue_measured && residue_ml > 0.0)
		boiloff->residue_kgm3 = 1000.0 * sample->residue_g / residue_ml;
}

static void say_shelf(const struct bc_boiloff *boiloff, const struct bc_conditions *conditions,
	const struct bc_shelf *shelf, struct bc_findings *findings)
{
	static const char advice[] =
		"Dry the oil (let it settle, draw off the water, then a drying "
		"salt) and boil off again: water bumps, and hides the light end.";

	if (boiloff->water_ml > 0.0) {
		bc_findings_say(findings, "water-shelf", BC_FINDING_WARNING, NAN, advice,
			"%.1f mL of water came over and is taken out of the percents; readings "
			"where oil and water boil together are not used",
			boiloff->water_ml);
		return;
	}
	const struct bc_point *start = &boiloff->points[shelf->first];
	const struct bc_point *end = &boiloff->points[shelf->last];
	bc_findings_say(findings, "water-shelf", BC_FINDING_WARNING, end->recovered_pct, advice,
		"the head stands at %.1f to %.1f C until %.1f %%, then jumps: water boils here at "
		"%.1f C, and readings on that shelf are not used",
		start->observed_c, end->observed_c, end->recovered_pct, conditions->steam_true_c);
}

/* Percents of the dry charge by volume, sorted, one reading each. */
static void settle_percents(const struct bc_sample *sample, const struct bc_conditions *conditions,
	struct bc_boiloff *boiloff, struct bc_findings *findings)
{
	struct bc_point *points = boiloff->points;
	struct bc_shelf shelf;

	single_end_points(boiloff);
	average_repeated(boiloff, findings);
	settle_edges(boiloff);
	if (boiloff->water_ml > 0.0) {
		shelf = bc_shelf_of_stated_water(conditions, points, boiloff->n);
		bc_water_taken_out(bc_water_pct(sample), &shelf, points, boiloff->n);
	} else {
		shelf = bc_shelf_seen(conditions, points, boiloff->n);
	}
	if (sample->amount_basis == BC_AMOUNT_MASS_PCT || sample->amount_basis == BC_AMOUNT_MASS_G)
		bc_volume_from_mass(points, boiloff->n, boiloff->loss_pct);
	boiloff->wet = shelf.found || boiloff->water_ml > 0.0;
	if (!boiloff->wet)
		return;
	bc_shelf_not_used(conditions, &shelf, points, boiloff->n);
	say_shelf(boiloff, conditions, &shelf, findings);
}

enum bc_status bc_boiloff_from_sample(const struct bc_sample *sample,
	const struct bc_conditions *conditions, struct bc_boiloff *boiloff,
	struct bc_strings *assumed, struct bc_findings *findings)
{
	return bc_boiloff_from_readings(sample, conditions, false, boiloff, assumed, findings);
}

enum bc_status bc_boiloff_from_readings(const struct bc_sample *sample,
	const struct bc_conditions *conditions, bool keep_all, struct bc_boiloff *boiloff,
	struct bc_strings *assumed, struct bc_findings *findings)
{
	*boiloff = (struct bc_boiloff){
		.ibp_c = NAN,
		.fbp_c = NAN,
		.dry_c = NAN,
		.first_pct = NAN,
		.last_pct = NAN,
		.end_pct = NAN,
		.mass_loss_pct = NAN,
		.charge_kgm3 = NAN,
		.distillate_kgm3 = NAN,
		.residue_kgm3 = NAN,
	};
	boiloff->points = bc_alloc_array(sample->n_readings, sizeof *boiloff->points);
	if (!boiloff->points)
		return BC_NO_MEMORY;
	boiloff->water_ml = bc_water_ml(sample);
	boiloff->charge_ml = bc_charge_ml(sample) - boiloff->water_ml;
	read_volume_error(sample, boiloff);
	bc_amounts_say(sample, assumed);
	read_residue_and_loss(sample, boiloff, assumed);
	take_readings(sample, conditions, boiloff);
	settle_percents(sample, conditions, boiloff, findings);
	enum bc_status status = bc_slips_settle(boiloff, conditions, keep_all, findings);
	if (!bc_failed(status))
		status = bc_order_settle(boiloff, keep_all, findings);
	if (!bc_failed(status))
		status = boiloff->charge_ml > 0.0 ? count_readings(boiloff) : BC_TOO_FEW;
	if (!bc_failed(status)) {
		place_end(boiloff, findings);
		finish_points(boiloff);
		weigh(sample, boiloff);
		if (bc_failed(bc_loss_corrected_pct(boiloff->loss_pct, conditions->pressure_kpa,
			    &boiloff->corrected_loss_pct))) {
			boiloff->corrected_loss_pct = boiloff->loss_pct;
			bc_strings_add(assumed, "loss not corrected: no formula at %.1f kPa",
				conditions->pressure_kpa);
		}
	}
	if (assumed->failed || findings->failed)
		status = BC_NO_MEMORY;
	if (bc_failed(status))
		bc_boiloff_release(boiloff);
	return status;
}

void bc_boiloff_release(struct bc_boiloff *boiloff)
{
	if (!boiloff)
		return;
	bc_free(boiloff->points);
	boiloff->points = NULL;
	boiloff->n = 0;
}

/* Percents and temperatures of the points in use, with the end points or without. */
static enum bc_status used_columns(
	const struct bc_boiloff *boiloff, bool end_points, double **pct, double **temp_c, size_t *n)
{
	*n = 0;
	*pct = bc_alloc_array(boiloff->n, sizeof **pct);
	*temp_c = bc_alloc_array(boiloff->n, sizeof **temp_c);
	if (!*pct || !*temp_c)
		return BC_NO_MEMORY;
	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		bool inside = point->recovered_pct > 0.0 && point->recovered_pct < 100.0;
		if (!point->used || (!end_points && (point->kind != BC_READING_AMOUNT || !inside)))
			continue;
		(*pct)[*n] = point->recovered_pct;
		(*temp_c)[(*n)++] = point->corrected_c;
	}
	return BC_OK;
}

enum bc_status bc_boiloff_curve(const struct bc_boiloff *boiloff, struct bc_curve **curve)
{
	double *pct;
	double *temp_c;
	size_t n;

	*curve = NULL;
	enum bc_status status = used_columns(boiloff, true, &pct, &temp_c, &n);
	if (!bc_failed(status))
		status = bc_curve_new(pct, temp_c, n, curve);
	bc_free(pct);
	bc_free(temp_c);
	return status;
}

enum bc_status bc_boiloff_fits(const struct bc_boiloff *boiloff, struct bc_fits *fits)
{
	double *pct;
	double *temp_c;
	size_t n;

	fits->n = 0;
	enum bc_status status = used_columns(boiloff, false, &pct, &temp_c, &n);
	if (!bc_failed(status))
		status = bc_fit_all(pct, temp_c, n, fits);
	bc_free(pct);
	bc_free(temp_c);
	return status;
}
