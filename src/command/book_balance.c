/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut book balance': what went into the run of a batch, and what came out. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "base/number.h"
#include "book/balance.h"
#include "command/amount.h"
#include "command/arguments.h"
#include "command/book.h"
#include "command/book_answer.h"
#include "command/output.h"
#include "report/balance.h"

#define AMOUNT_MAX 1e9 /* kg, mL, MJ: more than any shed holds */
#define G_PER_KG 1000.0

static int wrong(
	const struct bc_arguments *arguments, const struct bc_given *given, const char *expected)
{
	return bc_wrong_usage(arguments->command, "'%s' is not a value of --%s; expected %s",
		given->value, given->option->name, expected);
}

static bool mass_parse(const char *word, double *kg)
{
	double g = 0.0;
	if (!bc_amount_parse(word, BC_QUANTITY_MASS, false, &g))
		return false;
	*kg = g / G_PER_KG;
	return true;
}

static bool heat_parse(const char *word, double *mj)
{
	static const struct {
		const char *name;
		double mj;
	} units[] = {{"MJ", 1.0}, {"kWh", 3.6}, {"kJ", 0.001}};
	double number = 0.0;
	size_t taken = bc_number_prefix(word, '.', &number);
	const char *name = word + taken + strspn(word + taken, " ");
	for (size_t i = 0; taken > 0 && i < sizeof units / sizeof units[0]; i++) {
		if (bc_text_equal_nocase(name, units[i].name)) {
			*mj = number * units[i].mj;
			return true;
		}
	}
	return false;
}

/* "PE=12kg" or "12kg" */
static int read_plastic(const struct bc_arguments *arguments, const struct bc_given *given,
	struct bc_balance_amount *item)
{
	const char *equals = strrchr(given->value, '=');
	const char *expected = "a resin and its mass such as PE=12kg, or a mass";
	if (equals != NULL) {
		size_t n = (size_t)(equals - given->value);
		if (n == 0 || n >= sizeof item->resin)
			return wrong(arguments, given, expected);
		memcpy(item->resin, given->value, n);
		item->resin[n] = '\0';
	}
	if (!mass_parse(equals != NULL ? equals + 1 : given->value, &item->value))
		return wrong(arguments, given, expected);
	return BC_EXIT_DONE;
}

static int read_item(const struct bc_arguments *arguments, const struct bc_given *given,
	struct bc_balance_amount *item)
{
	int result = BC_EXIT_DONE;
	item->unit = BC_AMOUNT_KG;
	switch (item->kind) {
	case BC_AMOUNT_PLASTIC:
		result = read_plastic(arguments, given, item);
		break;
	case BC_AMOUNT_GAS:
	case BC_AMOUNT_CHAR:
		if (!mass_parse(given->value, &item->value))
			result = wrong(arguments, given, "a mass such as 1.2kg");
		break;
	case BC_AMOUNT_HEAT:
		item->unit = BC_AMOUNT_MJ;
		if (!heat_parse(given->value, &item->value))
			result = wrong(arguments, given, "heat such as 36MJ or 10kWh");
		break;
	default:
		if (bc_amount_parse(given->value, BC_QUANTITY_VOLUME, false, &item->value))
			item->unit = BC_AMOUNT_ML;
		else if (!mass_parse(given->value, &item->value))
			result = wrong(arguments, given, "a volume or a mass such as 9.1L or 7kg");
		break;
	}
	if (result == BC_EXIT_DONE && !(item->value >= 0.0 && item->value <= AMOUNT_MAX))
		result = wrong(arguments, given, "0 or more, and no more than a shed holds");
	return result;
}

