/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far the bars of an oil reach: errors that all readings share, points that nobody read, and
 * wide oils whose light slices are outside a correlation. */
#include "unit/fuel/oil_of.h"

#include "fuel/oil_error.h"
#include "fuel/oil_points.h"

#define CURVE                                                                                      \
	"\nrecovered (%),head (C)\nIBP,164\n10,196.3\n30,231.1\n50,259.4\n70,286.2\n90,327.8\n"    \
	"95,341.3\nFBP,352.1\n"
#define REST "history,rerun\nfeed,PE caps\ndensity,827.3 kg/m3\n"

/* Every property of one file within the bars of another. */
static void lies_inside(const char *known, const char *open)
{
	struct bench bench;
	struct bc_oil oil;
	bench_up(&bench, known);
	oil = bench.oil;
	bench_down(&bench);
	bench_up(&bench, open);
	for (size_t i = 0; i < BC_PROPERTIES; i++) {
		const struct bc_estimate *bar = &bench.oil.property[i];
		double value = oil.property[i].value;
		if (!(value >= bar->low && value <= bar->high))
			fail_msg("%s: %g is outside %g to %g", bc_property_keys[i], value, bar->low,
				bar->high);
	}
	bench_down(&bench);
}

static void a_probe_lies_inside_an_unstated_thermometer(void **state)
{
	(void)state;
	lies_inside("barometer,101.3 kPa\nthermometer,probe\n" REST CURVE,
		"barometer,101.3 kPa\n" REST CURVE);
}

static void a_hill_lies_inside_an_assumed_pressure(void **state)
{
	(void)state;
	lies_inside("barometer,94.3 kPa\nthermometer,glass d86\n" REST CURVE,
		"thermometer,glass d86\n" REST CURVE);
}

/* A thermometer that may have read true vapour moves everything down and nothing up. */
static void shared_errors_are_one_sided(void **state)
{
	(void)state;
	struct bench stated, open;
	bench_up(&stated, "barometer,101.3 kPa\nthermometer,glass d86\n" REST CURVE);
	bench_up(&open, "barometer,101.3 kPa\n" REST CURVE);
	const struct bc_reach *narrow = &stated.oil.reach;
	const struct bc_reach *wide = &open.oil.reach;
	static const enum bc_property heats[] = {
		BC_MEAN_AVERAGE_BP, BC_VISC40, BC_CETANE_INDEX, BC_FLASH_T10, BC_MOLAR_MASS};
	for (size_t i = 0; i < sizeof(heats) / sizeof(heats[0]); i++) {
		if (!(wide->low[heats[i]] > 1.3 * narrow->low[heats[i]]))
			fail_msg("%s low", bc_property_keys[heats[i]]);
		assert_close(wide->high[heats[i]] / narrow->high[heats[i]], 1.0, 0.02);
	}
	const struct bc_estimate *index = &open.oil.property[BC_DRIVEABILITY_INDEX];
	assert_true(index->value - index->low > 1.3 * (index->high - index->value));
	bench_down(&stated);
	bench_down(&open);
}

static double mean_reach(const char *text)
{
	struct bench bench;
	bench_up(&bench, text);
	double reach = bench.oil.reach.high[BC_MEAN_AVERAGE_BP];
	bench_down(&bench);
	return reach;
}

#define HEAD                                                                                       \
	"barometer,101.3 kPa\nthermometer,glass d86\n" REST                                        \
	"\nrecovered (%),head (C)\nIBP,164\n10,196.3\n"

/* The mean average boiling point rests on T10 to T90 alike: a guess far out is told by it. */
static void a_guess_is_less_sure_the_farther_it_lies(void **state)
{
	(void)state;
	double near = mean_reach(HEAD "30,231.1\n50,259.4\n70,286.2\n");
	double far = mean_reach(HEAD "30,231.1\n50,259.4\n");
	double farther = mean_reach(HEAD "30,231.1\n40,247.7\n");
	assert_true(near > 2.0 && far > near + 1.0 && farther > far + 1.0);
}

static enum bc_how index_how(const char *text, enum bc_property which)
{
	struct bench bench;
	bench_up(&bench, text);
	enum bc_how how = bench.oil.property[which].how;
	bench_down(&bench);
	return how;
}

