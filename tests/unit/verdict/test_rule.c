/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The word of a verdict, and which standard it names. */
#include "evidence.h"

#include "base/fault.h"

#define ROW(grade, standard, property, basis, min, max, unit, role)                                \
	grade "," standard ",2017," property "," basis "," min "," max ",no," unit ",Q 1," role    \
	      ",yes,seen,\n"

#define HEATING_FLASH                                                                              \
	ROW("heating-oil-range", "Q 9", "flash_point", "", "38.2", "", "degC", "safety")
#define HEATING_T90                                                                                \
	ROW("heating-oil-range", "Q 9", "T90", "recovered", "", "338.4", "degC", "judge")
#define HEATING HEATING_FLASH HEATING_T90

struct decided {
	struct by_hand made;
	struct bc_limits *limits;
	struct bc_grades grades;
	struct bc_findings findings;
	struct bc_bearing bearing;
	struct bc_verdict verdict;
};

static void start(struct decided *d, const char *rows)
{
	*d = (struct decided){0};
	make_by_hand(&d->made);
	d->limits = table_of(rows);
	bc_findings_init(&d->findings);
	d->bearing = (struct bc_bearing){.want = BC_GRADES, .findings = &d->findings};
}

static enum bc_word decide(struct decided *d)
{
	d->bearing.evidence = &d->made.evidence;
	bc_grades_release(&d->grades);
	bc_verdict_release(&d->verdict);
	assert_int_equal(bc_grades_assess(d->limits, &d->made.evidence, &d->grades), BC_OK);
	assert_int_equal(bc_verdict_decide(&d->grades, &d->bearing, &d->verdict), BC_OK);
	assert_true(d->verdict.because.n > 0);
	return d->verdict.word;
}

static void finish(struct decided *d)
{
	bc_verdict_release(&d->verdict);
	bc_grades_release(&d->grades);
	bc_findings_release(&d->findings);
	bc_limits_free(d->limits);
}

static bool says(const struct bc_strings *list, const char *words)
{
	for (size_t i = 0; i < list->n; i++) {
		if (strstr(list->items[i], words) != NULL)
			return true;
	}
	return false;
}

static void usable_when_all_is_within(void **state)
{
	(void)state;
	struct decided d;
	start(&d, HEATING);
	assert_int_equal(decide(&d), BC_WORD_USABLE);
	assert_string_equal(d.verdict.grade->standard, "Q 9");
	assert_non_null(strstr(d.verdict.because.items[0], "Its boiling and flash are within"));
	assert_non_null(strstr(d.verdict.because.items[0], "still to be tested: dissolved gas"));
	finish(&d);
}

static void never_usable_without_what_it_takes(void **state)
{
	(void)state;
	struct decided d;
	start(&d, HEATING);
	d.bearing.few_readings = true;
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	d.bearing.few_readings = false;
	d.bearing.rough_apparatus = true;
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	d.bearing.rough_apparatus = false;
	d.made.boiloff.wet = true;
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_true(says(&d.verdict.next, "dry the oil"));
	d.made.boiloff.wet = false;
	d.made.oil.flash_claim = false;
	d.made.oil.property[BC_FLASH].low = NAN;
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_true(says(&d.verdict.next, "closed cup"));
	d.made.oil.flash_claim = true;
	d.made.oil.property[BC_FLASH].low = 62.2;
	assert_int_equal(decide(&d), BC_WORD_USABLE);
	bc_findings_add(
		&d.findings, "feed-pvc", BC_FINDING_DANGER, NAN, "PVC went in.", "Test it.");
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_true(says(&d.verdict.because, "PVC went in."));
	finish(&d);
}

static void no_claim_without_a_flash_limit(void **state)
{
	(void)state;
	struct decided d;
	start(&d, HEATING_T90);
	assert_int_equal(decide(&d), BC_WORD_USABLE);
	d.made.oil.flash_claim = false;
	d.made.oil.property[BC_FLASH].low = NAN;
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	finish(&d);
}

