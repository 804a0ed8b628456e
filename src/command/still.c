/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut still': the stills that are kept, one described by its measures, one calibrated. */
#include <jansson.h>
#include <string.h>

#include "base/memory.h"
#include "command/arguments.h"
#include "command/output.h"
#include "command/still_names.h"
#include "command/still_tasks.h"
#include "report/still.h"

int bc_still_only(const struct bc_arguments *arguments, const char *const *allowed)
{
	for (size_t i = 0; i < arguments->n_given; i++) {
		const char *name = arguments->given[i].option->name;
		size_t at = 0;
		while (allowed[at] != NULL && strcmp(allowed[at], name) != 0)
			at++;
		if (allowed[at] == NULL)
			return bc_wrong_usage(arguments->command,
				"'--%s' is nothing for 'still %s'; expected another option", name,
				arguments->operands[0]);
	}
	return BC_EXIT_DONE;
}

int bc_still_record_of(const struct bc_arguments *arguments, struct bc_still_record *record)
{
	const char *name = bc_arguments_value(arguments, "name");
	struct bc_diagnostics diagnostics;
	*record = bc_still_record_new();
	if (name == NULL)
		return BC_EXIT_DONE;
	if (!bc_still_name_is_safe(name))
		return bc_wrong_usage(arguments->command,
			"'%s' is not a name of a still; expected letters, digits, blanks and ._-, a "
			"letter or digit first",
			name);
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = bc_still_load(name, &diagnostics, record);
	bc_print_diagnostics(&diagnostics);
	bc_diagnostics_release(&diagnostics);
	memcpy(record->still.name, name, strlen(name) + 1);
	if (status == BC_NO_MEMORY)
		return bc_no_memory();
	return status == BC_NOT_FOUND ? BC_EXIT_DONE : bc_exit_from_status(status);
}

int bc_still_keep(
	const struct bc_arguments *arguments, const struct bc_still_record *record, char **path)
{
	struct bc_diagnostics diagnostics;
	*path = NULL;
	if (!bc_arguments_has(arguments, "name"))
		return BC_EXIT_DONE;
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = bc_still_save(record, &diagnostics);
	if (!bc_failed(status)) {
		*path = bc_still_path(record->still.name);
		status = *path == NULL ? BC_NO_MEMORY : BC_OK;
	}
	bc_print_diagnostics(&diagnostics);
	bc_diagnostics_release(&diagnostics);
	return status == BC_NO_MEMORY ? bc_no_memory() : bc_exit_from_status(status);
}

/* ---- list and show */

static void list_one(const char *name, struct bc_text *text)
{
	struct bc_still_record record;
	struct bc_diagnostics diagnostics;
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = bc_still_load(name, &diagnostics, &record);
	bc_text_printf(text, "%-20s ", name);
	if (bc_failed(status))
		bc_text_append(text, "its file cannot be read");
	else
		bc_still_in_words(&record.still, text);
	bc_text_append(text, "\n");
	bc_print_diagnostics(&diagnostics);
	bc_diagnostics_release(&diagnostics);
}

static int print_names(const struct bc_strings *names)
{
	bool failed = false;
	json_t *array = json_array();
	for (size_t i = 0; i < names->n && !failed; i++)
		failed = json_array_append_new(array, json_string(names->items[i])) != 0;
	bool done = !failed && array != NULL && bc_out_json(array, 0);
	json_decref(array);
	return done ? BC_EXIT_DONE : bc_no_memory();
}

static int list(const struct bc_arguments *arguments)
{
	static const char *const allowed[] = {"json", NULL};
	struct bc_strings names;
	struct bc_text text;
	struct bc_diagnostics diagnostics;
	int result = bc_arguments_count(arguments, 1, 1, "word");
	if (result == BC_EXIT_DONE)
		result = bc_still_only(arguments, allowed);
	if (result != BC_EXIT_DONE)
		return result;
	bc_strings_init(&names);
	bc_text_init(&text);
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = bc_still_list(&names, &diagnostics);
	bc_print_diagnostics(&diagnostics);
	if (bc_failed(status)) {
		result = status == BC_NO_MEMORY ? bc_no_memory() : bc_exit_from_status(status);
	} else if (bc_arguments_has(arguments, "json")) {
		result = print_names(&names);
	} else {
		for (size_t i = 0; i < names.n; i++)
			list_one(names.items[i], &text);
		if (names.n == 0)
			bc_text_append(&text, "No still is kept yet: 'boilcut still describe' and "
					      "'boilcut still calibrate' keep one with --name.\n");
		if (text.failed)
			result = bc_no_memory();
		else
			bc_out_text(&text);
	}
	bc_diagnostics_release(&diagnostics);
	bc_text_release(&text);
	bc_strings_release(&names);
	return result;
}

