/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The word of a verdict, and which standard it names. */
#include "evidence.h"

#include "base/fault.h"
#include "verdict/reason.h"

#define ROW(grade, standard, property, basis, min, max, unit, role)                                \
	grade "," standard ",2017," property "," basis "," min "," max ",no," unit ",Q 1," role    \
	      ",yes,yes,seen,\n"

#define HEATING_FLASH                                                                              \
	ROW("heating-oil-range", "Q 9", "flash_point", "", "38.2", "", "degC", "safety")
#define HEATING_T90                                                                                \
	ROW("heating-oil-range", "Q 9", "T90", "recovered", "", "338.4", "degC", "judge")
#define HEATING HEATING_FLASH HEATING_T90

#define KEROSENE ROW("kerosene-range", "Q 4", "flash_point", "", "37.7", "", "degC", "safety")

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
	assert_non_null(
		strstr(d.verdict.because.items[0], "what no boil-off tells is listed under still"));
	finish(&d);
}

/* Eight tests of the standard's own: six are named. */
static void a_sentence_names_six_tests(void **state)
{
	(void)state;
	struct decided d;
	static const char *const own[] = {"sulphur", "chlorine", "nitrogen", "ash",
		"carbon_residue", "total_contamination", "char_value", "thermal_sediment"};
	char rows[2048] = HEATING;
	for (size_t i = 0; i < sizeof own / sizeof *own; i++) {
		size_t used = strlen(rows);
		snprintf(rows + used, sizeof rows - used,
			"heating-oil-range,Q 9,2017,%s,,,17.3,no,mg/kg,Q 1,other-test,yes,yes,seen,\n",
			own[i]);
	}
	start(&d, rows);
	assert_int_equal(decide(&d), BC_WORD_USABLE);
	assert_string_equal(d.verdict.because.items[0],
		"Its boiling and flash are within heating-oil-range, Q 9 (2017); still to be "
		"tested: sulphur, chlorine, nitrogen, ash, carbon residue, total contamination, and "
		"what else is listed under still to be tested.");
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
	d.bearing.tbp = true;
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_true(says(&d.verdict.because, "true boiling points"));
	d.bearing.tbp = false;
	d.bearing.petrol_like = true;
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_true(says(&d.verdict.because, "treated as petrol"));
	d.bearing.petrol_like = false;
	d.made.oil.wet = true;
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_true(says(&d.verdict.next, "dry the oil"));
	d.made.oil.wet = false;
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
	start(&d, HEATING);
	bc_findings_add(
		&d.findings, "feed-odd", BC_FINDING_WARNING, NAN, "Odd feed.", "Look into it.");
	assert_int_equal(decide(&d), BC_WORD_USABLE);
	bc_findings_forbid(&d.findings, true, false);
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_true(says(&d.verdict.because, "Odd feed."));
	assert_true(says(&d.verdict.next, "Look into it."));
	finish(&d);
}

/* PTFE in the feed: a cut would mend the flash and may not be made. */
static void a_finding_may_forbid_the_rerun(void **state)
{
	(void)state;
	struct decided d;
	start(&d, HEATING);
	d.made.oil.property[BC_FLASH] = bc_estimate_new(21.7, 9.1, BC_ESTIMATED);
	d.bearing.cut_exists = true;
	d.bearing.cut_light = true;
	assert_int_equal(decide(&d), BC_WORD_RERUN);
	assert_true(bc_bearing_may_cut(&d.bearing));
	bc_findings_add(&d.findings, "feed-ptfe", BC_FINDING_DANGER, NAN, "PTFE.", "Leave it.");
	bc_findings_forbid(&d.findings, true, true);
	bc_findings_add(&d.findings, "light-ends", BC_FINDING_DANGER, NAN, "Light ends.",
		"Take the light end off by a re-run.");
	assert_int_equal(decide(&d), BC_WORD_UNFIT);
	assert_false(bc_bearing_may_cut(&d.bearing));
	assert_true(says(&d.verdict.because, "PTFE."));
	assert_true(says(&d.verdict.because, "may not be distilled again"));
	assert_true(says(&d.verdict.next, "Leave it."));
	assert_false(says(&d.verdict.next, "Distil it again"));
	assert_false(says(&d.verdict.next, "re-run"));
	finish(&d);
}

