/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The re-run that a judgement suggests: it is the tap's own cut, and the word goes by that still.
 */
#include <string.h>

#include "base/memory.h"
#include "judgement/rerun.h"
#include "judgement/tapping.h"
#include "unit/unit.h"

#define OIL                                                                                        \
	"density,817 kg/m3\nresidue,1.2 mL\nloss,0.4 mL\naltitude,431 m\n"                         \
	"thermometer,probe\nfeed,PE and PP caps\n"
#define TABLE                                                                                      \
	"recovered (%),head (C)\nIBP,93\n5,131\n10,152\n20,184\n30,210\n40,233\n50,254\n"          \
	"60,274\n70,294\n80,316\n90,341\n95,356\nFBP,367\n"
/* kept without a light jar, and with one */
#define CLEAN                                                                                      \
	"recovered (%),head (C)\nIBP,188\n5,203\n10,212\n20,221\n30,230\n40,239\n50,248\n"         \
	"60,258\n70,270\n80,284\n90,304\n95,317\nFBP,331\n"
#define STRAIGHT_RUN                                                                               \
	"recovered (%),head (C)\nIBP,140.2\n5,168.1\n10,171.7\n20,185.0\n30,199.2\n40,215.9\n"     \
	"50,233.3\n60,253.4\n70,275.5\n80,296.6\n90,319.5\n95,329.8\n"

static struct bc_limits *limits;
static struct bc_sample *sample;
static struct bc_judgement *judgement;
static struct bc_tapping *tapping;

static void read_oil(const char *head, const char *table)
{
	char text[2048];
	int n = snprintf(text, sizeof text, "%s%s%s", OIL, head, table);
	bc_sample_free(sample);
	sample = NULL;
	assert_int_equal(bc_sample_read(text, (size_t)n, "t.csv", NULL, &sample), BC_OK);
}

static void judge(const struct bc_judge_options *options)
{
	bc_judgement_release(judgement);
	assert_int_equal(bc_judge(sample, options, judgement), BC_OK);
}

static void tap(const struct bc_judge_options *options)
{
	struct bc_tap_request request = bc_tap_request_default();
	if (options->still)
		request.still = *options->still;
	request.want = options->want;
	request.standard = options->standard;
	bc_tapping_release(tapping);
	assert_int_equal(bc_tap(sample, options, &request, tapping), BC_OK);
}

static void same_cut(void)
{
	const struct bc_cut *cut = &judgement->rerun;
	const struct bc_jar *product = &tapping->jars[1];
	assert_int_equal(tapping->n_jars, 3);
	assert_string_equal(cut->standard, tapping->standard);
	assert_close(cut->light_pct, tapping->jars[0].volume_pct, 1e-9);
	assert_close(cut->product_pct, product->volume_pct, 1e-9);
	assert_close(cut->product_until_c, product->to_c, 1e-9);
	assert_close(cut->product_until_reading_c, product->to_reading_c, 1e-9);
	if (cut->light_until_frac > 0.0)
		assert_close(cut->light_until_reading_c, product->from_reading_c, 1e-9);
	assert_close(
		cut->product.property[BC_FLASH].low, product->oil.property[BC_FLASH].low, 1e-9);
	assert_close(judgement->rerun_pot_limit_c, tapping->pot_limit_c, 1e-9);
}

static const struct bc_still stills[] = {
	{.column = {1.0, 0.0, NAN, NAN}, .carry_pct = 1.3, .carry_half_width_pct = NAN},
	{.column = {4.0, 2.7, NAN, NAN}, .carry_pct = 0.0, .carry_half_width_pct = NAN},
	{.column = {NAN, NAN, 2.3, NAN}, .carry_pct = 2.1, .carry_half_width_pct = 0.4},
};

static void judge_and_tap_cut_alike(void **state)
{
	static const char *const heads[] = {"history,rerun\n", "history,retort\n",
		"history,rerun\nfeed,diesel from the pump\n"};
	(void)state;
	for (size_t h = 0; h < sizeof heads / sizeof heads[0]; h++) {
		read_oil(heads[h], TABLE);
		for (size_t i = 0; i <= sizeof stills / sizeof stills[0]; i++) {
			struct bc_judge_options options = {.limits = limits,
				.want = BC_GRADE_HEATING_OIL,
				.still = i == 0 ? NULL : &stills[i - 1],
				.draws = i == 1 ? 137 : 0,
				.seed = 3};
			judge(&options);
			tap(&options);
			assert_true(tapping->feasible);
			same_cut();
			options.want = BC_GRADES;
			options.standard = "DIN 51603-1";
			judge(&options);
			tap(&options);
			if (tapping->feasible)
				same_cut();
			else
				assert_null(judgement->rerun.standard);
		}
	}
}

/* No grade is asked for: the cut is still what the tap gives for its standard. */
static void a_cut_of_its_own_choice_is_the_taps(void **state)
{
	struct bc_judge_options options = {.limits = limits, .want = BC_GRADES};
	(void)state;
	read_oil("history,rerun\n", TABLE);
	judge(&options);
	assert_true(judgement->has_rerun);
	assert_int_equal(judgement->verdict.word, BC_WORD_RERUN);
	options.standard = judgement->rerun.standard;
	tap(&options);
	same_cut();
	assert_string_equal(judgement->rerun.basis,
		"the default still: 1 plate + pot, reflux 1, carry-over 1 %");
	assert_string_equal(judgement->perfect.standard, judgement->rerun.standard);
	assert_true(judgement->perfect.product_pct > judgement->rerun.product_pct + 3.0);
}

