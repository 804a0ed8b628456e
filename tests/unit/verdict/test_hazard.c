/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Classes at their edges, petrol without a claim, and the cautions that apply. */
#include "evidence.h"

#include "base/fault.h"
#include "verdict/hazard.h"

static void classify(double low_c, struct bc_hazards *hazards)
{
	struct by_hand made;
	make_by_hand(&made);
	made.oil.property[BC_FLASH] =
		(struct bc_estimate){low_c + 12.5, low_c, low_c + 25.0, BC_ESTIMATED};
	made.oil.flash_low_at_site_c = low_c;
	assert_int_equal(
		bc_hazards_classify(&made.oil, &made.boiloff, BC_HISTORY_RERUN, hazards), BC_OK);
}

static const char *class_of(const struct bc_hazards *hazards, const char *scheme)
{
	for (size_t i = 0; i < hazards->n; i++) {
		if (strcmp(hazards->items[i].scheme, scheme) == 0)
			return hazards->items[i].class_name;
	}
	return "none";
}

/* GHS 2.6, CLP Annex I 2.6, NFPA 30 (73, 100, 140, 200 degF), ADR 2.2.3.1.3. */
static const struct {
	double low_c;
	const char *ghs;
	const char *clp;
	const char *nfpa;
	const char *adr;
	bool petrol_like;
} edges[] = {
	{-41.7, "Category 2", "Category 2", "Class IB", "Class 3 PG II", true},
	{22.7, "Category 2", "Category 2", "Class IB", "Class 3 PG II", true},
	{22.8, "Category 2", "Category 2", "Class IC", "Class 3 PG II", true},
	{22.99, "Category 2", "Category 2", "Class IC", "Class 3 PG II", true},
	{23.0, "Category 3", "Category 3", "Class IC", "Class 3 PG III", false},
	{37.7, "Category 3", "Category 3", "Class IC", "Class 3 PG III", false},
	{37.8, "Category 3", "Category 3", "Class II", "Class 3 PG III", false},
	{59.9, "Category 3", "Category 3", "Class II", "Class 3 PG III", false},
	{60.0, "Category 3", "Category 3", "Class IIIA", "Class 3 PG III", false},
	{60.1, "Category 4", "not classified by flash", "Class IIIA", "not class 3 by flash",
		false},
	{92.9, "Category 4", "not classified by flash", "Class IIIA", "not class 3 by flash",
		false},
	{93.0, "Category 4", "not classified by flash", "Class IIIB", "not class 3 by flash",
		false},
	{93.1, "not classified by flash", "not classified by flash", "Class IIIB",
		"not class 3 by flash", false},
};

static void classes_at_their_edges(void **state)
{
	(void)state;
	for (size_t i = 0; i < sizeof edges / sizeof *edges; i++) {
		struct bc_hazards hazards;
		classify(edges[i].low_c, &hazards);
		assert_int_equal(hazards.n, 4);
		assert_string_equal(class_of(&hazards, "GHS"), edges[i].ghs);
		assert_string_equal(class_of(&hazards, "CLP"), edges[i].clp);
		assert_string_equal(class_of(&hazards, "NFPA 30"), edges[i].nfpa);
		assert_string_equal(class_of(&hazards, "ADR transport"), edges[i].adr);
		assert_int_equal(hazards.petrol_like, edges[i].petrol_like);
		bc_hazards_release(&hazards);
	}
}

static void the_basis_is_said(void **state)
{
	(void)state;
	struct bc_hazards hazards;
	classify(43.1, &hazards);
	assert_string_equal(hazards.items[0].from, "flash, low bound 43.1 degC, estimated");
	assert_null(strstr(hazards.items[0].message, "excluded"));
	bc_hazards_release(&hazards);
}

