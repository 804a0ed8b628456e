/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the limits of a grade stand on the curve, and where words have room beside them. */
#include "report/curve_marks.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* A mark on percent evaporated lies elsewhere by the loss; less is not seen on the picture. */
#define LOSS_SEEN_PCT 0.5

static bool starts(const char *whole, const char *start)
{
	return strncmp(whole, start, strlen(start)) == 0;
}

/* "E70", "evaporated_at_250C" */
static bool is_evaporated_share(const char *property)
{
	return starts(property, "evaporated_at_") ||
	       (property[0] == 'E' && isdigit((unsigned char)property[1]));
}

static void write_words(const struct bc_limit *limit, double value, bool is_max, bool evaporated,
	struct bc_curve_mark *mark)
{
	const char *bound = is_max ? "≤" : "≥";
	const char *of = evaporated ? " evap." : "";
	if (mark->of == BC_MARK_SHARE)
		snprintf(mark->words, sizeof mark->words, "%s %g %%%s at %g °C", bound, value, of,
			mark->temp_c);
	else if (mark->of == BC_MARK_POINT)
		snprintf(mark->words, sizeof mark->words, "%g %%%s %s %g °C",
			bc_limit_property_number(limit->property), of, bound, value);
	else
		snprintf(mark->words, sizeof mark->words, "end %s %g °C", bound, value);
}

/* One side of a limit, value being its min or max; false where it is none of the curve. The words
 * are made of numbers alone: no text of a limit table reaches the script. */
static bool mark_of(const struct bc_limit *limit, double value, bool is_max,
	const struct bc_boiloff *boiloff, struct bc_curve_mark *mark)
{
	const char *property = limit->property;
	double number = bc_limit_property_number(property);
	bool evaporated = strcmp(limit->basis, "evaporated") == 0 || is_evaporated_share(property);
	if (is_evaporated_share(property) || starts(property, "recovered_at_"))
		*mark = (struct bc_curve_mark){BC_MARK_SHARE, value, number, !is_max, ""};
	else if (property[0] == 'T' && isdigit((unsigned char)property[1]))
		*mark = (struct bc_curve_mark){BC_MARK_POINT, number, value, is_max, ""};
	else if (strcmp(property, "FBP") == 0)
		*mark = (struct bc_curve_mark){BC_MARK_END, boiloff->end_pct, value, is_max, ""};
	else
		return false;
	evaporated = evaporated && mark->of != BC_MARK_END;
	if (evaporated)
		mark->pct -= boiloff->loss_pct;
	write_words(limit, value, is_max, evaporated && boiloff->loss_pct > LOSS_SEEN_PCT, mark);
	return isfinite(mark->pct) && isfinite(mark->temp_c);
}

bool bc_curve_mark_next(
	const struct bc_judgement *judgement, size_t *at, struct bc_curve_mark *mark)
{
	const struct bc_grade *grade = judgement->verdict.grade;
	while (grade != NULL && *at < 2 * grade->n_criteria) {
		const struct bc_limit *limit = grade->criteria[*at / 2].limit;
		bool is_max = *at % 2 == 1;
		(*at)++;
		if (mark_of(limit, is_max ? limit->max : limit->min, is_max, &judgement->boiloff,
			    mark))
			return true;
	}
	return false;
}

static void frame_for_limits(struct bc_chart_frame *frame)
{
	struct bc_curve_mark mark;
	double top_c = frame->to_c;
	for (size_t at = 0; bc_curve_mark_next(frame->judgement, &at, &mark);) {
		if (mark.temp_c > top_c - 15.0 && mark.temp_c <= top_c + 50.0)
			frame->to_c = fmax(frame->to_c, 50.0 * ceil((mark.temp_c + 15.0) / 50.0));
	}
}

/* Height of a temperature on the chart, 0..1. */
static double height_of(const struct bc_chart_frame *frame, double temp_c)
{
	return (temp_c - frame->from_c) / (frame->to_c - frame->from_c);
}

static double temp_at(const struct bc_chart_frame *frame, double height)
{
	return frame->from_c + height * (frame->to_c - frame->from_c);
}

/* Lowest and highest of what is drawn at a percent: curve, band, fit. */
struct reach {
	double low_c;
	double high_c;
};

static void stretch(struct reach *reach, double temp_c)
{
	reach->low_c = fmin(reach->low_c, temp_c);
	reach->high_c = fmax(reach->high_c, temp_c);
}

static void stretch_at(const struct bc_chart_frame *frame, double pct, struct reach *reach)
{
	const struct bc_reader *reader = &frame->judgement->reader;
	struct bc_estimate curve = bc_reader_temp_c(reader, fmin(fmax(pct, 0.0), 100.0), NULL);
	stretch(reach, curve.value);
	stretch(reach, curve.low);
	stretch(reach, curve.high);
	if (reader->fit != NULL && pct >= 1.0 && pct <= 99.0)
		stretch(reach, bc_fit_temp_c(reader->fit, pct));
}

