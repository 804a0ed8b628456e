/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plain sentences behind a verdict: what is met, what stands against it, what to measure. */
#include "verdict/reason.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "curve/cracking.h"
#include "verdict/age.h"
#include "verdict/phrase.h"

/* So many tests are named in a sentence; the report lists the rest. */
#define TESTS_NAMED 6

const struct bc_criterion *bc_too_light_for_road(const struct bc_grades *grades)
{
	for (size_t i = 0; i < grades->n; i++) {
		const struct bc_grade *grade = &grades->items[i];
		for (size_t j = 0; j < grade->n_criteria; j++) {
			const struct bc_criterion *criterion = &grade->criteria[j];
			if (bc_limit_too_light(criterion->limit, &criterion->value))
				return criterion;
		}
	}
	return NULL;
}

/* The words that most sentences on a criterion are made of. */
struct words {
	char name[BC_PHRASE_SIZE];
	char value[BC_PHRASE_SIZE];
	char range[BC_PHRASE_SIZE];
	char source[BC_PHRASE_SIZE];
};

static struct words words_of(const struct bc_criterion *criterion)
{
	struct words words = {.name = ""};
	bc_limit_property_text(criterion->limit->property, words.name, sizeof words.name);
	bc_phrase_value(criterion, words.value, sizeof words.value);
	bc_phrase_limit(criterion->limit, words.range, sizeof words.range);
	bc_phrase_source(criterion->limit, words.source, sizeof words.source);
	return words;
}

void bc_reason_too_light(const struct bc_criterion *density, struct bc_strings *because)
{
	struct words words = words_of(density);
	/* polyolefin oils lie at 780 to 820 kg/m3; published oils */
	bc_strings_add(because,
		"Its density, %s, fits no road-diesel standard that limits density: %s asks for "
		"%s. That is usual for oil from polyolefins (780 to 820 kg/m3); it is judged as "
		"heating oil or lighter.",
		words.value, words.source, words.range);
}

static bool is_out(const struct bc_criterion *criterion)
{
	return criterion->hopeless || criterion->state == BC_STATE_OUTSIDE;
}

static bool is_customs(const struct bc_criterion *criterion)
{
	return criterion->limit->role == BC_ROLE_CUSTOMS;
}

static bool is_safety(const struct bc_criterion *criterion)
{
	return criterion->limit->role == BC_ROLE_SAFETY;
}

static bool is_flash(const struct bc_criterion *criterion)
{
	return strcmp(criterion->limit->property, "flash_point") == 0;
}

static bool counts(const struct bc_criterion *criterion)
{
	return bc_limit_counts(criterion->limit, true);
}

/* ---- what is met */

/* The names of the standard's own tests, without limits and methods. */
static void join_untold(const struct bc_grade *grade, struct bc_text *text)
{
	size_t first = grade->scope != NULL ? 1 : 0;
	size_t n = grade->n_own_tests;
	for (size_t i = 0; i < n && i < TESTS_NAMED && first + i < grade->not_measured.n; i++) {
		const char *item = grade->not_measured.items[first + i];
		bc_text_append(text, i == 0 ? "; still to be tested: " : ", ");
		bc_text_append_n(text, item, strcspn(item, ":"));
	}
	bc_text_append(text, n > 0 ? ", and what else is listed under still to be tested"
				   : "; what no boil-off tells is listed under still to be tested");
}

/* The limits that a grade is held against and that nobody saw in print; where some are missed, of
 * those alone. */
static void say_from_memory(const struct bc_grade *grade, struct bc_strings *because)
{
	struct bc_text list;
	size_t n = 0;
	bc_text_init(&list);
	for (size_t i = 0; i < grade->n_criteria; i++) {
		const struct bc_criterion *criterion = &grade->criteria[i];
		if (!counts(criterion) || criterion->limit->seen != BC_SEEN_MEMORY ||
			(grade->outside > 0 && !is_out(criterion)))
			continue;
		struct words words = words_of(criterion);
		bc_text_printf(&list, "%s%s %s", n == 0 ? "" : ", ", words.name, words.range);
		n++;
	}
	if (n > 0 && list.data != NULL)
		bc_strings_add(because,
			"Not seen in print, but written down from memory: %s. Look %s up before "
			"relying on this.",
			list.data, n == 1 ? "it" : "them");
	because->failed = because->failed || list.failed;
	bc_text_release(&list);
}

