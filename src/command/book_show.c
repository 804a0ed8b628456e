/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut book show' and 'boilcut book note': one batch read, and something said of it. */
#include <string.h>

#include "base/memory.h"
#include "command/arguments.h"
#include "command/book.h"
#include "command/output.h"
#include "report/book.h"

static int print_original(const struct bc_record *record)
{
	struct bc_text text = {.data = record->bytes, .length = record->n};
	bc_out_text(&text);
	return BC_EXIT_DONE;
}

static int print_json(const struct bc_record *record)
{
	json_t *object = bc_report_record_json(record);
	int result = bc_out_json(object, 0) ? (int)BC_EXIT_DONE : bc_no_memory();
	json_decref(object);
	return result;
}

static int print_text(const struct bc_shelf *shelf, const struct bc_record *record)
{
	struct bc_text text;
	bc_text_init(&text);
	enum bc_status status = bc_report_record(record, &text);
	if (status == BC_MALFORMED)
		bc_complain("%s: the judgement of batch %lld is damaged", shelf->book.path,
			record->place.batch);
	if (!bc_failed(status))
		bc_out_text(&text);
	bc_text_release(&text);
	return status == BC_NO_MEMORY ? bc_no_memory() : bc_exit_from_status(status);
}

static int show(const struct bc_arguments *arguments, struct bc_shelf *shelf, long long batch,
	long long number)
{
	struct bc_record record;
	enum bc_status status = bc_book_read(&shelf->book, batch, number, &record);
	int result = bc_shelf_say(shelf, status);
	if (status == BC_NOT_FOUND && number == 0)
		result = bc_no_such_batch(shelf, batch);
	else if (status == BC_NOT_FOUND)
		bc_complain("%s: batch %lld has no revision %lld", shelf->book.path, batch, number);
	else if (!bc_failed(status) && bc_arguments_has(arguments, "original"))
		result = print_original(&record);
	else if (!bc_failed(status) && bc_arguments_has(arguments, "json"))
		result = print_json(&record);
	else if (!bc_failed(status))
		result = print_text(shelf, &record);
	bc_record_release(&record);
	return result;
}

static int run_show(const struct bc_arguments *arguments)
{
	struct bc_shelf shelf = {0};
	const char *revision = bc_arguments_value(arguments, "revision");
	long long batch = 0;
	long long number = 0;
	int result = bc_arguments_count(arguments, 1, 1, "the number of a batch");
	if (result == BC_EXIT_DONE)
		result = bc_batch_number(arguments, arguments->operands[0], &batch);
	if (result == BC_EXIT_DONE && revision != NULL)
		result = bc_batch_number(arguments, revision, &number);
	if (result == BC_EXIT_DONE && bc_arguments_has(arguments, "json") &&
		bc_arguments_has(arguments, "original"))
		result = bc_wrong_usage(arguments->command,
			"'--original' prints the file as it is; expected no --json beside it");
	if (result != BC_EXIT_DONE)
		return result;
	result = bc_shelf_open(arguments, &shelf);
	if (result == BC_EXIT_DONE)
		result = show(arguments, &shelf, batch, number);
	bc_shelf_close(&shelf);
	return result;
}

static const struct bc_option show_options[] = {
	BC_BOOK_OPTION,
	{"revision", '\0', "N", "an older record of the batch (default: the newest)"},
	{"original", '\0', NULL, "the file as it was added"},
	{"json", '\0', NULL, "one JSON object, the judgement whole"},
};
static const char *const show_synopses[] = {"book show [OPTION...] BATCH", NULL};
static const char *const show_examples[] = {
	"boilcut book show 1", "boilcut book show 1 --original", NULL};

const struct bc_command bc_book_show_command = {
	.name = "book show",
	.summary = "one batch: what it is, its revisions and notes",
	.synopses = show_synopses,
	.about = "Shows a record as it was judged when it was added.",
	.options = show_options,
	.n_options = sizeof show_options / sizeof show_options[0],
	.examples = show_examples,
	.run = run_show,
};

/* ---- note */

static int run_note(const struct bc_arguments *arguments)
{
	struct bc_shelf shelf = {0};
	long long batch = 0;
	int result = bc_arguments_count(arguments, 2, 2, "the number of a batch and a text");
	if (result == BC_EXIT_DONE)
		result = bc_batch_number(arguments, arguments->operands[0], &batch);
	if (result == BC_EXIT_DONE && arguments->operands[1][0] == '\0')
		result = bc_wrong_usage(
			arguments->command, "the note is empty; expected a text in quotes");
	if (result != BC_EXIT_DONE)
		return result;
	result = bc_shelf_open(arguments, &shelf);
	if (result == BC_EXIT_DONE) {
		enum bc_status status =
			bc_book_note(&shelf.book, batch, arguments->operands[1], NULL);
		result = bc_shelf_say(&shelf, status);
		if (status == BC_NOT_FOUND)
			result = bc_no_such_batch(&shelf, batch);
	}
	bc_shelf_close(&shelf);
	return result;
}

static const struct bc_option note_options[] = {BC_BOOK_OPTION};
static const char *const note_synopses[] = {"book note [--book FILE] BATCH TEXT", NULL};
static const char *const note_examples[] = {
	"boilcut book note 1 'smells of wax'",
	"boilcut book note 1 'burner soots; nozzle changed'",
	NULL,
};

const struct bc_command bc_book_note_command = {
	.name = "book note",
	.summary = "say something of a batch",
	.synopses = note_synopses,
	.about = "Adds a note to a batch, with the time. Notes are found by 'book list --text'.",
	.options = note_options,
	.n_options = sizeof note_options / sizeof note_options[0],
	.examples = note_examples,
	.run = run_note,
};
