/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_COMMAND_H
#define BC_COMMAND_COMMAND_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"

/* What the program ends with; of several the greatest. */
enum bc_exit {
	BC_EXIT_DONE = 0,
	BC_EXIT_NEGATIVE = 1, /* a negative answer: to --want or --standard, or of the book */
	BC_EXIT_USAGE = 2,
	BC_EXIT_DATA = 3,
	BC_EXIT_SYSTEM = 4,
	BC_EXIT_NUMBERS = 5
};
int bc_exit_from_status(enum bc_status status);

/* One option: the parser, the help and the suggestions all read this. */
struct bc_option {
	const char *name;     /* without the dashes */
	char letter;          /* '\0': none */
	const char *argument; /* name of its value for help, NULL for a switch */
	const char *help;
};

struct bc_arguments;

struct bc_command {
	const char *name;
	const char *summary;         /* for the list of commands */
	const char *const *synopses; /* what stands behind "boilcut ", NULL last */
	const char *about;           /* a paragraph or two, separated by "\n" */
	const struct bc_option *options;
	size_t n_options;
	const char *const *examples; /* whole command lines, NULL last */
	int (*run)(const struct bc_arguments *arguments);
	/* Commands of its own, whose names begin with this one's and a blank, NULL last; NULL:
	 * none, else options and run are theirs. */
	const struct bc_command *const *parts;
};

/* All commands, in the order of the help; NULL last. */
extern const struct bc_command *const bc_commands[];

extern const struct bc_command bc_judge_command;
extern const struct bc_command bc_tap_command;
extern const struct bc_command bc_mix_command;
extern const struct bc_command bc_still_command;
extern const struct bc_command bc_watch_command;
extern const struct bc_command bc_draw_command;
extern const struct bc_command bc_label_command;
extern const struct bc_command bc_card_command;
extern const struct bc_command bc_book_command;
extern const struct bc_command bc_limits_command;
extern const struct bc_command bc_formula_command;
extern const struct bc_command bc_new_command;
extern const struct bc_command bc_tidy_command;
extern const struct bc_command bc_help_command;

/* The whole program behind its name: finds the command, runs it, returns the exit status. Standard
 * output is not closed. */
int bc_command_main(int argc, char **argv);

/* The command so named, or NULL. */
const struct bc_command *bc_command_find(const char *name);
/* Its part so named ("add" of "book"), or NULL. */
const struct bc_command *bc_command_part(const struct bc_command *command, const char *name);
/* Complains that word is no command, or no part of whole where that is not NULL, naming the
 * nearest; returns BC_EXIT_USAGE. */
int bc_command_unknown(const struct bc_command *whole, const char *word);

/* Help for one command, or with NULL for all, on standard output. */
int bc_help_show(const struct bc_command *command);

#endif
