/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cut searches of a simulated still: what lands where, and that no pair of turns does better. */
#include <string.h>

#include "base/units.h"
#include "still/tap.h"
#include "unit/unit.h"

#define HEADER                                                                                     \
	"grade,standard,edition,property,basis,min,max,strict,unit,method,role,in_force,judged,"   \
	"seen,note\n"
#define ROW(standard, property, basis, min, max, unit, role)                                       \
	"heating-oil-range," standard ",2017," property "," basis "," min "," max ",no," unit      \
	",Q 1," role ",yes,yes,seen,\n"
#define FLASH(standard, min) ROW(standard, "flash_point", "", min, "", "degC", "safety")
#define T90(standard, max) ROW(standard, "T90", "recovered", "", max, "degC", "judge")
#define DENSITY(standard, max) ROW(standard, "density", "", "", max, "kg/m3", "judge")

/* D86 degC at 0 10 30 50 70 90 95 %: wide, narrow, light, and the oil of a trial. */
static const double oils_c[][BC_TBP_POINTS] = {{69.3, 131.2, 183.7, 229.1, 276.4, 326.2, 347.3},
	{171.3, 199.2, 221.4, 239.6, 261.3, 297.2, 313.4},
	{51.2, 92.3, 121.7, 151.3, 189.4, 241.6, 262.3}, {80, 125, 190, 250, 305, 350, 368}};
enum { OILS = sizeof oils_c / sizeof oils_c[0] };

static struct bc_slices slices;
static struct bc_run *run;
static struct bc_still_work *work;
static struct bc_tap_still still;
static struct bc_cut cut;
static struct bc_cut other;

static void make_oil(size_t oil, double watson_k)
{
	double tbp_c[BC_TBP_POINTS];
	struct bc_tbp_curve curve;
	double k_times_sg = 0.0;
	assert_false(bc_failed(bc_tbp_points_from_d86(oils_c[oil], tbp_c)));
	assert_false(bc_failed(
		bc_tbp_curve_from_points(bc_tbp_point_pct, tbp_c, BC_TBP_POINTS, true, &curve)));
	for (int i = 0; i < 1000; i++)
		k_times_sg +=
			cbrt(1.8 * bc_temp_k_from_c(bc_tbp_curve_temp_c(&curve, 0.1 * i + 0.05)));
	assert_false(bc_failed(bc_slices_from_tbp(
		&curve, k_times_sg / 1000.0 / watson_k, 40, 0.0, 95.0, &slices)));
}

static void run_oil(size_t oil, double stages, double reflux, double pot_limit_c)
{
	struct bc_column column = {stages, reflux, NAN, 101.325};
	struct bc_run_options options = {BC_RUN_STOP_MAX, INFINITY, BC_STEPS_NORMAL, 0.0};
	make_oil(oil, 11.8);
	assert_false(bc_failed(bc_column_run(&slices, &column, &options, work, run)));
	double limit = bc_run_frac_at_pot(run, pot_limit_c);
	still = (struct bc_tap_still){.run = run,
		.ceiling_frac = isnan(limit) ? 0.98 : fmin(limit, 0.98),
		.margin_c = NAN};
}

static struct bc_limits *table_of(const char *rows)
{
	char text[4096];
	struct bc_limits *limits = NULL;
	snprintf(text, sizeof text, "%s%s", HEADER, rows);
	assert_int_equal(bc_limits_read(text, strlen(text), "t", NULL, &limits), BC_OK);
	return limits;
}

static enum bc_status best(const struct bc_limits *limits, struct bc_cut *found)
{
	return bc_tap_best(&still, limits, BC_GRADES, "Q 9", found);
}

/* Jars and pot, with and without what the lines hold, are the charge, slice by slice in sum. */
static void jars_and_pot_are_the_charge(void **state)
{
	static const double edge[] = {0.0, 0.1237, 0.1391, 0.6173, 1.0};
	(void)state;
	run_oil(0, 3, 1.3, 341.3);
	for (int carry = 0; carry < 2; carry++) {
		double volume = 0.0;
		double mass = 0.0;
		still.carry_frac = 0.0117 * carry;
		still.ceiling_frac = 1.0;
		for (int i = 0; i < 4; i++) {
			struct bc_slices jar;
			double share;
			assert_int_equal(
				bc_tap_jar(&still, edge[i], edge[i + 1], &jar, &share), BC_OK);
			volume += share;
			mass += share * jar.sg;
		}
		assert_close(volume, 1.0, 1e-9);
		assert_close(mass, slices.sg, 1e-6);
	}
}

