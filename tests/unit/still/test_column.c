/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The batch still keeps what it is given, boils what is pure at its boiling point, does not care
 * for the steps, and never fails. Textbook answers: tests/outside/batch.c. */
#include "still/column.h"

#include <math.h>
#include <stdlib.h>

#include "base/units.h"
#include "still/flask.h"
#include "still/k_table.h"
#include "unit/unit.h"

static const double oil_tbp_c[BC_TBP_POINTS] = {61.3, 117.9, 186.4, 247.1, 304.8, 353.2, 371.9};
static const struct bc_run_options whole = {0.98, INFINITY, BC_STEPS_NORMAL, 0.0};
static struct bc_still_work *work;
static struct bc_run *run;

static int set_up(void **state)
{
	(void)state;
	work = bc_still_work_new();
	run = bc_run_new();
	return work && run ? 0 : -1;
}

static int tear_down(void **state)
{
	(void)state;
	bc_still_work_free(work);
	bc_run_free(run);
	return 0;
}

static void make_oil(struct bc_slices *slices)
{
	struct bc_tbp_curve curve;
	bc_tbp_curve_from_points(bc_tbp_point_pct, oil_tbp_c, BC_TBP_POINTS, false, &curve);
	assert_true(bc_slices_from_tbp(&curve, 0.8137, 40, 0.0, 95.0, slices) >= 0);
}

static struct bc_column column(double stages, double reflux)
{
	return (struct bc_column){stages, reflux, NAN, 101.325};
}

static struct bc_column effective(double plates)
{
	return (struct bc_column){NAN, NAN, plates, 101.325};
}

static void distil(struct bc_column still)
{
	struct bc_slices slices;
	make_oil(&slices);
	assert_int_equal(bc_column_run(&slices, &still, &whole, work, run), BC_OK);
}

static void nothing_is_lost(void **state)
{
	(void)state;
	const struct bc_column stills[] = {
		column(1, 0), column(4, 2.5), column(9, INFINITY), effective(1.75)};
	for (size_t s = 0; s < sizeof stills / sizeof stills[0]; s++) {
		distil(stills[s]);
		assert_int_equal(run->n, 102);
		for (size_t node = 0; node < run->n; node++) {
			double over = 0.0;
			for (size_t i = 0; i < run->charge.n; i++) {
				over += run->over[node][i];
				assert_true(run->over[node][i] >= 0.0);
				assert_true(run->over[node][i] <= run->charge.items[i].volume_frac);
				if (node > 0)
					assert_true(run->over[node][i] >= run->over[node - 1][i]);
			}
			assert_close(over, run->over_frac[node], 1e-9);
		}
	}
}

/* Volume of a slice of the charge in a jar of this share. */
static double caught(const struct bc_slices *jar, double share, double boiling_k)
{
	for (size_t i = 0; i < jar->n; i++)
		if (jar->items[i].boiling_k == boiling_k)
			return jar->items[i].volume_frac * share;
	return 0.0;
}

static void jars_and_pot_make_the_charge_again(void **state)
{
	(void)state;
	static const double place[] = {0.0, 0.1137, 0.4071, 0.8333};
	struct bc_slices jar[4];
	double share[4];
	double mass = 0.0;
	double moles = 0.0;
	distil(column(3, 1.5));
	for (int j = 0; j < 3; j++)
		assert_int_equal(
			bc_run_jar(run, place[j], place[j + 1], &jar[j], &share[j]), BC_OK);
	assert_int_equal(bc_run_pot(run, place[3], &jar[3], &share[3]), BC_OK);
	for (int j = 0; j < 4; j++) {
		double volume_sum = 0.0;
		double mole_sum = 0.0;
		for (size_t i = 0; i < jar[j].n; i++) {
			volume_sum += jar[j].items[i].volume_frac;
			mole_sum += jar[j].items[i].mole_frac;
		}
		assert_close(volume_sum, 1.0, 1e-12);
		assert_close(mole_sum, 1.0, 1e-12);
		mass += share[j] * jar[j].sg;
		moles += share[j] * jar[j].sg / jar[j].molar_mass_gmol;
		if (j > 0)
			assert_true(jar[j].sg > jar[j - 1].sg);
	}
	for (size_t i = 0; i < run->charge.n; i++) {
		const struct bc_slice *slice = &run->charge.items[i];
		double sum = 0.0;
		for (int j = 0; j < 4; j++)
			sum += caught(&jar[j], share[j], slice->boiling_k);
		assert_close(sum, slice->volume_frac, 2e-9); /* traces are left out */
	}
	assert_close(share[0], place[1], 1e-6);
	assert_close(share[0] + share[1] + share[2] + share[3], 1.0, 1e-9);
	assert_close(mass, run->charge.sg, 2e-9);
	assert_close(moles, run->charge.sg / run->charge.molar_mass_gmol, 1e-9);
}

