/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows before the table: one key, one value, in the units that people write. */
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/number.h"
#include "base/text.h"
#include "base/units.h"
#include "sample/cell.h"
#include "sample/reader.h"

#define UNIT_SIZE 40
#define WORD_SIZE 32
/* A file with more strange keys is no sample; nobody reads on. */
#define MOST_TOLD 100

/* A value taken apart. */
struct measure {
	double number;
	char unit[UNIT_SIZE]; /* as written; empty where none was written */
	double temp_c;        /* NaN where none was written */
};

/* The place of this row in a message: the key and the value as they are written. */
struct row_text {
	const struct bc_key *key;
	const char *value;
	size_t line;
	char quoted[BC_QUOTED_SIZE];
};

static enum bc_status not_a_number(struct bc_reader *reader, const struct row_text *row)
{
	const char *unit = row->key->unit;
	return bc_refuse(reader, row->line,
		"%s %s is not a number; a number such as 12.5%s%s was expected", row->key->name,
		row->quoted, *unit != '\0' ? " " : "", unit);
}

static enum bc_status bad_unit(struct bc_reader *reader, const struct row_text *row,
	const char *unit, const char *expected)
{
	char quoted[BC_QUOTED_SIZE];
	return bc_refuse(reader, row->line, "unit %s of %s is not understood; %s was expected",
		bc_cell_quoted(unit, quoted), row->key->name, expected);
}

static enum bc_status out_of_range(struct bc_reader *reader, const struct row_text *row, double low,
	double high, const char *unit)
{
	const char *gap = *unit != '\0' ? " " : "";
	if (high >= BC_KEY_NO_LIMIT)
		return bc_refuse(reader, row->line,
			"%s %s is out of range; %.10g%s%s or more was expected", row->key->name,
			row->quoted, low, gap, unit);
	return bc_refuse(reader, row->line,
		"%s %s is out of range; %.10g to %.10g%s%s was expected", row->key->name,
		row->quoted, low, high, gap, unit);
}

/* Cuts word from the end of text where it stands alone there. */
static bool cut_word(char *text, const char *word)
{
	size_t n = strlen(text);
	size_t length = strlen(word);
	if (n < length || !bc_text_equal_nocase(text + n - length, word))
		return false;
	if (n > length && text[n - length - 1] != ' ' && text[n - length - 1] != ',')
		return false;
	text[n - length] = '\0';
	while (n > length && (text[n - length - 1] == ' ' || text[n - length - 1] == ','))
		text[--n - length] = '\0';
	return true;
}

/* A number must be followed by what can start a unit. */
static bool starts_unit(const char *s)
{
	return *s == '\0' || *s == '%' || *s == '@' || *s == '(' || (*s >= 'a' && *s <= 'z') ||
	       (*s >= 'A' && *s <= 'Z') || (unsigned char)*s >= 0x80;
}

static enum bc_status read_temperature(
	struct bc_reader *reader, const struct row_text *row, const char *text, double *temp_c)
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
	if (!(*temp_c >= -273.15 && *temp_c <= 700.0))
		return out_of_range(reader, row, -273.15, 700.0, "C");
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

static const char *expected_units(const struct bc_key *key)
{
	if (key->quantity != BC_QUANTITY_NONE)
		return bc_quantity_units(key->quantity);
	return *key->unit != '\0' ? key->unit : "no unit";
}

static enum bc_status take_apart(
	struct bc_reader *reader, const struct row_text *row, char *text, struct measure *measure)
{
	*measure = (struct measure){.temp_c = NAN};
	size_t length;
	char *at = find_at(text, &length);
	if (at != NULL) {
		enum bc_status status =
			read_temperature(reader, row, at + length, &measure->temp_c);
		if (bc_failed(status))
			return status;
		*at = '\0';
	}
	size_t taken = bc_number_prefix(text, reader->decimal, &measure->number);
	const char *rest = bc_cell_skip_blanks(text + taken);
	if (taken == 0 || !starts_unit(rest))
		return not_a_number(reader, row);
	if (strlen(rest) >= UNIT_SIZE)
		return bad_unit(reader, row, rest, expected_units(row->key));
	memcpy(measure->unit, rest, strlen(rest) + 1);
	return BC_OK;
}

