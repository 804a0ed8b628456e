/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file of a still: rows of key and value as a sample has them, then a table of the pairs that
 * it was calibrated with. */
#include "still/still_file.h"

#include <inttypes.h>
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "base/csv.h"
#include "base/memory.h"
#include "base/number.h"
#include "base/units.h"

struct bc_still_record bc_still_record_new(void)
{
	struct bc_still_record record = {.still = bc_still_default(), .rig = bc_rig_unknown()};
	record.still.name[0] = '\0';
	return record;
}

static bool is_same_run(const struct bc_still_pair *a, const struct bc_still_pair *b)
{
	if (a->readings != 0 && b->readings != 0)
		return a->readings == b->readings;
	return strcmp(a->before, b->before) == 0 && strcmp(a->after, b->after) == 0;
}

static size_t place_of(const struct bc_still_record *record, const struct bc_still_pair *pair)
{
	size_t at = 0;
	while (at < record->n_pairs && !is_same_run(&record->pairs[at], pair))
		at++;
	return at;
}

bool bc_still_record_has(const struct bc_still_record *record, const struct bc_still_pair *pair)
{
	return place_of(record, pair) < record->n_pairs;
}

enum bc_status bc_still_record_add(struct bc_still_record *record, const struct bc_still_pair *pair)
{
	size_t at = place_of(record, pair);
	if (at == BC_STILL_PAIRS_MAX)
		return BC_BAD_DOMAIN;
	record->pairs[at] = *pair;
	record->n_pairs = at == record->n_pairs ? at + 1 : record->n_pairs;
	return BC_OK;
}

struct bc_plates_estimate bc_still_record_estimate(const struct bc_still_record *record)
{
	struct bc_plates_estimate estimates[BC_STILL_PAIRS_MAX];
	for (size_t i = 0; i < record->n_pairs; i++)
		estimates[i] = record->pairs[i].estimate;
	return bc_plates_combine(estimates, record->n_pairs);
}

void bc_still_record_combine(struct bc_still_record *record)
{
	const double sigmas_95 = 1.96;
	struct bc_still *still = &record->still;
	if (record->n_pairs == 0)
		return;
	struct bc_plates_estimate all = bc_still_record_estimate(record);
	still->column = (struct bc_column){NAN, NAN, fmax(all.plates, 1.0), NAN};
	still->plates_low = bc_plates_low(&all);
	still->plates_high = bc_plates_high(&all);
	still->carry_pct = all.carry_pct;
	still->carry_half_width_pct = sigmas_95 * all.carry_sigma_pct;
	still->source = BC_STILL_CALIBRATED;
}

/* ---- keys with a number */

#define AT(field) offsetof(struct bc_still_record, field)

static const struct number_key {
	const char *key;
	enum bc_quantity quantity;
	const char *unit; /* in which it is written */
	double scale;     /* of the field, for one of base/units */
	double low;       /* of the field */
	double high;
	size_t place;
} number_keys[] = {
	{"stages", BC_QUANTITY_NONE, "", 1.0, 1.0, 60.0, AT(still.column.stages)},
	{"effective plates", BC_QUANTITY_NONE, "", 1.0, 1.0, 60.0,
		AT(still.column.effective_plates)},
	{"effective plates low", BC_QUANTITY_NONE, "", 1.0, 1.0, 60.0, AT(still.plates_low)},
	{"effective plates high", BC_QUANTITY_NONE, "", 1.0, 1.0, 1000.0, AT(still.plates_high)},
	{"carry", BC_QUANTITY_PERCENT, "%", 1.0, 0.0, 20.0, AT(still.carry_pct)},
	{"carry half width", BC_QUANTITY_PERCENT, "%", 1.0, 0.0, 100.0,
		AT(still.carry_half_width_pct)},
	{"riser", BC_QUANTITY_LENGTH, "mm", 1000.0, 1.0, 2000.0, AT(rig.riser_mm)},
	{"height", BC_QUANTITY_LENGTH, "mm", 1000.0, 1.0, 20000.0, AT(rig.height_mm)},
	{"lagging", BC_QUANTITY_LENGTH, "mm", 1000.0, 0.0, 300.0, AT(rig.lagging_mm)},
	{"head reflux", BC_QUANTITY_NONE, "", 1.0, 0.0, 1000.0, AT(rig.reflux)},
	{"heater", BC_QUANTITY_POWER, "W", 1.0, 10.0, 1e6, AT(rig.heater_w)},
	{"charge", BC_QUANTITY_VOLUME, "mL", 1.0, 10.0, 1e7, AT(rig.charge_ml)},
	{"vacuum", BC_QUANTITY_PRESSURE, "kPa", 1.0, 0.1, 110.0, AT(rig.vacuum_kpa)},
};
enum { NUMBER_KEYS = sizeof number_keys / sizeof number_keys[0] };

