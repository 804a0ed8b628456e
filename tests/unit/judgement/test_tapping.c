/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a sample to the jars: what still, carry-over, pot limit, vacuum and history do to them. */
#include <string.h>

#include "base/fault.h"
#include "base/memory.h"
#include "judgement/tapping.h"
#include "unit/unit.h"

/* A wide oil, 817 kg/m3. */
#define OIL                                                                                        \
	"density,817 kg/m3\nresidue,1.2 mL\nloss,0.4 mL\nbarometer,101.3 kPa\n"                    \
	"thermometer,glass d86\nfeed,PE and PP caps\n"
#define TABLE                                                                                      \
	"recovered (%),head (C)\nIBP,93\n5,131\n10,152\n20,184\n30,210\n40,233\n50,254\n"          \
	"60,274\n70,294\n80,316\n90,341\n95,356\nFBP,367\n"

static struct bc_limits *limits;
static struct bc_sample *sample;
static struct bc_tapping *tapping;
static struct bc_tap_request request;

static void read_with(const char *head, const char *table)
{
	char text[2048];
	int n = snprintf(text, sizeof text, "%s%s%s", OIL, head, table);
	bc_sample_free(sample);
	sample = NULL;
	assert_int_equal(bc_sample_read(text, (size_t)n, "t.csv", NULL, &sample), BC_OK);
	request = bc_tap_request_default();
}

static void read_sample(const char *head) { read_with(head, TABLE); }

/* Flash far above any limit. */
static void read_narrow(const char *head)
{
	read_with(head, "recovered (%),head (C)\nIBP,213\n5,222\n10,228\n30,241\n50,254\n"
			"70,273\n90,301\n95,313\nFBP,324\n");
}

static enum bc_status tap(void)
{
	const struct bc_judge_options options = {.limits = limits, .want = BC_GRADES};
	bc_tapping_release(tapping);
	return bc_tap(sample, &options, &request, tapping);
}

static void stated(enum bc_tap_cut_kind kind, double value)
{
	request.cuts[request.n_cuts++] = (struct bc_tap_cut){kind, value};
}

static void add_up(void)
{
	double volume = tapping->pot.volume_pct;
	double mass = tapping->pot.mass_pct;
	double over_ml = 0.0;
	for (size_t i = 0; i < tapping->n_jars; i++) {
		const struct bc_jar *jar = &tapping->jars[i];
		volume += jar->volume_pct;
		mass += jar->mass_pct;
		over_ml += jar->volume_ml;
		assert_close(jar->over_ml, over_ml, 1e-6);
	}
	assert_close(volume, 100.0, 1e-9);
	assert_close(mass, 100.0, 1e-9);
	assert_true(tapping->pot.volume_pct >= 0.0 && tapping->pot.mass_pct >= 0.0);
}

static bool says(const struct bc_strings *list, const char *what)
{
	for (size_t i = 0; i < list->n; i++)
		if (strstr(list->items[i], what))
			return true;
	return false;
}

static void a_wanted_grade_gets_its_largest_product(void **state)
{
	(void)state;
	read_sample("history,rerun\n");
	request.want = BC_GRADE_HEATING_OIL;
	request.charge_ml = 37300.0;
	request.heater_w = 1873.0;
	request.room_m3 = 28.7;
	assert_int_equal(tap(), BC_OK);
	assert_true(tapping->has_want && tapping->feasible);
	assert_non_null(tapping->standard);
	assert_true(tapping->binding.n > 0);
	assert_int_equal(tapping->n_jars, 3);
	assert_string_equal(tapping->jars[0].name, "light");
	assert_string_equal(tapping->jars[1].name, "product");
	assert_string_equal(tapping->jars[2].name, "tail");
	add_up();
	const struct bc_jar *product = &tapping->jars[1];
	assert_true(product->flash_claim && product->grades.n > 0 && product->good_for);
	bool met = false;
	for (size_t i = 0; i < product->grades.n; i++)
		if (strcmp(product->grades.items[i].standard, tapping->standard) == 0)
			met = product->grades.items[i].outside == 0;
	assert_true(met);
	assert_close(product->volume_ml, 373.0 * product->volume_pct, 1e-6);
	/* the pot stands at its limit when the heat goes off */
	assert_close(tapping->pot_limit_c, 330.0, 1e-12);
	assert_close(tapping->jars[2].pot_to_c, 330.0, 0.01);
	assert_true(tapping->pot_limit_reached);
	assert_close(tapping->heat.total_mj,
		tapping->heat.sensible_mj + tapping->heat.latent_mj + tapping->heat.reflux_mj,
		1e-9);
	assert_close(tapping->heat.time_h * 3600.0 * 1873.0, tapping->heat.total_mj * 1e6, 1.0);
	assert_close(tapping->heat.lower_limit_s, 4.0 * tapping->heat.quarter_s, 1e-9);
	assert_true(tapping->heat.own_mj_per_l > 10.0 * tapping->heat.heat_mj_per_l_product);
	assert_true(tapping->n_choices >= 5 && tapping->n_nodes > 90);
	for (size_t i = 1; i < tapping->n_choices; i++)
		assert_true(tapping->choices[i].product_pct <= tapping->choices[i - 1].product_pct);
	for (size_t i = 1; i < tapping->n_nodes; i++)
		assert_true(tapping->nodes[i].pot_c > tapping->nodes[i - 1].pot_c);
}