/* The measure in the program's unit of one quantity; within the limits of the key. */
static enum bc_status to_base(struct bc_reader *reader, const struct row_text *row,
	const struct measure *measure, enum bc_quantity quantity, const char *expected,
	double *value)
{
	const struct bc_key *key = row->key;
	const struct bc_unit *unit = bc_unit_find(quantity, measure->unit);
	if (quantity == BC_QUANTITY_NONE && bc_text_equal_nocase(measure->unit, key->unit))
		unit = bc_unit_find(quantity, "");
	if (unit == NULL)
		return bad_unit(reader, row, measure->unit, expected);
	double number = bc_unit_to_base(unit, measure->number);
	if (!(number >= key->low && number <= key->high))
		return out_of_range(reader, row, key->low, key->high, key->unit);
	*value = number;
	return BC_OK;
}

static double *number_at(struct bc_reader *reader, size_t place)
{
	return (double *)(void *)((char *)reader->sample + place);
}

static enum bc_status no_temperature_here(
	struct bc_reader *reader, const struct row_text *row, const struct measure *measure)
{
	if (isnan(measure->temp_c))
		return BC_OK;
	return bc_refuse(reader, row->line,
		"%s %s names a temperature; a number and its unit was expected", row->key->name,
		row->quoted);
}

static enum bc_status read_number(struct bc_reader *reader, const struct row_text *row, char *text)
{
	struct measure measure;
	enum bc_status status = take_apart(reader, row, text, &measure);
	if (!bc_failed(status))
		status = no_temperature_here(reader, row, &measure);
	if (bc_failed(status))
		return status;
	return to_base(reader, row, &measure, row->key->quantity, expected_units(row->key),
		number_at(reader, row->key->place));
}

/* A value in grams belongs to another key, which then is given too. */
static enum bc_status read_grams(
	struct bc_reader *reader, const struct row_text *row, const struct measure *measure)
{
	double *grams = number_at(reader, row->key->mass_place);
	for (size_t i = 0; i < bc_n_keys; i++) {
		if (bc_keys[i].place != row->key->mass_place)
			continue;
		if (reader->seen[i] != 0)
			return bc_refuse(reader, row->line,
				"'%s' gives a mass and so does '%s' in line %zu; one of them was "
				"expected",
				row->key->name, bc_keys[i].name, reader->seen[i]);
		reader->seen[i] = row->line;
	}
	return to_base(reader, row, measure, BC_QUANTITY_MASS, "", grams);
}

static bool is_mass(const struct measure *measure)
{
	return measure->unit[0] != '\0' && bc_unit_find(BC_QUANTITY_MASS, measure->unit) != NULL;
}

static enum bc_status read_charge(struct bc_reader *reader, const struct row_text *row, char *text)
{
	struct measure measure;
	enum bc_status status = take_apart(reader, row, text, &measure);
	if (!bc_failed(status))
		status = no_temperature_here(reader, row, &measure);
	if (bc_failed(status))
		return status;
	if (is_mass(&measure))
		return read_grams(reader, row, &measure);
	status = to_base(reader, row, &measure, BC_QUANTITY_VOLUME, "mL, L, g or kg",
		&reader->sample->charge_ml);
	reader->sample->charge_stated = status == BC_OK;
	return status;
}

static double *share_pct(struct bc_reader *reader, const struct bc_key *key)
{
	if (key->place == offsetof(struct bc_sample, residue_ml))
		return &reader->residue_pct;
	if (key->place == offsetof(struct bc_sample, loss_ml))
		return &reader->loss_pct;
	return &reader->water_pct;
}

static enum bc_status read_share(struct bc_reader *reader, const struct row_text *row, char *text)
{
	struct measure measure;
	const struct bc_key *key = row->key;
	enum bc_status status = take_apart(reader, row, text, &measure);
	if (!bc_failed(status))
		status = no_temperature_here(reader, row, &measure);
	if (bc_failed(status))
		return status;
	if (measure.unit[0] != '\0' && bc_unit_find(BC_QUANTITY_PERCENT, measure.unit) != NULL) {
		if (!(measure.number >= 0.0 && measure.number <= 100.0))
			return out_of_range(reader, row, 0.0, 100.0, "%");
		*share_pct(reader, key) = measure.number + 0.0; /* no negative zero */
		return BC_OK;
	}
	if (key->mass_place != BC_KEY_NO_PLACE && is_mass(&measure))
		return read_grams(reader, row, &measure);
	return to_base(reader, row, &measure, BC_QUANTITY_VOLUME,
		key->mass_place != BC_KEY_NO_PLACE ? "mL, % or g" : "mL or %",
		number_at(reader, key->place));
}