static const double *number_in(const struct bc_still_record *record, size_t place)
{
	return (const double *)(const void *)((const char *)record + place);
}

static double *number_at(struct bc_still_record *record, size_t place)
{
	return (double *)(void *)((char *)record + place);
}

/* ---- reading */

struct reading {
	const char *file;
	struct bc_diagnostics *diagnostics;
	struct bc_still_record *record;
	bool in_table;
	bool has_plates;
	const char *name;          /* that the file must have; NULL: any */
	size_t lines[NUMBER_KEYS]; /* where each key stands; 0: nowhere */
};

static enum bc_status refuse(const struct reading *reading, size_t line, const char *what,
	const char *found, const char *expected)
{
	bc_diagnose(reading->diagnostics, BC_ERROR, reading->file, line, "%s '%.60s'; expected %s",
		what, found, expected);
	return BC_MALFORMED;
}

static enum bc_status read_number(
	const struct reading *reading, const struct number_key *key, const char *value, size_t line)
{
	double number = NAN;
	size_t taken = bc_number_prefix(value, '.', &number);
	const char *unit_name = value + taken + strspn(value + taken, " ");
	const struct bc_unit *unit = bc_unit_find(key->quantity, unit_name);
	char expected[96];
	snprintf(expected, sizeof expected, "a number%s%s, %g to %g", key->unit[0] ? " in " : "",
		key->unit, key->low, key->high);
	if (taken == 0 || unit == NULL)
		return refuse(reading, line, key->key, value, expected);
	number = key->scale * bc_unit_to_base(unit, number);
	if (!(number >= key->low && number <= key->high))
		return refuse(reading, line, key->key, value, expected);
	if (key->place == AT(still.column.stages) && number != floor(number))
		return refuse(reading, line, key->key, value, "a whole number");
	*number_at(reading->record, key->place) = number;
	return BC_OK;
}

static enum bc_status read_reflux(const struct reading *reading, const char *value, size_t line)
{
	double *reflux = &reading->record->still.column.reflux;
	if (strcmp(value, "total") == 0)
		*reflux = INFINITY;
	else if (!bc_number_parse(value, '.', reflux) || !(*reflux >= 0.0 && *reflux <= 1000.0))
		return refuse(reading, line, "reflux", value, "0 to 1000, or total");
	return BC_OK;
}

static enum bc_status read_packing(const struct reading *reading, const char *value, size_t line)
{
	const struct bc_packing *packing = bc_packing_find(value);
	if (packing == NULL)
		return refuse(reading, line, "packing", value, "a word of 'still describe --help'");
	reading->record->rig.packing = packing;
	return BC_OK;
}

static enum bc_status read_source(const struct reading *reading, const char *value, size_t line)
{
	for (int i = 0; i < BC_STILL_SOURCES; i++) {
		if (strcmp(bc_still_source_texts[i], value) == 0) {
			reading->record->still.source = (enum bc_still_source)i;
			return BC_OK;
		}
	}
	return refuse(reading, line, "found", value, "stated, estimated or calibrated");
}

static enum bc_status read_thermometer(
	const struct reading *reading, const char *value, size_t line)
{
	static const enum bc_thermometer kinds[] = {BC_THERMOMETER_GLASS_D86,
		BC_THERMOMETER_GLASS_PARTIAL, BC_THERMOMETER_GLASS_TOTAL, BC_THERMOMETER_PROBE};
	for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
		if (strcmp(bc_thermometer_text(kinds[i]), value) == 0) {
			reading->record->still.thermometer = kinds[i];
			return BC_OK;
		}
	}
	return refuse(reading, line, "thermometer", value,
		"glass d86, glass partial, glass total or probe");
}

static enum bc_status read_name(const struct reading *reading, const char *value, size_t line)
{
	if (!bc_still_name_is_safe(value))
		return refuse(reading, line, "still", value, "a name of letters, digits and ._-");
	if (reading->name != NULL && strcmp(reading->name, value) != 0)
		return refuse(reading, line, "still", value, "the name of its file");
	snprintf(reading->record->still.name, BC_STILL_NAME_MAX, "%s", value);
	return BC_OK;
}

