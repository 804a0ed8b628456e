/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tapping as page, JSON and charts: the shape of the object, the width and safety of the page. */
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
#include "report/tap.h"

struct given {
	struct bc_limits *limits;
	struct bc_sample *sample;
	struct bc_tapping tapping;
};

static const char form[] =
	"sample,%s\nfeed,PE crates\nhistory,rerun\ndensity,0.803 g/mL @ 21 C\naltitude,612 m\n"
	"thermometer,glass partial\nresidue,1.4 mL\nloss,0.8 mL\n\n"
	"recovered (%%),head (C)\nIBP,71\n5,137.5\n10,171\n20,203\n30,220.5\n"
	"40,237\n50,251.5\n60,268\n70,284.5\n80,303\n90,328\n95,345\nFBP,361\n";

static struct bc_tap_request request_of(enum bc_grade_name want)
{
	struct bc_tap_request request = bc_tap_request_default();
	request.want = want;
	request.split = want == BC_GRADES;
	request.charge_ml = 12730.0;
	request.heater_w = 1870.0;
	request.room_m3 = 33.7;
	return request;
}

static struct given *tap(const struct bc_tap_request *request, const char *name)
{
	struct given *given = calloc(1, sizeof *given);
	char bytes[2048];
	int n = snprintf(bytes, sizeof bytes, form, name);
	assert_int_equal(bc_limits_default(NULL, &given->limits), BC_OK);
	assert_int_equal(
		bc_sample_read(bytes, (size_t)n, "jars/a.csv", NULL, &given->sample), BC_OK);
	struct bc_judge_options options = {.limits = given->limits, .want = request->want};
	bc_tapping_init(&given->tapping);
	assert_int_equal(bc_tap(given->sample, &options, request, &given->tapping), BC_OK);
	return given;
}

static void forget(struct given *given)
{
	bc_tapping_release(&given->tapping);
	bc_sample_free(given->sample);
	bc_limits_free(given->limits);
	free(given);
}

static char *page_of(const struct bc_tapping *tapping)
{
	struct bc_page_style style = {0};
	struct bc_text text;
	bc_text_init(&text);
	assert_int_equal(bc_report_tap_text(tapping, &style, &text), BC_OK);
	return bc_text_take(&text);
}

static void assert_keys(const json_t *object, const char *keys)
{
	char found[2048] = "";
	const char *key = NULL;
	json_t *value = NULL;
	assert_true(json_is_object(object));
	json_object_foreach((json_t *)(uintptr_t)object, key, value)
	{
		if (found[0] != '\0')
			strcat(found, " ");
		strcat(found, key);
	}
	assert_string_equal(found, keys);
}

static double number(const json_t *object, const char *key)
{
	const json_t *value = json_object_get(object, key);
	return json_is_number(value) ? json_number_value(value) : (double)NAN;
}

static void assert_jar(const json_t *jar)
{
	const char *key = NULL;
	json_t *value = NULL;
	assert_keys(jar, "jar from_c to_c from_reading_c to_reading_c pot_to_c volume_pct mass_pct "
			 "volume_ml mass_kg properties points grades");
	assert_keys(json_object_get(jar, "points"),
		"ibp_c t5_c t10_c t20_c t30_c t40_c t50_c t60_c t70_c t80_c t90_c t95_c fbp_c");
	json_object_foreach(json_object_get(jar, "properties"), key, value)
	{
		assert_keys(value, "value low high how");
		double low = number(value, "low");
		double high = number(value, "high");
		double middle = number(value, "value");
		assert_false(low > middle || middle > high);
	}
}

static void json_has_its_keys(void **state)
{
	(void)state;
	const enum bc_grade_name wants[] = {BC_GRADE_HEATING_OIL, BC_GRADES};
	for (size_t i = 0; i < 2; i++) {
		struct bc_tap_request request = request_of(wants[i]);
		struct given *given = tap(&request, "Shed 9");
		json_t *root = bc_report_tap_json(&given->tapping);
		double volume = 0.0;
		double mass = 0.0;
		size_t at = 0;
		json_t *jar = NULL;
		assert_keys(root,
			"sample want standard still pressure_kpa feasible binding jars pot "
			"charge_ml feed heat_mj time_h choices assumed cautions");
		assert_keys(json_object_get(root, "still"),
			"name stages reflux effective_plates carry_pct");
		assert_keys(json_object_get(root, "pot"), "volume_pct mass_pct");
		json_array_foreach(json_object_get(root, "jars"), at, jar)
		{
			assert_jar(jar);
			volume += number(jar, "volume_pct");
			mass += number(jar, "mass_pct");
		}
		assert_true(at >= 3);
		volume += number(json_object_get(root, "pot"), "volume_pct");
		mass += number(json_object_get(root, "pot"), "mass_pct");
		assert_true(fabs(volume - 100.0) <= 1e-3);
		assert_true(fabs(mass - 100.0) <= 1e-3);
		assert_true(number(root, "charge_ml") == 12730.0);
		assert_true(number(root, "time_h") > 0.0);
		json_decref(root);
		forget(given);
	}
}

