/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tables that ship: every limit stands on an edition and a note, and every dispute on the
 * stricter side. */
#include <string.h>

#include "base/csv.h"
#include "base/file.h"
#include "base/memory.h"
#include "base/table.h"
#include "unit/unit.h"
#include "verdict/limits.h"

struct rows {
	struct bc_csv csv;
	size_t first; /* the row behind the header */
};

static struct rows rows_of(const char *name)
{
	struct rows rows;
	char *text = bc_table_text(bc_table_find(name));
	assert_non_null(text);
	assert_int_equal(bc_csv_parse(text, strlen(text), ',', &rows.csv, NULL), BC_OK);
	bc_free(text);
	rows.first = 0;
	while (rows.csv.rows[rows.first].fields[0][0] == '#')
		rows.first++;
	rows.first++;
	return rows;
}

static struct bc_limits *shipped(void)
{
	struct bc_limits *limits;
	assert_int_equal(bc_limits_default(NULL, &limits), BC_OK);
	return limits;
}

static bool opens_standard(const struct bc_limits *limits, size_t i)
{
	return i == 0 || strcmp(limits->items[i].standard, limits->items[i - 1].standard) != 0;
}

static bool same_property(const struct bc_limit *a, const struct bc_limit *b)
{
	return strcmp(a->standard, b->standard) == 0 && strcmp(a->property, b->property) == 0 &&
	       strcmp(a->basis, b->basis) == 0;
}

static char *file_text(const char *name)
{
	char *path = bc_format("standards-notes/%s", name);
	char *text = NULL;
	size_t n;
	if (bc_file_read(path, 1000000, &text, &n, NULL) != BC_OK)
		fail_msg("%s cannot be read", path);
	bc_free(path);
	return text;
}

static void every_row_says_where_it_is_from(void **state)
{
	(void)state;
	struct bc_limits *limits = shipped();
	for (size_t i = 0; i < limits->n; i++) {
		const struct bc_limit *limit = &limits->items[i];
		if (*limit->edition == '\0' || *limit->unit == '\0' || *limit->method == '\0')
			fail_msg("%s %s lacks an edition, a unit or a method", limit->standard,
				limit->property);
		/* the column says it; a seen row may still owe its method to memory */
		if (strstr(limit->edition, "memory") != NULL &&
			strstr(limit->edition, "unchanged since") == NULL)
			fail_msg("edition of %s %s speaks of memory", limit->standard,
				limit->property);
		if (limit->seen != BC_SEEN_MEMORY && strstr(limit->note, "not readable") != NULL)
			fail_msg("%s %s was not readable and counts as seen", limit->standard,
				limit->property);
	}
	bc_limits_free(limits);
}

static void rows_of_a_standard_stand_together(void **state)
{
	(void)state;
	struct bc_limits *limits = shipped();
	for (size_t i = 0; i < limits->n; i++) {
		for (size_t j = 0; j < i && opens_standard(limits, i); j++) {
			if (strcmp(limits->items[i].standard, limits->items[j].standard) == 0)
				fail_msg("%s stands in two places", limits->items[i].standard);
		}
	}
	bc_limits_free(limits);
}

/* The README's own figures, so that nobody adds a row from memory unseen. */
static void rows_from_memory_are_counted(void **state)
{
	(void)state;
	struct bc_limits *limits = shipped();
	size_t memory = 0;
	size_t standards = 0;
	size_t judged = 0;
	for (size_t i = 0; i < limits->n; i++) {
		memory += limits->items[i].seen == BC_SEEN_MEMORY ? 1 : 0;
		standards += opens_standard(limits, i) ? 1 : 0;
		judged += opens_standard(limits, i) && limits->items[i].judged ? 1 : 0;
	}
	char *readme = file_text("README.md");
	char *words = bc_format("%zu rows of %zu standards, %zu of them judged by default; %zu "
				"rows are from memory",
		limits->n, standards, judged, memory);
	if (strstr(readme, words) == NULL)
		fail_msg("README.md does not say: %s", words);
	bc_free(words);
	bc_free(readme);
	bc_limits_free(limits);
}

static size_t times_listed(const struct rows *rows, const char *standard)
{
	size_t n = 0;
	for (size_t i = rows->first; i < rows->csv.n; i++)
		n += strcmp(rows->csv.rows[i].fields[0], standard) == 0 ? 1 : 0;
	return n;
}

