/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut watch': the notebook of a boil-off while it goes on. */
#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <string.h>
#include <unistd.h>

#include "base/clock.h"
#include "base/file.h"
#include "base/memory.h"
#include "base/units.h"
#include "command/amount.h"
#include "command/case.h"
#include "command/output.h"
#include "command/watch_run.h"

#define STALL_S 30.0 /* a logger that says nothing for so long; common practice */

static const char *base_of(const char *path)
{
	const char *slash = strrchr(path, '/');
	return slash != NULL ? slash + 1 : path;
}

/* ---- the sheet and the journal */

/* FILE as a sheet to fill in; *sheet is NULL where there is none. */
static int read_sheet(struct watch_run *run, struct bc_sample **sheet, char *unit)
{
	const struct bc_unit *head_unit = NULL;
	struct bc_diagnostics diagnostics;
	*sheet = NULL;
	if (access(run->path, F_OK) != 0 && errno == ENOENT)
		return BC_EXIT_DONE;
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = bc_file_read(
		run->path, BC_SAMPLE_LIMIT_BYTES, &run->first_bytes, &run->n_first, &diagnostics);
	if (!bc_failed(status))
		status = bc_sample_read_sheet(
			run->first_bytes, run->n_first, run->path, &diagnostics, sheet, &head_unit);
	bc_print_diagnostics(&diagnostics);
	bc_diagnostics_release(&diagnostics);
	if (status == BC_NO_MEMORY)
		return bc_no_memory();
	if (bc_failed(status))
		return bc_exit_from_status(status);
	if (strchr("CFK", bc_unit_name(head_unit)[0]) == NULL) {
		bc_complain("%s: has its head in %s; C, F or K was expected", run->path,
			bc_unit_name(head_unit));
		return BC_EXIT_DATA;
	}
	*unit = bc_unit_name(head_unit)[0];
	return BC_EXIT_DONE;
}

static int open_journal(struct watch_run *run, const struct bc_sample *sheet, char unit)
{
	const struct bc_journal_head head = {
		sheet != NULL ? sheet->amount_basis : BC_AMOUNT_VOLUME_PCT, unit,
		base_of(run->path)};
	struct bc_diagnostics diagnostics;
	bc_diagnostics_init(&diagnostics);
	enum bc_status status =
		bc_journal_open(&run->journal, run->journal_path, &head, &diagnostics);
	bc_print_diagnostics(&diagnostics);
	bc_diagnostics_release(&diagnostics);
	return status == BC_NO_MEMORY ? bc_no_memory() : bc_exit_from_status(status);
}

/* Readings in FILE itself are those of a run that was finished, or not ours to add to. */
static int check_finished(struct watch_run *run, const struct bc_sample *sheet, bool fresh)
{
	struct bc_text now;
	struct bc_text then;
	struct bc_sample *sample = NULL;
	bc_text_init(&now);
	bc_text_init(&then);
	bool same = !fresh && !bc_failed(bc_sample_write(sheet, &then)) &&
		    !bc_failed(bc_notebook_sample(&run->watching.notebook, NULL, NULL, &sample)) &&
		    !bc_failed(bc_sample_write(sample, &now)) && now.length == then.length &&
		    memcmp(now.data, then.data, now.length) == 0;
	bc_sample_free(sample);
	bc_text_release(&now);
	bc_text_release(&then);
	if (!same) {
		bc_complain(
			"%s: holds readings already; a sheet to fill in was expected, as 'boilcut "
			"new' writes",
			run->path);
		if (fresh)
			(void)bc_journal_remove(&run->journal, NULL);
		return BC_EXIT_DATA;
	}
	bc_out("this run is finished: the sample file is whole, and its journal is removed\n");
	run->ended = true;
	return bc_exit_from_status(bc_journal_remove(&run->journal, NULL));
}