static void a_disputed_flash_leaves_it_undecided(void **state)
{
	(void)state;
	static const char *const codes[] = {
		"flash-measured-low", "flash-measured-high", "flash-open-cup-lower"};
	for (size_t i = 0; i < 3; i++) {
		struct decided d;
		start(&d, HEATING);
		d.made.oil.flash_open_disputed = i == 2;
		d.made.oil.property[BC_FLASH] = bc_estimate_new(21.7, 2.1, BC_MEASURED);
		bc_findings_add(&d.findings, codes[i], BC_FINDING_WARNING, NAN,
			"Cup and curve differ.", "");
		assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
		d.bearing.cut_exists = true;
		assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
		assert_false(bc_bearing_may_cut(&d.bearing));
		assert_true(says(&d.verdict.because, "Cup and curve differ."));
		assert_true(says(&d.verdict.next, "have the flash measured again"));
		assert_false(says(&d.verdict.next, "Distil it again"));
		finish(&d);
	}
}

/* Sulphur stays in every jar. */
static void what_no_cut_takes_out_is_unfit(void **state)
{
	(void)state;
	struct decided d;
	start(&d, HEATING ROW("heating-oil-range", "Q 9", "sulphur", "", "", "0.1", "%m/m",
			  "other-test"));
	measure(&d.made, "sulphur", 1130.0);
	measure(&d.made, "chlorine", 2110.0);
	assert_int_equal(decide(&d), BC_WORD_UNFIT);
	assert_true(says(&d.verdict.because, "No cut mends its sulphur"));
	assert_true(says(
		&d.verdict.because, "Measured: chlorine 2110 mg/kg; this standard sets no limit."));
	finish(&d);
}

static void water_is_dried_not_cut(void **state)
{
	(void)state;
	struct decided d;
	start(&d, HEATING ROW("heating-oil-range", "Q 9", "water_and_sediment", "", "", "0.05",
			  "%V/V", "other-test"));
	measure(&d.made, "water", 700.0);
	assert_int_equal(decide(&d), BC_WORD_UNFIT);
	assert_true(says(&d.verdict.next, "dry it first"));
	finish(&d);
}

static void no_claim_without_a_flash_limit(void **state)
{
	(void)state;
	struct decided d;
	start(&d, HEATING_T90);
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_true(says(&d.verdict.because, "sets no flash limit"));
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
	/* nor is it made by a cut */
	start(&d, ROW("gasoline-range", "Q 2", "FBP", "", "", "209.3", "degC", "judge"));
	d.bearing.want = BC_GRADE_GASOLINE;
	d.bearing.cut_exists = true;
	d.bearing.cut_tail = true;
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_false(says(&d.verdict.next, "Distil it again"));
	d.bearing.want = BC_GRADES;
	struct bc_grade product = {.name = BC_GRADE_GASOLINE, .standard = "Q 2"};
	d.bearing.product = &product;
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
	assert_true(says(&d.verdict.because,
		"31.2 % over at 250 degC; the customs line of Q 9 (2017) is at most 12.7 %: a "
		"lighter oil under another duty, never a reason against burning it."));
	finish(&d);
}

/* The heavier grade goes first where the lighter misses a customs line. */
static void met_without_a_missed_line_goes_first(void **state)
{
	(void)state;
	struct decided d;
	start(&d, KEROSENE ROW("kerosene-range", "Q 4", "recovered_at_250C", "recovered", "",
			  "12.7", "%V/V", "customs") HEATING);
	assert_int_equal(decide(&d), BC_WORD_USABLE);
	assert_string_equal(d.verdict.grade->standard, "Q 9");
	d.bearing.want = BC_GRADE_KEROSENE;
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
	assert_false(says(&d.verdict.next, "hardly worth the heat"));
	d.bearing.product_pct = 29.7;
	assert_int_equal(decide(&d), BC_WORD_RERUN);
	assert_true(says(&d.verdict.next, "Only 30 % of the charge would become product"));
	d.bearing.few_readings = true;
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	d.bearing.cut_exists = false;
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_false(says(&d.verdict.next, "customs line"));
	d.bearing.few_readings = false;
	d.bearing.tbp = true;
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	d.bearing.tbp = false;
	d.bearing.cut_exists = true;
	d.made.oil.wet = true;
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_false(says(&d.verdict.next, "Distil it again"));
	finish(&d);
}

