/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_COMPARE_H
#define BC_REPORT_COMPARE_H

#include <jansson.h>

#include "base/text.h"
#include "book/compare.h"
#include "report/report.h"

/* Two batches beside each other for a person, 80 columns. */
enum bc_status bc_report_compare_text(const struct bc_comparison *comparison,
	const struct bc_page_style *style, struct bc_text *text);
/* The object of the manual page (a new reference), or NULL without memory. */
json_t *bc_report_compare_json(const struct bc_comparison *comparison);
/* The gnuplot script of both curves; kind is "compare". */
extern const char *const bc_compare_chart_kinds[]; /* NULL last */
enum bc_status bc_report_compare_chart(
	const struct bc_comparison *comparison, const char *kind, struct bc_text *script);

#endif