static enum bc_status read_key(
	struct reading *reading, const char *key, const char *value, size_t line)
{
	for (size_t i = 0; i < NUMBER_KEYS; i++) {
		if (strcmp(number_keys[i].key, key) != 0)
			continue;
		reading->has_plates = reading->has_plates ||
				      number_keys[i].place == AT(still.column.stages) ||
				      number_keys[i].place == AT(still.column.effective_plates);
		reading->lines[i] = line;
		return read_number(reading, &number_keys[i], value, line);
	}
	if (strcmp(key, "still") == 0)
		return read_name(reading, value, line);
	if (strcmp(key, "reflux") == 0)
		return read_reflux(reading, value, line);
	if (strcmp(key, "packing") == 0)
		return read_packing(reading, value, line);
	if (strcmp(key, "found") == 0)
		return read_source(reading, value, line);
	if (strcmp(key, "thermometer") == 0)
		return read_thermometer(reading, value, line);
	bc_diagnose(reading->diagnostics, BC_WARNING, reading->file, line,
		"'%.60s' is not understood and not used", key);
	return BC_OK;
}

enum { PAIR_COLUMNS = 8, PAIR_COLUMNS_OLD = 7 }; /* old: without mark */
#define PAIR_HEADER "before,after,plates,readings (ln),model (ln),carry (%),carry error (%),mark"

/* What a fit can have found, and then some; beyond it no still is, and inside it pairs together
 * have a finite mean. */
static const struct pair_range {
	double low;
	double high;
	const char *expected;
} pair_ranges[] = {
	{0.0, 0.0, NULL},
	{0.0, 0.0, NULL},
	{BC_CALIBRATION_PLATES_MIN, 60.0, "plates of 0.7 to 60"},
	{1e-3, 5.0, "an error of ln(plates) of 0.001 to 5"},
	{0.0, 5.0, "an error of ln(plates) of 0 to 5"},
	{0.0, 20.0, "a carry-over of 0 to 20 %"},
	{1e-3, 20.0, "an error of the carry-over of 0.001 to 20 %"},
};

/* Sixteen digits of base 16. */
static bool read_mark(const char *word, uint64_t *mark)
{
	static const char digits[] = "0123456789abcdef";
	*mark = 0;
	for (size_t i = 0; i < 16; i++) {
		const char *digit = word[i] != '\0' ? strchr(digits, word[i]) : NULL;
		if (digit == NULL)
			return false;
		*mark = *mark * 16 + (uint64_t)(digit - digits);
	}
	return word[16] == '\0';
}

static enum bc_status read_pair(const struct reading *reading, const struct bc_csv_row *row)
{
	struct bc_still_pair pair = {0};
	double number[PAIR_COLUMNS_OLD] = {0};
	if (row->n != PAIR_COLUMNS && row->n != PAIR_COLUMNS_OLD)
		return refuse(reading, row->line, "pair", row->fields[0], "cells as " PAIR_HEADER);
	for (size_t i = 2; i < PAIR_COLUMNS_OLD; i++) {
		const struct pair_range *range = &pair_ranges[i];
		if (!bc_number_parse(row->fields[i], '.', &number[i]) ||
			!(number[i] >= range->low && number[i] <= range->high))
			return refuse(reading, row->line, "pair", row->fields[i], range->expected);
	}
	if (row->n == PAIR_COLUMNS && !read_mark(row->fields[7], &pair.readings))
		return refuse(reading, row->line, "mark", row->fields[7], "16 digits of base 16");
	pair.estimate =
		(struct bc_plates_estimate){number[2], number[3], number[4], number[5], number[6]};
	snprintf(pair.before, sizeof pair.before, "%s", row->fields[0]);
	snprintf(pair.after, sizeof pair.after, "%s", row->fields[1]);
	if (bc_failed(bc_still_record_add(reading->record, &pair)))
		return refuse(reading, row->line, "pair", pair.after, "no more than 24 pairs");
	return BC_OK;
}

static enum bc_status read_row(struct reading *reading, const struct bc_csv_row *row)
{
	if (reading->in_table)
		return read_pair(reading, row);
	if (row->n > 2 && strcmp(row->fields[0], "before") == 0) {
		reading->in_table = true;
		return BC_OK;
	}
	if (row->n != 2)
		return refuse(reading, row->line, "row", row->fields[0], "a key and its value");
	char *key = bc_text_folded(row->fields[0]);
	if (key == NULL)
		return BC_NO_MEMORY;
	enum bc_status status = read_key(reading, key, row->fields[1], row->line);
	bc_free(key);
	return status;
}

static size_t line_of(const struct reading *reading, size_t place)
{
	for (size_t i = 0; i < NUMBER_KEYS; i++)
		if (number_keys[i].place == place)
			return reading->lines[i];
	return 0;
}

