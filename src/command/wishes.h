/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_WISHES_H
#define BC_COMMAND_WISHES_H

#include "command/arguments.h"
#include "judgement/judgement.h"
#include "verdict/limits.h"

/* --want and --standard of the command line, held against the limits. */
int bc_wishes_read(const struct bc_arguments *arguments, const struct bc_limits *limits,
	struct bc_judge_options *options);

/* A grade that the limits have rows for, by its name or an unambiguous beginning of it. */
int bc_wish_grade(const struct bc_command *command, const char *word,
	const struct bc_limits *limits, enum bc_grade_name *grade);

/* A standard of the limits, by its name or an unambiguous beginning of it; case and blanks do not
 * matter. Where several begin so, the only one that every oil is held against is meant. *standard
 * points into limits. */
int bc_wish_standard(const struct bc_command *command, const char *word,
	const struct bc_limits *limits, const char **standard);

#endif
