/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut label': the label of a can, to print and stick on. */
#include <string.h>

#include "base/memory.h"
#include "command/arguments.h"
#include "command/case.h"
#include "command/output.h"
#include "command/wishes.h"
#include "report/label.h"

static const char *const sizes[] = {"can", "a6"};
enum { SIZES = sizeof sizes / sizeof sizes[0] };

static int read_size(const struct bc_arguments *arguments, enum bc_label_size *size)
{
	const char *word = bc_arguments_value(arguments, "size");
	*size = BC_LABEL_CAN;
	for (size_t i = 0; word != NULL && i < SIZES; i++) {
		if (strcmp(word, sizes[i]) != 0)
			continue;
		*size = i == 0 ? BC_LABEL_CAN : BC_LABEL_A6;
		return BC_EXIT_DONE;
	}
	return word == NULL
		       ? BC_EXIT_DONE
		       : bc_wrong_word(arguments->command, word, "a value of --size", sizes, SIZES);
}

static int write_label(
	const char *to, enum bc_label_size size, const struct bc_judgement *judgement)
{
	struct bc_text text;
	bc_text_init(&text);
	enum bc_status status = to != NULL && bc_ends_in(to, ".svg")
					? bc_report_label_svg(judgement, size, &text)
					: bc_report_label_html(judgement, size, &text);
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

static int run_label(const struct bc_arguments *arguments)
{
	struct bc_limits *limits = NULL;
	struct bc_judge_options options;
	enum bc_label_size size;
	bool wishes =
		bc_arguments_has(arguments, "want") || bc_arguments_has(arguments, "standard");
	struct bc_case *item = bc_alloc(sizeof *item);
	if (item == NULL)
		return bc_no_memory();
	*item = (struct bc_case){0};
	int result = bc_arguments_count(arguments, 1, 1, "FILE");
	if (result == BC_EXIT_DONE)
		result = read_size(arguments, &size);
	if (result == BC_EXIT_DONE)
		result = bc_arguments_page(arguments, "to", true);
	if (result == BC_EXIT_DONE)
		result = bc_case_limits(bc_arguments_value(arguments, "limits"), &limits);
	if (result == BC_EXIT_DONE)
		result = bc_wishes_read(arguments, limits, &options);
	if (result == BC_EXIT_DONE) {
		result = bc_case_open(item, arguments->operands[0], NULL, &options);
		if (result == BC_EXIT_DONE)
			result = write_label(
				bc_arguments_value(arguments, "to"), size, &item->judgement);
		if (result == BC_EXIT_DONE && wishes && !item->judgement.wanted_met)
			result = BC_EXIT_NEGATIVE;
		bc_case_close(item);
	}
	bc_limits_free(limits);
	bc_free(item);
	return result;
}

static const struct bc_option options[] = {
	{"to", '\0', "FILE",
		"write FILE, HTML or by its ending .svg (default: HTML, standard output)"},
	{"size", '\0', "SIZE", "can, 100 by 60 mm, or a6 (default: can)"},
	{"want", '\0', "GRADE",
		"hold it against GRADE, as diesel-range; exit 1 unless it or a cut is that"},
	{"standard", '\0', "NAME", "hold it against one standard"},
	{"limits", '\0', "FILE", "limits from a CSV file (default: those of 'boilcut limits')"},
};

static const char *const synopses[] = {"label [OPTION...] FILE", NULL};
static const char *const examples[] = {
	"boilcut label samples/lake-shed-14.csv --to can-14.html",
	"boilcut label samples/light-ends.csv --size a6 --to can-11.svg",
	NULL,
};

const struct bc_command bc_label_command = {
	.name = "label",
	.summary = "the label of a can, to print",
	.synopses = synopses,
	.about =
		"Batch, date, estimated grade, flash point with its low bound, hazards in words and "
		"signs, what was not tested, and when to look again. An estimate, never a "
		"certificate.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_label,
};
