/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Slices weigh what the oil weighs, boil where they should, and can be cut. */
#include "fuel/slices.h"
#include "unit/unit.h"

static const double diesel_tbp[BC_TBP_POINTS] = {121.7, 187.3, 241.9, 273.6, 306.2, 349.1, 366.8};

static void make(size_t n, struct bc_slices *slices)
{
	struct bc_tbp_curve curve;
	bc_tbp_curve_from_points(bc_tbp_point_pct, diesel_tbp, BC_TBP_POINTS, false, &curve);
	assert_true(bc_slices_from_tbp(&curve, 0.8137, n, 0.0, 95.0, slices) >= 0);
}

static void shares_and_density_add_up(void **state)
{
	(void)state;
	struct bc_slices slices;
	make(BC_SLICES_DEFAULT, &slices);
	double volume = 0.0, mass = 0.0, moles = 0.0;
	assert_int_equal(slices.n, 40);
	for (size_t i = 0; i < slices.n; i++) {
		volume += slices.items[i].volume_frac;
		mass += slices.items[i].volume_frac * slices.items[i].sg;
		moles += slices.items[i].mole_frac;
		if (i > 0)
			assert_close(slices.items[i].from_frac, slices.items[i - 1].to_frac, 0.0);
	}
	assert_close(volume, 1.0, 1e-12);
	assert_close(moles, 1.0, 1e-12);
	assert_close(mass, 0.8137, 1e-12);
	assert_close(slices.sg, 0.8137, 1e-12);
	assert_close(slices.items[0].to_frac, 0.002, 1e-12);
	assert_close(slices.items[39].from_frac, 0.998, 1e-12);
}

static void every_slice_boils_at_its_own_boiling_point(void **state)
{
	(void)state;
	struct bc_slices slices;
	make(BC_SLICES_DEFAULT, &slices);
	for (size_t i = 0; i < slices.n; i++) {
		const struct bc_slice *slice = &slices.items[i];
		assert_close(bc_slice_vapour_bar(slice, slice->boiling_k), 1.01325, 1e-11);
		assert_true(slice->from_k < slice->boiling_k && slice->boiling_k < slice->to_k);
	}
}

static void what_was_not_read_is_marked(void **state)
{
	(void)state;
	struct bc_slices slices;
	make(BC_SLICES_DEFAULT, &slices);
	for (size_t i = 0; i < slices.n; i++) {
		double middle = 50.0 * (slices.items[i].from_frac + slices.items[i].to_frac);
		assert_int_equal(slices.items[i].extrapolated, middle > 95.0);
	}
}

/* A crude of which a fifth does not boil below 650 degC. */
static void an_unread_heavy_end_is_still_an_oil(void **state)
{
	(void)state;
	static const double pct[] = {5.0, 10.0, 30.0, 50.0, 70.0, 90.0, 95.0};
	static const double temp_c[] = {77.3, 128.7, 279.1, 405.7, 547.3, 741.9, 821.7};
	struct bc_tbp_curve curve;
	struct bc_slices slices;
	assert_int_equal(bc_tbp_curve_from_points(pct, temp_c, 7, true, &curve), BC_OK);
	enum bc_status status = bc_slices_from_tbp(&curve, 0.8721, 40, 5.0, 80.0, &slices);
	assert_int_equal(status, BC_OUTSIDE_RANGE);
	assert_int_equal(slices.n, 40);
	double mass = 0.0;
	for (size_t i = 0; i < slices.n; i++) {
		assert_true(slices.items[i].to_k <= 973.15 + 1e-9);
		assert_true(isfinite(slices.items[i].omega));
		mass += slices.items[i].volume_frac * slices.items[i].sg;
	}
	assert_close(slices.items[39].boiling_k, 973.15, 1e-9);
	assert_close(mass, 0.8721, 1e-12);
}

