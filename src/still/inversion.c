/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a boil-off back to the oil: the smoothest true-boiling-point curve whose simulated boil-off
 * meets the readings. */
#include "still/inversion.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

#include <gsl/gsl_linalg.h>

#include "base/memory.h"
#include "base/stats.h"
#include "base/units.h"
#include "curve/conditions.h"

#define NORMAL_KPA 101.325
#define KNOTS BC_TBP_KNOTS_MAX
#define ROWS (2 * BC_INVERSION_READINGS_MAX)
#define RICHARDSON_PASSES 2
#define ROUNDS_MAX 10
#define ROUGH_ROUNDS 4
#define ROUGH_SLICES 24
#define HALVINGS_MAX 4
#define STEP_MAX_C 25.0
#define DONE_C 0.2
#define PROBE_AGAIN_C 6.0
#define RISE_MIN_C 0.3
#define HOTTEST_START_C 560.0 /* end of the molar mass formula, 833 K */
#define PROBE_C 1.0           /* for the numerical derivatives */
/* second differences are counted in tens of degrees; weights are tried from the greatest down, in
 * units of the square of sigma (at least 0.3 degC) */
#define DIFFERENCE_C 10.0
#define SIGMA_MIN_C 0.3
#define WEIGHT_MAX 100.0
#define WEIGHT_MIN 0.1
#define WEIGHT_RATIO 0.5
#define WEIGHT_FALL_MAX 8.0 /* in one round: the coarse features first */
#define DISCREPANCY 1.1

struct bc_inversion_work {
	struct bc_still_work *still;
	struct bc_run *run;
};

/* One inversion on its way. */
struct search {
	const struct bc_inversion_input *input;
	struct bc_inversion_work *work;
	struct bc_column apparatus;
	enum bc_front front;
	enum bc_run_steps steps;
	size_t slices;
	bool fine; /* rough derivatives did not lead there */
	double stop_frac;
	size_t n;     /* knots */
	size_t fixed; /* 1: knot 0 is held by the IBP */
	double pct[KNOTS];
	double probit[KNOTS];
	double temp_c[KNOTS];
	size_t rows;                /* head readings, then pot readings */
	double weight[ROWS];        /* 1/sigma, 0 where not read */
	double residual[ROWS];      /* read less simulated, times weight */
	double answer[ROWS][KNOTS]; /* d simulated / d knot, times weight */
	double bend[KNOTS][KNOTS];  /* second differences of the knots, rows 1..n-2 */
	double smoothness;
	double weight_last;
	double cost;
};

struct bc_inversion_work *bc_inversion_work_new(void)
{
	struct bc_inversion_work *work = bc_alloc(sizeof *work);
	if (!work)
		return NULL;
	work->still = bc_still_work_new();
	work->run = bc_run_new();
	if (work->still && work->run)
		return work;
	bc_inversion_work_free(work);
	return NULL;
}

void bc_inversion_work_free(struct bc_inversion_work *work)
{
	if (!work)
		return;
	bc_still_work_free(work->still);
	bc_run_free(work->run);
	bc_free(work);
}

enum bc_front bc_front_of(const struct bc_column *apparatus)
{
	double plates = apparatus->effective_plates;
	if (!isnan(plates))
		return plates > 2.5    ? BC_FRONT_TRUE
		       : plates >= 1.4 ? BC_FRONT_FLASK
				       : BC_FRONT_FREE;
	if (!(apparatus->stages >= 2.0 && apparatus->reflux >= 0.25))
		return BC_FRONT_FREE;
	return apparatus->stages >= 3.0 && apparatus->reflux >= 2.0 ? BC_FRONT_TRUE
								    : BC_FRONT_FLASK;
}

/* ---- setting up */

static enum bc_status check(const struct bc_inversion_input *input)
{
	double before = 0.0;
	if (input->n < 3)
		return BC_TOO_FEW;
	if (input->n > BC_INVERSION_READINGS_MAX || !(input->sg > 0.0) ||
		!(input->head_sigma_c > 0.0) || (input->pot_c && !(input->pot_sigma_c > 0.0)))
		return BC_BAD_DOMAIN;
	for (size_t i = 0; i < input->n; i++) {
		if (!(input->pct[i] > before && input->pct[i] <= 99.0) ||
			!isfinite(input->head_c[i]))
			return BC_BAD_DOMAIN;
		before = input->pct[i];
	}
	return BC_OK;
}