static void carry_lowers_the_flash(void **state)
{
	double flash_c[2];
	(void)state;
	read_sample("history,rerun\n");
	stated(BC_TAP_AT_VOLUME, 17.3);
	stated(BC_TAP_AT_VOLUME, 71.9);
	for (int i = 0; i < 2; i++) {
		request.still.carry_pct = i;
		assert_int_equal(tap(), BC_OK);
		add_up();
		flash_c[i] = tapping->jars[1].oil.property[BC_FLASH].value;
		assert_int_equal(says(&tapping->assumed, "head and lines hold"), i);
	}
	assert_true(flash_c[1] < flash_c[0] - 0.7);
	assert_close(tapping->jars[0].to_frac, 0.173, 1e-12);
}

/* Stated cuts are kept above the pot limit, and the jar then claims nothing. */
static void stated_cuts_are_only_warned_of_the_pot(void **state)
{
	(void)state;
	read_sample("history,rerun\n");
	stated(BC_TAP_AT_HEAD, 171.3);
	stated(BC_TAP_AT_HEAD, 341.3);
	assert_int_equal(tap(), BC_OK);
	assert_false(tapping->has_want || tapping->feasible);
	assert_int_equal(tapping->binding.n, 0);
	assert_int_equal(tapping->n_jars, 3);
	assert_close(tapping->jars[0].to_c, 171.3, 0.01);
	assert_close(tapping->jars[1].to_c, 341.3, 0.01);
	assert_true(tapping->jars[0].flash_claim);
	assert_true(tapping->jars[1].pot_to_c > 330.0);
	assert_false(tapping->jars[1].flash_claim);
	assert_nan(tapping->jars[1].oil.property[BC_FLASH].low);
	assert_true(isfinite(tapping->jars[1].oil.property[BC_FLASH].value));
	assert_true(tapping->jars[2].empty);
	assert_int_equal(tapping->jars[1].grades.n, 0);
	assert_true(says(&tapping->cautions, "cracks the oil"));
	add_up();
	/* a limit that the person raised is no claim */
	request.pot_limit_c = 390.0;
	assert_int_equal(tap(), BC_OK);
	assert_false(tapping->jars[1].flash_claim);
}

static void the_last_cut_may_take_in_the_pot(void **state)
{
	(void)state;
	read_sample("history,rerun\n");
	stated(BC_TAP_AT_MASS, 21.7);
	stated(BC_TAP_AT_MASS, 100.0);
	request.still.column.stages = 1.0;
	request.still.carry_pct = 0.0;
	assert_int_equal(tap(), BC_OK);
	assert_int_equal(tapping->n_jars, 2);
	assert_close(tapping->jars[0].mass_pct, 21.7, 1e-3);
	assert_string_equal(tapping->jars[1].name, "product");
	assert_true(tapping->jars[1].takes_pot && tapping->jars[1].flash_claim);
	assert_nan(tapping->jars[1].to_c);
	assert_close(tapping->pot.volume_pct, 0.0, 1e-9);
	add_up();
	/* one cut makes light and product, more make product1, product2 */
	read_sample("history,rerun\n");
	stated(BC_TAP_AT_VOLUME, 21.7);
	assert_int_equal(tap(), BC_OK);
	assert_int_equal(tapping->n_jars, 2);
	assert_string_equal(tapping->jars[1].name, "product");
	stated(BC_TAP_AT_VOLUME, 43.1);
	stated(BC_TAP_AT_VOLUME, 61.3);
	assert_int_equal(tap(), BC_OK);
	assert_string_equal(tapping->jars[2].name, "product2");
	assert_string_equal(tapping->jars[3].name, "tail");
	add_up();
}

