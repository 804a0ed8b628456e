/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_RUNS_H
#define BC_REPORT_RUNS_H

#include <jansson.h>

#include "judgement/control.h"
#include "judgement/pooling.h"
#include "report/page.h"

/* The runs of a pooled judgement side by side; nothing for a single run. */
void bc_page_runs(struct bc_page *page, const struct bc_judgement *judgement);
/* Keys "runs" and "repeatability" into the object of a pooled judgement. */
void bc_json_put_runs(json_t *root, const struct bc_pool *pool, bool *failed);

/* A control sample against its own history, 80 columns; and as a JSON object (NULL without
 * memory). */
enum bc_status bc_report_control(
	const struct bc_control *control, const struct bc_page_style *style, struct bc_text *text);
json_t *bc_report_control_json(const struct bc_control *control);

#endif
