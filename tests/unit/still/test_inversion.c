/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a boil-off back to the oil: the oil is found again although neither its family of curves nor
 * its still is the one assumed. */
#include "still/inversion.h"

#include <gsl/gsl_errno.h>

#include "base/fault.h"
#include "base/stats.h"
#include "base/units.h"
#include "curve/conditions.h"
#include "still/flask.h"
#include "unit/unit.h"

enum { READINGS = 11 };
static const double read_pct[READINGS] = {5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95};

static struct bc_inversion_work *work;
static struct bc_still_work *still_work;
static struct bc_run *run;
static struct bc_inversion inversion;

static int set_up(void **state)
{
	(void)state;
	gsl_set_error_handler_off();
	work = bc_inversion_work_new();
	still_work = bc_still_work_new();
	run = bc_run_new();
	return work && still_work && run ? 0 : -1;
}

static int tear_down(void **state)
{
	(void)state;
	bc_inversion_work_free(work);
	bc_still_work_free(still_work);
	bc_run_free(run);
	return 0;
}

/* True boiling point [degC] at a percent; not one of the program's own curves. */
typedef double oil_function(double pct);

static double weibull_c(double pct) { return 91.0 + 203.0 * pow(-log1p(-pct / 100.0), 1.0 / 1.9); }

static double log_logistic_c(double pct) { return 120.0 + 140.0 * pow(pct / (100.0 - pct), 0.28); }

/* 40 % of a light oil in a heavy one: the root of a sum of two normal shares. */
static double two_oils_c(double pct)
{
	double low = -100.0;
	double high = 600.0;
	while (high - low > 1e-6) {
		double t = 0.5 * (low + high);
		double share = 0.4 * bc_pct_from_probit((t - 105.0) / 28.0) +
			       0.6 * bc_pct_from_probit((t - 270.0) / 32.0);
		if (share < pct)
			low = t;
		else
			high = t;
	}
	return low;
}

static double narrow_c(double pct) { return 196.0 + 7.0 * bc_probit_from_pct(pct); }

/* Sixty slices straight from the function: other edges than the program's. */
static void make_oil(oil_function *oil, struct bc_slices *slices)
{
	double boiling_k[60];
	double sg[60];
	double volume[60];
	for (int i = 0; i < 60; i++) {
		volume[i] = 1.0;
		boiling_k[i] = bc_temp_k_from_c(oil((i + 0.5) / 0.6));
		sg[i] = cbrt(1.8 * boiling_k[i]) / 11.9;
	}
	assert_true(bc_slices_from_components(boiling_k, sg, volume, 60, slices) >= 0);
}

/* Errors of a standard normal kind with sum of squares near n; the same in every run. */
static const double noise[READINGS] = {
	0.61, -1.12, 0.24, 1.43, -0.71, -0.35, 1.05, -1.58, 0.88, 0.19, -0.96};

struct recovery {
	double tbp_rms_c; /* at the readings */
	enum bc_status status;
};

static struct recovery recover(oil_function *oil, const struct bc_column *made_in,
	const struct bc_column *assumed, double noise_c, bool with_pot)
{
	struct bc_slices slices;
	double head_c[READINGS];
	double pot_c[READINGS];
	make_oil(oil, &slices);
	assert_true(bc_simulated_boiloff(
			    &slices, made_in, read_pct, READINGS, head_c, still_work, run) >= 0);
	for (int i = 0; i < READINGS; i++) {
		head_c[i] += noise_c * noise[i];
		pot_c[i] = bc_run_at(run, read_pct[i] / 100.0).pot_c - noise_c * noise[i];
	}
	struct bc_inversion_input input = {.apparatus = *assumed,
		.front = BC_FRONT_FREE,
		.n = READINGS,
		.pct = read_pct,
		.head_c = head_c,
		.pot_c = with_pot ? pot_c : NULL,
		.ibp_c = NAN,
		.head_sigma_c = fmax(noise_c, 0.3),
		.pot_sigma_c = fmax(noise_c, 0.3),
		.sg = slices.sg};
	struct recovery result = {.status = bc_invert(&input, work, &inversion)};
	double sum = 0.0;
	for (int i = 0; i < READINGS; i++) {
		double error_c =
			bc_tbp_curve_temp_c(&inversion.curve, read_pct[i]) - oil(read_pct[i]);
		sum += error_c * error_c;
	}
	result.tbp_rms_c = sqrt(sum / READINGS);
	return result;
}

