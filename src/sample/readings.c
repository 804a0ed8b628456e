/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows of the table: amount or end point, temperatures, time, note. */
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/number.h"
#include "sample/cell.h"
#include "sample/reader.h"

#define COLDEST_C (-273.15)
#define HOTTEST_C 700.0
#define LONGEST_TIME_S 1e9

bool bc_end_point_from_label(const char *label, enum bc_reading_kind *kind)
{
	static const struct {
		const char *word;
		enum bc_reading_kind kind;
	} words[] = {
		{"ibp", BC_READING_IBP},
		{"i.b.p.", BC_READING_IBP},
		{"initial boiling point", BC_READING_IBP},
		{"initial", BC_READING_IBP},
		{"first drop", BC_READING_IBP},
		{"fbp", BC_READING_FBP},
		{"f.b.p.", BC_READING_FBP},
		{"ep", BC_READING_FBP},
		{"e.p.", BC_READING_FBP},
		{"end point", BC_READING_FBP},
		{"endpoint", BC_READING_FBP},
		{"final boiling point", BC_READING_FBP},
		{"final", BC_READING_FBP},
		{"dry", BC_READING_DRY},
		{"dry point", BC_READING_DRY},
	};
	char folded[32];
	if (!bc_cell_fold(label, folded, sizeof folded))
		return false;
	for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
		if (strcmp(words[i].word, folded) == 0) {
			*kind = words[i].kind;
			return true;
		}
	}
	return false;
}

static const char *end_point_name(enum bc_reading_kind kind)
{
	return kind == BC_READING_IBP ? "IBP" : kind == BC_READING_FBP ? "FBP" : "dry";
}

/* The cell of a role; "" where the row has none. */
static const char *cell_at(
	const struct bc_reader *reader, const struct bc_csv_row *row, enum bc_column_role role)
{
	size_t at = reader->columns.at[role];
	return at < row->n ? row->fields[at] : "";
}

static enum bc_status read_temperature(struct bc_reader *reader, const char *cell,
	const struct bc_unit *unit, const char *name, size_t line, double *temp_c)
{
	char quoted[BC_QUOTED_SIZE];
	double number;
	if (!bc_number_parse(cell, reader->decimal, &number))
		return bc_refuse(reader, line,
			"%s temperature %s is not a number; a number such as 131%c5 was expected",
			name, bc_cell_quoted(cell, quoted), reader->decimal);
	*temp_c = bc_unit_to_base(unit, number);
	if (*temp_c >= COLDEST_C && *temp_c <= HOTTEST_C)
		return BC_OK;
	return bc_refuse(reader, line,
		"%s temperature %s is out of range; %.10g to %.10g %s was expected", name,
		bc_cell_quoted(cell, quoted), bc_unit_from_base(unit, COLDEST_C),
		bc_unit_from_base(unit, HOTTEST_C), bc_unit_name(unit));
}

/* hh:mm, hh:mm:ss, or mm:ss where the header says so [s]. */
static bool read_clock(const char *cell, bool minutes_seconds, double *time_s)
{
	double part[3];
	size_t n = 0;
	for (const char *s = cell; n < 3; s++) {
		double digits = 0.0;
		size_t length = 0;
		for (; *s >= '0' && *s <= '9'; s++, length++)
			digits = 10.0 * digits + (*s - '0');
		if (length == 0 || length > 4 || (n > 0 && digits >= 60.0))
			return false;
		part[n++] = digits;
		if (*s == '\0')
			break;
		if (*s != ':')
			return false;
	}
	if (n < 2 || strspn(cell, "0123456789:") != strlen(cell))
		return false;
	double factor = n == 3 || !minutes_seconds ? 3600.0 : 60.0;
	*time_s = part[0] * factor + part[1] * factor / 60.0 + (n == 3 ? part[2] : 0.0);
	return true;
}

static enum bc_status read_time(
	struct bc_reader *reader, const char *cell, size_t line, double *time_s)
{
	char quoted[BC_QUOTED_SIZE];
	double number;
	if (strchr(cell, ':') != NULL) {
		if (read_clock(cell, reader->columns.minutes_seconds, time_s))
			return BC_OK;
		return bc_refuse(reader, line,
			"time %s is not understood; hh:mm or hh:mm:ss was expected",
			bc_cell_quoted(cell, quoted));
	}
	if (!bc_number_parse(cell, reader->decimal, &number))
		return bc_refuse(reader, line,
			"time %s is not a number; minutes, seconds or hh:mm was expected",
			bc_cell_quoted(cell, quoted));
	*time_s = bc_unit_to_base(reader->columns.time_unit, number);
	if (*time_s >= 0.0 && *time_s <= LONGEST_TIME_S)
		return BC_OK;
	*time_s = NAN;
	bc_warn(reader, line,
		"time %s is out of range and left out; the time since the heat was on was expected",
		bc_cell_quoted(cell, quoted));
	return BC_OK;
}

