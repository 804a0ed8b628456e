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
			"  checks  %u printed, %u independent, %u by the same formula\n",
			checks.printed, checks.independent, checks.same_formula);
	for (size_t i = 0; i < formula->n_inputs; i++) {
		const struct bc_formula_input *input = &formula->inputs[i];
		bc_text_printf(
			text, "  %-7s %s [%s]", i == 0 ? "takes" : "", input->name, input->unit);
		if (!isnan(input->min))
			bc_text_printf(text, ", from %g", input->min);
		if (!isnan(input->max))
			bc_text_printf(text, "%s to %g", isnan(input->min) ? "," : "", input->max);
		bc_text_append(text, "\n");
	}
}

/* name=value into its place. */
static int take_input(const struct bc_command *command, const struct bc_formula *formula,
	const char *word, double *input)
{
	const char *names[BC_FORMULA_INPUTS_MAX];
	const char *equals = strchr(word, '=');
	size_t n = equals != NULL ? (size_t)(equals - word) : strlen(word);
	for (size_t i = 0; i < formula->n_inputs; i++) {
		names[i] = formula->inputs[i].name;
		if (strlen(names[i]) != n || strncmp(names[i], word, n) != 0)
			continue;
		if (equals == NULL || !bc_number_parse(equals + 1, '.', &input[i]))
			return bc_wrong_usage(command, "'%s' is not an input; expected '%s=NUMBER'",
				word, names[i]);
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

static int eval_formula(const struct bc_arguments *arguments, const struct bc_formula *formula,
	struct bc_text *text)
{
	double input[BC_FORMULA_INPUTS_MAX];
	double value = NAN;
	for (size_t i = 0; i < formula->n_inputs; i++)
		input[i] = NAN;
	for (size_t i = 2; i < arguments->n_operands; i++) {
		int result = take_input(arguments->command, formula, arguments->operands[i], input);
		if (result != BC_EXIT_DONE)
			return result;
	}
	for (size_t i = 0; i < formula->n_inputs; i++) {
		if (isnan(input[i]))
			return bc_wrong_usage(arguments->command,
				"an input of %s is missing; expected '%s=NUMBER' in %s",
				formula->id, formula->inputs[i].name, formula->inputs[i].unit);
	}
	enum bc_status status = formula->eval(input, &value);
	if (bc_failed(status)) {
		bc_complain("%s: %s", formula->id, bc_status_text(status));
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
