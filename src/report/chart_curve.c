/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The boiling curve with all that is held against it: readings, band, fit, ranges and limits. */
#include <math.h>
#include <stdio.h>

#include "report/chart.h"
#include "report/chart_marks.h"

#define CURVE_STEPS 160
#define FIT_STEPS 99
#define CROWDED 60 /* more readings than this are drawn as smaller points */

static const struct {
	double from_c;
	double to_c;
	const char *name;
	const char *fill;
} ranges[] = {
	{-INFINITY, 35.0, "light end", "#f3e3da"},
	{35.0, 180.0, "gasoline", "#f7f3ea"},
	{180.0, 240.0, "kerosene", "#e9f0ee"},
	{240.0, 350.0, "diesel", "#f3f3f3"},
	{350.0, INFINITY, "heavy", "#e6e4e0"},
};

/* The names stand beside the frame, where nothing is drawn; the edges are lines as well, since
 * fills look alike in black and white. */
static void write_ranges(const struct bc_chart_frame *frame, struct bc_text *script)
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
		if (to < frame->to_c)
			bc_text_printf(script,
				"set arrow %zu from graph 0, first %g to graph 1, first %g nohead "
				"back linewidth 0.8 linecolor rgb '#b4bec4'\n",
				i + 1, to, to);
		if (to - from < 0.055 * (frame->to_c - frame->from_c))
			continue;
		bc_text_printf(script,
			"set label %zu '%s' at graph 1.015, first %g left font ','.small textcolor rgb "
			"'%s'\n",
			i + 1, ranges[i].name, (from + to) / 2.0, BC_CHART_SOFT);
	}
}

/* Returns whether there is any. */
static bool write_readings(
	const struct bc_boiloff *boiloff, bool used, const char *block, struct bc_text *script)
{
	bool any = false;
	size_t step = bc_chart_step(boiloff->n);
	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		bool end = i == 0 || i + 1 == boiloff->n;
		if (point->used != used || (used && !end && i % step != 0) ||
			!isfinite(point->recovered_pct) || !isfinite(point->corrected_c))
			continue;
		if (!any)
			bc_text_printf(script,
				"# %% recovered, observed degC, corrected degC\n%s << EOD\n",
				block);
		any = true;
		bc_chart_number(point->recovered_pct, script);
		bc_text_append(script, " ");
		bc_chart_number(point->observed_c, script);
		bc_text_append(script, " ");
		bc_chart_number(point->corrected_c, script);
		bc_text_append(script, "\n");
	}
	bc_text_append(script, any ? "EOD\n" : "");
	return any;
}

/* The curve's bounds at a percent: those of the draws, straight between the percents at which they
 * were taken, or by derivatives where there are none. */
static struct bc_estimate band_at(const struct bc_judgement *judgement, double pct)
{
	const struct bc_spread *spread = judgement->spread;
	if (spread == NULL)
		return bc_reader_temp_c(&judgement->reader, pct, NULL);
	double value = bc_curve_temp_c(judgement->curve, pct);
	size_t i = 0;
	while (i + 2 < BC_BAND_POINTS && spread->band_pct[i + 1] <= pct)
		i++;
	double share =
		(pct - spread->band_pct[i]) / (spread->band_pct[i + 1] - spread->band_pct[i]);
	const double *low = spread->band_low_c + i;
	const double *high = spread->band_high_c + i;
	return (struct bc_estimate){value, fmin(low[0] + share * (low[1] - low[0]), value),
		fmax(high[0] + share * (high[1] - high[0]), value), BC_MEASURED};
}

