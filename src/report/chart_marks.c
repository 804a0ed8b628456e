/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is held against the curve in a gnuplot script: limits of the grade and the turns of the tap.
 */
#include "report/chart_marks.h"

#include <math.h>
#include <stdio.h>

#define LIMITS_TAG 100
#define TAPS_TAG 300

static void write_beside(struct bc_chart_frame *frame, size_t tag, const char *words, double pct,
	double temp_c, struct bc_text *script)
{
	double middle_pct;
	double at_c;
	if (bc_chart_words_place(frame, words, pct, temp_c, &middle_pct, &at_c))
		bc_text_printf(script,
			"set label %zu '%s' at %.6g,%.6g center font ','.small textcolor rgb '%s' "
			"front\n",
			tag, words, middle_pct, at_c, BC_CHART_WARM);
}

bool bc_chart_limits(struct bc_chart_frame *frame, struct bc_text *script)
{
	struct bc_curve_mark mark;
	size_t tag = LIMITS_TAG;
	for (size_t at = 0; bc_curve_mark_next(frame->judgement, &at, &mark);) {
		if (!bc_chart_frame_holds(frame, &mark))
			continue;
		bc_chart_frame_take_mark(frame, &mark);
		bc_text_printf(script,
			"set label %zu '' at %.6g,%.6g point pointtype %d pointsize 1.6*dot linecolor "
			"rgb '%s' front\n",
			tag, mark.pct, mark.temp_c, mark.below ? 11 : 9, BC_CHART_WARM);
		tag += 2;
	}
	bool any = tag > LIMITS_TAG;
	tag = LIMITS_TAG + 1;
	for (size_t at = 0; bc_curve_mark_next(frame->judgement, &at, &mark);) {
		if (!bc_chart_frame_holds(frame, &mark))
			continue;
		write_beside(frame, tag, mark.words, mark.pct, mark.temp_c, script);
		tag += 2;
	}
	return any;
}

/* Narrower than this a jar is not worth a turn of the tap, nor seen on the picture. */
#define JAR_SEEN_PCT 1.0

static bool write_tap(struct bc_chart_frame *frame, size_t tag, const char *what, double pct,
	double reading_c, struct bc_text *script)
{
	char words[64];
	if (!(pct >= JAR_SEEN_PCT && pct <= 100.0 - JAR_SEEN_PCT) || isnan(reading_c))
		return false;
	snprintf(words, sizeof words, "%s %.0f °C", what, reading_c);
	bc_text_printf(script,
		"set arrow %zu from %.6g,graph 0 to %.6g,graph 1 nohead linewidth 1.5 dashtype "
		"'-.' linecolor rgb '%s'\n",
		tag, pct, pct, BC_CHART_INK);
	bc_chart_frame_take_line(frame, pct);
	/* where the curve is not: it rises from the lower left to the upper right */
	write_beside(frame, tag, words, pct,
		frame->from_c + (pct <= 50.0 ? 0.05 : 0.95) * (frame->to_c - frame->from_c),
		script);
	return true;
}

bool bc_chart_taps(struct bc_chart_frame *frame, struct bc_text *script)
{
	const struct bc_judgement *judgement = frame->judgement;
	const struct bc_cut *cut = &judgement->rerun;
	enum bc_word word = judgement->verdict.word;
	if (!judgement->has_rerun || (word != BC_WORD_RERUN && word != BC_WORD_UNDECIDED))
		return false;
	bool change = write_tap(
		frame, TAPS_TAG, "change jars", cut->light_pct, cut->light_until_reading_c, script);
	bool stop = write_tap(frame, TAPS_TAG + 1, "stop", cut->light_pct + cut->product_pct,
		cut->product_until_reading_c, script);
	return change || stop;
}
