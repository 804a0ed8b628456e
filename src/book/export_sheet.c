/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All batches as one table for a spreadsheet. */
#include "base/memory.h"
#include "book/exchange.h"
#include "book/sheet.h"
#include "book/statement.h"
#include "book/trend.h"

#define FIXED 13

static const char rows_sql[] =
	"SELECT r.id, r.batch, r.number, r.added, r.day, r.file, r.name, r.date, r.feed, r.history, "
	"r.still, r.drawn, r.word, r.grade FROM revision r WHERE r.number = "
	"(SELECT max(number) FROM revision WHERE batch = r.batch) ORDER BY r.batch";

static const char *const fixed[FIXED] = {"batch", "revision", "added", "day", "file", "sample",
	"date", "feed", "history", "still", "drawn", "word", "grade"};

struct sheet {
	struct bc_book *book;
	struct bc_strings keys;
	sqlite3_stmt *figure; /* of one revision and key */
	struct bc_text *csv;
};

static enum bc_status append_figures(struct sheet *sheet, long long revision)
{
	for (size_t i = 0; i < sheet->keys.n; i++) {
		bc_text_append(sheet->csv, ",");
		sqlite3_reset(sheet->figure);
		sqlite3_bind_text(sheet->figure, 1, sheet->keys.items[i], -1, SQLITE_STATIC);
		sqlite3_bind_int64(sheet->figure, 2, revision);
		int code = sqlite3_step(sheet->figure);
		if (code == SQLITE_ROW)
			bc_sheet_append_number(sheet->csv, sqlite3_column_double(sheet->figure, 0));
		else if (code != SQLITE_DONE)
			return bc_book_status(sheet->book, code);
	}
	return BC_OK;
}

static enum bc_status append_row(struct sheet *sheet, struct bc_statement *rows)
{
	bc_sheet_append_integer(sheet->csv, bc_get_integer(rows, 1));
	bc_text_append(sheet->csv, ",");
	bc_sheet_append_integer(sheet->csv, bc_get_integer(rows, 2));
	for (int i = 3; i <= FIXED; i++) {
		char *s = NULL;
		bc_get_text(rows, i, &s);
		bc_text_append(sheet->csv, ",");
		bc_sheet_append_text(sheet->csv, s);
		bc_free(s);
	}
	enum bc_status status = append_figures(sheet, bc_get_integer(rows, 0));
	bc_text_append(sheet->csv, "\n");
	return status;
}

static enum bc_status append_all(struct sheet *sheet)
{
	struct bc_statement rows;
	enum bc_status taken = BC_OK;
	for (size_t i = 0; i < FIXED; i++)
		bc_text_printf(sheet->csv, "%s%s", i > 0 ? "," : "", fixed[i]);
	for (size_t i = 0; i < sheet->keys.n; i++) {
		bc_text_append(sheet->csv, ",");
		bc_sheet_append_text(sheet->csv, sheet->keys.items[i]);
	}
	bc_text_append(sheet->csv, "\n");
	bc_statement_open(&rows, sheet->book, rows_sql);
	while (!bc_failed(taken) && bc_statement_row(&rows))
		taken = append_row(sheet, &rows);
	enum bc_status status = bc_statement_close(&rows);
	if (!bc_failed(status) && sheet->csv->failed)
		status = BC_NO_MEMORY;
	return bc_failed(status) ? status : taken;
}

enum bc_status bc_book_sheet(struct bc_book *book, struct bc_text *csv)
{
	struct sheet sheet = {.book = book, .csv = csv};
	enum bc_status status = bc_book_figure_keys(book, &sheet.keys);
	if (!bc_failed(status))
		status = bc_book_status(
			book, sqlite3_prepare_v2(book->db,
				      "SELECT value FROM figure WHERE key = ? AND revision = ?", -1,
				      &sheet.figure, NULL));
	if (!bc_failed(status))
		status = append_all(&sheet);
	sqlite3_finalize(sheet.figure);
	bc_strings_release(&sheet.keys);
	return status;
}
