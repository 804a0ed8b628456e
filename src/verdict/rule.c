/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The word of a verdict: usable, re-run, unfit or undecided, and the order of its reasons. */
#include "verdict/rule.h"

#include <string.h>

#include "verdict/reason.h"

const char *bc_word_text(enum bc_word word)
{
	switch (word) {
	case BC_WORD_USABLE:
		return "usable";
	case BC_WORD_RERUN:
		return "re-run";
	case BC_WORD_UNFIT:
		return "unfit";
	case BC_WORD_UNDECIDED:
		break;
	}
	return "undecided";
}

/* An oil too light for road diesel is judged as diesel only when that is asked for. */
static bool eligible(const struct bc_grades *grades, const struct bc_grade *grade,
	enum bc_grade_name want, const char *standard)
{
	if (grade->name == BC_GRADE_COMPARISON || grade->scope != NULL)
		return false;
	if (standard != NULL && strcmp(grade->standard, standard) != 0)
		return false;
	if (want != BC_GRADES && grade->name != want)
		return false;
	bool asked = standard != NULL || want != BC_GRADES;
	return asked || grade->name != BC_GRADE_DIESEL || bc_too_light_for_road(grades) == NULL;
}

/* Ties go to the lighter grade, and within a grade to limits that were seen in print. */
static bool goes_first(const struct bc_grade *a, const struct bc_grade *b)
{
	if (a->name != b->name)
		return a->name < b->name;
	return !a->from_memory && b->from_memory;
}

/* Fewer outside, customs lines among them, then fewer doubtful, then fewer unmeasured. */
static bool nearer(const struct bc_grade *a, const struct bc_grade *b)
{
	if (a->outside + a->lines_missed != b->outside + b->lines_missed)
		return a->outside + a->lines_missed < b->outside + b->lines_missed;
	if (a->doubtful != b->doubtful)
		return a->doubtful < b->doubtful;
	if (a->unmeasured != b->unmeasured)
		return a->unmeasured < b->unmeasured;
	return goes_first(a, b);
}

const struct bc_grade *bc_grade_nearest(
	const struct bc_grades *grades, enum bc_grade_name want, const char *standard)
{
	const struct bc_grade *nearest = NULL;
	for (size_t i = 0; i < grades->n; i++) {
		const struct bc_grade *grade = &grades->items[i];
		if (eligible(grades, grade, want, standard) &&
			(nearest == NULL || nearer(grade, nearest)))
			nearest = grade;
	}
	return nearest;
}

/* The lightest grade that is met and may be called usable; gasoline-range never may. */
static const struct bc_grade *met_grade(
	const struct bc_grades *grades, const struct bc_bearing *bearing)
{
	const struct bc_grade *met = NULL;
	for (size_t i = 0; i < grades->n; i++) {
		const struct bc_grade *grade = &grades->items[i];
		if (eligible(grades, grade, bearing->want, bearing->standard) &&
			grade->state == BC_STATE_WITHIN && grade->name != BC_GRADE_GASOLINE &&
			(met == NULL || goes_first(grade, met)))
			met = grade;
	}
	return met;
}

/* ---- what forbids `usable` whatever the limits say */

static bool is_wet(const struct bc_bearing *bearing)
{
	const struct bc_boiloff *boiloff = bearing->evidence->boiloff;
	return (boiloff != NULL && boiloff->wet) ||
	       (bearing->findings != NULL && bc_findings_has(bearing->findings, "water-shelf"));
}

static bool has_danger(const struct bc_findings *findings)
{
	for (size_t i = 0; findings != NULL && i < findings->n; i++) {
		if (findings->items[i].weight == BC_FINDING_DANGER)
			return true;
	}
	return false;
}

static bool claims_flash(const struct bc_bearing *bearing)
{
	return bearing->evidence->oil != NULL && bearing->evidence->oil->flash_claim;
}

static bool is_rough(const struct bc_bearing *bearing)
{
	return bearing->few_readings || bearing->rough_apparatus;
}

