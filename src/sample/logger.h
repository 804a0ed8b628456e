/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_SAMPLE_LOGGER_H
#define BC_SAMPLE_LOGGER_H

#include <stdbool.h>
#include <stddef.h>

#include "base/text.h"
#include "sample/columns.h"
#include "sample/entry.h"

/* Lines of a data logger. Without a header row one number is the head temperature; of several the
 * first is the amount or end point, the second the head, the third the pot. */
struct bc_logger {
	const struct bc_unit *unit;     /* of its temperatures where no header says so */
	const struct bc_unit *notebook; /* in which they are handed on */
	struct bc_columns columns;
	bool has_columns;

	double head;      /* last good one; NaN: none yet */
	double strange;   /* the last one that did not belong */
	size_t n_strange; /* in a row that agreed with each other */
	double amount;    /* last one; NaN: none yet */
	double time_s;
	size_t n_good;
	size_t n_garbled;
	size_t n_repeated;
};

enum bc_logged {
	BC_LOGGED_HEAD,     /* a head temperature, maybe a pot; entry->head, pot */
	BC_LOGGED_READING,  /* with an amount or end point */
	BC_LOGGED_GARBLED,  /* skipped; why says it */
	BC_LOGGED_REPEATED, /* skipped */
	BC_LOGGED_NOTHING   /* a header, a comment, or blank */
};

void bc_logger_init(
	struct bc_logger *logger, const struct bc_unit *unit, const struct bc_unit *notebook);

/* After a break nothing is known of the last head. */
void bc_logger_again(struct bc_logger *logger);

/*
 * bc_logger_line - one line of the logger
 *
 * Returned  *entry as BC_ENTRY_READ, in the notebook's unit; *why, without line end, where the line
 *           is skipped
 * Notes     1. a head 50 degC away from the last one is skipped, unless the two lines behind it
 *              agree with it
 *           2. the same time, or where there is none the same amount and head again, is a
 *              repetition; an amount below the last one is garbled
 */
enum bc_logged bc_logger_line(
	struct bc_logger *logger, const char *line, struct bc_entry *entry, struct bc_text *why);

#endif
