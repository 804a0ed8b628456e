/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A sample from the bytes of a file: which separator, where the header, which decimal mark, then
 * row by row. Each is decided once, from the whole file.
 */
#include "sample/reader.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "sample/cell.h"
#include "sample/plain.h"

enum bc_status bc_refuse(struct bc_reader *reader, size_t line, const char *format, ...)
{
	struct bc_text text;
	bc_text_init(&text);
	va_list arguments;
	va_start(arguments, format);
	bc_text_vprintf(&text, format, arguments);
	va_end(arguments);
	enum bc_status status = text.failed ? BC_NO_MEMORY : BC_MALFORMED;
	if (!text.failed)
		bc_diagnose(reader->diagnostics, BC_ERROR, reader->file, line, "%s", text.data);
	bc_text_release(&text);
	return status;
}

void bc_warn(struct bc_reader *reader, size_t line, const char *format, ...)
{
	struct bc_text text;
	bc_text_init(&text);
	va_list arguments;
	va_start(arguments, format);
	bc_text_vprintf(&text, format, arguments);
	va_end(arguments);
	if (!text.failed)
		bc_diagnose(reader->diagnostics, BC_WARNING, reader->file, line, "%s", text.data);
	bc_text_release(&text);
}

const char *bc_separator_text(char separator)
{
	return separator == '\t' ? "tabs" : separator == ';' ? "';'" : "','";
}

char bc_other_separator(const struct bc_reader *reader, const char *cell)
{
	const char *at = strpbrk(cell, reader->separator == ',' ? ";\t" : ",;\t");
	return at == NULL || *at == reader->separator ? '\0' : *at;
}

/* Every number of a sample is NaN where the file is silent. */
static void clear_numbers(struct bc_sample *sample)
{
	for (size_t i = 0; i < bc_n_keys; i++) {
		const struct bc_key *key = &bc_keys[i];
		bool words = key->kind == BC_KEY_TEXT || key->kind == BC_KEY_HISTORY ||
			     key->kind == BC_KEY_THERMOMETER || key->kind == BC_KEY_APPARATUS;
		if (!words && key->place != BC_KEY_NO_PLACE)
			*(double *)(void *)((char *)sample + key->place) = NAN;
		if (key->mass_place != BC_KEY_NO_PLACE)
			*(double *)(void *)((char *)sample + key->mass_place) = NAN;
	}
	sample->residue_pct = NAN;
	sample->loss_pct = NAN;
	sample->water_pct = NAN;
	sample->density_step_kgm3 = NAN;
	sample->density_temp_c = NAN;
	sample->column_stages = NAN;
	sample->column_reflux = NAN;
	sample->jar_to_pot_c = NAN;
	sample->charge_ml = BC_CHARGE_ML;
}

enum bc_status bc_reader_init(
	struct bc_reader *reader, const char *file, struct bc_diagnostics *diagnostics)
{
	*reader = (struct bc_reader){
		.file = file, .diagnostics = diagnostics, .decimal = '.', .separator = ','};
	reader->sample = bc_alloc(sizeof *reader->sample);
	if (reader->sample == NULL)
		return BC_NO_MEMORY;
	clear_numbers(reader->sample);
	reader->sample->file = bc_strdup(file);
	return reader->sample->file == NULL ? BC_NO_MEMORY : BC_OK;
}

void bc_reader_release(struct bc_reader *reader)
{
	bc_sample_free(reader->sample);
	reader->sample = NULL;
}

char *bc_join_cells(const struct bc_csv_row *row, size_t first, char separator)
{
	struct bc_text text;
	size_t n = row->n;
	bc_text_init(&text);
	while (n > first && *row->fields[n - 1] == '\0')
		n--;
	for (size_t i = first; i < n; i++) {
		char between[] = {
			separator == '\t' ? ' ' : separator, separator == '\t' ? '\0' : ' ', '\0'};
		if (i > first)
			bc_text_append(&text, between);
		bc_text_append(&text, row->fields[i]);
	}
	if (text.data == NULL && !text.failed)
		return bc_strdup("");
	char *joined = bc_text_take(&text);
	if (joined == NULL)
		return NULL;
	char *trimmed = bc_cell_trim(joined);
	memmove(joined, trimmed, strlen(trimmed) + 1);
	return joined;
}

