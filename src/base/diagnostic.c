/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The caller-owned list of messages about an input. */
#include "base/diagnostic.h"

#include <stdarg.h>

#include "base/memory.h"

void bc_diagnostics_init(struct bc_diagnostics *list) { *list = (struct bc_diagnostics){0}; }

void bc_diagnostics_release(struct bc_diagnostics *list)
{
	if (list == NULL)
		return;
	for (size_t i = 0; i < list->n; i++) {
		bc_free(list->items[i].file);
		bc_free(list->items[i].text);
	}
	bc_free(list->items);
	bc_diagnostics_init(list);
}

void bc_diagnose(struct bc_diagnostics *list, enum bc_severity severity, const char *file,
	size_t line, const char *format, ...)
{
	if (list == NULL)
		return;
	va_list arguments;
	va_start(arguments, format);
	char *text = bc_vformat(format, arguments);
	va_end(arguments);
	char *name = file == NULL ? NULL : bc_strdup(file);
	void *items = list->items;
	if (text == NULL || (file != NULL && name == NULL) ||
		bc_grow(&items, list->n, &list->capacity, sizeof *list->items) != 0) {
		bc_free(text);
		bc_free(name);
		return;
	}
	list->items = items;
	list->items[list->n++] = (struct bc_diagnostic){severity, name, line, text};
}

const struct bc_diagnostic *bc_diagnostics_first_error(const struct bc_diagnostics *list)
{
	for (size_t i = 0; list != NULL && i < list->n; i++) {
		if (list->items[i].severity == BC_ERROR)
			return &list->items[i];
	}
	return NULL;
}