/* A product that was fitted to a limit by its value alone keeps it at even odds. */
static void odds_of_the_product_are_said(void **state)
{
	(void)state;
	struct decided d;
	start(&d, HEATING);
	struct bc_criterion criteria[] = {
		{d.limits->items, bc_estimate_new(71.3, 9.1, BC_ESTIMATED), BC_STATE_WITHIN, 1.0,
			false, false},
		{d.limits->items + 1, bc_estimate_new(338.4, 5.0, BC_ESTIMATED), BC_STATE_DOUBTFUL,
			0.5, false, false},
		{d.limits->items + 1, bc_estimate_new(336.4, 5.0, BC_ESTIMATED), BC_STATE_DOUBTFUL,
			0.783, false, false},
	};
	struct bc_grade product = {.name = BC_GRADE_HEATING_OIL,
		.standard = "Q 9",
		.criteria = criteria,
		.n_criteria = 3};
	d.made.oil.property[BC_FLASH] = bc_estimate_new(21.7, 9.1, BC_ESTIMATED);
	d.bearing.cut_exists = true;
	d.bearing.product = &product;
	assert_int_equal(decide(&d), BC_WORD_RERUN);
	assert_true(says(&d.verdict.next, "within Q 9 only so likely: 90 % point at even odds, "
					  "90 % point 78 %."));
	finish(&d);
}

static void hopeless_flash_counts_as_outside(void **state)
{
	(void)state;
	struct decided d;
	start(&d, HEATING);
	d.made.oil.flash_claim = false;
	d.made.oil.property[BC_FLASH] = (struct bc_estimate){21.7, NAN, 30.8, BC_ESTIMATED};
	d.made.oil.no_claim_why = "gas left first";
	assert_int_equal(decide(&d), BC_WORD_UNFIT);
	assert_true(says(&d.verdict.because,
		"No low bound is claimed for its flash point (gas left first): it is 30.8 degC at "
		"best, and Q 9 (2017) asks for at least 38.2 degC."));
	assert_false(says(&d.verdict.because, "Nothing is claimed"));
	d.made.oil.property[BC_FLASH] = (struct bc_estimate){61.7, NAN, 70.8, BC_ESTIMATED};
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_true(says(&d.verdict.because, "the curve says near 61.7 degC"));
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
		  "1,judge,yes,yes,memory,\n" HEATING);
	assert_int_equal(decide(&d), BC_WORD_USABLE);
	assert_string_equal(d.verdict.grade->standard, "Q 9");
	d.bearing.standard = "Q 5";
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_true(says(&d.verdict.because, "Not seen in print, but written down from memory: 90 "
					     "% point at most 338.4 degC. Look it up"));
	finish(&d);
}

#define MEMORY(property, basis, min, max, unit, role)                                              \
	"heating-oil-range,Q 9,2017," property "," basis "," min "," max ",no," unit ",Q 1," role  \
	",yes,yes,memory,\n"

/* Only limits that count, and of a grade that is missed only those that it misses. */
static void limits_from_memory_are_named(void **state)
{
	(void)state;
	struct decided d;
	start(&d, HEATING_FLASH MEMORY("T90", "recovered", "", "338.4", "degC", "judge")
			  MEMORY("density", "", "", "861.3", "kg/m3", "judge") MEMORY(
				  "recovered_at_250C", "recovered", "", "65.0", "%V/V", "customs"));
	assert_int_equal(decide(&d), BC_WORD_USABLE);
	assert_true(says(&d.verdict.because,
		"written down from memory: 90 % point at most 338.4 degC, density at 15 degC at "
		"most 861.3 kg/m3. Look them up"));
	assert_false(says(&d.verdict.because, "recovered at 250"));
	d.made.oil.property[BC_DENSITY15] = bc_estimate_new(891.2, 1.7, BC_MEASURED);
	assert_int_equal(decide(&d), BC_WORD_UNFIT);
	assert_true(says(&d.verdict.because,
		"from memory: density at 15 degC at most 861.3 kg/m3. Look it up"));
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
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_string_equal(d.verdict.grade->standard, "Q 7");
	d.bearing.want = BC_GRADES;
	d.bearing.standard = "Q 6";
	d.made.oil.property[BC_DENSITY15] = bc_estimate_new(829.4, 1.7, BC_MEASURED);
	decide(&d);
	assert_int_equal(d.verdict.grade->state, BC_STATE_WITHIN);
	/* estimated to within 58 it is in doubt, not too light */
	d.made.oil.property[BC_DENSITY15] = bc_estimate_new(808.3, 58.0, BC_ESTIMATED);
	decide(&d);
	assert_false(says(&d.verdict.because, "road-diesel"));
	assert_null(bc_too_light_for_road(&d.grades));
	finish(&d);
}

