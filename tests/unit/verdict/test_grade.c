/* SPDX-License-Identifier: GPL-3.0-or-later */
/* States of criteria at their edges, and what they make of a grade. */
#include "evidence.h"

#include "base/fault.h"

#define CRITERION(property, basis, min, max, strict, unit, role)                                   \
	"heating-oil-range,Q 9,2017," property "," basis "," min "," max "," strict "," unit       \
	",Q 1," role ",yes,yes,seen,\n"

static struct bc_grade grade;
static struct bc_criterion room[8];

/* The only criterion of a one-row table against an oil by hand. */
static struct bc_criterion judged(const struct by_hand *made, const char *row)
{
	struct bc_limits *limits = table_of(row);
	assert_int_equal(
		bc_standard_assess(limits, "Q 9", &made->evidence, &grade, room, 8), BC_OK);
	struct bc_criterion criterion = room[0];
	criterion.limit = NULL;
	grade.standard = grade.edition = NULL;
	bc_limits_free(limits);
	return criterion;
}

static enum bc_state density_state(double value, double half_width, const char *row)
{
	struct by_hand made;
	make_by_hand(&made);
	made.oil.property[BC_DENSITY15] = bc_estimate_new(value, half_width, BC_MEASURED);
	return judged(&made, row).state;
}

#define DENSITY_MAX(strict) CRITERION("density", "", "", "817.3", strict, "kg/m3", "judge")
#define DENSITY_MIN(strict) CRITERION("density", "", "817.3", "", strict, "kg/m3", "judge")

static void a_sure_value_on_the_limit(void **state)
{
	(void)state;
	assert_int_equal(density_state(817.3, 0.0, DENSITY_MAX("no")), BC_STATE_WITHIN);
	assert_int_equal(density_state(817.3, 0.0, DENSITY_MAX("yes")), BC_STATE_OUTSIDE);
	assert_int_equal(density_state(817.3, 0.0, DENSITY_MIN("no")), BC_STATE_WITHIN);
	assert_int_equal(density_state(817.3, 0.0, DENSITY_MIN("yes")), BC_STATE_OUTSIDE);
	assert_int_equal(density_state(817.31, 0.0, DENSITY_MAX("no")), BC_STATE_OUTSIDE);
	assert_int_equal(density_state(817.29, 0.0, DENSITY_MIN("no")), BC_STATE_OUTSIDE);
}

/* With a half-width w, 95 % two-sided, the one-sided 95 % point lies at 1.645/1.960 w = 0.839 w. */
static void a_spread_value_near_the_limit(void **state)
{
	(void)state;
	assert_int_equal(density_state(817.3, 5.7, DENSITY_MAX("no")), BC_STATE_DOUBTFUL);
	assert_int_equal(
		density_state(817.3 - 0.84 * 5.7, 5.7, DENSITY_MAX("no")), BC_STATE_WITHIN);
	assert_int_equal(
		density_state(817.3 - 0.83 * 5.7, 5.7, DENSITY_MAX("no")), BC_STATE_DOUBTFUL);
	assert_int_equal(
		density_state(817.3 + 0.83 * 5.7, 5.7, DENSITY_MAX("no")), BC_STATE_DOUBTFUL);
	assert_int_equal(
		density_state(817.3 + 0.84 * 5.7, 5.7, DENSITY_MAX("no")), BC_STATE_OUTSIDE);
}

#define FLASH(strict) CRITERION("flash_point", "", "55", "", strict, "degC", "safety")

static struct bc_criterion flash_judged(double value, double half_width, const char *row)
{
	struct by_hand made;
	make_by_hand(&made);
	made.oil.property[BC_FLASH] = bc_estimate_new(value, half_width, BC_ESTIMATED);
	return judged(&made, row);
}

