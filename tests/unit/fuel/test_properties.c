/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Properties of an oil: what is measured replaces what is estimated, bounds, claims, findings. */
#include "unit/fuel/oil_of.h"

#include "base/text.h"
#include "fuel/density.h"
#include "fuel/ignition.h"

#define CURVE                                                                                      \
	"\nrecovered (%),head (C)\nIBP,164\n10,196.3\n30,231.1\n50,259.4\n70,286.2\n90,327.8\n"    \
	"95,341.3\nFBP,352.1\n"
#define GLASS "thermometer,glass d86\nbarometer,101.3 kPa\n"

static void with(struct bench *bench, const char *head)
{
	struct bc_text text;
	bc_text_init(&text);
	bc_text_append(&text, GLASS);
	bc_text_append(&text, head);
	bc_text_append(&text, CURVE);
	bench_up(bench, text.data);
	bc_text_release(&text);
}

static const struct bc_estimate *property(const struct bench *bench, enum bc_property which)
{
	return &bench->oil.property[which];
}

static void every_estimate_lies_within_its_bounds(void **state)
{
	(void)state;
	struct bench bench;
	with(&bench, "history,rerun\ndensity,827.3 kg/m3\n");
	for (size_t i = 0; i < BC_PROPERTIES; i++) {
		const struct bc_estimate *estimate = &bench.oil.property[i];
		if (!bc_estimate_present(estimate))
			fail_msg("%s is absent", bc_property_keys[i]);
		if (!(estimate->low < estimate->value && estimate->value < estimate->high))
			fail_msg("%s: %g %g %g", bc_property_keys[i], estimate->low,
				estimate->value, estimate->high);
		assert_non_null(bc_property_units[i]);
		assert_non_null(bc_property_names[i]);
	}
	bench_down(&bench);
}

static bool says(const struct bc_strings *strings, const char *words)
{
	for (size_t i = 0; i < strings->n; i++)
		if (strstr(strings->items[i], words))
			return true;
	return false;
}

static void density_measured_or_estimated(void **state)
{
	(void)state;
	struct bench bench;
	double brought;
	with(&bench, "history,rerun\ndensity,0.8217 g/mL @ 23 C\n");
	bc_density15_from_observed_kgm3(821.7, 23.0, &brought);
	assert_int_equal(property(&bench, BC_DENSITY15)->how, BC_MEASURED);
	assert_close(property(&bench, BC_DENSITY15)->value, brought, 1e-9);
	/* the tables 2.0, half of the last digit 0.05, the hydrometer 1.0 */
	assert_close(
		property(&bench, BC_DENSITY15)->high - brought, sqrt(4.0 + 0.0025 + 1.0), 1e-9);
	assert_true(says(&bench.assumed, "glass hydrometer"));
	double measured_ci =
		property(&bench, BC_CETANE_INDEX)->high - property(&bench, BC_CETANE_INDEX)->low;
	bench_down(&bench);
	with(&bench, "history,rerun\n");
	assert_int_equal(property(&bench, BC_DENSITY15)->how, BC_ESTIMATED);
	assert_close(property(&bench, BC_DENSITY15)->high - property(&bench, BC_DENSITY15)->value,
		58.0, 1e-9);
	assert_true(
		property(&bench, BC_CETANE_INDEX)->high - property(&bench, BC_CETANE_INDEX)->low >
		2.0 * measured_ci);
	bench_down(&bench);
}

static void a_coarse_digit_widens_the_density(void **state)
{
	(void)state;
	struct bench bench;
	with(&bench, "history,rerun\ndensity,0.83 g/mL\n");
	assert_close(property(&bench, BC_DENSITY15)->high - property(&bench, BC_DENSITY15)->value,
		sqrt(0.25 + 25.0 + 1.0), 1e-9);
	assert_false(says(&bench.assumed, "glass hydrometer"));
	bench_down(&bench);
}

