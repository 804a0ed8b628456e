/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Boil-offs made in stills that are known are judged as what they are; the flask is inverted beside
 * the conversion. */
#include <string.h>

#include "base/memory.h"
#include "curve/conditions.h"
#include "fuel/density.h"
#include "judgement/inverted.h"
#include "still/flask.h"
#include "unit/unit.h"

#define HEAD                                                                                       \
	"density,827 kg/m3\nbarometer,101.3 kPa\nthermometer,glass d86\nhistory,rerun\n"           \
	"feed,diesel from the pump\nresidue,0 mL\nloss,0 mL\n"

static struct bc_limits *limits;
static struct bc_sample *sample;
static struct bc_judgement *judgement;
static struct bc_still_work *work;
static struct bc_run *run;
static char text[8192];

static const double pct[] = {5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95};
enum { READINGS = sizeof pct / sizeof pct[0] };

static void judge_with(const struct bc_still *apparatus)
{
	const struct bc_judge_options options = {
		.limits = limits, .want = BC_GRADES, .apparatus = apparatus};
	bc_judgement_release(judgement);
	bc_sample_free(sample);
	sample = NULL;
	assert_int_equal(bc_sample_read(text, strlen(text), "t.csv", NULL, &sample), BC_OK);
	assert_int_equal(bc_judge(sample, &options, judgement), BC_OK);
}

static void add(const char *format, double a, double b)
{
	size_t n = strlen(text);
	snprintf(text + n, sizeof text - n, format, a, b);
}

/* A Weibull oil, of another family than the knots of an inversion. */
static double oil_c(double at_pct)
{
	return 163.7 + 118.3 * pow(-log(1.0 - at_pct / 100.0), 1.0 / 1.9);
}

static void make_oil(struct bc_slices *slices)
{
	struct bc_tbp_curve curve;
	double knot_pct[] = {0.5, 2, 5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95, 98, 99.5};
	double temp_c[sizeof knot_pct / sizeof knot_pct[0]];
	size_t n = sizeof knot_pct / sizeof knot_pct[0];
	for (size_t i = 0; i < n; i++)
		temp_c[i] = oil_c(knot_pct[i]);
	bc_tbp_curve_from_points(knot_pct, temp_c, n, true, &curve);
	bc_slices_from_tbp(&curve, bc_sg_from_density15(827.0), 40, 0.0, 100.0, slices);
}

/* Writes the boil-off of that oil in a still, with the head of its first drop for IBP. */
static void write_boiloff(const struct bc_column *made_in, const char *apparatus)
{
	struct bc_slices slices;
	double head_c[READINGS];
	make_oil(&slices);
	assert_true(bc_simulated_boiloff(&slices, made_in, pct, READINGS, head_c, work, run) >= 0);
	snprintf(text, sizeof text, "%sapparatus,%s\nrecovered (%%),head (C)\n", HEAD, apparatus);
	add("IBP,%.1f\n", bc_corrected_from_true(bc_run_at(run, 0.0).head_c), 0.0);
	for (size_t i = 0; i < READINGS; i++)
		add("%g,%.1f\n", pct[i], head_c[i]);
}

/* At 10..95 %; below it hangs on the rule for the front. */
static double off_c(void)
{
	double sum = 0.0;
	for (size_t i = 1; i < READINGS; i++)
		sum += pow(bc_tbp_curve_temp_c(&judgement->oil.tbp, pct[i]) - oil_c(pct[i]), 2.0);
	return sqrt(sum / (READINGS - 1));
}

static bool says(const struct bc_strings *list, const char *what)
{
	for (size_t i = 0; i < list->n; i++)
		if (strstr(list->items[i], what))
			return true;
	return false;
}

static void a_column_is_judged_as_what_it_is(void **state)
{
	const struct bc_column column = {4, 2.7, NAN, 101.325};
	const struct bc_column flask = bc_flask_column();
	struct bc_slices slices;
	double flask_c[READINGS];
	(void)state;
	write_boiloff(&column, "column 4 2.7");
	judge_with(NULL);
	assert_true(judgement->by_inversion);
	assert_int_equal(judgement->inversion->front, BC_FRONT_TRUE);
	assert_close(off_c(), 0.0, 1.5);
	assert_true(judgement->oil.flash_claim);
	assert_int_equal(judgement->verdict.word, BC_WORD_USABLE);
	assert_true(says(&judgement->assumed, "flask (simulated, 5 to 95 %)"));
	/* limits look at what the flask would show, readings stay what they were */
	make_oil(&slices);
	bc_simulated_boiloff(&slices, &flask, pct, READINGS, flask_c, work, run);
	for (size_t i = 0; i < READINGS; i++) {
		const struct bc_estimate *at = &judgement->flask_points.at[BC_AT_T5 + i];
		assert_close(at->value, flask_c[i], i < 2 ? 6.0 : 1.5); /* the front's rule */
		/* both models, and what the readings leave open */
		assert_true(at->high - at->value > 5.6 && at->high - at->value < 9.0);
	}
	assert_true(flask_c[0] - judgement->points.at[BC_AT_T5].value > 4.0);
	/* taken for a flask it would have been another oil */
	write_boiloff(&column, "flask");
	judge_with(NULL);
	assert_false(judgement->by_inversion);
	assert_true(off_c() > 4.0);
}