static void steps_do_not_matter(void **state)
{
	(void)state;
	/* for 100 steps against very fine ones: .01 .02 .03 .04 degC (computed) */
	static const double stages[] = {1, 2, 5, 10};
	static const double reflux[] = {0, 1, 2, 5};
	static const double worst_c[] = {0.011, 0.021, 0.041, 0.081};
	struct bc_run *fine = bc_run_new();
	struct bc_slices slices;
	make_oil(&slices);
	for (int c = 0; c < 4; c++) {
		struct bc_column still = column(stages[c], reflux[c]);
		struct bc_run_options options = {0.98, INFINITY, BC_STEPS_FINE, 0.0};
		assert_int_equal(bc_column_run(&slices, &still, &options, work, fine), BC_OK);
		assert_true(fine->n > 190);
		distil(still);
		for (int pct = 5; pct <= 95; pct += 5) {
			struct bc_run_point a = bc_run_at(run, pct / 100.0);
			struct bc_run_point b = bc_run_at(fine, pct / 100.0);
			assert_close(a.head_c, b.head_c, worst_c[c]);
			assert_close(a.pot_c, b.pot_c, worst_c[c]);
		}
		options.steps = BC_STEPS_COARSE;
		assert_int_equal(bc_column_run(&slices, &still, &options, work, fine), BC_OK);
		assert_true(fine->n < 56);
		for (int pct = 5; pct <= 95 && c < 3; pct += 5)
			assert_close(bc_run_at(fine, pct / 100.0).head_c,
				bc_run_at(run, pct / 100.0).head_c, 0.13);
	}
	bc_run_free(fine);
}

/* tests/reference/batch_still.py: the same still by a general root finder and a stiff integrator.
 */