static enum bc_status read_density(struct bc_reader *reader, const struct row_text *row, char *text)
{
	struct measure measure;
	enum bc_status status = take_apart(reader, row, text, &measure);
	if (bc_failed(status))
		return status;
	/* no oil weighs less than 2 kg/m3 or more than 2 g/mL */
	if (measure.unit[0] == '\0' && measure.number < 2.0)
		memcpy(measure.unit, "g/mL", sizeof "g/mL");
	reader->sample->density_temp_c = measure.temp_c;
	return to_base(reader, row, &measure, BC_QUANTITY_DENSITY, expected_units(row->key),
		&reader->sample->density_kgm3);
}

static enum bc_status read_barometer(
	struct bc_reader *reader, const struct row_text *row, char *text)
{
	struct measure measure;
	enum bc_status status = take_apart(reader, row, text, &measure);
	if (!bc_failed(status))
		status = no_temperature_here(reader, row, &measure);
	if (bc_failed(status))
		return status;
	/* 740 is a barometer in mmHg and one in hPa; only kPa needs no name */
	bool kpa = measure.number >= row->key->low && measure.number <= row->key->high;
	if (measure.unit[0] == '\0' && !kpa)
		return bc_refuse(reader, row->line,
			"%s %s has no unit; a pressure such as 942 hPa or 707 mmHg was expected",
			row->key->name, row->quoted);
	return to_base(reader, row, &measure, BC_QUANTITY_PRESSURE, expected_units(row->key),
		&reader->sample->barometer_kpa);
}

static enum bc_status read_oil(struct bc_reader *reader, const struct row_text *row, char *text)
{
	struct measure measure;
	enum bc_status status = take_apart(reader, row, text, &measure);
	if (!bc_failed(status))
		status = no_temperature_here(reader, row, &measure);
	if (bc_failed(status))
		return status;
	if (measure.unit[0] == '\0')
		return bc_refuse(reader, row->line,
			"%s %s has no unit; a volume in L or a mass in kg was expected",
			row->key->name, row->quoted);
	if (is_mass(&measure))
		return read_grams(reader, row, &measure);
	return to_base(reader, row, &measure, BC_QUANTITY_VOLUME, "mL, L, g or kg",
		&reader->sample->oil_out_ml);
}

static enum bc_status read_jar_to(struct bc_reader *reader, const struct row_text *row, char *text)
{
	struct bc_sample *sample = reader->sample;
	double *temp_c = &sample->jar_to_c;
	if (cut_word(text, "pot"))
		temp_c = &sample->jar_to_pot_c;
	else
		cut_word(text, "head");
	return read_temperature(reader, row, text, temp_c);
}

static enum bc_status add_measured(
	struct bc_reader *reader, const struct row_text *row, struct bc_measured measured)
{
	struct bc_sample *sample = reader->sample;
	void *items = sample->measured;
	if (bc_grow(&items, sample->n_measured, &reader->measured_capacity,
		    sizeof *sample->measured) != 0)
		return BC_NO_MEMORY;
	sample->measured = items;
	measured.property = row->key->property;
	measured.line = row->line;
	sample->measured[sample->n_measured++] = measured;
	return BC_OK;
}

static enum bc_status read_measured(
	struct bc_reader *reader, const struct row_text *row, char *text)
{
	struct measure measure;
	struct bc_measured measured = {0};
	if (row->key->kind == BC_KEY_FLASH) {
		measured.open_cup = cut_word(text, "open cup") || cut_word(text, "open");
		if (!measured.open_cup && !cut_word(text, "closed cup"))
			cut_word(text, "closed");
	}
	enum bc_status status = take_apart(reader, row, text, &measure);
	if (!bc_failed(status) && row->key->quantity == BC_QUANTITY_TEMPERATURE)
		status = no_temperature_here(reader, row, &measure);
	if (!bc_failed(status))
		status = to_base(reader, row, &measure, row->key->quantity,
			expected_units(row->key), &measured.value);
	measured.temp_c = measure.temp_c;
	return bc_failed(status) ? status : add_measured(reader, row, measured);
}

/* ASTM D130: 1a 1b 2a .. 2e 3a 3b 4a .. 4c, or the number alone. */
static enum bc_status read_copper(struct bc_reader *reader, const struct row_text *row, char *text)
{
	struct bc_measured measured = {.temp_c = NAN};
	const char *s = text;
	if (bc_text_equal_nocase(text, "no.") || strncmp(text, "No.", 3) == 0)
		s = bc_cell_skip_blanks(text + 3);
	const char *letters[] = {"ab", "abcde", "ab", "abc"};
	bool good = *s >= '1' && *s <= '4';
	if (good && s[1] != '\0') {
		char letter = s[1] >= 'A' && s[1] <= 'Z' ? (char)(s[1] - 'A' + 'a') : s[1];
		good = strchr(letters[*s - '1'], letter) != NULL && s[2] == '\0';
		measured.rating = letter;
	}
	if (!good)
		return bc_refuse(reader, row->line, "%s %s is no rating; 1a to 4c was expected",
			row->key->name, row->quoted);
	measured.value = *s - '0';
	return add_measured(reader, row, measured);
}