static void readings_move_the_bounds(void **state)
{
	const struct bc_column column = {4, 2.7, NAN, 101.325};
	(void)state;
	write_boiloff(&column, "column 4 2.7");
	judge_with(NULL);
	struct bc_estimate fine = judgement->flask_points.at[BC_AT_T50];
	double cetane = judgement->oil.reach.high[BC_CETANE_INDEX];
	write_boiloff(&column, "column 4 2.7\nreading error,6 C");
	judge_with(NULL);
	struct bc_estimate coarse = judgement->flask_points.at[BC_AT_T50];
	assert_true(coarse.high - coarse.low > fine.high - fine.low + 0.7);
	assert_true(judgement->oil.reach.high[BC_CETANE_INDEX] > 1.05 * cetane);
}

static void a_bare_pot_has_no_claim(void **state)
{
	const struct bc_column pot = {1, 0, NAN, 101.325};
	(void)state;
	write_boiloff(&pot, "column 1 0");
	judge_with(NULL);
	assert_true(judgement->by_inversion);
	assert_int_equal(judgement->inversion->front, BC_FRONT_FREE);
	assert_close(off_c(), 0.0, 3.5);
	assert_false(judgement->oil.flash_claim);
	assert_true(isnan(judgement->oil.property[BC_FLASH].low));
	assert_non_null(strstr(judgement->oil.no_claim_why, "lightest part"));
	assert_int_not_equal(judgement->verdict.word, BC_WORD_USABLE);
}

static void a_named_still_must_be_known(void **state)
{
	const struct bc_still still = {.name = "the copper one",
		.column = {NAN, NAN, 2.1, NAN},
		.carry_pct = 1.0,
		.carry_half_width_pct = NAN};
	const struct bc_column made_in = {NAN, NAN, 2.1, 101.325};
	(void)state;
	write_boiloff(&made_in, "the copper one");
	judge_with(NULL);
	assert_false(judgement->by_inversion);
	assert_null(judgement->inversion);
	assert_int_equal(judgement->verdict.word, BC_WORD_UNDECIDED);
	assert_true(says(&judgement->verdict.because, "judged as if in a plain flask"));
	judge_with(&still);
	assert_true(judgement->by_inversion);
	assert_close(off_c(), 0.0, 2.5);
	assert_false(says(&judgement->verdict.because, "judged as if in a plain flask"));
}

/* The same readings mean more light ends where the still separates less. */
static void a_named_still_counts_at_its_least_plates(void **state)
{
	struct bc_still still = {.name = "col",
		.column = {NAN, NAN, 3.1, NAN},
		.carry_half_width_pct = NAN,
		.plates_low = 3.1,
		.plates_high = 4.3,
		.source = BC_STILL_CALIBRATED};
	const struct bc_column made_in = {NAN, NAN, 3.1, 101.325};
	(void)state;
	write_boiloff(&made_in, "col");
	judge_with(&still);
	assert_true(judgement->oil.flash_claim && !judgement->still_guessed);
	assert_int_equal(judgement->verdict.word, BC_WORD_USABLE);
	struct bc_estimate sure = judgement->oil.property[BC_FLASH];
	double sure_at_site_c = judgement->oil.flash_low_at_site_c;
	still.plates_low = 1.7;
	judge_with(&still);
	struct bc_estimate unsure = judgement->oil.property[BC_FLASH];
	assert_close(unsure.value, sure.value, 1e-9);
	assert_true(unsure.low < sure.low - 5.0);
	assert_close(
		judgement->oil.flash_low_at_site_c - sure_at_site_c, unsure.low - sure.low, 1e-9);
	assert_true(says(&judgement->assumed,
		"the still 'col' as it is kept, 3.1 effective plates (1.7 to 4.3 effective "
		"plates; calibrated)"));
	/* a low bound that is a bare pot says nothing of the front */
	still.plates_low = 1.2;
	judge_with(&still);
	assert_false(judgement->oil.flash_claim);
	assert_true(isnan(judgement->oil.property[BC_FLASH].low));
	assert_int_not_equal(judgement->verdict.word, BC_WORD_USABLE);
	/* neither a ruler nor a bare figure makes a word */
	still.plates_low = 3.1;
	still.source = BC_STILL_ESTIMATED;
	judge_with(&still);
	assert_int_equal(judgement->verdict.word, BC_WORD_UNDECIDED);
	assert_true(says(&judgement->verdict.because, "never calibrated"));
	still.source = BC_STILL_STATED;
	still.plates_low = NAN;
	judge_with(&still);
	assert_int_equal(judgement->verdict.word, BC_WORD_UNDECIDED);
}

