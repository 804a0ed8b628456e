/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tables of a book and their columns, read from its schema. */
#include "book/layout.h"

#include <string.h>

#include "base/memory.h"
#include "book/statement.h"

static enum bc_column_kind kind_of(const char *table, const char *column, const char *type)
{
	if (strcmp(type, "BLOB") == 0)
		return BC_COLUMN_FILE;
	/* a judgement is a page of JSON, too much for a cell */
	if (strcmp(table, "content") == 0 && strcmp(column, "judgement") == 0)
		return BC_COLUMN_FILE;
	if (strcmp(type, "INTEGER") == 0)
		return BC_COLUMN_INTEGER;
	return strcmp(type, "REAL") == 0 ? BC_COLUMN_REAL : BC_COLUMN_TEXT;
}

static enum bc_status read_columns(struct bc_book *book, struct bc_layout_table *table)
{
	struct bc_statement statement;
	bc_statement_open(&statement, book,
		"SELECT name, type, pk FROM pragma_table_xinfo(?) WHERE hidden = 0 ORDER BY cid");
	bc_put_text(&statement, table->name);
	while (bc_statement_row(&statement)) {
		char *type = NULL;
		void *columns = table->columns;
		if (bc_grow(&columns, table->n, &table->capacity, sizeof *table->columns) != 0) {
			statement.status = BC_NO_MEMORY;
			break;
		}
		table->columns = columns;
		struct bc_column *column = &table->columns[table->n++];
		*column = (struct bc_column){.key = bc_get_integer(&statement, 2)};
		bc_get_text(&statement, 0, &column->name);
		bc_get_text(&statement, 1, &type);
		if (type != NULL && column->name != NULL) {
			column->kind = kind_of(table->name, column->name, type);
			column->bytes = strcmp(type, "BLOB") == 0;
		}
		bc_free(type);
	}
	return bc_statement_close(&statement);
}

static enum bc_status read_tables(struct bc_book *book, struct bc_layout *layout)
{
	struct bc_statement statement;
	bc_statement_open(&statement, book,
		"SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%' "
		"ORDER BY name");
	while (bc_statement_row(&statement)) {
		void *tables = layout->tables;
		if (bc_grow(&tables, layout->n, &layout->capacity, sizeof *layout->tables) != 0) {
			statement.status = BC_NO_MEMORY;
			break;
		}
		layout->tables = tables;
		struct bc_layout_table *table = &layout->tables[layout->n++];
		*table = (struct bc_layout_table){0};
		bc_get_text(&statement, 0, &table->name);
	}
	return bc_statement_close(&statement);
}

static struct bc_layout_table *find(struct bc_layout *layout, const char *name)
{
	for (size_t i = 0; name != NULL && i < layout->n; i++) {
		if (strcmp(layout->tables[i].name, name) == 0)
			return &layout->tables[i];
	}
	return NULL;
}

/* Lifts every table above those that it refers to; *lifted says whether one was. */
static enum bc_status lift(struct bc_book *book, struct bc_layout *layout, bool *lifted)
{
	struct bc_statement statement;
	*lifted = false;
	bc_statement_open(&statement, book,
		"SELECT m.name, f.\"table\" FROM sqlite_schema m, pragma_foreign_key_list(m.name) f "
		"WHERE m.type = 'table'");
	while (bc_statement_row(&statement)) {
		char *names[2] = {NULL, NULL};
		bc_get_text(&statement, 0, &names[0]);
		bc_get_text(&statement, 1, &names[1]);
		struct bc_layout_table *child = find(layout, names[0]);
		const struct bc_layout_table *parent = find(layout, names[1]);
		if (child != NULL && parent != NULL && child != parent &&
			child->level <= parent->level) {
			child->level = parent->level + 1;
			*lifted = true;
		}
		bc_free(names[0]);
		bc_free(names[1]);
	}
	return bc_statement_close(&statement);
}

enum bc_status bc_layout_read(struct bc_book *book, struct bc_layout *layout)
{
	*layout = (struct bc_layout){0};
	enum bc_status status = read_tables(book, layout);
	for (size_t i = 0; i < layout->n && !bc_failed(status); i++)
		status = read_columns(book, &layout->tables[i]);
	bool lifted = true;
	for (size_t i = 0; i < layout->n && lifted && !bc_failed(status); i++)
		status = lift(book, layout, &lifted);
	return status;
}

void bc_layout_release(struct bc_layout *layout)
{
	if (layout == NULL)
		return;
	for (size_t i = 0; i < layout->n; i++) {
		for (size_t k = 0; k < layout->tables[i].n; k++)
			bc_free(layout->tables[i].columns[k].name);
		bc_free(layout->tables[i].columns);
		bc_free(layout->tables[i].name);
	}
	bc_free(layout->tables);
	*layout = (struct bc_layout){0};
}
