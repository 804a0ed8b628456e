/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut new': a sample file to fill in. */
#include <errno.h>
#include <string.h>
#include <sys/stat.h>

#include "base/file.h"
#include "command/arguments.h"
#include "command/output.h"
#include "sample/sample.h"

static int write_template(const char *path, const struct bc_text *text)
{
	struct bc_diagnostics diagnostics;
	struct stat about;
	if (lstat(path, &about) == 0)
		return bc_wrong_usage(&bc_new_command,
			"'%s' exists already; expected the name of a new file", path);
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = bc_file_write(path, text->data, text->length, &diagnostics);
	bc_print_diagnostics(&diagnostics);
	if (status == BC_NO_MEMORY)
		bc_no_memory();
	bc_diagnostics_release(&diagnostics);
	return bc_exit_from_status(status);
}

static int run_new(const struct bc_arguments *arguments)
{
	int result = bc_arguments_count(arguments, 1, 1, "FILE");
	if (result != BC_EXIT_DONE)
		return result;
	struct bc_text text;
	bc_text_init(&text);
	const char *path = arguments->operands[0];
	if (bc_failed(bc_sample_template(&text)) || text.failed || text.data == NULL)
		result = bc_no_memory();
	else if (strcmp(path, "-") == 0)
		bc_out_text(&text);
	else
		result = write_template(path, &text);
	bc_text_release(&text);
	return result;
}

static const char *const synopses[] = {"new FILE", NULL};
static const char *const examples[] = {
	"boilcut new next-jar.csv", "boilcut new - > other-jar.csv", NULL};

const struct bc_command bc_new_command = {
	.name = "new",
	.summary = "write a sample file to fill in",
	.synopses = synopses,
	.about = "Writes a commented CSV file for the readings of one boil-off, which a "
		 "spreadsheet or an editor fills in. A FILE that exists is never overwritten; '-' "
		 "is standard output. Every value takes its usual units: C F K, kPa hPa mbar mmHg, "
		 "m ft, mL L, g kg.",
	.examples = examples,
	.run = run_new,
};
