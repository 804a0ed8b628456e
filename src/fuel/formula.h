/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_FORMULA_H
#define BC_FUEL_FORMULA_H

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
	enum bc_trust trust;
	size_t n_inputs;
	struct bc_formula_input inputs[BC_FORMULA_INPUTS_MAX];
	enum bc_status (*eval)(const double *input, double *result);
};

/* All of them, those of curve/formula.def first, then those of fuel/formula.def. */
extern const struct bc_formula bc_formulae[];
extern const size_t bc_formula_count;
/* The formula so called, or NULL. */
const struct bc_formula *bc_formula_find(const char *id);
const char *bc_trust_text(enum bc_trust trust); /* "printed", "seen", "from memory" */

#endif