static void write_curve(const struct bc_judgement *judgement, struct bc_text *script)
{
	const struct bc_reader *reader = &judgement->reader;
	double from = bc_curve_first_pct(reader->curve);
	double to = bc_curve_last_pct(reader->curve);
	bc_text_append(script, "# % recovered, curve degC, low, high (95 %)\n$curve << EOD\n");
	for (size_t i = 0; i <= CURVE_STEPS; i++) {
		double pct = i == CURVE_STEPS ? to : from + (to - from) * (double)i / CURVE_STEPS;
		struct bc_estimate at = band_at(judgement, pct);
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

/* Returns whether any of it is inside the frame. */
static bool write_fit(
	const struct bc_fit *fit, const struct bc_chart_frame *frame, struct bc_text *script)
{
	bool any = false;
	for (size_t pct = 1; fit != NULL && pct <= FIT_STEPS; pct++) {
		double temp_c = bc_fit_temp_c(fit, (double)pct);
		if (!(temp_c >= frame->from_c && temp_c <= frame->to_c))
			continue;
		if (!any)
			bc_text_append(script, "# % recovered, fitted degC\n$fit << EOD\n");
		any = true;
		bc_text_printf(script, "%zu ", pct);
		bc_chart_number(temp_c, script);
		bc_text_append(script, "\n");
	}
	bc_text_append(script, any ? "EOD\n" : "");
	return any;
}

/* The axis says what the marks are; the name of a standard comes from a table that anyone may
 * write.
 */
static void write_axes(
	const struct bc_chart_frame *frame, bool limits, bool taps, struct bc_text *script)
{
	const struct bc_grade *grade = frame->judgement->verdict.grade;
	bc_text_append(script, "set xlabel 'recovered, % of the charge by volume' . \"\\n\" . '");
	if (limits && grade != NULL) {
		bc_text_append(script, "triangles: limits of ' . ");
		bc_chart_quoted(grade->standard, script);
		bc_text_append(script, " . '");
	}
	if (taps)
		bc_text_printf(script, "%stap: as your thermometer shows", limits ? "; " : "");
	bc_text_append(script, "' font ','.small");
	bc_text_printf(script,
		" textcolor rgb '%s'\n"
		"set ylabel 'corrected, °C' textcolor rgb '%s'\n"
		"set xrange [0:100]\nset xtics 20\nset yrange [%g:%g]\nset ytics %d\n"
		"set rmargin 12\n"
		"set bmargin 6\n"
		"set key at screen 0.5,0.015 center bottom horizontal maxrows 1 samplen 1.2 font "
		"','.small textcolor rgb '%s'\n",
		BC_CHART_INK, BC_CHART_INK, frame->from_c, frame->to_c,
		frame->to_c - frame->from_c > 200.0 ? 100 : 50, BC_CHART_INK);
}

void bc_chart_curve(const struct bc_judgement *judgement, struct bc_text *script)
{
	struct bc_chart_frame frame = bc_chart_frame_of(judgement);
	const struct bc_boiloff *boiloff = &judgement->boiloff;
	double size = boiloff->n > CROWDED ? 0.4 : 1.0;
	bc_chart_open(judgement, "curve", "boiling curve", script);
	write_readings(boiloff, true, "$readings", script);
	bool unused = write_readings(boiloff, false, "$unused", script);
	write_curve(judgement, script);
	bool fit = write_fit(judgement->reader.fit, &frame, script);
	write_ranges(&frame, script);
	bool taps = bc_chart_taps(&frame, script);
	bool limits = bc_chart_limits(&frame, script);
	write_axes(&frame, limits, taps, script);
	bc_text_append(script,
		"plot $curve using 1:3:4 with filledcurves fillcolor rgb '#b9c7cf' title '95 % "
		"band', \\\n");
	if (fit)
		bc_text_printf(script,
			"\t$fit using 1:2 with lines dashtype 2 linewidth 1.5 linecolor rgb '%s' "
			"title 'fit', \\\n",
			BC_CHART_WARM);
	bc_text_printf(script,
		"\t$curve using 1:2 with lines linewidth 2.5 linecolor rgb '%s' notitle, \\\n"
		"\t$readings using 1:2 with points pointtype 6 pointsize %g*dot linecolor rgb '%s' "
		"title 'as read', \\\n",
		BC_CHART_INK, size, BC_CHART_SOFT);
	if (unused)
		bc_text_printf(script,
			"\t$unused using 1:3 with points pointtype 2 pointsize 1.3*dot linewidth 2 "
			"linecolor rgb '%s' title 'not used', \\\n",
			BC_CHART_WARM);
	bc_text_printf(script,
		"\t$readings using 1:3 with points pointtype 7 pointsize %g*dot linecolor rgb '%s' "
		"title 'corrected'\n",
		size, BC_CHART_INK);
	bc_chart_close(script);
}
