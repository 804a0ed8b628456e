/* SPDX-License-Identifier: GPL-3.0-or-later */
/* CSV through libcsv. The text is fed to it line by line, since it does not tell where it is. */
#include "base/csv.h"

#include <csv.h>
#include <stdbool.h>
#include <string.h>

#include "base/memory.h"

struct reader {
	struct bc_csv *csv;
	size_t row_capacity;
	size_t n_fields;
	size_t field_capacity;
	size_t n_text;
	size_t row_line; /* where the row being read starts */
	size_t row_first_field;
	bool row_open;
	bool no_memory;
};

static void *grow_entry(void *old, size_t size) { return bc_realloc_array(old, size, 1); }

static void on_field(void *bytes, size_t n, void *data)
{
	struct reader *reader = data;
	struct bc_csv *csv = reader->csv;
	void *fields = csv->fields;
	if (reader->no_memory || bc_grow(&fields, reader->n_fields, &reader->field_capacity,
					 sizeof *csv->fields) != 0) {
		reader->no_memory = true;
		return;
	}
	csv->fields = fields;
	char *field = csv->text + reader->n_text;
	if (n > 0)
		memcpy(field, bytes, n);
	field[n] = '\0';
	reader->n_text += n + 1;
	csv->fields[reader->n_fields++] = field;
}

static void on_row(int terminator, void *data)
{
	(void)terminator;
	struct reader *reader = data;
	struct bc_csv *csv = reader->csv;
	void *rows = csv->rows;
	if (reader->no_memory ||
		bc_grow(&rows, csv->n, &reader->row_capacity, sizeof *csv->rows) != 0) {
		reader->no_memory = true;
		return;
	}
	csv->rows = rows;
	csv->rows[csv->n++] = (struct bc_csv_row){
		reader->row_line, NULL, reader->n_fields - reader->row_first_field};
	reader->row_first_field = reader->n_fields;
	reader->row_open = false;
}

/* Bytes of the first line with its ending: LF, CR or CR LF. */
static size_t line_length(const char *bytes, size_t n)
{
	size_t length = 0;
	while (length < n && bytes[length] != '\n' && bytes[length] != '\r')
		length++;
	if (length + 1 < n && bytes[length] == '\r' && bytes[length + 1] == '\n')
		return length + 2;
	return length < n ? length + 1 : n;
}

static bool is_blank_line(const char *line, size_t n, char separator)
{
	for (size_t i = 0; i < n; i++) {
		if (line[i] == separator || strchr(" \t\r\n", line[i]) == NULL)
			return false;
	}
	return true;
}

static enum bc_status feed(struct csv_parser *parser, struct reader *reader, const char *bytes,
	size_t n, char separator)
{
	size_t line = 1;
	for (size_t at = 0; at < n; line++) {
		size_t length = line_length(bytes + at, n - at);
		if (!reader->row_open) {
			reader->row_line = line;
			reader->row_open = !is_blank_line(bytes + at, length, separator);
		}
		if (csv_parse(parser, bytes + at, length, on_field, on_row, reader) != length ||
			reader->no_memory)
			return BC_NO_MEMORY;
		at += length;
	}
	/* the last line may lack its ending; a quote still open swallows this one too */
	if (reader->row_open && csv_parse(parser, "\n", 1, on_field, on_row, reader) != 1)
		return BC_NO_MEMORY;
	if (reader->no_memory)
		return BC_NO_MEMORY;
	return reader->row_open ? BC_MALFORMED : BC_OK;
}

static void point_rows_at_fields(struct bc_csv *csv)
{
	size_t first = 0;
	for (size_t i = 0; i < csv->n; i++) {
		csv->rows[i].fields = csv->fields + first;
		first += csv->rows[i].n;
	}
}

enum bc_status bc_csv_parse(
	const char *bytes, size_t n, char separator, struct bc_csv *csv, size_t *bad_line)
{
	*csv = (struct bc_csv){0};
	if (bad_line != NULL)
		*bad_line = 0;
	/* every field is followed by a separator, a line ending or the end, so its NUL has room;
	 * an open quote may take in one more line ending */
	csv->text = bc_alloc(n + 2);
	if (csv->text == NULL)
		return BC_NO_MEMORY;
	struct csv_parser parser;
	csv_init(&parser, 0);
	csv_set_delim(&parser, (unsigned char)separator);
	csv_set_realloc_func(&parser, grow_entry);
	csv_set_free_func(&parser, bc_free);
	struct reader reader = {.csv = csv};
	enum bc_status status = feed(&parser, &reader, bytes, n, separator);
	csv_free(&parser);
	if (status == BC_MALFORMED && bad_line != NULL)
		*bad_line = reader.row_line;
	if (bc_failed(status))
		bc_csv_release(csv);
	else
		point_rows_at_fields(csv);
	return status;
}

void bc_csv_release(struct bc_csv *csv)
{
	if (csv == NULL)
		return;
	bc_free(csv->rows);
	bc_free(csv->fields);
	bc_free(csv->text);
	*csv = (struct bc_csv){0};
}
