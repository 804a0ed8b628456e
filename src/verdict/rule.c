/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The word of a verdict: usable, re-run, unfit or undecided, and the order of its reasons. */
#include "verdict/rule.h"

#include <math.h>
#include <string.h>

#include "base/text.h"
#include "verdict/phrase.h"
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
	if (!bc_standard_asked_for(grade->name, grade->standard, want, standard))
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

static bool keeps_flash(const struct bc_grade *grade)
{
	for (size_t i = 0; i < grade->n_criteria; i++) {
		const struct bc_criterion *criterion = &grade->criteria[i];
		if (criterion->limit->role == BC_ROLE_SAFETY &&
			strcmp(criterion->limit->property, "flash_point") == 0 &&
			criterion->state == BC_STATE_WITHIN)
			return true;
	}
	return false;
}

/* Of two grades that are met: the one with a flash limit, then the one that misses no customs line,
 * then the lighter. */
static bool better_met(const struct bc_grade *a, const struct bc_grade *b)
{
	if (keeps_flash(a) != keeps_flash(b))
		return keeps_flash(a);
	if ((a->lines_missed == 0) != (b->lines_missed == 0))
		return a->lines_missed == 0;
	return goes_first(a, b);
}

/* The grade that is met and may be called usable; gasoline-range never may. */
static const struct bc_grade *met_grade(
	const struct bc_grades *grades, const struct bc_bearing *bearing)
{
	const struct bc_grade *met = NULL;
	for (size_t i = 0; i < grades->n; i++) {
		const struct bc_grade *grade = &grades->items[i];
		if (eligible(grades, grade, bearing->want, bearing->standard) &&
			grade->state == BC_STATE_WITHIN && grade->name != BC_GRADE_GASOLINE &&
			(met == NULL || better_met(grade, met)))
			met = grade;
	}
	return met;
}

/* ---- what forbids `usable` or a re-run whatever the limits say */

static bool is_wet(const struct bc_bearing *bearing)
{
	return bearing->evidence->oil != NULL && bearing->evidence->oil->wet;
}

static bool forbid_usable(const struct bc_findings *findings)
{
	for (size_t i = 0; findings != NULL && i < findings->n; i++) {
		if (findings->items[i].forbids_usable)
			return true;
	}
	return false;
}

static bool forbid_rerun(const struct bc_findings *findings)
{
	for (size_t i = 0; findings != NULL && i < findings->n; i++) {
		if (findings->items[i].forbids_rerun)
			return true;
	}
	return false;
}

static bool is_flash_dispute(const struct bc_finding *finding, const struct bc_bearing *bearing)
{
	const struct bc_oil *oil = bearing->evidence->oil;
	if (strcmp(finding->code, "flash-open-cup-lower") == 0)
		return oil != NULL && oil->flash_open_disputed;
	return strcmp(finding->code, "flash-measured-low") == 0 ||
	       strcmp(finding->code, "flash-measured-high") == 0;
}

