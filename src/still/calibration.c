/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a still is worth: the effective plates and the carry-over with which the simulation makes of
 * an oil what the real still made of it. */
#include "still/calibration.h"

#include <math.h>

#include "base/memory.h"
#include "base/units.h"
#include "curve/conditions.h"
#include "fuel/tbp.h"
#include "still/flask.h"
#include "still/tap.h"

#define NORMAL_KPA 101.325
#define PLATES_SEARCHED 30.0
enum { PLATES, CARRY, PARAMETERS };
enum { RESIDUALS_MAX = 2 * BC_CALIBRATION_READINGS_MAX + 1 };

struct bc_calibration_work {
	struct bc_still_work *still;
	struct bc_run *run;
	struct bc_run *flask;
	struct bc_slices product;
	struct bc_slices oil; /* of bc_effective_plates */
	double residual[RESIDUALS_MAX];
	double trial[RESIDUALS_MAX];
	double jacobian[PARAMETERS][RESIDUALS_MAX];
};

struct bc_calibration_work *bc_calibration_work_new(void)
{
	struct bc_calibration_work *work = bc_alloc(sizeof *work);
	if (work == NULL)
		return NULL;
	work->still = bc_still_work_new();
	work->run = bc_run_new();
	work->flask = bc_run_new();
	if (work->still != NULL && work->run != NULL && work->flask != NULL)
		return work;
	bc_calibration_work_free(work);
	return NULL;
}

void bc_calibration_work_free(struct bc_calibration_work *work)
{
	if (work == NULL)
		return;
	bc_still_work_free(work->still);
	bc_run_free(work->run);
	bc_run_free(work->flask);
	bc_free(work);
}

/* ---- one simulation */

static double place_of(const struct bc_run *run, const struct bc_turn *turn)
{
	if (!turn->at_head)
		return turn->pct / 100.0;
	return bc_run_frac_at_head(run, bc_true_from_corrected(turn->head_c));
}

/* What a perfect cut at the same volume would have kept out of the product. */
static double light_ends_pct(const struct bc_slices *product, double from_frac)
{
	double light = 0.0;
	for (size_t i = 0; i < product->n; i++) {
		const struct bc_slice *slice = &product->items[i];
		double inside =
			(from_frac - slice->from_frac) / (slice->to_frac - slice->from_frac);
		light += slice->volume_frac * fmin(fmax(inside, 0.0), 1.0);
	}
	return 100.0 * light;
}

static enum bc_status simulate_product(const struct bc_calibration_run *pair,
	struct bc_calibration_work *work, struct bc_calibration_fit *fit)
{
	const struct bc_tap_still still = {.run = work->run,
		.carry_frac = fit->carry_pct / 100.0,
		.ceiling_frac = pair->end_pct / 100.0};
	fit->from_frac = place_of(work->run, &pair->from);
	fit->to_frac = fmin(place_of(work->run, &pair->to), pair->end_pct / 100.0);
	if (isnan(fit->to_frac)) /* the head never got there before the end */
		fit->to_frac = pair->end_pct / 100.0;
	enum bc_status status = bc_tap_jar(
		&still, fit->from_frac, fit->to_frac, &work->product, &fit->product_frac);
	if (bc_failed(status))
		return status;
	fit->light_ends_pct = light_ends_pct(&work->product, fit->from_frac);
	return bc_simulated_boiloff(&work->product, &pair->flask, pair->product.pct,
		pair->product.n, fit->product_c, work->still, work->flask);
}

/* Fills all of *fit that follows from its plates and carry, and the residuals. */
static enum bc_status simulate(const struct bc_calibration_run *pair,
	struct bc_calibration_work *work, struct bc_calibration_fit *fit, double *residual)
{
	const struct bc_column column = {NAN, NAN, fit->plates, NORMAL_KPA};
	const struct bc_run_options options = {
		pair->end_pct / 100.0, INFINITY, BC_STEPS_NORMAL, 0.0};
	size_t k = 0;
	enum bc_status status =
		bc_column_run(pair->feed, &column, &options, work->still, work->run);
	if (!bc_failed(status) && pair->product.n > 0)
		status = simulate_product(pair, work, fit);
	if (bc_failed(status))
		return status;
	for (size_t i = 0; i < pair->product.n; i++)
		residual[k++] =
			(pair->product.head_c[i] - fit->product_c[i]) / pair->product.sigma_c[i];
	for (size_t i = 0; i < pair->heads.n; i++) {
		fit->heads_c[i] = bc_corrected_from_true(
			bc_run_at(work->run, pair->heads.pct[i] / 100.0).head_c);
		residual[k++] = (pair->heads.head_c[i] - fit->heads_c[i]) / pair->heads.sigma_c[i];
	}
	residual[k++] =
		(fit->carry_pct - BC_CALIBRATION_CARRY_PRIOR) / BC_CALIBRATION_CARRY_PRIOR_SIGMA;
	for (size_t i = 0; i < k; i++)
		if (!isfinite(residual[i]))
			return BC_BAD_DOMAIN;
	return BC_OK;
}

