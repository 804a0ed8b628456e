/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the way of the figures says is what the judgement computed, and what the formulae compute.
 */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <gsl/gsl_errno.h>

#include "base/fault.h"
#include "base/memory.h"
#include "report/report.h"
#include "report/way.h"
#include "report/way_basis.h"

struct given {
	struct bc_limits *limits;
	struct bc_sample *sample;
	struct bc_judgement judgement;
};

#define WHOLE                                                                                      \
	"residue,1.4 mL\nloss,0.8 mL\n\nrecovered (%),head (C)\n"                                  \
	"IBP,171\n5,193.5\n10,204\n20,221\n30,234.5\n40,247\n50,260.5\n60,273\n70,287.5\n"         \
	"80,303\n90,322\n95,334\nFBP,347\n"
#define WIDE                                                                                       \
	"residue,1.4 mL\nloss,0.8 mL\n\nrecovered (%),head (C)\n"                                  \
	"IBP,71\n5,112.5\n10,131\n20,163\n30,190.5\n40,217\n50,243.5\n60,268\n70,290.5\n"          \
	"80,313\n90,338\n95,351\nFBP,361\n"

/* Every branch of site, thermometer, density, apparatus, viscosity, claim. */
static const char *const samples[] = {
	"history,rerun\ndensity,0.803 g/mL @ 21 C\naltitude,612 m\nthermometer,glass partial\n"
	"ice,0.4 C\nsteam,97.6 C\n" WHOLE,
	"history,rerun\ndensity,0.803 g/mL @ 21 C\nbarometer,94.3 kPa\nthermometer,glass total\n"
	"immersion,87 C\nice,0.4 C\nsteam,97.1 C\n" WHOLE,
	"history,rerun\nwater boils,97.2 C\nthermometer,glass d86\nice,-0.3 C\n" WHOLE,
	"history,rerun\nbarometer,79.4 kPa\nthermometer,probe\ncharge mass,80.4 g\n"
	"charge,100 mL\n" WHOLE,
	"history,retort\ndensity,0.803 g/mL @ 21 C\n" WIDE,
	"history,rerun\nflash,58.3 C\nviscosity,2.83 mm2/s @ 40 C\n" WHOLE,
	"history,rerun\napparatus,tbp\ndensity,0.803 g/mL @ 15 C\n" WHOLE,
	"history,aired\nflash,31 C open cup\n" WIDE,
	"\nrecovered (%),head (C)\n10,131\n50,243.5\n80,338\n",
};
enum { SAMPLES = sizeof samples / sizeof samples[0] };

static struct given *judge(const char *bytes)
{
	struct given *given = calloc(1, sizeof *given);
	assert_int_equal(bc_limits_default(NULL, &given->limits), BC_OK);
	assert_int_equal(
		bc_sample_read(bytes, strlen(bytes), "jars/a.csv", NULL, &given->sample), BC_OK);
	struct bc_judge_options options = {.limits = given->limits, .want = BC_GRADES};
	bc_judgement_init(&given->judgement);
	assert_int_equal(bc_judge(given->sample, &options, &given->judgement), BC_OK);
	return given;
}

static void forget(struct given *given)
{
	bc_judgement_release(&given->judgement);
	bc_sample_free(given->sample);
	bc_limits_free(given->limits);
	free(given);
}

static const struct bc_step *step_of(const struct bc_way *way, const char *figure)
{
	for (size_t i = 0; i < way->n; i++)
		if (strcmp(way->items[i].figure, figure) == 0)
			return &way->items[i];
	return NULL;
}

static void assert_near(double found, double expected, double tolerance)
{
	if (!(fabs(found - expected) <= tolerance))
		fail_msg("%.10g, expected %.10g", found, expected);
}

/* ---- steps against the judgement */

static void every_step_is_the_judgements_own(void **state)
{
	(void)state;
	for (size_t k = 0; k < SAMPLES; k++) {
		struct given *given = judge(samples[k]);
		struct bc_way way;
		size_t held = 0;
		assert_int_equal(bc_way_find(&given->judgement, &way), BC_OK);
		for (size_t i = 0; i < way.n; i++) {
			const struct bc_step *step = &way.items[i];
			if (!bc_step_agrees(step))
				fail_msg("sample %zu, %s: %.9g, the report has %.9g", k,
					step->figure, step->result, step->reported);
			if (step->formula == NULL && step->source == NULL && step->note == NULL)
				fail_msg("sample %zu, %s: from nowhere", k, step->figure);
			held += isnan(step->reported) ? 0 : 1;
		}
		assert_true(held >= 14);
		bc_way_release(&way);
		forget(given);
	}
}

