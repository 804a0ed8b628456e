/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings that do not belong: which are left out, how the slip is named, what is no slip. */
#include "by_hand.h"

#include "curve/slip.h"

#define READINGS(...)                                                                              \
	struct bc_reading readings[] = {__VA_ARGS__};                                              \
	struct bc_sample sample = sample_by_hand(readings, sizeof readings / sizeof *readings)

#define CLEAN                                                                                      \
	IBP(171), AT(5, 187.5), AT(10, 196), AT(20, 208.3), AT(30, 219), AT(40, 229.7),            \
		AT(50, 241), AT(60, 252.6), AT(70, 266), AT(80, 283), AT(90, 307.3), AT(95, 327),  \
		FBP(343)

static void state_all(struct bc_sample *sample)
{
	sample->thermometer = BC_THERMOMETER_GLASS_D86;
	sample->barometer_kpa = 101.3;
	sample->residue_ml = 1.3;
	sample->loss_ml = 0.9;
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

/* A record that has only begun holds no reading of an amount to put in order. */
static void without_amounts_nothing_is_judged(void **state)
{
	(void)state;
	READINGS(IBP(171));
	struct worked w;
	assert_int_equal(work(&sample, &w), BC_TOO_FEW);
	assert_null(finding(&w, "temperature-falls"));
	assert_null(finding(&w, "reading-out-of-line"));
	work_release(&w);
}

/* One slip in a clean record: left out, its row and likely cause named, and nothing else. */
static void a_slip_is_named(void **state)
{
	(void)state;
	static const struct {
		size_t reading;
		double head_c;
		const char *part;
	} cases[] = {
		{4, 291.0, "219.0 C, with two digits swapped"},
		{6, 214.0, "241.0 C, with two digits swapped"},
		{6, 465.8, "degF, would fit: 241.0 C"},
		{8, 166.0, "266.0 C, with the hundreds put right"},
		{9, 383.0, "283.0 C, with the hundreds put right"},
		{7, 25.3, "253.0 C, with the point moved"},
		{5, 239.7, "229.7 C, with the tens put right"},
		{7, 222.6, "252.6 C, with the tens put right"},
		{9, 266.0, "the line beside it may stand there twice"},
		{7, 237.9, "about 253 C would fit"},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		READINGS(CLEAN);
		struct worked w;
		state_all(&sample);
		readings[cases[i].reading].head_c = cases[i].head_c;
		assert_int_equal(work(&sample, &w), BC_OK);
		const struct bc_finding *found = finding(&w, "reading-out-of-line");
		if (!found || w.findings.n != 1)
			fail_msg("case %zu: %zu findings", i, w.findings.n);
		if (!strstr(found->message, cases[i].part))
			fail_msg("case %zu: %s", i, found->message);
		assert_close(found->at_pct, readings[cases[i].reading].amount, 0.0);
		assert_int_equal(w.boiloff.n_amounts, 10);
		assert_false(found->forbids_usable);
		work_release(&w);
	}
}

static void small_slips_and_bends_stay(void **state)
{
	(void)state;
	static const struct {
		size_t reading;
		double head_c;
	} cases[] = {{6, 247.3}, {6, 235.7}, {0, 141.3}, {0, 186.9}, {11, 333.7}, {12, 391.3}};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		READINGS(CLEAN);
		struct worked w;
		state_all(&sample);
		readings[cases[i].reading].head_c = cases[i].head_c;
		assert_false(bc_failed(work(&sample, &w)));
		if (finding(&w, "reading-out-of-line"))
			fail_msg("case %zu: %s", i, finding(&w, "reading-out-of-line")->message);
		assert_int_equal(w.boiloff.n_amounts, 11);
		work_release(&w);
	}
}

/* Two low ones before a jump are a low front; one below a first drop that fits is a slip. */
static void a_low_front_stays(void **state)
{
	(void)state;
	static const struct {
		double ibp_c;
		double t5_c;
		bool stays;
	} cases[] = {{60.3, 72.1, true}, {113.7, 127.9, true}, {171.0, 87.5, false},
		{168.3, 117.5, false}};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		READINGS(CLEAN);
		struct worked w;
		state_all(&sample);
		readings[0].head_c = cases[i].ibp_c;
		readings[1].head_c = cases[i].t5_c;
		assert_int_equal(work(&sample, &w), BC_OK);
		if ((finding(&w, "reading-out-of-line") == NULL) != cases[i].stays)
			fail_msg("case %zu", i);
		assert_int_equal(w.boiloff.n_amounts, cases[i].stays ? 11 : 10);
		work_release(&w);
	}
}

static void swapped_rows_are_both_left_out(void **state)
{
	(void)state;
	READINGS(CLEAN);
	struct worked w;
	state_all(&sample);
	readings[5].head_c = 241.0;
	readings[6].head_c = 229.7;
	assert_int_equal(work(&sample, &w), BC_OK);
	const struct bc_finding *found = finding(&w, "readings-swapped");
	assert_non_null(found);
	assert_close(found->at_pct, 40.0, 0.0);
	assert_int_equal(w.findings.n, 1);
	assert_int_equal(w.boiloff.n_amounts, 9);
	work_release(&w);
}