/* The chance alone would be met at 0.839 w; safety asks for the whole bound. */
static void safety_goes_by_the_unfavourable_bound(void **state)
{
	(void)state;
	struct bc_criterion near = flash_judged(55.0 + 11.3, 12.5, FLASH("no"));
	assert_true(near.chance_within > 0.95);
	assert_int_equal(near.state, BC_STATE_DOUBTFUL);
	assert_int_equal(flash_judged(67.5, 12.5, FLASH("no")).state, BC_STATE_WITHIN);
	assert_int_equal(flash_judged(67.5, 12.5, FLASH("yes")).state, BC_STATE_DOUBTFUL);
	assert_int_equal(flash_judged(67.51, 12.5, FLASH("yes")).state, BC_STATE_WITHIN);
	assert_int_equal(flash_judged(44.1, 12.5, FLASH("no")).state, BC_STATE_OUTSIDE);
}

static void flash_without_a_claim(void **state)
{
	(void)state;
	struct by_hand made;
	make_by_hand(&made);
	made.oil.flash_claim = false;
	made.oil.property[BC_FLASH].low = NAN;
	struct bc_criterion open = judged(&made, FLASH("no"));
	assert_int_equal(open.state, BC_STATE_NOT_MEASURED);
	assert_nan(open.chance_within);
	assert_false(open.hopeless);
	assert_int_equal(grade.unmeasured, 1);
	assert_int_equal(grade.state, BC_STATE_NOT_MEASURED);
	made.oil.property[BC_FLASH] = (struct bc_estimate){41.2, NAN, 54.9, BC_ESTIMATED};
	struct bc_criterion hopeless = judged(&made, FLASH("no"));
	assert_int_equal(hopeless.state, BC_STATE_NOT_MEASURED);
	assert_true(hopeless.hopeless);
	assert_int_equal(grade.outside, 1);
	assert_int_equal(grade.unmeasured, 0);
	assert_int_equal(grade.state, BC_STATE_OUTSIDE);
	made.oil.property[BC_FLASH].high = 55.0;
	assert_false(judged(&made, FLASH("no")).hopeless);
	assert_true(judged(&made, FLASH("yes")).hopeless);
}

static void an_invalid_method_never_decides(void **state)
{
	(void)state;
	const char *row = CRITERION("cetane_index", "", "46.3", "", "no", "-", "judge");
	struct by_hand made;
	make_by_hand(&made);
	made.oil.property[BC_CETANE_INDEX] = bc_estimate_new(71.2, 3.9, BC_NOT_VALID);
	assert_int_equal(judged(&made, row).state, BC_STATE_DOUBTFUL);
	made.oil.property[BC_CETANE_INDEX] = bc_estimate_new(21.2, 3.9, BC_NOT_VALID);
	assert_int_equal(judged(&made, row).state, BC_STATE_DOUBTFUL);
	made.oil.property[BC_CETANE_INDEX] = bc_estimate_new(71.2, 3.9, BC_ESTIMATED);
	assert_int_equal(judged(&made, row).state, BC_STATE_WITHIN);
	made.oil.property[BC_CETANE_INDEX] = bc_estimate_absent();
	assert_int_equal(judged(&made, row).state, BC_STATE_NOT_MEASURED);
}

/* 65 % at 250 is shown and counts for nothing; 85 % at 350 counts. */
static void customs_lines(void **state)
{
	(void)state;
	struct by_hand made;
	make_by_hand(&made);
	struct bc_criterion line = judged(&made,
		CRITERION("recovered_at_250C", "recovered", "", "11.3", "yes", "%V/V", "customs"));
	assert_int_equal(line.state, BC_STATE_OUTSIDE);
	assert_int_equal(grade.outside, 0);
	line = judged(&made,
		CRITERION("recovered_at_350C", "recovered", "100.0", "", "yes", "%V/V", "customs"));
	assert_int_equal(line.state, BC_STATE_OUTSIDE);
	assert_int_equal(grade.outside, 1);
}

