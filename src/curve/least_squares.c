/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Nonlinear least squares by GSL's trust region with finite differences, plain or with Cauchy
 * weights by iterated reweighting. */
#include <gsl/gsl_blas.h>
#include <gsl/gsl_multifit_nlinear.h>
#include <math.h>

#include "base/memory.h"
#include "curve/fit.h"

enum { STEPS_MAX = 200, ROUGH_STEPS_MAX = 40, REWEIGHTINGS_MAX = 30 };

/* Where a model has no value the residual is this large, so that the step is refused. */
#define HOPELESS 1e6

/* What a callback of GSL is given. */
struct callback {
	const struct bc_least_squares *problem;
	double *parameters;
	double *residuals;
};

/* f(x) for GSL, whose vectors may be columns of a matrix. */
static int fill_residuals(const gsl_vector *x, void *context, gsl_vector *f)
{
	const struct callback *callback = context;
	const struct bc_least_squares *problem = callback->problem;

	for (size_t i = 0; i < problem->p; i++)
		callback->parameters[i] = gsl_vector_get(x, i);
	problem->residuals(callback->parameters, callback->residuals, problem->context);
	for (size_t i = 0; i < problem->m; i++) {
		double r = callback->residuals[i];
		gsl_vector_set(f, i, isfinite(r) ? r : HOPELESS);
	}
	return GSL_SUCCESS;
}

static double sum_of_squares(const gsl_multifit_nlinear_workspace *work)
{
	const gsl_vector *r = gsl_multifit_nlinear_residual(work);
	double sum;

	gsl_blas_ddot(r, r, &sum);
	return sum;
}

/* Steps until nothing moves any more. No further step that lowers the sum is convergence too. */
static enum bc_status descend(gsl_multifit_nlinear_workspace *work, double tolerance)
{
	const int steps_max = tolerance > 0.0 ? ROUGH_STEPS_MAX : STEPS_MAX;
	const int idle_max = tolerance > 0.0 ? 1 : 2;
	double sum = sum_of_squares(work);
	double gain = 1.0;
	int idle = 0;

	for (int step = 0; step < steps_max; step++) {
		int info = 0;
		int code = gsl_multifit_nlinear_iterate(work);
		double next = sum_of_squares(work);
		if (!isfinite(next))
			return BC_NO_CONVERGENCE;
		if (code == GSL_ENOPROG)
			return BC_OK;
		if (code != GSL_SUCCESS)
			return bc_status_from_gsl(code);
		gain = sum > 0.0 ? (sum - next) / sum : 0.0;
		idle = gain <= fmax(tolerance, 1e-12) ? idle + 1 : 0;
		if (idle >= idle_max ||
			gsl_multifit_nlinear_test(1e-10, 1e-12, 0.0, &info, work) == GSL_SUCCESS)
			return BC_OK;
		sum = next;
	}
	return gain <= 100.0 * tolerance ? BC_OK : BC_NO_CONVERGENCE;
}

static void cauchy_weights(const struct bc_least_squares *problem, const double *parameters,
	double *r, gsl_vector *weight)
{
	problem->residuals(parameters, r, problem->context);
	for (size_t i = 0; i < problem->m; i++) {
		double u = r[i] / problem->robust_scale;
		gsl_vector_set(weight, i, isfinite(u) ? 1.0 / (1.0 + u * u) : 0.0);
	}
}

static int unmoved(const gsl_vector *before, const gsl_vector *after, double share)
{
	for (size_t i = 0; i < before->size; i++) {
		double a = gsl_vector_get(before, i);
		double b = gsl_vector_get(after, i);
		if (!(fabs(a - b) <= share * (share + fabs(b))))
			return 0;
	}
	return 1;
}

/* The weights follow the residuals until the solution stays where it is; a solution that still
 * creeps after the last round stands, since every round lowered the loss. */
static enum bc_status reweigh(const struct bc_least_squares *problem, gsl_multifit_nlinear_fdf *fdf,
	gsl_multifit_nlinear_workspace *work, gsl_vector *x, gsl_vector *weight, double *r)
{
	for (int round = 0; round < REWEIGHTINGS_MAX; round++) {
		cauchy_weights(problem, x->data, r, weight);
		if (gsl_multifit_nlinear_winit(x, weight, fdf, work) != GSL_SUCCESS)
			return BC_NO_CONVERGENCE;
		enum bc_status status = descend(work, problem->tolerance);
		if (bc_failed(status))
			return status;
		const gsl_vector *position = gsl_multifit_nlinear_position(work);
		int done = unmoved(x, position, fmax(problem->tolerance, 1e-7));
		gsl_vector_memcpy(x, position);
		if (done)
			break;
	}
	return BC_OK;
}

static double plain_sum(const struct bc_least_squares *problem, const double *parameters, double *r)
{
	double sum = 0.0;

	problem->residuals(parameters, r, problem->context);
	for (size_t i = 0; i < problem->m; i++)
		sum += r[i] * r[i];
	return sum;
}

enum bc_status bc_least_squares_solve(
	const struct bc_least_squares *problem, double *parameters, double *sum_square)
{
	*sum_square = NAN;
	if (problem->p == 0 || problem->m < problem->p)
		return BC_TOO_FEW;
	gsl_multifit_nlinear_parameters settings = gsl_multifit_nlinear_default_parameters();
	if (!(problem->tolerance > 0.0)) {
		settings.fdtype = GSL_MULTIFIT_NLINEAR_CTRDIFF;
		/* near the cube root of the machine's precision, best for a central difference */
		settings.h_df = 1e-5;
	}
	struct callback callback = {
		.problem = problem,
		.parameters = bc_alloc_array(problem->p, sizeof *callback.parameters),
		.residuals = bc_alloc_array(problem->m, sizeof *callback.residuals),
	};
	gsl_multifit_nlinear_fdf fdf = {
		.f = fill_residuals,
		.n = problem->m,
		.p = problem->p,
		.params = &callback,
	};
	gsl_multifit_nlinear_workspace *work = gsl_multifit_nlinear_alloc(
		gsl_multifit_nlinear_trust, &settings, problem->m, problem->p);
	gsl_vector *x = gsl_vector_alloc(problem->p);
	gsl_vector *weight = gsl_vector_alloc(problem->m);
	enum bc_status status = BC_NO_MEMORY;
	if (!work || !x || !weight || !callback.parameters || !callback.residuals)
		goto done;
	for (size_t i = 0; i < problem->p; i++)
		gsl_vector_set(x, i, parameters[i]);
	status = bc_status_from_gsl(gsl_multifit_nlinear_init(x, &fdf, work));
	if (bc_failed(status))
		goto done;
	status = descend(work, problem->tolerance);
	if (bc_failed(status))
		goto done;
	gsl_vector_memcpy(x, gsl_multifit_nlinear_position(work));
	if (problem->robust_scale > 0.0)
		status = reweigh(problem, &fdf, work, x, weight, callback.residuals);
	if (bc_failed(status))
		goto done;
	for (size_t i = 0; i < problem->p; i++)
		parameters[i] = gsl_vector_get(x, i);
	*sum_square = plain_sum(problem, parameters, callback.residuals);
done:
	if (work)
		gsl_multifit_nlinear_free(work);
	gsl_vector_free(x);
	gsl_vector_free(weight);
	bc_free(callback.parameters);
	bc_free(callback.residuals);
	return status;
}
