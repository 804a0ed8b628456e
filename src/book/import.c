/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An exported folder back into an empty book: all of it, or nothing. */
#include <errno.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/csv.h"
#include "base/file.h"
#include "base/hash.h"
#include "base/memory.h"
#include "base/number.h"
#include "book/check.h"
#include "book/exchange.h"
#include "book/layout.h"
#include "book/sheet.h"
#include "book/statement.h"

/* A table of 20,000 batches has some 50 MiB. */
#define FILE_LIMIT_BYTES ((size_t)1024 * 1024 * 1024)
#define HEAD_LIMIT_BYTES ((size_t)65536)

struct listed {
	const char *file;
	size_t n;
	uint64_t sum;
	bool used;
};

struct import {
	struct bc_book *book;
	const char *folder;
	struct bc_csv contents;
	struct listed *listed;
	size_t n;
};

static enum bc_status refuse(
	const struct import *import, const char *file, size_t line, const char *words)
{
	char *path = bc_format("%s/%s", import->folder, file);
	bc_diagnose(import->book->diagnostics, BC_ERROR, path, line, "%s", words);
	bc_free(path);
	return BC_MALFORMED;
}

static enum bc_status read_bytes(
	const struct import *import, const char *file, size_t limit, char **bytes, size_t *n)
{
	struct stat about;
	char *path = bc_format("%s/%s", import->folder, file);
	*bytes = NULL;
	*n = 0;
	if (path == NULL)
		return BC_NO_MEMORY;
	enum bc_status status = BC_OK;
	if (lstat(path, &about) != 0)
		status = refuse(import, file, 0, "is missing; expected a whole export");
	else if (!S_ISREG(about.st_mode))
		status = refuse(import, file, 0, "is no plain file; expected a whole export");
	else
		status = bc_file_read(path, limit, bytes, n, import->book->diagnostics);
	bc_free(path);
	return status;
}

/* Sixteen digits of a sum. */
static bool parse_sum(const char *s, uint64_t *sum)
{
	*sum = 0;
	if (strlen(s) != 16 || strspn(s, "0123456789abcdef") != 16)
		return false;
	*sum = strtoull(s, NULL, 16);
	return true;
}

/* ---- what is in the folder */

