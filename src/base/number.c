/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one number parser: the grammar is checked by hand, the value is left to strtod. */
#include "base/number.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Longer spellings are refused: no double needs more digits than this. */
#define LONGEST 400

#define UNICODE_MINUS "\xE2\x88\x92"
#define NO_BREAK_SPACE "\xC2\xA0"

static size_t digits(const char *s)
{
	size_t n = 0;
	while (s[n] >= '0' && s[n] <= '9')
		n++;
	return n;
}

/* Bytes of "12", "12.5", "12." or ".5"; 0 where there is no digit. */
static size_t mantissa_length(const char *s, char decimal)
{
	size_t whole = digits(s);
	if (s[whole] != decimal)
		return whole;
	size_t fraction = digits(s + whole + 1);
	return whole + fraction == 0 ? 0 : whole + 1 + fraction;
}

static size_t exponent_length(const char *s)
{
	if (*s != 'e' && *s != 'E')
		return 0;
	size_t sign = s[1] == '+' || s[1] == '-' ? 1 : 0;
	size_t power = digits(s + 1 + sign);
	return power == 0 ? 0 : 1 + sign + power;
}

size_t bc_number_prefix(const char *s, char decimal, double *value)
{
	bool negative = false;
	size_t sign = 0;
	if (*s == '+' || *s == '-') {
		negative = *s == '-';
		sign = 1;
	} else if (strncmp(s, UNICODE_MINUS, strlen(UNICODE_MINUS)) == 0) {
		negative = true;
		sign = strlen(UNICODE_MINUS);
	}
	*value = NAN;
	size_t mantissa = mantissa_length(s + sign, decimal);
	if (mantissa == 0)
		return 0;
	size_t length = mantissa + exponent_length(s + sign + mantissa);
	if (length > LONGEST)
		return 0;
	char plain[LONGEST + 1];
	memcpy(plain, s + sign, length);
	plain[length] = '\0';
	char *mark = memchr(plain, decimal, mantissa);
	if (mark != NULL)
		*mark = '.';
	double parsed = strtod(plain, NULL);
	if (!isfinite(parsed))
		return 0;
	*value = negative ? -parsed : parsed;
	return sign + length;
}

static size_t blanks(const char *s)
{
	size_t n = 0;
	for (;;) {
		if (s[n] == ' ' || (s[n] >= '\t' && s[n] <= '\r'))
			n++;
		else if (strncmp(s + n, NO_BREAK_SPACE, strlen(NO_BREAK_SPACE)) == 0)
			n += strlen(NO_BREAK_SPACE);
		else
			return n;
	}
}

bool bc_number_parse(const char *s, char decimal, double *value)
{
	s += blanks(s);
	size_t taken = bc_number_prefix(s, decimal, value);
	if (taken != 0 && s[taken + blanks(s + taken)] == '\0')
		return true;
	*value = NAN;
	return false;
}
