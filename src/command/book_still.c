/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut book still': the plain files of stills, each version kept. */
#include <string.h>

#include "base/file.h"
#include "base/memory.h"
#include "base/number.h"
#include "book/jars.h"
#include "book/stills.h"
#include "command/arguments.h"
#include "command/book.h"
#include "command/book_answer.h"
#include "command/output.h"
#include "report/pair.h"

/* The file's name without folders and ending. */
static char *stem_of(const char *path)
{
	const char *slash = strrchr(path, '/');
	const char *name = slash != NULL ? slash + 1 : path;
	const char *dot = strrchr(name, '.');
	return bc_strndup(name, dot != NULL && dot != name ? (size_t)(dot - name) : strlen(name));
}

static int read_plain(const char *path, char **text)
{
	struct bc_diagnostics diagnostics;
	size_t n = 0;
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = bc_file_read(path, BC_BOOK_STILL_BYTES, text, &n, &diagnostics);
	bool plain = !bc_failed(status) && n > 0 && strlen(*text) == n;
	for (size_t at = 0; plain && at < n;) {
		size_t length = bc_utf8_length(*text + at);
		plain = length > 0;
		at += length;
	}
	bc_print_diagnostics(&diagnostics);
	bc_diagnostics_release(&diagnostics);
	if (!bc_failed(status) && !plain) {
		bc_complain("%s: is no plain text in UTF-8; expected the file of a still", path);
		return BC_EXIT_DATA;
	}
	return status == BC_NO_MEMORY ? bc_no_memory() : bc_exit_from_status(status);
}

static int keep(struct bc_shelf *shelf, const struct bc_arguments *arguments, const char *name,
	const char *file)
{
	struct bc_answer answer;
	struct bc_book_still still = {0};
	long long version = 0;
	bool already = false;
	int result = bc_answer_begin(&answer, arguments, shelf, true);
	if (result == BC_EXIT_DONE)
		result = bc_shelf_say(
			shelf, bc_book_still_add(&shelf->book, name, file, &version, &already));
	if (result == BC_EXIT_DONE && already) {
		bc_complain("%s: version %lld of still '%s' is the same; nothing has been added",
			shelf->book.path, version, name);
		result = BC_EXIT_NEGATIVE;
	}
	if (result == BC_EXIT_DONE)
		result = bc_shelf_say(
			shelf, bc_book_still_read(&shelf->book, name, version, &still));
	if (result == BC_EXIT_DONE && answer.wants_json) {
		answer.json = bc_report_book_still_json(&still);
	} else if (result == BC_EXIT_DONE) {
		bc_text_append(&answer.text, "Still ");
		bc_text_append_escaped(&answer.text, still.name);
		bc_text_printf(&answer.text, ": version %lld kept\n", version);
	}
	bc_book_still_release(&still);
	return bc_answer_end(&answer, shelf, result);
}

static int run_add(const struct bc_arguments *arguments, struct bc_shelf *shelf)
{
	const char *path = arguments->operands[1];
	const char *stated = bc_arguments_value(arguments, "name");
	char *name = stated != NULL ? bc_strdup(stated) : stem_of(path);
	char *file = NULL;
	int result = BC_EXIT_DONE;
	if (name == NULL)
		return bc_no_memory();
	if (!bc_jar_id_valid(name))
		result = bc_wrong_usage(arguments->command,
			"'%s' cannot be the name of a still; expected up to %d bytes in one line, "
			"--name says another",
			name, BC_BOOK_STILL_NAME_SIZE - 1);
	if (result == BC_EXIT_DONE)
		result = read_plain(path, &file);
	if (result == BC_EXIT_DONE)
		result = keep(shelf, arguments, name, file);
	bc_free(file);
	bc_free(name);
	return result;
}

static int run_list(const struct bc_arguments *arguments, struct bc_shelf *shelf)
{
	struct bc_answer answer;
	struct bc_book_stills stills = {0};
	int result = bc_answer_begin(&answer, arguments, shelf, false);
	if (result == BC_EXIT_DONE)
		result = bc_shelf_say(shelf, bc_book_still_list(&shelf->book, &stills));
	if (result == BC_EXIT_DONE && !answer.wants_json)
		bc_report_book_stills(&stills, &answer.text);
	else if (result == BC_EXIT_DONE)
		answer.json = json_array();
	for (size_t i = 0; answer.json != NULL && i < stills.n && result == BC_EXIT_DONE; i++) {
		if (json_array_append_new(
			    answer.json, bc_report_book_still_json(&stills.items[i])) != 0)
			result = bc_no_memory();
	}
	bc_book_stills_release(&stills);
	return bc_answer_end(&answer, shelf, result);
}

