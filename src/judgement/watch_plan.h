/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_WATCH_PLAN_H
#define BC_JUDGEMENT_WATCH_PLAN_H

#include <stdbool.h>
#include <stddef.h>

#include "base/text.h"
#include "judgement/tapping.h"

/* One jar of a plan, until the tap is turned away from it. */
struct bc_plan_jar {
	char name[BC_JAR_NAME_MAX];
	bool light;             /* ends at the later of its signs, any other at the first */
	double until_reading_c; /* of this thermometer; NaN: by volume alone */
	double until_frac;      /* in all jars together, volume of the charge */
};

/* A plan of a re-run, and how the run keeps to it. */
struct bc_watch_plan {
	struct bc_plan_jar jars[BC_JARS_MAX];
	size_t n_jars;
	double charge_ml;
	double pot_limit_c;
	/* the head curve that was planned */
	double over_frac[BC_TAP_NODES_MAX];
	double reading_c[BC_TAP_NODES_MAX];
	size_t n_nodes;
	double near_c; /* a turn is near within so much of either */
	double near_frac;

	/* the run */
	size_t jar;                 /* where the tap should be; n_jars: the heat is off */
	double turned[BC_JARS_MAX]; /* over when the tap was to be turned from each jar */
	bool warned;                /* of the next turn */
	double shift_c;             /* the head, against the plan at the same volume; NaN */
	double shifts[3];           /* the last ones */
	size_t n_shifts;            /* all ever taken */
};

/* A turn nears within 5 degC or 2 % of the charge; common practice. */
#define BC_PLAN_NEAR_C 5.0
#define BC_PLAN_NEAR_FRAC 0.02

/* From a tapping: jars that are not empty, and the head curve. false: nothing to plan by. */
bool bc_watch_plan_from_tapping(const struct bc_tapping *tapping, struct bc_watch_plan *plan);

/* The head curve alone, of a tapping of the same oil on the same still. */
void bc_watch_plan_curve(const struct bc_tapping *tapping, struct bc_watch_plan *plan);

/* Forgets the run, to go through it anew. */
void bc_watch_plan_restart(struct bc_watch_plan *plan);

/*
 * bc_watch_plan_reading - one reading of the run
 *
 * Given     over_frac (in all jars together, of the charge), head_c (as read), pot_c (NaN: not
 *           read)
 * Returned  *said: the countdown on both readings, which jar, the jars that remain; *alarms: lines,
 *           each a turn that is due or near
 * Notes     1. a jar is full as the card of 'tap' has it: the light one when head and volume are
 *              both there, any other when the first is; the last ends with the heat off
 *           2. the jars that remain are recalculated by the shift of the head curve: the mean of
 *              the last three differences between head and plan at the same volume moves the curve
 *              that was planned, and a turn is expected where the moved curve reaches its head.
 *              What counts for a turn stays the plan's volume and head
 */
void bc_watch_plan_reading(struct bc_watch_plan *plan, double over_frac, double head_c,
	double pot_c, struct bc_text *said, struct bc_text *alarms);

/* Where, of the charge, the moved curve reaches a reading; NaN outside it. */
double bc_watch_plan_expected_frac(const struct bc_watch_plan *plan, size_t jar);

/* The head that is expected when over_frac is over; NaN outside the plan. */
double bc_watch_plan_head_c(const struct bc_watch_plan *plan, double over_frac);

#endif
