/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How well a pair of boil-offs says what a still is worth: the fit once more with every reading a
 * little different, and with another flask. */
#include "still/calibration_spread.h"

#include <math.h>

#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>

#include "base/memory.h"
#include "still/flask.h"

#define SEED 20531
#define COLUMN_MODEL_LN 0.08
static const double flask_low = 1.5;
static const double flask_high = 2.0;
static const double flask_sigma = 0.2 / 0.25; /* of half of what lies between the two */
enum { REPEATS = 30 };

/* What one pair's fits share. */
struct job {
	const struct bc_calibration_pair *pair;
	struct bc_calibration_work *work;
	struct bc_inversion_work *inversion_work;
	struct bc_inversion *inversion;
	struct bc_slices feed;
	struct bc_calibration_run run;
	double to_pct; /* where the product ends by its own readings; NaN: it was said */
	gsl_rng *random;
};

static enum bc_status read_feed(struct job *job, double flask_plates)
{
	job->run = job->pair->run;
	job->run.flask = bc_flask_column();
	job->run.flask.effective_plates = flask_plates;
	job->run.feed = &job->feed;
	if (!isnan(job->to_pct))
		job->run.to.pct = job->to_pct;
	if (job->pair->feed == NULL) {
		job->feed = *job->pair->known;
		return BC_OK;
	}
	struct bc_inversion_input input = *job->pair->feed;
	input.apparatus = job->run.flask;
	enum bc_status status = bc_invert(&input, job->inversion_work, job->inversion);
	if (!bc_failed(status))
		job->feed = job->inversion->slices;
	return status;
}

static void shift_curve(gsl_rng *random, struct bc_calibration_curve *curve)
{
	for (size_t i = 0; i < curve->n; i++)
		curve->head_c[i] += gsl_ran_gaussian(random, curve->sigma_c[i]);
}

static void shift_turn(gsl_rng *random, struct bc_turn *turn)
{
	double shift_c = gsl_ran_gaussian(random, 1.0);
	if (turn->at_head && turn->sigma_c > 0.0)
		turn->head_c += shift_c * turn->sigma_c;
}

/* The pair as it might have been read. */
static enum bc_status shift_all(struct job *job)
{
	const struct bc_inversion_input *feed = job->pair->feed;
	double change_c[BC_INVERSION_READINGS_MAX];
	struct bc_tbp_curve curve;
	job->run.product = job->pair->run.product;
	job->run.heads = job->pair->run.heads;
	job->run.from = job->pair->run.from;
	job->run.to = job->pair->run.to;
	if (!isnan(job->to_pct))
		job->run.to.pct = job->to_pct;
	shift_curve(job->random, &job->run.product);
	shift_curve(job->random, &job->run.heads);
	shift_turn(job->random, &job->run.from);
	shift_turn(job->random, &job->run.to);
	if (feed == NULL)
		return BC_OK;
	for (size_t i = 0; i < feed->n; i++)
		change_c[i] = gsl_ran_gaussian(job->random, feed->head_sigma_c);
	double ibp_c = gsl_ran_gaussian(job->random, 1.0) * job->pair->ibp_sigma_c;
	return bc_inversion_shifted(job->inversion, change_c, NULL,
		isfinite(feed->ibp_c) ? ibp_c : 0.0, feed->sg, &curve, &job->feed);
}

/* Scatter of the fits about the one that was read, not about their mean: their bias is an error
 * too. */
