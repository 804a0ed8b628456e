/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opening and closing the record book, its schema, and the few ways to talk to it. */
#include "book/book.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "base/memory.h"
#include "base/number.h"
#include "base/text.h"
#include "book/book_memory.h"
#include "book/statement.h"

static const char *const schema_lines[] = {
#include "schema.sql.inc"
};

static enum bc_status say(struct bc_book *book, enum bc_status status, const char *words)
{
	bc_diagnose(book->diagnostics, BC_ERROR, book->path, 0, "%s", words);
	return status;
}

enum bc_status bc_book_status(struct bc_book *book, int code)
{
	if (code == SQLITE_IOERR_NOMEM)
		return BC_NO_MEMORY;
	switch (code & 0xff) {
	case SQLITE_OK:
	case SQLITE_DONE:
	case SQLITE_ROW:
		return BC_OK;
	case SQLITE_NOMEM:
		return BC_NO_MEMORY;
	case SQLITE_NOTADB:
		return say(book, BC_MALFORMED, "is no record book");
	case SQLITE_CORRUPT:
		return say(book, BC_MALFORMED,
			"is damaged; expected a whole record book, such as a copy of yesterday");
	case SQLITE_BUSY:
	case SQLITE_LOCKED:
		return say(book, BC_IO, "is in use by another process, and did not come free");
	case SQLITE_FULL:
		return say(book, BC_IO, "the disk is full; the book is as it was");
	case SQLITE_READONLY:
		return say(book, BC_IO, "cannot be written");
	case SQLITE_CANTOPEN:
		return say(book, BC_IO,
			"cannot open it or its journal; expected a folder that can be written");
	default:
		return say(book, BC_IO, sqlite3_errmsg(book->db));
	}
}

enum bc_status bc_book_run(struct bc_book *book, const char *sql)
{
	return bc_book_status(book, sqlite3_exec(book->db, sql, NULL, NULL, NULL));
}

enum bc_status bc_book_begin(struct bc_book *book)
{
	enum bc_status status = BC_OK;
	if (book->depth == 0) {
		status = bc_book_run(book, "BEGIN IMMEDIATE");
		book->failed = false;
	}
	if (!bc_failed(status))
		book->depth++;
	return status;
}

enum bc_status bc_book_end(struct bc_book *book, enum bc_status status)
{
	book->failed = book->failed || bc_failed(status);
	if (--book->depth > 0)
		return status;
	if (!book->failed)
		status = bc_book_run(book, "COMMIT");
	if (sqlite3_get_autocommit(book->db) == 0)
		sqlite3_exec(book->db, "ROLLBACK", NULL, NULL, NULL);
	return status;
}

void bc_book_now(char now[BC_TIME_SIZE])
{
	struct tm utc;
	time_t clock = time(NULL);
	if (gmtime_r(&clock, &utc) == NULL ||
		strftime(now, BC_TIME_SIZE, "%Y-%m-%dT%H:%M:%SZ", &utc) == 0)
		snprintf(now, BC_TIME_SIZE, "1970-01-01T00:00:00Z");
}

/* ---- opening */

static enum bc_status read_number(struct bc_book *book, const char *sql, long long *value)
{
	struct bc_statement statement;
	bc_statement_open(&statement, book, sql);
	*value = bc_statement_row(&statement) ? bc_get_integer(&statement, 0) : 0;
	return bc_statement_close(&statement);
}

static int patience_ms(void)
{
	const char *stated = getenv("BOILCUT_PATIENCE_MS");
	double ms = 0.0;
	if (stated != NULL && bc_number_parse(stated, '.', &ms) && ms >= 0.0 && ms <= 1e9)
		return (int)ms;
	return BC_BOOK_PATIENCE_MS;
}

static enum bc_status connect_to(
	const char *path, struct bc_diagnostics *diagnostics, struct bc_book *book)
{
	*book = (struct bc_book){.diagnostics = diagnostics, .path = bc_strdup(path)};
	/* SQLite has names of its own, such as ":memory:" */
	char *plain = bc_format("%s%s", path[0] == '/' ? "" : "./", path);
	if (book->path == NULL || plain == NULL || bc_failed(bc_book_memory())) {
		bc_free(plain);
		return BC_NO_MEMORY;
	}
	const int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX;
	int code = sqlite3_open_v2(plain, &book->db, flags, NULL);
	bc_free(plain);
	enum bc_status status = bc_book_status(book, code);
	if (bc_failed(status))
		return status;
	sqlite3_extended_result_codes(book->db, 1);
	sqlite3_busy_timeout(book->db, patience_ms());
	/* REPLACE would pass the triggers by unless they are recursive */
	return bc_book_run(book,
		"PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL; PRAGMA trusted_schema = OFF; "
		"PRAGMA cell_size_check = ON; PRAGMA recursive_triggers = ON");
}