/* The jar after the turn gets what the jar before would have had last. */
static void carry_brings_light_ends_into_the_product(void **state)
{
	double flash_c[3];
	double share[3];
	(void)state;
	run_oil(0, 2, 1, 341.3);
	for (int i = 0; i < 3; i++) {
		struct bc_slices jar;
		still.carry_frac = 0.01 * i;
		assert_int_equal(bc_tap_product(&still, 0.173, 0.6173, &cut), BC_OK);
		assert_int_equal(bc_tap_jar(&still, 0.173, 0.6173, &jar, &share[i]), BC_OK);
		flash_c[i] = cut.product.property[BC_FLASH].value;
	}
	assert_true(flash_c[1] < flash_c[0] - 0.7);
	assert_true(flash_c[2] < flash_c[1] - 0.7);
	assert_close(share[1], share[0], 1e-4);
	/* the last jar takes what the lines hold when the heat goes off */
	still.ceiling_frac = 0.6173;
	struct bc_slices jar;
	assert_int_equal(bc_tap_jar(&still, 0.173, 0.6173, &jar, &share[0]), BC_OK);
	assert_close(share[0] - share[2], 0.02, 1e-4);
	/* how far carry-over may go is in the low bound */
	still.carry_frac = 0.01;
	double low_c;
	bc_tap_product(&still, 0.173, 0.6173, &cut);
	low_c = cut.product.property[BC_FLASH].low;
	still.carry_high_frac = 0.05;
	bc_tap_product(&still, 0.173, 0.6173, &cut);
	assert_true(cut.product.property[BC_FLASH].low < low_c - 0.2);
}

/* Every pair of turns on a grid; a pair that keeps all limits is no larger than the one found. */
static void no_pair_of_a_grid_is_larger(void **state)
{
	static const char *const tables[] = {FLASH("Q 9", "51.3") T90("Q 9", "301.7"),
		FLASH("Q 9", "38.4") T90("Q 9", "271.3"), FLASH("Q 9", "31.7") T90("Q 9", "237.1"),
		FLASH("Q 9", "55.1") T90("Q 9", "331.3") DENSITY("Q 9", "831.7")};
	const double step = 1.0 / 32.0;
	(void)state;
	for (size_t oil = 0; oil < OILS; oil++) {
		struct bc_limits *limits = table_of(tables[oil]);
		double largest = 0.0;
		run_oil(oil, oil == 1 ? 1 : 3, 1.7, 343.3);
		still.carry_frac = oil == 2 ? 0.0 : 0.01;
		assert_int_equal(best(limits, &cut), BC_OK);
		for (int i_from = 0; i_from < 29; i_from++)
			for (int i_to = i_from + 2; i_to * step < still.ceiling_frac; i_to++) {
				double from = i_from * step;
				double to = i_to * step;
				assert_false(bc_failed(bc_tap_product(&still, from, to, &other)));
				other.standard = "Q 9";
				const struct bc_oil *product = &other.product;
				bool kept = true;
				for (size_t i = 0; i < limits->n && kept; i++) {
					const char *what = limits->items[i].property;
					if (strcmp(what, "flash_point") == 0)
						kept = product->property[BC_FLASH].low >=
						       limits->items[i].min;
					else if (strcmp(what, "T90") == 0)
						kept = other.product_points.at[BC_AT_T90].value <=
						       limits->items[i].max;
					else
						kept = product->property[BC_DENSITY15].value <=
						       limits->items[i].max;
				}
				if (kept)
					largest = fmax(largest, to - from);
			}
		double found = cut.product_until_frac - cut.light_until_frac;
		assert_true(largest > 0.05);
		assert_true(found >= largest - 1e-3);
		assert_true(found <= largest + 2.5 * step);
		bc_limits_free(limits);
	}
}

static void a_tighter_flash_costs_product(void **state)
{
	double last_pct = 100.0;
	(void)state;
	run_oil(0, 2, 1, 341.3);
	for (int i = 0; i < 5; i++) {
		double flash_c = 37.3 + 9.7 * i;
		assert_int_equal(bc_tap_at_flash(&still, NULL, NULL, flash_c, &cut), BC_OK);
		assert_true(cut.product.property[BC_FLASH].value >= flash_c);
		assert_true(cut.product.property[BC_FLASH].value < flash_c + 0.4);
		assert_true(cut.product_pct < last_pct - 0.5);
		assert_close(cut.light_pct + cut.product_pct + cut.tail_pct, 100.0, 1e-9);
		last_pct = cut.product_pct;
	}
}

