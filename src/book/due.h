/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BOOK_DUE_H
#define BC_BOOK_DUE_H

#include "book/jars.h"

/* A jar with oil in it, and when it must be looked at again: peroxide, colour, sediment. */
struct bc_due {
	char *jar;
	char *place; /* or NULL */
	double volume_ml;
	long long batch; /* whose clock has run longest */
	char since[BC_DAY_SIZE];
	char due[BC_DAY_SIZE];
};
struct bc_dues {
	struct bc_due *items; /* the earliest first */
	size_t n;
	size_t capacity;
};

/*
 * bc_book_due   - the jars that are not empty and whose oldest part is due on a day
 * bc_retest_day - three months after a day
 *
 * Given     on      day, as 2026-10-03; NULL: all jars that are not empty
 *           since   day
 * Returned  *dues, to be released whatever the status
 *           due     the same day of the third month after it, or that month's last
 * Status    BC_IO, BC_MALFORMED, BC_NO_MEMORY
 * Notes     1. the clock of a part runs from the day its batch was drawn, else from the batch's
 * day; a test of the jar starts those of all its parts anew Source    three months: common
 * practice, as for the label of a can
 */
enum bc_status bc_book_due(struct bc_book *book, const char *on, struct bc_dues *dues);
void bc_dues_release(struct bc_dues *dues);
enum bc_status bc_retest_day(struct bc_book *book, const char *since, char due[BC_DAY_SIZE]);

#endif
