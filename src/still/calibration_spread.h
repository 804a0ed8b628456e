/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_STILL_CALIBRATION_SPREAD_H
#define BC_STILL_CALIBRATION_SPREAD_H

#include "still/calibration.h"
#include "still/inversion.h"

/* A pair: what went in, as its boil-off in the flask or by name, and what came out. */
struct bc_calibration_pair {
	const struct bc_inversion_input *feed; /* boil-off of the feed; NULL: known is the feed */
	double ibp_sigma_c;                    /* of its IBP, one standard error */
	const struct bc_slices *known;
	struct bc_calibration_run run; /* its feed and its flask are not looked at */
	bool end_free; /* nobody wrote down where the product ends: run.to is found too */
};

struct bc_calibration_answer {
	struct bc_calibration_fit fit;
	struct bc_plates_estimate estimate;
	struct bc_slices feed;
	size_t n_repeats; /* perturbed fits that went through */
};

/*
 * bc_calibrate_pair - effective plates and carry-over of one pair, with their spread
 *
 * Given     pair; work, inversion_work
 * Returned  *answer
 * Status    as bc_calibrate and bc_invert
 * Notes     1. slices of the feed: bc_invert in the flask (bc_flask_column), so that product and
 *              feed are read in one apparatus
 *           2. sigma_ln: the scatter of 30 fits of readings, IBP and turns shifted by their errors
 *              (fixed seed), or the fit's own error where that is larger
 *           3. model_ln: what a flask known to 0.2 effective plates (one standard error) makes of
 *              ln(plates), by fits with 1.5 and 2.0, and 0.08 for a column that no single number
 *              describes (bias on stages with reflux, calibration_study.c)
 *           4. simulated pairs of three oils, ten stills and flasks, readings to 0.5 and 1.0 degC
 *              (one standard error): of 112 that tell anything all lie inside the stated range,
 *              bias -3 %, RMS 12 %, stated error 20 %. Stages with reflux are read 5 to 13 % low; a
 *              flask of 1.5 makes it 18 % high, one of 2.0 23 % low (calibration_study.c).
 * Carry-over comes out 0.25 % of the charge low, give or take 0.7 Source    parametric bootstrap
 * (textbook) Checks    tests/unit/still/test_calibration.c
 */
enum bc_status bc_calibrate_pair(const struct bc_calibration_pair *pair,
	struct bc_calibration_work *work, struct bc_inversion_work *inversion_work,
	struct bc_calibration_answer *answer);

#endif
