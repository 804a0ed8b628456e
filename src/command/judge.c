/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut judge': one file or many through the judgement on every core, in flat memory; printed in
 * the order of the files. */
#include <string.h>

#include "base/memory.h"
#include "command/arguments.h"
#include "command/case.h"
#include "command/crew.h"
#include "command/inputs.h"
#include "command/learn.h"
#include "command/output.h"
#include "command/pictures.h"
#include "command/together.h"
#include "command/wishes.h"
#include "report/report.h"
#include "report/runs.h"

struct run {
	struct bc_judge_options options;
	struct bc_page_style style;
	bool json;
	bool explain;
	bool same;            /* the files are runs of one sample */
	bool control;         /* ... a control sample and its history */
	bool negative_counts; /* --want or --standard */
	const char *charts;
	const char *page;
	struct bc_pictures pictures;
	const char *readings; /* NULL: paths */
	struct bc_strings paths;
	size_t files;
	size_t done;
	int result;
};

static const char *path_of(const struct run *run, size_t i)
{
	return run->readings != NULL ? "readings" : run->paths.items[i];
}

static void worsen(struct run *run, int result)
{
	if (result > run->result)
		run->result = result;
}

static void between(struct run *run, struct bc_text *text)
{
	if (run->done > 0)
		bc_text_append(text, "\n========================================================"
				     "========================\n\n");
}

static const char *error_of(const struct bc_case *item)
{
	return item->error != NULL ? item->error : "out of memory";
}

/* A failed one of several has a line in its place. */
static void print_text(struct run *run, const struct bc_case *item, const char *path)
{
	struct bc_text text;
	bool judged = item->result == BC_EXIT_DONE;
	if (!judged && run->files == 1)
		return;
	bc_text_init(&text);
	between(run, &text);
	if (judged) {
		if (run->explain)
			judged = bc_report_explain(&item->judgement, &run->style, &text) == BC_OK;
		else
			judged = bc_report_text(&item->judgement, &run->style, &text) == BC_OK;
	} else {
		bc_text_append_escaped(&text, path);
		bc_text_append(&text, ": not judged: ");
		bc_text_append_escaped(&text, error_of(item));
		bc_text_append(&text, "\n");
	}
	if (text.failed || (item->result == BC_EXIT_DONE && !judged))
		worsen(run, bc_no_memory());
	else
		bc_out_text(&text);
	run->done++;
	bc_text_release(&text);
}

/* NULL without memory. */
static json_t *judged_json(const struct run *run, const struct bc_judgement *judgement)
{
	json_t *json = bc_report_json(judgement);
	json_t *explain = NULL;
	if (json == NULL || !run->explain)
		return json;
	explain = bc_report_explain_json(judgement);
	if (explain != NULL && json_object_set_new(json, "explain", explain) == 0)
		return json;
	json_decref(json);
	return NULL;
}

/* An array is written element by element, so that it never stands in memory as a whole. */
static void print_json(struct run *run, const struct bc_case *item, const char *path)
{
	bool several = run->files > 1;
	bool judged = item->result == BC_EXIT_DONE;
	if (!judged && !several)
		return;
	json_t *json = judged ? judged_json(run, &item->judgement)
			      : bc_report_json_error(path, error_of(item));
	if (several)
		bc_out(run->done == 0 ? "[\n" : ",\n");
	if (!bc_out_json(json, several ? 2 : 0))
		worsen(run, bc_no_memory());
	run->done++;
	json_decref(json);
}

static int write_page(const char *path, const struct bc_judgement *judgement)
{
	struct bc_text html;
	bc_text_init(&html);
	int result = bc_report_page(judgement, &html) == BC_OK ? bc_out_file(path, &html)
							       : bc_no_memory();
	bc_text_release(&html);
	return result;
}

static void show(struct run *run, const struct bc_case *item, const char *path)
{
	if (run->json)
		print_json(run, item, path);
	else
		print_text(run, item, path);
	if (item->result != BC_EXIT_DONE)
		return;
	if (run->negative_counts && !item->judgement.wanted_met)
		worsen(run, BC_EXIT_NEGATIVE);
	if (run->charts != NULL)
		worsen(run, bc_pictures_draw(&run->pictures, &item->judgement));
	if (run->page != NULL)
		worsen(run, write_page(run->page, &item->judgement));
}

/* On any thread; NULL without memory. */
static void *judge_one(void *context, size_t i)
{
	const struct run *run = context;
	struct bc_case *item = bc_alloc(sizeof *item);
	if (item != NULL)
		bc_case_judge(item, path_of(run, i), run->readings, &run->options);
	return item;
}

static void discard(void *result)
{
	bc_case_close(result);
	bc_free(result);
}

