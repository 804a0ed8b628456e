/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_TAP_H
#define BC_REPORT_TAP_H

#include <jansson.h>
#include <stdbool.h>

#include "base/status.h"
#include "base/text.h"
#include "judgement/tapping.h"
#include "report/report.h"

/* Whether a cut does what is wanted. Never for gasoline-range: octane, dienes, gum and benzene are
 * unknown, whatever the curve says. */
bool bc_tap_answers(const struct bc_tapping *tapping);

/* The turns of the tap for the person at the still, 80 columns: what to do first, then why. */
enum bc_status bc_report_tap_text(
	const struct bc_tapping *tapping, const struct bc_page_style *style, struct bc_text *text);

/* The same as one self-contained page of HTML, with its pictures. */
enum bc_status bc_report_tap_page(const struct bc_tapping *tapping, struct bc_text *html);

/* The JSON object of the manual page (a new reference), or NULL without memory. */
json_t *bc_report_tap_json(const struct bc_tapping *tapping);

/* Self-contained gnuplot scripts as those of bc_report_chart. kind is "tap-run" (head and pot
 * against volume) or "tap-choice" (yield against flash). */
extern const char *const bc_tap_chart_kinds[]; /* NULL last */
enum bc_status bc_report_tap_chart(
	const struct bc_tapping *tapping, const char *kind, struct bc_text *script);

#endif
