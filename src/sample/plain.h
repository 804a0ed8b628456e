/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_SAMPLE_PLAIN_H
#define BC_SAMPLE_PLAIN_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"

/* The bytes of a file as text. */
struct bc_plain {
	char *text; /* NUL-terminated; owned */
	size_t n;
	bool converted;      /* the bytes were no UTF-8 and were read as Windows-1252 */
	size_t dropped_line; /* where the first control character was left out; 0 for none */
	const char *wrong;   /* on BC_MALFORMED: what is wrong and what was expected */
};

/*
 * bc_plain_from_bytes - the bytes of a file as UTF-8 text without mark and comment lines
 *
 * Returned  plain   lines keep their numbers; control characters other than tab and line ends are
 *                   left out (bc_utf8_is_control), so that no text of the sample holds any
 * Status    BC_MALFORMED too large, UTF-16, a spreadsheet's own file, NUL bytes; BC_NO_MEMORY
 */
enum bc_status bc_plain_from_bytes(const char *bytes, size_t n_bytes, struct bc_plain *plain);

#endif