static void json_without_a_wish(void **state)
{
	(void)state;
	struct bc_tap_request request = request_of(BC_GRADES);
	struct given *given = tap(&request, "Shed 9");
	bc_strings_add(&given->tapping.binding, "nobody asked");
	json_t *root = bc_report_tap_json(&given->tapping);
	assert_true(json_is_null(json_object_get(root, "want")));
	assert_true(json_is_null(json_object_get(root, "standard")));
	assert_true(json_is_null(json_object_get(root, "feasible")));
	assert_int_equal(json_array_size(json_object_get(root, "binding")), 0);
	json_t *jar = json_array_get(json_object_get(root, "jars"), 0);
	assert_int_equal(json_array_size(json_object_get(jar, "grades")), 0);
	json_decref(root);
	forget(given);
}

static void json_with_a_wish(void **state)
{
	(void)state;
	struct bc_tap_request request = request_of(BC_GRADE_HEATING_OIL);
	struct given *given = tap(&request, "Shed 9");
	json_t *root = bc_report_tap_json(&given->tapping);
	assert_string_equal(json_string_value(json_object_get(root, "want")), "heating-oil-range");
	assert_true(json_is_true(json_object_get(root, "feasible")));
	assert_keys(json_array_get(json_object_get(root, "choices"), 0),
		"light_until_c product_until_c product_pct flash_c t95_c");
	json_t *product = json_array_get(json_object_get(root, "jars"), 1);
	assert_keys(json_array_get(json_object_get(product, "grades"), 0),
		"grade standard edition state chance_all_within from_memory criteria not_measured "
		"scope");
	json_decref(root);
	given->tapping.feasible = false;
	root = bc_report_tap_json(&given->tapping);
	assert_true(json_is_false(json_object_get(root, "feasible")));
	json_decref(root);
	forget(given);
}

/* An empty jar holds nothing, which is a figure; what it would be like is not. */
static void json_of_an_empty_jar(void **state)
{
	(void)state;
	struct bc_tap_request request = request_of(BC_GRADE_HEATING_OIL);
	struct given *given = tap(&request, "Shed 9");
	struct bc_jar *jar = &given->tapping.jars[0];
	jar->empty = true;
	jar->volume_pct = NAN;
	json_t *root = bc_report_tap_json(&given->tapping);
	json_t *light = json_array_get(json_object_get(root, "jars"), 0);
	assert_jar(light);
	assert_true(number(light, "volume_pct") == 0.0);
	assert_true(json_is_null(json_object_get(json_object_get(light, "points"), "t50_c")));
	json_t *flash = json_object_get(json_object_get(light, "properties"), "flash_c");
	assert_true(json_is_null(json_object_get(flash, "value")));
	json_decref(root);
	char *page = page_of(&given->tapping);
	assert_non_null(strstr(page, "No light jar: the first drop goes into the next one."));
	assert_non_null(strstr(page, "\n  light    "));
	bc_free(page);
	forget(given);
}

/* The sample in the object is a file that gives the same object. */
static void json_feed_is_the_sample(void **state)
{
	(void)state;
	struct bc_tap_request request = request_of(BC_GRADES);
	struct given *given = tap(&request, "Shed 9");
	struct bc_text text;
	bc_text_init(&text);
	assert_int_equal(bc_sample_write(given->sample, &text), BC_OK);
	json_t *root = bc_report_tap_json(&given->tapping);
	assert_string_equal(json_string_value(json_object_get(root, "feed")), text.data);
	json_decref(root);
	bc_text_release(&text);
	forget(given);
}

