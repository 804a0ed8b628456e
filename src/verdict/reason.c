/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plain sentences behind a verdict: what is met, what stands against it, what to measure. */
#include "verdict/reason.h"

#include <math.h>
#include <string.h>

#include "base/text.h"
#include "verdict/phrase.h"

const struct bc_criterion *bc_too_light_for_road(const struct bc_grades *grades)
{
	for (size_t i = 0; i < grades->n; i++) {
		const struct bc_grade *grade = &grades->items[i];
		if (grade->name != BC_GRADE_DIESEL || grade->scope != NULL)
			continue;
		for (size_t j = 0; j < grade->n_criteria; j++) {
			const struct bc_criterion *criterion = &grade->criteria[j];
			if (strcmp(criterion->limit->property, "density") == 0 &&
				criterion->value.value < criterion->limit->min)
				return criterion;
		}
	}
	return NULL;
}

void bc_reason_too_light(const struct bc_criterion *density, struct bc_strings *because)
{
	char value[BC_PHRASE_SIZE];
	char range[BC_PHRASE_SIZE];
	char source[BC_PHRASE_SIZE];
	bc_phrase_value(density, value, sizeof value);
	bc_phrase_limit(density->limit, range, sizeof range);
	bc_phrase_source(density->limit, source, sizeof source);
	/* polyolefin oils lie at 780 to 820 kg/m3; published oils */
	bc_strings_add(because,
		"Its density, %s, %s no road-diesel standard that limits density: %s asks for %s. "
		"That is usual for oil from polyolefins (780 to 820 kg/m3); it is judged as "
		"heating oil or lighter.",
		value, density->state == BC_STATE_OUTSIDE ? "fits" : "most likely fits", source,
		range);
}

static bool is_out(const struct bc_criterion *criterion)
{
	return criterion->hopeless || criterion->state == BC_STATE_OUTSIDE;
}

static bool is_customs(const struct bc_criterion *criterion)
{
	return criterion->limit->role == BC_ROLE_CUSTOMS;
}

/* ---- what is met */

/* The names of what is left to other tests, without limits and methods. */
static void join_untold(const struct bc_grade *grade, struct bc_text *text)
{
	for (size_t i = 0; i < grade->not_measured.n; i++) {
		const char *item = grade->not_measured.items[i];
		size_t n = strcspn(item, ":(");
		while (n > 0 && item[n - 1] == ' ')
			n--;
		bc_text_append(text, i == 0 ? "" : ", ");
		bc_text_append_n(text, item, n);
	}
}

static size_t from_memory(const struct bc_grade *grade)
{
	size_t n = 0;
	for (size_t i = 0; i < grade->n_criteria; i++) {
		const struct bc_limit *limit = grade->criteria[i].limit;
		n += bc_limit_counts(limit, true) && limit->seen == BC_SEEN_MEMORY ? 1 : 0;
	}
	return n;
}

static void safety_met(const struct bc_criterion *criterion, struct bc_strings *because)
{
	char name[BC_PHRASE_SIZE];
	char value[BC_PHRASE_SIZE];
	char range[BC_PHRASE_SIZE];
	bc_limit_property_text(criterion->limit->property, name, sizeof name);
	bc_phrase_value(criterion, value, sizeof value);
	bc_phrase_limit(criterion->limit, range, sizeof range);
	bc_strings_add(because, "Its %s, %s, keeps %s even at its unfavourable bound.", name, value,
		range);
}

void bc_reasons_met(const struct bc_grade *grade, struct bc_strings *because)
{
	struct bc_text untold;
	bc_text_init(&untold);
	join_untold(grade, &untold);
	bc_strings_add(because, "Its boiling and flash are within %s, %s (%s)%s%s.",
		bc_grade_texts[grade->name], grade->standard, grade->edition,
		untold.data == NULL ? "" : "; still to be tested: ",
		untold.data == NULL ? "" : untold.data);
	because->failed = because->failed || untold.failed;
	bc_text_release(&untold);
	for (size_t i = 0; i < grade->n_criteria; i++) {
		if (grade->criteria[i].limit->role == BC_ROLE_SAFETY)
			safety_met(&grade->criteria[i], because);
	}
	size_t memory = from_memory(grade);
	if (memory > 0)
		bc_strings_add(because,
			"%zu of the limits it was held against %s from memory: look %s up in print "
			"before relying on this.",
			memory, memory == 1 ? "is" : "are", memory == 1 ? "it" : "them");
}

/* ---- what stands against it */

