/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BOOK_CONTENTS_H
#define BC_BOOK_CONTENTS_H

#include "book/jars.h"

/* What the newest record of a batch says, in short. Texts may be NULL where its file is silent. */
struct bc_batch_brief {
	long long batch;
	char *name;
	char *file;
	char *day;
	char *feed;
	char *word;
	char *grade;
	double flash_low_c; /* at 101.3 kPa; NaN: no claim */
	bool petrol;        /* to be treated as such */
};
/* BC_NOT_FOUND: no such batch. Release after any status. */
enum bc_status bc_batch_brief_read(
	struct bc_book *book, long long batch, struct bc_batch_brief *brief);
void bc_batch_brief_release(struct bc_batch_brief *brief);

struct bc_content {
	struct bc_batch_brief of;
	double volume_ml;
	double share_pct;
	char since[BC_DAY_SIZE];
};

/* What is in one jar, back to the runs. */
struct bc_contents {
	struct bc_content *items; /* the largest share first */
	size_t n;
	size_t worst;       /* of items: the lowest flash; petrol before all */
	bool petrol;        /* any part is */
	double flash_low_c; /* the lowest of the parts; NaN: one has no claim, or nothing is in */
	char since[BC_DAY_SIZE]; /* the oldest clock; "" when empty */
	char due[BC_DAY_SIZE];
	bool was_petrol; /* something that was in it before is to be treated as petrol */
};

/*
 * bc_contents_read - what is in a jar
 *
 * Given     jar of bc_store_read
 * Returned  *contents, to be released whatever the status
 * Status    BC_IO, BC_MALFORMED, BC_NO_MEMORY
 * Notes     1. a jar is as dangerous as its worst part, however little of it is in
 *           2. petrol: no claim on the flash, or a low bound below 23 degC, at 101.3 kPa or at the
 *              pressure under which the batch was boiled off
 * Source    GHS category 2: flash below 23 degC; 0.25 degC a kPa: ASTM D93, from memory
 */
enum bc_status bc_contents_read(
	struct bc_book *book, const struct bc_store_jar *jar, struct bc_contents *contents);
void bc_contents_release(struct bc_contents *contents);

#endif