static void trim_cells(struct bc_csv *csv)
{
	for (size_t i = 0; i < csv->n; i++) {
		for (size_t k = 0; k < csv->rows[i].n; k++)
			csv->rows[i].fields[k] = bc_cell_trim(csv->rows[i].fields[k]);
	}
}

/* A row under the header that holds a reading, whatever the decimal mark. */
static bool is_reading(const struct bc_csv_row *row, const struct bc_columns *columns)
{
	size_t amount = columns->at[BC_COLUMN_AMOUNT];
	size_t head = columns->at[BC_COLUMN_HEAD];
	enum bc_reading_kind kind;
	if (amount >= row->n || head >= row->n || !bc_cell_is_number(row->fields[head]))
		return false;
	return bc_cell_is_number(row->fields[amount]) ||
	       bc_end_point_from_label(row->fields[amount], &kind);
}

struct layout {
	struct bc_csv csv;
	size_t header;
	struct bc_columns columns;
	bool has_header;
	bool has_reading; /* below the header */
};

static void find_header(struct layout *layout)
{
	const struct bc_csv *csv = &layout->csv;
	for (size_t i = 0; i < csv->n && !layout->has_header; i++) {
		if (bc_columns_from_header(&csv->rows[i], &layout->columns)) {
			layout->has_header = true;
			layout->header = i;
		}
	}
	for (size_t i = layout->header + 1; layout->has_header && i < csv->n; i++) {
		if (is_reading(&csv->rows[i], &layout->columns)) {
			layout->has_reading = true;
			return;
		}
	}
}

/* The line of the first row that looks like a reading without a header above it; 0 for none. */
static size_t first_reading_line(const struct bc_csv *csv)
{
	enum bc_reading_kind kind;
	for (size_t i = 0; i < csv->n; i++) {
		const char *cell = csv->rows[i].fields[0];
		if (bc_cell_is_number(cell) || bc_end_point_from_label(cell, &kind))
			return csv->rows[i].line;
	}
	return 0;
}

/* The row of a header whose cells nothing that is known separates; NULL for none. */
static const struct bc_csv_row *unseparated_header(const struct bc_csv *csv)
{
	for (size_t i = 0; i < csv->n; i++) {
		const char *cell = csv->rows[i].fields[0];
		if (strpbrk(cell, "0123456789;\t") == NULL && bc_is_whole_header(cell))
			return &csv->rows[i];
	}
	return NULL;
}

static enum bc_status refuse_no_header(struct bc_reader *reader, const struct bc_csv *csv)
{
	if (csv->n == 0)
		return bc_refuse(reader, 0, "file is empty; a sample file was expected");
	const struct bc_csv_row *header = unseparated_header(csv);
	char quoted[BC_QUOTED_SIZE];
	if (header != NULL)
		return bc_refuse(reader, header->line,
			"%s is one cell; ',' ';' or a tab between the columns was expected, in the "
			"header and in all other rows",
			bc_cell_quoted(header->fields[0], quoted));
	return bc_refuse(reader, first_reading_line(csv),
		"no header row was found; a row such as 'recovered (%%),head (C)' was expected "
		"above the readings");
}

static enum bc_status refuse_layout(
	struct bc_reader *reader, const char *text, size_t n, size_t open_quote_line)
{
	struct bc_csv csv;
	size_t bad_line = 0;
	enum bc_status status = bc_csv_parse(text, n, ',', &csv, &bad_line);
	if (status == BC_NO_MEMORY)
		return status;
	if (status == BC_OK && open_quote_line == 0) {
		status = refuse_no_header(reader, &csv);
		bc_csv_release(&csv);
		return status;
	}
	if (status == BC_OK)
		bc_csv_release(&csv);
	return bc_refuse(reader, bad_line != 0 ? bad_line : open_quote_line,
		"a quote is opened and never closed; a closing '\"' was expected");
}

