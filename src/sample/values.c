/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows before the table: one key, one value, in the units that people write. */
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/number.h"
#include "base/text.h"
#include "base/units.h"
#include "sample/cell.h"
#include "sample/measure.h"
#include "sample/reader.h"

#define WORD_SIZE 32
#define LONGEST_SUGGESTED 64
/* A file with more strange keys is no sample; nobody reads on. */
#define MOST_TOLD 100

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

static double *number_at(struct bc_reader *reader, size_t place)
{
	return (double *)(void *)((char *)reader->sample + place);
}

static enum bc_status no_temperature_here(
	struct bc_reader *reader, const struct bc_row_text *row, const struct bc_measure *measure)
{
	if (isnan(measure->temp_c))
		return BC_OK;
	return bc_refuse(reader, row->line,
		"%s %s names a temperature; a number and its unit was expected", row->key->name,
		row->quoted);
}

static enum bc_status read_number(
	struct bc_reader *reader, const struct bc_row_text *row, char *text)
{
	struct bc_measure measure;
	enum bc_status status = bc_measure_take_apart(reader, row, text, &measure);
	if (!bc_failed(status))
		status = no_temperature_here(reader, row, &measure);
	if (bc_failed(status))
		return status;
	return bc_measure_to_base(reader, row, &measure, row->key->quantity,
		bc_expected_units(row->key), number_at(reader, row->key->place));
}

/* A value in grams belongs to another key, which then is given too. */
static enum bc_status read_grams(
	struct bc_reader *reader, const struct bc_row_text *row, const struct bc_measure *measure)
{
	for (size_t i = 0; i < bc_n_keys; i++) {
		if (bc_keys[i].place == row->key->mass_place)
			bc_note_seen(reader, row, &bc_keys[i]);
	}
	return bc_measure_to_base(reader, row, measure, BC_QUANTITY_MASS, "",
		number_at(reader, row->key->mass_place));
}

static bool is_mass(const struct bc_measure *measure)
{
	return measure->unit[0] != '\0' && bc_unit_find(BC_QUANTITY_MASS, measure->unit) != NULL;
}

static enum bc_status read_charge(
	struct bc_reader *reader, const struct bc_row_text *row, char *text)
{
	struct bc_measure measure;
	enum bc_status status = bc_measure_take_apart(reader, row, text, &measure);
	if (!bc_failed(status))
		status = no_temperature_here(reader, row, &measure);
	if (bc_failed(status))
		return status;
	if (is_mass(&measure))
		return read_grams(reader, row, &measure);
	bc_note_seen(reader, row, row->key);
	double charge_ml = NAN;
	status = bc_measure_to_base(
		reader, row, &measure, BC_QUANTITY_VOLUME, "mL, L, g or kg", &charge_ml);
	reader->sample->charge_stated = !isnan(charge_ml);
	reader->sample->charge_ml = isnan(charge_ml) ? BC_CHARGE_ML : charge_ml;
	return status;
}

static double *share_pct(struct bc_reader *reader, const struct bc_key *key)
{
	if (key->place == offsetof(struct bc_sample, residue_ml))
		return &reader->sample->residue_pct;
	if (key->place == offsetof(struct bc_sample, loss_ml))
		return &reader->sample->loss_pct;
	return &reader->sample->water_pct;
}

static enum bc_status read_share(
	struct bc_reader *reader, const struct bc_row_text *row, char *text)
{
	struct bc_measure measure;
	const struct bc_key *key = row->key;
	enum bc_status status = bc_measure_take_apart(reader, row, text, &measure);
	if (!bc_failed(status))
		status = no_temperature_here(reader, row, &measure);
	if (bc_failed(status))
		return status;
	if (key->mass_place != BC_KEY_NO_PLACE && is_mass(&measure))
		return read_grams(reader, row, &measure);
	bc_note_seen(reader, row, key);
	*number_at(reader, key->place) = NAN;
	*share_pct(reader, key) = NAN;
	if (measure.unit[0] == '\0' || bc_unit_find(BC_QUANTITY_PERCENT, measure.unit) == NULL)
		return bc_measure_to_base(reader, row, &measure, BC_QUANTITY_VOLUME,
			key->mass_place != BC_KEY_NO_PLACE ? "mL, % or g" : "mL or %",
			number_at(reader, key->place));
	if (measure.number >= 0.0 && measure.number <= 100.0)
		*share_pct(reader, key) = measure.number + 0.0; /* no negative zero */
	else
		bc_warn_out_of_range(reader, row, 0.0, 100.0, "%");
	return BC_OK;
}

