/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From samples to what a still is worth: turns as they are written, what is refused and told. */
#include <string.h>

#include "base/fault.h"
#include "fuel/pure.h"
#include "judgement/calibrating.h"
#include "unit/unit.h"

#define SITE "altitude,612 m\nthermometer,glass partial\nice,0.4 C\nsteam,97.6 C\nloss,1 mL\n"
#define BEFORE                                                                                     \
	"sample,before\nhistory,aired\nfeed,PE\ndensity,0.806 g/mL @ 20 C\nresidue,2.1 mL\n" SITE  \
	"recovered (%),head (C)\nIBP,98\n4,141\n9,152\n19,174.5\n29,193\n39,212.5\n49,229.5\n"     \
	"59,249.5\n69,270.5\n79,296\n89,333\n94,367\n"
#define AFTER                                                                                      \
	"sample,product\nhistory,rerun\nfeed,PE\n" SITE "%s"                                       \
	"recovered (%%),head (C)\n4,176.5\n9,183.5\n19,194.5\n29,207\n39,218.5\n49,232\n59,243\n"  \
	"69,256.5\n79,272\n89,289\n94,301.5\n"

static struct bc_limits *limits;
static struct bc_calibrating run;
static struct bc_sample *before;
static struct bc_sample *after;

static struct bc_sample *sample_of(const char *text)
{
	struct bc_sample *sample = NULL;
	assert_int_equal(bc_sample_read(text, strlen(text), "t.csv", NULL, &sample), BC_OK);
	return sample;
}

static enum bc_status calibrate(const char *keys, struct bc_calibrating_request request)
{
	char text[1024];
	snprintf(text, sizeof text, AFTER, keys);
	bc_calibrating_release(&run);
	bc_sample_free(before);
	bc_sample_free(after);
	before = sample_of(BEFORE);
	after = sample_of(text);
	request.before = before;
	request.after = after;
	return bc_calibrating_run(&request, limits, &run);
}

static bool tells(const struct bc_strings *list, const char *words)
{
	for (size_t i = 0; i < list->n; i++)
		if (strstr(list->items[i], words) != NULL)
			return true;
	return false;
}

/* Whatever was calibrated, such readings are no prediction of any still. */
static void what_no_still_explains_is_not_kept(void **state)
{
	static const char blend[] =
		"recovered (%),head (C)\n5,264.3\n20,265.1\n40,266.9\n60,269.4\n80,272.8\n";
	const struct bc_pure *liquids[] = {bc_pure_find("heptane"), bc_pure_find("toluene")};
	const double shares[] = {50.0, 50.0};
	struct bc_slices known;
	(void)state;
	assert_int_equal(bc_pure_blend(liquids, shares, 2, &known), BC_OK);
	struct bc_sample *heads = sample_of(blend);
	const struct bc_calibrating_request request = {
		.known = &known, .known_words = "heptane=50,toluene=50", .heads = heads};
	bc_calibrating_release(&run);
	assert_int_equal(bc_calibrating_run(&request, limits, &run), BC_OK);
	assert_false(run.known);
	assert_true(tells(&run.cautions, "No still explains these readings"));
	bc_calibrating_release(&run);
	bc_sample_free(heads);
}

static void a_run_is_known_by_its_readings(void **state)
{
	const struct bc_calibrating_request request = {.from = {true, true, 165.0, false}};
	(void)state;
	assert_int_equal(calibrate("", request), BC_OK);
	uint64_t first = run.kept.readings;
	assert_int_equal(calibrate("note,another copy\n", request), BC_OK);
	assert_true(first != 0 && run.kept.readings == first);
	after->readings[2].head_c += 0.7;
	bc_calibrating_release(&run);
	struct bc_calibrating_request other = request;
	other.before = before;
	other.after = after;
	assert_int_equal(bc_calibrating_run(&other, limits, &run), BC_OK);
	assert_true(run.kept.readings != first);
}

/* The pair was made with 3 stages, reflux 2 and 1.5 % carried over, worth 2.55. */
static void a_pair_tells_what_made_it(void **state)
{
	(void)state;
	const struct bc_calibrating_request request = {.from = {true, true, 165.0, false}};
	assert_int_equal(calibrate("", request), BC_OK);
	assert_true(run.known);
	assert_true(run.carry_told);
	assert_close(run.answer.estimate.plates, 2.55, 0.4);
	assert_true(bc_plates_low(&run.answer.estimate) < 2.55);
	assert_true(bc_plates_high(&run.answer.estimate) > 2.55);
	assert_close(run.answer.estimate.carry_pct, 1.5, 0.7);
	assert_close(100.0 * run.answer.fit.to_frac, 88.0, 2.0);
	assert_string_equal(run.kept.before, "before");
	assert_string_equal(run.kept.after, "product");
	assert_true(tells(&run.assumed, "how far the run went"));
}

