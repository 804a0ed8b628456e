/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_TABLE_H
#define BC_BASE_TABLE_H

#include <stddef.h>

/* A table of standards-notes/, embedded by the build, as the lines of its CSV text. */
struct bc_table {
	const char *name; /* file name without .csv */
	const char *const *lines;
	size_t n;
};

/* All of them, in the order of their names. */
extern const struct bc_table bc_tables[];
extern const size_t bc_tables_count;

/* The table so named, or NULL. */
const struct bc_table *bc_table_find(const char *name);

/* Its whole text, lines joined by "\n"; the caller frees it. NULL without memory. */
char *bc_table_text(const struct bc_table *table);

#endif
