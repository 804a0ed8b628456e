/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several boil-offs of one oil brought together: each read, held against the others, pooled. */
#include "judgement/pooling.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "fuel/pressure_shift.h"
#include "judgement/judgement.h"
#include "judgement/pool_parts.h"

const char *bc_belonging_text(enum bc_belonging belonging)
{
	switch (belonging) {
	case BC_RUN_BELONGS:
		break;
	case BC_RUN_STANDS_APART:
		return "stands apart";
	case BC_RUN_LEFT_OUT:
		return "left out";
	}
	return "belongs";
}

/* Read on the curve alone: no fit speaks for a run. */
static void read_points(struct bc_pool_run *run)
{
	const struct bc_reader reader = {&run->boiloff, &run->conditions, run->curve, NULL};
	double first = bc_curve_first_pct(run->curve);
	double last = bc_curve_last_pct(run->curve);

	for (size_t i = 0; i < BC_POINTS; i++) {
		double at_pct = bc_point_pct[i];
		if (i == BC_AT_IBP) {
			run->at_c[i] = run->boiloff.ibp_c;
			at_pct = first;
		} else if (i == BC_AT_FBP) {
			run->at_c[i] = run->boiloff.fbp_c;
			at_pct = last;
		} else {
			run->at_c[i] = bc_curve_temp_c(run->curve, at_pct);
		}
		run->random_c[i] = run->published_r_c[i] = NAN;
		if (isfinite(run->at_c[i]))
			run->random_c[i] = bc_reader_random_c(
				&reader, at_pct, bc_point_pct[i], &run->published_r_c[i]);
	}
}

enum bc_status bc_pool_run_read(struct bc_pool_run *run)
{
	const struct bc_sample *sample = run->sample;

	bc_strings_init(&run->assumed);
	bc_findings_init(&run->findings);
	run->difference_max_c = run->difference_max_pct = run->shift_c = NAN;
	run->ratio = run->grubbs = run->grubbs_critical = NAN;
	enum bc_status status = bc_conditions_from_sample(sample, &run->conditions, &run->assumed);
	if (!bc_failed(status))
		status = bc_pressure_shift_fill(
			run->conditions.pressure_kpa, &run->conditions.shift);
	if (!bc_failed(status))
		status = bc_boiloff_from_sample(
			sample, &run->conditions, &run->boiloff, &run->assumed, &run->findings);
	if (!bc_failed(status))
		status = bc_boiloff_findings(
			&run->boiloff, sample, &run->conditions, &run->findings);
	if (!bc_failed(status))
		status = bc_boiloff_curve(&run->boiloff, &run->curve);
	if (!bc_failed(status))
		read_points(run);
	return bc_failed(status) ? status : BC_OK;
}

void bc_pool_run_release(struct bc_pool_run *run)
{
	if (!run)
		return;
	bc_curve_free(run->curve);
	bc_boiloff_release(&run->boiloff);
	bc_findings_release(&run->findings);
	bc_strings_release(&run->assumed);
}

double bc_pool_run_kept_c(const struct bc_pool_run *run, size_t point)
{
	return run->belonging == BC_RUN_LEFT_OUT ? (double)NAN : run->at_c[point];
}

enum bc_status bc_pool_new(const struct bc_sample *const *samples, size_t n, bool keep_all,
	struct bc_pool **pool, size_t *failed)
{
	enum bc_status status = BC_OK;

	*pool = NULL;
	*failed = n;
	if (n < 2 || n > BC_RUNS_MAX)
		return BC_TOO_FEW;
	struct bc_pool *made = bc_alloc(sizeof *made);
	if (!made)
		return BC_NO_MEMORY;
	*made = (struct bc_pool){0};
	bc_findings_init(&made->findings);
	made->runs = bc_alloc_array(n, sizeof *made->runs);
	if (!made->runs) {
		status = BC_NO_MEMORY;
		goto done;
	}
	memset(made->runs, 0, n * sizeof *made->runs);
	for (size_t i = 0; i < n && !bc_failed(status); i++) {
		made->runs[i].sample = samples[i];
		made->n++;
		status = bc_pool_run_read(&made->runs[i]);
		if (bc_failed(status))
			*failed = i;
	}
	if (bc_failed(status))
		goto done;
	bc_pool_compare(made, keep_all);
	status = bc_pool_combine(made);
	if (!bc_failed(status) && made->findings.failed)
		status = BC_NO_MEMORY;
done:
	if (bc_failed(status)) {
		bc_pool_free(made);
		return status;
	}
	*pool = made;
	return BC_OK;
}

