/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a reading may have been misread or miswritten: each usual slip is undone, and the one that
 * comes nearest to what the neighbours ask for is named. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "curve/finding_limits.h"
#include "curve/slip.h"

struct repair {
	double value_c;
	double cost_c; /* off what is expected, with a handicap for slips that fit nearly anything
			*/
	const char *how;
};

static void try_repair(struct repair *best, double value_c, double expected_c, double near_c,
	double handicap_c, const char *how)
{
	double off_c = fabs(value_c - expected_c);

	if (!(off_c <= near_c) || !(off_c + handicap_c < best->cost_c))
		return;
	*best = (struct repair){value_c, off_c + handicap_c, how};
}

/* Two neighbouring digits before the decimal point change places. */
static void try_swaps(struct repair *best, double read_c, double expected_c, double near_c)
{
	double whole = floor(read_c);
	char digits[16];

	if (!(whole >= 10.0 && whole < 1000.0))
		return;
	int n = snprintf(digits, sizeof digits, "%.0f", whole);
	for (int i = 0; i + 1 < n; i++) {
		char swapped[sizeof digits];
		memcpy(swapped, digits, sizeof digits);
		swapped[i] = digits[i + 1];
		swapped[i + 1] = digits[i];
		double value = 0.0;
		for (int k = 0; k < n; k++)
			value = 10.0 * value + (swapped[k] - '0');
		if (value != whole)
			try_repair(best, value + (read_c - whole), expected_c, near_c, 0.0,
				"with two digits swapped");
	}
}

void bc_slip_name(double read_c, double expected_c, double before_c, double after_c, double near_c,
	char text[BC_SLIP_NAME_SIZE])
{
	struct repair best = {NAN, INFINITY, NULL};
	double tens_near_c = fmin(near_c, BC_SLIP_TENS_NEAR_C);
	double tens_handicap_c = BC_SLIP_TENS_HANDICAP_C;

	try_swaps(&best, read_c, expected_c, near_c);
	try_repair(&best, (read_c - 32.0) / 1.8, expected_c, near_c, 0.0,
		"if it was read in degF, would fit: ");
	try_repair(&best, read_c * 1.8 + 32.0, expected_c, near_c, 0.0,
		"if degC stands among degF, would fit: ");
	for (int i = -2; i <= 2; i++)
		if (i != 0)
			try_repair(&best, read_c + 100.0 * i, expected_c, near_c, 0.0,
				"with the hundreds put right");
	try_repair(&best, read_c * 10.0, expected_c, near_c, 0.0, "with the point moved");
	try_repair(&best, read_c / 10.0, expected_c, near_c, 0.0, "with the point moved");
	for (int i = -9; i <= 9; i++)
		if (i != 0)
			try_repair(&best, read_c + 10.0 * i, expected_c, tens_near_c,
				tens_handicap_c * (i == 1 || i == -1 ? 1.0 : 1.5),
				"with the tens put right");
	bool copied = read_c == before_c || read_c == after_c;
	if (copied)
		snprintf(text, BC_SLIP_NAME_SIZE,
			"the line beside it may stand there twice; about %.0f C would fit",
			expected_c);
	else if (!best.how)
		snprintf(text, BC_SLIP_NAME_SIZE, "about %.0f C would fit", expected_c);
	else if (strstr(best.how, "would fit"))
		snprintf(text, BC_SLIP_NAME_SIZE, "%s%.1f C", best.how, best.value_c);
	else
		snprintf(text, BC_SLIP_NAME_SIZE, "%.1f C, %s, would fit", best.value_c, best.how);
}
