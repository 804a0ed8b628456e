/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The book as a folder of CSV files and of the files that were added. */
#include <dirent.h>
#include <errno.h>
#include <inttypes.h>
#include <string.h>
#include <sys/stat.h>

#include "base/file.h"
#include "base/hash.h"
#include "base/memory.h"
#include "book/exchange.h"
#include "book/layout.h"
#include "book/sheet.h"
#include "book/statement.h"

struct export
{
	struct bc_book *book;
	const char *folder;
	struct bc_text contents; /* of contents.csv */
};

static enum bc_status no_folder(const struct export *export, const char *folder)
{
	bc_diagnose(export->book->diagnostics, BC_ERROR, folder, 0, "cannot make the folder: %s",
		strerror(errno));
	return BC_IO;
}

/* Makes export->folder, or finds it empty. */
static enum bc_status open_folder(const struct export *export)
{
	if (mkdir(export->folder, 0777) == 0)
		return BC_OK;
	if (errno != EEXIST)
		return no_folder(export, export->folder);
	DIR *listing = opendir(export->folder);
	if (listing == NULL)
		return no_folder(export, export->folder);
	bool empty = true;
	const struct dirent *entry = NULL;
	while (empty && (entry = readdir(listing)) != NULL)
		empty = strcmp(entry->d_name, ".") == 0 || strcmp(entry->d_name, "..") == 0;
	closedir(listing);
	if (empty)
		return BC_OK;
	bc_diagnose(export->book->diagnostics, BC_ERROR, export->folder, 0,
		"is not empty; expected a new folder");
	return BC_IO;
}

static enum bc_status make_folder(const struct export *export, const char *name)
{
	char *path = bc_format("%s/%s", export->folder, name);
	if (path == NULL)
		return BC_NO_MEMORY;
	enum bc_status status = BC_OK;
	if (mkdir(path, 0777) != 0 && errno != EEXIST)
		status = no_folder(export, path);
	bc_free(path);
	return status;
}

static enum bc_status write_bytes(
	const struct export *export, const char *name, const char *bytes, size_t n, bool wait)
{
	char *path = bc_format("%s/%s", export->folder, name);
	if (path == NULL)
		return BC_NO_MEMORY;
	enum bc_status status = wait ? bc_file_write(path, bytes, n, export->book->diagnostics)
				     : bc_file_write_new(path, bytes, n, export->book->diagnostics);
	bc_free(path);
	return status;
}

/* ... and lists it. */
static enum bc_status write_listed(
	struct export *export, const char *name, const char *bytes, size_t n)
{
	bc_text_printf(&export->contents, "%s,%zu,%016" PRIx64 "\n", name, n, bc_hash(bytes, n));
	return write_bytes(export, name, bytes, n, false);
}

/* ---- values that are files */

#define NAME_MOST 60

static bool is_plain(char c)
{
	return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
	       strchr("._-", c) != NULL;
}

/* "originals/12-1-lake-shed-14.csv", "judgements/12-1.json" */
static enum bc_status name_file(struct export *export, const struct bc_column *column,
	long long revision, struct bc_text *name)
{
	struct bc_statement statement;
	char *file = NULL;
	bc_statement_open(
		&statement, export->book, "SELECT batch, number, file FROM revision WHERE id = ?");
	bc_put_integer(&statement, revision);
	if (bc_statement_row(&statement)) {
		bc_text_printf(name, "%s/%lld-%lld", column->bytes ? "originals" : "judgements",
			bc_get_integer(&statement, 0), bc_get_integer(&statement, 1));
		bc_get_text(&statement, 2, &file);
	}
	enum bc_status status = bc_statement_close(&statement);
	const char *slash = file != NULL ? strrchr(file, '/') : NULL;
	const char *base = slash != NULL ? slash + 1 : file;
	if (!column->bytes)
		bc_text_append(name, ".json");
	else if (base != NULL && *base != '\0')
		bc_text_append(name, "-");
	for (size_t i = 0; column->bytes && base != NULL && base[i] != '\0' && i < NAME_MOST; i++)
		bc_text_append_n(name, is_plain(base[i]) ? base + i : "_", 1);
	bc_free(file);
	return !bc_failed(status) && name->failed ? BC_NO_MEMORY : status;
}

static enum bc_status append_file(struct export *export, struct bc_statement *rows, int at,
	const struct bc_column *column, struct bc_text *csv)
{
	struct bc_text name;
	char *bytes = NULL;
	size_t n = 0;
	bc_text_init(&name);
	/* the revision is the first column of the table that has such values */
	enum bc_status status = name_file(export, column, bc_get_integer(rows, 0), &name);
	if (!bc_failed(status)) {
		bc_get_bytes(rows, at, &bytes, &n);
		status = rows->status;
	}
	if (!bc_failed(status))
		status = write_listed(export, name.data, bytes, n);
	if (!bc_failed(status))
		bc_sheet_append_text(csv, name.data);
	bc_free(bytes);
	bc_text_release(&name);
	return status;
}

/* ---- tables */

static enum bc_status append_text(struct bc_statement *rows, int at, struct bc_text *csv)
{
	char *s = NULL;
	bc_get_text(rows, at, &s);
	bc_sheet_append_text(csv, s);
	bc_free(s);
	return rows->status;
}