static enum bc_status schema_of(struct bc_book *book, long long *application, long long *version)
{
	enum bc_status status = read_number(book, "PRAGMA application_id", application);
	if (!bc_failed(status))
		status = read_number(book, "PRAGMA user_version", version);
	return status;
}

static enum bc_status write_schema(struct bc_book *book)
{
	struct bc_text sql;
	long long application = 0;
	long long version = 0;
	bc_text_init(&sql);
	for (size_t i = 0; i < sizeof schema_lines / sizeof schema_lines[0]; i++)
		bc_text_append(&sql, schema_lines[i]);
	bc_text_printf(&sql, "PRAGMA application_id = %d; PRAGMA user_version = %d;",
		BC_BOOK_APPLICATION_ID, BC_BOOK_SCHEMA);
	enum bc_status status = sql.failed ? BC_NO_MEMORY : bc_book_begin(book);
	if (bc_failed(status))
		goto done;
	/* another process may have been quicker */
	status = schema_of(book, &application, &version);
	if (!bc_failed(status) && (application != 0 || version != 0))
		status = say(book, BC_IO, "is there already");
	if (!bc_failed(status))
		status = bc_book_run(book, sql.data);
	status = bc_book_end(book, status);
done:
	bc_text_release(&sql);
	return status;
}

static bool is_empty_file(const char *path)
{
	struct stat about;
	return stat(path, &about) == 0 && S_ISREG(about.st_mode) && about.st_size == 0;
}

enum bc_status bc_book_create(
	const char *path, struct bc_diagnostics *diagnostics, struct bc_book *book)
{
	*book = (struct bc_book){0};
	int fd = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
	if (fd < 0 && (errno != EEXIST || !is_empty_file(path))) {
		bc_diagnose(diagnostics, BC_ERROR, path, 0, "%s",
			errno == EEXIST ? "is there already" : strerror(errno));
		return BC_IO;
	}
	if (fd >= 0)
		close(fd);
	enum bc_status status = connect_to(path, diagnostics, book);
	if (!bc_failed(status))
		status = write_schema(book);
	if (bc_failed(status)) {
		bc_book_close(book);
		if (fd >= 0 && is_empty_file(path))
			unlink(path);
	}
	return status;
}

/* migrations[n] brings version n to n + 1; version 1 is the first. */
static const char *const migrations[BC_BOOK_SCHEMA] = {NULL};

enum bc_status bc_book_bring_forward(
	struct bc_book *book, const char *const *steps, long long newest)
{
	long long version = 0;
	char stamp[64];
	enum bc_status status = bc_book_begin(book);
	if (bc_failed(status))
		return status;
	status = read_number(book, "PRAGMA user_version", &version);
	for (; !bc_failed(status) && version < newest; version++)
		status = bc_book_run(book, steps[version]);
	snprintf(stamp, sizeof stamp, "PRAGMA user_version = %lld", newest);
	if (!bc_failed(status))
		status = bc_book_run(book, stamp);
	return bc_book_end(book, status);
}

static enum bc_status check_schema(struct bc_book *book)
{
	long long application = 0;
	long long version = 0;
	enum bc_status status = schema_of(book, &application, &version);
	if (bc_failed(status))
		return status;
	if (application != BC_BOOK_APPLICATION_ID || version < 1)
		return say(book, BC_MALFORMED, "is no record book");
	if (version > BC_BOOK_SCHEMA)
		return say(book, BC_MALFORMED,
			"was written by a newer boilcut; this one would harm it");
	if (version < BC_BOOK_SCHEMA)
		return bc_book_bring_forward(book, migrations, BC_BOOK_SCHEMA);
	return BC_OK;
}

enum bc_status bc_book_open(
	const char *path, struct bc_diagnostics *diagnostics, struct bc_book *book)
{
	enum bc_status status = connect_to(path, diagnostics, book);
	if (!bc_failed(status))
		status = check_schema(book);
	if (bc_failed(status))
		bc_book_close(book);
	return status;
}

void bc_book_close(struct bc_book *book)
{
	if (book == NULL)
		return;
	sqlite3_close(book->db);
	bc_free(book->path);
	*book = (struct bc_book){0};
}

char *bc_book_path(const char *path)
{
	const char *named = getenv("BOILCUT_BOOK");
	const char *data = getenv("XDG_DATA_HOME");
	const char *home = getenv("HOME");
	if (path != NULL)
		return bc_strdup(path);
	if (named != NULL && named[0] != '\0')
		return bc_strdup(named);
	if (data != NULL && data[0] == '/')
		return bc_format("%s/boilcut/book.db", data);
	return bc_format("%s/.local/share/boilcut/book.db", home != NULL ? home : ".");
}
