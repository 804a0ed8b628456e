/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How well a pair of boil-offs gives back the still that made it. Simulated pairs: oils of curve
 * families that the program does not fit with, real stages with reflux as well as effective plates,
 * a flask that is not the one assumed, readings with error. Prints bias, scatter and how often the
 * stated 95 % range holds the truth. calibration_study [PAIRS-PER-CASE]
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>

#include "base/stats.h"
#include "base/units.h"
#include "curve/conditions.h"
#include "fuel/tbp.h"
#include "still/calibration_spread.h"
#include "still/flask.h"
#include "still/tap.h"

enum { READINGS = 11, SLICES = 60 };
static const double read_pct[READINGS] = {5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95};

typedef double oil_function(double pct);
static double weibull_c(double pct) { return 71.0 + 223.0 * pow(-log1p(-pct / 100.0), 1.0 / 1.9); }
static double log_logistic_c(double pct) { return 90.0 + 150.0 * pow(pct / (100.0 - pct), 0.28); }
static double straight_c(double pct) { return 214.0 + 62.0 * bc_probit_from_pct(pct); }
static oil_function *const oils[] = {weibull_c, log_logistic_c, straight_c};
enum { OILS = sizeof oils / sizeof oils[0] };

struct truth {
	const char *name;
	struct bc_column column;
	double carry_pct;
	double flask_plates; /* 0: the flask is 2 stages with reflux 1 */
};
static const struct truth truths[] = {
	{"bare pot", {1, 0, NAN, 101.325}, 1.0, 1.75},
	{"m 1.6", {NAN, NAN, 1.6, 101.325}, 1.0, 1.75},
	{"m 2.3", {NAN, NAN, 2.3, 101.325}, 1.7, 1.75},
	{"m 3.4", {NAN, NAN, 3.4, 101.325}, 0.6, 1.75},
	{"2 stages, R 1", {2, 1, NAN, 101.325}, 1.0, 1.75},
	{"3 stages, R 2", {3, 2, NAN, 101.325}, 1.5, 1.75},
	{"5 stages, R 2", {5, 2, NAN, 101.325}, 1.0, 1.75},
	{"3 stages, R 2, flask 1.5", {3, 2, NAN, 101.325}, 1.0, 1.5},
	{"3 stages, R 2, flask 2.0", {3, 2, NAN, 101.325}, 1.0, 2.0},
	{"3 stages, R 2, flask 2 st.", {3, 2, NAN, 101.325}, 1.0, 0.0},
};
enum { TRUTHS = sizeof truths / sizeof truths[0] };

static struct bc_still_work *still_work;
static struct bc_calibration_work *work;
static struct bc_inversion_work *inversion_work;
static struct bc_run *run;
static struct bc_run *flask_run;
static gsl_rng *randoms;

static void make_oil(oil_function *oil, struct bc_slices *slices)
{
	double boiling_k[SLICES];
	double sg[SLICES];
	double volume[SLICES];
	for (int i = 0; i < SLICES; i++) {
		volume[i] = 1.0;
		boiling_k[i] = bc_temp_k_from_c(oil((i + 0.5) * 100.0 / SLICES));
		sg[i] = cbrt(1.8 * boiling_k[i]) / 11.9;
	}
	bc_slices_from_components(boiling_k, sg, volume, SLICES, slices);
	for (int i = 0; i < SLICES; i++) {
		slices->items[i].from_frac = (double)i / SLICES;
		slices->items[i].to_frac = (i + 1.0) / SLICES;
	}
}

static struct bc_column flask_of(const struct truth *truth)
{
	struct bc_column flask = bc_flask_column();
	flask.effective_plates = truth->flask_plates;
	if (truth->flask_plates == 0.0)
		flask = (struct bc_column){2, 1, NAN, 101.325};
	return flask;
}

/* One pair with reading errors of error_c (one standard error). */
static int make_pair(const struct truth *truth, const struct bc_slices *oil, double error_c,
	double *feed_c, struct bc_calibration_pair *pair)
{
	const struct bc_run_options options = {0.95, INFINITY, BC_STEPS_NORMAL, 0.0};
	const struct bc_column flask = flask_of(truth);
	struct bc_slices product;
	const double cut_c = 165.0 + 40.0 * gsl_rng_uniform(randoms);
	if (bc_failed(bc_simulated_boiloff(
		    oil, &flask, read_pct, READINGS, feed_c, still_work, flask_run)) ||
		bc_failed(bc_column_run(oil, &truth->column, &options, still_work, run)))
		return 0;
	struct bc_tap_still still = {
		.run = run, .carry_frac = truth->carry_pct / 100.0, .ceiling_frac = 0.95};
	double from = bc_run_frac_at_head(run, bc_true_from_corrected(cut_c));
	if (bc_failed(bc_tap_jar(&still, from, 0.95, &product, NULL)))
		return 0;
	struct bc_calibration_curve *curve = &pair->run.product;
	*curve = (struct bc_calibration_curve){.n = READINGS};
	if (bc_failed(bc_simulated_boiloff(
		    &product, &flask, read_pct, READINGS, curve->head_c, still_work, flask_run)))
		return 0;
	for (int i = 0; i < READINGS; i++) {
		feed_c[i] += gsl_ran_gaussian(randoms, error_c);
		curve->pct[i] = read_pct[i];
		curve->sigma_c[i] = error_c;
		curve->head_c[i] += gsl_ran_gaussian(randoms, error_c);
	}
	pair->run.from =
		(struct bc_turn){true, cut_c + gsl_ran_gaussian(randoms, error_c), NAN, error_c};
	pair->run.to = (struct bc_turn){false, NAN, 95.0, NAN};
	pair->run.end_pct = 95.0;
	return 1;
}