static void stills_are_named_as_they_are(void **state)
{
	(void)state;
	struct bc_tap_request request = request_of(BC_GRADES);
	struct given *given = tap(&request, "Shed 9");
	struct bc_column *column = &given->tapping.request.still.column;
	static const struct {
		double stages;
		double reflux;
		const char *words;
	} stills[] = {{1.0, 1.0, "0 plates + pot; carry"}, {2.0, 1.0, "1 plate + pot, reflux 1;"},
		{7.0, INFINITY, "6 plates + pot, total reflux;"}};
	for (size_t i = 0; i < 3; i++) {
		column->stages = stills[i].stages;
		column->reflux = stills[i].reflux;
		char *page = page_of(&given->tapping);
		assert_non_null(strstr(page, stills[i].words));
		bc_free(page);
	}
	json_t *root = bc_report_tap_json(&given->tapping);
	json_t *still = json_object_get(root, "still");
	assert_string_equal(json_string_value(json_object_get(still, "reflux")), "total");
	json_decref(root);
	forget(given);
}

/* Returns the lines. */
static size_t assert_width(const char *page)
{
	size_t lines = 0;
	for (const char *at = page; *at != '\0'; lines++) {
		size_t n = strcspn(at, "\n");
		assert_true(n <= 80);
		at += n + 1;
	}
	return lines;
}

static void page_is_narrow_and_safe(void **state)
{
	(void)state;
	struct bc_tap_request request = request_of(BC_GRADE_HEATING_OIL);
	struct given *given = tap(&request, "She\033[31md");
	char *page = page_of(&given->tapping);
	assert_true(assert_width(page) <= 145); /* the petrol box has 14 */
	assert_null(strchr(page, '\033'));
	assert_non_null(strstr(page, "LATER."));
	assert_non_null(strstr(page, "FIRST."));
	bc_free(page);
	bc_strings_add(&given->tapping.advice, "red \033[31m and so on");
	given->tapping.jars[0].good_for = "\033[2J";
	page = page_of(&given->tapping);
	assert_null(strchr(page, '\033'));
	bc_free(page);
	forget(given);
}

static void page_says_no_first(void **state)
{
	(void)state;
	struct bc_tap_request request = request_of(BC_GRADE_HEATING_OIL);
	struct given *given = tap(&request, "Shed 9");
	given->tapping.feasible = false;
	char *page = page_of(&given->tapping);
	const char *no = strstr(page, "NO CUT of this oil");
	assert_non_null(no);
	assert_null(strstr(page, "AT THE TAP"));
	assert_null(strstr(page, "HEAT OFF"));
	bc_free(page);
	forget(given);
}

static void what_does_not_hold_is_no_figure(void **state)
{
	(void)state;
	struct bc_tap_request request = request_of(BC_GRADE_HEATING_OIL);
	struct given *given = tap(&request, "Shed 9");
	struct bc_jar *jar = &given->tapping.jars[1];
	jar->oil.property[BC_CETANE_INDEX] =
		(struct bc_estimate){127.3, 121.9, 133.1, BC_ESTIMATED};
	jar->oil.property[BC_VISC40] = (struct bc_estimate){91.37, 83.1, 98.2, BC_ESTIMATED};
	char *page = page_of(&given->tapping);
	assert_non_null(strstr(page, "     127     91.37\n"));
	bc_free(page);
	jar->oil.property[BC_CETANE_INDEX].how = BC_NOT_VALID;
	jar->oil.property[BC_VISC40].how = BC_NOT_VALID;
	page = page_of(&given->tapping);
	assert_non_null(strstr(page, "       -         -\n"));
	bc_free(page);
	forget(given);
}

static void a_low_bound_is_cut_off(void **state)
{
	(void)state;
	struct bc_tap_request request = request_of(BC_GRADE_HEATING_OIL);
	struct given *given = tap(&request, "Shed 9");
	struct bc_jar *jar = &given->tapping.jars[1];
	jar->oil.property[BC_FLASH] = (struct bc_estimate){61.2, 54.8, 67.4, BC_ESTIMATED};
	given->tapping.choices[0].flash_low_c = 43.7;
	char *page = page_of(&given->tapping);
	assert_non_null(strstr(page, "61 (54 to 67)"));
	assert_non_null(strstr(page, "       43     "));
	bc_free(page);
	forget(given);
}

