/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cut that a judgement suggests: on the person's still, and beside it the perfect one. */
#include <math.h>

#include "curve/cracking.h"
#include "judgement/rerun.h"

/* The nearest grade's own cut is taken where it has this share of the largest one. */
#define NEARLY 0.8
#define LEAST_LEFT_FRAC 0.02 /* where no residue was measured; common practice */

/* What comes over below the head limit, or on the still where that goes further; the rest stays in
 * the pot. */
static double perfect_ceiling(const struct bc_judgement *judgement, const struct bc_rerun *rerun)
{
	const struct bc_boiloff *boiloff = &judgement->boiloff;
	double head = bc_split_head_frac(&judgement->oil.slices, BC_HEAD_LIMIT_C);
	double over = boiloff->end_pct / 100.0;

	if (!boiloff->residue_known)
		over = fmin(over, 1.0 - LEAST_LEFT_FRAC);
	return fmin(over, fmax(head, rerun->still.ceiling_frac));
}

/* The grade that is near without being asked for; NULL: none that is cut for. */
static const struct bc_grade *near_grade(
	const struct bc_judgement *judgement, const struct bc_judge_options *options)
{
	const struct bc_grade *nearest;

	if (options->want != BC_GRADES || options->standard)
		return NULL;
	nearest = bc_grade_nearest(&judgement->grades, BC_GRADES, NULL);
	return nearest && nearest->name != BC_GRADE_GASOLINE ? nearest : NULL;
}

static enum bc_status find_on_still(const struct bc_rerun *rerun,
	const struct bc_judge_options *options, struct bc_judgement *judgement)
{
	struct bc_cut *cut = &judgement->rerun;
	const struct bc_grade *near = near_grade(judgement, options);
	struct bc_cut own;
	enum bc_status status =
		bc_tap_best(&rerun->still, options->limits, options->want, options->standard, cut);

	if (bc_failed(status))
		return status;
	if (near &&
		!bc_failed(bc_tap_best(
			&rerun->still, options->limits, BC_GRADES, near->standard, &own)) &&
		own.product_pct >= NEARLY * cut->product_pct)
		*cut = own;
	cut->basis = judgement->still_words;
	bc_rerun_place_turns(rerun, cut);
	return BC_OK;
}

/* For the standard that the still meets; else for any that is asked for. */
static void find_perfect(const struct bc_rerun *rerun, const struct bc_judge_options *options,
	struct bc_judgement *judgement)
{
	const struct bc_charge charge = {&judgement->oil.slices, &rerun->parent,
		&judgement->conditions, perfect_ceiling(judgement, rerun), &judgement->grades,
		rerun->still.floor_frac};

	if (!judgement->rerun.standard)
		bc_split_best(&charge, options->limits, options->want, options->standard,
			&judgement->perfect);
	else if (!bc_failed(bc_split_find(
			 &charge, options->limits, judgement->rerun.standard, &judgement->perfect)))
		/* of the oil to its last drop; the still looks no further than its limit */
		judgement->rerun.heavy_end = judgement->perfect.heavy_end;
	if (judgement->perfect.standard &&
		judgement->perfect.product_pct < judgement->rerun.product_pct)
		judgement->perfect.basis = BC_SPLIT_PLAIN;
}

enum bc_status bc_rerun_find(struct bc_judgement *judgement, const struct bc_judge_options *options)
{
	const struct bc_still usual = bc_still_default();
	const struct bc_still *still = options->still ? options->still : &usual;
	const struct bc_rerun_request request = bc_rerun_request_default(still);
	struct bc_rerun rerun;
	enum bc_status status = bc_rerun_start(judgement, &request, &rerun);

	bc_rerun_still_words(still, judgement->still_words, sizeof judgement->still_words);
	judgement->rerun_pot_limit_c = rerun.pot_limit_c;
	if (!bc_failed(status))
		status = find_on_still(&rerun, options, judgement);
	if (status != BC_NO_MEMORY)
		find_perfect(&rerun, options, judgement);
	bc_rerun_release(&rerun);
	return status == BC_NOT_FOUND ? BC_OK : status;
}

void bc_rerun_bear(const struct bc_judgement *judgement, struct bc_bearing *bearing)
{
	const double spill_pct = 0.5; /* of a 100 mL charge in a measuring cylinder */
	const struct bc_cut *cut = &judgement->rerun;
	double stays_pct = judgement->boiloff.residue_pct + judgement->boiloff.loss_pct;

	if (!cut->standard) {
		bearing->better_standard = judgement->perfect.standard;
		bearing->better_pct = judgement->perfect.product_pct;
		return;
	}
	bearing->cut_light = cut->light_until_frac > 0.0;
	/* what never comes over is no tail: a tail is more than that, or what the oil fails by */
	bearing->cut_tail = cut->heavy_end || cut->tail_pct > stays_pct + spill_pct;
	bearing->cut_exists = bearing->cut_light || bearing->cut_tail;
	bearing->product_pct = cut->product_pct;
}
