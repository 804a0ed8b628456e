/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged oil on a still: one run of the column, its limits, and its thermometer. */
#include "judgement/rerun.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define COLUMN_WORDS_SIZE 64
#define LEAST_LEFT_FRAC 0.02 /* where no residue was measured; common practice */

struct bc_rerun_request bc_rerun_request_default(const struct bc_still *still)
{
	return (struct bc_rerun_request){still, NAN, NAN, NAN};
}

void bc_rerun_init(struct bc_rerun *rerun) { *rerun = (struct bc_rerun){.run = NULL}; }

void bc_rerun_release(struct bc_rerun *rerun)
{
	if (!rerun)
		return;
	bc_run_free(rerun->worst_run);
	bc_run_free(rerun->run);
	bc_still_work_free(rerun->work);
	bc_rerun_init(rerun);
}

/* ---- temperatures at a place */

double bc_rerun_head_c(const struct bc_rerun *rerun, double over_frac)
{
	return bc_corrected_from_true(bc_run_head_normal_c(rerun->run, over_frac));
}

double bc_rerun_reading_c(const struct bc_rerun *rerun, double over_frac)
{
	double corrected_c =
		rerun->vacuum ? bc_corrected_from_true(bc_run_at(rerun->run, over_frac).head_c)
			      : bc_rerun_head_c(rerun, over_frac);
	return bc_reading_from_corrected(&rerun->readings, corrected_c);
}

