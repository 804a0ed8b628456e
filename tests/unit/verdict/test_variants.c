/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Standards that are held against an oil only where their name or their grade is asked for. */
#include "evidence.h"

#define DENSITY(grade, standard, judged)                                                           \
	grade "," standard ",2017,density,,,817.3,no,kg/m3,Q 1,judge,yes," judged ",seen,\n"

static void check(const char *standard, const char *grade_text, const char *expected)
{
	struct by_hand made;
	make_by_hand(&made);
	made.evidence.asked_standard = standard;
	made.evidence.asked_grade = grade_text;
	struct bc_limits *limits = table_of(DENSITY("kerosene-range", "Q 6", "no") DENSITY(
		"heating-oil-range", "Q 9", "yes") DENSITY("heating-oil-range", "Q 8", "no"));
	struct bc_grades grades;
	assert_int_equal(bc_grades_assess(limits, &made.evidence, &grades), BC_OK);
	char names[40] = "";
	for (size_t i = 0; i < grades.n; i++) {
		strcat(names, grades.items[i].standard);
		strcat(names, " ");
	}
	assert_string_equal(names, expected);
	bc_grades_release(&grades);
	bc_limits_free(limits);
}

static void variants_are_judged_when_asked_for(void **state)
{
	(void)state;
	check(NULL, NULL, "Q 9 ");
	check("Q 8", NULL, "Q 9 Q 8 ");
	check("Q 6", NULL, "Q 6 Q 9 ");
	check(NULL, "heating-oil-range", "Q 9 Q 8 ");
	check(NULL, "kerosene-range", "Q 6 Q 9 ");
	check(NULL, "gasoline-range", "Q 9 ");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(variants_are_judged_when_asked_for),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