static const struct bc_column two_one = {2, 1, NAN, 101.325};
static const struct bc_column five_two = {5, 2, NAN, 101.325};
static oil_function *const smooth_oils[] = {weibull_c, log_logistic_c, narrow_c};

static void the_oil_is_found_again(void **state)
{
	(void)state;
	struct bc_column flask = bc_flask_column();
	for (int i = 0; i < 3; i++) {
		/* error of the curve over all readings: below 1.1 without, 1.7 with noise */
		struct recovery exact = recover(smooth_oils[i], &flask, &flask, 0.0, false);
		assert_int_equal(exact.status, BC_OK);
		assert_close(exact.tbp_rms_c, 0.0, 1.1);
		assert_close(inversion.fit_rms_c, 0.0, 0.4);
		struct recovery noisy = recover(smooth_oils[i], &flask, &flask, 1.0, false);
		assert_close(noisy.tbp_rms_c, 0.0, 1.7);
		assert_close(inversion.fit_rms_c, 0.9, 0.25);
		struct recovery column = recover(smooth_oils[i], &five_two, &five_two, 1.0, false);
		assert_close(column.tbp_rms_c, 0.0, 1.7);
		assert_true(inversion.rounds <= 10);
	}
}

static void the_oil_is_found_again_in_another_still(void **state)
{
	(void)state;
	struct bc_column flask = bc_flask_column();
	struct bc_column poorer = {NAN, NAN, 1.5, 101.325};
	struct bc_column better = {NAN, NAN, 2.0, 101.325};
	for (int i = 0; i < 3; i++) {
		struct recovery other = recover(smooth_oils[i], &two_one, &flask, 1.0, false);
		assert_close(other.tbp_rms_c, 0.0, 2.5);
		/* a quarter of a plate is a bias that stays */
		other = recover(smooth_oils[i], &poorer, &flask, 1.0, false);
		assert_close(other.tbp_rms_c, 0.0, 4.0);
		other = recover(smooth_oils[i], &better, &flask, 1.0, false);
		assert_close(other.tbp_rms_c, 0.0, 4.0);
	}
	/* the bare readings of a wide oil lie far off its true boiling points */
	struct bc_slices slices;
	double head_c[READINGS];
	double sum = 0.0;
	make_oil(weibull_c, &slices);
	bc_simulated_boiloff(&slices, &flask, read_pct, READINGS, head_c, still_work, run);
	for (int i = 0; i < READINGS; i++) {
		double error_c = bc_true_from_corrected(head_c[i]) - weibull_c(read_pct[i]);
		sum += error_c * error_c;
	}
	assert_true(sqrt(sum / READINGS) > 12.0);
}

static void a_pot_thermometer_helps(void **state)
{
	(void)state;
	double with = 0.0;
	double without = 0.0;
	for (int i = 0; i < 3; i++) {
		struct recovery pot = recover(smooth_oils[i], &two_one, &two_one, 1.0, true);
		assert_int_equal(pot.status, BC_OK);
		with += pot.tbp_rms_c;
		without += recover(smooth_oils[i], &two_one, &two_one, 1.0, false).tbp_rms_c;
	}
	assert_true(with < 0.8 * without);
}

/* Two oils in one keep the step between them: what boils below a temperature is known to 3 % of the
 * charge on either side of it. */
static void two_oils_stay_two(void **state)
{
	(void)state;
	struct bc_column flask = bc_flask_column();
	struct recovery two = recover(two_oils_c, &flask, &flask, 1.0, false);
	assert_int_equal(two.status, BC_OK);
	assert_close(two.tbp_rms_c, 0.0, 2.7);
	static const double pct[] = {10, 25, 37, 43, 60, 85};
	for (int i = 0; i < 6; i++)
		assert_close(bc_tbp_curve_pct(&inversion.curve, two_oils_c(pct[i])), pct[i], 3.0);
}