/* 165 degC corrected is 164.1 on this thermometer. */
static void turns_may_be_readings(void **state)
{
	(void)state;
	const struct bc_calibrating_request said = {.from = {true, true, 164.1, true}};
	assert_int_equal(calibrate("", said), BC_OK);
	assert_close(run.pair.run.from.head_c, 165.0, 0.1);
	const struct bc_calibrating_request silent = {.known = NULL};
	assert_int_equal(calibrate("jar from,164.1 C\njar to,317 C\n", silent), BC_OK);
	assert_close(run.pair.run.from.head_c, 165.0, 0.1);
	assert_true(run.pair.run.to.at_head);
	assert_false(run.pair.end_free);
	assert_true(tells(&run.assumed, "'jar from'"));
	assert_true(tells(&run.assumed, "'jar to'"));
}

static void what_cannot_be_is_refused_in_words(void **state)
{
	(void)state;
	const struct bc_calibrating_request nothing = {.known = NULL};
	assert_int_equal(calibrate("", nothing), BC_BAD_DOMAIN);
	assert_non_null(strstr(run.refused, "where the product begins"));
	const struct bc_calibrating_request upside_down = {
		.from = {true, true, 165.0, false}, .to = {true, true, 161.0, false}};
	assert_int_equal(calibrate("", upside_down), BC_BAD_DOMAIN);
	assert_non_null(strstr(run.refused, "end before it begins"));
	const struct bc_calibrating_request beyond = {.from = {true, true, 633.0, false}};
	assert_int_equal(calibrate("", beyond), BC_BAD_DOMAIN);
	assert_non_null(strstr(run.refused, "no product can be cut so"));
}

static void a_cut_below_the_first_drop_says_nothing(void **state)
{
	(void)state;
	const struct bc_calibrating_request request = {.from = {true, true, 40.0, false}};
	assert_int_equal(calibrate("", request), BC_OK);
	assert_false(run.known);
	assert_true(tells(&run.cautions, "no light jar"));
}

static void a_blend_of_solvents_comes_with_its_danger(void **state)
{
	const struct bc_pure *liquids[] = {bc_pure_find("heptane"), bc_pure_find("toluene")};
	const double shares[] = {50.0, 50.0};
	struct bc_slices blend;
	(void)state;
	bc_pure_blend(liquids, shares, 2, &blend);
	bc_calibrating_release(&run);
	struct bc_sample *heads = sample_of("recovered (%),head (C)\n5,99.3\n10,99.5\n20,100\n"
					    "30,100.6\n50,101.9\n70,104\n80,105.7\n90,107.8\n");
	const struct bc_calibrating_request request = {
		.known = &blend, .known_words = "heptane=50,toluene=50", .heads = heads};
	assert_int_equal(bc_calibrating_run(&request, limits, &run), BC_OK);
	assert_true(tells(&run.cautions, "like petrol"));
	assert_string_equal(run.kept.before, "heptane=50,toluene=50");
	assert_false(run.carry_told);
	bc_calibrating_release(&run);
	bc_sample_free(heads);
}

static void every_allocation_may_fail(void **state)
{
	(void)state;
	const struct bc_calibrating_request request = {.from = {true, true, 165.0, false}};
	enum bc_status status = BC_NO_MEMORY;
	unsigned long n = 1;
	assert_int_equal(calibrate("", request), BC_OK); /* makes the samples */
	const struct bc_calibrating_request again = {
		.before = before, .after = after, .from = request.from};
	for (; status != BC_OK && n < 3000; n++) {
		bc_calibrating_release(&run);
		bc_fault_set(BC_FAULT_ALLOC, n, true);
		status = bc_calibrating_run(&again, limits, &run);
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		assert_true(status == BC_OK || status == BC_NO_MEMORY);
	}
	assert_int_equal(status, BC_OK);
	assert_true(n > 20);
}

static int set_up(void **state)
{
	(void)state;
	bc_calibrating_init(&run);
	return bc_failed(bc_limits_default(NULL, &limits)) ? -1 : 0;
}

static int tear_down(void **state)
{
	(void)state;
	bc_calibrating_release(&run);
	bc_sample_free(before);
	bc_sample_free(after);
	bc_limits_free(limits);
	return 0;
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_no_still_explains_is_not_kept),
		cmocka_unit_test(a_run_is_known_by_its_readings),
		cmocka_unit_test(a_pair_tells_what_made_it),
		cmocka_unit_test(turns_may_be_readings),
		cmocka_unit_test(what_cannot_be_is_refused_in_words),
		cmocka_unit_test(a_cut_below_the_first_drop_says_nothing),
		cmocka_unit_test(a_blend_of_solvents_comes_with_its_danger),
		cmocka_unit_test(every_allocation_may_fail),
	};
	return cmocka_run_group_tests(tests, set_up, tear_down);
}