/*
 * The separator is the one with which a header row is found above a reading; failing that, with
 * which a header is found.
 */
static enum bc_status find_layout(
	struct bc_reader *reader, const char *text, size_t n, struct layout *layout)
{
	static const char separators[] = {'\t', ';', ','};
	struct layout best = {0};
	size_t open_quote_line = 0;
	for (size_t i = 0; i < sizeof separators && !best.has_reading; i++) {
		struct layout found = {0};
		if (n == 0 || memchr(text, separators[i], n) == NULL)
			continue;
		enum bc_status status =
			bc_csv_parse(text, n, separators[i], &found.csv, &open_quote_line);
		if (status == BC_NO_MEMORY) {
			bc_csv_release(&best.csv);
			return status;
		}
		if (bc_failed(status))
			continue;
		trim_cells(&found.csv);
		find_header(&found);
		if (found.has_reading || (found.has_header && !best.has_header)) {
			bc_csv_release(&best.csv);
			best = found;
			reader->separator = separators[i];
		} else {
			bc_csv_release(&found.csv);
		}
	}
	*layout = best;
	return best.has_header ? BC_OK : refuse_layout(reader, text, n, open_quote_line);
}

static const char *role_name(enum bc_column_role role)
{
	static const char *const names[BC_COLUMN_ROLES] = {
		"", "amount", "head temperature", "pot temperature", "time", "note"};
	return names[role];
}

static const char *role_units(enum bc_column_role role)
{
	if (role == BC_COLUMN_AMOUNT)
		return "%, mass %, mL or g";
	return role == BC_COLUMN_TIME ? "min, s, h or hh:mm" : "C, F or K";
}

static void note_missing_units(struct bc_reader *reader, const struct bc_csv_row *header)
{
	static const char *const bases[] = {
		[BC_AMOUNT_VOLUME_PCT] = "percent",
		[BC_AMOUNT_MASS_PCT] = "mass percent",
		[BC_AMOUNT_VOLUME_ML] = "mL",
		[BC_AMOUNT_MASS_G] = "g",
	};
	static const enum bc_column_role roles[] = {
		BC_COLUMN_AMOUNT, BC_COLUMN_HEAD, BC_COLUMN_POT, BC_COLUMN_TIME};
	char quoted[BC_QUOTED_SIZE];
	for (size_t i = 0; i < sizeof roles / sizeof *roles; i++) {
		size_t at = reader->columns.at[roles[i]];
		if (at == BC_NO_COLUMN || !reader->columns.no_unit[roles[i]])
			continue;
		bc_strings_add(&reader->sample->assumed, "no unit in the header %s: taken as %s",
			bc_cell_quoted(header->fields[at], quoted),
			roles[i] == BC_COLUMN_AMOUNT ? bases[reader->columns.basis]
			: roles[i] == BC_COLUMN_TIME ? "min"
						     : "degC");
	}
}

static enum bc_status check_columns(struct bc_reader *reader, const struct bc_csv_row *header)
{
	const struct bc_columns *columns = &reader->columns;
	char quoted[BC_QUOTED_SIZE];
	char other[BC_QUOTED_SIZE];
	for (size_t i = BC_COLUMN_AMOUNT; i < BC_COLUMN_ROLES; i++) {
		enum bc_column_role role = (enum bc_column_role)i;
		if (columns->at[i] == BC_NO_COLUMN)
			continue;
		const char *cell = header->fields[columns->at[i]];
		if (columns->twin[i] != BC_NO_COLUMN)
			return bc_refuse(reader, header->line,
				"columns %s and %s both name the %s; one column was expected",
				bc_cell_quoted(cell, quoted),
				bc_cell_quoted(header->fields[columns->twin[i]], other),
				role_name(role));
		if (columns->bad_unit[i])
			return bc_refuse(reader, header->line,
				"unit of column %s is not understood; %s was expected",
				bc_cell_quoted(cell, quoted), role_units(role));
	}
	note_missing_units(reader, header);
	for (size_t i = 0; i < columns->n; i++) {
		const char *cell = header->fields[i];
		if (*cell != '\0' && bc_column_role(cell) == BC_COLUMN_UNKNOWN)
			bc_diagnose(reader->diagnostics, BC_WARNING, reader->file, header->line,
				"column %s is not understood; it is left out",
				bc_cell_quoted(cell, quoted));
	}
	return BC_OK;
}

