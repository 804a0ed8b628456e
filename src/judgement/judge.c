/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One sample through all the rooms below: conditions, boil-off, curve, oil, grades, cut, verdict.
 */
#include "judgement/judgement.h"

#include <math.h>

#include "curve/cracking.h"
#include "fuel/pressure_shift.h"

#define FEW_READINGS 5

void bc_judgement_init(struct bc_judgement *judgement)
{
	*judgement = (struct bc_judgement){0};
	bc_strings_init(&judgement->assumed);
	bc_strings_init(&judgement->cautions);
	bc_findings_init(&judgement->findings);
}

void bc_judgement_release(struct bc_judgement *judgement)
{
	if (!judgement)
		return;
	bc_verdict_release(&judgement->verdict);
	bc_grades_release(&judgement->grades);
	bc_hazards_release(&judgement->hazards);
	bc_findings_release(&judgement->findings);
	bc_strings_release(&judgement->assumed);
	bc_strings_release(&judgement->cautions);
	bc_spread_free(judgement->spread);
	bc_curve_free(judgement->curve);
	bc_boiloff_release(&judgement->boiloff);
	bc_judgement_init(judgement);
}

static enum bc_status read_conditions(struct bc_judgement *judgement)
{
	struct bc_conditions *conditions = &judgement->conditions;
	enum bc_status status =
		bc_conditions_from_sample(judgement->sample, conditions, &judgement->assumed);

	if (!bc_failed(status))
		status = bc_pressure_shift_fill(conditions->pressure_kpa, &conditions->shift);
	for (size_t i = 0; i < judgement->sample->assumed.n; i++)
		bc_strings_add_once(&judgement->assumed, "%s", judgement->sample->assumed.items[i]);
	if (judgement->sample->history == BC_HISTORY_UNKNOWN)
		bc_strings_add(&judgement->assumed,
			"history not given: treated as straight from a retort, with dissolved gas");
	return status;
}

static enum bc_status read_boiloff(struct bc_judgement *judgement)
{
	enum bc_status status = bc_boiloff_from_sample(judgement->sample, &judgement->conditions,
		&judgement->boiloff, &judgement->assumed, &judgement->findings);

	if (bc_failed(status))
		return status;
	return bc_boiloff_findings(&judgement->boiloff, judgement->sample, &judgement->conditions,
		&judgement->findings);
}

/* IBP and FBP shape the curve between the readings; a fit never sees them. */
static enum bc_status draw_curve(struct bc_judgement *judgement)
{
	enum bc_status status = bc_boiloff_curve(&judgement->boiloff, &judgement->curve);

	if (bc_failed(status))
		return status;
	judgement->reader.curve = judgement->curve;
	status = bc_boiloff_fits(&judgement->boiloff, &judgement->fits);
	if (status == BC_NO_MEMORY)
		return status;
	if (!bc_failed(status))
		judgement->reader.fit = &judgement->fits.items[0];
	return BC_OK;
}

static enum bc_status read_oil(struct bc_judgement *judgement)
{
	struct bc_reader *reader = &judgement->reader;

	reader->boiloff = &judgement->boiloff;
	reader->conditions = &judgement->conditions;
	bc_points_read(reader, &judgement->points);
	bc_shares_read(reader, &judgement->shares);
	return bc_oil_from_boiloff(judgement->sample, &judgement->conditions, &judgement->boiloff,
		reader, &judgement->points, &judgement->oil, &judgement->assumed,
		&judgement->findings);
}

/* What comes over below the head limit; the rest stays in the pot. */
static double ceiling_of(const struct bc_judgement *judgement)
{
	const double least_left = 0.02; /* where no residue was measured; common practice */
	const struct bc_boiloff *boiloff = &judgement->boiloff;
	double over = boiloff->end_pct / 100.0;

	if (!boiloff->residue_known)
		over = fmin(over, 1.0 - least_left);
	return fmin(over, bc_split_head_frac(&judgement->oil.slices, BC_HEAD_LIMIT_C));
}

/* The largest cut that meets a grade; the nearest grade's own where it is not much smaller. */
static enum bc_status find_cut(
	struct bc_judgement *judgement, const struct bc_judge_options *options, struct bc_cut *cut)
{
	const double nearly = 0.8;
	struct bc_feed feed;
	bc_feed_read(judgement->sample->feed, &feed);
	const struct bc_parent parent = bc_parent_of(&judgement->oil, &feed);
	const struct bc_charge charge = {&judgement->oil.slices, &parent, &judgement->conditions,
		ceiling_of(judgement), &judgement->grades};
	const struct bc_grade *nearest =
		bc_grade_nearest(&judgement->grades, options->want, options->standard);
	enum bc_status status =
		bc_split_best(&charge, options->limits, options->want, options->standard, cut);

	if (bc_failed(status) || !nearest || nearest->name == BC_GRADE_GASOLINE)
		return status;
	struct bc_cut own;
	if (!bc_failed(bc_split_find(&charge, options->limits, nearest->standard, &own)) &&
		own.product_pct >= nearly * cut->product_pct)
		*cut = own;
	return status;
}

