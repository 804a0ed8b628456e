/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_STILL_STILL_H
#define BC_STILL_STILL_H

#include "sample/sample.h"
#include "still/column.h"

/* Where the figures of a still come from. */
enum bc_still_source {
	BC_STILL_STATED,     /* taken for granted, or stated by whoever runs it */
	BC_STILL_ESTIMATED,  /* from riser, packing and heater */
	BC_STILL_CALIBRATED, /* from what it made of an oil */
	BC_STILL_SOURCES
};
extern const char *const bc_still_source_texts[]; /* "stated", "estimated", "calibrated" */

/* A still that a re-run is planned on. carry: what the wet condenser and the lines hold when the
 * tap is turned, in percent of the charge; it lands in the next jar. */
#define BC_STILL_NAME_MAX 64
struct bc_still {
	char name[BC_STILL_NAME_MAX]; /* "" when it has none */
	struct bc_column column;      /* its pressure is not looked at: the request says */
	double carry_pct;             /* 0: nothing is carried over, and there is no spread */
	double carry_half_width_pct;  /* NaN: 0.5 to 2 times carry_pct */
	double plates_low;            /* effective plates, 95 %; NaN (or 0): not known */
	double plates_high;
	enum bc_still_source source;
	enum bc_thermometer thermometer; /* of its own; not stated: that of the sample */
};

/* 2 stages with reflux 1, carry 1 %, named "default". */
struct bc_still bc_still_default(void);

#endif
