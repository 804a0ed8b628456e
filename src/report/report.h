/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_REPORT_H
#define BC_REPORT_REPORT_H

#include <jansson.h>
#include <stdbool.h>

#include "base/status.h"
#include "base/text.h"
#include "judgement/judgement.h"
#include "verdict/limits.h"

#define BC_VERSION BOILCUT_VERSION /* from the Makefile */

struct bc_page_style {
	bool colour; /* ANSI colours, never alone */
	bool fits;   /* show every fitted family */
};

/* The judgement for a person, 80 columns. */
enum bc_status bc_report_text(const struct bc_judgement *judgement,
	const struct bc_page_style *style, struct bc_text *text);

/* The same as one self-contained page of HTML, with the curve as a picture. */
enum bc_status bc_report_page(const struct bc_judgement *judgement, struct bc_text *html);

/* The way of every reported figure from reading to result, 80 columns: verdict and dangers first,
 * then each step with its formula, inputs, result and bounds, then the sources. */
enum bc_status bc_report_explain(const struct bc_judgement *judgement,
	const struct bc_page_style *style, struct bc_text *text);
/* The same as a JSON array of {figure, formula, inputs, result, unit, source, unchecked, note}. */
json_t *bc_report_explain_json(const struct bc_judgement *judgement);

/* The judgement as the JSON object of the design (a new reference), or NULL without memory. */
json_t *bc_report_json(const struct bc_judgement *judgement);
/* {file, error} */
json_t *bc_report_json_error(const char *file, const char *error);

/* Self-contained gnuplot scripts; output is a parameter of the script. kind is "curve",
 * "residuals" or "shares". Byte-stable for one judgement. */
extern const char *const bc_chart_kinds[]; /* NULL last */
enum bc_status bc_report_chart(
	const struct bc_judgement *judgement, const char *kind, struct bc_text *script);

/* Which rows of the limit tables. */
struct bc_limits_view {
	enum bc_grade_name grade; /* BC_GRADES: all */
	const char *standard;     /* NULL: all */
	bool from_memory;         /* only what was not seen in print */
};

/* The limit tables in force, for a person and as a JSON array. */
enum bc_status bc_report_limits(
	const struct bc_limits *limits, const struct bc_limits_view *view, struct bc_text *text);
json_t *bc_report_limits_json(const struct bc_limits *limits, const struct bc_limits_view *view);

#endif
