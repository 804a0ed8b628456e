/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The run of a still as pictures: head and pot against volume with the turns of the tap, and yield
 * against flash. */
#include <math.h>
#include <string.h>

#include "report/chart.h"
#include "report/tap.h"

const char *const bc_tap_chart_kinds[] = {"tap-run", "tap-choice", NULL};

static void title(const struct bc_tapping *tapping, struct bc_text *script)
{
	if (tapping->has_want && tapping->want != BC_GRADES) {
		bc_text_printf(script, "' . \"\\n\" . 'for %s", bc_grade_texts[tapping->want]);
		if (!bc_tap_answers(tapping))
			bc_text_append(script, ": no cut does it");
	}
	bc_text_printf(script, "' textcolor rgb '%s'\n", BC_CHART_INK);
}

/* Returns the range of temperatures. */
static void write_nodes(
	const struct bc_tapping *tapping, double *from_c, double *to_c, struct bc_text *script)
{
	*from_c = INFINITY;
	*to_c = tapping->pot_limit_c;
	bc_text_append(script, "# % over, head as shown here, pot, degC\n$run << EOD\n");
	for (size_t i = 0; i < tapping->n_nodes; i++) {
		const struct bc_tap_node *node = &tapping->nodes[i];
		*from_c = fmin(*from_c, fmin(node->head_reading_c, node->pot_c));
		*to_c = fmax(*to_c, fmax(node->head_reading_c, node->pot_c));
		bc_chart_number(node->over_pct, script);
		bc_text_append(script, " ");
		bc_chart_number(node->head_reading_c, script);
		bc_text_append(script, " ");
		bc_chart_number(node->pot_c, script);
		bc_text_append(script, "\n");
	}
	bc_text_append(script, "EOD\n");
}

/* The turn at the end of a jar: a line, and beside it what the thermometer shows. Words of turns
 * that stand close together are staggered. */
static void write_turn(const struct bc_jar *jar, size_t tag, struct bc_text *script)
{
	double pct = 100.0 * jar->to_frac;
	bc_text_printf(script,
		"set arrow %zu from %.6g,graph 0 to %.6g,graph 1 nohead linewidth 1.5 dashtype "
		"'-.' linecolor rgb '%s'\n"
		"set label %zu '",
		tag, pct, pct, BC_CHART_INK, tag);
	if (isnan(jar->to_reading_c))
		bc_text_printf(script, "%s ends", jar->name);
	else
		bc_text_printf(script, "%s to %.0f °C", jar->name, jar->to_reading_c);
	bc_text_printf(script,
		"' at %.6g,graph %.3g %s offset %s,0 font ','.small textcolor rgb '%s' front\n",
		pct, 0.07 + 0.055 * (double)((tag - 1) % 4), pct < 50.0 ? "left" : "right",
		pct < 50.0 ? "0.6" : "-0.6", BC_CHART_WARM);
}

static void write_turns(const struct bc_tapping *tapping, struct bc_text *script)
{
	size_t tag = 1;
	for (size_t i = 0; i < tapping->n_jars; i++) {
		const struct bc_jar *jar = &tapping->jars[i];
		if (!jar->empty && !jar->takes_pot && isfinite(jar->to_frac))
			write_turn(jar, tag++, script);
	}
}

static void chart_run(const struct bc_tapping *tapping, struct bc_text *script)
{
	double from_c = 0.0;
	double to_c = 0.0;
	bc_chart_start(tapping->sample, "tap-run", "the run of the still", script);
	title(tapping, script);
	if (tapping->n_nodes < 2) {
		bc_chart_nothing("nothing comes over below the pot limit", script);
		bc_chart_close(script);
		return;
	}
	write_nodes(tapping, &from_c, &to_c, script);
	write_turns(tapping, script);
	bc_text_printf(script,
		"set xlabel 'over the head, %% of the charge by volume' textcolor rgb '%s'\n"
		"set ylabel 'as your thermometer shows; pot, °C' textcolor rgb '%s'\n"
		"set xrange [0:100]\nset xtics 20\nset yrange [%g:%g]\nset ytics 50\n"
		"set bmargin 4\n",
		BC_CHART_INK, BC_CHART_INK, 50.0 * floor((from_c - 40.0) / 50.0),
		50.0 * ceil((to_c + 20.0) / 50.0));
	const struct bc_tap_node *at = &tapping->nodes[tapping->n_nodes / 5];
	bc_text_printf(script,
		"set label 91 'pot limit' at graph 0.01, first %.6g left offset 0,0.6 font ','.small "
		"textcolor rgb '%s'\n"
		"set label 92 'pot' at %.6g,%.6g right offset -0.5,0.7 font ','.small textcolor rgb "
		"'%s'\n"
		"set label 93 'head' at %.6g,%.6g left offset 0.5,-0.8 font ','.small textcolor rgb "
		"'%s'\n",
		tapping->pot_limit_c, BC_CHART_SOFT, at->over_pct, at->pot_c, BC_CHART_WARM,
		at->over_pct, at->head_reading_c, BC_CHART_INK);
	bc_text_printf(script,
		"plot %.6g with lines dashtype 3 linewidth 1.5 linecolor rgb '%s' notitle, \\\n"
		"\t$run using 1:3 with lines dashtype 2 linewidth 2 linecolor rgb '%s' notitle, \\\n"
		"\t$run using 1:2 with lines linewidth 2.5 linecolor rgb '%s' notitle\n",
		tapping->pot_limit_c, BC_CHART_SOFT, BC_CHART_WARM, BC_CHART_INK);
	bc_chart_close(script);
}

