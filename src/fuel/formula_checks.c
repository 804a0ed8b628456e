/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How well each formula is held by published values: the embedded table of the check files. */
#include "fuel/formula.h"

#include <string.h>

#include "base/number.h"
#include "base/table.h"

/* ",N" at *at into *count; true when it was there. */
static bool take_count(const char **at, unsigned *count)
{
	double value = 0.0;
	if (**at != ',')
		return false;
	size_t n = bc_number_prefix(*at + 1, '.', &value);
	if (n == 0 || value < 0.0)
		return false;
	*count = (unsigned)value;
	*at += 1 + n;
	return true;
}

bool bc_formula_checks_of(const char *id, struct bc_formula_checks *checks)
{
	const struct bc_table *table = bc_table_find("formula-checks");
	size_t n = strlen(id);
	*checks = (struct bc_formula_checks){.printed = 0};
	for (size_t i = 0; table != NULL && i < table->n; i++) {
		const char *at = table->lines[i];
		if (strncmp(at, id, n) != 0 || at[n] != ',')
			continue;
		at += n;
		return take_count(&at, &checks->printed) && take_count(&at, &checks->near_print) &&
		       take_count(&at, &checks->independent) &&
		       take_count(&at, &checks->same_formula);
	}
	return false;
}

bool bc_formula_unchecked(const char *id)
{
	struct bc_formula_checks checks;
	bc_formula_checks_of(id, &checks);
	return checks.printed == 0 && checks.near_print == 0 && checks.independent == 0;
}