static void a_second_writing_agrees(void **state)
{
	(void)state;
	static const struct {
		double stages, reflux, pressure_kpa, over, head_c, pot_c, second, fifth;
	} rows[] = {
		{1, 0, 101.325, 0.10, 159.801, 159.801, 0.033276, 0.002202},
		{1, 0, 101.325, 0.35, 192.910, 192.910, 0.107871, 0.016216},
		{1, 0, 101.325, 0.60, 231.276, 231.276, 0.129673, 0.063700},
		{1, 0, 101.325, 0.85, 286.497, 286.497, 0.130000, 0.170812},
		{2, 1, 101.325, 0.10, 135.221, 164.328, 0.037561, 0.000146},
		{2, 1, 101.325, 0.35, 181.016, 203.815, 0.123063, 0.004533},
		{2, 1, 101.325, 0.60, 223.948, 242.692, 0.129999, 0.048232},
		{2, 1, 101.325, 0.85, 288.061, 300.182, 0.130000, 0.183205},
		{4, 2.5, 101.325, 0.10, 122.891, 169.443, 0.037244, 0.000000},
		{4, 2.5, 101.325, 0.35, 174.029, 210.941, 0.129496, 0.000204},
		{4, 2.5, 101.325, 0.60, 220.241, 250.835, 0.130000, 0.025132},
		{4, 2.5, 101.325, 0.85, 288.290, 307.527, 0.130000, 0.189513},
		{4, 2.5, 21.7, 0.10, 76.082, 115.150, 0.034107, 0.000000},
		{4, 2.5, 21.7, 0.35, 120.493, 154.372, 0.129945, 0.000032},
		{4, 2.5, 21.7, 0.60, 166.647, 192.615, 0.130000, 0.016513},
		{4, 2.5, 21.7, 0.85, 227.430, 244.165, 0.130000, 0.189934},
		{3, INFINITY, 101.325, 0.10, 125.518, 171.645, 0.029264, 0.000001},
		{3, INFINITY, 101.325, 0.35, 170.045, 211.548, 0.130000, 0.000393},
		{3, INFINITY, 101.325, 0.60, 215.128, 252.109, 0.130000, 0.020563},
		{3, INFINITY, 101.325, 0.85, 290.230, 307.898, 0.130000, 0.190000},
	};
	const double boiling_k[] = {365.0, 398.0, 431.0, 470.0, 512.0, 561.0, 618.0};
	const double volume[] = {0.07, 0.13, 0.18, 0.22, 0.19, 0.13, 0.08};
	const struct bc_run_options options = {0.9, INFINITY, BC_STEPS_FINE, 1e-6};
	double sg[7];
	struct bc_slices slices;
	for (int i = 0; i < 7; i++)
		sg[i] = cbrt(1.8 * boiling_k[i]) / 11.7;
	bc_slices_from_components(boiling_k, sg, volume, 7, &slices);
	for (size_t r = 0; r < sizeof rows / sizeof rows[0]; r++) {
		struct bc_column still = {
			rows[r].stages, rows[r].reflux, NAN, rows[r].pressure_kpa};
		assert_int_equal(bc_column_run(&slices, &still, &options, work, run), BC_OK);
		struct bc_run_point point = bc_run_at(run, rows[r].over);
		assert_close(point.head_c, rows[r].head_c, 0.03);
		assert_close(point.pot_c, rows[r].pot_c, 0.03);
		assert_close(bc_run_over(run, 1, rows[r].over), rows[r].second, 2e-5);
		assert_close(bc_run_over(run, 4, rows[r].over), rows[r].fifth, 2e-5);
	}
}

static void a_pure_component_boils_at_its_boiling_point(void **state)
{
	(void)state;
	const double boiling_k[] = {447.3};
	const double sg[] = {0.7349};
	const double volume[] = {1.0};
	struct bc_slices slices;
	bc_slices_from_components(boiling_k, sg, volume, 1, &slices);
	const struct bc_column stills[] = {column(1, 0), column(7, 3), effective(2.2)};
	for (size_t s = 0; s < 3; s++) {
		assert_int_equal(bc_column_run(&slices, &stills[s], &whole, work, run), BC_OK);
		for (size_t node = 0; node < run->n; node++) {
			assert_close(run->head_c[node], 174.15, 1e-3);
			assert_close(run->pot_c[node], 174.15, 1e-3);
		}
	}
}

static void two_pure_components_come_over_one_by_one(void **state)
{
	(void)state;
	const double boiling_k[] = {383.78, 560.0};
	const double sg[] = {0.8723, 0.7763};
	const double volume[] = {0.37, 0.63};
	struct bc_slices slices;
	struct bc_column still = column(12, 9.0);
	bc_slices_from_components(boiling_k, sg, volume, 2, &slices);
	assert_int_equal(bc_column_run(&slices, &still, &whole, work, run), BC_OK);
	assert_close(bc_run_at(run, 0.2).head_c, 110.63, 0.01);
	assert_close(bc_run_at(run, 0.7).head_c, 286.85, 0.01);
	assert_close(bc_run_over(run, 0, 0.35), 0.35, 1e-4);
}

