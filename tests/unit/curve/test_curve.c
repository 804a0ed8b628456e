/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The monotone curve and the fitted families. */
#include "by_hand.h"

static const double pct[] = {0, 5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 97.3};
static const double temp[] = {71, 112.5, 131, 158.3, 181, 202.7, 222, 243, 262.4, 285, 318, 361};
#define N (sizeof pct / sizeof *pct)

static void test_curve_passes_and_rises(void **state)
{
	(void)state;
	struct bc_curve *curve;
	assert_int_equal(bc_curve_new(pct, temp, N, &curve), BC_OK);
	for (size_t i = 0; i < N; i++)
		assert_close(bc_curve_temp_c(curve, pct[i]), temp[i], 1e-9);
	double before = 0.0;
	for (double p = 0.0; p <= 97.3; p += 0.037) {
		double t = bc_curve_temp_c(curve, p);
		assert_true(t >= before);
		assert_true(bc_curve_slope_c_per_pct(curve, p) >= 0.0);
		assert_close(bc_curve_pct(curve, t), p, 1e-9);
		before = t;
	}
	assert_nan(bc_curve_temp_c(curve, 97.4));
	assert_nan(bc_curve_temp_c(curve, -0.1));
	assert_nan(bc_curve_pct(curve, 70.9));
	assert_nan(bc_curve_pct(curve, 361.1));
	bc_curve_free(curve);
}

/* Steffen's curve stays level on a shelf and does not swing beside a step. */
static void test_curve_beside_a_step(void **state)
{
	(void)state;
	static const double p[] = {5, 10, 20, 30, 40};
	static const double t[] = {97.3, 97.3, 97.3, 183.1, 183.1};
	struct bc_curve *curve;
	assert_int_equal(bc_curve_new(p, t, 5, &curve), BC_OK);
	for (double x = 5.0; x <= 40.0; x += 0.3) {
		assert_true(bc_curve_temp_c(curve, x) >= 97.3 - 1e-9);
		assert_true(bc_curve_temp_c(curve, x) <= 183.1 + 1e-9);
	}
	assert_close(bc_curve_pct(curve, 97.3), 20.0, 1e-9);
	assert_close(bc_curve_pct(curve, 183.1), 40.0, 1e-9);
	bc_curve_free(curve);
}

static void test_falls_are_pooled(void **state)
{
	(void)state;
	static const double p[] = {5, 10, 20, 30, 40, 50};
	static const double t[] = {101.7, 131.3, 129.1, 127.9, 160.2, 159.4};
	struct bc_curve *curve;
	assert_int_equal(bc_curve_new(p, t, 6, &curve), BC_REPAIRED);
	for (size_t i = 1; i < 4; i++)
		assert_close(bc_curve_temp_c(curve, p[i]), (131.3 + 129.1 + 127.9) / 3.0, 1e-9);
	assert_close(bc_curve_temp_c(curve, 45.0), 159.8, 1e-9);
	bc_curve_free(curve);
}

static void test_curve_refuses(void **state)
{
	(void)state;
	static const double same[] = {5, 5, 20};
	struct bc_curve *curve = (struct bc_curve *)&same;
	assert_int_equal(bc_curve_new(same, temp, 3, &curve), BC_BAD_DOMAIN);
	assert_null(curve);
	assert_int_equal(bc_curve_new(pct, temp, 1, &curve), BC_TOO_FEW);
	assert_int_equal(bc_curve_new(pct, temp, 2, &curve), BC_OK);
	assert_close(bc_curve_temp_c(curve, 2.5), 91.75, 1e-9);
	bc_curve_free(curve);
}

/* Kerosene of ASTM D86 kind, 10 to 90 %: published distribution parameters of Riazi's example. */
static void test_riazi_form(void **state)
{
	(void)state;
	static const double parameters[] = {350.0, 0.1679, 1.2586};
	assert_close(bc_models[0]->temp_k(parameters, 0.1), 361.82, 0.005);
	assert_close(bc_models[0]->temp_k(parameters, 0.5), 402.79, 0.005);
	assert_close(bc_models[0]->temp_k(parameters, 0.9), 487.02, 0.005);
}

/* Parameters near those of a wide plastic oil, and the temperature at 45.7 % by a separate script.
 */
