/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_CHART_BOXES_H
#define BC_REPORT_CHART_BOXES_H

#include <stdbool.h>
#include <stddef.h>

#define BC_CHART_BOXES_MAX 64
#define BC_CHART_LINE 0.06 /* height of a line of small letters, as a share of the plot's */

/* Where words stand on a chart, in fractions of its width and height, so that others keep clear. */
struct bc_chart_box {
	double left;
	double right;
	double bottom;
	double top;
};

struct bc_chart_boxes {
	struct bc_chart_box items[BC_CHART_BOXES_MAX];
	size_t n;
};

/* The box of a line of small words at a height, whose left (or right, when to_left) end is at x. */
struct bc_chart_box bc_chart_box_of(const char *words, double x, double y, bool to_left);
/* The box of a mark. */
struct bc_chart_box bc_chart_box_at(double x, double y);
/* Inside the chart, and clear of all others. */
bool bc_chart_box_free(const struct bc_chart_boxes *boxes, const struct bc_chart_box *box);
void bc_chart_box_take(struct bc_chart_boxes *boxes, const struct bc_chart_box *box);

#endif
