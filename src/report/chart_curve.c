/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The boiling curve with all that is held against it: readings, band, fit, ranges and limits. */
#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "report/chart.h"
#include "report/chart_boxes.h"

#define CURVE_STEPS 160
#define FIT_STEPS 99
#define CROWDED 60 /* more readings than this are drawn as smaller points */

struct frame {
	double from_c;
	double to_c;
	double middle_c; /* of the curve at half: names stand left above it, right below it */
	struct bc_chart_boxes boxes;
};

static const struct {
	double from_c;
	double to_c;
	const char *name;
	const char *fill;
} ranges[] = {
	{-INFINITY, 35.0, "light end, below 35 °C", "#f3e3da"},
	{35.0, 180.0, "gasoline range, 35-180 °C", "#f7f3ea"},
	{180.0, 240.0, "kerosene range, 180-240 °C", "#e9f0ee"},
	{240.0, 350.0, "diesel range, 240-350 °C", "#f3f3f3"},
	{350.0, INFINITY, "heavy, above 350 °C", "#e6e4e0"},
};

static struct frame frame_of(const struct bc_judgement *judgement)
{
	struct frame frame = {.from_c = INFINITY, .to_c = -INFINITY};
	const struct bc_boiloff *boiloff = &judgement->boiloff;
	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		frame.from_c = fmin(frame.from_c, fmin(point->observed_c, point->corrected_c));
		frame.to_c = fmax(frame.to_c, fmax(point->observed_c, point->corrected_c));
	}
	frame.from_c = 50.0 * floor((frame.from_c - 10.0) / 50.0);
	frame.to_c = 50.0 * ceil((frame.to_c + 20.0) / 50.0);
	double first = judgement->boiloff.first_pct;
	double last = judgement->boiloff.last_pct;
	frame.middle_c =
		bc_reader_temp_c(&judgement->reader, fmin(fmax(50.0, first), last), NULL).value;
	return frame;
}

/* Height of a temperature on the chart, 0..1. */
static double height_of(const struct frame *frame, double temp_c)
{
	return (temp_c - frame->from_c) / (frame->to_c - frame->from_c);
}

/* Half a line below or above an edge. */
#define EDGE_OFFSET 0.035

static void write_ranges(struct frame *frame, struct bc_text *script)
{
	for (size_t i = 0; i < sizeof ranges / sizeof ranges[0]; i++) {
		double from = fmax(ranges[i].from_c, frame->from_c);
		double to = fmin(ranges[i].to_c, frame->to_c);
		if (!(to - from > 0.0))
			continue;
		bc_text_printf(script,
			"set object %zu rectangle from graph 0, first %g to graph 1, first %g "
			"behind fillstyle solid noborder fillcolor rgb '%s'\n",
			i + 1, from, to, ranges[i].fill);
		if (to - from < 0.06 * (frame->to_c - frame->from_c))
			continue;
		bool left = to > frame->middle_c + 0.2 * (frame->to_c - frame->middle_c);
		bc_text_printf(script,
			"set label %zu '%s' at graph %s, first %g %s offset 0,%s font ',11' "
			"textcolor rgb '%s'\n",
			i + 1, ranges[i].name, left ? "0.012" : "0.988", left ? to : from,
			left ? "left" : "right", left ? "-0.8" : "0.8", BC_CHART_SOFT);
		struct bc_chart_box box = bc_chart_box_of(ranges[i].name, left ? 0.012 : 0.988,
			height_of(frame, left ? to : from) + (left ? -EDGE_OFFSET : EDGE_OFFSET),
			!left, true);
		bc_chart_box_take(&frame->boxes, &box);
	}
}

/* A limit as a mark beside the curve. */
struct mark {
	enum { MARK_SHARE, MARK_POINT, MARK_END } of;
	double pct; /* recovered */
	double temp_c;
	bool below; /* the curve must pass below it */
	char words[64];
};

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

static void write_words(const struct bc_limit *limit, double value, bool is_max, struct mark *mark)
{
	const char *bound = is_max ? "at most" : "at least";
	if (mark->of == MARK_SHARE)
		snprintf(mark->words, sizeof mark->words, "%s %g %% at %g °C", bound, value,
			mark->temp_c);
	else if (mark->of == MARK_POINT)
		snprintf(mark->words, sizeof mark->words, "%g %%: %s %g °C",
			bc_limit_property_number(limit->property), bound, value);
	else
		snprintf(mark->words, sizeof mark->words, "end: %s %g °C", bound, value);
}

