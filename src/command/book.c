/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut book': the list of its parts, and what they have in common. */
#include "command/book.h"

#include <math.h>
#include <sys/stat.h>

#include "base/memory.h"
#include "base/number.h"
#include "command/arguments.h"
#include "command/output.h"

static const struct bc_command *const parts[] = {
	&bc_book_init_command,
	&bc_book_add_command,
	&bc_book_list_command,
	&bc_book_show_command,
	&bc_book_note_command,
	&bc_book_verify_command,
	&bc_book_jar_command,
	&bc_book_due_command,
	&bc_book_balance_command,
	&bc_book_still_command,
	&bc_book_pair_command,
	&bc_book_trend_command,
	&bc_book_compare_command,
	&bc_book_export_command,
	&bc_book_import_command,
	NULL,
};

int bc_shelf_open(const struct bc_arguments *arguments, struct bc_shelf *shelf)
{
	struct stat about;
	*shelf = (struct bc_shelf){0};
	bc_diagnostics_init(&shelf->diagnostics);
	char *path = bc_book_path(bc_arguments_value(arguments, "book"));
	if (path == NULL)
		return bc_no_memory();
	int result = BC_EXIT_SYSTEM;
	if (stat(path, &about) != 0)
		bc_complain(
			"%s: no record book; expected one, which 'boilcut book init' makes", path);
	else
		result = bc_shelf_say(shelf, bc_book_open(path, &shelf->diagnostics, &shelf->book));
	bc_free(path);
	return result;
}

void bc_shelf_close(struct bc_shelf *shelf)
{
	if (shelf == NULL)
		return;
	bc_book_close(&shelf->book);
	bc_diagnostics_release(&shelf->diagnostics);
}

int bc_shelf_say(struct bc_shelf *shelf, enum bc_status status)
{
	bc_print_diagnostics(&shelf->diagnostics);
	bc_diagnostics_release(&shelf->diagnostics);
	bc_diagnostics_init(&shelf->diagnostics);
	if (status == BC_NO_MEMORY)
		return bc_no_memory();
	return status == BC_NOT_FOUND ? (int)BC_EXIT_NEGATIVE : bc_exit_from_status(status);
}

int bc_batch_number(const struct bc_arguments *arguments, const char *word, long long *batch)
{
	double number = NAN;
	const double most = 1e15; /* whole numbers are exact up to there */
	if (bc_number_parse(word, '.', &number) && number >= 1.0 && number <= most &&
		floor(number) == number) {
		*batch = (long long)number;
		return BC_EXIT_DONE;
	}
	return bc_wrong_usage(arguments->command,
		"'%s' is not the number of a batch; expected one that 'boilcut book list' shows",
		word);
}

int bc_no_such_batch(const struct bc_shelf *shelf, long long batch)
{
	bc_complain("%s: no batch %lld; expected one that 'boilcut book list' shows",
		shelf->book.path, batch);
	return BC_EXIT_NEGATIVE;
}

static const char *const synopses[] = {"book WORD [OPTION...] [ARGUMENT...]", NULL};
static const char *const examples[] = {
	"boilcut book add samples/lake-shed-14.csv",
	"boilcut help book add",
	NULL,
};

const struct bc_command bc_book_command = {
	.name = "book",
	.summary = "the record book: every batch kept and found again",
	.synopses = synopses,
	.about = "Keeps every batch in one file: the sample as it was written, the judgement and "
		 "what it was made with. Nothing in it is ever changed; a corrected record stands "
		 "beside the old one.",
	.examples = examples,
	.parts = parts,
};
