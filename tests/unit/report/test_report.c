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
#include "report/page.h"
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
	"recovered_at fit tbp_points inverted_points properties ranges ranges_low ranges_high published_ranges "
	"hazard findings grades verdict rerun cautions weighed measured learned doubt draws";
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
		"grade standard edition state chance_all_within from_memory criteria not_measured "
		"scope");
	assert_keys(json_array_get(json_object_get(grade, "criteria"), 0),
		"property unit min max strict value low high state chance_within");
	json_t *rerun = json_object_get(root, "rerun");
	assert_true(json_is_object(rerun));
	char keys[512];
	snprintf(keys, sizeof keys, "%s perfect_split standard", cut_keys);
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

static const char weighed[] =
	"sample,%s\ncharge,100 mL\ndensity,803 kg/m3\ncharge mass,80.3 g\n"
	"distillate mass,77.7 g\nresidue mass,1.9 g\nresidue,2.1 mL\nhistory,aired\n"
	"flash,61.3 C open cup\ncopper strip,1b\nsulphur,0.0127 %%\nviscosity,2.37 @ 20 C\n\n"
	"recovered (%%),head (C)\nIBP,171\n5,192.5\n10,201\n50,243.5\n90,318\n95,331\n";

static void what_was_weighed_and_measured_is_shown(void **state)
{
	(void)state;
	struct given *given = judge(weighed, "Shed 9");
	json_t *root = bc_report_json(&given->judgement);
	json_t *scales = json_object_get(root, "weighed");
	assert_keys(scales, "mass_loss_pct distillate_kgm3 residue_kgm3");
	double loss = json_real_value(json_object_get(scales, "mass_loss_pct"));
	assert_true(fabs(loss - 100.0 * 0.7 / 80.3) < 1e-4);
	json_t *list = json_object_get(root, "measured");
	assert_int_equal(json_array_size(list), 4);
	json_t *flash = json_array_get(list, 0);
	assert_keys(flash, "property value unit temp_c open_cup");
	assert_string_equal(json_string_value(json_object_get(flash, "property")), "flash_point");
	assert_string_equal(json_string_value(json_object_get(flash, "unit")), "degC");
	assert_true(json_is_true(json_object_get(flash, "open_cup")));
	json_decref(root);
	char *page = page_of(&given->judgement, false, false);
	assert_non_null(strstr(page, "mass loss 0.87 %"));
	assert_non_null(strstr(page, "Measured elsewhere"));
	assert_non_null(strstr(page, "61.3 degC, open cup"));
	assert_non_null(strstr(page, " 1b\n"));
	assert_non_null(strstr(page, "127 mg/kg"));
	assert_non_null(strstr(page, "2.37 mm2/s at 20 degC"));
	bc_free(page);
	forget(given);
	given = judge(whole, "Shed 9");
	root = bc_report_json(&given->judgement);
	assert_true(json_is_null(json_object_get(root, "weighed")));
	assert_int_equal(json_array_size(json_object_get(root, "measured")), 0);
	json_decref(root);
	forget(given);
}

/* No two blank rows in the frame, whatever it holds. */
static void danger_box_has_no_empty_rows_together(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	struct bc_findings *findings = &given->judgement.findings;
	bc_findings_add(findings, "peril", BC_FINDING_DANGER, NAN, "A peril", "Run");
	for (int petrol = 0; petrol < 2; petrol++) {
		given->judgement.hazards.petrol_like = petrol == 1;
		char *page = page_of(&given->judgement, false, false);
		const char *box = strstr(page, "DANGER");
		assert_non_null(box);
		char blank[200];
		snprintf(blank, sizeof blank, "## %74s ##\n## %74s ##\n", "", "");
		assert_null(strstr(page, blank));
		bc_free(page);
	}
	forget(given);
}

static void unfit_speaks_of_the_still_that_there_is(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	given->judgement.verdict.word = BC_WORD_UNFIT;
	given->judgement.rerun.standard = NULL;
	given->judgement.perfect.standard = NULL;
	char *page = page_of(&given->judgement, false, false);
	assert_non_null(strstr(page, "  no cut mends it; nearest is"));
	bc_free(page);
	given->judgement.perfect.standard = "EN 590 temperate A-C";
	page = page_of(&given->judgement, false, false);
	assert_non_null(strstr(page, "  no cut on this still mends it; nearest is"));
	bc_free(page);
	forget(given);
}

