/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A value with its unit, in the units that people write, and what is said of one that cannot be. */
#include "sample/measure.h"

#include <math.h>
#include <string.h>

#include "base/number.h"
#include "base/text.h"

/* What a file is refused for: below 0 K, or above any boil-off in glass. */
#define COLDEST_C (-273.15)
#define HOTTEST_C 700.0

static enum bc_status not_a_number(struct bc_reader *reader, const struct bc_row_text *row)
{
	const char *unit = row->key->unit;
	return bc_refuse(reader, row->line,
		"%s %s is not a number; a number such as 12.5%s%s was expected", row->key->name,
		row->quoted, *unit != '\0' ? " " : "", unit);
}

static enum bc_status bad_unit(struct bc_reader *reader, const struct bc_row_text *row,
	const char *unit, const char *expected)
{
	char quoted[BC_QUOTED_SIZE];
	return bc_refuse(reader, row->line, "unit %s of %s is not understood; %s was expected",
		bc_cell_quoted(unit, quoted), row->key->name, expected);
}

/* A temperature that no thermometer shows. */
static enum bc_status refuse_temperature(
	struct bc_reader *reader, const struct bc_row_text *row, double low, double high)
{
	return bc_refuse(reader, row->line, "%s %s is out of range; %.10g to %.10g C was expected",
		row->key->name, row->quoted, low, high);
}

/* A value that cannot be is left out. */
void bc_warn_out_of_range(struct bc_reader *reader, const struct bc_row_text *row, double low,
	double high, const char *unit)
{
	const char *gap = *unit != '\0' ? " " : "";
	if (high >= BC_KEY_NO_LIMIT)
		bc_warn(reader, row->line,
			"%s %s is out of range and left out; %.10g%s%s or more was expected",
			row->key->name, row->quoted, low, gap, unit);
	else
		bc_warn(reader, row->line,
			"%s %s is out of range and left out; %.10g to %.10g%s%s was expected",
			row->key->name, row->quoted, low, high, gap, unit);
}

/* "degC" where the program's unit is "C". */
static const char *shown_unit(const char *unit) { return strcmp(unit, "C") == 0 ? "degC" : unit; }

void bc_assume_unit(struct bc_reader *reader, const struct bc_row_text *row, const char *unit)
{
	char quoted[BC_QUOTED_SIZE];
	bc_cell_quoted(row->value, quoted);
	bc_strings_add(&reader->sample->assumed, "no unit in '%s,%s: taken as %s", row->key->name,
		quoted + 1, shown_unit(unit));
}

/* Of a key given twice the later value counts. */
void bc_note_seen(struct bc_reader *reader, const struct bc_row_text *row, const struct bc_key *key)
{
	size_t *seen = &reader->seen[key - bc_keys];
	if (*seen != 0)
		bc_warn(reader, row->line, "'%s' is already given in line %zu; this one counts",
			key->name, *seen);
	*seen = row->line;
}

/* A number must be followed by what can start a unit. */
static bool starts_unit(const char *s)
{
	return *s == '\0' || *s == '%' || *s == '@' || *s == '(' || (*s >= 'a' && *s <= 'z') ||
	       (*s >= 'A' && *s <= 'Z') || (unsigned char)*s >= 0x80;
}

enum bc_status bc_measure_temperature(
	struct bc_reader *reader, const struct bc_row_text *row, const char *text, double *temp_c)
{
	double number;
	text = bc_cell_skip_blanks(text);
	size_t taken = bc_number_prefix(text, reader->decimal, &number);
	if (taken == 0)
		return not_a_number(reader, row);
	const char *rest = bc_cell_skip_blanks(text + taken);
	const struct bc_unit *unit = bc_unit_find(BC_QUANTITY_TEMPERATURE, rest);
	if (unit == NULL)
		return bad_unit(reader, row, rest, "C, F or K");
	*temp_c = bc_unit_to_base(unit, number);
	if (!(*temp_c >= COLDEST_C && *temp_c <= HOTTEST_C))
		return refuse_temperature(reader, row, COLDEST_C, HOTTEST_C);
	if (*rest == '\0')
		bc_assume_unit(reader, row, "C");
	return BC_OK;
}

