/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_STILL_STAGES_H
#define BC_STILL_STAGES_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "fuel/slices.h"
#include "still/k_table.h"

#define BC_STAGES_MAX 60

/* What leaves the column while the pot holds a given liquid. */
struct bc_leaving {
	double volatility[BC_SLICES_MAX]; /* proportional to (share over)/(share in the pot), the
					     greatest is 1 */
	double mole_frac[BC_SLICES_MAX];  /* of the distillate */
	double pot_k;
	double head_k;
};

/* A column and its room to work in; temperatures of the last solution start the next. */
struct bc_stages {
	size_t count;     /* equilibrium contacts, the pot is the first */
	double to_liquid; /* L/V, 1 at total reflux */
	double to_drawn;  /* D/V */
	double exponent;  /* effective plates; NaN: count and reflux */
	double tolerance_k;
	bool warm;
	double pot_k;
	double head_k;
	double temp_k[BC_STAGES_MAX];
	double step_k[BC_STAGES_MAX];
	double last_step_k[BC_STAGES_MAX];
	double residual[BC_STAGES_MAX];
	double trial_k[BC_STAGES_MAX];
	double k[BC_STAGES_MAX][BC_SLICES_MAX];
	double slope[BC_STAGES_MAX][BC_SLICES_MAX];
	double ratio[BC_STAGES_MAX][BC_SLICES_MAX];  /* vapour leaving a stage to that entering */
	double vapour[BC_STAGES_MAX][BC_SLICES_MAX]; /* leaving a stage, the pot's adds up to 1 */
	double relative[BC_STAGES_MAX][BC_SLICES_MAX];
	double from_pot[BC_SLICES_MAX]; /* vapour of the pot, brought to 1 */
	double drawn[BC_SLICES_MAX];    /* distillate to vapour of the pot, not brought to 1 */
	double jacobian[BC_STAGES_MAX][BC_STAGES_MAX + 1];
	unsigned long tears; /* passes so far, for benches and tests */
	unsigned long newtons;
};

/*
 * bc_stages_init - a column, cold
 *
 * Given     count 1..BC_STAGES_MAX counting the pot, reflux L/D >= 0 or INFINITY; or
 *           effective_plates > 0 (with it, count and reflux are not looked at), else NaN
 * Status    BC_BAD_DOMAIN  none of these
 */
enum bc_status bc_stages_init(
	struct bc_stages *stages, double count, double reflux, double effective_plates);

/*
 * bc_stages_solve - the column over a pot of mole fractions x
 *
 * Given     table; x[table->n], adds up to 1; want_head: with effective plates the head temperature
 *           costs a dew point, which need not be paid for
 * Returned  *leaving
 * Status    BC_NO_CONVERGENCE
 * Notes     1. no hold-up, constant molar overflow, total condenser. Per component from the top:
 *              v_N = 1, v_k-1 = (l/K_k) v_k + d, all positive; distillate = pot vapour / v_1
 *           2. stage temperatures by damped dew-point steps, then Newton's method
 *           3. effective plates m: volatility = K(pot)^m, head = dew point of the distillate
 * Source    the equations are those of the textbooks (Lewis-Matheson without a feed); the order of
 *           solution was worked out for this program
 */
enum bc_status bc_stages_solve(struct bc_stages *stages, const struct bc_k_table *table,
	const double *x, bool want_head, struct bc_leaving *leaving);

#endif