static int show(const struct bc_arguments *arguments)
{
	static const char *const allowed[] = {"json", NULL};
	struct bc_still_record record;
	struct bc_text text;
	int result = bc_arguments_count(arguments, 2, 2, "NAME");
	if (result == BC_EXIT_DONE)
		result = bc_still_only(arguments, allowed);
	if (result == BC_EXIT_DONE)
		result = bc_still_named(arguments->command, arguments->operands[1], &record);
	if (result != BC_EXIT_DONE)
		return result;
	if (bc_arguments_has(arguments, "json")) {
		json_t *json = bc_report_still_record_json(&record);
		bool done = bc_out_json(json, 0);
		json_decref(json);
		return done ? BC_EXIT_DONE : bc_no_memory();
	}
	struct bc_page_style style = {.colour = bc_wants_colour("auto")};
	bc_text_init(&text);
	if (bc_failed(bc_report_still_record(&record, &style, &text)))
		result = bc_no_memory();
	else
		bc_out_text(&text);
	bc_text_release(&text);
	return result;
}

/* ---- the command */

static int run_still(const struct bc_arguments *arguments)
{
	static const char *const verbs[] = {"list", "show", "describe", "calibrate"};
	int result =
		bc_arguments_count(arguments, 1, (size_t)-1, "list, show, describe or calibrate");
	if (result != BC_EXIT_DONE)
		return result;
	const char *verb = arguments->operands[0];
	if (strcmp(verb, "list") == 0)
		return list(arguments);
	if (strcmp(verb, "show") == 0)
		return show(arguments);
	if (strcmp(verb, "describe") == 0)
		return bc_still_describe(arguments);
	if (strcmp(verb, "calibrate") == 0)
		return bc_still_calibrate(arguments);
	return bc_wrong_word(arguments->command, verb, "something that still does", verbs, 4);
}

static const struct bc_option options[] = {
	{"name", '\0', "NAME", "keep it under this name, or add to what is kept"},
	{"json", '\0', NULL, "one JSON value"},
	{"riser", '\0', "LENGTH", "describe: inner diameter of the riser, as 25mm"},
	{"height", '\0', "LENGTH", "describe: its height, or of what is packed, as 300mm"},
	{"packing", '\0', "WORD",
		"describe: none, scrubbers, rings-6mm, rings-13mm, marbles-10mm or pricked-glass "
		"(default: none)"},
	{"lagging", '\0', "LENGTH", "describe: wool around it, as 25mm (default: bare)"},
	{"head-reflux", '\0', "R",
		"describe: what a head returns on purpose over what it gives (default: 0)"},
	{"heater", '\0', "POWER", "describe: heat into the pot, as 500W"},
	{"charge", '\0', "VOLUME", "describe: what goes into the pot, as 2L"},
	{"vacuum", '\0', "P", "describe: absolute pressure of the run (default: 101.3kPa)"},
	{"thermometer", '\0', "WORDS",
		"describe: of the still's own head: glass d86, glass partial, glass total, probe"},
	{"before", '\0', "FILE", "calibrate: boil-off of what went in; may be repeated"},
	{"known", '\0', "BLEND",
		"calibrate: instead of a feed file, pure liquids in % by volume, as "
		"heptane=50,toluene=50"},
	{"after", '\0', "FILE", "calibrate: boil-off of the product; one for each feed"},
	{"cut", '\0', "T",
		"calibrate: where the product begins: corrected head 170C, or % over by volume 26% "
		"(default: its key 'jar from')"},
	{"until", '\0', "T",
		"calibrate: where it ends, in the same way (default: 'jar to', else as far as its "
		"own readings say)"},
	{"as-read", '\0', NULL, "calibrate: both turns are what your thermometer showed"},
	{"heads", '\0', "FILE", "calibrate: head readings of the run itself, as a sample file"},
	{"charts", '\0', "DIR", "calibrate: also write predicted against read as charts into DIR"},
};

static const char *const synopses[] = {
	"still describe --riser LENGTH --height LENGTH [OPTION...]",
	"still calibrate --before FILE --after FILE --cut T [OPTION...]",
	"still calibrate --known BLEND --heads FILE [OPTION...]",
	"still list",
	"still show NAME",
	NULL,
};

static const char *const examples[] = {
	"boilcut still describe --riser 25mm --height 300mm --packing scrubbers",
	"boilcut still calibrate --before samples/in-12.csv --after samples/out-12.csv",
	NULL,
};

const struct bc_command bc_still_command = {
	.name = "still",
	.summary = "what your still is worth: described, calibrated, kept by name",
	.synopses = synopses,
	.about = "describe: from the measures of the riser an estimate of plates, reflux of the "
		 "wall, the heat at which it floods and what it holds. calibrate: the effective "
		 "plates and the carry-over that explain what your still made of an oil, from the "
		 "boil-offs before and after, or from the heads of a known blend; several runs are "
		 "put together. list and show: what is kept.\n"
		 "With --name the still is kept as a plain file in boilcut/stills under "
		 "XDG_DATA_HOME (~/.local/share), and 'tap --still NAME' and the sample keys "
		 "'still' and 'apparatus' use it. Exit 1: no such still, or a pair that does not "
		 "tell; then nothing is kept.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_still,
};
