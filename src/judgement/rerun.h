/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_RERUN_H
#define BC_JUDGEMENT_RERUN_H

#include <stdbool.h>

#include "base/status.h"
#include "curve/conditions.h"
#include "fuel/feed.h"
#include "judgement/judgement.h"
#include "still/column.h"
#include "still/still.h"
#include "still/tap.h"

/* Where the heat goes off unless something else is asked for: cracked feeds in a run of an hour or
 * two, and straight-run oils, which stand more; common practice [degC, true]. */
#define BC_RERUN_POT_LIMIT_C 330.0
#define BC_RERUN_POT_LIMIT_PETROLEUM_C 350.0
/* With gas in the oil the front must go, at least this share of the charge; judgement. */
#define BC_RERUN_GAS_FRONT_FRAC 0.02
/* Carry-over is known to this factor both ways, 95 %; judgement. */
#define BC_RERUN_CARRY_SPREAD 2.0

/* How an oil is distilled again. */
struct bc_rerun_request {
	const struct bc_still *still;
	double vacuum_kpa;  /* absolute; NaN: the pressure of the site */
	double pot_limit_c; /* NaN: one of the limits above, by what feed names */
	double margin_c;    /* of the flash; NaN: value minus low bound */
};
struct bc_rerun_request bc_rerun_request_default(const struct bc_still *still);

/* One run of a still with a judged oil in the pot, and what its taps are turned for. */
struct bc_rerun {
	const struct bc_judgement *judgement; /* its readings and its oil; must outlive this */
	struct bc_feed feed;
	struct bc_parent parent;
	struct bc_column column;
	struct bc_run *run;
	struct bc_run *worst_run; /* as in struct bc_tap_still; NULL: none */
	struct bc_still_work *work;
	struct bc_tap_still still;     /* points into this struct: a rerun is never copied */
	struct bc_conditions readings; /* carry head temperatures to this thermometer: see
					  bc_rerun_reading_c */
	bool vacuum;
	double pressure_kpa;
	double usual_limit_c; /* of the pot, by what feed names */
	double pot_limit_c;   /* in force */
	bool pot_limit_reached;
	char end[64]; /* what ends the run: "pot limit 330 degC" */
};

void bc_rerun_init(struct bc_rerun *rerun);
void bc_rerun_release(struct bc_rerun *rerun);

/*
 * bc_rerun_start - distils the oil of a judgement once, from the first drop to the last
 *
 * Given     judgement: conditions, boil-off, oil and grades are looked at; request, whose still
 * must outlive the rerun Returned  *rerun, to be released whatever the status Status    as
 * bc_column_run; BC_NO_MEMORY
 */
enum bc_status bc_rerun_start(const struct bc_judgement *judgement,
	const struct bc_rerun_request *request, struct bc_rerun *rerun);

/* What comes over at all whatever the pot stands, volume of the charge. */
double bc_rerun_over_frac(const struct bc_rerun *rerun);

/* Head temperature at a place, corrected, and as this thermometer shows it in this run. */
double bc_rerun_head_c(const struct bc_rerun *rerun, double over_frac);
double bc_rerun_reading_c(const struct bc_rerun *rerun, double over_frac);

/* Temperatures of the two turns of a cut that was found. */
void bc_rerun_place_turns(const struct bc_rerun *rerun, struct bc_cut *cut);

/*
 * bc_rerun_find - what a re-run of a judged oil gives: rerun, perfect and their words in judgement
 *
 * Given     judgement, up to its grades; options
 * Status    BC_OK, also when there is no cut; BC_NO_CONVERGENCE, BC_BAD_DOMAIN  the still could not
 *           be simulated: there is no cut of its own, perfect is set; BC_NO_MEMORY
 * Notes     1. with want or standard the cut is that of bc_tap; without, the nearest grade's own
 *              where it is not much smaller than the largest
 */
enum bc_status bc_rerun_find(
	struct bc_judgement *judgement, const struct bc_judge_options *options);

/* What the cut that was found bears on the word. */
void bc_rerun_bear(const struct bc_judgement *judgement, struct bc_bearing *bearing);

/* The share that is carried over at least, % of the charge. */
double bc_rerun_carry_low_pct(const struct bc_still *still);

/* Whether it is the still that is meant where nobody says which. */
bool bc_rerun_default_still(const struct bc_still *still);

/* Says that nobody said which still, when it is the one for that. */
void bc_rerun_assume(const struct bc_still *still, struct bc_strings *assumed);

/* "the default still: 1 plate + pot, reflux 1, carry-over 1 %" */
void bc_rerun_still_words(const struct bc_still *still, char *words, size_t size);

#endif
