/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bounds by draws: where they go, that they hold what they should, and what causes the doubt. */
#include <string.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_statistics_double.h>

#include "base/memory.h"
#include "judgement/judgement.h"
#include "judgement/spread_inputs.h"
#include "judgement/spread_oil.h"
#include "judgement/spread_table.h"
#include "unit/unit.h"

#include "bench/simulated_samples.h"

/* A steady middle distillate, everything stated. */
#define STATED                                                                                     \
	"history,rerun\ndensity,832 kg/m3\nresidue,1.2 mL\nloss,0.4 mL\n"                          \
	"thermometer,glass d86\nice,0.1 C\nsteam,99.8 C\n"
#define PRESSURE "barometer,101.3 kPa\n"
#define TABLE                                                                                      \
	"recovered (%),head (C)\nIBP,196\n5,214\n10,222\n20,234\n30,245\n40,255\n50,265\n"         \
	"60,276\n70,288\n80,302\n90,321\n95,335\nFBP,349\n"

struct run {
	struct bc_sample *sample;
	struct bc_judgement judgement;
};

static struct bc_limits *limits;
static const char *standard; /* asked for; NULL: none */

static int set_up(void **state)
{
	(void)state;
	gsl_set_error_handler_off();
	return bc_failed(bc_limits_default(NULL, &limits)) ? -1 : 0;
}

static int tear_down(void **state)
{
	(void)state;
	bc_limits_free(limits);
	return 0;
}

static struct run *judge(const char *head, const char *table, size_t draws, unsigned long seed)
{
	struct run *run = bc_alloc(sizeof *run);
	char text[2048];
	const struct bc_judge_options options = {.limits = limits,
		.want = BC_GRADES,
		.standard = standard,
		.draws = draws,
		.seed = seed};
	int n = snprintf(text, sizeof text, "%s\n%s", head, table);
	assert_non_null(run);
	bc_judgement_init(&run->judgement);
	assert_int_equal(bc_sample_read(text, (size_t)n, "test.csv", NULL, &run->sample), BC_OK);
	assert_int_equal(bc_judge(run->sample, &options, &run->judgement), BC_OK);
	return run;
}

static void forget(struct run *run)
{
	bc_judgement_release(&run->judgement);
	bc_sample_free(run->sample);
	bc_free(run);
}

static double width(const struct bc_estimate *estimate) { return estimate->high - estimate->low; }

static void assert_holds_value(const struct bc_estimate *estimate)
{
	if (!bc_estimate_present(estimate))
		return;
	assert_true(isnan(estimate->low) || estimate->low <= estimate->value);
	assert_true(estimate->high >= estimate->value);
}

/* The middle of the curve, where both are in the same position: within a quarter. At the front the
 * draws know more: a flask at home is no standard one. */
static void test_beside_derivatives(void **state)
{
	(void)state;
	struct run *drawn = judge(STATED PRESSURE, TABLE, 1000, 1);
	struct run *derived = judge(STATED PRESSURE, TABLE, 0, 1);
	const struct bc_judgement *a = &drawn->judgement;
	const struct bc_judgement *b = &derived->judgement;
	assert_null(b->spread);
	for (size_t i = BC_AT_T40; i <= BC_AT_T95; i++) {
		double ratio = width(&a->points.at[i]) / width(&b->points.at[i]);
		assert_true(ratio > 0.75 && ratio < 1.35);
		assert_true(a->points.at[i].value == b->points.at[i].value);
	}
	assert_true(width(&a->points.at[BC_AT_T10]) > 1.2 * width(&b->points.at[BC_AT_T10]));
	static const enum bc_property same[] = {BC_FLASH_VAPOUR, BC_CETANE_INDEX, BC_VISC40,
		BC_MOLAR_MASS, BC_NET_HEAT, BC_VAPOUR_PRESSURE_37_8};
	for (size_t i = 0; i < sizeof same / sizeof same[0]; i++) {
		double ratio = width(&a->oil.property[same[i]]) / width(&b->oil.property[same[i]]);
		assert_true(ratio > 0.8 && ratio < 1.25);
	}
	/* a measured density keeps its own bounds */
	assert_true(width(&a->oil.property[BC_DENSITY15]) == width(&b->oil.property[BC_DENSITY15]));
	forget(drawn);
	forget(derived);
}

