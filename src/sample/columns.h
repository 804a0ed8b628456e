/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_SAMPLE_COLUMNS_H
#define BC_SAMPLE_COLUMNS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/csv.h"
#include "base/units.h"
#include "sample/sample.h"

enum bc_column_role {
	BC_COLUMN_UNKNOWN,
	BC_COLUMN_AMOUNT,
	BC_COLUMN_HEAD,
	BC_COLUMN_POT,
	BC_COLUMN_TIME,
	BC_COLUMN_NOTE,
	BC_COLUMN_ROLES
};

#define BC_NO_COLUMN ((size_t)-1)

/* Where the columns of a table stand, as its header row says. */
struct bc_columns {
	size_t at[BC_COLUMN_ROLES];   /* BC_NO_COLUMN where there is none */
	size_t twin[BC_COLUMN_ROLES]; /* a second column of the same role, or BC_NO_COLUMN */
	bool bad_unit[BC_COLUMN_ROLES];
	bool no_unit[BC_COLUMN_ROLES]; /* nothing in the cell says the unit */
	bool evaporated;               /* the amount is what boiled off, the loss included */
	size_t n;                      /* cells of the header up to the last filled one */
	enum bc_amount_basis basis;
	const struct bc_unit *head_unit;
	const struct bc_unit *pot_unit;
	const struct bc_unit *time_unit; /* of a time written as one number */
	bool minutes_seconds;            /* "mm:ss": 12:30 is twelve and a half minutes */
};

/* Whether row is a header: one cell names the amount, another the head temperature. */
bool bc_columns_from_header(const struct bc_csv_row *row, struct bc_columns *columns);

/* One cell names both the amount and the head temperature: a header without separators. */
bool bc_is_whole_header(const char *cell);

enum bc_column_role bc_column_role(const char *cell);

#endif
