/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut book import': an exported book, or a folder of sample files. */
#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/memory.h"
#include "command/arguments.h"
#include "command/book.h"
#include "command/output.h"

static int import_book(const struct bc_arguments *arguments, const char *folder)
{
	struct bc_shelf shelf = {0};
	long long batches = 0;
	int result = bc_shelf_open(arguments, &shelf);
	if (result == BC_EXIT_DONE)
		result = bc_shelf_say(&shelf, bc_book_import(&shelf.book, folder, &batches));
	if (result == BC_EXIT_DONE) {
		struct bc_text line;
		bc_text_init(&line);
		bc_text_printf(
			&line, "%lld batch%s, as exported\n", batches, batches == 1 ? "" : "es");
		if (line.failed)
			result = bc_no_memory();
		else
			bc_out_text(&line);
		bc_text_release(&line);
	}
	bc_shelf_close(&shelf);
	return result;
}

static int by_name(const void *a, const void *b)
{
	return strcmp(*(char *const *)a, *(char *const *)b);
}

static bool is_sample_name(const char *name)
{
	static const char *const endings[] = {".csv", ".tsv", ".txt"};
	size_t n = strlen(name);
	for (size_t i = 0; i < sizeof endings / sizeof endings[0]; i++) {
		size_t m = strlen(endings[i]);
		if (n > m && bc_text_equal_nocase(name + n - m, endings[i]))
			return name[0] != '.';
	}
	return false;
}

/* Other files and folders are none of ours. */
static void take_entry(const char *folder, const char *name, struct bc_strings *paths)
{
	struct stat about;
	if (!is_sample_name(name))
		return;
	char *path = bc_format("%s/%s", folder, name);
	if (path == NULL)
		paths->failed = true;
	else if (stat(path, &about) == 0 && S_ISREG(about.st_mode))
		bc_strings_add(paths, "%s", path);
	bc_free(path);
}

static int import_samples(const struct bc_arguments *arguments, const char *folder)
{
	struct bc_strings paths;
	DIR *listing = opendir(folder);
	const struct dirent *entry = NULL;
	int result = BC_EXIT_DONE;
	if (listing == NULL) {
		bc_complain("%s: cannot open the folder: %s", folder, strerror(errno));
		return BC_EXIT_SYSTEM;
	}
	bc_strings_init(&paths);
	while ((entry = readdir(listing)) != NULL)
		take_entry(folder, entry->d_name, &paths);
	closedir(listing);
	if (paths.failed) {
		result = bc_no_memory();
	} else if (paths.n == 0) {
		bc_complain(
			"%s: neither an exported book nor a file in it that ends with .csv, .tsv "
			"or .txt",
			folder);
		result = BC_EXIT_DATA;
	} else {
		qsort(paths.items, paths.n, sizeof *paths.items, by_name);
		result = bc_add_paths(arguments, &paths);
	}
	bc_strings_release(&paths);
	return result;
}

static int run_import(const struct bc_arguments *arguments)
{
	int result = bc_arguments_count(arguments, 1, 1, "DIR");
	if (result != BC_EXIT_DONE)
		return result;
	const char *folder = arguments->operands[0];
	return bc_export_is(folder) ? import_book(arguments, folder)
				    : import_samples(arguments, folder);
}

static const struct bc_option options[] = {BC_BOOK_OPTION};
static const char *const synopses[] = {"book import [--book FILE] DIR", NULL};
static const char *const examples[] = {
	"boilcut book import shed-book --book again.db", "boilcut book import samples", NULL};

const struct bc_command bc_book_import_command = {
	.name = "book import",
	.summary = "an exported book, or a folder of sample files",
	.synopses = synopses,
	.about = "What 'book export' wrote goes into an empty book, whole or not at all: a file "
		 "that is missing or not as it was written is named (exit 3). Of any other folder "
		 "each file that ends with .csv, .tsv or .txt is added as a sample, as 'book add' "
		 "does, in the order of their names.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_import,
};