static void add_knot(struct search *s, double pct, double place_pct)
{
	s->pct[s->n] = pct;
	s->probit[s->n++] = bc_probit_from_pct(place_pct);
}

static enum bc_status place_knots(struct search *s)
{
	static const double inner_pct[] = {
		5.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0, 95.0, 98.0, 99.5};
	double ibp_c = s->input->ibp_c;
	s->fixed = s->front == BC_FRONT_FREE ? 0 : 1;
	switch (s->front) {
	case BC_FRONT_FLASK:
		add_knot(s, 0.0, 2.3); /* as bc_tbp_curve_from_points places it */
		if (bc_failed(bc_tbp_from_d86_c(0.0, ibp_c, &s->temp_c[0])))
			return BC_BAD_DOMAIN;
		break;
	case BC_FRONT_TRUE:
		add_knot(s, 0.0, 0.5);
		s->temp_c[0] = bc_true_from_corrected(ibp_c);
		add_knot(s, 2.0, 2.0);
		break;
	case BC_FRONT_FREE:
		add_knot(s, 0.5, 0.5);
		add_knot(s, 2.0, 2.0);
		break;
	}
	for (size_t i = 0; i < sizeof inner_pct / sizeof inner_pct[0]; i++)
		add_knot(s, inner_pct[i], inner_pct[i]);
	/* second difference in probit, as if the knots were evenly apart */
	for (size_t k = 1; k + 1 < s->n; k++) {
		double left = s->probit[k] - s->probit[k - 1];
		double right = s->probit[k + 1] - s->probit[k];
		double scale = 0.5 * (left + right) / DIFFERENCE_C;
		s->bend[k][k - 1] = scale / left;
		s->bend[k][k] = -scale / left - scale / right;
		s->bend[k][k + 1] = scale / right;
	}
	return BC_OK;
}

/* Straight in probit through the readings and, where it is held, the front knot; straight on beyond
 * them. */
static double read_true_c(const struct search *s, double probit)
{
	const struct bc_inversion_input *input = s->input;
	double z[BC_INVERSION_READINGS_MAX + 1] = {0.0};
	double t[BC_INVERSION_READINGS_MAX + 1] = {0.0};
	size_t n = 0;
	if (s->fixed && s->probit[0] < bc_probit_from_pct(input->pct[0])) {
		z[n] = s->probit[0];
		t[n++] = s->temp_c[0];
	}
	for (size_t i = 0; i < input->n; i++) {
		z[n] = bc_probit_from_pct(input->pct[i]);
		t[n++] = bc_true_from_corrected(input->head_c[i]);
	}
	size_t i = 0;
	while (i + 2 < n && z[i + 1] < probit)
		i++;
	return t[i] + (probit - z[i]) * (t[i + 1] - t[i]) / (z[i + 1] - z[i]);
}

/* Pools knots that do not rise (pool-adjacent-violators) and keeps them RISE_MIN_C apart; the held
 * knot stays. */
static void make_rising(const struct search *s, double *temp_c)
{
	double mean[KNOTS];
	size_t count[KNOTS];
	size_t blocks = 0;
	for (size_t k = s->fixed; k < s->n; k++) {
		mean[blocks] = temp_c[k];
		count[blocks++] = 1;
		while (blocks > 1 && mean[blocks - 1] <= mean[blocks - 2]) {
			double a = (double)count[blocks - 2];
			double b = (double)count[blocks - 1];
			mean[blocks - 2] = (a * mean[blocks - 2] + b * mean[blocks - 1]) / (a + b);
			count[blocks - 2] += count[blocks - 1];
			blocks--;
		}
	}
	size_t k = s->fixed;
	for (size_t b = 0; b < blocks; b++)
		for (size_t i = 0; i < count[b]; i++, k++) {
			temp_c[k] = mean[b];
			if (k > 0)
				temp_c[k] = fmax(temp_c[k], temp_c[k - 1] + RISE_MIN_C);
		}
}

static double read_from_pct(const struct search *s) { return s->fixed ? 0.0 : s->input->pct[0]; }

static enum bc_status build(const struct search *s, const double *temp_c, double sg,
	struct bc_tbp_curve *curve, struct bc_slices *slices)
{
	enum bc_status status =
		bc_tbp_curve_from_points(s->pct, temp_c, s->n, s->front == BC_FRONT_TRUE, curve);
	if (bc_failed(status))
		return status;
	return bc_slices_from_tbp(
		curve, sg, s->slices, read_from_pct(s), s->input->pct[s->input->n - 1], slices);
}

