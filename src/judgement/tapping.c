/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a sample and a still to the turns of the tap: one run of the column, read many times. */
#include "judgement/tapping.h"

#include <math.h>
#include <stdio.h>

#include "base/memory.h"
#include "judgement/tap_job.h"

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

/* ---- the run */

static void set_limits(struct bc_tap_job *job)
{
	struct bc_tapping *tapping = job->tapping;
	const struct bc_rerun *rerun = &job->rerun;

	tapping->pot_limit_c = rerun->pot_limit_c;
	tapping->usual_limit_c = rerun->usual_limit_c;
	tapping->pot_limit_reached = rerun->pot_limit_reached;
	tapping->pot_limit_cuts = tapping->request.n_cuts == 0;
	job->claim_limit_c = fmin(rerun->pot_limit_c, rerun->usual_limit_c);
	tapping->pressure_kpa = rerun->pressure_kpa;
	tapping->effective_plates = rerun->column.effective_plates;
}

static enum bc_status run_still(struct bc_tap_job *job)
{
	const struct bc_tap_request *request = &job->tapping->request;
	const struct bc_rerun_request rerun = {
		&request->still, request->vacuum_kpa, request->pot_limit_c, request->margin_c};
	enum bc_status status = bc_rerun_start(&job->tapping->feed, &rerun, &job->rerun);

	if (!bc_failed(status))
		set_limits(job);
	return status;
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
	enum bc_status status = run_still(job);
	if (!bc_failed(status)) {
		bc_tap_forbid(job);
		status = place(job);
	}
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
	const struct bc_judge_options judge = {.limits = options->limits,
		.want = request->want,
		.standard = request->standard,
		.still = &tapping->request.still,
		.apparatus = options->apparatus,
		.keep_all = options->keep_all,
		.learned = options->learned,
		.draws = options->draws,
		.seed = options->seed};
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
	job.cut = bc_alloc(sizeof *job.cut);
	status = job.cut ? work_through(&job) : BC_NO_MEMORY;
	bc_free(job.cut);
	bc_rerun_release(&job.rerun);
	if (!bc_failed(status) && (tapping->binding.failed || tapping->advice.failed ||
					  tapping->assumed.failed || tapping->cautions.failed))
		status = BC_NO_MEMORY;
	return bc_failed(status) ? status : BC_OK;
}