static const double truth[][4] = {{342.7, 0.0731, 1.713}, {473.1, 61.3}, {231.3, 246.1, 7.31},
	{451.9, 57.3, -0.173}, {349.1, 313.7, 1.371, 1.913}, {344.3, 143.9, 1.737, 1.217}};
static const double truth_45_7_k[] = {
	383.455958, 466.479933, 471.663000, 465.619376, 470.879649, 465.809852};

static void test_families_by_a_separate_script(void **state)
{
	(void)state;
	for (size_t m = 0; bc_models[m]; m++)
		assert_close(bc_models[m]->temp_k(truth[m], 0.457), truth_45_7_k[m], 1e-5);
}

/* Points made by a family are found again by it, to a tenth of a degree. */
static void test_families_find_themselves(void **state)
{
	(void)state;
	for (size_t m = 0; bc_models[m]; m++) {
		double t[N];
		struct bc_fit fit;
		for (size_t i = 1; i < N; i++)
			t[i] = bc_models[m]->temp_k(truth[m], pct[i] / 100.0) - 273.15;
		assert_int_equal(bc_fit_model(bc_models[m], pct + 1, t + 1, N - 1, &fit), BC_OK);
		if (!(fit.rms_c < 0.2))
			fail_msg("%s: rms %.3f", bc_models[m]->name, fit.rms_c);
		assert_close(bc_fit_temp_c(&fit, 45.7),
			bc_models[m]->temp_k(truth[m], 0.457) - 273.15, 0.4);
		assert_close(bc_fit_pct(&fit, bc_fit_temp_c(&fit, 45.7)), 45.7, 1e-7);
	}
}

static void test_families_rise(void **state)
{
	(void)state;
	struct bc_fits fits;
	assert_int_equal(bc_fit_all(pct + 1, temp + 1, N - 1, &fits), BC_OK);
	assert_int_equal(fits.n, 6);
	for (size_t i = 0; i < fits.n; i++) {
		assert_int_equal(fits.items[i].status, BC_OK);
		double before = -INFINITY;
		for (double p = 0.5; p < 100.0; p += 0.5) {
			double t = bc_fit_temp_c(&fits.items[i], p);
			assert_true(t >= before);
			before = t;
		}
		if (i > 0)
			assert_true(fits.items[i].aicc >= fits.items[i - 1].aicc);
	}
	assert_true(fits.items[0].rms_c < 3.0);
	assert_nan(bc_fit_temp_c(&fits.items[0], 0.0));
	assert_nan(bc_fit_temp_c(&fits.items[0], 100.0));
}

/* One reading wrong by 60 degC moves the fitted middle by less than 3. */
static void test_one_slip_hardly_moves_the_fit(void **state)
{
	(void)state;
	double spoilt[N];
	struct bc_fit clean;
	struct bc_fit fit;
	for (size_t i = 0; i < N; i++)
		spoilt[i] = temp[i] + (i == 5 ? 60.0 : 0.0);
	assert_int_equal(bc_fit_model(bc_models[0], pct + 1, temp + 1, N - 1, &clean), BC_OK);
	assert_int_equal(bc_fit_model(bc_models[0], pct + 1, spoilt + 1, N - 1, &fit), BC_OK);
	assert_close(bc_fit_temp_c(&fit, 55.0), bc_fit_temp_c(&clean, 55.0), 3.0);
}

static void test_too_few_for_a_fit(void **state)
{
	(void)state;
	struct bc_fit fit;
	struct bc_fits fits;
	assert_int_equal(bc_fit_model(bc_models[0], pct + 1, temp + 1, 5, &fit), BC_TOO_FEW);
	assert_int_equal(bc_fit_model(bc_models[0], pct + 1, temp + 1, 6, &fit), BC_OK);
	assert_int_equal(bc_fit_all(pct + 1, temp + 1, 4, &fits), BC_TOO_FEW);
	assert_int_equal(bc_fit_model(bc_models[0], pct, temp, N, &fit), BC_BAD_DOMAIN);
	assert_nan(bc_fit_temp_c(&fit, 50.0));
}