static void a_weighed_charge_tells_the_density(void **state)
{
	(void)state;
	struct bench bench;
	with(&bench, "history,rerun\ncharge,100 mL\ncharge mass,81.7 g\n");
	const struct bc_estimate *density = property(&bench, BC_DENSITY15);
	assert_int_equal(density->how, BC_MEASURED);
	assert_close(density->value, 817.0, 0.01);
	assert_close(density->high - density->value, 8.0, 1e-9);
	assert_true(says(&bench.assumed, "weighed charge"));
	bench_down(&bench);
}

static void slices_weigh_what_the_oil_weighs(void **state)
{
	(void)state;
	struct bench bench;
	with(&bench, "history,rerun\ndensity,827.3 kg/m3\n");
	assert_close(bc_density15_from_sg(bench.oil.slices.sg), 827.3, 1e-6);
	/* 0.9013 (259.4 + 273.15)^1.0176 - 273.15 */
	assert_close(bench.oil.tbp_c[3], 262.91, 0.01);
	bench_down(&bench);
}

static void flash_is_the_vapour_space_and_low_minds_the_other(void **state)
{
	(void)state;
	struct bench bench;
	with(&bench, "history,rerun\ndensity,827.3 kg/m3\n");
	const struct bc_estimate *flash = property(&bench, BC_FLASH);
	assert_true(bench.oil.flash_claim);
	assert_null(bench.oil.no_claim_why);
	assert_close(flash->value, property(&bench, BC_FLASH_VAPOUR)->value, 0.0);
	assert_true(flash->value - flash->low >= 10.0);
	assert_true(flash->low <= property(&bench, BC_FLASH_T10)->value);
	assert_close(bench.oil.flash_at_site_c, flash->value, 1e-9);
	bench_down(&bench);
}

static void the_bar_opens_on_wide_front_ends(void **state)
{
	(void)state;
	/* roots of 100 + (0.17 x 23.4)^2, of 81.7 and of 102.9 degC, by hand */
	assert_close(bc_flash_half_width_c(150.0, 173.4), 10.762178404, 1e-8);
	assert_close(bc_flash_half_width_c(98.3, 180.0), 17.114447727, 1e-8);
	assert_close(bc_flash_half_width_c(NAN, 180.0), 45.0, 1e-12);
	assert_close(bc_flash_half_width_c(187.0, 289.9), 20.149566968, 1e-8);
	assert_close(bc_flash_half_width_c(187.0, 290.0), 75.0, 1e-12);
	assert_close(bc_flash_half_width_c(NAN, 301.2), 75.0, 1e-12);
}

static void no_claim(const char *head, const char *word)
{
	struct bench bench;
	with(&bench, head);
	assert_false(bench.oil.flash_claim);
	assert_non_null(strstr(bench.oil.no_claim_why, word));
	assert_nan(property(&bench, BC_FLASH)->low);
	assert_nan(bench.oil.flash_low_at_site_c);
	assert_true(isfinite(property(&bench, BC_FLASH)->value));
	assert_true(isfinite(property(&bench, BC_FLASH)->high));
	assert_true(isfinite(property(&bench, BC_FLASH_T10)->low));
	bench_down(&bench);
}

static void no_claim_where_gas_may_be(void **state)
{
	(void)state;
	no_claim("history,retort\n", "retort");
	no_claim("", "not stated");
	no_claim("history,rerun\njar to,347 C pot\n", "pot limit");
	no_claim("history,rerun\njar to,336 C\n", "pot limit");
}

static void no_claim_without_ibp(void **state)
{
	(void)state;
	struct bench bench;
	bench_up(&bench,
		GLASS "history,rerun\n\nrecovered (%),head (C)\n10,196.3\n50,259.4\n90,327.8\n");
	assert_false(bench.oil.flash_claim);
	assert_non_null(strstr(bench.oil.no_claim_why, "IBP"));
	assert_nan(property(&bench, BC_FLASH)->low);
	assert_true(isfinite(property(&bench, BC_FLASH)->value));
	bench_down(&bench);
}

