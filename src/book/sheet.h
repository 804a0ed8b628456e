/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BOOK_SHEET_H
#define BC_BOOK_SHEET_H

#include "base/text.h"

/*
 * Cells of the CSV files that the book is exported to (RFC 4180, separator comma, lines end with
 * LF). Nothing is lost on the way there and back, and no cell is one that a spreadsheet runs:
 *
 * - no value (NULL) is an empty cell
 * - a number stands plain, with as few digits as give the same double again
 * - a text that begins with = + - @ ' tab or CR, and an empty text, is led by an apostrophe, which
 *   reading takes off again
 * - a cell is in quotes when it holds anything but letters, digits, inner blanks and ._:+-/()%'
 */
void bc_sheet_append_text(struct bc_text *csv, const char *s); /* NULL: no value */
void bc_sheet_append_integer(struct bc_text *csv, long long value);
void bc_sheet_append_number(struct bc_text *csv, double value); /* NaN: no value */

/* The text of a cell, which lies within it; NULL for no value. */
const char *bc_sheet_text(const char *cell);

#endif
