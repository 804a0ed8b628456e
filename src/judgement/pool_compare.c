/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The runs side by side: which one does not belong, how far the others spread, what is left of the
 * doubt in their mean. */
#include <math.h>
#include <stdio.h>

#include "base/stats.h"
#include "base/text.h"
#include "curve/precision_forms.h"
#include "judgement/pool_parts.h"

/* Twice the distance that chance allows is evidence by itself; judgement. */
#define FAR_RATIO 2.0
#define GRUBBS_ALPHA 0.05 /* as ISO 5725-2 calls a straggler; from memory */
/* Of so many runs two may be left out, else one; judgement. */
#define TWO_MAY_GO 6

static const char *file_of(const struct bc_pool_run *run)
{
	return run->sample->file ? run->sample->file : "a run";
}

/* Mean, standard deviation and range of the kept runs at a percent, but for one (n: for none). */
struct heap {
	size_t n;
	double mean_c;
	double sd_c;
	double range_c;
	double random_c;    /* mean over the runs */
	double published_c; /* the same of the published repeatability */
};

static struct heap heap_of(const struct bc_pool *pool, size_t point, size_t but_for)
{
	struct heap heap = {0, 0.0, NAN, 0.0, 0.0, 0.0};
	double low = INFINITY;
	double high = -INFINITY;
	double square = 0.0;

	for (size_t i = 0; i < pool->n; i++) {
		double at_c = bc_pool_run_kept_c(&pool->runs[i], point);
		if (i == but_for || isnan(at_c))
			continue;
		heap.n++;
		heap.mean_c += at_c;
		heap.random_c += pool->runs[i].random_c[point];
		heap.published_c += pool->runs[i].published_r_c[point];
		low = fmin(low, at_c);
		high = fmax(high, at_c);
	}
	if (heap.n == 0) {
		heap.mean_c = NAN;
		return heap;
	}
	double n = (double)heap.n;
	heap.mean_c /= n;
	heap.random_c /= n;
	heap.published_c /= n;
	heap.range_c = high - low;
	for (size_t i = 0; i < pool->n; i++) {
		double at_c = bc_pool_run_kept_c(&pool->runs[i], point);
		if (i != but_for && !isnan(at_c))
			square += (at_c - heap.mean_c) * (at_c - heap.mean_c);
	}
	if (heap.n > 1)
		heap.sd_c = sqrt(square / (n - 1.0));
	return heap;
}

/* What two runs of this rig may differ by in 95 % of cases. */
static double rig_r_c(const struct heap *heap) { return sqrt(2.0) * heap->random_c; }

/* Root mean square over the percents of range by critical range. */
static double range_ratio(const struct bc_pool *pool, size_t but_for)
{
	double square = 0.0;
	size_t n = 0;

	for (size_t k = 0; k < BC_POINTS; k++) {
		struct heap heap = heap_of(pool, k, but_for);
		double critical_c;
		if (heap.n < 2 ||
			bc_failed(bc_critical_range(rig_r_c(&heap), (double)heap.n, &critical_c)))
			continue;
		square += (heap.range_c / critical_c) * (heap.range_c / critical_c);
		n++;
	}
	return n > 0 ? sqrt(square / (double)n) : 0.0;
}

/* A run against the mean of the other kept ones. */
static void measure_distance(const struct bc_pool *pool, size_t i, struct bc_pool_run *run)
{
	double square = 0.0;
	double sum_c = 0.0;
	size_t n = 0;
	size_t n_middle = 0;

	run->difference_max_c = 0.0;
	run->difference_max_pct = NAN;
	for (size_t k = 0; k < BC_POINTS; k++) {
		struct heap others = heap_of(pool, k, i);
		double apart_c = run->at_c[k] - others.mean_c;
		double limit_c;
		if (isnan(apart_c))
			continue;
		if (!(fabs(apart_c) <= fabs(run->difference_max_c))) {
			run->difference_max_c = apart_c;
			run->difference_max_pct = bc_point_pct[k];
		}
		if (k >= BC_AT_T10 && k <= BC_AT_T90) {
			sum_c += apart_c;
			n_middle++;
		}
		double r_c = sqrt(2.0) * run->random_c[k];
		if (others.n < 2 ||
			bc_failed(bc_iso4259_outlier(r_c, (double)others.n + 1.0, &limit_c)))
			continue;
		square += (apart_c / limit_c) * (apart_c / limit_c);
		n++;
	}
	run->shift_c = n_middle > 0 ? sum_c / (double)n_middle : (double)NAN;
	run->ratio = n > 0 ? sqrt(square / (double)n) : (double)NAN;
}

