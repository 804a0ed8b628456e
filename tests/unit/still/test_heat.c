/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heat of liquids, of boiling and of a whole run against handbook figures and a trial. */
#include "base/units.h"
#include "fuel/component.h"
#include "still/heat.h"
#include "unit/unit.h"

/* Watson & Nelson worked by hand for SG 0.83, K 11.8: 1.96, 2.49, 3.12 kJ/(kg K). */
static void liquid_heat_rises_with_temperature(void **state)
{
	static const double temp_c[] = {25.0, 150.0, 300.0};
	static const double heat[] = {1.96, 2.49, 3.12};
	double got;
	(void)state;
	for (size_t i = 0; i < 3; i++) {
		assert_int_equal(bc_liquid_heat_kjkgk(temp_c[i], 0.83, 11.8, &got), BC_OK);
		assert_close(got, heat[i], 0.03);
	}
	assert_int_equal(bc_liquid_heat_kjkgk(25.0, 1.13, 11.8, &got), BC_OUTSIDE_RANGE);
	assert_true(isfinite(got));
	assert_int_equal(bc_liquid_heat_kjkgk(25.0, -0.83, 11.8, &got), BC_BAD_DOMAIN);
	assert_nan(got);
	assert_int_equal(bc_liquid_heat_kjkgk(NAN, 0.83, 11.8, &got), BC_BAD_DOMAIN);
}

/* Handbook heats of vaporisation at the boiling point, within 5 %. */
static void latent_heats_are_the_handbooks(void **state)
{
	static const struct {
		double boiling_k, sg, kjmol;
	} rows[] = {{353.24, 0.884, 30.7}, {383.79, 0.872, 33.2}, {371.57, 0.688, 31.8},
		{447.30, 0.734, 38.8}, {560.0, 0.778, 51.8}};
	(void)state;
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		double critical_k, critical_bar, got;
		bc_critical_temp_kesler_lee_k(rows[i].boiling_k, rows[i].sg, &critical_k);
		bc_critical_pressure_kesler_lee_bar(rows[i].boiling_k, rows[i].sg, &critical_bar);
		assert_int_equal(bc_latent_heat_riedel_kjmol(
					 rows[i].boiling_k, critical_k, critical_bar, &got),
			BC_OK);
		assert_close(got / rows[i].kjmol, 1.0, 0.055);
	}
	double got;
	assert_int_equal(bc_latent_heat_riedel_kjmol(560.0, 590.0, 21.3, &got), BC_BAD_DOMAIN);
	assert_nan(got);
	assert_int_equal(bc_latent_heat_riedel_kjmol(380.0, 590.0, 1.9, &got), BC_BAD_DOMAIN);
}

/* Handbook heats of vaporisation at 25 degC: octane 41.51, hexane 31.56 kJ/mol (from
 * memory). */
static void latent_heats_grow_in_the_cold(void **state)
{
	static const struct {
		double kjmol, boiling_k, critical_k, cold_kjmol;
	} rows[] = {{34.41, 398.82, 568.7, 41.51}, {28.85, 341.88, 507.6, 31.56}};
	double got;
	(void)state;
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		assert_int_equal(bc_latent_heat_watson_kjmol(rows[i].kjmol, rows[i].boiling_k,
					 298.15, rows[i].critical_k, &got),
			BC_OK);
		assert_close(got / rows[i].cold_kjmol, 1.0, 0.012);
	}
	assert_int_equal(
		bc_latent_heat_watson_kjmol(31.7, 371.0, 541.0, 540.0, &got), BC_BAD_DOMAIN);
	assert_nan(got);
	assert_int_equal(bc_latent_heat_watson_kjmol(31.7, NAN, 341.0, 540.0, &got), BC_BAD_DOMAIN);
}

static void a_still_of_one_number_has_a_reflux(void **state)
{
	/* stages and reflux of simulated columns, and what they are worth */
	static const double known[][2] = {{0.25, 1.44}, {0.5, 1.6}, {1.0, 1.76}, {2.0, 1.9},
		{2.0, 2.5}, {5.0, 4.05}, {5.0, 5.3}};
	(void)state;
	assert_close(bc_reflux_of_plates(2.3), 1.3, 1e-12);
	assert_close(bc_reflux_of_plates(0.83), 0.0, 1e-12);
	for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
		assert_close(log(bc_reflux_of_plates(known[i][1]) / known[i][0]), 0.0, log(2.3));
}

