/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The pot from the first drop to the last: exponential midpoint steps in the volume distilled. */
#include "still/march.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

#include "base/units.h"

/* of the charge */
#define STEP_TOLERANCE 1e-13
#define TAU_ROUNDS 400
#define POT_TOLERANCE_K 1e-4
#define POT_ROUNDS 60

struct pot {
	double volume[BC_SLICES_MAX];
	double mole_frac[BC_SLICES_MAX];
};

static void set_mole_fractions(const struct bc_charge *charge, struct pot *pot)
{
	double moles = 0.0;
	for (size_t i = 0; i < charge->n; i++)
		moles += pot->mole_frac[i] = pot->volume[i] / charge->molar_volume[i];
	for (size_t i = 0; i < charge->n; i++)
		pot->mole_frac[i] /= moles;
}

/* Halley's step from tau = 0, which costs no exponential; Newton's where that goes too far. */
static double first_tau(size_t n, const double *volatility, const struct pot *from, double volume)
{
	double rate = 0.0;
	double fall = 0.0;
	for (size_t i = 0; i < n; i++) {
		double share = from->volume[i] * volatility[i];
		rate += share;
		fall += share * volatility[i];
	}
	double left = 1.0 - 0.5 * volume * fall / (rate * rate);
	return volume / rate / (left > 0.5 ? left : 1.0);
}

/*
 * What stays of from when volume leaves it at constant volatilities: every component falls as
 * exp(-E tau). The volume gone is concave in tau, so Newton's method comes from below and passes
 * the root at most once, from a start beyond it.
 */
static bool boil_off(const struct bc_charge *charge, const double *volatility,
	const struct pot *from, double volume, struct pot *to)
{
	double tau = first_tau(charge->n, volatility, from, volume);
	for (int round = 0; round < TAU_ROUNDS; round++) {
		double stays = 0.0;
		double held = 0.0;
		double rate = 0.0;
		for (size_t i = 0; i < charge->n; i++) {
			to->volume[i] = from->volume[i] * exp(-volatility[i] * tau);
			held += from->volume[i];
			stays += to->volume[i];
			rate += to->volume[i] * volatility[i];
		}
		double missing = volume - (held - stays);
		if (fabs(missing) <= STEP_TOLERANCE) {
			set_mole_fractions(charge, to);
			return true;
		}
		tau += missing / rate;
		if (!isfinite(tau))
			return false;
	}
	return false;
}

/* Half a step with the volatilities at its start, then the whole with those found there. */
static enum bc_status advance(struct bc_still_work *work, const struct bc_leaving *start,
	const struct pot *from, double volume, struct pot *to)
{
	struct pot middle;
	struct bc_leaving leaving;
	if (!boil_off(&work->charge, start->volatility, from, 0.5 * volume, &middle))
		return BC_NO_CONVERGENCE;
	enum bc_status status =
		bc_stages_solve(&work->stages, &work->table, middle.mole_frac, false, &leaving);
	if (bc_failed(status))
		return status;
	return boil_off(&work->charge, leaving.volatility, from, volume, to) ? BC_OK
									     : BC_NO_CONVERGENCE;
}

static void record(const struct bc_charge *charge, const struct pot *pot,
	const struct bc_leaving *leaving, double over_frac, struct bc_run *run)
{
	size_t node = run->n++;
	double volume = 0.0;
	run->over_frac[node] = over_frac;
	run->head_c[node] = bc_temp_c_from_k(leaving->head_k);
	run->pot_c[node] = bc_temp_c_from_k(leaving->pot_k);
	for (size_t i = 0; i < charge->n; i++) {
		run->over[node][i] = charge->volume[i] - pot->volume[i];
		volume += run->leaving[node][i] = leaving->mole_frac[i] * charge->molar_volume[i];
	}
	for (size_t i = 0; i < charge->n; i++)
		run->leaving[node][i] /= volume;
}

/* 0 .25 .5 1 1.5 2 3 4 ... 98 98.5 99 99.5 % */
static size_t plain_nodes(double *frac)
{
	static const double front_pct[] = {0.0, 0.25, 0.5, 1.0, 1.5};
	static const double back_pct[] = {98.5, 99.0, 99.5};
	size_t n = 0;
	for (size_t i = 0; i < sizeof front_pct / sizeof front_pct[0]; i++)
		frac[n++] = front_pct[i] / 100.0;
	for (int pct = 2; pct <= 98; pct++)
		frac[n++] = pct / 100.0;
	for (size_t i = 0; i < sizeof back_pct / sizeof back_pct[0]; i++)
		frac[n++] = back_pct[i] / 100.0;
	return n;
}

