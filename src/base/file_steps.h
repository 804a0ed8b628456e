/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_FILE_STEPS_H
#define BC_BASE_FILE_STEPS_H

#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>

#include "base/diagnostic.h"
#include "base/status.h"

/* The steps that writing a file is made of; inside base/ only. */

/* Whether the next step of writing is to fail on purpose, as on a full disk. */
bool bc_file_fails(void);
/* Writes all bytes; -1 with errno. */
int bc_file_put(int fd, const char *bytes, size_t n);
/* Permissions of a new file, as the mask of the process has it. */
mode_t bc_file_new_mode(void);
/* Syncs the folder in which path lies; path is cut on the way. */
void bc_file_sync_folder(char *path);
/* Reads to the end of fd; *bytes is to be freed whatever the status. Statuses of bc_file_read. */
enum bc_status bc_file_read_all(int fd, const char *path, size_t limit, char **bytes, size_t *n,
	struct bc_diagnostics *diagnostics);

#endif
