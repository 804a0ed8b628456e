/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_CSV_H
#define BC_BASE_CSV_H

#include <stddef.h>

#include "base/status.h"

struct bc_csv_row {
	size_t line; /* of the file, from 1, where the row starts */
	char **fields;
	size_t n;
};

/* A parsed CSV text; blank lines are no rows. Owns all it points to. */
struct bc_csv {
	struct bc_csv_row *rows;
	size_t n;
	char **fields; /* all fields, row after row */
	char *text;    /* all characters, NUL after each field */
};

/* Parses bytes (RFC 4180 quoting, any line ending) with libcsv. BC_MALFORMED: an open quote;
 * *bad_line, if not NULL, is the line at which the broken row starts. */
enum bc_status bc_csv_parse(
	const char *bytes, size_t n, char separator, struct bc_csv *csv, size_t *bad_line);
void bc_csv_release(struct bc_csv *csv);

#endif