/* Clear of the curve, its band, the fit, and of the readings as they were read. */
static bool clear_of_curve(const struct bc_chart_frame *frame, const struct bc_chart_box *box)
{
	enum { STEPS = 12 };
	const double margin = 0.012;
	const struct bc_boiloff *boiloff = &frame->judgement->boiloff;
	double low_c = temp_at(frame, box->bottom - margin);
	double high_c = temp_at(frame, box->top + margin);
	for (int i = 0; i < STEPS; i++) {
		struct reach reach = {INFINITY, -INFINITY};
		double wide = box->right - box->left + 2.0 * margin;
		double left = box->left - margin;
		stretch_at(frame, 100.0 * (left + wide * i / STEPS), &reach);
		stretch_at(frame, 100.0 * (left + wide * (i + 1) / STEPS), &reach);
		if (reach.low_c < high_c && reach.high_c > low_c)
			return false;
	}
	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		double x = point->recovered_pct / 100.0;
		if (x > box->left - margin && x < box->right + margin &&
			((point->observed_c > low_c && point->observed_c < high_c) ||
				(point->corrected_c > low_c && point->corrected_c < high_c)))
			return false;
	}
	return true;
}

/* Where words of a width begin, the place being at x: right of it, left of it, and above or below
 * it centred or pushed into the frame. */
static double start_of(int side, double x, double wide)
{
	const double beside = 0.022;
	const double edge = 0.008;
	switch (side) {
	case 0:
		return x + beside;
	case 1:
		return x - beside - wide;
	case 2:
		return x - wide / 2.0;
	default:
		return fmin(fmax(x - wide / 2.0, edge), 1.0 - edge - wide);
	}
}

struct bc_chart_frame bc_chart_frame_of(const struct bc_judgement *judgement)
{
	struct bc_chart_frame frame = {
		.judgement = judgement, .from_c = INFINITY, .to_c = -INFINITY};
	const struct bc_boiloff *boiloff = &judgement->boiloff;
	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		frame.from_c = fmin(frame.from_c, fmin(point->observed_c, point->corrected_c));
		frame.to_c = fmax(frame.to_c, fmax(point->observed_c, point->corrected_c));
	}
	frame.from_c = 50.0 * floor((frame.from_c - 10.0) / 50.0);
	frame.to_c = 50.0 * ceil((frame.to_c + 20.0) / 50.0);
	frame_for_limits(&frame);
	return frame;
}

static bool room_for(struct bc_chart_frame *frame, const char *words, double x, double y,
	struct bc_chart_box *box)
{
	*box = bc_chart_box_of(words, x, y, false);
	if (!bc_chart_box_free(&frame->boxes, box) || !clear_of_curve(frame, box))
		return false;
	bc_chart_box_take(&frame->boxes, box);
	return true;
}

bool bc_chart_words_place(struct bc_chart_frame *frame, const char *words, double pct,
	double temp_c, double *middle_pct, double *at_c)
{
	static const double lifts[] = {
		0.0, 1.0, -1.0, 1.5, -1.5, 2.0, -2.0, 2.5, -2.5, 3.0, -3.0, 3.5, -3.5};
	enum { LIFTS = sizeof lifts / sizeof lifts[0], SIDES = 4 };
	double curve_c = bc_reader_temp_c(&frame->judgement->reader, pct, NULL).value;
	double away = curve_c > temp_c ? -BC_CHART_LINE : BC_CHART_LINE;
	double x = pct / 100.0;
	struct bc_chart_box sized = bc_chart_box_of(words, x, 0.0, false);
	struct bc_chart_box box;
	for (int i = 0; i < LIFTS * SIDES; i++) {
		double lift = lifts[i / SIDES];
		double start = start_of(i % SIDES, x, sized.right - sized.left);
		double y = height_of(frame, temp_c) + lift * away;
		if ((lift == 0.0 && i % SIDES >= 2) || !room_for(frame, words, start, y, &box))
			continue;
		*middle_pct = 50.0 * (box.left + box.right);
		*at_c = temp_at(frame, y);
		return true;
	}
	return false;
}

bool bc_chart_frame_holds(const struct bc_chart_frame *frame, const struct bc_curve_mark *mark)
{
	return mark->temp_c >= frame->from_c && mark->temp_c <= frame->to_c && mark->pct >= 0.0 &&
	       mark->pct <= 100.0;
}

void bc_chart_frame_take_mark(struct bc_chart_frame *frame, const struct bc_curve_mark *mark)
{
	struct bc_chart_box box =
		bc_chart_box_at(mark->pct / 100.0, height_of(frame, mark->temp_c));
	bc_chart_box_take(&frame->boxes, &box);
}

void bc_chart_frame_take_line(struct bc_chart_frame *frame, double pct)
{
	struct bc_chart_box line = {pct / 100.0 - 0.004, pct / 100.0 + 0.004, 0.0, 1.0};
	bc_chart_box_take(&frame->boxes, &line);
}
