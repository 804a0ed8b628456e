/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut book pair': which batch a re-run made of which, and whether it is what was expected. */
#include <math.h>

#include "base/file.h"
#include "base/memory.h"
#include "book/pairs.h"
#include "book/stills.h"
#include "command/amount.h"
#include "command/arguments.h"
#include "command/book.h"
#include "command/book_answer.h"
#include "command/output.h"
#include "report/pair.h"

#define PLAN_BYTES ((size_t)1024 * 1024)

static int answer_pair(struct bc_answer *answer, struct bc_shelf *shelf, long long id)
{
	struct bc_pair pair;
	struct bc_pair_comparison comparison = {0};
	enum bc_status status = bc_pair_read(&shelf->book, id, &pair);
	if (!bc_failed(status))
		status = bc_pair_compare(&shelf->book, &pair, &comparison);
	if (!bc_failed(status) && answer->wants_json)
		answer->json = bc_report_pair_json(&pair, &comparison);
	else if (!bc_failed(status))
		status = bc_report_pair(&pair, &comparison, &answer->text);
	if (status == BC_NOT_FOUND)
		bc_complain("%s: no pair %lld; expected one that 'boilcut book pair' lists",
			shelf->book.path, id);
	bc_pair_comparison_release(&comparison);
	bc_pair_release(&pair);
	return bc_shelf_say(shelf, status);
}

static int show(const struct bc_arguments *arguments, struct bc_shelf *shelf, long long id)
{
	struct bc_answer answer;
	int result = bc_answer_begin(&answer, arguments, shelf, false);
	if (result == BC_EXIT_DONE)
		result = answer_pair(&answer, shelf, id);
	return bc_answer_end(&answer, shelf, result);
}

static int list(const struct bc_arguments *arguments, struct bc_shelf *shelf)
{
	struct bc_answer answer;
	struct bc_pairs pairs = {0};
	const char *still = bc_arguments_value(arguments, "still");
	int result = bc_answer_begin(&answer, arguments, shelf, false);
	if (result == BC_EXIT_DONE)
		result = bc_shelf_say(shelf, bc_pair_list(&shelf->book, still, &pairs));
	if (result == BC_EXIT_DONE && !answer.wants_json)
		bc_report_pairs(&pairs, &answer.text);
	else if (result == BC_EXIT_DONE)
		answer.json = json_array();
	for (size_t i = 0; answer.json != NULL && i < pairs.n && result == BC_EXIT_DONE; i++) {
		if (json_array_append_new(
			    answer.json, bc_report_pair_json(&pairs.items[i], NULL)) != 0)
			result = bc_no_memory();
	}
	bc_pairs_release(&pairs);
	return bc_answer_end(&answer, shelf, result);
}

/* ---- a new pair */

static int read_plan(const struct bc_arguments *arguments, struct bc_pair *pair)
{
	const char *path = bc_arguments_value(arguments, "plan");
	struct bc_diagnostics diagnostics;
	size_t n = 0;
	if (path == NULL)
		return BC_EXIT_DONE;
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = bc_file_read(path, PLAN_BYTES, &pair->plan, &n, &diagnostics);
	bc_print_diagnostics(&diagnostics);
	bc_diagnostics_release(&diagnostics);
	if (!bc_failed(status) && !bc_plan_valid(pair->plan)) {
		bc_complain(
			"%s: is no plan with a product in it; expected what 'boilcut tap --json' "
			"prints",
			path);
		return BC_EXIT_DATA;
	}
	return status == BC_NO_MEMORY ? bc_no_memory() : bc_exit_from_status(status);
}

/* The name as the book has it. */
static int find_still(
	const struct bc_arguments *arguments, struct bc_shelf *shelf, struct bc_pair *pair)
{
	const char *name = bc_arguments_value(arguments, "still");
	struct bc_book_still still;
	if (name == NULL)
		return BC_EXIT_DONE;
	enum bc_status status = bc_book_still_read(&shelf->book, name, 0, &still);
	int result = bc_shelf_say(shelf, status);
	if (status == BC_NOT_FOUND)
		bc_complain(
			"%s: no still '%s'; expected one that 'boilcut book still add' has kept",
			shelf->book.path, name);
	pair->still = still.name;
	still.name = NULL;
	bc_book_still_release(&still);
	return result;
}