/* Plain letters, one folder at most, nothing hidden and no way up. */
static bool is_inside(const char *file)
{
	static const char plain[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
				    "0123456789._-";
	size_t first = strspn(file, plain);
	if (first == 0 || file[0] == '.')
		return false;
	if (file[first] == '\0')
		return true;
	const char *rest = file + first + 1;
	return file[first] == '/' && rest[0] != '\0' && rest[0] != '.' &&
	       rest[strspn(rest, plain)] == '\0';
}

static int by_file(const void *a, const void *b)
{
	const struct listed *left = a;
	const struct listed *right = b;
	return strcmp(left->file, right->file);
}

static bool parse_listed(const struct bc_csv_row *row, struct listed *listed)
{
	double n = NAN;
	if (row->n != 3 || !is_inside(row->fields[0]) ||
		!bc_number_parse(row->fields[1], '.', &n) || !(n >= 0.0) ||
		!(n <= (double)FILE_LIMIT_BYTES) || !parse_sum(row->fields[2], &listed->sum))
		return false;
	listed->file = row->fields[0];
	listed->n = (size_t)n;
	listed->used = false;
	return true;
}

static enum bc_status list_files(struct import *import)
{
	const struct bc_csv *csv = &import->contents;
	if (csv->n < 1)
		return refuse(import, BC_EXPORT_LIST, 1, "lists no file");
	import->listed = bc_alloc_array(csv->n, sizeof *import->listed);
	if (import->listed == NULL)
		return BC_NO_MEMORY;
	for (size_t i = 1; i < csv->n; i++) {
		if (!parse_listed(&csv->rows[i], &import->listed[import->n]))
			return refuse(import, BC_EXPORT_LIST, csv->rows[i].line,
				"does not name a file of an export with its length and sum");
		import->n++;
	}
	if (import->n > 1)
		qsort(import->listed, import->n, sizeof *import->listed, by_file);
	return BC_OK;
}

static enum bc_status read_contents(struct import *import, uint64_t sum)
{
	char *bytes = NULL;
	size_t n = 0;
	enum bc_status status = read_bytes(import, BC_EXPORT_LIST, FILE_LIMIT_BYTES, &bytes, &n);
	if (!bc_failed(status) && bc_hash(bytes, n) != sum)
		status = refuse(import, BC_EXPORT_LIST, 0,
			"is not as it was written; expected a whole export");
	if (!bc_failed(status))
		status = bc_csv_parse(bytes, n, ',', &import->contents, NULL);
	if (!bc_failed(status))
		status = list_files(import);
	bc_free(bytes);
	return status;
}

static enum bc_status check_head(
	const struct import *import, const struct bc_csv *csv, uint64_t *sum)
{
	static const char *const keys[] = {"what", "format", "schema", "contents"};
	const size_t n = sizeof keys / sizeof keys[0];
	bool known = csv->n == n;
	double schema = NAN;
	for (size_t i = 0; i < n && known; i++)
		known = csv->rows[i].n == 2 && strcmp(csv->rows[i].fields[0], keys[i]) == 0;
	known = known && strcmp(csv->rows[1].fields[1], BC_EXPORT_FORMAT) == 0 &&
		bc_number_parse(csv->rows[2].fields[1], '.', &schema) && schema >= 1.0 &&
		parse_sum(csv->rows[3].fields[1], sum);
	if (!known)
		return refuse(import, BC_EXPORT_HEAD, 0, "is not that of an exported book");
	if (schema > BC_BOOK_SCHEMA)
		return refuse(import, BC_EXPORT_HEAD, 0,
			"was written by a newer boilcut; expected one of this or an older one");
	return BC_OK;
}

static enum bc_status open_export(struct import *import)
{
	struct bc_csv csv = {0};
	char *bytes = NULL;
	size_t n = 0;
	uint64_t sum = 0;
	enum bc_status status = read_bytes(import, BC_EXPORT_HEAD, HEAD_LIMIT_BYTES, &bytes, &n);
	if (bc_failed(status))
		goto done;
	status = bc_csv_parse(bytes, n, ',', &csv, NULL);
	if (status == BC_MALFORMED)
		refuse(import, BC_EXPORT_HEAD, 0, "is not that of an exported book");
	if (!bc_failed(status))
		status = check_head(import, &csv, &sum);
	if (!bc_failed(status))
		status = read_contents(import, sum);
done:
	bc_csv_release(&csv);
	bc_free(bytes);
	return status;
}

/* A file of the list, which must still be what it was. */
static enum bc_status read_listed(struct import *import, const char *file, char **bytes, size_t *n)
{
	struct listed wanted = {.file = file};
	*bytes = NULL;
	*n = 0;
	struct listed *listed = import->n == 0 ? NULL
					       : bsearch(&wanted, import->listed, import->n,
							 sizeof *import->listed, by_file);
	if (listed == NULL)
		return refuse(import, BC_EXPORT_LIST, 0,
			"does not list every file; expected a whole export");
	enum bc_status status = read_bytes(import, file, FILE_LIMIT_BYTES, bytes, n);
	if (bc_failed(status))
		return status;
	listed->used = true;
	if (*n == listed->n && bc_hash(*bytes, *n) == listed->sum)
		return BC_OK;
	bc_free(*bytes);
	*bytes = NULL;
	return refuse(import, file, 0, "is not as it was written; expected a whole export");
}

/* ---- tables */

/* A table on its way in: which column of the file goes where, and the statement that takes it. */
struct loading {
	struct import *import;
	const struct bc_layout_table *table;
	const char *file;
	const struct bc_column **columns; /* of the file, from left to right */
	size_t n;
	sqlite3_stmt *insert;
};

static bool parse_integer(const char *s, long long *value)
{
	char *end = NULL;
	errno = 0;
	*value = strtoll(s, &end, 10);
	return errno == 0 && *s != '\0' && *end == '\0' && *s != ' ' && *s != '+';
}

static enum bc_status bind_file(
	const struct loading *loading, int place, const struct bc_column *column, const char *cell)
{
	char *bytes = NULL;
	size_t n = 0;
	if (!is_inside(cell))
		return refuse(loading->import, loading->file, 0, "names a file outside the folder");
	enum bc_status status = read_listed(loading->import, cell, &bytes, &n);
	if (bc_failed(status))
		return status;
	int code = column->bytes
			   ? sqlite3_bind_blob64(loading->insert, place, bytes, n, SQLITE_TRANSIENT)
			   : sqlite3_bind_text64(loading->insert, place, bytes, n, SQLITE_TRANSIENT,
				     SQLITE_UTF8);
	bc_free(bytes);
	return bc_book_status(loading->import->book, code);
}

static enum bc_status bind_cell(
	const struct loading *loading, size_t i, const char *cell, size_t line)
{
	const struct bc_column *column = loading->columns[i];
	int place = (int)i + 1;
	long long integer = 0;
	double real = NAN;
	int code = SQLITE_OK;
	if (*cell == '\0')
		return bc_book_status(
			loading->import->book, sqlite3_bind_null(loading->insert, place));
	switch (column->kind) {
	case BC_COLUMN_INTEGER:
		if (!parse_integer(cell, &integer))
			return refuse(loading->import, loading->file, line,
				"has a cell that is no whole number");
		code = sqlite3_bind_int64(loading->insert, place, integer);
		break;
	case BC_COLUMN_REAL:
		if (!bc_number_parse(cell, '.', &real))
			return refuse(loading->import, loading->file, line,
				"has a cell that is no number");
		code = sqlite3_bind_double(loading->insert, place, real);
		break;
	case BC_COLUMN_TEXT:
		code = sqlite3_bind_text(
			loading->insert, place, bc_sheet_text(cell), -1, SQLITE_TRANSIENT);
		break;
	case BC_COLUMN_FILE:
		return bind_file(loading, place, column, cell);
	}
	return bc_book_status(loading->import->book, code);
}

static enum bc_status insert_row(const struct loading *loading, const struct bc_csv_row *row)
{
	enum bc_status status = BC_OK;
	if (row->n != loading->n)
		return refuse(loading->import, loading->file, row->line,
			"has another number of cells than the head");
	sqlite3_reset(loading->insert);
	for (size_t i = 0; i < row->n && !bc_failed(status); i++)
		status = bind_cell(loading, i, row->fields[i], row->line);
	if (bc_failed(status))
		return status;
	int code = sqlite3_step(loading->insert);
	if ((code & 0xff) == SQLITE_CONSTRAINT || (code & 0xff) == SQLITE_MISMATCH)
		return refuse(
			loading->import, loading->file, row->line, "does not fit into a book");
	return bc_book_status(loading->import->book, code);
}

static const struct bc_column *find_column(const struct bc_layout_table *table, const char *name)
{
	for (size_t i = 0; i < table->n; i++) {
		if (strcmp(table->columns[i].name, name) == 0)
			return &table->columns[i];
	}
	return NULL;
}

/* The statement for the columns that the file has. */
static enum bc_status prepare(struct loading *loading, const struct bc_csv_row *head)
{
	struct bc_text sql;
	struct bc_book *book = loading->import->book;
	loading->columns = bc_alloc_array(head->n, sizeof(const struct bc_column *));
	if (loading->columns == NULL)
		return BC_NO_MEMORY;
	bc_text_init(&sql);
	bc_text_printf(&sql, "INSERT INTO \"%s\" (", loading->table->name);
	enum bc_status status = BC_OK;
	for (size_t i = 0; i < head->n && !bc_failed(status); i++) {
		const struct bc_column *column = find_column(loading->table, head->fields[i]);
		if (column == NULL)
			status = refuse(loading->import, loading->file, head->line,
				"has a column that a book does not have");
		else
			bc_text_printf(&sql, "%s\"%s\"", i > 0 ? ", " : "", column->name);
		loading->columns[i] = column;
	}
	loading->n = head->n;
	bc_text_append(&sql, ") VALUES (");
	for (size_t i = 0; i < head->n; i++)
		bc_text_append(&sql, i > 0 ? ", ?" : "?");
	bc_text_append(&sql, ")");
	if (!bc_failed(status) && sql.failed)
		status = BC_NO_MEMORY;
	int code = SQLITE_OK;
	if (!bc_failed(status))
		code = sqlite3_prepare_v2(book->db, sql.data, -1, &loading->insert, NULL);
	bc_text_release(&sql);
	if (code == SQLITE_ERROR)
		return refuse(loading->import, loading->file, head->line,
			"has a head that does not fit into a book");
	return bc_failed(status) ? status : bc_book_status(book, code);
}

static enum bc_status load_rows(struct loading *loading, const struct bc_csv *csv)
{
	if (csv->n < 1)
		return refuse(loading->import, loading->file, 1, "has no head");
	enum bc_status status = prepare(loading, &csv->rows[0]);
	for (size_t i = 1; i < csv->n && !bc_failed(status); i++)
		status = insert_row(loading, &csv->rows[i]);
	sqlite3_finalize(loading->insert);
	bc_free(loading->columns);
	return status;
}

static bool is_listed(const struct import *import, const char *file)
{
	struct listed wanted = {.file = file};
	return import->n > 0 &&
	       bsearch(&wanted, import->listed, import->n, sizeof *import->listed, by_file) != NULL;
}

static enum bc_status load_table(struct import *import, const struct bc_layout_table *table)
{
	struct bc_csv csv = {0};
	char *bytes = NULL;
	size_t n = 0;
	char *file = bc_format("%s.csv", table->name);
	if (file == NULL)
		return BC_NO_MEMORY;
	enum bc_status status = BC_OK;
	/* an older schema has fewer tables */
	if (!is_listed(import, file))
		goto done;
	status = read_listed(import, file, &bytes, &n);
	if (!bc_failed(status)) {
		status = bc_csv_parse(bytes, n, ',', &csv, NULL);
		if (status == BC_MALFORMED)
			refuse(import, file, 0, "has a quote that does not end");
	}
	if (!bc_failed(status)) {
		struct loading loading = {.import = import, .table = table, .file = file};
		status = load_rows(&loading, &csv);
	}
done:
	bc_csv_release(&csv);
	bc_free(bytes);
	bc_free(file);
	return status;
}

/* ---- the whole */

static enum bc_status check_empty(const struct import *import, const struct bc_layout *layout)
{
	for (size_t i = 0; i < layout->n; i++) {
		struct bc_statement statement;
		char *sql = bc_format("SELECT 1 FROM \"%s\" LIMIT 1", layout->tables[i].name);
		if (sql == NULL)
			return BC_NO_MEMORY;
		bc_statement_open(&statement, import->book, sql);
		bool found = bc_statement_row(&statement);
		enum bc_status status = bc_statement_close(&statement);
		bc_free(sql);
		if (bc_failed(status))
			return status;
		if (!found)
			continue;
		bc_diagnose(import->book->diagnostics, BC_ERROR, import->book->path, 0,
			"is not empty; expected a new book, which 'boilcut book init' makes");
		return BC_MALFORMED;
	}
	return BC_OK;
}

static enum bc_status check_all_used(const struct import *import)
{
	for (size_t i = 0; i < import->n; i++) {
		if (!import->listed[i].used)
			return refuse(import, import->listed[i].file, 0,
				"belongs to nothing in the export");
		if (i > 0 && strcmp(import->listed[i].file, import->listed[i - 1].file) == 0)
			return refuse(import, BC_EXPORT_LIST, 0, "names a file twice");
	}
	return BC_OK;
}

/* The sum that finds a file again belongs to its bytes. */
static enum bc_status check_sums(const struct import *import)
{
	struct bc_statement statement;
	bool same = true;
	bc_statement_open(&statement, import->book,
		"SELECT r.hash, c.bytes FROM revision r JOIN content c ON c.revision = r.id");
	while (same && bc_statement_row(&statement)) {
		char *bytes = NULL;
		size_t n = 0;
		bc_get_bytes(&statement, 1, &bytes, &n);
		same = bytes == NULL ||
		       (uint64_t)bc_get_integer(&statement, 0) == bc_hash(bytes, n);
		bc_free(bytes);
	}
	enum bc_status status = bc_statement_close(&statement);
	if (!bc_failed(status) && !same)
		return refuse(import, "revision.csv", 0, "does not go with the files in originals");
	return status;
}

static enum bc_status load_all(struct import *import)
{
	struct bc_layout layout;
	enum bc_status status = bc_layout_read(import->book, &layout);
	if (!bc_failed(status))
		status = check_empty(import, &layout);
	/* what a row refers to comes first; a reference into nowhere is said by the check below */
	if (!bc_failed(status))
		status = bc_book_run(import->book, "PRAGMA defer_foreign_keys = ON");
	for (size_t level = 0; level < layout.n; level++) {
		for (size_t i = 0; i < layout.n && !bc_failed(status); i++) {
			if (layout.tables[i].level == level)
				status = load_table(import, &layout.tables[i]);
		}
	}
	if (!bc_failed(status))
		status = check_all_used(import);
	if (!bc_failed(status))
		status = check_sums(import);
	if (!bc_failed(status))
		status = bc_book_check(import->book);
	bc_layout_release(&layout);
	return status;
}

static enum bc_status count_batches(struct bc_book *book, long long *batches)
{
	struct bc_statement statement;
	bc_statement_open(&statement, book, "SELECT count(*) FROM batch");
	*batches = bc_statement_row(&statement) ? bc_get_integer(&statement, 0) : 0;
	return bc_statement_close(&statement);
}

enum bc_status bc_book_import(struct bc_book *book, const char *folder, long long *batches)
{
	struct import import = {.book = book, .folder = folder};
	*batches = 0;
	enum bc_status status = open_export(&import);
	if (!bc_failed(status)) {
		status = bc_book_begin(book);
		if (!bc_failed(status))
			status = bc_book_end(book, load_all(&import));
	}
	if (!bc_failed(status))
		status = count_batches(book, batches);
	bc_csv_release(&import.contents);
	bc_free(import.listed);
	return status;
}

bool bc_export_is(const char *folder)
{
	static const char *const names[] = {BC_EXPORT_HEAD, BC_EXPORT_LIST};
	for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
		struct stat about;
		char *path = bc_format("%s/%s", folder, names[i]);
		bool there = path != NULL && stat(path, &about) == 0;
		bc_free(path);
		if (there)
			return true;
	}
	return false;
}
