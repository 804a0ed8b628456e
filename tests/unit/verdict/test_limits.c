/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The strict reader of the limit table, and the table that ships. */
#include <string.h>

#include "base/fault.h"
#include "unit/unit.h"
#include "verdict/limits.h"

#define HEADER                                                                                     \
	"grade,standard,edition,property,basis,min,max,strict,unit,method,role,in_force,judged,"   \
	"seen,note\n"
#define GOOD                                                                                       \
	"diesel-range,Q 7,2019,flash_point,,53.7,,yes,degC,Q 8,safety,yes,yes,seen,closed cup\n"

static enum bc_status read_text(
	const char *text, struct bc_limits **limits, struct bc_diagnostics *diagnostics)
{
	bc_diagnostics_init(diagnostics);
	return bc_limits_read(text, strlen(text), "table.csv", diagnostics, limits);
}

static void reads_a_row(void **state)
{
	(void)state;
	struct bc_limits *limits;
	struct bc_diagnostics diagnostics;
	assert_int_equal(read_text("# a word\n" HEADER GOOD, &limits, &diagnostics), BC_OK);
	assert_int_equal(limits->n, 1);
	const struct bc_limit *limit = &limits->items[0];
	assert_int_equal(limit->grade, BC_GRADE_DIESEL);
	assert_string_equal(limit->standard, "Q 7");
	assert_string_equal(limit->edition, "2019");
	assert_string_equal(limit->property, "flash_point");
	assert_true(limit->min == 53.7);
	assert_true(isnan(limit->max));
	assert_true(limit->strict);
	assert_true(limit->in_force);
	assert_true(limit->judged);
	assert_int_equal(limit->role, BC_ROLE_SAFETY);
	assert_int_equal(limit->seen, BC_SEEN_ONCE);
	assert_string_equal(limit->method, "Q 8");
	bc_limits_free(limits);
	bc_diagnostics_release(&diagnostics);
}

