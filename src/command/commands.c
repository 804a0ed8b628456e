/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of commands, and the way from a command line to the one that is meant. */
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "command/arguments.h"
#include "command/command.h"
#include "command/output.h"
#include "report/report.h"

const struct bc_command *const bc_commands[] = {
	&bc_judge_command,
	&bc_tap_command,
	&bc_draw_command,
	&bc_book_command,
	&bc_limits_command,
	&bc_formula_command,
	&bc_new_command,
	&bc_tidy_command,
	&bc_help_command,
	NULL,
};
#define PARTS_MAX 32
#define COMMANDS (sizeof bc_commands / sizeof bc_commands[0] - 1)

int bc_exit_from_status(enum bc_status status)
{
	switch (status) {
	case BC_OK:
	case BC_OUTSIDE_RANGE:
	case BC_EXTRAPOLATED:
	case BC_REPAIRED:
		return BC_EXIT_DONE;
	case BC_NO_MEMORY:
	case BC_IO:
		return BC_EXIT_SYSTEM;
	case BC_MALFORMED:
	case BC_TOO_FEW:
	case BC_NOT_FOUND:
		return BC_EXIT_DATA;
	case BC_BAD_DOMAIN:
	case BC_NO_CONVERGENCE:
		break;
	}
	return BC_EXIT_NUMBERS;
}

const struct bc_command *bc_command_find(const char *name)
{
	for (size_t i = 0; i < COMMANDS; i++) {
		if (strcmp(bc_commands[i]->name, name) == 0)
			return bc_commands[i];
	}
	return NULL;
}

/* "add" of "book add" */
static const char *part_name(const struct bc_command *whole, const struct bc_command *part)
{
	return part->name + strlen(whole->name) + 1;
}

const struct bc_command *bc_command_part(const struct bc_command *command, const char *name)
{
	for (size_t i = 0; command->parts != NULL && command->parts[i] != NULL; i++) {
		if (strcmp(part_name(command, command->parts[i]), name) == 0)
			return command->parts[i];
	}
	return NULL;
}

static int unknown_part(const struct bc_command *whole, const char *word)
{
	const char *names[PARTS_MAX];
	size_t n = 0;
	while (n < PARTS_MAX && whole->parts[n] != NULL) {
		names[n] = part_name(whole, whole->parts[n]);
		n++;
	}
	if (word[0] == '-')
		return bc_wrong_usage(whole,
			"'%s' is not an option here; expected a word first, as 'boilcut %s'", word,
			whole->parts[0]->name);
	char *what = bc_format("something that %s does", whole->name);
	int result = bc_wrong_word(whole, word, what != NULL ? what : "known", names, n);
	bc_free(what);
	return result;
}

int bc_command_unknown(const struct bc_command *whole, const char *word)
{
	const char *names[COMMANDS];
	if (whole != NULL)
		return unknown_part(whole, word);
	for (size_t i = 0; i < COMMANDS; i++)
		names[i] = bc_commands[i]->name;
	if (word[0] == '-')
		return bc_wrong_usage(NULL,
			"'%s' is not an option here; expected a command first, as 'boilcut judge FILE'",
			word);
	return bc_wrong_word(NULL, word, "a command", names, COMMANDS);
}

static int run_words(const struct bc_command *command, int argc, char **argv)
{
	struct bc_arguments arguments;
	int result = bc_arguments_parse(command, argc, argv, &arguments);
	if (result == BC_EXIT_DONE)
		result = arguments.help ? bc_help_show(command) : command->run(&arguments);
	bc_arguments_release(&arguments);
	return result;
}

static int run_part(const struct bc_command *whole, int argc, char **argv)
{
	if (argc < 1)
		return bc_wrong_usage(whole, "%s lacks a word; expected one such as '%s'",
			whole->name, part_name(whole, whole->parts[0]));
	if (strcmp(argv[0], "--help") == 0 || strcmp(argv[0], "-h") == 0)
		return bc_help_show(whole);
	const struct bc_command *part = bc_command_part(whole, argv[0]);
	if (part == NULL)
		return bc_command_unknown(whole, argv[0]);
	return run_words(part, argc - 1, argv + 1);
}

int bc_command_main(int argc, char **argv)
{
	if (argc < 2)
		return bc_wrong_usage(NULL, "a command is missing; expected one such as 'judge'");
	const char *word = argv[1];
	if (strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0)
		return bc_help_show(NULL);
	if (strcmp(word, "--version") == 0) {
		bc_out("boilcut " BC_VERSION "\n");
		return BC_EXIT_DONE;
	}
	const struct bc_command *command = bc_command_find(word);
	if (command == NULL)
		return bc_command_unknown(NULL, word);
	if (command->parts != NULL)
		return run_part(command, argc - 2, argv + 2);
	return run_words(command, argc - 2, argv + 2);
}
