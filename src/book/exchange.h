/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BOOK_EXCHANGE_H
#define BC_BOOK_EXCHANGE_H

#include <stdbool.h>

#include "base/text.h"
#include "book/book.h"

/*
 * A book as a folder of open files: book.csv says what it is, contents.csv lists every file with
 * its length and sum, each table is one CSV file (cells as in book/sheet.h), originals/ holds the
 * files as they were added and judgements/ the judgements as JSON, both named after batch and
 * revision. book.csv is written last: a folder without it is no whole export.
 */

/*
 * bc_book_export - the whole book into a folder, as it stands at one moment
 *
 * Given     folder   made where it is missing; what is there already must be empty
 * Status    BC_IO         the folder is not empty, or cannot be made or written
 *           BC_MALFORMED, BC_NO_MEMORY
 * Notes     1. the same book gives the same bytes
 */
enum bc_status bc_book_export(struct bc_book *book, const char *folder);

/*
 * bc_book_import - such a folder into an empty book, in one transaction
 *
 * Returned  *batches   how many there are now
 * Status    BC_MALFORMED  no export, of a newer schema, damaged, or the book is not empty; the book
 *                         is as it was
 *           BC_IO, BC_NO_MEMORY
 * Notes     1. exported again the folder is the same to the byte
 *           2. an older schema is taken: what it does not know has no value
 */
enum bc_status bc_book_import(struct bc_book *book, const char *folder, long long *batches);

/* Whether folder holds an export, whole or not. */
bool bc_export_is(const char *folder);

/* One line a batch, its newest record, with every figure in a column: for a spreadsheet. It cannot
 * be imported. */
enum bc_status bc_book_sheet(struct bc_book *book, struct bc_text *csv);

#endif
