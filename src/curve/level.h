/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_LEVEL_H
#define BC_CURVE_LEVEL_H

#include <stdbool.h>

#include "curve/boiloff.h"

/* A stretch of a boil-off on which the head hardly rises. */
struct bc_level {
	bool found;
	double from_pct;
	double to_pct;
	double from_c; /* observed */
	double to_c;
	double middle_c; /* D86 basis */
};

/* The widest level stretch among the readings in use; figures in curve/finding_limits.h. */
struct bc_level bc_level_seen(const struct bc_boiloff *boiloff);

#endif