static void every_property_has_its_step(void **state)
{
	(void)state;
	for (size_t k = 0; k < SAMPLES; k++) {
		struct given *given = judge(samples[k]);
		struct bc_way way;
		assert_int_equal(bc_way_find(&given->judgement, &way), BC_OK);
		for (size_t i = 0; i < BC_PROPERTIES_REPORTED; i++) {
			const struct bc_estimate *own = &given->judgement.oil.property[i];
			const struct bc_step *step = step_of(&way, bc_property_keys[i]);
			if (!bc_estimate_present(own))
				continue;
			if (step == NULL)
				fail_msg("sample %zu: no way to %s", k, bc_property_keys[i]);
			assert_near(step->result, own->value, 1e-7 * fabs(own->value));
			assert_true(isnan(own->low) ? isnan(step->low) : step->low == own->low);
			assert_true(step->high == own->high);
		}
		bc_way_release(&way);
		forget(given);
	}
}

/* The inputs as printed, six digits, give the result as printed. */
static void what_is_shown_can_be_computed(void **state)
{
	(void)state;
	for (size_t k = 0; k < SAMPLES; k++) {
		struct given *given = judge(samples[k]);
		json_t *array = bc_report_explain_json(&given->judgement);
		size_t evaluated = 0;
		for (size_t i = 0; i < json_array_size(array); i++) {
			const json_t *step = json_array_get(array, i);
			const char *id = json_string_value(json_object_get(step, "formula"));
			const struct bc_formula *formula = id != NULL ? bc_formula_find(id) : NULL;
			double input[BC_FORMULA_INPUTS_MAX];
			double result = NAN;
			if (formula == NULL)
				continue;
			for (size_t j = 0; j < formula->n_inputs; j++)
				input[j] = json_number_value(json_object_get(
					json_object_get(step, "inputs"), formula->inputs[j].name));
			assert_false(bc_failed(formula->eval(input, &result)));
			assert_near(json_number_value(json_object_get(step, "result")), result,
				5e-4 * fmax(1.0, fabs(result)));
			assert_string_equal(
				json_string_value(json_object_get(step, "unit")), formula->unit);
			assert_int_equal(json_is_true(json_object_get(step, "unchecked")),
				bc_formula_unchecked(id));
			evaluated++;
		}
		assert_true(evaluated >= 20);
		json_decref(array);
		forget(given);
	}
}

/* The three parts that are named make the half-width that is reported. */
static void the_bounds_are_made_of_what_is_said(void **state)
{
	(void)state;
	struct given *given = judge(samples[0]);
	const struct bc_estimate *middle = &given->judgement.points.at[BC_AT_T50];
	struct bc_way way;
	assert_int_equal(bc_way_find(&given->judgement, &way), BC_OK);
	const struct bc_step *reading = step_of(&way, "95 % of this reading");
	const struct bc_step *test = step_of(&way, "R of the test at 50 %");
	assert_non_null(reading);
	assert_non_null(test);
	assert_near(hypot(hypot(reading->inputs[0], reading->inputs[1]), reading->inputs[2]),
		reading->result, 1e-9);
	double half_c =
		hypot(hypot(reading->result, test->result / sqrt(2.0)), 0.7 * test->inputs[1]);
	assert_near(half_c, 0.5 * (middle->high - middle->low), 1e-9);
	bc_way_release(&way);
	forget(given);
}

static void shares_are_differences_at_the_cuts(void **state)
{
	(void)state;
	struct given *given = judge(samples[0]);
	struct bc_way way;
	assert_int_equal(bc_way_find(&given->judgement, &way), BC_OK);
	for (size_t i = BC_SHARE_LIGHT_END; i <= BC_SHARE_DIESEL; i++) {
		const struct bc_step *step = step_of(&way, bc_share_keys[i]);
		assert_non_null(step);
		assert_near(step->inputs[0] - step->inputs[1], step->result, 1e-9);
	}
	assert_true(step_of(&way, "diesel_pct")->result > 40.0);
	bc_way_release(&way);
	forget(given);
}

/* Every chance that is shown is that of the value and bounds that are shown. */
static void chances_follow_from_value_and_limit(void **state)
{
	(void)state;
	struct given *given = judge(samples[0]);
	struct bc_way way;
	const struct bc_grade *nearest = given->judgement.verdict.grade;
	char figure[128];
	assert_int_equal(bc_way_find(&given->judgement, &way), BC_OK);
	assert_non_null(nearest);
	for (size_t i = 0; i < nearest->n_criteria; i++) {
		const struct bc_criterion *criterion = &nearest->criteria[i];
		snprintf(figure, sizeof figure, "%s: %s", nearest->standard,
			criterion->limit->property);
		const struct bc_step *step = step_of(&way, figure);
		assert_non_null(step);
		assert_string_equal(step->words, bc_state_text(criterion->state));
		if (isnan(criterion->chance_within))
			continue;
		struct bc_estimate shown = {
			step->inputs[0], step->inputs[1], step->inputs[2], BC_ESTIMATED};
		assert_near(step->inputs[3],
			bc_estimate_chance_within(
				&shown, criterion->limit->min, criterion->limit->max),
			1e-9);
	}
	bc_way_release(&way);
	forget(given);
}

