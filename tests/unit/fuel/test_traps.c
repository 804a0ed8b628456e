/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Misprints and wrong scales, written out beside the right form: how far off they are is known, and
 * the functions must not come near them (single values: tests/outside/traps.failing). */
#include "base/units.h"
#include "fuel/component.h"
#include "fuel/d2887.h"
#include "fuel/flash.h"
#include "fuel/flash_forms.h"
#include "fuel/flow_forms.h"
#include "fuel/ignition_forms.h"
#include "fuel/known_mixture.h"
#include "fuel/vacuum.h"
#include "fuel/volume_correction.h"
#include "unit/unit.h"

/* Mixture of an engineering handbook page; the page takes the root on degC. */
static void the_cube_root_depends_on_its_zero(void **state)
{
	(void)state;
	const double share[] = {0.1, 0.2, 0.3, 0.2, 0.2};
	const double boiling_c[] = {28, 63, 99, 139, 225};
	double on_f = NAN, on_r = NAN, on_c = 0.0;
	for (size_t i = 0; i < 5; i++)
		on_c += share[i] * cbrt(boiling_c[i]);
	on_c = on_c * on_c * on_c;
	assert_int_equal(bc_known_cubic_c(share, boiling_c, 5, &on_f), BC_OK);
	assert_int_equal(bc_known_cubic_rankine_c(share, boiling_c, 5, &on_r), BC_OK);
	assert_close(on_c, 106.5, 0.05);
	assert_close(on_f - on_c, 1.85, 0.05);
	assert_close(on_r - on_c, 8.2, 0.05);
}

/* One public copy drops the square on the term with 0.6119. */
static void d341_keeps_its_square(void **state)
{
	(void)state;
	double z = NAN, visc = NAN;
	assert_int_equal(bc_d341_z(0.53, &z), BC_OK);
	assert_int_equal(bc_d341_visc_from_z(z, &visc), BC_OK);
	assert_close(visc, 0.53, 0.001);
	double y = z - 0.7;
	double wrong = y - exp(-0.7487 - 3.295 * y + 0.6119 * y - 0.3193 * y * y * y);
	assert_true(fabs(wrong - 0.53) > 0.01);
}

/* The kelvin coefficient is that of degR times 1.8^(b - 1); mixed they miss by tens of degC. */
static void molar_mass_is_the_same_on_both_scales(void **state)
{
	(void)state;
	double mass = NAN;
	double r = 1.8 * 447.30;
	assert_int_equal(bc_molar_mass_api_gmol(447.30, 0.7342, &mass), BC_OK);
	double on_r = 20.486 * exp(1.165e-4 * r - 7.78712 * 0.7342 + 1.1582e-3 * r * 0.7342) *
		      pow(r, 1.26007) * pow(0.7342, 4.98308);
	assert_close(mass, on_r, 0.01);
	double mixed = 20.486 *
		       exp(1.165e-4 * 447.3 - 7.78712 * 0.7342 + 1.1582e-3 * 447.3 * 0.7342) *
		       pow(447.3, 1.26007) * pow(0.7342, 4.98308);
	assert_true(fabs(mixed - mass) > 50.0);
}

/* Two forms on one page of a handbook: 6 degC apart at 150 to 200 degC, 10 at 100 degC. */
static void the_two_flash_forms_are_not_one(void **state)
{
	(void)state;
	const struct {
		double t10_c, apart;
	} at[] = {{100.0, 9.95}, {150.0, 6.1}, {200.0, 6.6}};
	for (size_t i = 0; i < 3; i++) {
		double curved = NAN, straight = NAN;
		assert_int_equal(bc_flash_from_t10_api(at[i].t10_c, &curved), BC_OK);
		assert_int_equal(bc_flash_linear_c(at[i].t10_c, &straight), BC_OK);
		assert_close(straight - curved, at[i].apart, 0.05);
	}
}

/* degC factors are 1.8^(b - 1) times those for degF; 0.1403 above 90 % is not. */
static void differences_on_both_scales(void **state)
{
	(void)state;
	const double sd_c[BC_D2887_TBP_POINTS] = {
		21.3, 33.9, 64.4, 101.7, 140.6, 182.2, 197.7, 215.5};
	double tbp_c[BC_D2887_TBP_POINTS];
	assert_int_equal(bc_tbp_from_d2887_c(sd_c, tbp_c), BC_OK);
	assert_close(tbp_c[2], 101.7 - 0.08055 * pow(101.7 - 64.4, 1.6988), 0.02);
	assert_close(tbp_c[4], 101.7 + 0.25088 * pow(140.6 - 101.7, 1.3975), 0.02);
	assert_close(tbp_c[7] - tbp_c[6], 0.03849 * pow(215.5 - 197.7, 1.9733), 0.02);
	assert_close(0.11798 * pow(1.8, 0.6606), 0.17396, 1e-4);
	assert_true(fabs(0.11798 * pow(1.8, 0.6606) - 0.1403) > 0.03);
}

