/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_POOLING_H
#define BC_JUDGEMENT_POOLING_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "base/strings.h"
#include "curve/boiloff.h"
#include "curve/conditions.h"
#include "curve/curve.h"
#include "curve/finding.h"
#include "curve/points.h"
#include "curve/repeat_forms.h"
#include "curve/runs_spread.h"
#include "sample/sample.h"

/* Several boil-offs of one oil, brought together before anything is judged. */

#define BC_RUNS_MAX BC_CRITICAL_RANGE_MAX

enum bc_belonging {
	BC_RUN_BELONGS,
	BC_RUN_STANDS_APART, /* further off than chance allows, on too weak evidence to leave it out
			      */
	BC_RUN_LEFT_OUT
};
const char *bc_belonging_text(enum bc_belonging belonging); /* "belongs", "stands apart", ... */

struct bc_pool_run {
	const struct bc_sample *sample; /* must outlive the run */
	struct bc_strings assumed;
	struct bc_findings findings; /* about its readings */
	struct bc_conditions conditions;
	struct bc_boiloff boiloff;
	struct bc_curve *curve;
	double at_c[BC_POINTS];          /* corrected; NaN where it was not read */
	double random_c[BC_POINTS];      /* bc_reader_random_c */
	double published_r_c[BC_POINTS]; /* repeatability of the standard test there */
	enum bc_belonging belonging;
	double shift_c;          /* mean of its distance from the mean of the other kept runs */
	double difference_max_c; /* the largest such distance, with its sign, and where */
	double difference_max_pct;
	double ratio;  /* root mean square of distance by ISO 4259's farthest; NaN below 3 runs */
	double grubbs; /* of its mean temperature from 10 to 90 %; NaN below 3 runs */
	double grubbs_critical; /* 5 % */
};

/* What the kept runs say at one percent. */
struct bc_pool_point {
	size_t n; /* kept runs that were read there */
	double mean_c;
	double sd_c; /* n - 1; NaN below 2 runs */
	double range_c;
	double published_range_c; /* critical range of n by the standard's repeatability */
	double rig_range_c;       /* ... by what this rig's readings are taken to repeat */
	double half_width_c;      /* 95 %, of the mean, without what the runs share */
};

struct bc_pool {
	struct bc_pool_run *runs;
	size_t n;
	size_t n_kept;
	size_t reference; /* the kept run whose thermometer and pressure are known worst */
	struct bc_sample *sample;
	struct bc_pool_point points[BC_POINTS];
	struct bc_runs_spread spread;
	struct bc_findings findings; /* about the runs side by side */
	bool wet;
	bool front_differs; /* IBP, T5 or T10 of the kept runs, by the same */
	bool agree;         /* the kept runs, by what this rig repeats */
	double agree_ratio; /* root mean square of range by critical range of the rig */
	size_t compared;    /* points of two or more kept runs */
	size_t within_published;
};

/*
 * bc_pool_new - runs of one sample pooled
 *
 * Given     samples   n of them, 2..BC_RUNS_MAX, in any order; they must outlive the pool
 *           keep_all  a run that does not belong stays in the pool
 * Returned  *pool     pool->sample is a sample for bc_judge: its readings are the mean of the kept
 *                     runs' corrected curves, written as the reference's thermometer would have
 *                     shown them; percents by volume of the dry charge; density averaged; of
 *                     all runs, also of those left out: worst history, feeds joined, measured
 *                     values averaged (note 3), water, jar limits. NULL on failure
 *           *failed   the run that failed, or n
 * Status    BC_TOO_FEW       fewer than two runs, or fewer than 3 percents that all kept runs cover
 *           BC_NO_MEMORY, and what a run's own boil-off fails with
 * Notes     1. a run is left out of 3 or more where its distance from the mean of the others is
 *              beyond that of ISO 4259 (root mean square over the percents), the others agree, and
 *              it is twice as far or Grubbs' test at 5 % says so too; of 6 or more two may go
 *           2. thermometer, calibration, pressure and the place are taken as shared by the runs:
 *              their errors do not shrink; the spread of the runs takes the place of the reading,
 *              the volume and the repeatability, the assumed one first widened to what the whole
 *              curve shows where that is more. Where the range at a percent is beyond the
 *              critical one the half-width spans every run with its own error
 *           3. of flash points that do not repeat (D93, r = 0.029 X, from memory) the lowest;
 *              of what raises an alarm (fuel/measured.h) the worse
 *           4. where the kept runs disagree at IBP, T5 or T10, bc_judge takes no higher a low bound
 *              of the flash than the lowest that one of them has by itself
 * Checks    tests/unit/judgement/test_pooling.c
 */
enum bc_status bc_pool_new(const struct bc_sample *const *samples, size_t n, bool keep_all,
	struct bc_pool **pool, size_t *failed);
void bc_pool_free(struct bc_pool *pool);

struct bc_judgement;
/* Into a judgement of pool->sample, after its boil-off was read: the spread, water, findings. */
enum bc_status bc_pool_bring(const struct bc_pool *pool, struct bc_judgement *judgement);

#endif