static const double kero_pct[] = {10, 30, 50, 70, 90};
static const double kero_d86_c[] = {176.7, 193.3, 206.7, 222.8, 242.8};

static struct bc_inversion_input kerosene(void)
{
	return (struct bc_inversion_input){.apparatus = bc_flask_column(),
		.front = BC_FRONT_FLASK,
		.n = 5,
		.pct = kero_pct,
		.head_c = kero_d86_c,
		.ibp_c = 165.6,
		.head_sigma_c = 1.0,
		.sg = 0.80};
}

/* Measured both ways: Riazi, ASTM MNL50, Table 3.8; from memory. */
static void a_measured_pair_is_met(void **state)
{
	(void)state;
	static const double tbp_c[] = {160.6, 188.3, 209.4, 230.6, 255.0};
	struct bc_inversion_input input = kerosene();
	double sum = 0.0;
	assert_int_equal(bc_invert(&input, work, &inversion), BC_OK);
	for (int i = 0; i < 5; i++) {
		double error_c = bc_tbp_curve_temp_c(&inversion.curve, kero_pct[i]) - tbp_c[i];
		sum += error_c * error_c;
	}
	assert_close(sqrt(sum / 5.0), 0.0, 1.6); /* the forward error on this pair */
}

static void the_ibp_holds_the_front_and_is_not_fitted(void **state)
{
	(void)state;
	struct bc_inversion_input input = kerosene();
	double held_c;
	assert_int_equal(bc_invert(&input, work, &inversion), BC_OK);
	bc_tbp_from_d86_c(0.0, 165.6, &held_c);
	assert_close(bc_tbp_curve_temp_c(&inversion.curve, 2.3), held_c, 1e-9);
	assert_true(inversion.curve.front_slope <= 45.0);
	assert_true(inversion.curve.has_ibp);
	double t50_c = bc_tbp_curve_temp_c(&inversion.curve, 50.0);
	input.ibp_c = 150.0;
	assert_int_equal(bc_invert(&input, work, &inversion), BC_OK);
	bc_tbp_from_d86_c(0.0, 150.0, &held_c);
	assert_close(bc_tbp_curve_temp_c(&inversion.curve, 2.3), held_c, 1e-9);
	assert_close(bc_tbp_curve_temp_c(&inversion.curve, 50.0), t50_c, 1.0);
	input.front = BC_FRONT_TRUE;
	assert_int_equal(bc_invert(&input, work, &inversion), BC_OK);
	assert_close(
		bc_tbp_curve_temp_c(&inversion.curve, 0.5), bc_true_from_corrected(150.0), 1e-9);
	input.ibp_c = NAN;
	assert_int_equal(bc_invert(&input, work, &inversion), BC_OK);
	assert_false(inversion.curve.has_ibp);
	assert_true(inversion.slices.items[0].extrapolated); /* nothing was read below 10 % */
}

static void the_front_suits_the_apparatus(void **state)
{
	(void)state;
	struct bc_column flask = bc_flask_column();
	const struct bc_column pot = {1, 0, NAN, 101.325};
	const struct bc_column dry = {4, 0, NAN, 101.325};
	const struct bc_column weak = {3, 1, NAN, 101.325};
	assert_int_equal(bc_front_of(&flask), BC_FRONT_FLASK);
	assert_int_equal(bc_front_of(&two_one), BC_FRONT_FLASK);
	assert_int_equal(bc_front_of(&five_two), BC_FRONT_TRUE);
	assert_int_equal(bc_front_of(&pot), BC_FRONT_FREE);
	assert_int_equal(bc_front_of(&dry), BC_FRONT_FREE);
	assert_int_equal(bc_front_of(&weak), BC_FRONT_FLASK);
}