void bc_pool_free(struct bc_pool *pool)
{
	if (!pool)
		return;
	for (size_t i = 0; pool->runs && i < pool->n; i++)
		bc_pool_run_release(&pool->runs[i]);
	bc_free(pool->runs);
	bc_sample_free(pool->sample);
	bc_findings_release(&pool->findings);
	bc_free(pool);
}

/* Where the pool's own readings have it too, and it forbids no more of the run. */
static bool said_of_all(
	const struct bc_findings *own, size_t n_own, const struct bc_finding *finding)
{
	for (size_t k = 0; k < n_own; k++) {
		const struct bc_finding *said = &own->items[k];
		if (strcmp(said->code, finding->code) == 0 && said->weight >= finding->weight &&
			said->forbids_usable >= finding->forbids_usable &&
			said->forbids_rerun >= finding->forbids_rerun)
			return true;
	}
	return false;
}

/* What a run that is left out forbids stays forbidden: it was of this jar. */
static void bring_findings_of_run(
	const struct bc_pool_run *run, size_t n_own, struct bc_findings *findings)
{
	for (size_t i = 0; i < run->findings.n; i++) {
		const struct bc_finding *finding = &run->findings.items[i];
		if (said_of_all(findings, n_own, finding))
			continue;
		bc_findings_say(findings, finding->code, finding->weight, finding->at_pct,
			finding->advice ? finding->advice : "", "%s: %s",
			run->sample->file ? run->sample->file : "a run", finding->message);
		bc_findings_forbid(findings, finding->forbids_usable, finding->forbids_rerun);
	}
}

enum bc_status bc_pool_bring(const struct bc_pool *pool, struct bc_judgement *judgement)
{
	struct bc_conditions *conditions = &judgement->conditions;
	struct bc_findings *findings = &judgement->findings;
	double reading_c = conditions->reading_half_width_c;
	double random_c = fmin(reading_c, BC_READING_RANDOM_C);
	size_t n_own = findings->n;

	judgement->pool = pool;
	judgement->boiloff.runs = &pool->spread;
	judgement->boiloff.wet = judgement->boiloff.wet || pool->wet;
	conditions->reading_half_width_c = sqrt(reading_c * reading_c - random_c * random_c);
	conditions->own_half_width_c = 0.0; /* the spread of the runs holds it */
	for (size_t i = 0; i < pool->findings.n; i++) {
		const struct bc_finding *finding = &pool->findings.items[i];
		bc_findings_add(findings, finding->code, finding->weight, finding->at_pct,
			finding->message, finding->advice);
		bc_findings_forbid(findings, finding->forbids_usable, finding->forbids_rerun);
	}
	for (size_t i = 0; i < pool->n; i++)
		bring_findings_of_run(&pool->runs[i], n_own, findings);
	bc_strings_add(&judgement->assumed,
		"one thermometer and one barometer for all runs: the errors of calibration and "
		"pressure are shared and do not shrink with the number of runs");
	if (conditions->reading_half_width_c > 0.0)
		bc_strings_add(&judgement->assumed,
			"of the reading error %.1f C are shared by the runs, %.1f C are not",
			conditions->reading_half_width_c, random_c);
	bc_strings_add(&judgement->assumed,
		"observed temperatures: what the thermometer of %s would have shown",
		pool->runs[pool->reference].sample->file ? pool->runs[pool->reference].sample->file
							 : "the first run");
	return findings->failed || judgement->assumed.failed ? BC_NO_MEMORY : BC_OK;
}
