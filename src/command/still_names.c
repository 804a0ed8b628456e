/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the name of a still to the still: of an option, and of the keys of a sample. */
#include "command/still_names.h"

#include "command/arguments.h"
#include "command/output.h"

static int wrong_name(const struct bc_command *command, const char *name)
{
	return bc_wrong_usage(command,
		"'%s' is not a name of a still; expected letters, digits, blanks and ._-, a letter "
		"or digit first",
		name);
}

int bc_still_named(
	const struct bc_command *command, const char *name, struct bc_still_record *record)
{
	struct bc_diagnostics diagnostics;
	if (!bc_still_name_is_safe(name))
		return wrong_name(command, name);
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = bc_still_load(name, &diagnostics, record);
	bc_print_diagnostics(&diagnostics);
	bc_diagnostics_release(&diagnostics);
	if (status == BC_NOT_FOUND) {
		bc_complain("no still is called '%s'; 'boilcut still list' names those there are",
			name);
		return BC_EXIT_NEGATIVE;
	}
	if (status == BC_NO_MEMORY)
		return bc_no_memory();
	return bc_exit_from_status(status);
}

static enum bc_status find(
	const char *name, struct bc_diagnostics *diagnostics, struct bc_still *still, bool *found)
{
	struct bc_still_record record;
	enum bc_status status = bc_still_load(name, diagnostics, &record);
	*found = !bc_failed(status);
	if (*found)
		*still = record.still;
	return status == BC_NOT_FOUND ? BC_OK : status;
}

static bool names_apparatus(const struct bc_sample *sample)
{
	return sample->apparatus == BC_APPARATUS_STILL && sample->apparatus_still != NULL;
}

enum bc_status bc_sample_stills_miss(
	struct bc_sample *sample, const struct bc_sample_stills *stills)
{
	if (sample->still != NULL && !stills->has_rerun)
		bc_strings_add_once(&sample->assumed,
			"still '%s' is not described: the default still is meant", sample->still);
	if (names_apparatus(sample) && !stills->has_apparatus)
		bc_strings_add_once(&sample->assumed,
			"apparatus '%s' is not described: its readings are taken as the flask's",
			sample->apparatus_still);
	return sample->assumed.failed ? BC_NO_MEMORY : BC_OK;
}

enum bc_status bc_sample_stills_find(struct bc_sample *sample, struct bc_sample_stills *stills,
	struct bc_diagnostics *diagnostics)
{
	enum bc_status status = BC_OK;
	*stills = (struct bc_sample_stills){.has_rerun = false};
	if (sample->still != NULL)
		status = find(sample->still, diagnostics, &stills->rerun, &stills->has_rerun);
	if (!bc_failed(status) && names_apparatus(sample))
		status = find(sample->apparatus_still, diagnostics, &stills->apparatus,
			&stills->has_apparatus);
	return bc_failed(status) ? status : bc_sample_stills_miss(sample, stills);
}

struct bc_judge_options bc_sample_stills_options(
	const struct bc_sample_stills *stills, const struct bc_judge_options *options)
{
	struct bc_judge_options own = *options;
	if (stills->has_rerun)
		own.still = &stills->rerun;
	if (stills->has_apparatus)
		own.apparatus = &stills->apparatus;
	return own;
}
