/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far the readings stand from the fitted family. */
#include <math.h>

#include "report/chart.h"

/* IBP and FBP never enter a fit. */
static bool counts(const struct bc_point *point)
{
	return point->used && point->kind == BC_READING_AMOUNT && point->recovered_pct > 0.0 &&
	       point->recovered_pct < 100.0;
}

static double write_residuals(
	const struct bc_boiloff *boiloff, const struct bc_fit *fit, struct bc_text *script)
{
	double widest = 0.0;
	bc_text_append(
		script, "# % recovered, corrected reading less fit, degC\n$residuals << EOD\n");
	size_t step = bc_chart_step(boiloff->n);
	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		if (!counts(point) || i % step != 0)
			continue;
		double residual_c = point->corrected_c - bc_fit_temp_c(fit, point->recovered_pct);
		widest = fmax(widest, fabs(residual_c));
		bc_chart_number(point->recovered_pct, script);
		bc_text_append(script, " ");
		bc_chart_number(residual_c, script);
		bc_text_append(script, "\n");
	}
	bc_text_append(script, "EOD\n");
	return widest;
}

void bc_chart_residuals(const struct bc_judgement *judgement, struct bc_text *script)
{
	const struct bc_fit *fit = judgement->reader.fit;
	bc_chart_open(judgement, "residuals", "readings less fit", script);
	bc_text_printf(script,
		"set xlabel 'recovered, %% of the charge by volume' textcolor rgb '%s'\n"
		"set ylabel 'corrected reading less fit, °C' textcolor rgb '%s'\n",
		BC_CHART_INK, BC_CHART_INK);
	if (fit == NULL || fit->model == NULL) {
		bc_chart_nothing("no family could be fitted: too few readings", script);
		bc_chart_close(script);
		return;
	}
	double widest = write_residuals(&judgement->boiloff, fit, script);
	double edge = fmax(1.0, ceil(1.5 * widest));
	bc_text_printf(script,
		"set xrange [0:100]\nset xtics 20\nset yrange [%g:%g]\n"
		"set object 1 rectangle from graph 0, first %.6g to graph 1, first %.6g behind "
		"fillstyle "
		"solid noborder fillcolor rgb '#eef1f3'\n",
		-edge, edge, -fit->rms_c, fit->rms_c);
	bc_text_append(script, "set label 1 ");
	bc_chart_quoted(fit->model->name, script);
	bc_text_printf(script,
		" . '; band: root mean square, %.2g °C' at graph 0.012, graph 0.97 left font ','.small "
		"textcolor rgb '%s'\n",
		fit->rms_c, BC_CHART_SOFT);
	bc_text_printf(script,
		"plot 0 with lines linecolor rgb '%s', \\\n"
		"\t$residuals using 1:2 with impulses linewidth 1.5 linecolor rgb '%s', \\\n"
		"\t$residuals using 1:2 with points pointtype 7 pointsize 0.9*dot linecolor rgb '%s'\n",
		BC_CHART_SOFT, BC_CHART_INK, BC_CHART_INK);
	bc_chart_close(script);
}
