/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines out of pieces as they arrive from a terminal, a pipe or a serial line. */
#include "base/lines.h"

#include <string.h>

void bc_lines_init(struct bc_lines *lines) { *lines = (struct bc_lines){.n = 0}; }

char *bc_lines_room(struct bc_lines *lines, size_t *n)
{
	memmove(lines->bytes, lines->bytes + lines->at, lines->n - lines->at);
	lines->n -= lines->at;
	lines->at = 0;
	if (lines->n == sizeof lines->bytes) {
		lines->n_thrown += !lines->too_long;
		lines->too_long = true;
		lines->n = 0;
	}
	*n = sizeof lines->bytes - lines->n;
	return lines->bytes + lines->n;
}

void bc_lines_arrived(struct bc_lines *lines, size_t n) { lines->n += n; }

static const char *take(struct bc_lines *lines, size_t n)
{
	memcpy(lines->line, lines->bytes + lines->at, n);
	lines->line[n] = '\0';
	for (size_t i = 0; i < n; i++) {
		if (lines->line[i] == '\0')
			lines->line[i] = '?';
	}
	return lines->line;
}

const char *bc_lines_next(struct bc_lines *lines)
{
	while (lines->at < lines->n) {
		const char *start = lines->bytes + lines->at;
		size_t left = lines->n - lines->at;
		size_t n = 0;
		while (n < left && start[n] != '\n' && start[n] != '\r')
			n++;
		if (n == left)
			return NULL;
		const char *line = take(lines, n);
		lines->at += n + 1;
		if (!lines->too_long &&
			!(start[n] == '\n' && n == 0 && lines->at > 1 && start[-1] == '\r'))
			return line;
		lines->too_long = false;
	}
	return NULL;
}

const char *bc_lines_rest(struct bc_lines *lines)
{
	size_t n = lines->n - lines->at;
	const char *line = n > 0 && !lines->too_long ? take(lines, n) : NULL;
	lines->at = lines->n;
	lines->too_long = false;
	return line;
}