static void reflux_without_a_column_and_a_column_without_reflux_are_the_bare_pot(void **state)
{
	(void)state;
	distil(column(1, 0));
	struct bc_run_point bare = bc_run_at(run, 0.331);
	distil(column(1, 7));
	assert_close(bc_run_at(run, 0.331).head_c, bare.head_c, 1e-9);
	distil(column(6, 0));
	assert_close(bc_run_at(run, 0.331).head_c, bare.head_c, 1e-9);
	distil(effective(1.0));
	assert_close(bc_run_at(run, 0.331).pot_c, bare.pot_c, 1e-6);
	/* a bare pot's vapour has the temperature of its liquid */
	assert_close(bc_run_at(run, 0.331).head_c, bare.head_c, 1e-5);
	assert_close(bare.head_c, bare.pot_c, 1e-9);
}

static void more_plates_part_better(void **state)
{
	(void)state;
	double head_c = INFINITY;
	double pot_c = 0.0;
	for (int stages = 1; stages <= 16; stages *= 2) {
		distil(column(stages, 3.0));
		struct bc_run_point point = bc_run_at(run, 0.1);
		assert_true(point.head_c < head_c);
		assert_true(point.pot_c > pot_c);
		head_c = point.head_c;
		pot_c = point.pot_c;
	}
	assert_true(pot_c - head_c > 40.0);
}

static void the_run_ends_where_the_pot_has_its_limit(void **state)
{
	(void)state;
	struct bc_slices slices;
	struct bc_run_options options = {0.98, 331.7, BC_STEPS_NORMAL, 0.0};
	struct bc_column still = column(2, 1);
	make_oil(&slices);
	distil(still);
	double free_frac = bc_run_frac_at_pot(run, 331.7);
	assert_int_equal(run->end, BC_RUN_AT_STOP);
	assert_int_equal(bc_column_run(&slices, &still, &options, work, run), BC_OK);
	assert_int_equal(run->end, BC_RUN_AT_POT_LIMIT);
	assert_close(run->pot_c[run->n - 1], 331.7, 1e-3);
	assert_close(run->over_frac[run->n - 1], free_frac, 1e-4);
	assert_nan(bc_run_at(run, free_frac + 0.01).head_c);
	/* wherever in a step the limit falls */
	for (int i = 0; i < 40; i++) {
		options.pot_limit_c = 305.13 + 0.37 * i;
		assert_int_equal(bc_column_run(&slices, &still, &options, work, run), BC_OK);
		assert_close(run->pot_c[run->n - 1], options.pot_limit_c, 1e-3);
	}
	options.pot_limit_c = 93.0; /* it boils above that from the start */
	assert_int_equal(bc_column_run(&slices, &still, &options, work, run), BC_OK);
	assert_int_equal(run->n, 1);
	assert_int_equal(run->end, BC_RUN_AT_POT_LIMIT);
	struct bc_slices jar;
	assert_int_equal(bc_run_jar(run, 0.0, 0.1, &jar, NULL), BC_BAD_DOMAIN);
	assert_int_equal(bc_run_pot(run, 0.0, &jar, NULL), BC_OK);
	assert_close(jar.sg, slices.sg, 1e-12);
}

static void vacuum_cools_the_pot_and_the_head_is_brought_back(void **state)
{
	(void)state;
	struct bc_slices slices;
	make_oil(&slices);
	struct bc_column still = column(3, 2);
	distil(still);
	struct bc_run_point at_sea = bc_run_at(run, 0.9);
	for (int pct = 10; pct <= 90; pct += 20) {
		double head_c = bc_run_at(run, pct / 100.0).head_c;
		assert_close(bc_run_head_normal_c(run, pct / 100.0), head_c, 0.05);
	}
	still.pressure_kpa = 13.3;
	assert_int_equal(bc_column_run(&slices, &still, &whole, work, run), BC_OK);
	struct bc_run_point here = bc_run_at(run, 0.9);
	/* a wide oil's pot at 90 %: 369 at 101.3 kPa, 288 at 13.3 kPa (computed for another one) */
	assert_close(at_sea.pot_c - here.pot_c, 81.0, 8.0);
	assert_close(bc_run_head_normal_c(run, 0.9), at_sea.head_c, 8.0);
}