static bool may_be_usable(const struct bc_bearing *bearing)
{
	return claims_flash(bearing) && !is_rough(bearing) && !is_wet(bearing) &&
	       !has_danger(bearing->findings);
}

static void reasons_to_wait(const struct bc_bearing *bearing, struct bc_verdict *verdict)
{
	if (is_wet(bearing)) {
		bc_strings_add(&verdict->because,
			"Water came over: it spoils the low end of the curve and the flash.");
		bc_strings_add(&verdict->next,
			"Let the jar settle, drain and dry the oil, and repeat the boil-off.");
	}
	for (size_t i = 0; bearing->findings != NULL && i < bearing->findings->n; i++) {
		const struct bc_finding *finding = &bearing->findings->items[i];
		if (finding->weight != BC_FINDING_DANGER ||
			strcmp(finding->code, "water-shelf") == 0)
			continue;
		bc_strings_add_once(&verdict->because, "%s", finding->message);
		if (finding->advice != NULL && *finding->advice != '\0')
			bc_strings_add_once(&verdict->next, "%s", finding->advice);
	}
	if (bearing->few_readings) {
		bc_strings_add(&verdict->because,
			"Three or four readings carry no firm answer, whatever the limits say.");
		bc_strings_add(&verdict->next,
			"Repeat the boil-off with a reading every 5 or 10 percent.");
	}
	if (bearing->rough_apparatus) {
		bc_strings_add(&verdict->because,
			"The boil-off was made in a column or a named still and is judged as if in "
			"a plain flask.");
		bc_strings_add(&verdict->next, "Repeat the boil-off in a plain flask.");
	}
}

static void no_claim(const struct bc_bearing *bearing, struct bc_verdict *verdict)
{
	const struct bc_oil *oil = bearing->evidence->oil;
	if (oil == NULL || oil->flash_claim)
		return;
	bc_strings_add(&verdict->because, "Nothing is claimed of its flash%s%s.",
		oil->no_claim_why != NULL ? ": " : "",
		oil->no_claim_why != NULL ? oil->no_claim_why : "");
}

/* ---- the word */

static enum bc_word word_without_grade_met(
	const struct bc_grade *nearest, const struct bc_bearing *bearing)
{
	if (nearest->outside == 0 || is_wet(bearing))
		return BC_WORD_UNDECIDED;
	if (bearing->cut_exists)
		return is_rough(bearing) ? BC_WORD_UNDECIDED : BC_WORD_RERUN;
	for (size_t i = 0; i < nearest->n_criteria; i++) {
		const struct bc_criterion *criterion = &nearest->criteria[i];
		bool out = criterion->hopeless || criterion->state == BC_STATE_OUTSIDE;
		if (out && criterion->limit->role != BC_ROLE_CUSTOMS &&
			bc_limit_counts(criterion->limit, true))
			return BC_WORD_UNFIT;
	}
	return BC_WORD_UNDECIDED;
}

static void next_rerun(const struct bc_bearing *bearing, struct bc_strings *next)
{
	if (bearing->cut_light && bearing->cut_tail)
		bc_strings_add(next,
			"Distil it again: take off the light end into its own jar, turn "
			"to the product, and leave the tail in the pot.");
	else if (bearing->cut_light)
		bc_strings_add(
			next, "Distil it again and take off the light end into its own jar.");
	else if (bearing->cut_tail)
		bc_strings_add(next, "Distil it again and leave the tail in the pot.");
	else
		bc_strings_add(next, "Distil it again at the turns given.");
}

static void gasoline_reason(const struct bc_grade *grade, struct bc_verdict *verdict)
{
	if (grade->name != BC_GRADE_GASOLINE || grade->outside > 0)
		return;
	bc_strings_add(&verdict->because,
		"It boils like a gasoline-range light cut (%s, %s); octane, dienes, gum and "
		"benzene are unknown, so it is never called usable.",
		grade->standard, grade->edition);
	bc_strings_add(&verdict->next, "Keep it as a solvent-like light cut; only a laboratory can "
				       "tell octane, dienes, gum and benzene.");
}