static size_t count_of(const struct bc_calibration_run *pair)
{
	return pair->product.n + pair->heads.n + 1;
}

static double squares(const double *residual, size_t n)
{
	double sum = 0.0;
	for (size_t i = 0; i < n; i++)
		sum += residual[i] * residual[i];
	return sum;
}

/* ---- the fit */

static void keep_inside(struct bc_calibration_fit *fit)
{
	fit->plates = fmin(fmax(fit->plates, BC_CALIBRATION_PLATES_MIN), BC_CALIBRATION_PLATES_MAX);
	fit->carry_pct = fmin(fmax(fit->carry_pct, 0.0), BC_CALIBRATION_CARRY_MAX);
}

static enum bc_status search(const struct bc_calibration_run *pair,
	struct bc_calibration_work *work, struct bc_calibration_fit *best)
{
	static const double plates[] = {1.0, 1.4, 2.0, 2.8, 4.0, 6.0};
	static const double carry[] = {0.3, 1.0, 3.0};
	double least = INFINITY;
	enum bc_status last = BC_NO_CONVERGENCE;
	for (size_t i = 0; i < sizeof plates / sizeof plates[0]; i++) {
		for (size_t j = 0; j < sizeof carry / sizeof carry[0]; j++) {
			struct bc_calibration_fit fit = {
				.plates = plates[i], .carry_pct = carry[j]};
			enum bc_status status = simulate(pair, work, &fit, work->trial);
			double sum = squares(work->trial, count_of(pair));
			if (bc_failed(status))
				last = status;
			else if (sum < least) {
				least = sum;
				*best = fit;
			}
		}
	}
	return isfinite(least) ? BC_OK : last;
}

static enum bc_status fill_jacobian(const struct bc_calibration_run *pair,
	struct bc_calibration_work *work, const struct bc_calibration_fit *fit)
{
	const double step_ln = 0.02;
	const double step_pct = 0.1;
	size_t n = count_of(pair);
	for (int p = 0; p < PARAMETERS; p++) {
		struct bc_calibration_fit moved = *fit;
		if (p == PLATES)
			moved.plates *= exp(step_ln);
		else
			moved.carry_pct += step_pct;
		enum bc_status status = simulate(pair, work, &moved, work->trial);
		if (bc_failed(status))
			return status;
		for (size_t i = 0; i < n; i++)
			work->jacobian[p][i] = (work->trial[i] - work->residual[i]) /
					       (p == PLATES ? step_ln : step_pct);
	}
	return BC_OK;
}

/* J'J and J'r of the two parameters. */
struct normal {
	double a;
	double b;
	double c;
	double down[PARAMETERS];
};

static struct normal normal_of(const struct bc_calibration_work *work, size_t n)
{
	struct normal normal = {0};
	for (size_t i = 0; i < n; i++) {
		double plates = work->jacobian[PLATES][i];
		double carry = work->jacobian[CARRY][i];
		normal.a += plates * plates;
		normal.b += plates * carry;
		normal.c += carry * carry;
		normal.down[PLATES] -= plates * work->residual[i];
		normal.down[CARRY] -= carry * work->residual[i];
	}
	return normal;
}

/* A parameter that stands at its bound and wants beyond it does not move. */
static void pin_bounds(const struct bc_calibration_fit *fit, struct normal *normal)
{
	bool still_carry = fit->carry_pct <= 0.0 && normal->down[CARRY] < 0.0;
	bool still_plates =
		(fit->plates <= BC_CALIBRATION_PLATES_MIN && normal->down[PLATES] < 0.0) ||
		(fit->plates >= BC_CALIBRATION_PLATES_MAX && normal->down[PLATES] > 0.0);
	if (still_carry)
		normal->b = normal->down[CARRY] = 0.0;
	if (still_plates)
		normal->b = normal->down[PLATES] = 0.0;
}

static struct bc_calibration_fit stepped(
	const struct bc_calibration_fit *fit, const struct normal *normal, double damping)
{
	const double longest_ln = 0.7;
	struct bc_calibration_fit moved = *fit;
	double a = normal->a * (1.0 + damping) + 1e-12;
	double c = normal->c * (1.0 + damping) + 1e-12;
	double determinant = a * c - normal->b * normal->b;
	double step_ln = (c * normal->down[PLATES] - normal->b * normal->down[CARRY]) / determinant;
	double step_pct =
		(a * normal->down[CARRY] - normal->b * normal->down[PLATES]) / determinant;
	moved.plates *= exp(fmin(fmax(step_ln, -longest_ln), longest_ln));
	moved.carry_pct += step_pct;
	keep_inside(&moved);
	return moved;
}

