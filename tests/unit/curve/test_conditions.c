/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Site and thermometer: where the pressure comes from, what each kind of thermometer reads, and
 * that every way to the D86 basis has its way back. */
#include "by_hand.h"

static struct bc_conditions conditions_of(
	const struct bc_sample *sample, struct bc_strings *assumed)
{
	struct bc_conditions conditions;
	bc_strings_init(assumed);
	assert_int_equal(bc_conditions_from_sample(sample, &conditions, assumed), BC_OK);
	return conditions;
}

static void test_pressure_sources_in_order(void **state)
{
	(void)state;
	struct bc_sample sample = sample_by_hand(NULL, 0);
	struct bc_strings assumed;

	struct bc_conditions c = conditions_of(&sample, &assumed);
	assert_int_equal(c.pressure_source, BC_PRESSURE_ASSUMED);
	assert_close(c.pressure_kpa, 101.3, 0.0);
	assert_true(says(&assumed, "101.3 kPa"));
	assert_true(says(&assumed, "thermometer not stated"));
	bc_strings_release(&assumed);

	sample.water_boils_c = 98.6;
	sample.ice_c = 0.6;
	c = conditions_of(&sample, &assumed);
	assert_int_equal(c.pressure_source, BC_PRESSURE_WATER_BOILS);
	assert_close(c.pressure_kpa, 94.39, 0.01); /* IAPWS-IF97 at 98.0 degC */
	bc_strings_release(&assumed);

	sample.altitude_m = 612.0;
	c = conditions_of(&sample, &assumed);
	assert_int_equal(c.pressure_source, BC_PRESSURE_ALTITUDE);
	assert_close(c.pressure_kpa, 94.19, 0.01);
	bc_strings_release(&assumed);

	sample.barometer_kpa = 93.7;
	c = conditions_of(&sample, &assumed);
	assert_int_equal(c.pressure_source, BC_PRESSURE_BAROMETER);
	assert_close(c.pressure_kpa, 93.7, 0.0);
	bc_strings_release(&assumed);
}

static void test_boiling_water_is_pressure_or_calibration(void **state)
{
	(void)state;
	struct bc_sample sample = sample_by_hand(NULL, 0);
	struct bc_strings assumed;
	sample.water_boils_c = 97.3;
	sample.steam_c = 97.9;

	struct bc_conditions c = conditions_of(&sample, &assumed);
	assert_nan(c.steam_c);
	assert_true(says(&assumed, "'steam' not used"));
	bc_strings_release(&assumed);

	sample.barometer_kpa = 95.0;
	sample.steam_c = NAN;
	c = conditions_of(&sample, &assumed);
	assert_close(c.steam_c, 97.3, 0.0);
	assert_close(bc_site_from_reading(&c, 97.3), 98.178, 5e-4);
	bc_strings_release(&assumed);
}

static void test_wild_check_points_are_left_out(void **state)
{
	(void)state;
	struct bc_sample sample = sample_by_hand(NULL, 0);
	struct bc_strings assumed;
	sample.barometer_kpa = 98.6;
	sample.ice_c = 31.7;
	sample.steam_c = 61.3;

	struct bc_conditions c = conditions_of(&sample, &assumed);
	assert_nan(c.ice_c);
	assert_nan(c.steam_c);
	assert_true(says(&assumed, "ice 31.7"));
	assert_true(says(&assumed, "steam 61.3"));
	bc_strings_release(&assumed);
}