static void test_value_inside(void **state)
{
	(void)state;
	static const char *const heads[] = {STATED PRESSURE, STATED, "history,rerun\n", "",
		"history,aired\nthermometer,probe\naltitude,612 m\n"};
	for (size_t k = 0; k < sizeof heads / sizeof heads[0]; k++) {
		struct run *run = judge(heads[k], TABLE, 200, 3);
		const struct bc_judgement *judged = &run->judgement;
		for (size_t i = 0; i < BC_POINTS; i++)
			assert_holds_value(&judged->points.at[i]);
		for (size_t i = 0; i < BC_RECOVERED_AT; i++)
			assert_holds_value(&judged->points.recovered_at[i]);
		for (size_t i = 0; i < BC_EVAPORATED_AT; i++)
			assert_holds_value(&judged->points.evaporated_at[i]);
		for (size_t i = 0; i < BC_SHARES; i++)
			assert_holds_value(&judged->shares.pct[i]);
		for (size_t i = 0; i < BC_PROPERTIES; i++)
			assert_holds_value(&judged->oil.property[i]);
		for (size_t i = 1; i < BC_BAND_POINTS; i++)
			assert_true(
				judged->spread->band_low_c[i] <= judged->spread->band_high_c[i]);
		/* without a claim nothing is claimed */
		assert_true(judged->oil.flash_claim == !isnan(judged->oil.property[BC_FLASH].low));
		forget(run);
	}
}

/* A residue that nobody measured moves the FBP, and nothing boils behind it. */
static void test_end_not_measured(void **state)
{
	(void)state;
	struct run *run = judge("history,rerun\nthermometer,glass d86\n" PRESSURE,
		"recovered (%),head (C)\nIBP,149\n10,167\n50,196\n90,237\nFBP,263\n", 400, 1);
	const struct bc_estimate *t95 = &run->judgement.points.at[BC_AT_T95];
	assert_true(bc_estimate_present(t95));
	assert_true(t95->high < run->judgement.points.at[BC_AT_FBP].high);
	forget(run);
}

static void test_seed(void **state)
{
	(void)state;
	struct run *a = judge(STATED PRESSURE, TABLE, 500, 1);
	struct run *b = judge(STATED PRESSURE, TABLE, 500, 1);
	struct run *c = judge(STATED PRESSURE, TABLE, 500, 2);
	const struct bc_estimate *t90 = &a->judgement.points.at[BC_AT_T90];
	const struct bc_estimate *other = &c->judgement.points.at[BC_AT_T90];
	assert_memory_equal(&a->judgement.points, &b->judgement.points, sizeof a->judgement.points);
	assert_true(t90->low != other->low);
	assert_close(t90->low, other->low, 0.15 * width(t90));
	assert_close(t90->high, other->high, 0.15 * width(t90));
	forget(a);
	forget(b);
	forget(c);
}

/* What nobody stated reaches to one side. */
static void test_one_sided(void **state)
{
	(void)state;
	struct run *known = judge(STATED PRESSURE, TABLE, 1000, 1);
	struct run *pressure = judge(STATED, TABLE, 1000, 1);
	struct run *kind =
		judge("history,rerun\ndensity,832 kg/m3\n" PRESSURE "reading error,1 K\n", TABLE,
			1000, 1);
	const struct bc_estimate *at = &known->judgement.points.at[BC_AT_T50];
	const struct bc_estimate *high = &pressure->judgement.points.at[BC_AT_T50];
	const struct bc_estimate *low = &kind->judgement.points.at[BC_AT_T50];
	assert_close(at->high - at->value, at->value - at->low, 0.25 * width(at));
	assert_true(high->high - high->value > 1.5 * (high->value - high->low));
	assert_true(low->value - low->low > 2.0 * (low->high - low->value));
	/* delta at 265 degC is 7.4 */
	assert_close(low->value - low->low, 7.4 + 0.8 * (at->value - at->low), 1.5);
	forget(known);
	forget(pressure);
	forget(kind);
}