static void the_flask_is_inverted_beside(void **state)
{
	const struct bc_column flask = bc_flask_column();
	double apart_c;
	(void)state;
	write_boiloff(&flask, "flask");
	judge_with(NULL);
	assert_non_null(judgement->inversion);
	assert_false(judgement->by_inversion);
	for (size_t i = 1; i + 1 < READINGS; i++)
		assert_close(bc_inverted_c(judgement, pct[i]), oil_c(pct[i]), 2.5);
	assert_true(isnan(bc_inverted_c(judgement, 3.0)) && isnan(bc_inverted_c(judgement, 97.0)));
	assert_true(!isnan(bc_inverted_apart(judgement, &apart_c)));
	assert_true(fabs(apart_c) < 8.0);
	assert_false(bc_findings_has(&judgement->findings, "conversion-differs"));
}

/* Two oils in one: the flask blurs the step, the conversion does not know that. */
static void a_step_makes_the_two_differ(void **state)
{
	(void)state;
	snprintf(text, sizeof text, "%s%s", HEAD,
		"recovered (%),head (C)\nIBP,171\n5,184.5\n10,188\n20,191.5\n30,195\n40,201\n"
		"50,231\n60,287\n70,301\n80,306\n90,311.5\n95,315\n");
	judge_with(NULL);
	double apart_c;
	double at_pct = bc_inverted_apart(judgement, &apart_c);
	assert_true(bc_findings_has(&judgement->findings, "conversion-differs"));
	assert_true(at_pct >= 10.0 && at_pct <= 90.0 && fabs(apart_c) > BC_INVERTED_APART_C);
}

/* Of 91 readings every second is taken, with the loss. */
static void too_many_readings_are_thinned(void **state)
{
	(void)state;
	snprintf(text, sizeof text, "%sloss,1.3 mL\nrecovered (%%),head (C)\nIBP,171\n", HEAD);
	for (int i = 4; i <= 94; i++)
		add("%g,%.1f\n", i, bc_corrected_from_true(oil_c(i)));
	judge_with(NULL);
	assert_non_null(judgement->inversion);
	assert_int_equal(judgement->inversion->n_readings, 46);
	assert_close(judgement->inversion->read_to_pct, 94.0 + 1.3, 1e-9);
}

static void pot_and_water_are_seen(void **state)
{
	double without_c;
	(void)state;
	snprintf(text, sizeof text, "%s%s", HEAD,
		"recovered (%),head (C),pot (C)\nIBP,171,203\n10,191,214\n20,203,225\n30,214,237\n"
		"40,226,249\n50,238,262\n60,252,275\n70,267,289\n80,285,304\n90,309,326\n");
	judge_with(NULL);
	assert_non_null(judgement->inversion);
	without_c = bc_inverted_c(judgement, 30.0);
	assert_true(judgement->inversion->pot_gain[5][3] != 0.0);
	/* a hotter pot asks for a wider oil */
	snprintf(text, sizeof text, "%s%s", HEAD,
		"recovered (%),head (C)\nIBP,171\n10,191\n20,203\n30,214\n"
		"40,226\n50,238\n60,252\n70,267\n80,285\n90,309\n");
	judge_with(NULL);
	assert_true(fabs(bc_inverted_c(judgement, 30.0) - without_c) > 0.05);
	assert_true(judgement->inversion->pot_gain[5][3] == 0.0);
	char *table = strstr(text, "recovered");
	memmove(table + strlen("water,0.9 %\n"), table, strlen(table) + 1);
	memcpy(table, "water,0.9 %\n", strlen("water,0.9 %\n"));
	judge_with(NULL);
	assert_true(judgement->oil.wet);
	assert_null(judgement->inversion);
}

static int set_up(void **state)
{
	(void)state;
	judgement = bc_alloc(sizeof *judgement);
	work = bc_still_work_new();
	run = bc_run_new();
	if (!judgement || !work || !run)
		return -1;
	bc_judgement_init(judgement);
	return bc_limits_default(NULL, &limits) == BC_OK ? 0 : -1;
}

static int tear_down(void **state)
{
	(void)state;
	bc_judgement_release(judgement);
	bc_free(judgement);
	bc_still_work_free(work);
	bc_run_free(run);
	bc_sample_free(sample);
	bc_limits_free(limits);
	return 0;
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_column_is_judged_as_what_it_is),
		cmocka_unit_test(readings_move_the_bounds),
		cmocka_unit_test(a_bare_pot_has_no_claim),
		cmocka_unit_test(a_named_still_must_be_known),
		cmocka_unit_test(a_named_still_counts_at_its_least_plates),
		cmocka_unit_test(the_flask_is_inverted_beside),
		cmocka_unit_test(a_step_makes_the_two_differ),
		cmocka_unit_test(too_many_readings_are_thinned),
		cmocka_unit_test(pot_and_water_are_seen),
	};
	return cmocka_run_group_tests(tests, set_up, tear_down);
}
