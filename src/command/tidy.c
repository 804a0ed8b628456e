/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut tidy': any accepted sample file in canonical form. */
#include <string.h>

#include "base/file.h"
#include "base/memory.h"
#include "command/arguments.h"
#include "command/output.h"
#include "sample/sample.h"

static enum bc_status tidied(
	const char *path, struct bc_diagnostics *diagnostics, struct bc_text *text)
{
	struct bc_sample *sample = NULL;
	char *bytes = NULL;
	size_t n = 0;
	enum bc_status status = bc_file_read(path, BC_SAMPLE_LIMIT_BYTES, &bytes, &n, diagnostics);
	if (!bc_failed(status))
		status = bc_sample_read(bytes, n, path, diagnostics, &sample);
	if (!bc_failed(status))
		status = bc_sample_write(sample, text);
	if (!bc_failed(status) && (text->failed || text->data == NULL))
		status = BC_NO_MEMORY;
	bc_sample_free(sample);
	bc_free(bytes);
	return status;
}

static int run_tidy(const struct bc_arguments *arguments)
{
	int result = bc_arguments_count(arguments, 1, 1, "FILE");
	if (result != BC_EXIT_DONE)
		return result;
	const char *path = arguments->operands[0];
	bool in_place = bc_arguments_has(arguments, "in-place");
	if (in_place && strcmp(path, "-") == 0)
		return bc_wrong_usage(arguments->command,
			"standard input has no place to be tidied in; expected FILE");
	struct bc_diagnostics diagnostics;
	struct bc_text text;
	bc_diagnostics_init(&diagnostics);
	bc_text_init(&text);
	enum bc_status status = tidied(path, &diagnostics, &text);
	if (!bc_failed(status) && in_place)
		status = bc_file_write(path, text.data, text.length, &diagnostics);
	bc_print_diagnostics(&diagnostics);
	if (status == BC_NO_MEMORY)
		bc_no_memory();
	if (!bc_failed(status) && !in_place)
		bc_out_text(&text);
	bc_text_release(&text);
	bc_diagnostics_release(&diagnostics);
	return bc_exit_from_status(status);
}

static const struct bc_option options[] = {
	{"in-place", 'i', NULL, "replace FILE instead of printing (default: print)"},
};
static const char *const synopses[] = {"tidy [-i] FILE", NULL};
static const char *const examples[] = {
	"boilcut tidy samples/lake-shed-14.csv", "boilcut tidy -i next-jar.csv", NULL};

const struct bc_command bc_tidy_command = {
	.name = "tidy",
	.summary = "print a sample file in canonical form",
	.synopses = synopses,
	.about = "Reads any accepted sample file and prints it in one form: commas, decimal "
		 "points, degC, "
		 "mL, kPa, one order of keys. Tidying again changes nothing.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_tidy,
};
