/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_STILL_TASKS_H
#define BC_COMMAND_STILL_TASKS_H

#include "base/text.h"
#include "command/arguments.h"
#include "still/still_file.h"

/* What 'boilcut still' does, each in a file of its own; exit statuses. */
int bc_still_describe(const struct bc_arguments *arguments);
int bc_still_calibrate(const struct bc_arguments *arguments);

/* The record that --name means, kept or new; a new one without name where --name is not given. */
int bc_still_record_of(const struct bc_arguments *arguments, struct bc_still_record *record);
/* Keeps it; *path is where, to be freed; NULL without --name. */
int bc_still_keep(
	const struct bc_arguments *arguments, const struct bc_still_record *record, char **path);
/* Complains of the first option given that is not among allowed (NULL last). */
int bc_still_only(const struct bc_arguments *arguments, const char *const *allowed);

#endif