static void bad_requests_are_refused(void **state)
{
	(void)state;
	read_sample("history,rerun\n");
	stated(BC_TAP_AT_VOLUME, 51.3);
	stated(BC_TAP_AT_HEAD, 131.7);
	assert_int_equal(tap(), BC_BAD_DOMAIN);
	assert_true(strstr(tapping->refused, "cut 2") != NULL);
	read_sample("history,rerun\n");
	stated(BC_TAP_AT_MASS, 100.0);
	stated(BC_TAP_AT_HEAD, 231.7);
	assert_int_equal(tap(), BC_BAD_DOMAIN);
	assert_true(tapping->refused[0] != '\0');
	read_sample("history,rerun\n");
	request.still.column.stages = 2.5;
	assert_int_equal(tap(), BC_BAD_DOMAIN);
	assert_true(tapping->refused[0] != '\0');
	read_sample("history,rerun\n");
	request.standard = "no such";
	assert_int_equal(tap(), BC_BAD_DOMAIN);
	assert_true(tapping->refused[0] != '\0');
	read_sample("history,rerun\n");
	stated(BC_TAP_AT_HEAD, 431.7);
	assert_int_equal(tap(), BC_BAD_DOMAIN);
	assert_true(strstr(tapping->refused, "beyond") != NULL);
}

/* Under vacuum the pot stays cool, more comes over, and the thermometer shows far less. */
static void vacuum_keeps_the_pot_cool(void **state)
{
	double pct;
	(void)state;
	read_sample("history,rerun\n");
	request.want = BC_GRADE_HEATING_OIL;
	assert_int_equal(tap(), BC_OK);
	pct = tapping->jars[1].volume_pct;
	assert_true(says(&tapping->advice, "Vacuum at the back"));
	request.vacuum_kpa = 10.3;
	assert_int_equal(tap(), BC_OK);
	assert_close(tapping->pressure_kpa, 10.3, 1e-12);
	assert_true(tapping->jars[1].volume_pct > pct + 2.0);
	assert_false(tapping->pot_limit_reached);
	assert_true(tapping->jars[2].pot_to_c < 330.0);
	/* about 80 degC for this vapour by Lee-Kesler and Maxwell-Bonnell alike */
	double drop_c = tapping->jars[1].from_c - tapping->jars[1].from_reading_c;
	assert_true(drop_c > 55.0 && drop_c < 85.0);
	/* the air outside has no say in it */
	double reading_c = tapping->nodes[50].head_reading_c;
	double head_c = tapping->nodes[50].head_c;
	read_sample("history,rerun\nbarometer,84.7 kPa\n");
	request.vacuum_kpa = 10.3;
	stated(BC_TAP_AT_VOLUME, 50.0);
	assert_int_equal(tap(), BC_OK);
	/* the oil reads a little heavier, its own head as much higher in both */
	assert_close(tapping->nodes[50].head_reading_c - reading_c,
		tapping->nodes[50].head_c - head_c, 1.3);
}

/* The site: the thermometer shows less, the corrected figure stays about the same. */
static void readings_are_those_of_the_site(void **state)
{
	(void)state;
	read_sample("history,rerun\nbarometer,84.7 kPa\n");
	stated(BC_TAP_AT_HEAD, 171.3);
	assert_int_equal(tap(), BC_OK);
	assert_close(tapping->pressure_kpa, 84.7, 1e-9);
	assert_close(tapping->jars[0].to_c, 171.3, 0.01);
	assert_close(tapping->jars[0].to_reading_c,
		bc_reading_from_corrected(&tapping->feed.conditions, tapping->jars[0].to_c), 1e-9);
	assert_true(tapping->jars[0].to_reading_c < 166.0);
}

