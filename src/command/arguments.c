/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Takes a command line apart by the command's table of options, and says what is wrong with it. */
#include "command/arguments.h"

#include <stdio.h>
#include <string.h>
#include <strings.h>

#include "base/memory.h"
#include "base/text.h"
#include "command/output.h"

#define OPTIONS_MAX 32

static int try_help(const struct bc_command *command)
{
	if (command == NULL)
		bc_say_line("Try 'boilcut --help' for more.");
	else
		bc_say_line("Try 'boilcut %s --help' for more.", command->name);
	return BC_EXIT_USAGE;
}

int bc_wrong_usage(const struct bc_command *command, const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	bc_vcomplain(format, arguments);
	va_end(arguments);
	return try_help(command);
}

int bc_wrong_word(const struct bc_command *command, const char *word, const char *what,
	const char *const *list, size_t n)
{
	const char *nearest = bc_nearest_word(word, list, n);
	if (nearest != NULL)
		return bc_wrong_usage(
			command, "'%s' is not %s; did you mean '%s'?", word, what, nearest);
	struct bc_text all;
	bc_text_init(&all);
	for (size_t i = 0; i < n; i++)
		bc_text_printf(&all, "%s%s", i == 0 ? "" : (i + 1 == n ? " or " : ", "), list[i]);
	int result = bc_wrong_usage(command, "'%s' is not %s; expected %s", word, what,
		all.failed || all.data == NULL ? "another word" : all.data);
	bc_text_release(&all);
	return result;
}

static const struct bc_option *option_named(
	const struct bc_command *command, const char *name, size_t n)
{
	for (size_t i = 0; i < command->n_options; i++) {
		const char *own = command->options[i].name;
		if (strlen(own) == n && strncmp(own, name, n) == 0)
			return &command->options[i];
	}
	return NULL;
}

static const struct bc_option *option_lettered(const struct bc_command *command, char letter)
{
	for (size_t i = 0; i < command->n_options; i++) {
		if (command->options[i].letter != '\0' && command->options[i].letter == letter)
			return &command->options[i];
	}
	return NULL;
}

static int unknown_option(const struct bc_command *command, const char *word, size_t n)
{
	const char *names[OPTIONS_MAX + 1];
	size_t count = 0;
	for (size_t i = 0; i < command->n_options && count < OPTIONS_MAX; i++)
		names[count++] = command->options[i].name;
	names[count++] = "help";
	char *name = n > 2 ? bc_strndup(word + 2, n - 2) : NULL;
	const char *nearest =
		name != NULL && word[1] == '-' ? bc_nearest_word(name, names, count) : NULL;
	bc_free(name);
	if (nearest != NULL)
		return bc_wrong_usage(command,
			"'%.*s' is not an option of %s; did you mean '--%s'?", (int)n, word,
			command->name, nearest);
	return bc_wrong_usage(command,
		"'%.*s' is not an option of %s; expected one that its help lists", (int)n, word,
		command->name);
}

/* One word that starts with a dash; *at moves on over a value of its own. */
static int take_option(struct bc_arguments *arguments, int argc, char **argv, int *at)
{
	const struct bc_command *command = arguments->command;
	const char *word = argv[*at];
	bool is_long = word[1] == '-';
	const char *equals = is_long ? strchr(word, '=') : NULL;
	size_t n = equals != NULL ? (size_t)(equals - word) : strlen(word);
	const struct bc_option *option = NULL;
	if (is_long)
		option = option_named(command, word + 2, n - 2);
	else if (n == 2)
		option = option_lettered(command, word[1]);

	if (option == NULL && equals == NULL &&
		(strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0)) {
		arguments->help = true;
		return BC_EXIT_DONE;
	}
	if (option == NULL)
		return unknown_option(command, word, n);
	const char *value = equals != NULL ? equals + 1 : NULL;
	if (option->argument == NULL && value != NULL)
		return bc_wrong_usage(command, "'--%s' has a value; expected none", option->name);
	if (option->argument != NULL && value == NULL) {
		if (*at + 1 >= argc)
			return bc_wrong_usage(
				command, "'%s' has no value; expected %s", word, option->argument);
		value = argv[++*at];
	}
	arguments->given[arguments->n_given++] =
		(struct bc_given){.option = option, .value = value};
	return BC_EXIT_DONE;
}