/* ---- forward */

static enum bc_status simulate(struct search *s, const double *temp_c, double *simulated)
{
	struct bc_tbp_curve curve;
	struct bc_slices slices;
	const struct bc_inversion_input *input = s->input;
	struct bc_run *run = s->work->run;
	struct bc_run_options options = {
		.stop_frac = s->stop_frac, .pot_limit_c = INFINITY, .steps = s->steps};
	enum bc_status status = build(s, temp_c, input->sg, &curve, &slices);
	if (!bc_failed(status))
		status = bc_column_run(&slices, &s->apparatus, &options, s->work->still, run);
	if (bc_failed(status))
		return status;
	for (size_t i = 0; i < input->n; i++) {
		struct bc_run_point point = bc_run_at(run, input->pct[i] / 100.0);
		simulated[i] = bc_corrected_from_true(point.head_c);
		if (input->pot_c)
			simulated[input->n + i] = point.pot_c;
	}
	return BC_OK;
}

static double reading(const struct search *s, size_t row)
{
	size_t n = s->input->n;
	return row < n ? s->input->head_c[row] : s->input->pot_c[row - n];
}

static enum bc_status find_residuals(struct search *s, const double *temp_c, double *residual)
{
	double simulated[ROWS] = {0.0};
	enum bc_status status = simulate(s, temp_c, simulated);
	if (bc_failed(status))
		return status;
	for (size_t r = 0; r < s->rows; r++)
		residual[r] =
			s->weight[r] > 0.0 ? s->weight[r] * (reading(s, r) - simulated[r]) : 0.0;
	return BC_OK;
}

static double cost_of(const struct search *s, const double *temp_c, const double *residual)
{
	double sum = 0.0;
	for (size_t r = 0; r < s->rows; r++)
		sum += residual[r] * residual[r];
	for (size_t k = 1; k + 1 < s->n; k++) {
		double bend = s->bend[k][k - 1] * temp_c[k - 1] + s->bend[k][k] * temp_c[k] +
			      s->bend[k][k + 1] * temp_c[k + 1];
		sum += s->smoothness * bend * bend;
	}
	return sum;
}

static enum bc_status probe_knots(struct search *s)
{
	double moved_c[KNOTS];
	double moved[ROWS];
	double unmoved[ROWS];
	enum bc_status first = find_residuals(s, s->temp_c, unmoved);
	if (bc_failed(first))
		return first;
	for (size_t k = 0; k < s->n; k++) {
		memcpy(moved_c, s->temp_c, sizeof moved_c);
		/* never past a neighbour, which would be pooled */
		double room = k + 1 < s->n ? 0.5 * (s->temp_c[k + 1] - s->temp_c[k]) : PROBE_C;
		double probe = fmin(PROBE_C, room);
		moved_c[k] += probe;
		enum bc_status status = find_residuals(s, moved_c, moved);
		if (status == BC_BAD_DOMAIN && k > 0) {
			/* no oil is that heavy: look the other way */
			probe = -fmin(PROBE_C, 0.5 * (s->temp_c[k] - s->temp_c[k - 1]));
			moved_c[k] = s->temp_c[k] + probe;
			status = find_residuals(s, moved_c, moved);
		}
		if (bc_failed(status))
			return status;
		for (size_t r = 0; r < s->rows; r++)
			s->answer[r][k] = (unmoved[r] - moved[r]) / probe;
	}
	return BC_OK;
}

/* Derivatives by one run a knot; the held knot's too, for the answer to the IBP. A rough run tells
 * differences nearly as well as a fine one. */
static enum bc_status find_answers(struct search *s)
{
	s->steps = s->fine ? BC_STEPS_COARSE : BC_STEPS_ROUGH;
	/* more plates, sharper slopes */
	bool few = !s->fine && !isnan(s->apparatus.effective_plates);
	s->slices = few ? ROUGH_SLICES : BC_SLICES_DEFAULT;
	enum bc_status status = probe_knots(s);
	s->steps = BC_STEPS_COARSE;
	s->slices = BC_SLICES_DEFAULT;
	return status;
}

/* ---- the normal equations over the free knots */