static void what_rests_on_guesses_is_not_valid(void **state)
{
	(void)state;
	const char *read = HEAD "30,231.1\n50,259.4\n70,286.2\n";
	const char *guessed = HEAD "30,231.1\n50,259.4\n";
	assert_int_equal(index_how(read, BC_CETANE_INDEX), BC_ESTIMATED);
	assert_int_equal(index_how(guessed, BC_CETANE_INDEX), BC_NOT_VALID);
	assert_int_equal(index_how(read, BC_VISC40), BC_ESTIMATED);
	assert_int_equal(index_how(guessed, BC_VISC40), BC_NOT_VALID);
	assert_int_equal(index_how(guessed, BC_VISC20), BC_NOT_VALID);
}

/* The oil of samples/from-retort.csv: an eighth of it is too light for the viscosity formula. */
static void an_oil_from_a_retort_has_a_viscosity(void **state)
{
	(void)state;
	struct bench bench;
	bench_up(&bench,
		"history,retort\ndensity,0.783 g/mL @ 20 C\naltitude,612 m\n"
		"thermometer,glass partial\nice,0.4 C\nsteam,97.6 C\n\nrecovered (%),head (C)\n"
		"IBP,50\n5,86\n10,111\n20,149.5\n30,177.5\n40,201\n50,224.5\n60,247\n70,271.5\n"
		"80,299\n90,336.5\n");
	const struct bc_estimate *at40 = &bench.oil.property[BC_VISC40];
	const struct bc_estimate *at20 = &bench.oil.property[BC_VISC20];
	assert_int_equal(at40->how, BC_ESTIMATED);
	assert_int_equal(at20->how, BC_ESTIMATED);
	assert_true(at40->high > 1.21 * at40->value); /* wider than the method alone */
	assert_true(at20->value > 1.2 * at40->value);
	bench_down(&bench);
}

/* 3 of the reading, 4 that is shared, 12 of the point itself: 13 without the shared part. */
static void what_is_shared_is_not_counted_twice(void **state)
{
	(void)state;
	struct bc_conditions conditions = {.thermometer = BC_THERMOMETER_GLASS_D86,
		.reading_half_width_c = 3.0,
		.calibration_half_width_c = 4.0,
		.pressure_kpa = 101.3,
		.pressure_source = BC_PRESSURE_BAROMETER};
	struct bc_estimate point = bc_estimate_new(87.3, 13.0, BC_MEASURED);
	assert_close(bc_own_error_c(&conditions, &point), sqrt(169.0 - 16.0), 1e-9);
	double low_c, high_c;
	bc_common_error_c(&conditions, 87.3, &low_c, &high_c);
	assert_close(low_c, 4.0, 1e-9);
	assert_close(high_c, 4.0, 1e-9);
}

/* The average error that the source states is 7 %; bars are to hold 95 of 100. */
static void a_molar_mass_carries_twice_its_average_error(void **state)
{
	(void)state;
	struct bench bench;
	bench_up(&bench, "barometer,101.3 kPa\nthermometer,glass d86\n" REST CURVE);
	const struct bc_estimate *mass = &bench.oil.property[BC_MOLAR_MASS];
	assert_true(mass->high >= 1.14 * mass->value);
	assert_true(mass->high < 1.17 * mass->value);
	bench_down(&bench);
}

/* Cut from what was read, a product holds though its parent does not. */
static void a_product_of_what_was_read_is_valid(void **state)
{
	(void)state;
	struct bench bench;
	struct bc_slices part;
	struct bc_oil product;
	double d86_c[BC_TBP_POINTS];
	bench_up(&bench, HEAD "30,231.1\n50,259.4\n");
	assert_true(bench.oil.beyond_readings);
	struct bc_parent parent = bc_parent_of(&bench.oil, NULL);
	bc_slices_cut(&bench.oil.slices, 0.1, 0.45, &part);
	bc_slices_d86_c(&part, d86_c);
	bc_oil_from_slices(&part, d86_c, &parent, &product);
	assert_int_equal(product.property[BC_VISC40].how, BC_ESTIMATED);
	bc_slices_cut(&bench.oil.slices, 0.1, 0.95, &part);
	bc_slices_d86_c(&part, d86_c);
	bc_oil_from_slices(&part, d86_c, &parent, &product);
	assert_int_equal(product.property[BC_VISC40].how, BC_NOT_VALID);
	bench_down(&bench);
}