/* Stated errors take the place of the program's own. */
static void test_stated_errors(void **state)
{
	(void)state;
	static const size_t modes[] = {0, 400};
	for (size_t k = 0; k < 2; k++) {
		struct run *plain = judge(STATED PRESSURE, TABLE, modes[k], 1);
		struct run *reading =
			judge(STATED PRESSURE "reading error,7 K\n", TABLE, modes[k], 1);
		struct run *volume =
			judge(STATED PRESSURE "volume error,6 mL\n", TABLE, modes[k], 1);
		struct run *pressure =
			judge(STATED PRESSURE "pressure error,9 kPa\n", TABLE, modes[k], 1);
		struct run *density =
			judge(STATED PRESSURE "density error,23 kg/m3\n", TABLE, modes[k], 1);
		double w = width(&plain->judgement.points.at[BC_AT_T50]);
		assert_true(width(&reading->judgement.points.at[BC_AT_T50]) > 1.5 * w);
		assert_true(width(&volume->judgement.points.at[BC_AT_T50]) > 1.5 * w);
		assert_true(width(&pressure->judgement.points.at[BC_AT_T50]) > 1.5 * w);
		assert_close(width(&density->judgement.oil.property[BC_DENSITY15]), 46.0, 1e-9);
		assert_true(width(&density->judgement.oil.property[BC_CETANE_INDEX]) >
			    1.3 * width(&plain->judgement.oil.property[BC_CETANE_INDEX]));
		forget(plain);
		forget(reading);
		forget(volume);
		forget(pressure);
		forget(density);
	}
}

static void test_chances(void **state)
{
	(void)state;
	struct run *run = judge("history,rerun\n" PRESSURE, TABLE, 1000, 1);
	size_t joint = 0;
	for (size_t i = 0; i < run->judgement.grades.n; i++) {
		const struct bc_grade *grade = &run->judgement.grades.items[i];
		double least = 1.0;
		double product = 1.0;
		for (size_t k = 0; k < grade->n_criteria; k++) {
			const struct bc_criterion *criterion = &grade->criteria[k];
			double chance = criterion->chance_within;
			if (!bc_limit_counts(criterion->limit, true))
				continue;
			least = fmin(least, chance);
			product *= chance;
			if (isnan(chance) || criterion->value.how == BC_NOT_VALID)
				continue;
			/* a safety criterion asks for its unfavourable bound too */
			if (criterion->state == BC_STATE_WITHIN &&
				criterion->limit->role == BC_ROLE_SAFETY)
				assert_true(bc_limit_met(criterion->limit, criterion->value.low));
			if (criterion->state == BC_STATE_WITHIN)
				assert_true(chance >= 0.95);
			assert_true((criterion->state == BC_STATE_OUTSIDE) == (chance <= 0.05));
		}
		if (isnan(grade->chance_all_within) || isnan(product))
			continue;
		assert_true(grade->chance_all_within <= least + 1e-12);
		joint += fabs(grade->chance_all_within - product) > 1e-9;
	}
	assert_true(joint > 0); /* T90 and T95 go together: no product */
	forget(run);
}

