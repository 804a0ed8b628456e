/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut formula': the published formulae in use, one shown, one evaluated. */
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/number.h"
#include "command/arguments.h"
#include "command/output.h"
#include "fuel/formula.h"

static int unknown_formula(const struct bc_command *command, const char *id)
{
	const char **ids = bc_alloc_array(bc_formula_count, sizeof *ids);
	if (ids == NULL)
		return bc_no_memory();
	for (size_t i = 0; i < bc_formula_count; i++)
		ids[i] = bc_formulae[i].id;
	const char *nearest = bc_nearest_word(id, ids, bc_formula_count);
	bc_free(ids);
	if (nearest != NULL)
		return bc_wrong_usage(
			command, "'%s' is not a formula; did you mean '%s'?", id, nearest);
	return bc_wrong_usage(command,
		"'%s' is not a formula; expected one that 'boilcut formula list' names", id);
}

static void list_formulae(struct bc_text *text)
{
	for (size_t i = 0; i < bc_formula_count; i++) {
		const struct bc_formula *formula = &bc_formulae[i];
		bc_text_printf(text, "%-32s %s\n", formula->id, formula->unit);
		bc_text_append_wrapped(text, formula->source, NULL, 4, 78);
	}
}

/* ", one of 0 10 30" or ", from 60 to 1100"; nothing where the source states no range. */
static void show_range(const struct bc_formula *formula, const struct bc_formula_input *input,
	struct bc_text *text)
{
	const struct bc_formula_points *points = bc_formula_points_of(formula->id);
	if (points != NULL && strcmp(points->input, input->name) == 0) {
		bc_text_printf(text, ", one of %s", points->values);
		return;
	}
	if (!isnan(input->min))
		bc_text_printf(text, ", from %g", input->min);
	if (!isnan(input->max))
		bc_text_printf(text, "%s to %g", isnan(input->min) ? "," : "", input->max);
}

static void show_formula(const struct bc_formula *formula, struct bc_text *text)
{
	bc_text_printf(text, "%s [%s]\n", formula->id, formula->unit);
	struct bc_formula_checks checks;
	bc_text_append_wrapped(text, formula->source, "  source  ", 10, 78);
	if (formula->equation[0] != '\0')
		bc_text_append_wrapped(text, formula->equation, "  where   ", 10, 78);
	bc_text_printf(text, "  trust   %s\n", bc_trust_text(formula->trust));
	if (formula->accuracy != NULL && formula->accuracy[0] != '\0')
		bc_text_append_wrapped(text, formula->accuracy, "  claims  ", 10, 78);
	if (bc_formula_checks_of(formula->id, &checks))
		bc_text_printf(text,
			"  checks  %u printed, %u near print, %u independent, "
			"%u by the same formula\n",
			checks.printed, checks.near_print, checks.independent, checks.same_formula);
	for (size_t i = 0; i < formula->n_inputs; i++) {
		const struct bc_formula_input *input = &formula->inputs[i];
		bc_text_printf(
			text, "  %-7s %s [%s]", i == 0 ? "takes" : "", input->name, input->unit);
		show_range(formula, input, text);
		bc_text_append(text, "\n");
	}
}

/* name=value into its place. */
static int take_input(const struct bc_command *command, const struct bc_formula *formula,
	const char *word, bool *given, double *input)
{
	const char *names[BC_FORMULA_INPUTS_MAX];
	double value = NAN;
	const char *equals = strchr(word, '=');
	size_t n = equals != NULL ? (size_t)(equals - word) : strlen(word);
	for (size_t i = 0; i < formula->n_inputs; i++) {
		names[i] = formula->inputs[i].name;
		if (strlen(names[i]) != n || strncmp(names[i], word, n) != 0)
			continue;
		if (equals == NULL || !bc_number_parse(equals + 1, '.', &value))
			return bc_wrong_usage(command, "'%s' is not an input; expected '%s=NUMBER'",
				word, names[i]);
		if (given[i])
			return bc_wrong_usage(
				command, "'%s' is given twice; expected each input once", names[i]);
		given[i] = true;
		input[i] = value;
		return BC_EXIT_DONE;
	}
	char *name = bc_strndup(word, n);
	if (name == NULL)
		return bc_no_memory();
	int result =
		bc_wrong_word(command, name, "an input of this formula", names, formula->n_inputs);
	bc_free(name);
	return result;
}

