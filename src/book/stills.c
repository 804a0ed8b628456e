/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The files of stills that the book keeps, each version. */
#include "book/stills.h"

#include <string.h>

#include "base/memory.h"
#include "book/statement.h"

/* Versions of a name in the order in which they came; the numbers are counted, not stored. */
#define VERSIONS                                                                                   \
	"(SELECT s.name, s.added, s.text, s.id, row_number() OVER one AS version, "                \
	"count(*) OVER (PARTITION BY s.name COLLATE NOCASE) AS versions FROM still s "             \
	"WINDOW one AS (PARTITION BY s.name COLLATE NOCASE ORDER BY s.id))"

static void take(struct bc_statement *statement, struct bc_book_still *still)
{
	bc_get_text(statement, 0, &still->name);
	bc_get_text(statement, 1, &still->added);
	bc_get_text(statement, 2, &still->text);
	still->version = bc_get_integer(statement, 3);
	still->versions = bc_get_integer(statement, 4);
}

enum bc_status bc_book_still_read(
	struct bc_book *book, const char *name, long long version, struct bc_book_still *still)
{
	struct bc_statement statement;
	bool found = false;
	*still = (struct bc_book_still){0};
	bc_statement_open(&statement, book,
		"SELECT name, added, text, version, versions FROM " VERSIONS
		" WHERE name = ?1 COLLATE NOCASE AND version = iif(?2 = 0, versions, ?2)");
	bc_put_text(&statement, name);
	bc_put_integer(&statement, version);
	if (bc_statement_row(&statement)) {
		found = true;
		take(&statement, still);
	}
	enum bc_status status = bc_statement_close(&statement);
	return !bc_failed(status) && !found ? BC_NOT_FOUND : status;
}

static enum bc_status insert(struct bc_book *book, const char *name, const char *text)
{
	struct bc_statement statement;
	char now[BC_TIME_SIZE];
	bc_book_now(now);
	bc_statement_open(
		&statement, book, "INSERT INTO still (added, name, text) VALUES (?, ?, ?)");
	bc_put_text(&statement, now);
	bc_put_text(&statement, name);
	bc_put_text(&statement, text);
	return bc_statement_close(&statement);
}

enum bc_status bc_book_still_add(
	struct bc_book *book, const char *name, const char *text, long long *version, bool *already)
{
	struct bc_book_still newest;
	*version = 0;
	*already = false;
	enum bc_status status = bc_book_begin(book);
	if (bc_failed(status))
		return status;
	status = bc_book_still_read(book, name, 0, &newest);
	if (status == BC_NOT_FOUND)
		status = BC_OK;
	*already = newest.text != NULL && strcmp(newest.text, text) == 0;
	*version = newest.versions + (*already ? 0 : 1);
	if (!bc_failed(status) && !*already)
		status = insert(book, newest.name != NULL ? newest.name : name, text);
	bc_book_still_release(&newest);
	return bc_book_end(book, status);
}

enum bc_status bc_book_still_list(struct bc_book *book, struct bc_book_stills *stills)
{
	struct bc_statement statement;
	enum bc_status status = BC_OK;
	*stills = (struct bc_book_stills){0};
	bc_statement_open(&statement, book,
		"SELECT name, added, NULL, version, versions FROM " VERSIONS
		" WHERE version = versions ORDER BY name COLLATE NOCASE");
	while (!bc_failed(status) && bc_statement_row(&statement)) {
		if (bc_grow((void **)&stills->items, stills->n, &stills->capacity,
			    sizeof *stills->items) != 0) {
			status = BC_NO_MEMORY;
			break;
		}
		stills->items[stills->n] = (struct bc_book_still){0};
		take(&statement, &stills->items[stills->n++]);
	}
	enum bc_status closed = bc_statement_close(&statement);
	return bc_failed(status) ? status : closed;
}

void bc_book_still_release(struct bc_book_still *still)
{
	if (still == NULL)
		return;
	bc_free(still->name);
	bc_free(still->added);
	bc_free(still->text);
	*still = (struct bc_book_still){0};
}

void bc_book_stills_release(struct bc_book_stills *stills)
{
	if (stills == NULL)
		return;
	for (size_t i = 0; i < stills->n; i++)
		bc_book_still_release(&stills->items[i]);
	bc_free(stills->items);
	*stills = (struct bc_book_stills){0};
}
