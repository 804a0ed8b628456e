/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A column of equilibrium stages over a pot whose liquid is given: temperatures, distillate, and
 * the effective volatility of each component. */
#include "still/stages.h"

#include <math.h>
#include <string.h>

#define BUBBLE_STEP_K 40.0
#define BUBBLE_TOLERANCE_K 1e-8
#define BUBBLE_ROUNDS 80
#define TEAR_STEP_K 25.0
#define TEAR_PASSES 12
#define NEWTON_STEP_K 20.0
/* where a sharp front has to wander over many stages it takes a hundred and more */
#define NEWTON_ROUNDS 300
#define NEWTON_HALVINGS 12
#define TOLERANCE_K 1e-3
/* at total reflux a light component gains K on every stage without bound */
#define FROM_POT_MAX 1e250
#define VOLATILITY_MIN 1e-290

enum bc_status bc_stages_init(
	struct bc_stages *stages, double count, double reflux, double effective_plates)
{
	memset(stages, 0, sizeof *stages);
	stages->exponent = effective_plates;
	stages->tolerance_k = TOLERANCE_K;
	stages->count = 1;
	if (!isnan(effective_plates))
		return effective_plates > 0.0 && isfinite(effective_plates) ? BC_OK : BC_BAD_DOMAIN;
	if (!(count >= 1.0 && count <= BC_STAGES_MAX) || count != floor(count))
		return BC_BAD_DOMAIN;
	if (count > 1.0 && !(reflux >= 0.0))
		return BC_BAD_DOMAIN;
	stages->count = (size_t)count;
	stages->to_liquid = isinf(reflux) ? 1.0 : reflux / (reflux + 1.0);
	stages->to_drawn = isinf(reflux) ? 0.0 : 1.0 / (reflux + 1.0);
	return BC_OK;
}

static double inside(const struct bc_k_table *table, double temp_k)
{
	return fmin(fmax(temp_k, table->low_k), table->high_k);
}

/* Newton on ln sum(K x); K and slope are left at *temp_k. */
static enum bc_status bubble(
	const struct bc_k_table *table, const double *x, double *temp_k, double *k, double *slope)
{
	for (int round = 0; round < BUBBLE_ROUNDS; round++) {
		double sum = 0.0;
		double rise = 0.0;
		bc_k_table_at(table, *temp_k, k, slope);
		for (size_t i = 0; i < table->n; i++) {
			sum += k[i] * x[i];
			rise += slope[i] * x[i];
		}
		if (!(sum > 0.0))
			return BC_NO_CONVERGENCE;
		double step = -log(sum) * sum / rise;
		if (!isfinite(step))
			return BC_NO_CONVERGENCE;
		if (fabs(step) < BUBBLE_TOLERANCE_K)
			return BC_OK;
		*temp_k = inside(table, *temp_k + fmin(fmax(step, -BUBBLE_STEP_K), BUBBLE_STEP_K));
	}
	return BC_NO_CONVERGENCE;
}

/* Newton on ln sum(y/K). */
static enum bc_status dew(
	const struct bc_k_table *table, const double *y, double *temp_k, double *k, double *slope)
{
	for (int round = 0; round < BUBBLE_ROUNDS; round++) {
		double sum = 0.0;
		double fall = 0.0;
		bc_k_table_at(table, *temp_k, k, slope);
		for (size_t i = 0; i < table->n; i++) {
			double liquid = y[i] / k[i];
			sum += liquid;
			fall += liquid * slope[i] / k[i];
		}
		if (!(sum > 0.0))
			return BC_NO_CONVERGENCE;
		double step = log(sum) * sum / fall;
		if (!isfinite(step))
			return BC_NO_CONVERGENCE;
		if (fabs(step) < BUBBLE_TOLERANCE_K)
			return BC_OK;
		*temp_k = inside(table, *temp_k + fmin(fmax(step, -BUBBLE_STEP_K), BUBBLE_STEP_K));
	}
	return BC_NO_CONVERGENCE;
}

