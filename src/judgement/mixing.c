/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several judged oils poured together, judged as one oil that has no readings of its own. */
#include "judgement/mixing.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "curve/cracking.h"
#include "fuel/flash_forms.h"
#include "fuel/measured.h"
#include "fuel/oil_findings.h"
#include "judgement/mix_job.h"
#include "judgement/rerun.h"

#define WHOLE_SLACK_PCT 0.05 /* percents written to one decimal */

void bc_mixing_init(struct bc_mixing *mixing)
{
	*mixing = (struct bc_mixing){.volume_l = NAN, .mass_kg = NAN, .flash_index_c = NAN};
	mixing->share = (struct bc_mix_share){.grade = BC_GRADES,
		.share_pct = NAN,
		.volume_l = NAN,
		.mass_kg = NAN,
		.value = bc_estimate_absent()};
	bc_judgement_init(&mixing->mix);
}

void bc_mixing_release(struct bc_mixing *mixing)
{
	if (mixing == NULL)
		return;
	bc_judgement_release(&mixing->mix);
	bc_sample_free(mixing->sample);
	bc_free(mixing->no_claim);
	bc_free(mixing->share.why);
	bc_mixing_init(mixing);
}

bool bc_mixing_add(struct bc_mixing *mixing, const struct bc_judgement *oil, enum bc_mix_unit unit,
	double amount)
{
	if (mixing->n == BC_BLEND_PARTS_MAX)
		return false;
	mixing->parts[mixing->n++] = (struct bc_mix_part){.oil = oil,
		.unit = unit,
		.amount = amount,
		.volume_l = NAN,
		.mass_kg = NAN,
		.flash_measured = oil->oil.property[BC_FLASH].how == BC_MEASURED};
	return true;
}

/* ---- amounts */

static double density_kgl(const struct bc_mix_part *part)
{
	return part->oil->oil.property[BC_DENSITY15].value / 1000.0;
}

/* Parts of volume_l that is litres, or percents where all are. */
static bool take_amounts(struct bc_mixing *mixing)
{
	size_t asked = 0;
	size_t percents = 0;
	double sum_pct = 0.0;
	for (size_t i = 0; i < mixing->n; i++) {
		struct bc_mix_part *part = &mixing->parts[i];
		if (part->unit == BC_MIX_ASKED) {
			mixing->share.asked = true;
			mixing->share.part = i;
			part->volume_l = 0.0;
			asked++;
			continue;
		}
		if (!(part->amount > 0.0) || !isfinite(part->amount))
			return false;
		part->volume_l = part->amount;
		if (part->unit == BC_MIX_KILOGRAM)
			part->volume_l /= density_kgl(part);
		if (part->unit == BC_MIX_PERCENT) {
			percents++;
			sum_pct += part->amount;
		}
	}
	mixing->wholly_percent = percents > 0;
	if (asked > 1 || (asked == 1 && mixing->n < 2))
		return false;
	if (percents == 0)
		return mixing->n > 0;
	return percents + asked == mixing->n && fabs(sum_pct - 100.0) <= WHOLE_SLACK_PCT;
}

void bc_mix_recipe_of(const struct bc_mixing *mixing, struct bc_mix_recipe *recipe, size_t *place)
{
	recipe->n = 0;
	for (size_t i = 0; i < mixing->n; i++) {
		if (!(mixing->parts[i].volume_l > 0.0))
			continue;
		place[recipe->n] = i;
		recipe->oil[recipe->n] = mixing->parts[i].oil;
		recipe->volume[recipe->n++] = mixing->parts[i].volume_l;
	}
}

static void fill_parts(
	struct bc_mixing *mixing, const struct bc_mix_recipe *recipe, const size_t *place)
{
	double volume = 0.0;
	double mass = 0.0;
	for (size_t i = 0; i < mixing->n; i++) {
		struct bc_mix_part *part = &mixing->parts[i];
		part->mass_kg = part->volume_l * density_kgl(part);
		volume += part->volume_l;
		mass += part->mass_kg;
		part->vapour_pct = 0.0;
	}
	for (size_t i = 0; i < mixing->n; i++) {
		struct bc_mix_part *part = &mixing->parts[i];
		part->volume_pct = 100.0 * part->volume_l / volume;
		part->mass_pct = 100.0 * part->mass_kg / mass;
		if (mixing->wholly_percent)
			part->volume_l = part->mass_kg = NAN;
	}
	for (size_t i = 0; i < recipe->n; i++)
		mixing->parts[place[i]].vapour_pct = 100.0 * recipe->vapour_frac[i];
	mixing->volume_l = mixing->wholly_percent ? (double)NAN : volume;
	mixing->mass_kg = mixing->wholly_percent ? (double)NAN : mass;
}

