/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tables of standards-notes/ that the build embeds; the lines themselves are generated. */
#include "base/table.h"

#include <string.h>

#include "base/memory.h"

const struct bc_table *bc_table_find(const char *name)
{
	for (size_t i = 0; i < bc_tables_count; i++) {
		if (strcmp(bc_tables[i].name, name) == 0)
			return &bc_tables[i];
	}
	return NULL;
}

char *bc_table_text(const struct bc_table *table)
{
	size_t size = 1;
	for (size_t i = 0; i < table->n; i++)
		size += strlen(table->lines[i]) + 1;
	char *text = bc_alloc(size);
	char *end = text;
	for (size_t i = 0; text != NULL && i < table->n; i++) {
		size_t length = strlen(table->lines[i]);
		memcpy(end, table->lines[i], length);
		end += length;
		*end++ = '\n';
	}
	return text;
}
