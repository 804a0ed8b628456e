/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BOOK_BOOK_H
#define BC_BOOK_BOOK_H

#include <sqlite3.h>
#include <stdbool.h>

#include "base/diagnostic.h"
#include "base/status.h"

/* "bcbk" */
#define BC_BOOK_APPLICATION_ID 0x6263626b
/* PRAGMA user_version; a book with a greater one is refused. */
#define BC_BOOK_SCHEMA 1
/* How long a writer waits for another one [ms]. */
#define BC_BOOK_PATIENCE_MS 10000

/*
 * The record book: one SQLite file, no server.
 *
 * Journal: rollback, not WAL. A book lives on a laptop or a stick and is copied as one file; with
 * WAL a copy without its -wal file lacks the last records. synchronous=FULL: what was acknowledged
 * is on the disk.
 */
struct bc_book {
	sqlite3 *db;
	char *path;
	struct bc_diagnostics *diagnostics; /* of the caller; every failure says one line there */
};

/*
 * bc_book_create, bc_book_open - a new book, and one that is there
 *
 * Given     path; diagnostics, which must outlive the book
 * Returned  *book; zeroed on failure
 * Status    BC_IO         cannot be opened, read, written or locked, or (create) is there already
 *           BC_MALFORMED  no book, damaged, or of a newer schema
 *           BC_NO_MEMORY
 * Notes     1. an older schema is brought forward in one transaction
 */
enum bc_status bc_book_create(
	const char *path, struct bc_diagnostics *diagnostics, struct bc_book *book);
enum bc_status bc_book_open(
	const char *path, struct bc_diagnostics *diagnostics, struct bc_book *book);
void bc_book_close(struct bc_book *book);

/* --book FILE (path, may be NULL), BOILCUT_BOOK, or boilcut/book.db in the XDG data folder. NULL
 * without memory. */
char *bc_book_path(const char *path);

/* ---- for the files of this room */

/* What a result code of SQLite means, said as one line where it is a failure. */
enum bc_status bc_book_status(struct bc_book *book, int code);
/* A statement; *statement is NULL on failure. Finalise with sqlite3_finalize. */
enum bc_status bc_book_prepare(struct bc_book *book, const char *sql, sqlite3_stmt **statement);
/* Runs a statement that returns no rows, or the whole of a script. */
enum bc_status bc_book_run(struct bc_book *book, const char *sql);
/* Steps a statement that returns no rows and finalises it. */
enum bc_status bc_book_finish(struct bc_book *book, sqlite3_stmt *statement);
/* Writers begin at once (BEGIN IMMEDIATE), so that two of them wait for each other, never fail half
 * way. bc_book_end commits, or rolls back when status is a failure; returns the worse. */
enum bc_status bc_book_begin(struct bc_book *book);
enum bc_status bc_book_end(struct bc_book *book, enum bc_status status);
/* Now, UTC, as 2026-11-25T13:40:00Z. */
#define BC_TIME_SIZE 21
void bc_book_now(char now[BC_TIME_SIZE]);

#endif
