/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Estimates and their chances, and the small statistics behind them. */
#include "base/estimate.h"
#include "unit/unit.h"

#include <gsl/gsl_errno.h>

#include "base/stats.h"
#include "base/status.h"

static void made_and_absent(void **state)
{
	(void)state;
	struct bc_estimate absent = bc_estimate_absent();
	assert_false(bc_estimate_present(&absent));
	assert_nan(absent.low);
	assert_null(bc_how_text(absent.how));
	struct bc_estimate flash = bc_estimate_new(41.3, 7.2, BC_ESTIMATED);
	assert_true(bc_estimate_present(&flash));
	assert_close(flash.low, 34.1, 1e-12);
	assert_close(flash.high, 48.5, 1e-12);
	assert_string_equal(bc_how_text(flash.how), "estimated");
	assert_string_equal(bc_how_text(BC_NOT_VALID), "not valid");
	struct bc_estimate nothing = bc_estimate_new(NAN, 7.2, BC_MEASURED);
	assert_int_equal(nothing.how, BC_ABSENT);
	assert_nan(nothing.high);
}

static double chance(double low, double value, double high, double min, double max)
{
	struct bc_estimate estimate = {value, low, high, BC_ESTIMATED};
	return bc_estimate_chance_within(&estimate, min, max);
}

/* Expected: areas of the normal curve, Phi(1) = 0.841345, Phi(0.5) = 0.691462 (any table). */
static void chances_of_a_split_normal(void **state)
{
	(void)state;
	double sigma = 3.7;
	double low = 51.3 - BC_Z95 * sigma;
	double high = 51.3 + BC_Z95 * 2.0 * sigma;
	assert_close(chance(low, 51.3, high, low, high), 0.95, 1e-9);
	assert_close(chance(low, 51.3, high, 51.3 - sigma, NAN), 0.841345, 1e-6);
	assert_close(chance(low, 51.3, high, NAN, 51.3 + sigma), 0.691462, 1e-6);
	assert_close(chance(low, 51.3, high, 51.3 - sigma, 51.3 + sigma), 0.532807, 1e-6);
	assert_close(chance(low, 51.3, high, NAN, NAN), 1.0, 0.0);
	assert_close(chance(low, 51.3, high, 60.0, 50.0), 0.0, 0.0);
	assert_close(chance(low, 51.3, high, NAN, 51.3), 0.5, 1e-12);
}

static void chances_with_bounds_missing(void **state)
{
	(void)state;
	double high = 51.3 + BC_Z95 * 3.7;
	assert_close(chance(NAN, 51.3, high, 51.3 - 3.7, NAN), 0.841345, 1e-6);
	assert_close(chance(51.3 - BC_Z95 * 3.7, 51.3, NAN, NAN, 51.3 + 3.7), 0.841345, 1e-6);
	assert_nan(chance(NAN, 51.3, NAN, 40.0, 60.0));
	assert_nan(chance(NAN, NAN, NAN, 40.0, 60.0));
	struct bc_estimate absent = bc_estimate_absent();
	assert_nan(bc_estimate_chance_within(&absent, 40.0, 60.0));
}

static void chances_without_width(void **state)
{
	(void)state;
	assert_close(chance(51.3, 51.3, 51.3, 51.2, 51.4), 1.0, 0.0);
	assert_close(chance(51.3, 51.3, 51.3, 51.4, NAN), 0.0, 0.0);
	assert_close(chance(51.3, 51.3, 51.3, NAN, 51.2), 0.0, 0.0);
	assert_close(chance(51.3, 51.3, 51.3, 51.3, NAN), 1.0, 0.0);
	assert_close(chance(51.3, 51.3, 51.3, NAN, 51.3), 1.0, 0.0);
	assert_close(chance(51.3, 51.3, 51.3, 51.3, 51.3), 1.0, 0.0);
}

static void probits(void **state)
{
	(void)state;
	assert_close(bc_probit_from_pct(97.5), BC_Z95, 1e-9);
	assert_close(bc_probit_from_pct(50.0), 0.0, 1e-12);
	assert_close(bc_pct_from_probit(bc_probit_from_pct(12.7)), 12.7, 1e-9);
	assert_true(isinf(bc_probit_from_pct(0.0)) && bc_probit_from_pct(0.0) < 0.0);
	assert_true(isinf(bc_probit_from_pct(100.0)));
	assert_nan(bc_probit_from_pct(-0.1));
	assert_nan(bc_probit_from_pct(100.1));
	assert_nan(bc_probit_from_pct(NAN));
}

static void medians_and_roots(void **state)
{
	(void)state;
	double odd[] = {7.1, -3.2, 4.4};
	double even[] = {9.5, 1.1, 2.7, 30.1};
	double sides[] = {3.0, -4.0, 12.0};
	assert_close(bc_median(odd, 3), 4.4, 0.0);
	assert_close(bc_median(even, 4), 6.1, 1e-12);
	assert_nan(bc_median(odd, 0));
	assert_close(bc_root_sum_square(sides, 3), 13.0, 1e-12);
	assert_close(bc_root_sum_square(sides, 0), 0.0, 0.0);
}

static void statuses(void **state)
{
	(void)state;
	assert_int_equal(bc_status_from_gsl(GSL_SUCCESS), BC_OK);
	assert_int_equal(bc_status_from_gsl(GSL_ENOMEM), BC_NO_MEMORY);
	assert_int_equal(bc_status_from_gsl(GSL_EDOM), BC_BAD_DOMAIN);
	assert_int_equal(bc_status_from_gsl(GSL_EMAXITER), BC_NO_CONVERGENCE);
	assert_true(bc_failed(BC_NOT_FOUND));
	assert_false(bc_failed(BC_EXTRAPOLATED));
	static const char *const texts[] = {"not-found", "too-few", "no-convergence", "malformed",
		"io", "no-memory", "bad-domain", "ok", "outside-range", "extrapolated", "repaired",
		"unknown"};
	for (int status = BC_NOT_FOUND; status <= BC_REPAIRED + 1; status++)
		assert_string_equal(
			bc_status_text((enum bc_status)status), texts[status - BC_NOT_FOUND]);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(made_and_absent),
		cmocka_unit_test(chances_of_a_split_normal),
		cmocka_unit_test(chances_with_bounds_missing),
		cmocka_unit_test(chances_without_width),
		cmocka_unit_test(probits),
		cmocka_unit_test(medians_and_roots),
		cmocka_unit_test(statuses),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
