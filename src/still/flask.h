/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_STILL_FLASK_H
#define BC_STILL_FLASK_H

#include <stddef.h>

#include "base/status.h"
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

#endif
