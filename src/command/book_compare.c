/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut book compare': two batches beside each other. */
#include "base/memory.h"
#include "command/arguments.h"
#include "command/book.h"
#include "command/output.h"
#include "command/pictures.h"
#include "report/compare.h"

static int print(const struct bc_arguments *arguments, const struct bc_comparison *comparison)
{
	struct bc_page_style style = {.colour = bc_wants_colour("auto")};
	struct bc_text text;
	if (bc_arguments_has(arguments, "json")) {
		json_t *json = bc_report_compare_json(comparison);
		bool done = bc_out_json(json, 0);
		json_decref(json);
		return done ? (int)BC_EXIT_DONE : bc_no_memory();
	}
	bc_text_init(&text);
	enum bc_status status = bc_report_compare_text(comparison, &style, &text);
	if (!bc_failed(status))
		bc_out_text(&text);
	bc_text_release(&text);
	return bc_failed(status) ? bc_no_memory() : (int)BC_EXIT_DONE;
}

static enum bc_status write_chart(const void *subject, const char *kind, struct bc_text *script)
{
	return bc_report_compare_chart(subject, kind, script);
}

static int draw(const char *folder, const struct bc_comparison *comparison)
{
	struct bc_pictures pictures;
	if (folder == NULL)
		return BC_EXIT_DONE;
	char *name = bc_format("batch-%lld-%lld", comparison->a.batch, comparison->b.batch);
	int result = name == NULL ? bc_no_memory() : bc_pictures_open(&pictures, folder);
	if (name != NULL) {
		if (result == BC_EXIT_DONE)
			result = bc_pictures_draw_all(
				&pictures, name, bc_compare_chart_kinds, write_chart, comparison);
		bc_pictures_close(&pictures);
	}
	bc_free(name);
	return result;
}

static int compare(
	const struct bc_arguments *arguments, struct bc_shelf *shelf, long long a, long long b)
{
	struct bc_comparison comparison;
	long long missing = 0;
	enum bc_status status = bc_book_compare(&shelf->book, a, b, &comparison, &missing);
	int result = bc_shelf_say(shelf, status);
	if (status == BC_NOT_FOUND) {
		result = bc_no_such_batch(shelf, missing);
	} else if (!bc_failed(status)) {
		result = print(arguments, &comparison);
		int drawn = draw(bc_arguments_value(arguments, "charts"), &comparison);
		result = drawn > result ? drawn : result;
	}
	bc_comparison_release(&comparison);
	return result;
}

static int run_compare(const struct bc_arguments *arguments)
{
	struct bc_shelf shelf = {0};
	long long a = 0;
	long long b = 0;
	int result = bc_arguments_count(arguments, 2, 2, "the numbers of two batches");
	if (result == BC_EXIT_DONE)
		result = bc_arguments_folder(arguments, "charts");
	if (result == BC_EXIT_DONE)
		result = bc_batch_number(arguments, arguments->operands[0], &a);
	if (result == BC_EXIT_DONE)
		result = bc_batch_number(arguments, arguments->operands[1], &b);
	if (result != BC_EXIT_DONE)
		return result;
	result = bc_shelf_open(arguments, &shelf);
	if (result == BC_EXIT_DONE)
		result = compare(arguments, &shelf, a, b);
	bc_shelf_close(&shelf);
	return result;
}

static const struct bc_option options[] = {
	BC_BOOK_OPTION,
	{"json", '\0', NULL, "one JSON object"},
	{"charts", '\0', "DIR", "also draw both curves into DIR"},
};
static const char *const synopses[] = {"book compare [OPTION...] BATCH BATCH", NULL};
static const char *const examples[] = {
	"boilcut book compare 1 2", "boilcut book compare 1 2 --charts charts", NULL};

const struct bc_command bc_book_compare_command = {
	.name = "book compare",
	.summary = "two batches beside each other",
	.synopses = synopses,
	.about = "Holds the newest records of two batches against each other at every percent, and "
		 "every difference against what two boil-offs of one oil differ by and against the "
		 "bounds of both figures: alike, in doubt, or differ.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_compare,
};
