/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules against chance on a chart: where each begins, and how often chance alone breaks them. */
#include "base/run_rules.h"
#include "unit/unit.h"

#include <string.h>

static const struct bc_individuals standard = {.mean = 0.0,
	.mean_range = 1.128,
	.sigma = 1.0,
	.upper = 3.0,
	.lower = -3.0,
	.range_upper = 3.685};

static struct bc_run_rules only(enum bc_run_rule rule)
{
	struct bc_run_rules rules = {.side = 9, .rise = 6};
	rules.on[rule] = true;
	return rules;
}

/* The one stretch that there is. */
static void expect_one(
	const double *values, size_t n, enum bc_run_rule rule, size_t first, size_t last, int side)
{
	struct bc_run_stretches found;
	struct bc_run_rules rules = only(rule);
	assert_int_equal(bc_run_stretches_find(values, n, &standard, &rules, &found), BC_OK);
	assert_int_equal(found.n, 1);
	assert_int_equal(found.items[0].rule, rule);
	assert_int_equal(found.items[0].first, first);
	assert_int_equal(found.items[0].last, last);
	assert_int_equal(found.items[0].side, side);
	bc_run_stretches_release(&found);
}

static void expect_none(const double *values, size_t n, enum bc_run_rule rule)
{
	struct bc_run_stretches found;
	struct bc_run_rules rules = only(rule);
	assert_int_equal(bc_run_stretches_find(values, n, &standard, &rules, &found), BC_OK);
	assert_int_equal(found.n, 0);
	bc_run_stretches_release(&found);
}

static void beyond_the_limits(void **state)
{
	(void)state;
	const double values[] = {0.3, -2.9, 3.0, 3.01, 3.7, -0.2};
	expect_one(values, 6, BC_RULE_BEYOND, 3, 4, 1);
	expect_none(values, 3, BC_RULE_BEYOND);
	const double low[] = {0.3, -3.2};
	expect_one(low, 2, BC_RULE_BEYOND, 1, 1, -1);
	const double jump[] = {-1.8, 1.87, -1.9, 0.1};
	expect_one(jump, 4, BC_RULE_JUMP, 2, 2, 0);
}

static void nine_on_one_side(void **state)
{
	(void)state;
	const double values[] = {-0.4, 0.3, 0.9, 0.2, 1.7, 0.1, 0.6, 0.3, 0.8, 0.4, 0.2, -1.1};
	expect_one(values, 12, BC_RULE_SIDE, 1, 10, 1);
	expect_none(values, 9, BC_RULE_SIDE);
	/* a value on the line ends the run */
	const double broken[] = {0.3, 0.9, 0.2, 1.7, 0.1, 0.0, 0.3, 0.8, 0.4, 0.2, 0.7};
	expect_none(broken, 11, BC_RULE_SIDE);
}

static void six_rising_or_falling(void **state)
{
	(void)state;
	const double values[] = {0.7, -1.4, -1.1, -0.4, 0.3, 0.4, 0.9, 0.8};
	expect_one(values, 8, BC_RULE_RISE, 1, 6, 1);
	expect_none(values, 6, BC_RULE_RISE);
	const double falls[] = {1.4, 1.1, 0.4, 0.3, 0.2, -0.9};
	expect_one(falls, 6, BC_RULE_RISE, 0, 5, -1);
	const double level[] = {-1.4, -1.1, -0.4, -0.4, 0.3, 0.4, 0.9};
	expect_none(level, 7, BC_RULE_RISE);
}

static void by_turns(void **state)
{
	(void)state;
	double values[15];
	for (size_t i = 0; i < 15; i++)
		values[i] = i % 2 == 0 ? 0.7 : -0.4;
	expect_one(values, 14, BC_RULE_ZIGZAG, 0, 13, 0);
	expect_none(values, 13, BC_RULE_ZIGZAG);
	values[5] = 0.9;
	expect_none(values, 15, BC_RULE_ZIGZAG);
}