static void safety_met(const struct bc_criterion *criterion, struct bc_strings *because)
{
	struct words words = words_of(criterion);
	bc_strings_add(because, "Its %s, %s, keeps %s even at its unfavourable bound.", words.name,
		words.value, words.range);
}

/* A customs line that does not count: "81.7 % over at 250 degC; ...". */
static void customs_aside(const struct bc_criterion *criterion, struct bc_strings *because)
{
	struct words words = words_of(criterion);
	double temp_c = bc_limit_property_number(criterion->limit->property);
	bool more = criterion->value.value > criterion->limit->max;
	bc_strings_add(because,
		"%.1f %% over at %.0f degC; the customs line of %s is %s: a %s oil under another "
		"duty, never a reason against burning it.",
		criterion->value.value, temp_c, words.source, words.range,
		more ? "lighter" : "heavier");
}

static void customs_asides(const struct bc_grade *grade, struct bc_strings *because)
{
	for (size_t i = 0; i < grade->n_criteria; i++) {
		const struct bc_criterion *criterion = &grade->criteria[i];
		if (!counts(criterion) && is_customs(criterion) && is_out(criterion))
			customs_aside(criterion, because);
	}
}

static void say_unlimited(const struct bc_grade *grade, struct bc_strings *because)
{
	for (size_t i = 0; i < grade->measured_unlimited.n; i++)
		bc_strings_add(because, "Measured: %s; this standard sets no limit.",
			grade->measured_unlimited.items[i]);
}

static bool limits_density(const struct bc_grade *grade)
{
	for (size_t i = 0; i < grade->n_criteria; i++) {
		if (strcmp(grade->criteria[i].limit->property, "density") == 0)
			return true;
	}
	return false;
}

/* Where a standard does not limit density, an oil of another kind passes unseen. */
static void say_unlike(const struct bc_grade *grade, const struct bc_evidence *evidence,
	struct bc_strings *because)
{
	double min_kgm3;
	double max_kgm3;
	if (limits_density(grade) || evidence->oil == NULL ||
		!bc_grade_usual_density(grade->name, &min_kgm3, &max_kgm3))
		return;
	const struct bc_estimate *density = &evidence->oil->property[BC_DENSITY15];
	if (density->low > max_kgm3 || density->high < min_kgm3)
		bc_strings_add(because,
			"Its density, %.1f kg/m3, is unlike a %s fuel (%.0f to %.0f kg/m3)%s; this "
			"standard sets no limit to it.",
			density->value, bc_grade_texts[grade->name], min_kgm3, max_kgm3,
			density->low > max_kgm3 ? ": it is aromatic, and may smoke" : "");
}

void bc_reasons_met(const struct bc_grade *grade, const struct bc_evidence *evidence,
	struct bc_strings *because)
{
	struct bc_text untold;
	bc_text_init(&untold);
	join_untold(grade, &untold);
	bc_strings_add(because, "Its boiling and flash are within %s, %s (%s)%s.",
		bc_grade_texts[grade->name], grade->standard, grade->edition,
		untold.data == NULL ? "" : untold.data);
	because->failed = because->failed || untold.failed;
	bc_text_release(&untold);
	for (size_t i = 0; i < grade->n_criteria; i++) {
		if (is_safety(&grade->criteria[i]))
			safety_met(&grade->criteria[i], because);
	}
	say_unlike(grade, evidence, because);
	customs_asides(grade, because);
	say_unlimited(grade, because);
	say_from_memory(grade, because);
}

/* ---- what stands against it */

/* A flash of which no low bound is claimed, and why. */
static void against_unclaimed(const struct bc_criterion *criterion,
	const struct bc_evidence *evidence, struct bc_strings *because)
{
	struct words words = words_of(criterion);
	const char *why = evidence->oil != NULL ? evidence->oil->no_claim_why : NULL;
	const struct bc_estimate *value = &criterion->value;
	char said[BC_PHRASE_SIZE];
	snprintf(said, sizeof said,
		criterion->hopeless ? "it is %.1f degC at best"
				    : "the curve says near %.1f degC, if nothing was missed",
		criterion->hopeless ? value->high : value->value);
	bc_strings_add(because, "No low bound is claimed for its %s%s%s%s: %s, and %s asks for %s.",
		words.name, why != NULL ? " (" : "", why != NULL ? why : "", why != NULL ? ")" : "",
		said, words.source, words.range);
}