static const struct {
	const char *text;
	size_t line;
	const char *says;
} defects[] = {
	{HEADER, 0, "no limits; expected a header row and one row a limit"},
	{"grade,standard\n", 1, "unexpected column ''; expected edition"},
	{HEADER "petrol-range,Q 7,2019,density,,700,,no,kg/m3,Q,judge,yes,yes,seen,\n", 2,
		"unknown grade 'petrol-range'; expected gasoline-range, white-spirit-range, "
		"kerosene-range, diesel-range, heating-oil-range, marine-range or comparison"},
	{HEADER GOOD "diesel-range,Q 7,2019,density,,812.4,,no,kg/m3,Q,guess,yes,yes,seen,\n", 3,
		"unknown role 'guess'; expected judge, safety, customs or other-test"},
	{HEADER "diesel-range,Q 7,2019,density,,812.4 or so,,no,kg/m3,Q,judge,yes,yes,seen,\n", 2,
		"min is not a number: '812.4 or so'; expected a number with a decimal point, or "
		"nothing"},
	{HEADER "diesel-range,Q 7,2019,density,,\"812,4\",,no,kg/m3,Q,judge,yes,yes,seen,\n", 2,
		"min is not a number: '812,4'; expected a number with a decimal point, or nothing"},
	{HEADER "diesel-range,Q 7,2019,weight,,812.4,,no,kg/m3,Q,judge,yes,yes,seen,\n", 2,
		"unknown property 'weight'; expected an id such as flash_point, density, T95, E70 "
		"or recovered_at_250C"},
	{HEADER "diesel-range,Q 7,2019,T100,recovered,,363.4,no,degC,Q,judge,yes,yes,seen,\n", 2,
		"unknown property 'T100'; expected an id such as flash_point, density, T95, E70 or "
		"recovered_at_250C"},
	{HEADER "diesel-range,Q 7,2019,density,,845.1,812.4,no,kg/m3,Q,judge,yes,yes,seen,\n", 2,
		"min above max '845.1'; expected a min that is not above the max"},
	{HEADER "diesel-range,Q 7,2019,density,,,,no,kg/m3,Q,judge,yes,yes,seen,\n", 2,
		"no limit for 'density'; expected a min, a max or both"},
	{HEADER GOOD GOOD, 3,
		"second limit in force for 'flash_point'; expected one row in force for each "
		"property of a standard"},
	{HEADER GOOD "kerosene-range,Q 7,2019,density,,781.2,,no,kg/m3,Q,judge,yes,yes,seen,\n", 3,
		"second grade for 'Q 7'; expected one grade for each standard"},
	{HEADER "diesel-range,Q 7,2019,flash_point,,127.3,,no,degF,Q,safety,yes,yes,seen,\n", 2,
		"wrong unit 'degF'; expected degC"},
	{HEADER "diesel-range,Q 7,2019,T95,,,363.4,no,degC,Q,judge,yes,yes,seen,\n", 2,
		"no basis for 'T95'; expected recovered or evaporated"},
	{HEADER "diesel-range,Q 7,2019,E70,recovered,21.3,,no,%V/V,Q,judge,yes,yes,seen,\n", 2,
		"wrong basis 'recovered'; expected evaporated"},
	{HEADER "diesel-range,Q 7,2019,density,recovered,812.4,,no,kg/m3,Q,judge,yes,yes,seen,\n",
		2, "a basis for 'density'; expected none, since it is no point of the curve"},
	{HEADER "diesel-range,Q 7,2019,E70,evaporated,,100.3,no,%V/V,Q,judge,yes,yes,seen,\n", 2,
		"no share for 'E70'; expected 0 to 100 %"},
	{HEADER "diesel-range,Q 7,2019,water_by_volume,,107.1,,no,%V/V,Q,other-test,yes,yes,seen,"
		"\n",
		2, "no share for 'water_by_volume'; expected 0 to 100 %"},
	{HEADER "diesel-range,Q 7,2019,ash,,-0.3,0.1,no,%m/m,Q,other-test,yes,yes,seen,\n", 2,
		"no share for 'ash'; expected 0 to 100 %"},
	{HEADER "diesel-range,Q 7,2019,density,,812.4,,no,kg/m3,Q,judge,maybe,yes,seen,\n", 2,
		"unknown in_force 'maybe'; expected yes or no"},
	{HEADER "diesel-range,Q 7,2019,density,,812.4,,no,kg/m3,Q,judge,yes,yes,heard,\n", 2,
		"unknown seen 'heard'; expected seen-twice, seen or memory"},
	{HEADER "diesel-range,Q 7,2019,flash_point,,53.7,,no,degC,Q,judge,yes,yes,seen,\n", 2,
		"wrong role for flash_point 'judge'; expected safety"},
	{HEADER "diesel-range,Q 7,2019,flash_point,,,53.7,no,degC,Q,safety,yes,yes,seen,\n", 2,
		"no min for 'flash_point'; expected the least flash point"},
	{HEADER "diesel-range,,2019,density,,812.4,,no,kg/m3,Q,judge,yes,yes,seen,\n", 2,
		"no standard ''; expected the name of a standard"},
	{HEADER "diesel-range,Q 7,,density,,812.4,,no,kg/m3,Q,judge,yes,yes,seen,\n", 2,
		"no edition of 'Q 7'; expected an edition"},
	{HEADER "diesel-range,Q 7,2019,density,,812.4,,no,kg/m3,Q,judge,yes,often,seen,\n", 2,
		"unknown judged 'often'; expected yes or no"},
	{HEADER GOOD "diesel-range,Q 7,2019,density,,812.4,,no,kg/m3,Q,judge,yes,no,seen,\n", 3,
		"judged differs for 'Q 7'; expected yes or no for a standard as a whole"},
	{HEADER "diesel-range,Q 7,2019,density,,812.4,,often,kg/m3,Q,judge,yes,yes,seen,\n", 2,
		"unknown strict 'often'; expected yes or no"},
	{HEADER "diesel-range,Q 7,2019\n", 2, "3 cells; expected 15"},
	{HEADER "diesel-range,\"Q 7,2019\n", 2,
		"a quote is not closed; expected a quote at the end of the cell"},
};

static void refuses_each_defect(void **state)
{
	(void)state;
	for (size_t i = 0; i < sizeof defects / sizeof *defects; i++) {
		struct bc_limits *limits;
		struct bc_diagnostics diagnostics;
		assert_int_equal(read_text(defects[i].text, &limits, &diagnostics), BC_MALFORMED);
		assert_null(limits);
		const struct bc_diagnostic *error = bc_diagnostics_first_error(&diagnostics);
		assert_non_null(error);
		assert_string_equal(error->text, defects[i].says);
		assert_int_equal(error->line, defects[i].line);
		assert_string_equal(error->file, "table.csv");
		bc_diagnostics_release(&diagnostics);
	}
}

static void superseded_rows_may_repeat(void **state)
{
	(void)state;
	struct bc_limits *limits;
	struct bc_diagnostics diagnostics;
	assert_int_equal(read_text(HEADER GOOD "diesel-range,Q 7,2011,flash_point,,49.1,,no,degC,Q,"
					       "safety,no,yes,memory,\n",
				 &limits, &diagnostics),
		BC_OK);
	assert_int_equal(limits->n, 2);
	assert_false(limits->items[1].in_force);
	bc_limits_free(limits);
	bc_diagnostics_release(&diagnostics);
}