/* A draw that tells no flash keeps no limit of it. */
static void test_draws_without_a_figure_keep_nothing(void **state)
{
	(void)state;
	enum { DRAWS = 200 };
	struct run *run = judge(STATED PRESSURE, TABLE, 0, 1);
	struct bc_judgement *judged = &run->judgement;
	struct bc_spread spread = {.draws = DRAWS};
	assert_int_equal(bc_draws_new(DRAWS, limits, &spread.table), BC_OK);
	const struct bc_evidence evidence = {.points = &judged->points,
		.reader = &judged->reader,
		.oil = &judged->oil,
		.boiloff = &judged->boiloff,
		.sample = run->sample};
	struct bc_oil other = judged->oil;
	struct bc_evidence without = evidence;
	without.oil = &other;
	other.property[BC_FLASH].value = 20.0;
	for (size_t k = 0; k < DRAWS; k++) {
		if (k == 120)
			other.property[BC_FLASH].value = NAN;
		bc_draws_hold(spread.table, k, k < 60 ? &evidence : &without);
	}
	assert_int_equal(bc_spread_weigh(&spread, &judged->grades), BC_OK);
	size_t seen = 0;
	for (size_t i = 0; i < judged->grades.n; i++) {
		const struct bc_grade *grade = &judged->grades.items[i];
		for (size_t k = 0; k < grade->n_criteria; k++) {
			const struct bc_criterion *criterion = &grade->criteria[k];
			if (!bc_limit_counts(criterion->limit, true) ||
				isnan(criterion->chance_within) || isnan(grade->chance_all_within))
				continue;
			assert_true(grade->chance_all_within <= criterion->chance_within + 1e-12);
			seen += strcmp(criterion->limit->property, "flash_point") == 0;
		}
	}
	assert_true(seen > 0);
	bc_draws_free(spread.table);
	forget(run);
}

/* Of few draws chance may cut the tail off that holds the danger. */
static void test_few_draws_never_raise_the_flash(void **state)
{
	(void)state;
	struct run *derived = judge(STATED PRESSURE, TABLE, 0, 1);
	for (unsigned long seed = 1; seed < 40; seed++) {
		struct run *few = judge(STATED PRESSURE, TABLE, 100, seed);
		assert_true(few->judgement.oil.property[BC_FLASH].low <=
			    derived->judgement.oil.property[BC_FLASH].low + 1e-9);
		assert_true(few->judgement.oil.property[BC_FLASH_VAPOUR].low <=
			    derived->judgement.oil.property[BC_FLASH_VAPOUR].low + 1e-9);
		forget(few);
	}
	forget(derived);
}

/* An open cup above the estimate, and a cup in wet oil, leave the bounds as they are. */
static void test_cup_that_says_nothing_narrows_nothing(void **state)
{
	(void)state;
	static const char *const heads[][2] = {
		{STATED PRESSURE, STATED PRESSURE "flash,127 C open cup\n"},
		{STATED PRESSURE "water,8127 mg/kg\n",
			STATED PRESSURE "water,8127 mg/kg\nflash,71.3 C\n"}};
	for (size_t k = 0; k < 2; k++) {
		struct run *without = judge(heads[k][0], TABLE, 1000, 1);
		struct run *with = judge(heads[k][1], TABLE, 1000, 1);
		const struct bc_estimate *a = &without->judgement.oil.property[BC_FLASH];
		const struct bc_estimate *b = &with->judgement.oil.property[BC_FLASH];
		assert_int_equal(b->how, BC_ESTIMATED);
		assert_close(a->value, b->value, 1e-9);
		assert_close(a->high, b->high, 1e-9);
		assert_true(isnan(a->low) ? isnan(b->low) : fabs(a->low - b->low) <= 1e-9);
		forget(without);
		forget(with);
	}
	/* one below it caps still */
	struct run *capped = judge(STATED PRESSURE "flash,41.7 C open cup\n", TABLE, 1000, 1);
	assert_true(capped->judgement.oil.property[BC_FLASH].low <= 41.7);
	forget(capped);
}

static const char *cause_of(const struct run *run)
{
	const struct bc_doubt *doubt = &run->judgement.spread->doubt;
	return doubt->criterion && doubt->n > 0 ? bc_cause_keys[doubt->causes[0].input] : "none";
}