static void fill_errors(const struct bc_calibration_work *work,
	const struct bc_calibration_run *pair, struct bc_calibration_fit *fit)
{
	size_t n = count_of(pair);
	struct normal normal = normal_of(work, n);
	double determinant = normal.a * normal.c - normal.b * normal.b;
	double sum = 0.0;
	for (size_t i = 0; i < pair->product.n; i++)
		sum += pow(pair->product.head_c[i] - fit->product_c[i], 2.0);
	for (size_t i = 0; i < pair->heads.n; i++)
		sum += pow(pair->heads.head_c[i] - fit->heads_c[i], 2.0);
	fit->rms_c = sqrt(sum / (double)(n - 1));
	fit->misfit = squares(work->residual, n);
	fit->plates_sigma_ln = determinant > 0.0 ? sqrt(normal.c / determinant) : (double)INFINITY;
	fit->carry_sigma_pct = determinant > 0.0 ? sqrt(normal.a / determinant) : (double)INFINITY;
	fit->at_bound = fit->plates <= BC_CALIBRATION_PLATES_MIN * 1.0001 ||
			fit->plates >= BC_CALIBRATION_PLATES_MAX * 0.9999;
	if (pair->product.n == 0)
		fit->light_ends_pct = fit->from_frac = fit->to_frac = fit->product_frac = NAN;
}

static bool rises(const struct bc_calibration_curve *curve)
{
	for (size_t i = 0; i < curve->n; i++) {
		if (!(curve->pct[i] > (i > 0 ? curve->pct[i - 1] : 0.0) && curve->pct[i] <= 99.0) ||
			!isfinite(curve->head_c[i]) || !(curve->sigma_c[i] > 0.0))
			return false;
	}
	return curve->n <= BC_CALIBRATION_READINGS_MAX;
}

/* Heads read beyond what comes over at all are none of the run's. */
static bool makes_sense(const struct bc_calibration_run *pair)
{
	return pair->product.n + pair->heads.n > 0 && rises(&pair->product) &&
	       rises(&pair->heads) && pair->end_pct > 0.0 &&
	       pair->end_pct <= 100.0 * BC_RUN_STOP_MAX &&
	       (pair->heads.n == 0 || pair->heads.pct[pair->heads.n - 1] <= pair->end_pct);
}

enum bc_status bc_calibrate(const struct bc_calibration_run *run,
	const struct bc_calibration_fit *start, struct bc_calibration_work *work,
	struct bc_calibration_fit *fit)
{
	enum { ROUNDS = 20 };
	const double enough = 1e-4; /* of the sum of squares */
	double damping = 1e-3;
	size_t n = count_of(run);
	if (!makes_sense(run))
		return BC_BAD_DOMAIN;
	if (start != NULL)
		*fit = *start;
	enum bc_status status = start != NULL ? BC_OK : search(run, work, fit);
	if (!bc_failed(status))
		status = simulate(run, work, fit, work->residual);
	double sum = bc_failed(status) ? (double)NAN : squares(work->residual, n);
	bool settled = false;
	for (int round = 0; round < ROUNDS && !settled && !bc_failed(status); round++) {
		status = fill_jacobian(run, work, fit);
		struct normal normal = normal_of(work, n);
		pin_bounds(fit, &normal);
		settled = true;
		for (int tries = 0; tries < 8 && settled && !bc_failed(status); tries++) {
			struct bc_calibration_fit moved = stepped(fit, &normal, damping);
			if (bc_failed(simulate(run, work, &moved, work->trial)) ||
				!(squares(work->trial, n) < sum)) {
				damping = fmax(damping, 1e-3) * 6.0;
				continue;
			}
			double now = squares(work->trial, n);
			settled = sum - now < enough * (now + 0.1);
			for (size_t i = 0; i < n; i++)
				work->residual[i] = work->trial[i];
			*fit = moved;
			sum = now;
			damping /= 6.0;
			break;
		}
	}
	if (!bc_failed(status))
		fill_errors(work, run, fit);
	return status;
}

/* ---- stages as effective plates */

static enum bc_status wide_oil(struct bc_slices *oil)
{
	enum { N = 40 };
	const double sg = 0.81;
	const double pct[] = {5.0, 50.0, 95.0};
	const double temp_c[] = {60.0, 210.0, 360.0};
	struct bc_tbp_curve curve;
	enum bc_status status = bc_tbp_curve_from_points(pct, temp_c, 3, true, &curve);
	return bc_failed(status) ? status : bc_slices_from_tbp(&curve, sg, N, 0.0, 100.0, oil);
}

enum { HEADS = 8 }; /* at 10, 20 ... 80 % */

