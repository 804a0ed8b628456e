/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cells of exported tables, which no spreadsheet takes for a formula. */
#include "book/sheet.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/number.h"

static bool is_plain(char c)
{
	return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
	       strchr(" ._:+-/()%'", c) != NULL;
}

static bool needs_quotes(const char *s)
{
	size_t n = strlen(s);
	if (n > 0 && (s[0] == ' ' || s[n - 1] == ' '))
		return true;
	for (size_t i = 0; i < n; i++) {
		if (!is_plain(s[i]))
			return true;
	}
	return false;
}

void bc_sheet_append_text(struct bc_text *csv, const char *s)
{
	if (s == NULL)
		return;
	bool quotes = needs_quotes(s);
	if (quotes)
		bc_text_append(csv, "\"");
	if (*s == '\0' || strchr("=+-@'\t\r", *s) != NULL)
		bc_text_append(csv, "'");
	while (quotes && *s != '\0') {
		size_t n = strcspn(s, "\"");
		bc_text_append_n(csv, s, n);
		s += n;
		if (*s == '"') {
			bc_text_append(csv, "\"\"");
			s++;
		}
	}
	bc_text_append(csv, quotes ? "\"" : s);
}

void bc_sheet_append_integer(struct bc_text *csv, long long value)
{
	bc_text_printf(csv, "%lld", value);
}

void bc_sheet_append_number(struct bc_text *csv, double value)
{
	char digits[40] = "";
	const int most = 17; /* of a double, IEEE 754 */
	if (isnan(value))
		return;
	for (int n = 1; n <= most; n++) {
		snprintf(digits, sizeof digits, "%.*g", n, value);
		double again = NAN;
		/* 0 and -0 are told apart by the digits alone */
		if (bc_number_parse(digits, '.', &again) && again == value)
			break;
	}
	bc_text_append(csv, digits);
}

const char *bc_sheet_text(const char *cell)
{
	if (*cell == '\0')
		return NULL;
	return *cell == '\'' ? cell + 1 : cell;
}
