/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What moved when a control sample left its limits: thermometer, the oil's front or tail, or the
 * still. */
#include "judgement/control_cause.h"

#include <math.h>

#include "curve/conditions.h"

/* control.h, bc_control_new, note 2 */
#define LEFT_OVER_SIGMA 3.0
#define NOT_TOLD_APART 4.0
/* An offset needs no advice on pressure that no weather brings; common practice [kPa]. */
#define WEATHER_KPA 6.0

const char *bc_control_cause_text(enum bc_control_cause cause)
{
	switch (cause) {
	case BC_CONTROL_NONE:
		break;
	case BC_CONTROL_OFFSET:
		return "offset";
	case BC_CONTROL_SCALE:
		return "scale";
	case BC_CONTROL_THERMOMETER:
		return "thermometer";
	case BC_CONTROL_FRONT:
		return "front";
	case BC_CONTROL_TAIL:
		return "tail";
	case BC_CONTROL_SHAPE:
		return "shape";
	}
	return "none";
}

/* How a change of size 1 shows at a percent. Ends fade over the first or last fifth; judgement. */
static double pattern(enum bc_control_cause cause, const struct bc_control_point *point)
{
	const double fade_pct = 25.0;
	switch (cause) {
	case BC_CONTROL_OFFSET:
		return 1.0;
	case BC_CONTROL_SCALE:
		return point->before_c / 100.0;
	case BC_CONTROL_FRONT:
		return fmax(1.0 - point->pct / fade_pct, 0.0);
	case BC_CONTROL_TAIL:
		return fmax(1.0 - (100.0 - point->pct) / fade_pct, 0.0);
	case BC_CONTROL_NONE:
	case BC_CONTROL_THERMOMETER:
	case BC_CONTROL_SHAPE:
		break;
	}
	return 0.0;
}

/* Least squares of one pattern: its size, what it leaves in squares of sigma, and at most. */
struct match {
	double size;
	double left_square;
	double left_most;
};

static struct match match_of(const struct bc_control *control, enum bc_control_cause cause)
{
	struct match match = {0.0, 0.0, 0.0};
	double with = 0.0;
	double square = 0.0;

	for (size_t i = 0; i < control->n_points; i++) {
		const struct bc_control_point *point = &control->points[i];
		double shape = pattern(cause, point) / point->sigma_c;
		with += shape * point->change_c / point->sigma_c;
		square += shape * shape;
	}
	match.size = square > 0.0 ? with / square : 0.0;
	for (size_t i = 0; i < control->n_points; i++) {
		const struct bc_control_point *point = &control->points[i];
		double left =
			(point->change_c - match.size * pattern(cause, point)) / point->sigma_c;
		match.left_square += left * left;
		match.left_most = fmax(match.left_most, fabs(left));
	}
	return match;
}

static double offset_of(const struct bc_control *control)
{
	return match_of(control, BC_CONTROL_OFFSET).size;
}

static void advise_thermometer(struct bc_control *control)
{
	const struct bc_control_chart *middle = &control->charts[BC_CONTROL_MEAN];
	const struct bc_sample *sample = control->runs[control->n - 1].sample;
	const char *way = control->change_c > 0.0 ? "high" : "low";

	if (control->cause == BC_CONTROL_SCALE)
		bc_strings_add(&control->advice,
			"The change grows with temperature: the scale of the thermometer reads "
			"%.2f degC %s for each 100 degC. A steam point puts it right; a stem less "
			"deep in the vapour does the same.",
			fabs(control->per_100_c), control->per_100_c > 0.0 ? "high" : "low");
	else
		bc_strings_add(&control->advice,
			"All points moved alike by %+.1f degC: the thermometer reads %s, the oil "
			"has not changed.",
			control->change_c, way);
	if (control->cause == BC_CONTROL_THERMOMETER)
		bc_strings_add(&control->advice,
			"Whether by the same amount everywhere or growing with temperature, this "
			"oil boils over too short a range to tell.");
	bc_strings_add(&control->advice,
		"Read the thermometer in melting ice and in boiling water and write both into the "
		"file (keys 'ice' and 'steam')%s; look for a broken thread. Then run the control "
		"again.",
		isnan(sample->ice_c) && isnan(sample->steam_c) ? "; neither stands in the newest"
							       : "");
	if (control->cause == BC_CONTROL_SCALE)
		return;
	control->pressure_kpa = -control->change_c / bc_pressure_effect_c(middle->centre, 1.0);
	if (fabs(control->pressure_kpa) <= WEATHER_KPA)
		bc_strings_add(&control->advice,
			"A pressure written %.1f kPa too %s would show the same: check the "
			"barometer.",
			fabs(control->pressure_kpa), control->pressure_kpa > 0.0 ? "high" : "low");
}

