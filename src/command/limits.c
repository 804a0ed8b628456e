/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut limits': the tables in force. */
#include "command/arguments.h"
#include "command/case.h"
#include "command/output.h"
#include "report/report.h"

static int print_limits(const struct bc_limits *limits, enum bc_grade_name grade)
{
	struct bc_text text;
	bc_text_init(&text);
	int result = BC_EXIT_DONE;
	if (bc_failed(bc_report_limits(limits, grade, &text)))
		result = bc_no_memory();
	else
		bc_out_text(&text);
	bc_text_release(&text);
	return result;
}

static int print_limits_json(const struct bc_limits *limits, enum bc_grade_name grade)
{
	json_t *json = bc_report_limits_json(limits, grade);
	int result = bc_out_json(json, 0) ? BC_EXIT_DONE : bc_no_memory();
	json_decref(json);
	return result;
}

static int run_limits(const struct bc_arguments *arguments)
{
	struct bc_limits *limits = NULL;
	enum bc_grade_name grade = BC_GRADES;
	int result = bc_arguments_count(arguments, 0, 1, "GRADE");
	if (result == BC_EXIT_DONE && arguments->n_operands == 1)
		result = bc_case_grade(arguments->command, arguments->operands[0], &grade);
	if (result == BC_EXIT_DONE)
		result = bc_case_limits(bc_arguments_value(arguments, "limits"), &limits);
	if (result == BC_EXIT_DONE)
		result = bc_arguments_has(arguments, "json") ? print_limits_json(limits, grade)
							     : print_limits(limits, grade);
	bc_limits_free(limits);
	return result;
}

static const struct bc_option options[] = {
	{"json", '\0', NULL, "a JSON array, one object a limit"},
	{"limits", '\0', "FILE", "show the limits of this CSV file instead"},
};
static const char *const synopses[] = {"limits [OPTION...] [GRADE]", NULL};
static const char *const examples[] = {
	"boilcut limits heating-oil-range", "boilcut limits diesel-range --json", NULL};

const struct bc_command bc_limits_command = {
	.name = "limits",
	.summary = "the limits that oils are held against, with their standards",
	.synopses = synopses,
	.about = "Lists the limits of each standard, with units, and whether each was seen in "
		 "print or is from memory. GRADE is one of gasoline-range, white-spirit-range, "
		 "kerosene-range, diesel-range, heating-oil-range, marine-range, comparison, or "
		 "the beginning of one (default: all).",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_limits,
};