static void thin_air_lowers_the_flash_at_the_site(void **state)
{
	(void)state;
	struct bench bench;
	bench_up(&bench, "history,rerun\nbarometer,94.3 kPa\n" CURVE);
	assert_close(
		bench.oil.flash_at_site_c, property(&bench, BC_FLASH)->value - 0.25 * 7.0, 1e-9);
	assert_close(
		bench.oil.flash_low_at_site_c, property(&bench, BC_FLASH)->low - 0.25 * 7.0, 1e-9);
	bench_down(&bench);
}

static void d976(const char *head, enum bc_how how)
{
	struct bench bench;
	with(&bench, head);
	if (property(&bench, BC_CETANE_INDEX_D976)->how != how)
		fail_msg("D976 with %s", head);
	bench_down(&bench);
}

static void cetane_minds_range_and_feed(void **state)
{
	(void)state;
	struct bench bench;
	with(&bench, "history,rerun\nfeed,PE caps\ndensity,827.3 kg/m3\n");
	const struct bc_estimate *index = property(&bench, BC_CETANE_INDEX);
	assert_int_equal(index->how, BC_ESTIMATED);
	assert_true(index->high - index->value >= 4.0 && index->high - index->value < 8.0);
	assert_int_equal(property(&bench, BC_CETANE_INDEX_D976)->how, BC_NOT_VALID);
	bench_down(&bench);
	with(&bench, "history,rerun\nfeed,PP caps\ndensity,798.3 kg/m3\n");
	assert_int_equal(property(&bench, BC_CETANE_INDEX)->how, BC_NOT_VALID);
	assert_true(isfinite(property(&bench, BC_CETANE_INDEX)->value));
	assert_true(property(&bench, BC_CETANE_INDEX)->high -
			    property(&bench, BC_CETANE_INDEX)->value >=
		    25.0);
	bench_down(&bench);
	d976("history,rerun\nfeed,pump diesel\ndensity,827.3 kg/m3\n", BC_ESTIMATED);
	d976("history,rerun\ndensity,827.3 kg/m3\n", BC_NOT_VALID);
	d976("history,retort\nfeed,pump diesel\ndensity,827.3 kg/m3\n", BC_NOT_VALID);
	d976("feed,pump diesel\ndensity,827.3 kg/m3\n", BC_NOT_VALID);
}

static void has(const char *head, const char *code, bool expected)
{
	struct bench bench;
	with(&bench, head);
	if (bc_findings_has(&bench.findings, code) != expected)
		fail_msg("'%s' with %s", code, head);
	bench_down(&bench);
}

static void density_against_feed(void **state)
{
	(void)state;
	has("feed,PS cups\ndensity,0.831\n", "density-unlike-feed", true);
	has("feed,PS cups\ndensity,0.903\n", "density-unlike-feed", false);
	has("feed,PP and PE\ndensity,0.871\n", "density-unlike-feed", true);
	has("feed,PP and PE\ndensity,0.794\n", "density-unlike-feed", false);
}

static void findings_about_the_curve(void **state)
{
	(void)state;
	struct bench bench;
	bench_up(&bench, GLASS "history,rerun\n\nrecovered (%),head (C)\nIBP,41\n5,87\n10,113\n"
			       "50,251\n90,371\n");
	assert_true(bc_findings_has(&bench.findings, "light-ends"));
	assert_true(bc_findings_has(&bench.findings, "wide-boiling"));
	assert_true(bc_findings_has(&bench.findings, "waxy"));
	assert_true(bc_findings_has(&bench.findings, "flash-routes-apart"));
	assert_true(bc_findings_has(&bench.findings, "tbp-outside-range"));
	bench_down(&bench);
	with(&bench, "history,rerun\n");
	assert_false(bc_findings_has(&bench.findings, "light-ends"));
	assert_false(bc_findings_has(&bench.findings, "wide-boiling"));
	assert_false(bc_findings_has(&bench.findings, "waxy"));
	assert_false(bc_findings_has(&bench.findings, "tbp-outside-range"));
	bench_down(&bench);
}