static void every_standard_is_listed_once(void **state)
{
	(void)state;
	struct bc_limits *limits = shipped();
	struct rows rows = rows_of("standards");
	size_t standards = 0;
	for (size_t i = 0; i < limits->n; i++) {
		if (!opens_standard(limits, i))
			continue;
		standards++;
		if (times_listed(&rows, limits->items[i].standard) != 1)
			fail_msg("%s is not listed once", limits->items[i].standard);
	}
	assert_int_equal(rows.csv.n - rows.first, standards);
	bc_csv_release(&rows.csv);
	bc_limits_free(limits);
}

static bool any_of(const struct bc_limits *limits, const char *standard, bool memory)
{
	for (size_t i = 0; i < limits->n; i++) {
		const struct bc_limit *limit = &limits->items[i];
		bool fits = memory ? limit->seen == BC_SEEN_MEMORY
				   : limit->role == BC_ROLE_OTHER_TEST &&
					     limit->grade != BC_GRADE_COMPARISON;
		if (fits && strcmp(limit->standard, standard) == 0)
			return true;
	}
	return false;
}

static void every_standard_has_a_note(void **state)
{
	(void)state;
	struct bc_limits *limits = shipped();
	struct rows rows = rows_of("standards");
	for (size_t i = rows.first; i < rows.csv.n; i++) {
		char *const *fields = rows.csv.rows[i].fields;
		assert_int_equal(rows.csv.rows[i].n, 3);
		assert_true(strlen(fields[2]) > 10);
		char *note = file_text(fields[1]);
		assert_true(strncmp(note, "# ", 2) == 0);
		if (strstr(note, "\nFor: ") == NULL)
			fail_msg("%s does not say what the standard is for", fields[1]);
		if (strstr(note, "Read: ") == NULL)
			fail_msg("%s does not say what was read", fields[1]);
		if (any_of(limits, fields[0], true) && strstr(note, "rom memory") == NULL)
			fail_msg("%s is silent on what is from memory", fields[1]);
		if (any_of(limits, fields[0], false) &&
			strstr(note, "Have tested elsewhere") == NULL)
			fail_msg("%s does not say what else to have tested", fields[1]);
		bc_free(note);
	}
	bc_csv_release(&rows.csv);
	bc_limits_free(limits);
}

static const char *const judged_standards[] = {"EN 228 class A", "EN 228 class D/D1",
	"ASTM D4814 class A", "ASTM D4814 class C", "ASTM D4814 class E", "BS 2869 class C1",
	"BS 2869 class C2", "ASTM D3699 No. 1-K", "EN 590 temperate A-C", "EN 15940 class A",
	"EN 15940 class B", "ASTM D975 No. 1-D", "ASTM D975 No. 2-D", "ASTM D396 No. 1",
	"ASTM D396 No. 2", "BS 2869 class D", "DIN 51603-1", "Jet A / Jet A-1",
	"EU tariff light oil", "EU tariff medium oil", "EU tariff gas oil", "UK duty gas oil"};

static void variants_wait_until_asked_for(void **state)
{
	(void)state;
	struct bc_limits *limits = shipped();
	for (size_t i = 0; i < limits->n; i++) {
		bool judged = false;
		for (size_t k = 0; k < sizeof judged_standards / sizeof *judged_standards; k++)
			judged = judged ||
				 strcmp(judged_standards[k], limits->items[i].standard) == 0;
		if (limits->items[i].judged != judged)
			fail_msg("judged is wrong for %s", limits->items[i].standard);
	}
	bc_limits_free(limits);
}

/* A flame stands beside all but petrol. A standard without a limit that counts would be met by any
 * oil. */
static void every_standard_can_be_missed(void **state)
{
	(void)state;
	struct bc_limits *limits = shipped();
	for (size_t i = 0; i < limits->n; i++) {
		const struct bc_limit *first = &limits->items[i];
		bool counts = false;
		bool flash = false;
		for (size_t j = i; opens_standard(limits, i) && j < limits->n; j++) {
			const struct bc_limit *limit = &limits->items[j];
			if (!limit->in_force || strcmp(limit->standard, first->standard) != 0)
				continue;
			counts = counts || bc_limit_counts(limit, false);
			flash = flash || (strcmp(limit->property, "flash_point") == 0 &&
						 limit->role == BC_ROLE_SAFETY && limit->min > 0.0);
		}
		if (!opens_standard(limits, i))
			continue;
		if (!counts)
			fail_msg("no limit of %s counts", first->standard);
		if (!flash && first->grade != BC_GRADE_GASOLINE &&
			first->grade != BC_GRADE_COMPARISON)
			fail_msg("%s has no flash", first->standard);
	}
	bc_limits_free(limits);
}

