/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers with units on a command line: "40L", "2 kW", "626F". */
#include "command/amount.h"

#include <math.h>
#include <string.h>

#include "base/number.h"
#include "base/text.h"
#include "command/output.h"

bool bc_amount_parse(const char *word, enum bc_quantity quantity, bool bare, double *value)
{
	double number = 0.0;
	word += strspn(word, " ");
	size_t taken = bc_number_prefix(word, '.', &number);
	const char *name = word + taken;
	if (taken == 0)
		return false;
	name += strspn(name, " ");
	if (*name == '\0' && !bare)
		return false;
	const struct bc_unit *unit = bc_unit_find(quantity, name);
	if (unit == NULL)
		return false;
	*value = bc_unit_to_base(unit, number);
	return isfinite(*value);
}

int bc_amount_read(
	const struct bc_arguments *arguments, const struct bc_amount *amount, double *value)
{
	const char *word = bc_arguments_value(arguments, amount->option);
	double read = 0.0;
	if (word == NULL)
		return BC_EXIT_DONE;
	if (!bc_amount_parse(word, amount->quantity, amount->bare, &read))
		return bc_wrong_usage(arguments->command,
			"'%s' is not a value of --%s; expected %s", word, amount->option,
			amount->expected);
	if (!(read >= amount->least && read <= amount->most))
		return bc_wrong_usage(arguments->command,
			"'%s' cannot be --%s; expected %s, %g to %g %s", word, amount->option,
			amount->expected, amount->least, amount->most,
			bc_unit_name(bc_unit_find(amount->quantity, "")));
	*value = read;
	return BC_EXIT_DONE;
}