/* Where the temperature of a value starts: behind "@" or " at ". */
static char *find_at(char *text, size_t *length)
{
	char *at = strchr(text, '@');
	*length = 1;
	if (at == NULL) {
		at = strstr(text, " at ");
		*length = 4;
	}
	return at;
}

const char *bc_expected_units(const struct bc_key *key)
{
	if (key->quantity != BC_QUANTITY_NONE)
		return bc_quantity_units(key->quantity);
	return *key->unit != '\0' ? key->unit : "no unit";
}

/* Half of the last digit of the number in n characters. */
static double half_step(const char *number, size_t n, char decimal)
{
	double step = 0.5;
	double power = 0.0;
	size_t mantissa = strcspn(number, "eE");
	const char *mark = memchr(number, decimal, n);
	if (mantissa < n)
		bc_number_prefix(number + mantissa + 1, decimal, &power);
	else
		mantissa = n;
	if (mark != NULL)
		power -= (double)(number + mantissa - mark - 1);
	return step * pow(10.0, power);
}

enum bc_status bc_measure_take_apart(struct bc_reader *reader, const struct bc_row_text *row,
	char *text, struct bc_measure *measure)
{
	*measure = (struct bc_measure){.temp_c = NAN};
	size_t length;
	char *at = find_at(text, &length);
	if (at != NULL) {
		enum bc_status status =
			bc_measure_temperature(reader, row, at + length, &measure->temp_c);
		if (bc_failed(status))
			return status;
		*at = '\0';
	}
	size_t taken = bc_number_prefix(text, reader->decimal, &measure->number);
	const char *rest = bc_cell_skip_blanks(text + taken);
	if (taken == 0 || !starts_unit(rest))
		return not_a_number(reader, row);
	measure->step = half_step(text, taken, reader->decimal);
	if (strlen(rest) >= BC_UNIT_SIZE)
		return bad_unit(reader, row, rest, bc_expected_units(row->key));
	memcpy(measure->unit, rest, strlen(rest) + 1);
	return BC_OK;
}

/* The measure in the program's unit of one quantity; NaN, with a warning, outside the limits of the
 * key. */
enum bc_status bc_measure_to_base(struct bc_reader *reader, const struct bc_row_text *row,
	const struct bc_measure *measure, enum bc_quantity quantity, const char *expected,
	double *value)
{
	const struct bc_key *key = row->key;
	const struct bc_unit *unit = bc_unit_find(quantity, measure->unit);
	if (quantity == BC_QUANTITY_NONE && bc_text_equal_nocase(measure->unit, key->unit))
		unit = bc_unit_find(quantity, "");
	if (unit == NULL)
		return bad_unit(reader, row, measure->unit, expected);
	double number = bc_unit_to_base(unit, measure->number);
	bool measured_temperature =
		quantity == BC_QUANTITY_TEMPERATURE && key->kind != BC_KEY_FLASH;
	if (measured_temperature && !(number >= COLDEST_C && number <= HOTTEST_C))
		return refuse_temperature(reader, row, COLDEST_C, HOTTEST_C);
	if (measure->unit[0] == '\0' && *key->unit != '\0')
		bc_assume_unit(reader, row, key->unit);
	*value = number;
	if (number >= key->low && number <= key->high)
		return BC_OK;
	if (key->kind == BC_KEY_BAROMETER)
		return bc_refuse(reader, row->line,
			"%s %s is out of range; %.10g to %.10g %s was expected", key->name,
			row->quoted, key->low, key->high, key->unit);
	bc_warn_out_of_range(reader, row, key->low, key->high, key->unit);
	*value = NAN;
	return BC_OK;
}
