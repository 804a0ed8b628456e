/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_OUTPUT_H
#define BC_COMMAND_OUTPUT_H

#include <jansson.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

#include "base/diagnostic.h"
#include "base/text.h"

/* The only way to standard output. A failure is said once, and what follows is thrown away. */
void bc_out(const char *s);
void bc_out_text(const struct bc_text *text);
/* One JSON value with its last newline; led by indent blanks on every line, no newline at the end
 * when indent is not 0. False without memory. */
bool bc_out_json(const json_t *json, size_t indent);
bool bc_out_failed(void);
/* False, said, where a page would take the place of a file that is none. */
bool bc_out_may_replace(const char *path);
/* A page into a file that is not there or is a page, whole or not at all; says what went wrong.
 * Returns an exit status. */
int bc_out_file(const char *path, const struct bc_text *text);
/* Closes standard output; exit_status, or the one of a failed system when any byte was lost. */
int bc_out_close(int exit_status);

/* "boilcut: ..." on standard error, control characters escaped. */
__attribute__((format(printf, 1, 2))) void bc_complain(const char *format, ...);
__attribute__((format(printf, 1, 0))) void bc_vcomplain(const char *format, va_list arguments);
/* A line without the program's name. */
__attribute__((format(printf, 1, 2))) void bc_say_line(const char *format, ...);
/* "boilcut: out of memory"; returns BC_EXIT_SYSTEM. */
int bc_no_memory(void);
/* Every message of the list: "boilcut: FILE:LINE: text". */
void bc_print_diagnostics(const struct bc_diagnostics *list);

/* Whether standard output should be coloured; when is "auto", "always" or "never". */
bool bc_wants_colour(const char *when);

#endif
