/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Density, cetane, averages, viscosity, heat, pressure: identities and known misprints. */
#include "fuel/average.h"
#include "fuel/density.h"
#include "fuel/heat.h"
#include "fuel/ignition.h"
#include "fuel/viscosity.h"
#include "unit/unit.h"

/* Between two classes a hot oil may have no density at 15 degC and a cold one two: the answer then
 * lies at the class limit, or is the other one. It always reproduces what was read. */
static void density_reproduces_what_was_read(void **state)
{
	(void)state;
	for (double d15 = 655.0; d15 < 1000.0; d15 += 3.7)
		for (double t = -12.3; t < 60.0; t += 9.1) {
			double factor, back;
			bc_volume_correction_54b(d15, t, &factor);
			double read = d15 * factor;
			assert_int_equal(bc_density15_from_observed_kgm3(read, t, &back), BC_OK);
			bc_volume_correction_54b(back, t, &factor);
			assert_close(back * factor, read, 1e-5);
			assert_close(back, d15, 2.0);
			if (d15 > 790.0 && d15 < 830.0)
				assert_close(back, d15, 1e-5);
		}
}

/* The class is found again whatever the temperature, across all class limits. */
static void density_goes_there_and_back(void **state)
{
	(void)state;
	static const double temps_c[] = {0.0, 30.0, 45.0};
	for (size_t i = 0; i < 3; i++)
		for (double read = 740.0; read <= 860.0; read += 0.25) {
			double density15 = NAN;
			double factor = NAN;
			bc_density15_from_observed_kgm3(read, temps_c[i], &density15);
			bc_volume_correction_54b(density15, temps_c[i], &factor);
			if (!(fabs(density15 * factor - read) <= 0.02))
				fail_msg("%g at %g degC: %.3f back", read, temps_c[i],
					density15 * factor);
		}
}

/* Neighbouring classes meet: at no limit does the factor of 20 degC jump by 0.04 kg/m3. */
static void density_classes_meet(void **state)
{
	(void)state;
	static const double limits[] = {770.5, 787.5, 838.5};
	for (size_t i = 0; i < 3; i++) {
		double below, above;
		bc_volume_correction_54b(limits[i] - 0.001, 35.0, &below);
		bc_volume_correction_54b(limits[i] + 0.001, 35.0, &above);
		assert_close((above - below) * limits[i], 0.0, 0.04);
	}
}

static void gravity_goes_there_and_back(void **state)
{
	(void)state;
	assert_close(bc_density15_from_sg(bc_sg_from_density15(793.7)), 793.7, 1e-6);
	/* 15 to 15.56 degC takes off about 0.5 kg/m3: SG is not density / 999.012 */
	double crude = 793.7 / 999.012;
	assert_close((crude - bc_sg_from_density15(793.7)) * 999.012, 0.42, 0.06);
	assert_nan(bc_sg_from_density15(NAN));
	assert_nan(bc_api_from_sg(-0.1));
}

static void density_outside_the_tables(void **state)
{
	(void)state;
	double out = 0.0;
	assert_int_equal(bc_density15_from_observed_kgm3(797.3, 171.0, &out), BC_OUTSIDE_RANGE);
	assert_true(isfinite(out));
	assert_int_equal(bc_density15_from_observed_kgm3(0.797, 21.0, &out), BC_BAD_DOMAIN);
	assert_nan(out);
}

/* Printed with +0.420 B in circulation: 50.9 instead of 50.25. Reference fuel: 45.2 exactly. */
static void cetane_has_the_standards_sign(void **state)
{
	(void)state;
	double index;
	assert_int_equal(bc_cetane_index_d4737a(830.0, 200.0, 250.0, 320.0, &index), BC_OK);
	assert_close(index, 50.25, 0.05);
	bc_cetane_index_d4737a(850.0, 215.0, 260.0, 310.0, &index);
	assert_close(index, 45.2, 1e-9);
	assert_int_equal(
		bc_cetane_index_d4737a(798.3, 200.0, 250.0, 320.0, &index), BC_OUTSIDE_RANGE);
	assert_int_equal(
		bc_cetane_index_d4737a(830.0, 200.0, 250.0, 364.1, &index), BC_OUTSIDE_RANGE);
}