static const struct bc_finding *finding_of(const struct bench *bench, const char *code)
{
	for (size_t i = 0; i < bench->findings.n; i++)
		if (strcmp(bench->findings.items[i].code, code) == 0)
			return &bench->findings.items[i];
	return NULL;
}

/* 84 to 214 degC is the front end of a petrol under a middle distillate. */
static void light_ends_in_a_heavier_oil(void **state)
{
	(void)state;
	struct bench bench;
	bench_up(&bench, GLASS "history,rerun\n\nrecovered (%),head (C)\nIBP,84\n5,171\n10,214\n"
			       "50,262\n90,317\n");
	const struct bc_finding *finding = finding_of(&bench, "light-ends");
	assert_non_null(finding);
	assert_non_null(strstr(finding->message, " degC."));
	assert_non_null(strstr(finding->advice, "by a re-run"));
	assert_true(property(&bench, BC_FLASH)->value < 38.0);
	bench_down(&bench);
}

/* What is light through and through has no light end to take off. */
static void a_light_cut_is_not_sent_to_a_re_run(void **state)
{
	(void)state;
	struct bench bench;
	bench_up(&bench, GLASS "history,rerun\n\nrecovered (%),head (C)\nIBP,39\n10,63\n50,97\n"
			       "90,151\n");
	const struct bc_finding *finding = finding_of(&bench, "light-ends");
	assert_non_null(finding);
	assert_null(strstr(finding->advice, "by a re-run"));
	bench_down(&bench);
}

/* Drops of water at 98 degC say nothing of the oil's own first drops. */
static void an_ibp_of_water_carries_no_claim(void **state)
{
	(void)state;
	struct bench bench;
	const char *table = "\nrecovered (%),head (C)\nIBP,98\n5,201\n10,214\n50,262\n90,317\n";
	char text[512];
	snprintf(text, sizeof(text), "%shistory,rerun\n%s", GLASS, table);
	bench_up(&bench, text);
	assert_true(bench.oil.flash_claim);
	bench_down(&bench);
	snprintf(text, sizeof(text), "%shistory,rerun\nwater in receiver,1.5 mL\n%s", GLASS, table);
	bench_up(&bench, text);
	assert_false(bench.oil.flash_claim);
	assert_true(isnan(bench.oil.property[BC_FLASH].low));
	bench_down(&bench);
}

static void three_readings_are_enough_for_slices(void **state)
{
	(void)state;
	struct bench bench;
	bench_up(&bench, "\nrecovered (%),head (C)\n15,187.3\n20,196.1\n26,205.9\n");
	assert_int_equal(bench.oil.slices.n, BC_SLICES_DEFAULT);
	size_t read = 0;
	for (size_t i = 0; i < bench.oil.slices.n; i++)
		read += !bench.oil.slices.items[i].extrapolated;
	assert_in_range(read, 1, 10);
	assert_true(isfinite(property(&bench, BC_FLASH)->value));
	bench_down(&bench);
}

static void a_tbp_is_taken_as_it_is(void **state)
{
	(void)state;
	struct bench bench;
	bench_up(&bench, "apparatus,tbp\nbarometer,101.3 kPa\nhistory,rerun\n" CURVE);
	assert_close(bench.oil.tbp_c[3], 259.4, 1e-6);
	assert_close(bc_tbp_curve_temp_c(&bench.oil.tbp, 0.5), 164.0, 1e-6);
	assert_true(property(&bench, BC_FLASH)->value > 60.0);
	bench_down(&bench);
}

/* Readings below 5 % are part of a true-boiling curve, which is only carried on below its points.
 */
