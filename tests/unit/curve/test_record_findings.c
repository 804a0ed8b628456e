/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings about a whole record: each is raised by its own fault alone, and not by a figure on the
 * near side of its limit. */
#include "by_hand.h"

#include "curve/level.h"

#define READINGS(...)                                                                              \
	struct bc_reading readings[] = {__VA_ARGS__};                                              \
	struct bc_sample sample = sample_by_hand(readings, sizeof readings / sizeof *readings)

#define UP_TO_70                                                                                   \
	IBP(171), AT(5, 187.5), AT(10, 196), AT(20, 208.3), AT(30, 219), AT(40, 229.7),            \
		AT(50, 247), AT(60, 266.6), AT(70, 289)

static void state_all(struct bc_sample *sample)
{
	sample->thermometer = BC_THERMOMETER_GLASS_D86;
	sample->barometer_kpa = 101.3;
	sample->charge_stated = true;
}

static const struct bc_finding *finding(const struct worked *w, const char *code)
{
	for (size_t i = 0; i < w->findings.n; i++) {
		if (strcmp(w->findings.items[i].code, code) == 0)
			return &w->findings.items[i];
	}
	return NULL;
}

/* Raises this and nothing else; with NULL nothing at all. */
static void raises(const struct bc_sample *sample, const char *code)
{
	struct worked w;

	assert_false(bc_failed(work(sample, &w)));
	for (size_t i = 0; i < w.findings.n; i++) {
		if (!code || strcmp(w.findings.items[i].code, code) != 0)
			fail_msg("raises %s: %s", w.findings.items[i].code,
				w.findings.items[i].message);
	}
	if (code && w.findings.n == 0)
		fail_msg("does not raise %s", code);
	work_release(&w);
}

static void a_head_that_creeps_at_the_end(void **state)
{
	(void)state;
	READINGS(UP_TO_70, AT(80, 311), AT(85, 311.3), AT(90, 311.9));
	state_all(&sample);
	raises(&sample, "temperature-stalls");
	readings[10].head_c = 316.3;
	readings[11].head_c = 323.1;
	raises(&sample, NULL);
	/* below 280 degC nothing cracks */
	for (size_t i = 0; i < 10; i++)
		readings[i].head_c -= 60.0;
	readings[10].head_c = 251.3;
	readings[11].head_c = 251.9;
	raises(&sample, NULL);
}

static void an_end_point_well_above_is_no_stall(void **state)
{
	(void)state;
	READINGS(UP_TO_70, AT(80, 311), AT(85, 311.3), AT(90, 311.9), FBP(329.3));
	state_all(&sample);
	raises(&sample, NULL);
}

static void a_sum_that_is_short(void **state)
{
	(void)state;
	READINGS(UP_TO_70, AT(80, 311));
	state_all(&sample);
	sample.residue_ml = 3.7;
	sample.loss_ml = 0.9;
	raises(&sample, "balance-short");
	sample.residue_ml = 4.9;
	sample.loss_ml = 3.3;
	raises(&sample, NULL);
	/* what was not measured is not missing */
	sample.loss_ml = NAN;
	sample.residue_ml = 3.7;
	raises(&sample, NULL);
}

static void a_sum_with_an_end_point_is_not_short(void **state)
{
	(void)state;
	READINGS(UP_TO_70, AT(80, 311), FBP(344.3));
	state_all(&sample);
	sample.residue_ml = 3.7;
	sample.loss_ml = 0.9;
	raises(&sample, NULL);
}

static void a_heavy_oil_outside_the_scope(void **state)
{
	(void)state;
	READINGS(UP_TO_70, AT(80, 337.1));
	state_all(&sample);
	sample.residue_ml = 17.3;
	raises(&sample, "outside-scope");
	sample.residue_ml = NAN;
	raises(&sample, "outside-scope");
	sample.residue_ml = 9.3;
	raises(&sample, "residue-large");
	readings[9].head_c = 319.7;
	sample.residue_ml = 17.3;
	raises(&sample, "residue-large");
}

static void rows_that_do_not_follow(void **state)
{
	(void)state;
	READINGS(UP_TO_70, AT(90, 344.7), AT(80, 314), FBP(371.0));
	state_all(&sample);
	readings[11].head_c = 363.1;
	raises(&sample, "rows-out-of-order");
	struct bc_reading kept = readings[9];
	readings[9] = readings[10];
	readings[10] = kept;
	raises(&sample, NULL);
}

static void a_weighed_loss_counts(void **state)
{
	(void)state;
	READINGS(UP_TO_70, AT(80, 311));
	struct worked w;
	state_all(&sample);
	sample.charge_g = 80.3;
	sample.distillate_g = 63.1;
	sample.residue_g = 12.7;
	sample.loss_ml = 0.7;
	sample.residue_ml = 15.3;
	assert_false(bc_failed(work(&sample, &w)));
	assert_non_null(finding(&w, "loss-large"));
	assert_true(finding(&w, "loss-large")->forbids_usable);
	work_release(&w);
	sample.distillate_g = 66.3;
	assert_false(bc_failed(work(&sample, &w)));
	assert_null(finding(&w, "loss-large"));
	work_release(&w);
}

static void a_sea_level_barometer(void **state)
{
	(void)state;
	READINGS(UP_TO_70, AT(80, 311));
	struct worked w;
	state_all(&sample);
	sample.barometer_kpa = 102.1;
	sample.altitude_m = 613.0;
	assert_false(bc_failed(work(&sample, &w)));
	assert_non_null(finding(&w, "barometer-not-station"));
	assert_non_null(strstr(
		finding(&w, "barometer-not-station")->message, "looks like a sea-level figure"));
	work_release(&w);
	sample.barometer_kpa = 88.1;
	assert_false(bc_failed(work(&sample, &w)));
	assert_null(strstr(
		finding(&w, "barometer-not-station")->message, "looks like a sea-level figure"));
	work_release(&w);
	sample.barometer_kpa = 94.9;
	raises(&sample, NULL);
}

static void a_level_stretch(void **state)
{
	(void)state;
	READINGS(IBP(111), AT(5, 125.5), AT(10, 131.5), AT(20, 141), AT(30, 143), AT(40, 145),
		AT(50, 147.3), AT(60, 158.1), AT(70, 171), AT(80, 191.5), AT(90, 233));
	struct worked w;
	state_all(&sample);
	assert_false(bc_failed(work(&sample, &w)));
	struct bc_level level = bc_level_seen(&w.boiloff);
	assert_true(level.found);
	assert_close(level.from_pct, 20.0, 0.0);
	assert_close(level.to_pct, 50.0, 0.0);
	assert_close(level.middle_c, 144.15, 1e-9);
	assert_int_equal(w.findings.n, 0);
	work_release(&w);
	readings[4].head_c = 146.9;
	readings[5].head_c = 150.3;
	readings[6].head_c = 154.3;
	assert_false(bc_failed(work(&sample, &w)));
	assert_false(bc_level_seen(&w.boiloff).found);
	work_release(&w);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_head_that_creeps_at_the_end),
		cmocka_unit_test(an_end_point_well_above_is_no_stall),
		cmocka_unit_test(a_sum_that_is_short),
		cmocka_unit_test(a_sum_with_an_end_point_is_not_short),
		cmocka_unit_test(a_heavy_oil_outside_the_scope),
		cmocka_unit_test(rows_that_do_not_follow),
		cmocka_unit_test(a_weighed_loss_counts),
		cmocka_unit_test(a_sea_level_barometer),
		cmocka_unit_test(a_level_stretch),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
