/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which files a command is about. */
#include "command/inputs.h"

#include <string.h>

#include "base/file.h"
#include "base/memory.h"
#include "command/output.h"
#include "sample/sample.h"

static void add_lines(char *text, struct bc_strings *paths)
{
	for (char *line = text; *line != '\0';) {
		size_t n = strcspn(line, "\n");
		char *next = line + n + (line[n] == '\n');
		line[n] = '\0';
		if (n > 0 && line[n - 1] == '\r')
			line[n - 1] = '\0';
		if (line[0] != '\0')
			bc_strings_add(paths, "%s", line);
		line = next;
	}
}

static int read_list(const char *path, struct bc_strings *paths)
{
	struct bc_diagnostics diagnostics;
	bc_diagnostics_init(&diagnostics);
	char *bytes = NULL;
	size_t n = 0;
	enum bc_status status = bc_file_read(path, BC_SAMPLE_LIMIT_BYTES, &bytes, &n, &diagnostics);
	if (!bc_failed(status) && memchr(bytes, '\0', n) != NULL) {
		bc_diagnose(
			&diagnostics, BC_ERROR, path, 0, "is not text; expected one path a line");
		status = BC_MALFORMED;
	}
	if (!bc_failed(status))
		add_lines(bytes, paths);
	bc_print_diagnostics(&diagnostics);
	if (status == BC_NO_MEMORY)
		bc_no_memory();
	bc_free(bytes);
	bc_diagnostics_release(&diagnostics);
	return bc_exit_from_status(status);
}

static size_t standard_inputs(const struct bc_strings *paths, const char *list)
{
	size_t n = list != NULL && strcmp(list, "-") == 0 ? 1 : 0;
	for (size_t i = 0; i < paths->n; i++)
		n += strcmp(paths->items[i], "-") == 0;
	return n;
}

int bc_inputs_collect(const struct bc_arguments *arguments, struct bc_strings *paths)
{
	const char *list = bc_arguments_value(arguments, "files-from");
	for (size_t i = 0; i < arguments->n_operands; i++)
		bc_strings_add(paths, "%s", arguments->operands[i]);
	if (list != NULL) {
		int result = read_list(list, paths);
		if (result != BC_EXIT_DONE)
			return result;
	}
	if (paths->failed)
		return bc_no_memory();
	if (standard_inputs(paths, list) > 1)
		return bc_wrong_usage(
			arguments->command, "standard input ('-') is named twice; expected once");
	return BC_EXIT_DONE;
}
