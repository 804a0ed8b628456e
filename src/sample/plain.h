/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_SAMPLE_PLAIN_H
#define BC_SAMPLE_PLAIN_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"

/*
 * bc_plain_from_bytes - the bytes of a file as UTF-8 text without mark and comment lines
 *
 * Returned  *text, *n    owned by the caller, NUL-terminated; lines keep their numbers
 *           *converted   the bytes were no UTF-8 and were read as Windows-1252
 *           *wrong       on BC_MALFORMED: what is wrong and what was expected
 * Status    BC_MALFORMED too large, UTF-16, a spreadsheet's own file, NUL bytes; BC_NO_MEMORY
 */
enum bc_status bc_plain_from_bytes(const char *bytes, size_t n_bytes, char **text, size_t *n,
	bool *converted, const char **wrong);

#endif
