/* SPDX-License-Identifier: GPL-3.0-or-later */
/* D86 to true boiling points, and the curve with its front end placed by rule. */
#include "base/stats.h"
#include "fuel/tbp.h"
#include "unit/unit.h"

static const double kerosene_d86[BC_TBP_POINTS] = {165.6, 176.7, 193.3, 206.7, 222.8, 242.8, 251.3};

static void there_and_back(void **state)
{
	(void)state;
	double tbp[BC_TBP_POINTS], back[BC_TBP_POINTS];
	assert_int_equal(bc_tbp_points_from_d86(kerosene_d86, tbp), BC_OK);
	assert_int_equal(bc_d86_points_from_tbp(tbp, back), BC_OK);
	for (size_t i = 0; i < BC_TBP_POINTS; i++)
		assert_close(back[i], kerosene_d86[i], 1e-9);
}

/* Fed with kelvin, the coefficient printed for degR (0.5277) would give 139 degC at 10 %. */
static void kelvin_coefficients_are_used(void **state)
{
	(void)state;
	double tbp;
	assert_int_equal(bc_tbp_from_d86_c(10.0, 176.7, &tbp), BC_OK);
	assert_close(tbp, 160.6, 0.05);
}

static void a_falling_point_is_pooled(void **state)
{
	(void)state;
	/* narrow: 95 % converts below 90 %, 217.0 against 218.1 */
	const double narrow[BC_TBP_POINTS] = {203.1, 203.4, 204.0, 204.2, 205.1, 207.4, 208.2};
	double tbp[BC_TBP_POINTS];
	assert_int_equal(bc_tbp_points_from_d86(narrow, tbp), BC_REPAIRED);
	for (size_t i = 1; i < BC_TBP_POINTS; i++)
		assert_true(tbp[i] > tbp[i - 1]);
	assert_close(tbp[6] - tbp[5], 0.01, 1e-9);
	assert_close(tbp[5], 217.6, 0.1);
}

static void unread_and_out_of_range(void **state)
{
	(void)state;
	double d86[BC_TBP_POINTS] = {NAN, 176.7, 193.3, 206.7, 222.8, 352.6, 361.1};
	double tbp[BC_TBP_POINTS];
	assert_int_equal(bc_tbp_points_from_d86(d86, tbp), BC_OUTSIDE_RANGE);
	assert_nan(tbp[0]);
	assert_true(isfinite(tbp[6]));
	double out = 0.0;
	assert_int_equal(bc_tbp_from_d86_c(20.0, 150.0, &out), BC_BAD_DOMAIN);
	assert_nan(out);
}

static void curve_of(const double *tbp, bool true_boiling, struct bc_tbp_curve *curve)
{
	bc_tbp_curve_from_points(bc_tbp_point_pct, tbp, BC_TBP_POINTS, true_boiling, curve);
}

static void an_ibp_stands_at_its_place(void **state)
{
	(void)state;
	double tbp[BC_TBP_POINTS];
	struct bc_tbp_curve curve;
	bc_tbp_points_from_d86(kerosene_d86, tbp);
	curve_of(tbp, false, &curve);
	assert_true(curve.has_ibp);
	assert_close(bc_tbp_curve_temp_c(&curve, 2.3), tbp[0], 1e-9);
	assert_close(bc_tbp_curve_temp_c(&curve, 10.0), tbp[1], 1e-9);
	assert_close(bc_tbp_curve_temp_c(&curve, 95.0), tbp[6], 1e-9);
	curve_of(tbp, true, &curve);
	assert_close(bc_tbp_curve_temp_c(&curve, 0.5), tbp[0], 1e-9);
}

static double slope_between(const struct bc_tbp_curve *curve, double low_pct, double high_pct)
{
	return (bc_tbp_curve_temp_c(curve, high_pct) - bc_tbp_curve_temp_c(curve, low_pct)) /
	       (bc_probit_from_pct(high_pct) - bc_probit_from_pct(low_pct));
}

