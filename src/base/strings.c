/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A growing list of owned strings. */
#include "base/strings.h"

#include <stdarg.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"

void bc_strings_init(struct bc_strings *list) { *list = (struct bc_strings){0}; }

void bc_strings_release(struct bc_strings *list)
{
	if (!list)
		return;
	for (size_t i = 0; i < list->n; i++)
		bc_free(list->items[i]);
	bc_free(list->items);
	bc_strings_init(list);
}

static bool holds(const struct bc_strings *list, const char *s)
{
	for (size_t i = 0; i < list->n; i++)
		if (strcmp(list->items[i], s) == 0)
			return true;
	return false;
}

static void add(struct bc_strings *list, bool once, const char *format, va_list arguments)
{
	struct bc_text text;

	if (list->failed)
		return;
	bc_text_init(&text);
	bc_text_vprintf(&text, format, arguments);
	char *s = bc_text_take(&text);
	void *items = list->items;
	if (s && once && holds(list, s)) {
		bc_free(s);
	} else if (s && bc_grow(&items, list->n, &list->capacity, sizeof(*list->items)) == 0) {
		list->items = items;
		list->items[list->n++] = s;
	} else {
		bc_free(s);
		list->failed = true;
	}
	bc_text_release(&text);
}

void bc_strings_add(struct bc_strings *list, const char *format, ...)
{
	va_list arguments;

	va_start(arguments, format);
	add(list, false, format, arguments);
	va_end(arguments);
}

void bc_strings_add_once(struct bc_strings *list, const char *format, ...)
{
	va_list arguments;

	va_start(arguments, format);
	add(list, true, format, arguments);
	va_end(arguments);
}
