/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_VERDICT_RULE_H
#define BC_VERDICT_RULE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "base/strings.h"
#include "curve/finding.h"
#include "verdict/grade.h"

enum bc_word { BC_WORD_USABLE, BC_WORD_RERUN, BC_WORD_UNFIT, BC_WORD_UNDECIDED };
const char *bc_word_text(enum bc_word word); /* "usable", "re-run", "unfit", "undecided" */

struct bc_verdict {
	enum bc_word word;
	const struct bc_grade *grade; /* met or nearest; points into the grades */
	struct bc_strings because;    /* plain sentences, strongest first */
	struct bc_strings next;       /* what to measure next, or which way to re-run */
};

/* What stands outside the grades and bears on the word. */
struct bc_bearing {
	const struct bc_evidence *evidence;
	const struct bc_findings *findings;
	bool cut_exists;    /* some cut meets a grade */
	bool cut_light;     /* that cut takes off a light end */
	bool cut_tail;      /* ... leaves a tail */
	double product_pct; /* what that cut gives; 0: not known */
	const char *still;  /* that cuts: "the default still: ..."; NULL: none was looked at */
	bool cut_unknown;   /* the still could not be simulated */
	/* without a cut: what a perfect split would give, and of which standard; NULL: none */
	const char *better_standard;
	double better_pct;
	/* its product held against its standard; NULL: not known */
	const struct bc_grade *product;
	bool petrol_like;     /* the hazard warning stands: never usable */
	bool few_readings;    /* 3 or 4: at best undecided */
	bool rough_apparatus; /* a column or a named still, judged as a flask: at best undecided */
	bool guessed_still;   /* inverted by a still that was not calibrated: the same */
	bool tbp;             /* read in a better column, limits are the flask's: the same */
	enum bc_grade_name want; /* BC_GRADES: any */
	const char *standard;    /* NULL: any */
};

/* The standard with the fewest criteria outside, then doubtful, then unmeasured; ties to the
 * lightest, then to limits seen in print. Comparison rows and standards with a scope never; an oil
 * too light for road diesel by density is held against diesel only when want or standard ask. */
const struct bc_grade *bc_grade_nearest(
	const struct bc_grades *grades, enum bc_grade_name want, const char *standard);

/* Whether the cut that exists may be claimed: not of a wet oil, not against a finding, not on a
 * flash in dispute. */
bool bc_bearing_may_cut(const struct bc_bearing *bearing);

/* The word, with its reasons. `usable` needs every criterion within, a flash limit among them, and
 * nothing that forbids it; gasoline-range is at best undecided. */
enum bc_status bc_verdict_decide(const struct bc_grades *grades, const struct bc_bearing *bearing,
	struct bc_verdict *verdict);
void bc_verdict_release(struct bc_verdict *verdict);

#endif
