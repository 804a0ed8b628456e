/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What leaves the program: the shape of the JSON, the width and safety of the page, the scripts. */
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
#include "report/json.h"
#include "report/report.h"

struct given {
	struct bc_limits *limits;
	struct bc_sample *sample;
	struct bc_judgement judgement;
};

static const char whole[] =
	"sample,%s\nfeed,PP and PE bottle caps\nhistory,rerun\n"
	"density,0.803 g/mL @ 21 C\naltitude,612 m\nresidue,1.4 mL\nloss,0.8 mL\n\n"
	"recovered (%%),head (C)\nIBP,71\n5,112.5\n10,131\n20,163\n30,190.5\n"
	"40,217\n50,243.5\n60,268\n70,290.5\n80,313\n90,338\n95,351\nFBP,361\n";
static const char three[] = "sample,%s\n\nrecovered (%%),head (C)\n10,131\n50,243.5\n90,338\n";

static struct given *judge(const char *form, const char *name)
{
	struct given *given = calloc(1, sizeof *given);
	char bytes[2048];
	int n = snprintf(bytes, sizeof bytes, form, name);
	assert_int_equal(bc_limits_default(NULL, &given->limits), BC_OK);
	assert_int_equal(
		bc_sample_read(bytes, (size_t)n, "jars/a.csv", NULL, &given->sample), BC_OK);
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

/* ---- JSON */

/* The keys of object are these, in this order, blank between. */
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

static const char top_keys[] =
	"boilcut file sample date feed history assumed pressure_kpa loss_pct corrected_loss_pct "
	"residue_pct readings points points_low points_high evaporated_points evaporated_at "
	"recovered_at fit tbp_points properties ranges ranges_low ranges_high published_ranges "
	"hazard findings grades verdict rerun cautions";
static const char point_keys[] =
	"ibp_c t5_c t10_c t20_c t30_c t40_c t50_c t60_c t70_c t80_c t90_c t95_c fbp_c";
static const char range_keys[] =
	"light_end_pct gasoline_pct kerosene_pct diesel_pct heavy_pct residue_pct lost_pct";
static const char property_keys[] =
	"density15_kgm3 flash_c flash_t10_c flash_vapour_c cetane_index cetane_index_d976 "
	"visc40_mm2s molar_mass_gmol watson_k mean_average_bp_c net_heat_mjkg "
	"vapour_pressure_37_8_kpa driveability_index";
static const char cut_keys[] =
	"basis grade light_until_c product_until_c light_until_reading_c product_until_reading_c "
	"light_pct product_pct tail_pct product";

static void assert_shape(const json_t *root)
{
	assert_keys(root, top_keys);
	assert_keys(json_object_get(root, "points"), point_keys);
	assert_keys(json_object_get(root, "points_low"), point_keys);
	assert_keys(json_object_get(root, "points_high"), point_keys);
	assert_keys(json_object_get(root, "evaporated_points"), "t10_c t50_c t90_c");
	assert_keys(json_object_get(root, "evaporated_at"), "e70_pct e100_pct e150_pct e180_pct");
	assert_keys(json_object_get(root, "recovered_at"),
		"r180_pct r200_pct r210_pct r250_pct r300_pct r350_pct r360_pct");
	assert_keys(json_object_get(root, "fit"), "model parameters rms_c points");
	assert_keys(
		json_object_get(root, "tbp_points"), "t0_c t10_c t30_c t50_c t70_c t90_c t95_c");
	assert_keys(json_object_get(root, "properties"), property_keys);
	assert_keys(json_object_get(root, "ranges"), range_keys);
	assert_keys(json_object_get(root, "ranges_low"), range_keys);
	assert_keys(json_object_get(root, "ranges_high"), range_keys);
	assert_keys(json_object_get(root, "verdict"), "word grade standard because");
	const char *key = NULL;
	json_t *value = NULL;
	json_object_foreach(json_object_get(root, "properties"), key, value)
		assert_keys(value, "value low high how");
}

static void json_has_every_key(void **state)
{
	(void)state;
	const char *const forms[] = {whole, three};
	for (size_t i = 0; i < 2; i++) {
		struct given *given = judge(forms[i], "Shed 9");
		json_t *root = bc_report_json(&given->judgement);
		assert_non_null(root);
		assert_shape(root);
		json_decref(root);
		forget(given);
	}
}

static void json_arrays_have_their_keys(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	json_t *root = bc_report_json(&given->judgement);
	assert_keys(json_array_get(json_object_get(root, "readings"), 0),
		"recovered_pct observed_c corrected_c evaporated_pct used");
	assert_keys(json_array_get(json_object_get(root, "published_ranges"), 0),
		"name source from_c to_c share_pct");
	assert_keys(
		json_array_get(json_object_get(root, "hazard"), 0), "scheme class from message");
	assert_keys(json_array_get(json_object_get(root, "findings"), 0),
		"code severity at_pct message do");
	json_t *grade = json_array_get(json_object_get(root, "grades"), 0);
	assert_keys(grade,
		"grade standard edition state chance_all_within from_memory criteria not_measured");
	assert_keys(json_array_get(json_object_get(grade, "criteria"), 0),
		"property unit min max strict value low high state chance_within");
	json_t *rerun = json_object_get(root, "rerun");
	assert_true(json_is_object(rerun));
	char keys[512];
	snprintf(keys, sizeof keys, "%s perfect_split", cut_keys);
	assert_keys(rerun, keys);
	snprintf(keys, sizeof keys,
		"%s flash_c flash_low_c t10_c t50_c t90_c t95_c density15_kgm3 cetane_index",
		cut_keys);
	assert_keys(json_object_get(rerun, "perfect_split"), keys);
	assert_keys(json_object_get(rerun, "product"),
		"flash_c flash_low_c t10_c t50_c t90_c t95_c density15_kgm3 cetane_index");
	json_decref(root);
	forget(given);
}

static void json_absent_is_null(void **state)
{
	(void)state;
	struct given *given = judge(three, "Shed 9");
	given->judgement.oil.property[BC_VISC40] = bc_estimate_absent();
	given->judgement.fits.n = 0;
	json_t *root = bc_report_json(&given->judgement);
	json_t *absent = json_object_get(json_object_get(root, "properties"), "visc40_mm2s");
	const char *key = NULL;
	json_t *value = NULL;
	json_object_foreach(absent, key, value) assert_true(json_is_null(value));
	json_object_foreach(json_object_get(root, "fit"), key, value)
		assert_true(json_is_null(value));
	assert_true(json_is_null(json_object_get(root, "loss_pct")));
	assert_true(json_is_null(json_object_get(root, "date")));
	assert_true(json_is_null(json_object_get(json_object_get(root, "points"), "ibp_c")));
	json_decref(root);
	forget(given);
}

static void json_ranges_add_up(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	json_t *root = bc_report_json(&given->judgement);
	double sum = 0.0;
	const char *key = NULL;
	json_t *value = NULL;
	json_object_foreach(json_object_get(root, "ranges"), key, value) sum +=
		json_real_value(value);
	assert_true(sum > 99.999 && sum < 100.001);
	json_decref(root);
	forget(given);
}

static void json_takes_any_bytes(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	bc_free(given->sample->name);
	given->sample->name = bc_strdup("a\xff\"b\\\n");
	json_t *root = bc_report_json(&given->judgement);
	assert_string_equal(json_string_value(json_object_get(root, "sample")), "a\\xFF\"b\\\\x0A");
	json_decref(root);
	json_t *error = bc_report_json_error("x.csv", "line 3: no");
	assert_keys(error, "file error");
	json_decref(error);
	forget(given);
}

static void json_numbers_have_six_digits(void **state)
{
	(void)state;
	const double given[] = {213.95617, -0.0, 1e-7 / 3.0, 123456.7};
	const double wanted[] = {213.956, 0.0, 3.33333e-8, 123457.0};
	for (size_t i = 0; i < 4; i++) {
		json_t *number = bc_json_number(given[i]);
		assert_true(json_real_value(number) == wanted[i]);
		assert_false(signbit(json_real_value(number)));
		json_decref(number);
	}
	json_t *none = bc_json_number(INFINITY);
	assert_true(json_is_null(none));
	json_decref(none);
}

/* ---- the page */

static void assert_lines_fit(const char *page)
{
	while (*page != '\0') {
		char line[512];
		size_t n = strcspn(page, "\n");
		assert_true(n < sizeof line);
		snprintf(line, sizeof line, "%.*s", (int)n, page);
		if (bc_text_columns(line) > 80)
			fail_msg("wider than 80 columns: %s", line);
		page += n + (page[n] == '\n');
	}
}

static char *page_of(const struct bc_judgement *judgement, bool colour, bool fits)
{
	struct bc_page_style style = {.colour = colour, .fits = fits};
	struct bc_text text;
	bc_text_init(&text);
	assert_int_equal(bc_report_text(judgement, &style, &text), BC_OK);
	return bc_text_take(&text);
}

static void page_fits_80_columns(void **state)
{
	(void)state;
	const char *const forms[] = {whole, three};
	for (size_t i = 0; i < 2; i++) {
		struct given *given = judge(forms[i], "A name much longer than a line of eighty "
						      "columns can ever hold without turning "
						      "over to the next one");
		char *page = page_of(&given->judgement, false, true);
		assert_lines_fit(page);
		bc_free(page);
		forget(given);
	}
}

static void page_says_what_matters(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	char *page = page_of(&given->judgement, false, true);
	const char *verdict = strstr(page, "VERDICT: ");
	const char *readings = strstr(page, "\nReadings");
	assert_non_null(verdict);
	assert_non_null(readings);
	assert_true(verdict < readings);
	assert_non_null(strstr(page, "DANGER - TREAT THIS JAR AS PETROL"));
	assert_non_null(strstr(page, "kPa of this site"));
	assert_non_null(strstr(page, "Fitted families"));
	assert_non_null(strstr(page, "Assumed"));
	assert_non_null(strstr(page, "Still to be tested"));
	assert_non_null(strstr(page, "Cautions"));
	bc_free(page);
	forget(given);
}

static void page_without_danger_has_no_box(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	given->judgement.hazards.petrol_like = false;
	size_t findings = given->judgement.findings.n;
	given->judgement.findings.n = 0;
	char *page = page_of(&given->judgement, false, false);
	assert_null(strstr(page, "DANGER"));
	assert_null(strstr(page, "##"));
	assert_null(strstr(page, "Fitted families"));
	given->judgement.findings.n = findings;
	bc_free(page);
	forget(given);
}

static void page_colours_on_demand_only(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	char *plain = page_of(&given->judgement, false, false);
	char *coloured = page_of(&given->judgement, true, false);
	assert_null(strchr(plain, '\033'));
	assert_non_null(strchr(coloured, '\033'));
	/* the words are the same without the colours */
	char *to = coloured;
	for (const char *from = coloured; *from != '\0';) {
		if (*from == '\033')
			from = strchr(from, 'm') + 1;
		else
			*to++ = *from++;
	}
	*to = '\0';
	assert_string_equal(plain, coloured);
	bc_free(plain);
	bc_free(coloured);
	forget(given);
}

static void page_escapes_what_a_file_says(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	bc_free(given->sample->name);
	given->sample->name = bc_strdup("x\033[2Jy %s %n\x9b");
	char *page = page_of(&given->judgement, false, false);
	assert_null(strchr(page, '\033'));
	assert_non_null(strstr(page, "x\\x1B[2Jy %s %n\\x9B"));
	bc_free(page);
	forget(given);
}

static void page_of_many_readings_stays_short(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	struct bc_boiloff *boiloff = &given->judgement.boiloff;
	size_t n = 1000;
	struct bc_point *many = bc_alloc_array(n, sizeof *many);
	for (size_t i = 0; i < n; i++) {
		many[i] = boiloff->points[i * boiloff->n / n];
		many[i].kind = BC_READING_AMOUNT;
	}
	struct bc_point *own = boiloff->points;
	size_t own_n = boiloff->n;
	boiloff->points = many;
	boiloff->n = n;
	char *page = page_of(&given->judgement, false, false);
	assert_non_null(strstr(page, "1000 readings in all; every 34th is shown"));
	assert_true(strlen(page) < 20000);
	boiloff->points = own;
	boiloff->n = own_n;
	bc_free(many);
	bc_free(page);
	forget(given);
}

/* ---- limits */

static void limits_on_a_page_and_as_json(void **state)
{
	(void)state;
	struct bc_limits *limits = NULL;
	struct bc_text text;
	bc_text_init(&text);
	assert_int_equal(bc_limits_default(NULL, &limits), BC_OK);
	assert_int_equal(bc_report_limits(limits, BC_GRADES, &text), BC_OK);
	assert_lines_fit(text.data);
	assert_non_null(strstr(text.data, "EN 590"));
	bc_text_release(&text);
	assert_int_equal(bc_report_limits(limits, BC_GRADE_KEROSENE, &text), BC_OK);
	assert_null(strstr(text.data, "EN 590"));
	assert_non_null(strstr(text.data, "BS 2869"));
	json_t *rows = bc_report_limits_json(limits, BC_GRADES);
	assert_int_equal(json_array_size(rows), limits->n);
	assert_keys(json_array_get(rows, 0), "grade standard edition property basis min max strict "
					     "unit method role in_force seen note");
	json_decref(rows);
	bc_text_release(&text);
	bc_limits_free(limits);
}

/* ---- charts */

static char *script_of(const struct bc_judgement *judgement, const char *kind)
{
	struct bc_text script;
	bc_text_init(&script);
	assert_int_equal(bc_report_chart(judgement, kind, &script), BC_OK);
	return bc_text_take(&script);
}

static void charts_are_the_same_twice(void **state)
{
	(void)state;
	struct given *one = judge(whole, "Shed 9");
	struct given *two = judge(whole, "Shed 9");
	for (size_t i = 0; bc_chart_kinds[i] != NULL; i++) {
		char *a = script_of(&one->judgement, bc_chart_kinds[i]);
		char *b = script_of(&two->judgement, bc_chart_kinds[i]);
		assert_string_equal(a, b);
		assert_non_null(strstr(a, "if (!exists(\"out\")) out = "));
		assert_non_null(strstr(a, "EOD\n"));
		bc_free(a);
		bc_free(b);
	}
	struct bc_text none;
	bc_text_init(&none);
	assert_int_equal(bc_report_chart(&one->judgement, "pie", &none), BC_NOT_FOUND);
	forget(one);
	forget(two);
}

static void charts_take_names_as_names(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	bc_free(given->sample->name);
	given->sample->name =
		bc_strdup("'; system(\"touch x\"); `id` \\\n$readings << EOD @a \xc3\xa9");
	for (size_t i = 0; bc_chart_kinds[i] != NULL; i++) {
		char *script = script_of(&given->judgement, bc_chart_kinds[i]);
		assert_non_null(strstr(
			script, "\nname = '__ system(_touch x_)_ _id_ ___readings __ EOD _a _'\n"));
		assert_null(strstr(script, "touch x\""));
		bc_free(script);
	}
	forget(given);
}

static void residuals_without_a_fit_say_so(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	given->judgement.reader.fit = NULL;
	char *script = script_of(&given->judgement, "residuals");
	assert_non_null(strstr(script, "no family could be fitted"));
	bc_free(script);
	script = script_of(&given->judgement, "curve");
	assert_null(strstr(script, "fitted family"));
	bc_free(script);
	forget(given);
}

/* ---- memory: the n-th allocation fails, for every n, and nothing is lost or half done */

static void every_allocation_may_fail(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	struct bc_page_style style = {.fits = true};
	bool done = false;
	json_set_alloc_funcs(bc_alloc, bc_free);
	for (unsigned long n = 1; !done; n++) {
		struct bc_text text;
		bc_text_init(&text);
		bc_fault_set(BC_FAULT_ALLOC, n, false);
		enum bc_status status = bc_report_text(&given->judgement, &style, &text);
		done = bc_fault_count(BC_FAULT_ALLOC) < n;
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		assert_int_equal(status, done ? BC_OK : BC_NO_MEMORY);
		bc_text_release(&text);
	}
	json_t *clean = bc_report_json(&given->judgement);
	done = false;
	for (unsigned long n = 1; !done; n++) {
		bc_fault_set(BC_FAULT_ALLOC, n, false);
		json_t *root = bc_report_json(&given->judgement);
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
		cmocka_unit_test(json_has_every_key),
		cmocka_unit_test(json_arrays_have_their_keys),
		cmocka_unit_test(json_absent_is_null),
		cmocka_unit_test(json_ranges_add_up),
		cmocka_unit_test(json_takes_any_bytes),
		cmocka_unit_test(json_numbers_have_six_digits),
		cmocka_unit_test(page_fits_80_columns),
		cmocka_unit_test(page_says_what_matters),
		cmocka_unit_test(page_without_danger_has_no_box),
		cmocka_unit_test(page_colours_on_demand_only),
		cmocka_unit_test(page_escapes_what_a_file_says),
		cmocka_unit_test(page_of_many_readings_stays_short),
		cmocka_unit_test(limits_on_a_page_and_as_json),
		cmocka_unit_test(charts_are_the_same_twice),
		cmocka_unit_test(charts_take_names_as_names),
		cmocka_unit_test(residuals_without_a_fit_say_so),
		cmocka_unit_test(every_allocation_may_fail),
	};
	gsl_set_error_handler_off();
	return cmocka_run_group_tests(tests, NULL, NULL);
}
