/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_CASE_H
#define BC_COMMAND_CASE_H

#include "base/diagnostic.h"
#include "command/arguments.h"
#include "judgement/judgement.h"
#include "sample/sample.h"

/* One sample with its judgement, and what went wrong on the way. */
struct bc_case {
	struct bc_sample *sample;
	struct bc_judgement judgement;
	char *error; /* why there is no judgement; NULL when there is */
	int result;  /* exit status */
};

/* Reads path, or readings where it is not NULL, judges, and prints every message. Returns
 * item->result. */
int bc_case_open(struct bc_case *item, const char *path, const char *readings,
	const struct bc_judge_options *options);
void bc_case_close(struct bc_case *item);

/* Limits of --limits FILE, or the embedded ones. Prints its messages. */
int bc_case_limits(const char *path, struct bc_limits **limits);

/* --want and --standard of the command line, held against the limits. */
int bc_case_wishes(const struct bc_arguments *arguments, const struct bc_limits *limits,
	struct bc_judge_options *options);
/* A grade by its name or an unambiguous beginning of it. */
int bc_case_grade(const struct bc_command *command, const char *word, enum bc_grade_name *grade);

#endif
