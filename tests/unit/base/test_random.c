/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The worked examples of JCGM 101:2008, clause 9, by the same draws that the judgement makes, with
 * a fixed seed. Printed results are from memory; where an expectation follows in closed form it is
 * held against that. Tolerances are three standard errors of so many draws: sigma/sqrt(M) for a
 * mean, sigma/sqrt(2M) for a deviation, 4 sigma sqrt(p(1-p)/M)/density for a bound. */

#include <gsl/gsl_statistics_double.h>

#include "base/memory.h"
#include "base/random.h"
#include "unit/unit.h"

enum { DRAWS = 200000 };
#define SEED 20081UL

struct outcome {
	double mean;
	double deviation;
	double low; /* 95 % unless said */
	double high;
	double short_low;
	double short_high;
};

typedef double model(struct bc_random *random, const double *given);

static struct outcome propagate(model *y, const double *given, double share)
{
	struct outcome outcome;
	struct bc_random *random = bc_random_new(SEED);
	double *values = bc_alloc_array(DRAWS, sizeof *values);
	assert_non_null(random);
	assert_non_null(values);
	for (size_t i = 0; i < DRAWS; i++)
		values[i] = y(random, given);
	outcome.mean = gsl_stats_mean(values, 1, DRAWS);
	outcome.deviation = gsl_stats_sd(values, 1, DRAWS);
	bc_spread_of(values, DRAWS, &outcome.low, &outcome.high);
	bc_shortest_interval(values, DRAWS, share, &outcome.short_low, &outcome.short_high);
	bc_free(values);
	bc_random_free(random);
	return outcome;
}

static double four_normal(struct bc_random *random, const double *given)
{
	double sum = given[0] * bc_random_normal(random);
	for (int i = 0; i < 3; i++)
		sum += bc_random_normal(random);
	return sum;
}

static double four_rectangular(struct bc_random *random, const double *given)
{
	double half = sqrt(3.0);
	double sum = bc_random_rectangular(random, -given[0] * half, given[0] * half);
	for (int i = 0; i < 3; i++)
		sum += bc_random_rectangular(random, -half, half);
	return sum;
}

/* 9.2.2 to 9.2.4 */
static void test_additive(void **state)
{
	(void)state;
	static const double one = 1.0;
	static const double ten = 10.0;
	struct outcome normal = propagate(four_normal, &one, 0.95);
	assert_close(normal.mean, 0.0, 0.014);
	assert_close(normal.deviation, 2.0, 0.01);
	assert_close(normal.low, -3.92, 0.035); /* printed */
	assert_close(normal.high, 3.92, 0.035);
	struct outcome flat = propagate(four_rectangular, &one, 0.95);
	assert_close(flat.mean, 0.0, 0.014);
	assert_close(flat.deviation, 2.0, 0.01);
	assert_close(flat.low, -3.88, 0.03); /* printed: less than the 3.92 of a normal curve */
	assert_close(flat.high, 3.88, 0.03);
	struct outcome wide = propagate(four_rectangular, &ten, 0.95);
	assert_close(wide.deviation, sqrt(103.0), 0.05);
	assert_close(wide.low, -17.0, 0.12); /* printed */
	assert_close(wide.high, 17.0, 0.12);
}

/* 9.3, mg from the nominal 100 g */
static double mass(struct bc_random *random, const double *given)
{
	(void)given;
	double reference = 100000.0 + 0.050 * bc_random_normal(random);
	double added = 1.234 + 0.020 * bc_random_normal(random);
	double air = bc_random_rectangular(random, 1.10, 1.30);
	double weight = bc_random_rectangular(random, 7000.0, 9000.0);
	double against = bc_random_rectangular(random, 7950.0, 8050.0);
	return (reference + added) * (1.0 + (air - 1.2) * (1.0 / weight - 1.0 / against)) - 1e5;
}

static void test_mass_calibration(void **state)
{
	(void)state;
	struct outcome y = propagate(mass, NULL, 0.95);
	assert_close(y.mean, 1.2340, 0.0006);
	assert_close(y.deviation, 0.0754, 0.0005);
	assert_close(y.short_low, 1.0834, 0.005);
	assert_close(y.short_high, 1.3825, 0.005);
	/* the law of propagation to first order says 0.0539: the draws must not */
	assert_true(y.deviation > 0.07);
}

/* 9.4, uncorrelated: the comparison loss of a power meter */
static double power_loss(struct bc_random *random, const double *given)
{
	double a = given[0] + 0.005 * bc_random_normal(random);
	double b = 0.005 * bc_random_normal(random);
	return 1e6 * (a * a + b * b);
}

static void test_comparison_loss(void **state)
{
	(void)state;
	static const struct {
		double x1;
		double mean;
		double deviation;
		double low;
		double high;
	} printed[] = {
		{0.000, 50.0, 50.0, 0.0, 150.0},
		{0.010, 150.0, 112.0, 0.0, 367.0},
		{0.050, 2551.0, 502.0, 1590.0, 3543.0},
	};
	for (size_t i = 0; i < sizeof printed / sizeof printed[0]; i++) {
		struct outcome y = propagate(power_loss, &printed[i].x1, 0.95);
		double error = printed[i].deviation / sqrt((double)DRAWS);
		assert_close(
			y.mean, 1e6 * (printed[i].x1 * printed[i].x1 + 2.0 * 2.5e-5), 3.0 * error);
		assert_close(y.mean, printed[i].mean, 0.5 + 3.0 * error);
		assert_close(y.deviation, printed[i].deviation, 0.5 + 6.0 * error);
		assert_close(y.short_low, printed[i].low, 1.0 + 40.0 * error);
		assert_close(y.short_high, printed[i].high, 1.0 + 40.0 * error);
	}
}

