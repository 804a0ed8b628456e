/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Boiling temperatures at the site: slices low down, the formula high up, and no step between. */
#include "curve/correction.h"
#include "fuel/pressure_shift.h"
#include "unit/unit.h"

static double fall_c(double pressure_kpa, double normal_c)
{
	struct bc_pressure_shift shift;
	assert_int_equal(bc_pressure_shift_fill(pressure_kpa, &shift), BC_OK);
	if (shift.n == 0) {
		double site_c;
		bc_sydney_young_observed_c(normal_c, pressure_kpa, &site_c);
		return normal_c - site_c;
	}
	size_t i = 1;
	while (i + 1 < shift.n && shift.normal_c[i] < normal_c)
		i++;
	double share =
		(normal_c - shift.normal_c[i - 1]) / (shift.normal_c[i] - shift.normal_c[i - 1]);
	return normal_c - shift.site_c[i - 1] - share * (shift.site_c[i] - shift.site_c[i - 1]);
}

/* Antoine at 79.5 kPa: toluene 8.32, decane 9.29, styrene 9.12 degC below; Sydney Young is 1.0,
 * 0.7 and 1.1 short of them. Styrene is no oil of Watson K 12. */
static void slices_agree_with_antoine(void **state)
{
	(void)state;
	assert_close(fall_c(79.5, 110.6), 8.32, 0.2);
	assert_close(fall_c(79.5, 174.1), 9.29, 0.1);
	assert_close(fall_c(79.5, 145.2), 9.12, 0.4);
}

static void there_is_no_step(void **state)
{
	(void)state;
	for (double temp_c = 50.0; temp_c < 400.0; temp_c += 37.0)
		for (double kpa = 80.0; kpa < 90.0; kpa += 0.01) {
			double step = fall_c(kpa, temp_c) - fall_c(kpa + 0.01, temp_c);
			if (!(step > 0.0 && step < 0.02))
				fail_msg("at %g kPa and %g degC it steps by %g", kpa, temp_c, step);
		}
}

static void high_up_the_formula_stands(void **state)
{
	(void)state;
	struct bc_pressure_shift shift;
	assert_int_equal(bc_pressure_shift_fill(87.0, &shift), BC_OK);
	assert_int_equal(shift.n, 0);
	bc_pressure_shift_fill(86.9, &shift);
	assert_int_equal(shift.n, BC_PRESSURE_SHIFT_ROWS);
	for (size_t i = 1; i < shift.n; i++) {
		assert_true(shift.site_c[i] > shift.site_c[i - 1]);
		assert_true(shift.normal_c[i] > shift.normal_c[i - 1]);
	}
	assert_int_equal(bc_pressure_shift_fill(-1.0, &shift), BC_BAD_DOMAIN);
	assert_int_equal(shift.n, 0);
	assert_int_equal(bc_pressure_shift_fill(43.0, &shift), BC_OUTSIDE_RANGE);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(slices_agree_with_antoine),
		cmocka_unit_test(there_is_no_step),
		cmocka_unit_test(high_up_the_formula_stands),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
