/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut book due': which jars must be looked at again. */
#include <stdio.h>

#include "book/due.h"
#include "command/arguments.h"
#include "command/book.h"
#include "command/book_answer.h"
#include "command/book_day.h"
#include "command/output.h"
#include "report/store.h"

int bc_day_read(const struct bc_arguments *arguments, const char *option, char day[BC_DAY_SIZE])
{
	const char *stated = bc_arguments_value(arguments, option);
	char now[BC_TIME_SIZE];
	if (stated != NULL && !bc_day_valid(stated))
		return bc_wrong_usage(arguments->command,
			"'%s' is not a day; expected one such as 2026-10-03", stated);
	bc_book_now(now);
	snprintf(day, BC_DAY_SIZE, "%.10s", stated != NULL ? stated : now);
	return BC_EXIT_DONE;
}

int bc_due_run(const struct bc_arguments *arguments)
{
	struct bc_shelf shelf = {0};
	struct bc_answer answer = {0};
	struct bc_dues dues = {0};
	char on[BC_DAY_SIZE];
	int result = bc_arguments_count(arguments, 0, 0, "no word");
	if (result == BC_EXIT_DONE)
		result = bc_day_read(arguments, "on", on);
	if (result != BC_EXIT_DONE)
		return result;
	result = bc_shelf_open(arguments, &shelf);
	if (result == BC_EXIT_DONE)
		result = bc_answer_begin(&answer, arguments, &shelf, false);
	if (result == BC_EXIT_DONE)
		result = bc_shelf_say(&shelf, bc_book_due(&shelf.book, on, &dues));
	if (result == BC_EXIT_DONE && answer.wants_json)
		answer.json = bc_report_dues_json(&dues);
	else if (result == BC_EXIT_DONE)
		bc_report_dues(&dues, on, &answer.text);
	result = bc_answer_end(&answer, &shelf, result);
	bc_dues_release(&dues);
	bc_shelf_close(&shelf);
	return result;
}

static const struct bc_option options[] = {
	BC_BOOK_OPTION,
	{"on", '\0', "DAY", "as of this day, as 2026-10-03 (default: today)"},
	{"json", '\0', NULL, "a JSON array"},
};
static const char *const synopses[] = {"book due [OPTION...]", NULL};
static const char *const examples[] = {
	"boilcut book due",
	"boilcut book due --on 2027-01-31 --json",
	NULL,
};

const struct bc_command bc_book_due_command = {
	.name = "book due",
	.summary = "which jars must be looked at again",
	.synopses = synopses,
	.about =
		"Lists the jars that are not empty and in which a batch has stood for three months "
		"or more since it was drawn, else since its date, or since the jar was last tested: "
		"peroxide, colour and sediment are due.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = bc_due_run,
};