static void gas_goes_with_the_front(void **state)
{
	(void)state;
	read_sample("history,retort\n");
	request.want = BC_GRADE_HEATING_OIL;
	assert_int_equal(tap(), BC_OK);
	assert_true(tapping->feasible);
	assert_true(tapping->jars[0].to_frac >= 0.02);
	assert_false(tapping->jars[0].flash_claim);
	assert_true(tapping->jars[1].flash_claim);
	assert_true(says(&tapping->cautions, "Gas is dissolved"));
	/* also where the front need not go for the flash */
	read_narrow("history,retort\n");
	request.want = BC_GRADE_HEATING_OIL;
	assert_int_equal(tap(), BC_OK);
	assert_true(tapping->feasible);
	assert_close(tapping->jars[0].to_frac, 0.02, 1e-12);
	read_narrow("history,rerun\n");
	request.want = BC_GRADE_HEATING_OIL;
	assert_int_equal(tap(), BC_OK);
	assert_true(tapping->jars[0].empty);
	read_sample("history,retort\n");
	stated(BC_TAP_AT_VOLUME, 1.3);
	assert_int_equal(tap(), BC_OK);
	assert_false(tapping->jars[1].flash_claim);
	read_sample("history,rerun\n");
	stated(BC_TAP_AT_VOLUME, 1.3);
	assert_int_equal(tap(), BC_OK);
	assert_false(says(&tapping->cautions, "Gas is dissolved"));
}

static void what_cannot_be_is_said(void **state)
{
	(void)state;
	read_sample("history,rerun\n");
	request.want = BC_GRADE_HEATING_OIL;
	request.pot_limit_c = 121.3;
	assert_int_equal(tap(), BC_OK);
	assert_true(tapping->has_want && !tapping->feasible);
	assert_non_null(tapping->standard);
	assert_true(says(&tapping->binding, "pot limit 121.3"));
	assert_int_equal(tapping->n_jars, 0);
	assert_close(tapping->pot.volume_pct, 100.0, 1e-12);
	assert_true(tapping->advice.n > 0);
	assert_true(says(&tapping->cautions, "from the first drop"));
	/* a pot that begins above its limit fills no jar */
	request.want = BC_GRADES;
	request.split = true;
	assert_int_equal(tap(), BC_OK);
	for (size_t i = 0; i < tapping->n_jars; i++)
		assert_true(tapping->jars[i].empty);
	add_up();
}

/* Its boiling may be had; what else makes a motor fuel is unknown. */
static void gasoline_is_never_feasible(void **state)
{
	(void)state;
	read_with("history,rerun\n", "recovered (%),head (C)\nIBP,41\n5,52\n10,58\n20,69\n30,81\n"
				     "50,107\n70,136\n90,171\n95,184\nFBP,197\n");
	request.want = BC_GRADE_GASOLINE;
	assert_int_equal(tap(), BC_OK);
	assert_true(tapping->has_want && !tapping->feasible);
	assert_int_equal(tapping->binding.n, 1);
	assert_true(says(&tapping->binding, "never called met"));
	assert_false(says(&tapping->advice, "would do it"));
	request.want = BC_GRADES;
	request.standard = "EN 228 class A";
	assert_int_equal(tap(), BC_OK);
	assert_false(tapping->feasible);
}

static void a_still_of_one_number_takes_heat_for_its_reflux(void **state)
{
	(void)state;
	read_sample("history,rerun\n");
	request.want = BC_GRADE_HEATING_OIL;
	request.heater_w = 1873.0;
	request.still.column = (struct bc_column){NAN, NAN, 2.3, NAN};
	assert_int_equal(tap(), BC_OK);
	assert_true(tapping->feasible);
	assert_close(tapping->heat.reflux_mj, 1.3 * tapping->heat.latent_mj, 1e-9);
	assert_close(tapping->heat.total_mj,
		tapping->heat.sensible_mj + 2.3 * tapping->heat.latent_mj, 1e-9);
	assert_true(says(&tapping->assumed, "reflux of 1.3, about what stills worth 2.3 plates"));
}

static void what_forbids_a_rerun_forbids_the_tap(void **state)
{
	(void)state;
	read_sample("history,rerun\nfeed,PVC pipes\n");
	request.want = BC_GRADE_HEATING_OIL;
	assert_int_equal(tap(), BC_OK);
	assert_false(tapping->feasible);
	assert_true(says(&tapping->binding, "not to be distilled"));
	assert_false(says(&tapping->advice, "would do it"));
	read_sample("history,rerun\nwater in receiver,2.3 mL\n");
	request.want = BC_GRADE_HEATING_OIL;
	assert_int_equal(tap(), BC_OK);
	assert_false(tapping->feasible);
	assert_true(says(&tapping->binding, "water in the oil"));
}

