/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One sample through all rooms: what history, readings, pressure and thermometer do to the word. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "base/fault.h"
#include "curve/cracking.h"
#include "judgement/judgement.h"

/* A steady middle distillate, 830 kg/m3, flash well above 55 degC. */
#define OIL                                                                                        \
	"density,832 kg/m3\nresidue,1.2 mL\nloss,0.4 mL\nbarometer,101.3 kPa\n"                    \
	"thermometer,glass d86\nfeed,PE and PP caps\n"
#define TABLE                                                                                      \
	"recovered (%),head (C)\nIBP,196\n5,214\n10,222\n20,234\n30,245\n40,255\n50,265\n"         \
	"60,276\n70,288\n80,302\n90,321\n95,335\nFBP,349\n"

struct run {
	struct bc_sample *sample;
	struct bc_limits *limits;
	struct bc_judgement judgement;
	struct bc_judge_options options;
};

static enum bc_status run_text(struct run *run, const char *head, const char *table)
{
	char text[2048];
	int n = snprintf(text, sizeof(text), "%s%s", head, table);
	enum bc_status status;

	run->sample = NULL;
	run->limits = NULL;
	bc_judgement_init(&run->judgement);
	run->options.want = run->options.want ? run->options.want : BC_GRADES;
	status = bc_sample_read(text, (size_t)n, "test.csv", NULL, &run->sample);
	if (!bc_failed(status))
		status = bc_limits_default(NULL, &run->limits);
	run->options.limits = run->limits;
	if (!bc_failed(status))
		status = bc_judge(run->sample, &run->options, &run->judgement);
	return status;
}

static void run_release(struct run *run)
{
	bc_judgement_release(&run->judgement);
	bc_limits_free(run->limits);
	bc_sample_free(run->sample);
}

static double share_sum(const struct bc_shares *shares)
{
	double sum = 0.0;

	for (int i = 0; i < BC_SHARES; i++)
		sum += shares->pct[i].value;
	return sum;
}

static void test_clean_rerun_is_usable(void **state)
{
	struct run run = {0};

	(void)state;
	assert_int_equal(run_text(&run, OIL "history,rerun\n", TABLE), BC_OK);
	assert_int_equal(run.judgement.verdict.word, BC_WORD_USABLE);
	assert_true(run.judgement.verdict.because.n > 0);
	assert_false(run.judgement.has_rerun);
	assert_false(run.judgement.hazards.petrol_like);
	assert_true(fabs(share_sum(&run.judgement.shares) - 100.0) <= 1e-9);
	assert_true(fabs(run.judgement.points.at[BC_AT_T50].value - 265.0) <= 1e-9);
	run_release(&run);
}

static void test_retort_oil_is_petrol_and_never_usable(void **state)
{
	static const char *const histories[] = {"history,retort\n", ""};

	(void)state;
	for (size_t i = 0; i < 2; i++) {
		char head[512];
		struct run run = {0};

		snprintf(head, sizeof(head), "%s%s", OIL, histories[i]);
		assert_int_equal(run_text(&run, head, TABLE), BC_OK);
		assert_int_not_equal(run.judgement.verdict.word, BC_WORD_USABLE);
		assert_true(run.judgement.hazards.petrol_like);
		assert_true(isnan(run.judgement.oil.property[BC_FLASH].low));
		assert_true(isfinite(run.judgement.oil.property[BC_FLASH].value));
		assert_true(isfinite(run.judgement.oil.property[BC_FLASH].high));
		run_release(&run);
	}
}

static void test_measured_flash_settles_a_retort_oil(void **state)
{
	struct run run = {0};

	(void)state;
	assert_int_equal(run_text(&run, OIL "history,retort\nflash,71.5 C\n", TABLE), BC_OK);
	assert_int_equal(run.judgement.oil.property[BC_FLASH].how, BC_MEASURED);
	assert_true(fabs(run.judgement.oil.property[BC_FLASH].value - 71.5) <= 1e-9);
	assert_int_equal(run.judgement.verdict.word, BC_WORD_USABLE);
	run_release(&run);
	assert_int_equal(
		run_text(&run, OIL "history,retort\nflash,71.5 C open cup\n", TABLE), BC_OK);
	assert_int_equal(run.judgement.oil.property[BC_FLASH].how, BC_ESTIMATED);
	assert_int_not_equal(run.judgement.verdict.word, BC_WORD_USABLE);
	run_release(&run);
}

