/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_STILL_FLASK_H
#define BC_STILL_FLASK_H

#include <stddef.h>

#include "base/status.h"
#include "curve/points.h"
#include "still/column.h"

/*
 * bc_flask_column - the boil-off flask as a still, at 101.325 kPa
 *
 * Its neck and upper bulb condense some of the vapour: 1.75 effective plates.
 *
 * Notes     1. simulated less measured at 10..90 %, RMS: the measured pair 3.1 1.6 1.4 2.3 degC
 * with 1.5 1.75 2 2.25 effective plates (2 stages with reflux 1: 2.3; bare pot: 7.9); four jets of
 * known composition 3.5 3.8 4.4 5.2 (bare pot: 7.0), where the boiling points of isomers are the
 * greater doubt. 1.75 is the one number that is good at both.
 *           2. 2 to 4 degC at 10..90 % is the claim; IBP and FBP are not described at all: the
 *              cold flask and the dry one are another still
 *           3. the figures take the thermometer's delta off; without it no still fits
 * Source    computed for this program; the pair: Riazi, ASTM MNL50, Table 3.8; the jets:
 *           tests/reference/jets_flask.py
 * Checks    tests/outside/batch.c
 */
struct bc_column bc_flask_column(void);

/*
 * bc_simulated_boiloff - what a boil-off of these slices would read, corrected (D86 basis)
 *
 * Given     slices; apparatus, run at its own pressure_kpa, which must be 101.325 for corrected
 *           temperatures; n percents distilled, rising, 0..99.5; work and run, overwritten
 * Returned  corrected_c[n]: head temperature less the thermometer's delta
 * Status    as bc_column_run; BC_BAD_DOMAIN when the percents do not rise within their range
 * Notes     1. percent distilled is percent recovered plus loss
 */
enum bc_status bc_simulated_boiloff(const struct bc_slices *slices,
	const struct bc_column *apparatus, const double *pct, size_t n, double *corrected_c,
	struct bc_still_work *work, struct bc_run *run);

/* 95 % on a point of a simulated boil-off: bc_flask_column, note 2 [degC]. */
#define BC_FLASK_POINT_C 4.0

/*
 * bc_simulated_flask_points - what a flask would show of slices that were found by simulation
 *
 * Given     slices; own_c[BC_POINTS]  how far (95 %) each point is off by the slices themselves
 *           [degC], NaN: not known; work and run, overwritten
 * Returned  *points: 5..95 % of the flask as a still, IBP and FBP as bc_flask_points has them;
 *           BC_FLASK_POINT_C joined to own_c by squares
 * Status    as bc_column_run, bc_flask_points
 * Notes     1. the errors of vapour pressures, Raoult's law and the thermometer's delta that the
 *              inversion of another still has put into the slices go out again here; with the
 *              correlation they would stay
 */
enum bc_status bc_simulated_flask_points(const struct bc_slices *slices,
	const double own_c[BC_POINTS], struct bc_still_work *work, struct bc_run *run,
	struct bc_points *points);

#endif
