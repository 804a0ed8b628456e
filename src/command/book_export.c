/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut book export': the book as open files. */
#include <string.h>

#include "base/file.h"
#include "command/arguments.h"
#include "command/book.h"
#include "command/output.h"

static bool is_sheet(const char *path)
{
	const char ending[] = ".csv";
	size_t n = strlen(path);
	return n > strlen(ending) && strcmp(path + n - strlen(ending), ending) == 0;
}

static int write_sheet(struct bc_shelf *shelf, const char *path)
{
	struct bc_text csv;
	bc_text_init(&csv);
	enum bc_status status = bc_book_sheet(&shelf->book, &csv);
	if (!bc_failed(status))
		status = bc_file_write(path, csv.data, csv.length, &shelf->diagnostics);
	bc_text_release(&csv);
	return bc_shelf_say(shelf, status);
}

static int run_export(const struct bc_arguments *arguments)
{
	struct bc_shelf shelf = {0};
	int result = bc_arguments_count(arguments, 1, 1, "DIR or FILE.csv");
	const char *path = result == BC_EXIT_DONE ? arguments->operands[0] : "";
	if (result == BC_EXIT_DONE && *path == '\0')
		result = bc_wrong_usage(arguments->command, "the name is empty; expected a folder");
	if (result != BC_EXIT_DONE)
		return result;
	result = bc_shelf_open(arguments, &shelf);
	if (result == BC_EXIT_DONE && is_sheet(path))
		result = write_sheet(&shelf, path);
	else if (result == BC_EXIT_DONE)
		result = bc_shelf_say(&shelf, bc_book_export(&shelf.book, path));
	bc_shelf_close(&shelf);
	return result;
}

static const struct bc_option options[] = {BC_BOOK_OPTION};
static const char *const synopses[] = {
	"book export [--book FILE] DIR", "book export [--book FILE] FILE.csv", NULL};
static const char *const examples[] = {
	"boilcut book export shed-book", "boilcut book export batches.csv", NULL};

const struct bc_command bc_book_export_command = {
	.name = "book export",
	.summary = "the book as open files",
	.synopses = synopses,
	.about = "Writes the whole book into a new folder: every table as a CSV file, the files as "
		 "they were added, the judgements as JSON. 'book import' reads it back. A name "
		 "that ends with .csv gets one table instead, a line a batch with all figures.\n"
		 "A text that a spreadsheet would run as a formula is led by an apostrophe, which "
		 "import takes off again.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_export,
};
