/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_SAMPLE_READER_H
#define BC_SAMPLE_READER_H

#include <stdbool.h>
#include <stddef.h>

#include "base/csv.h"
#include "base/diagnostic.h"
#include "base/status.h"
#include "sample/columns.h"
#include "sample/keys.h"
#include "sample/sample.h"

/* A sample on its way out of a file. */
struct bc_reader {
	const char *file;
	struct bc_diagnostics *diagnostics;
	struct bc_sample *sample;
	char separator;
	char decimal;
	size_t seen[BC_KEYS_MAX]; /* by key: the line that gave it, 0 where none did */
	size_t header_line;
	struct bc_columns columns;

	size_t readings_capacity;
	size_t measured_capacity;
	bool history_given;
	size_t kept_capacity;
	size_t end_line[3]; /* of IBP, FBP and dry point */
	bool unfilled;      /* a sheet whose readings are still to come is accepted */
};

enum bc_status bc_reader_init(
	struct bc_reader *reader, const char *file, struct bc_diagnostics *diagnostics);
/* Frees a sample that was not handed over. */
void bc_reader_release(struct bc_reader *reader);

/* Adds the one error of a refused file. Always fails: BC_MALFORMED, or BC_NO_MEMORY. */
__attribute__((format(printf, 3, 4))) enum bc_status bc_refuse(
	struct bc_reader *reader, size_t line, const char *format, ...);

/* Adds a warning about a line that is carried all the same. */
__attribute__((format(printf, 3, 4))) void bc_warn(
	struct bc_reader *reader, size_t line, const char *format, ...);

/* "','", "';'" or "tabs". */
const char *bc_separator_text(char separator);

/* A separator that the file does not use but the cell holds; NUL where there is none. */
char bc_other_separator(const struct bc_reader *reader, const char *cell);

/* A row before the table, its cells trimmed: key, value, and cells that belong to the value. */
enum bc_status bc_reader_key_row(struct bc_reader *reader, const struct bc_csv_row *row);

/* A row of the table, its cells trimmed. */
enum bc_status bc_reader_table_row(struct bc_reader *reader, const struct bc_csv_row *row);

/* A reading from the text of its amount (or IBP, FBP, dry) and of its temperature. */
enum bc_status bc_reader_add_reading(
	struct bc_reader *reader, struct bc_reading *reading, const char *amount, const char *head);

/* Cells from first on as one text, separators between them; NULL without memory. */
char *bc_join_cells(const struct bc_csv_row *row, size_t first, char separator);

/* What can be said only when all rows are in: derived figures, limits that need the charge. */
enum bc_status bc_reader_finish(struct bc_reader *reader);

/* Whether a label names an end point. */
bool bc_end_point_from_label(const char *label, enum bc_reading_kind *kind);

/* The decimal mark of a file from the bits of bc_cell_marks; 0 where both kinds are in use. */
char bc_decimal_from_marks(unsigned marks, char separator);

#endif
