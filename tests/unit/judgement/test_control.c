/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A control sample: limits by hand, and what moved told apart. */
#include "unit/unit.h"

#include <string.h>

#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>

#include "judgement/control.h"

enum { READINGS = 13, MOST = 30 };
static const double pct[READINGS] = {0, 5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95, 100};
/* a kerosene on the D86 basis */
static const double oil_c[READINGS] = {
	156.3, 166.9, 171.4, 178.7, 185.2, 191.6, 198.3, 205.1, 213.2, 222.9, 235.7, 245.3, 256.8};

struct series {
	struct bc_sample *samples[MOST];
	size_t n;
	struct bc_control *control;
};

static void add(struct series *series, const char *date, double shift_c, const double *error_c)
{
	char text[2048];
	int n = snprintf(text, sizeof text,
		"%s%s%shistory,rerun\nbarometer,101.3 kPa\nthermometer,glass d86\nresidue,1.1 mL\n"
		"loss,0.6 mL\nrecovered (%%),head (C)\n",
		date ? "date," : "", date ? date : "", date ? "\n" : "");

	for (size_t i = 0; i < READINGS; i++) {
		char name[16];
		snprintf(name, sizeof name, "%g", pct[i]);
		n += snprintf(text + n, sizeof text - (size_t)n, "%s,%.6f\n",
			i == 0              ? "IBP"
			: i == READINGS - 1 ? "FBP"
					    : name,
			oil_c[i] + shift_c + (error_c ? error_c[i] : 0.0));
	}
	assert_int_equal(
		bc_sample_read(text, (size_t)n, "control.csv", NULL, &series->samples[series->n++]),
		BC_OK);
}

static enum bc_status judge(struct series *series)
{
	size_t failed;
	return bc_control_new((const struct bc_sample *const *)series->samples, series->n,
		&series->control, &failed);
}

static void release(struct series *series)
{
	bc_control_free(series->control);
	for (size_t i = 0; i < series->n; i++)
		bc_sample_free(series->samples[i]);
	*series = (struct series){0};
}

/* Shifts of nine runs before the newest; moving ranges 0.9 0.5 0.7 1.1 0.3 0.8 0.6 0.7: 0.7. */
static const double before_c[9] = {0.3, -0.6, -0.1, 0.6, -0.5, -0.2, 0.6, 0.0, -0.7};

static void add_history(struct series *series)
{
	for (size_t i = 0; i < 9; i++)
		add(series, NULL, before_c[i], NULL);
}

static void test_limits_by_hand(void **state)
{
	struct series series = {0};

	(void)state;
	add_history(&series);
	add(&series, NULL, 0.9, NULL);
	assert_int_equal(judge(&series), BC_OK);
	const struct bc_control_chart *t50 = &series.control->charts[BC_CONTROL_T50];
	double centre = 198.3 - 0.6 / 9.0;
	assert_true(series.control->own_limits);
	assert_int_equal(series.control->n_baseline, 9);
	assert_close(t50->centre, centre, 1e-6);
	assert_close(t50->upper, centre + 3.0 * 0.7 / 1.128, 1e-6);
	assert_close(t50->lower, centre - 3.0 * 0.7 / 1.128, 1e-6);
	assert_int_equal(series.control->word, BC_CONTROL_IN);
	assert_int_equal(series.control->cause, BC_CONTROL_NONE);
	assert_int_equal(series.control->advice.n, 0);
	release(&series);
}

static void find(double shift_c, double per_100_c, const double *error_c, enum bc_control_word word,
	enum bc_control_cause cause, double size_c, double tolerance)
{
	struct series series = {0};
	double all_c[READINGS];

	for (size_t i = 0; i < READINGS; i++)
		all_c[i] = per_100_c * oil_c[i] / 100.0 + (error_c ? error_c[i] : 0.0);
	add_history(&series);
	add(&series, NULL, shift_c, all_c);
	assert_int_equal(judge(&series), BC_OK);
	assert_string_equal(bc_control_word_text(series.control->word), bc_control_word_text(word));
	assert_string_equal(
		bc_control_cause_text(series.control->cause), bc_control_cause_text(cause));
	assert_close(series.control->change_c, size_c, tolerance);
	assert_true(series.control->advice.n > 0);
	release(&series);
}

static void test_thermometer_told_from_oil(void **state)
{
	/* light end gone; heavy oil in it; another rate of heating */
	static const double front_c[READINGS] = {17.3, 13.1, 9.7, 3.1, 0.3};
	static const double tail_c[READINGS] = {[9] = 3.3, 9.1, 12.7, 17.9};
	static const double shape_c[READINGS] = {
		[2] = -4.7, -3.9, -2.1, 0, 3.7, 6.3, 7.1, 5.3, -4.1};

	(void)state;
	find(1.9, 0.0, NULL, BC_CONTROL_OUT, BC_CONTROL_THERMOMETER, 1.97, 0.01);
	find(3.7, 0.0, NULL, BC_CONTROL_OUT, BC_CONTROL_OFFSET, 3.77, 0.01);
	find(-17.3, 0.0, NULL, BC_CONTROL_OUT, BC_CONTROL_OFFSET, -17.23, 0.01);
	find(0.0, 9.1, NULL, BC_CONTROL_OUT, BC_CONTROL_SCALE, 18.2, 0.3);
	find(0.0, 0.0, front_c, BC_CONTROL_OUT, BC_CONTROL_FRONT, 16.6, 0.5);
	find(0.0, 0.0, tail_c, BC_CONTROL_OUT, BC_CONTROL_TAIL, 16.2, 1.0);
	find(0.0, 0.0, shape_c, BC_CONTROL_OUT, BC_CONTROL_SHAPE, 0.67, 0.02);
}