/* Four kinds of thermometer, with ice and steam or without, by the sea and at 80 kPa. */
static void test_back_and_forth(void **state)
{
	(void)state;
	static const enum bc_thermometer kinds[] = {BC_THERMOMETER_NOT_STATED,
		BC_THERMOMETER_GLASS_D86, BC_THERMOMETER_GLASS_PARTIAL, BC_THERMOMETER_GLASS_TOTAL,
		BC_THERMOMETER_PROBE};
	static const double pressures[] = {80.0, 101.3};
	for (int variant = 0; variant < 5 * 2 * 2 * 2 * 2; variant++) {
		struct bc_sample sample = sample_by_hand(NULL, 0);
		struct bc_strings assumed;
		sample.thermometer = kinds[variant % 5];
		sample.barometer_kpa = pressures[variant / 5 % 2];
		if (variant / 10 % 2)
			sample.ice_c = 0.7;
		if (variant / 20 % 2)
			sample.steam_c = 0.06 * sample.barometer_kpa + 91.1;
		if (variant / 40 % 2)
			sample.immersion_c = 63.0;
		struct bc_conditions c = conditions_of(&sample, &assumed);
		for (double reading = 20.0; reading <= 400.0; reading += 9.7) {
			double corrected = bc_corrected_from_reading(&c, reading);
			assert_close(bc_reading_from_corrected(&c, corrected), reading, 1e-6);
			assert_close(bc_corrected_from_true(bc_true_from_reading(&c, reading)),
				corrected, 1e-9);
		}
		bc_strings_release(&assumed);
	}
}

static void test_shift_table_replaces_the_formula(void **state)
{
	(void)state;
	struct bc_sample sample = sample_by_hand(NULL, 0);
	struct bc_strings assumed;
	sample.barometer_kpa = 79.5;
	sample.thermometer = BC_THERMOMETER_PROBE;
	struct bc_conditions c = conditions_of(&sample, &assumed);
	/* toluene and decane at 79.5 kPa, from Antoine constants */
	c.shift.n = 2;
	c.shift.site_c[0] = 102.31;
	c.shift.normal_c[0] = 110.63;
	c.shift.site_c[1] = 164.83;
	c.shift.normal_c[1] = 174.12;
	assert_close(bc_true_from_reading(&c, 102.31), 110.63, 1e-9);
	assert_close(bc_true_from_reading(&c, 133.57), 142.375, 1e-9);
	assert_close(bc_true_from_reading(&c, 71.3), 79.62, 1e-9);
	assert_close(bc_true_from_reading(&c, 311.3), 320.59, 1e-9);
	for (double reading = 20.0; reading <= 400.0; reading += 7.3)
		assert_close(bc_reading_from_corrected(&c, bc_corrected_from_reading(&c, reading)),
			reading, 1e-6);
	bc_strings_release(&assumed);
}

static void test_what_each_thermometer_reads(void **state)
{
	(void)state;
	struct bc_sample sample = sample_by_hand(NULL, 0);
	struct bc_strings assumed;
	sample.barometer_kpa = 101.3;
	sample.thermometer = BC_THERMOMETER_PROBE;
	struct bc_conditions c = conditions_of(&sample, &assumed);
	assert_close(bc_corrected_from_reading(&c, 375.7), 360.0, 0.05);
	bc_strings_release(&assumed);

	sample.thermometer = BC_THERMOMETER_GLASS_D86;
	c = conditions_of(&sample, &assumed);
	assert_close(bc_corrected_from_reading(&c, 360.0), 360.0, 1e-9);
	assert_close(bc_true_from_reading(&c, 360.0), 375.7, 0.05);
	bc_strings_release(&assumed);

	sample.apparatus = BC_APPARATUS_TBP;
	c = conditions_of(&sample, &assumed);
	assert_close(bc_corrected_from_reading(&c, 375.7), 360.0, 0.05);
	assert_close(bc_corrected_low_extra_c(&c, 360.0), 0.0, 0.0);
	bc_strings_release(&assumed);

	sample.apparatus = BC_APPARATUS_FLASK;
	sample.thermometer = BC_THERMOMETER_GLASS_TOTAL;
	sample.immersion_c = 10.0;
	c = conditions_of(&sample, &assumed);
	assert_close(bc_true_from_reading(&c, 210.0), 215.44, 1e-9);
	bc_strings_release(&assumed);
}