/* By volume on the parts' own flash points. */
static void fill_index(struct bc_mixing *mixing)
{
	double sum = 0.0;
	for (size_t i = 0; i < mixing->n; i++) {
		const struct bc_mix_part *part = &mixing->parts[i];
		double index = NAN;
		if (!(part->volume_pct > 0.0))
			continue;
		bc_flash_index_wickey(part->oil->oil.property[BC_FLASH].value, &index);
		sum += part->volume_pct / 100.0 * index;
	}
	bc_flash_from_index_wickey_c(sum, &mixing->flash_index_c);
}

/* ---- a curve to read shares from */

/* The lowest IBP of the parts: what begins to boil there begins so in the mixture too. */
static double lowest_ibp_c(const struct bc_mix_recipe *recipe)
{
	double lowest_c = INFINITY;
	for (size_t i = 0; i < recipe->n; i++) {
		double ibp_c = recipe->oil[i]->boiloff.ibp_c;
		if (isnan(ibp_c))
			return NAN;
		lowest_c = fmin(lowest_c, ibp_c);
	}
	return lowest_c;
}

static enum bc_status draw_curve(const struct bc_mix_recipe *recipe, struct bc_judgement *mix)
{
	double pct[BC_POINTS];
	double temp_c[BC_POINTS];
	for (size_t i = 0; i < BC_POINTS; i++) {
		pct[i] = bc_point_pct[i];
		temp_c[i] = mix->points.at[i].value;
	}
	mix->boiloff = (struct bc_boiloff){.ibp_c = lowest_ibp_c(recipe),
		.fbp_c = temp_c[BC_AT_FBP],
		.dry_c = NAN,
		.last_pct = 100.0,
		.end_pct = 100.0,
		.corrected_loss_pct = NAN,
		.charge_ml = BC_CHARGE_ML,
		.mass_loss_pct = NAN,
		.charge_kgm3 = NAN,
		.distillate_kgm3 = NAN,
		.residue_kgm3 = NAN};
	enum bc_status status = bc_curve_new(pct, temp_c, BC_POINTS, &mix->curve);
	if (bc_failed(status))
		return status;
	mix->reader = (struct bc_reader){&mix->boiloff, &mix->conditions, mix->curve, NULL};
	bc_shares_read(&mix->reader, &mix->shares);
	return BC_OK;
}

/* Site and thermometer are those of the part from the thinnest air. */
static void take_conditions(const struct bc_mix_recipe *recipe, struct bc_judgement *mix)
{
	mix->conditions = recipe->oil[0]->conditions;
	for (size_t i = 1; i < recipe->n; i++)
		if (recipe->oil[i]->conditions.pressure_kpa < mix->conditions.pressure_kpa)
			mix->conditions = recipe->oil[i]->conditions;
	mix->conditions.tbp = false;
}

/* ---- the verdict */

/* As a boil-off of the mixture would be judged. */
static enum bc_status look_for_cut(struct bc_judgement *mix, const struct bc_judge_options *options,
	struct bc_bearing *bearing, struct bc_grade *product, struct bc_criterion *room)
{
	enum bc_status status = bc_rerun_find(mix, options);
	if (status == BC_NO_MEMORY)
		return status;
	bearing->cut_unknown = bc_failed(status);
	bearing->still = mix->still_words;
	bc_rerun_bear(mix, bearing);
	if (mix->rerun.standard != NULL &&
		!bc_failed(bc_cut_assess(&mix->rerun, options->limits, product, room)))
		bearing->product = product;
	return BC_OK;
}

