/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_AMOUNT_H
#define BC_COMMAND_AMOUNT_H

#include <stdbool.h>

#include "base/units.h"
#include "command/arguments.h"

/* What an option that carries a number and its unit may hold. */
struct bc_amount {
	const char *option;
	enum bc_quantity quantity;
	bool bare;            /* a number without unit is in the program's own */
	const char *expected; /* "a volume such as 40L" */
	double least;         /* in the program's unit */
	double most;
};

/* The value of amount->option in the program's unit; *value is left alone where it was not given.
 * Complains of what is no such number or outside least..most. */
int bc_amount_read(
	const struct bc_arguments *arguments, const struct bc_amount *amount, double *value);

/* word, "2 kW" or "2kW", in the unit of quantity; false where it is no such number. bare: a unit
 * may be missing. */
bool bc_amount_parse(const char *word, enum bc_quantity quantity, bool bare, double *value);

#endif