/* Mean temperature from 10 to 90 %; NaN where a point was not read. */
static double middle_c(const struct bc_pool_run *run)
{
	double sum_c = 0.0;
	for (size_t k = BC_AT_T10; k <= BC_AT_T90; k++)
		sum_c += run->at_c[k];
	return sum_c / (double)(BC_AT_T90 - BC_AT_T10 + 1);
}

static void test_by_grubbs(struct bc_pool *pool)
{
	double sum = 0.0;
	double square = 0.0;
	double n = (double)pool->n_kept;
	double critical;

	if (bc_failed(bc_grubbs_critical(n, GRUBBS_ALPHA, &critical)))
		return;
	for (size_t i = 0; i < pool->n; i++)
		if (pool->runs[i].belonging != BC_RUN_LEFT_OUT)
			sum += middle_c(&pool->runs[i]);
	double mean = sum / n;
	for (size_t i = 0; i < pool->n; i++) {
		double apart = middle_c(&pool->runs[i]) - mean;
		if (pool->runs[i].belonging != BC_RUN_LEFT_OUT)
			square += apart * apart;
	}
	double sd = sqrt(square / (n - 1.0));
	for (size_t i = 0; i < pool->n; i++) {
		struct bc_pool_run *run = &pool->runs[i];
		if (run->belonging == BC_RUN_LEFT_OUT)
			continue;
		run->grubbs = sd > 0.0 ? fabs(middle_c(run) - mean) / sd : 0.0;
		run->grubbs_critical = critical;
	}
}

/* A light end that only this run has may have left the jar before the others. */
static bool lower_in_front(const struct bc_pool *pool, size_t i)
{
	for (size_t k = BC_AT_IBP; k <= BC_AT_T10; k++) {
		struct heap others = heap_of(pool, k, i);
		const struct bc_pool_run *run = &pool->runs[i];
		if (others.mean_c - run->at_c[k] > sqrt(2.0) * run->random_c[k])
			return true;
	}
	return false;
}

static void say_left_out(struct bc_pool *pool, size_t i, bool kept)
{
	const struct bc_pool_run *run = &pool->runs[i];
	bool front = lower_in_front(pool, i);

	bc_findings_say(&pool->findings, kept ? "run-kept" : "run-left-out", BC_FINDING_WARNING,
		run->difference_max_pct,
		front ? "It began to boil lower than the others, so the flash point may be lower "
			"than that of the pool: the light end may have left the jar between the "
			"runs, or the bulb was out of its place. Boil off a fresh sample."
		      : "Check that it was the same jar, the same charge and the same heat; "
			"'--keep-all' keeps it.",
		"%s does not belong with the other runs: %.1f degC %s in the mean, %.1f %s at %.4g "
		"%%; %s",
		file_of(run), fabs(run->shift_c), run->shift_c > 0.0 ? "higher" : "lower",
		fabs(run->difference_max_c), run->difference_max_c > 0.0 ? "higher" : "lower",
		run->difference_max_pct,
		kept ? "kept, as was wished" : "it is left out of the pool");
	if (front)
		bc_findings_forbid(&pool->findings, true, false);
}

static void say_apart(struct bc_pool *pool, const struct bc_pool_run *run)
{
	bc_findings_say(&pool->findings, "run-stands-apart", BC_FINDING_NOTE,
		run->difference_max_pct, "One more run would tell whether it belongs.",
		"%s stands apart from the other runs: %.1f degC %s in the mean; too weak to leave "
		"it out",
		file_of(run), fabs(run->shift_c), run->shift_c > 0.0 ? "higher" : "lower");
}