/* A front so steep that the curve would go on to where nothing is liquid. */
static void nothing_boils_below_propane(void **state)
{
	(void)state;
	static const double pct[] = {1.1, 2.6, 10.0, 50.0, 90.0};
	static const double temp_c[] = {-31.3, 58.9, 137.3, 281.7, 433.9};
	struct bc_tbp_curve curve;
	struct bc_slices slices;
	assert_int_equal(bc_tbp_curve_from_points(pct, temp_c, 5, true, &curve), BC_OK);
	assert_true(bc_tbp_curve_temp_c(&curve, 0.1) < -60.0);
	assert_true(bc_slices_from_tbp(&curve, 0.8321, 40, 1.1, 90.0, &slices) >= 0);
	assert_close(slices.items[0].boiling_k, 231.05, 1e-9);
	assert_true(slices.items[4].boiling_k > 231.05);
}

static void two_cuts_make_the_whole_again(void **state)
{
	(void)state;
	struct bc_slices slices, light, heavy;
	make(BC_SLICES_DEFAULT, &slices);
	assert_true(bc_slices_cut(&slices, 0.0, 0.2337, &light) >= 0);
	assert_true(bc_slices_cut(&slices, 0.2337, 1.0, &heavy) >= 0);
	assert_close(0.2337 * light.sg + 0.7663 * heavy.sg, slices.sg, 2e-5);
	assert_close(light.watson_k, slices.watson_k, 0.0);
	assert_true(light.items[light.n - 1].to_k == heavy.items[0].from_k);
	assert_true(light.molar_mass_gmol < slices.molar_mass_gmol);
	assert_true(heavy.molar_mass_gmol > slices.molar_mass_gmol);
	assert_int_equal(bc_slices_cut(&slices, 0.4, 0.4, &light), BC_BAD_DOMAIN);
	assert_int_equal(light.n, 0);
}

static void a_cut_of_a_cut_is_a_cut(void **state)
{
	(void)state;
	struct bc_slices slices, once, twice, direct;
	make(BC_SLICES_DEFAULT, &slices);
	bc_slices_cut(&slices, 0.1, 0.9, &once);
	bc_slices_cut(&once, 0.5, 1.0, &twice);
	bc_slices_cut(&slices, 0.5, 0.9, &direct);
	assert_int_equal(twice.n, direct.n);
	assert_close(twice.sg, direct.sg, 1e-9);
	assert_close(twice.items[0].from_frac, 0.5, 1e-9);
}

static void temperatures_are_read_back(void **state)
{
	(void)state;
	struct bc_slices slices;
	double d86[BC_TBP_POINTS], expected[BC_TBP_POINTS];
	make(60, &slices);
	assert_close(bc_slices_temp_k(&slices, 0.5) - 273.15, 273.6, 0.3);
	assert_close(bc_slices_temp_k(&slices, 0.1) - 273.15, 187.3, 0.5);
	assert_nan(bc_slices_temp_k(&slices, 1.1));
	bc_slices_d86_c(&slices, d86);
	bc_d86_points_from_tbp(diesel_tbp, expected);
	for (size_t i = 0; i < BC_TBP_POINTS; i++)
		assert_close(d86[i], expected[i], 1.0);
}

static void bad_input_makes_no_slices(void **state)
{
	(void)state;
	struct bc_tbp_curve curve;
	struct bc_slices slices;
	bc_tbp_curve_from_points(bc_tbp_point_pct, diesel_tbp, BC_TBP_POINTS, false, &curve);
	assert_int_equal(bc_slices_from_tbp(&curve, NAN, 40, 0.0, 95.0, &slices), BC_BAD_DOMAIN);
	assert_int_equal(bc_slices_from_tbp(&curve, 0.8, 41, 0.0, 95.0, &slices), BC_BAD_DOMAIN);
	assert_int_equal(slices.n, 0);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(shares_and_density_add_up),
		cmocka_unit_test(every_slice_boils_at_its_own_boiling_point),
		cmocka_unit_test(what_was_not_read_is_marked),
		cmocka_unit_test(an_unread_heavy_end_is_still_an_oil),
		cmocka_unit_test(nothing_boils_below_propane),
		cmocka_unit_test(two_cuts_make_the_whole_again),
		cmocka_unit_test(a_cut_of_a_cut_is_a_cut),
		cmocka_unit_test(temperatures_are_read_back),
		cmocka_unit_test(bad_input_makes_no_slices),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
