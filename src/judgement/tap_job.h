/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_TAP_JOB_H
#define BC_JUDGEMENT_TAP_JOB_H

#include "fuel/feed.h"
#include "judgement/tapping.h"
#include "still/tap.h"

/* With gas in the oil the front must go, at least this share of the charge; judgement. */
#define BC_TAP_GAS_FRONT_FRAC 0.02
/* The pot limit is where a jar was made to end: so much above is none [degC]. */
#define BC_TAP_POT_SLACK_C 0.05
/* Carry-over is known to this factor both ways, 95 %; judgement. */
#define BC_TAP_CARRY_SPREAD 2.0

/* What the parts of bc_tap share while it runs. */
struct bc_tap_job {
	struct bc_tapping *tapping;
	const struct bc_judge_options *options;
	struct bc_feed feed;
	struct bc_parent parent;
	struct bc_column column;
	struct bc_run *run;
	struct bc_run *worst_run; /* as in struct bc_tap_still */
	struct bc_still_work *work;
	struct bc_tap_still still;
	struct bc_cut *cut;            /* room for one product */
	struct bc_conditions readings; /* carry head temperatures to this thermometer: see
					  bc_tap_reading_c */
	bool vacuum;
	double claim_limit_c; /* of the pot: no claim on the flash of a jar filled above */
	char end[64];         /* what ends the run: "pot limit 330 degC" */
	/* edges of the jars, volume of the charge over the head; 1: what stays in the pot too */
	double edge[BC_JARS_MAX + 1];
	size_t n_jars;
	size_t n_names;  /* jars that the cuts would make, of which the last may be missing */
	bool forbidden;  /* nothing may be distilled, whatever the still */
	double off_frac; /* the heat goes off */
};

/* What comes over at all, volume of the charge. */
double bc_tap_over_frac(const struct bc_tap_job *job);

/* Head temperature at a place, corrected, and as this thermometer shows it in this run. */
double bc_tap_head_c(const struct bc_tap_job *job, double over_frac);
double bc_tap_reading_c(const struct bc_tap_job *job, double over_frac);

/* Says in tapping->refused what is wrong with the request: BC_BAD_DOMAIN. */
enum bc_status bc_tap_check(struct bc_tapping *tapping, const struct bc_limits *limits);

/* Edges from the wanted grade, the stated cuts, or the customary ranges. */
enum bc_status bc_tap_place_best(struct bc_tap_job *job);
enum bc_status bc_tap_place_cuts(struct bc_tap_job *job);
void bc_tap_place_split(struct bc_tap_job *job);

/* Jars between the edges, and the pot. */
enum bc_status bc_tap_fill_jars(struct bc_tap_job *job);

/* Heat and time, the run for a chart, the table of choices, and all that is said in words. */
void bc_tap_fill_heat(struct bc_tap_job *job);
void bc_tap_fill_nodes(struct bc_tap_job *job);
void bc_tap_fill_choices(struct bc_tap_job *job);
void bc_tap_advise(struct bc_tap_job *job);
enum bc_status bc_tap_note(struct bc_tap_job *job);

#endif