/* A cut is shown where it mends something and is worth the heat. */
static bool shows_rerun(const struct bc_judgement *judgement)
{
	const double worth_pct = 10.0; /* of an oil that may be usable as it is; common practice */

	return judgement->verdict.word == BC_WORD_RERUN ||
	       (judgement->verdict.word == BC_WORD_UNDECIDED &&
		       judgement->rerun.product_pct >= worth_pct);
}

/* Limits are the flask's: readings from a better column are brought to it. */
static enum bc_status hold_against_limits(struct bc_judgement *judgement,
	const struct bc_judge_options *options, struct bc_evidence *evidence,
	struct bc_points *flask)
{
	enum bc_status status = BC_OK;

	if (judgement->conditions.tbp) {
		status = bc_flask_points(&judgement->oil.slices, flask);
		evidence->points = flask;
		evidence->reader = NULL;
		bc_strings_add(&judgement->assumed,
			"limits are held against the D86 curve that such an oil would show in the "
			"flask (Riazi-Daubert)");
	}
	if (!bc_failed(status))
		status = bc_grades_assess(options->limits, evidence, &judgement->grades);
	if (!bc_failed(status))
		status = bc_spread_weigh(judgement->spread, &judgement->grades);
	return status;
}

/* What never comes over is no tail: a tail is more than that, or what the oil fails by. */
static void bring_cut(const struct bc_judgement *judgement, struct bc_bearing *bearing)
{
	const double spill_pct = 0.5; /* of a 100 mL charge in a measuring cylinder */
	const struct bc_cut *cut = &judgement->rerun;
	double stays_pct = judgement->boiloff.residue_pct + judgement->boiloff.loss_pct;

	bearing->cut_light = cut->light_until_frac > 0.0;
	bearing->cut_tail = cut->heavy_end || cut->tail_pct > stays_pct + spill_pct;
	bearing->cut_exists = bearing->cut_light || bearing->cut_tail;
	bearing->product_pct = cut->product_pct;
}

/* The final word comes after the still has said whether any cut meets a grade. */
static enum bc_status decide(struct bc_judgement *judgement, const struct bc_judge_options *options)
{
	const struct bc_sample *sample = judgement->sample;
	struct bc_evidence evidence = {&judgement->points, &judgement->reader, &judgement->oil,
		&judgement->boiloff, sample, options->standard,
		options->want < BC_GRADES ? bc_grade_texts[options->want] : NULL};
	struct bc_bearing bearing = {
		.evidence = &evidence,
		.findings = &judgement->findings,
		.petrol_like = judgement->hazards.petrol_like,
		.few_readings = judgement->boiloff.n_amounts < FEW_READINGS,
		.rough_apparatus = sample->apparatus == BC_APPARATUS_COLUMN ||
				   sample->apparatus == BC_APPARATUS_STILL,
		.tbp = judgement->conditions.tbp,
		.want = options->want,
		.standard = options->standard,
	};
	struct bc_points flask;
	struct bc_criterion room[BC_CUT_CRITERIA_MAX];
	struct bc_grade product;
	enum bc_status status = hold_against_limits(judgement, options, &evidence, &flask);

	if (bc_failed(status))
		return status;
	status = find_cut(judgement, options, &judgement->rerun);
	if (bc_failed(status) && status != BC_NOT_FOUND)
		return status;
	if (!bc_failed(status)) {
		bring_cut(judgement, &bearing);
		if (!bc_failed(bc_cut_assess(&judgement->rerun, options->limits, &product, room)))
			bearing.product = &product;
	}
	status = bc_verdict_decide(&judgement->grades, &bearing, &judgement->verdict);
	if (bc_failed(status))
		return status;
	judgement->has_rerun = bc_bearing_may_cut(&bearing) && shows_rerun(judgement);
	judgement->wanted_met = judgement->verdict.word == BC_WORD_USABLE ||
				judgement->verdict.word == BC_WORD_RERUN;
	return BC_OK;
}

enum bc_status bc_judge(const struct bc_sample *sample, const struct bc_judge_options *options,
	struct bc_judgement *judgement)
{
	enum bc_status status;

	judgement->sample = sample;
	status = read_conditions(judgement);
	if (!bc_failed(status))
		status = read_boiloff(judgement);
	if (!bc_failed(status))
		status = draw_curve(judgement);
	if (!bc_failed(status))
		status = read_oil(judgement);
	if (!bc_failed(status))
		status = bc_spread_draw(judgement, options);
	if (!bc_failed(status))
		status = bc_hazards_classify(
			&judgement->oil, &judgement->boiloff, sample->history, &judgement->hazards);
	if (!bc_failed(status))
		status = decide(judgement, options);
	if (!bc_failed(status))
		status = bc_spread_blame(judgement, judgement->verdict.grade);
	if (!bc_failed(status))
		status = bc_cautions_collect(sample, &judgement->oil, &judgement->hazards,
			&judgement->findings, judgement->has_rerun, &judgement->cautions);
	if (!bc_failed(status) && (judgement->assumed.failed || judgement->findings.failed ||
					  judgement->cautions.failed))
		status = BC_NO_MEMORY;
	return bc_failed(status) ? status : BC_OK;
}