/* 97.803; a handbook's 97.083 gives 44.8. */
static void cetane_d976_has_the_standards_constant(void **state)
{
	(void)state;
	double index;
	assert_int_equal(bc_cetane_index_d976(840.0, 260.0, &index), BC_OK);
	assert_close(index, 48.964, 0.001);
}

/* The kelvin set of the same source. */
static void averages_agree_with_their_kelvin_set(void **state)
{
	(void)state;
	const double d86[5] = {77.8, 107.8, 126.7, 155.0, 184.4};
	struct bc_average_boiling average;
	assert_int_equal(bc_average_boiling_from_d86(d86, &average), BC_OK);
	double x = average.volume_c, sl = average.slope_c_per_pct;
	assert_close(average.mean_c,
		x - exp(-1.53181 - 0.0128 * pow(x, 0.6667) + 3.646064 * pow(sl, 0.333)), 0.005);
	assert_close(average.molar_c,
		x - exp(-1.15158 - 0.01181 * pow(x, 0.6667) + 3.70612 * pow(sl, 0.333)), 0.005);
	const double flat[5] = {150.0, 150.0, 150.0, 150.0, 150.0};
	assert_int_equal(bc_average_boiling_from_d86(flat, &average), BC_BAD_DOMAIN);
	assert_nan(average.mean_c);
}

static void viscosity_passes_through_its_points(void **state)
{
	(void)state;
	double visc;
	assert_int_equal(bc_visc_d341_mm2s(40.0, 2.71, 100.0, 1.09, 40.0, &visc), BC_OK);
	assert_close(visc, 2.71, 0.005);
	bc_visc_d341_mm2s(40.0, 1.31, 100.0, 0.63, 100.0, &visc);
	assert_close(visc, 0.63, 0.005);
	assert_int_equal(bc_visc_d341_mm2s(40.0, 0.1, 100.0, 0.05, 20.0, &visc), BC_BAD_DOMAIN);
	assert_nan(visc);
}

static void one_slice_has_the_viscosity_of_its_formula(void **state)
{
	(void)state;
	struct bc_slices slices = {.n = 1, .watson_k = 12.0};
	slices.items[0].sg = 141.5 / (131.5 + 35.0);
	slices.items[0].mole_frac = 1.0;
	slices.items[0].volume_frac = 1.0;
	double visc;
	double outside;
	assert_int_equal(bc_visc_of_slices_mm2s(&slices, 37.8, &visc, &outside), BC_OK);
	assert_close(visc, 5.405, 0.01);
	assert_close(outside, 0.0, 0.0);
}

/* Too light for Abbott, whose branches cross there: it still thins when it warms, as n-heptane does
 * (0.61 mm2/s at 20 degC, 0.51 at 40: 1.2). */
static void a_light_slice_thins_when_it_warms(void **state)
{
	(void)state;
	struct bc_slices slices = {.n = 1, .watson_k = 12.6};
	slices.items[0] = (struct bc_slice){.sg = 0.667, .mole_frac = 1.0, .volume_frac = 1.0};
	double cool, warm, outside;
	assert_int_equal(bc_visc_of_slices_mm2s(&slices, 20.0, &cool, &outside), BC_OUTSIDE_RANGE);
	assert_close(outside, 1.0, 0.0);
	bc_visc_of_slices_mm2s(&slices, 40.0, &warm, &outside);
	assert_close(cool / warm, 1.2, 0.05);
}

static void heat_has_a_range(void **state)
{
	(void)state;
	double heat;
	assert_int_equal(bc_net_heat_d4868_mjkg(800.0, &heat), BC_OK);
	assert_close(heat, 43.332, 0.001);
	assert_int_equal(bc_net_heat_d4868_mjkg(741.9, &heat), BC_OUTSIDE_RANGE);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(density_reproduces_what_was_read),
		cmocka_unit_test(density_goes_there_and_back),
		cmocka_unit_test(density_classes_meet),
		cmocka_unit_test(gravity_goes_there_and_back),
		cmocka_unit_test(density_outside_the_tables),
		cmocka_unit_test(cetane_has_the_standards_sign),
		cmocka_unit_test(cetane_d976_has_the_standards_constant),
		cmocka_unit_test(averages_agree_with_their_kelvin_set),
		cmocka_unit_test(viscosity_passes_through_its_points),
		cmocka_unit_test(one_slice_has_the_viscosity_of_its_formula),
		cmocka_unit_test(a_light_slice_thins_when_it_warms),
		cmocka_unit_test(heat_has_a_range),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
