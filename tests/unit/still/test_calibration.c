/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stills that are known, found again from what they made of an oil. */
#include "base/stats.h"
#include "base/units.h"
#include "curve/conditions.h"
#include "fuel/pure.h"
#include "still/calibration_spread.h"
#include "still/flask.h"
#include "still/tap.h"
#include "unit/unit.h"

enum { READINGS = 11, SLICES = 60 };
static const double read_pct[READINGS] = {5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95};
/* Errors of a normal kind, the same in every run. */
static const double noise[READINGS] = {
	0.61, -1.12, 0.24, 1.43, -0.71, -0.35, 1.05, -1.58, 0.88, 0.19, -0.96};

static struct bc_still_work *still_work;
static struct bc_calibration_work *work;
static struct bc_inversion_work *inversion_work;
static struct bc_run *run;
static struct bc_run *flask_run;
static struct bc_slices oil;
static struct bc_calibration_pair pair;
static struct bc_inversion_input input;
static struct bc_calibration_answer answer;
static double feed_c[READINGS];

/* Not one of the program's own curves. */
static double weibull_c(double pct) { return 71.0 + 223.0 * pow(-log1p(-pct / 100.0), 1.0 / 1.9); }

static void make_oil(void)
{
	double boiling_k[SLICES];
	double sg[SLICES];
	double volume[SLICES];
	for (int i = 0; i < SLICES; i++) {
		volume[i] = 1.0;
		boiling_k[i] = bc_temp_k_from_c(weibull_c((i + 0.5) * 100.0 / SLICES));
		sg[i] = cbrt(1.8 * boiling_k[i]) / 11.9;
	}
	assert_true(bc_slices_from_components(boiling_k, sg, volume, SLICES, &oil) >= 0);
	for (int i = 0; i < SLICES; i++) {
		oil.items[i].from_frac = (double)i / SLICES;
		oil.items[i].to_frac = (i + 1.0) / SLICES;
	}
}

/* What a still makes of the oil when the tap is turned at cut_c and the heat goes off at 93 %. */
static void make_pair(const struct bc_column *still, double carry_pct, double cut_c, double noise_c)
{
	const struct bc_run_options options = {0.93, INFINITY, BC_STEPS_NORMAL, 0.0};
	const struct bc_column flask = bc_flask_column();
	struct bc_slices product;
	make_oil();
	assert_true(bc_simulated_boiloff(
			    &oil, &flask, read_pct, READINGS, feed_c, still_work, flask_run) >= 0);
	assert_true(bc_column_run(&oil, still, &options, still_work, run) >= 0);
	struct bc_tap_still tap = {
		.run = run, .carry_frac = carry_pct / 100.0, .ceiling_frac = 0.93};
	double from = bc_run_frac_at_head(run, bc_true_from_corrected(cut_c));
	assert_int_equal(bc_tap_jar(&tap, from, 0.93, &product, NULL), BC_OK);
	pair = (struct bc_calibration_pair){.run = {.feed = &oil,
						    .from = {true, cut_c, NAN, 0.5},
						    .to = {false, NAN, 93.0, NAN},
						    .end_pct = 93.0,
						    .flask = flask}};
	struct bc_calibration_curve *curve = &pair.run.product;
	assert_true(bc_simulated_boiloff(&product, &flask, read_pct, READINGS, curve->head_c,
			    still_work, flask_run) >= 0);
	curve->n = READINGS;
	for (int i = 0; i < READINGS; i++) {
		curve->pct[i] = read_pct[i];
		curve->sigma_c[i] = fmax(noise_c, 0.5);
		curve->head_c[i] += noise_c * noise[i];
		feed_c[i] -= noise_c * noise[READINGS - 1 - i];
	}
	input = (struct bc_inversion_input){.front = BC_FRONT_FREE,
		.n = READINGS,
		.pct = read_pct,
		.head_c = feed_c,
		.ibp_c = NAN,
		.head_sigma_c = fmax(noise_c, 0.5),
		.pot_sigma_c = 1.0,
		.sg = oil.sg};
	pair.feed = &input;
}