static void danger_box_says_the_flash_at_this_site(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	given->judgement.hazards.petrol_like = true;
	given->judgement.oil.flash_claim = true;
	given->judgement.oil.property[BC_FLASH].low = -2.3;
	given->judgement.oil.flash_low_at_site_c = -7.4;
	char *page = page_of(&given->judgement, false, false);
	const char *low = strstr(page, "as low as -3 degC at sea level");
	assert_non_null(low);
	assert_non_null(strstr(low, "-8 degC at the"));
	assert_non_null(strstr(page, "low bound -8 degC"));
	bc_free(page);
	forget(given);
}

static void temperatures_have_one_decimal(void **state)
{
	(void)state;
	assert_int_equal(bc_page_decimals(-2.01, "degC"), 1);
	assert_int_equal(bc_page_decimals(2.01, "mm2/s"), 2);
	assert_int_equal(bc_page_decimals(-23.28, "degC"), 1);
	assert_int_equal(bc_page_decimals(1459.0, "-"), 0);
}

/* A blank stands before the state, however wide the bounds. */
static void bounds_and_state_stay_apart(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	struct bc_criterion *criterion = &given->judgement.verdict.grade->criteria[0];
	criterion->value = (struct bc_estimate){-123.4, -234.56, 1234.56, BC_ESTIMATED};
	criterion->state = BC_STATE_OUTSIDE;
	char *page = page_of(&given->judgement, false, false);
	assert_non_null(strstr(page, "-234.6 to 1234.6 outside"));
	bc_free(page);
	forget(given);
}

static void grades_that_leave_no_doubt_are_folded(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	struct bc_grades *grades = &given->judgement.grades;
	size_t gasoline = 0;
	for (size_t i = 0; i < grades->n; i++) {
		if (grades->items[i].name == BC_GRADE_GASOLINE) {
			grades->items[i].state = BC_STATE_OUTSIDE;
			gasoline++;
		}
	}
	char line[80];
	snprintf(line, sizeof line, "gasoline-range     outside by all %zu standards", gasoline);
	char *page = page_of(&given->judgement, false, false);
	assert_non_null(strstr(page, line));
	assert_null(strstr(page, "EN 228"));
	bc_free(page);
	/* one in doubt is named */
	grades->items[0].state = BC_STATE_DOUBTFUL;
	page = page_of(&given->judgement, false, false);
	assert_null(strstr(page, line));
	assert_non_null(strstr(page, "gasoline-range     doubtful: EN 228 class A"));
	bc_free(page);
	forget(given);
}

/* Wrapped lines of a page made one. */
static void unwrap(char *page)
{
	char *to = page;
	for (const char *from = page; *from != '\0'; from++) {
		bool after_blank = to > page && to[-1] == ' ';
		bool blank = *from == '\n' || *from == ' ';
		if (!blank || !after_blank)
			*to++ = blank ? ' ' : *from;
	}
	*to = '\0';
}