static enum bc_status read_history(struct bc_reader *reader, const struct row_text *row)
{
	static const struct {
		const char *word;
		enum bc_history history;
	} words[] = {
		{"unknown", BC_HISTORY_UNKNOWN},
		{"retort", BC_HISTORY_RETORT},
		{"rerun", BC_HISTORY_RERUN},
		{"re-run", BC_HISTORY_RERUN},
		{"aired", BC_HISTORY_AIRED},
	};
	char folded[WORD_SIZE];
	bool short_enough = bc_cell_fold(row->value, folded, sizeof folded);
	for (size_t i = 0; short_enough && i < sizeof words / sizeof *words; i++) {
		if (strcmp(words[i].word, folded) == 0) {
			reader->sample->history = words[i].history;
			return BC_OK;
		}
	}
	return bc_refuse(reader, row->line,
		"history %s is not understood; retort, rerun, aired or unknown was expected",
		row->quoted);
}

static enum bc_status read_thermometer(struct bc_reader *reader, const struct row_text *row)
{
	char folded[WORD_SIZE];
	bool short_enough = bc_cell_fold(row->value, folded, sizeof folded);
	for (int kind = BC_THERMOMETER_GLASS_D86; short_enough && kind <= BC_THERMOMETER_PROBE;
		kind++) {
		if (strcmp(bc_thermometer_text((enum bc_thermometer)kind), folded) == 0) {
			reader->sample->thermometer = (enum bc_thermometer)kind;
			return BC_OK;
		}
	}
	return bc_refuse(reader, row->line,
		"thermometer %s is not understood; glass d86, glass partial, glass total or probe "
		"was expected",
		row->quoted);
}

/* "column N R": stages with the pot, reflux ratio. */
static bool read_column(const char *text, char decimal, double *stages, double *reflux)
{
	const char *s = bc_cell_skip_blanks(text);
	size_t taken = bc_number_prefix(s, decimal, stages);
	if (taken == 0 || bc_cell_blank_length(s + taken) == 0)
		return false;
	if (!bc_number_parse(s + taken, decimal, reflux))
		return false;
	*reflux += 0.0; /* no negative zero */
	return *stages >= 1.0 && *stages <= 1000.0 && *reflux >= 0.0 && *reflux <= 1e6;
}

static enum bc_status read_apparatus(
	struct bc_reader *reader, const struct row_text *row, const char *text)
{
	struct bc_sample *sample = reader->sample;
	char folded[WORD_SIZE];
	bool short_enough = bc_cell_fold(text, folded, sizeof folded);
	if (short_enough && strcmp(folded, "flask") == 0)
		return BC_OK;
	if (short_enough && strcmp(folded, "tbp") == 0) {
		sample->apparatus = BC_APPARATUS_TBP;
		return BC_OK;
	}
	if (short_enough && (strcmp(folded, "column") == 0 || strncmp(folded, "column ", 7) == 0)) {
		sample->apparatus = BC_APPARATUS_COLUMN;
		if (read_column(folded + 6, reader->decimal, &sample->column_stages,
			    &sample->column_reflux))
			return BC_OK;
		return bc_refuse(reader, row->line,
			"apparatus %s is no column; column STAGES REFLUX such as column 5 3 was "
			"expected",
			row->quoted);
	}
	sample->apparatus = BC_APPARATUS_STILL;
	sample->apparatus_still = bc_strdup(text);
	return sample->apparatus_still == NULL ? BC_NO_MEMORY : BC_OK;
}

static enum bc_status keep(
	struct bc_reader *reader, const char *key, const char *value, bool understood, size_t line)
{
	struct bc_sample *sample = reader->sample;
	void *items = sample->kept;
	if (bc_grow(&items, sample->n_kept, &reader->kept_capacity, sizeof *sample->kept) != 0)
		return BC_NO_MEMORY;
	sample->kept = items;
	struct bc_kept *kept = &sample->kept[sample->n_kept];
	*kept = (struct bc_kept){bc_strdup(key), bc_strdup(value), understood, line};
	sample->n_kept++; /* also half of it is released with the sample */
	return kept->key == NULL || kept->value == NULL ? BC_NO_MEMORY : BC_OK;
}