static const struct bc_limit *find(
	const struct bc_limits *limits, const char *standard, const char *property)
{
	for (size_t i = 0; i < limits->n; i++) {
		const struct bc_limit *limit = &limits->items[i];
		if (limit->in_force && strcmp(limit->standard, standard) == 0 &&
			strcmp(limit->property, property) == 0)
			return limit;
	}
	fail_msg("no limit of %s on %s", standard, property);
	return NULL;
}

/* Figures of the standards as they are known in the trade. */
static void shipped_table_holds_known_limits(void **state)
{
	(void)state;
	struct bc_limits *limits;
	assert_int_equal(bc_limits_default(NULL, &limits), BC_OK);
	const struct bc_limit *flash = find(limits, "EN 590 temperate A-C", "flash_point");
	assert_true(flash->min == 55.0 && flash->strict && flash->role == BC_ROLE_SAFETY);
	const struct bc_limit *density = find(limits, "EN 590 temperate A-C", "density");
	assert_true(density->min == 820.0 && density->max == 845.0);
	assert_string_equal(density->edition, "2022");
	const struct bc_limit *line = find(limits, "EN 590 temperate A-C", "recovered_at_250C");
	assert_true(line->role == BC_ROLE_CUSTOMS && line->max == 65.0 && line->strict);
	assert_true(find(limits, "ASTM D975 No. 2-D", "T90")->min == 282.0);
	assert_true(find(limits, "ASTM D396 No. 2", "kin_viscosity")->max == 3.4);
	assert_true(find(limits, "BS 2869 class C2", "density")->min == 775.0);
	assert_true(find(limits, "EN 228 class A", "E100")->max == 71.0);
	assert_string_equal(find(limits, "ASTM D4814 class A", "T50")->basis, "evaporated");
	assert_true(find(limits, "DIN 51603-1", "flash_point")->strict);
	assert_false(find(limits, "BS 2869 class D", "flash_point")->strict);
	for (size_t i = 0; i < limits->n; i++) {
		if (strcmp(limits->items[i].property, "flash_point") == 0)
			assert_int_equal(limits->items[i].role, BC_ROLE_SAFETY);
	}
	bc_limits_free(limits);
}

static void scope_is_said_of_en_15940(void **state)
{
	(void)state;
	assert_non_null(bc_standard_scope("EN 15940 class A"));
	assert_non_null(bc_standard_scope("EN 15940 class B"));
	assert_null(bc_standard_scope("EN 590 temperate A-C"));
}

static void ids_with_numbers(void **state)
{
	(void)state;
	char text[80];
	assert_true(bc_limit_property_number("T95") == 95.0);
	assert_true(bc_limit_property_number("recovered_at_250C") == 250.0);
	assert_true(isnan(bc_limit_property_number("density")));
	assert_false(bc_limit_property_known("T"));
	assert_false(bc_limit_property_known("T9x"));
	assert_false(bc_limit_property_known("recovered_at_250"));
	assert_true(bc_limit_property_known("T37"));
	bc_limit_property_text("recovered_at_350C", text, sizeof text);
	assert_string_equal(text, "share recovered at 350 degC");
	bc_limit_property_text("T95", text, sizeof text);
	assert_string_equal(text, "95 % point");
}

/* libcsv asks again for less before it gives up, so a failure may also be survived. */
static void failed_allocations_are_reported_or_survived(void **state)
{
	(void)state;
	bool reached = true;
	size_t reported = 0;
	for (unsigned long nth = 1; reached; nth++) {
		struct bc_limits *limits;
		bc_fault_set(BC_FAULT_ALLOC, nth, false);
		enum bc_status status =
			bc_limits_read(HEADER GOOD, strlen(HEADER GOOD), "t", NULL, &limits);
		reached = bc_fault_count(BC_FAULT_ALLOC) >= nth;
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		assert_true(status == BC_NO_MEMORY || status == BC_OK);
		assert_true((limits == NULL) == (status == BC_NO_MEMORY));
		reported += status == BC_NO_MEMORY ? 1 : 0;
		bc_limits_free(limits);
	}
	assert_true(reported >= 9);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(reads_a_row),
		cmocka_unit_test(refuses_each_defect),
		cmocka_unit_test(superseded_rows_may_repeat),
		cmocka_unit_test(shipped_table_holds_known_limits),
		cmocka_unit_test(scope_is_said_of_en_15940),
		cmocka_unit_test(ids_with_numbers),
		cmocka_unit_test(failed_allocations_are_reported_or_survived),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
