/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long an oil has stood, which decides whether peroxides must be feared. */
#include "verdict/age.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

/* Peroxides of a cracked oil are feared after it; common practice. */
#define OLD_DAYS 92

/* The n digits at text, or -1. */
static long digits(const char *text, size_t n)
{
	long value = 0;
	for (size_t i = 0; i < n; i++) {
		if (text[i] < '0' || text[i] > '9')
			return -1;
		value = 10 * value + (text[i] - '0');
	}
	return value;
}

/* Days of the Gregorian calendar since 0000-03-01, years beginning in March. */
static bool day_number(const char *date, long *day)
{
	if (date == NULL || strlen(date) != strlen("2026-10-03") || date[4] != '-' ||
		date[7] != '-')
		return false;
	long year = digits(date, 4);
	long month = digits(date + 5, 2);
	long of_month = digits(date + 8, 2);
	if (year < 1 || month < 1 || month > 12 || of_month < 1 || of_month > 31)
		return false;
	if (month < 3)
		year--;
	long from_march = (month + 9) % 12;
	*day = 365 * year + year / 4 - year / 100 + year / 400 + (153 * from_march + 2) / 5 +
	       of_month - 1;
	return true;
}

static enum bc_age age_since(const char *since, const char *date)
{
	long from;
	long to;
	if (since == NULL)
		return BC_AGE_UNKNOWN;
	if (!day_number(since, &from) || !day_number(date, &to))
		return BC_AGE_OLD;
	return to - from > OLD_DAYS || to < from ? BC_AGE_OLD : BC_AGE_FRESH;
}

enum bc_age bc_age_of(const struct bc_sample *sample)
{
	enum bc_age stored = age_since(sample->stored_since, sample->date);
	enum bc_age drawn = age_since(sample->drawn, sample->date);
	return stored > drawn ? stored : drawn;
}

static long month_days(long year, long month)
{
	static const long days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
	bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
	return days[month - 1] + (month == 2 && leap);
}

const char *bc_retest_date(const struct bc_sample *sample, char retest[BC_DATE_SIZE])
{
	const long months = 3; /* peroxide, colour, sediment; common practice */
	long day;
	const char *from = day_number(sample->drawn, &day) ? sample->drawn : sample->date;
	retest[0] = '\0';
	if (!day_number(from, &day))
		return retest;
	long year = digits(from, 4);
	long month = digits(from + 5, 2) + months;
	long of_month = digits(from + 8, 2);
	if (month > 12) {
		year++;
		month -= 12;
	}
	if (of_month > month_days(year, month))
		of_month = month_days(year, month);
	if (year <= 9999)
		snprintf(retest, BC_DATE_SIZE, "%04u-%02u-%02u", (unsigned)year % 10000u,
			(unsigned)month % 100u, (unsigned)of_month % 100u);
	return retest;
}
