/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BOOK_RECORD_H
#define BC_BOOK_RECORD_H

#include <stddef.h>

#include "book/book.h"
#include "sample/sample.h"

/*
 * Records of batches: put in (bc_book_add, bc_book_revise), found (bc_book_list, bc_book_next) and
 * read back (bc_book_read). A batch is one oil; its records are revisions 1, 2, ... of which the
 * last one counts. A batch's number is 1, 2, ... in the order in which they were opened.
 */

/* A figure that can be followed over time; low and high are 95 % bounds, or NaN. */
#define BC_FIGURE_KEY_SIZE 40
struct bc_figure {
	char key[BC_FIGURE_KEY_SIZE];
	double value;
	double low;
	double high;
};

/* What a judgement was made with. */
enum bc_basis_kind {
	BC_BASIS_LIMITS,  /* the CSV text in force */
	BC_BASIS_STILL,   /* the plain file of the still, or NULL */
	BC_BASIS_OFFSET,  /* of the flash, JSON, or NULL */
	BC_BASIS_OPTIONS, /* what else was asked for, JSON */
	BC_BASES
};
extern const char
	*const bc_basis_names[BC_BASES]; /* "limits", "still", "flash offset", "options" */

/* A record on its way into the book. Text may be NULL where a sample file may be silent. */
struct bc_entry {
	const char *added; /* NULL: now; an import says when */
	const char *file;
	const char *bytes; /* of the file, unchanged */
	size_t n;
	const char *name;
	const char *date;
	const char *feed;
	const char *history;
	const char *still;
	const char *drawn;
	const char *program;   /* version */
	const char *judgement; /* JSON, one line */
	const char *word;      /* of the verdict */
	const char *grade;     /* met or nearest */
	const char *basis[BC_BASES];
	const struct bc_figure *figures;
	size_t n_figures;
};

/* Name, date, feed, history, still and drawn, and the file name, of a sample; points into it. */
void bc_entry_from_sample(struct bc_entry *entry, const struct bc_sample *sample);

/* Where a record is. */
struct bc_place {
	long long batch;
	long long number; /* of the revision, from 1 */
	bool already;     /* it was there before: nothing has been added */
};

/*
 * bc_book_add    - a new batch with its first record, in one transaction
 * bc_book_revise - a further record of a batch, with the reason why
 *
 * Given     entry    bytes, file, history, program, judgement, word, limits and options must not be
 *                    NULL
 *           reason   not NULL
 * Returned  *place   where it is now, or where the same bytes were found
 * Status    BC_OK         also when place->already
 *           BC_NOT_FOUND  (revise) there is no such batch
 *           BC_IO, BC_MALFORMED, BC_NO_MEMORY as bc_book_open
 * Notes     1. add refuses bytes that any revision of any batch holds; revise those of other
 *              batches, and of its own only where the newest revision has the same bytes, judgement
 *              and basis
 *           2. within bc_book_begin and bc_book_end it is part of that transaction
 */
enum bc_status bc_book_add(
	struct bc_book *book, const struct bc_entry *entry, struct bc_place *place);
enum bc_status bc_book_revise(struct bc_book *book, long long batch, const char *reason,
	const struct bc_entry *entry, struct bc_place *place);

/* Adds a note to a batch; when it was added may be NULL: now. BC_NOT_FOUND: no such batch. */
enum bc_status bc_book_note(
	struct bc_book *book, long long batch, const char *text, const char *added);

/* The number of the newest revision; BC_NOT_FOUND: no such batch. */
enum bc_status bc_book_newest(struct bc_book *book, long long batch, long long *number);

/* ---- finding */

/* What a list is narrowed to; NULL: anything. Case of ASCII letters never matters. */
struct bc_book_filter {
	const char *from; /* first and last day, as 2026-10-03 */
	const char *until;
	const char *feed;  /* part of it */
	const char *still; /* whole */
	const char *word;  /* whole */
	const char *grade; /* its beginning */
	const char *text;  /* part of name, file, feed, still, drawn or a note */
	size_t most;       /* rows; 0: all */
};

/* One batch in a list: its newest revision. */
struct bc_book_row {
	long long batch;
	long long number;
	long long notes; /* how many */
	char *added;
	char *day; /* the sample's date where that is one, else the day it was added */
	char *file;
	char *name;
	char *date;
	char *feed;
	char *history;
	char *still;
	char *drawn;
	char *program;
	char *word;
	char *grade;
	double flash_c;
	double flash_low_c;
};

/* Called for every row, newest day first; a failure ends the list and is returned. */
typedef enum bc_status bc_book_row_taker(const struct bc_book_row *row, void *context);

/* Reads page by page: memory does not grow with the book, and no lock is held while take runs. */
enum bc_status bc_book_list(struct bc_book *book, const struct bc_book_filter *filter,
	bc_book_row_taker *take, void *context);

/* The next record after place in the order of batch and revision, from {0, 0}; BC_NOT_FOUND at the
 * end. */
enum bc_status bc_book_next(struct bc_book *book, struct bc_place *place);

/* ---- reading back */

struct bc_revision {
	long long number;
	char *added;
	char *reason; /* NULL for the first */
	char *file;
	char *program;
	char *word;
};

struct bc_note {
	char *added;
	char *text;
};

/* One record, whole. */
struct bc_record {
	long long id; /* revision.id, which figures and judgements hang on */
	struct bc_place place;
	char *added;
	char *reason;
	char *file;
	char *bytes; /* NUL-terminated beyond n */
	size_t n;
	char *name;
	char *date;
	char *day;
	char *feed;
	char *history;
	char *still;
	char *drawn;
	char *program;
	char *judgement;
	char *word;
	char *grade;
	char *basis[BC_BASES];
	struct bc_revision *revisions; /* all of the batch, from 1 */
	size_t n_revisions;
	struct bc_note *notes; /* of the batch, oldest first */
	size_t n_notes;
};

/* The revision so numbered of a batch, 0: the newest. BC_NOT_FOUND: there is none. Release after
 * any status. */
enum bc_status bc_book_read(
	struct bc_book *book, long long batch, long long number, struct bc_record *record);
void bc_record_release(struct bc_record *record);

/* Whether s is a day as 2026-10-03 (ISO 8601, the Gregorian calendar). */
bool bc_day_valid(const char *s);

#endif