static void plates_and_carry_come_back(void **state)
{
	static const double plates[] = {1.31, 1.83, 2.37, 3.29};
	static const double carry[] = {1.73, 0.61, 1.37, 2.11};
	(void)state;
	for (int i = 0; i < 4; i++) {
		const struct bc_column still = {NAN, NAN, plates[i], 101.325};
		struct bc_calibration_fit fit;
		make_pair(&still, carry[i], 167.3, 0.0);
		for (int k = 0; k < READINGS; k++)
			pair.run.product.sigma_c[k] = 0.01; /* the belief on carry weighs nothing */
		assert_int_equal(bc_calibrate(&pair.run, NULL, work, &fit), BC_OK);
		assert_close(fit.plates, plates[i], 0.01 * plates[i]);
		assert_close(fit.carry_pct, carry[i], 0.05);
		assert_true(fit.rms_c < 0.02);
		assert_true(fit.light_ends_pct > 1.0 && fit.light_ends_pct < 30.0);
		assert_false(fit.at_bound);
	}
}

/* The slices of the feed come from its readings, both boil-offs have errors, and the still has
 * stages and reflux. */
static void real_stills_lie_in_the_stated_range(void **state)
{
	static const double stills[][2] = {{2, 1}, {3, 2}, {5, 2}};
	(void)state;
	for (int i = 0; i < 3; i++) {
		const struct bc_column still = {stills[i][0], stills[i][1], NAN, 101.325};
		double plates;
		make_pair(&still, 1.3, 167.3, 0.8);
		assert_int_equal(bc_calibrate_pair(&pair, work, inversion_work, &answer), BC_OK);
		assert_int_equal(
			bc_effective_plates(stills[i][0], stills[i][1], work, &plates), BC_OK);
		assert_true(bc_plates_known(&answer.estimate));
		assert_true(bc_plates_low(&answer.estimate) < plates);
		assert_true(bc_plates_high(&answer.estimate) > plates);
		assert_close(answer.estimate.plates, plates, 0.22 * plates);
		assert_true(answer.n_repeats >= 25);
	}
}

static void an_end_that_nobody_wrote_is_found(void **state)
{
	const struct bc_column still = {NAN, NAN, 2.17, 101.325};
	(void)state;
	make_pair(&still, 1.0, 167.3, 0.0);
	pair.run.end_pct = 98.0;
	pair.run.to.pct = 98.0;
	pair.end_free = true;
	assert_int_equal(bc_calibrate_pair(&pair, work, inversion_work, &answer), BC_OK);
	assert_close(100.0 * answer.fit.to_frac, 93.0, 1.5);
	assert_close(answer.estimate.plates, 2.17, 0.15);
}

/* With the cut below the first drop no jar was cut off: nothing can be learnt. */
static void a_cut_below_the_first_drop_tells_nothing(void **state)
{
	const struct bc_column still = {NAN, NAN, 1.37, 101.325};
	(void)state;
	make_pair(&still, 1.0, 61.3, 0.5);
	assert_int_equal(bc_calibrate_pair(&pair, work, inversion_work, &answer), BC_OK);
	assert_false(bc_plates_known(&answer.estimate) && answer.fit.from_frac > 0.01);
}

/* Heads of a known blend give the plates without any flask. */
static void a_known_blend_needs_no_flask(void **state)
{
	const struct bc_pure *liquids[] = {bc_pure_find("toluene"), bc_pure_find("Heptane")};
	const double shares[] = {47.3, 52.7};
	struct bc_slices blend;
	const struct bc_run_options options = {0.95, INFINITY, BC_STEPS_NORMAL, 0.0};
	const struct bc_column still = {NAN, NAN, 3.37, 101.325};
	(void)state;
	assert_true(bc_pure_blend(liquids, shares, 2, &blend) >= 0);
	assert_close(blend.items[0].boiling_k, bc_temp_k_from_c(98.43), 1e-9);
	assert_true(bc_column_run(&blend, &still, &options, still_work, run) >= 0);
	pair = (struct bc_calibration_pair){.known = &blend, .run = {.end_pct = 98.0}};
	pair.run.heads.n = READINGS;
	for (int i = 0; i < READINGS; i++) {
		pair.run.heads.pct[i] = read_pct[i];
		pair.run.heads.sigma_c[i] = 0.3;
		pair.run.heads.head_c[i] =
			bc_corrected_from_true(bc_run_at(run, read_pct[i] / 100.0).head_c) +
			0.2 * noise[i];
	}
	assert_int_equal(bc_calibrate_pair(&pair, work, inversion_work, &answer), BC_OK);
	assert_close(answer.estimate.plates, 3.37, 0.25);
	assert_nan(answer.fit.light_ends_pct);
}

