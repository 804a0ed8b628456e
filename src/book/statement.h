/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BOOK_STATEMENT_H
#define BC_BOOK_STATEMENT_H

#include <stddef.h>

#include "book/book.h"

/*
 * A statement of SQL on its way. The first failure is remembered and later calls do nothing, so
 * that a statement is written plainly and checked once, when it is closed:
 *
 *     bc_statement_open(&statement, book, "SELECT text FROM note WHERE batch = ?");
 *     bc_put_integer(&statement, batch);
 *     while (bc_statement_row(&statement))
 *             bc_get_text(&statement, 0, &text);
 *     status = bc_statement_close(&statement);
 */
struct bc_statement {
	struct bc_book *book;
	sqlite3_stmt *handle;
	int bound;
	bool stepped;
	enum bc_status status;
};

void bc_statement_open(struct bc_statement *statement, struct bc_book *book, const char *sql);
/* Runs it where no row was asked for, finalises it, returns the first failure. */
enum bc_status bc_statement_close(struct bc_statement *statement);
/* Steps; false at the end and after a failure. */
bool bc_statement_row(struct bc_statement *statement);

/* The next parameter, from left to right. What is pointed to must last until the statement is
 * closed. NULL text and NaN become NULL. */
void bc_put_text(struct bc_statement *statement, const char *s);
void bc_put_bytes(struct bc_statement *statement, const char *bytes, size_t n);
void bc_put_integer(struct bc_statement *statement, long long value);
void bc_put_number(struct bc_statement *statement, double value);

/* Columns of the row, from 0. Text and bytes are copies of the caller's; NULL stays NULL. */
long long bc_get_integer(struct bc_statement *statement, int column);
double bc_get_number(struct bc_statement *statement, int column); /* NaN for NULL */
void bc_get_text(struct bc_statement *statement, int column, char **s);
void bc_get_bytes(struct bc_statement *statement, int column, char **bytes, size_t *n);

#endif
