/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_STRINGS_H
#define BC_BASE_STRINGS_H

#include <stdbool.h>
#include <stddef.h>

/* A growing list of owned strings; like bc_text it remembers a failed allocation. */
struct bc_strings {
	char **items;
	size_t n;
	size_t capacity;
	bool failed;
};

void bc_strings_init(struct bc_strings *list);
void bc_strings_release(struct bc_strings *list);
__attribute__((format(printf, 2, 3))) void bc_strings_add(
	struct bc_strings *list, const char *format, ...);
/* Adds only what is not in the list yet. */
__attribute__((format(printf, 2, 3))) void bc_strings_add_once(
	struct bc_strings *list, const char *format, ...);

#endif