static void wide_oil(struct bc_slices *slices)
{
	static const double d86_c[] = {80, 125, 190, 250, 305, 350, 368};
	double tbp_c[BC_TBP_POINTS];
	struct bc_tbp_curve curve;
	assert_false(bc_failed(bc_tbp_points_from_d86(d86_c, tbp_c)));
	assert_false(bc_failed(
		bc_tbp_curve_from_points(bc_tbp_point_pct, tbp_c, BC_TBP_POINTS, true, &curve)));
	assert_false(bc_failed(bc_slices_from_tbp(&curve, 0.814, 40, 0.0, 95.0, slices)));
}

/* 1 L of a wide oil, 74 % off: a trial had 0.19, 0.29 and 0.34 kWh. */
static void a_run_takes_the_heat_of_the_trial(void **state)
{
	static const struct {
		double stages, reflux, kwh;
	} rows[] = {{1, 0, 0.19}, {3, 2, 0.29}, {5, 3, 0.34}};
	struct bc_run *run = bc_run_new();
	struct bc_still_work *work = bc_still_work_new();
	struct bc_slices slices;
	struct bc_run_options options = {0.98, INFINITY, BC_STEPS_NORMAL, 0.0};
	(void)state;
	wide_oil(&slices);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct bc_column column = {rows[i].stages, rows[i].reflux, NAN, 101.325};
		struct bc_run_heat heat;
		assert_false(bc_failed(bc_column_run(&slices, &column, &options, work, run)));
		assert_int_equal(bc_run_heat_mj(run, 0.74, 1000.0, 20.0, &heat), BC_OK);
		assert_close(
			(heat.warm_up_mj + heat.residue_mj + heat.latent_mj + heat.reflux_mj) / 3.6,
			rows[i].kwh, 0.015);
		assert_close(heat.reflux_mj, rows[i].reflux * heat.latent_mj, 1e-12);
	}
	struct bc_column known = {NAN, NAN, 1.75, 101.325};
	struct bc_run_heat heat;
	assert_false(bc_failed(bc_column_run(&slices, &known, &options, work, run)));
	assert_int_equal(bc_run_heat_mj(run, 0.74, 1000.0, 20.0, &heat), BC_OK);
	assert_close(heat.reflux_mj, 0.75 * heat.latent_mj, 1e-12);
	double normal_mj = heat.latent_mj;
	/* it boils 70 to 90 degC lower: some 15 % more */
	known.pressure_kpa = 8.7;
	assert_false(bc_failed(bc_column_run(&slices, &known, &options, work, run)));
	assert_int_equal(bc_run_heat_mj(run, 0.74, 1000.0, 20.0, &heat), BC_OK);
	assert_close(heat.latent_mj / normal_mj, 1.15, 0.02);
	assert_int_equal(bc_run_heat_mj(run, 0.99, 1000.0, 20.0, &heat), BC_BAD_DOMAIN);
	assert_nan(heat.latent_mj);
	bc_still_work_free(work);
	bc_run_free(run);
}

static void room_and_water_are_the_card(void **state)
{
	(void)state;
	assert_close(bc_cooling_water_l_min(2000.0, 10.0), 2.87, 0.02);
	assert_close(bc_vapour_fills_s(2000.0, 30.0, 1.0) / 60.0, 3.26, 0.01);
	assert_close(bc_vapour_fills_s(2000.0, 30.0, 0.25), 48.9, 0.1);
	assert_nan(bc_vapour_fills_s(2000.0, NAN, 0.25));
	assert_nan(bc_cooling_water_l_min(-3.0, 10.0));
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(liquid_heat_rises_with_temperature),
		cmocka_unit_test(latent_heats_are_the_handbooks),
		cmocka_unit_test(latent_heats_grow_in_the_cold),
		cmocka_unit_test(a_still_of_one_number_has_a_reflux),
		cmocka_unit_test(a_run_takes_the_heat_of_the_trial),
		cmocka_unit_test(room_and_water_are_the_card),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