static void no_claim_is_petrol(void **state)
{
	(void)state;
	struct by_hand made;
	make_by_hand(&made);
	made.oil.flash_claim = false;
	made.oil.no_claim_why = "gas left first";
	made.oil.property[BC_FLASH].low = NAN;
	struct bc_hazards hazards;
	assert_int_equal(
		bc_hazards_classify(&made.oil, &made.boiloff, BC_HISTORY_RETORT, &hazards), BC_OK);
	assert_true(hazards.petrol_like);
	assert_string_equal(class_of(&hazards, "GHS"), "Category 2");
	assert_string_equal(class_of(&hazards, "NFPA 30"), "Class IB");
	assert_string_equal(class_of(&hazards, "ADR transport"), "Class 3 PG II");
	assert_string_equal(hazards.items[0].from, "no claim on the flash: gas left first");
	assert_non_null(strstr(hazards.items[0].message, "category 1 cannot be excluded"));
	assert_true(hazards.items[0].front_open);
	bc_hazards_release(&hazards);
}

static void a_low_front_leaves_category_1_open(void **state)
{
	(void)state;
	struct by_hand made;
	make_by_hand(&made);
	made.oil.property[BC_FLASH] = bc_estimate_new(-21.3, 12.5, BC_ESTIMATED);
	struct bc_hazards hazards;
	made.boiloff.ibp_c = 71.2;
	bc_hazards_classify(&made.oil, &made.boiloff, BC_HISTORY_RERUN, &hazards);
	assert_null(strstr(hazards.items[0].message, "excluded"));
	bc_hazards_release(&hazards);
	made.boiloff.ibp_c = 38.4;
	bc_hazards_classify(&made.oil, &made.boiloff, BC_HISTORY_RERUN, &hazards);
	assert_non_null(strstr(hazards.items[0].message, "category 1 cannot be excluded"));
	bc_hazards_release(&hazards);
}

static bool warned(const struct bc_strings *cautions, const char *words)
{
	for (size_t i = 0; i < cautions->n; i++) {
		if (strstr(cautions->items[i], words) != NULL)
			return true;
	}
	return false;
}

static void cautions_that_apply(void **state)
{
	(void)state;
	struct by_hand made;
	make_by_hand(&made);
	char pvc[] = "PVC pipe";
	made.sample.feed = pvc;
	struct bc_hazards hazards = {.petrol_like = false};
	struct bc_strings cautions;
	bc_strings_init(&cautions);
	assert_int_equal(
		bc_cautions_collect(&made.sample, &made.oil, &hazards, NULL, false, &cautions),
		BC_OK);
	assert_true(warned(&cautions, "never a certificate"));
	assert_true(warned(&cautions, "licensed practice"));
	assert_true(warned(&cautions, "H304"));
	assert_true(warned(&cautions, "Benzene"));
	assert_true(warned(&cautions, "hydrogen chloride"));
	assert_false(warned(&cautions, "as petrol"));
	assert_false(warned(&cautions, "re-run the vapour lights"));
	assert_true(cautions.n <= 12);
	bc_strings_release(&cautions);
	hazards.petrol_like = true;
	bc_strings_init(&cautions);
	bc_cautions_collect(&made.sample, &made.oil, &hazards, NULL, true, &cautions);
	assert_true(warned(&cautions, "as petrol"));
	assert_true(warned(&cautions, "receiver of a light oil in ice"));
	assert_true(warned(&cautions, "an air leak needs no spark"));
	assert_true(warned(&cautions, "60 % at most"));
	assert_true(cautions.n <= 14);
	bc_strings_release(&cautions);
}

/* 3000 m up: 24.7 degC at 101.3 kPa is 16.9 there; the class stays. */
static void thin_air_makes_petrol_of_it(void **state)
{
	(void)state;
	struct by_hand made;
	make_by_hand(&made);
	made.oil.property[BC_FLASH] = (struct bc_estimate){37.2, 24.7, 49.7, BC_ESTIMATED};
	made.oil.flash_low_at_site_c = 16.9;
	struct bc_hazards hazards;
	bc_hazards_classify(&made.oil, &made.boiloff, BC_HISTORY_RERUN, &hazards);
	assert_true(hazards.petrol_like && hazards.at_site);
	assert_string_equal(class_of(&hazards, "GHS"), "Category 3");
	struct bc_strings cautions;
	bc_strings_init(&cautions);
	bc_cautions_collect(&made.sample, &made.oil, &hazards, NULL, false, &cautions);
	assert_true(warned(&cautions, "in the thin air of this place its vapour may light at 16"));
	bc_strings_release(&cautions);
	bc_hazards_release(&hazards);
	made.oil.flash_low_at_site_c = 23.0;
	bc_hazards_classify(&made.oil, &made.boiloff, BC_HISTORY_RERUN, &hazards);
	assert_false(hazards.petrol_like || hazards.at_site);
	bc_hazards_release(&hazards);
}

