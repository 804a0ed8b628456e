/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_CHART_H
#define BC_REPORT_CHART_H

#include "report/report.h"

/* The start of every script: what it is, terminal by the ending of out, common looks, title. */
void bc_chart_open(const struct bc_judgement *judgement, const char *kind, const char *what,
	struct bc_text *script);
void bc_chart_close(struct bc_text *script);

/* The same without the verdict: the title's single quotes are left open for more words. */
void bc_chart_start(
	const struct bc_sample *sample, const char *kind, const char *what, struct bc_text *script);

/* s inside single quotes: letters, digits, blank and .-_(), pass, the rest becomes "_". No string
 * of any input can end the quotes or be more than a string. */
void bc_chart_quoted(const char *s, struct bc_text *script);

/* A number for a script or a data block; "NaN" is gnuplot's own word for none. */
void bc_chart_number(double value, struct bc_text *script);

/* Every which reading is drawn, so that a logger's file stays a picture. */
size_t bc_chart_step(size_t n);

/* A sentence in the middle of an otherwise empty chart. */
void bc_chart_nothing(const char *words, struct bc_text *script);

/* Grey-blue ink that still tells apart in black and white. */
#define BC_CHART_INK "#1f3a4d"
#define BC_CHART_SOFT "#7d8b94"
#define BC_CHART_WARM "#b3541e"

void bc_chart_curve(const struct bc_judgement *judgement, struct bc_text *script);
void bc_chart_residuals(const struct bc_judgement *judgement, struct bc_text *script);
void bc_chart_shares(const struct bc_judgement *judgement, struct bc_text *script);

#endif