static double or_else(double bound, double open) { return isnan(bound) ? open : bound; }

static bool narrower(const struct bc_limit *a, const struct bc_limit *b)
{
	const double far = 1e9;
	double a_min = or_else(a->min, -far);
	double b_min = or_else(b->min, -far);
	double a_max = or_else(a->max, far);
	double b_max = or_else(b->max, far);
	return a_min >= b_min && a_max <= b_max && (a_min > b_min || a_max < b_max);
}

static void of_disputed_values_the_stricter_is_in_force(void **state)
{
	(void)state;
	struct bc_limits *limits = shipped();
	size_t disputes = 0;
	for (size_t i = 0; i < limits->n; i++) {
		const struct bc_limit *other = &limits->items[i];
		const struct bc_limit *force = NULL;
		for (size_t j = 0; j < limits->n && !other->in_force; j++) {
			if (limits->items[j].in_force && same_property(other, &limits->items[j]))
				force = &limits->items[j];
		}
		if (other->in_force)
			continue;
		disputes++;
		if (force == NULL)
			fail_msg("nothing in force beside %s %s", other->standard, other->property);
		else if (narrower(other, force))
			fail_msg("%s %s: the stricter is not in force", other->standard,
				other->property);
	}
	assert_true(disputes > 30);
	bc_limits_free(limits);
}

static const struct bc_limit *find(const struct bc_limits *limits, const char *standard,
	const char *property, const char *edition)
{
	for (size_t i = 0; i < limits->n; i++) {
		const struct bc_limit *limit = &limits->items[i];
		if (strcmp(limit->standard, standard) == 0 &&
			strcmp(limit->property, property) == 0 &&
			strcmp(limit->edition, edition) == 0)
			return limit;
	}
	fail_msg("no %s of %s, %s", property, standard, edition);
	return NULL;
}

static void editions_are_those_that_were_read(void **state)
{
	(void)state;
	struct bc_limits *limits = shipped();
	const char *road = "EN 590 temperate A-C";
	assert_true(find(limits, road, "density", "2022")->in_force);
	assert_false(find(limits, road, "density", "later draft")->in_force);
	assert_true(find(limits, road, "T95", "2013")->in_force);
	assert_true(find(limits, road, "flash_point", "2013")->in_force);
	const struct bc_limit *old =
		find(limits, "ASTM D396 No. 2", "kin_viscosity", "1986 and a state rule");
	assert_true(old->in_force && old->max == 3.4 && old->seen == BC_SEEN_TWICE);
	const struct bc_limit *new =
		find(limits, "ASTM D396 No. 2", "kin_viscosity", "since about 2002");
	assert_true(!new->in_force &&new->max == 4.1 && new->seen == BC_SEEN_MEMORY);
	find(limits, "ASTM D975 No. 2-D", "T90", "2000s to 2020");
	find(limits, "DIN 51603-1", "flash_point", "2011 to 2020");
	bc_limits_free(limits);
}

static void variants_hold_known_limits(void **state)
{
	(void)state;
	struct bc_limits *limits = shipped();
	const char *e10 = "2012, table for 10 % ethanol";
	const char *arctic = "before 2009; unchanged since, from memory";
	assert_true(find(limits, "EN 228 class F/F1", "E70", e10)->min == 24.0);
	assert_true(find(limits, "EN 228 class F/F1", "E70", "2004")->max == 50.0);
	assert_true(
		find(limits, "EN 228 class E/E1", "vapour_pressure_DVPE", "2004 to 2025")->max ==
		95.0);
	assert_true(find(limits, "ASTM D4814 class D", "T50", "2013 to 2024")->max == 113.0);
	const struct bc_limit *cold = find(limits, "EN 590 arctic class 4", "CFPP", arctic);
	assert_true(cold->max == -44.0 && cold->role == BC_ROLE_OTHER_TEST);
	assert_true(find(limits, "EN 590 arctic class 4", "kin_viscosity", arctic)->min == 1.2);
	assert_true(
		find(limits, "EN 590 arctic class 2", "recovered_at_180C", arctic)->max == 10.0);
	assert_true(find(limits, "EN 590 temperate D-F", "CFPP", "1993 to 2022")->max == -20.0);
	assert_true(find(limits, "ISO 8217 DMX", "flash_point", "2010 to 2017")->min == 43.0);
	assert_true(find(limits, "ISO 8217 DMB", "kin_viscosity", "2010 to 2017")->max == 11.0);
	const struct bc_limit *high = find(limits, "White spirit, high flash", "flash_point",
		"Environmental Health Criteria 187");
	assert_true(high->min == 55.0 && high->strict);
	assert_string_equal(find(limits, "France fioul domestique", "evaporated_at_250C",
				    "order of 1967 as amended to 2008")
				    ->basis,
		"evaporated");
	bc_limits_free(limits);
}

