/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Families of boiling curves fitted to the percent readings: several starts, a robust loss, and
 * the family chosen by AICc. */
#include "curve/fit.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

#include "base/memory.h"
#include "base/stats.h"
#include "base/units.h"
#include "curve/model.h"

enum { POINTS_ALL = 400, POINTS_THINNED = 200, SCALE_ROUNDS = 2 };

/* 95 % efficiency on normal errors; Holland & Welsch 1977, from memory. */
#define CAUCHY_SCALE 2.385
/* Median absolute deviation to standard deviation of a normal curve. */
#define SD_FROM_MAD 1.4826
/* The sum of squares to a ten-thousandth: far finer than a thermometer is read. */
#define FIT_TOLERANCE 1e-4
/* A reading is no better than this [degC]: keeps a nearly perfect fit from discarding points. */
#define SCALE_FLOOR_C 0.2

/* The points of one fit and room for its residuals. */
struct fit_points {
	const struct bc_model *model;
	size_t n;
	double frac[POINTS_ALL];
	double temp_k[POINTS_ALL];
	double absolute[POINTS_ALL];
};

static void to_inner(const struct bc_model *model, const double *parameters, double *inner)
{
	for (size_t i = 0; i < model->n_parameters; i++)
		inner[i] = model->positive & 1u << i ? log(parameters[i]) : parameters[i];
}

static void from_inner(const struct bc_model *model, const double *inner, double *parameters)
{
	for (size_t i = 0; i < model->n_parameters; i++)
		parameters[i] = model->positive & 1u << i ? exp(inner[i]) : inner[i];
}

static void residuals(const double *inner, double *r, void *context)
{
	const struct fit_points *points = context;
	double parameters[BC_MODEL_PARAMETERS_MAX];

	from_inner(points->model, inner, parameters);
	for (size_t i = 0; i < points->n; i++)
		r[i] = points->model->temp_k(parameters, points->frac[i]) - points->temp_k[i];
}

/* Copies the points, thinned when there are many; false when they cannot be used. */
static bool take_points(
	struct fit_points *points, const double *pct, const double *temp_c, size_t n)
{
	size_t wanted = n > POINTS_ALL ? POINTS_THINNED : n;

	points->n = wanted;
	for (size_t i = 0; i < wanted; i++) {
		size_t from = wanted == n ? i : i * (n - 1) / (wanted - 1);
		if (!(pct[from] > 0.0 && pct[from] < 100.0) || !isfinite(temp_c[from]))
			return false;
		points->frac[i] = pct[from] / 100.0;
		points->temp_k[i] = bc_temp_k_from_c(temp_c[from]);
	}
	return true;
}

/* The best plain solution of all starts, in inner parameters. */
static enum bc_status solve_plain(struct bc_least_squares *problem, double *inner)
{
	const struct fit_points *points = problem->context;
	const struct bc_model *model = points->model;
	double best = INFINITY;
	enum bc_status status = BC_NO_CONVERGENCE;
	double parameters[BC_MODEL_PARAMETERS_MAX];

	for (size_t k = 0; model->start(k, points->frac, points->temp_k, points->n, parameters);
		k++) {
		double trial[BC_MODEL_PARAMETERS_MAX];
		double sum;
		to_inner(model, parameters, trial);
		enum bc_status tried = bc_least_squares_solve(problem, trial, &sum);
		if (tried == BC_NO_MEMORY)
			return tried;
		if (bc_failed(tried) || !(sum < best))
			continue;
		best = sum;
		status = BC_OK;
		memcpy(inner, trial, sizeof trial);
	}
	return status;
}

/* Spread of the residuals from their median size, with the freedom the parameters took. */
static double residual_scale(struct fit_points *points, const double *inner)
{
	double n = (double)points->n;

	residuals(inner, points->absolute, points);
	for (size_t i = 0; i < points->n; i++)
		points->absolute[i] = fabs(points->absolute[i]);
	double sd = SD_FROM_MAD * bc_median(points->absolute, points->n) *
		    sqrt(n / (n - (double)points->model->n_parameters));
	return CAUCHY_SCALE * fmax(sd, SCALE_FLOOR_C);
}

static enum bc_status solve_robust(
	struct bc_least_squares *problem, struct fit_points *points, double *inner, double *sum)
{
	enum bc_status status = BC_OK;

	for (int round = 0; round < SCALE_ROUNDS && !bc_failed(status); round++) {
		problem->robust_scale = residual_scale(points, inner);
		status = bc_least_squares_solve(problem, inner, sum);
	}
	return status;
}

/* Akaike's criterion with the correction for few points; k counts the error variance. */
static double corrected_akaike(double sum, double n, double k)
{
	return n * log(sum / n) + 2.0 * k + 2.0 * k * (k + 1.0) / (n - k - 1.0);
}

/* Squares in which a reading counts by its Cauchy weight, so that one that does not belong cannot
 * choose the family; families are compared at one scale. Below 0.1 degC, how finely a thermometer
 * is read, one fit is as good as another. */
static double criterion(const struct fit_points *points, const struct bc_fit *fit, double scale_c)
{
	double n = (double)points->n;
	double sum = 0.0;

	for (size_t i = 0; i < points->n; i++) {
		double r = fit->model->temp_k(fit->parameters, points->frac[i]) - points->temp_k[i];
		sum += r * r / (1.0 + r * r / (scale_c * scale_c));
	}
	return corrected_akaike(fmax(sum, n * 0.01), n, (double)fit->model->n_parameters + 1.0);
}

