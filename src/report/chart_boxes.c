/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keeps the words of a chart apart from each other. */
#include "report/chart_boxes.h"

#include "base/text.h"

/* Widths of a letter and height of a line, as shares of a plot 600 by 350 pixels: sans 11 and 13.
 */
#define SMALL_LETTER 0.0135
#define LETTER 0.0165
#define LINE 0.048

struct bc_chart_box bc_chart_box_of(const char *words, double x, double y, bool to_left, bool small)
{
	double wide = (double)bc_text_columns(words) * (small ? SMALL_LETTER : LETTER);
	return (struct bc_chart_box){
		.left = to_left ? x - wide : x,
		.right = to_left ? x : x + wide,
		.bottom = y - LINE / 2.0,
		.top = y + LINE / 2.0,
	};
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