static void a_tbp_begins_where_it_was_read(void **state)
{
	(void)state;
	struct bench bench;
	bench_up(&bench, "apparatus,tbp\nbarometer,101.3 kPa\nhistory,aired\n\n"
			 "recovered (%),head (C)\n1.3,47.3\n2.9,66.1\n3.7,71.9\n8,103\n"
			 "20,171\n40,243\n60,317\n80,391\n95,477\n");
	assert_close(bc_tbp_curve_temp_c(&bench.oil.tbp, 1.3), 47.3, 1e-6);
	assert_close(bc_tbp_curve_temp_c(&bench.oil.tbp, 2.9), 66.1, 1e-6);
	assert_close(bc_tbp_curve_temp_c(&bench.oil.tbp, 3.7), 71.9, 1e-6);
	assert_close(bc_tbp_curve_temp_c(&bench.oil.tbp, 20.0), 171.0, 1e-6);
	bench_down(&bench);
}

/* A reading beside the IBP tells no slope: the flash keeps its bounds. */
static void a_reading_beside_the_first_drop_steepens_no_front(void **state)
{
	static const char *const fronts[] = {"", "0.51,140\n", "1,140\n", "1.1,140\n"};
	const struct bc_estimate *flash;
	double value_c = NAN;
	double low_c = NAN;
	(void)state;
	for (size_t i = 0; i < sizeof fronts / sizeof fronts[0]; i++) {
		struct bench bench;
		char text[512];
		snprintf(text, sizeof text,
			"apparatus,tbp\nbarometer,101.3 kPa\nhistory,rerun\n\n"
			"recovered (%%),head (C)\nIBP,120\n%s2,150\n4.4,165\n10,190\n20,212\n"
			"50,252\n80,290\n95,318\n",
			fronts[i]);
		bench_up(&bench, text);
		flash = property(&bench, BC_FLASH);
		value_c = i == 0 ? flash->value : value_c;
		low_c = i == 0 ? flash->low : low_c;
		assert_close(flash->value, value_c, 1.0);
		assert_close(flash->low, low_c, 2.0);
		assert_true(bench.oil.tbp.front_slope <= 45.0);
		bench_down(&bench);
	}
}

static void a_cut_has_properties_too(void **state)
{
	(void)state;
	struct bench bench;
	struct bc_slices heart;
	struct bc_oil product;
	double d86_c[BC_TBP_POINTS];
	with(&bench, "history,rerun\ndensity,827.3 kg/m3\n");
	bc_slices_cut(&bench.oil.slices, 0.1, 0.9, &heart);
	bc_slices_d86_c(&heart, d86_c);
	assert_int_equal(bc_oil_from_slices(&heart, d86_c, NULL, &product), BC_OK);
	assert_true(product.property[BC_FLASH].value > property(&bench, BC_FLASH)->value + 10.0);
	assert_close(product.property[BC_DENSITY15].value, 827.3, 5.0);
	assert_true(product.flash_claim);
	assert_true(product.property[BC_CETANE_INDEX].value > 30.0);
	bench_down(&bench);
}

/* A product is known no better than the oil it comes from. */
static void a_cut_inherits_what_is_not_known(void **state)
{
	(void)state;
	struct bench bench;
	struct bc_slices heart;
	struct bc_oil alone, product;
	double d86_c[BC_TBP_POINTS];
	with(&bench, "history,rerun\nfeed,PP caps\n");
	struct bc_feed feed;
	bc_feed_read("PP caps", &feed);
	struct bc_parent parent = bc_parent_of(&bench.oil, &feed);
	bc_slices_cut(&bench.oil.slices, 0.1, 0.9, &heart);
	bc_slices_d86_c(&heart, d86_c);
	bc_oil_from_slices(&heart, d86_c, NULL, &alone);
	bc_oil_from_slices(&heart, d86_c, &parent, &product);
	const struct bc_estimate *density = &product.property[BC_DENSITY15];
	assert_true(density->high - density->value >= 58.0);
	const struct bc_estimate *index = &product.property[BC_CETANE_INDEX];
	assert_true(index->high - index->value >= 25.0);
	assert_int_equal(product.property[BC_CETANE_INDEX_D976].how, BC_NOT_VALID);
	assert_int_equal(alone.property[BC_CETANE_INDEX_D976].how, BC_ESTIMATED);
	static const enum bc_property wider[] = {BC_FLASH, BC_CETANE_INDEX, BC_VISC40,
		BC_MOLAR_MASS, BC_WATSON_K, BC_MEAN_AVERAGE_BP, BC_NET_HEAT};
	for (size_t i = 0; i < sizeof(wider) / sizeof(wider[0]); i++) {
		const struct bc_estimate *with_parent = &product.property[wider[i]];
		const struct bc_estimate *without = &alone.property[wider[i]];
		assert_close(with_parent->value, without->value, 1e-9);
		if (!(with_parent->low < without->low && with_parent->high > without->high))
			fail_msg("%s is no wider", bc_property_keys[wider[i]]);
	}
	bench_down(&bench);
}