/* Of bounds that are stated, the low one lies below and the high one above. */
static enum bc_status check_order(const struct reading *reading)
{
	const struct bc_still *still = &reading->record->still;
	double plates = still->column.effective_plates;
	if (still->plates_low > plates || still->plates_low > still->plates_high)
		return refuse(reading, line_of(reading, AT(still.plates_low)),
			"effective plates low", "above them", "no more than the plates");
	if (still->plates_high < plates)
		return refuse(reading, line_of(reading, AT(still.plates_high)),
			"effective plates high", "below them", "no less than the plates");
	return BC_OK;
}

static enum bc_status check_whole(const struct reading *reading)
{
	const struct bc_still *still = &reading->record->still;
	if (still->name[0] == '\0')
		return refuse(reading, 0, "no", "still", "a row with its name");
	if (!reading->has_plates && reading->record->n_pairs == 0)
		return refuse(reading, 0, "no", "effective plates",
			"effective plates, or stages with reflux");
	return reading->record->n_pairs == 0 ? check_order(reading) : BC_OK;
}

enum bc_status bc_still_read(const char *bytes, size_t n, const char *file,
	struct bc_diagnostics *diagnostics, struct bc_still_record *record)
{
	return bc_still_read_named(bytes, n, file, NULL, diagnostics, record);
}

enum bc_status bc_still_read_named(const char *bytes, size_t n, const char *file, const char *name,
	struct bc_diagnostics *diagnostics, struct bc_still_record *record)
{
	struct reading reading = {
		.file = file, .diagnostics = diagnostics, .record = record, .name = name};
	struct bc_csv csv = {0};
	size_t line = 0;
	*record = bc_still_record_new();
	record->still.column = (struct bc_column){NAN, 1.0, NAN, NAN};
	enum bc_status status = bc_csv_parse(bytes, n, ',', &csv, &line);
	if (status == BC_MALFORMED)
		bc_diagnose(diagnostics, BC_ERROR, file, line, "a quote is never closed");
	for (size_t i = 0; i < csv.n && !bc_failed(status); i++)
		status = read_row(&reading, &csv.rows[i]);
	if (!bc_failed(status))
		status = check_whole(&reading);
	if (!bc_failed(status))
		bc_still_record_combine(record);
	bc_csv_release(&csv);
	return status;
}

/* ---- writing */

static void write_quoted(const char *s, struct bc_text *text)
{
	bc_text_append(text, "\"");
	for (; *s != '\0'; s++)
		bc_text_append_n(text, *s == '"' ? "\"\"" : s, *s == '"' ? 2 : 1);
	bc_text_append(text, "\"");
}

static void write_words(const char *key, const char *value, struct bc_text *text)
{
	bc_text_printf(text, "%s,%s\n", key, value);
}

static void write_numbers(const struct bc_still_record *record, struct bc_text *text)
{
	for (size_t i = 0; i < NUMBER_KEYS; i++) {
		const struct number_key *key = &number_keys[i];
		const struct bc_unit *unit = bc_unit_find(key->quantity, key->unit);
		double value = *number_in(record, key->place);
		if (!isfinite(value) || !(value >= key->low && value <= key->high))
			continue;
		bc_text_printf(text, "%s,%.6g%s%s\n", key->key,
			bc_unit_from_base(unit, value / key->scale), key->unit[0] ? " " : "",
			key->unit);
	}
}

enum bc_status bc_still_write(const struct bc_still_record *record, struct bc_text *text)
{
	const struct bc_still *still = &record->still;
	write_words("still", still->name, text);
	write_words("found", bc_still_source_texts[still->source], text);
	if (still->thermometer != BC_THERMOMETER_NOT_STATED)
		write_words("thermometer", bc_thermometer_text(still->thermometer), text);
	if (isnan(still->column.effective_plates) && isinf(still->column.reflux))
		write_words("reflux", "total", text);
	else if (isnan(still->column.effective_plates))
		bc_text_printf(text, "reflux,%.6g\n", still->column.reflux);
	write_numbers(record, text);
	if (!isnan(record->rig.riser_mm))
		write_words("packing", record->rig.packing->word, text);
	if (record->n_pairs > 0)
		bc_text_append(text, "\n" PAIR_HEADER "\n");
	for (size_t i = 0; i < record->n_pairs; i++) {
		const struct bc_still_pair *pair = &record->pairs[i];
		const struct bc_plates_estimate *e = &pair->estimate;
		write_quoted(pair->before, text);
		bc_text_append(text, ",");
		write_quoted(pair->after, text);
		bc_text_printf(text, ",%.6g,%.6g,%.6g,%.6g,%.6g", e->plates, e->sigma_ln,
			e->model_ln, e->carry_pct, e->carry_sigma_pct);
		if (pair->readings != 0)
			bc_text_printf(text, ",%016" PRIx64, pair->readings);
		bc_text_append(text, "\n");
	}
	return text->failed ? BC_NO_MEMORY : BC_OK;
}