/* What stays is 0 .25 1 2 4 6 ... 98 98.5 99 99.5, or 0 .25 1 2 6 10 ... 98 98.5 99 99.5 %. */
static bool skipped(enum bc_run_steps steps, size_t i, size_t n)
{
	if (i == 0 || i + 3 >= n)
		return false;
	if (steps == BC_STEPS_ROUGH && i > 5)
		return i % 4 != 1;
	return (steps == BC_STEPS_COARSE || steps == BC_STEPS_ROUGH) && i % 2 == 0;
}

/* Where the run stops to look; the last place is stop_frac. */
static size_t plan_nodes(const struct bc_run_options *options, double *frac)
{
	double plain[BC_RUN_NODES_MAX];
	size_t n_plain = plain_nodes(plain);
	size_t n = 0;
	for (size_t i = 0; i < n_plain; i++) {
		if (skipped(options->steps, i, n_plain))
			continue;
		if (options->steps == BC_STEPS_FINE && i > 0)
			frac[n++] = 0.5 * (plain[i - 1] + plain[i]);
		frac[n++] = plain[i];
	}
	size_t kept = 0;
	while (kept < n && frac[kept] < options->stop_frac)
		kept++;
	frac[kept++] = options->stop_frac;
	return kept;
}

/* The step in which the pot passes its limit, shortened to where it stands at it. */
static enum bc_status step_to_limit(struct bc_still_work *work, const struct bc_leaving *start,
	const struct pot *from, double volume, double limit_k, struct pot *to,
	struct bc_leaving *leaving, double *done)
{
	double low = 0.0;
	double high = volume;
	double low_gap = start->pot_k - limit_k;
	double high_gap = leaving->pot_k - limit_k;
	for (int round = 0; round < POT_ROUNDS; round++) {
		/* a secant kept off the ends of the bracket */
		double share = fmin(fmax(low_gap / (low_gap - high_gap), 0.05), 0.95);
		*done = low + share * (high - low);
		enum bc_status status = advance(work, start, from, *done, to);
		if (!bc_failed(status))
			status = bc_stages_solve(
				&work->stages, &work->table, to->mole_frac, true, leaving);
		if (bc_failed(status))
			return status;
		double gap = leaving->pot_k - limit_k;
		if (fabs(gap) <= POT_TOLERANCE_K)
			return BC_OK;
		if (gap < 0.0) {
			low = *done;
			low_gap = gap;
		} else {
			high = *done;
			high_gap = gap;
		}
	}
	return BC_NO_CONVERGENCE;
}

static enum bc_status march_on(struct bc_still_work *work, const struct bc_run_options *options,
	const double *frac, size_t n, struct bc_run *run)
{
	struct pot here;
	struct pot next;
	struct bc_leaving leaving;
	double limit_k = bc_temp_k_from_c(options->pot_limit_c);
	memcpy(here.volume, work->charge.volume, sizeof here.volume);
	set_mole_fractions(&work->charge, &here);
	enum bc_status status =
		bc_stages_solve(&work->stages, &work->table, here.mole_frac, true, &leaving);
	if (bc_failed(status))
		return status;
	record(&work->charge, &here, &leaving, 0.0, run);
	run->end = leaving.pot_k >= limit_k ? BC_RUN_AT_POT_LIMIT : BC_RUN_AT_STOP;
	for (size_t node = 1; node < n && run->end == BC_RUN_AT_STOP; node++) {
		double volume = frac[node] - frac[node - 1];
		struct bc_leaving start = leaving;
		status = advance(work, &start, &here, volume, &next);
		if (!bc_failed(status))
			status = bc_stages_solve(
				&work->stages, &work->table, next.mole_frac, true, &leaving);
		if (!bc_failed(status) && leaving.pot_k > limit_k) {
			run->end = BC_RUN_AT_POT_LIMIT;
			status = step_to_limit(
				work, &start, &here, volume, limit_k, &next, &leaving, &volume);
		}
		if (bc_failed(status))
			return status;
		here = next;
		record(&work->charge, &here, &leaving, frac[node - 1] + volume, run);
	}
	return BC_OK;
}

enum bc_status bc_march(struct bc_still_work *work, const struct bc_column *column,
	const struct bc_run_options *options, struct bc_run *run)
{
	double frac[BC_RUN_NODES_MAX];
	run->n = 0;
	if (!(options->stop_frac > 0.0 && options->stop_frac <= BC_RUN_STOP_MAX) ||
		isnan(options->pot_limit_c))
		return BC_BAD_DOMAIN;
	enum bc_status status = bc_stages_init(
		&work->stages, column->stages, column->reflux, column->effective_plates);
	if (bc_failed(status))
		return status;
	if (options->tolerance_k > 0.0)
		work->stages.tolerance_k = options->tolerance_k;
	size_t n = plan_nodes(options, frac);
	status = march_on(work, options, frac, n, run);
	if (bc_failed(status))
		run->n = 0;
	return status;
}