/* An offset looks like a pressure: 0.0009 (273 + T) degC for each kPa. */
static void test_offset_as_pressure(void **state)
{
	struct series series = {0};

	(void)state;
	add_history(&series);
	add(&series, NULL, 2.3, NULL);
	assert_int_equal(judge(&series), BC_OK);
	double mean_c = series.control->charts[BC_CONTROL_MEAN].centre;
	assert_close(series.control->pressure_kpa, -(2.3 + 0.6 / 9.0) / (0.0009 * (273.0 + mean_c)),
		1e-4);
	release(&series);
}

static void test_few_runs_have_assumed_limits_and_say_so(void **state)
{
	struct series series = {0};

	(void)state;
	add(&series, NULL, 0.0, NULL);
	add(&series, NULL, 2.1, NULL);
	assert_int_equal(judge(&series), BC_OK);
	assert_false(series.control->own_limits);
	assert_int_equal(series.control->word, BC_CONTROL_IN);
	bool said = false;
	for (size_t i = 0; i < series.control->notes.n; i++)
		said = said || strstr(series.control->notes.items[i], "too few") != NULL;
	assert_true(said);
	bc_control_free(series.control);
	add(&series, NULL, 11.3, NULL);
	assert_int_equal(judge(&series), BC_OK);
	assert_int_equal(series.control->word, BC_CONTROL_OUT);
	release(&series);
}

static void test_order_by_date(void **state)
{
	struct series series = {0};

	(void)state;
	add(&series, "2026-10-03", 9.7, NULL);
	add(&series, "2026-03-11", 0.0, NULL);
	add(&series, "2025-12-30", 0.4, NULL);
	assert_int_equal(judge(&series), BC_OK);
	assert_true(series.control->by_date);
	assert_string_equal(series.control->runs[2].sample->date, "2026-10-03");
	assert_close(series.control->charts[BC_CONTROL_T50].values[0], 198.7, 1e-6);
	release(&series);
}

/* Eight in a row a little high, none beyond the limits. */
static void test_drift(void **state)
{
	struct series series = {0};

	(void)state;
	add_history(&series);
	for (size_t i = 0; i < 8; i++) {
		add(&series, NULL, 0.8 + 0.1 * (double)(i % 3), NULL);
		bc_control_free(series.control);
		assert_int_equal(judge(&series), BC_OK);
		assert_int_equal(series.control->word, i < 7 ? BC_CONTROL_IN : BC_CONTROL_DRIFTING);
	}
	assert_int_equal(series.control->row, 8);
	assert_int_equal(series.control->cause, BC_CONTROL_THERMOMETER);
	assert_close(series.control->change_c, 0.8 + 0.7 / 8.0 + 0.6 / 9.0, 0.02);
	release(&series);
}

/* How often an unchanged control is called out, with limits from 9 and from 20 runs. */
static void test_false_alarms(void **state)
{
	static const size_t olds[] = {9, 20};
	enum { TRIALS = 150 };
	gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);

	(void)state;
	gsl_rng_set(rng, 20261003);
	for (size_t which = 0; which < 2; which++) {
		size_t alarms = 0;
		for (size_t trial = 0; trial < TRIALS; trial++) {
			struct series series = {0};
			for (size_t i = 0; i <= olds[which]; i++) {
				double error_c[READINGS];
				double shift_c = gsl_ran_gaussian(rng, 0.5);
				for (size_t k = 0; k < READINGS; k++)
					error_c[k] = shift_c + gsl_ran_gaussian(rng, 0.6);
				add(&series, NULL, 0.0, error_c);
			}
			assert_int_equal(judge(&series), BC_OK);
			alarms += series.control->word != BC_CONTROL_IN;
			release(&series);
		}
		print_message("alarms of an unchanged control, %zu runs before: %.1f %%\n",
			olds[which], 100.0 * (double)alarms / TRIALS);
		assert_true(alarms * 100 <= (which == 0 ? 16u : 10u) * TRIALS);
	}
	gsl_rng_free(rng);
}

static void test_refusals(void **state)
{
	struct series series = {0};

	(void)state;
	add(&series, NULL, 0.0, NULL);
	assert_int_equal(judge(&series), BC_TOO_FEW);
	assert_null(series.control);
	release(&series);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(test_limits_by_hand),
		cmocka_unit_test(test_thermometer_told_from_oil),
		cmocka_unit_test(test_offset_as_pressure),
		cmocka_unit_test(test_few_runs_have_assumed_limits_and_say_so),
		cmocka_unit_test(test_order_by_date),
		cmocka_unit_test(test_drift),
		cmocka_unit_test(test_false_alarms),
		cmocka_unit_test(test_refusals),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