/* One side of a limit, value being its min or max; false where it is none of the curve. The words
 * are made of numbers alone: no text of a limit table reaches the script. */
static bool mark_of(const struct bc_limit *limit, double value, bool is_max,
	const struct bc_boiloff *boiloff, struct mark *mark)
{
	const char *property = limit->property;
	double number = bc_limit_property_number(property);
	bool evaporated = strcmp(limit->basis, "evaporated") == 0 || is_evaporated_share(property);
	if (is_evaporated_share(property) || starts(property, "recovered_at_"))
		*mark = (struct mark){MARK_SHARE, value, number, !is_max, ""};
	else if (property[0] == 'T' && isdigit((unsigned char)property[1]))
		*mark = (struct mark){MARK_POINT, number, value, is_max, ""};
	else if (strcmp(property, "FBP") == 0)
		*mark = (struct mark){MARK_END, boiloff->end_pct, value, is_max, ""};
	else
		return false;
	if (evaporated && mark->of != MARK_END)
		mark->pct -= boiloff->loss_pct;
	write_words(limit, value, is_max, mark);
	return isfinite(mark->pct) && isfinite(mark->temp_c);
}

/* Lines that the words of a mark are lifted by: the first that is free is taken. */
static const double lifts_up[] = {0.5, 1.4, 2.3};
static const double lifts_down[] = {-0.5, -1.4, -2.3};
static const double lifts_under[] = {-1.3, -2.2, -3.1};
#define LIFTS (sizeof lifts_up / sizeof lifts_up[0])
#define LINE_HEIGHT 0.05 /* share of the chart's height */

static double lift_of(struct frame *frame, const struct mark *mark, const double *lifts, bool left)
{
	bool under = lifts == lifts_under;
	for (size_t i = 0; i <= LIFTS; i++) {
		double lift = lifts[i % LIFTS];
		struct bc_chart_box box = bc_chart_box_of(mark->words,
			mark->pct / 100.0 + (under ? EDGE_OFFSET : 0.0),
			height_of(frame, mark->temp_c) + lift * LINE_HEIGHT, left, true);
		if (left)
			box.left -= EDGE_OFFSET;
		else
			box.right += EDGE_OFFSET;
		if (i < LIFTS && !bc_chart_box_free(&frame->boxes, &box))
			continue;
		bc_chart_box_take(&frame->boxes, &box);
		return lift;
	}
	return lifts[0];
}

/* The words stand on the far side of the curve: above a mark that it passes below, or the other way
 * round where it does not keep to the limit. A steep curve leaves room only well under a mark at
 * its right end. */
static void write_mark(const struct bc_reader *reader, struct frame *frame, size_t tag,
	const struct mark *mark, struct bc_text *script)
{
	bool left = (mark->below && mark->pct > 35.0) || mark->pct > 70.0;
	double curve_c = bc_reader_temp_c(reader, mark->pct, NULL).value;
	bool up = isfinite(curve_c) ? curve_c < mark->temp_c : mark->below;
	const double *lifts = up ? lifts_up : (left ? lifts_under : lifts_down);
	bc_text_printf(script,
		"set label %zu '%s' at %g,%g %s offset %s,%g font ',11' textcolor rgb '%s' point "
		"pointtype %d pointsize 1.4 linecolor rgb '%s' front\n",
		tag, mark->words, mark->pct, mark->temp_c, left ? "right" : "left",
		lifts == lifts_under ? "3" : (left ? "-1.1" : "1.1"),
		lift_of(frame, mark, lifts, left), BC_CHART_WARM, mark->below ? 11 : 9,
		BC_CHART_WARM);
}

static void write_limits(
	const struct bc_judgement *judgement, struct frame *frame, struct bc_text *script)
{
	const struct bc_grade *grade = judgement->verdict.grade;
	size_t tag = 100;
	for (size_t i = 0; grade != NULL && i < 2 * grade->n_criteria; i++) {
		struct mark mark;
		const struct bc_limit *limit = grade->criteria[i / 2].limit;
		bool is_max = i % 2 == 1;
		if (mark_of(limit, is_max ? limit->max : limit->min, is_max, &judgement->boiloff,
			    &mark) &&
			mark.temp_c >= frame->from_c && mark.temp_c <= frame->to_c)
			write_mark(&judgement->reader, frame, tag++, &mark, script);
	}
}