static struct bc_bearing bearing_of(const struct bc_mix_recipe *recipe,
	const struct bc_judgement *mix, const struct bc_judge_options *options,
	const struct bc_evidence *evidence)
{
	struct bc_bearing bearing = {.evidence = evidence,
		.findings = &mix->findings,
		.petrol_like = mix->hazards.petrol_like,
		.want = options->want,
		.standard = options->standard};
	for (size_t i = 0; i < recipe->n; i++) {
		const struct bc_judgement *oil = recipe->oil[i];
		bearing.few_readings = bearing.few_readings || bc_mix_few_readings(oil);
		bearing.tbp = bearing.tbp || oil->conditions.tbp;
		bearing.rough_apparatus = bearing.rough_apparatus || bc_mix_rough(oil);
	}
	return bearing;
}

static enum bc_status decide(const struct bc_mix_recipe *recipe, struct bc_judgement *mix,
	const struct bc_mix_measured *measured, const struct bc_judge_options *options)
{
	struct bc_evidence evidence = {.points = &mix->points,
		.oil = &mix->oil,
		.sample = mix->sample,
		.asked_standard = options->standard,
		.asked_grade = options->want < BC_GRADES ? bc_grade_texts[options->want] : NULL,
		.part_figures = measured->figures,
		.n_part_figures = measured->n_figures};
	struct bc_criterion room[BC_CUT_CRITERIA_MAX];
	struct bc_grade product;
	enum bc_status status = bc_grades_assess(options->limits, &evidence, &mix->grades);
	if (bc_failed(status))
		return status;
	struct bc_bearing bearing = bearing_of(recipe, mix, options, &evidence);
	status = look_for_cut(mix, options, &bearing, &product, room);
	if (!bc_failed(status))
		status = bc_verdict_decide(&mix->grades, &bearing, &mix->verdict);
	if (bc_failed(status))
		return status;
	/* what is not yet poured together is distilled again only where nothing else helps */
	mix->has_rerun = bc_bearing_may_cut(&bearing) && mix->verdict.word == BC_WORD_RERUN;
	if (mix->has_rerun && !options->still) {
		const struct bc_still usual = bc_still_default();
		bc_rerun_assume(&usual, &mix->assumed);
	}
	mix->wanted_met = mix->verdict.word == BC_WORD_USABLE || mix->has_rerun;
	return BC_OK;
}

/* ---- the whole */

static void say_assumed(struct bc_mixing *mixing, const struct bc_mix_recipe *recipe)
{
	struct bc_strings *assumed = &mixing->mix.assumed;
	bc_strings_add(assumed, "volumes are ideal, at 15 degC: what is poured together adds up");
	for (size_t i = 0; i < recipe->n; i++) {
		const struct bc_judgement *oil = recipe->oil[i];
		if (oil->oil.property[BC_DENSITY15].how != BC_MEASURED)
			bc_strings_add(assumed,
				"density of '%s' estimated from its curve: %.0f kg/m3",
				bc_mix_name(oil), oil->oil.property[BC_DENSITY15].value);
		if (oil->sample->history == BC_HISTORY_UNKNOWN)
			bc_strings_add(assumed,
				"history of '%s' not given: treated as straight from a retort, "
				"with dissolved gas",
				bc_mix_name(oil));
	}
}

/* The reason of the first part without a claim, by its name. */
static bool name_no_claim(struct bc_mixing *mixing, const struct bc_mix_recipe *recipe)
{
	struct bc_oil *oil = &mixing->mix.oil;
	for (size_t i = 0; i < recipe->n && !oil->flash_claim; i++) {
		if (recipe->oil[i]->oil.flash_claim)
			continue;
		mixing->no_claim = bc_format(
			"of '%s' in it, %s", bc_mix_name(recipe->oil[i]), oil->no_claim_why);
		oil->no_claim_why = mixing->no_claim;
		return mixing->no_claim != NULL;
	}
	return true;
}

/* What the mixture's own curve shows. Of one oil alone its part has told it. */
static enum bc_status find_in_mix(const struct bc_mix_recipe *recipe,
	const double d86_c[BC_TBP_POINTS], const struct bc_feed *feed, struct bc_judgement *mix)
{
	struct bc_findings own;
	bc_findings_init(&own);
	bc_oil_findings(&mix->oil, d86_c, feed, &mix->reader, &own);
	enum bc_status status = own.failed ? BC_NO_MEMORY : BC_OK;
	for (size_t i = 0; i < own.n; i++) {
		const struct bc_finding *finding = &own.items[i];
		if (recipe->n == 1 && bc_findings_has(&mix->findings, finding->code))
			continue;
		bc_findings_say(&mix->findings, finding->code, finding->weight, finding->at_pct,
			finding->advice, "%s", finding->message);
		bc_findings_forbid(&mix->findings, finding->forbids_usable, finding->forbids_rerun);
	}
	bc_findings_release(&own);
	return status;
}