/* The measured flash and the curve contradict each other: then no cut is claimed. */
static bool disputes_flash(const struct bc_bearing *bearing)
{
	const struct bc_findings *findings = bearing->findings;
	for (size_t i = 0; findings != NULL && i < findings->n; i++) {
		if (is_flash_dispute(&findings->items[i], bearing))
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
	return bearing->few_readings || bearing->rough_apparatus || bearing->guessed_still ||
	       bearing->tbp;
}

static bool may_be_usable(const struct bc_bearing *bearing)
{
	return claims_flash(bearing) && !bearing->petrol_like && !is_rough(bearing) &&
	       !is_wet(bearing) && !forbid_usable(bearing->findings);
}

bool bc_bearing_may_cut(const struct bc_bearing *bearing)
{
	return bearing->cut_exists && !is_wet(bearing) && !forbid_rerun(bearing->findings) &&
	       !disputes_flash(bearing);
}

static bool cuts_gasoline(const struct bc_bearing *bearing)
{
	return bearing->want == BC_GRADE_GASOLINE ||
	       (bearing->product != NULL && bearing->product->name == BC_GRADE_GASOLINE);
}

static void finding_to_wait(const struct bc_finding *finding, const struct bc_bearing *bearing,
	struct bc_verdict *verdict)
{
	bool dispute = is_flash_dispute(finding, bearing);
	bool of_water = is_wet(bearing) && strcmp(finding->code, "water-shelf") == 0;
	if ((!finding->forbids_usable && !finding->forbids_rerun && !dispute) || of_water)
		return;
	bc_strings_add_once(&verdict->because, "%s", finding->message);
	/* what to do about light ends is to distil again */
	bool asks_rerun = strcmp(finding->code, "light-ends") == 0;
	if (asks_rerun && (forbid_rerun(bearing->findings) || disputes_flash(bearing)))
		return;
	if (finding->advice != NULL && *finding->advice != '\0')
		bc_strings_add_once(&verdict->next, "%s", finding->advice);
	else if (dispute)
		bc_strings_add_once(&verdict->next,
			"Air it or take off its top, then have the flash measured again.");
}

static void reasons_to_wait(const struct bc_bearing *bearing, struct bc_verdict *verdict)
{
	if (is_wet(bearing)) {
		bc_strings_add(&verdict->because,
			"There is water in it: that spoils the low end of the curve and the "
			"flash.");
		bc_strings_add(&verdict->next,
			"Let the jar settle, drain and dry the oil, and repeat the boil-off.");
	}
	for (size_t i = 0; bearing->findings != NULL && i < bearing->findings->n; i++)
		finding_to_wait(&bearing->findings->items[i], bearing, verdict);
	if (bearing->few_readings) {
		bc_strings_add(&verdict->because,
			"Three or four readings carry no firm answer, whatever the limits say.");
		bc_strings_add(&verdict->next,
			"Repeat the boil-off with a reading every 5 or 10 percent.");
	}
	if (bearing->rough_apparatus)
		bc_strings_add(&verdict->because,
			"The boil-off was made in a column or a named still and is judged as if in "
			"a plain flask.");
	if (bearing->guessed_still) {
		bc_strings_add(&verdict->because,
			"How well the still separates that made this boil-off is a guess: it was "
			"never calibrated.");
		bc_strings_add(&verdict->next,
			"Repeat the boil-off in a plain flask, or calibrate the still first.");
	}
	if (bearing->tbp)
		bc_strings_add(&verdict->because,
			"The readings are true boiling points from a column; the limits are those "
			"of a plain flask, and the conversion between them is not sure enough.");
	if (bearing->rough_apparatus || bearing->tbp)
		bc_strings_add(&verdict->next, "Repeat the boil-off in a plain flask.");
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

static bool is_out(const struct bc_criterion *criterion)
{
	return bc_limit_counts(criterion->limit, true) &&
	       (criterion->hopeless || criterion->state == BC_STATE_OUTSIDE);
}

/* What is outside is no more than a customs line. */
static bool only_duty_is_missed(const struct bc_grade *grade)
{
	for (size_t i = 0; i < grade->n_criteria; i++) {
		if (is_out(&grade->criteria[i]) &&
			grade->criteria[i].limit->role != BC_ROLE_CUSTOMS)
			return false;
	}
	return grade->outside > 0;
}

static enum bc_word word_without_grade_met(
	const struct bc_grade *nearest, const struct bc_bearing *bearing)
{
	if (nearest->outside == 0 || is_wet(bearing) || is_rough(bearing) ||
		disputes_flash(bearing))
		return BC_WORD_UNDECIDED;
	if (bc_bearing_may_cut(bearing))
		return cuts_gasoline(bearing) ? BC_WORD_UNDECIDED : BC_WORD_RERUN;
	return only_duty_is_missed(nearest) || bearing->cut_unknown ? BC_WORD_UNDECIDED
								    : BC_WORD_UNFIT;
}

/* How sure the product is of the limits that a cut was fitted to by plain value. */
static void product_odds(const struct bc_grade *product, struct bc_strings *next)
{
	const double even = 0.6; /* below it "at even odds" */
	struct bc_text list;
	bc_text_init(&list);
	for (size_t i = 0; i < product->n_criteria; i++) {
		const struct bc_criterion *criterion = &product->criteria[i];
		char name[BC_PHRASE_SIZE];
		if (!bc_limit_counts(criterion->limit, true) ||
			criterion->limit->role == BC_ROLE_SAFETY ||
			criterion->state != BC_STATE_DOUBTFUL || isnan(criterion->chance_within))
			continue;
		bc_limit_property_text(criterion->limit->property, name, sizeof name);
		bc_text_printf(&list, "%s%s ", list.data == NULL ? "" : ", ", name);
		if (criterion->chance_within < even)
			bc_text_append(&list, "at even odds");
		else
			bc_text_printf(&list, "%.0f %%", 100.0 * criterion->chance_within);
	}
	if (list.data != NULL)
		bc_strings_add(next,
			"Boil off the product again before it is used: it is within %s only so "
			"likely: %s.",
			product->standard, list.data);
	next->failed = next->failed || list.failed;
	bc_text_release(&list);
}

static void next_rerun(const struct bc_bearing *bearing, struct bc_strings *next)
{
	const double poor_pct = 30.0; /* common practice */
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
	if (bearing->product_pct > 0.0 && bearing->product_pct < poor_pct)
		bc_strings_add(next,
			"Only %.0f %% of the charge would become product: hardly worth the heat.",
			bearing->product_pct);
	if (bearing->product != NULL)
		product_odds(bearing->product, next);
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

static void explain_unfit(const struct bc_grade *nearest, const struct bc_bearing *bearing,
	struct bc_strings *because)
{
	char name[BC_PHRASE_SIZE];
	if (forbid_rerun(bearing->findings)) {
		bc_strings_add(because, "It may not be distilled again as it stands.");
	} else if (nearest->unmendable != NULL) {
		bc_limit_property_text(nearest->unmendable->limit->property, name, sizeof name);
		bc_strings_add(
			because, "No cut mends its %s, which does not go by boiling point.", name);
	} else if (bearing->better_standard != NULL) {
		bc_strings_add(because, "No cut of 3 %% or more on %s mends it.",
			bearing->still != NULL ? bearing->still : "this still");
	} else {
		bc_strings_add(because, "No cut of 3 %% or more mends it.");
	}
}

/* The word goes by the still that there is. */
static void next_better_still(const struct bc_bearing *bearing, struct bc_strings *next)
{
	if (bearing->cut_exists || bearing->better_standard == NULL)
		return;
	bc_strings_add(next,
		"A better still would do it, with more plates, more reflux or under vacuum: cut "
		"perfectly, %.0f %% of it would meet %s.",
		bearing->better_pct, bearing->better_standard);
}

/* Water goes by drying, not by a cut. */
static void next_drying(const struct bc_grade *grade, struct bc_strings *next)
{
	for (size_t i = 0; i < grade->n_criteria; i++) {
		if (is_out(&grade->criteria[i]) &&
			strncmp(grade->criteria[i].limit->property, "water", strlen("water")) == 0)
			bc_strings_add_once(next, "Settle, drain and dry it first, then have the "
						  "water measured again.");
	}
}

static void explain_nearest(const struct bc_grades *grades, const struct bc_bearing *bearing,
	struct bc_verdict *verdict)
{
	const struct bc_grade *nearest = verdict->grade;
	reasons_to_wait(bearing, verdict);
	if (!bc_reasons_tell_flash(nearest))
		no_claim(bearing, verdict);
	gasoline_reason(nearest, verdict);
	next_drying(nearest, &verdict->next);
	bc_reasons_against(nearest, bearing->evidence, &verdict->because);
	explain_density(grades, verdict);
	if (nearest->outside == 0)
		bc_next_to_measure(nearest, bearing->evidence, bearing->findings, &verdict->next);
	else if (bc_bearing_may_cut(bearing) && !cuts_gasoline(bearing))
		next_rerun(bearing, &verdict->next);
	if (nearest->outside > 0)
		next_better_still(bearing, &verdict->next);
	if (bearing->cut_unknown)
		bc_strings_add(&verdict->because,
			"The still could not be simulated with this oil: no cut is claimed.");
	if (verdict->word == BC_WORD_UNFIT)
		explain_unfit(nearest, bearing, &verdict->because);
	if (verdict->word == BC_WORD_UNDECIDED && only_duty_is_missed(nearest) &&
		!bearing->cut_exists && !is_wet(bearing))
		bc_strings_add(&verdict->next, "Only a customs line is missed: ask which duty "
					       "applies before selling or moving it.");
}

static void decide_met(const struct bc_grades *grades, const struct bc_bearing *bearing,
	struct bc_verdict *verdict)
{
	bool flash = keeps_flash(verdict->grade);
	verdict->word = may_be_usable(bearing) && flash ? BC_WORD_USABLE : BC_WORD_UNDECIDED;
	if (verdict->word == BC_WORD_UNDECIDED) {
		reasons_to_wait(bearing, verdict);
		no_claim(bearing, verdict);
	}
	if (!flash) {
		bc_strings_add(&verdict->because,
			"%s sets no flash limit here, and without one nothing is called usable.",
			verdict->grade->standard);
		bc_strings_add(
			&verdict->next, "Hold it against a standard that limits the flash point.");
	} else if (bearing->petrol_like) {
		bc_strings_add(&verdict->because,
			"Its vapour may light at room temperature: it is treated as petrol.");
	}
	bc_reasons_met(verdict->grade, bearing->evidence, &verdict->because);
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