/* Cold start: every stage boils where the vapour from below would, condensed. */
static enum bc_status climb(struct bc_stages *s, const struct bc_k_table *table)
{
	double liquid[BC_SLICES_MAX];
	memcpy(liquid, s->from_pot, sizeof liquid);
	s->temp_k[0] = s->pot_k;
	for (size_t j = 1; j < s->count; j++) {
		double sum = 0.0;
		s->temp_k[j] = s->temp_k[j - 1];
		enum bc_status status = bubble(table, liquid, &s->temp_k[j], s->k[j], s->slope[j]);
		if (bc_failed(status))
			return status;
		for (size_t i = 0; i < table->n; i++)
			sum += liquid[i] *= s->k[j][i];
		for (size_t i = 0; i < table->n; i++)
			liquid[i] /= sum;
	}
	return BC_OK;
}

/*
 * From the top down at the stage temperatures temp_k, with u = 1/v so that heavy components run to
 * nothing instead of to infinity, then from the pot up; fills the residuals of the stage equations
 * and the dew-point step of every stage. Stage 0 is the pot.
 */
static void sweep(struct bc_stages *s, const struct bc_k_table *table, const double *temp_k)
{
	size_t n = table->n;
	size_t top = s->count - 1;
	double u[BC_SLICES_MAX];
	double y[BC_SLICES_MAX];
	for (size_t i = 0; i < n; i++)
		u[i] = 1.0;
	for (size_t j = top; j > 0; j--) {
		bc_k_table_at(table, temp_k[j], s->k[j], s->slope[j]);
		for (size_t i = 0; i < n; i++) {
			double ratio = 1.0 / (s->to_liquid / s->k[j][i] + s->to_drawn * u[i]);
			s->ratio[j][i] = ratio;
			double next = u[i] * ratio;
			u[i] = next < FROM_POT_MAX ? next : FROM_POT_MAX;
		}
	}
	memcpy(s->drawn, u, sizeof u);
	memcpy(y, s->from_pot, sizeof y);
	for (size_t j = 1; j <= top; j++) {
		double vapour = 0.0;
		double liquid = 0.0;
		double fall = 0.0;
		for (size_t i = 0; i < n; i++) {
			double inverse = 1.0 / s->k[j][i];
			y[i] *= s->ratio[j][i];
			double x = y[i] * inverse;
			s->vapour[j][i] = y[i];
			vapour += y[i];
			liquid += x;
			fall += x * s->slope[j][i] * inverse;
		}
		s->residual[j] = log(liquid / vapour);
		s->step_k[j] = s->residual[j] * liquid / fall;
	}
}

static double greatest(const double *values, size_t from, size_t to)
{
	double most = 0.0;
	for (size_t j = from; j < to; j++) {
		if (!isfinite(values[j]))
			return INFINITY;
		most = fmax(most, fabs(values[j]));
	}
	return most;
}

/* Damped dew-point steps; the damping grows while successive steps turn back on themselves. */
static bool tear(struct bc_stages *s, const struct bc_k_table *table)
{
	double share = 1.0;
	double last_size = INFINITY;
	for (int pass = 0; pass < TEAR_PASSES; pass++) {
		s->tears++;
		sweep(s, table, s->temp_k);
		double size = greatest(s->step_k, 1, s->count);
		if (size < s->tolerance_k)
			return true;
		if (isinf(size))
			return false;
		double dot = 0.0;
		for (size_t j = 1; j < s->count; j++)
			dot += s->step_k[j] * s->last_step_k[j];
		if (pass > 0)
			share = dot < 0.0 && size > 0.5 * last_size ? fmax(0.15, 0.6 * share)
								    : fmin(1.0, 1.2 * share);
		for (size_t j = 1; j < s->count; j++) {
			double step = fmin(fmax(s->step_k[j], -TEAR_STEP_K), TEAR_STEP_K);
			s->temp_k[j] = inside(table, s->temp_k[j] + share * step);
			s->last_step_k[j] = s->step_k[j];
		}
		last_size = size;
	}
	return false;
}

/* Column j of the Jacobian: how the residuals of all stages answer to the temperature of stage j.
 * r is d ln v / d T_j of the component on the stage at hand, relative the share of v_p-1 that v_p
 * makes up. */