static enum bc_status heads_of(
	const struct bc_column *column, struct bc_calibration_work *work, double *head_c)
{
	const struct bc_run_options options = {0.85, INFINITY, BC_STEPS_NORMAL, 0.0};
	enum bc_status status = bc_column_run(&work->oil, column, &options, work->still, work->run);
	for (int i = 0; i < HEADS; i++)
		head_c[i] = bc_failed(status) ? (double)NAN
					      : bc_run_at(work->run, 0.1 * (i + 1)).head_c;
	return status;
}

/* The sum of squares over ln(plates), for a search by golden section. */
static double apart(double ln_plates, struct bc_calibration_work *work, const double *head_c)
{
	const struct bc_column column = {NAN, NAN, exp(ln_plates), NORMAL_KPA};
	double own_c[HEADS];
	double sum = 0.0;
	if (bc_failed(heads_of(&column, work, own_c)))
		return INFINITY;
	for (int i = 0; i < HEADS; i++)
		sum += pow(own_c[i] - head_c[i], 2.0);
	return sum;
}

static enum bc_status whole_plates(
	double stages, double reflux, struct bc_calibration_work *work, double *plates)
{
	const double golden = 0.5 * (sqrt(5.0) - 1.0);
	const struct bc_column column = {stages, reflux, NAN, NORMAL_KPA};
	double head_c[HEADS];
	double low = 0.0;
	double high = log(PLATES_SEARCHED);
	*plates = 1.0;
	if (stages == 1.0 || reflux == 0.0)
		return BC_OK;
	enum bc_status status = heads_of(&column, work, head_c);
	while (!bc_failed(status) && high - low > 1e-3) {
		double a = high - golden * (high - low);
		double b = low + golden * (high - low);
		if (apart(a, work, head_c) < apart(b, work, head_c))
			high = b;
		else
			low = a;
	}
	*plates = exp(0.5 * (low + high));
	return status;
}

enum bc_status bc_effective_plates(
	double stages, double reflux, struct bc_calibration_work *work, double *plates)
{
	double below = NAN;
	double above = NAN;
	*plates = NAN;
	if (!(stages >= 1.0 && stages <= 60.0) || !(reflux >= 0.0))
		return BC_BAD_DOMAIN;
	enum bc_status status = wide_oil(&work->oil);
	if (!bc_failed(status))
		status = whole_plates(floor(stages), reflux, work, &below);
	if (!bc_failed(status) && stages > floor(stages))
		status = whole_plates(ceil(stages), reflux, work, &above);
	else
		above = below;
	if (!bc_failed(status))
		*plates = below + (stages - floor(stages)) * (above - below);
	return status;
}

/* ---- several pairs */

struct bc_plates_estimate bc_plates_combine(const struct bc_plates_estimate *estimates, size_t n)
{
	struct bc_plates_estimate all = {0};
	double weight = 0.0;
	double carry_weight = 0.0;
	double ln_plates = 0.0;
	for (size_t i = 0; i < n; i++) {
		double w = 1.0 / pow(estimates[i].sigma_ln, 2.0);
		double c = 1.0 / pow(estimates[i].carry_sigma_pct, 2.0);
		weight += w;
		carry_weight += c;
		ln_plates += w * log(estimates[i].plates);
		all.carry_pct += c * estimates[i].carry_pct;
		all.model_ln += w * estimates[i].model_ln;
	}
	ln_plates /= weight;
	all.carry_pct /= carry_weight;
	all.model_ln /= weight;
	double chi = 0.0;
	double carry_chi = 0.0;
	for (size_t i = 0; i < n; i++) {
		chi += pow((log(estimates[i].plates) - ln_plates) / estimates[i].sigma_ln, 2.0);
		carry_chi +=
			pow((estimates[i].carry_pct - all.carry_pct) / estimates[i].carry_sigma_pct,
				2.0);
	}
	double freedom = n > 1 ? (double)(n - 1) : 1.0;
	all.plates = exp(ln_plates);
	all.sigma_ln = sqrt(fmax(1.0, chi / freedom) / weight);
	all.carry_sigma_pct = sqrt(fmax(1.0, carry_chi / freedom) / carry_weight);
	return all;
}

#define SIGMAS_95 1.96

static double whole_sigma_ln(const struct bc_plates_estimate *estimate)
{
	return hypot(estimate->sigma_ln, estimate->model_ln);
}

double bc_plates_low(const struct bc_plates_estimate *estimate)
{
	return fmax(estimate->plates * exp(-SIGMAS_95 * whole_sigma_ln(estimate)), 1.0);
}

double bc_plates_high(const struct bc_plates_estimate *estimate)
{
	return fmax(estimate->plates * exp(SIGMAS_95 * whole_sigma_ln(estimate)), 1.0);
}

bool bc_plates_known(const struct bc_plates_estimate *estimate)
{
	const double factor = 2.0;
	return SIGMAS_95 * whole_sigma_ln(estimate) <= log(factor);
}
