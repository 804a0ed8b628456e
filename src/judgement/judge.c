/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One sample through all the rooms below: conditions, boil-off, curve, oil, grades, cut, verdict.
 */
#include "judgement/judgement.h"

#include <math.h>

#include "base/memory.h"
#include "fuel/pressure_shift.h"
#include "judgement/inverted.h"
#include "judgement/learning.h"
#include "judgement/pooling.h"
#include "judgement/rerun.h"

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
	bc_free(judgement->inversion);
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

static enum bc_status read_boiloff(struct bc_judgement *judgement, bool keep_all)
{
	enum bc_status status = bc_boiloff_from_readings(judgement->sample, &judgement->conditions,
		keep_all, &judgement->boiloff, &judgement->assumed, &judgement->findings);

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

/* A still that is known is inverted; every other apparatus is taken for the flask. */
static enum bc_status read_oil(
	struct bc_judgement *judgement, const struct bc_judge_options *options)
{
	struct bc_reader *reader = &judgement->reader;
	struct bc_still apparatus;
	enum bc_status status = BC_OK;

	reader->boiloff = &judgement->boiloff;
	reader->conditions = &judgement->conditions;
	bc_points_read(reader, &judgement->points);
	bc_shares_read(reader, &judgement->shares);
	if (bc_inverted_apparatus(judgement->sample, options, &apparatus))
		status = bc_inverted_oil(judgement, &apparatus);
	if (bc_failed(status) || judgement->by_inversion)
		return status;
	status = bc_oil_from_boiloff(judgement->sample, &judgement->conditions, &judgement->boiloff,
		reader, &judgement->points, &judgement->oil, &judgement->assumed,
		&judgement->findings);
	return bc_failed(status) ? status : bc_inverted_beside(judgement);
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

