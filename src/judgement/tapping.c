/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a sample and a still to the turns of the tap: one run of the column, read many times. */
#include "judgement/tapping.h"

#include <math.h>
#include <stdio.h>

#include "base/memory.h"
#include "judgement/tap_job.h"

#define POT_LIMIT_C 330.0           /* cracked feeds; common practice, run of an hour or two */
#define POT_LIMIT_PETROLEUM_C 350.0 /* straight-run oils stand more; common practice */
#define LEAST_LEFT_FRAC 0.02        /* where no residue was measured; common practice */

struct bc_tap_request bc_tap_request_default(void)
{
	return (struct bc_tap_request){.want = BC_GRADES,
		.still = bc_still_default(),
		.charge_ml = 1000.0,
		.heater_w = NAN,
		.vacuum_kpa = NAN,
		.pot_limit_c = NAN,
		.margin_c = NAN,
		.room_m3 = NAN};
}

void bc_tapping_init(struct bc_tapping *tapping)
{
	*tapping = (struct bc_tapping){.want = BC_GRADES};
	bc_judgement_init(&tapping->feed);
	bc_strings_init(&tapping->binding);
	bc_strings_init(&tapping->advice);
	bc_strings_init(&tapping->assumed);
	bc_strings_init(&tapping->cautions);
}

void bc_tapping_release(struct bc_tapping *tapping)
{
	if (!tapping)
		return;
	for (size_t i = 0; i < BC_JARS_MAX; i++)
		bc_grades_release(&tapping->jars[i].grades);
	bc_strings_release(&tapping->cautions);
	bc_strings_release(&tapping->assumed);
	bc_strings_release(&tapping->advice);
	bc_strings_release(&tapping->binding);
	bc_judgement_release(&tapping->feed);
	bc_tapping_init(tapping);
}

/* ---- temperatures at a place */

double bc_tap_head_c(const struct bc_tap_job *job, double over_frac)
{
	return bc_corrected_from_true(bc_run_head_normal_c(job->run, over_frac));
}

double bc_tap_reading_c(const struct bc_tap_job *job, double over_frac)
{
	double corrected_c = job->vacuum
				     ? bc_corrected_from_true(bc_run_at(job->run, over_frac).head_c)
				     : bc_tap_head_c(job, over_frac);
	return bc_reading_from_corrected(&job->readings, corrected_c);
}

/* A still with a thermometer of its own: what the sample says of the flask's does not count. */
static void set_thermometer(enum bc_thermometer thermometer, struct bc_conditions *readings)
{
	readings->thermometer = thermometer;
	readings->reads_true_vapour =
		thermometer == BC_THERMOMETER_PROBE || thermometer == BC_THERMOMETER_GLASS_PARTIAL;
	readings->ice_c = readings->steam_c = readings->immersion_c = NAN;
}

/* Under vacuum the vapour's own temperature is known: nothing is left to do for pressure. */
static void set_readings(struct bc_tap_job *job)
{
	const struct bc_still *still = &job->tapping->request.still;
	job->readings = job->tapping->feed.conditions;
	if (still->thermometer != BC_THERMOMETER_NOT_STATED)
		set_thermometer(still->thermometer, &job->readings);
	job->vacuum = isfinite(job->tapping->request.vacuum_kpa);
	if (job->vacuum) {
		job->readings.pressure_kpa = 101.325;
		job->readings.shift.n = 0;
	}
}

/* ---- the run */

static void set_limits(struct bc_tap_job *job)
{
	struct bc_tapping *tapping = job->tapping;
	const struct bc_tap_request *request = &tapping->request;
	double usual_c = bc_feed_only_petroleum(&job->feed) ? POT_LIMIT_PETROLEUM_C : POT_LIMIT_C;

	tapping->pot_limit_c = isnan(request->pot_limit_c) ? usual_c : request->pot_limit_c;
	tapping->pot_limit_cuts = request->n_cuts == 0;
	job->claim_limit_c = fmin(tapping->pot_limit_c, usual_c);
	tapping->pressure_kpa =
		job->vacuum ? request->vacuum_kpa : tapping->feed.conditions.pressure_kpa;
	tapping->effective_plates = request->still.column.effective_plates;
	job->column = request->still.column;
	job->column.pressure_kpa = tapping->pressure_kpa;
}

/* What comes over at all, whatever the pot stands. */
double bc_tap_over_frac(const struct bc_tap_job *job)
{
	const struct bc_boiloff *boiloff = &job->tapping->feed.boiloff;
	double over = boiloff->end_pct / 100.0;

	if (!boiloff->residue_known)
		over = fmin(over, 1.0 - LEAST_LEFT_FRAC);
	return fmin(over, job->run->over_frac[job->run->n - 1]);
}

