/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The boiling curve as the picture of a page. */
#include "report/svg_curve.h"

#include <math.h>
#include <stdio.h>

#include "report/chart.h"
#include "report/curve_marks.h"
#include "report/svg.h"

#define STEPS 80
#define HIGH 300.0
#define SMALL 10.0
#define CROWDED 60 /* more readings than this are drawn as smaller dots */

/* The partition of the shares (fuel/shares.h). */
static const struct {
	double from_c;
	double to_c;
	const char *name;
} ranges[] = {
	{-INFINITY, 35.0, "light end"},
	{35.0, 180.0, "gasoline"},
	{180.0, 240.0, "kerosene"},
	{240.0, 350.0, "diesel"},
	{350.0, INFINITY, "heavy"},
};

static void draw_ranges(const struct bc_svg_plot *plot)
{
	for (size_t i = 0; i < sizeof ranges / sizeof ranges[0]; i++) {
		double from = fmax(ranges[i].from_c, plot->from_y);
		double to = fmin(ranges[i].to_c, plot->to_y);
		if (!(to > from))
			continue;
		if (to < plot->to_y)
			bc_svg_level(plot, to, BC_SVG_RULE, NULL);
		if (to - from >= 0.055 * (plot->to_y - plot->from_y))
			bc_svg_words(plot->svg, plot->right + 4.0,
				bc_svg_y(plot, (from + to) / 2.0) + 0.35 * SMALL, BC_SVG_START,
				SMALL, BC_SVG_SOFT, ranges[i].name);
	}
}

static void draw_curve(const struct bc_svg_plot *plot, const struct bc_reader *reader)
{
	double pct[STEPS + 1];
	double value[STEPS + 1];
	double low[STEPS + 1];
	double high[STEPS + 1];
	double from = bc_curve_first_pct(reader->curve);
	double to = bc_curve_last_pct(reader->curve);
	for (size_t i = 0; i <= STEPS; i++) {
		pct[i] = i == STEPS ? to : from + (to - from) * (double)i / STEPS;
		struct bc_estimate at = bc_reader_temp_c(reader, pct[i], NULL);
		value[i] = at.value;
		low[i] = fmax(isnan(at.low) ? at.value : at.low, plot->from_y);
		high[i] = fmin(isnan(at.high) ? at.value : at.high, plot->to_y);
	}
	bc_svg_band(plot, pct, low, high, STEPS + 1);
	bc_svg_line(plot, pct, value, STEPS + 1, BC_SVG_CURVE, 2.0, NULL);
}

static void draw_readings(const struct bc_svg_plot *plot, const struct bc_boiloff *boiloff)
{
	double radius = boiloff->n > CROWDED ? 1.2 : 2.4;
	size_t step = bc_chart_step(boiloff->n);
	for (size_t i = 0; i < boiloff->n; i += step) {
		const struct bc_point *point = &boiloff->points[i];
		if (isfinite(point->recovered_pct) && isfinite(point->corrected_c))
			bc_svg_dot(plot, point->recovered_pct, point->corrected_c, radius,
				point->used);
	}
}

static void write_beside(struct bc_chart_frame *frame, const struct bc_svg_plot *plot,
	const char *words, double pct, double temp_c)
{
	double middle_pct;
	double at_c;
	if (bc_chart_words_place(frame, words, pct, temp_c, &middle_pct, &at_c))
		bc_svg_words(plot->svg, bc_svg_x(plot, middle_pct),
			bc_svg_y(plot, at_c) + 0.35 * SMALL, BC_SVG_MIDDLE, SMALL, BC_SVG_WARM,
			words);
}

static void draw_limits(struct bc_chart_frame *frame, const struct bc_svg_plot *plot)
{
	struct bc_curve_mark mark;
	for (size_t at = 0; bc_curve_mark_next(frame->judgement, &at, &mark);) {
		if (!bc_chart_frame_holds(frame, &mark))
			continue;
		bc_chart_frame_take_mark(frame, &mark);
		bc_svg_triangle(plot, mark.pct, mark.temp_c, mark.below);
	}
	for (size_t at = 0; bc_curve_mark_next(frame->judgement, &at, &mark);)
		if (bc_chart_frame_holds(frame, &mark))
			write_beside(frame, plot, mark.words, mark.pct, mark.temp_c);
}

static void draw_turn(struct bc_chart_frame *frame, const struct bc_svg_plot *plot, double pct,
	const char *what, double reading_c)
{
	char words[64];
	double share = pct <= 50.0 ? 0.05 : 0.95; /* where the curve is not */
	if (!(pct > 1.0 && pct < 99.0) || isnan(reading_c))
		return;
	snprintf(words, sizeof words, "%s %.0f °C", what, reading_c);
	bc_svg_upright(plot, pct, BC_SVG_SOFT, "6 3 1 3");
	bc_chart_frame_take_line(frame, pct);
	write_beside(
		frame, plot, words, pct, frame->from_c + share * (frame->to_c - frame->from_c));
}

void bc_svg_curve(const struct bc_judgement *judgement, struct bc_text *svg)
{
	struct bc_chart_frame frame = bc_chart_frame_of(judgement);
	const struct bc_svg_plot plot = {
		svg, 32.0, 306.0, 22.0, HIGH - 34.0, 0.0, 100.0, frame.from_c, frame.to_c};
	const struct bc_points *points = &judgement->points;
	char description[200];
	snprintf(description, sizeof description,
		"Corrected temperature against percent recovered: 10 %% at %.0f, 50 %% at %.0f, "
		"90 %% at %.0f degC. The shaded band holds 95 %% of the doubt.",
		points->at[BC_AT_T10].value, points->at[BC_AT_T50].value,
		points->at[BC_AT_T90].value);
	bc_svg_open(svg, HIGH, "curve", "Boiling curve", description);
	draw_ranges(&plot);
	draw_curve(&plot, &judgement->reader);
	bc_svg_axes(&plot, "recovered, % by volume", "corrected, °C");
	if (judgement->has_rerun) {
		const struct bc_cut *cut = &judgement->rerun;
		draw_turn(&frame, &plot, cut->light_pct, "change jars", cut->light_until_reading_c);
		draw_turn(&frame, &plot, cut->light_pct + cut->product_pct, "stop",
			cut->product_until_reading_c);
	}
	draw_limits(&frame, &plot);
	draw_readings(&plot, &judgement->boiloff);
	bc_svg_close(svg);
}
