/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The charts of a trend: individuals above, moving ranges below. */
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "report/chart.h"
#include "report/trend.h"

const char *const bc_trend_chart_kinds[] = {"trend", NULL};

/* More points than this run into one line. */
#define POINTS_MOST 300

struct span {
	double low;
	double high;
};

static void widen(struct span *span, double value)
{
	if (!isfinite(value))
		return;
	span->low = fmin(span->low, value);
	span->high = fmax(span->high, value);
}

static void write_points(const struct bc_trend *trend, size_t first, struct span *values,
	struct span *ranges, struct bc_text *script)
{
	bc_text_append(script,
		"# number on the chart, value, range from the one before, value where "
		"it is part of a finding\n$trend << EOD\n");
	for (size_t i = first; i < trend->n; i++) {
		double value = trend->values[i];
		double range = i > 0 ? fabs(value - trend->values[i - 1]) : (double)NAN;
		widen(values, value);
		widen(ranges, range);
		bc_text_printf(script, "%zu ", i + 1);
		bc_chart_number(value, script);
		bc_text_append(script, " ");
		bc_chart_number(range, script);
		bc_text_append(script, " ");
		bc_chart_number(trend->points[i].signal ? value : (double)NAN, script);
		bc_text_append(script, "\n");
	}
	bc_text_append(script, "EOD\n");
}

static void set_range(const char *axis, struct span span, struct bc_text *script)
{
	double room = 0.08 * (span.high - span.low);
	if (!(room > 0.0))
		room = fmax(1e-6, 0.01 * fabs(span.high));
	bc_text_printf(script, "set %s [%.6g:%.6g]\n", axis, span.low - room, span.high + room);
}

/* A line across the chart with its words at the right end. */
static void write_line(int tag, double at, const char *words, int dash, struct bc_text *script)
{
	if (!isfinite(at))
		return;
	bc_text_printf(script,
		"set arrow %d from graph 0, first %.6g to graph 1, first %.6g nohead dashtype %d "
		"linewidth 1.5 linecolor rgb '%s' back\n"
		"set label %d '%s %.4g' at graph 1.01, first %.6g left font ','.small textcolor rgb "
		"'%s'\n",
		tag, at, at, dash, BC_CHART_SOFT, tag, words, at, at, BC_CHART_INK);
}

static void write_values(
	const struct bc_trend *trend, struct span values, size_t first, struct bc_text *script)
{
	const struct bc_individuals *chart = &trend->chart;
	bool degrees = strcmp(bc_figure_unit(trend->request.key), "degC") == 0;
	bc_text_printf(script,
		"set multiplot\nset lmargin 10\nset rmargin at screen 0.80\n"
		"set tmargin at screen 0.88\nset bmargin at screen 0.42\nset format x ''\n"
		"set ylabel '%s' noenhanced textcolor rgb '%s'\n",
		degrees ? "°C" : bc_figure_unit(trend->request.key), BC_CHART_INK);
	set_range("yrange", values, script);
	write_line(1, chart->upper, "upper", 2, script);
	write_line(2, chart->mean, "mean", 1, script);
	write_line(3, chart->lower, "lower", 2, script);
	if (trend->baseline < trend->n && trend->baseline > first && !trend->too_few)
		bc_text_printf(script,
			"set arrow 4 from first %.6g, graph 0 to first %.6g, graph 1 nohead dashtype 3 "
			"linecolor rgb '%s' back\n"
			"set label 4 'limits from here back' at first %.6g, graph 0.95 right offset "
			"-0.5,0 font ','.small textcolor rgb '%s'\n",
			(double)trend->baseline + 0.5, (double)trend->baseline + 0.5, BC_CHART_SOFT,
			(double)trend->baseline + 0.5, BC_CHART_SOFT);
	bc_text_printf(script,
		"plot $trend using 1:2 with linespoints pointtype 7 pointsize dot linewidth 1.5 "
		"linecolor rgb '%s', \\\n"
		"\t$trend using 1:4 with points pointtype 6 pointsize 2.4*dot linewidth 2.5 linecolor "
		"rgb '%s'\n",
		BC_CHART_INK, BC_CHART_WARM);
}

static void write_ranges(const struct bc_trend *trend, struct span ranges, struct bc_text *script)
{
	bc_text_printf(script,
		"unset arrow\nunset label\nunset title\nset format x '%%g'\n"
		"set tmargin at screen 0.38\nset bmargin at screen 0.13\n"
		"set xlabel 'batches in the order of their days' textcolor rgb '%s'\n"
		"set ylabel 'range' textcolor rgb '%s'\nset ytics autofreq\n",
		BC_CHART_INK, BC_CHART_INK);
	ranges.low = 0.0;
	double top = ranges.high > 0.0 ? 1.1 * ranges.high : 1.0;
	bc_text_printf(script, "set yrange [0:%.6g]\n", top);
	write_line(1, trend->chart.range_upper, "limit", 2, script);
	write_line(2, trend->chart.mean_range, "mean", 1, script);
	bc_text_printf(script,
		"plot $trend using 1:3 with linespoints pointtype 7 pointsize 0.8*dot linewidth 1.2 "
		"linecolor rgb '%s'\nunset multiplot\n",
		BC_CHART_INK);
}

static void write_title(const struct bc_trend *trend, struct bc_text *script)
{
	bc_text_append(script, "' . \"\\n\" . ");
	if (trend->too_few)
		bc_text_append(script, "'too few batches for limits'");
	else if (trend->found.n == 0)
		bc_text_printf(script, "'no drift in %zu batches%s'", trend->n,
			trend->provisional ? ", limits provisional" : "");
	else
		bc_text_printf(script, "'not chance alone: %zu finding%s, circled%s'",
			trend->found.n, trend->found.n == 1 ? "" : "s",
			trend->provisional ? ", limits provisional" : "");
	bc_text_printf(script, " textcolor rgb '%s'\n", BC_CHART_INK);
}

enum bc_status bc_report_trend_chart(
	const struct bc_trend *trend, const char *kind, struct bc_text *script)
{
	if (strcmp(kind, "trend") != 0)
		return BC_NOT_FOUND;
	size_t first = trend->n > POINTS_MOST ? trend->n - POINTS_MOST : 0;
	struct span values = {INFINITY, -INFINITY};
	struct span ranges = {0.0, 0.0};
	char *name = bc_strdup(trend->request.key);
	struct bc_sample sample = {.name = name, .file = name};
	bool narrowed = trend->request.feed != NULL;
	if (name == NULL)
		return BC_NO_MEMORY;
	bc_chart_start(&sample, "trend", "from batch to batch", script);
	bc_free(name);
	if (narrowed) {
		bc_text_append(script, ", feed ' . ");
		bc_chart_quoted(trend->request.feed, script);
		bc_text_append(script, " . '");
	}
	write_title(trend, script);
	if (trend->n == 0) {
		bc_chart_nothing("no batch like that", script);
		bc_chart_close(script);
		return script->failed ? BC_NO_MEMORY : BC_OK;
	}
	write_points(trend, first, &values, &ranges, script);
	widen(&values, trend->chart.upper);
	widen(&values, trend->chart.lower);
	widen(&ranges, trend->chart.range_upper);
	bc_text_printf(
		script, "set xrange [%.6g:%.6g]\n", (double)first + 0.5, (double)trend->n + 0.5);
	if (trend->n <= 10) /* no halves of a batch */
		bc_text_append(script, "set xtics 1\n");
	write_values(trend, values, first, script);
	write_ranges(trend, ranges, script);
	bc_chart_close(script);
	return script->failed ? BC_NO_MEMORY : BC_OK;
}