struct normal {
	size_t n;
	double matrix[KNOTS * KNOTS];
	double right[KNOTS];
};

static void fill_normal(const struct search *s, double smoothness, struct normal *normal)
{
	size_t f = s->fixed;
	normal->n = s->n - f;
	double bent[KNOTS] = {0.0};
	for (size_t k = 1; k + 1 < s->n; k++)
		for (size_t j = k - 1; j <= k + 1; j++)
			bent[k] += s->bend[k][j] * s->temp_c[j];
	for (size_t a = 0; a < normal->n; a++) {
		double right = 0.0;
		for (size_t r = 0; r < s->rows; r++)
			right += s->answer[r][a + f] * s->residual[r];
		for (size_t k = 1; k + 1 < s->n; k++)
			right -= smoothness * s->bend[k][a + f] * bent[k];
		normal->right[a] = right;
		for (size_t b = 0; b < normal->n; b++) {
			double sum = 0.0;
			for (size_t r = 0; r < s->rows; r++)
				sum += s->answer[r][a + f] * s->answer[r][b + f];
			for (size_t k = 1; k + 1 < s->n; k++)
				sum += smoothness * s->bend[k][a + f] * s->bend[k][b + f];
			normal->matrix[a * normal->n + b] = sum;
		}
		normal->matrix[a * normal->n + a] += 1e-9;
	}
}

/* Steps of the free knots, into step[fixed..]. */
static bool solve_normal(const struct search *s, struct normal *normal, double *step)
{
	gsl_matrix_view matrix = gsl_matrix_view_array(normal->matrix, normal->n, normal->n);
	gsl_vector_view right = gsl_vector_view_array(normal->right, normal->n);
	if (gsl_linalg_cholesky_decomp1(&matrix.matrix) != GSL_SUCCESS ||
		gsl_linalg_cholesky_svx(&matrix.matrix, &right.vector) != GSL_SUCCESS)
		return false;
	memset(step, 0, KNOTS * sizeof *step);
	memcpy(step + s->fixed, normal->right, normal->n * sizeof *step);
	return true;
}

/* How well the readings would be met after a step, were they linear: rms of the weighted rows. */
static double promised(const struct search *s, const double *step)
{
	double sum = 0.0;
	size_t count = 0;
	for (size_t r = 0; r < s->rows; r++) {
		if (!(s->weight[r] > 0.0))
			continue;
		double left = s->residual[r];
		for (size_t k = s->fixed; k < s->n; k++)
			left -= s->answer[r][k] * step[k];
		sum += left * left;
		count++;
	}
	return sqrt(sum / (double)count);
}

/* The step with the greatest smoothness that still meets the readings; *settled when no less
 * smoothness is wanted than a round may come down by. */
static bool choose_step(struct search *s, double *step, bool *settled)
{
	double sigma = fmax(s->input->head_sigma_c, SIGMA_MIN_C);
	double scale = sigma * sigma;
	double target = DISCREPANCY * fmax(1.0, SIGMA_MIN_C / s->input->head_sigma_c);
	double least = fmax(s->weight_last / WEIGHT_FALL_MAX, WEIGHT_MIN);
	struct normal normal;
	double weight = WEIGHT_MAX;
	for (;;) {
		s->smoothness = weight * scale;
		fill_normal(s, s->smoothness, &normal);
		if (!solve_normal(s, &normal, step))
			return false;
		bool met = promised(s, step) <= target;
		if (!met && weight > least) {
			weight = fmax(weight * WEIGHT_RATIO, least);
			continue;
		}
		*settled = met || weight <= WEIGHT_MIN;
		s->weight_last = weight;
		return true;
	}
}

/* ---- the search */

/* Adds what the readings miss to the curve; quick and rough. */
static enum bc_status approach(struct search *s)
{
	double simulated[ROWS];
	for (size_t k = s->fixed; k < s->n; k++)
		s->temp_c[k] = fmin(read_true_c(s, s->probit[k]), HOTTEST_START_C);
	make_rising(s, s->temp_c);
	for (int pass = 0; pass < RICHARDSON_PASSES; pass++) {
		enum bc_status status = simulate(s, s->temp_c, simulated);
		if (bc_failed(status))
			return status;
		const struct bc_inversion_input *input = s->input;
		for (size_t k = s->fixed; k < s->n; k++) {
			/* the reading nearest in percent */
			size_t near = 0;
			for (size_t i = 1; i < input->n; i++)
				if (fabs(input->pct[i] - s->pct[k]) <
					fabs(input->pct[near] - s->pct[k]))
					near = i;
			s->temp_c[k] += input->head_c[near] - simulated[near];
		}
		make_rising(s, s->temp_c);
	}
	return find_residuals(s, s->temp_c, s->residual);
}

