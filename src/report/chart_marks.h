/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_CHART_MARKS_H
#define BC_REPORT_CHART_MARKS_H

#include "report/chart.h"
#include "report/curve_marks.h"

/* Triangles at the limits of the grade met or nearest, with their words clear of curve and frame.
 * False where the curve has none. */
bool bc_chart_limits(struct bc_chart_frame *frame, struct bc_text *script);
/* Where the tap is turned in the suggested re-run, with what this thermometer shows then.
 * False where there is none. */
bool bc_chart_taps(struct bc_chart_frame *frame, struct bc_text *script);

#endif