static void no_claim_has_no_lower_bound(void **state)
{
	(void)state;
	struct bc_tap_request request = request_of(BC_GRADE_HEATING_OIL);
	struct given *given = tap(&request, "Shed 9");
	struct bc_jar *jar = &given->tapping.jars[1];
	jar->flash_claim = false;
	jar->no_claim_why = "distilled above the pot limit";
	char *page = page_of(&given->tapping);
	assert_non_null(strstr(page, "(no lower bound)"));
	assert_non_null(strstr(page, "no claim on its"));
	bc_free(page);
	forget(given);
}

static void charts_are_the_same_twice(void **state)
{
	(void)state;
	struct bc_tap_request request = request_of(BC_GRADE_HEATING_OIL);
	struct given *given = tap(&request, "x'; system('rm')");
	for (size_t i = 0; bc_tap_chart_kinds[i] != NULL; i++) {
		struct bc_text one;
		struct bc_text two;
		bc_text_init(&one);
		bc_text_init(&two);
		assert_int_equal(
			bc_report_tap_chart(&given->tapping, bc_tap_chart_kinds[i], &one), BC_OK);
		assert_int_equal(
			bc_report_tap_chart(&given->tapping, bc_tap_chart_kinds[i], &two), BC_OK);
		assert_string_equal(one.data, two.data);
		assert_null(strstr(one.data, "x';"));
		assert_non_null(strstr(one.data, " << EOD\n"));
		bc_text_release(&one);
		bc_text_release(&two);
	}
	forget(given);
}

static void charts_without_a_run_say_so(void **state)
{
	(void)state;
	struct bc_tap_request request = request_of(BC_GRADES);
	struct given *given = tap(&request, "Shed 9");
	struct bc_text script;
	given->tapping.n_nodes = 0;
	given->tapping.n_choices = 0;
	for (size_t i = 0; bc_tap_chart_kinds[i] != NULL; i++) {
		bc_text_init(&script);
		bc_report_tap_chart(&given->tapping, bc_tap_chart_kinds[i], &script);
		assert_non_null(strstr(script.data, "plot NaN\n"));
		bc_text_release(&script);
	}
	bc_text_init(&script);
	assert_int_equal(bc_report_tap_chart(&given->tapping, "tap-other", &script), BC_NOT_FOUND);
	bc_text_release(&script);
	forget(given);
}

static void every_allocation_may_fail(void **state)
{
	(void)state;
	struct bc_tap_request request = request_of(BC_GRADE_HEATING_OIL);
	struct given *given = tap(&request, "Shed 9");
	struct bc_page_style style = {0};
	bool done = false;
	for (unsigned long n = 1; !done; n++) {
		struct bc_text text;
		bc_text_init(&text);
		bc_fault_set(BC_FAULT_ALLOC, n, false);
		enum bc_status status = bc_report_tap_text(&given->tapping, &style, &text);
		done = bc_fault_count(BC_FAULT_ALLOC) < n;
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		assert_int_equal(status, done ? BC_OK : BC_NO_MEMORY);
		bc_text_release(&text);
	}
	json_set_alloc_funcs(bc_alloc, bc_free);
	json_t *clean = bc_report_tap_json(&given->tapping);
	done = false;
	for (unsigned long n = 1; !done; n++) {
		bc_fault_set(BC_FAULT_ALLOC, n, false);
		json_t *root = bc_report_tap_json(&given->tapping);
		done = bc_fault_count(BC_FAULT_ALLOC) < n;
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		assert_true(root == NULL ? !done : json_equal(root, clean));
		json_decref(root);
	}
	json_decref(clean);
	json_set_alloc_funcs(malloc, free);
	forget(given);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(json_has_its_keys),
		cmocka_unit_test(json_without_a_wish),
		cmocka_unit_test(json_with_a_wish),
		cmocka_unit_test(json_of_an_empty_jar),
		cmocka_unit_test(json_feed_is_the_sample),
		cmocka_unit_test(stills_are_named_as_they_are),
		cmocka_unit_test(page_is_narrow_and_safe),
		cmocka_unit_test(page_says_no_first),
		cmocka_unit_test(what_does_not_hold_is_no_figure),
		cmocka_unit_test(a_low_bound_is_cut_off),
		cmocka_unit_test(no_claim_has_no_lower_bound),
		cmocka_unit_test(charts_are_the_same_twice),
		cmocka_unit_test(charts_without_a_run_say_so),
		cmocka_unit_test(every_allocation_may_fail),
	};
	gsl_set_error_handler_off();
	return cmocka_run_group_tests(tests, NULL, NULL);
}
