/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut book trend': a figure of all batches on a chart. */
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/number.h"
#include "command/arguments.h"
#include "command/book.h"
#include "command/output.h"
#include "command/pictures.h"
#include "report/trend.h"

/* A whole number from least on; left alone where the option was not given. */
static int read_count(
	const struct bc_arguments *arguments, const char *option, double least, size_t *count)
{
	const char *word = bc_arguments_value(arguments, option);
	double number = NAN;
	const double most = 1e6;
	if (word == NULL)
		return BC_EXIT_DONE;
	if (!bc_number_parse(word, '.', &number) || !(number >= least && number <= most) ||
		floor(number) != number)
		return bc_wrong_usage(arguments->command,
			"'%s' is not a value of --%s; expected a whole number from %g on", word,
			option, least);
	*count = (size_t)number;
	return BC_EXIT_DONE;
}

static int read_day(const struct bc_arguments *arguments, const char *option, const char **day)
{
	*day = bc_arguments_value(arguments, option);
	if (*day == NULL || bc_day_valid(*day))
		return BC_EXIT_DONE;
	return bc_wrong_usage(
		arguments->command, "'%s' is not a day; expected one such as 2026-10-03", *day);
}

static int read_rules(const struct bc_arguments *arguments, struct bc_trend_request *request)
{
	const char *words = bc_arguments_value(arguments, "rules");
	const char *names[BC_RUN_SETS + BC_RUN_RULES];
	size_t n = 0;
	request->rules_name = words != NULL ? words : BC_RUN_SET_USUAL;
	if (bc_run_rules_parse(request->rules_name, &request->rules))
		return BC_EXIT_DONE;
	for (size_t i = 0; i < BC_RUN_SETS; i++)
		names[n++] = bc_run_sets[i].name;
	for (size_t i = 0; i < BC_RUN_RULES; i++)
		names[n++] = bc_run_rule_names[i];
	return bc_wrong_word(
		arguments->command, words, "a set of rules nor a list of rules", names, n);
}

static int read_request(const struct bc_arguments *arguments, struct bc_trend_request *request)
{
	*request = (struct bc_trend_request){
		.feed = bc_arguments_value(arguments, "feed"),
		.still = bc_arguments_value(arguments, "still"),
		.sample = bc_arguments_value(arguments, "sample"),
	};
	int result = bc_arguments_count(arguments, 1, 1, "KEY");
	if (result == BC_EXIT_DONE)
		result = read_day(arguments, "from", &request->from);
	if (result == BC_EXIT_DONE)
		result = read_day(arguments, "until", &request->until);
	if (result == BC_EXIT_DONE)
		result = read_rules(arguments, request);
	if (result == BC_EXIT_DONE)
		result = read_count(arguments, "baseline", BC_TREND_LEAST, &request->baseline);
	if (result == BC_EXIT_DONE)
		result = read_count(arguments, "run", 3.0, &request->rules.side);
	if (result == BC_EXIT_DONE)
		result = read_count(arguments, "rise", 3.0, &request->rules.rise);
	if (result == BC_EXIT_DONE)
		result = bc_arguments_folder(arguments, "charts");
	if (result == BC_EXIT_DONE)
		request->key = arguments->operands[0];
	return result;
}

static int print(const struct bc_arguments *arguments, const struct bc_trend *trend)
{
	struct bc_page_style style = {.colour = bc_wants_colour("auto")};
	struct bc_text text;
	if (bc_arguments_has(arguments, "json")) {
		json_t *json = bc_report_trend_json(trend);
		bool done = bc_out_json(json, 0);
		json_decref(json);
		return done ? (int)BC_EXIT_DONE : bc_no_memory();
	}
	bc_text_init(&text);
	enum bc_status status = bc_report_trend_text(trend, &style, &text);
	if (!bc_failed(status))
		bc_out_text(&text);
	bc_text_release(&text);
	return bc_failed(status) ? bc_no_memory() : (int)BC_EXIT_DONE;
}

static enum bc_status write_chart(const void *subject, const char *kind, struct bc_text *script)
{
	return bc_report_trend_chart(subject, kind, script);
}

