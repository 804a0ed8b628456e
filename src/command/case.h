/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_CASE_H
#define BC_COMMAND_CASE_H

#include "base/diagnostic.h"
#include "command/still_names.h"
#include "judgement/judgement.h"
#include "sample/sample.h"

/* One sample with its judgement, and what went wrong on the way. */
struct bc_case {
	const char *path; /* as messages name it; the caller's */
	struct bc_sample *sample;
	struct bc_sample_stills stills; /* that the sample names */
	struct bc_judgement judgement;
	char *error; /* why there is no judgement; NULL when there is, or when memory is out */
	int result;  /* exit status: BC_EXIT_DONE is a judgement */
	struct bc_diagnostics diagnostics; /* not yet printed */
};

/* Reads path, or readings where it is not NULL, and judges; prints nothing, so that it may run on
 * any thread. */
void bc_case_judge(struct bc_case *item, const char *path, const char *readings,
	const struct bc_judge_options *options);
/* Prints every message; returns item->result. */
int bc_case_tell(const struct bc_case *item);

/* Both in turn. */
int bc_case_open(struct bc_case *item, const char *path, const char *readings,
	const struct bc_judge_options *options);
/* The same of the bytes of a file that is so named; path is for messages. */
int bc_case_open_bytes(struct bc_case *item, const char *path, const char *bytes, size_t n,
	const struct bc_judge_options *options);
/* The same without a word on standard error. */
int bc_case_open_again(struct bc_case *item, const char *path, const char *bytes, size_t n,
	const struct bc_judge_options *options);
void bc_case_close(struct bc_case *item);

/* The sample of path alone, with its messages printed; a message where there is none. */
int bc_case_sample(const char *path, struct bc_sample **sample);
/* "boilcut: PATH: why", of a status that failed. */
void bc_case_complain(const char *path, enum bc_status status);

/* Limits of --limits FILE, or the embedded ones. Prints its messages. */
int bc_case_limits(const char *path, struct bc_limits **limits);

#endif
