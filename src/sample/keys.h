/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_SAMPLE_KEYS_H
#define BC_SAMPLE_KEYS_H

#include <stddef.h>

#include "base/units.h"

/* What the value of a key looks like, and so how it is read and written. */
enum bc_key_kind {
	BC_KEY_TEXT,        /* words */
	BC_KEY_KEPT,        /* words that no room needs; kept with the sample */
	BC_KEY_NUMBER,      /* a number of one quantity */
	BC_KEY_HISTORY,     /* a word of bc_history_text */
	BC_KEY_THERMOMETER, /* words of bc_thermometer_text */
	BC_KEY_APPARATUS,   /* flask, column N R, tbp, or a still */
	BC_KEY_CHARGE,      /* a volume, or a mass */
	BC_KEY_SHARE,       /* a volume or percent of the charge, some also a mass */
	BC_KEY_DENSITY,     /* "0.794 g/mL @ 21 C" */
	BC_KEY_BAROMETER,   /* a pressure that names its unit */
	BC_KEY_OIL,         /* a volume or a mass that names its unit */
	BC_KEY_JAR_TO,      /* a temperature, of the head or "340 C pot" */
	BC_KEY_MEASURED,    /* a property measured elsewhere */
	BC_KEY_FLASH,       /* a temperature, "open cup" or "closed cup" */
	BC_KEY_COPPER       /* a rating such as 1a */
};

#define BC_KEY_NO_PLACE ((size_t)-1)
/* Room for every jar, pot and plant; only keeps slips of the pen finite. */
#define BC_KEY_NO_LIMIT 1e9

struct bc_key {
	const char *name;
	const char *aliases[3];
	enum bc_key_kind kind;
	enum bc_quantity quantity;
	const char *unit; /* in which it is written */
	double low;       /* what is accepted, both ends included, in the program's unit */
	double high;
	size_t place;         /* offset in struct bc_sample, or BC_KEY_NO_PLACE */
	size_t mass_place;    /* where a value in grams goes instead, or BC_KEY_NO_PLACE */
	const char *property; /* of struct bc_measured, or NULL */
	const char *hint;     /* in the blank sheet, or NULL */
};

/* In the order in which they are written. */
extern const struct bc_key bc_keys[];
extern const size_t bc_n_keys;
#define BC_KEYS_MAX 80

/* The key so called (case, blanks and a closing colon do not matter), or NULL. */
const struct bc_key *bc_key_find(const char *name);

/* The key name that name most resembles, or NULL. */
const char *bc_key_nearest(const char *name);

#endif