static int read_items(
	const struct bc_arguments *arguments, struct bc_balance_amount *items, size_t *n)
{
	int result = BC_EXIT_DONE;
	for (size_t i = 0; i < arguments->n_given && result == BC_EXIT_DONE; i++) {
		int kind = 0;
		while (kind < BC_AMOUNTS &&
			strcmp(arguments->given[i].option->name, bc_amount_names[kind]) != 0)
			kind++;
		if (kind == BC_AMOUNTS)
			continue;
		items[*n] = (struct bc_balance_amount){.kind = (enum bc_amount_kind)kind};
		result = read_item(arguments, &arguments->given[i], &items[*n]);
		++*n;
	}
	return result;
}

static int keep_and_show(const struct bc_arguments *arguments, long long batch,
	const struct bc_balance_amount *items, size_t n)
{
	struct bc_shelf shelf = {0};
	struct bc_answer answer = {0};
	struct bc_balance balance = {0};
	int result = bc_shelf_open(arguments, &shelf);
	if (result == BC_EXIT_DONE)
		result = bc_answer_begin(&answer, arguments, &shelf, n > 0);
	if (result == BC_EXIT_DONE) {
		enum bc_status status = BC_OK;
		if (n > 0)
			status = bc_balance_add(&shelf.book, batch, items, n);
		if (!bc_failed(status))
			status = bc_balance_read(&shelf.book, batch, &balance);
		result = bc_shelf_say(&shelf, status);
		if (status == BC_NOT_FOUND)
			result = bc_no_such_batch(&shelf, batch);
	}
	if (result == BC_EXIT_DONE && answer.wants_json)
		answer.json = bc_report_balance_json(&balance);
	else if (result == BC_EXIT_DONE)
		bc_report_balance(&balance, &answer.text);
	result = bc_answer_end(&answer, &shelf, result);
	bc_balance_release(&balance);
	bc_shelf_close(&shelf);
	return result;
}

static int run_balance(const struct bc_arguments *arguments)
{
	long long batch = 0;
	size_t n = 0;
	int result = bc_arguments_count(arguments, 1, 1, "the number of a batch");
	if (result == BC_EXIT_DONE)
		result = bc_batch_number(arguments, arguments->operands[0], &batch);
	if (result != BC_EXIT_DONE)
		return result;
	struct bc_balance_amount *items = bc_alloc_array(arguments->n_given + 1, sizeof *items);
	if (items == NULL)
		return bc_no_memory();
	result = read_items(arguments, items, &n);
	if (result == BC_EXIT_DONE)
		result = keep_and_show(arguments, batch, items, n);
	bc_free(items);
	return result;
}

static const struct bc_option options[] = {
	BC_BOOK_OPTION,
	{"plastic", '\0', "RESIN=MASS", "what went in, as PE=12kg; again for another resin"},
	{"oil", '\0', "AMOUNT", "what came over, as 9.1L or 7.3kg"},
	{"gas", '\0', "MASS", "as 1.9kg"},
	{"char", '\0', "MASS", "what stayed in the retort, as 1.2kg"},
	{"light", '\0', "AMOUNT", "of the re-run: the light jar"},
	{"product", '\0', "AMOUNT", "of the re-run: the product jar"},
	{"tail", '\0', "AMOUNT", "of the re-run: what goes back to the retort"},
	{"heat", '\0', "HEAT", "spent on both, as 36MJ or 10kWh"},
	{"json", '\0', NULL, "one JSON object"},
};
static const char *const synopses[] = {"book balance [OPTION...] BATCH", NULL};
static const char *const examples[] = {
	"boilcut book balance 1 --plastic PE=9kg --plastic PP=3kg --oil 9.1L",
	"boilcut book balance 1 --json",
	NULL,
};

const struct bc_command bc_book_balance_command = {
	.name = "book balance",
	.summary = "what went into the run of a batch and what came out",
	.synopses = synopses,
	.about =
		"Writes amounts down and shows the balance: yields, what is missing, heat. An amount "
		"that is written down again takes the place of the earlier one, which stays in the "
		"book. What is not written down is taken from the keys 'plastic in', 'oil out' and "
		"'char' of the sample. Litres become kilograms by the density of the batch.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_balance,
};