static void other_tests_count_once_measured(void **state)
{
	(void)state;
	const char *row = CRITERION("sulphur", "", "", "0.1", "no", "%m/m", "other-test");
	struct bc_limits *limits = table_of(row);
	struct by_hand made;
	make_by_hand(&made);
	struct bc_grades grades;
	assert_int_equal(bc_grades_assess(limits, &made.evidence, &grades), BC_OK);
	assert_int_equal(grades.n, 1);
	assert_int_equal(grades.items[0].n_criteria, 0);
	assert_string_equal(
		grades.items[0].not_measured.items[0], "sulphur: at most 0.1 %m/m (Q 1)");
	for (size_t i = 1; i < grades.items[0].not_measured.n; i++)
		assert_null(strstr(grades.items[0].not_measured.items[i], "sulphur"));
	bc_grades_release(&grades);
	measure(&made, "sulphur", 1130.0); /* mg/kg: 0.113 %m/m */
	assert_int_equal(bc_grades_assess(limits, &made.evidence, &grades), BC_OK);
	assert_int_equal(grades.items[0].n_criteria, 1);
	assert_close(grades.items[0].criteria[0].value.value, 0.113, 1e-12);
	assert_int_equal(grades.items[0].outside, 1);
	assert_null(strstr(grades.items[0].not_measured.items[0], "sulphur"));
	bc_grades_release(&grades);
	bc_limits_free(limits);
}

#define IN_FORCE(property, max, unit) CRITERION(property, "", "", max, "no", unit, "other-test")

static bool lists(const struct bc_strings *list, const char *words)
{
	for (size_t i = 0; i < list->n; i++) {
		if (strncmp(list->items[i], words, strlen(words)) == 0)
			return true;
	}
	return false;
}

/* A figure that this standard does not limit is neither judged nor forgotten. */
static void measured_without_a_limit_is_kept(void **state)
{
	(void)state;
	struct by_hand made;
	make_by_hand(&made);
	struct bc_limits *limits = table_of(DENSITY_MAX("no"));
	struct bc_grades grades;
	measure(&made, "chlorine", 2110.0);
	measure(&made, "cloud_point", -7.3);
	assert_int_equal(bc_grades_assess(limits, &made.evidence, &grades), BC_OK);
	assert_int_equal(grades.items[0].measured_unlimited.n, 2);
	assert_string_equal(grades.items[0].measured_unlimited.items[0], "chlorine 2110 mg/kg");
	assert_string_equal(grades.items[0].measured_unlimited.items[1], "cloud point -7.3 degC");
	assert_true(lists(
		&grades.items[0].not_measured, "chlorine (measured; this standard sets no limit)"));
	bc_grades_release(&grades);
	bc_limits_free(limits);
}

/* 700 mg/kg of water in an oil of 808.3 kg/m3 fill 0.0566 %. */
static void water_counts_as_water_and_sediment(void **state)
{
	(void)state;
	struct by_hand made;
	make_by_hand(&made);
	struct bc_limits *limits = table_of(IN_FORCE("water_and_sediment", "0.05", "%V/V"));
	struct bc_grades grades;
	measure(&made, "water", 700.0);
	assert_int_equal(bc_grades_assess(limits, &made.evidence, &grades), BC_OK);
	assert_int_equal(grades.items[0].outside, 1);
	assert_close(grades.items[0].criteria[0].value.value, 0.056581, 1e-9);
	assert_non_null(grades.items[0].unmendable);
	assert_int_equal(grades.items[0].measured_unlimited.n, 0);
	assert_false(lists(&grades.items[0].not_measured, "water"));
	assert_true(lists(&grades.items[0].not_measured, "sediment"));
	bc_grades_release(&grades);
	made.measured[0].value = 500.0;
	assert_int_equal(bc_grades_assess(limits, &made.evidence, &grades), BC_OK);
	assert_int_equal(grades.items[0].outside, 0);
	assert_null(grades.items[0].unmendable);
	bc_grades_release(&grades);
	bc_limits_free(limits);
}

/* Cold flow goes with the heavy end, sulphur with nothing. */
static void a_cut_may_mend_what_follows_boiling(void **state)
{
	(void)state;
	struct by_hand made;
	make_by_hand(&made);
	measure(&made, "cloud_point", 7.3);
	judged(&made, CRITERION("cloud_point", "", "", "-4.3", "no", "degC", "other-test"));
	assert_int_equal(grade.outside, 1);
	assert_null(grade.unmendable);
	measure(&made, "copper_strip", 3.0);
	judged(&made, CRITERION("copper_strip", "", "", "1", "no", "class", "other-test"));
	assert_non_null(grade.unmendable);
}