static void far_and_off(void **state)
{
	(void)state;
	const double far[] = {0.1, 2.2, 0.3, 2.1, -0.4, -2.3};
	expect_one(far, 6, BC_RULE_FAR, 1, 3, 1);
	const double apart[] = {2.2, 0.1, 0.3, 2.1, -2.3};
	expect_none(apart, 5, BC_RULE_FAR);
	const double off[] = {0.1, -1.2, -1.3, 0.4, -1.1, -1.7, 0.2};
	expect_one(off, 7, BC_RULE_OFF, 1, 5, -1);
	expect_none(off, 5, BC_RULE_OFF);
}

static void quiet_and_split(void **state)
{
	(void)state;
	double values[16];
	for (size_t i = 0; i < 16; i++)
		values[i] = i % 3 == 0 ? 0.97 : -0.31;
	expect_one(values, 15, BC_RULE_QUIET, 0, 14, 0);
	values[7] = 1.02;
	expect_none(values, 16, BC_RULE_QUIET);
	const double split[] = {0.1, 1.3, -1.2, 1.7, 1.1, -2.4, 1.6, 1.2, -1.3, 0.2};
	expect_one(split, 10, BC_RULE_SPLIT, 1, 8, 0);
	expect_none(split, 8, BC_RULE_SPLIT);
	const double above[] = {1.1, 1.3, 1.2, 1.7, 1.1, 2.4, 1.6, 1.2, 1.3};
	expect_none(above, 9, BC_RULE_SPLIT);
}

/* Equal values are no drift, whatever rounding makes of their mean. */
static void nothing_moves(void **state)
{
	(void)state;
	double values[30];
	struct bc_individuals chart;
	struct bc_run_stretches found;
	for (size_t i = 0; i < 30; i++)
		values[i] = 0.1 + 0.2;
	assert_int_equal(bc_individuals_chart(values, 30, &chart), BC_OK);
	assert_int_equal(
		bc_run_stretches_find(values, 30, &chart, &bc_run_sets[3].rules, &found), BC_OK);
	assert_int_equal(found.n, 0);
	bc_run_stretches_release(&found);
	values[29] = 0.4;
	assert_int_equal(
		bc_run_stretches_find(values, 30, &chart, &bc_run_sets[0].rules, &found), BC_OK);
	assert_true(found.n > 0);
	bc_run_stretches_release(&found);
	values[3] = NAN;
	assert_int_equal(bc_run_stretches_find(values, 30, &chart, &bc_run_sets[0].rules, &found),
		BC_BAD_DOMAIN);
	assert_int_equal(found.n, 0);
}

/* ---- chance alone */

static uint64_t seed = 88172645463325252U;

static double uniform(void)
{
	seed ^= seed << 13;
	seed ^= seed >> 7;
	seed ^= seed << 17;
	return ((double)(seed >> 11) + 0.5) / 9007199254740992.0;
}

static double normal(void)
{
	const double pi = 3.14159265358979324;
	return sqrt(-2.0 * log(uniform())) * cos(2.0 * pi * uniform());
}

static bool fires(const double *values, size_t n, const struct bc_run_rules *rules)
{
	struct bc_run_stretches found;
	assert_int_equal(bc_run_stretches_find(values, n, &standard, rules, &found), BC_OK);
	bool any = found.n > 0;
	bc_run_stretches_release(&found);
	return any;
}

/* Points until the first signal, on average. */
static double average_run_length(const struct bc_run_rules *rules)
{
	enum { RUNS = 10000, LENGTH = 4096 };
	static double values[LENGTH];
	double sum = 0.0;
	for (int run = 0; run < RUNS; run++) {
		size_t n = 0;
		size_t high = 0;
		/* longer pieces until one fires, then halves */
		do {
			high = high == 0 ? 32 : 2 * high;
			for (; n < high; n++)
				values[n] = normal();
		} while (high < LENGTH && !fires(values, high, rules));
		size_t low = 0;
		while (high - low > 1) {
			size_t middle = (low + high) / 2;
			*(fires(values, middle, rules) ? &high : &low) = middle;
		}
		sum += (double)high;
	}
	return sum / RUNS;
}