static int read_turns(const struct bc_arguments *arguments, struct bc_pair *pair)
{
	const struct bc_amount cut = {"cut", BC_QUANTITY_TEMPERATURE, false,
		"a head temperature such as 170C", 0.0, 700.0};
	const struct bc_amount until = {"until", BC_QUANTITY_TEMPERATURE, false,
		"a head temperature such as 300C", 0.0, 700.0};
	pair->cut_c = pair->until_c = NAN;
	int result = bc_amount_read(arguments, &cut, &pair->cut_c);
	if (result == BC_EXIT_DONE)
		result = bc_amount_read(arguments, &until, &pair->until_c);
	if (result == BC_EXIT_DONE && pair->until_c <= pair->cut_c)
		result = bc_wrong_usage(arguments->command,
			"'--until' does not lie above --cut; expected the end of the product jar");
	return result;
}

static int add(const struct bc_arguments *arguments, struct bc_shelf *shelf, struct bc_pair *pair)
{
	struct bc_answer answer;
	long long id = 0;
	int result = bc_answer_begin(&answer, arguments, shelf, true);
	if (result == BC_EXIT_DONE)
		result = find_still(arguments, shelf, pair);
	if (result == BC_EXIT_DONE) {
		enum bc_status status = bc_pair_add(&shelf->book, pair, &id);
		result = bc_shelf_say(shelf, status);
		if (status == BC_NOT_FOUND)
			bc_complain(
				"%s: no batch %lld or no batch %lld; expected two that 'boilcut book "
				"list' shows",
				shelf->book.path, pair->feed, pair->product);
	}
	if (result == BC_EXIT_DONE)
		result = answer_pair(&answer, shelf, id);
	return bc_answer_end(&answer, shelf, result);
}

static int read_new(const struct bc_arguments *arguments, struct bc_pair *pair)
{
	int result = bc_batch_number(arguments, arguments->operands[0], &pair->feed);
	if (result == BC_EXIT_DONE)
		result = bc_batch_number(arguments, arguments->operands[1], &pair->product);
	if (result == BC_EXIT_DONE && pair->feed == pair->product)
		result = bc_wrong_usage(arguments->command,
			"'%s' is one and the same batch; expected the batch that was charged and the one "
			"that came out",
			arguments->operands[0]);
	if (result == BC_EXIT_DONE)
		result = read_turns(arguments, pair);
	return result == BC_EXIT_DONE ? read_plan(arguments, pair) : result;
}

static int run_pair(const struct bc_arguments *arguments)
{
	struct bc_shelf shelf = {0};
	struct bc_pair pair = {0};
	int result = bc_arguments_count(arguments, 0, 2, "FEED and PRODUCT");
	if (result == BC_EXIT_DONE && arguments->n_operands == 1)
		result = bc_batch_number(arguments, arguments->operands[0], &pair.id);
	else if (result == BC_EXIT_DONE && arguments->n_operands == 2)
		result = read_new(arguments, &pair);
	if (result == BC_EXIT_DONE)
		result = bc_shelf_open(arguments, &shelf);
	if (result == BC_EXIT_DONE && arguments->n_operands == 0)
		result = list(arguments, &shelf);
	else if (result == BC_EXIT_DONE && arguments->n_operands == 1)
		result = show(arguments, &shelf, pair.id);
	else if (result == BC_EXIT_DONE)
		result = add(arguments, &shelf, &pair);
	bc_pair_release(&pair);
	bc_shelf_close(&shelf);
	return result;
}

static const struct bc_option options[] = {
	BC_BOOK_OPTION,
	{"still", '\0', "NAME", "the still of the book that did it; without batches: its pairs"},
	{"cut", '\0', "T", "head temperature at which the product jar began, as 170C"},
	{"until", '\0', "T", "and at which it ended, as 300C"},
	{"plan", '\0', "FILE",
		"the plan of the run, as 'tap' prints it in JSON (default: the re-run that the judgement "
		"of the feed suggested)"},
	{"json", '\0', NULL, "one JSON value"},
};
static const char *const synopses[] = {
	"book pair [OPTION...] FEED PRODUCT",
	"book pair [OPTION...] [PAIR]",
	NULL,
};
static const char *const examples[] = {
	"boilcut book pair 1 2 --cut 170C --until 300C",
	"boilcut book pair --json",
	NULL,
};

const struct bc_command bc_book_pair_command = {
	.name = "book pair",
	.summary = "which batch a re-run made of which, against what was expected",
	.synopses = synopses,
	.about =
		"Links the batch that was charged (FEED) to the batch that came out (PRODUCT), and "
		"shows the product as it was expected beside the product as it was measured. "
		"Without words all pairs are listed; one number shows that pair.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_pair,
};
