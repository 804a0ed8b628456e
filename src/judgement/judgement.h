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
#include "fuel/oil_model.h"
#include "fuel/properties.h"
#include "fuel/shares.h"
#include "judgement/spread.h"
#include "sample/sample.h"
#include "still/inversion.h"
#include "still/split.h"
#include "still/still.h"
#include "verdict/grade.h"
#include "verdict/hazard.h"
#include "verdict/limits.h"
#include "verdict/rule.h"

struct bc_learning;
struct bc_pool;

/* What own closed cups did to the flash estimate; pairs 0: nothing. */
struct bc_flash_offset {
	size_t pairs;
	double offset_c;
	double half_width_c; /* of the moved estimate, 95 %, without readings and density */
};

struct bc_judge_options {
	const struct bc_limits *limits;
	enum bc_grade_name want;           /* BC_GRADES: none */
	const char *standard;              /* NULL: none */
	const struct bc_still *still;      /* for the re-run; NULL: bc_still_default() */
	const struct bc_still *apparatus;  /* the still that the sample's apparatus names; NULL: not
					      known */
	const struct bc_learning *learned; /* own cups: judgement/learning.h; NULL: none */
	bool keep_all; /* readings that do not belong stay in the fit; they are named all the same
			*/
	const struct bc_pool *pool; /* the sample is the mean of these runs; NULL: one run */
	size_t draws;               /* for the bounds; 0: by derivatives */
	unsigned long seed;         /* of the draws */
};

/* "the default still: 1 plate + pot, reflux 1, carry-over 1 %" */
#define BC_STILL_WORDS_SIZE (BC_STILL_NAME_MAX + 96)

/* One sample, taken through all rooms. */
struct bc_judgement {
	const struct bc_sample *sample; /* must outlive the judgement */
	const struct bc_pool *pool;     /* of the options; NULL: one run */
	struct bc_strings assumed;
	struct bc_conditions conditions;
	struct bc_boiloff boiloff;
	struct bc_curve *curve;
	struct bc_fits fits;
	struct bc_reader reader; /* points into this struct: a judgement is never copied */
	struct bc_points points;
	struct bc_oil oil;
	struct bc_flash_offset learned;
	/* the oil that reads like this in the flask, or in the still that apparatus names; NULL
	 * where there is none */
	struct bc_inversion *inversion;
	bool by_inversion;  /* the oil is made of it: apparatus is a known still. Then: */
	bool still_guessed; /* ... of which too little is known for more than undecided */
	bool flash_held;    /* the flash bound is that of the still at its least plates */
	struct bc_oil_input inverted_input;
	struct bc_points
		flask_points; /* what the flask would show, which limits are held against */
	struct bc_shares shares;
	struct bc_spread *spread; /* NULL: no draws */
	struct bc_hazards hazards;
	struct bc_findings findings;
	struct bc_grades grades;
	bool has_rerun;
	struct bc_cut rerun;   /* the largest on the still; standard is NULL where it has none */
	struct bc_cut perfect; /* the same standard cut perfectly, or where the still has no cut the
				  best that any has; standard is NULL where there is none */
	char still_words[BC_STILL_WORDS_SIZE]; /* the still that the re-run is meant for */
	double rerun_pot_limit_c;              /* true; at it the heat goes off */
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