static bool cautioned(const struct by_hand *made, const struct bc_findings *findings, bool rerun,
	const char *words)
{
	struct bc_hazards hazards = {.petrol_like = false};
	struct bc_strings cautions;
	bc_strings_init(&cautions);
	bc_cautions_collect(&made->sample, &made->oil, &hazards, findings, rerun, &cautions);
	bool is = warned(&cautions, words);
	bc_strings_release(&cautions);
	return is;
}

static void wax_and_light_ends_are_cooled_differently(void **state)
{
	(void)state;
	struct by_hand made;
	char feed[] = "PE crates";
	struct bc_findings findings;
	make_by_hand(&made);
	bc_findings_init(&findings);
	assert_false(cautioned(&made, &findings, true, "Wax sets"));
	bc_findings_add(&findings, "waxy", BC_FINDING_WARNING, NAN, "Heavy tail.", "Cut it.");
	assert_true(cautioned(&made, &findings, false, "Wax sets"));
	assert_false(cautioned(&made, &findings, false, "in ice"));
	bc_findings_add(&findings, "light-ends", BC_FINDING_DANGER, NAN, "Light ends.", "Air it.");
	assert_true(cautioned(&made, &findings, false, "in ice"));
	assert_true(cautioned(&made, &findings, false, "laptop"));
	made.sample.feed = feed;
	assert_true(cautioned(&made, NULL, true, "Wax sets"));
	assert_false(cautioned(&made, NULL, false, "Wax sets"));
	bc_findings_release(&findings);
}

static void peroxides_by_date(void **state)
{
	(void)state;
	struct by_hand made;
	char date[] = "2026-10-03", fresh[] = "2026-07-03", old[] = "2026-07-02", bad[] = "July";
	char feed[] = "PP caps";
	make_by_hand(&made);
	assert_false(cautioned(&made, NULL, false, "peroxides"));
	made.sample.feed = feed;
	assert_true(cautioned(&made, NULL, false, "peroxides"));
	made.sample.date = date;
	made.sample.drawn = fresh; /* 92 days */
	assert_false(cautioned(&made, NULL, false, "peroxides"));
	made.sample.stored_since = old; /* 93 */
	assert_true(cautioned(&made, NULL, false, "peroxides"));
	made.sample.stored_since = bad;
	assert_true(cautioned(&made, NULL, false, "peroxides"));
	made.sample.stored_since = NULL;
	made.sample.date = NULL;
	assert_true(cautioned(&made, NULL, false, "peroxides"));
}

static void no_memory_is_reported(void **state)
{
	(void)state;
	struct by_hand made;
	make_by_hand(&made);
	bool reached = true;
	for (unsigned long nth = 1; reached; nth++) {
		struct bc_hazards hazards;
		bc_fault_set(BC_FAULT_ALLOC, nth, false);
		enum bc_status status =
			bc_hazards_classify(&made.oil, &made.boiloff, BC_HISTORY_RERUN, &hazards);
		reached = bc_fault_count(BC_FAULT_ALLOC) >= nth;
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		assert_int_equal(status, reached ? BC_NO_MEMORY : BC_OK);
		bc_hazards_release(&hazards);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(classes_at_their_edges),
		cmocka_unit_test(the_basis_is_said),
		cmocka_unit_test(no_claim_is_petrol),
		cmocka_unit_test(a_low_front_leaves_category_1_open),
		cmocka_unit_test(cautions_that_apply),
		cmocka_unit_test(thin_air_makes_petrol_of_it),
		cmocka_unit_test(wax_and_light_ends_are_cooled_differently),
		cmocka_unit_test(peroxides_by_date),
		cmocka_unit_test(no_memory_is_reported),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