/* Rayleigh for two liquids: d ln n1 / d ln n2 is the volatility to the power of the plates, so the
 * whole lies between its ends (closed form, Raoult's law). */
static void blends_follow_rayleigh(void **state)
{
	const struct bc_pure *liquids[] = {bc_pure_find("benzene"), bc_pure_find("toluene")};
	const double shares[] = {53.1, 46.9};
	static const double plates[] = {1.0, 1.7, 2.9};
	struct bc_slices blend;
	const struct bc_run_options options = {0.83, INFINITY, BC_STEPS_FINE, 0.0};
	(void)state;
	assert_true(bc_pure_blend(liquids, shares, 2, &blend) >= 0);
	for (int i = 0; i < 3; i++) {
		const struct bc_column still = {NAN, NAN, plates[i], 101.325};
		double power[2];
		assert_true(bc_column_run(&blend, &still, &options, still_work, run) >= 0);
		for (int end = 0; end < 2; end++) {
			double k = bc_temp_k_from_c(bc_run_at(run, end == 0 ? 0.0 : 0.61).pot_c);
			power[end] = pow(bc_slice_vapour_bar(&blend.items[0], k) /
						 bc_slice_vapour_bar(&blend.items[1], k),
				plates[i]);
		}
		double left[2];
		for (size_t c = 0; c < 2; c++)
			left[c] = 1.0 - bc_run_over(run, c, 0.61) / blend.items[c].volume_frac;
		double ratio = log(left[0]) / log(left[1]);
		assert_true(ratio < power[0] * 1.001);
		assert_true(ratio > power[1] * 0.999);
	}
}

/* Ranges over several oils, computed by another program. */
static void stages_are_worth_so_many_plates(void **state)
{
	static const struct {
		double stages, reflux, low, high;
	} rows[] = {{2, 0.25, 1.35, 1.53}, {2, 0.5, 1.5, 1.7}, {2, 1, 1.69, 1.83},
		{2, 2, 1.84, 1.97}, {3, 1, 2.1, 2.3}, {3, 2, 2.4, 2.6}, {5, 2, 3.0, 3.25},
		{5, 5, 3.9, 4.2}, {10, 5, 5.0, 5.6}};
	double plates;
	double more;
	(void)state;
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		assert_int_equal(
			bc_effective_plates(rows[i].stages, rows[i].reflux, work, &plates), BC_OK);
		assert_true(plates >= rows[i].low && plates <= rows[i].high);
	}
	assert_int_equal(bc_effective_plates(2.5, 1.0, work, &plates), BC_OK);
	assert_true(plates > 1.83 && plates < 2.3);
	assert_int_equal(bc_effective_plates(1.0, 3.7, work, &plates), BC_OK);
	assert_close(plates, 1.0, 1e-12);
	assert_int_equal(bc_effective_plates(3.0, INFINITY, work, &more), BC_OK);
	/* more than three: volatilities are greater where the column is cooler than the pot */
	assert_true(more > 3.0 && more < 3.5);
	assert_int_equal(bc_effective_plates(0.7, 1.0, work, &plates), BC_BAD_DOMAIN);
	assert_nan(plates);
}

