/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_SPREAD_INPUTS_H
#define BC_JUDGEMENT_SPREAD_INPUTS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/random.h"
#include "base/status.h"
#include "curve/boiloff.h"
#include "curve/points.h"
#include "fuel/oil_points.h"
#include "fuel/properties.h"
#include "judgement/spread.h"

/* What all readings of one draw share, each a standard normal draw. */
enum bc_shared {
	BC_SHARED_OFFSET,
	BC_SHARED_ICE,
	BC_SHARED_STEAM,
	BC_SHARED_KIND,
	BC_SHARED_PRESSURE,
	BC_SHARED_RUN_FRONT,
	BC_SHARED_RUN_MIDDLE,
	BC_SHARED_RUN_BACK,
	BC_SHARED_FLASK,
	BC_SHARED_VOLUME,
	BC_SHARED_RESIDUE,
	BC_SHARED_LOSS,
	BC_SHARED_FRONT_WAY, /* where the fit answers before the readings: its steepness ... */
	BC_SHARED_FRONT_FIT, /* ... and its place */
	BC_SHARED_BACK_WAY,
	BC_SHARED_BACK_FIT,
	BC_SHARED_FRONT_UNREAD, /* where nothing answers: the straight line's end */
	BC_SHARED_BACK_UNREAD,
	BC_SHARED_RANGE,
	BC_SHARED_DENSITY,
	BC_SHARED_METHOD, /* one for each property */
	BC_SHARED_N = BC_SHARED_METHOD + BC_PROPERTIES
};
enum bc_cause bc_shared_cause(size_t shared);

/*
 * The inputs and their distributions (95 % half-widths):
 * - each reading: normal; its own part of bc_conditions
 * - what the thermometer is off by on the whole: the rest of that, normal; the errors of ice and
 *   steam point, normal, on the straight line through both
 * - kind of thermometer, where it is not stated: D86 basis or true vapour, one as likely as the
 *   other
 * - pressure: normal, of two unlike halves where nobody stated it; by boiling water it goes with
 *   what the thermometer is off by
 * - the run: R/sqrt(2) of ASTM D86, normal, drawn at front, middle and back of the curve and shared
 *   out between them
 * - the flask: 0.35 of its effective plates, normal, which move 5 % by 5.6 degC, 50 % by 1.3, 95 %
 *   by 0.9 the other way; not IBP and FBP, which no still describes. 1.5 to 2 plates describe what
 *   was measured about equally well (still/flask.h), and a flask at home is no standard one;
 *   computed on 90 oils, narrow and wide
 * - percents: half of the receiver's square for each reading, half for all, normal; at the
 * outermost reading they count by the slope of the fit, where that is steeper
 * - residue and loss: normal; where not known, half a normal curve up to 3 %, but a residue without
 *   FBP rectangular over what was not read
 * - beyond the readings: the way from the last reading to 50 %, and twice the fit's rms
 * - density: normal; by the curve it follows the drawn curve
 * - methods: normal, of two unlike halves where the bounds are; fuel/method_errors.h
 */
struct bc_inputs {
	const struct bc_conditions *conditions;
	const struct bc_boiloff *boiloff;
	const struct bc_reader *reader;
	size_t n;            /* points of the boil-off */
	double *run_c;       /* of each point: half-width of the run ... */
	double *run_part[3]; /* ... and its shares of front, middle and back */
	double *flask_c;     /* of each point: how far a flask of 0.35 plates less moves it */
	double *steeper;     /* of each point: by how much the fit is steeper than the curve can be
				at an end that has no reading beyond it [degC/%] */
	double rms_c;
	double first_pct; /* edges of the central curve */
	double last_pct;
	double first_c;
	double last_c;
};
enum bc_status bc_inputs_new(const struct bc_reader *reader, struct bc_inputs *inputs);
void bc_inputs_release(struct bc_inputs *inputs);

/* One draw: the standard normal numbers, and the boil-off and curve that they make. */
struct bc_drawn {
	size_t n;
	double *reading; /* of each point */
	double *volume;
	double shared[BC_SHARED_N];
	struct bc_boiloff boiloff; /* its points are this struct's own */
	struct bc_curve *curve;    /* of the last bc_drawn_make */
	struct bc_reader reader;   /* boiloff, curve, and the fit as it was */
};
enum bc_status bc_drawn_new(const struct bc_inputs *inputs, struct bc_drawn *drawn);
void bc_drawn_release(struct bc_drawn *drawn);

/* The shared numbers of all draws, each stratified; n draws of the first, then of the second, ...
 */
double *bc_shared_new(struct bc_random *random, size_t draws); /* NULL without memory */

/* Fills the numbers of the draw-th of so many: always as many, so that a seed gives the same ones
 * again. */
void bc_drawn_next(struct bc_random *random, const double *shared, size_t draws, size_t draw,
	struct bc_drawn *drawn);
/* The boil-off and curve of the numbers; BC_NO_MEMORY, or a status of bc_curve_new. */
enum bc_status bc_drawn_make(const struct bc_inputs *inputs, struct bc_drawn *drawn);

/* The drawn curve read at a percent and at a temperature, inside the readings and beyond; NaN where
 * nothing answers. */
double bc_drawn_temp_c(
	const struct bc_inputs *inputs, const struct bc_drawn *drawn, double recovered_pct);
double bc_drawn_pct(
	const struct bc_inputs *inputs, const struct bc_drawn *drawn, double corrected_c);

#endif
