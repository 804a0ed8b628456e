/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_STILL_H
#define BC_REPORT_STILL_H

#include <jansson.h>
#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "base/text.h"
#include "judgement/calibrating.h"
#include "report/report.h"
#include "still/still_file.h"

/* A calibration as it is told: the runs of today, and all that is known of the still with them. */
struct bc_still_told {
	const struct bc_calibrating *const *runs;
	size_t n_runs;
	const struct bc_still_record *record; /* with the pairs of the runs and earlier ones */
	struct bc_plates_estimate all;        /* of the runs that say something, and earlier ones */
	bool known;                           /* anything says something */
	const char *saved;                    /* path of the file, NULL: not kept */
};

enum bc_status bc_report_still_told(
	const struct bc_still_told *told, const struct bc_page_style *style, struct bc_text *text);
json_t *bc_report_still_told_json(const struct bc_still_told *told);

/* Predicted against measured; kind is "still-product", or "still-heads" of runs with heads. */
extern const char *const bc_still_chart_kinds[]; /* NULL last */
enum bc_status bc_report_still_chart(
	const struct bc_calibrating *run, const char *kind, struct bc_text *script);

/* A still by its measures; saved as above. */
struct bc_still_described {
	const struct bc_still_record *record;
	struct bc_rig_estimate estimate;
	const char *saved;
};
enum bc_status bc_report_still_described(const struct bc_still_described *described,
	const struct bc_page_style *style, struct bc_text *text);
json_t *bc_report_still_described_json(const struct bc_still_described *described);

/* What is kept of a still. */
enum bc_status bc_report_still_record(const struct bc_still_record *record,
	const struct bc_page_style *style, struct bc_text *text);
json_t *bc_report_still_record_json(const struct bc_still_record *record);

/* "2.31 effective plates (1.8 to 2.9), calibrated", or "2 plates + pot, reflux 1, stated" */
void bc_still_in_words(const struct bc_still *still, struct bc_text *line);

#endif
