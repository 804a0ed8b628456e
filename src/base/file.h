/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_FILE_H
#define BC_BASE_FILE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "base/diagnostic.h"
#include "base/status.h"

/*
 * Reads a whole file, "-" being standard input. *bytes is NUL-terminated beyond *n.
 * BC_IO: cannot be opened or read. BC_MALFORMED: larger than limit bytes, or a folder.
 */
enum bc_status bc_file_read(const char *path, size_t limit, char **bytes, size_t *n,
	struct bc_diagnostics *diagnostics);

/* Writes beside path, syncs, renames: after a failure path is as it was. */
enum bc_status bc_file_write(
	const char *path, const char *bytes, size_t n, struct bc_diagnostics *diagnostics);

/* Writes a file that is not there yet, without waiting for the disk: for thousands of them, after
 * which something written by bc_file_write says that all are there. BC_IO: it is there already. */
enum bc_status bc_file_write_new(
	const char *path, const char *bytes, size_t n, struct bc_diagnostics *diagnostics);

/* Whether path is there as a regular file that begins with none of these words, or cannot be read.
 */
bool bc_file_is_other(const char *path, const char *const *beginnings, size_t n);

/* Writes all bytes to stream; BC_IO when any byte is lost. */
enum bc_status bc_stream_write(FILE *stream, const char *bytes, size_t n);

#endif
