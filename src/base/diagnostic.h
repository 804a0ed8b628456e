/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_DIAGNOSTIC_H
#define BC_BASE_DIAGNOSTIC_H

#include <stddef.h>

enum bc_severity { BC_NOTE, BC_WARNING, BC_ERROR };

/* One message about an input: "boilcut: FILE:LINE: text". line is 0 where no line is to blame. */
struct bc_diagnostic {
	enum bc_severity severity;
	char *file;
	size_t line;
	char *text;
};

struct bc_diagnostics {
	struct bc_diagnostic *items;
	size_t n;
	size_t capacity;
};

void bc_diagnostics_init(struct bc_diagnostics *list);
void bc_diagnostics_release(struct bc_diagnostics *list);

/* Adds a message; list may be NULL. A message that finds no memory is lost, never the program. */
__attribute__((format(printf, 5, 6))) void bc_diagnose(struct bc_diagnostics *list,
	enum bc_severity severity, const char *file, size_t line, const char *format, ...);

/* The first error, or NULL. */
const struct bc_diagnostic *bc_diagnostics_first_error(const struct bc_diagnostics *list);

#endif