static void test_doubt(void **state)
{
	(void)state;
	/* T95 of EN 590, 360 degC, and a pressure that is hardly known */
#define NEAR                                                                                       \
	"recovered (%),head (C)\nIBP,196\n5,214\n10,222\n20,234\n30,245\n40,255\n50,268\n"         \
	"60,280\n70,297\n80,313\n90,337\n95,354\nFBP,366\n"
	standard = "EN 590 temperate A-C";
	struct run *pressure = judge(
		STATED "flash,71 C\nviscosity,3.1 mm2/s\npressure error,12 kPa\n", NEAR, 1000, 1);
	assert_string_equal(pressure->judgement.spread->doubt.criterion->limit->property, "T95");
	assert_string_equal(cause_of(pressure), "pressure");
	assert_string_equal(pressure->judgement.spread->doubt.measure_next, "a barometer");
	/* everything stated, but for a flash near its limit that only a formula tells */
	struct run *flash = judge(STATED PRESSURE "viscosity,3.1 mm2/s\n",
		"recovered (%),head (C)\nIBP,166\n5,194\n10,205\n20,224\n30,238\n40,249\n50,261\n"
		"60,272\n70,284\n80,298\n90,316\n95,330\nFBP,344\n",
		1000, 1);
	assert_string_equal(
		flash->judgement.spread->doubt.criterion->limit->property, "flash_point");
	assert_string_equal(cause_of(flash), "method");
	assert_string_equal(flash->judgement.spread->doubt.measure_next, "a closed-cup flash test");
	double sum = 0.0;
	for (size_t i = 0; i < flash->judgement.spread->doubt.n; i++)
		sum += flash->judgement.spread->doubt.causes[i].share;
	assert_true(sum > 0.8 && sum < 1.1);
	forget(pressure);
	forget(flash);
	standard = NULL;
}

/* Few samples, so wide limits: 60 of which 95 % should be inside; fewer than 0.95 - 4 sigma = 0.84
 * is a fault. tests/bench/coverage_study.c tells it finely. */
static void test_coverage(void **state)
{
	(void)state;
	enum { SAMPLES = 60 };
	struct simulator s = {
		.random = bc_random_new(41), .work = bc_still_work_new(), .run = bc_run_new()};
	const struct bc_judge_options options = {
		.limits = limits, .want = BC_GRADES, .draws = 150, .seed = 1};
	size_t n = 0;
	size_t inside[4] = {0};
	while (n < SAMPLES) {
		struct simulated truth;
		struct bc_sample *sample = NULL;
		struct bc_judgement judgement;
		if (!simulate(&s, &truth))
			continue;
		bc_judgement_init(&judgement);
		assert_int_equal(
			bc_sample_read(truth.text, strlen(truth.text), "simulated", NULL, &sample),
			BC_OK);
		assert_int_equal(bc_judge(sample, &options, &judgement), BC_OK);
		const struct bc_estimate *estimates[4] = {&judgement.points.at[BC_AT_T10],
			&judgement.points.at[BC_AT_T50], &judgement.points.at[BC_AT_T90],
			&judgement.oil.property[BC_DENSITY15]};
		const double truths[4] = {
			truth.t_c[1], truth.t_c[5], truth.t_c[9], truth.density15_kgm3};
		for (size_t i = 0; i < 4; i++)
			inside[i] +=
				estimates[i]->low <= truths[i] && truths[i] <= estimates[i]->high;
		n++;
		bc_judgement_release(&judgement);
		bc_sample_free(sample);
		bc_free(truth.text);
	}
	for (size_t i = 0; i < 4; i++)
		assert_true((double)inside[i] >= 0.84 * SAMPLES);
	bc_run_free(s.run);
	bc_still_work_free(s.work);
	bc_random_free(s.random);
}

/* ---- draws through an inversion */

enum { FULL = 50, PLACES = 5 };
static const double place_frac[PLACES] = {0.1, 0.3, 0.5, 0.7, 0.9};

struct inverting {
	struct bc_inversion_input input;
	double pct[BC_INVERSION_READINGS_MAX];
	double head_c[BC_INVERSION_READINGS_MAX];
};

static void take_readings(const struct bc_boiloff *boiloff, struct inverting *inverting)
{
	size_t n = 0;
	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		if (!point->used || point->kind != BC_READING_AMOUNT)
			continue;
		inverting->pct[n] = point->recovered_pct;
		inverting->head_c[n++] = point->corrected_c;
	}
	inverting->input = (struct bc_inversion_input){.apparatus = bc_flask_column(),
		.front = BC_FRONT_FLASK,
		.n = n,
		.pct = inverting->pct,
		.head_c = inverting->head_c,
		.ibp_c = boiloff->ibp_c,
		.head_sigma_c = 1.0,
		.pot_sigma_c = 1.0,
		.sg = 0.83};
}

