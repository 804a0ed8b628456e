/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut card': what is printed and hung up beside the still, or goes along to the laboratory. */
#include <string.h>

#include "base/memory.h"
#include "command/arguments.h"
#include "command/case.h"
#include "command/output.h"
#include "command/tap_request.h"
#include "command/wishes.h"
#include "report/card.h"
#include "report/tap.h"

static int show(const struct bc_arguments *arguments, const struct bc_card *card)
{
	const struct bc_page_style style = {.colour = bc_wants_colour("auto")};
	const char *kind = arguments->operands[0];
	const char *to = bc_arguments_value(arguments, "to");
	struct bc_text text;
	bc_text_init(&text);
	enum bc_status status = to != NULL ? bc_report_card_html(kind, card, &text)
					   : bc_report_card_text(kind, card, &style, &text);
	int result = BC_EXIT_DONE;
	if (bc_failed(status))
		result = bc_no_memory();
	else if (to != NULL)
		result = bc_out_file(to, &text);
	else
		bc_out_text(&text);
	bc_text_release(&text);
	return result;
}

static int show_run(const struct bc_arguments *arguments, const struct bc_tapping *tapping)
{
	const struct bc_card card = {.tapping = tapping};
	int result = show(arguments, &card);
	if (result == BC_EXIT_DONE && tapping->has_want && !bc_tap_answers(tapping))
		result = BC_EXIT_NEGATIVE;
	return result;
}

/* The slip for one jar asks for what its grade needs. */
static int show_slip(const struct bc_arguments *arguments)
{
	struct bc_limits *limits = NULL;
	struct bc_judge_options options;
	struct bc_case *item = bc_alloc(sizeof *item);
	if (item == NULL)
		return bc_no_memory();
	int result = bc_case_limits(bc_arguments_value(arguments, "limits"), &limits);
	if (result == BC_EXIT_DONE)
		result = bc_wishes_read(arguments, limits, &options);
	if (result == BC_EXIT_DONE) {
		result = bc_case_open(item, arguments->operands[1], NULL, &options);
		const struct bc_card card = {.judgement = &item->judgement};
		if (result == BC_EXIT_DONE)
			result = show(arguments, &card);
		bc_case_close(item);
	}
	bc_limits_free(limits);
	bc_free(item);
	return result;
}

static bool is(const struct bc_arguments *arguments, const char *kind)
{
	return strcmp(arguments->operands[0], kind) == 0;
}

static int check_kind(const struct bc_arguments *arguments)
{
	size_t n = 0;
	for (; bc_card_kinds[n] != NULL; n++)
		if (is(arguments, bc_card_kinds[n]))
			return BC_EXIT_DONE;
	return bc_wrong_word(
		arguments->command, arguments->operands[0], "a card", bc_card_kinds, n);
}

/* An option that would do nothing is refused; of kinds with a list, only what stands in it counts.
 */
static int check_options(const struct bc_arguments *arguments, bool file)
{
	static const char *const of_slip[] = {"limits", "want", "standard"};
	bool slip = is(arguments, "lab");
	if (!slip && !is(arguments, "sheet"))
		return BC_EXIT_DONE;
	for (size_t i = 0; i < arguments->n_given; i++) {
		const char *name = arguments->given[i].option->name;
		bool known = strcmp(name, "to") == 0;
		bool of_file = false;
		for (size_t j = 0; slip && j < sizeof of_slip / sizeof of_slip[0]; j++)
			of_file = of_file || strcmp(name, of_slip[j]) == 0;
		if (of_file && !file)
			return bc_wrong_usage(arguments->command,
				"'--%s' says nothing to card lab alone; expected FILE too", name);
		if (!known && !of_file)
			return bc_wrong_usage(arguments->command,
				"'--%s' says nothing to card %s; expected %s", name,
				arguments->operands[0],
				slip ? "--to, --want, --standard or --limits" : "--to");
	}
	return BC_EXIT_DONE;
}

static int run_card(const struct bc_arguments *arguments)
{
	static const struct bc_card empty = {NULL, NULL};
	int result = bc_arguments_count(arguments, 1, 2, "sheet, tap, stop or lab, and FILE");
	if (result == BC_EXIT_DONE)
		result = check_kind(arguments);
	if (result == BC_EXIT_DONE)
		result = bc_arguments_page(arguments, "to", false);
	if (result != BC_EXIT_DONE)
		return result;
	bool file = arguments->n_operands == 2;
	bool run = is(arguments, "tap") || is(arguments, "stop");
	if (run && !file)
		return bc_wrong_usage(arguments->command, "card %s lacks a word; expected FILE",
			arguments->operands[0]);
	if (is(arguments, "sheet") && file)
		return bc_wrong_usage(arguments->command,
			"'%s' is one word too many; expected none behind 'card sheet'",
			arguments->operands[1]);
	result = check_options(arguments, file);
	if (result != BC_EXIT_DONE)
		return result;
	if (run)
		return bc_tapping_of(arguments, arguments->operands[1], show_run);
	return file ? show_slip(arguments) : show(arguments, &empty);
}

static const struct bc_option options[] = {
	{"to", '\0', "FILE.html", "a page of A4 to print (default: text on standard output)"},
	BC_TAP_OPTIONS,
};

static const char *const synopses[] = {
	"card sheet [--to FILE.html]",
	"card tap [OPTION...] FILE",
	"card stop [OPTION...] FILE",
	"card lab [--to FILE.html] [[OPTION...] FILE]",
	NULL,
};

static const char *const examples[] = {
	"boilcut card sheet --to sheet.html",
	"boilcut card stop samples/light-ends.csv --split --heater 2kW --room 30m3",
	NULL,
};

const struct bc_command bc_card_command = {
	.name = "card",
	.summary = "cards to print: boil-off sheet, tap, start and stop, laboratory",
	.synopses = synopses,
	.about =
		"One sheet of A4 each: a boil-off to fill in by hand with the safe way to do it; the "
		"turns of the tap; when to start and stop this charge on this heater in this room; "
		"a slip that says which tests to ask a laboratory for, and into which key of the "
		"file each answer goes.\n"
		"The options of tap and stop are those of 'boilcut tap'; a slip for one FILE takes "
		"--want, --standard and --limits.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_card,
};