static void repeat(struct job *job, struct bc_calibration_answer *answer)
{
	const struct bc_calibration_fit *fit = &answer->fit;
	double plates = 0.0;
	double carry = 0.0;
	for (int i = 0; i < REPEATS; i++) {
		struct bc_calibration_fit shifted;
		if (bc_failed(shift_all(job)) ||
			bc_failed(bc_calibrate(&job->run, fit, job->work, &shifted)))
			continue;
		plates += pow(log(shifted.plates / fit->plates), 2.0);
		carry += pow(shifted.carry_pct - fit->carry_pct, 2.0);
		answer->n_repeats++;
	}
	double n = (double)answer->n_repeats;
	answer->estimate.sigma_ln = 2 * answer->n_repeats < REPEATS
					    ? (double)INFINITY
					    : fmax(sqrt(plates / n), fit->plates_sigma_ln);
	answer->estimate.carry_sigma_pct = 2 * answer->n_repeats < REPEATS
						   ? (double)INFINITY
						   : fmax(sqrt(carry / n), fit->carry_sigma_pct);
}

/* Without product the flask plays no part when the feed is known; else it does through the feed. */
static void other_flasks(struct job *job, struct bc_calibration_answer *answer)
{
	double ln[2] = {NAN, NAN};
	for (int i = 0; i < 2; i++) {
		struct bc_calibration_fit fit;
		if (!bc_failed(read_feed(job, i == 0 ? flask_low : flask_high)) &&
			!bc_failed(bc_calibrate(&job->run, &answer->fit, job->work, &fit)))
			ln[i] = log(fit.plates);
	}
	double half = 0.5 * fabs(ln[1] - ln[0]);
	answer->estimate.model_ln =
		isnan(half) ? (double)INFINITY : hypot(flask_sigma * half, COLUMN_MODEL_LN);
}

/* Where the product ends, when nobody wrote it down: its own heavy readings say. */
static enum bc_status find_end(struct job *job, struct bc_calibration_fit *best)
{
	enum { ROUNDS = 9 };
	const double golden = 0.5 * (sqrt(5.0) - 1.0);
	double low = fmin(0.5 * (100.0 * best->from_frac + job->run.end_pct), 60.0);
	double high = job->run.end_pct;
	double at[2] = {high - golden * (high - low), low + golden * (high - low)};
	for (int round = 0; round < ROUNDS; round++) {
		struct bc_calibration_fit fit[2];
		for (int i = 0; i < 2; i++) {
			job->run.to.pct = at[i];
			if (bc_failed(bc_calibrate(&job->run, best, job->work, &fit[i])))
				fit[i].misfit = INFINITY;
		}
		int better = fit[1].misfit <= fit[0].misfit;
		if (better)
			low = at[0];
		else
			high = at[1];
		if (isfinite(fit[better].misfit))
			*best = fit[better];
		at[0] = high - golden * (high - low);
		at[1] = low + golden * (high - low);
	}
	job->to_pct = job->run.to.pct = 0.5 * (low + high);
	return bc_calibrate(&job->run, best, job->work, best);
}

enum bc_status bc_calibrate_pair(const struct bc_calibration_pair *pair,
	struct bc_calibration_work *work, struct bc_inversion_work *inversion_work,
	struct bc_calibration_answer *answer)
{
	struct job job = {
		.pair = pair, .work = work, .inversion_work = inversion_work, .to_pct = NAN};
	enum bc_status status = BC_NO_MEMORY;
	*answer = (struct bc_calibration_answer){0};
	job.inversion = bc_alloc(sizeof *job.inversion);
	job.random = gsl_rng_alloc(gsl_rng_mt19937);
	if (job.inversion == NULL || job.random == NULL)
		goto done;
	gsl_rng_set(job.random, SEED);
	status = read_feed(&job, bc_flask_column().effective_plates);
	answer->feed = job.feed;
	if (!bc_failed(status))
		status = bc_calibrate(&job.run, NULL, work, &answer->fit);
	if (!bc_failed(status) && pair->end_free && pair->run.product.n > 0)
		status = find_end(&job, &answer->fit);
	if (bc_failed(status))
		goto done;
	answer->estimate.plates = answer->fit.plates;
	answer->estimate.carry_pct = answer->fit.carry_pct;
	repeat(&job, answer);
	other_flasks(&job, answer);
	status = BC_OK;
done:
	if (job.random != NULL)
		gsl_rng_free(job.random);
	bc_free(job.inversion);
	return status;
}