static void test_few_readings_are_at_best_undecided(void **state)
{
	struct run run = {0};

	(void)state;
	assert_int_equal(run_text(&run, OIL "history,rerun\n",
				 "recovered (%),head (C)\nIBP,196\n10,222\n50,265\n90,321\n"),
		BC_OK);
	assert_int_not_equal(run.judgement.verdict.word, BC_WORD_USABLE);
	assert_int_equal(run.judgement.fits.n > 0 && run.judgement.reader.fit != NULL, 0);
	assert_true(run.judgement.oil.slices.n > 10);
	run_release(&run);
}

static void test_unknown_still_is_at_best_undecided(void **state)
{
	struct run run = {0};

	(void)state;
	assert_int_equal(
		run_text(&run, OIL "history,rerun\napparatus,the old one\n", TABLE), BC_OK);
	assert_int_not_equal(run.judgement.verdict.word, BC_WORD_USABLE);
	run_release(&run);
}

static void test_probe_reads_true_vapour(void **state)
{
	struct run run = {0};
	const char *head = "density,832 kg/m3\nbarometer,101.3 kPa\nhistory,rerun\n"
			   "thermometer,probe\n";

	(void)state;
	assert_int_equal(run_text(&run, head, TABLE), BC_OK);
	/* 265 - 1.24e-4 * 245^2 */
	assert_true(fabs(run.judgement.points.at[BC_AT_T50].value - 257.557) <= 0.01);
	run_release(&run);
}

static const struct bc_criterion *criterion_of(
	const struct bc_judgement *judgement, const char *standard, const char *property)
{
	for (size_t i = 0; i < judgement->grades.n; i++) {
		const struct bc_grade *grade = &judgement->grades.items[i];
		for (size_t k = 0; strcmp(grade->standard, standard) == 0 && k < grade->n_criteria;
			k++)
			if (strcmp(grade->criteria[k].limit->property, property) == 0)
				return &grade->criteria[k];
	}
	return NULL;
}

/* A column boils hotter at 95 % than the flask does: the limit is the flask's. */
static void test_tbp_is_judged_as_the_flask_would_show_it(void **state)
{
	struct run run = {0};
	double tbp_c = 371.3, d86_c;
	const char *table = "recovered (%),head (C)\nIBP,151\n10,213\n30,252\n50,276\n70,301\n"
			    "90,341\n95,371.3\n";

	(void)state;
	assert_int_equal(run_text(&run, OIL "history,rerun\napparatus,tbp\n", table), BC_OK);
	assert_false(bc_failed(bc_d86_from_tbp_c(95.0, tbp_c, &d86_c)));
	const struct bc_criterion *t95 =
		criterion_of(&run.judgement, "EN 590 temperate A-C", "T95");
	assert_non_null(t95);
	assert_true(fabs(t95->value.value - d86_c) <= 3.0);
	assert_true(t95->value.value < 360.0);
	run_release(&run);
}

/* Decane boils 9.29 degC lower at 79.5 kPa (Antoine), where Sydney Young would say 8.59. */
static void test_high_site_uses_slices_for_pressure(void **state)
{
	struct run run = {0};

	(void)state;
	assert_int_equal(
		run_text(&run,
			"density,732 kg/m3\nbarometer,79.5 kPa\nhistory,rerun\n"
			"thermometer,glass d86\n",
			"recovered (%),head (C)\n10,150\n30,158\n50,164.86\n70,172\n90,181\n"),
		BC_OK);
	assert_true(run.judgement.conditions.shift.n > 10);
	assert_true(fabs(run.judgement.points.at[BC_AT_T50].value - 174.15) <= 0.25);
	run_release(&run);
}

static void test_want_that_cannot_be_met(void **state)
{
	struct run run = {.options = {.want = BC_GRADE_KEROSENE}};

	(void)state;
	assert_int_equal(run_text(&run, OIL "history,rerun\n", TABLE), BC_OK);
	assert_int_not_equal(run.judgement.verdict.word, BC_WORD_USABLE);
	assert_int_equal(run.judgement.verdict.grade->name, BC_GRADE_KEROSENE);
	run_release(&run);
}