/* The farthest run; true when it was left out and the rest should be looked at again. */
static bool look_for_stranger(struct bc_pool *pool, bool keep_all)
{
	size_t far = pool->n;

	for (size_t i = 0; i < pool->n; i++) {
		struct bc_pool_run *run = &pool->runs[i];
		if (run->belonging != BC_RUN_BELONGS)
			continue;
		measure_distance(pool, i, run);
		if (far == pool->n || run->ratio > pool->runs[far].ratio)
			far = i;
	}
	if (pool->n_kept < 3 || far == pool->n)
		return false;
	test_by_grubbs(pool);
	struct bc_pool_run *run = &pool->runs[far];
	if (!(run->ratio > 1.0))
		return false;
	bool sure = range_ratio(pool, far) <= 1.0 &&
		    (run->ratio > FAR_RATIO || run->grubbs > run->grubbs_critical);
	if (sure)
		say_left_out(pool, far, keep_all);
	else
		say_apart(pool, run);
	run->belonging = sure && !keep_all ? BC_RUN_LEFT_OUT : BC_RUN_STANDS_APART;
	if (run->belonging != BC_RUN_LEFT_OUT)
		return false;
	pool->n_kept--;
	return true;
}

/* How much wider than assumed the runs spread over the whole curve, at least 1: many percents tell
 * more of it than the few runs at one. */
static double widening(const struct bc_pool *pool)
{
	double square = 0.0;
	size_t n = 0;

	for (size_t k = 0; k < BC_POINTS; k++) {
		struct heap heap = heap_of(pool, k, pool->n);
		double sigma_c = heap.random_c / BC_Z95;
		if (heap.n < 2)
			continue;
		square += (heap.sd_c / sigma_c) * (heap.sd_c / sigma_c);
		n++;
	}
	return n > 0 ? sqrt(fmax(square / (double)n, 1.0)) : 1.0;
}

/* Where the runs do not repeat, the half-width holds every run with its own error. */
static double half_width_of(const struct bc_pool *pool, size_t point, const struct heap *heap,
	const struct bc_pool_point *at, double wider)
{
	double half_c = bc_runs_half_width_c(wider * heap->random_c, heap->sd_c, heap->n);

	if (at->range_c <= at->rig_range_c)
		return half_c;
	for (size_t i = 0; i < pool->n; i++) {
		double at_c = bc_pool_run_kept_c(&pool->runs[i], point);
		if (!isnan(at_c))
			half_c = fmax(
				half_c, fabs(at_c - heap->mean_c) + pool->runs[i].random_c[point]);
	}
	return half_c;
}

static void settle_points(struct bc_pool *pool)
{
	struct bc_runs_spread *spread = &pool->spread;
	double wider = widening(pool);

	spread->runs = pool->n_kept;
	for (size_t k = 0; k < BC_POINTS; k++) {
		struct heap heap = heap_of(pool, k, pool->n);
		struct bc_pool_point *at = &pool->points[k];
		*at = (struct bc_pool_point){heap.n, heap.mean_c, heap.sd_c, NAN, NAN, NAN, NAN};
		if (heap.n == 1)
			at->half_width_c = heap.random_c;
		if (heap.n >= 2) {
			at->range_c = heap.range_c;
			bc_critical_range(heap.published_c, (double)heap.n, &at->published_range_c);
			bc_critical_range(rig_r_c(&heap), (double)heap.n, &at->rig_range_c);
			at->half_width_c = half_width_of(pool, k, &heap, at, wider);
			pool->compared++;
			pool->within_published += at->range_c <= at->published_range_c;
			if (k <= BC_AT_T10 && !(at->range_c <= at->rig_range_c))
				pool->front_differs = true;
		}
		if (heap.n == 0)
			continue;
		spread->pct[spread->n] = bc_point_pct[k];
		spread->half_width_c[spread->n++] = at->half_width_c;
	}
	pool->agree_ratio = range_ratio(pool, pool->n);
	pool->agree = pool->agree_ratio <= 1.0;
}