/* What a power cut left, and how far the run is. */
static void prepare_welcome(struct watch_run *run)
{
	const struct bc_journal_text *text = &run->journal.text;
	const struct bc_notebook *notebook = &run->watching.notebook;
	struct bc_text *words = &run->welcome;
	if (text->torn) {
		bc_text_append(words,
			"the last line of the journal was cut off and does not count: "
			"'");
		bc_text_append_escaped(words, text->torn_text);
		bc_text_append(words, "'\n");
	}
	if (text->mended)
		bc_text_append(words, "the last line of the journal lacked its end; it counts\n");
	if (!text->fresh)
		bc_text_printf(words, "going on: %zu %s in the journal\n", notebook->n_noted,
			notebook->n_noted == 1 ? "reading is" : "readings are");
	else
		bc_text_append(words, "every entry is safe once it is answered; 'help' lists what "
				      "can be written\n");
}

static int begin(struct watch_run *run, const struct bc_sample *sheet, bool filled)
{
	struct bc_watching *watching = &run->watching;
	struct bc_journal_text *text = &run->journal.text;
	watching->notebook.file = run->path;
	enum bc_status status = bc_notebook_begin(&watching->notebook, sheet, text->head.unit);
	watching->notebook.basis = text->head.basis;
	if (!bc_failed(status))
		status = bc_watching_begin(watching, &text->entries, bc_clock_now(), &run->welcome);
	int result = bc_exit_from_status(status);
	if (status == BC_NO_MEMORY)
		result = bc_no_memory();
	else if (bc_failed(status))
		bc_case_complain(run->path, status);
	if (result == BC_EXIT_DONE && filled)
		result = check_finished(run, sheet, text->fresh);
	else if (result == BC_EXIT_DONE)
		prepare_welcome(run);
	return result;
}

/* ---- a sheet that is not there */

static bool read_line(char *line, size_t size)
{
	size_t n = 0;
	char byte = '\0';
	while (read(STDIN_FILENO, &byte, 1) == 1) {
		if (byte == '\n') {
			line[n] = '\0';
			return true;
		}
		if (n + 1 < size)
			line[n++] = byte;
	}
	return false;
}

/* What matters most for the judgement; an empty answer leaves a key empty. */
static void ask_keys(struct watch_run *run)
{
	static const char *const keys[][2] = {
		{"feed", "feed, as PE and PP caps"},
		{"history", "history: retort, rerun or aired"},
		{"density", "density, as 0.803 g/mL @ 21 C"},
		{"altitude", "altitude, as 612 m"},
		{"thermometer", "thermometer: glass d86, glass partial, glass total or probe"},
	};
	char line[200];
	bc_out("there is no such file yet; Enter leaves a line empty\n");
	for (size_t i = 0; i < sizeof keys / sizeof *keys && !run->ended; i++) {
		bc_out(keys[i][1]);
		bc_out("> ");
		if (!read_line(line, sizeof line)) {
			run->ended = true;
			return;
		}
		watch_answer(run, keys[i][0], line);
	}
}

/* ---- the end */

/* "y" judges the finished sample. */
static int offer_judgement(struct watch_run *run)
{
	char answer[16];
	struct bc_text words;
	bc_text_init(&words);
	bc_text_append_escaped(&words, run->path);
	bc_text_append(&words, " is written");
	if (run->terminal)
		bc_text_append(&words, "; judge it now? y or n> ");
	else {
		bc_text_append(&words, "; judge it with: boilcut judge ");
		bc_text_append_escaped(&words, run->path);
		bc_text_append(&words, "\n");
	}
	bc_out_text(&words);
	bc_text_release(&words);
	if (!run->terminal || !read_line(answer, sizeof answer) ||
		(answer[0] != 'y' && answer[0] != 'Y'))
		return BC_EXIT_DONE;
	const char *operands[] = {run->path};
	const struct bc_arguments arguments = {
		.command = &bc_judge_command, .operands = operands, .n_operands = 1};
	bc_out("\n");
	return bc_judge_command.run(&arguments);
}

static void say_stopped(const struct watch_run *run)
{
	struct bc_text words;
	size_t n = run->watching.notebook.n_noted;
	bc_text_init(&words);
	bc_text_printf(
		&words, "stopped; %zu %s safe in ", n, n == 1 ? "reading is" : "readings are");
	bc_text_append_escaped(&words, run->journal_path);
	bc_text_append(&words, "\nto go on: boilcut watch ");
	bc_text_append_escaped(&words, run->path);
	bc_text_append(&words, "\n");
	bc_out_text(&words);
	bc_text_release(&words);
}

