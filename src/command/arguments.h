/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_ARGUMENTS_H
#define BC_COMMAND_ARGUMENTS_H

#include <stdbool.h>
#include <stddef.h>

#include "command/command.h"

struct bc_given {
	const struct bc_option *option;
	const char *value; /* NULL for a switch */
};

/* A command line taken apart by its command's table. The strings are those of argv. */
struct bc_arguments {
	const struct bc_command *command;
	struct bc_given *given;
	size_t n_given;
	const char **operands;
	size_t n_operands;
	bool help; /* --help or -h, which every command has */
};

/* Returns BC_EXIT_DONE, or the exit status after a complaint. "--name value", "--name=value",
 * "-l value"; "--" ends the options; "-" is an operand. Release even after a failure. */
int bc_arguments_parse(
	const struct bc_command *command, int argc, char **argv, struct bc_arguments *arguments);
void bc_arguments_release(struct bc_arguments *arguments);

bool bc_arguments_has(const struct bc_arguments *arguments, const char *name);
/* Its value, the last one where it was given more than once; NULL where it was not given. */
const char *bc_arguments_value(const struct bc_arguments *arguments, const char *name);

/* Complains of an empty value of an option that names a folder. */
int bc_arguments_folder(const struct bc_arguments *arguments, const char *name);

/* Complains where an option that names a page to write ends otherwise than in .html or .htm (or,
 * with svg, .svg), in any case, or names a file that is no page. */
int bc_arguments_page(const struct bc_arguments *arguments, const char *name, bool svg);
bool bc_ends_in(const char *path, const char *ending);

/* Complains of too few or too many operands; most may be SIZE_MAX. what names them: "FILE". */
int bc_arguments_count(
	const struct bc_arguments *arguments, size_t least, size_t most, const char *what);

/* "boilcut: ..." and the line that points to the help; returns BC_EXIT_USAGE. command may be NULL.
 */
__attribute__((format(printf, 2, 3))) int bc_wrong_usage(
	const struct bc_command *command, const char *format, ...);
/* "'word' is not WHAT; did you mean 'nearest'?", or what is expected where nothing is near. */
int bc_wrong_word(const struct bc_command *command, const char *word, const char *what,
	const char *const *list, size_t n);

#endif