/* Whether number is one of the values, which are parted by blanks. */
static bool is_point(double number, const char *values)
{
	double value = NAN;
	for (size_t n; (n = bc_number_prefix(values, '.', &value)) > 0; values += n) {
		if (value == number)
			return true;
		while (values[n] == ' ')
			n++;
	}
	return false;
}

/* Where a formula has rows and was asked between them, the rows are named. */
static void complain_of_failure(
	const struct bc_formula *formula, const double *input, enum bc_status status)
{
	const struct bc_formula_points *points = bc_formula_points_of(formula->id);
	size_t i = 0;
	while (points != NULL && strcmp(formula->inputs[i].name, points->input) != 0)
		i++;
	if (points != NULL && !is_point(input[i], points->values))
		bc_complain("%s: %s, %s=%g; expected one of %s", formula->id,
			bc_status_text(status), points->input, input[i], points->values);
	else
		bc_complain("%s: %s", formula->id, bc_status_text(status));
}

static int eval_formula(const struct bc_arguments *arguments, const struct bc_formula *formula,
	struct bc_text *text)
{
	double input[BC_FORMULA_INPUTS_MAX];
	bool given[BC_FORMULA_INPUTS_MAX] = {false};
	double value = NAN;
	for (size_t i = 0; i < formula->n_inputs; i++)
		input[i] = NAN;
	for (size_t i = 2; i < arguments->n_operands; i++) {
		int result = take_input(
			arguments->command, formula, arguments->operands[i], given, input);
		if (result != BC_EXIT_DONE)
			return result;
	}
	for (size_t i = 0; i < formula->n_inputs; i++) {
		if (!given[i])
			return bc_wrong_usage(arguments->command,
				"an input of %s is missing; expected '%s=NUMBER' in %s",
				formula->id, formula->inputs[i].name, formula->inputs[i].unit);
	}
	enum bc_status status = formula->eval(input, &value);
	if (bc_failed(status)) {
		complain_of_failure(formula, input, status);
		return BC_EXIT_NUMBERS;
	}
	if (status != BC_OK)
		bc_complain("%s: %s", formula->id, bc_status_text(status));
	bc_text_printf(text, "%.7g %s\n", value, formula->unit);
	return BC_EXIT_DONE;
}

static int with_formula(const struct bc_arguments *arguments, bool eval, struct bc_text *text)
{
	int result = bc_arguments_count(arguments, 2, eval ? (size_t)-1 : 2, "a formula's id");
	if (result != BC_EXIT_DONE)
		return result;
	const struct bc_formula *formula = bc_formula_find(arguments->operands[1]);
	if (formula == NULL)
		return unknown_formula(arguments->command, arguments->operands[1]);
	if (eval)
		return eval_formula(arguments, formula, text);
	show_formula(formula, text);
	return BC_EXIT_DONE;
}

static int run_formula(const struct bc_arguments *arguments)
{
	static const char *const verbs[] = {"list", "show", "eval"};
	struct bc_text text;
	int result = bc_arguments_count(arguments, 1, (size_t)-1, "list, show or eval");
	if (result != BC_EXIT_DONE)
		return result;
	const char *verb = arguments->operands[0];
	bc_text_init(&text);
	if (strcmp(verb, "list") == 0) {
		result = bc_arguments_count(arguments, 1, 1, "word");
		if (result == BC_EXIT_DONE)
			list_formulae(&text);
	} else if (strcmp(verb, "show") == 0 || strcmp(verb, "eval") == 0) {
		result = with_formula(arguments, verb[0] == 'e', &text);
	} else {
		result = bc_wrong_word(
			arguments->command, verb, "something that formula does", verbs, 3);
	}
	if (result == BC_EXIT_DONE && text.failed)
		result = bc_no_memory();
	if (result == BC_EXIT_DONE)
		bc_out_text(&text);
	bc_text_release(&text);
	return result;
}

static const char *const synopses[] = {
	"formula list",
	"formula show ID",
	"formula eval ID INPUT=NUMBER...",
	NULL,
};
static const char *const examples[] = {"boilcut formula show flash.t10_api",
	"boilcut formula eval flash.t10_api t10_c=176.7", NULL};

const struct bc_command bc_formula_command = {
	.name = "formula",
	.summary = "the formulae in use, with their sources; evaluate one",
	.synopses = synopses,
	.about = "Lists the published formulae with the unit of their result and their source, "
		 "shows one with its inputs, units and ranges, or evaluates it. The name of an "
		 "input ends in its unit: t10_c is degC. Outside its stated range a formula still "
		 "answers, with a note on standard error.",
	.examples = examples,
	.run = run_formula,
};