static void against(const struct bc_criterion *criterion, struct bc_strings *because)
{
	char name[BC_PHRASE_SIZE];
	char value[BC_PHRASE_SIZE];
	char range[BC_PHRASE_SIZE];
	char source[BC_PHRASE_SIZE];
	const struct bc_limit *limit = criterion->limit;
	bc_limit_property_text(limit->property, name, sizeof name);
	bc_phrase_value(criterion, value, sizeof value);
	bc_phrase_limit(limit, range, sizeof range);
	bc_phrase_source(limit, source, sizeof source);
	const char *line = is_customs(criterion) ? "the customs line of " : "";
	if (criterion->hopeless)
		bc_strings_add(because, "Its %s is at best %.1f degC, and %s asks for %s.", name,
			criterion->value.high, source, range);
	else if (criterion->state == BC_STATE_OUTSIDE)
		bc_strings_add(because, "Its %s, %s, is outside %s%s: %s.", name, value, line,
			source, range);
	else if (criterion->state == BC_STATE_NOT_MEASURED &&
		 bc_estimate_present(&criterion->value))
		bc_strings_add(because,
			"Its %s would be near %.1f degC if no gas were dissolved in it, which no "
			"boil-off tells; %s asks for %s.",
			name, criterion->value.value, source, range);
	else if (criterion->state == BC_STATE_NOT_MEASURED)
		bc_strings_add(because, "Its %s is not known; %s%s asks for %s.", name, line,
			source, range);
	else if (criterion->value.how == BC_NOT_VALID)
		bc_strings_add(because,
			"Its %s, %s, comes from a method that does not hold for this oil and "
			"proves nothing; %s asks for %s.",
			name, value, source, range);
	else
		bc_strings_add(because,
			"Its %s, %s, may lie on either side of %s%s: %s (chance of being within "
			"%.0f %%).",
			name, value, line, source, range, 100.0 * criterion->chance_within);
}

static void customs_aside(const struct bc_criterion *criterion, struct bc_strings *because)
{
	char name[BC_PHRASE_SIZE];
	char value[BC_PHRASE_SIZE];
	char range[BC_PHRASE_SIZE];
	char source[BC_PHRASE_SIZE];
	bc_limit_property_text(criterion->limit->property, name, sizeof name);
	bc_phrase_value(criterion, value, sizeof value);
	bc_phrase_limit(criterion->limit, range, sizeof range);
	bc_phrase_source(criterion->limit, source, sizeof source);
	bc_strings_add(because,
		"Its %s, %s, is outside the customs line of %s: %s. That decides the duty, not the "
		"fuel.",
		name, value, source, range);
}

static void against_if(
	const struct bc_grade *grade, bool out, bool safety, struct bc_strings *because)
{
	for (size_t i = 0; i < grade->n_criteria; i++) {
		const struct bc_criterion *criterion = &grade->criteria[i];
		bool of_safety = criterion->limit->role == BC_ROLE_SAFETY;
		if (bc_limit_counts(criterion->limit, true) &&
			(criterion->state != BC_STATE_WITHIN) && is_out(criterion) == out &&
			of_safety == safety)
			against(criterion, because);
	}
}

void bc_reasons_against(const struct bc_grade *grade, struct bc_strings *because)
{
	against_if(grade, true, true, because);
	against_if(grade, true, false, because);
	against_if(grade, false, true, because);
	against_if(grade, false, false, because);
	for (size_t i = 0; i < grade->n_criteria; i++) {
		const struct bc_criterion *criterion = &grade->criteria[i];
		if (!bc_limit_counts(criterion->limit, true) && is_out(criterion))
			customs_aside(criterion, because);
	}
}

/* ---- what to measure */

static void next_on_curve(const struct bc_criterion *criterion, const struct bc_evidence *evidence,
	struct bc_strings *next)
{
	if (criterion->state == BC_STATE_NOT_MEASURED) {
		bool end = strcmp(criterion->limit->property, "FBP") == 0;
		bc_strings_add_once(next, "%s",
			end ? "Repeat the boil-off and read the final boiling point, unless the "
			      "oil is old or styrenic."
			    : "Repeat the boil-off with more readings, closer to both ends.");
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
	struct bc_strings *next)
{
	const char *property = criterion->limit->property;
	if (strcmp(property, "flash_point") == 0)
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
		next_on_curve(criterion, evidence, next);
}

void bc_next_to_measure(
	const struct bc_grade *grade, const struct bc_evidence *evidence, struct bc_strings *next)
{
	for (size_t i = 0; i < grade->n_criteria; i++) {
		const struct bc_criterion *criterion = &grade->criteria[i];
		if (criterion->limit->role == BC_ROLE_SAFETY && criterion->state != BC_STATE_WITHIN)
			next_for(criterion, evidence, next);
	}
	for (size_t i = 0; i < grade->n_criteria; i++) {
		const struct bc_criterion *criterion = &grade->criteria[i];
		if (bc_limit_counts(criterion->limit, true) && !is_out(criterion) &&
			criterion->limit->role != BC_ROLE_SAFETY &&
			criterion->state != BC_STATE_WITHIN)
			next_for(criterion, evidence, next);
	}
}
