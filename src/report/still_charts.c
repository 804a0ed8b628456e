/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a calibration predicts against what was read, as a picture. */
#include <math.h>
#include <string.h>

#include "report/chart.h"
#include "report/still.h"

const char *const bc_still_chart_kinds[] = {"still-product", "still-heads", NULL};

static void write_rows(const struct bc_calibration_curve *curve, const double *predicted_c,
	double *from_c, double *to_c, struct bc_text *script)
{
	*from_c = INFINITY;
	*to_c = -INFINITY;
	bc_text_append(script, "# % over, read, predicted, degC\n$both << EOD\n");
	for (size_t i = 0; i < curve->n; i++) {
		*from_c = fmin(*from_c, fmin(curve->head_c[i], predicted_c[i]));
		*to_c = fmax(*to_c, fmax(curve->head_c[i], predicted_c[i]));
		bc_chart_number(curve->pct[i], script);
		bc_text_append(script, " ");
		bc_chart_number(curve->head_c[i], script);
		bc_text_append(script, " ");
		bc_chart_number(predicted_c[i], script);
		bc_text_append(script, "\n");
	}
	bc_text_append(script, "EOD\n");
}

static void chart(const struct bc_calibrating *run, const struct bc_sample *sample,
	const struct bc_calibration_curve *curve, const double *predicted_c, const char *kind,
	struct bc_text *script)
{
	const struct bc_plates_estimate *e = &run->answer.estimate;
	double from_c = 0.0;
	double to_c = 0.0;
	bc_chart_start(sample, kind, "read and predicted", script);
	bc_text_printf(script,
		"' . \"\\n\" . '%.1f effective plates (%.1f to %.1f)' textcolor rgb '%s'\n",
		fmax(e->plates, 1.0), bc_plates_low(e), bc_plates_high(e), BC_CHART_INK);
	if (curve->n == 0) {
		bc_chart_nothing("nothing was read", script);
		bc_chart_close(script);
		return;
	}
	write_rows(curve, predicted_c, &from_c, &to_c, script);
	bc_text_printf(script,
		"set xlabel '%% over by volume' textcolor rgb '%s'\n"
		"set ylabel 'corrected, °C' textcolor rgb '%s'\n"
		"set xrange [0:100]\nset xtics 20\nset yrange [%g:%g]\nset bmargin 6\n"
		"set key at screen 0.5,0.015 center bottom horizontal maxrows 1 samplen 1.6 font "
		"','.small textcolor rgb '%s'\n",
		BC_CHART_INK, BC_CHART_INK, 20.0 * floor((from_c - 10.0) / 20.0),
		20.0 * ceil((to_c + 10.0) / 20.0), BC_CHART_INK);
	bc_text_printf(script,
		"plot $both using 1:3 with lines linewidth 2.5 linecolor rgb '%s' title "
		"'predicted', \\\n"
		"\t$both using 1:2 with points pointtype 6 pointsize 1.6*dot linewidth 2 linecolor "
		"rgb '%s' title 'read'\n",
		BC_CHART_INK, BC_CHART_WARM);
	bc_chart_close(script);
}

enum bc_status bc_report_still_chart(
	const struct bc_calibrating *run, const char *kind, struct bc_text *script)
{
	const struct bc_calibrating_request *request = &run->request;
	const struct bc_calibration_fit *fit = &run->answer.fit;
	const struct bc_sample *sample = request->after != NULL ? request->after : request->heads;
	if (strcmp(kind, "still-product") == 0)
		chart(run, sample, &run->pair.run.product, fit->product_c, kind, script);
	else if (strcmp(kind, "still-heads") == 0)
		chart(run, request->heads != NULL ? request->heads : sample, &run->pair.run.heads,
			fit->heads_c, kind, script);
	else
		return BC_NOT_FOUND;
	return script->failed ? BC_NO_MEMORY : BC_OK;
}