static void test_a_reading_at_100_is_left_out(void **state)
{
	(void)state;
	double p[N];
	struct bc_fit with;
	struct bc_fit without;
	memcpy(p, pct, sizeof p);
	p[N - 1] = 100.0;
	assert_int_equal(bc_fit_model(bc_models[0], p + 1, temp + 1, N - 1, &with), BC_OK);
	assert_int_equal(bc_fit_model(bc_models[0], p + 1, temp + 1, N - 2, &without), BC_OK);
	assert_int_equal(with.points, N - 2);
	assert_close(with.rms_c, without.rms_c, 0.0);
}

static void test_many_readings_are_thinned(void **state)
{
	(void)state;
	enum { MANY = 5000 };
	static double p[MANY];
	static double t[MANY];
	const double *oil = truth[0];
	struct bc_fit fit;
	for (size_t i = 0; i < MANY; i++) {
		p[i] = 1.0 + 98.0 * (double)i / MANY;
		t[i] = bc_models[0]->temp_k(oil, p[i] / 100.0) - 273.15;
	}
	assert_int_equal(bc_fit_model(bc_models[0], p, t, MANY, &fit), BC_OK);
	assert_int_equal(fit.points, 200);
	assert_close(bc_fit_temp_c(&fit, 50.0), bc_models[0]->temp_k(oil, 0.5) - 273.15, 0.3);
}

/* One wild reading among many adds a bounded amount to the criterion that chooses the family. */
static void test_one_slip_does_not_choose_the_family(void **state)
{
	(void)state;
	enum { MANY = 21 };
	double p[MANY];
	double t[MANY];
	struct bc_fit clean;
	struct bc_fit slip;
	struct bc_fit worse;
	for (size_t i = 0; i < MANY; i++) {
		p[i] = 3.0 + 4.6 * (double)i;
		t[i] = bc_models[0]->temp_k(truth[0], p[i] / 100.0) - 273.15 +
		       0.7 * sin(9.1 * p[i]);
	}
	assert_int_equal(bc_fit_model(bc_models[0], p, t, MANY, &clean), BC_OK);
	t[11] += 61.3;
	assert_int_equal(bc_fit_model(bc_models[0], p, t, MANY, &slip), BC_OK);
	t[11] += 61.3;
	assert_int_equal(bc_fit_model(bc_models[0], p, t, MANY, &worse), BC_OK);
	assert_true(worse.rms_c > 1.8 * slip.rms_c);
	assert_true(slip.aicc < clean.aicc + 40.0);
	assert_close(worse.aicc, slip.aicc, 1.0);

	/* all families are held against each other at one scale */
	struct bc_fits fits;
	assert_int_equal(bc_fit_all(p, t, MANY, &fits), BC_OK);
	double scale = 0.0;
	for (size_t i = 0; i < fits.n; i++)
		scale = fmax(scale, fits.items[i].scale_c);
	for (size_t i = 0; i < fits.n; i++) {
		const struct bc_fit *fit = &fits.items[i];
		double k = (double)fit->model->n_parameters + 1.0;
		double sum = 0.0;
		for (size_t m = 0; m < MANY; m++) {
			double r = bc_fit_temp_c(fit, p[m]) - t[m];
			sum += r * r / (1.0 + r * r / (scale * scale));
		}
		assert_close(fit->aicc,
			MANY * log(sum / MANY) + 2.0 * k + 2.0 * k * (k + 1.0) / (MANY - k - 1.0),
			1e-6);
		assert_true(i == 0 || fit->aicc >= fits.items[i - 1].aicc);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(test_curve_passes_and_rises),
		cmocka_unit_test(test_curve_beside_a_step),
		cmocka_unit_test(test_falls_are_pooled),
		cmocka_unit_test(test_curve_refuses),
		cmocka_unit_test(test_riazi_form),
		cmocka_unit_test(test_families_by_a_separate_script),
		cmocka_unit_test(test_families_find_themselves),
		cmocka_unit_test(test_families_rise),
		cmocka_unit_test(test_one_slip_hardly_moves_the_fit),
		cmocka_unit_test(test_too_few_for_a_fit),
		cmocka_unit_test(test_a_reading_at_100_is_left_out),
		cmocka_unit_test(test_many_readings_are_thinned),
		cmocka_unit_test(test_one_slip_does_not_choose_the_family),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
