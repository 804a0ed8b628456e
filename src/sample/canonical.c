/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sample in canonical form: fixed order of keys, fixed units, decimal point, commas. */
#include <math.h>
#include <string.h>

#include "sample/cell.h"
#include "sample/journal.h"
#include "sample/keys.h"
#include "sample/sample.h"

/* Ten digits: more than any reading has, and few enough to hide the noise of conversions. */
#define NUMBER "%.10g"

static void write_words(struct bc_text *text, const char *key, const char *value)
{
	bc_cell_append(text, key);
	bc_text_append(text, ",");
	bc_cell_append(text, value);
	bc_text_append(text, "\n");
}

static void write_number(struct bc_text *text, const char *key, double value, const char *unit)
{
	if (isnan(value))
		return;
	bc_text_printf(text, "%s," NUMBER "%s%s\n", key, value, *unit != '\0' ? " " : "", unit);
}

static void write_apparatus(const struct bc_sample *sample, struct bc_text *text)
{
	if (sample->apparatus == BC_APPARATUS_TBP)
		bc_text_append(text, "apparatus,tbp\n");
	if (sample->apparatus == BC_APPARATUS_COLUMN)
		bc_text_printf(text, "apparatus,column " NUMBER " " NUMBER "\n",
			sample->column_stages, sample->column_reflux);
	if (sample->apparatus == BC_APPARATUS_STILL)
		write_words(text, "apparatus", sample->apparatus_still);
}

/* Decimals that a step of half a digit means; -1 where it is no power of ten, or too fine. */
static int decimals_of(double step)
{
	double decimals = -log10(2.0 * step);
	double whole = round(decimals);

	return fabs(decimals - whole) < 1e-6 && whole >= 0.0 && whole <= 6.0 ? (int)whole : -1;
}

/* With as many digits as were written, which says how exactly it was read. */
static void write_density(const struct bc_sample *sample, struct bc_text *text)
{
	double density = sample->density_kgm3;
	int fine = decimals_of(sample->density_step_kgm3);
	int coarse = decimals_of(sample->density_step_kgm3 / 1000.0);
	if (isnan(density))
		return;
	if (fine >= 0)
		bc_text_printf(text, "density,%.*f kg/m3", fine, density);
	else if (coarse >= 0)
		bc_text_printf(text, "density,%.*f g/mL", coarse, density / 1000.0);
	else
		bc_text_printf(text, "density," NUMBER " kg/m3", density);
	if (!isnan(sample->density_temp_c))
		bc_text_printf(text, " @ " NUMBER " C", sample->density_temp_c);
	bc_text_append(text, "\n");
}

static void write_share(
	const struct bc_sample *sample, const struct bc_key *key, double ml, struct bc_text *text)
{
	double pct = key->place == offsetof(struct bc_sample, residue_ml) ? sample->residue_pct
		     : key->place == offsetof(struct bc_sample, loss_ml)  ? sample->loss_pct
									  : sample->water_pct;
	write_number(text, key->name, pct, "%");
	write_number(text, key->name, ml, key->unit);
}

static void write_measured(
	const struct bc_sample *sample, const struct bc_key *key, struct bc_text *text)
{
	for (size_t i = 0; i < sample->n_measured; i++) {
		const struct bc_measured *measured = &sample->measured[i];
		if (strcmp(measured->property, key->property) != 0)
			continue;
		const char *gap = *key->unit != '\0' ? " " : "";
		bc_text_printf(
			text, "%s," NUMBER "%s%s", key->name, measured->value, gap, key->unit);
		if (measured->rating != '\0')
			bc_text_printf(text, "%c", measured->rating);
		if (!isnan(measured->temp_c))
			bc_text_printf(text, " @ " NUMBER " C", measured->temp_c);
		bc_text_append(text, measured->open_cup ? " open cup\n" : "\n");
	}
}

static void write_jar_to(const struct bc_sample *sample, struct bc_text *text)
{
	write_number(text, "jar to", sample->jar_to_c, "C");
	write_number(text, "jar to", sample->jar_to_pot_c, "C pot");
}

static void write_oil(const struct bc_sample *sample, struct bc_text *text)
{
	write_number(text, "oil out", sample->oil_out_ml, "mL");
	write_number(text, "oil out", sample->oil_out_g, "g");
}

