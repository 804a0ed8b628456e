/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_STILL_NAMES_H
#define BC_COMMAND_STILL_NAMES_H

#include "command/command.h"
#include "judgement/judgement.h"
#include "sample/sample.h"
#include "still/still_file.h"

/* The still of that name, as for an option. Complains of an unsafe name (usage) and of one that is
 * not kept (a negative answer); prints what is wrong with its file. Returns an exit status. */
int bc_still_named(
	const struct bc_command *command, const char *name, struct bc_still_record *record);

/* Stills that a sample names. */
struct bc_sample_stills {
	struct bc_still rerun; /* key 'still' */
	struct bc_still apparatus;
	bool has_rerun;
	bool has_apparatus;
};

/* Looks up both; what is not kept is told in sample->assumed and left alone. Prints nothing.
 * Status: BC_OK, then too; what is wrong with a file that is there, in diagnostics; BC_NO_MEMORY.
 */
enum bc_status bc_sample_stills_find(struct bc_sample *sample, struct bc_sample_stills *stills,
	struct bc_diagnostics *diagnostics);
/* Says in sample->assumed which of the stills that it names are missing. BC_OK, BC_NO_MEMORY. */
enum bc_status bc_sample_stills_miss(
	struct bc_sample *sample, const struct bc_sample_stills *stills);
/* *options with those stills that were found; stills must outlive the judgement. */
struct bc_judge_options bc_sample_stills_options(
	const struct bc_sample_stills *stills, const struct bc_judge_options *options);

#endif
