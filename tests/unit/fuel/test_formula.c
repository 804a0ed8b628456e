/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of formulae is whole: ids, units, sources, inputs. */
#include "fuel/formula.h"
#include "unit/unit.h"

#include <stdlib.h>
#include <string.h>

static void every_formula_is_complete(void **state)
{
	(void)state;
	for (size_t i = 0; i < bc_formula_count; i++) {
		const struct bc_formula *formula = &bc_formulae[i];
		assert_ptr_equal(bc_formula_find(formula->id), formula);
		assert_true(strlen(formula->source) > 10);
		assert_non_null(formula->unit);
		assert_non_null(formula->eval);
		assert_in_range(formula->n_inputs, 1, BC_FORMULA_INPUTS_MAX);
		assert_non_null(formula->equation);
		assert_true(strlen(formula->accuracy) > 4);
		for (size_t k = 0; k < BC_FORMULA_INPUTS_MAX; k++) {
			const struct bc_formula_input *input = &formula->inputs[k];
			assert_int_equal(input->name != NULL, k < formula->n_inputs);
			if (input->name)
				assert_false(input->min >= input->max);
		}
	}
	assert_null(bc_formula_find("flash.t10"));
}

/* Whatever a formula is given, a failure leaves NaN and a result is a number. */
static void a_formula_refuses_nan(void **state)
{
	(void)state;
	for (size_t i = 0; i < bc_formula_count; i++) {
		double input[BC_FORMULA_INPUTS_MAX];
		double result = 1.0;
		for (size_t k = 0; k < BC_FORMULA_INPUTS_MAX; k++)
			input[k] = NAN;
		enum bc_status status = bc_formulae[i].eval(input, &result);
		if (!bc_failed(status) || !isnan(result))
			fail_msg("%s takes NaN", bc_formulae[i].id);
	}
}

/* The embedded table of the check files, whose counts tests/outside/table.sh keeps true. */
static void checks_are_counted(void **state)
{
	(void)state;
	struct bc_formula_checks checks;
	for (size_t i = 0; i < bc_formula_count; i++) {
		if (!bc_formula_checks_of(bc_formulae[i].id, &checks))
			fail_msg("%s is not in the table of checks", bc_formulae[i].id);
		assert_true(checks.printed + checks.near_print + checks.independent +
				    checks.same_formula >
			    0);
	}
	assert_true(bc_formula_checks_of("flash.index_wickey", &checks));
	assert_int_equal(checks.printed, 10);
	assert_int_equal(checks.near_print, 3);
	assert_false(bc_formula_unchecked("flash.index_wickey"));
	assert_true(bc_formula_unchecked("cold.pour"));
	assert_true(bc_formula_unchecked("flash.index"));
	assert_false(bc_formula_checks_of("flash.index", &checks));
	assert_int_equal(checks.same_formula, 0);
}

/* Temperatures that rise, kelvin enough for a gravity of 0.8: only the point decides. */
static enum bc_status at_point(
	const struct bc_formula *formula, const struct bc_formula_points *points, double value)
{
	double input[BC_FORMULA_INPUTS_MAX];
	double result = NAN;
	bool found = false;
	for (size_t i = 0; i < formula->n_inputs; i++) {
		const char *unit = formula->inputs[i].unit;
		input[i] = strcmp(unit, "degC") == 0 ? 53.7 + 21.3 * (double)i : 0.8;
		if (strcmp(formula->inputs[i].name, points->input) == 0) {
			input[i] = value;
			found = true;
		} else if (strcmp(unit, "%") == 0) {
			input[i] = 97.9; /* the slope's end point */
		}
	}
	assert_true(found);
	return formula->eval(input, &result);
}

static void tables_answer_at_their_rows_only(void **state)
{
	(void)state;
	size_t tables = 0;
	for (size_t i = 0; i < bc_formula_count; i++) {
		const struct bc_formula *formula = &bc_formulae[i];
		const struct bc_formula_points *points = bc_formula_points_of(formula->id);
		if (points == NULL)
			continue;
		tables++;
		const char *at = points->values;
		for (double value = 0.0; value <= 100.0; value += 0.5) {
			char *end = NULL;
			bool row = *at != '\0' && strtod(at, &end) == value;
			if (row)
				at = end;
			if (bc_failed(at_point(formula, points, value)) == row)
				fail_msg("%s at %g", formula->id, value);
		}
		assert_int_equal(*at, '\0');
	}
	assert_int_equal(tables, 10);
	assert_null(bc_formula_points_of("flash.t10_api"));
}

static void inputs_come_in_their_order(void **state)
{
	(void)state;
	const struct bc_formula *daubert = bc_formula_find("tbp.daubert");
	assert_int_equal(daubert->n_inputs, 8);
	assert_string_equal(daubert->inputs[7].name, "t95_c");
	const double input[2] = {830.0, 252.3};
	double index;
	assert_int_equal(bc_formula_find("cetane.d976")->eval(input, &index), BC_OK);
	assert_true(index > 40.0 && index < 60.0);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_formula_is_complete),
		cmocka_unit_test(a_formula_refuses_nan),
		cmocka_unit_test(checks_are_counted),
		cmocka_unit_test(tables_answer_at_their_rows_only),
		cmocka_unit_test(inputs_come_in_their_order),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
