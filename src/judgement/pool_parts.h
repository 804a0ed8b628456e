/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_POOL_PARTS_H
#define BC_JUDGEMENT_POOL_PARTS_H

#include "judgement/pooling.h"

/* Steps of bc_pool_new, in their order. */

/* Conditions, boil-off, curve and common percents of one run whose sample is set. */
enum bc_status bc_pool_run_read(struct bc_pool_run *run);
void bc_pool_run_release(struct bc_pool_run *run);

/* Distances, who belongs, points, spread, agreement; findings of them. */
void bc_pool_compare(struct bc_pool *pool, bool keep_all);

/* The sample of the pool: curve, amounts and density of the kept runs, all else of every run;
 * findings of what they contradict each other in. */
enum bc_status bc_pool_combine(struct bc_pool *pool);

/* A kept run's temperature at a percent of BC_POINTS; NaN for one left out. */
double bc_pool_run_kept_c(const struct bc_pool_run *run, size_t point);

#endif