/* ---- the other tables */

enum hazard_field { SCHEME, CLASS, FROM, FROM_OPEN, TO, TO_OPEN, FRONT, EDITION, JUDGED, SEEN };

static bool is_one_of(const char *word, const char *a, const char *b, const char *c)
{
	return strcmp(word, a) == 0 || strcmp(word, b) == 0 || strcmp(word, c) == 0;
}

/* The bound belongs to one of two neighbours; the first class is open below, the last above. */
static void check_neighbours(char *const *lower, char *const *upper)
{
	bool first = lower == NULL || strcmp(lower[SCHEME], upper[SCHEME]) != 0;
	if (first && *upper[FROM] != '\0')
		fail_msg("%s does not begin open", upper[SCHEME]);
	if (first && strcmp(upper[FRONT], "-") == 0)
		fail_msg("%s has no class of an oil without a claim", upper[SCHEME]);
	if (first)
		return;
	if (strcmp(lower[TO], upper[FROM]) != 0 || strcmp(lower[TO_OPEN], upper[FROM_OPEN]) == 0)
		fail_msg("%s: a gap or an overlap at %s", upper[SCHEME], upper[FROM]);
}

static void hazard_schemes_have_no_gaps(void **state)
{
	(void)state;
	struct rows rows = rows_of("hazard-classes");
	char *const *lower = NULL;
	size_t judged = 0;
	for (size_t i = rows.first; i < rows.csv.n; i++) {
		char *const *fields = rows.csv.rows[i].fields;
		assert_int_equal(rows.csv.rows[i].n, 11);
		assert_true(*fields[EDITION] != '\0');
		assert_true(is_one_of(fields[SEEN], "seen-twice", "seen", "memory"));
		assert_true(is_one_of(fields[JUDGED], "yes", "no", "no"));
		judged += strcmp(fields[JUDGED], "yes") == 0 ? 1 : 0;
		if (strstr(fields[SCHEME], " rule ") != NULL) {
			assert_string_equal(fields[JUDGED], "no");
			continue;
		}
		check_neighbours(lower, fields);
		lower = fields;
	}
	assert_int_equal(judged, 15);
	bc_csv_release(&rows.csv);
}

static void other_tests_cover_known_properties(void **state)
{
	(void)state;
	struct rows rows = rows_of("other-tests");
	for (size_t i = rows.first; i < rows.csv.n; i++) {
		char covers[200];
		assert_int_equal(rows.csv.rows[i].n, 4);
		snprintf(covers, sizeof covers, "%s", rows.csv.rows[i].fields[1]);
		for (char *id = strtok(covers, " "); id != NULL; id = strtok(NULL, " ")) {
			if (strcmp(id, "-") != 0 && !bc_limit_property_known(id))
				fail_msg("unknown property %s", id);
		}
	}
	bc_csv_release(&rows.csv);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_row_says_where_it_is_from),
		cmocka_unit_test(rows_of_a_standard_stand_together),
		cmocka_unit_test(rows_from_memory_are_counted),
		cmocka_unit_test(every_standard_is_listed_once),
		cmocka_unit_test(every_standard_has_a_note),
		cmocka_unit_test(variants_wait_until_asked_for),
		cmocka_unit_test(every_standard_can_be_missed),
		cmocka_unit_test(of_disputed_values_the_stricter_is_in_force),
		cmocka_unit_test(editions_are_those_that_were_read),
		cmocka_unit_test(variants_hold_known_limits),
		cmocka_unit_test(hazard_schemes_have_no_gaps),
		cmocka_unit_test(other_tests_cover_known_properties),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
