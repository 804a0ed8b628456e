/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The doubt in a mean of runs: two spreads joined, small numbers, straight lines between. */
#include "unit/unit.h"

#include "curve/repeat_forms.h"
#include "curve/runs_spread.h"

/* t and s by an independent script (scipy 1.x). */
static void test_two_spreads_are_joined_by_their_freedom(void **state)
{
	(void)state;
	assert_close(bc_runs_sigma_c(2.37, 0.61, 3), 1.11542059922, 1e-9);
	assert_close(bc_runs_half_width_c(2.37, 0.61, 3), 1.43489553686, 1e-7);
	assert_close(bc_runs_half_width_c(2.37, 4.83, 2), 3.15561379627, 1e-7);
	assert_nan(bc_runs_half_width_c(2.37, 0.61, 0));
}

/* One run has no spread of its own, whatever stands in its place. */
static void test_one_run_is_as_assumed(void **state)
{
	(void)state;
	assert_close(bc_runs_sigma_c(1.9, NAN, 1), 0.96940556816, 1e-9);
	assert_close(bc_runs_half_width_c(1.9, NAN, 1), 2.23545324929, 1e-7);
}

static void test_more_runs_that_agree_narrow_it_by_their_root(void **state)
{
	const double sigma = 2.37 / 1.959963984540054;
	double two = bc_runs_half_width_c(2.37, sigma, 2);
	double eight = bc_runs_half_width_c(2.37, sigma, 8);

	(void)state;
	assert_true(eight < 0.5 * two);
	assert_true(eight > 0.45 * two);
}

static void test_between_the_rows_straight_beyond_them_flat(void **state)
{
	const struct bc_runs_spread spread = {
		.runs = 3, .n = 3, .pct = {5.0, 10.0, 30.0}, .half_width_c = {2.3, 1.7, 0.9}};
	const struct bc_runs_spread none = {.runs = 3};

	(void)state;
	assert_close(bc_runs_spread_c(&spread, 0.0), 2.3, 1e-12);
	assert_close(bc_runs_spread_c(&spread, 7.0), 2.06, 1e-12);
	assert_close(bc_runs_spread_c(&spread, 17.0), 1.42, 1e-12);
	assert_close(bc_runs_spread_c(&spread, 71.0), 0.9, 1e-12);
	assert_close(bc_runs_spread_c(&none, 17.0), 0.0, 1e-12);
}

static void test_refusals_of_range_and_grubbs(void **state)
{
	double value;

	(void)state;
	assert_int_equal(bc_critical_range(2.37, 1.0, &value), BC_BAD_DOMAIN);
	assert_nan(value);
	assert_int_equal(bc_critical_range(2.37, 21.0, &value), BC_BAD_DOMAIN);
	assert_int_equal(bc_critical_range(2.37, 3.5, &value), BC_BAD_DOMAIN);
	assert_int_equal(bc_critical_range(-0.1, 3.0, &value), BC_BAD_DOMAIN);
	assert_int_equal(bc_grubbs_critical(2.0, 0.05, &value), BC_BAD_DOMAIN);
	assert_nan(value);
	assert_int_equal(bc_grubbs_critical(7.0, 0.0, &value), BC_BAD_DOMAIN);
	assert_int_equal(bc_grubbs_critical(1001.0, 0.05, &value), BC_OUTSIDE_RANGE);
}

/* ISO 5725-2:1994, table of one outlying value, 5 % and 1 %; from memory, recomputed. */
static void test_grubbs_meets_the_table(void **state)
{
	static const struct {
		double n;
		double five;
		double one;
	} rows[] = {{3, 1.155, 1.155}, {4, 1.481, 1.496}, {5, 1.715, 1.764}, {6, 1.887, 1.973},
		{7, 2.020, 2.139}, {8, 2.126, 2.274}, {9, 2.215, 2.387}, {10, 2.290, 2.482}};
	double value;

	(void)state;
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		/* the print rounds upwards in places */
		assert_int_equal(bc_grubbs_critical(rows[i].n, 0.05, &value), BC_OK);
		assert_close(value, rows[i].five, 0.001);
		assert_int_equal(bc_grubbs_critical(rows[i].n, 0.01, &value), BC_OK);
		assert_close(value, rows[i].one, 0.001);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(test_two_spreads_are_joined_by_their_freedom),
		cmocka_unit_test(test_one_run_is_as_assumed),
		cmocka_unit_test(test_more_runs_that_agree_narrow_it_by_their_root),
		cmocka_unit_test(test_between_the_rows_straight_beyond_them_flat),
		cmocka_unit_test(test_refusals_of_range_and_grubbs),
		cmocka_unit_test(test_grubbs_meets_the_table),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