/* Champ and Woodall, Technometrics 29 (1987), table 1 at no shift; from memory. The spread of a
 * mean of 10,000 run lengths is 1 % of it. */
static void how_often_chance_breaks_them(void **state)
{
	(void)state;
	const struct {
		bool far;
		bool off;
		bool side;
		double expected;
	} cases[] = {
		{false, false, false, 370.40},
		{true, false, false, 225.44},
		{false, true, false, 166.05},
		{false, false, true, 152.73},
		{true, true, true, 91.75},
	};
	for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
		struct bc_run_rules rules = {.side = 8, .rise = 6};
		rules.on[BC_RULE_BEYOND] = true;
		rules.on[BC_RULE_FAR] = cases[i].far;
		rules.on[BC_RULE_OFF] = cases[i].off;
		rules.on[BC_RULE_SIDE] = cases[i].side;
		assert_close(
			average_run_length(&rules), cases[i].expected, 0.04 * cases[i].expected);
	}
	for (size_t i = 0; i < BC_RUN_SETS; i++)
		assert_close(average_run_length(&bc_run_sets[i].rules), bc_run_sets[i].once_in,
			0.04 * bc_run_sets[i].once_in);
	assert_close(bc_run_rules_once_in(&bc_run_sets[2].rules), 91.75, 1e-9);
	struct bc_run_rules changed = bc_run_sets[2].rules;
	changed.side = 9;
	assert_nan(bc_run_rules_once_in(&changed));
}

/* Against the spread that simulated charts show. */
static void how_uncertain_limits_are(void **state)
{
	(void)state;
	enum { CHARTS = 20000, N = 15 };
	double sum = 0.0;
	double squares = 0.0;
	double doubt_frac = NAN;
	for (int i = 0; i < CHARTS; i++) {
		double values[N];
		struct bc_individuals chart;
		for (size_t k = 0; k < N; k++)
			values[k] = normal();
		assert_int_equal(bc_individuals_chart(values, N, &chart), BC_OK);
		sum += chart.sigma;
		squares += chart.sigma * chart.sigma;
	}
	double mean = sum / CHARTS;
	double spread = sqrt(squares / CHARTS - mean * mean);
	assert_int_equal(bc_chart_doubt_frac(N, &doubt_frac), BC_OK);
	assert_close(doubt_frac, 1.96 * spread / mean, 0.012);
	assert_int_equal(bc_chart_doubt_frac(1, &doubt_frac), BC_TOO_FEW);
	assert_nan(doubt_frac);
}

static void sets_and_lists(void **state)
{
	(void)state;
	struct bc_run_rules rules;
	assert_true(bc_run_rules_parse("zones", &rules));
	assert_true(rules.on[BC_RULE_FAR] && !rules.on[BC_RULE_RISE]);
	assert_int_equal(rules.side, 8);
	assert_true(bc_run_rules_parse("side,quiet", &rules));
	assert_true(rules.on[BC_RULE_SIDE] && rules.on[BC_RULE_QUIET] && !rules.on[BC_RULE_BEYOND]);
	assert_false(bc_run_rules_parse("side,", &rules));
	assert_false(bc_run_rules_parse("", &rules));
	assert_false(bc_run_rules_parse("sides", &rules));
	assert_false(bc_run_rules_parse("side,zones", &rules));
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(beyond_the_limits),
		cmocka_unit_test(nine_on_one_side),
		cmocka_unit_test(six_rising_or_falling),
		cmocka_unit_test(by_turns),
		cmocka_unit_test(far_and_off),
		cmocka_unit_test(quiet_and_split),
		cmocka_unit_test(nothing_moves),
		cmocka_unit_test(how_often_chance_breaks_them),
		cmocka_unit_test(how_uncertain_limits_are),
		cmocka_unit_test(sets_and_lists),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
