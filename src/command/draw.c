/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut draw': chart scripts, and pictures where gnuplot is found. */
#include <string.h>

#include "base/memory.h"
#include "command/arguments.h"
#include "command/case.h"
#include "command/inputs.h"
#include "command/output.h"
#include "command/pictures.h"
#include "command/wishes.h"
#include "report/report.h"

static int draw_one(
	struct bc_pictures *pictures, const char *path, const struct bc_judge_options *options)
{
	struct bc_case *item = bc_alloc(sizeof *item);
	if (item == NULL)
		return bc_no_memory();
	int result = bc_case_open(item, path, NULL, options);
	if (result == BC_EXIT_DONE)
		result = bc_pictures_draw(pictures, &item->judgement);
	bc_case_close(item);
	bc_free(item);
	return result;
}

static int check_kind(const struct bc_arguments *arguments, const char *only)
{
	size_t n = 0;
	while (bc_chart_kinds[n] != NULL) {
		if (only == NULL || strcmp(only, bc_chart_kinds[n]) == 0)
			return BC_EXIT_DONE;
		n++;
	}
	return bc_wrong_word(arguments->command, only, "a kind of chart", bc_chart_kinds, n);
}

static int draw_all(const struct bc_arguments *arguments, const struct bc_strings *paths,
	const struct bc_judge_options *options)
{
	const char *folder = bc_arguments_value(arguments, "to");
	struct bc_pictures pictures;
	int worst = bc_pictures_open(&pictures, folder != NULL ? folder : ".");
	if (worst == BC_EXIT_DONE) {
		pictures.only = bc_arguments_value(arguments, "only");
		pictures.scripts_only = bc_arguments_has(arguments, "no-pictures");
		pictures.tell = true;
		for (size_t i = 0; i < paths->n && !bc_out_failed(); i++) {
			int result = draw_one(&pictures, paths->items[i], options);
			worst = result > worst ? result : worst;
		}
	}
	bc_pictures_close(&pictures);
	return worst;
}

static int run_draw(const struct bc_arguments *arguments)
{
	struct bc_limits *limits = NULL;
	struct bc_strings paths;
	struct bc_judge_options options;
	bc_strings_init(&paths);
	int result = check_kind(arguments, bc_arguments_value(arguments, "only"));
	if (result == BC_EXIT_DONE)
		result = bc_arguments_folder(arguments, "to");
	if (result == BC_EXIT_DONE)
		result = bc_inputs_collect(arguments, &paths);
	if (result == BC_EXIT_DONE && paths.n == 0)
		result = bc_wrong_usage(
			arguments->command, "draw lacks a word; expected FILE or --files-from");
	if (result == BC_EXIT_DONE)
		result = bc_case_limits(bc_arguments_value(arguments, "limits"), &limits);
	if (result == BC_EXIT_DONE)
		result = bc_wishes_read(arguments, limits, &options);
	if (result == BC_EXIT_DONE)
		result = draw_all(arguments, &paths, &options);
	bc_limits_free(limits);
	bc_strings_release(&paths);
	return result;
}

static const struct bc_option options[] = {
	{"to", '\0', "DIR", "where to write; made if missing (default: this folder)"},
	{"only", '\0', "KIND", "curve, residuals or shares (default: all three)"},
	{"no-pictures", '\0', NULL, "write the scripts alone"},
	{"files-from", '\0', "LIST", "also draw the files named in LIST, one a line; - is stdin"},
	{"want", '\0', "GRADE", "show the limits of this grade instead of the nearest"},
	{"standard", '\0', "NAME", "show the limits of this standard"},
	{"limits", '\0', "FILE", "limits from a CSV file (default: those of 'boilcut limits')"},
	{"draws", '\0', "N",
		"how often the inputs are drawn for the band, 100 or more; 0: by derivatives "
		"(default: 1000)"},
	{"seed", '\0', "N", "another sequence of draws (default: 1)"},
};

static const char *const synopses[] = {"draw [OPTION...] FILE...", NULL};

static const char *const examples[] = {
	"boilcut draw samples/lake-shed-14.csv --to charts",
	"boilcut draw samples/lake-shed-14.csv --to charts --only curve --no-pictures",
	NULL,
};

const struct bc_command bc_draw_command = {
	.name = "draw",
	.summary = "charts of the curve, the residuals and the shares",
	.synopses = synopses,
	.about = "Writes NAME-curve.gp, NAME-residuals.gp and NAME-shares.gp, scripts for gnuplot "
		 "with "
		 "the data inside, NAME being that of the file; and where gnuplot is installed the "
		 "pictures too, as .svg and .png. Prints what it wrote.\n"
		 "Temperatures are degC, amounts % of the charge by volume.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_draw,
};