static int go(struct watch_run *run, bool ask)
{
	if (ask && run->terminal)
		ask_keys(run);
	if (run->source.path != NULL)
		watch_source_open(run);
	watch_screen_open(run);
	watch_show(run, &run->welcome);
	int result = run->ended ? run->result : watch_loop(run);
	watch_screen_close(run);
	watch_source_total(run);
	if (run->finished && result == BC_EXIT_DONE)
		result = offer_judgement(run);
	else if (!run->finished)
		say_stopped(run);
	return result;
}

/* ---- options */

static int read_source(struct watch_run *run, const struct bc_arguments *arguments, char *unit)
{
	const struct bc_amount stall = {
		"stall", BC_QUANTITY_TIME, true, "a time such as 30s", 1.0, 3600.0};
	const char *word = bc_arguments_value(arguments, "unit");
	struct watch_source *source = &run->source;
	source->path = bc_arguments_value(arguments, "from");
	source->stall_s = STALL_S;
	if (word != NULL && (strlen(word) != 1 || strchr("CFK", word[0]) == NULL))
		return bc_wrong_usage(arguments->command,
			"'%s' is not a unit of temperature here; expected C, F or K", word);
	if (source->path != NULL && *source->path == '\0')
		return bc_wrong_usage(
			arguments->command, "'--from' names nothing; expected a device, or -");
	if (source->path == NULL && bc_arguments_has(arguments, "stall"))
		return bc_wrong_usage(
			arguments->command, "'--stall' is about a logger; expected --from too");
	if (word != NULL)
		*unit = word[0];
	return bc_amount_read(arguments, &stall, &source->stall_s);
}

static void set_streams(struct watch_run *run)
{
	bool taken = run->source.path != NULL && strcmp(run->source.path, "-") == 0;
	run->typed_fd = taken ? open("/dev/tty", O_RDONLY | O_CLOEXEC) : STDIN_FILENO;
	run->terminal = !taken && isatty(STDIN_FILENO) && isatty(STDOUT_FILENO);
	run->watching.sure = run->typed_fd < 0;
}

static int check_path(const struct bc_arguments *arguments)
{
	int result = bc_arguments_count(arguments, 1, 1, "FILE");
	if (result != BC_EXIT_DONE)
		return result;
	const char *path = arguments->operands[0];
	if (strcmp(path, "-") == 0)
		return bc_wrong_usage(
			arguments->command, "standard input keeps no journal; expected FILE");
	for (const char *s = path; *s != '\0'; s++) {
		if ((unsigned char)*s < ' ')
			return bc_wrong_usage(arguments->command,
				"'%s' has a control character in it; expected a plain name", path);
	}
	return watch_picture_check(arguments);
}

static int open_run(struct watch_run *run, const struct bc_limits *limits)
{
	struct bc_sample *sheet = NULL;
	char unit = 'C';
	int result = read_source(run, run->arguments, &unit);
	char logger_unit = unit;
	if (result == BC_EXIT_DONE)
		result = read_sheet(run, &sheet, &unit);
	if (result == BC_EXIT_DONE)
		result = watch_plan_open(run->arguments, limits, sheet, &run->watching.plan);
	if (result == BC_EXIT_DONE)
		result = open_journal(run, sheet, unit);
	if (result == BC_EXIT_DONE)
		result = begin(run, sheet, sheet != NULL && sheet->n_readings > 0);
	if (result == BC_EXIT_DONE && !run->ended) {
		char notebook_unit[] = {run->watching.notebook.unit, '\0'};
		char own_unit[] = {logger_unit, '\0'};
		bc_logger_init(&run->source.logger, bc_unit_find(BC_QUANTITY_TEMPERATURE, own_unit),
			bc_unit_find(BC_QUANTITY_TEMPERATURE, notebook_unit));
		set_streams(run);
		result = go(run, sheet == NULL && run->journal.text.fresh);
	}
	bc_sample_free(sheet);
	return result;
}