static void the_front_slope_is_limited(void **state)
{
	(void)state;
	const double steep[BC_TBP_POINTS] = {41.3, 148.7, 212.9, 266.4, 301.1, 344.8, 357.2};
	struct bc_tbp_curve curve;
	curve_of(steep, false, &curve);
	assert_close(slope_between(&curve, 0.3, 1.7), 45.0, 1e-6);
	const double gentle[BC_TBP_POINTS] = {161.3, 168.7, 182.9, 196.4, 211.1, 234.8, 243.2};
	curve_of(gentle, false, &curve);
	assert_true(slope_between(&curve, 0.3, 1.7) < 45.0);
	assert_close(slope_between(&curve, 0.3, 1.7), curve.slope[0], 1e-6);
}

static void without_ibp_the_local_slope_is_limited_likewise(void **state)
{
	(void)state;
	const double tbp[BC_TBP_POINTS] = {NAN, 148.7, 232.9, 276.4, 301.1, 344.8, 357.2};
	struct bc_tbp_curve curve;
	curve_of(tbp, false, &curve);
	assert_false(curve.has_ibp);
	assert_close(slope_between(&curve, 0.3, 7.1), 45.0, 1e-6);
	assert_close(bc_tbp_curve_temp_c(&curve, 10.0), 148.7, 1e-9);
}

static void the_back_goes_on_with_a_share_of_the_slope(void **state)
{
	(void)state;
	double tbp[BC_TBP_POINTS];
	struct bc_tbp_curve curve;
	bc_tbp_points_from_d86(kerosene_d86, tbp);
	curve_of(tbp, false, &curve);
	assert_close(slope_between(&curve, 96.0, 99.3), 0.7 * curve.slope[6], 1e-6);
}

static void a_curve_rises_and_reads_both_ways(void **state)
{
	(void)state;
	const double shelf[BC_TBP_POINTS] = {91.3, 167.7, 168.9, 169.4, 301.1, 302.8, 357.2};
	struct bc_tbp_curve curve;
	curve_of(shelf, false, &curve);
	double before = -INFINITY;
	for (double pct = 0.05; pct < 100.0; pct += 0.37) {
		double temp = bc_tbp_curve_temp_c(&curve, pct);
		assert_true(temp > before);
		assert_close(bc_tbp_curve_pct(&curve, temp), pct, 1e-5);
		before = temp;
	}
	assert_nan(bc_tbp_curve_temp_c(&curve, 0.0));
	assert_nan(bc_tbp_curve_temp_c(&curve, 100.0));
}

static void too_little_for_a_curve(void **state)
{
	(void)state;
	const double one[BC_TBP_POINTS] = {NAN, NAN, NAN, 231.7, NAN, NAN, NAN};
	const double falling_pct[2] = {50.0, 30.0};
	const double temp[2] = {231.7, 243.1};
	struct bc_tbp_curve curve;
	assert_int_equal(
		bc_tbp_curve_from_points(bc_tbp_point_pct, one, BC_TBP_POINTS, false, &curve),
		BC_TOO_FEW);
	assert_int_equal(curve.n, 0);
	assert_int_equal(
		bc_tbp_curve_from_points(falling_pct, temp, 2, false, &curve), BC_BAD_DOMAIN);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(there_and_back),
		cmocka_unit_test(kelvin_coefficients_are_used),
		cmocka_unit_test(a_falling_point_is_pooled),
		cmocka_unit_test(unread_and_out_of_range),
		cmocka_unit_test(an_ibp_stands_at_its_place),
		cmocka_unit_test(the_front_slope_is_limited),
		cmocka_unit_test(without_ibp_the_local_slope_is_limited_likewise),
		cmocka_unit_test(the_back_goes_on_with_a_share_of_the_slope),
		cmocka_unit_test(a_curve_rises_and_reads_both_ways),
		cmocka_unit_test(too_little_for_a_curve),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