static void write_readings(const struct bc_boiloff *boiloff, struct bc_text *script)
{
	bc_text_append(script, "# % recovered, observed degC, corrected degC\n$readings << EOD\n");
	size_t step = bc_chart_step(boiloff->n);
	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		bool end = i == 0 || i + 1 == boiloff->n;
		if (!point->used || (!end && i % step != 0))
			continue;
		bc_chart_number(point->recovered_pct, script);
		bc_text_append(script, " ");
		bc_chart_number(point->observed_c, script);
		bc_text_append(script, " ");
		bc_chart_number(point->corrected_c, script);
		bc_text_append(script, "\n");
	}
	bc_text_append(script, "EOD\n");
}

static void write_curve(const struct bc_reader *reader, struct bc_text *script)
{
	double from = bc_curve_first_pct(reader->curve);
	double to = bc_curve_last_pct(reader->curve);
	bc_text_append(script, "# % recovered, curve degC, low, high (95 %)\n$curve << EOD\n");
	for (size_t i = 0; i <= CURVE_STEPS; i++) {
		double pct = i == CURVE_STEPS ? to : from + (to - from) * (double)i / CURVE_STEPS;
		struct bc_estimate at = bc_reader_temp_c(reader, pct, NULL);
		bc_chart_number(pct, script);
		bc_text_append(script, " ");
		bc_chart_number(at.value, script);
		bc_text_append(script, " ");
		bc_chart_number(isnan(at.low) ? at.value : at.low, script);
		bc_text_append(script, " ");
		bc_chart_number(isnan(at.high) ? at.value : at.high, script);
		bc_text_append(script, "\n");
	}
	bc_text_append(script, "EOD\n");
}

static void write_fit(const struct bc_fit *fit, const struct frame *frame, struct bc_text *script)
{
	bc_text_append(script, "# % recovered, fitted degC\n$fit << EOD\n");
	for (size_t pct = 1; fit != NULL && pct <= FIT_STEPS; pct++) {
		double temp_c = bc_fit_temp_c(fit, (double)pct);
		if (!(temp_c >= frame->from_c && temp_c <= frame->to_c))
			continue;
		bc_text_printf(script, "%zu ", pct);
		bc_chart_number(temp_c, script);
		bc_text_append(script, "\n");
	}
	/* a block without a point would be an error of the script */
	bc_text_append(script, fit == NULL ? "NaN NaN\nEOD\n" : "EOD\n");
}

/* What is drawn as a line or as points, and wants its name beside it. */
enum named { NAMED_CORRECTED, NAMED_OBSERVED, NAMED_FIT, NAMED };

static const struct {
	const char *name;
	const char *colour;
	bool above;
	double share; /* of the readings' span, where the name is tried first */
} named[NAMED] = {
	[NAMED_CORRECTED] = {"corrected, 95 % band", BC_CHART_INK, true, 0.38},
	[NAMED_OBSERVED] = {"as read", BC_CHART_SOFT, false, 0.45},
	[NAMED_FIT] = {"fitted family", BC_CHART_WARM, false, 0.72},
};

/* The reading nearest to a percent; *pct becomes its own. */
static double observed_near(const struct bc_boiloff *boiloff, double *pct)
{
	const struct bc_point *near = NULL;
	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		if (point->used && point->kind == BC_READING_AMOUNT &&
			(near == NULL || fabs(point->recovered_pct - *pct) <
						 fabs(near->recovered_pct - *pct)))
			near = point;
	}
	if (near == NULL)
		return NAN;
	*pct = near->recovered_pct;
	return near->observed_c;
}

static double named_temp_c(const struct bc_judgement *judgement, enum named which, double *pct)
{
	switch (which) {
	case NAMED_OBSERVED:
		return observed_near(&judgement->boiloff, pct);
	case NAMED_FIT:
		return judgement->reader.fit != NULL ? bc_fit_temp_c(judgement->reader.fit, *pct)
						     : (double)NAN;
	case NAMED_CORRECTED:
	case NAMED:
		break;
	}
	return bc_reader_temp_c(&judgement->reader, *pct, NULL).value;
}

