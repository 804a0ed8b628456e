/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut book list': which batches there are. */
#include <string.h>

#include "base/number.h"
#include "command/arguments.h"
#include "command/book.h"
#include "command/output.h"
#include "report/book.h"
#include "verdict/rule.h"

struct printing {
	bool json;
	size_t rows;
};

static enum bc_status print_row(const struct bc_book_row *row, void *context)
{
	struct printing *printing = context;
	enum bc_status status = BC_OK;
	if (printing->json) {
		json_t *object = bc_report_book_row_json(row);
		bc_out(printing->rows == 0 ? "[\n" : ",\n");
		if (!bc_out_json(object, 2))
			status = BC_NO_MEMORY;
		json_decref(object);
	} else {
		struct bc_text text;
		bc_text_init(&text);
		if (printing->rows == 0)
			bc_report_book_head(&text);
		bc_report_book_row(row, &text);
		if (text.failed)
			status = BC_NO_MEMORY;
		else
			bc_out_text(&text);
		bc_text_release(&text);
	}
	printing->rows++;
	/* nobody reads on; the failure has been said */
	return bc_out_failed() ? BC_IO : status;
}

static int read_days(const struct bc_arguments *arguments, struct bc_book_filter *filter)
{
	filter->from = bc_arguments_value(arguments, "from");
	filter->until = bc_arguments_value(arguments, "until");
	const char *days[] = {filter->from, filter->until};
	for (size_t i = 0; i < 2; i++) {
		if (days[i] != NULL && !bc_day_valid(days[i]))
			return bc_wrong_usage(arguments->command,
				"'%s' is not a day; expected one such as 2026-10-03", days[i]);
	}
	return BC_EXIT_DONE;
}

static int read_word(const struct bc_arguments *arguments, struct bc_book_filter *filter)
{
	const enum bc_word all[] = {
		BC_WORD_USABLE, BC_WORD_RERUN, BC_WORD_UNFIT, BC_WORD_UNDECIDED};
	const char *words[sizeof all / sizeof all[0]];
	const size_t n = sizeof all / sizeof all[0];
	filter->word = bc_arguments_value(arguments, "verdict");
	for (size_t i = 0; i < n; i++) {
		words[i] = bc_word_text(all[i]);
		if (filter->word == NULL || bc_text_equal_nocase(filter->word, words[i]))
			return BC_EXIT_DONE;
	}
	return bc_wrong_word(arguments->command, filter->word, "a verdict", words, n);
}

static int read_most(const struct bc_arguments *arguments, struct bc_book_filter *filter)
{
	const char *stated = bc_arguments_value(arguments, "most");
	double most = 0.0;
	if (stated == NULL)
		return BC_EXIT_DONE;
	if (!bc_number_parse(stated, '.', &most) || !(most >= 1.0 && most <= 1e9))
		return bc_wrong_usage(arguments->command,
			"'%s' is not a number of batches; expected 1 or more", stated);
	filter->most = (size_t)most;
	return BC_EXIT_DONE;
}

/* --due lists jars, which no filter of batches narrows. */
static int run_due(const struct bc_arguments *arguments)
{
	static const char *const allowed[] = {"due", "on", "book", "json"};
	for (size_t i = 0; i < arguments->n_given; i++) {
		const char *name = arguments->given[i].option->name;
		bool known = false;
		for (size_t at = 0; at < sizeof allowed / sizeof allowed[0]; at++)
			known = known || strcmp(name, allowed[at]) == 0;
		if (!known)
			return bc_wrong_usage(arguments->command,
				"'--due' lists jars; expected no --%s beside it", name);
	}
	return bc_due_run(arguments);
}

static int run_list(const struct bc_arguments *arguments)
{
	if (bc_arguments_has(arguments, "due"))
		return run_due(arguments);
	if (bc_arguments_has(arguments, "on"))
		return bc_wrong_usage(
			arguments->command, "'--on' says too little alone; expected --due too");
	struct bc_shelf shelf = {0};
	struct printing printing = {.json = bc_arguments_has(arguments, "json")};
	struct bc_book_filter filter = {
		.feed = bc_arguments_value(arguments, "feed"),
		.still = bc_arguments_value(arguments, "still"),
		.grade = bc_arguments_value(arguments, "grade"),
		.text = bc_arguments_value(arguments, "text"),
	};
	int result = bc_arguments_count(arguments, 0, 0, "no word");
	if (result == BC_EXIT_DONE)
		result = read_days(arguments, &filter);
	if (result == BC_EXIT_DONE)
		result = read_word(arguments, &filter);
	if (result == BC_EXIT_DONE)
		result = read_most(arguments, &filter);
	if (result != BC_EXIT_DONE)
		return result;
	result = bc_shelf_open(arguments, &shelf);
	if (result == BC_EXIT_DONE)
		result = bc_shelf_say(
			&shelf, bc_book_list(&shelf.book, &filter, print_row, &printing));
	if (result == BC_EXIT_DONE && printing.json)
		bc_out(printing.rows == 0 ? "[]\n" : "\n]\n");
	else if (result == BC_EXIT_DONE && printing.rows == 0)
		bc_complain("%s: no batch like that", shelf.book.path);
	bc_shelf_close(&shelf);
	return result;
}

static const struct bc_option options[] = {
	BC_BOOK_OPTION,
	{"from", '\0', "DAY", "from this day on, as 2026-10-03"},
	{"until", '\0', "DAY", "until this day"},
	{"feed", '\0', "TEXT", "whose feed has TEXT in it"},
	{"still", '\0', "NAME", "meant for this still"},
	{"verdict", '\0', "WORD", "usable, re-run, unfit or undecided"},
	{"grade", '\0', "GRADE", "whose grade met or nearest begins so"},
	{"text", '\0', "TEXT", "with TEXT in name, file, feed, still, drawn or a note"},
	{"most", '\0', "N", "no more than N of them (default: all)"},
	{"due", '\0', NULL, "the jars that must be looked at again instead, as 'book due'"},
	{"on", '\0', "DAY", "with --due: as of this day (default: today)"},
	{"json", '\0', NULL, "a JSON array"},
};

static const char *const synopses[] = {"book list [OPTION...]", NULL};
static const char *const examples[] = {
	"boilcut book list --from 2026-10-01 --verdict re-run",
	"boilcut book list --text caps --most 20 --json",
	NULL,
};

const struct bc_command bc_book_list_command = {
	.name = "book list",
	.summary = "which batches there are, newest first",
	.synopses = synopses,
	.about = "One line a batch, its newest record: number, day, verdict, grade met or nearest, "
		 "low bound of the flash (degC; - without a claim), name and feed. The day is that "
		 "of the sample, or that of adding where the sample states none.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_list,
};