char bc_decimal_from_marks(unsigned marks, char separator)
{
	/* between commas, 1,234 can only have been meant as thousands, unless 0,794 is seen too */
	bool comma =
		(marks & BC_MARK_COMMA) != 0 || (separator != ',' && (marks & BC_MARK_GROUPS) != 0);
	bool point = (marks & BC_MARK_POINT) != 0;
	if (comma && point)
		return '\0';
	return comma ? ',' : '.';
}

static bool is_column(const char *apparatus)
{
	char folded[64];
	return bc_cell_fold(apparatus, folded, sizeof folded) &&
	       strncmp(folded, "column", strlen("column")) == 0;
}

/* Whether a cell of the row is one in which a number is looked for. */
static bool holds_number(const struct bc_reader *reader, const struct bc_csv_row *row, size_t cell,
	const struct bc_key *key, bool in_table)
{
	if (key != NULL)
		return cell > 0 && key->kind != BC_KEY_TEXT && key->kind != BC_KEY_KEPT &&
		       (key->kind != BC_KEY_APPARATUS || is_column(row->fields[cell]));
	if (!in_table)
		return false;
	const size_t *at = reader->columns.at;
	return cell == at[BC_COLUMN_AMOUNT] || cell == at[BC_COLUMN_HEAD] ||
	       cell == at[BC_COLUMN_POT] || cell == at[BC_COLUMN_TIME];
}

static const struct bc_key *key_of_row(const struct bc_csv_row *row)
{
	for (size_t i = 0; i < row->n; i++) {
		const char *cell = row->fields[i];
		if (*cell >= '0' && *cell <= '9')
			return NULL;
		if (*cell != '\0')
			return bc_key_find(cell);
	}
	return NULL;
}

/* Where each kind of mark was seen first. */
struct marks {
	unsigned bits;
	const char *comma;
	size_t comma_line;
	const char *point;
	size_t point_line;
};

static void note_marks(struct marks *marks, const char *cell, size_t line)
{
	unsigned bits = bc_cell_marks(cell);
	if ((bits & (BC_MARK_COMMA | BC_MARK_GROUPS)) && marks->comma == NULL) {
		marks->comma = cell;
		marks->comma_line = line;
	}
	if ((bits & BC_MARK_POINT) && marks->point == NULL) {
		marks->point = cell;
		marks->point_line = line;
	}
	marks->bits |= bits;
}

static enum bc_status find_decimal(struct bc_reader *reader, const struct layout *layout)
{
	struct marks marks = {0};
	char comma[BC_QUOTED_SIZE];
	char point[BC_QUOTED_SIZE];
	for (size_t i = 0; i < layout->csv.n; i++) {
		const struct bc_csv_row *row = &layout->csv.rows[i];
		const struct bc_key *key = i == layout->header ? NULL : key_of_row(row);
		for (size_t k = 0; k < row->n; k++) {
			if (holds_number(reader, row, k, key, i > layout->header))
				note_marks(&marks, row->fields[k], row->line);
		}
	}
	reader->decimal = bc_decimal_from_marks(marks.bits, reader->separator);
	if (reader->decimal != '\0')
		return BC_OK;
	bool comma_last = marks.comma_line > marks.point_line;
	bc_cell_quoted(marks.comma, comma);
	bc_cell_quoted(marks.point, point);
	return bc_refuse(reader, comma_last ? marks.comma_line : marks.point_line,
		"%s has a decimal %s but %s in line %zu a decimal %s; one kind in a file was "
		"expected",
		comma_last ? comma : point, comma_last ? "comma" : "point",
		comma_last ? point : comma, comma_last ? marks.point_line : marks.comma_line,
		comma_last ? "point" : "comma");
}