/* The same oil with a light front: a cut mends it. */
#define FRONT                                                                                      \
	"recovered (%),head (C)\nIBP,61\n5,112\n10,151\n20,201\n30,228\n40,248\n50,262\n"          \
	"60,275\n70,288\n80,302\n90,321\n95,335\nFBP,349\n"

static bool any_says(const struct bc_strings *list, const char *words)
{
	for (size_t i = 0; i < list->n; i++)
		if (strstr(list->items[i], words))
			return true;
	return false;
}

/* The product ends below the head limit although the limits would take more. */
static void test_no_cut_ends_above_the_head_limit(void **state)
{
	struct run run = {0};

	(void)state;
	assert_int_equal(run_text(&run, OIL "history,rerun\n", FRONT), BC_OK);
	assert_int_equal(run.judgement.verdict.word, BC_WORD_RERUN);
	assert_true(run.judgement.has_rerun);
	assert_true(run.judgement.perfect.product_until_c <= BC_HEAD_LIMIT_C);
	assert_true(run.judgement.perfect.product_until_c > BC_HEAD_LIMIT_C - 3.0);
	/* the pot of a real still is ahead of its head */
	assert_true(run.judgement.rerun.product_until_c < run.judgement.perfect.product_until_c);
	assert_true(run.judgement.rerun.tail_pct > 1.2 + 0.4);
	run_release(&run);
}

/* A lighter oil never reaches it: residue and loss stay in the pot, and no tail is spoken of. */
static void test_no_cut_goes_to_dryness(void **state)
{
	struct run run = {.options = {.standard = "ASTM D396 No. 1"}};
	const char *table = "recovered (%),head (C)\nIBP,61\n5,112\n10,151\n20,181\n30,198\n"
			    "40,212\n50,224\n60,235\n70,246\n80,258\n90,274\n95,286\nFBP,299\n";
	const char *bare = "density,812 kg/m3\nbarometer,101.3 kPa\nthermometer,glass d86\n"
			   "feed,PE and PP caps\nhistory,rerun\n";

	(void)state;
	assert_int_equal(run_text(&run,
				 "density,812 kg/m3\nresidue,1.3 mL\nloss,0.6 mL\nhistory,rerun\n"
				 "barometer,101.3 kPa\nthermometer,glass d86\n",
				 table),
		BC_OK);
	assert_int_equal(run.judgement.verdict.word, BC_WORD_RERUN);
	assert_true(fabs(run.judgement.rerun.tail_pct - 1.9) <= 1e-9);
	assert_true(isfinite(run.judgement.rerun.product_until_c));
	assert_true(any_says(&run.judgement.verdict.next, "take off the light end into"));
	assert_false(any_says(&run.judgement.verdict.next, "tail"));
	run_release(&run);
	assert_int_equal(run_text(&run, bare, table), BC_OK);
	assert_true(run.judgement.rerun.tail_pct >= 2.0 - 1e-9);
	run_release(&run);
}

static void test_sulphur_is_not_cut_away(void **state)
{
	struct run run = {0};

	(void)state;
	assert_int_equal(run_text(&run, OIL "history,rerun\nsulphur,2.7 %\n", FRONT), BC_OK);
	assert_int_equal(run.judgement.verdict.word, BC_WORD_UNFIT);
	assert_false(run.judgement.has_rerun);
	assert_true(any_says(&run.judgement.verdict.because, "sulphur"));
	run_release(&run);
}

/* Carbon residue is limited by this standard, and no cut is claimed to take it out. */
static void test_what_a_standard_forbids_of_every_jar(void **state)
{
	struct run run = {.options = {.standard = "ASTM D396 No. 2"}};

	(void)state;
	assert_int_equal(run_text(&run, OIL "history,rerun\n", FRONT), BC_OK);
	assert_true(run.judgement.wanted_met);
	run_release(&run);
	assert_int_equal(run_text(&run, OIL "history,rerun\ncarbon residue,0.9 %\n", FRONT), BC_OK);
	assert_int_equal(run.judgement.verdict.word, BC_WORD_UNFIT);
	assert_false(run.judgement.wanted_met);
	assert_true(any_says(&run.judgement.verdict.because, "No cut mends its carbon residue"));
	run_release(&run);
}