static void a_scope_caps_the_state(void **state)
{
	(void)state;
	struct by_hand made;
	make_by_hand(&made);
	struct bc_limits *limits =
		table_of("diesel-range,EN 15940 class A,2017,density,,765,817.3,no,kg/m3,Q "
			 "1,judge,yes,yes,seen,\n");
	struct bc_grades grades;
	assert_int_equal(bc_grades_assess(limits, &made.evidence, &grades), BC_OK);
	assert_int_equal(grades.items[0].state, BC_STATE_DOUBTFUL);
	assert_int_equal(grades.items[0].doubtful, 0);
	assert_int_equal(strncmp(grades.items[0].not_measured.items[0], "scope: covers", 13), 0);
	bc_grades_release(&grades);
	bc_limits_free(limits);
}

static void too_light_by_its_upper_bound(void **state)
{
	(void)state;
	struct bc_limits *limits = table_of(
		"diesel-range,Q 6,2017,density,,820,845,no,kg/m3,Q 1,judge,yes,yes,seen,\n" DENSITY_MIN(
			"no"));
	struct bc_estimate sure = bc_estimate_new(808.3, 1.7, BC_MEASURED);
	struct bc_estimate unsure = bc_estimate_new(808.3, 58.0, BC_ESTIMATED);
	struct bc_estimate heavy = bc_estimate_new(868.3, 1.7, BC_MEASURED);
	assert_true(bc_limit_too_light(&limits->items[0], &sure));
	assert_false(bc_limit_too_light(&limits->items[0], &unsure));
	assert_false(bc_limit_too_light(&limits->items[0], &heavy));
	assert_false(bc_limit_too_light(&limits->items[1], &sure)); /* no diesel */
	bc_limits_free(limits);
}

static void generic_tests_are_always_listed(void **state)
{
	(void)state;
	struct by_hand made;
	make_by_hand(&made);
	struct bc_limits *limits;
	struct bc_grades grades;
	assert_int_equal(bc_limits_default(NULL, &limits), BC_OK);
	assert_int_equal(bc_grades_assess(limits, &made.evidence, &grades), BC_OK);
	static const char *const always[] = {
		"dissolved gas", "sulphur", "chlorine", "water", "benzene"};
	for (size_t i = 0; i < grades.n; i++) {
		for (size_t k = 0; k < sizeof always / sizeof *always; k++) {
			bool found = false;
			for (size_t j = 0; j < grades.items[i].not_measured.n; j++)
				found = found || strncmp(grades.items[i].not_measured.items[j],
							 always[k], strlen(always[k])) == 0;
			if (!found)
				fail_msg("%s says nothing of %s", grades.items[i].standard,
					always[k]);
		}
	}
	bc_grades_release(&grades);
	bc_limits_free(limits);
}

/* A viscosity holds for the temperature it was measured at. */
static void measured_viscosity_by_temperature(void **state)
{
	(void)state;
	struct by_hand made;
	make_by_hand(&made);
	measure(&made, "kin_viscosity", 3.71);
	struct bc_estimate value = bc_evidence_value(&made.evidence, "kin_viscosity", "");
	assert_close(value.value, 3.71, 1e-12);
	made.measured[0].temp_c = 20.0;
	assert_close(bc_evidence_value(&made.evidence, "kin_viscosity_20C", "").value, 3.71, 1e-12);
	assert_close(bc_evidence_value(&made.evidence, "kin_viscosity", "").value, 2.43, 1e-12);
}

static void product_points_are_read_both_ways(void **state)
{
	(void)state;
	struct by_hand made;
	make_by_hand(&made);
	struct bc_estimate t85 = bc_evidence_value(&made.evidence, "T85", "recovered");
	assert_close(t85.value, 0.5 * (298.7 + 316.8), 1e-9);
	assert_close(t85.high - t85.value, 4.1, 1e-9);
	struct bc_estimate share =
		bc_evidence_value(&made.evidence, "recovered_at_250C", "recovered");
	assert_close(share.value, 30.0 + 10.0 * (250.0 - 248.9) / (258.3 - 248.9), 1e-9);
	assert_close(share.low, 20.0 + 10.0 * (245.9 - 238.2) / (248.9 - 238.2), 1e-9);
	assert_true(share.low < share.value && share.value < share.high);
	assert_close(bc_evidence_value(&made.evidence, "E150", "evaporated").value, 0.0, 1e-12);
	assert_close(bc_evidence_value(&made.evidence, "E400", "evaporated").value, 100.0, 1e-12);
	assert_close(bc_evidence_value(&made.evidence, "FBP", "").value, 341.2, 1e-12);
}

