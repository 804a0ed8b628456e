/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_STILL_COLUMN_H
#define BC_STILL_COLUMN_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "fuel/slices.h"

/*
 * A batch still: a pot with equilibrium stages over it, or a still known by one number. stages
 * counts the pot: 1 is the bare pot ("0 plates + pot").
 */
struct bc_column {
	double stages; /* whole, 1..60 */
	double reflux; /* L/D, 0 or more; INFINITY: total reflux; not looked at when stages is 1 */
	double effective_plates; /* E = K^m; NaN when stages and reflux are used */
	double pressure_kpa;     /* absolute, over the pot */
};

enum bc_run_steps {
	BC_STEPS_NORMAL, /* 0 .25 .5 1 1.5 2 3 4 ... 98 98.5 99 99.5 % distilled */
	BC_STEPS_COARSE, /* half as many, for work that is repeated: within 0.1 degC of the above */
	BC_STEPS_FINE,   /* twice as many, to see what the steps cost */
	BC_STEPS_ROUGH,  /* a quarter as many, for slopes alone: within 1 degC */
};

struct bc_run_options {
	double stop_frac;   /* of the charge distilled, above 0, to BC_RUN_STOP_MAX */
	double pot_limit_c; /* true pot temperature at which the run ends; INFINITY: none */
	enum bc_run_steps steps;
	double tolerance_k; /* of stage temperatures; 0: 1e-3 */
};
#define BC_RUN_STOP_MAX 0.995

enum bc_run_end { BC_RUN_AT_STOP, BC_RUN_AT_POT_LIMIT };

/*
 * One distillation from the first drop on. Temperatures are true ones at the pressure of the
 * column. At v = 0 the head is that of the lightest that the slices hold: "about".
 */
#define BC_RUN_NODES_MAX 224
struct bc_run {
	struct bc_slices charge;
	struct bc_column column;
	enum bc_run_end end;
	size_t n;                                        /* nodes */
	double over_frac[BC_RUN_NODES_MAX];              /* volume distilled, rising from 0 */
	double head_c[BC_RUN_NODES_MAX];                 /* true vapour */
	double pot_c[BC_RUN_NODES_MAX];                  /* true, boiling liquid */
	double over[BC_RUN_NODES_MAX][BC_SLICES_MAX];    /* distilled of each slice, volume, of the
							    charge */
	double leaving[BC_RUN_NODES_MAX][BC_SLICES_MAX]; /* volume share of each slice in what
							    comes over at the node */
};

struct bc_run *bc_run_new(void); /* NULL without memory */
void bc_run_free(struct bc_run *run);

/* Room for the computation, to be kept over many runs. NULL without memory. */
struct bc_still_work;
struct bc_still_work *bc_still_work_new(void);
void bc_still_work_free(struct bc_still_work *work);

/*
 * bc_column_run - distils an oil
 *
 * Given     slices, column, options; work and run from above, overwritten
 * Returned  *run; run->n is 0 on failure
 * Status    BC_BAD_DOMAIN      no slices, no such column, stop_frac outside its range, or a slice
 *                              that does not boil between 120 and 1000 K at the pressure
 *           BC_NO_CONVERGENCE  stage temperatures were not found
 * Notes     1. no hold-up, constant molar overflow, quasi-steady, total condenser, Raoult's law:
 *              no water, no alcohols, no azeotropes
 *           2. the amount distilled is the clock: n_i exp(-E_i tau) with E at the middle of the
 *              step, exact for constant volatility, never negative
 *           3. when the pot boils at its limit at once, the run has the node v = 0 alone
 *           4. head temperatures on 40 slices are within 0.4 degC of those on 160 (computed)
 * Checks    tests/unit/still/test_column.c, tests/outside/batch.c
 */
enum bc_status bc_column_run(const struct bc_slices *slices, const struct bc_column *column,
	const struct bc_run_options *options, struct bc_still_work *work, struct bc_run *run);

/* Temperatures while the volume fraction over_frac is over; NaN outside the run. */
struct bc_run_point {
	double head_c;
	double pot_c;
};
struct bc_run_point bc_run_at(const struct bc_run *run, double over_frac);

/* How much is over when head or pot first stands at a temperature: 0 where it begins above it, NaN
 * where the run never gets there. */
double bc_run_frac_at_head(const struct bc_run *run, double head_c);
double bc_run_frac_at_pot(const struct bc_run *run, double pot_c);

/* Mass distilled, of the mass charged, and back; NaN outside the run. */
double bc_run_mass_frac(const struct bc_run *run, double over_frac);
double bc_run_frac_at_mass(const struct bc_run *run, double mass_frac);

/*
 * bc_run_head_normal_c - the head temperature brought to 101.325 kPa
 *
 * Dew point, at 101.325 kPa, of what comes over while over_frac is over [degC, true vapour]; NaN
 * outside the run. With the thermometer's delta taken off it is the corrected head temperature.
 */
double bc_run_head_normal_c(const struct bc_run *run, double over_frac);

/*
 * bc_run_jar, bc_run_pot - what was caught between two places, and what is left in the pot
 *
 * Given     run; from_frac < to_frac, or over_frac, within the run
 * Returned  *slices as an oil of its own, volume shares adding up to 1; *share_frac its volume, of
 *           the charge (may be NULL). Slices below 1e-9 of it are left out. Constants are those of
 *           the charge; from_frac, to_frac, from_k, to_k of a slice stay the charge's.
 * Status    BC_BAD_DOMAIN  outside the run, or nothing there; slices->n is then 0
 */
enum bc_status bc_run_jar(const struct bc_run *run, double from_frac, double to_frac,
	struct bc_slices *slices, double *share_frac);
enum bc_status bc_run_pot(
	const struct bc_run *run, double over_frac, struct bc_slices *slices, double *share_frac);

/* Volumes of each of the charge's slices, of the charge, as an oil of its own: as bc_run_jar. */
enum bc_status bc_run_oil(const struct bc_slices *charge, const double *volume,
	struct bc_slices *slices, double *share_frac);

/* Volume over of slice i, of the charge, while over_frac is over: monotone between the nodes. */
double bc_run_over(const struct bc_run *run, size_t i, double over_frac);

#endif
