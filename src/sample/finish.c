/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be said of a sample only when all its rows are in: the charge, parts that are more than
 * the whole, amounts evaporated, the row at 0, too few readings. */
#include <math.h>

#include "base/memory.h"
#include "sample/reader.h"

#define LEAST_READINGS 3
/* Amounts nearer than this are the same. */
#define SAME_AMOUNT 1e-9
/* Ice and steam closer than this measure no scale; 100 apart is right. */
#define LEAST_SPAN_C 50.0

/* Charge by volume from charge by mass and the other way. */
static void derive_charge(struct bc_reader *reader)
{
	struct bc_sample *sample = reader->sample;
	bool dense = !isnan(sample->density_kgm3);
	bool weighed = !isnan(sample->charge_g);
	if (!sample->charge_stated && weighed && dense) {
		sample->charge_ml = 1000.0 * sample->charge_g / sample->density_kgm3;
		sample->charge_stated = true;
		sample->charge_ml_computed = true;
	}
	if (!weighed && sample->amount_basis == BC_AMOUNT_MASS_G && dense) {
		sample->charge_g = sample->charge_ml * sample->density_kgm3 / 1000.0;
		sample->charge_g_computed = true;
	}
}

/* A part that is more than the whole is left out. */
static void check_part(
	struct bc_reader *reader, const char *name, double *part, double whole, const char *unit)
{
	if (!(*part > whole))
		return;
	bc_warn(reader, reader->seen[bc_key_find(name) - bc_keys],
		"%s of %.10g %s is more than the charge and left out; at most %.10g %s was expected",
		name, *part, unit, whole, unit);
	*part = NAN;
}

static void check_parts(struct bc_reader *reader)
{
	struct bc_sample *sample = reader->sample;
	bool volume_known = sample->charge_stated || isnan(sample->charge_g);
	double charge_ml = volume_known ? sample->charge_ml : (double)INFINITY;
	check_part(reader, "residue", &sample->residue_ml, charge_ml, "mL");
	check_part(reader, "loss", &sample->loss_ml, charge_ml, "mL");
	check_part(reader, "water in receiver", &sample->water_ml, charge_ml, "mL");
	check_part(reader, "residue mass", &sample->residue_g, sample->charge_g, "g");
	check_part(reader, "distillate mass", &sample->distillate_g, sample->charge_g, "g");
	if (sample->steam_c - sample->ice_c < LEAST_SPAN_C)
		bc_warn(reader, reader->seen[bc_key_find("steam") - bc_keys],
			"steam at %.10g C is not %.10g C above ice at %.10g C; about 100 C was "
			"expected",
			sample->steam_c, LEAST_SPAN_C, sample->ice_c);
}

/* The whole of which an amount is a part, in its own unit; infinite where nobody knows. */
static double whole_amount(const struct bc_sample *sample)
{
	if (sample->amount_basis == BC_AMOUNT_VOLUME_ML)
		return sample->charge_stated || isnan(sample->charge_g) ? sample->charge_ml
									: (double)INFINITY;
	if (sample->amount_basis == BC_AMOUNT_MASS_G)
		return isnan(sample->charge_g) ? (double)INFINITY : sample->charge_g;
	return 100.0;
}

/* The loss in the unit of the amounts; 0, and said, where none is given. */
static double loss_amount(struct bc_reader *reader)
{
	const struct bc_sample *sample = reader->sample;
	double share = isnan(sample->loss_pct) ? sample->loss_ml / sample->charge_ml
					       : sample->loss_pct / 100.0;
	double loss = share * whole_amount(sample);
	if (isfinite(loss))
		return loss;
	bc_warn(reader, reader->header_line,
		"the table is in amounts evaporated and no loss is given; 0 is taken");
	return 0.0;
}

/* Evaporated is recovered and the loss; what boiled off before the first drop was never read. */
static void take_loss_off(struct bc_reader *reader)
{
	struct bc_sample *sample = reader->sample;
	size_t kept = 0;
	if (!reader->columns.evaporated)
		return;
	double loss = loss_amount(reader);
	bc_strings_add(&sample->assumed,
		"the table is in amounts evaporated: recovered is that less a loss of %.4g", loss);
	for (size_t i = 0; i < sample->n_readings; i++) {
		struct bc_reading reading = sample->readings[i];
		if (reading.kind == BC_READING_AMOUNT && reading.amount < loss - SAME_AMOUNT) {
			bc_warn(reader, reading.line,
				"the row at %.10g evaporated lies within the loss; it is left out",
				reading.amount);
			bc_free(reading.note);
			continue;
		}
		if (reading.kind == BC_READING_AMOUNT)
			reading.amount =
				reading.amount - loss > SAME_AMOUNT ? reading.amount - loss : 0.0;
		sample->readings[kept++] = reading;
	}
	sample->n_readings = kept;
}

/* A row at 0 is where the first drop fell, unless that has a row of its own. */
static void take_zero_as_ibp(struct bc_reader *reader)
{
	struct bc_sample *sample = reader->sample;
	size_t i = 0;
	while (i < sample->n_readings && !(sample->readings[i].kind == BC_READING_AMOUNT &&
						 sample->readings[i].amount == 0.0))
		i++;
	if (i == sample->n_readings || reader->end_line[0] != 0)
		return;
	sample->readings[i].kind = BC_READING_IBP;
	sample->readings[i].amount = NAN;
	bc_diagnose(reader->diagnostics, BC_NOTE, reader->file, sample->readings[i].line,
		"the row at 0 is taken as IBP");
}

static enum bc_status check_readings(struct bc_reader *reader)
{
	const struct bc_sample *sample = reader->sample;
	const char *unit = sample->amount_basis == BC_AMOUNT_MASS_G ? "g" : "mL";
	double most = whole_amount(sample);
	size_t n = 0;
	for (size_t i = 0; i < sample->n_readings; i++) {
		const struct bc_reading *reading = &sample->readings[i];
		if (reading->kind != BC_READING_AMOUNT)
			continue;
		n++;
		if (reading->amount > most)
			return bc_refuse(reader, reading->line,
				"amount '%.10g' is more than the charge; at most %.10g %s was "
				"expected",
				reading->amount, most, unit);
	}
	if (n < LEAST_READINGS && !reader->unfilled)
		return bc_refuse(reader, reader->header_line,
			"%d percent readings are needed; found %zu", LEAST_READINGS, n);
	return BC_OK;
}

enum bc_status bc_reader_finish(struct bc_reader *reader)
{
	derive_charge(reader);
	check_parts(reader);
	take_loss_off(reader);
	take_zero_as_ibp(reader);
	enum bc_status status = check_readings(reader);
	return reader->sample->assumed.failed ? BC_NO_MEMORY : status;
}
