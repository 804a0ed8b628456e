/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut book verify': whether the book is whole, and whether judging anew says the same. */
#include <string.h>

#include "base/memory.h"
#include "book/check.h"
#include "command/arguments.h"
#include "command/basis.h"
#include "command/book.h"
#include "command/case.h"
#include "command/output.h"
#include "report/book.h"
#include "report/report.h"

/* Differences of one record that are told. */
#define DIFFERENCES_MOST 12

struct run {
	struct bc_shelf shelf;
	size_t records;
	size_t differing;
	int result;
};

static void worsen(struct run *run, int result)
{
	if (result > run->result)
		run->result = result;
}

static void tell(struct run *run, const struct bc_record *record, const char *what)
{
	struct bc_text line;
	bc_text_init(&line);
	bc_text_printf(
		&line, "Batch %lld, revision %lld: ", record->place.batch, record->place.number);
	bc_text_append_escaped(&line, what);
	bc_text_append(&line, "\n");
	if (line.failed)
		worsen(run, bc_no_memory());
	else
		bc_out_text(&line);
	bc_text_release(&line);
}

static void hold_against(
	struct run *run, const struct bc_record *record, const struct bc_judgement *judgement)
{
	struct bc_strings differences;
	bc_strings_init(&differences);
	json_t *json = bc_report_json(judgement);
	enum bc_status status = json == NULL ? (enum bc_status)BC_NO_MEMORY
					     : bc_report_differences(record->judgement, json,
						       DIFFERENCES_MOST, &differences);
	if (status == BC_NO_MEMORY) {
		worsen(run, bc_no_memory());
	} else if (bc_failed(status)) {
		tell(run, record, "its judgement is no JSON");
		worsen(run, BC_EXIT_DATA);
	}
	for (size_t i = 0; i < differences.n; i++)
		tell(run, record, differences.items[i]);
	if (differences.n > 0) {
		run->differing++;
		worsen(run, BC_EXIT_NEGATIVE);
	}
	json_decref(json);
	bc_strings_release(&differences);
}

static void judge_again(struct run *run, const struct bc_record *record)
{
	struct bc_basis basis;
	struct bc_case *item = bc_alloc(sizeof *item);
	int result = bc_basis_from_record(record, &basis);
	if (item == NULL)
		result = bc_no_memory();
	if (result == BC_EXIT_DONE && item != NULL) {
		result = bc_case_open_again(
			item, record->file, record->bytes, record->n, &basis.options);
		if (result == BC_EXIT_DONE)
			hold_against(run, record, &item->judgement);
	}
	if (result == BC_EXIT_SYSTEM) {
		worsen(run, result);
	} else if (result != BC_EXIT_DONE) {
		tell(run, record, "cannot be judged any more");
		run->differing++;
		worsen(run, BC_EXIT_NEGATIVE);
	}
	bc_case_close(item);
	bc_free(item);
	bc_basis_release(&basis);
}

static int verify_all(struct run *run)
{
	struct bc_book *book = &run->shelf.book;
	struct bc_place place = {0};
	enum bc_status status = bc_book_check(book);
	while (!bc_failed(status) && run->result < BC_EXIT_SYSTEM && !bc_out_failed()) {
		struct bc_record record;
		status = bc_book_next(book, &place);
		if (bc_failed(status))
			break;
		status = bc_book_read(book, place.batch, place.number, &record);
		if (!bc_failed(status)) {
			run->records++;
			judge_again(run, &record);
		}
		bc_record_release(&record);
	}
	if (status == BC_NOT_FOUND)
		status = BC_OK;
	worsen(run, bc_shelf_say(&run->shelf, status));
	return run->result;
}

static int run_verify(const struct bc_arguments *arguments)
{
	struct run run = {0};
	int result = bc_arguments_count(arguments, 0, 0, "no word");
	if (result != BC_EXIT_DONE)
		return result;
	result = bc_shelf_open(arguments, &run.shelf);
	if (result == BC_EXIT_DONE)
		result = verify_all(&run);
	if (result <= BC_EXIT_NEGATIVE) {
		struct bc_text line;
		bc_text_init(&line);
		bc_text_printf(&line,
			"The book is whole. Records judged again: %zu, differing: %zu\n",
			run.records, run.differing);
		if (line.failed)
			result = bc_no_memory();
		else
			bc_out_text(&line);
		bc_text_release(&line);
	}
	bc_shelf_close(&run.shelf);
	return result;
}

static const struct bc_option options[] = {BC_BOOK_OPTION};
static const char *const synopses[] = {"book verify [--book FILE]", NULL};
static const char *const examples[] = {
	"boilcut book verify", "boilcut book verify --book shed.db", NULL};

const struct bc_command bc_book_verify_command = {
	.name = "book verify",
	.summary = "whether the book is whole and says the same today",
	.synopses = synopses,
	.about = "Checks the file, reads every record from its original bytes and judges it again "
		 "with the limits and options that were kept with it. What differs is listed, the "
		 "version of the program aside: exit 1. A damaged book: exit 3.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_verify,
};
