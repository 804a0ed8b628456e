/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a path to a judgement, as every command that judges needs it. */
#include "command/case.h"

#include <string.h>

#include "base/file.h"
#include "base/memory.h"
#include "command/command.h"
#include "command/output.h"

/* As in "error" of the JSON: where, and what. */
static char *error_words(
	const char *path, const struct bc_diagnostics *diagnostics, enum bc_status status)
{
	const struct bc_diagnostic *first = bc_diagnostics_first_error(diagnostics);
	bool elsewhere = first != NULL && first->file != NULL && path != NULL &&
			 strcmp(first->file, path) != 0; /* in the file of a still */
	if (elsewhere && first->line > 0)
		return bc_format("%s:%zu: %s", first->file, first->line, first->text);
	if (elsewhere)
		return bc_format("%s: %s", first->file, first->text);
	if (first != NULL && first->line > 0)
		return bc_format("line %zu: %s", first->line, first->text);
	if (first != NULL)
		return bc_strdup(first->text);
	switch (status) {
	case BC_NO_MEMORY:
		return bc_strdup("out of memory");
	case BC_TOO_FEW:
		return bc_strdup("too few usable percent readings; expected 3 or more");
	default:
		return bc_format("the numbers failed: %s", bc_status_text(status));
	}
}

static enum bc_status read_sample(const char *path, const char *readings,
	struct bc_diagnostics *diagnostics, struct bc_sample **sample)
{
	if (readings != NULL)
		return bc_sample_from_line(readings, diagnostics, sample);
	char *bytes = NULL;
	size_t n = 0;
	enum bc_status status = bc_file_read(path, BC_SAMPLE_LIMIT_BYTES, &bytes, &n, diagnostics);
	if (!bc_failed(status))
		status = bc_sample_read(bytes, n, path, diagnostics, sample);
	bc_free(bytes);
	return status;
}

static void judge(
	struct bc_case *item, const struct bc_judge_options *options, enum bc_status status)
{
	if (!bc_failed(status)) {
		status = bc_sample_stills_find(item->sample, &item->stills, &item->diagnostics);
	}
	if (!bc_failed(status)) {
		const struct bc_judge_options own =
			bc_sample_stills_options(&item->stills, options);
		status = bc_judge(item->sample, &own, &item->judgement);
	}
	item->result = bc_exit_from_status(status);
	if (bc_failed(status))
		item->error = error_words(item->path, &item->diagnostics, status);
}

static void prepare(struct bc_case *item, const char *path)
{
	*item = (struct bc_case){.path = path};
	bc_diagnostics_init(&item->diagnostics);
	bc_judgement_init(&item->judgement);
}

void bc_case_judge(struct bc_case *item, const char *path, const char *readings,
	const struct bc_judge_options *options)
{
	prepare(item, readings != NULL ? "readings" : path);
	judge(item, options, read_sample(path, readings, &item->diagnostics, &item->sample));
}

int bc_case_tell(const struct bc_case *item)
{
	bc_print_diagnostics(&item->diagnostics);
	if (item->result != BC_EXIT_DONE && bc_diagnostics_first_error(&item->diagnostics) == NULL)
		bc_complain(
			"%s: %s", item->path, item->error != NULL ? item->error : "out of memory");
	return item->result;
}

int bc_case_open(struct bc_case *item, const char *path, const char *readings,
	const struct bc_judge_options *options)
{
	bc_case_judge(item, path, readings, options);
	return bc_case_tell(item);
}

int bc_case_open_bytes(struct bc_case *item, const char *path, const char *bytes, size_t n,
	const struct bc_judge_options *options)
{
	prepare(item, path);
	judge(item, options, bc_sample_read(bytes, n, path, &item->diagnostics, &item->sample));
	return bc_case_tell(item);
}

int bc_case_open_again(struct bc_case *item, const char *path, const char *bytes, size_t n,
	const struct bc_judge_options *options)
{
	prepare(item, path);
	enum bc_status status = bc_sample_read(bytes, n, path, NULL, &item->sample);
	item->stills.has_rerun = options->still != NULL;
	item->stills.has_apparatus = options->apparatus != NULL;
	if (!bc_failed(status))
		status = bc_sample_stills_miss(item->sample, &item->stills);
	if (!bc_failed(status))
		status = bc_judge(item->sample, options, &item->judgement);
	item->result = status == BC_NO_MEMORY ? bc_no_memory() : bc_exit_from_status(status);
	return item->result;
}

int bc_case_sample(const char *path, struct bc_sample **sample)
{
	struct bc_diagnostics diagnostics;
	bc_diagnostics_init(&diagnostics);
	*sample = NULL;
	enum bc_status status = read_sample(path, NULL, &diagnostics, sample);
	bc_print_diagnostics(&diagnostics);
	if (bc_failed(status) && bc_diagnostics_first_error(&diagnostics) == NULL)
		bc_case_complain(path, status);
	bc_diagnostics_release(&diagnostics);
	return bc_exit_from_status(status);
}

void bc_case_complain(const char *path, enum bc_status status)
{
	struct bc_diagnostics none;
	bc_diagnostics_init(&none);
	char *words = error_words(NULL, &none, status);
	bc_complain("%s: %s", path, words != NULL ? words : "out of memory");
	bc_free(words);
}

void bc_case_close(struct bc_case *item)
{
	if (item == NULL)
		return;
	bc_judgement_release(&item->judgement);
	bc_sample_free(item->sample);
	bc_diagnostics_release(&item->diagnostics);
	bc_free(item->error);
	*item = (struct bc_case){0};
}

int bc_case_limits(const char *path, struct bc_limits **limits)
{
	struct bc_diagnostics diagnostics;
	bc_diagnostics_init(&diagnostics);
	char *bytes = NULL;
	size_t n = 0;
	enum bc_status status = BC_OK;
	*limits = NULL;
	if (path == NULL) {
		status = bc_limits_default(&diagnostics, limits);
	} else {
		status = bc_file_read(path, BC_SAMPLE_LIMIT_BYTES, &bytes, &n, &diagnostics);
		if (!bc_failed(status))
			status = bc_limits_read(bytes, n, path, &diagnostics, limits);
	}
	bc_print_diagnostics(&diagnostics);
	if (bc_failed(status) && bc_diagnostics_first_error(&diagnostics) == NULL)
		bc_complain("%s: %s", path != NULL ? path : "limits",
			status == BC_NO_MEMORY ? "out of memory" : bc_status_text(status));
	bc_free(bytes);
	bc_diagnostics_release(&diagnostics);
	return bc_exit_from_status(status);
}