/* A name with a thin line to the place that it names; dy is a share of the height. */
static bool write_name(struct frame *frame, enum named which, double pct, double temp_c, double dy,
	struct bc_text *script)
{
	bool above = named[which].above;
	double dx = above ? -3.0 : 4.0;
	double name_c = temp_c + (above ? dy : -dy) * (frame->to_c - frame->from_c);
	struct bc_chart_box box = bc_chart_box_of(named[which].name,
		(pct + dx + (above ? -1.0 : 1.0)) / 100.0, height_of(frame, name_c), above, false);
	if (!bc_chart_box_free(&frame->boxes, &box))
		return false;
	bc_chart_box_take(&frame->boxes, &box);
	bc_text_printf(script,
		"set arrow %d from %.6g,%.6g to %.6g,%.6g nohead linewidth 0.8 linecolor rgb '%s' "
		"front\n"
		"set label %d '%s' at %.6g,%.6g %s offset %s,0 textcolor rgb '%s' front\n",
		200 + (int)which, pct + dx, name_c, pct, temp_c, named[which].colour,
		200 + (int)which, named[which].name, pct + dx, name_c, above ? "right" : "left",
		above ? "-0.5" : "0.5", named[which].colour);
	return true;
}

/* Tries places along the curve, near to it first, until one is free. */
static void place_name(const struct bc_judgement *judgement, struct frame *frame, enum named which,
	struct bc_text *script)
{
	static const double shifts[] = {0.0, -0.1, 0.1, -0.2, 0.2, 0.3};
	const struct bc_boiloff *boiloff = &judgement->boiloff;
	double span = boiloff->last_pct - boiloff->first_pct;
	static const double reaches[] = {0.12, 0.18, 0.24, 0.30, 0.36, 0.42};
	for (size_t j = 0; j < sizeof reaches / sizeof reaches[0]; j++) {
		for (size_t i = 0; i < sizeof shifts / sizeof shifts[0]; i++) {
			double pct = boiloff->first_pct + (named[which].share + shifts[i]) * span;
			double temp_c = named_temp_c(judgement, which, &pct);
			if (!isfinite(temp_c) ||
				write_name(frame, which, pct, temp_c, reaches[j], script))
				return;
		}
	}
}

void bc_chart_curve(const struct bc_judgement *judgement, struct bc_text *script)
{
	struct frame frame = frame_of(judgement);
	bc_chart_open(judgement, "curve", "boiling curve", script);
	write_readings(&judgement->boiloff, script);
	write_curve(&judgement->reader, script);
	write_fit(judgement->reader.fit, &frame, script);
	write_ranges(&frame, script);
	write_limits(judgement, &frame, script);
	for (int which = 0; which < NAMED; which++)
		place_name(judgement, &frame, (enum named)which, script);
	bc_text_printf(script,
		"set xlabel 'recovered, %% of the charge by volume' textcolor rgb '%s'\n"
		"set ylabel 'thermometer, °C' textcolor rgb '%s'\n"
		"set xrange [0:100]\nset xtics 10\nset yrange [%g:%g]\nset ytics 50\n",
		BC_CHART_INK, BC_CHART_INK, frame.from_c, frame.to_c);
	double size = judgement->boiloff.n > CROWDED ? 0.35 : 0.8;
	bc_text_printf(script,
		"plot $curve using 1:3:4 with filledcurves fillcolor rgb '#b9c7cf', \\\n"
		"\t$fit using 1:2 with lines dashtype 2 linewidth 1.2 linecolor rgb '%s', \\\n"
		"\t$curve using 1:2 with lines linewidth 2 linecolor rgb '%s', \\\n"
		"\t$readings using 1:2 with points pointtype 6 pointsize %g linecolor rgb '%s', "
		"\\\n"
		"\t$readings using 1:3 with points pointtype 7 pointsize %g linecolor rgb '%s'\n",
		BC_CHART_WARM, BC_CHART_INK, size, BC_CHART_SOFT, size, BC_CHART_INK);
	bc_chart_close(script);
}