static void test_half_widths(void **state)
{
	(void)state;
	struct bc_sample sample = sample_by_hand(NULL, 0);
	struct bc_strings assumed;
	sample.thermometer = BC_THERMOMETER_PROBE;
	sample.barometer_kpa = 98.6;
	struct bc_conditions c = conditions_of(&sample, &assumed);
	assert_close(bc_corrected_half_width_c(&c, 227.0), hypot(2.0, 0.135), 1e-9);
	bc_strings_release(&assumed);

	sample.ice_c = 0.3;
	sample.steam_c = 99.1;
	c = conditions_of(&sample, &assumed);
	assert_close(bc_corrected_half_width_c(&c, 327.0),
		sqrt(1.0 + 1.635 * 1.635 + 0.162 * 0.162), 1e-9);
	bc_strings_release(&assumed);

	assert_close(bc_corrected_high_extra_c(&c, 327.0), 0.0, 0.0);
	sample.reading_error_c = 0.7;
	sample.barometer_kpa = NAN;
	c = conditions_of(&sample, &assumed);
	assert_close(bc_corrected_half_width_c(&c, 227.0), hypot(0.7, 0.9), 1e-9);
	/* nobody gave the pressure: 2 kPa up, 12 kPa down */
	assert_close(bc_corrected_high_extra_c(&c, 227.0), hypot(0.7, 5.4) - hypot(0.7, 0.9), 1e-9);
	bc_strings_release(&assumed);
}

/* An altitude that tells another pressure than the barometer, and boiling water another than both.
 */
static void test_pressures_that_disagree(void **state)
{
	(void)state;
	struct bc_sample sample = sample_by_hand(NULL, 0);
	struct bc_strings assumed;
	sample.barometer_kpa = 101.7;
	sample.altitude_m = 612.0;
	struct bc_conditions c = conditions_of(&sample, &assumed);
	assert_close(c.pressure_kpa, 101.7, 0.0);
	assert_close(c.altitude_kpa, 94.19, 0.01);
	assert_close(c.pressure_half_width_kpa, 101.7 - c.altitude_kpa, 1e-9);
	assert_true(says(&assumed, "altitude 612 m not used"));
	bc_strings_release(&assumed);

	sample.barometer_kpa = 95.3;
	sample.water_boils_c = 93.9; /* 98.3 is right */
	c = conditions_of(&sample, &assumed);
	assert_close(c.pressure_half_width_kpa, 0.3, 0.0);
	assert_true(c.water_unlike_known);
	assert_nan(c.steam_c);
	assert_true(says(&assumed, "water boils 93.9 C does not go with"));
	bc_strings_release(&assumed);

	sample.water_boils_c = 97.9;
	sample.steam_c = 97.7;
	c = conditions_of(&sample, &assumed);
	assert_false(c.water_unlike_known);
	assert_close(c.steam_c, 97.7, 0.0);
	assert_true(says(&assumed, "water boils 97.9 C not used"));
	bc_strings_release(&assumed);
}

/* The steam point was read with the stem out: there the stem must not count twice. */
static void test_steam_point_holds_the_stem(void **state)
{
	(void)state;
	struct bc_sample sample = sample_by_hand(NULL, 0);
	struct bc_strings assumed;
	sample.barometer_kpa = 98.6;
	sample.thermometer = BC_THERMOMETER_GLASS_TOTAL;
	sample.immersion_c = 17.0;
	sample.ice_c = 0.3;
	sample.steam_c = 98.4;
	struct bc_conditions c = conditions_of(&sample, &assumed);
	assert_close(bc_site_from_reading(&c, 98.4), c.steam_true_c, 1e-9);
	assert_close(bc_site_from_reading(&c, 0.3), 0.0, 1e-9);
	assert_true(bc_site_from_reading(&c, 301.7) > 301.7 + 8.0);
	bc_strings_release(&assumed);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(test_pressure_sources_in_order),
		cmocka_unit_test(test_boiling_water_is_pressure_or_calibration),
		cmocka_unit_test(test_wild_check_points_are_left_out),
		cmocka_unit_test(test_back_and_forth),
		cmocka_unit_test(test_shift_table_replaces_the_formula),
		cmocka_unit_test(test_what_each_thermometer_reads),
		cmocka_unit_test(test_half_widths),
		cmocka_unit_test(test_pressures_that_disagree),
		cmocka_unit_test(test_steam_point_holds_the_stem),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
