/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_SAMPLE_CELL_H
#define BC_SAMPLE_CELL_H

#include <stdbool.h>
#include <stddef.h>

#include "base/text.h"

/* Bytes of the blank that s starts with (space, tab, line end, no-break and thin spaces), or 0. */
size_t bc_cell_blank_length(const char *s);

/* The cell without blanks at both ends, cut in place. */
char *bc_cell_trim(char *cell);
const char *bc_cell_skip_blanks(const char *s);

/* ASCII lower case, inner blanks as one space, none at the ends. false: longer than size - 1. */
bool bc_cell_fold(const char *cell, char *folded, size_t size);

/* Room for 40 columns, the sign that more follows, and the quotes. */
#define BC_QUOTED_SIZE 192

/* 'cell' for a message: control characters escaped, cut after 40 columns. Returns quoted. */
const char *bc_cell_quoted(const char *cell, char quoted[BC_QUOTED_SIZE]);

/* Decimal marks of the numbers in a cell, as bits. A number with both kinds counts as neither. */
#define BC_MARK_POINT 1u
#define BC_MARK_COMMA 2u
#define BC_MARK_GROUPS 4u /* 1,234: one to three digits, then groups of three */
unsigned bc_cell_marks(const char *cell);

/* The cell as it stands in a CSV row: in quotes where it must. */
void bc_cell_append(struct bc_text *text, const char *cell);

/* The whole cell is a number, whatever its decimal mark. */
bool bc_cell_is_number(const char *cell);

#endif
