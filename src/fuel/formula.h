/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_FORMULA_H
#define BC_FUEL_FORMULA_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"

#define BC_FORMULA_INPUTS_MAX 16

enum bc_trust { BC_TRUST_PRINTED, BC_TRUST_SEEN, BC_TRUST_MEMORY };

struct bc_formula_input {
	const char *name; /* with its unit: "t10_c" */
	const char *unit;
	double min; /* stated range; NaN where the source states none */
	double max;
};

/* A published formula as the check files and the command line know it. */
struct bc_formula {
	const char *id; /* "flash.t10_api" */
	const char *unit;
	const char *source;
	const char *equation; /* where in the source: "eq. (3.114)", "clause 11"; "" if not known */
	enum bc_trust trust;
	const char *accuracy; /* what is claimed for it, or what was found here */
	size_t n_inputs;
	struct bc_formula_input inputs[BC_FORMULA_INPUTS_MAX];
	enum bc_status (*eval)(const double *input, double *result);
};

/* All of them, those of curve/formula.def first, then those of fuel/. */
extern const struct bc_formula bc_formulae[];
extern const size_t bc_formula_count;
/* The formula so called, or NULL. */
const struct bc_formula *bc_formula_find(const char *id);
const char *bc_trust_text(enum bc_trust trust); /* "printed", "seen", "from memory" */

/* How many values of tests/outside/ hold a formula (standards-notes/formula-checks.csv). */
struct bc_formula_checks {
	unsigned printed;      /* seen in a public copy of a print, met to half the last digit */
	unsigned near_print;   /* ... met within a wider width, which the block states */
	unsigned independent;  /* remembered print, certified, measured, or by another way */
	unsigned same_formula; /* computed with the same formula: proves the code only */
};

/* The counts of one formula; false when there are none, and all are zero. */
bool bc_formula_checks_of(const char *id, struct bc_formula_checks *checks);
/* No value but those computed with the same formula: a report footnotes it. */
bool bc_formula_unchecked(const char *id);

/* An input that a formula answers at some values only: a table's rows. */
struct bc_formula_points {
	const char *id;
	const char *input;
	const char *values; /* parted by blanks, rising */
};

/* Those of a formula, or NULL: it answers between them too. */
const struct bc_formula_points *bc_formula_points_of(const char *id);

#endif