/* How far the heat may go, and what ends it. */
static void set_ceiling(struct bc_tap_job *job)
{
	struct bc_tapping *tapping = job->tapping;
	double over = bc_tap_over_frac(job);
	double limit = bc_run_frac_at_pot(job->run, tapping->pot_limit_c);

	tapping->pot_limit_reached = !isnan(limit) && limit <= over;
	job->still.ceiling_frac = tapping->pot_limit_reached ? limit : over;
	if (tapping->pot_limit_reached)
		snprintf(job->end, sizeof job->end, "pot limit %g degC", tapping->pot_limit_c);
	else
		snprintf(
			job->end, sizeof job->end, "what comes over at all, %.1f %%", 100.0 * over);
}

static void set_still(struct bc_tap_job *job)
{
	const struct bc_tapping *tapping = job->tapping;
	const struct bc_still *still = &tapping->request.still;
	double carry = still->carry_pct / 100.0;
	double spread = still->carry_half_width_pct / 100.0;

	job->parent = bc_parent_of(&tapping->feed.oil, &job->feed);
	job->still = (struct bc_tap_still){.run = job->run,
		.parent = &job->parent,
		.grades = &tapping->feed.grades,
		.carry_frac = carry,
		.carry_high_frac = isnan(spread) ? BC_TAP_CARRY_SPREAD * carry : carry + spread,
		.floor_frac = tapping->feed.oil.flash_claim ? 0.0 : BC_TAP_GAS_FRONT_FRAC,
		.margin_c = tapping->request.margin_c};
	if (!(carry > 0.0))
		job->still.carry_high_frac = 0.0;
}

/* The same still as poor as it may be, where that is known. */
static enum bc_status run_worst(struct bc_tap_job *job)
{
	const struct bc_run_options options = {BC_RUN_STOP_MAX, INFINITY, BC_STEPS_NORMAL, 0.0};
	const struct bc_still *still = &job->tapping->request.still;
	struct bc_column column = job->column;

	if (!(still->plates_low > 0.0 && still->plates_low < column.effective_plates))
		return BC_OK;
	job->worst_run = bc_run_new();
	if (!job->worst_run)
		return BC_NO_MEMORY;
	column.effective_plates = still->plates_low;
	job->still.worst_run = job->worst_run;
	return bc_column_run(
		&job->tapping->feed.oil.slices, &column, &options, job->work, job->worst_run);
}

static enum bc_status run_still(struct bc_tap_job *job)
{
	const struct bc_run_options options = {BC_RUN_STOP_MAX, INFINITY, BC_STEPS_NORMAL, 0.0};
	enum bc_status status = bc_column_run(
		&job->tapping->feed.oil.slices, &job->column, &options, job->work, job->run);

	if (bc_failed(status))
		return status;
	set_still(job);
	set_ceiling(job);
	return run_worst(job);
}

/* ---- the whole */

static enum bc_status place(struct bc_tap_job *job)
{
	if (job->tapping->request.n_cuts > 0)
		return bc_tap_place_cuts(job);
	if (job->tapping->has_want && !job->tapping->request.split)
		return bc_tap_place_best(job);
	bc_tap_place_split(job);
	return BC_OK;
}

static enum bc_status work_through(struct bc_tap_job *job)
{
	struct bc_tapping *tapping = job->tapping;
	enum bc_status status;

	bc_feed_read(tapping->sample->feed, &job->feed);
	set_readings(job);
	set_limits(job);
	status = run_still(job);
	if (!bc_failed(status))
		status = place(job);
	if (!bc_failed(status))
		status = bc_tap_fill_jars(job);
	if (bc_failed(status))
		return status;
	bc_tap_fill_heat(job);
	bc_tap_fill_nodes(job);
	bc_tap_fill_choices(job);
	status = bc_tap_note(job);
	bc_tap_advise(job);
	return status;
}

enum bc_status bc_tap(const struct bc_sample *sample, const struct bc_judge_options *options,
	const struct bc_tap_request *request, struct bc_tapping *tapping)
{
	struct bc_judge_options judge = {
		.limits = options->limits, .want = request->want, .standard = request->standard};
	struct bc_tap_job job = {.tapping = tapping, .options = options};
	enum bc_status status;

	tapping->sample = sample;
	tapping->request = *request;
	tapping->want = request->want;
	tapping->standard = request->standard;
	tapping->has_want = request->want != BC_GRADES || request->standard;
	status = bc_tap_check(tapping, options->limits);
	if (!bc_failed(status))
		status = bc_judge(sample, &judge, &tapping->feed);
	if (bc_failed(status))
		return status;
	job.run = bc_run_new();
	job.work = bc_still_work_new();
	job.cut = bc_alloc(sizeof *job.cut);
	status = job.run && job.work && job.cut ? work_through(&job) : BC_NO_MEMORY;
	bc_free(job.cut);
	bc_still_work_free(job.work);
	bc_run_free(job.worst_run);
	bc_run_free(job.run);
	if (!bc_failed(status) && (tapping->binding.failed || tapping->advice.failed ||
					  tapping->assumed.failed || tapping->cautions.failed))
		status = BC_NO_MEMORY;
	return bc_failed(status) ? status : BC_OK;
}
