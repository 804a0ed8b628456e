/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_FIT_H
#define BC_CURVE_FIT_H

#include <stddef.h>

#include "base/status.h"

#define BC_MODEL_PARAMETERS_MAX 4

/* A published family of boiling curves T(x), x the fraction boiled off (0..1), T in K. */
struct bc_model {
	const char *name;   /* for people and JSON */
	const char *source; /* paper or book, equation */
	size_t n_parameters;
	const char *parameter_names[BC_MODEL_PARAMETERS_MAX];
	double (*temp_k)(const double *parameters, double frac);
	unsigned positive; /* bit i: parameter i must stay above 0 */
	/* Start number k (0, 1, ...) from the points; returns 0 when there are no more starts. */
	int (*start)(
		size_t k, const double *frac, const double *temp_k, size_t n, double *parameters);
};

/* All families, NULL last: Riazi's three-parameter distribution first. */
extern const struct bc_model *const bc_models[];

struct bc_fit {
	const struct bc_model *model; /* NULL: none */
	double parameters[BC_MODEL_PARAMETERS_MAX];
	double rms_c;   /* plain root mean square of the residuals */
	double scale_c; /* of the robust loss [degC] */
	double aicc;    /* on squares weighted by the robust loss */
	size_t points;  /* that were fitted */
	enum bc_status status;
};

#define BC_FITS_MAX 8
struct bc_fits {
	struct bc_fit items[BC_FITS_MAX]; /* best (least AICc) first, failed ones last */
	size_t n;
};

/*
 * bc_fit_model - one family by GSL's trust-region least squares, several starts, robust (Cauchy)
 * loss; IBP and FBP must not be among the points. pct rises from above 0; readings at 100 are left
 * out; of more than 400 points about 200 are used. BC_TOO_FEW when n < parameters + 3 (AICc needs n
 * > k + 1 with k counting the error variance too), BC_NO_CONVERGENCE, BC_BAD_DOMAIN, BC_NO_MEMORY.
 * Source: loss and its scale 2.385 (95 % efficiency), Holland & Welsch 1977; AICc, Hurvich & Tsai
 * 1989; both from memory.
 */
enum bc_status bc_fit_model(const struct bc_model *model, const double *pct, const double *temp_c,
	size_t n, struct bc_fit *fit);

/* All families; BC_TOO_FEW or BC_NO_CONVERGENCE when not one could be fitted, fits->n then still
 * counting the failed ones, each with its status. */
enum bc_status bc_fit_all(const double *pct, const double *temp_c, size_t n, struct bc_fits *fits);

double bc_fit_temp_c(const struct bc_fit *fit, double pct); /* NaN outside 0 < pct < 100 */
double bc_fit_pct(const struct bc_fit *fit, double temp_c);

/*
 * The wrapper itself, for anybody's least squares: residuals r[m] of p parameters, from start in
 * parameters to the solution. robust != 0 applies Cauchy weights of that scale by iterated
 * reweighting. *sum_square is the plain sum of squares.
 */
struct bc_least_squares {
	size_t m;
	size_t p;
	void (*residuals)(const double *parameters, double *r, void *context);
	void *context;
	double robust_scale; /* 0: plain */
	/* A step that lowers the sum by less than this share is the last; 0: to the last digit. A
	 * ridge along which parameters run away while the curve stands still then counts as
	 * solved. */
	double tolerance;
};
enum bc_status bc_least_squares_solve(
	const struct bc_least_squares *problem, double *parameters, double *sum_square);

#endif