/* A cup that reads far above what such first drops allow: the curve's cut is not claimed. */
static void test_a_disputed_flash_claims_no_cut(void **state)
{
	struct run run = {0};

	(void)state;
	assert_int_equal(run_text(&run, OIL "history,rerun\nflash,91.3 C\n", FRONT), BC_OK);
	assert_int_equal(run.judgement.verdict.word, BC_WORD_UNDECIDED);
	assert_false(run.judgement.has_rerun);
	run_release(&run);
	/* an open cup far below the estimate, too */
	assert_int_equal(run_text(&run, OIL "history,rerun\nflash,-40 C open cup\n", FRONT), BC_OK);
	assert_int_equal(run.judgement.verdict.word, BC_WORD_UNDECIDED);
	assert_false(run.judgement.has_rerun);
	run_release(&run);
}

static void test_gasoline_is_never_met(void **state)
{
	struct run run = {.options = {.standard = "EN 228 class A"}};

	(void)state;
	assert_int_equal(run_text(&run, OIL "history,rerun\n", FRONT), BC_OK);
	assert_int_not_equal(run.judgement.verdict.word, BC_WORD_RERUN);
	assert_int_not_equal(run.judgement.verdict.word, BC_WORD_USABLE);
	assert_false(run.judgement.wanted_met);
	run_release(&run);
}

/* True boiling points are never firm enough, nor are three readings, for a last word. */
static void test_rough_readings_never_make_unfit(void **state)
{
	struct run run = {0};
	const char *heavy = "recovered (%),head (C)\nIBP,61\n10,91\n50,131\n90,171\n";

	(void)state;
	assert_int_equal(run_text(&run, OIL "history,rerun\n", heavy), BC_OK);
	assert_int_equal(run.judgement.verdict.word, BC_WORD_UNDECIDED);
	assert_false(run.judgement.wanted_met);
	run_release(&run);
	assert_int_equal(run_text(&run, OIL "history,rerun\napparatus,tbp\n", TABLE), BC_OK);
	assert_int_equal(run.judgement.verdict.word, BC_WORD_UNDECIDED);
	run_release(&run);
}

static void test_every_allocation_may_fail(void **state)
{
	struct run run = {0};
	enum bc_status status = BC_NO_MEMORY;

	(void)state;
	for (unsigned long n = 1; n < 20000; n += n < 200 ? 1 : 137) {
		bc_fault_set(BC_FAULT_ALLOC, n, true);
		status = run_text(&run, OIL "history,retort\nstray key,7\n", TABLE);
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		run_release(&run);
		assert_true(status == BC_OK || status == BC_NO_MEMORY);
		if (status == BC_OK)
			break;
	}
	assert_int_equal(status, BC_OK);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(test_clean_rerun_is_usable),
		cmocka_unit_test(test_retort_oil_is_petrol_and_never_usable),
		cmocka_unit_test(test_measured_flash_settles_a_retort_oil),
		cmocka_unit_test(test_few_readings_are_at_best_undecided),
		cmocka_unit_test(test_unknown_still_is_at_best_undecided),
		cmocka_unit_test(test_probe_reads_true_vapour),
		cmocka_unit_test(test_tbp_is_judged_as_the_flask_would_show_it),
		cmocka_unit_test(test_high_site_uses_slices_for_pressure),
		cmocka_unit_test(test_want_that_cannot_be_met),
		cmocka_unit_test(test_no_cut_ends_above_the_head_limit),
		cmocka_unit_test(test_no_cut_goes_to_dryness),
		cmocka_unit_test(test_sulphur_is_not_cut_away),
		cmocka_unit_test(test_what_a_standard_forbids_of_every_jar),
		cmocka_unit_test(test_a_disputed_flash_claims_no_cut),
		cmocka_unit_test(test_gasoline_is_never_met),
		cmocka_unit_test(test_rough_readings_never_make_unfit),
		cmocka_unit_test(test_every_allocation_may_fail),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