static int run_watch(const struct bc_arguments *arguments)
{
	struct bc_limits *limits = NULL;
	int result = check_path(arguments);
	if (result != BC_EXIT_DONE)
		return result;
	struct watch_run *run = bc_alloc(sizeof *run);
	if (run == NULL)
		return bc_no_memory();
	run->arguments = arguments;
	run->path = arguments->operands[0];
	run->picture = bc_arguments_value(arguments, "picture");
	run->source.fd = -1;
	run->journal_path = bc_format("%s.journal", run->path);
	bc_watching_init(&run->watching);
	bc_journal_init(&run->journal);
	bc_lines_init(&run->typed);
	bc_text_init(&run->welcome);
	run->watching.clock = !bc_arguments_has(arguments, "paper");
	result = run->journal_path == NULL
			 ? bc_no_memory()
			 : bc_case_limits(bc_arguments_value(arguments, "limits"), &limits);
	run->watching.options = (struct bc_judge_options){.limits = limits, .want = BC_GRADES};
	if (result == BC_EXIT_DONE && !watch_signals_catch()) {
		bc_complain("cannot catch signals: %s", strerror(errno));
		result = BC_EXIT_SYSTEM;
	}
	if (result == BC_EXIT_DONE)
		result = open_run(run, limits);
	watch_signals_release();
	bc_text_release(&run->welcome);
	watch_source_close(&run->source);
	bc_free(run->watching.plan);
	bc_watching_release(&run->watching);
	bc_journal_close(&run->journal);
	bc_free(run->journal_path);
	bc_free(run->first_bytes);
	bc_free(run);
	bc_limits_free(limits);
	return result;
}

static const struct bc_option options[] = {
	{"paper", '\0', NULL, "type in a run that stands on paper: no clock, no rates"},
	{"plan", '\0', "TAP", "count down to the turns of a plan that 'tap --json' wrote"},
	{"feed", '\0', "SAMPLE", "the same, planned now for the oil of SAMPLE; with --want"},
	{"want", '\0', "GRADE", "what the feed is to give, as diesel-range"},
	{"standard", '\0', "NAME", "the same for one standard; the beginning of its name will do"},
	{"near", '\0', "T", "a turn is near within so many degrees (default: 5)"},
	{"from", '\0', "SOURCE",
		"lines of a data logger: a device, or - for standard input; numbers or CSV"},
	{"unit", '\0', "C|F|K",
		"of the logger, and of what is typed where FILE does not say (default: C)"},
	{"stall", '\0', "TIME", "say that the logger stands still after this (default: 30s)"},
	{"picture", '\0', "NAME",
		"after each reading draw the curve: a gnuplot script NAME.gp, or also NAME.svg or .png"},
	{"no-sketch", '\0', NULL, "no sketch of the curve above the lines"},
	{"plain", '\0', NULL, "the sketch in ASCII (default: where the locale is not UTF-8)"},
	{"limits", '\0', "FILE", "limits from a CSV file (default: those of 'boilcut limits')"},
};

static const char *const synopses[] = {
	"watch [OPTION...] FILE",
	"watch [OPTION...] --from SOURCE FILE",
	"watch [OPTION...] --plan TAP FILE",
	NULL,
};

static const char *const examples[] = {
	"boilcut watch other-jar.csv",
	"boilcut watch --paper other-jar.csv",
	NULL,
};

const struct bc_command bc_watch_command = {
	.name = "watch",
	.summary = "enter readings while the flask boils, and lose none",
	.synopses = synopses,
	.about =
		"The notebook of a boil-off: write '5 112.5', or '112.5' alone for the next place; "
		"'help' lists the rest. Each reading is checked and is on the disk, in FILE.journal, "
		"before it is answered with its corrected temperature, the rate, the next temperature "
		"and the estimates so far. Alarms tell of water, a falling head, haste, a hot pot and "
		"a turn of the tap.\n"
		"Ctrl-C, 'quit' or a power cut lose nothing: the same command goes on. 'finish' writes "
		"FILE. A FILE of 'boilcut new' brings its keys along, and percent or mL.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_watch,
};