/* Goes along step, halving it while the cost does not fall; *moved is the greatest change. */
static enum bc_status go(struct search *s, const double *step, double *moved)
{
	double trial_c[KNOTS] = {0.0};
	double residual[ROWS] = {0.0};
	s->cost = cost_of(s, s->temp_c, s->residual);
	*moved = 0.0;
	for (int halving = 0; halving <= HALVINGS_MAX; halving++) {
		double share = ldexp(1.0, -halving);
		for (size_t k = 0; k < s->n; k++)
			trial_c[k] =
				s->temp_c[k] + share * fmin(fmax(step[k], -STEP_MAX_C), STEP_MAX_C);
		make_rising(s, trial_c);
		enum bc_status status = find_residuals(s, trial_c, residual);
		if (status == BC_NO_MEMORY)
			return status;
		/* no oil has such an end: as bad as can be */
		double cost = bc_failed(status) ? (double)INFINITY : cost_of(s, trial_c, residual);
		if (!(cost < s->cost))
			continue;
		for (size_t k = 0; k < s->n; k++)
			*moved = fmax(*moved, fabs(trial_c[k] - s->temp_c[k]));
		memcpy(s->temp_c, trial_c, sizeof trial_c);
		memcpy(s->residual, residual, sizeof residual);
		s->cost = cost;
		return BC_OK;
	}
	return BC_OK;
}

static enum bc_status search(struct search *s, int *rounds)
{
	double step[KNOTS];
	double moved = INFINITY;
	bool settled = false;
	enum bc_status status = approach(s);
	s->weight_last = WEIGHT_MAX;
	for (*rounds = 0; *rounds < ROUNDS_MAX && (moved > DONE_C || !settled); ++*rounds) {
		s->fine = *rounds >= ROUGH_ROUNDS;
		/* derivatives hold over a small way */
		if (!bc_failed(status) && (moved > PROBE_AGAIN_C || s->fine))
			status = find_answers(s);
		if (bc_failed(status))
			return status;
		if (!choose_step(s, step, &settled))
			return BC_NO_CONVERGENCE;
		status = go(s, step, &moved);
	}
	return status;
}

/* ---- the result */

/* (matrix)^-1 times the pull of each reading and of the held knot, by one solution each. */
static bool fill_gains(struct search *s, struct bc_inversion *inversion)
{
	struct normal normal;
	double column[KNOTS];
	fill_normal(s, s->smoothness, &normal);
	gsl_matrix_view matrix = gsl_matrix_view_array(normal.matrix, normal.n, normal.n);
	gsl_vector_view view = gsl_vector_view_array(column, normal.n);
	size_t f = s->fixed;
	if (gsl_linalg_cholesky_decomp1(&matrix.matrix) != GSL_SUCCESS)
		return false;
	for (size_t r = 0; r < s->rows; r++) {
		for (size_t a = 0; a < normal.n; a++)
			column[a] = s->answer[r][a + f] * s->weight[r];
		gsl_linalg_cholesky_svx(&matrix.matrix, &view.vector);
		for (size_t a = 0; a < normal.n; a++) {
			if (r < s->input->n)
				inversion->head_gain[a + f][r] = column[a];
			else
				inversion->pot_gain[a + f][r - s->input->n] = column[a];
		}
	}
	if (f == 0)
		return true;
	double low = NAN;
	double high = NAN;
	double ibp_c = s->input->ibp_c;
	if (s->front == BC_FRONT_FLASK) {
		bc_tbp_from_d86_c(0.0, ibp_c - 0.5, &low);
		bc_tbp_from_d86_c(0.0, ibp_c + 0.5, &high);
	} else {
		low = bc_true_from_corrected(ibp_c - 0.5);
		high = bc_true_from_corrected(ibp_c + 0.5);
	}
	for (size_t a = 0; a < normal.n; a++) {
		column[a] = 0.0;
		for (size_t r = 0; r < s->rows; r++)
			column[a] -= s->answer[r][a + f] * s->answer[r][0];
		for (size_t k = 1; k + 1 < s->n; k++)
			column[a] -= s->smoothness * s->bend[k][a + f] * s->bend[k][0];
	}
	gsl_linalg_cholesky_svx(&matrix.matrix, &view.vector);
	inversion->ibp_gain[0] = high - low;
	for (size_t a = 0; a < normal.n; a++)
		inversion->ibp_gain[a + f] = column[a] * (high - low);
	return true;
}