/* In order, one after the other. */
static bool print_one(void *context, size_t i, void *result)
{
	struct run *run = context;
	struct bc_case *item = result;
	const char *path = path_of(run, i);
	if (item == NULL) {
		worsen(run, bc_no_memory());
		return true;
	}
	worsen(run, bc_case_tell(item));
	show(run, item, path);
	discard(item);
	return !bc_out_failed();
}

/* Runs of one sample, as one judgement. */
static void judge_same(struct run *run)
{
	struct bc_together together;
	struct bc_case *item = bc_alloc(sizeof *item);
	if (item == NULL) {
		worsen(run, bc_no_memory());
		return;
	}
	worsen(run, bc_together_pool(&run->paths, run->options.keep_all, &together));
	if (together.pool != NULL) {
		worsen(run, bc_together_judge(&together, &run->options, item));
		show(run, item, together.pool->sample->file);
		bc_case_close(item);
	}
	bc_together_close(&together);
	bc_free(item);
}

static void print_control(struct run *run, const struct bc_control *control)
{
	if (run->json) {
		json_t *json = bc_report_control_json(control);
		if (!bc_out_json(json, 0))
			worsen(run, bc_no_memory());
		json_decref(json);
		return;
	}
	struct bc_text text;
	bc_text_init(&text);
	if (bc_report_control(control, &run->style, &text) == BC_OK && !text.failed)
		bc_out_text(&text);
	else
		worsen(run, bc_no_memory());
	bc_text_release(&text);
}

/* The newest run of a control sample against those before it; out of its limits is a no. */
static void judge_control(struct run *run)
{
	struct bc_together together;
	worsen(run, bc_together_control(&run->paths, &together));
	if (together.control != NULL) {
		print_control(run, together.control);
		if (together.control->word != BC_CONTROL_IN)
			worsen(run, BC_EXIT_NEGATIVE);
	}
	bc_together_close(&together);
}

static void judge_each(struct run *run)
{
	const struct bc_crew crew = {run->files, judge_one, print_one, discard, run};
	if (bc_failed(bc_crew_run(&crew)))
		worsen(run, bc_no_memory());
	if (run->json && run->files > 1)
		bc_out("\n]\n");
}

static int judge_all(struct run *run, const struct bc_arguments *arguments)
{
	const char *readings = bc_arguments_value(arguments, "readings");
	bc_strings_init(&run->paths);
	int result = bc_inputs_collect(arguments, &run->paths);
	if (result != BC_EXIT_DONE)
		goto done;
	if (readings != NULL && run->paths.n > 0)
		result = bc_wrong_usage(arguments->command,
			"'--readings' stands for a file; expected no FILE beside it");
	else if (readings == NULL && run->paths.n == 0)
		result = bc_wrong_usage(arguments->command,
			"judge lacks a word; expected FILE, --files-from or --readings");
	else if (bc_arguments_has(arguments, "page") && run->paths.n > 1 &&
		 !bc_arguments_has(arguments, "same"))
		result = bc_wrong_usage(arguments->command,
			"'--page' is the page of one sample; expected one FILE");
	else
		result = bc_together_check(arguments, &run->paths);
	if (result != BC_EXIT_DONE)
		goto done;
	bool together = run->same || run->control;
	run->files = readings != NULL || together ? 1 : run->paths.n;
	if (run->charts != NULL)
		result = bc_pictures_open(&run->pictures, run->charts);
	if (result != BC_EXIT_DONE)
		goto done;
	run->readings = readings;
	if (run->same)
		judge_same(run);
	else if (run->control)
		judge_control(run);
	else
		judge_each(run);
	result = run->result;
done:
	bc_strings_release(&run->paths);
	bc_pictures_close(&run->pictures);
	return result;
}

static int read_style(const struct bc_arguments *arguments, struct run *run)
{
	static const char *const whens[] = {"auto", "always", "never"};
	const char *when = bc_arguments_value(arguments, "colour");
	if (when == NULL)
		when = "auto";
	for (size_t i = 0; i < 3; i++) {
		if (strcmp(when, whens[i]) != 0)
			continue;
		run->style.colour = bc_wants_colour(when);
		run->style.fits = bc_arguments_has(arguments, "fits");
		return BC_EXIT_DONE;
	}
	return bc_wrong_word(arguments->command, when, "a value of --colour", whens, 3);
}

/* What shapes the page means nothing to JSON. */
static int check_json(const struct bc_arguments *arguments)
{
	static const char *const of_page[] = {"fits", "colour"};
	for (size_t i = 0; i < 2 && bc_arguments_has(arguments, "json"); i++) {
		if (bc_arguments_has(arguments, of_page[i]))
			return bc_wrong_usage(arguments->command,
				"'--%s' shapes the page; expected no --json beside it", of_page[i]);
	}
	return BC_EXIT_DONE;
}