static void gasoline_is_never_usable(void **state)
{
	(void)state;
	struct decided d;
	start(&d, ROW("gasoline-range", "Q 2", "FBP", "", "", "371.3", "degC", "judge"));
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_int_equal(d.verdict.grade->state, BC_STATE_WITHIN);
	assert_true(says(&d.verdict.because, "octane"));
	d.bearing.want = BC_GRADE_GASOLINE;
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	finish(&d);
}

static void scope_and_comparison_are_never_usable(void **state)
{
	(void)state;
	struct decided d;
	start(&d,
		ROW("diesel-range", "EN 15940 class A", "T95", "recovered", "", "360.7", "degC",
			"judge") ROW("comparison", "Q 3", "FBP", "", "", "371.3", "degC", "judge"));
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_null(d.verdict.grade);
	d.bearing.standard = "EN 15940 class A";
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_true(says(&d.verdict.because, "hydrotreatment"));
	finish(&d);
}

static void customs_alone_never_make_unfit(void **state)
{
	(void)state;
	struct decided d;
	start(&d, HEATING ROW("heating-oil-range", "Q 9", "recovered_at_350C", "recovered", "",
			  "12.7", "%V/V", "customs"));
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_int_equal(d.verdict.grade->outside, 1);
	d.bearing.cut_exists = true;
	assert_int_equal(decide(&d), BC_WORD_RERUN);
	finish(&d);
	/* the line at 250 degC does not even stand in the way */
	start(&d, HEATING ROW("heating-oil-range", "Q 9", "recovered_at_250C", "recovered", "",
			  "12.7", "%V/V", "customs"));
	assert_int_equal(decide(&d), BC_WORD_USABLE);
	finish(&d);
}

static void outside_is_rerun_or_unfit(void **state)
{
	(void)state;
	struct decided d;
	start(&d, HEATING);
	d.made.oil.property[BC_FLASH] = bc_estimate_new(21.7, 9.1, BC_ESTIMATED);
	assert_int_equal(decide(&d), BC_WORD_UNFIT);
	assert_true(
		says(&d.verdict.because, "Its flash point, 21.7 degC (12.6 to 30.8), is outside "
					 "Q 9 (2017): at least 38.2 degC."));
	d.bearing.cut_exists = true;
	d.bearing.cut_light = true;
	assert_int_equal(decide(&d), BC_WORD_RERUN);
	assert_true(says(&d.verdict.next, "light end"));
	d.bearing.few_readings = true;
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	d.bearing.few_readings = false;
	d.made.boiloff.wet = true;
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	finish(&d);
}

static void hopeless_flash_counts_as_outside(void **state)
{
	(void)state;
	struct decided d;
	start(&d, HEATING);
	d.made.oil.flash_claim = false;
	d.made.oil.property[BC_FLASH] = (struct bc_estimate){21.7, NAN, 30.8, BC_ESTIMATED};
	assert_int_equal(decide(&d), BC_WORD_UNFIT);
	assert_true(says(&d.verdict.because, "at best 30.8 degC"));
	finish(&d);
}

static void doubt_stands_between_two_words(void **state)
{
	(void)state;
	struct decided d;
	start(&d, HEATING);
	d.made.points.at[BC_AT_T90] = bc_estimate_new(337.2, 4.1, BC_ESTIMATED);
	d.bearing.cut_exists = true;
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_true(says(&d.verdict.because, "90 % point"));
	assert_true(says(&d.verdict.next, "thermometer"));
	finish(&d);
}

#define KEROSENE ROW("kerosene-range", "Q 4", "flash_point", "", "37.7", "", "degC", "safety")

static void ties_go_to_the_lightest(void **state)
{
	(void)state;
	struct decided d;
	start(&d, HEATING KEROSENE);
	assert_int_equal(decide(&d), BC_WORD_USABLE);
	assert_int_equal(d.verdict.grade->name, BC_GRADE_KEROSENE);
	d.bearing.want = BC_GRADE_HEATING_OIL;
	assert_int_equal(decide(&d), BC_WORD_USABLE);
	assert_string_equal(d.verdict.grade->standard, "Q 9");
	d.bearing.want = BC_GRADES;
	d.bearing.standard = "Q 9";
	assert_int_equal(decide(&d), BC_WORD_USABLE);
	assert_string_equal(d.verdict.grade->standard, "Q 9");
	finish(&d);
}

