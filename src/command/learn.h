/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_LEARN_H
#define BC_COMMAND_LEARN_H

#include "judgement/learning.h"

/* Adds the closed cups in the sample files of a folder (.csv, .tsv, .txt; not of those within it)
 * in the order of their names. A file that cannot be read or judged, or whose cup teaches nothing,
 * is said on standard error and skipped. Exit status: BC_EXIT_SYSTEM where the folder cannot be
 * read. */
int bc_learn_folder(
	const char *folder, const struct bc_judge_options *options, struct bc_learning *learning);

#endif