/* Petrol and kerosene are light by nature. */
static void explain_density(const struct bc_grades *grades, struct bc_verdict *verdict)
{
	const struct bc_criterion *light = bc_too_light_for_road(grades);
	if (light != NULL && verdict->grade->name >= BC_GRADE_DIESEL)
		bc_reason_too_light(light, &verdict->because);
}

static void explain_nearest(const struct bc_grades *grades, const struct bc_bearing *bearing,
	struct bc_verdict *verdict)
{
	const struct bc_grade *nearest = verdict->grade;
	reasons_to_wait(bearing, verdict);
	no_claim(bearing, verdict);
	gasoline_reason(nearest, verdict);
	bc_reasons_against(nearest, &verdict->because);
	explain_density(grades, verdict);
	if (nearest->outside == 0)
		bc_next_to_measure(nearest, bearing->evidence, &verdict->next);
	if (nearest->outside > 0 && bearing->cut_exists && !is_wet(bearing))
		next_rerun(bearing, &verdict->next);
	if (verdict->word == BC_WORD_UNFIT)
		bc_strings_add(&verdict->because, "No cut of 3 %% or more mends it.");
	if (verdict->word == BC_WORD_UNDECIDED && nearest->outside > 0 && !bearing->cut_exists &&
		!is_wet(bearing))
		bc_strings_add(&verdict->next, "Only a customs line is missed: ask which duty "
					       "applies before selling or moving it.");
}

static void decide_met(const struct bc_grades *grades, const struct bc_bearing *bearing,
	struct bc_verdict *verdict)
{
	verdict->word = may_be_usable(bearing) ? BC_WORD_USABLE : BC_WORD_UNDECIDED;
	if (verdict->word == BC_WORD_UNDECIDED) {
		reasons_to_wait(bearing, verdict);
		no_claim(bearing, verdict);
	}
	bc_reasons_met(verdict->grade, &verdict->because);
	explain_density(grades, verdict);
}

static void no_candidate(const struct bc_grades *grades, const struct bc_bearing *bearing,
	struct bc_verdict *verdict)
{
	verdict->word = BC_WORD_UNDECIDED;
	verdict->grade = bc_grade_nearest(grades, BC_GRADES, NULL);
	const char *scope = bearing->standard != NULL ? bc_standard_scope(bearing->standard) : NULL;
	if (scope != NULL)
		bc_strings_add(&verdict->because, "%s %s.", bearing->standard, scope);
	else
		bc_strings_add(
			&verdict->because, "No standard of the table answers what was asked for.");
}

enum bc_status bc_verdict_decide(const struct bc_grades *grades, const struct bc_bearing *bearing,
	struct bc_verdict *verdict)
{
	*verdict = (struct bc_verdict){.word = BC_WORD_UNDECIDED};
	bc_strings_init(&verdict->because);
	bc_strings_init(&verdict->next);
	verdict->grade = met_grade(grades, bearing);
	if (verdict->grade != NULL) {
		decide_met(grades, bearing, verdict);
	} else {
		verdict->grade = bc_grade_nearest(grades, bearing->want, bearing->standard);
		if (verdict->grade == NULL) {
			no_candidate(grades, bearing, verdict);
		} else {
			verdict->word = word_without_grade_met(verdict->grade, bearing);
			explain_nearest(grades, bearing, verdict);
		}
	}
	if (verdict->because.failed || verdict->next.failed) {
		bc_verdict_release(verdict);
		return BC_NO_MEMORY;
	}
	return BC_OK;
}

void bc_verdict_release(struct bc_verdict *verdict)
{
	if (verdict == NULL)
		return;
	bc_strings_release(&verdict->because);
	bc_strings_release(&verdict->next);
	*verdict = (struct bc_verdict){.word = BC_WORD_UNDECIDED};
}