static enum bc_status read_unknown(
	struct bc_reader *reader, const char *name, const char *value, size_t line)
{
	char quoted[BC_QUOTED_SIZE];
	size_t n = reader->sample->n_kept;
	bool told = n > MOST_TOLD;
	for (size_t i = 0; i < n && !told; i++)
		told = bc_text_equal_nocase(reader->sample->kept[i].key, name);
	const char *nearest = told ? NULL : bc_key_nearest(name);
	bc_cell_quoted(name, quoted);
	if (n == MOST_TOLD && !told)
		bc_diagnose(reader->diagnostics, BC_WARNING, reader->file, line,
			"more keys are not understood; they are kept as they are");
	else if (nearest != NULL)
		bc_diagnose(reader->diagnostics, BC_WARNING, reader->file, line,
			"key %s is not understood; did you mean '%s'?", quoted, nearest);
	else if (!told)
		bc_diagnose(reader->diagnostics, BC_WARNING, reader->file, line,
			"key %s is not understood; it is kept as it is", quoted);
	return keep(reader, name, value, false, line);
}

static enum bc_status read_text(struct bc_reader *reader, const struct row_text *row)
{
	char **place = (char **)(void *)((char *)reader->sample + row->key->place);
	*place = bc_strdup(row->value);
	return *place == NULL ? BC_NO_MEMORY : BC_OK;
}

/* text is the value in a copy that may be cut. */
static enum bc_status read_value(struct bc_reader *reader, const struct row_text *row, char *text)
{
	switch (row->key->kind) {
	case BC_KEY_TEXT:
		return read_text(reader, row);
	case BC_KEY_KEPT:
		return keep(reader, row->key->name, row->value, true, row->line);
	case BC_KEY_NUMBER:
		return read_number(reader, row, text);
	case BC_KEY_HISTORY:
		return read_history(reader, row);
	case BC_KEY_THERMOMETER:
		return read_thermometer(reader, row);
	case BC_KEY_APPARATUS:
		return read_apparatus(reader, row, text);
	case BC_KEY_CHARGE:
		return read_charge(reader, row, text);
	case BC_KEY_SHARE:
		return read_share(reader, row, text);
	case BC_KEY_DENSITY:
		return read_density(reader, row, text);
	case BC_KEY_BAROMETER:
		return read_barometer(reader, row, text);
	case BC_KEY_OIL:
		return read_oil(reader, row, text);
	case BC_KEY_JAR_TO:
		return read_jar_to(reader, row, text);
	case BC_KEY_MEASURED:
	case BC_KEY_FLASH:
		return read_measured(reader, row, text);
	case BC_KEY_COPPER:
		return read_copper(reader, row, text);
	}
	return BC_OK;
}

static bool takes_words(const struct bc_key *key)
{
	return key->kind == BC_KEY_TEXT || key->kind == BC_KEY_KEPT;
}

static enum bc_status read_known(struct bc_reader *reader, const struct bc_key *key,
	const char *value, bool joined, size_t line)
{
	struct row_text row = {.key = key, .value = value, .line = line};
	bc_cell_quoted(value, row.quoted);
	size_t *seen = &reader->seen[key - bc_keys];
	if (*seen != 0)
		return bc_refuse(reader, line,
			"'%s' is already given in line %zu; one value was expected", key->name,
			*seen);
	if (joined && !takes_words(key))
		return bc_refuse(reader, line,
			"%s is followed by more than one cell, %s; one value was expected",
			key->name, row.quoted);
	*seen = line;
	char *text = bc_strdup(value);
	if (text == NULL)
		return BC_NO_MEMORY;
	enum bc_status status = read_value(reader, &row, text);
	bc_free(text);
	return status;
}

enum bc_status bc_reader_key_row(struct bc_reader *reader, const struct bc_csv_row *row)
{
	size_t first = 0;
	while (first < row->n && *row->fields[first] == '\0')
		first++;
	if (first == row->n || *row->fields[first] == '#')
		return BC_OK;
	const char *name = row->fields[first];
	char *value = bc_join_cells(row, first + 1, reader->separator);
	if (value == NULL)
		return BC_NO_MEMORY;
	size_t filled = 0;
	for (size_t i = first + 1; i < row->n; i++)
		filled += *row->fields[i] != '\0';
	const struct bc_key *key = bc_key_find(name);
	enum bc_status status = BC_OK;
	if (key == NULL)
		status = read_unknown(reader, name, value, row->line);
	else if (filled > 0)
		status = read_known(reader, key, value, filled > 1, row->line);
	bc_free(value);
	return status;
}
