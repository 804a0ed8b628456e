/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Batches found again: lists that are read page by page, and the walk over all records. */
#include <string.h>

#include "base/memory.h"
#include "book/record.h"
#include "book/statement.h"

/* A page is full with so many rows or so many bytes of text. */
#define PAGE_ROWS 128
#define PAGE_BYTES ((size_t)1024 * 1024)

struct page {
	struct bc_book_row rows[PAGE_ROWS];
	size_t n;
	size_t bytes;
};

/* The text columns of a row, in the order of the statement. */
#define ROW_TEXTS 12
static void texts_of(struct bc_book_row *row, char **texts[ROW_TEXTS])
{
	char **all[ROW_TEXTS] = {&row->added, &row->day, &row->file, &row->name, &row->date,
		&row->feed, &row->history, &row->still, &row->drawn, &row->program, &row->word,
		&row->grade};
	memcpy(texts, all, sizeof all);
}

static void clear(struct page *page)
{
	char **texts[ROW_TEXTS];
	for (size_t i = 0; i < page->n; i++) {
		texts_of(&page->rows[i], texts);
		for (size_t k = 0; k < ROW_TEXTS; k++)
			bc_free(*texts[k]);
	}
	page->n = 0;
	page->bytes = 0;
}

static void take_row(struct bc_statement *statement, struct page *page)
{
	char **texts[ROW_TEXTS];
	struct bc_book_row *row = &page->rows[page->n++];
	*row = (struct bc_book_row){
		.batch = bc_get_integer(statement, 0),
		.number = bc_get_integer(statement, 1),
		.notes = bc_get_integer(statement, 2),
		.flash_c = bc_get_number(statement, 3),
		.flash_low_c = bc_get_number(statement, 4),
	};
	texts_of(row, texts);
	for (size_t k = 0; k < ROW_TEXTS; k++) {
		bc_get_text(statement, (int)k + 5, texts[k]);
		page->bytes += *texts[k] != NULL ? strlen(*texts[k]) : 0;
	}
}

static const char list_sql[] =
	"SELECT r.batch, r.number, (SELECT count(*) FROM note n WHERE n.batch = r.batch), "
	"f.value, f.low, r.added, r.day, r.file, r.name, r.date, r.feed, r.history, r.still, "
	"r.drawn, r.program, r.word, r.grade "
	"FROM revision r LEFT JOIN figure f ON f.key = 'flash_c' AND f.revision = r.id "
	"WHERE (r.day, r.batch) < (?1, ?2) "
	"AND r.number = (SELECT max(number) FROM revision WHERE batch = r.batch) "
	"AND (?3 IS NULL OR r.day >= ?3) AND (?4 IS NULL OR r.day <= ?4) "
	"AND (?5 IS NULL OR instr(lower(r.feed), lower(?5)) > 0) "
	"AND (?6 IS NULL OR lower(r.still) = lower(?6)) "
	"AND (?7 IS NULL OR lower(r.word) = lower(?7)) "
	"AND (?8 IS NULL OR instr(lower(r.grade), lower(?8)) = 1) "
	"AND (?9 IS NULL OR instr(lower(ifnull(r.name, '') || char(10) || r.file || char(10) || "
	"ifnull(r.feed, '') || char(10) || ifnull(r.still, '') || char(10) || "
	"ifnull(r.drawn, '')), lower(?9)) > 0 "
	"OR EXISTS (SELECT 1 FROM note n WHERE n.batch = r.batch "
	"AND instr(lower(n.text), lower(?9)) > 0)) "
	"ORDER BY r.day DESC, r.batch DESC LIMIT ?10";

/* The rows below (day, batch); fewer than most only at the end or when the page is full of text. */
static enum bc_status read_page(struct bc_book *book, const struct bc_book_filter *filter,
	const char *day, long long batch, size_t most, struct page *page)
{
	struct bc_statement statement;
	bc_statement_open(&statement, book, list_sql);
	bc_put_text(&statement, day);
	bc_put_integer(&statement, batch);
	bc_put_text(&statement, filter->from);
	bc_put_text(&statement, filter->until);
	bc_put_text(&statement, filter->feed);
	bc_put_text(&statement, filter->still);
	bc_put_text(&statement, filter->word);
	bc_put_text(&statement, filter->grade);
	bc_put_text(&statement, filter->text);
	bc_put_integer(&statement, (long long)most);
	while (page->n < most && page->bytes < PAGE_BYTES && bc_statement_row(&statement))
		take_row(&statement, page);
	return bc_statement_close(&statement);
}

enum bc_status bc_book_list(struct bc_book *book, const struct bc_book_filter *filter,
	bc_book_row_taker *take, void *context)
{
	size_t left = filter->most > 0 ? filter->most : (size_t)-1;
	enum bc_status status = BC_OK;
	long long batch = 0;
	char *day = bc_strdup("~"); /* behind every day */
	struct page *page = bc_alloc(sizeof *page);
	if (page == NULL || day == NULL)
		status = BC_NO_MEMORY;
	while (!bc_failed(status) && left > 0) {
		status = read_page(
			book, filter, day, batch, left < PAGE_ROWS ? left : PAGE_ROWS, page);
		if (bc_failed(status) || page->n == 0)
			break;
		for (size_t i = 0; i < page->n && !bc_failed(status); i++)
			status = take(&page->rows[i], context);
		left -= page->n;
		batch = page->rows[page->n - 1].batch;
		bc_free(day);
		day = bc_strdup(page->rows[page->n - 1].day);
		clear(page);
		if (day == NULL)
			status = BC_NO_MEMORY;
	}
	if (page != NULL)
		clear(page);
	bc_free(page);
	bc_free(day);
	return status;
}

enum bc_status bc_book_next(struct bc_book *book, struct bc_place *place)
{
	struct bc_statement statement;
	bool found = false;
	bc_statement_open(&statement, book,
		"SELECT batch, number FROM revision WHERE (batch, number) > (?, ?) "
		"ORDER BY batch, number LIMIT 1");
	bc_put_integer(&statement, place->batch);
	bc_put_integer(&statement, place->number);
	*place = (struct bc_place){0};
	if (bc_statement_row(&statement)) {
		place->batch = bc_get_integer(&statement, 0);
		place->number = bc_get_integer(&statement, 1);
		found = true;
	}
	enum bc_status status = bc_statement_close(&statement);
	return !bc_failed(status) && !found ? BC_NOT_FOUND : status;
}
