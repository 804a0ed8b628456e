/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut book init': a new book, and where it is. */
#include <errno.h>
#include <string.h>
#include <sys/stat.h>

#include "base/memory.h"
#include "command/arguments.h"
#include "command/book.h"
#include "command/output.h"

/* The folders above path, where they are missing; only those that this user may read. */
static int make_folders(const char *path)
{
	int result = BC_EXIT_DONE;
	char *folder = bc_strdup(path);
	if (folder == NULL)
		return bc_no_memory();
	for (char *slash = strchr(folder + 1, '/'); slash != NULL && result == BC_EXIT_DONE;
		slash = strchr(slash + 1, '/')) {
		*slash = '\0';
		if (mkdir(folder, 0700) != 0 && errno != EEXIST && errno != EISDIR) {
			bc_complain("%s: cannot make the folder: %s", folder, strerror(errno));
			result = BC_EXIT_SYSTEM;
		}
		*slash = '/';
	}
	bc_free(folder);
	return result;
}

static int run_init(const struct bc_arguments *arguments)
{
	struct bc_shelf shelf = {0};
	bc_diagnostics_init(&shelf.diagnostics);
	int result = bc_arguments_count(arguments, 0, 0, "no word");
	if (result != BC_EXIT_DONE)
		return result;
	const char *named = bc_arguments_value(arguments, "book");
	char *path = bc_book_path(named);
	if (path == NULL)
		return bc_no_memory();
	result = named == NULL ? make_folders(path) : BC_EXIT_DONE;
	if (result == BC_EXIT_DONE)
		result =
			bc_shelf_say(&shelf, bc_book_create(path, &shelf.diagnostics, &shelf.book));
	if (result == BC_EXIT_DONE) {
		struct bc_text line;
		bc_text_init(&line);
		bc_text_append(&line, "The book is ");
		bc_text_append_escaped(&line, path);
		bc_text_append(&line, "\n");
		if (line.failed)
			result = bc_no_memory();
		else
			bc_out_text(&line);
		bc_text_release(&line);
	}
	bc_shelf_close(&shelf);
	bc_free(path);
	return result;
}

static const struct bc_option options[] = {BC_BOOK_OPTION};
static const char *const synopses[] = {"book init [--book FILE]", NULL};
static const char *const examples[] = {
	"boilcut book init", "boilcut book init --book shed.db", NULL};

const struct bc_command bc_book_init_command = {
	.name = "book init",
	.summary = "make a new book and say where it is",
	.synopses = synopses,
	.about = "Makes an empty book. Of --book, BOILCUT_BOOK and the data folder of this user "
		 "the first that is given says where. A book that is there already is left alone.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_init,
};