/* Gas in the oil goes with a front of 2 % of the charge, however it is cut. */
static void a_perfect_split_lets_the_gas_go_too(void **state)
{
	struct bc_judge_options options = {
		.limits = limits, .want = BC_GRADES, .standard = "ASTM D396 No. 2"};
	(void)state;
	read_oil("history,retort\n", CLEAN);
	judge(&options);
	assert_non_null(judgement->perfect.standard);
	assert_close(judgement->perfect.light_pct, 2.0, 1e-9);
	read_oil("history,rerun\n", CLEAN);
	judge(&options);
	assert_close(judgement->perfect.light_pct, 0.0, 1e-9);
}

/* Straight-run oils may stand 350 degC in the pot, where the head has passed its limit. */
static void a_perfect_split_ends_no_earlier_than_the_still(void **state)
{
	const char text[] = "history,rerun\nfeed,diesel and kerosene\nresidue,1.9 mL\n"
			    "loss,0.5 mL\n" STRAIGHT_RUN;
	struct bc_judge_options options = {.limits = limits, .want = BC_GRADE_HEATING_OIL};
	(void)state;
	bc_sample_free(sample);
	sample = NULL;
	assert_int_equal(bc_sample_read(text, sizeof text - 1, "t.csv", NULL, &sample), BC_OK);
	judge(&options);
	assert_non_null(judgement->rerun.standard);
	assert_string_equal(judgement->perfect.standard, judgement->rerun.standard);
	assert_true(judgement->perfect.product_pct >= judgement->rerun.product_pct);
	assert_true(judgement->perfect.product_until_frac >= judgement->rerun.product_until_frac);
	assert_string_equal(judgement->perfect.basis, BC_SPLIT_BOUND);
}

static bool says(const struct bc_strings *list, const char *what)
{
	for (size_t i = 0; i < list->n; i++)
		if (strstr(list->items[i], what))
			return true;
	return false;
}

static void a_poor_still_wastes_more_of_the_front(void **state)
{
	struct bc_judge_options options = {.limits = limits, .want = BC_GRADE_HEATING_OIL};
	(void)state;
	read_oil("history,rerun\n", TABLE);
	options.still = &stills[0];
	judge(&options);
	double bare_pct = judgement->rerun.light_pct;
	options.still = &stills[1];
	judge(&options);
	assert_true(bare_pct > judgement->rerun.light_pct + 3.0);
	assert_false(says(&judgement->assumed, "still not given"));
	options.still = NULL;
	judge(&options);
	assert_true(says(&judgement->assumed, "still not given: 1 plate + pot, reflux 1"));
}

/* The bare pot smears so much that this narrow grade cannot be had of it. */
static void the_word_goes_by_the_real_still(void **state)
{
	struct bc_judge_options options = {
		.limits = limits, .standard = "ASTM D3699 No. 1-K", .want = BC_GRADES};
	(void)state;
	read_oil("history,rerun\n", TABLE);
	options.still = &stills[1];
	judge(&options);
	assert_int_equal(judgement->verdict.word, BC_WORD_RERUN);
	assert_true(judgement->wanted_met);
	options.still = &stills[0];
	judge(&options);
	assert_int_equal(judgement->verdict.word, BC_WORD_UNFIT);
	assert_false(judgement->wanted_met);
	assert_false(judgement->has_rerun);
	assert_null(judgement->rerun.standard);
	assert_non_null(judgement->perfect.standard);
	assert_true(says(&judgement->verdict.because, "on a still of 0 plates + pot"));
	assert_true(says(&judgement->verdict.next, "A better still would do it"));
	tap(&options);
	assert_false(tapping->feasible);
}

static int set_up(void **state)
{
	(void)state;
	judgement = bc_alloc(sizeof *judgement);
	tapping = bc_alloc(sizeof *tapping);
	if (!judgement || !tapping)
		return -1;
	bc_judgement_init(judgement);
	bc_tapping_init(tapping);
	return bc_limits_default(NULL, &limits) == BC_OK ? 0 : -1;
}

static int tear_down(void **state)
{
	(void)state;
	bc_judgement_release(judgement);
	bc_tapping_release(tapping);
	bc_free(judgement);
	bc_free(tapping);
	bc_sample_free(sample);
	bc_limits_free(limits);
	return 0;
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(judge_and_tap_cut_alike),
		cmocka_unit_test(a_cut_of_its_own_choice_is_the_taps),
		cmocka_unit_test(a_perfect_split_lets_the_gas_go_too),
		cmocka_unit_test(a_perfect_split_ends_no_earlier_than_the_still),
		cmocka_unit_test(a_poor_still_wastes_more_of_the_front),
		cmocka_unit_test(the_word_goes_by_the_real_still),
	};
	return cmocka_run_group_tests(tests, set_up, tear_down);
}
