/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_TREND_H
#define BC_REPORT_TREND_H

#include <jansson.h>

#include "base/text.h"
#include "book/trend.h"
#include "report/report.h"

/* A trend for a person, 80 columns: what it says, a picture of the last 40 batches, limits, feeds
 * and stills. */
enum bc_status bc_report_trend_text(
	const struct bc_trend *trend, const struct bc_page_style *style, struct bc_text *text);

/* The object of the manual page (a new reference), or NULL without memory. */
json_t *bc_report_trend_json(const struct bc_trend *trend);

/* The gnuplot script of both charts; kind is "trend". */
extern const char *const bc_trend_chart_kinds[]; /* NULL last */
enum bc_status bc_report_trend_chart(
	const struct bc_trend *trend, const char *kind, struct bc_text *script);

/* "degC", "kg/m3", "%": the unit of a figure by the ending of its key, "" where it has none. */
const char *bc_figure_unit(const char *key);

#endif