static int draw(const char *folder, const struct bc_trend *trend)
{
	struct bc_pictures pictures;
	if (folder == NULL)
		return BC_EXIT_DONE;
	int result = bc_pictures_open(&pictures, folder);
	if (result == BC_EXIT_DONE)
		result = bc_pictures_draw_all(
			&pictures, trend->request.key, bc_trend_chart_kinds, write_chart, trend);
	bc_pictures_close(&pictures);
	return result;
}

/* Names the nearest key that there is; a book without any figure says so. */
static int no_such_key(struct bc_shelf *shelf, const struct bc_arguments *arguments)
{
	struct bc_strings keys;
	int result = bc_shelf_say(shelf, bc_book_figure_keys(&shelf->book, &keys));
	if (result == BC_EXIT_DONE && keys.n == 0) {
		bc_complain("%s: no batch in the book", shelf->book.path);
		result = BC_EXIT_NEGATIVE;
	} else if (result == BC_EXIT_DONE) {
		result = bc_wrong_word(arguments->command, arguments->operands[0],
			"a figure of this book", (const char *const *)keys.items, keys.n);
	}
	bc_strings_release(&keys);
	return result;
}

static int trend_of(const struct bc_arguments *arguments, struct bc_shelf *shelf,
	const struct bc_trend_request *request)
{
	struct bc_trend trend;
	enum bc_status status = bc_book_trend(&shelf->book, request, &trend);
	int result = bc_shelf_say(shelf, status);
	if (status == BC_NOT_FOUND) {
		result = no_such_key(shelf, arguments);
	} else if (!bc_failed(status)) {
		result = print(arguments, &trend);
		int drawn = draw(bc_arguments_value(arguments, "charts"), &trend);
		result = drawn > result ? drawn : result;
	}
	bc_trend_release(&trend);
	return result;
}

static int run_trend(const struct bc_arguments *arguments)
{
	struct bc_shelf shelf = {0};
	struct bc_trend_request request;
	int result = read_request(arguments, &request);
	if (result != BC_EXIT_DONE)
		return result;
	result = bc_shelf_open(arguments, &shelf);
	if (result == BC_EXIT_DONE)
		result = trend_of(arguments, &shelf, &request);
	bc_shelf_close(&shelf);
	return result;
}

static const struct bc_option options[] = {
	BC_BOOK_OPTION,
	{"feed", '\0', "TEXT", "only batches whose feed has TEXT in it"},
	{"still", '\0', "NAME", "only those meant for this still"},
	{"sample", '\0', "NAME", "only samples of this name, as of a control sample"},
	{"from", '\0', "DAY", "from this day on, as 2026-10-03"},
	{"until", '\0', "DAY", "until this day"},
	{"baseline", '\0', "N", "limits from the first N batches, 5 or more (default: all)"},
	{"rules", '\0', "SET",
		"limits, runs, zones or all; or a list of beyond, jump, side, rise, zigzag, far, off, "
		"quiet, split (default: runs)"},
	{"run", '\0', "N", "points in a row on one side (default: that of the set, 7 to 9)"},
	{"rise", '\0', "N", "points in a row that rise or fall (default: that of the set, 6 or 7)"},
	{"json", '\0', NULL, "one JSON object"},
	{"charts", '\0', "DIR", "also write the chart into DIR"},
};

static const char *const synopses[] = {"book trend [OPTION...] KEY", NULL};
static const char *const examples[] = {
	"boilcut book trend flash_c --feed caps",
	"boilcut book trend t50_c --baseline 20 --rules zones --charts charts",
	NULL,
};

const struct bc_command bc_book_trend_command = {
	.name = "book trend",
	.summary = "whether a figure drifts from batch to batch",
	.synopses = synopses,
	.about =
		"Puts a figure of every batch (t10_c, flash_c, loss_pct, density15_kgm3, ... as in "
		"'judge --json'; yield_pct) on a chart of individual values and moving ranges "
		"(ISO 7870-2) and says which batches chance does not explain.\n"
		"The limits are what this process does by itself, not what a grade allows. With "
		"fewer than 5 batches there are none, with fewer than 20 they are provisional.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_trend,
};