static void against(const struct bc_criterion *criterion, const struct bc_evidence *evidence,
	struct bc_strings *because)
{
	struct words words = words_of(criterion);
	const char *line = is_customs(criterion) ? "the customs line of " : "";
	bool known = bc_estimate_present(&criterion->value);
	if (criterion->hopeless || (criterion->state == BC_STATE_NOT_MEASURED && known))
		against_unclaimed(criterion, evidence, because);
	else if (criterion->state == BC_STATE_OUTSIDE)
		bc_strings_add(because, "Its %s, %s, is outside %s%s: %s.", words.name, words.value,
			line, words.source, words.range);
	else if (criterion->state == BC_STATE_NOT_MEASURED)
		bc_strings_add(because, "Its %s is not known; %s%s asks for %s.", words.name, line,
			words.source, words.range);
	else if (criterion->of_part)
		bc_strings_add(because,
			"Its %s does not add up from the parts, and a part with %s is outside %s%s: "
			"%s.",
			words.name, words.value, line, words.source, words.range);
	else if (criterion->value.how == BC_NOT_VALID)
		bc_strings_add(because,
			"Its %s, %s, comes from a method that does not hold for this oil and "
			"proves nothing; %s asks for %s.",
			words.name, words.value, words.source, words.range);
	else
		bc_strings_add(because,
			"Its %s, %s, may lie on either side of %s%s: %s (chance of being within "
			"%.0f %%).",
			words.name, words.value, line, words.source, words.range,
			100.0 * criterion->chance_within);
}

static void against_if(const struct bc_grade *grade, const struct bc_evidence *evidence, bool out,
	bool safety, struct bc_strings *because)
{
	for (size_t i = 0; i < grade->n_criteria; i++) {
		const struct bc_criterion *criterion = &grade->criteria[i];
		if (counts(criterion) && criterion->state != BC_STATE_WITHIN &&
			is_out(criterion) == out && is_safety(criterion) == safety)
			against(criterion, evidence, because);
	}
}

bool bc_reasons_tell_flash(const struct bc_grade *grade)
{
	for (size_t i = 0; i < grade->n_criteria; i++) {
		if (is_flash(&grade->criteria[i]) && counts(&grade->criteria[i]) &&
			grade->criteria[i].state != BC_STATE_WITHIN)
			return true;
	}
	return false;
}

void bc_reasons_against(const struct bc_grade *grade, const struct bc_evidence *evidence,
	struct bc_strings *because)
{
	against_if(grade, evidence, true, true, because);
	against_if(grade, evidence, true, false, because);
	against_if(grade, evidence, false, true, because);
	against_if(grade, evidence, false, false, because);
	say_unlike(grade, evidence, because);
	customs_asides(grade, because);
	say_unlimited(grade, because);
	if (grade->from_memory)
		say_from_memory(grade, because);
}

/* ---- what to measure */

/* The highest head temperature that was read; NaN without a boil-off. */
static double last_head_c(const struct bc_evidence *evidence)
{
	double last_c = NAN;
	const struct bc_boiloff *boiloff = evidence->boiloff;
	for (size_t i = 0; boiloff != NULL && i < boiloff->n; i++) {
		if (boiloff->points[i].used)
			last_c = fmax(last_c, boiloff->points[i].corrected_c);
	}
	return last_c;
}

/* An end that would crack the oil, or go to dryness over peroxides, is never asked for. */
static bool end_is_out_of_reach(
	const struct bc_evidence *evidence, const struct bc_findings *findings)
{
	/* so near the limit the next reading lies beyond it; common practice */
	const double near_c = 10.0;
	if (findings != NULL &&
		(bc_findings_has(findings, "cracking") || bc_findings_has(findings, "waxy")))
		return true;
	return last_head_c(evidence) > BC_HEAD_LIMIT_C - near_c;
}

