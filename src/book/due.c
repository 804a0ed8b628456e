/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The storage clock: which jars must be looked at again. */
#include "book/due.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "book/statement.h"

/* date() runs over the end of a short month, whose last day is then the earlier one. */
#define THREE_MONTHS                                                                               \
	"SELECT min(date(?1, '+3 months'), date(?1, 'start of month', '+4 months', '-1 day'))"

enum bc_status bc_retest_day(struct bc_book *book, const char *since, char due[BC_DAY_SIZE])
{
	struct bc_statement statement;
	char *day = NULL;
	bc_statement_open(&statement, book, THREE_MONTHS);
	bc_put_text(&statement, since);
	if (bc_statement_row(&statement))
		bc_get_text(&statement, 0, &day);
	enum bc_status status = bc_statement_close(&statement);
	/* a clock that nobody can read has run out */
	snprintf(due, BC_DAY_SIZE, "%s", day != NULL ? day : since);
	bc_free(day);
	return status;
}

static const struct bc_jar_part *oldest_part(const struct bc_store_jar *jar)
{
	const struct bc_jar_part *oldest = &jar->parts[0];
	for (size_t i = 1; i < jar->n_parts; i++) {
		if (strcmp(jar->parts[i].since, oldest->since) < 0)
			oldest = &jar->parts[i];
	}
	return oldest;
}

static enum bc_status add(struct bc_dues *dues, const struct bc_store_jar *jar,
	const struct bc_jar_part *oldest, const char *day)
{
	if (bc_grow((void **)&dues->items, dues->n, &dues->capacity, sizeof *dues->items) != 0)
		return BC_NO_MEMORY;
	struct bc_due *due = &dues->items[dues->n++];
	*due = (struct bc_due){.jar = bc_strdup(jar->id),
		.place = jar->place != NULL ? bc_strdup(jar->place) : NULL,
		.volume_ml = jar->volume_ml,
		.batch = oldest->batch};
	memcpy(due->since, oldest->since, sizeof due->since);
	memcpy(due->due, day, sizeof due->due);
	bool lost = due->jar == NULL || (jar->place != NULL && due->place == NULL);
	return lost ? BC_NO_MEMORY : BC_OK;
}

static int earlier(const void *a, const void *b)
{
	const struct bc_due *left = a;
	const struct bc_due *right = b;
	int order = strcmp(left->due, right->due);
	return order != 0 ? order : strcmp(left->jar, right->jar);
}

enum bc_status bc_book_due(struct bc_book *book, const char *on, struct bc_dues *dues)
{
	struct bc_store store;
	*dues = (struct bc_dues){0};
	enum bc_status status = bc_store_read(book, &store);
	for (size_t i = 0; i < store.n && !bc_failed(status); i++) {
		const struct bc_store_jar *jar = &store.jars[i];
		char day[BC_DAY_SIZE];
		if (jar->n_parts == 0)
			continue;
		const struct bc_jar_part *oldest = oldest_part(jar);
		status = bc_retest_day(book, oldest->since, day);
		if (!bc_failed(status) && (on == NULL || strcmp(day, on) <= 0))
			status = add(dues, jar, oldest, day);
	}
	bc_store_release(&store);
	if (!bc_failed(status) && dues->n > 0)
		qsort(dues->items, dues->n, sizeof *dues->items, earlier);
	return status;
}

void bc_dues_release(struct bc_dues *dues)
{
	if (dues == NULL)
		return;
	for (size_t i = 0; i < dues->n; i++) {
		bc_free(dues->items[i].jar);
		bc_free(dues->items[i].place);
	}
	bc_free(dues->items);
	*dues = (struct bc_dues){0};
}