struct tally {
	int tried;
	int n; /* that say something, and are counted below */
	int inside;
	double bias_ln;
	double square_ln;
	double carry_bias;
	double width_ln;
};

static void study(const struct truth *truth, double plates, int oil_index, double error_c,
	int pairs, struct tally *tally)
{
	struct bc_slices oil;
	make_oil(oils[oil_index], &oil);
	for (int i = 0; i < pairs; i++) {
		double feed_c[READINGS];
		struct bc_calibration_pair pair = {0};
		struct bc_calibration_answer answer;
		if (!make_pair(truth, &oil, error_c, feed_c, &pair))
			continue;
		struct bc_inversion_input input = {.front = BC_FRONT_FREE,
			.n = READINGS,
			.pct = read_pct,
			.head_c = feed_c,
			.ibp_c = NAN,
			.head_sigma_c = error_c,
			.pot_sigma_c = error_c,
			.sg = oil.sg};
		pair.feed = &input;
		if (bc_failed(bc_calibrate_pair(&pair, work, inversion_work, &answer))) {
			printf("failed\n");
			continue;
		}
		double low = bc_plates_low(&answer.estimate);
		double high = bc_plates_high(&answer.estimate);
		double e = log(fmax(answer.estimate.plates, 1.0) / plates);
		tally->tried++;
		if (!bc_plates_known(&answer.estimate) || answer.fit.at_bound ||
			!(answer.fit.from_frac > 0.01))
			continue;
		tally->n++;
		tally->inside += plates >= low - 1e-9 && plates <= high + 1e-9;
		tally->bias_ln += e;
		tally->square_ln += e * e;
		tally->carry_bias += answer.estimate.carry_pct - truth->carry_pct;
		tally->width_ln += hypot(answer.estimate.sigma_ln, answer.estimate.model_ln);
	}
}

static void print_tally(const char *name, double plates, double error_c, const struct tally *t)
{
	printf("%-28s %5.2f  %3.1f  %3d  bias %+5.1f %%  rms %5.1f %%  stated sigma %5.1f %%  inside "
	       "%5.1f %%  told %5.1f %%  carry %+5.2f\n",
		name, plates, error_c, t->n, 100 * t->bias_ln / t->n,
		100 * sqrt(t->square_ln / t->n), 100 * t->width_ln / t->n, 100.0 * t->inside / t->n,
		100.0 * t->n / t->tried, t->carry_bias / t->n);
}

int main(int argc, char **argv)
{
	static const double errors_c[] = {0.5, 1.0};
	int pairs = argc > 1 ? atoi(argv[1]) : 10;
	gsl_set_error_handler_off();
	still_work = bc_still_work_new();
	work = bc_calibration_work_new();
	inversion_work = bc_inversion_work_new();
	run = bc_run_new();
	flask_run = bc_run_new();
	randoms = gsl_rng_alloc(gsl_rng_mt19937);
	for (int e = 0; e < 2; e++) {
		struct tally all = {0};
		for (int t = 0; t < TRUTHS; t++) {
			struct tally tally = {0};
			double plates = truths[t].column.effective_plates;
			if (isnan(plates))
				bc_effective_plates(truths[t].column.stages,
					truths[t].column.reflux, work, &plates);
			for (int o = 0; o < OILS; o++)
				study(&truths[t], plates, o, errors_c[e], pairs, &tally);
			print_tally(truths[t].name, plates, errors_c[e], &tally);
			fflush(stdout);
			all.n += tally.n;
			all.inside += tally.inside;
			all.tried += tally.tried;
			all.bias_ln += tally.bias_ln;
			all.square_ln += tally.square_ln;
			all.width_ln += tally.width_ln;
			all.carry_bias += tally.carry_bias;
		}
		print_tally("all", NAN, errors_c[e], &all);
	}

	gsl_rng_free(randoms);
	bc_run_free(flask_run);
	bc_run_free(run);
	bc_inversion_work_free(inversion_work);
	bc_calibration_work_free(work);
	bc_still_work_free(still_work);
	return 0;
}