void bc_rerun_place_turns(const struct bc_rerun *rerun, struct bc_cut *cut)
{
	if (cut->light_until_frac > 0.0) {
		cut->light_until_c = bc_rerun_head_c(rerun, cut->light_until_frac);
		cut->light_until_reading_c = bc_rerun_reading_c(rerun, cut->light_until_frac);
	}
	cut->product_until_c = bc_rerun_head_c(rerun, cut->product_until_frac);
	cut->product_until_reading_c = bc_rerun_reading_c(rerun, cut->product_until_frac);
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
static void set_readings(const struct bc_still *still, struct bc_rerun *rerun)
{
	rerun->readings = rerun->judgement->conditions;
	if (still->thermometer != BC_THERMOMETER_NOT_STATED)
		set_thermometer(still->thermometer, &rerun->readings);
	if (rerun->vacuum) {
		rerun->readings.pressure_kpa = 101.325;
		rerun->readings.shift.n = 0;
	}
}

/* ---- the run */

static void set_limits(const struct bc_rerun_request *request, struct bc_rerun *rerun)
{
	rerun->usual_limit_c = bc_feed_only_petroleum(&rerun->feed) ? BC_RERUN_POT_LIMIT_PETROLEUM_C
								    : BC_RERUN_POT_LIMIT_C;
	rerun->pot_limit_c =
		isnan(request->pot_limit_c) ? rerun->usual_limit_c : request->pot_limit_c;
	rerun->pressure_kpa =
		rerun->vacuum ? request->vacuum_kpa : rerun->judgement->conditions.pressure_kpa;
	rerun->column = request->still->column;
	rerun->column.pressure_kpa = rerun->pressure_kpa;
}

double bc_rerun_over_frac(const struct bc_rerun *rerun)
{
	const struct bc_boiloff *boiloff = &rerun->judgement->boiloff;
	double over = boiloff->end_pct / 100.0;

	if (!boiloff->residue_known)
		over = fmin(over, 1.0 - LEAST_LEFT_FRAC);
	return fmin(over, rerun->run->over_frac[rerun->run->n - 1]);
}

/* How far the heat may go, and what ends it. */
static void set_ceiling(struct bc_rerun *rerun)
{
	double over = bc_rerun_over_frac(rerun);
	double limit = bc_run_frac_at_pot(rerun->run, rerun->pot_limit_c);

	rerun->pot_limit_reached = !isnan(limit) && limit <= over;
	rerun->still.ceiling_frac = rerun->pot_limit_reached ? limit : over;
	if (rerun->pot_limit_reached)
		snprintf(rerun->end, sizeof rerun->end, "pot limit %g degC", rerun->pot_limit_c);
	else
		snprintf(rerun->end, sizeof rerun->end, "what comes over at all, %.1f %%",
			100.0 * over);
}

double bc_rerun_carry_low_pct(const struct bc_still *still)
{
	if (isnan(still->carry_half_width_pct))
		return still->carry_pct / BC_RERUN_CARRY_SPREAD;
	return fmax(still->carry_pct - still->carry_half_width_pct, 0.0);
}

static double carry_high_frac(const struct bc_still *still)
{
	double carry = still->carry_pct / 100.0;

	if (!(carry > 0.0))
		return 0.0;
	return isnan(still->carry_half_width_pct) ? BC_RERUN_CARRY_SPREAD * carry
						  : carry + still->carry_half_width_pct / 100.0;
}

static void set_still(const struct bc_rerun_request *request, struct bc_rerun *rerun)
{
	const struct bc_judgement *judgement = rerun->judgement;

	rerun->parent = bc_parent_of(&judgement->oil, &rerun->feed);
	rerun->still = (struct bc_tap_still){.run = rerun->run,
		.parent = &rerun->parent,
		.grades = &judgement->grades,
		.carry_frac = request->still->carry_pct / 100.0,
		.carry_high_frac = carry_high_frac(request->still),
		.floor_frac = judgement->oil.flash_claim ? 0.0 : BC_RERUN_GAS_FRONT_FRAC,
		.margin_c = request->margin_c};
}

/* The same still as poor as it may be, where that is known. */
static enum bc_status run_worst(
	const struct bc_still *still, const struct bc_run_options *options, struct bc_rerun *rerun)
{
	struct bc_column column = rerun->column;

	if (!(still->plates_low > 0.0 && still->plates_low < column.effective_plates))
		return BC_OK;
	rerun->worst_run = bc_run_new();
	if (!rerun->worst_run)
		return BC_NO_MEMORY;
	column.effective_plates = still->plates_low;
	rerun->still.worst_run = rerun->worst_run;
	return bc_column_run(
		&rerun->judgement->oil.slices, &column, options, rerun->work, rerun->worst_run);
}

enum bc_status bc_rerun_start(const struct bc_judgement *judgement,
	const struct bc_rerun_request *request, struct bc_rerun *rerun)
{
	const struct bc_run_options options = {BC_RUN_STOP_MAX, INFINITY, BC_STEPS_NORMAL, 0.0};
	enum bc_status status;

	bc_rerun_init(rerun);
	rerun->judgement = judgement;
	rerun->run = bc_run_new();
	rerun->work = bc_still_work_new();
	if (!rerun->run || !rerun->work)
		return BC_NO_MEMORY;
	bc_feed_read(judgement->sample->feed, &rerun->feed);
	rerun->vacuum = isfinite(request->vacuum_kpa);
	set_readings(request->still, rerun);
	set_limits(request, rerun);
	status = bc_column_run(
		&judgement->oil.slices, &rerun->column, &options, rerun->work, rerun->run);
	if (bc_failed(status))
		return status;
	set_still(request, rerun);
	set_ceiling(rerun);
	return run_worst(request->still, &options, rerun);
}

/* ---- words */

static void column_words(const struct bc_column *column, char *words, size_t size)
{
	if (isfinite(column->effective_plates))
		snprintf(words, size, "worth %g effective plates", column->effective_plates);
	else if (!(column->stages > 1.0))
		snprintf(words, size, "0 plates + pot");
	else if (isinf(column->reflux))
		snprintf(words, size, "%g plate%s + pot, total reflux", column->stages - 1.0,
			column->stages == 2.0 ? "" : "s");
	else
		snprintf(words, size, "%g plate%s + pot, reflux %g", column->stages - 1.0,
			column->stages == 2.0 ? "" : "s", column->reflux);
}

bool bc_rerun_default_still(const struct bc_still *still)
{
	return strcmp(still->name, "default") == 0;
}

void bc_rerun_assume(const struct bc_still *still, struct bc_strings *assumed)
{
	char column[COLUMN_WORDS_SIZE];

	column_words(&still->column, column, sizeof column);
	if (bc_rerun_default_still(still))
		bc_strings_add_once(assumed, "still not given: %s", column);
}

void bc_rerun_still_words(const struct bc_still *still, char *words, size_t size)
{
	char column[COLUMN_WORDS_SIZE];

	column_words(&still->column, column, sizeof column);
	if (bc_rerun_default_still(still))
		snprintf(words, size, "the default still: %s, carry-over %g %%", column,
			still->carry_pct);
	else if (still->name[0] != '\0')
		snprintf(words, size, "the still '%s': %s, carry-over %g %%", still->name, column,
			still->carry_pct);
	else
		snprintf(words, size, "a still of %s, carry-over %g %%", column, still->carry_pct);
}