int bc_arguments_parse(
	const struct bc_command *command, int argc, char **argv, struct bc_arguments *arguments)
{
	*arguments = (struct bc_arguments){.command = command};
	size_t most = (size_t)(argc > 0 ? argc : 1);
	arguments->given = bc_alloc_array(most, sizeof *arguments->given);
	arguments->operands = bc_alloc_array(most, sizeof *arguments->operands);
	if (arguments->given == NULL || arguments->operands == NULL)
		return bc_no_memory();
	bool options = true;
	for (int i = 0; i < argc; i++) {
		if (options && strcmp(argv[i], "--") == 0) {
			options = false;
		} else if (options && argv[i][0] == '-' && argv[i][1] != '\0' &&
			   argv[i][1] != '=') { /* "-=1L": so much of standard input */
			int result = take_option(arguments, argc, argv, &i);
			if (result != BC_EXIT_DONE)
				return result;
		} else {
			arguments->operands[arguments->n_operands++] = argv[i];
		}
	}
	return BC_EXIT_DONE;
}

void bc_arguments_release(struct bc_arguments *arguments)
{
	if (arguments == NULL)
		return;
	bc_free(arguments->given);
	bc_free(arguments->operands);
	*arguments = (struct bc_arguments){0};
}

static const struct bc_given *last_given(const struct bc_arguments *arguments, const char *name)
{
	for (size_t i = arguments->n_given; i > 0; i--) {
		if (strcmp(arguments->given[i - 1].option->name, name) == 0)
			return &arguments->given[i - 1];
	}
	return NULL;
}

int bc_arguments_folder(const struct bc_arguments *arguments, const char *name)
{
	const char *folder = bc_arguments_value(arguments, name);
	if (folder == NULL || folder[0] != '\0')
		return BC_EXIT_DONE;
	return bc_wrong_usage(arguments->command,
		"'--%s' names no folder; expected a path, such as . for this one", name);
}

bool bc_ends_in(const char *path, const char *ending)
{
	size_t n = strlen(path);
	size_t length = strlen(ending);
	return n > length && strcasecmp(path + n - length, ending) == 0;
}

int bc_arguments_page(const struct bc_arguments *arguments, const char *name, bool svg)
{
	const char *path = bc_arguments_value(arguments, name);
	if (path == NULL)
		return BC_EXIT_DONE;
	if (!bc_ends_in(path, ".html") && !bc_ends_in(path, ".htm") &&
		!(svg && bc_ends_in(path, ".svg")))
		return bc_wrong_usage(arguments->command,
			"'%s' is no name of a page; expected one that ends in %s", path,
			svg ? ".html or .svg" : ".html");
	return bc_out_may_replace(path) ? BC_EXIT_DONE : BC_EXIT_USAGE;
}

bool bc_arguments_has(const struct bc_arguments *arguments, const char *name)
{
	return last_given(arguments, name) != NULL;
}

const char *bc_arguments_value(const struct bc_arguments *arguments, const char *name)
{
	const struct bc_given *given = last_given(arguments, name);
	return given != NULL ? given->value : NULL;
}

int bc_arguments_count(
	const struct bc_arguments *arguments, size_t least, size_t most, const char *what)
{
	if (arguments->n_operands < least)
		return bc_wrong_usage(arguments->command, "%s lacks a word; expected %s",
			arguments->command->name, what);
	if (arguments->n_operands > most)
		return bc_wrong_usage(arguments->command,
			"'%s' is one word too many for %s; expected no more than %zu",
			arguments->operands[most], arguments->command->name, most);
	return BC_EXIT_DONE;
}