/* A gas oil far above every viscosity chart: a bar of ten powers of ten is no figure. */
static void a_viscosity_known_to_no_better_than_tenfold_is_not_valid(void **state)
{
	(void)state;
	struct bench bench;
	bench_up(&bench,
		"history,rerun\ndensity,903 kg/m3\n\nrecovered (%),head (C)\n10,355\n"
		"20,385\n30,410\n40,440\n50,450\n60,460\n70,480\n80,505\n90,580\n95,592\n");
	const struct bc_estimate *visc = &bench.oil.property[BC_VISC40];
	assert_int_equal(visc->how, BC_NOT_VALID);
	assert_true(visc->low >= 0.0999 * visc->value && visc->high <= 10.001 * visc->value);
	bench_down(&bench);
}

/* The bars of the methods alone: errors of readings and density are none. */
static void methods_alone(double t10_c, double visc40, enum bc_status cetane_status,
	struct bc_estimate property[BC_PROPERTIES])
{
	static const struct bc_reach none;
	struct bc_oil_figures figures = {.d86_c = {t10_c - 81.7, t10_c},
		.flash_vapour_c = 107.3,
		.visc40_mm2s = visc40,
		.visc20_mm2s = 1.7 * visc40,
		.cetane_index = 51.3,
		.cetane_index_d976 = 49.7,
		.cetane_status = cetane_status,
		.vapour_pressure_37_8_kpa = 3.7};
	bc_oil_estimates(&figures, BC_CETANE_HALF_WIDTH, &none, property);
}

static void a_thin_oil_has_a_wider_viscosity(void **state)
{
	(void)state;
	struct bc_estimate property[BC_PROPERTIES];
	methods_alone(203.4, 1.93, BC_OK, property);
	assert_close(property[BC_VISC40].high / property[BC_VISC40].value, 1.20, 1e-9);
	assert_close(property[BC_VISC20].value / property[BC_VISC20].low, 1.25, 1e-9);
	methods_alone(103.4, 0.89, BC_OK, property);
	assert_close(property[BC_VISC40].high / property[BC_VISC40].value, 1.60, 1e-9);
	assert_close(property[BC_VISC20].value / property[BC_VISC20].low, 1.70, 1e-9);
}

static void an_index_outside_its_range_has_a_wide_bar(void **state)
{
	(void)state;
	struct bc_estimate property[BC_PROPERTIES];
	methods_alone(203.4, 1.93, BC_OK, property);
	assert_close(property[BC_CETANE_INDEX].high, 55.3, 1e-9);
	assert_close(property[BC_CETANE_INDEX_D976].high, 56.2, 1e-9);
	methods_alone(203.4, 1.93, BC_OUTSIDE_RANGE, property);
	assert_close(property[BC_CETANE_INDEX].low, 6.3, 1e-9);
	assert_close(property[BC_CETANE_INDEX_D976].low, 4.7, 1e-9);
}

/* Downwards half the estimate, upwards 75. */
static void a_heavy_oil_has_a_wide_flash(void **state)
{
	(void)state;
	struct bc_estimate property[BC_PROPERTIES];
	methods_alone(290.0, 8.3, BC_OK, property);
	assert_close(property[BC_FLASH_VAPOUR].low, 53.65, 1e-9);
	assert_close(property[BC_FLASH_VAPOUR].high, 182.3, 1e-9);
	methods_alone(289.9, 8.3, BC_OK, property);
	assert_close(property[BC_FLASH_VAPOUR].low, 90.185552273, 1e-8);
	methods_alone((double)NAN, 8.3, BC_OK, property);
	assert_close(property[BC_FLASH_VAPOUR].low, 62.3, 1e-9);
	assert_close(property[BC_VAPOUR_PRESSURE_37_8].high, 3.7 * exp(1.1), 1e-9);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_thin_oil_has_a_wider_viscosity),
		cmocka_unit_test(an_index_outside_its_range_has_a_wide_bar),
		cmocka_unit_test(a_heavy_oil_has_a_wide_flash),
		cmocka_unit_test(a_probe_lies_inside_an_unstated_thermometer),
		cmocka_unit_test(a_hill_lies_inside_an_assumed_pressure),
		cmocka_unit_test(shared_errors_are_one_sided),
		cmocka_unit_test(a_guess_is_less_sure_the_farther_it_lies),
		cmocka_unit_test(what_rests_on_guesses_is_not_valid),
		cmocka_unit_test(an_oil_from_a_retort_has_a_viscosity),
		cmocka_unit_test(what_is_shared_is_not_counted_twice),
		cmocka_unit_test(a_molar_mass_carries_twice_its_average_error),
		cmocka_unit_test(a_product_of_what_was_read_is_valid),
		cmocka_unit_test(a_viscosity_known_to_no_better_than_tenfold_is_not_valid),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
