/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BOOK_STILLS_H
#define BC_BOOK_STILLS_H

#include <stddef.h>

#include "book/book.h"

#define BC_BOOK_STILL_NAME_SIZE 65 /* with its NUL */
#define BC_BOOK_STILL_BYTES ((size_t)1024 * 1024)

/* The plain file of a still as it was once imported or learnt. */
struct bc_book_still {
	char *name;
	char *added;
	char *text;         /* NULL in a list */
	long long version;  /* from 1 */
	long long versions; /* how many there are */
};

struct bc_book_stills {
	struct bc_book_still *items; /* by name, the newest version of each */
	size_t n;
	size_t capacity;
};

/*
 * bc_book_still_add  - a further version of a still
 * bc_book_still_read - one version; 0: the newest
 * bc_book_still_list - every still
 *
 * Given     name  as bc_jar_id_valid; text of its file; ASCII letters of a name without case
 * Returned  *version  of the new one, or of the newest where its text is the same
 *           *already  it is, and nothing was added
 *           *still, *stills: released by the caller whatever the status
 * Status    BC_NOT_FOUND  (read) no such still or version; BC_IO, BC_MALFORMED, BC_NO_MEMORY
 */
enum bc_status bc_book_still_add(struct bc_book *book, const char *name, const char *text,
	long long *version, bool *already);
enum bc_status bc_book_still_read(
	struct bc_book *book, const char *name, long long version, struct bc_book_still *still);
enum bc_status bc_book_still_list(struct bc_book *book, struct bc_book_stills *stills);
void bc_book_still_release(struct bc_book_still *still);
void bc_book_stills_release(struct bc_book_stills *stills);

#endif
