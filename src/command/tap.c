/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut tap': where to turn the tap of a still, and what lands in each jar. */
#include "report/tap.h"
#include "command/arguments.h"
#include "command/output.h"
#include "command/pictures.h"
#include "command/tap_request.h"

static int print(const struct bc_arguments *arguments, const struct bc_tapping *tapping)
{
	if (bc_arguments_has(arguments, "json")) {
		json_t *json = bc_report_tap_json(tapping);
		bool done = bc_out_json(json, 0);
		json_decref(json);
		return done ? BC_EXIT_DONE : bc_no_memory();
	}
	struct bc_page_style style = {.colour = bc_wants_colour("auto")};
	struct bc_text text;
	bc_text_init(&text);
	int result =
		bc_report_tap_text(tapping, &style, &text) == BC_OK ? BC_EXIT_DONE : bc_no_memory();
	if (result == BC_EXIT_DONE)
		bc_out_text(&text);
	bc_text_release(&text);
	return result;
}

static enum bc_status write_chart(const void *subject, const char *kind, struct bc_text *script)
{
	return bc_report_tap_chart(subject, kind, script);
}

static int draw(const char *folder, const struct bc_tapping *tapping)
{
	struct bc_pictures pictures;
	int result = bc_pictures_open(&pictures, folder);
	if (result == BC_EXIT_DONE)
		result = bc_pictures_draw_all(
			&pictures, tapping->sample->file, bc_tap_chart_kinds, write_chart, tapping);
	bc_pictures_close(&pictures);
	return result;
}

static int write_page(const char *path, const struct bc_tapping *tapping)
{
	struct bc_text html;
	bc_text_init(&html);
	int result = bc_report_tap_page(tapping, &html) == BC_OK ? bc_out_file(path, &html)
								 : bc_no_memory();
	bc_text_release(&html);
	return result;
}

static int use(const struct bc_arguments *arguments, const struct bc_tapping *tapping)
{
	const char *folder = bc_arguments_value(arguments, "charts");
	const char *page = bc_arguments_value(arguments, "page");
	int result = print(arguments, tapping);
	if (result == BC_EXIT_DONE && tapping->has_want && !bc_tap_answers(tapping))
		result = BC_EXIT_NEGATIVE;
	int drawn = folder != NULL ? draw(folder, tapping) : BC_EXIT_DONE;
	result = drawn > result ? drawn : result;
	int written = page != NULL ? write_page(page, tapping) : BC_EXIT_DONE;
	return written > result ? written : result;
}

static int run_tap(const struct bc_arguments *arguments)
{
	int result = bc_arguments_count(arguments, 1, 1, "FILE");
	if (result == BC_EXIT_DONE)
		result = bc_arguments_folder(arguments, "charts");
	if (result == BC_EXIT_DONE)
		result = bc_arguments_page(arguments, "page", false);
	return result == BC_EXIT_DONE ? bc_tapping_of(arguments, arguments->operands[0], use)
				      : result;
}

static const struct bc_option options[] = {
	BC_TAP_OPTIONS,
	{"json", '\0', NULL, "one JSON object"},
	{"charts", '\0', "DIR", "also write charts of the run and of the choice into DIR"},
	{"page", '\0', "FILE.html", "also write one page for a phone or paper"},
};

static const char *const synopses[] = {
	"tap [OPTION...] --want GRADE FILE",
	"tap [OPTION...] --cuts LIST FILE",
	"tap [OPTION...] --split FILE",
	NULL,
};

static const char *const examples[] = {
	"boilcut tap samples/light-ends.csv --want heating-oil-range --charge 40L",
	"boilcut tap samples/light-ends.csv --cuts 170C,300C --plates 1 --heater 2kW",
	NULL,
};

const struct bc_command bc_tap_command = {
	.name = "tap",
	.summary = "where to turn the tap of a still, what lands in each jar",
	.synopses = synopses,
	.about =
		"Simulates the distillation of the oil on your still and says when to change jars, "
		"on your thermometer and at your altitude, and what lands in each jar: how much, its "
		"flash with bounds, what it is good for, and the heat and time it takes.\n"
		"For an oil that exists and is distilled again; never for the cracking run.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_tap,
};