static void the_flash_says_which_bound_rules(void **state)
{
	(void)state;
	static const struct {
		size_t sample;
		const char *words;
	} cases[] = {
		{4, "no low bound is claimed: straight from the retort"},
		{5, "low bound: of the measurement"},
		{0, "low bound: of the vapour space"},
		{8, "no low bound is claimed: history not stated"},
	};
	for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
		struct given *given = judge(samples[cases[i].sample]);
		struct bc_way way;
		assert_int_equal(bc_way_find(&given->judgement, &way), BC_OK);
		const struct bc_step *flash = step_of(&way, "flash_c");
		assert_non_null(flash);
		if (strstr(flash->note, cases[i].words) == NULL)
			fail_msg("%s", flash->note);
		bc_way_release(&way);
		forget(given);
	}
}

static void every_formula_named_exists(void **state)
{
	(void)state;
	for (size_t i = 0; i < BC_PROPERTIES; i++) {
		assert_non_null(bc_property_formulae[i][0]);
		for (size_t k = 0; bc_property_formulae[i][k] != NULL; k++)
			assert_non_null(bc_formula_find(bc_property_formulae[i][k]));
	}
}

/* ---- text */

static void text_fits_80_columns(void **state)
{
	(void)state;
	const struct bc_page_style style = {.fits = true};
	for (size_t k = 0; k < SAMPLES; k++) {
		struct given *given = judge(samples[k]);
		struct bc_text text;
		bc_text_init(&text);
		assert_int_equal(bc_report_explain(&given->judgement, &style, &text), BC_OK);
		for (char *line = strtok(text.data, "\n"); line != NULL; line = strtok(NULL, "\n"))
			if (bc_text_columns(line) > 80)
				fail_msg("sample %zu: %s", k, line);
		bc_text_release(&text);
		forget(given);
	}
}

static void text_has_mark_and_source(void **state)
{
	(void)state;
	const struct bc_page_style style = {.colour = false};
	struct given *given = judge(samples[1]);
	struct bc_text text;
	bc_text_init(&text);
	assert_int_equal(bc_report_explain(&given->judgement, &style, &text), BC_OK);
	static const char *const words[] = {
		"VERDICT: ",
		"  stem correction = ",
		"      stem.emergent: reading_c ",
		"  calibrated = ",
		"  flash.t10_api: API Technical Data Book 2B7.1",
		"* no value in print was found to check it",
		"\nCautions\n",
	};
	for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
		if (strstr(text.data, words[i]) == NULL)
			fail_msg("no '%s'", words[i]);
	bc_text_release(&text);
	forget(given);
}

/* The page marks what rests on a formula without a value in print, and measured figures never. */
static void page_has_a_footnote(void **state)
{
	(void)state;
	const struct bc_page_style style = {.colour = false};
	struct given *given = judge(samples[5]);
	struct bc_text text;
	bc_text_init(&text);
	assert_int_equal(bc_report_text(&given->judgement, &style, &text), BC_OK);
	const char *watson = strstr(text.data, "\n  Watson K");
	const char *flash = strstr(text.data, "\n  flash by the 10 % point");
	const char *density = strstr(text.data, "\n  density at 15 degC");
	assert_non_null(watson);
	assert_non_null(flash);
	assert_non_null(density);
	assert_string_equal(bc_property_formulae[BC_WATSON_K][0], "watson.k");
	assert_memory_equal(strchr(watson + 1, '\n') - 2, " *", 2);
	assert_memory_equal(strchr(density + 1, '\n') - 2, " *", 2); /* estimated from the curve */
	assert_memory_equal(strchr(flash + 1, '\n') - 2, "ed", 2);
	assert_non_null(strstr(text.data, "\n  * no value in print was found to check this"));
	bc_text_release(&text);
	forget(given);
}

/* ---- memory */

static void every_allocation_may_fail(void **state)
{
	(void)state;
	struct given *given = judge(samples[0]);
	bool done = false;
	for (unsigned long n = 1; !done; n++) {
		struct bc_way way;
		bc_fault_set(BC_FAULT_ALLOC, n, false);
		enum bc_status status = bc_way_find(&given->judgement, &way);
		done = bc_fault_count(BC_FAULT_ALLOC) < n;
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		assert_int_equal(status, done ? BC_OK : BC_NO_MEMORY);
		bc_way_release(&way);
	}
	forget(given);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_step_is_the_judgements_own),
		cmocka_unit_test(every_property_has_its_step),
		cmocka_unit_test(what_is_shown_can_be_computed),
		cmocka_unit_test(the_bounds_are_made_of_what_is_said),
		cmocka_unit_test(shares_are_differences_at_the_cuts),
		cmocka_unit_test(chances_follow_from_value_and_limit),
		cmocka_unit_test(the_flash_says_which_bound_rules),
		cmocka_unit_test(every_formula_named_exists),
		cmocka_unit_test(text_fits_80_columns),
		cmocka_unit_test(text_has_mark_and_source),
		cmocka_unit_test(page_has_a_footnote),
		cmocka_unit_test(every_allocation_may_fail),
	};
	gsl_set_error_handler_off();
	return cmocka_run_group_tests(tests, NULL, NULL);
}