static void say_disagreement(struct bc_pool *pool)
{
	size_t worst = 0;

	for (size_t k = 0; k < BC_POINTS; k++) {
		const struct bc_pool_point *at = &pool->points[k];
		const struct bc_pool_point *than = &pool->points[worst];
		if (at->n >= 2 &&
			!(at->range_c / at->rig_range_c <= than->range_c / than->rig_range_c))
			worst = k;
	}
	const struct bc_pool_point *at = &pool->points[worst];
	char place[16];
	snprintf(place, sizeof place, "%.0f %%", bc_point_pct[worst]);
	bc_findings_say(&pool->findings, "runs-disagree", BC_FINDING_WARNING, bc_point_pct[worst],
		pool->n_kept == 2
			? "Two runs cannot tell which is right: shake the jar, check ice and steam "
			  "points and the barometer, and run it a third time. Until then the "
			  "bounds span both."
			: "Shake the jar, check ice and steam points and the barometer, keep the "
			  "heat the same, and run it again. Until then the bounds span them all.",
		"the %zu runs disagree: %.1f degC apart at %s, where %.1f is what chance allows",
		pool->n_kept, at->range_c,
		worst == BC_AT_IBP   ? "IBP"
		: worst == BC_AT_FBP ? "FBP"
				     : place,
		at->rig_range_c);
	bc_findings_forbid(&pool->findings, true, false);
}

/* Worst known of the kept: its widths stand for the pool. */
static size_t reference_of(const struct bc_pool *pool)
{
	const double somewhere_c = 200.0;
	size_t found = pool->n;
	double widest = 0.0;

	for (size_t i = 0; i < pool->n; i++) {
		const struct bc_conditions *conditions = &pool->runs[i].conditions;
		double width = bc_corrected_half_width_c(conditions, somewhere_c) +
			       bc_corrected_low_extra_c(conditions, somewhere_c) +
			       bc_corrected_high_extra_c(conditions, somewhere_c);
		if (pool->runs[i].belonging == BC_RUN_LEFT_OUT)
			continue;
		if (found == pool->n || width > widest) {
			found = i;
			widest = width;
		}
	}
	return found;
}

static bool same_text(const char *a, const char *b)
{
	return a == b || (a && b && bc_text_equal_nocase(a, b));
}

/* A better column boils the same oil off over a wider range. */
static bool same_apparatus(const struct bc_sample *a, const struct bc_sample *b)
{
	if (a->apparatus != b->apparatus)
		return false;
	if (a->apparatus == BC_APPARATUS_COLUMN)
		return a->column_stages == b->column_stages && a->column_reflux == b->column_reflux;
	return a->apparatus != BC_APPARATUS_STILL ||
	       same_text(a->apparatus_still, b->apparatus_still);
}

/* A true boiling point curve is another test: its runs are held against its like alone. */
static void part_by_apparatus(struct bc_pool *pool)
{
	for (size_t i = 1; i < pool->n; i++) {
		struct bc_pool_run *run = &pool->runs[i];
		if (same_apparatus(run->sample, pool->runs[0].sample))
			continue;
		run->belonging = BC_RUN_LEFT_OUT;
		pool->n_kept--;
		bc_findings_say(&pool->findings, "run-left-out", BC_FINDING_WARNING, NAN,
			"Judge it by itself.",
			"%s was boiled off in another apparatus than %s: it is left out of the "
			"pool",
			file_of(run), file_of(&pool->runs[0]));
	}
}

void bc_pool_compare(struct bc_pool *pool, bool keep_all)
{
	pool->n_kept = pool->n;
	part_by_apparatus(pool);
	size_t may_go = pool->n >= TWO_MAY_GO ? 2 : 1;
	for (size_t gone = 0; look_for_stranger(pool, keep_all) && gone + 1 < may_go; gone++) {
	}
	for (size_t i = 0; i < pool->n; i++)
		if (pool->runs[i].belonging != BC_RUN_STANDS_APART)
			measure_distance(pool, i, &pool->runs[i]);
	settle_points(pool);
	if (!pool->agree)
		say_disagreement(pool);
	pool->reference = reference_of(pool);
}