/* The spread of true boiling points by one inversion's linear answer, beside as many inversions of
 * the drawn readings as there is patience for. */
static void test_inversion(void **state)
{
	(void)state;
	struct run *run = judge(STATED PRESSURE, TABLE, 0, 1);
	const struct bc_reader *reader = &run->judgement.reader;
	struct bc_inversion_work *work = bc_inversion_work_new();
	struct bc_inversion *central = bc_alloc(sizeof *central);
	struct bc_inversion *full = bc_alloc(sizeof *full);
	struct bc_random *random = bc_random_new(5);
	struct inverting inverting;
	struct bc_inputs inputs;
	struct bc_drawn drawn;
	static double linear_c[PLACES][FULL];
	static double full_c[PLACES][FULL];
	take_readings(&run->judgement.boiloff, &inverting);
	assert_false(bc_failed(bc_invert(&inverting.input, work, central)));
	assert_int_equal(bc_inputs_new(reader, &inputs), BC_OK);
	assert_int_equal(bc_drawn_new(&inputs, &drawn), BC_OK);
	double *shared = bc_shared_new(random, FULL);
	double pct[BC_INVERSION_READINGS_MAX];
	memcpy(pct, inverting.pct, sizeof pct);
	for (size_t k = 0; k < FULL; k++) {
		struct bc_tbp_curve curve;
		struct bc_slices slices;
		bc_drawn_next(random, shared, FULL, k, &drawn);
		assert_int_equal(bc_drawn_make(&inputs, &drawn), BC_OK);
		assert_false(bc_failed(
			bc_inversion_drawn(central, pct, &inputs, &drawn, 0.83, &curve, &slices)));
		for (size_t i = 0; i < inverting.input.n; i++)
			inverting.head_c[i] = bc_drawn_temp_c(&inputs, &drawn, pct[i]);
		inverting.input.ibp_c = drawn.boiloff.ibp_c;
		assert_false(bc_failed(bc_invert(&inverting.input, work, full)));
		for (size_t i = 0; i < PLACES; i++) {
			linear_c[i][k] = bc_slices_temp_k(&slices, place_frac[i]);
			full_c[i][k] = bc_slices_temp_k(&full->slices, place_frac[i]);
		}
	}
	for (size_t i = 0; i < PLACES; i++) {
		double one = gsl_stats_sd(linear_c[i], 1, FULL);
		double other = gsl_stats_sd(full_c[i], 1, FULL);
		assert_true(one > 0.7 * other && one < 1.4 * other);
		assert_true(gsl_stats_correlation(linear_c[i], 1, full_c[i], 1, FULL) > 0.85);
		assert_close(gsl_stats_mean(linear_c[i], 1, FULL),
			gsl_stats_mean(full_c[i], 1, FULL), 0.5 * other);
	}
	bc_free(shared);
	bc_drawn_release(&drawn);
	bc_inputs_release(&inputs);
	bc_random_free(random);
	bc_free(full);
	bc_free(central);
	bc_inversion_work_free(work);
	forget(run);
}

/* The density of an inverted oil is drawn around its own estimate: not pushed to one side. */
static void test_inverted_oil_is_drawn_around_itself(void **state)
{
	(void)state;
	struct run *run = judge("history,rerun\nresidue,1.2 mL\nloss,0.4 mL\napparatus,column 2 1\n"
				"thermometer,glass d86\nice,0.1 C\nsteam,99.8 C\n" PRESSURE,
		"recovered (%),head (C)\nIBP,151\n5,178\n10,189\n20,209\n30,226\n40,242\n"
		"50,258\n60,275\n70,293\n80,313\n90,339\n95,357\nFBP,371\n",
		1000, 1);
	assert_true(run->judgement.by_inversion);
	const struct bc_estimate *density = &run->judgement.oil.property[BC_DENSITY15];
	print_message("density %.1f, %.1f to %.1f\n", density->value, density->low, density->high);
	assert_close(density->high - density->value, density->value - density->low,
		0.01 * width(density));
	forget(run);
}

