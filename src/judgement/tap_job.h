/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_TAP_JOB_H
#define BC_JUDGEMENT_TAP_JOB_H

#include "judgement/rerun.h"
#include "judgement/tapping.h"

/* The pot limit is where a jar was made to end: so much above is none [degC]. */
#define BC_TAP_POT_SLACK_C 0.05

/* What the parts of bc_tap share while it runs. */
struct bc_tap_job {
	struct bc_tapping *tapping;
	const struct bc_judge_options *options;
	struct bc_rerun rerun;
	struct bc_cut *cut;   /* room for one product */
	double claim_limit_c; /* of the pot: no claim on the flash of a jar filled above */
	/* edges of the jars, volume of the charge over the head; 1: what stays in the pot too */
	double edge[BC_JARS_MAX + 1];
	size_t n_jars;
	size_t n_names;  /* jars that the cuts would make, of which the last may be missing */
	bool forbidden;  /* whatever the still: not to be distilled, or never met */
	double off_frac; /* the heat goes off */
};

/* Says in tapping->refused what is wrong with the request: BC_BAD_DOMAIN. */
enum bc_status bc_tap_check(struct bc_tapping *tapping, const struct bc_limits *limits);

/* Whether the oil may be distilled at all, with the reasons in tapping->binding. */
void bc_tap_forbid(struct bc_tap_job *job);

/* Edges from the wanted grade, the stated cuts, or the customary ranges. */
enum bc_status bc_tap_place_best(struct bc_tap_job *job);
enum bc_status bc_tap_place_cuts(struct bc_tap_job *job);
void bc_tap_place_split(struct bc_tap_job *job);

/* Jars between the edges, and the pot. */
enum bc_status bc_tap_fill_jars(struct bc_tap_job *job);

/* Why nothing is claimed of the flash of what is drawn from a place on until the pot stands at
 * pot_to_c; NULL: it is claimed. */
const char *bc_tap_no_claim(
	const struct bc_tap_job *job, const struct bc_oil *oil, double from_frac, double pot_to_c);

/* Heat and time, the run for a chart, the table of choices, and all that is said in words. */
void bc_tap_fill_heat(struct bc_tap_job *job);
void bc_tap_fill_nodes(struct bc_tap_job *job);
void bc_tap_fill_choices(struct bc_tap_job *job);
void bc_tap_advise(struct bc_tap_job *job);
enum bc_status bc_tap_note(struct bc_tap_job *job);

#endif
