/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a path to a judgement, as every command that judges needs it. */
#include "command/case.h"

#include <assert.h>
#include <string.h>

#include "base/file.h"
#include "base/memory.h"
#include "base/strings.h"
#include "base/text.h"
#include "command/output.h"

/* As in "error" of the JSON: where, and what. */
static char *error_words(const struct bc_diagnostics *diagnostics, enum bc_status status)
{
	const struct bc_diagnostic *first = bc_diagnostics_first_error(diagnostics);
	if (first != NULL && first->line > 0)
		return bc_format("line %zu: %s", first->line, first->text);
	if (first != NULL)
		return bc_strdup(first->text);
	switch (status) {
	case BC_NO_MEMORY:
		return bc_strdup("out of memory");
	case BC_TOO_FEW:
		return bc_strdup("too few usable percent readings; expected 3 or more");
	default:
		return bc_format("the numbers failed: %s", bc_status_text(status));
	}
}

static enum bc_status read_sample(struct bc_case *item, const char *path, const char *readings,
	struct bc_diagnostics *diagnostics)
{
	if (readings != NULL)
		return bc_sample_from_line(readings, diagnostics, &item->sample);
	char *bytes = NULL;
	size_t n = 0;
	enum bc_status status = bc_file_read(path, BC_SAMPLE_LIMIT_BYTES, &bytes, &n, diagnostics);
	if (!bc_failed(status))
		status = bc_sample_read(bytes, n, path, diagnostics, &item->sample);
	bc_free(bytes);
	return status;
}

int bc_case_open(struct bc_case *item, const char *path, const char *readings,
	const struct bc_judge_options *options)
{
	struct bc_diagnostics diagnostics;
	bc_diagnostics_init(&diagnostics);
	*item = (struct bc_case){0};
	bc_judgement_init(&item->judgement);
	enum bc_status status = read_sample(item, path, readings, &diagnostics);
	if (!bc_failed(status))
		status = bc_judge(item->sample, options, &item->judgement);
	item->result = bc_exit_from_status(status);
	bc_print_diagnostics(&diagnostics);
	if (bc_failed(status)) {
		item->error = error_words(&diagnostics, status);
		if (bc_diagnostics_first_error(&diagnostics) == NULL)
			bc_complain("%s: %s", readings != NULL ? "--readings" : path,
				item->error != NULL ? item->error : "out of memory");
	}
	bc_diagnostics_release(&diagnostics);
	return item->result;
}

void bc_case_close(struct bc_case *item)
{
	if (item == NULL)
		return;
	bc_judgement_release(&item->judgement);
	bc_sample_free(item->sample);
	bc_free(item->error);
	*item = (struct bc_case){0};
}

int bc_case_limits(const char *path, struct bc_limits **limits)
{
	struct bc_diagnostics diagnostics;
	bc_diagnostics_init(&diagnostics);
	char *bytes = NULL;
	size_t n = 0;
	enum bc_status status = BC_OK;
	*limits = NULL;
	if (path == NULL) {
		status = bc_limits_default(&diagnostics, limits);
	} else {
		status = bc_file_read(path, BC_SAMPLE_LIMIT_BYTES, &bytes, &n, &diagnostics);
		if (!bc_failed(status))
			status = bc_limits_read(bytes, n, path, &diagnostics, limits);
	}
	bc_print_diagnostics(&diagnostics);
	if (bc_failed(status) && bc_diagnostics_first_error(&diagnostics) == NULL)
		bc_complain("%s: %s", path != NULL ? path : "limits",
			status == BC_NO_MEMORY ? "out of memory" : bc_status_text(status));
	bc_free(bytes);
	bc_diagnostics_release(&diagnostics);
	return bc_exit_from_status(status);
}

static char lower(char c) { return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c; }

static bool starts_nocase(const char *whole, const char *start)
{
	while (*start != '\0' && lower(*whole) == lower(*start)) {
		whole++;
		start++;
	}
	return *start == '\0';
}

int bc_case_grade(const struct bc_command *command, const char *word, enum bc_grade_name *grade)
{
	size_t hits = 0;
	for (int i = 0; i < BC_GRADES && word[0] != '\0'; i++) {
		if (starts_nocase(bc_grade_texts[i], word)) {
			*grade = (enum bc_grade_name)i;
			hits++;
		}
	}
	if (hits == 1)
		return BC_EXIT_DONE;
	return bc_wrong_word(command, word, "a grade", bc_grade_texts, BC_GRADES);
}

/* The names of all standards, each once. */
static int standard_names(const struct bc_limits *limits, struct bc_strings *names)
{
	for (size_t i = 0; i < limits->n; i++) {
		if (limits->items[i].in_force)
			bc_strings_add_once(names, "%s", limits->items[i].standard);
	}
	return names->failed ? bc_no_memory() : BC_EXIT_DONE;
}