/* A percent that a draw pushes over 4.5 moves no other point's error. */
static void test_drawn_percent_chooses_no_other_points(void **state)
{
	(void)state;
	struct run *run = judge("history,rerun\ndensity,832 kg/m3\nresidue,13 mL\nloss,0.4 mL\n"
				"apparatus,tbp\nvolume error,0.9 mL\n" PRESSURE,
		"recovered (%),head (C)\nIBP,141\n4.4,187\n10,209\n20,229\n30,242\n40,254\n"
		"50,268\n60,283\n70,301\n80,324\n",
		0, 1);
	const struct bc_judgement *judged = &run->judgement;
	struct bc_oil_drawer drawer;
	struct bc_inputs inputs;
	struct bc_drawn drawn;
	double at_c[2];
	assert_int_equal(bc_inputs_new(&judged->reader, &inputs), BC_OK);
	assert_int_equal(bc_drawn_new(&inputs, &drawn), BC_OK);
	assert_int_equal(bc_oil_drawer_new(run->sample, &judged->reader, &judged->points,
				 &judged->oil, NULL, &drawer),
		BC_OK);
	assert_true(drawer.errors.unread_c[drawer.input.n - 1] > 0.0);
	for (size_t k = 0; k < 2; k++) {
		struct bc_points points = {0};
		struct bc_oil_drawn oil;
		for (size_t i = 0; i < BC_SHARED_N; i++)
			drawn.shared[i] = 0.0;
		for (size_t i = 0; i < 2 * drawn.n; i++)
			drawn.reading[i] = 0.0;
		drawn.shared[BC_SHARED_BACK_UNREAD] = 2.0;
		drawn.shared[BC_SHARED_VOLUME] = k == 0 ? 0.27 : 0.36;
		assert_int_equal(bc_drawn_make(&inputs, &drawn), BC_OK);
		for (size_t i = 0; i < BC_POINTS; i++) {
			double temp_c = i == BC_AT_IBP ? drawn.boiloff.ibp_c
					: i > BC_AT_T80
						? (double)NAN
						: bc_drawn_temp_c(&inputs, &drawn, bc_point_pct[i]);
			points.at[i] = (struct bc_estimate){temp_c, temp_c, temp_c, BC_ESTIMATED};
		}
		print_message("read at %.3f %%\n", drawn.boiloff.points[1].recovered_pct);
		bc_oil_draw(&drawer, &inputs, &drawn, &points, &oil);
		at_c[k] = bc_tbp_curve_temp_c(&oil.curve, 90.0);
	}
	print_message("90 %%: %.2f, %.2f\n", at_c[0], at_c[1]);
	assert_close(at_c[0], at_c[1], 1.0);
	bc_drawn_release(&drawn);
	bc_inputs_release(&inputs);
	forget(run);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(test_beside_derivatives),
		cmocka_unit_test(test_value_inside),
		cmocka_unit_test(test_end_not_measured),
		cmocka_unit_test(test_seed),
		cmocka_unit_test(test_one_sided),
		cmocka_unit_test(test_stated_errors),
		cmocka_unit_test(test_chances),
		cmocka_unit_test(test_doubt),
		cmocka_unit_test(test_draws_without_a_figure_keep_nothing),
		cmocka_unit_test(test_few_draws_never_raise_the_flash),
		cmocka_unit_test(test_cup_that_says_nothing_narrows_nothing),
		cmocka_unit_test(test_inverted_oil_is_drawn_around_itself),
		cmocka_unit_test(test_drawn_percent_chooses_no_other_points),
		cmocka_unit_test(test_coverage),
		cmocka_unit_test(test_inversion),
	};
	return cmocka_run_group_tests(tests, set_up, tear_down);
}