static enum bc_status refuse_separator(struct bc_reader *reader, const char *cell, size_t line)
{
	char quoted[BC_QUOTED_SIZE];
	return bc_refuse(reader, line,
		"%s has %s between its cells but the header has %s; one separator in a file was "
		"expected",
		bc_cell_quoted(cell, quoted), bc_separator_text(bc_other_separator(reader, cell)),
		bc_separator_text(reader->separator));
}

/* Of an end point that is written twice both rows are kept; which one counts is not settled here.
 */
static enum bc_status read_end_point(
	struct bc_reader *reader, const char *cell, size_t line, struct bc_reading *reading)
{
	char quoted[BC_QUOTED_SIZE];
	if (!bc_end_point_from_label(cell, &reading->kind))
		return bc_refuse(reader, line,
			"%s is not a number; a percent or amount, IBP, FBP or dry was expected",
			bc_cell_quoted(cell, quoted));
	size_t *seen = &reader->end_line[reading->kind == BC_READING_IBP   ? 0
					 : reading->kind == BC_READING_FBP ? 1
									   : 2];
	if (*seen != 0)
		bc_warn(reader, line, "%s is already given in line %zu; both rows are kept",
			end_point_name(reading->kind), *seen);
	*seen = line;
	return BC_OK;
}

static enum bc_status read_amount(
	struct bc_reader *reader, const char *cell, size_t line, struct bc_reading *reading)
{
	char quoted[BC_QUOTED_SIZE];
	enum bc_amount_basis basis = reader->sample->amount_basis;
	bool percent = basis == BC_AMOUNT_VOLUME_PCT || basis == BC_AMOUNT_MASS_PCT;
	if (bc_number_parse(cell, reader->decimal, &reading->amount)) {
		reading->kind = BC_READING_AMOUNT;
		reading->amount += 0.0; /* no negative zero */
		if (percent && !(reading->amount >= 0.0 && reading->amount <= 100.0))
			return bc_refuse(reader, line,
				"percent %s is out of range; 0 to 100 was expected",
				bc_cell_quoted(cell, quoted));
		if (reading->amount < 0.0)
			return bc_refuse(reader, line,
				"amount %s is negative; 0 or more was expected",
				bc_cell_quoted(cell, quoted));
		return BC_OK;
	}
	reading->amount = NAN;
	return read_end_point(reader, cell, line, reading);
}

static enum bc_status append(struct bc_reader *reader, const struct bc_reading *reading)
{
	struct bc_sample *sample = reader->sample;
	void *items = sample->readings;
	if (bc_grow(&items, sample->n_readings, &reader->readings_capacity,
		    sizeof *sample->readings) != 0)
		return BC_NO_MEMORY;
	sample->readings = items;
	sample->readings[sample->n_readings++] = *reading;
	return BC_OK;
}

enum bc_status bc_reader_add_reading(
	struct bc_reader *reader, struct bc_reading *reading, const char *amount, const char *head)
{
	enum bc_status status = read_amount(reader, amount, reading->line, reading);
	if (!bc_failed(status))
		status = read_temperature(reader, head, reader->columns.head_unit, "head",
			reading->line, &reading->head_c);
	return bc_failed(status) ? status : append(reader, reading);
}

/* Only digits and what goes with them: a note that is likely the tail of a decimal comma. */
static bool is_bare_number(const char *note) { return *note != '\0' && bc_cell_is_number(note); }

/* A note that is the last column takes the cells behind it; any other cell there is an error. */
static enum bc_status check_cells_beside(
	struct bc_reader *reader, const struct bc_csv_row *row, bool *note_goes_on)
{
	const struct bc_columns *columns = &reader->columns;
	char quoted[BC_QUOTED_SIZE];
	*note_goes_on = false;
	size_t i = columns->n;
	while (i < row->n && *row->fields[i] == '\0')
		i++;
	if (i >= row->n)
		return BC_OK;
	*note_goes_on = columns->at[BC_COLUMN_NOTE] == columns->n - 1;
	if (*note_goes_on)
		return BC_OK;
	bool decimal_comma = reader->separator == ',' && is_bare_number(row->fields[i]);
	return bc_refuse(reader, row->line,
		"cell %s stands beside the table; %zu columns were expected%s",
		bc_cell_quoted(row->fields[i], quoted), columns->n,
		decimal_comma ? " (decimal commas need ';' between cells, or write a point)" : "");
}

