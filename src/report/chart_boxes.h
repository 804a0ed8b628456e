/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_CHART_BOXES_H
#define BC_REPORT_CHART_BOXES_H

#include <stdbool.h>
#include <stddef.h>

#define BC_CHART_BOXES_MAX 64

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

/* The box of a line of words at a height, whose left (or right, when to_left) end is at x; small is
 * the lesser of the two sizes of letters. Sized for a picture as narrow as a phone's. */
struct bc_chart_box bc_chart_box_of(
	const char *words, double x, double y, bool to_left, bool small);
/* Inside the chart, and clear of all others. */
bool bc_chart_box_free(const struct bc_chart_boxes *boxes, const struct bc_chart_box *box);
void bc_chart_box_take(struct bc_chart_boxes *boxes, const struct bc_chart_box *box);

#endif
