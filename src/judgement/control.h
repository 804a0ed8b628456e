/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_CONTROL_H
#define BC_JUDGEMENT_CONTROL_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "base/strings.h"
#include "judgement/pooling.h"

/* A control sample (one bought oil, boiled off now and again) against its own history. */

/* Runs before the newest from which its own limits are taken; fewer say too little (ISO 7870-2
 * wants more; judgement), more than the second number are not needed to fix them. */
#define BC_CONTROL_LEAST 8
#define BC_CONTROL_MOST 20
/* Runs of one history. */
#define BC_CONTROL_RUNS 200
/* So many in a row on one side of the centre are a drift (Western Electric; seen in a public
 * copy). */
#define BC_CONTROL_ROW 8

enum bc_control_word { BC_CONTROL_IN, BC_CONTROL_OUT, BC_CONTROL_DRIFTING };
enum bc_control_cause {
	BC_CONTROL_NONE,
	BC_CONTROL_OFFSET,      /* all points alike: the thermometer, or the pressure */
	BC_CONTROL_SCALE,       /* growing with temperature: the thermometer */
	BC_CONTROL_THERMOMETER, /* one of the two, which cannot be told */
	BC_CONTROL_FRONT,       /* the front alone: the control sample itself */
	BC_CONTROL_TAIL,        /* the tail alone */
	BC_CONTROL_SHAPE        /* none of these: still, charge or heat */
};
const char *bc_control_word_text(enum bc_control_word word);    /* "in its own limits", ... */
const char *bc_control_cause_text(enum bc_control_cause cause); /* "offset", ... */

enum { BC_CONTROL_T10, BC_CONTROL_T50, BC_CONTROL_T90, BC_CONTROL_MEAN, BC_CONTROL_CHARTS };

/* One figure of every run, in the order of the runs. */
struct bc_control_chart {
	const char *name; /* "t10_c", ...; "mean_c" is that of the common percents from 10 to 90 */
	double values[BC_CONTROL_RUNS];
	double centre; /* of the baseline; NaN where a run was not read there */
	double sigma;
	double lower;
	double upper;
	bool out;
};

struct bc_control_point {
	double pct;
	double before_c; /* mean of the baseline */
	double now_c;
	double change_c;
	double sigma_c; /* of one run */
};

struct bc_control {
	struct bc_pool_run *runs; /* oldest first; the last one is judged */
	size_t n;
	bool by_date;      /* put in order by their dates; else as given */
	size_t n_baseline; /* the oldest, whose spread sets the limits */
	bool own_limits;   /* from the baseline's moving ranges; else from the assumed errors */
	struct bc_control_chart charts[BC_CONTROL_CHARTS];
	struct bc_control_point points[BC_POINTS]; /* those that all runs have */
	size_t n_points;
	size_t row; /* newest runs in a row on one side of the centre of the mean */
	enum bc_control_word word;
	enum bc_control_cause cause;
	double change_c;     /* offset at 50 %, or of the end that moved; NaN without a cause */
	double per_100_c;    /* scale: change for each 100 degC; NaN otherwise */
	double pressure_kpa; /* an error of the pressure that would show as this offset */
	struct bc_strings notes;
	struct bc_strings advice;
};

/*
 * bc_control_new - a control sample against its own history
 *
 * Given     samples   n of them, 2..BC_CONTROL_RUNS, that outlive the control; put in order by
 *                     their dates where all have one as 2026-10-03, else taken as oldest first
 * Returned  *control; NULL on failure. *failed is the sample that failed, or n
 * Status    BC_TOO_FEW       fewer than two, or not three percents that all were read around
 *           BC_NO_MEMORY, and what a run's own boil-off fails with
 * Notes     1. limits: centre -+ 3 moving ranges/1.128 of the oldest 8 to 20 (ISO 7870-2), never
 *              narrower than 0.5 degC, to which a thermometer is read; with fewer than 8 from the
 *              assumed errors of one run, joined to the spread of those that are there
 *           2. the cause is the pattern (all alike, by temperature, front, tail) that leaves least
 *              of the change, in squares of sigma, if it leaves no point beyond 3; two of the
 *              thermometer's within 4 of each other are not told apart; judgement
 * Checks    tests/unit/judgement/test_control.c
 */
enum bc_status bc_control_new(const struct bc_sample *const *samples, size_t n,
	struct bc_control **control, size_t *failed);
void bc_control_free(struct bc_control *control);

#endif