static void jacobian_column(struct bc_stages *s, size_t n, size_t j)
{
	size_t top = s->count - 1;
	double r[BC_STAGES_MAX] = {0.0};
	double liquid[BC_STAGES_MAX] = {0.0};
	double vapour[BC_STAGES_MAX] = {0.0};
	double liquid_change[BC_STAGES_MAX] = {0.0};
	double vapour_change[BC_STAGES_MAX] = {0.0};
	for (size_t i = 0; i < n; i++) {
		double kappa = s->slope[j][i] / s->k[j][i];
		r[j - 1] = -kappa * s->relative[j][i];
		for (size_t p = j - 1; p > 0; p--)
			r[p - 1] = r[p] * s->relative[p][i];
		for (size_t p = 1; p <= top; p++) {
			double y = s->vapour[p][i];
			double x = y / s->k[p][i];
			double change = (p < j ? r[p] : 0.0) - r[0];
			vapour[p] += y;
			liquid[p] += x;
			vapour_change[p] += y * change;
			liquid_change[p] += x * (change - (p == j ? kappa : 0.0));
		}
	}
	for (size_t p = 1; p <= top; p++)
		s->jacobian[p][j] = liquid_change[p] / liquid[p] - vapour_change[p] / vapour[p];
}

static void fill_jacobian(struct bc_stages *s, size_t n)
{
	for (size_t p = 1; p < s->count; p++)
		for (size_t i = 0; i < n; i++)
			s->relative[p][i] = s->to_liquid / s->k[p][i] * s->ratio[p][i];
	for (size_t j = 1; j < s->count; j++)
		jacobian_column(s, n, j);
}

/* Gauss with row exchange on rows and columns 1..count-1; the solution replaces step_k. */
static bool solve_steps(struct bc_stages *s)
{
	size_t end = s->count;
	for (size_t j = 1; j < end; j++)
		s->jacobian[j][end] = -s->residual[j];
	for (size_t c = 1; c < end; c++) {
		size_t best = c;
		for (size_t r = c + 1; r < end; r++)
			if (fabs(s->jacobian[r][c]) > fabs(s->jacobian[best][c]))
				best = r;
		if (!(fabs(s->jacobian[best][c]) > 0.0))
			return false;
		for (size_t q = c; best != c && q <= end; q++) {
			double swapped = s->jacobian[c][q];
			s->jacobian[c][q] = s->jacobian[best][q];
			s->jacobian[best][q] = swapped;
		}
		for (size_t r = c + 1; r < end; r++) {
			double factor = s->jacobian[r][c] / s->jacobian[c][c];
			for (size_t q = c; q <= end; q++)
				s->jacobian[r][q] -= factor * s->jacobian[c][q];
		}
	}
	for (size_t c = end - 1; c > 0; c--) {
		double sum = s->jacobian[c][end];
		for (size_t q = c + 1; q < end; q++)
			sum -= s->jacobian[c][q] * s->step_k[q];
		s->step_k[c] = sum / s->jacobian[c][c];
	}
	return isfinite(greatest(s->step_k, 1, end));
}

static double residual_size(const struct bc_stages *s)
{
	double sum = 0.0;
	for (size_t j = 1; j < s->count; j++)
		sum += s->residual[j] * s->residual[j];
	return isfinite(sum) ? sqrt(sum) : (double)INFINITY;
}

static bool newton(struct bc_stages *s, const struct bc_k_table *table)
{
	double steps[BC_STAGES_MAX];
	sweep(s, table, s->temp_k);
	double size = residual_size(s);
	for (int round = 0; round < NEWTON_ROUNDS; round++) {
		s->newtons++;
		fill_jacobian(s, table->n);
		if (!solve_steps(s))
			return false;
		memcpy(steps, s->step_k, sizeof steps);
		double longest = greatest(steps, 1, s->count);
		double trial_size = INFINITY;
		for (int halving = 0; halving <= NEWTON_HALVINGS; halving++) {
			double share = ldexp(1.0, -halving);
			for (size_t j = 1; j < s->count; j++) {
				double step =
					fmin(fmax(share * steps[j], -NEWTON_STEP_K), NEWTON_STEP_K);
				s->trial_k[j] = inside(table, s->temp_k[j] + step);
			}
			sweep(s, table, s->trial_k);
			trial_size = residual_size(s);
			if (trial_size < size || longest < s->tolerance_k)
				break;
		}
		if (!isfinite(trial_size))
			return false;
		memcpy(s->temp_k + 1, s->trial_k + 1, (s->count - 1) * sizeof s->temp_k[0]);
		size = trial_size;
		if (longest < s->tolerance_k)
			return true;
	}
	return false;
}

