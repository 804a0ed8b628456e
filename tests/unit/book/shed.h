/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_UNIT_BOOK_SHED_H
#define BC_UNIT_BOOK_SHED_H

/* A scratch folder with a book in it, and prepared records that need no judgement. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/memory.h"
#include "book/book.h"
#include "book/record.h"
#include "unit/unit.h"

struct shed {
	char folder[256];
	char path[288];
	struct bc_diagnostics said;
	struct bc_book book;
};

static inline void shed_make(struct shed *shed)
{
	const char *scratch = getenv("BUILD"); /* tests/run.sh sets it */
	*shed = (struct shed){0};
	bc_diagnostics_init(&shed->said);
	snprintf(shed->folder, sizeof shed->folder, "%s/shed-XXXXXX", scratch ? scratch : ".");
	assert_non_null(mkdtemp(shed->folder));
	snprintf(shed->path, sizeof shed->path, "%s/book.db", shed->folder);
}

static inline void shed_open_new(struct shed *shed)
{
	shed_make(shed);
	assert_int_equal(bc_book_create(shed->path, &shed->said, &shed->book), BC_OK);
}

static inline void shed_remove(struct shed *shed)
{
	char journal[300];
	bc_book_close(&shed->book);
	bc_diagnostics_release(&shed->said);
	snprintf(journal, sizeof journal, "%s-journal", shed->path);
	unlink(journal);
	unlink(shed->path);
	rmdir(shed->folder);
}

static inline const char *shed_last_words(const struct shed *shed)
{
	return shed->said.n > 0 ? shed->said.items[shed->said.n - 1].text : "";
}

/* An entry whose bytes are text. */
static inline struct bc_entry shed_entry(const char *text)
{
	static const struct bc_figure figures[] = {
		{.key = "flash_c", .value = 61.3, .low = 52.7, .high = 70.1},
		{.key = "t50_c", .value = 233.9, .low = (double)NAN, .high = (double)NAN},
	};
	return (struct bc_entry){
		.file = "jar.csv",
		.bytes = text,
		.n = strlen(text),
		.name = "Lake shed 14",
		.date = "2026-10-03",
		.feed = "PE crates",
		.history = "rerun",
		.program = "0.1.0",
		.judgement = "{\"verdict\":{\"word\":\"usable\"}}",
		.word = "usable",
		.grade = "diesel-range",
		.basis = {"grade,standard\n", NULL, NULL, "{}"},
		.figures = figures,
		.n_figures = 2,
	};
}

static inline long long shed_count(struct bc_book *book, const char *sql)
{
	sqlite3_stmt *statement = NULL;
	assert_int_equal(sqlite3_prepare_v2(book->db, sql, -1, &statement, NULL), SQLITE_OK);
	assert_int_equal(sqlite3_step(statement), SQLITE_ROW);
	long long n = sqlite3_column_int64(statement, 0);
	sqlite3_finalize(statement);
	return n;
}

#endif
