/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A still by its measures: figures worked out apart, and what must follow from them. */
#include "still/rig.h"
#include "unit/unit.h"

static struct bc_calibration_work *work;
static struct bc_rig rig;
static struct bc_rig_estimate e;

static void fresh(void)
{
	rig = bc_rig_unknown();
	rig.riser_mm = 25.0;
	rig.height_mm = 300.0;
	rig.heater_w = 200.0;
}

static void estimate(void) { assert_int_equal(bc_rig_estimate_of(&rig, work, &e), BC_OK); }

static void a_bare_riser_of_known_figures(void **state)
{
	(void)state;
	fresh();
	estimate();
	assert_close(e.vapour_c, 200.0, 0.05);
	assert_close(e.wall_w.value, 50.9, 0.5); /* worked out apart: 51 W, reflux 0.34 */
	assert_close(e.reflux.value, 0.34, 0.01);
	assert_close(e.power_w.value, 320.0, 12.0); /* 320 W with another vapour of that kind */
	assert_true(e.power_w.low < 0.7 * e.power_w.value);
	assert_false(e.heater_floods || e.boil_assumed || e.wall_takes_all);
	rig.lagging_mm = 25.0;
	estimate();
	assert_close(e.wall_w.value, 12.7, 0.3); /* 13 W, 0.07 */
	assert_close(e.reflux.value, 0.07, 0.005);
}

static void vacuum_lowers_the_power(void **state)
{
	(void)state;
	fresh();
	rig.heater_w = NAN;
	rig.vacuum_kpa = 13.2;
	estimate();
	assert_close(e.power_w.value, 140.0, 8.0); /* worked out apart */
	assert_true(e.boil_assumed);
	assert_close(e.boil_w, 0.5 * e.power_w.value, 1e-9);
	assert_true(e.vapour_c < 140.0);
}

static void packing_makes_stages_within_half(void **state)
{
	(void)state;
	fresh();
	rig.packing = bc_packing_find("scrubbers");
	rig.heater_w = 300.0;
	estimate();
	assert_close(e.stages.value, 1.0 + 300.0 / 130.0, 1e-9);
	assert_close(e.stages.low, 1.0 + 300.0 / 195.0, 1e-9);
	assert_close(e.stages.high, 1.0 + 300.0 / 65.0, 1e-9);
	assert_true(e.plates.low < e.plates.value && e.plates.value < e.plates.high);
	double plain = e.plates.value;
	rig.reflux = 3.7;
	estimate();
	assert_true(e.plates.value > plain + 0.5);
	assert_close(e.hold_ml.value, 0.08 * 147.26, 0.01);
	assert_close(e.least_cut_ml.value, e.hold_ml.value / 0.12, 1e-9);
	assert_null(bc_packing_find("straw"));
}

static void too_much_and_too_little_heat_is_said(void **state)
{
	(void)state;
	fresh();
	rig.heater_w = 2000.0;
	estimate();
	assert_true(e.heater_floods);
	assert_close(e.boil_w, e.power_w.value, 1e-9);
	rig.heater_w = 40.0;
	estimate();
	assert_true(e.wall_takes_all);
	assert_true(isinf(e.reflux.value));
	rig.riser_mm = NAN;
	assert_int_equal(bc_rig_estimate_of(&rig, work, &e), BC_BAD_DOMAIN);
}

static int set_up(void **state)
{
	(void)state;
	work = bc_calibration_work_new();
	return work ? 0 : -1;
}

static int tear_down(void **state)
{
	(void)state;
	bc_calibration_work_free(work);
	return 0;
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_bare_riser_of_known_figures),
		cmocka_unit_test(vacuum_lowers_the_power),
		cmocka_unit_test(packing_makes_stages_within_half),
		cmocka_unit_test(too_much_and_too_little_heat_is_said),
	};
	return cmocka_run_group_tests(tests, set_up, tear_down);
}
