/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits and values in words, for the sentences of a verdict. */
#include "verdict/phrase.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *unit_words(const struct bc_limit *limit)
{
	if (strcmp(limit->unit, "-") == 0 || strcmp(limit->unit, "class") == 0)
		return "";
	if (strcmp(limit->unit, "%V/V") == 0)
		return " %";
	return NULL;
}

static void append_unit(const struct bc_limit *limit, char *text, size_t size)
{
	const char *words = unit_words(limit);
	size_t used = strlen(text);
	if (words != NULL)
		snprintf(text + used, size - used, "%s", words);
	else
		snprintf(text + used, size - used, " %s", limit->unit);
}

void bc_phrase_limit(const struct bc_limit *limit, char *text, size_t size)
{
	bool class = strcmp(limit->unit, "class") == 0;
	const char *of = class ? "class " : "";
	if (isnan(limit->min) && isnan(limit->max)) {
		snprintf(text, size, "pass");
		return;
	}
	if (isnan(limit->max))
		snprintf(text, size, "%s %s%g", limit->strict ? "above" : "at least", of,
			limit->min);
	else if (isnan(limit->min))
		snprintf(
			text, size, "%s %s%g", limit->strict ? "below" : "at most", of, limit->max);
	else
		snprintf(text, size, "%g to %g", limit->min, limit->max);
	append_unit(limit, text, size);
}

static int decimals_of(const struct bc_limit *limit, double value)
{
	if (strcmp(limit->unit, "mm2/s") == 0)
		return 2;
	if (strcmp(limit->unit, "%m/m") == 0)
		return 4;
	return fabs(value) < 1000.0 ? 1 : 0;
}

void bc_phrase_value(const struct bc_criterion *criterion, char *text, size_t size)
{
	const struct bc_estimate *value = &criterion->value;
	int decimals = decimals_of(criterion->limit, value->value);
	snprintf(text, size, "%.*f", decimals, value->value);
	append_unit(criterion->limit, text, size);
	size_t used = strlen(text);
	if (value->how == BC_MEASURED && isnan(value->high))
		snprintf(text + used, size - used, " or more");
	else if (value->high > value->low)
		snprintf(text + used, size - used, " (%.*f to %.*f)", decimals, value->low,
			decimals, value->high);
	else if (isnan(value->low) && !isnan(value->high))
		snprintf(text + used, size - used, " (up to %.*f, down to nothing claimed)",
			decimals, value->high);
}

void bc_phrase_source(const struct bc_limit *limit, char *text, size_t size)
{
	snprintf(text, size, "%s (%s%s)", limit->standard, limit->edition,
		limit->seen == BC_SEEN_MEMORY ? "; limit from memory" : "");
}