static enum bc_status finish(struct search *s, struct bc_inversion *inversion)
{
	const struct bc_inversion_input *input = s->input;
	s->steps = BC_STEPS_NORMAL;
	enum bc_status status = find_residuals(s, s->temp_c, s->residual);
	if (!bc_failed(status))
		status = build(s, s->temp_c, input->sg, &inversion->curve, &inversion->slices);
	if (bc_failed(status))
		return status;
	double sum = 0.0;
	size_t within = 0;
	for (size_t i = 0; i < input->n; i++) {
		double missed_c = s->residual[i] / s->weight[i];
		sum += missed_c * missed_c;
	}
	for (size_t k = 0; k < s->n; k++)
		within += s->pct[k] >= input->pct[0] && s->pct[k] <= input->pct[input->n - 1];
	inversion->fit_rms_c = sqrt(sum / (double)input->n);
	inversion->smoothness = s->smoothness;
	inversion->n_readings = input->n;
	inversion->read_from_pct = read_from_pct(s);
	inversion->read_to_pct = input->pct[input->n - 1];
	inversion->n_knots = s->n;
	inversion->front = s->front;
	memcpy(inversion->knot_pct, s->pct, sizeof s->pct);
	memcpy(inversion->knot_c, s->temp_c, sizeof s->temp_c);
	if (!fill_gains(s, inversion))
		return BC_NO_CONVERGENCE;
	return 2 * within < s->n ? BC_EXTRAPOLATED : BC_OK;
}

enum bc_status bc_invert(const struct bc_inversion_input *input, struct bc_inversion_work *work,
	struct bc_inversion *inversion)
{
	memset(inversion, 0, sizeof *inversion);
	inversion->fit_rms_c = NAN;
	enum bc_status status = check(input);
	if (bc_failed(status))
		return status;
	struct search s = {
		.input = input,
		.work = work,
		.apparatus = input->apparatus,
		.front = isfinite(input->ibp_c) ? input->front : BC_FRONT_FREE,
		.steps = BC_STEPS_COARSE,
		.slices = BC_SLICES_DEFAULT,
		.stop_frac = fmax(input->pct[input->n - 1] / 100.0, 0.01),
		.rows = input->pot_c ? 2 * input->n : input->n,
	};
	s.apparatus.pressure_kpa = NORMAL_KPA;
	for (size_t r = 0; r < s.rows; r++)
		s.weight[r] = !isfinite(reading(&s, r)) ? 0.0
			      : r < input->n            ? 1.0 / input->head_sigma_c
							: 1.0 / input->pot_sigma_c;
	status = place_knots(&s);
	if (!bc_failed(status))
		status = search(&s, &inversion->rounds);
	if (!bc_failed(status))
		status = finish(&s, inversion);
	if (bc_failed(status)) {
		inversion->curve.n = 0;
		inversion->slices.n = 0;
	}
	return status;
}

enum bc_status bc_inversion_shifted(const struct bc_inversion *inversion, const double *head_change,
	const double *pot_change, double ibp_change, double sg, struct bc_tbp_curve *curve,
	struct bc_slices *slices)
{
	double temp_c[KNOTS];
	for (size_t k = 0; k < inversion->n_knots; k++) {
		temp_c[k] = inversion->knot_c[k] + inversion->ibp_gain[k] * ibp_change;
		for (size_t i = 0; i < inversion->n_readings; i++) {
			if (head_change)
				temp_c[k] += inversion->head_gain[k][i] * head_change[i];
			if (pot_change)
				temp_c[k] += inversion->pot_gain[k][i] * pot_change[i];
		}
	}
	enum bc_status status = bc_tbp_curve_from_points(inversion->knot_pct, temp_c,
		inversion->n_knots, inversion->front == BC_FRONT_TRUE, curve);
	if (bc_failed(status))
		return status;
	return bc_slices_from_tbp(curve, sg, BC_SLICES_DEFAULT, inversion->read_from_pct,
		inversion->read_to_pct, slices);
}
