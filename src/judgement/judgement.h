/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_JUDGEMENT_H
#define BC_JUDGEMENT_JUDGEMENT_H

#include <stdbool.h>

#include "base/status.h"
#include "base/strings.h"
#include "curve/boiloff.h"
#include "curve/conditions.h"
#include "curve/curve.h"
#include "curve/finding.h"
#include "curve/fit.h"
#include "curve/points.h"
#include "fuel/feed.h"
#include "fuel/properties.h"
#include "fuel/shares.h"
#include "judgement/spread.h"
#include "sample/sample.h"
#include "still/split.h"
#include "still/still.h"
#include "verdict/grade.h"
#include "verdict/hazard.h"
#include "verdict/limits.h"
#include "verdict/rule.h"

struct bc_judge_options {
	const struct bc_limits *limits;
	enum bc_grade_name want;          /* BC_GRADES: none */
	const char *standard;             /* NULL: none */
	const struct bc_still *still;     /* for the re-run; NULL: bc_still_default() */
	const struct bc_still *apparatus; /* the still that the sample's apparatus names; NULL: not
					     known */
	size_t draws;                     /* for the bounds; 0: by derivatives */
	unsigned long seed;               /* of the draws */
};

/* One sample, taken through all rooms. */
struct bc_judgement {
	const struct bc_sample *sample; /* must outlive the judgement */
	struct bc_strings assumed;
	struct bc_conditions conditions;
	struct bc_boiloff boiloff;
	struct bc_curve *curve;
	struct bc_fits fits;
	struct bc_reader reader; /* points into this struct: a judgement is never copied */
	struct bc_points points;
	struct bc_oil oil;
	struct bc_shares shares;
	struct bc_spread *spread; /* NULL: no draws */
	struct bc_hazards hazards;
	struct bc_findings findings;
	struct bc_grades grades;
	bool has_rerun;
	struct bc_cut rerun;
	struct bc_verdict verdict;
	struct bc_strings cautions;
	bool wanted_met; /* with want or standard: usable as that, or a cut does it */
};

/* Zeroes; release is safe on that and after a failure. */
void bc_judgement_init(struct bc_judgement *judgement);

/* Status: BC_OK; BC_TOO_FEW (fewer than 3 usable readings), BC_NO_MEMORY, BC_NO_CONVERGENCE. */
enum bc_status bc_judge(const struct bc_sample *sample, const struct bc_judge_options *options,
	struct bc_judgement *judgement);
void bc_judgement_release(struct bc_judgement *judgement);

#endif