static int several_standards(
	const struct bc_command *command, const char *word, const struct bc_strings *names)
{
	struct bc_text list;
	bc_text_init(&list);
	for (size_t i = 0; i < names->n; i++) {
		if (starts_nocase(names->items[i], word))
			bc_text_printf(
				&list, "%s'%s'", list.length > 0 ? ", " : "", names->items[i]);
	}
	int result = bc_wrong_usage(command, "'%s' could be any of %s", word,
		list.data != NULL ? list.data : "several standards");
	bc_text_release(&list);
	return result;
}

/* Few type the class behind the number, so that beginnings are compared. */
static const char *nearest_standard(const char *word, const struct bc_strings *names)
{
	struct bc_strings starts;
	const char *found = NULL;
	bc_strings_init(&starts);
	for (size_t i = 0; i < names->n; i++)
		bc_strings_add(&starts, "%.*s", (int)strlen(word), names->items[i]);
	const char *nearest =
		starts.failed ? NULL
			      : bc_nearest_word(word, (const char *const *)starts.items, starts.n);
	for (size_t i = 0; nearest != NULL && i < starts.n && found == NULL; i++) {
		if (strcmp(starts.items[i], nearest) == 0)
			found = names->items[i];
	}
	bc_strings_release(&starts);
	return found;
}

static int unknown_standard(
	const struct bc_command *command, const char *word, const struct bc_strings *names)
{
	const char *nearest = nearest_standard(word, names);
	if (nearest != NULL)
		return bc_wrong_usage(
			command, "'%s' is not a standard; did you mean '%s'?", word, nearest);
	return bc_wrong_usage(command, "'%s' is not a standard; 'boilcut limits' lists them", word);
}

/* The one name that word is, or begins. */
static int find_standard(const struct bc_command *command, const char *word,
	const struct bc_strings *names, const char **found)
{
	size_t hits = 0;
	for (size_t i = 0; i < names->n; i++) {
		if (bc_text_equal_nocase(names->items[i], word)) {
			*found = names->items[i];
			return BC_EXIT_DONE;
		}
		if (word[0] != '\0' && starts_nocase(names->items[i], word)) {
			*found = names->items[i];
			hits++;
		}
	}
	if (hits == 1)
		return BC_EXIT_DONE;
	if (hits > 1)
		return several_standards(command, word, names);
	return unknown_standard(command, word, names);
}

/* The table's own copy of the name, which outlives the list, and the grade that it belongs to. */
static const struct bc_limit *first_limit_of(
	const struct bc_limits *limits, const char *standard, enum bc_grade_name want)
{
	const struct bc_limit *first = NULL;
	for (size_t i = 0; i < limits->n; i++) {
		const struct bc_limit *limit = &limits->items[i];
		if (!limit->in_force || strcmp(limit->standard, standard) != 0)
			continue;
		if (limit->grade == want)
			return limit;
		if (first == NULL)
			first = limit;
	}
	return first;
}

static int wish_for_standard(const struct bc_command *command, const char *word,
	const struct bc_limits *limits, struct bc_judge_options *options)
{
	struct bc_strings names;
	bc_strings_init(&names);
	const char *found = "";
	int result = standard_names(limits, &names);
	if (result == BC_EXIT_DONE)
		result = find_standard(command, word, &names, &found);
	if (result == BC_EXIT_DONE) {
		const struct bc_limit *limit = first_limit_of(limits, found, options->want);
		assert(limit != NULL);
		options->standard = limit->standard;
		if (limit->grade == BC_GRADE_COMPARISON)
			result = bc_wrong_usage(command,
				"'%s' is for comparison only and never enters a verdict", found);
		else if (options->want != BC_GRADES && options->want != limit->grade)
			result = bc_wrong_usage(command,
				"'%s' is a standard of %s; expected one of %s as --want says",
				found, bc_grade_texts[limit->grade], bc_grade_texts[options->want]);
	}
	bc_strings_release(&names);
	return result;
}

int bc_case_wishes(const struct bc_arguments *arguments, const struct bc_limits *limits,
	struct bc_judge_options *options)
{
	const char *want = bc_arguments_value(arguments, "want");
	const char *standard = bc_arguments_value(arguments, "standard");
	*options = (struct bc_judge_options){.limits = limits, .want = BC_GRADES};
	if (want != NULL) {
		int result = bc_case_grade(arguments->command, want, &options->want);
		if (result != BC_EXIT_DONE)
			return result;
		if (options->want == BC_GRADE_COMPARISON)
			return bc_wrong_usage(arguments->command,
				"'%s' is no grade to want; it never enters a verdict", want);
	}
	if (standard == NULL)
		return BC_EXIT_DONE;
	return wish_for_standard(arguments->command, standard, limits, options);
}
