/* SPDX-License-Identifier: GPL-3.0-or-later */
/* --learn DIR: the closed cups that a person measured, out of the sample files of a folder. */
#include "command/learn.h"

#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/file.h"
#include "base/memory.h"
#include "command/command.h"
#include "command/output.h"
#include "command/still_names.h"

static bool is_sample_name(const char *name)
{
	static const char *const endings[] = {".csv", ".tsv", ".txt"};
	const char *dot = strrchr(name, '.');
	for (size_t i = 0; i < sizeof endings / sizeof endings[0] && dot && dot != name; i++)
		if (bc_text_equal_nocase(dot, endings[i]))
			return true;
	return false;
}

static bool is_file(const char *path)
{
	struct stat about;
	return stat(path, &about) == 0 && S_ISREG(about.st_mode);
}

static int by_name(const void *a, const void *b)
{
	return strcmp(*(char *const *)a, *(char *const *)b);
}

static int list_folder(const char *folder, struct bc_strings *paths)
{
	DIR *stream = opendir(folder);
	if (stream == NULL) {
		bc_complain("%s: cannot read the folder: %s", folder, strerror(errno));
		return BC_EXIT_SYSTEM;
	}
	size_t n = strlen(folder);
	const char *slash = n > 0 && folder[n - 1] == '/' ? "" : "/";
	for (struct dirent *entry = readdir(stream); entry != NULL; entry = readdir(stream))
		if (is_sample_name(entry->d_name))
			bc_strings_add(paths, "%s%s%s", folder, slash, entry->d_name);
	closedir(stream);
	if (paths->failed)
		return bc_no_memory();
	if (paths->n > 1)
		qsort(paths->items, paths->n, sizeof *paths->items, by_name);
	return BC_EXIT_DONE;
}

static void say_skipped(
	const char *path, const struct bc_diagnostics *diagnostics, enum bc_status status)
{
	const struct bc_diagnostic *first = bc_diagnostics_first_error(diagnostics);
	if (first != NULL && first->line > 0 && first->file != NULL &&
		strcmp(first->file, path) != 0)
		bc_complain("%s: nothing learned from it: %s:%zu: %s", path, first->file,
			first->line, first->text);
	else if (first != NULL && first->line > 0)
		bc_complain("%s: nothing learned from it: line %zu: %s", path, first->line,
			first->text);
	else
		bc_complain("%s: nothing learned from it: %s", path,
			first != NULL ? first->text : bc_status_text(status));
}

static enum bc_status learn_sample(struct bc_sample *sample, const struct bc_judge_options *options,
	struct bc_learning *learning, struct bc_diagnostics *diagnostics, const char **why)
{
	struct bc_sample_stills stills;
	*why = NULL;
	if (!bc_sample_measured(sample, "flash_point"))
		return BC_OK;
	enum bc_status status = bc_sample_stills_find(sample, &stills, diagnostics);
	if (bc_failed(status))
		return status;
	const struct bc_judge_options own = bc_sample_stills_options(&stills, options);
	struct bc_judgement *judgement = bc_alloc(sizeof *judgement);
	if (judgement == NULL)
		return BC_NO_MEMORY;
	bc_judgement_init(judgement);
	status = bc_judge(sample, &own, judgement);
	if (!bc_failed(status))
		status = bc_learning_add(learning, judgement, why);
	bc_judgement_release(judgement);
	bc_free(judgement);
	return status;
}

static int learn_file(
	const char *path, const struct bc_judge_options *options, struct bc_learning *learning)
{
	struct bc_diagnostics diagnostics;
	struct bc_sample *sample = NULL;
	const char *why = NULL;
	char *bytes = NULL;
	size_t n = 0;
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = bc_file_read(path, BC_SAMPLE_LIMIT_BYTES, &bytes, &n, &diagnostics);
	if (!bc_failed(status))
		status = bc_sample_read(bytes, n, path, &diagnostics, &sample);
	if (!bc_failed(status))
		status = learn_sample(sample, options, learning, &diagnostics, &why);
	if (bc_failed(status) && status != BC_NO_MEMORY)
		say_skipped(path, &diagnostics, status);
	else if (why != NULL)
		bc_complain("%s: nothing learned from it: %s", path, why);
	bc_sample_free(sample);
	bc_free(bytes);
	bc_diagnostics_release(&diagnostics);
	return status == BC_NO_MEMORY ? bc_no_memory() : BC_EXIT_DONE;
}

int bc_learn_folder(
	const char *folder, const struct bc_judge_options *options, struct bc_learning *learning)
{
	struct bc_judge_options plain = *options;
	struct bc_strings paths;
	plain.learned = NULL;
	bc_strings_init(&paths);
	int result = list_folder(folder, &paths);
	for (size_t i = 0; i < paths.n && result == BC_EXIT_DONE; i++)
		if (is_file(paths.items[i]))
			result = learn_file(paths.items[i], &plain, learning);
	bc_strings_release(&paths);
	return result;
}
