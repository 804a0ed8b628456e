/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The published corrections: the standard's example, IF97's verification table, refusals. */
#include "curve/correction.h"

#include "unit/unit.h"

/* Half up to a tenth, as the standard rounds. */
static double tenth(double value) { return floor(value * 10.0 + 0.5) / 10.0; }

/* ASTM D86-04b/07b, appendix example at 98.6 kPa; from memory. */
static const double example_pct[] = {0, 5, 10, 15, 20, 30, 40, 50, 60, 70, 80, 85, 90};
static const double example_observed[] = {
	25.5, 33.0, 39.5, 46.5, 54.5, 74.0, 93.0, 108.0, 123.0, 142.0, 166.5, 180.5, 200.4};
static const double example_corrected[] = {
	26.2, 33.7, 40.3, 47.3, 55.3, 74.8, 93.9, 108.9, 124.0, 143.0, 167.6, 181.6, 201.6};
#define EXAMPLE_N (sizeof example_pct / sizeof *example_pct)

static void test_sydney_young_gives_the_example(void **state)
{
	(void)state;
	double corrected;
	for (size_t i = 0; i < EXAMPLE_N; i++) {
		assert_int_equal(
			bc_sydney_young_corrected_c(example_observed[i], 98.6, &corrected), BC_OK);
		assert_close(tenth(corrected), example_corrected[i], 1e-9);
	}
	assert_int_equal(bc_sydney_young_corrected_c(215.0, 98.6, &corrected), BC_OK);
	assert_close(tenth(corrected), 216.2, 1e-9);
}

static void test_loss_and_recovery_of_the_example(void **state)
{
	(void)state;
	double loss;
	double recovery;
	assert_int_equal(bc_loss_corrected_pct(4.7, 98.6, &loss), BC_OK);
	assert_close(loss, 3.6402, 5e-5);
	assert_int_equal(bc_recovery_corrected_pct(94.2, 4.7, loss, &recovery), BC_OK);
	assert_close(recovery, 95.2598, 5e-5);
}

static double example_at(double evaporated, double loss)
{
	size_t i = 0;
	double temp = NAN;
	while (i + 2 < EXAMPLE_N && example_pct[i + 1] < evaporated - loss)
		i++;
	assert_int_equal(
		bc_temp_at_evaporated_c(evaporated, loss, example_pct[i], example_corrected[i],
			example_pct[i + 1], example_corrected[i + 1], &temp),
		BC_OK);
	return temp;
}

/* Percent evaporated adds the observed loss; the corrected one gives other figures. */
static void test_evaporated_uses_the_observed_loss(void **state)
{
	(void)state;
	assert_close(example_at(10, 4.7), 34.096, 5e-4);
	assert_close(example_at(50, 4.7), 101.85, 5e-4);
	assert_close(example_at(90, 4.7), 182.80, 5e-4);
	assert_close(example_at(10, 3.64), 35.495, 5e-4);
	assert_close(example_at(50, 3.64), 103.44, 5e-4);
	assert_close(example_at(90, 3.64), 187.04, 5e-4);
}

static void test_evaporated_refuses_less_than_the_loss(void **state)
{
	(void)state;
	double temp = 0.0;
	assert_int_equal(bc_temp_at_evaporated_c(3.1, 4.7, 0, 26.2, 5, 33.7, &temp), BC_BAD_DOMAIN);
	assert_nan(temp);
	assert_int_equal(
		bc_temp_at_evaporated_c(13.1, 4.7, 0, 26.2, 5, 33.7, &temp), BC_OUTSIDE_RANGE);
	assert_close(temp, 26.2 + 7.5 * 8.4 / 5.0, 1e-9);
}

/* IAPWS-IF97, verification tables of region 4; from memory. */
static void test_water_verification_values(void **state)
{
	(void)state;
	static const double kpa[] = {100.0, 1000.0, 10000.0};
	static const double boils_k[] = {372.755919, 453.035632, 584.149488};
	static const double temp_k[] = {300.0, 500.0, 600.0};
	static const double mpa[] = {0.353658941e-2, 0.263889776e1, 0.123443146e2};
	double value;
	for (int i = 0; i < 3; i++) {
		assert_int_equal(bc_water_boils_c(kpa[i], &value), BC_OK);
		assert_close(value + 273.15, boils_k[i], 6e-7);
		assert_int_equal(bc_water_pressure_kpa(temp_k[i] - 273.15, &value), BC_OK);
		assert_close(value / 1000.0 / mpa[i], 1.0, 2e-9);
	}
}

