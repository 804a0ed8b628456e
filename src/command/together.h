/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_TOGETHER_H
#define BC_COMMAND_TOGETHER_H

#include <stdbool.h>

#include "base/strings.h"
#include "command/arguments.h"
#include "command/case.h"
#include "judgement/control.h"
#include "judgement/pooling.h"

/* Several files that are looked at together: runs of one sample, or a control and its history. */
struct bc_together {
	struct bc_sample **samples;
	size_t n;
	struct bc_pool *pool;       /* of bc_together_pool */
	struct bc_control *control; /* of bc_together_control */
};

/* Each reads every file and brings them together; prints what is wrong, with one bad file all fail.
 * Returns an exit status. Close even after a failure. */
int bc_together_pool(const struct bc_strings *paths, bool keep_all, struct bc_together *together);
int bc_together_control(const struct bc_strings *paths, struct bc_together *together);
void bc_together_close(struct bc_together *together);

/* The pool's sample judged into item, which bc_case_close closes before the files are. */
int bc_together_judge(const struct bc_together *together, const struct bc_judge_options *options,
	struct bc_case *item);

/* Complains where --same or --control stand with too few or too many files, with each other, or
 * beside an option that means nothing there. */
int bc_together_check(const struct bc_arguments *arguments, const struct bc_strings *paths);

#endif