static void nearest_counts_outside_then_doubtful(void **state)
{
	(void)state;
	struct decided d;
	/* kerosene: one outside; heating oil: two doubtful */
	start(&d, ROW("kerosene-range", "Q 4", "FBP", "", "", "300.3", "degC", "judge")
			  ROW("heating-oil-range", "Q 9", "T90", "recovered", "", "316.8", "degC",
				  "judge") ROW("heating-oil-range", "Q 9", "density", "", "",
				  "808.3", "kg/m3", "judge"));
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_string_equal(d.verdict.grade->standard, "Q 9");
	assert_ptr_equal(bc_grade_nearest(&d.grades, BC_GRADE_KEROSENE, NULL), &d.grades.items[0]);
	assert_null(bc_grade_nearest(&d.grades, BC_GRADE_MARINE, NULL));
	finish(&d);
}

static void print_goes_before_memory_within_a_grade(void **state)
{
	(void)state;
	struct decided d;
	start(&d, "heating-oil-range,Q 5,2017,T90,recovered,,338.4,no,degC,Q "
		  "1,judge,yes,memory,\n" HEATING);
	assert_int_equal(decide(&d), BC_WORD_USABLE);
	assert_string_equal(d.verdict.grade->standard, "Q 9");
	d.bearing.standard = "Q 5";
	assert_int_equal(decide(&d), BC_WORD_USABLE);
	assert_true(says(&d.verdict.because, "from memory"));
	finish(&d);
}

static void too_light_for_road_diesel(void **state)
{
	(void)state;
	struct decided d;
	start(&d, ROW("diesel-range", "Q 6", "density", "", "820", "845", "kg/m3", "judge") ROW(
			  "diesel-range", "Q 7", "T90", "recovered", "", "338.4", "degC", "judge")
			  HEATING);
	assert_int_equal(decide(&d), BC_WORD_USABLE);
	assert_string_equal(d.verdict.grade->standard, "Q 9");
	assert_true(says(&d.verdict.because, "fits no road-diesel standard"));
	d.bearing.want = BC_GRADE_DIESEL;
	assert_int_equal(decide(&d), BC_WORD_USABLE);
	assert_string_equal(d.verdict.grade->standard, "Q 7");
	d.bearing.want = BC_GRADES;
	d.made.oil.property[BC_DENSITY15] = bc_estimate_new(829.4, 1.7, BC_MEASURED);
	assert_int_equal(decide(&d), BC_WORD_USABLE);
	assert_string_equal(d.verdict.grade->standard, "Q 6");
	finish(&d);
}

static void no_memory_is_reported(void **state)
{
	(void)state;
	struct decided d;
	start(&d, HEATING);
	d.made.oil.property[BC_FLASH] = bc_estimate_new(41.2, 9.1, BC_ESTIMATED);
	decide(&d);
	bool reached = true;
	for (unsigned long nth = 1; reached; nth++) {
		struct bc_verdict verdict;
		bc_fault_set(BC_FAULT_ALLOC, nth, false);
		enum bc_status status = bc_verdict_decide(&d.grades, &d.bearing, &verdict);
		reached = bc_fault_count(BC_FAULT_ALLOC) >= nth;
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		assert_int_equal(status, reached ? BC_NO_MEMORY : BC_OK);
		bc_verdict_release(&verdict);
	}
	finish(&d);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(usable_when_all_is_within),
		cmocka_unit_test(never_usable_without_what_it_takes),
		cmocka_unit_test(no_claim_without_a_flash_limit),
		cmocka_unit_test(gasoline_is_never_usable),
		cmocka_unit_test(scope_and_comparison_are_never_usable),
		cmocka_unit_test(customs_alone_never_make_unfit),
		cmocka_unit_test(outside_is_rerun_or_unfit),
		cmocka_unit_test(hopeless_flash_counts_as_outside),
		cmocka_unit_test(doubt_stands_between_two_words),
		cmocka_unit_test(ties_go_to_the_lightest),
		cmocka_unit_test(nearest_counts_outside_then_doubtful),
		cmocka_unit_test(print_goes_before_memory_within_a_grade),
		cmocka_unit_test(too_light_for_road_diesel),
		cmocka_unit_test(no_memory_is_reported),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
