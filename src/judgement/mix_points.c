/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The curve that a flask would show of a mixture: where it may be believed, and where it ends. */
#include <math.h>

#include "base/units.h"
#include "judgement/mix_job.h"
#include "still/tap.h"

/* A point on slices that nobody read: as what a boil-off guesses there, and the way back from
 * slices; judgement [degC]. */
static const double unread_half_width_c = 20.0;
static const double unread_end_c = 40.0;

static bool is_unread(const struct bc_slices *slices, double pct)
{
	double over = 0.0;
	for (size_t i = 0; i < slices->n; i++) {
		over += slices->items[i].volume_frac;
		if (over >= pct / 100.0)
			return slices->items[i].extrapolated;
	}
	return true;
}

static void doubt(double half_width_c, struct bc_estimate *point)
{
	*point = bc_estimate_new(point->value, half_width_c, BC_NOT_VALID);
}

static double end_of_slices_c(const struct bc_slices *slices)
{
	return bc_corrected_from_true(bc_temp_c_from_k(bc_slices_temp_k(slices, BC_TAP_END_FRAC)));
}

/* Volume of an oil that boils above temp_k, 0..1. */
static double above_frac(const struct bc_slices *slices, double temp_k)
{
	double low = 0.0;
	double high = 1.0;
	while (high - low > 1e-6) {
		double middle = 0.5 * (low + high);
		if (bc_slices_temp_k(slices, middle) > temp_k)
			high = middle;
		else
			low = middle;
	}
	return 1.0 - high;
}

/* Each part's own end misses what was read by some degrees; the mixture's is moved by that, as far
 * as the part makes up what boils above 95 %. A part whose end was not read leaves it open. */
static void settle_end(const struct bc_mix_recipe *recipe, const struct bc_slices *slices,
	struct bc_points *points)
{
	const double little = 0.02; /* of the top; judgement */
	struct bc_estimate *end = &points->at[BC_AT_FBP];
	double top_k = bc_slices_temp_k(slices, 0.95);
	double weight[BC_BLEND_PARTS_MAX];
	double sum = 0.0;
	double moved_c = 0.0;
	bool open = false;
	for (size_t i = 0; i < recipe->n; i++) {
		weight[i] = recipe->volume[i] * above_frac(&recipe->oil[i]->oil.slices, top_k);
		sum += weight[i];
	}
	for (size_t i = 0; i < recipe->n && sum > 0.0; i++) {
		double read_c = recipe->oil[i]->boiloff.fbp_c;
		double share = weight[i] / sum;
		if (isnan(read_c))
			open = open || share > little;
		else
			moved_c += share * (read_c - end_of_slices_c(&recipe->oil[i]->oil.slices));
	}
	double half_width_c = end->high - end->value;
	*end = bc_estimate_new(fmax(end_of_slices_c(slices) + moved_c, points->at[BC_AT_T95].value),
		half_width_c, BC_ESTIMATED);
	if (open)
		doubt(unread_end_c, end);
}

void bc_mix_settle_points(const struct bc_mix_recipe *recipe, const struct bc_slices *slices,
	struct bc_points *points)
{
	settle_end(recipe, slices, points);
	if (slices->items[0].extrapolated)
		doubt(unread_end_c, &points->at[BC_AT_IBP]);
	for (size_t i = BC_AT_T5; i <= BC_AT_T95; i++)
		if (is_unread(slices, bc_point_pct[i]))
			doubt(unread_half_width_c, &points->at[i]);
}