static int print_still(const struct bc_arguments *arguments, struct bc_shelf *shelf,
	const struct bc_book_still *still)
{
	struct bc_answer answer;
	int result = bc_answer_begin(&answer, arguments, shelf, false);
	if (answer.wants_json)
		answer.json = bc_report_book_still_json(still);
	else if (bc_arguments_has(arguments, "original"))
		bc_text_append(&answer.text, still->text);
	else
		bc_report_book_still(still, &answer.text);
	return bc_answer_end(&answer, shelf, result);
}

static int run_show(const struct bc_arguments *arguments, struct bc_shelf *shelf)
{
	const char *name = arguments->operands[1];
	const char *stated = bc_arguments_value(arguments, "version");
	struct bc_book_still still;
	double version = 0.0;
	if (stated != NULL &&
		(!bc_number_parse(stated, '.', &version) || !(version >= 1.0 && version <= 1e9)))
		return bc_wrong_usage(
			arguments->command, "'%s' is not a version; expected 1 or more", stated);
	enum bc_status status = bc_book_still_read(&shelf->book, name, (long long)version, &still);
	int result = bc_shelf_say(shelf, status);
	if (status == BC_NOT_FOUND)
		bc_complain(
			"%s: no still '%s'%s%s; expected one that 'boilcut book still list' shows",
			shelf->book.path, name, stated != NULL ? " of version " : "",
			stated != NULL ? stated : "");
	else if (result == BC_EXIT_DONE)
		result = print_still(arguments, shelf, &still);
	bc_book_still_release(&still);
	return result;
}

static const struct task {
	const char *name;
	size_t words; /* behind it */
	const char *what;
	int (*run)(const struct bc_arguments *arguments, struct bc_shelf *shelf);
} tasks[] = {
	{"add", 1, "FILE", run_add},
	{"list", 0, "no more", run_list},
	{"show", 1, "NAME", run_show},
};
#define TASKS (sizeof tasks / sizeof tasks[0])

static int run_still(const struct bc_arguments *arguments)
{
	const char *names[TASKS];
	struct bc_shelf shelf = {0};
	const struct task *task = NULL;
	if (arguments->n_operands == 0)
		return bc_wrong_usage(
			arguments->command, "book still lacks a word; expected one such as 'list'");
	for (size_t i = 0; i < TASKS; i++) {
		names[i] = tasks[i].name;
		if (strcmp(arguments->operands[0], tasks[i].name) == 0)
			task = &tasks[i];
	}
	if (task == NULL)
		return bc_wrong_word(arguments->command, arguments->operands[0],
			"something that book still does", names, TASKS);
	if (arguments->n_operands - 1 != task->words)
		return bc_wrong_usage(arguments->command,
			"book still %s has %zu words behind it; expected %s", task->name,
			arguments->n_operands - 1, task->what);
	int result = bc_shelf_open(arguments, &shelf);
	if (result == BC_EXIT_DONE)
		result = task->run(arguments, &shelf);
	bc_shelf_close(&shelf);
	return result;
}

static const struct bc_option options[] = {
	BC_BOOK_OPTION,
	{"name", '\0', "NAME", "add: what it is called (default: the file's name)"},
	{"version", '\0', "N", "show: an older one (default: the newest)"},
	{"original", '\0', NULL, "show: the file as it was added, nothing else"},
	{"json", '\0', NULL, "one JSON value"},
};
static const char *const synopses[] = {
	"book still add [OPTION...] FILE",
	"book still list [OPTION...]",
	"book still show [OPTION...] NAME",
	NULL,
};
static const char *const examples[] = {
	"boilcut book still add copper.csv --name 'copper pot'",
	"boilcut book still list",
	NULL,
};

const struct bc_command bc_book_still_command = {
	.name = "book still",
	.summary = "the files of stills, each version kept",
	.synopses = synopses,
	.about =
		"Keeps the plain file of a still in the book. A changed file of the same name is a "
		"further version; the earlier ones stay.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_still,
};