static enum bc_status fit_points(struct fit_points *points, struct bc_fit *fit)
{
	double inner[BC_MODEL_PARAMETERS_MAX] = {0};
	double sum = NAN;
	struct bc_least_squares problem = {
		.m = points->n,
		.p = points->model->n_parameters,
		.residuals = residuals,
		.context = points,
		.tolerance = FIT_TOLERANCE,
	};
	enum bc_status status = solve_plain(&problem, inner);
	if (!bc_failed(status))
		status = solve_robust(&problem, points, inner, &sum);
	if (bc_failed(status))
		return status;
	double n = (double)points->n;
	from_inner(points->model, inner, fit->parameters);
	fit->rms_c = sqrt(sum / n);
	fit->scale_c = residual_scale(points, inner);
	fit->aicc = criterion(points, fit, fit->scale_c);
	return isfinite(fit->rms_c) ? BC_OK : BC_NO_CONVERGENCE;
}

enum bc_status bc_fit_model(const struct bc_model *model, const double *pct, const double *temp_c,
	size_t n, struct bc_fit *fit)
{
	*fit = (struct bc_fit){
		.model = model, .rms_c = NAN, .scale_c = NAN, .aicc = NAN, .points = n};
	for (size_t i = 0; i < BC_MODEL_PARAMETERS_MAX; i++)
		fit->parameters[i] = NAN;
	fit->status = BC_TOO_FEW;
	while (n > 0 && pct[n - 1] >= 100.0) /* where a distribution has no temperature */
		n--;
	fit->points = n;
	if (n < model->n_parameters + 3)
		return fit->status;
	struct fit_points *points = bc_alloc(sizeof *points);
	if (!points)
		return fit->status = BC_NO_MEMORY;
	points->model = model;
	fit->status = take_points(points, pct, temp_c, n) ? fit_points(points, fit) : BC_BAD_DOMAIN;
	fit->points = points->n;
	bc_free(points);
	return fit->status;
}

static bool comes_before(const struct bc_fit *a, const struct bc_fit *b)
{
	if (bc_failed(a->status) || bc_failed(b->status))
		return !bc_failed(a->status) && bc_failed(b->status);
	return a->aicc < b->aicc;
}

/* The criterion of all families anew, at the largest of their scales: only what none of them
 * expects counts less. */
static enum bc_status compare_at_one_scale(
	const double *pct, const double *temp_c, size_t n, struct bc_fits *fits)
{
	double scale_c = 0.0;

	for (size_t m = 0; m < fits->n; m++) {
		if (!bc_failed(fits->items[m].status))
			scale_c = fmax(scale_c, fits->items[m].scale_c);
	}
	struct fit_points *points = bc_alloc(sizeof *points);
	if (!points)
		return BC_NO_MEMORY;
	while (n > 0 && pct[n - 1] >= 100.0)
		n--;
	if (scale_c > 0.0 && take_points(points, pct, temp_c, n)) {
		for (size_t m = 0; m < fits->n; m++) {
			if (!bc_failed(fits->items[m].status))
				fits->items[m].aicc = criterion(points, &fits->items[m], scale_c);
		}
	}
	bc_free(points);
	return BC_OK;
}

enum bc_status bc_fit_all(const double *pct, const double *temp_c, size_t n, struct bc_fits *fits)
{
	fits->n = 0;
	for (size_t m = 0; m < BC_FITS_MAX && bc_models[m]; m++) {
		struct bc_fit *fit = &fits->items[fits->n++];
		if (bc_fit_model(bc_models[m], pct, temp_c, n, fit) == BC_NO_MEMORY)
			return BC_NO_MEMORY;
	}
	if (compare_at_one_scale(pct, temp_c, n, fits) == BC_NO_MEMORY)
		return BC_NO_MEMORY;
	for (size_t m = 1; m < fits->n; m++) {
		struct bc_fit fit = fits->items[m];
		size_t place = m;
		for (; place > 0 && comes_before(&fit, &fits->items[place - 1]); place--)
			fits->items[place] = fits->items[place - 1];
		fits->items[place] = fit;
	}
	if (!bc_failed(fits->items[0].status))
		return BC_OK;
	for (size_t i = 0; i < fits->n; i++) {
		if (fits->items[i].status != BC_TOO_FEW)
			return fits->items[i].status;
	}
	return BC_TOO_FEW;
}

double bc_fit_temp_c(const struct bc_fit *fit, double pct)
{
	if (!fit || !fit->model || bc_failed(fit->status) || !(pct > 0.0 && pct < 100.0))
		return NAN;
	return bc_temp_c_from_k(fit->model->temp_k(fit->parameters, pct / 100.0));
}

double bc_fit_pct(const struct bc_fit *fit, double temp_c)
{
	double low = 1e-6;
	double high = 100.0 - 1e-6;

	if (!(bc_fit_temp_c(fit, low) <= temp_c && bc_fit_temp_c(fit, high) >= temp_c))
		return NAN;
	/* 45 halvings of 100 % leave less than 1e-11 % */
	for (int step = 0; step < 45; step++) {
		double middle = 0.5 * (low + high);
		if (bc_fit_temp_c(fit, middle) <= temp_c)
			low = middle;
		else
			high = middle;
	}
	return 0.5 * (low + high);
}