static void write_key(
	const struct bc_sample *sample, const struct bc_key *key, struct bc_text *text)
{
	const void *place = (const char *)sample + (key->place == BC_KEY_NO_PLACE ? 0 : key->place);
	switch (key->kind) {
	case BC_KEY_TEXT:
		if (*(char *const *)place != NULL)
			write_words(text, key->name, *(char *const *)place);
		break;
	case BC_KEY_CHARGE:
		if (!sample->charge_stated || sample->charge_ml_computed)
			break;
		/* fallthrough */
	case BC_KEY_NUMBER:
		if (place == &sample->charge_g && sample->charge_g_computed)
			break;
		/* fallthrough */
	case BC_KEY_BAROMETER:
		write_number(text, key->name, *(const double *)place, key->unit);
		break;
	case BC_KEY_SHARE:
		write_share(sample, key, *(const double *)place, text);
		break;
	case BC_KEY_HISTORY:
		if (sample->history != BC_HISTORY_UNKNOWN)
			write_words(text, key->name, bc_history_text(sample->history));
		break;
	case BC_KEY_THERMOMETER:
		if (sample->thermometer != BC_THERMOMETER_NOT_STATED)
			write_words(text, key->name, bc_thermometer_text(sample->thermometer));
		break;
	case BC_KEY_APPARATUS:
		write_apparatus(sample, text);
		break;
	case BC_KEY_DENSITY:
		write_density(sample, text);
		break;
	case BC_KEY_OIL:
		write_oil(sample, text);
		break;
	case BC_KEY_JAR_TO:
		write_jar_to(sample, text);
		break;
	case BC_KEY_MEASURED:
	case BC_KEY_FLASH:
	case BC_KEY_COPPER:
		write_measured(sample, key, text);
		break;
	case BC_KEY_KEPT:
		break; /* below, with the others that are kept */
	}
}

/* Which columns the table needs beside amount and head. */
struct columns_used {
	bool pot;
	bool time;
	bool note;
};

static void write_optional(struct bc_text *text, bool used, double value)
{
	if (!used)
		return;
	bc_text_append(text, ",");
	if (!isnan(value))
		bc_text_printf(text, NUMBER, value);
}

static void write_reading(
	const struct bc_reading *reading, const struct columns_used *used, struct bc_text *text)
{
	if (reading->kind == BC_READING_AMOUNT)
		bc_text_printf(text, NUMBER, reading->amount);
	else
		bc_text_append(text, reading->kind == BC_READING_IBP   ? "IBP"
				     : reading->kind == BC_READING_FBP ? "FBP"
								       : "dry");
	bc_text_printf(text, "," NUMBER, reading->head_c);
	write_optional(text, used->pot, reading->pot_c);
	write_optional(text, used->time, reading->time_s);
	if (used->note) {
		bc_text_append(text, ",");
		bc_cell_append(text, reading->note != NULL ? reading->note : "");
	}
	bc_text_append(text, "\n");
}

static void write_table(const struct bc_sample *sample, struct bc_text *text)
{
	struct columns_used used = {0};
	for (size_t i = 0; i < sample->n_readings; i++) {
		used.pot = used.pot || !isnan(sample->readings[i].pot_c);
		used.time = used.time || !isnan(sample->readings[i].time_s);
		used.note = used.note || sample->readings[i].note != NULL;
	}
	bc_text_printf(text, "%s,head (C)%s%s%s\n", bc_amount_heading(sample->amount_basis),
		used.pot ? ",pot (C)" : "", used.time ? ",time (s)" : "", used.note ? ",note" : "");
	for (size_t i = 0; i < sample->n_readings; i++)
		write_reading(&sample->readings[i], &used, text);
}

enum bc_status bc_sample_write(const struct bc_sample *sample, struct bc_text *text)
{
	size_t start = text->length;
	for (size_t i = 0; i < bc_n_keys; i++)
		write_key(sample, &bc_keys[i], text);
	for (size_t i = 0; i < sample->n_kept; i++)
		write_words(text, sample->kept[i].key, sample->kept[i].value);
	if (text->length > start)
		bc_text_append(text, "\n");
	write_table(sample, text);
	return text->failed ? BC_NO_MEMORY : BC_OK;
}