/* The further a product is from its parent, the less one Watson K tells of its density, and of what
 * is computed from that. */
static void a_light_cut_is_not_known_by_one_watson_k(void **state)
{
	(void)state;
	struct bench bench;
	struct bc_slices light;
	struct bc_oil product;
	double d86_c[BC_TBP_POINTS];
	double index, heavier;
	with(&bench, "history,rerun\nfeed,pump diesel\ndensity,827.3 kg/m3\n");
	struct bc_parent parent = bc_parent_of(&bench.oil, NULL);
	bc_slices_cut(&bench.oil.slices, 0.0, 0.31, &light);
	bc_slices_d86_c(&light, d86_c);
	assert_int_equal(bc_oil_from_slices(&light, d86_c, &parent, &product), BC_OK);
	const struct bc_estimate *density = &product.property[BC_DENSITY15];
	double error = hypot(2.0, 0.6 * (827.3 - density->value));
	assert_true(error > 8.0);
	assert_close(
		density->high - density->value, hypot(error, parent.density_half_width_kgm3), 1e-6);
	bc_cetane_index_d4737a(density->value, d86_c[1], d86_c[3], d86_c[5], &index);
	bc_cetane_index_d4737a(density->value + error, d86_c[1], d86_c[3], d86_c[5], &heavier);
	const struct bc_estimate *cetane = &product.property[BC_CETANE_INDEX];
	assert_close(cetane->value, index, 1e-9);
	/* 45: so light a cut is outside the range of the method */
	assert_int_equal(cetane->how, BC_NOT_VALID);
	double rest = hypot(45.0, bench.oil.reach.low[BC_CETANE_INDEX]);
	assert_close(index - cetane->low, hypot(rest, index - heavier), 1e-6);
	bench_down(&bench);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_estimate_lies_within_its_bounds),
		cmocka_unit_test(density_measured_or_estimated),
		cmocka_unit_test(a_coarse_digit_widens_the_density),
		cmocka_unit_test(a_weighed_charge_tells_the_density),
		cmocka_unit_test(slices_weigh_what_the_oil_weighs),
		cmocka_unit_test(flash_is_the_vapour_space_and_low_minds_the_other),
		cmocka_unit_test(the_bar_opens_on_wide_front_ends),
		cmocka_unit_test(no_claim_where_gas_may_be),
		cmocka_unit_test(no_claim_without_ibp),
		cmocka_unit_test(thin_air_lowers_the_flash_at_the_site),
		cmocka_unit_test(cetane_minds_range_and_feed),
		cmocka_unit_test(density_against_feed),
		cmocka_unit_test(findings_about_the_curve),
		cmocka_unit_test(light_ends_in_a_heavier_oil),
		cmocka_unit_test(a_light_cut_is_not_sent_to_a_re_run),
		cmocka_unit_test(an_ibp_of_water_carries_no_claim),
		cmocka_unit_test(three_readings_are_enough_for_slices),
		cmocka_unit_test(a_tbp_is_taken_as_it_is),
		cmocka_unit_test(a_tbp_begins_where_it_was_read),
		cmocka_unit_test(a_reading_beside_the_first_drop_steepens_no_front),
		cmocka_unit_test(a_cut_has_properties_too),
		cmocka_unit_test(a_cut_inherits_what_is_not_known),
		cmocka_unit_test(a_light_cut_is_not_known_by_one_watson_k),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
