/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_SAMPLE_MEASURE_H
#define BC_SAMPLE_MEASURE_H

#include "base/units.h"
#include "sample/cell.h"
#include "sample/reader.h"

#define BC_UNIT_SIZE 40

/* A value taken apart. */
struct bc_measure {
	double number;
	double step;             /* half of the last written digit */
	char unit[BC_UNIT_SIZE]; /* as written; empty where none was written */
	double temp_c;           /* NaN where none was written */
};

/* The place of this row in a message: the key and the value as they are written. */
struct bc_row_text {
	const struct bc_key *key;
	const char *value;
	size_t line;
	char quoted[BC_QUOTED_SIZE];
};

/* "0.794 g/mL @ 21 C" taken apart; text may be cut. Refused where it is no number. */
enum bc_status bc_measure_take_apart(struct bc_reader *reader, const struct bc_row_text *row,
	char *text, struct bc_measure *measure);

/* A temperature [degC]; refused below 0 K and above 700 degC. */
enum bc_status bc_measure_temperature(
	struct bc_reader *reader, const struct bc_row_text *row, const char *text, double *temp_c);

/* The measure in the program's unit of one quantity; NaN, with a warning, outside the limits of the
 * key; an unknown unit, a barometer or a temperature that cannot be refuse the file. */
enum bc_status bc_measure_to_base(struct bc_reader *reader, const struct bc_row_text *row,
	const struct bc_measure *measure, enum bc_quantity quantity, const char *expected,
	double *value);

void bc_warn_out_of_range(struct bc_reader *reader, const struct bc_row_text *row, double low,
	double high, const char *unit);
/* Lists the unit that was taken where none was written. */
void bc_assume_unit(struct bc_reader *reader, const struct bc_row_text *row, const char *unit);
/* Of a key given twice the later value counts. */
void bc_note_seen(
	struct bc_reader *reader, const struct bc_row_text *row, const struct bc_key *key);
/* The units of a key, for messages. */
const char *bc_expected_units(const struct bc_key *key);

#endif