static void fuel_from_a_pump_stands_more_heat(void **state)
{
	(void)state;
	read_sample("history,rerun\nfeed,diesel\n");
	request.split = true;
	assert_int_equal(tap(), BC_OK);
	assert_close(tapping->pot_limit_c, 350.0, 1e-12);
	assert_int_equal(tapping->n_jars, 4);
	add_up();
}

/* A still that is only known between two numbers of plates: the flash holds at the lower one. */
static void a_still_that_is_hardly_known_lowers_the_low_bound(void **state)
{
	double low_c[2];
	double value_c[2];
	(void)state;
	for (int i = 0; i < 2; i++) {
		read_sample("history,rerun\n");
		stated(BC_TAP_AT_HEAD, 173.0);
		stated(BC_TAP_AT_HEAD, 263.0);
		request.still.column = (struct bc_column){NAN, NAN, 2.7, NAN};
		request.still.plates_low = i == 0 ? (double)NAN : 1.7;
		request.still.plates_high = i == 0 ? (double)NAN : 3.9;
		assert_int_equal(tap(), BC_OK);
		low_c[i] = tapping->jars[1].oil.property[BC_FLASH].low;
		value_c[i] = tapping->jars[1].oil.property[BC_FLASH].value;
	}
	assert_close(value_c[1], value_c[0], 1e-9);
	if (!(low_c[1] < low_c[0] - 0.3))
		fail_msg("%g: %g, then %g", value_c[0], low_c[0], low_c[1]);
}

/* The sample's flask has a glass thermometer of the standard, the still a probe. */
static void a_still_may_have_a_thermometer_of_its_own(void **state)
{
	double reading_c[2];
	(void)state;
	for (int i = 0; i < 2; i++) {
		read_sample("history,rerun\n");
		stated(BC_TAP_AT_HEAD, 173.0);
		if (i == 1)
			request.still.thermometer = BC_THERMOMETER_PROBE;
		assert_int_equal(tap(), BC_OK);
		reading_c[i] = tapping->jars[0].to_reading_c;
	}
	assert_close(reading_c[0], 173.0, 0.1);
	assert_close(reading_c[1], bc_true_from_corrected(173.0), 0.1);
	assert_true(reading_c[1] > reading_c[0] + 2.0);
}

static void every_allocation_may_fail(void **state)
{
	(void)state;
	read_sample("history,retort\n");
	request.want = BC_GRADE_HEATING_OIL;
	enum bc_status status = BC_NO_MEMORY;
	unsigned long n = 1;
	for (; status != BC_OK && n < 20000; n++) {
		bc_fault_set(BC_FAULT_ALLOC, n, true);
		status = tap();
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		assert_true(status == BC_OK || status == BC_NO_MEMORY);
	}
	assert_int_equal(status, BC_OK);
	assert_true(n > 50);
}

static int set_up(void **state)
{
	(void)state;
	tapping = bc_alloc(sizeof *tapping);
	if (!tapping || bc_failed(bc_limits_default(NULL, &limits)))
		return -1;
	bc_tapping_init(tapping);
	return 0;
}

static int tear_down(void **state)
{
	(void)state;
	bc_tapping_release(tapping);
	bc_free(tapping);
	bc_sample_free(sample);
	bc_limits_free(limits);
	return 0;
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_wanted_grade_gets_its_largest_product),
		cmocka_unit_test(carry_lowers_the_flash),
		cmocka_unit_test(stated_cuts_are_only_warned_of_the_pot),
		cmocka_unit_test(the_last_cut_may_take_in_the_pot),
		cmocka_unit_test(bad_requests_are_refused),
		cmocka_unit_test(vacuum_keeps_the_pot_cool),
		cmocka_unit_test(readings_are_those_of_the_site),
		cmocka_unit_test(gas_goes_with_the_front),
		cmocka_unit_test(what_cannot_be_is_said),
		cmocka_unit_test(gasoline_is_never_feasible),
		cmocka_unit_test(a_still_of_one_number_takes_heat_for_its_reflux),
		cmocka_unit_test(what_forbids_a_rerun_forbids_the_tap),
		cmocka_unit_test(fuel_from_a_pump_stands_more_heat),
		cmocka_unit_test(a_still_that_is_hardly_known_lowers_the_low_bound),
		cmocka_unit_test(a_still_may_have_a_thermometer_of_its_own),
		cmocka_unit_test(every_allocation_may_fail),
	};
	return cmocka_run_group_tests(tests, set_up, tear_down);
}