	if (judgement->by_inversion) {
		evidence->points = &judgement->flask_points;
		evidence->reader = NULL;
		bc_strings_add(&judgement->assumed,
			"limits are held against the D86 curve that such an oil would show in the "
			"flask (simulated, 5 to 95 %%)");
	} else if (judgement->conditions.tbp) {
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

/* Whether a cut could change the word or be shown: not of what is usable as it is, nor of what may
 * not be distilled. */
static bool needs_cut(const struct bc_judgement *judgement, const struct bc_bearing *bearing)
{
	struct bc_bearing with_cut = *bearing;

	with_cut.cut_exists = true;
	return judgement->verdict.word != BC_WORD_USABLE && bc_bearing_may_cut(&with_cut);
}

/* The final word comes after the still has said whether any cut meets a grade. */
static enum bc_status decide_with_cut(struct bc_judgement *judgement,
	const struct bc_judge_options *options, struct bc_bearing *bearing)
{
	struct bc_criterion room[BC_CUT_CRITERIA_MAX];
	struct bc_grade product;
	enum bc_status status = bc_rerun_find(judgement, options);

	if (status == BC_NO_MEMORY)
		return status;
	bearing->cut_unknown = bc_failed(status);
	bearing->still = judgement->still_words;
	bc_rerun_bear(judgement, bearing);
	if (judgement->rerun.standard &&
		!bc_failed(bc_cut_assess(&judgement->rerun, options->limits, &product, room)))
		bearing->product = &product;
	bc_verdict_release(&judgement->verdict);
	status = bc_verdict_decide(&judgement->grades, bearing, &judgement->verdict);
	bearing->product = NULL;
	return status;
}

static enum bc_status decide(struct bc_judgement *judgement, const struct bc_judge_options *options)
{
	const struct bc_sample *sample = judgement->sample;
	struct bc_evidence evidence = {.points = &judgement->points,
		.reader = &judgement->reader,
		.oil = &judgement->oil,
		.boiloff = &judgement->boiloff,
		.sample = sample,
		.asked_standard = options->standard,
		.asked_grade = options->want < BC_GRADES ? bc_grade_texts[options->want] : NULL};
	struct bc_bearing bearing = {
		.evidence = &evidence,
		.findings = &judgement->findings,
		.petrol_like = judgement->hazards.petrol_like,
		.few_readings = judgement->boiloff.n_amounts < FEW_READINGS,
		.rough_apparatus = !judgement->by_inversion &&
				   (sample->apparatus == BC_APPARATUS_COLUMN ||
					   sample->apparatus == BC_APPARATUS_STILL),
		.guessed_still = judgement->still_guessed,
		.tbp = judgement->conditions.tbp,
		.want = options->want,
		.standard = options->standard,
	};
	struct bc_points flask;
	enum bc_status status = hold_against_limits(judgement, options, &evidence, &flask);

	bc_cut_forget(&judgement->rerun);
	bc_cut_forget(&judgement->perfect);
	if (!bc_failed(status))
		status = bc_verdict_decide(&judgement->grades, &bearing, &judgement->verdict);
	if (!bc_failed(status) && needs_cut(judgement, &bearing))
		status = decide_with_cut(judgement, options, &bearing);
	if (bc_failed(status))
		return status;
	judgement->has_rerun = bc_bearing_may_cut(&bearing) && shows_rerun(judgement);
	if (judgement->has_rerun && !options->still) {
		const struct bc_still usual = bc_still_default();
		bc_rerun_assume(&usual, &judgement->assumed);
	}
	judgement->wanted_met = judgement->verdict.word == BC_WORD_USABLE ||
				judgement->verdict.word == BC_WORD_RERUN;
	return BC_OK;
}

/* All but hazards, grades and words. */
static enum bc_status judge_oil(const struct bc_sample *sample,
	const struct bc_judge_options *options, struct bc_judgement *judgement)
{
	enum bc_status status;

	judgement->sample = sample;
	status = read_conditions(judgement);
	if (!bc_failed(status))
		status = read_boiloff(judgement, options->keep_all);
	if (!bc_failed(status) && options->pool)
		status = bc_pool_bring(options->pool, judgement);
	if (!bc_failed(status))
		status = draw_curve(judgement);
	if (!bc_failed(status))
		status = read_oil(judgement, options);
	if (!bc_failed(status))
		status = bc_learning_apply(options->learned, judgement);
	if (!bc_failed(status))
		status = bc_spread_draw(judgement, options);
	return status;
}

/* Where the runs disagree in front their mean is no run's: the lowest low bound of the flash that
 * any of them has by itself stands for all. */
static enum bc_status take_lowest_flash(
	const struct bc_judge_options *options, struct bc_judgement *judgement)
{
	struct bc_oil *oil = &judgement->oil;
	struct bc_estimate *flash = &oil->property[BC_FLASH];
	struct bc_judge_options alone = *options;
	double lowest_c = flash->low;
	const char *file = NULL;
	enum bc_status status = BC_OK;

	if (!options->pool || !options->pool->front_differs || flash->how == BC_MEASURED)
		return BC_OK;
	alone.pool = NULL;
	for (size_t i = 0; i < options->pool->n && status != BC_NO_MEMORY; i++) {
		const struct bc_pool_run *run = &options->pool->runs[i];
		struct bc_judgement one;
		if (run->belonging == BC_RUN_LEFT_OUT)
			continue;
		bc_judgement_init(&one);
		status = judge_oil(run->sample, &alone, &one);
		if (!bc_failed(status) && one.oil.property[BC_FLASH].low < lowest_c) {
			lowest_c = one.oil.property[BC_FLASH].low;
			file = run->sample->file ? run->sample->file : "a run";
		}
		bc_judgement_release(&one);
	}
	if (status == BC_NO_MEMORY || !file)
		return status == BC_NO_MEMORY ? status : BC_OK;
	oil->flash_low_at_site_c += lowest_c - flash->low;
	flash->low = lowest_c;
	bc_strings_add(&judgement->assumed,
		"the runs disagree in front: the low bound of the flash is that of %s alone", file);
	return BC_OK;
}

enum bc_status bc_judge(const struct bc_sample *sample, const struct bc_judge_options *options,
	struct bc_judgement *judgement)
{
	enum bc_status status = judge_oil(sample, options, judgement);

	if (!bc_failed(status))
		status = take_lowest_flash(options, judgement);
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
