/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The end of a run at which the head no longer rises: the oil decomposes, or too little vapour
 * comes.
 */
#include "curve/stall.h"

#include <math.h>

#include "base/memory.h"
#include "base/stats.h"
#include "curve/finding_limits.h"

enum { STEPS_MIN = 5, LAST_STEPS = 2 };

struct steps {
	const struct bc_point *last[LAST_STEPS + 1]; /* the latest reading first */
	double *slopes;                              /* degC/%, of each step */
	size_t n;
};

static void take_steps(const struct bc_boiloff *boiloff, struct steps *steps)
{
	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		if (!point->used || point->slip || point->kind != BC_READING_AMOUNT)
			continue;
		const struct bc_point *before = steps->last[0];
		if (before)
			steps->slopes[steps->n++] = (point->corrected_c - before->corrected_c) /
						    (point->recovered_pct - before->recovered_pct);
		for (size_t k = LAST_STEPS; k > 0; k--)
			steps->last[k] = steps->last[k - 1];
		steps->last[0] = point;
	}
}

static bool creeps(const struct bc_boiloff *boiloff, struct steps *steps)
{
	if (steps->n < STEPS_MIN)
		return false;
	const struct bc_point *end = steps->last[0];
	double slowest = fmax(steps->slopes[steps->n - 1], steps->slopes[steps->n - 2]);
	double usual = bc_median(steps->slopes, steps->n - LAST_STEPS);

	return slowest <= BC_STALL_SHARE * usual && end->recovered_pct >= BC_STALL_FROM_PCT &&
	       end->corrected_c >= BC_STALL_FROM_C &&
	       !(boiloff->fbp_c > end->corrected_c + BC_STALL_FBP_C);
}

void bc_find_stall(const struct bc_boiloff *boiloff, struct bc_findings *findings)
{
	struct steps steps = {.slopes = bc_alloc_array(boiloff->n + 1, sizeof(double))};

	if (!steps.slopes) {
		findings->failed = true;
		return;
	}
	take_steps(boiloff, &steps);
	bool said = bc_findings_has(findings, "cracking") ||
		    bc_findings_has(findings, "temperature-falls");
	if (!said && creeps(boiloff, &steps))
		bc_findings_say(findings, "temperature-stalls", BC_FINDING_WARNING,
			steps.last[LAST_STEPS]->recovered_pct,
			"Stop the boil-off there next time: fumes, or a head that no longer rises "
			"while the heat is on, mean that the oil decomposes. Report no end point.",
			"the head hardly rises any more, %.1f C at %.1f %% and %.1f C at %.1f %%, "
			"where it should rise faster",
			steps.last[LAST_STEPS]->observed_c, steps.last[LAST_STEPS]->recovered_pct,
			steps.last[0]->observed_c, steps.last[0]->recovered_pct);
	bc_free(steps.slopes);
}
