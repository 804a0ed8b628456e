/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_ESTIMATE_H
#define BC_BASE_ESTIMATE_H

#include <stdbool.h>

enum bc_how { BC_ABSENT, BC_MEASURED, BC_ESTIMATED, BC_ASSUMED, BC_NOT_VALID };

/* A figure with its 95 % bounds. An absent one has NaN in all three and how BC_ABSENT; low alone
 * may be NaN: then nothing is claimed on that side. */
struct bc_estimate {
	double value;
	double low;
	double high;
	enum bc_how how;
};

struct bc_estimate bc_estimate_absent(void);
/* Bounds at value -+ half_width; absent when value is NaN; NaN bounds when half_width is NaN. */
struct bc_estimate bc_estimate_new(double value, double half_width, enum bc_how how);
bool bc_estimate_present(const struct bc_estimate *estimate);

/* "measured", "estimated", "assumed", "not valid"; NULL for BC_ABSENT. */
const char *bc_how_text(enum bc_how how);

/*
 * Chance (0..1) that the true figure lies in [min, max], NaN limits being open, when each side of
 * the value is half a normal curve whose 95 % bound is low or high. NaN without a value; a NaN
 * bound takes the other side's width, and with both NaN the chance is NaN.
 */
double bc_estimate_chance_within(const struct bc_estimate *estimate, double min, double max);

#endif
