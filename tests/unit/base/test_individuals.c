/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Individuals and moving-range chart: two published examples, and what it refuses. */
#include "base/individuals.h"
#include "unit/unit.h"

/* Montgomery & Runger, exercise 15-17: centre line and limits seen in a public copy, whose mean
 * range is rounded to 2.947; the readings from memory, they give all printed ranges. */
static void a_textbook_chart(void **state)
{
	(void)state;
	const double values[] = {
		51, 52, 54, 55, 55, 51, 52, 50, 51, 56, 51, 57, 58, 50, 53, 52, 54, 50, 56, 53};
	struct bc_individuals chart;
	assert_int_equal(bc_individuals_chart(values, 20, &chart), BC_OK);
	assert_close(chart.mean, 53.05, 0.005);
	assert_close(chart.mean_range, 2.947, 0.0005);
	assert_close(chart.upper, 60.888, 0.001);
	assert_close(chart.lower, 45.212, 0.001);
	assert_close(chart.sigma, 2.613, 0.0005);
	assert_close(chart.range_upper, 9.628, 0.0015);
}

/* NIST/SEMATECH handbook, flow rate; from memory. */
static void the_flow_rate_of_a_handbook(void **state)
{
	(void)state;
	const double values[] = {49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};
	struct bc_individuals chart;
	assert_int_equal(bc_individuals_chart(values, 10, &chart), BC_OK);
	assert_close(chart.mean, 50.81, 0.005);
	assert_close(chart.upper, 55.8041, 0.0001);
	assert_close(chart.lower, 45.8159, 0.0001);
}

/* d2(2) = 2/sqrt(pi); E2 = 3/d2 and D4 as printed in tables. */
static void the_constants_are_those_of_two(void **state)
{
	(void)state;
	const double pi = 3.14159265358979324;
	assert_close(BC_D2_OF_TWO, 2.0 / sqrt(pi), 0.0005);
	assert_close(3.0 / (2.0 / sqrt(pi)), 2.659, 0.0005);
	assert_close(BC_D4_OF_TWO, 1.0 + 3.0 * sqrt(2.0 - 4.0 / pi) / (2.0 / sqrt(pi)), 0.0005);
}

static void too_few_or_not_a_number(void **state)
{
	(void)state;
	const double values[] = {51.3, NAN, 52.7};
	struct bc_individuals chart;
	assert_int_equal(bc_individuals_chart(values, 1, &chart), BC_TOO_FEW);
	assert_nan(chart.mean);
	assert_int_equal(bc_individuals_chart(values, 3, &chart), BC_BAD_DOMAIN);
	assert_nan(chart.upper);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_textbook_chart),
		cmocka_unit_test(the_flow_rate_of_a_handbook),
		cmocka_unit_test(the_constants_are_those_of_two),
		cmocka_unit_test(too_few_or_not_a_number),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