static void chance_of_all_is_their_product(void **state)
{
	(void)state;
	struct by_hand made;
	make_by_hand(&made);
	made.oil.property[BC_DENSITY15] = bc_estimate_new(817.3, 5.7, BC_MEASURED);
	struct bc_limits *limits = table_of(DENSITY_MAX("no")
			CRITERION("kin_viscosity", "", "2.43", "", "no", "mm2/s", "judge"));
	assert_int_equal(bc_standard_assess(limits, "Q 9", &made.evidence, &grade, room, 8), BC_OK);
	assert_close(grade.chance_all_within, 0.25, 1e-9);
	assert_int_equal(grade.doubtful, 2);
	assert_int_equal(
		bc_standard_assess(limits, "Q 9", &made.evidence, &grade, room, 1), BC_BAD_DOMAIN);
	assert_int_equal(
		bc_standard_assess(limits, "Q 8", &made.evidence, &grade, room, 8), BC_NOT_FOUND);
	bc_limits_free(limits);
}

static void memory_is_said(void **state)
{
	(void)state;
	struct by_hand made;
	make_by_hand(&made);
	struct bc_limits *limits = table_of(
		DENSITY_MAX("no") "heating-oil-range,Q "
				  "9,2017,T90,recovered,,337.9,no,degC,Q,judge,yes,yes,memory,\n");
	assert_int_equal(bc_standard_assess(limits, "Q 9", &made.evidence, &grade, room, 8), BC_OK);
	assert_true(grade.from_memory);
	/* missed by a limit that was seen: that decides */
	made.oil.property[BC_DENSITY15] = bc_estimate_new(871.4, 1.7, BC_MEASURED);
	assert_int_equal(bc_standard_assess(limits, "Q 9", &made.evidence, &grade, room, 8), BC_OK);
	assert_false(grade.from_memory);
	bc_limits_free(limits);
}

static void no_memory_is_reported(void **state)
{
	(void)state;
	struct by_hand made;
	make_by_hand(&made);
	struct bc_limits *limits = table_of(DENSITY_MAX("no"));
	bool reached = true;
	for (unsigned long nth = 1; reached; nth++) {
		struct bc_grades grades;
		bc_fault_set(BC_FAULT_ALLOC, nth, false);
		enum bc_status status = bc_grades_assess(limits, &made.evidence, &grades);
		reached = bc_fault_count(BC_FAULT_ALLOC) >= nth;
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		assert_int_equal(status, reached ? BC_NO_MEMORY : BC_OK);
		assert_int_equal(grades.n, reached ? 0 : 1);
		bc_grades_release(&grades);
	}
	bc_limits_free(limits);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_sure_value_on_the_limit),
		cmocka_unit_test(a_spread_value_near_the_limit),
		cmocka_unit_test(safety_goes_by_the_unfavourable_bound),
		cmocka_unit_test(flash_without_a_claim),
		cmocka_unit_test(an_invalid_method_never_decides),
		cmocka_unit_test(customs_lines),
		cmocka_unit_test(other_tests_count_once_measured),
		cmocka_unit_test(measured_without_a_limit_is_kept),
		cmocka_unit_test(water_counts_as_water_and_sediment),
		cmocka_unit_test(a_cut_may_mend_what_follows_boiling),
		cmocka_unit_test(a_scope_caps_the_state),
		cmocka_unit_test(too_light_by_its_upper_bound),
		cmocka_unit_test(generic_tests_are_always_listed),
		cmocka_unit_test(measured_viscosity_by_temperature),
		cmocka_unit_test(product_points_are_read_both_ways),
		cmocka_unit_test(chance_of_all_is_their_product),
		cmocka_unit_test(memory_is_said),
		cmocka_unit_test(no_memory_is_reported),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