/* "sep=;", which some spreadsheets write above the first row. */
static bool is_separator_line(const struct bc_csv_row *row)
{
	for (size_t i = 1; i < row->n; i++) {
		if (*row->fields[i] != '\0')
			return false;
	}
	return strncmp(row->fields[0], "sep=", 4) == 0 && strlen(row->fields[0]) <= 5;
}

static enum bc_status read_rows(struct bc_reader *reader, const struct layout *layout)
{
	enum bc_status status = BC_OK;
	for (size_t i = 0; i < layout->csv.n && !bc_failed(status); i++) {
		const struct bc_csv_row *row = &layout->csv.rows[i];
		if (i < layout->header && !is_separator_line(row))
			status = bc_reader_key_row(reader, row);
		if (i > layout->header)
			status = bc_reader_table_row(reader, row);
	}
	return status;
}

static enum bc_status read_text(struct bc_reader *reader, const char *text, size_t n)
{
	struct layout layout;
	enum bc_status status = find_layout(reader, text, n, &layout);
	if (bc_failed(status))
		return status;
	assert(layout.csv.rows != NULL);
	reader->columns = layout.columns;
	reader->sample->amount_basis = layout.columns.basis;
	reader->header_line = layout.csv.rows[layout.header].line;
	status = check_columns(reader, &layout.csv.rows[layout.header]);
	if (!bc_failed(status))
		status = find_decimal(reader, &layout);
	if (!bc_failed(status))
		status = read_rows(reader, &layout);
	if (!bc_failed(status))
		status = bc_reader_finish(reader);
	bc_csv_release(&layout.csv);
	return status;
}

/* With head_unit, a sheet that is still to be filled in. */
static enum bc_status read_sample(const char *bytes, size_t n, const char *file,
	struct bc_diagnostics *diagnostics, struct bc_sample **sample,
	const struct bc_unit **head_unit)
{
	struct bc_reader reader;
	struct bc_plain plain = {0};
	*sample = NULL;
	enum bc_status status = bc_reader_init(&reader, file, diagnostics);
	if (bc_failed(status))
		goto done;
	reader.unfilled = head_unit != NULL;
	status = bc_plain_from_bytes(bytes, n, &plain);
	if (status == BC_MALFORMED)
		status = bc_refuse(&reader, 0, "%s", plain.wrong);
	if (bc_failed(status))
		goto done;
	if (plain.converted)
		bc_diagnose(diagnostics, BC_NOTE, file, 0,
			"file is not UTF-8; it is read as Windows-1252");
	if (plain.dropped_line != 0)
		bc_warn(&reader, plain.dropped_line,
			"control characters or directional marks stand in the file; they are left "
			"out");
	status = read_text(&reader, plain.text, plain.n);
	if (bc_failed(status))
		goto done;
	if (head_unit != NULL && reader.columns.evaporated) {
		status = bc_refuse(&reader, reader.header_line,
			"the table is in amounts evaporated; recovered was expected");
		goto done;
	}
	if (head_unit != NULL)
		*head_unit = reader.columns.head_unit;
	*sample = reader.sample;
	reader.sample = NULL;
done:
	bc_free(plain.text);
	bc_reader_release(&reader);
	return status;
}

enum bc_status bc_sample_read(const char *bytes, size_t n, const char *file,
	struct bc_diagnostics *diagnostics, struct bc_sample **sample)
{
	return read_sample(bytes, n, file, diagnostics, sample, NULL);
}

enum bc_status bc_sample_read_sheet(const char *bytes, size_t n, const char *file,
	struct bc_diagnostics *diagnostics, struct bc_sample **sample,
	const struct bc_unit **head_unit)
{
	return read_sample(bytes, n, file, diagnostics, sample, head_unit);
}
