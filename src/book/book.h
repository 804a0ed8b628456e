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
/* How long one process waits for another [ms]; BOILCUT_PATIENCE_MS in the environment says
 * otherwise.
 */
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
	unsigned depth;                     /* of bc_book_begin */
	bool failed;                        /* something within the transaction */
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
 *           2. create makes no folders; an empty file counts as none
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
/* Runs a script that returns no rows. */
enum bc_status bc_book_run(struct bc_book *book, const char *sql);
/* Writers begin at once (BEGIN IMMEDIATE), so that two of them wait for each other, never fail half
 * way. bc_book_end commits, or rolls back when status is a failure; returns the worse. They nest:
 * the outermost pair is the transaction, and one failure within it undoes all of it. */
enum bc_status bc_book_begin(struct bc_book *book);
enum bc_status bc_book_end(struct bc_book *book, enum bc_status status);
/* Runs steps[version], which leads to version + 1, up to the newest, in one transaction. */
enum bc_status bc_book_bring_forward(
	struct bc_book *book, const char *const *steps, long long newest);
/* Now, UTC, as 2026-11-25T13:40:00Z. */
#define BC_TIME_SIZE 21
void bc_book_now(char now[BC_TIME_SIZE]);

#endif