static enum bc_status judge_mix(struct bc_mixing *mixing, const struct bc_judge_options *options)
{
	struct bc_judgement *mix = &mixing->mix;
	struct bc_mix_recipe recipe;
	struct bc_mix_measured measured;
	size_t place[BC_BLEND_PARTS_MAX] = {0};
	double d86_c[BC_TBP_POINTS];
	struct bc_feed feed;
	bc_mix_recipe_of(mixing, &recipe, place);
	enum bc_status status = bc_mix_oil(&recipe, d86_c, &mix->oil, &mix->points);
	if (bc_failed(status))
		return status;
	fill_parts(mixing, &recipe, place);
	fill_index(mixing);
	mixing->sample = bc_mix_sample(&recipe, &mix->points);
	mix->sample = mixing->sample;
	if (mix->sample == NULL || !name_no_claim(mixing, &recipe))
		return BC_NO_MEMORY;
	take_conditions(&recipe, mix);
	status = draw_curve(&recipe, mix);
	if (bc_failed(status))
		return status;
	say_assumed(mixing, &recipe);
	bc_mix_measure(&recipe, &measured);
	bc_mix_say_left_out(&measured, &mix->assumed);
	bc_mix_findings(&recipe, &mix->findings);
	bc_measured_alarms(mix->sample, &mix->findings);
	bc_feed_read(mix->sample->feed, &feed);
	status = find_in_mix(&recipe, d86_c, &feed, mix);
	if (bc_failed(status))
		return status;
	status = bc_hazards_classify(&mix->oil, &mix->boiloff, mix->sample->history, &mix->hazards);
	if (!bc_failed(status))
		status = decide(&recipe, mix, &measured, options);
	if (bc_failed(status))
		return status;
	bc_mix_cautions(mixing, &mix->cautions);
	return bc_cautions_collect(mix->sample, &mix->oil, &mix->hazards, &mix->findings,
		mix->has_rerun, &mix->cautions);
}

/* Without the part that was asked for. */
static enum bc_status judge_the_others(
	struct bc_mixing *mixing, const struct bc_judge_options *options)
{
	bc_judgement_release(&mixing->mix);
	bc_judgement_init(&mixing->mix);
	bc_sample_free(mixing->sample);
	bc_free(mixing->no_claim);
	mixing->sample = NULL;
	mixing->no_claim = NULL;
	take_amounts(mixing);
	return judge_mix(mixing, options);
}

/* One mixture is told of: that which was judged. */
static void take_value(struct bc_mixing *mixing)
{
	struct bc_mix_share *share = &mixing->share;
	const struct bc_grades *grades = &mixing->mix.grades;
	if (share->limit == NULL || !(share->share_pct > 0.0))
		return;
	for (size_t i = 0; i < grades->n; i++)
		for (size_t k = 0; k < grades->items[i].n_criteria; k++)
			if (grades->items[i].criteria[k].limit == share->limit)
				share->value = grades->items[i].criteria[k].value;
}

static enum bc_status judge_share(struct bc_mixing *mixing, const struct bc_judge_options *options)
{
	bool held = false;
	enum bc_status status = bc_mix_hold_share(mixing, &held);
	if (!bc_failed(status) && held)
		status = judge_the_others(mixing, options);
	if (!bc_failed(status))
		take_value(mixing);
	return status;
}

enum bc_status bc_mix(struct bc_mixing *mixing, const struct bc_judge_options *options)
{
	struct bc_judgement *mix = &mixing->mix;
	enum bc_status status = take_amounts(mixing) ? BC_OK : BC_BAD_DOMAIN;
	if (!bc_failed(status) && mixing->n > 1)
		status = bc_mix_find_share(mixing, options);
	if (!bc_failed(status))
		status = judge_mix(mixing, options);
	if (!bc_failed(status) && mixing->share.asked)
		status = judge_share(mixing, options);
	if (!bc_failed(status) &&
		(mix->assumed.failed || mix->findings.failed || mix->cautions.failed))
		status = BC_NO_MEMORY;
	return bc_failed(status) ? status : BC_OK;
}