static void the_tap_stands_under_the_verdict(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	struct bc_judgement *judgement = &given->judgement;
	assert_true(judgement->has_rerun);
	judgement->verdict.word = BC_WORD_RERUN;
	judgement->rerun.light_until_reading_c = 138.6;
	judgement->rerun.light_pct = 7.2;
	judgement->rerun.product_pct = 92.8;
	judgement->rerun.tail_pct = 0.0;
	judgement->rerun.product_until_c = NAN;
	judgement->rerun.product_until_reading_c = NAN;
	char *page = page_of(judgement, false, false);
	unwrap(page);
	const char *tap =
		strstr(page, "Change jars when your thermometer shows 139 degC: about 7 %");
	assert_non_null(tap);
	assert_true(tap < strstr(page, "Because"));
	assert_non_null(strstr(page, "93 %"));
	assert_non_null(strstr(page, "or when the flow ends"));
	assert_non_null(strstr(page, "No tail: the product runs until the flow ends"));
	assert_null(strstr(page, "tail and pot"));
	bc_free(page);
	judgement->rerun.product_until_reading_c = 301.2;
	judgement->rerun.tail_pct = 10.4;
	judgement->rerun.product_pct = 82.4;
	page = page_of(judgement, false, false);
	unwrap(page);
	assert_non_null(strstr(page, "Stop the product at 301 degC"));
	bc_free(page);
	judgement->verdict.word = BC_WORD_USABLE;
	page = page_of(judgement, false, false);
	unwrap(page);
	assert_null(strstr(page, "Change jars"));
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
	struct bc_limits_view view = {.grade = BC_GRADES};
	assert_int_equal(bc_report_limits(limits, &view, &text), BC_OK);
	assert_lines_fit(text.data);
	assert_non_null(strstr(text.data, "EN 590"));
	bc_text_release(&text);
	view.grade = BC_GRADE_KEROSENE;
	assert_int_equal(bc_report_limits(limits, &view, &text), BC_OK);
	assert_null(strstr(text.data, "EN 590"));
	assert_non_null(strstr(text.data, "BS 2869"));
	json_t *rows = bc_report_limits_json(limits, &(struct bc_limits_view){.grade = BC_GRADES});
	assert_int_equal(json_array_size(rows), limits->n);
	assert_keys(json_array_get(rows, 0), "grade standard edition property basis min max strict "
					     "unit method role in_force seen note judged");
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
		assert_non_null(strstr(script,
			strcmp(bc_chart_kinds[i], "shares") == 0
				? "\nname = '__ system(_touch x_)_ _id_ ___r'\n"
				: "\nname = '__ system(_touch x_)_ _id_ ___readings __ EOD _a _'\n"));
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
	assert_null(strstr(script, "title 'fit'"));
	bc_free(script);
	forget(given);
}

/* Words of a chart as its script places them. */
struct placed {
	char words[64];
	double x;
	double y;
};

static size_t words_of(const char *script, struct placed placed[], size_t most)
{
	size_t n = 0;
	for (const char *at = script; n < most && (at = strstr(at, "\nset label ")) != NULL; at++) {
		if (sscanf(at, "\nset label %*d '%63[^']' at %lf,%lf center ", placed[n].words,
			    &placed[n].x, &placed[n].y) == 3)
			n++;
	}
	return n;
}

static void assert_clear_of_curve(
	const struct bc_judgement *judgement, const struct placed *placed, double degrees_high)
{
	double half = 50.0 * 0.02 * (double)bc_text_columns(placed->words);
	assert_true(placed->x - half >= 0.0 && placed->x + half <= 100.0);
	for (int i = -8; i <= 8; i++) {
		double pct = placed->x + half * i / 8.0;
		double curve_c = bc_reader_temp_c(&judgement->reader, pct, NULL).value;
		if (fabs(curve_c - placed->y) < 0.028 * degrees_high)
			fail_msg("'%s' on the curve at %g %%", placed->words, pct);
	}
}

static void words_on_a_chart_keep_clear_of_the_curve(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	struct bc_judgement *judgement = &given->judgement;
	size_t seen = 0;
	for (size_t g = 0; g < judgement->grades.n; g++) {
		struct placed placed[24];
		double from_c = 0.0;
		double to_c = 0.0;
		judgement->verdict.grade = &judgement->grades.items[g];
		char *script = script_of(judgement, "curve");
		const char *range = strstr(script, "set yrange [");
		assert_int_equal(sscanf(range, "set yrange [%lf:%lf]", &from_c, &to_c), 2);
		size_t n = words_of(script, placed, 24);
		for (size_t i = 0; i < n; i++) {
			assert_clear_of_curve(judgement, &placed[i], to_c - from_c);
			for (size_t j = 0; j < i; j++)
				assert_false(
					fabs(placed[i].y - placed[j].y) < 0.05 * (to_c - from_c) &&
					fabs(placed[i].x - placed[j].x) < 10.0);
		}
		seen += n;
		bc_free(script);
	}
	assert_true(seen >= judgement->grades.n);
	forget(given);
}

