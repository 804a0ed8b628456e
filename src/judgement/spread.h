/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_SPREAD_H
#define BC_JUDGEMENT_SPREAD_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "verdict/grade.h"

/* What is uncertain, in the groups in which a person can do something about it. */
enum bc_cause {
	BC_CAUSE_READING,     /* each reading of the thermometer by itself */
	BC_CAUSE_VOLUME,      /* the percents of the receiver */
	BC_CAUSE_CALIBRATION, /* what the thermometer is off by on the whole */
	BC_CAUSE_THERMOMETER, /* of which kind it is */
	BC_CAUSE_PRESSURE,
	BC_CAUSE_RUN,    /* heat, flask and draught: one run of the test is not another */
	BC_CAUSE_REST,   /* residue and loss */
	BC_CAUSE_UNREAD, /* the curve beyond the readings */
	BC_CAUSE_RANGE,  /* the way to true boiling points, outside its range */
	BC_CAUSE_DENSITY,
	BC_CAUSE_METHOD, /* the correlation behind the figure */
	BC_CAUSES
};
extern const char *const bc_cause_keys[BC_CAUSES];  /* "reading", "volume", ... */
extern const char *const bc_cause_words[BC_CAUSES]; /* for people */

/* What makes most of the doubt about the figure that decides. */
struct bc_doubt {
	const struct bc_criterion *criterion; /* into the grades; NULL: nothing is in doubt */
	struct {
		enum bc_cause input;
		double share; /* 0..1: squared correlation with the figure over the draws */
	} causes[BC_CAUSES];
	size_t n;                 /* greatest share first; those of 2 % and more */
	const char *measure_next; /* what to measure to settle it, a phrase */
};

#define BC_DRAWS_DEFAULT 1000
#define BC_DRAWS_MIN 100 /* fewer know nothing of the 2.5 % at either end; none: by derivatives */
#define BC_DRAWS_MAX 100000
#define BC_BAND_POINTS 51

/* The draws of one judgement and what came of them. */
struct bc_spread {
	size_t draws;
	unsigned long seed;
	/* The curve's 95 % band, from its first percent to its last. */
	double band_pct[BC_BAND_POINTS];
	double band_low_c[BC_BAND_POINTS];
	double band_high_c[BC_BAND_POINTS];
	struct bc_doubt doubt;
	struct bc_draws *table; /* figures of every draw; gone once the doubt is told */
};

struct bc_judgement;
struct bc_judge_options;

/*
 * bc_spread_draw - bounds by propagation of distributions
 *
 * Given     judgement, read as far as its oil; options->draws (0: nothing is done)
 * Returned  judgement->spread; low and high of points, shares and properties become the 2.5 and
 *           97.5 percentiles of the draws, and never leave the value out
 * Status    BC_OK, BC_NO_MEMORY
 * Notes     1. each draw moves every reading and percent, what all readings share, residue, loss,
 *              density and the error of each method, and takes the moved oil through curve, slices
 *              and figures; inputs and their distributions: judgement/spread_inputs.h
 *           2. what was measured or is held by a rule (measured flash or viscosity, a flash capped
 *              by an open cup) keeps its bounds, and is drawn between them
 *           3. a sample of very many readings is drawn less often: readings times draws stay below
 *              two millions, draws above 100
 * Source    JCGM 101:2008, 5 to 7
 */
enum bc_status bc_spread_draw(
	struct bc_judgement *judgement, const struct bc_judge_options *options);

/* Chances of criteria and grades, jointly over the draws, and the states that follow. */
enum bc_status bc_spread_weigh(const struct bc_spread *spread, struct bc_grades *grades);

/* spread->doubt: of the doubtful criteria of grade that of the least chance, and what causes it. */
enum bc_status bc_spread_blame(struct bc_judgement *judgement, const struct bc_grade *grade);

void bc_spread_free(struct bc_spread *spread);

#endif
