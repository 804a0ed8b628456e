/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Statements of SQL that remember their first failure. */
#include "book/statement.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"

static void keep(struct bc_statement *statement, int code)
{
	if (!bc_failed(statement->status) && code != SQLITE_OK)
		statement->status = bc_book_status(statement->book, code);
}

void bc_statement_open(struct bc_statement *statement, struct bc_book *book, const char *sql)
{
	*statement = (struct bc_statement){.book = book};
	keep(statement, sqlite3_prepare_v2(book->db, sql, -1, &statement->handle, NULL));
}

bool bc_statement_row(struct bc_statement *statement)
{
	if (bc_failed(statement->status))
		return false;
	statement->stepped = true;
	int code = sqlite3_step(statement->handle);
	keep(statement, code == SQLITE_ROW || code == SQLITE_DONE ? SQLITE_OK : code);
	return code == SQLITE_ROW;
}

enum bc_status bc_statement_close(struct bc_statement *statement)
{
	if (!statement->stepped)
		bc_statement_row(statement);
	sqlite3_finalize(statement->handle);
	statement->handle = NULL;
	return statement->status;
}

/* ---- parameters */

void bc_put_text(struct bc_statement *statement, const char *s)
{
	statement->bound++;
	if (bc_failed(statement->status) || s == NULL)
		return;
	keep(statement, sqlite3_bind_text64(statement->handle, statement->bound, s, strlen(s),
				SQLITE_STATIC, SQLITE_UTF8));
}

void bc_put_bytes(struct bc_statement *statement, const char *bytes, size_t n)
{
	statement->bound++;
	if (bc_failed(statement->status))
		return;
	/* a NULL pointer would be NULL, not a blob without bytes */
	keep(statement, sqlite3_bind_blob64(statement->handle, statement->bound, n > 0 ? bytes : "",
				n, SQLITE_STATIC));
}

void bc_put_integer(struct bc_statement *statement, long long value)
{
	statement->bound++;
	if (!bc_failed(statement->status))
		keep(statement, sqlite3_bind_int64(statement->handle, statement->bound, value));
}

void bc_put_number(struct bc_statement *statement, double value)
{
	statement->bound++;
	if (!bc_failed(statement->status) && !isnan(value))
		keep(statement, sqlite3_bind_double(statement->handle, statement->bound, value));
}

/* ---- columns */

long long bc_get_integer(struct bc_statement *statement, int column)
{
	return sqlite3_column_int64(statement->handle, column);
}

double bc_get_number(struct bc_statement *statement, int column)
{
	if (sqlite3_column_type(statement->handle, column) == SQLITE_NULL)
		return (double)NAN;
	return sqlite3_column_double(statement->handle, column);
}

void bc_get_text(struct bc_statement *statement, int column, char **s)
{
	size_t n = 0;
	if (sqlite3_column_type(statement->handle, column) == SQLITE_NULL)
		*s = NULL;
	else
		bc_get_bytes(statement, column, s, &n);
}

void bc_get_bytes(struct bc_statement *statement, int column, char **bytes, size_t *n)
{
	const void *held = sqlite3_column_blob(statement->handle, column);
	size_t length = (size_t)sqlite3_column_bytes(statement->handle, column);
	*bytes = NULL;
	*n = 0;
	if (held == NULL && sqlite3_errcode(statement->book->db) == SQLITE_NOMEM) {
		keep(statement, SQLITE_NOMEM);
		return;
	}
	*bytes = bc_alloc(length + 1);
	if (*bytes == NULL) {
		keep(statement, SQLITE_NOMEM);
		return;
	}
	if (held != NULL)
		memcpy(*bytes, held, length);
	*n = length;
}