static enum bc_status read_density(
	struct bc_reader *reader, const struct bc_row_text *row, char *text)
{
	struct bc_measure measure;
	enum bc_status status = bc_measure_take_apart(reader, row, text, &measure);
	if (bc_failed(status))
		return status;
	struct bc_sample *sample = reader->sample;
	/* no oil weighs less than 2 kg/m3 or more than 2 g/mL */
	if (measure.unit[0] == '\0' && measure.number < 2.0) {
		memcpy(measure.unit, "g/mL", sizeof "g/mL");
		bc_assume_unit(reader, row, "g/mL");
	}
	sample->density_temp_c = measure.temp_c;
	sample->density_step_kgm3 = NAN;
	status = bc_measure_to_base(reader, row, &measure, BC_QUANTITY_DENSITY,
		bc_expected_units(row->key), &sample->density_kgm3);
	if (bc_failed(status))
		return status;
	const struct bc_unit *unit = bc_unit_find(BC_QUANTITY_DENSITY, measure.unit);
	if (isnan(sample->density_kgm3))
		sample->density_temp_c = NAN;
	else
		sample->density_step_kgm3 =
			0.5 * fabs(bc_unit_to_base(unit, measure.number + measure.step) -
				      bc_unit_to_base(unit, measure.number - measure.step));
	return BC_OK;
}

static enum bc_status read_barometer(
	struct bc_reader *reader, const struct bc_row_text *row, char *text)
{
	struct bc_measure measure;
	enum bc_status status = bc_measure_take_apart(reader, row, text, &measure);
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
	return bc_measure_to_base(reader, row, &measure, BC_QUANTITY_PRESSURE,
		bc_expected_units(row->key), &reader->sample->barometer_kpa);
}

static enum bc_status read_oil(struct bc_reader *reader, const struct bc_row_text *row, char *text)
{
	struct bc_measure measure;
	enum bc_status status = bc_measure_take_apart(reader, row, text, &measure);
	if (!bc_failed(status))
		status = no_temperature_here(reader, row, &measure);
	if (bc_failed(status))
		return status;
	if (measure.unit[0] == '\0') {
		bc_warn(reader, row->line,
			"%s %s has no unit and is left out; a volume in L or a mass in kg was "
			"expected",
			row->key->name, row->quoted);
		return BC_OK;
	}
	if (is_mass(&measure)) {
		if (!isnan(reader->sample->oil_out_g))
			bc_note_seen(reader, row, row->key);
		reader->seen[row->key - bc_keys] = row->line;
		return bc_measure_to_base(
			reader, row, &measure, BC_QUANTITY_MASS, "", &reader->sample->oil_out_g);
	}
	if (!isnan(reader->sample->oil_out_ml))
		bc_note_seen(reader, row, row->key);
	reader->seen[row->key - bc_keys] = row->line;
	return bc_measure_to_base(reader, row, &measure, BC_QUANTITY_VOLUME, "mL, L, g or kg",
		&reader->sample->oil_out_ml);
}

static enum bc_status read_jar_to(
	struct bc_reader *reader, const struct bc_row_text *row, char *text)
{
	struct bc_sample *sample = reader->sample;
	double *temp_c = &sample->jar_to_c;
	if (cut_word(text, "pot"))
		temp_c = &sample->jar_to_pot_c;
	else
		cut_word(text, "head");
	if (!isnan(*temp_c))
		bc_note_seen(reader, row, row->key);
	reader->seen[row->key - bc_keys] = row->line;
	return bc_measure_temperature(reader, row, text, temp_c);
}

/* What is measured of the same property, in the same cup, at the same temperature; or NULL. */
static struct bc_measured *same_measured(
	struct bc_sample *sample, const struct bc_measured *measured)
{
	for (size_t i = 0; i < sample->n_measured; i++) {
		struct bc_measured *other = &sample->measured[i];
		bool same_temp = other->temp_c == measured->temp_c ||
				 (isnan(other->temp_c) && isnan(measured->temp_c));
		if (strcmp(other->property, measured->property) == 0 &&
			other->open_cup == measured->open_cup && same_temp)
			return other;
	}
	return NULL;
}

static enum bc_status add_measured(
	struct bc_reader *reader, const struct bc_row_text *row, struct bc_measured measured)
{
	struct bc_sample *sample = reader->sample;
	measured.property = row->key->property;
	measured.line = row->line;
	struct bc_measured *earlier = same_measured(sample, &measured);
	if (earlier != NULL) {
		/* of two flashes the lower: nobody knows which the jar has */
		bool lower = row->key->kind == BC_KEY_FLASH && earlier->value < measured.value;
		bc_warn(reader, row->line, "'%s' is already given in line %zu; %s counts",
			row->key->name, earlier->line,
			row->key->kind == BC_KEY_FLASH ? "the lower" : "this one");
		bc_strings_add(&sample->assumed, "'%s' is given twice: the %s counts",
			row->key->name,
			row->key->kind == BC_KEY_FLASH ? "lower" : "later value");
		if (!lower)
			*earlier = measured;
		return BC_OK;
	}
	void *items = sample->measured;
	if (bc_grow(&items, sample->n_measured, &reader->measured_capacity,
		    sizeof *sample->measured) != 0)
		return BC_NO_MEMORY;
	sample->measured = items;
	sample->measured[sample->n_measured++] = measured;
	return BC_OK;
}