static enum bc_status append_cell(struct export *export, struct bc_statement *rows, int at,
	const struct bc_column *column, struct bc_text *csv)
{
	if (sqlite3_column_type(rows->handle, at) == SQLITE_NULL)
		return BC_OK;
	switch (column->kind) {
	case BC_COLUMN_INTEGER:
		bc_sheet_append_integer(csv, bc_get_integer(rows, at));
		return BC_OK;
	case BC_COLUMN_REAL:
		bc_sheet_append_number(csv, bc_get_number(rows, at));
		return BC_OK;
	case BC_COLUMN_TEXT:
		return append_text(rows, at, csv);
	case BC_COLUMN_FILE:
		return append_file(export, rows, at, column, csv);
	}
	return BC_OK;
}

/* "SELECT \"id\", \"name\" FROM \"still\" ORDER BY \"id\"" and the head of the file */
static void write_query(
	const struct bc_layout_table *table, struct bc_text *sql, struct bc_text *csv)
{
	const char *lead = " ORDER BY ";
	bc_text_append(sql, "SELECT ");
	for (size_t i = 0; i < table->n; i++) {
		const char *name = table->columns[i].name;
		bc_text_printf(sql, "%s\"%s\"", i > 0 ? ", " : "", name);
		bc_text_append(csv, i > 0 ? "," : "");
		bc_sheet_append_text(csv, name);
	}
	bc_text_append(csv, "\n");
	bc_text_printf(sql, " FROM \"%s\"", table->name);
	for (size_t place = 1; place <= table->n; place++) {
		for (size_t i = 0; i < table->n; i++) {
			if (table->columns[i].key != (long long)place)
				continue;
			bc_text_printf(sql, "%s\"%s\"", lead, table->columns[i].name);
			lead = ", ";
		}
	}
}

static enum bc_status append_rows(struct export *export, const struct bc_layout_table *table,
	const char *sql, struct bc_text *csv)
{
	struct bc_statement rows;
	enum bc_status taken = BC_OK;
	bc_statement_open(&rows, export->book, sql);
	while (!bc_failed(taken) && bc_statement_row(&rows)) {
		for (size_t i = 0; i < table->n && !bc_failed(taken); i++) {
			bc_text_append(csv, i > 0 ? "," : "");
			taken = append_cell(export, &rows, (int)i, &table->columns[i], csv);
		}
		bc_text_append(csv, "\n");
	}
	enum bc_status status = bc_statement_close(&rows);
	if (!bc_failed(status) && csv->failed)
		status = BC_NO_MEMORY;
	return bc_failed(status) ? status : taken;
}

static enum bc_status export_table(struct export *export, const struct bc_layout_table *table)
{
	struct bc_text sql;
	struct bc_text csv;
	bc_text_init(&sql);
	bc_text_init(&csv);
	write_query(table, &sql, &csv);
	char *name = bc_format("%s.csv", table->name);
	enum bc_status status = sql.failed || name == NULL ? BC_NO_MEMORY : BC_OK;
	if (!bc_failed(status))
		status = append_rows(export, table, sql.data, &csv);
	if (!bc_failed(status))
		status = write_listed(export, name, csv.data, csv.length);
	bc_free(name);
	bc_text_release(&csv);
	bc_text_release(&sql);
	return status;
}

static enum bc_status export_all(struct export *export)
{
	struct bc_layout layout;
	enum bc_status status = bc_layout_read(export->book, &layout);
	bc_text_append(&export->contents, "file,bytes,sum\n");
	for (size_t i = 0; i < layout.n && !bc_failed(status); i++)
		status = export_table(export, &layout.tables[i]);
	bc_layout_release(&layout);
	return !bc_failed(status) && export->contents.failed ? BC_NO_MEMORY : status;
}

static enum bc_status write_head(const struct export *export)
{
	char *head = bc_format("what,value\nformat," BC_EXPORT_FORMAT
			       "\nschema,%d\ncontents,%016" PRIx64 "\n",
		BC_BOOK_SCHEMA, bc_hash(export->contents.data, export->contents.length));
	if (head == NULL)
		return BC_NO_MEMORY;
	enum bc_status status = write_bytes(
		export, BC_EXPORT_LIST, export->contents.data, export->contents.length, true);
	if (!bc_failed(status))
		status = write_bytes(export, BC_EXPORT_HEAD, head, strlen(head), true);
	bc_free(head);
	return status;
}

enum bc_status bc_book_export(struct bc_book *book, const char *folder)
{
	struct export export = {.book = book, .folder = folder};
	bc_text_init(&export.contents);
	enum bc_status status = open_folder(&export);
	if (!bc_failed(status))
		status = make_folder(&export, "originals");
	if (!bc_failed(status))
		status = make_folder(&export, "judgements");
	if (!bc_failed(status))
		status = bc_book_run(book, "BEGIN"); /* all of it as it is at one moment */
	if (bc_failed(status))
		goto done;
	status = export_all(&export);
	bc_book_run(book, "ROLLBACK");
	if (!bc_failed(status))
		status = write_head(&export);
done:
	bc_text_release(&export.contents);
	return status;
}