/* With no pot limit plates pay; with one they warm the pot: figures of a trial. */
static void plates_do_as_in_the_trial(void **state)
{
	static const struct {
		double stages, reflux, from_c, to_c, from, to;
	} rows[] = {{1, 0, 213, 350, .262, .854}, {2, 1, 168, 341, .214, .797},
		{3, 2, 153, 334, .195, .765}, {5, 3, 145, 328, .185, .743},
		{10, 5, 140, 323, .178, .728}};
	double last_pct = 0.0;
	(void)state;
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		run_oil(3, rows[i].stages, rows[i].reflux, 350.0);
		assert_int_equal(bc_tap_at_flash(&still, NULL, NULL, 55.0, &cut), BC_OK);
		assert_close(cut.light_until_frac, rows[i].from, 0.003);
		assert_close(cut.product_until_frac, rows[i].to, 0.003);
		assert_close(bc_run_at(run, cut.light_until_frac).head_c, rows[i].from_c, 1.0);
		assert_close(bc_run_at(run, cut.product_until_frac).head_c, rows[i].to_c, 1.0);
		run_oil(3, rows[i].stages, rows[i].reflux, 999.0);
		struct bc_limits *limits = table_of(T90("Q 9", "331.3"));
		assert_int_equal(bc_tap_at_flash(&still, limits, "Q 9", 55.0, &cut), BC_OK);
		assert_true(cut.product_pct > last_pct + 0.3);
		last_pct = cut.product_pct;
		bc_limits_free(limits);
	}
}

static bool names(const struct bc_strings *list, const char *what)
{
	for (size_t i = 0; i < list->n; i++)
		if (strstr(list->items[i], what))
			return true;
	return false;
}

static void what_binds_is_named(void **state)
{
	struct bc_strings binding;
	(void)state;
	bc_strings_init(&binding);
	run_oil(0, 2, 1, 341.3);
	struct bc_limits *limits =
		table_of(FLASH("Q 9", "51.3") T90("Q 9", "301.7") DENSITY("Q 9", "893.1"));
	assert_int_equal(best(limits, &cut), BC_OK);
	bc_tap_binding(&still, limits, "Q 9", &cut, "the end", &binding);
	assert_int_equal(binding.n, 2);
	assert_true(names(&binding, "flash point, at least 51.3 degC"));
	assert_true(names(&binding, "at most 301.7 degC"));
	bc_strings_release(&binding);
	bc_limits_free(limits);
	limits = table_of(FLASH("Q 9", "51.3") T90("Q 9", "381.7"));
	assert_int_equal(best(limits, &cut), BC_OK);
	bc_tap_binding(&still, limits, "Q 9", &cut, "the end", &binding);
	assert_true(names(&binding, "the end"));
	assert_false(names(&binding, "381.7"));
	bc_strings_release(&binding);
	bc_limits_free(limits);
	/* nothing has both: front and back are named */
	limits = table_of(FLASH("Q 9", "91.3") T90("Q 9", "191.7"));
	assert_int_equal(best(limits, &cut), BC_NOT_FOUND);
	bc_tap_binding(&still, limits, "Q 9", NULL, "the end", &binding);
	assert_true(names(&binding, "91.3") || names(&binding, "191.7"));
	bc_strings_release(&binding);
	still.ceiling_frac = 0.013;
	bc_tap_binding(&still, limits, "Q 9", NULL, "the end", &binding);
	assert_true(names(&binding, "the end"));
	bc_strings_release(&binding);
	bc_limits_free(limits);
}

/* A stated margin replaces the low bound. */
static void margin_is_kept_by_the_value(void **state)
{
	(void)state;
	run_oil(0, 2, 1, 341.3);
	struct bc_limits *limits = table_of(FLASH("Q 9", "51.3"));
	still.margin_c = 3.7;
	assert_int_equal(best(limits, &cut), BC_OK);
	assert_close(cut.product.property[BC_FLASH].value, 55.0, 0.4);
	still.floor_frac = 0.313;
	assert_int_equal(best(limits, &cut), BC_OK);
	assert_close(cut.light_until_frac, 0.313, 1e-12);
	bc_limits_free(limits);
}

static void places_outside_are_refused(void **state)
{
	struct bc_slices jar;
	double share;
	(void)state;
	run_oil(0, 2, 1, 341.3);
	assert_int_equal(bc_tap_jar(&still, 0.31, 0.31, &jar, &share), BC_BAD_DOMAIN);
	assert_nan(share);
	assert_int_equal(jar.n, 0);
	assert_int_equal(bc_tap_jar(&still, -0.1, 0.31, &jar, NULL), BC_BAD_DOMAIN);
	assert_int_equal(bc_tap_jar(&still, 0.31, 0.9973, &jar, NULL), BC_BAD_DOMAIN);
}

static int set_up(void **state)
{
	(void)state;
	run = bc_run_new();
	work = bc_still_work_new();
	return run && work ? 0 : -1;
}

static int tear_down(void **state)
{
	(void)state;
	bc_run_free(run);
	bc_still_work_free(work);
	return 0;
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(jars_and_pot_are_the_charge),
		cmocka_unit_test(carry_brings_light_ends_into_the_product),
		cmocka_unit_test(no_pair_of_a_grid_is_larger),
		cmocka_unit_test(a_tighter_flash_costs_product),
		cmocka_unit_test(plates_do_as_in_the_trial),
		cmocka_unit_test(what_binds_is_named),
		cmocka_unit_test(margin_is_kept_by_the_value),
		cmocka_unit_test(places_outside_are_refused),
	};
	return cmocka_run_group_tests(tests, set_up, tear_down);
}
