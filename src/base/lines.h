/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_LINES_H
#define BC_BASE_LINES_H

#include <stdbool.h>
#include <stddef.h>

/* Lines out of pieces as they arrive. */
#define BC_LINES_SIZE 2048
struct bc_lines {
	char bytes[BC_LINES_SIZE];
	size_t n;        /* bytes held */
	size_t at;       /* of these handed out */
	bool too_long;   /* the line that is arriving is too long and is thrown away to its end */
	size_t n_thrown; /* lines thrown away so */
	char line[BC_LINES_SIZE + 1];
};

void bc_lines_init(struct bc_lines *lines);

/* Where the next piece goes, and how many bytes there is room for: always some. */
char *bc_lines_room(struct bc_lines *lines, size_t *n);
/* So many bytes have arrived there. */
void bc_lines_arrived(struct bc_lines *lines, size_t n);

/* The next whole line without its end (LF, CRLF or CR), NUL bytes as '?'; NULL where none is
 * whole. It holds until the next call. */
const char *bc_lines_next(struct bc_lines *lines);
/* What is left without an end when no more will come; NULL: nothing. */
const char *bc_lines_rest(struct bc_lines *lines);

#endif