static size_t write_choices(const struct bc_tapping *tapping, double *from_c, double *to_c,
	bool *any_low, struct bc_text *script)
{
	size_t n = 0;
	*any_low = false;
	*from_c = INFINITY;
	*to_c = -INFINITY;
	bc_text_append(
		script, "# flash degC, product % of the charge, flash at worst\n$choice << EOD\n");
	for (size_t i = 0; i < tapping->n_choices; i++) {
		const struct bc_tap_choice *choice = &tapping->choices[i];
		if (!isfinite(choice->flash_c) || !isfinite(choice->product_pct))
			continue;
		double low_c = choice->flash_low_c; /* NaN: no claim */
		*any_low = *any_low || isfinite(low_c);
		*from_c = fmin(*from_c, fmin(low_c, choice->flash_c));
		*to_c = fmax(*to_c, choice->flash_c);
		bc_chart_number(choice->flash_c, script);
		bc_text_append(script, " ");
		bc_chart_number(choice->product_pct, script);
		bc_text_append(script, " ");
		bc_chart_number(low_c, script);
		bc_text_append(script, "\n");
		n++;
	}
	bc_text_append(script, "EOD\n");
	return n;
}

/* The product as it is cut now. */
static bool write_here(const struct bc_tapping *tapping, struct bc_text *script)
{
	for (size_t i = 0; i < tapping->n_jars; i++) {
		const struct bc_jar *jar = &tapping->jars[i];
		const struct bc_estimate *flash = &jar->oil.property[BC_FLASH];
		if (jar->empty || strcmp(jar->name, "product") != 0 || !bc_estimate_present(flash))
			continue;
		bc_text_append(script, "# the product as it is cut now\n$here << EOD\n");
		bc_chart_number(flash->value, script);
		bc_text_append(script, " ");
		bc_chart_number(jar->volume_pct, script);
		bc_text_append(script, "\nEOD\n");
		return true;
	}
	return false;
}

static void chart_choice(const struct bc_tapping *tapping, struct bc_text *script)
{
	double from_c = 0.0;
	double to_c = 0.0;
	bc_chart_start(tapping->sample, "tap-choice", "yield against flash", script);
	title(tapping, script);
	bool any_low = false;
	size_t n = write_choices(tapping, &from_c, &to_c, &any_low, script);
	if (n < 2) {
		bc_chart_nothing("no choice of cuts for this oil on this still", script);
		bc_chart_close(script);
		return;
	}
	bool here = write_here(tapping, script);
	bc_text_printf(script,
		"set xlabel 'flash of the product, °C (estimated closed cup)' textcolor rgb '%s'\n"
		"set ylabel 'product, %% of the charge' textcolor rgb '%s'\n"
		"set xrange [%g:%g]\nset yrange [0:100]\nset ytics 20\nset bmargin 6\n"
		"set key at screen 0.5,0.015 center bottom horizontal maxrows 1 samplen 1.6 font "
		"','.small textcolor rgb '%s'\n",
		BC_CHART_INK, BC_CHART_INK, 10.0 * floor((from_c - 5.0) / 10.0),
		10.0 * ceil((to_c + 5.0) / 10.0), BC_CHART_INK);
	bc_text_append(script, "plot ");
	if (any_low)
		bc_text_printf(script,
			"$choice using 3:2 with linespoints dashtype 2 pointtype 6 pointsize dot "
			"linewidth 1.5 linecolor rgb '%s' title 'flash at worst', \\\n\t",
			BC_CHART_SOFT);
	bc_text_printf(script,
		"$choice using 1:2 with linespoints pointtype 7 pointsize dot linewidth 2.5 "
		"linecolor rgb '%s' title 'flash'%s\n",
		BC_CHART_INK, here ? ", \\" : "");
	if (here)
		bc_text_printf(script,
			"\t$here using 1:2 with points pointtype 4 pointsize 2.2*dot linewidth 2.5 "
			"linecolor rgb '%s' title 'as cut here'\n",
			BC_CHART_WARM);
	bc_chart_close(script);
}

enum bc_status bc_report_tap_chart(
	const struct bc_tapping *tapping, const char *kind, struct bc_text *script)
{
	if (strcmp(kind, "tap-run") == 0)
		chart_run(tapping, script);
	else if (strcmp(kind, "tap-choice") == 0)
		chart_choice(tapping, script);
	else
		return BC_NOT_FOUND;
	return script->failed ? BC_NO_MEMORY : BC_OK;
}