static void test_water_both_ways(void **state)
{
	(void)state;
	for (double kpa = 51.3; kpa < 110.0; kpa += 7.7) {
		double temp;
		double back;
		bc_water_boils_c(kpa, &temp);
		bc_water_pressure_kpa(temp, &back);
		assert_close(back, kpa, 1e-6);
	}
}

static void test_altitude(void **state)
{
	(void)state;
	double kpa;
	assert_int_equal(bc_pressure_from_altitude_kpa(1500, &kpa), BC_OK);
	assert_close(kpa, 84.556, 5e-4);
	assert_int_equal(bc_pressure_from_altitude_kpa(11000, &kpa), BC_OK);
	assert_close(kpa, 22.6321, 5e-5);
	assert_int_equal(bc_pressure_from_altitude_kpa(12127, &kpa), BC_OUTSIDE_RANGE);
	assert_int_equal(bc_pressure_from_altitude_kpa(50000, &kpa), BC_BAD_DOMAIN);
	assert_nan(kpa);
}

static void test_stem(void **state)
{
	(void)state;
	double correction;
	assert_int_equal(bc_stem_correction_c(210, 10, 40, &correction), BC_OK);
	assert_close(correction, 5.44, 1e-9);
	assert_int_equal(bc_stem_correction_c(57.3, 60, 40, &correction), BC_OK);
	assert_close(correction, 0.0, 0.0);
}

static void test_two_point(void **state)
{
	(void)state;
	double value;
	assert_int_equal(bc_two_point_c(18.2, -0.3, 100.6, 100.0, &value), BC_OK);
	assert_close(value, 18.335, 5e-4);
	assert_int_equal(bc_two_point_c(18.2, 5.0, 4.0, 99.2, &value), BC_BAD_DOMAIN);
	assert_nan(value);
}

/* Precision of groups 2 to 4, manual; ASTM D86-04b/07b, from memory. */
static void test_reproducibility(void **state)
{
	(void)state;
	double r;
	assert_int_equal(bc_d86_reproducibility_c(50, 2.0, &r), BC_OK);
	assert_close(r, 4.46, 1e-9);
	assert_int_equal(bc_d86_reproducibility_c(0, 2.0, &r), BC_OK);
	assert_close(r, 4.66, 1e-9);
	assert_int_equal(bc_d86_reproducibility_c(100, 2.0, &r), BC_OK);
	assert_close(r, 3.94, 1e-9);
	assert_int_equal(bc_d86_reproducibility_c(97.5, 2.0, &r), BC_OUTSIDE_RANGE);
	assert_close(r, 0.5 * (4.46 + 3.94), 1e-9);
	assert_int_equal(bc_d86_reproducibility_c(50, -0.1, &r), BC_BAD_DOMAIN);
	assert_nan(r);
}

static void test_nothing_comes_of_nan(void **state)
{
	(void)state;
	double v = 0.0;
	assert_int_equal(bc_sydney_young_corrected_c(NAN, 98.6, &v), BC_BAD_DOMAIN);
	assert_nan(v);
	assert_int_equal(bc_sydney_young_observed_c(127.3, 0.0, &v), BC_BAD_DOMAIN);
	assert_nan(v);
	assert_int_equal(bc_loss_corrected_pct(1.3, 109.3, &v), BC_BAD_DOMAIN);
	assert_nan(v);
	assert_int_equal(bc_recovery_corrected_pct(94.2, NAN, 3.6, &v), BC_BAD_DOMAIN);
	assert_nan(v);
	assert_int_equal(bc_water_boils_c(-1.0, &v), BC_BAD_DOMAIN);
	assert_nan(v);
	assert_int_equal(bc_stem_correction_c(210, NAN, 40, &v), BC_BAD_DOMAIN);
	assert_nan(v);
	assert_int_equal(bc_sydney_young_corrected_c(127.3, 47.3, &v), BC_OUTSIDE_RANGE);
	assert_close(v, 146.75458, 1e-5);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(test_sydney_young_gives_the_example),
		cmocka_unit_test(test_loss_and_recovery_of_the_example),
		cmocka_unit_test(test_evaporated_uses_the_observed_loss),
		cmocka_unit_test(test_evaporated_refuses_less_than_the_loss),
		cmocka_unit_test(test_water_verification_values),
		cmocka_unit_test(test_water_both_ways),
		cmocka_unit_test(test_altitude),
		cmocka_unit_test(test_stem),
		cmocka_unit_test(test_two_point),
		cmocka_unit_test(test_reproducibility),
		cmocka_unit_test(test_nothing_comes_of_nan),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
