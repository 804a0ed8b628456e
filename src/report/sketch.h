/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_SKETCH_H
#define BC_REPORT_SKETCH_H

#include <stdbool.h>
#include <stddef.h>

#include "base/text.h"

/* A small picture of readings, made of characters. */
struct bc_sketch {
	size_t columns; /* of the terminal */
	size_t rows;    /* lines that it takes, its scale among them, 25 at most */
	bool plain;     /* ASCII; else UTF-8 */
};

#define BC_SKETCH_ROWS_MIN 4
#define BC_SKETCH_COLUMNS_MIN 24
#define BC_SKETCH_COLUMNS_MAX 100

/*
 * Head temperatures over percent recovered, n points in ascending order of percent (0 to 100), in
 * exactly sketch->rows lines of at most sketch->columns columns. Left the temperatures of the first
 * and last line, below the percents. Nothing where there is no room.
 */
void bc_report_sketch(const struct bc_sketch *sketch, const double *pct, const double *head,
	size_t n, struct bc_text *text);

#endif
