/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BOOK_LAYOUT_H
#define BC_BOOK_LAYOUT_H

#include "book/book.h"

/* Which tables a book has and how they go into a folder and back: for export and import. */

enum bc_column_kind {
	BC_COLUMN_INTEGER,
	BC_COLUMN_REAL,
	BC_COLUMN_TEXT,
	BC_COLUMN_FILE /* its cell names a file that holds the value */
};

struct bc_column {
	char *name;
	enum bc_column_kind kind;
	bool bytes;    /* a BLOB */
	long long key; /* place in the primary key from 1; 0: not in it */
};

struct bc_layout_table {
	char *name;
	size_t level; /* rows refer to tables of lower levels only */
	struct bc_column *columns;
	size_t n;
	size_t capacity;
};

struct bc_layout {
	struct bc_layout_table *tables; /* by name */
	size_t n;
	size_t capacity;
};

/* As the schema of this book has it. Release after any status. */
enum bc_status bc_layout_read(struct bc_book *book, struct bc_layout *layout);
void bc_layout_release(struct bc_layout *layout);

/* Names in the folder. */
#define BC_EXPORT_HEAD "book.csv"
#define BC_EXPORT_LIST "contents.csv"
#define BC_EXPORT_FORMAT "boilcut book"

#endif