/* The linear answer of one inversion against inverting again. */
static void shifted_readings_are_answered(void **state)
{
	(void)state;
	struct bc_inversion_input input = kerosene();
	struct bc_tbp_curve curve;
	struct bc_slices slices;
	static struct bc_inversion again;
	static const double change_c[] = {2.9, 3.1, 2.2, 1.4, 0.3};
	double changed_c[5];
	input.head_sigma_c = 0.7;
	assert_int_equal(bc_invert(&input, work, &inversion), BC_OK);
	assert_true(bc_inversion_shifted(&inversion, NULL, NULL, 0.0, 0.80, &curve, &slices) >= 0);
	for (size_t i = 0; i < slices.n; i++) {
		assert_close(slices.items[i].boiling_k, inversion.slices.items[i].boiling_k, 1e-9);
		assert_int_equal(
			slices.items[i].extrapolated, inversion.slices.items[i].extrapolated);
	}
	assert_true(
		bc_inversion_shifted(&inversion, change_c, NULL, 3.0, 0.80, &curve, &slices) >= 0);
	for (int i = 0; i < 5; i++)
		changed_c[i] = kero_d86_c[i] + change_c[i];
	input.head_c = changed_c;
	input.ibp_c += 3.0;
	assert_int_equal(bc_invert(&input, work, &again), BC_OK);
	assert_close(again.smoothness, inversion.smoothness, 1e-9); /* else it is another fit */
	for (int pct = 5; pct <= 90; pct += 5)
		assert_close(bc_tbp_curve_temp_c(&curve, pct),
			bc_tbp_curve_temp_c(&again.curve, pct), 0.6);
	assert_close(
		bc_tbp_curve_temp_c(&curve, 2.3), bc_tbp_curve_temp_c(&again.curve, 2.3), 0.01);
}

static void what_cannot_be_inverted_is_refused(void **state)
{
	(void)state;
	struct bc_inversion_input input = kerosene();
	const double falling[] = {10, 30, 20, 70, 90};
	const double holes[] = {176.7, NAN, 206.7, 222.8, 242.8};
	input.n = 2;
	assert_int_equal(bc_invert(&input, work, &inversion), BC_TOO_FEW);
	assert_nan(inversion.fit_rms_c);
	input = kerosene();
	input.pct = falling;
	assert_int_equal(bc_invert(&input, work, &inversion), BC_BAD_DOMAIN);
	input = kerosene();
	input.head_c = holes;
	assert_int_equal(bc_invert(&input, work, &inversion), BC_BAD_DOMAIN);
	input = kerosene();
	input.sg = NAN;
	assert_int_equal(bc_invert(&input, work, &inversion), BC_BAD_DOMAIN);
	input = kerosene();
	input.apparatus.effective_plates = -1.0;
	assert_int_equal(bc_invert(&input, work, &inversion), BC_BAD_DOMAIN);
	assert_int_equal(inversion.slices.n, 0);
	input = kerosene();
	input.n = 3; /* up to 50 % only */
	assert_int_equal(bc_invert(&input, work, &inversion), BC_EXTRAPOLATED);
}

static void memory_that_runs_out_is_said(void **state)
{
	(void)state;
	for (unsigned long nth = 1; nth <= 3; nth++) {
		bc_fault_set(BC_FAULT_ALLOC, nth, true);
		struct bc_inversion_work *none = bc_inversion_work_new();
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		assert_null(none);
	}
	bc_inversion_work_free(NULL);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_oil_is_found_again),
		cmocka_unit_test(the_oil_is_found_again_in_another_still),
		cmocka_unit_test(a_pot_thermometer_helps),
		cmocka_unit_test(two_oils_stay_two),
		cmocka_unit_test(a_measured_pair_is_met),
		cmocka_unit_test(the_ibp_holds_the_front_and_is_not_fitted),
		cmocka_unit_test(the_front_suits_the_apparatus),
		cmocka_unit_test(shifted_readings_are_answered),
		cmocka_unit_test(what_cannot_be_inverted_is_refused),
		cmocka_unit_test(memory_that_runs_out_is_said),
	};
	return cmocka_run_group_tests(tests, set_up, tear_down);
}
