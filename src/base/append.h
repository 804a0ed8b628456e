/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_APPEND_H
#define BC_BASE_APPEND_H

#include <stdbool.h>
#include <stddef.h>

#include "base/diagnostic.h"
#include "base/status.h"

/*
 * A file that only grows, open and locked. The lock is the process's, and is lost when it closes
 * any other descriptor of the same file: read it through bc_append_read alone.
 */
struct bc_append {
	int fd; /* -1: not open */
	char *path;
	size_t length;
};

void bc_append_init(struct bc_append *file);

/*
 * Opens path, made when it is missing, and locks it (fcntl). Status BC_OK; BC_IO: cannot be opened,
 * is no plain file, or another process has it locked; BC_NO_MEMORY.
 */
enum bc_status bc_append_open(
	struct bc_append *file, const char *path, struct bc_diagnostics *diagnostics);

/* The whole of it; statuses of bc_file_read. */
enum bc_status bc_append_read(struct bc_append *file, size_t limit, char **bytes, size_t *n,
	struct bc_diagnostics *diagnostics);

/*
 * Writes bytes behind the end and syncs. After BC_IO the file is cut back to what it was; where
 * even that fails *torn is true, and part of the bytes may stand at its end.
 */
enum bc_status bc_append_write(struct bc_append *file, const char *bytes, size_t n, bool *torn,
	struct bc_diagnostics *diagnostics);

/* Empties the file, for a beginning that was never finished. */
enum bc_status bc_append_restart(struct bc_append *file, struct bc_diagnostics *diagnostics);

/* Removes the file from its folder, still locked. */
enum bc_status bc_append_remove(struct bc_append *file, struct bc_diagnostics *diagnostics);

void bc_append_close(struct bc_append *file);

#endif