static void places_are_found_again(void **state)
{
	(void)state;
	distil(column(2, 1));
	for (int i = 1; i < 20; i++) {
		double over = 0.0487 * i;
		struct bc_run_point point = bc_run_at(run, over);
		assert_close(bc_run_frac_at_head(run, point.head_c), over, 1e-6);
		assert_close(bc_run_frac_at_pot(run, point.pot_c), over, 1e-6);
		assert_close(bc_run_frac_at_mass(run, bc_run_mass_frac(run, over)), over, 1e-9);
		assert_true(bc_run_mass_frac(run, over) < over);
	}
	assert_close(bc_run_frac_at_head(run, 10.0), 0.0, 0.0);
	assert_nan(bc_run_frac_at_head(run, 640.0));
	assert_nan(bc_run_frac_at_mass(run, 0.999));
	assert_nan(bc_run_at(run, 0.99).head_c);
	assert_nan(bc_run_at(run, -0.01).head_c);
	assert_nan(bc_run_over(run, 64, 0.1));
}

static void what_is_no_still_is_refused(void **state)
{
	(void)state;
	const struct bc_column bad[] = {column(2.5, 1), column(0, 1), column(61, 1),
		column(3, -0.1), column(3, NAN), column(NAN, 1), effective(0.0),
		effective(INFINITY), {2, 1, NAN, 0.0}, {2, 1, NAN, NAN}};
	struct bc_slices slices;
	make_oil(&slices);
	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		assert_int_equal(bc_column_run(&slices, &bad[i], &whole, work, run), BC_BAD_DOMAIN);
		assert_int_equal(run->n, 0);
		assert_nan(bc_run_at(run, 0.0).head_c);
	}
	struct bc_column still = column(2, 1);
	struct bc_run_options options = whole;
	options.stop_frac = 0.999;
	assert_int_equal(bc_column_run(&slices, &still, &options, work, run), BC_BAD_DOMAIN);
	options.stop_frac = 0.0;
	assert_int_equal(bc_column_run(&slices, &still, &options, work, run), BC_BAD_DOMAIN);
	slices.n = 0;
	assert_int_equal(bc_column_run(&slices, &still, &whole, work, run), BC_BAD_DOMAIN);
}

static void the_k_table_is_the_formula(void **state)
{
	(void)state;
	struct bc_slices slices;
	static struct bc_k_table table;
	double k[BC_SLICES_MAX];
	double slope[BC_SLICES_MAX];
	double up[BC_SLICES_MAX];
	make_oil(&slices);
	assert_int_equal(bc_k_table_of_slices(&slices, 87.3, BC_K_ROW_K, &table), BC_OK);
	for (double temp_k = table.low_k + 0.77; temp_k < table.high_k - 1.0; temp_k += 3.37) {
		bc_k_table_at(&table, temp_k, k, slope);
		bc_k_table_at(&table, temp_k + 1e-4, up, slope);
		bc_k_table_at(&table, temp_k, k, slope);
		for (size_t i = 0; i < slices.n; i++) {
			const struct bc_slice *slice = &slices.items[i];
			if (temp_k > 1.3 * slice->critical_k - 2.1)
				continue;
			double exact = bc_slice_vapour_bar(slice, temp_k) / 0.873;
			assert_close(k[i] / exact, 1.0, exact > 1e-6 ? 5e-6 : 5e-5);
			assert_close(slope[i] * 1e-4 / (up[i] - k[i]), 1.0, 1e-3);
		}
	}
}