/* The pot's own equilibrium: its temperature and its vapour. */
static enum bc_status boil_pot(struct bc_stages *s, const struct bc_k_table *table, const double *x)
{
	enum bc_status status = bubble(table, x, &s->pot_k, s->k[0], s->slope[0]);
	double sum = 0.0;
	for (size_t i = 0; i < table->n; i++)
		sum += s->from_pot[i] = s->k[0][i] * x[i];
	for (size_t i = 0; i < table->n; i++)
		s->from_pot[i] /= sum;
	return status;
}

static bool settle(struct bc_stages *s, const struct bc_k_table *table)
{
	return tear(s, table) || newton(s, table);
}

/* From the last pot's temperatures; else as at total reflux; else with every stage at the pot's. */
static enum bc_status find_stage_temps(struct bc_stages *s, const struct bc_k_table *table)
{
	if (s->warm && settle(s, table))
		return BC_OK;
	enum bc_status status = climb(s, table);
	if (!bc_failed(status) && settle(s, table))
		return BC_OK;
	for (size_t j = 0; j < s->count; j++)
		s->temp_k[j] = s->pot_k;
	return settle(s, table) ? BC_OK : BC_NO_CONVERGENCE;
}

static void share_out(size_t n, const double *over, struct bc_leaving *leaving)
{
	double most = 0.0;
	double sum = 0.0;
	for (size_t i = 0; i < n; i++) {
		most = fmax(most, leaving->volatility[i]);
		sum += over[i];
	}
	for (size_t i = 0; i < n; i++) {
		leaving->volatility[i] = fmax(leaving->volatility[i] / most, VOLATILITY_MIN);
		leaving->mole_frac[i] = over[i] / sum;
	}
}

static enum bc_status solve_effective(struct bc_stages *s, const struct bc_k_table *table,
	const double *x, bool want_head, struct bc_leaving *leaving)
{
	double over[BC_SLICES_MAX];
	for (size_t i = 0; i < table->n; i++) {
		leaving->volatility[i] = pow(s->k[0][i], s->exponent);
		over[i] = leaving->volatility[i] * x[i];
	}
	share_out(table->n, over, leaving);
	leaving->head_k = NAN;
	if (!want_head)
		return BC_OK;
	if (!s->warm)
		s->head_k = s->pot_k;
	s->warm = true;
	double k[BC_SLICES_MAX];
	double slope[BC_SLICES_MAX];
	enum bc_status status = dew(table, leaving->mole_frac, &s->head_k, k, slope);
	leaving->head_k = s->head_k;
	return status;
}

enum bc_status bc_stages_solve(struct bc_stages *s, const struct bc_k_table *table, const double *x,
	bool want_head, struct bc_leaving *leaving)
{
	size_t n = table->n;
	if (!(s->pot_k > 0.0))
		s->pot_k = table->high_k;
	enum bc_status status = boil_pot(s, table, x);
	if (bc_failed(status))
		return status;
	leaving->pot_k = leaving->head_k = s->pot_k;
	if (!isnan(s->exponent))
		return solve_effective(s, table, x, want_head, leaving);
	if (s->count == 1 || s->to_liquid == 0.0) {
		memcpy(leaving->volatility, s->k[0], n * sizeof s->k[0][0]);
		share_out(n, s->from_pot, leaving);
		return BC_OK;
	}
	status = find_stage_temps(s, table);
	s->warm = !bc_failed(status);
	if (bc_failed(status))
		return status;
	for (size_t i = 0; i < n; i++)
		leaving->volatility[i] = s->k[0][i] * s->drawn[i];
	for (size_t i = 0; i < n; i++)
		s->drawn[i] *= s->from_pot[i];
	share_out(n, s->drawn, leaving);
	leaving->head_k = s->temp_k[s->count - 1];
	return BC_OK;
}