static void advise_end(struct bc_control *control)
{
	bool up = control->change_c > 0.0;

	if (control->cause == BC_CONTROL_FRONT && up)
		bc_strings_add(&control->advice,
			"Only the front moved, up by %.1f degC: the control sample has lost its "
			"light end. The thermometer is as it was. Keep the can full and closed, or "
			"buy a new one and begin a new history.",
			control->change_c);
	else if (control->cause == BC_CONTROL_FRONT)
		bc_strings_add(&control->advice,
			"Only the front moved, down by %.1f degC: something light, or water, has "
			"got into the control sample, or the flask was not clean. Clean it, run "
			"again, then take a fresh can.",
			-control->change_c);
	else
		bc_strings_add(&control->advice,
			"Only the tail moved, %s by %.1f degC: heavy oil in the flask or in the "
			"control sample, another heat at the end, or an end point read too %s. "
			"Clean the flask and run again.",
			up ? "up" : "down", fabs(control->change_c), up ? "late" : "early");
}

static void take_cause(struct bc_control *control, enum bc_control_cause cause, double size)
{
	control->cause = cause;
	control->change_c = size;
	if (cause == BC_CONTROL_SCALE) {
		control->per_100_c = size;
		control->change_c = size * control->charts[BC_CONTROL_MEAN].centre / 100.0;
	}
	if (cause == BC_CONTROL_SHAPE)
		control->change_c = offset_of(control);
}

void bc_control_find_cause(struct bc_control *control)
{
	static const enum bc_control_cause causes[] = {
		BC_CONTROL_OFFSET, BC_CONTROL_SCALE, BC_CONTROL_FRONT, BC_CONTROL_TAIL};
	enum bc_control_cause best = BC_CONTROL_OFFSET;
	struct match least = match_of(control, best);

	if (control->word == BC_CONTROL_IN)
		return;
	for (size_t i = 1; i < sizeof causes / sizeof causes[0]; i++) {
		struct match match = match_of(control, causes[i]);
		if (match.left_square < least.left_square) {
			least = match;
			best = causes[i];
		}
	}
	struct match offset = match_of(control, BC_CONTROL_OFFSET);
	struct match scale = match_of(control, BC_CONTROL_SCALE);
	if (least.left_most > LEFT_OVER_SIGMA)
		best = BC_CONTROL_SHAPE;
	else if ((best == BC_CONTROL_OFFSET || best == BC_CONTROL_SCALE) &&
		 fabs(offset.left_square - scale.left_square) < NOT_TOLD_APART &&
		 offset.left_most <= LEFT_OVER_SIGMA && scale.left_most <= LEFT_OVER_SIGMA)
		best = BC_CONTROL_THERMOMETER;
	take_cause(control, best, best == BC_CONTROL_THERMOMETER ? offset.size : least.size);
	if (best == BC_CONTROL_FRONT || best == BC_CONTROL_TAIL)
		advise_end(control);
	else if (best != BC_CONTROL_SHAPE)
		advise_thermometer(control);
	else
		bc_strings_add(&control->advice,
			"The shape of the curve changed, not its level alone: look at the charge, "
			"the heat, the place of the bulb and the tightness of the joints, and run "
			"it again before touching the thermometer.");
}
