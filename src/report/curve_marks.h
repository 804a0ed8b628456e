/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_CURVE_MARKS_H
#define BC_REPORT_CURVE_MARKS_H

#include <stdbool.h>
#include <stddef.h>

#include "judgement/judgement.h"
#include "report/chart_boxes.h"

/* A limit as a mark beside the curve. */
struct bc_curve_mark {
	enum { BC_MARK_SHARE, BC_MARK_POINT, BC_MARK_END } of;
	double pct; /* recovered */
	double temp_c;
	bool below;     /* the curve must pass below it */
	char words[64]; /* of numbers alone: no text of a limit table is in them */
};

/* The next mark of the grade that is met or nearest; *at, 0 at first, counts both sides of each
 * criterion. */
bool bc_curve_mark_next(
	const struct bc_judgement *judgement, size_t *at, struct bc_curve_mark *mark);

/* The field of the curve: 0 to 100 % recovered, from one temperature to another. */
struct bc_chart_frame {
	const struct bc_judgement *judgement;
	double from_c;
	double to_c;
	struct bc_chart_boxes boxes;
};

/* Holds all readings, and the limits that lie close above them. */
struct bc_chart_frame bc_chart_frame_of(const struct bc_judgement *judgement);
bool bc_chart_frame_holds(const struct bc_chart_frame *frame, const struct bc_curve_mark *mark);
/* Keeps words off a mark, and off an upright line. */
void bc_chart_frame_take_mark(struct bc_chart_frame *frame, const struct bc_curve_mark *mark);
void bc_chart_frame_take_line(struct bc_chart_frame *frame, double pct);

/* Room for words beside a place, on the side that has it, lifted away from the curve by as few
 * lines as need be; their middle. False where there is none: the page has every limit. */
bool bc_chart_words_place(struct bc_chart_frame *frame, const char *words, double pct,
	double temp_c, double *middle_pct, double *at_c);

#endif