static enum bc_status read_note(
	struct bc_reader *reader, const struct bc_csv_row *row, bool goes_on, char **note)
{
	const char *cell = cell_at(reader, row, BC_COLUMN_NOTE);
	char quoted[BC_QUOTED_SIZE];
	if (is_bare_number(cell))
		return bc_refuse(reader, row->line,
			"note %s is a number; words were expected (decimal commas need ';' between "
			"cells, or write a point)",
			bc_cell_quoted(cell, quoted));
	if (goes_on)
		*note = bc_join_cells(row, reader->columns.at[BC_COLUMN_NOTE], reader->separator);
	else if (*cell != '\0')
		*note = bc_strdup(cell);
	else
		return BC_OK;
	return *note == NULL ? BC_NO_MEMORY : BC_OK;
}

/* Temperature of the pot, time and note. */
static enum bc_status read_beside(struct bc_reader *reader, const struct bc_csv_row *row,
	bool note_goes_on, struct bc_reading *reading)
{
	const char *pot = cell_at(reader, row, BC_COLUMN_POT);
	const char *time = cell_at(reader, row, BC_COLUMN_TIME);
	enum bc_status status = BC_OK;
	if (*pot != '\0')
		status = read_temperature(
			reader, pot, reader->columns.pot_unit, "pot", row->line, &reading->pot_c);
	if (!bc_failed(status) && *time != '\0')
		status = read_time(reader, time, row->line, &reading->time_s);
	if (!bc_failed(status))
		status = read_note(reader, row, note_goes_on, &reading->note);
	return status;
}

static enum bc_status read_row(struct bc_reader *reader, const struct bc_csv_row *row,
	const char *amount, const char *head)
{
	struct bc_reading reading = {.amount = NAN, .head_c = NAN, .pot_c = NAN, .time_s = NAN};
	bool note_goes_on;
	reading.line = row->line;
	enum bc_status status = check_cells_beside(reader, row, &note_goes_on);
	if (!bc_failed(status))
		status = read_beside(reader, row, note_goes_on, &reading);
	if (!bc_failed(status))
		status = bc_reader_add_reading(reader, &reading, amount, head);
	if (bc_failed(status))
		bc_free(reading.note);
	return status;
}

enum bc_status bc_reader_table_row(struct bc_reader *reader, const struct bc_csv_row *row)
{
	char quoted[BC_QUOTED_SIZE];
	const char *amount = cell_at(reader, row, BC_COLUMN_AMOUNT);
	const char *head = cell_at(reader, row, BC_COLUMN_HEAD);
	size_t filled = 0;
	size_t first = row->n;
	for (size_t i = 0; i < row->n; i++) {
		if (*row->fields[i] != '\0' && first == row->n)
			first = i;
		filled += *row->fields[i] != '\0';
	}
	if (filled == 0 || *row->fields[first] == '#')
		return BC_OK;
	/* residue and loss are known last, so some write them below the readings */
	if (!bc_cell_is_number(row->fields[first]) && bc_key_find(row->fields[first]) != NULL)
		return bc_reader_key_row(reader, row);
	if (*head != '\0' && *amount == '\0')
		return bc_refuse(reader, row->line,
			"no amount beside the head temperature %s; a percent or amount, IBP, FBP "
			"or dry was expected",
			bc_cell_quoted(head, quoted));
	if (*head == '\0' && bc_other_separator(reader, amount) != '\0')
		return refuse_separator(reader, amount, row->line);
	if (*head == '\0' && *amount != '\0' && filled == 1) /* a line of the sheet not filled in */
		return BC_OK;
	if (*head == '\0' && *amount != '\0')
		return bc_refuse(reader, row->line,
			"no head temperature at %s; a number was expected",
			bc_cell_quoted(amount, quoted));
	if (*head == '\0')
		return bc_refuse(reader, row->line,
			"%s stands without amount and head temperature; both were expected",
			bc_cell_quoted(row->fields[first], quoted));
	return read_row(reader, row, amount, head);
}