static void charts_name_verdict_flash_and_taps(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	struct bc_judgement *judgement = &given->judgement;
	judgement->verdict.word = BC_WORD_RERUN;
	judgement->hazards.petrol_like = true;
	judgement->oil.property[BC_FLASH] = (struct bc_estimate){12.7, 1.3, 23.9, BC_ESTIMATED};
	judgement->rerun.light_pct = 7.2;
	judgement->rerun.light_until_reading_c = 138.6;
	char *script = script_of(judgement, "curve");
	assert_non_null(strstr(script, "re-run, TREAT AS PETROL, flash 13 °C (1 to 24)"));
	assert_non_null(strstr(script, "set arrow 300 from 7.2,graph 0 to 7.2,graph 1"));
	assert_non_null(strstr(script, "'change jars 139 °C'"));
	assert_non_null(strstr(script, "tap: as your thermometer shows"));
	bc_free(script);
	judgement->verdict.word = BC_WORD_USABLE;
	judgement->oil.property[BC_FLASH].low = NAN;
	script = script_of(judgement, "curve");
	assert_null(strstr(script, "change jars"));
	assert_non_null(strstr(script, "flash 13 °C (no lower bound)"));
	bc_free(script);
	forget(given);
}

static void readings_left_out_are_crosses(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	char *script = script_of(&given->judgement, "curve");
	assert_null(strstr(script, "$unused"));
	bc_free(script);
	given->judgement.boiloff.points[3].used = false;
	script = script_of(&given->judgement, "curve");
	assert_non_null(strstr(script, "\n$unused << EOD\n20 163 "));
	assert_non_null(strstr(script, "pointtype 2 "));
	bc_free(script);
	forget(given);
}

static void shares_end_at_one_hundred(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	given->judgement.shares.pct[BC_SHARE_DIESEL] =
		(struct bc_estimate){97.3, 95.1, 98.9, BC_ESTIMATED};
	char *script = script_of(&given->judgement, "shares");
	assert_non_null(strstr(script, "set xrange [0:100]\n"));
	bc_free(script);
	forget(given);
}

/* A gasoline's limits stand on percent evaporated: left by the loss, and said when it is seen. */
static void evaporated_limits_stand_left_by_the_loss(void **state)
{
	(void)state;
	struct given *given = judge(whole, "Shed 9");
	struct bc_judgement *judgement = &given->judgement;
	for (size_t i = 0; i < judgement->grades.n; i++) {
		if (strcmp(judgement->grades.items[i].standard, "ASTM D4814 class A") == 0)
			judgement->verdict.grade = &judgement->grades.items[i];
	}
	judgement->boiloff.loss_pct = 2.3;
	judgement->has_rerun = false; /* turns of the tap would take the room for words */
	char *script = script_of(judgement, "curve");
	assert_non_null(strstr(script, "'' at 87.7,190 point"));
	assert_non_null(strstr(script, "evap. ≤"));
	bc_free(script);
	judgement->boiloff.loss_pct = 0.4;
	script = script_of(judgement, "curve");
	assert_non_null(strstr(script, "'' at 89.6,190 point"));
	assert_null(strstr(script, "evap."));
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
		cmocka_unit_test(what_was_weighed_and_measured_is_shown),
		cmocka_unit_test(danger_box_has_no_empty_rows_together),
		cmocka_unit_test(unfit_speaks_of_the_still_that_there_is),
		cmocka_unit_test(danger_box_says_the_flash_at_this_site),
		cmocka_unit_test(temperatures_have_one_decimal),
		cmocka_unit_test(bounds_and_state_stay_apart),
		cmocka_unit_test(grades_that_leave_no_doubt_are_folded),
		cmocka_unit_test(the_tap_stands_under_the_verdict),
		cmocka_unit_test(words_on_a_chart_keep_clear_of_the_curve),
		cmocka_unit_test(charts_name_verdict_flash_and_taps),
		cmocka_unit_test(readings_left_out_are_crosses),
		cmocka_unit_test(shares_end_at_one_hundred),
		cmocka_unit_test(evaporated_limits_stand_left_by_the_loss),
		cmocka_unit_test(every_allocation_may_fail),
	};
	gsl_set_error_handler_off();
	return cmocka_run_group_tests(tests, NULL, NULL);
}