static void the_second_slip_forbids_a_verdict(void **state)
{
	(void)state;
	READINGS(CLEAN);
	struct worked w;
	state_all(&sample);
	readings[4].head_c = 291.0;
	readings[8].head_c = 166.0;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_int_equal(w.findings.n, 2);
	assert_true(w.findings.items[0].forbids_usable || w.findings.items[1].forbids_usable);
	assert_int_equal(w.boiloff.n_amounts, 9);
	work_release(&w);
}

/* A third one stays in use and is told. */
static void the_third_slip_is_a_jump(void **state)
{
	(void)state;
	READINGS(CLEAN);
	struct worked w;
	state_all(&sample);
	readings[2].head_c = 251.7;
	readings[6].head_c = 252.3;
	readings[9].head_c = 183.0;
	assert_int_equal(work(&sample, &w), BC_OK);
	const struct bc_finding *found = finding(&w, "jump");
	assert_non_null(found);
	assert_close(found->at_pct, 50.0, 0.0);
	assert_non_null(strstr(found->message, "still used"));
	assert_int_equal(w.boiloff.n_amounts, 9);
	work_release(&w);
}

static void keep_all_names_and_keeps(void **state)
{
	(void)state;
	static const struct {
		size_t reading;
		double head_c;
	} cases[] = {{8, 166.0}, {5, 239.7}};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		READINGS(CLEAN);
		struct worked w = {.boiloff = {.n = 0}};
		state_all(&sample);
		readings[cases[i].reading].head_c = cases[i].head_c;
		bc_strings_init(&w.assumed);
		bc_findings_init(&w.findings);
		assert_int_equal(
			bc_conditions_from_sample(&sample, &w.conditions, &w.assumed), BC_OK);
		assert_int_equal(bc_boiloff_from_readings(&sample, &w.conditions, true, &w.boiloff,
					 &w.assumed, &w.findings),
			BC_OK);
		assert_int_equal(
			bc_boiloff_findings(&w.boiloff, &sample, &w.conditions, &w.findings),
			BC_OK);
		assert_int_equal(w.findings.n, 1);
		assert_non_null(strstr(w.findings.items[0].message, "kept as asked"));
		assert_int_equal(w.boiloff.n_amounts, 11);
		work_release(&w);
	}
}

/* What falls at the end ends the curve; what falls before it and comes back is a slip. */
static void a_fall_at_the_end_is_no_slip(void **state)
{
	(void)state;
	READINGS(IBP(171), AT(5, 187.5), AT(10, 196), AT(20, 208.3), AT(30, 219), AT(40, 229.7),
		AT(50, 241), AT(60, 252.6), AT(70, 266), AT(80, 283), AT(90, 307.3), AT(95, 287.9));
	struct worked w;
	state_all(&sample);
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_non_null(finding(&w, "temperature-falls"));
	assert_close(finding(&w, "temperature-falls")->at_pct, 90.0, 0.0);
	assert_int_equal(w.findings.n, 1);
	work_release(&w);
	readings[10].head_c = 263.0;
	readings[11].head_c = 327.0;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_close(finding(&w, "reading-out-of-line")->at_pct, 90.0, 0.0);
	assert_int_equal(w.findings.n, 1);
	work_release(&w);
}

/* A single slip leaves neither a shelf of water nor a head that cracks behind. */
static void a_slip_raises_no_other_finding(void **state)
{
	(void)state;
	READINGS(IBP(81), AT(5, 86), AT(10, 89), AT(20, 91.3), AT(30, 93.7), AT(40, 195.9),
		AT(50, 98.3), AT(60, 101), AT(70, 105), AT(80, 111), AT(90, 121), FBP(141));
	struct worked w;
	state_all(&sample);
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_int_equal(w.findings.n, 1);
	assert_close(finding(&w, "reading-out-of-line")->at_pct, 40.0, 0.0);
	work_release(&w);
	readings[5].head_c = 659.0;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_int_equal(w.findings.n, 1);
	work_release(&w);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(without_amounts_nothing_is_judged),
		cmocka_unit_test(a_slip_is_named),
		cmocka_unit_test(small_slips_and_bends_stay),
		cmocka_unit_test(a_low_front_stays),
		cmocka_unit_test(swapped_rows_are_both_left_out),
		cmocka_unit_test(the_second_slip_forbids_a_verdict),
		cmocka_unit_test(the_third_slip_is_a_jump),
		cmocka_unit_test(keep_all_names_and_keeps),
		cmocka_unit_test(a_fall_at_the_end_is_no_slip),
		cmocka_unit_test(a_slip_raises_no_other_finding),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