static int run_judge(const struct bc_arguments *arguments)
{
	struct bc_limits *limits = NULL;
	const char *cups = bc_arguments_value(arguments, "learn");
	struct bc_learning learning;
	bc_learning_init(&learning);
	struct run run = {
		.json = bc_arguments_has(arguments, "json"),
		.explain = bc_arguments_has(arguments, "explain"),
		.same = bc_arguments_has(arguments, "same"),
		.control = bc_arguments_has(arguments, "control"),
		.charts = bc_arguments_value(arguments, "charts"),
		.page = bc_arguments_value(arguments, "page"),
		.negative_counts = bc_arguments_has(arguments, "want") ||
				   bc_arguments_has(arguments, "standard"),
	};
	int result = read_style(arguments, &run);
	if (result == BC_EXIT_DONE)
		result = check_json(arguments);
	if (result == BC_EXIT_DONE)
		result = bc_arguments_folder(arguments, "charts");
	if (result == BC_EXIT_DONE)
		result = bc_arguments_page(arguments, "page", false);
	if (result == BC_EXIT_DONE)
		result = bc_case_limits(bc_arguments_value(arguments, "limits"), &limits);
	if (result == BC_EXIT_DONE)
		result = bc_wishes_read(arguments, limits, &run.options);
	run.options.keep_all = bc_arguments_has(arguments, "keep-all");
	if (result == BC_EXIT_DONE)
		result = bc_arguments_folder(arguments, "learn");
	if (result == BC_EXIT_DONE && cups != NULL) {
		result = bc_learn_folder(cups, &run.options, &learning);
		run.options.learned = &learning;
	}
	if (result == BC_EXIT_DONE)
		result = judge_all(&run, arguments);
	bc_learning_release(&learning);
	bc_limits_free(limits);
	return result;
}

static const struct bc_option options[] = {
	{"json", '\0', NULL, "one JSON object, or an array for several files"},
	{"explain", '\0', NULL,
		"the way of every figure instead of the page: formula, inputs, result, source; with "
		"--json as key explain"},
	{"readings", '\0', "LINE",
		"judge this instead of a file: percent recovered and degC, as 'ibp 71, 5 112.5, 10 "
		"131'"},
	{"files-from", '\0', "LIST", "also judge the files named in LIST, one a line; - is stdin"},
	{"want", '\0', "GRADE",
		"exit 1 unless it is usable as GRADE or a cut makes it so, as diesel-range"},
	{"standard", '\0', "NAME", "the same for one standard; the beginning of its name will do"},
	{"limits", '\0', "FILE", "limits from a CSV file (default: those of 'boilcut limits')"},
	{"same", '\0', NULL,
		"the files are runs of one sample: one judgement of their mean, with their spread "
		"in place of the assumed one"},
	{"control", '\0', NULL,
		"the files are a control sample, oldest first (or by their dates): the newest "
		"against those before; exit 1 out of its own limits"},
	{"keep-all", '\0', NULL,
		"readings and runs that do not belong among the others stay in use; they are named "
		"all the same"},
	{"draws", '\0', "N",
		"how often the inputs are drawn for the bounds, 100 or more; 0: by derivatives "
		"(default: 1000)"},
	{"seed", '\0', "N", "another sequence of draws (default: 1)"},
	{"charts", '\0', "DIR", "also write charts into DIR, as 'boilcut draw' does"},
	{"page", '\0', "FILE.html",
		"also write one page for a phone or paper that needs nothing else"},
	{"learn", '\0', "DIR",
		"move and narrow the flash estimate by the closed cups ('flash' keys) in the files "
		"of DIR, 3 or more of this feed and still"},
	{"fits", '\0', NULL, "show every fitted family with its rms (degC) and AICc"},
	{"colour", '\0', "WHEN",
		"auto, always or never (default: auto, on a terminal without NO_COLOR)"},
};

static const char *const synopses[] = {
	"judge [OPTION...] FILE...",
	"judge [OPTION...] --readings LINE",
	"judge [OPTION...] --same RUN1 RUN2...",
	"judge [--json] --control OLD... NEWEST",
	NULL,
};

static const char *const examples[] = {
	"boilcut judge --readings 'ibp 171, 5 184, 10 190, 50 222, 90 262, fbp 284'",
	"boilcut judge samples/lake-shed-14.csv --want heating-oil-range --json",
	NULL,
};

const struct bc_command bc_judge_command = {
	.name = "judge",
	.summary = "what an oil is, how dangerous, what to do next",
	.synopses = synopses,
	.about =
		"Corrects the readings, draws the curve, estimates flash and other properties with "
		"their 95 % bounds, holds them against the limits of each grade, and says: usable, "
		"re-run, unfit or undecided.\n"
		"Temperatures are degC; shares are % by volume; 'boilcut new' writes a file to "
		"fill in.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_judge,
};