static void next_reading(const struct bc_criterion *criterion, const struct bc_evidence *evidence,
	const struct bc_findings *findings, struct bc_strings *next)
{
	bool end = strcmp(criterion->limit->property, "FBP") == 0;
	bool old = evidence->sample != NULL && bc_age_of(evidence->sample) == BC_AGE_OLD;
	double number = bc_limit_property_number(criterion->limit->property);
	bool start = strcmp(criterion->limit->property, "IBP") == 0 ||
		     (criterion->limit->property[0] == 'T' && number < 50.0);
	if (start)
		bc_strings_add_once(next, "Repeat the boil-off with more readings at its start.");
	else if (end_is_out_of_reach(evidence, findings))
		bc_strings_add_once(next,
			"The end cannot be read in a flask: stop at the pot limit (%.0f degC in "
			"the pot, %.0f at the head).",
			BC_POT_LIMIT_C, BC_HEAD_LIMIT_C);
	else if (end && old)
		bc_strings_add_once(next,
			"Do not go for the final boiling point: the oil is old, and peroxides go "
			"off in a flask that runs dry.");
	else
		bc_strings_add_once(next, "%s",
			end ? "Repeat the boil-off and read the final boiling point, unless the "
			      "oil is styrenic."
			    : "Repeat the boil-off with more readings, closer to both ends.");
}

static void next_on_curve(const struct bc_criterion *criterion, const struct bc_evidence *evidence,
	const struct bc_findings *findings, struct bc_strings *next)
{
	if (criterion->state == BC_STATE_NOT_MEASURED) {
		next_reading(criterion, evidence, findings, next);
		return;
	}
	bc_strings_add_once(next, "Check the thermometer at a high point (naphthalene boils at "
				  "218.0 degC, hexadecane at 286.9 degC at 101.3 kPa) and enter "
				  "what it shows as its reading error.");
	const struct bc_conditions *conditions =
		evidence->reader != NULL ? evidence->reader->conditions : NULL;
	if (conditions != NULL && conditions->pressure_source == BC_PRESSURE_ASSUMED)
		bc_strings_add_once(
			next, "Read a barometer, or note the altitude, and add it to the sample.");
	if (conditions != NULL && conditions->thermometer == BC_THERMOMETER_NOT_STATED)
		bc_strings_add_once(next,
			"Say which kind of thermometer was used: glass d86, glass partial, glass "
			"total or probe.");
}

static bool density_measured(const struct bc_evidence *evidence)
{
	return evidence->oil != NULL && evidence->oil->property[BC_DENSITY15].how == BC_MEASURED;
}

static void next_for(const struct bc_criterion *criterion, const struct bc_evidence *evidence,
	const struct bc_findings *findings, struct bc_strings *next)
{
	const char *property = criterion->limit->property;
	if (is_flash(criterion))
		bc_strings_add_once(next,
			"Have the flash point of this jar measured in a closed cup (%s) and add it "
			"as 'flash'.",
			criterion->limit->method);
	else if (strcmp(property, "density") == 0)
		bc_strings_add_once(next, "Measure the density with a hydrometer, note the "
					  "temperature of the oil, and "
					  "add it as 'density'.");
	else if (strncmp(property, "kin_viscosity", strlen("kin_viscosity")) == 0)
		bc_strings_add_once(next,
			"Have the viscosity at %s degC measured (%s) and add it as 'viscosity'.",
			strcmp(property, "kin_viscosity_20C") == 0 ? "20" : "40",
			criterion->limit->method);
	else if (strncmp(property, "cetane", strlen("cetane")) == 0)
		bc_strings_add_once(next, "%s",
			density_measured(evidence)
				? "Where the index does not hold, only a test of the cetane number "
				  "tells."
				: "Measure the density first: the cetane index rests on it.");
	else if (strcmp(property, "distillation_residue") == 0)
		bc_strings_add_once(next,
			"Measure what stays in the flask when it is cold and add it as 'residue'.");
	else
		next_on_curve(criterion, evidence, findings, next);
}

void bc_next_to_measure(const struct bc_grade *grade, const struct bc_evidence *evidence,
	const struct bc_findings *findings, struct bc_strings *next)
{
	for (size_t i = 0; i < grade->n_criteria; i++) {
		const struct bc_criterion *criterion = &grade->criteria[i];
		if (is_safety(criterion) && criterion->state != BC_STATE_WITHIN)
			next_for(criterion, evidence, findings, next);
	}
	for (size_t i = 0; i < grade->n_criteria; i++) {
		const struct bc_criterion *criterion = &grade->criteria[i];
		if (counts(criterion) && !is_out(criterion) && !is_safety(criterion) &&
			criterion->state != BC_STATE_WITHIN)
			next_for(criterion, evidence, findings, next);
	}
}
