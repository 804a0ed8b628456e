/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut limits': the tables in force. */
#include "command/arguments.h"
#include "command/case.h"
#include "command/output.h"
#include "command/wishes.h"
#include "report/report.h"

static int print_limits(const struct bc_limits *limits, const struct bc_limits_view *view)
{
	struct bc_text text;
	bc_text_init(&text);
	int result = BC_EXIT_DONE;
	if (bc_failed(bc_report_limits(limits, view, &text)))
		result = bc_no_memory();
	else
		bc_out_text(&text);
	bc_text_release(&text);
	return result;
}

static int print_limits_json(const struct bc_limits *limits, const struct bc_limits_view *view)
{
	json_t *json = bc_report_limits_json(limits, view);
	int result = bc_out_json(json, 0) ? BC_EXIT_DONE : bc_no_memory();
	json_decref(json);
	return result;
}

/* The grade stands alone or behind --grade. */
static int read_view(const struct bc_arguments *arguments, const struct bc_limits *limits,
	struct bc_limits_view *view)
{
	const char *grade = bc_arguments_value(arguments, "grade");
	const char *standard = bc_arguments_value(arguments, "standard");
	*view = (struct bc_limits_view){
		.grade = BC_GRADES,
		.from_memory = bc_arguments_has(arguments, "from-memory"),
	};
	if (grade != NULL && arguments->n_operands > 0)
		return bc_wrong_usage(arguments->command,
			"'%s' is a grade beside --grade; expected one of them",
			arguments->operands[0]);
	if (arguments->n_operands > 0)
		grade = arguments->operands[0];
	int result = BC_EXIT_DONE;
	if (grade != NULL)
		result = bc_wish_grade(arguments->command, grade, limits, &view->grade);
	if (result == BC_EXIT_DONE && standard != NULL)
		result = bc_wish_standard(arguments->command, standard, limits, &view->standard);
	return result;
}

static int run_limits(const struct bc_arguments *arguments)
{
	struct bc_limits *limits = NULL;
	struct bc_limits_view view;
	int result = bc_arguments_count(arguments, 0, 1, "GRADE");
	if (result == BC_EXIT_DONE)
		result = bc_case_limits(bc_arguments_value(arguments, "limits"), &limits);
	if (result == BC_EXIT_DONE)
		result = read_view(arguments, limits, &view);
	if (result == BC_EXIT_DONE)
		result = bc_arguments_has(arguments, "json") ? print_limits_json(limits, &view)
							     : print_limits(limits, &view);
	bc_limits_free(limits);
	return result;
}

static const struct bc_option options[] = {
	{"json", '\0', NULL, "a JSON array, one object a limit"},
	{"grade", '\0', "GRADE", "the same as GRADE alone"},
	{"standard", '\0', "NAME",
		"one standard only; the beginning of its name will do, as 'EN 590'"},
	{"from-memory", '\0', NULL, "only what was not seen in print"},
	{"limits", '\0', "FILE", "show the limits of this CSV file instead"},
};
static const char *const synopses[] = {"limits [OPTION...] [GRADE]", NULL};
static const char *const examples[] = {
	"boilcut limits heating-oil-range", "boilcut limits --standard 'EN 590' --json", NULL};

const struct bc_command bc_limits_command = {
	.name = "limits",
	.summary = "the limits that oils are held against, with their standards",
	.synopses = synopses,
	.about = "Lists the limits of each standard, with units, what each is for, and whether it "
		 "was seen in print or is from memory. GRADE is one of gasoline-range, "
		 "white-spirit-range, kerosene-range, diesel-range, heating-oil-range, "
		 "marine-range and comparison that the table has, or the beginning of one "
		 "(default: all).",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_limits,
};
