/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_VERDICT_GRADE_H
#define BC_VERDICT_GRADE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/estimate.h"
#include "base/status.h"
#include "base/strings.h"
#include "curve/points.h"
#include "fuel/properties.h"
#include "sample/sample.h"
#include "verdict/limits.h"

enum bc_state { BC_STATE_WITHIN, BC_STATE_DOUBTFUL, BC_STATE_OUTSIDE, BC_STATE_NOT_MEASURED };
const char *bc_state_text(enum bc_state state); /* "within", ... "not measured" */

/* Whether a bare value keeps a limit, strictness respected. */
bool bc_limit_met(const struct bc_limit *limit, double value);

/* Oils poured together: a property that was measured in some of them only, or that does not add up.
 */
struct bc_part_figure {
	const char *property;
	bool adds_up; /* low: what all of it holds at least. Else low and high of the parts */
	double low;   /* in the unit of bc_measured */
	double high;
};

/* What is known of an oil, or of a product that exists only on paper. */
struct bc_evidence {
	const struct bc_points *points;
	const struct bc_reader *reader; /* NULL for a predicted product */
	const struct bc_oil *oil;
	const struct bc_boiloff *boiloff; /* NULL for a predicted product */
	const struct bc_sample *sample;   /* measured properties; NULL for a predicted product */
	/* A standard with judged=no is held against the oil only where one of these names it: */
	const char *asked_standard; /* by its name; NULL: none */
	const char *asked_grade;    /* by the text of its grade, "gasoline-range"; NULL: none */
	/* Of a mixture: what adds up is outside where the least breaks a limit; what does not is
	 * doubtful where one part does. Else neither tells anything. */
	const struct bc_part_figure *part_figures;
	size_t n_part_figures;
};

struct bc_criterion {
	const struct bc_limit *limit;
	struct bc_estimate value;
	enum bc_state state;
	double chance_within; /* 0..1; NaN when not measured */
	/* Counts against the grade although it reads "not measured": a flash without claim whose
	 * high bound is below the limit. */
	bool hopeless;
	bool of_part; /* value is that of a part of a mixture, which breaks the limit */
};

/* One standard of one grade, held against the evidence. */
struct bc_grade {
	enum bc_grade_name name;
	const char *standard;
	const char *edition;
	const char *scope;        /* NULL, or why it never enters a verdict */
	enum bc_state state;      /* with a scope at best doubtful */
	double chance_all_within; /* jointly over the draws; without any, the product over the
				     criteria that count, taken as independent */
	bool from_memory;         /* a deciding limit was not seen in print */
	struct bc_criterion *criteria;
	size_t n_criteria;
	/* What no boil-off can tell, with limit and method: first the scope where there is one,
	 * then n_own_tests that the standard itself limits, then what is asked of any fuel. */
	struct bc_strings not_measured;
	size_t n_own_tests;
	/* Measured, but the standard sets no limit: "chlorine 2000 mg/kg". */
	struct bc_strings measured_unlimited;
	/* A measured figure is outside that no cut mends, such as sulphur. */
	const struct bc_criterion *unmendable;
	size_t outside; /* criteria that count, by state; hopeless ones count as outside */
	/* Customs lines that do not count and are missed: an oil that boils away below 250 degC is
	 * no near gas oil. */
	size_t lines_missed;
	size_t doubtful;
	size_t unmeasured;
};

struct bc_grades {
	struct bc_grade *items; /* in table order */
	size_t n;
};

/* Holds every standard in force that is judged, or asked for, against the evidence. limits must
 * outlive grades. */
enum bc_status bc_grades_assess(const struct bc_limits *limits, const struct bc_evidence *evidence,
	struct bc_grades *grades);
/* States, counts and the grade's own state anew, after value and chance_within of criteria that
 * were judged have been changed; chance_all_within: by whatever joint reckoning the caller has. */
void bc_grade_settle(struct bc_grade *grade, double chance_all_within);
void bc_grades_release(struct bc_grades *grades);

/* One standard only (the n-th of the table's standards as bc_grades_assess orders them), without
 * strings: for cut searches. The caller passes room for the criteria. */
enum bc_status bc_standard_assess(const struct bc_limits *limits, const char *standard,
	const struct bc_evidence *evidence, struct bc_grade *grade, struct bc_criterion *room,
	size_t room_n);

/* Whether density lies, with 95 %, below a limit that keeps it out of road diesel: the one meaning
 * of "too light for road diesel". False for any other limit. */
bool bc_limit_too_light(const struct bc_limit *limit, const struct bc_estimate *density);

/* Densities [kg/m3] that fuels of a grade usually have: kerosene 750 to 840, diesel and heating oil
 * 780 to 900; far outside an oil is of another kind, such as aromatic. Common practice. False for a
 * grade without such a range. */
bool bc_grade_usual_density(enum bc_grade_name grade, double *min_kgm3, double *max_kgm3);

/* Value of a limit's property from the evidence; absent where nothing is known. */
struct bc_estimate bc_evidence_value(
	const struct bc_evidence *evidence, const char *property, const char *basis);

#endif