static void several_runs_are_weighed(void **state)
{
	const struct bc_plates_estimate alike[] = {
		{2.0, 0.1, 0.13, 1.0, 0.5}, {2.2, 0.2, 0.13, 2.0, 1.0}};
	const struct bc_plates_estimate apart[] = {
		{2.0, 0.05, 0.0, 1.0, 0.5}, {3.0, 0.05, 0.0, 1.0, 0.5}};
	(void)state;
	struct bc_plates_estimate all = bc_plates_combine(alike, 2);
	/* weights 100 and 25, 4 and 1 */
	assert_close(log(all.plates), (100.0 * log(2.0) + 25.0 * log(2.2)) / 125.0, 1e-12);
	assert_close(all.sigma_ln, 1.0 / sqrt(125.0), 1e-12);
	assert_close(all.model_ln, 0.13, 1e-12);
	assert_close(all.carry_pct, 1.2, 1e-12);
	assert_close(all.carry_sigma_pct, 1.0 / sqrt(5.0), 1e-12);
	all = bc_plates_combine(apart, 2);
	/* chi-square of two runs is (ln 1.5)^2/(2 0.05^2) */
	assert_close(all.sigma_ln, log(1.5) / 2.0, 1e-12);
	assert_close(bc_plates_low(&all), exp(0.5 * log(6.0) - 1.96 * log(1.5) / 2.0), 1e-9);
	const struct bc_plates_estimate bare = {0.93, 0.05, 0.08, 1.0, 1.0};
	assert_close(bc_plates_low(&bare), 1.0, 1e-12);
	const struct bc_plates_estimate wide = {2.3, 0.3, 0.2, 1.0, 1.0};
	assert_false(bc_plates_known(&wide));
}

static void what_makes_no_sense_is_refused(void **state)
{
	const struct bc_column still = {NAN, NAN, 2.17, 101.325};
	struct bc_calibration_fit fit;
	(void)state;
	make_pair(&still, 1.0, 167.3, 0.0);
	struct bc_calibration_run bad = pair.run;
	bad.product.n = 0;
	assert_int_equal(bc_calibrate(&bad, NULL, work, &fit), BC_BAD_DOMAIN);
	bad = pair.run;
	bad.product.pct[3] = bad.product.pct[2];
	assert_int_equal(bc_calibrate(&bad, NULL, work, &fit), BC_BAD_DOMAIN);
	bad = pair.run;
	bad.product.head_c[4] = NAN;
	assert_int_equal(bc_calibrate(&bad, NULL, work, &fit), BC_BAD_DOMAIN);
	bad = pair.run;
	bad.product.sigma_c[4] = 0.0;
	assert_int_equal(bc_calibrate(&bad, NULL, work, &fit), BC_BAD_DOMAIN);
	bad = pair.run;
	bad.end_pct = 99.9;
	assert_int_equal(bc_calibrate(&bad, NULL, work, &fit), BC_BAD_DOMAIN);
	bad = pair.run;
	bad.from.head_c = 611.3;
	assert_true(bc_failed(bc_calibrate(&bad, NULL, work, &fit)));
}

static int set_up(void **state)
{
	(void)state;
	still_work = bc_still_work_new();
	work = bc_calibration_work_new();
	inversion_work = bc_inversion_work_new();
	run = bc_run_new();
	flask_run = bc_run_new();
	return still_work && work && inversion_work && run && flask_run ? 0 : -1;
}

static int tear_down(void **state)
{
	(void)state;
	bc_run_free(flask_run);
	bc_run_free(run);
	bc_inversion_work_free(inversion_work);
	bc_calibration_work_free(work);
	bc_still_work_free(still_work);
	return 0;
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(plates_and_carry_come_back),
		cmocka_unit_test(real_stills_lie_in_the_stated_range),
		cmocka_unit_test(an_end_that_nobody_wrote_is_found),
		cmocka_unit_test(a_cut_below_the_first_drop_tells_nothing),
		cmocka_unit_test(a_known_blend_needs_no_flask),
		cmocka_unit_test(blends_follow_rayleigh),
		cmocka_unit_test(stages_are_worth_so_many_plates),
		cmocka_unit_test(several_runs_are_weighed),
		cmocka_unit_test(what_makes_no_sense_is_refused),
	};
	return cmocka_run_group_tests(tests, set_up, tear_down);
}
