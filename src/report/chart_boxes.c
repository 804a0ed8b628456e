/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keeps the words of a chart apart from each other. */
#include "report/chart_boxes.h"

#include "base/text.h"

/* Measured on the pictures: letters of sans 14 on a plot 515 pixels wide and 350 high. */
#define LETTER 0.0215
/* Half of a triangle. */
#define MARK_WIDE 0.014
#define MARK_HIGH 0.022

struct bc_chart_box bc_chart_box_of(const char *words, double x, double y, bool to_left)
{
	double wide = (double)bc_text_columns(words) * LETTER;
	return (struct bc_chart_box){
		.left = to_left ? x - wide : x,
		.right = to_left ? x : x + wide,
		.bottom = y - BC_CHART_LINE / 2.0,
		.top = y + BC_CHART_LINE / 2.0,
	};
}

struct bc_chart_box bc_chart_box_at(double x, double y)
{
	return (struct bc_chart_box){x - MARK_WIDE, x + MARK_WIDE, y - MARK_HIGH, y + MARK_HIGH};
}

bool bc_chart_box_free(const struct bc_chart_boxes *boxes, const struct bc_chart_box *box)
{
	if (box->left < 0.0 || box->right > 1.0 || box->bottom < 0.0 || box->top > 1.0)
		return false;
	for (size_t i = 0; i < boxes->n; i++) {
		const struct bc_chart_box *other = &boxes->items[i];
		if (box->left < other->right && other->left < box->right &&
			box->bottom < other->top && other->bottom < box->top)
			return false;
	}
	return true;
}

void bc_chart_box_take(struct bc_chart_boxes *boxes, const struct bc_chart_box *box)
{
	if (boxes->n < BC_CHART_BOXES_MAX)
		boxes->items[boxes->n++] = *box;
}