static void a_boiloff_is_simulated_on_the_d86_basis(void **state)
{
	(void)state;
	struct bc_slices slices;
	const double pct[] = {10, 50, 90};
	double corrected_c[3];
	struct bc_column flask = bc_flask_column();
	make_oil(&slices);
	assert_int_equal(
		bc_simulated_boiloff(&slices, &flask, pct, 3, corrected_c, work, run), BC_OK);
	double true_c = bc_run_at(run, 0.5).head_c;
	assert_close(corrected_c[1], true_c - 1.24e-4 * (true_c - 20.0) * (true_c - 20.0), 1e-9);
	assert_close(bc_run_at(run, 0.1).head_c, 139.4, 10.0);
	const double falling[] = {50, 10};
	assert_int_equal(bc_simulated_boiloff(&slices, &flask, falling, 2, corrected_c, work, run),
		BC_BAD_DOMAIN);
	assert_nan(corrected_c[1]);
}

/* A number 0..1, the same in every run. */
static double chance(unsigned long *seed)
{
	*seed = *seed * 1103515245UL + 12345UL;
	return (double)((*seed >> 16) & 0x7fff) / 32768.0;
}

static bool random_oil(unsigned long *seed, struct bc_slices *slices)
{
	struct bc_tbp_curve curve;
	double temp_c[BC_TBP_POINTS];
	double ibp_c = -10.0 + 200.0 * chance(seed);
	double width_c = 10.0 + 350.0 * chance(seed);
	double shape = exp(2.0 * chance(seed) - 1.0);
	double step_c = chance(seed) < 0.3 ? 120.0 * chance(seed) : 0.0;
	for (size_t i = 0; i < BC_TBP_POINTS; i++)
		temp_c[i] = ibp_c + width_c * pow(bc_tbp_point_pct[i] / 100.0, shape) +
			    (i > 2 ? step_c : 0.0);
	bool tbp = chance(seed) < 0.5;
	bc_tbp_curve_from_points(bc_tbp_point_pct, temp_c, BC_TBP_POINTS, tbp, &curve);
	double sg = 0.7 + 0.2 * chance(seed);
	return bc_slices_from_tbp(&curve, sg, 40, 0.0, 95.0, slices) >= 0;
}

static void random_oils_never_fail(void **state)
{
	(void)state;
	int wanted = getenv("BOILCUT_LONG") ? 10000 : 200;
	unsigned long seed = 20467;
	for (int done = 0; done < wanted;) {
		struct bc_slices slices;
		bool made = random_oil(&seed, &slices);
		double stages = 1.0 + floor(30.0 * chance(&seed));
		double draw = chance(&seed);
		double reflux = draw > 0.9 ? (double)INFINITY : 0.2 * exp(draw / 0.9 * log(250.0));
		struct bc_column still = column(stages, reflux);
		if (chance(&seed) < 0.3)
			still.pressure_kpa = 3.0 + 98.0 * chance(&seed);
		if (!made)
			continue; /* a slice without a critical point */
		enum bc_status status = bc_column_run(&slices, &still, &whole, work, run);
		if (bc_failed(status))
			fail_msg("oil %d, %g stages, reflux %g, %g kPa: %s", done, stages, reflux,
				still.pressure_kpa, bc_status_text(status));
		assert_int_equal(run->n, 102);
		done++;
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(nothing_is_lost),
		cmocka_unit_test(jars_and_pot_make_the_charge_again),
		cmocka_unit_test(steps_do_not_matter),
		cmocka_unit_test(a_second_writing_agrees),
		cmocka_unit_test(a_pure_component_boils_at_its_boiling_point),
		cmocka_unit_test(two_pure_components_come_over_one_by_one),
		cmocka_unit_test(
			reflux_without_a_column_and_a_column_without_reflux_are_the_bare_pot),
		cmocka_unit_test(more_plates_part_better),
		cmocka_unit_test(the_run_ends_where_the_pot_has_its_limit),
		cmocka_unit_test(vacuum_cools_the_pot_and_the_head_is_brought_back),
		cmocka_unit_test(places_are_found_again),
		cmocka_unit_test(what_is_no_still_is_refused),
		cmocka_unit_test(the_k_table_is_the_formula),
		cmocka_unit_test(a_boiloff_is_simulated_on_the_d86_basis),
		cmocka_unit_test(random_oils_never_fail),
	};
	return cmocka_run_group_tests(tests, set_up, tear_down);
}