static enum bc_status read_measured(
	struct bc_reader *reader, const struct bc_row_text *row, char *text)
{
	struct bc_measure measure;
	struct bc_measured measured = {0};
	if (row->key->kind == BC_KEY_FLASH) {
		measured.open_cup = cut_word(text, "open cup") || cut_word(text, "open");
		if (!measured.open_cup && !cut_word(text, "closed cup"))
			cut_word(text, "closed");
	}
	enum bc_status status = bc_measure_take_apart(reader, row, text, &measure);
	if (!bc_failed(status) && row->key->quantity == BC_QUANTITY_TEMPERATURE)
		status = no_temperature_here(reader, row, &measure);
	if (!bc_failed(status))
		status = bc_measure_to_base(reader, row, &measure, row->key->quantity,
			bc_expected_units(row->key), &measured.value);
	measured.temp_c = measure.temp_c;
	if (bc_failed(status) || isnan(measured.value))
		return status;
	return add_measured(reader, row, measured);
}

/* ASTM D130: 1a 1b 2a .. 2e 3a 3b 4a .. 4c, or the number alone. */
static enum bc_status read_copper(
	struct bc_reader *reader, const struct bc_row_text *row, char *text)
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
	if (!good) {
		bc_warn(reader, row->line, "%s %s is no rating and left out; 1a to 4c was expected",
			row->key->name, row->quoted);
		return BC_OK;
	}
	measured.value = *s - '0';
	return add_measured(reader, row, measured);
}

/* A word that is not understood counts as not stated. */
static void warn_word(struct bc_reader *reader, const struct bc_row_text *row,
	const char *const *words, size_t n, const char *expected)
{
	char folded[LONGEST_SUGGESTED];
	bool short_enough = bc_cell_fold(row->value, folded, sizeof folded);
	const char *nearest = short_enough ? bc_nearest_word(folded, words, n) : NULL;
	if (nearest != NULL)
		bc_warn(reader, row->line,
			"%s %s is not understood and counts as not stated; did you mean '%s'?",
			row->key->name, row->quoted, nearest);
	else
		bc_warn(reader, row->line,
			"%s %s is not understood and counts as not stated; %s was expected",
			row->key->name, row->quoted, expected);
}

/* Of two histories the worse. */
static enum bc_history worse(enum bc_history a, enum bc_history b)
{
	if (a == BC_HISTORY_RETORT || b == BC_HISTORY_RETORT)
		return BC_HISTORY_RETORT;
	return a == BC_HISTORY_UNKNOWN || b == BC_HISTORY_UNKNOWN ? BC_HISTORY_UNKNOWN : b;
}

static void settle_history(struct bc_reader *reader, enum bc_history history)
{
	struct bc_sample *sample = reader->sample;
	if (reader->history_given && sample->history != history)
		bc_strings_add(&sample->assumed,
			"'history' is given twice: the worse counts, for the sake of safety");
	sample->history =
		reader->history_given ? worse(sample->history, history) : history;
	reader->history_given = true;
}

static void read_history(struct bc_reader *reader, const struct bc_row_text *row)
{
	static const char *const words[] = {"unknown", "retort", "rerun", "aired", "re-run"};
	static const enum bc_history histories[] = {BC_HISTORY_UNKNOWN, BC_HISTORY_RETORT,
		BC_HISTORY_RERUN, BC_HISTORY_AIRED, BC_HISTORY_RERUN};
	char folded[WORD_SIZE];
	bool short_enough = bc_cell_fold(row->value, folded, sizeof folded);
	for (size_t i = 0; short_enough && i < sizeof words / sizeof *words; i++) {
		if (strcmp(words[i], folded) == 0) {
			settle_history(reader, histories[i]);
			return;
		}
	}
	settle_history(reader, BC_HISTORY_UNKNOWN);
	warn_word(reader, row, words, sizeof words / sizeof *words,
		"retort, rerun, aired or unknown");
}

