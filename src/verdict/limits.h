/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_VERDICT_LIMITS_H
#define BC_VERDICT_LIMITS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/diagnostic.h"
#include "base/status.h"

/* In the order from light to heavy; "ties go to the lightest". */
enum bc_grade_name {
	BC_GRADE_GASOLINE,
	BC_GRADE_WHITE_SPIRIT,
	BC_GRADE_KEROSENE,
	BC_GRADE_DIESEL,
	BC_GRADE_HEATING_OIL,
	BC_GRADE_MARINE,
	BC_GRADE_COMPARISON, /* customs lines and aviation: shown, never in a verdict */
	BC_GRADES
};
extern const char *const bc_grade_texts[BC_GRADES]; /* "gasoline-range", ... */

enum bc_limit_role {
	BC_ROLE_JUDGE,     /* counts */
	BC_ROLE_SAFETY,    /* counts, and is within only by its unfavourable bound */
	BC_ROLE_CUSTOMS,   /* a duty line inside a fuel standard: named so, never makes an oil unfit
			    */
	BC_ROLE_OTHER_TEST /* no boil-off can tell; judged only when measured */
};

enum bc_seen { BC_SEEN_TWICE, BC_SEEN_ONCE, BC_SEEN_MEMORY };

/* One row of standards-notes/limits.csv. */
struct bc_limit {
	enum bc_grade_name grade;
	char *standard; /* "EN 590" with class: "EN 590 temperate A-C" */
	char *edition;
	char *property; /* "flash_point", "T95", "recovered_at_250C", "density", ... */
	char *basis;    /* "recovered", "evaporated" or "" */
	double min;     /* NaN: open */
	double max;
	bool strict; /* the limit itself is outside */
	char *unit;
	char *method;
	enum bc_limit_role role;
	bool in_force; /* false: superseded, or the milder of disputed values */
	/* Whether the standard, all of it, is held against every oil. false: a season, climate or
	 * trade variant, judged only where its name or its grade is asked for. */
	bool judged;
	enum bc_seen seen;
	char *note;
};

struct bc_limits {
	struct bc_limit *items;
	size_t n;
};

/* The table from CSV text; name is for messages. BC_MALFORMED with an error in diagnostics. */
enum bc_status bc_limits_read(const char *text, size_t n, const char *name,
	struct bc_diagnostics *diagnostics, struct bc_limits **limits);
/* The embedded table standards-notes/limits.csv. */
enum bc_status bc_limits_default(struct bc_diagnostics *diagnostics, struct bc_limits **limits);
void bc_limits_free(struct bc_limits *limits);

/* Whether the program knows a property id: one of a fixed list, or T<NN>, E<NN>,
 * recovered_at_<NNN>C, evaporated_at_<NNN>C. */
bool bc_limit_property_known(const char *property);
/* Its plain name for people, cut off at size: "flash point", "95 % point", "recovered at 250 degC".
 */
void bc_limit_property_text(const char *property, char *text, size_t size);
/* The unit in which its limits are held; NULL for an unknown id. */
const char *bc_limit_property_unit(const char *property);
/* Whether a cut may mend it: cold flow, smoke and the like go with the boiling range; sulphur, ash,
 * acid and the like do not. Common practice. */
bool bc_limit_follows_boiling(const char *property);
/* The number in T95, E70, recovered_at_250C, evaporated_at_250C; NaN for other ids. */
double bc_limit_property_number(const char *property);

/* Customs lines of a fuel standard are shown; only the one at 350 degC, a heavy tail, counts
 * towards its grade. Comparison rows count among themselves. Other tests count once measured. */
bool bc_limit_counts(const struct bc_limit *limit, bool measured);

/* Scope said of a standard whose fuel this oil can never be (EN 15940), or NULL. Such a standard
 * is shown and never enters a verdict. */
const char *bc_standard_scope(const char *standard);

/* Whether a verdict or a cut may name a standard: no comparison, no scope, and what was asked for.
 * want is BC_GRADES for any grade, standard NULL for any. */
bool bc_standard_asked_for(
	enum bc_grade_name name, const char *of, enum bc_grade_name want, const char *standard);

/* Whether the i-th limit is the first in force of its standard. */
bool bc_limits_first_of_standard(const struct bc_limits *limits, size_t i);

#endif