/* Nobody distils a waxy, cracking or old oil to its end for a reading. */
static void the_end_is_not_asked_for_where_it_is_out_of_reach(void **state)
{
	(void)state;
	struct decided d;
	char since[] = "2026-03-01";
	start(&d, HEATING_FLASH ROW(
			  "heating-oil-range", "Q 9", "FBP", "", "", "361.3", "degC", "judge"));
	d.made.points.at[BC_AT_FBP] = bc_estimate_absent();
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_true(says(&d.verdict.next, "read the final boiling point"));
	d.made.sample.stored_since = since;
	assert_int_equal(decide(&d), BC_WORD_UNDECIDED);
	assert_true(says(&d.verdict.next, "Do not go for the final boiling point"));
	struct bc_point last = {.corrected_c = 331.3, .used = true};
	d.made.boiloff.points = &last;
	d.made.boiloff.n = 1;
	decide(&d);
	assert_true(says(&d.verdict.next, "stop at the pot limit (340 degC in the pot"));
	last.corrected_c = 311.3;
	decide(&d);
	assert_false(says(&d.verdict.next, "pot limit"));
	bc_findings_add(&d.findings, "waxy", BC_FINDING_WARNING, NAN, "Heavy tail.", "Cut it.");
	decide(&d);
	assert_true(says(&d.verdict.next, "pot limit"));
	assert_false(says(&d.verdict.next, "both ends"));
	finish(&d);
}

/* A standard without density limit lets an aromatic oil pass; it is said. */
static void an_oil_unlike_its_grade(void **state)
{
	(void)state;
	struct decided d;
	start(&d, KEROSENE);
	assert_int_equal(decide(&d), BC_WORD_USABLE);
	assert_false(says(&d.verdict.because, "unlike"));
	d.made.oil.property[BC_DENSITY15] = bc_estimate_new(862.7, 1.7, BC_MEASURED);
	assert_int_equal(decide(&d), BC_WORD_USABLE);
	assert_true(says(&d.verdict.because, "862.7 kg/m3, is unlike a kerosene-range fuel"));
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
		cmocka_unit_test(a_sentence_names_six_tests),
		cmocka_unit_test(never_usable_without_what_it_takes),
		cmocka_unit_test(a_finding_may_forbid_the_rerun),
		cmocka_unit_test(a_disputed_flash_leaves_it_undecided),
		cmocka_unit_test(what_no_cut_takes_out_is_unfit),
		cmocka_unit_test(water_is_dried_not_cut),
		cmocka_unit_test(no_claim_without_a_flash_limit),
		cmocka_unit_test(gasoline_is_never_usable),
		cmocka_unit_test(scope_and_comparison_are_never_usable),
		cmocka_unit_test(customs_alone_never_make_unfit),
		cmocka_unit_test(met_without_a_missed_line_goes_first),
		cmocka_unit_test(outside_is_rerun_or_unfit),
		cmocka_unit_test(odds_of_the_product_are_said),
		cmocka_unit_test(hopeless_flash_counts_as_outside),
		cmocka_unit_test(doubt_stands_between_two_words),
		cmocka_unit_test(ties_go_to_the_lightest),
		cmocka_unit_test(nearest_counts_outside_then_doubtful),
		cmocka_unit_test(print_goes_before_memory_within_a_grade),
		cmocka_unit_test(limits_from_memory_are_named),
		cmocka_unit_test(too_light_for_road_diesel),
		cmocka_unit_test(the_end_is_not_asked_for_where_it_is_out_of_reach),
		cmocka_unit_test(an_oil_unlike_its_grade),
		cmocka_unit_test(no_memory_is_reported),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