static void driveability_is_not_scaled(void **state)
{
	(void)state;
	double on_c = NAN, on_f = NAN;
	assert_int_equal(bc_driveability_index_ethanol(55, 100, 170, 0, &on_c), BC_OK);
	assert_int_equal(bc_driveability_index_f(131, 212, 338, 0, &on_f), BC_OK);
	assert_close(on_f, 1.8 * on_c + 5.5 * 32.0, 1e-9);
}

/* The class limits must lie where the expansions meet: at 778 kg/m3 they would be 8 % apart. */
static void expansion_does_not_jump(void **state)
{
	(void)state;
	const double limits[] = {770.5, 787.5, 838.5};
	for (size_t i = 0; i < 3; i++) {
		double below = NAN, above = NAN;
		bc_volume_correction_15c(BC_PRODUCT_BY_DENSITY, limits[i] - 1e-6, 35, &below);
		bc_volume_correction_15c(BC_PRODUCT_BY_DENSITY, limits[i] + 1e-6, 35, &above);
		assert_close(below, above, 5e-5);
	}
	double transition = 2680.3206 / (778.0 * 778.0) - 0.00336312;
	double jet = 594.5418 / (778.0 * 778.0);
	assert_true(transition / jet > 1.08);
}

/* The constants of the three branches do not close: 0.12 degC at 2 mmHg and 0.40 at 760 (computed
 * from them); a wrong branch would be tens of degC off. */
static void branches_of_vacuum_nearly_meet(void **state)
{
	(void)state;
	double below = NAN, above = NAN;
	assert_int_equal(bc_aet_c(150, 2.0 - 1e-9, &below), BC_OK);
	assert_int_equal(bc_aet_c(150, 2.0, &above), BC_OK);
	assert_close(above - below, 0.124, 0.001);
	assert_int_equal(bc_aet_c(150, 760.0, &below), BC_OK);
	assert_int_equal(bc_aet_c(150, 760.0 + 1e-6, &above), BC_OK);
	assert_close(below - above, 0.398, 0.001);
}

/* The pressure of either branch at the Q that parts them, boiling point 500 K. */
static void branches_of_vapour_pressure_nearly_meet(void **state)
{
	(void)state;
	const double boiling_k = 500.0;
	const double q[] = {0.0022, 0.0013};
	const double apart[] = {0.0042, 0.0093};
	for (size_t i = 0; i < 2; i++) {
		double below = NAN, above = NAN;
		double inverse = q[i] * (748.1 - 0.3861 * boiling_k) / boiling_k + 5.1606e-4;
		double temp_k = 1.0 / inverse;
		assert_int_equal(bc_maxwell_bonnell_mmhg(temp_k - 1e-6, boiling_k, &below), BC_OK);
		assert_int_equal(bc_maxwell_bonnell_mmhg(temp_k + 1e-6, boiling_k, &above), BC_OK);
		assert_close(below / above - 1.0, apart[i], 0.0002);
	}
}

/* What stands at either end may be missing; a curve that falls is refused. */
static void simulated_distillation_without_ends(void **state)
{
	(void)state;
	double sd_c[BC_D2887_D86_POINTS] = {NAN, 33.9, 64.4, 101.7, 140.6, 182.2, NAN};
	double d86_c[BC_D2887_D86_POINTS];
	assert_int_equal(bc_d86_from_d2887_c(sd_c, d86_c), BC_OK);
	assert_nan(d86_c[0]);
	assert_nan(d86_c[6]);
	assert_close(d86_c[1], 53.45, 0.01);
	sd_c[4] = 101.0;
	assert_int_equal(bc_d86_from_d2887_c(sd_c, d86_c), BC_BAD_DOMAIN);
	assert_nan(d86_c[3]);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_cube_root_depends_on_its_zero),
		cmocka_unit_test(d341_keeps_its_square),
		cmocka_unit_test(molar_mass_is_the_same_on_both_scales),
		cmocka_unit_test(the_two_flash_forms_are_not_one),
		cmocka_unit_test(differences_on_both_scales),
		cmocka_unit_test(driveability_is_not_scaled),
		cmocka_unit_test(expansion_does_not_jump),
		cmocka_unit_test(branches_of_vacuum_nearly_meet),
		cmocka_unit_test(branches_of_vapour_pressure_nearly_meet),
		cmocka_unit_test(simulated_distillation_without_ends),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
