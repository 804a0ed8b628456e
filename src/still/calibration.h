/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_STILL_CALIBRATION_H
#define BC_STILL_CALIBRATION_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "fuel/slices.h"
#include "still/column.h"

/* Readings at rising percents distilled, with the standard error of each. */
#define BC_CALIBRATION_READINGS_MAX 64
struct bc_calibration_curve {
	size_t n;
	double pct[BC_CALIBRATION_READINGS_MAX];     /* above 0, to 99 */
	double head_c[BC_CALIBRATION_READINGS_MAX];  /* corrected (D86 basis) */
	double sigma_c[BC_CALIBRATION_READINGS_MAX]; /* one standard error, above 0 */
};

/* A place where the tap was turned. */
struct bc_turn {
	bool at_head;   /* else by volume */
	double head_c;  /* corrected */
	double pct;     /* of the charge over the head */
	double sigma_c; /* how well the place is known, one standard error: of the head [degC] */
};

/* A run of a still, and what came of it. */
struct bc_calibration_run {
	const struct bc_slices *feed;
	struct bc_turn from; /* the product begins; by volume at 0: with the first drop */
	struct bc_turn to; /* ... and ends; by volume at to_end_pct when the heat went off there */
	double end_pct;    /* what comes over at all, above 0, to 99.5 */
	struct bc_calibration_curve product; /* its boil-off in the flask; n 0: none */
	struct bc_calibration_curve heads;   /* of the run itself; n 0: none */
	struct bc_column flask;              /* in which the product was boiled off */
};

struct bc_calibration_fit {
	double plates; /* effective, the pot counts as one */
	double carry_pct;
	double plates_sigma_ln; /* standard error of ln(plates), from the readings alone */
	double carry_sigma_pct;
	double rms_c;          /* readings less predicted */
	double misfit;         /* sum of squares of what is left, each by its error */
	double light_ends_pct; /* of the product: what a perfect cut at the same volume would have
				  kept out of it; NaN without product */
	double from_frac;      /* of the charge over the head */
	double to_frac;
	double product_frac;                           /* its volume, of the charge */
	double product_c[BC_CALIBRATION_READINGS_MAX]; /* predicted */
	double heads_c[BC_CALIBRATION_READINGS_MAX];
	bool at_bound; /* the readings ask for a still poorer than the bare pot, or better than any
			  that this model describes */
};

/* What the fit may find. */
#define BC_CALIBRATION_PLATES_MIN 0.7
#define BC_CALIBRATION_PLATES_MAX 12.0
#define BC_CALIBRATION_CARRY_MAX 10.0
/* Before anything is read: carry-over is about so much, give or take as much again; judgement on
 * the wetted walls of a small still [% of the charge]. */
#define BC_CALIBRATION_CARRY_PRIOR 1.0
#define BC_CALIBRATION_CARRY_PRIOR_SIGMA 1.0

/* Room to work in; NULL without memory. */
struct bc_calibration_work;
struct bc_calibration_work *bc_calibration_work_new(void);
void bc_calibration_work_free(struct bc_calibration_work *work);

/*
 * bc_calibrate - the effective plates and the carry-over that explain what a still made of an oil
 *
 * Given     run, with a product or heads or both; start: a fit to start from, NULL: a coarse search
 * Returned  *fit
 * Status    BC_BAD_DOMAIN      nothing to fit, readings that do not rise, no such place for a turn
 *           BC_NO_CONVERGENCE  no still explains it: the simulation fails wherever it is tried
 * Notes     1. the feed is distilled with effective plates m (E = K^m), head and lines carry over
 *              as in bc_tap_jar, the jar is boiled off in the flask: least squares of (read -
 *              predicted)/sigma over ln m and carry, with the weak belief on carry above
 *           2. errors: (J'J)^-1 at the least; what the feed and the turn add, the caller finds by
 *              fitting again with either changed
 *           3. the flask's own error counts once in the feed and once in the product, so the slices
 *              of the feed must come from the same flask (bc_invert): then it mostly cancels
 *           4. recovers simulated stills: tests/bench/calibration_study.c
 *           5. all at 101.325 kPa; a run at 90 kPa changes volatilities by less than 1 %
 * Source    Gauss-Newton with Levenberg's damping (textbook); effective plates: generalised Fenske
 *           equation, worked out for this program
 * Checks    tests/unit/still/test_calibration.c
 */
enum bc_status bc_calibrate(const struct bc_calibration_run *run,
	const struct bc_calibration_fit *start, struct bc_calibration_work *work,
	struct bc_calibration_fit *fit);

/*
 * bc_effective_plates - the one number that says most nearly what stages with reflux do
 *
 * Given     stages 1..60, need not be whole: between two wholes it is interpolated; reflux L/D,
 *           0..INFINITY
 * Returned  *plates: the heads at 10..80 % of a wide oil (true boiling points on a straight line in
 *           probit, 60 to 360 degC from 5 to 95 %) differ least in squares; NaN on failure
 * Status    BC_BAD_DOMAIN, BC_NO_CONVERGENCE
 * Notes     1. (2, 0.25) 1.35..1.53, (2,1) 1.69..1.83, (3,2) 2.4..2.6, (5,2) 3.0..3.2 over several
 *              oils (computed)
 * Checks    tests/unit/still/test_calibration.c
 */
enum bc_status bc_effective_plates(
	double stages, double reflux, struct bc_calibration_work *work, double *plates);

/* Of one pair, or of several put together. */
struct bc_plates_estimate {
	double plates;
	double sigma_ln; /* standard error of ln(plates) from readings, which several pairs average
			  */
	double model_ln; /* ... and from the model, which they share */
	double carry_pct;
	double carry_sigma_pct;
};

/* Weighted means of n > 0 estimates; where they scatter by more than their errors the error grows
 * by the root of chi-square over its freedom (Birge's ratio, from memory). */
struct bc_plates_estimate bc_plates_combine(const struct bc_plates_estimate *estimates, size_t n);

/* 95 % bounds of the plates, neither below 1: a still is no worse than its pot. */
double bc_plates_low(const struct bc_plates_estimate *estimate);
double bc_plates_high(const struct bc_plates_estimate *estimate);
/* Whether such an estimate says anything: known to a factor of 2 at 95 %; judgement. */
bool bc_plates_known(const struct bc_plates_estimate *estimate);

#endif