static void read_thermometer(struct bc_reader *reader, const struct bc_row_text *row)
{
	static const enum bc_thermometer kinds[] = {BC_THERMOMETER_GLASS_D86,
		BC_THERMOMETER_GLASS_PARTIAL, BC_THERMOMETER_GLASS_TOTAL, BC_THERMOMETER_PROBE};
	enum { KINDS = sizeof kinds / sizeof *kinds };
	const char *words[KINDS];
	char folded[WORD_SIZE];
	bool short_enough = bc_cell_fold(row->value, folded, sizeof folded);
	reader->sample->thermometer = BC_THERMOMETER_NOT_STATED;
	for (size_t i = 0; i < KINDS; i++) {
		words[i] = bc_thermometer_text(kinds[i]);
		if (short_enough && strcmp(words[i], folded) == 0) {
			reader->sample->thermometer = kinds[i];
			return;
		}
	}
	warn_word(reader, row, words, KINDS, "glass d86, glass partial, glass total or probe");
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
	struct bc_reader *reader, const struct bc_row_text *row, const char *text)
{
	struct bc_sample *sample = reader->sample;
	char folded[WORD_SIZE];
	bool short_enough = bc_cell_fold(text, folded, sizeof folded);
	sample->apparatus = BC_APPARATUS_FLASK;
	bc_free(sample->apparatus_still);
	sample->apparatus_still = NULL;
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

/* A key that needs no place and is given again: the later value counts. */
static enum bc_status keep_known(struct bc_reader *reader, const struct bc_row_text *row)
{
	struct bc_sample *sample = reader->sample;
	for (size_t i = 0; i < sample->n_kept; i++) {
		struct bc_kept *kept = &sample->kept[i];
		if (strcmp(kept->key, row->key->name) != 0)
			continue;
		bc_free(kept->value);
		kept->line = row->line;
		kept->value = bc_strdup(row->value);
		return kept->value == NULL ? BC_NO_MEMORY : BC_OK;
	}
	return keep(reader, row->key->name, row->value, true, row->line);
}

/* "charge;100 mL" in a file whose table has commas. */
static bool warn_separator(struct bc_reader *reader, const char *name, size_t line)
{
	char quoted[BC_QUOTED_SIZE];
	char key[LONGEST_SUGGESTED];
	char other = bc_other_separator(reader, name);
	const char *at = other != '\0' ? strchr(name, other) : NULL;
	if (at == NULL || (size_t)(at - name) >= sizeof key)
		return false;
	memcpy(key, name, (size_t)(at - name));
	key[at - name] = '\0';
	if (bc_key_find(key) == NULL)
		return false;
	bc_warn(reader, line,
		"row %s has %s between its cells but the table has %s; it is not read, one "
		"separator in a file was expected",
		bc_cell_quoted(name, quoted), bc_separator_text(other),
		bc_separator_text(reader->separator));
	return true;
}

static enum bc_status read_unknown(
	struct bc_reader *reader, const char *name, const char *value, size_t line)
{
	char quoted[BC_QUOTED_SIZE];
	size_t n = reader->sample->n_kept;
	bool told = n > MOST_TOLD || warn_separator(reader, name, line);
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

static enum bc_status read_text(struct bc_reader *reader, const struct bc_row_text *row)
{
	char **place = (char **)(void *)((char *)reader->sample + row->key->place);
	bc_free(*place);
	*place = bc_strdup(row->value);
	return *place == NULL ? BC_NO_MEMORY : BC_OK;
}

/* text is the value in a copy that may be cut. */
static enum bc_status read_value(
	struct bc_reader *reader, const struct bc_row_text *row, char *text)
{
	switch (row->key->kind) {
	case BC_KEY_TEXT:
		return read_text(reader, row);
	case BC_KEY_KEPT:
		return keep_known(reader, row);
	case BC_KEY_NUMBER:
		return read_number(reader, row, text);
	case BC_KEY_HISTORY:
		read_history(reader, row);
		return BC_OK;
	case BC_KEY_THERMOMETER:
		read_thermometer(reader, row);
		return BC_OK;
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

/* Two values of one such key may both stand: by volume and by mass, of head and of pot, measured in
 * two cups or at two temperatures. */
static bool may_stand_twice(const struct bc_key *key)
{
	switch (key->kind) {
	case BC_KEY_CHARGE:
	case BC_KEY_SHARE:
	case BC_KEY_OIL:
	case BC_KEY_JAR_TO:
	case BC_KEY_MEASURED:
	case BC_KEY_FLASH:
	case BC_KEY_COPPER:
		return true;
	default:
		return false;
	}
}

static enum bc_status read_known(struct bc_reader *reader, const struct bc_key *key,
	const char *value, bool joined, size_t line)
{
	struct bc_row_text row = {.key = key, .value = value, .line = line};
	bc_cell_quoted(value, row.quoted);
	if (joined && !takes_words(key))
		return bc_refuse(reader, line,
			"%s is followed by more than one cell, %s; one value was expected, in "
			"quotes where it holds '%c'",
			key->name, row.quoted, reader->separator == '\t' ? ' ' : reader->separator);
	if (!may_stand_twice(key))
		bc_note_seen(reader, &row, key);
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