/* 9.5, nm from the nominal 50 mm */
static double gauge_block(struct bc_random *random, const double *given)
{
	(void)given;
	double standard = 50000623.0 + 25.0 * bc_random_t(random, 18.0);
	double difference = 215.0 + 6.0 * bc_random_t(random, 24.0);
	double d1 = 4.0 * bc_random_t(random, 5.0);
	double d2 = 7.0 * bc_random_t(random, 8.0);
	double expansion = bc_random_rectangular(random, 9.5e-6, 13.5e-6);
	double bed = -0.1 + 0.2 * bc_random_normal(random);
	double swing = bc_random_arc_sine(random, -0.5, 0.5);
	double expansion_apart = bc_random_curved_trapezoid(random, -1.0e-6, 1.0e-6, 0.1e-6);
	double temp_apart = bc_random_curved_trapezoid(random, -0.050, 0.050, 0.025);
	double length = standard + difference + d1 + d2 -
			standard * (expansion_apart * (bed + swing) + expansion * temp_apart);
	return length - 5e7;
}

static void test_gauge_block(void **state)
{
	(void)state;
	struct outcome y = propagate(gauge_block, NULL, 0.99);
	assert_close(y.mean, 838.0, 0.5 + 0.25);
	assert_close(y.deviation, 36.0, 0.5 + 0.2);
	assert_close(y.short_low, 745.0, 3.0);
	assert_close(y.short_high, 932.0, 3.0);
}

static double triangle(struct bc_random *random, const double *given)
{
	return bc_random_triangular(random, given[0], given[1]);
}

static double halves(struct bc_random *random, const double *given)
{
	return bc_half_and_half(bc_random_normal(random), given[0], given[1], given[2]);
}

static void test_shapes(void **state)
{
	(void)state;
	static const double ends[] = {3.1, 7.9};
	struct outcome flat = propagate(triangle, ends, 0.95);
	assert_close(flat.mean, 5.5, 0.007);
	assert_close(flat.deviation, 4.8 / sqrt(24.0), 0.005);
	static const double lopsided[] = {41.3, 22.7, 46.9};
	struct outcome y = propagate(halves, lopsided, 0.95);
	assert_close(y.low, 22.7, 0.25);
	assert_close(y.high, 46.9, 0.08);
}

/* 9.4 once more, both inputs stratified: the same, from a hundredth of the draws. */
static void test_strata(void **state)
{
	(void)state;
	enum { FEW = 2000 };
	static double a[FEW];
	static double b[FEW];
	static double y[FEW];
	struct bc_random *random = bc_random_new(SEED);
	assert_non_null(random);
	bc_random_strata(random, a, FEW);
	bc_random_strata(random, b, FEW);
	for (size_t i = 0; i < FEW; i++)
		y[i] = 1e6 * (pow(0.050 + 0.005 * a[i], 2.0) + pow(0.005 * b[i], 2.0));
	assert_close(gsl_stats_mean(a, 1, FEW), 0.0, 1e-3);
	assert_close(gsl_stats_sd(a, 1, FEW), 1.0, 2e-3);
	assert_close(gsl_stats_correlation(a, 1, b, 1, FEW), 0.0, 3.0 / sqrt(FEW));
	assert_close(gsl_stats_mean(y, 1, FEW), 2550.0, 2.0);
	assert_close(gsl_stats_sd(y, 1, FEW), 502.0, 5.0);
	double low;
	double high;
	bc_shortest_interval(y, FEW, 0.95, &low, &high);
	assert_close(low, 1590.0, 40.0);
	assert_close(high, 3543.0, 40.0);
	bc_random_free(random);
}

static void test_same_seed(void **state)
{
	(void)state;
	struct bc_random *random = bc_random_new(17);
	assert_non_null(random);
	double first = bc_random_normal(random);
	double second = bc_random_normal(random);
	assert_true(first != second);
	bc_random_restart(random, 17);
	assert_true(bc_random_normal(random) == first);
	bc_random_restart(random, 18);
	assert_true(bc_random_normal(random) != first);
	bc_random_free(random);
}

static void test_left_out(void **state)
{
	(void)state;
	double low;
	double high;
	double some[] = {NAN, 4.0, 2.0, NAN, 3.0, 1.0};
	bc_spread_of(some, 6, &low, &high);
	assert_close(low, 1.075, 1e-12);
	assert_close(high, 3.925, 1e-12);
	double few[] = {NAN, 4.0, NAN, NAN, 3.0};
	bc_spread_of(few, 5, &low, &high);
	assert_true(isnan(low) && isnan(high));
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(test_additive),
		cmocka_unit_test(test_mass_calibration),
		cmocka_unit_test(test_comparison_loss),
		cmocka_unit_test(test_gauge_block),
		cmocka_unit_test(test_shapes),
		cmocka_unit_test(test_strata),
		cmocka_unit_test(test_same_seed),
		cmocka_unit_test(test_left_out),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
