/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Standards held against an oil: the state of each criterion, and of the grade they make up. */
#include "verdict/grade.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "verdict/phrase.h"

/* A criterion is decided at 95 %, the level of ISO 4259. */
#define CHANCE_WITHIN 0.95
#define CHANCE_OUTSIDE 0.05

#define COUNT(array) (sizeof(array) / sizeof *(array))

static const struct {
	const char *item;
	const char *covers;
	const char *test;
	const char *grades;
} other_tests[] = {
#include "other-tests.inc"
};

const char *bc_state_text(enum bc_state state)
{
	switch (state) {
	case BC_STATE_WITHIN:
		return "within";
	case BC_STATE_DOUBTFUL:
		return "doubtful";
	case BC_STATE_OUTSIDE:
		return "outside";
	case BC_STATE_NOT_MEASURED:
		break;
	}
	return "not measured";
}

/* ---- one criterion */

static bool meets_min(double value, const struct bc_limit *limit)
{
	return isnan(limit->min) || (limit->strict ? value > limit->min : value >= limit->min);
}

static bool meets_max(double value, const struct bc_limit *limit)
{
	return isnan(limit->max) || (limit->strict ? value < limit->max : value <= limit->max);
}

bool bc_limit_met(const struct bc_limit *limit, double value)
{
	return meets_min(value, limit) && meets_max(value, limit);
}

/* A measured share by mass is held in mg/kg, its limit may be written in %m/m. */
static struct bc_estimate value_in_unit(
	const struct bc_limit *limit, const struct bc_evidence *evidence)
{
	struct bc_estimate value = bc_evidence_value(evidence, limit->property, limit->basis);
	if (strcmp(limit->unit, "%m/m") == 0) {
		value.value /= 1e4;
		value.low /= 1e4;
		value.high /= 1e4;
	}
	return value;
}

static double chance_within(const struct bc_limit *limit, const struct bc_estimate *value)
{
	bool exact = !(value->high - value->low > 0.0) && !isnan(value->high - value->low);
	if (exact)
		return bc_limit_met(limit, value->value) ? 1.0 : 0.0;
	return bc_estimate_chance_within(value, limit->min, limit->max);
}

static enum bc_state state_of(const struct bc_criterion *criterion)
{
	const struct bc_limit *limit = criterion->limit;
	const struct bc_estimate *value = &criterion->value;
	double chance = criterion->chance_within;
	if (isnan(chance) || value->how == BC_NOT_VALID)
		return BC_STATE_DOUBTFUL;
	if (chance <= CHANCE_OUTSIDE)
		return BC_STATE_OUTSIDE;
	bool within = chance >= CHANCE_WITHIN;
	if (limit->role == BC_ROLE_SAFETY)
		within = within && meets_min(value->low, limit) && meets_max(value->high, limit);
	return within ? BC_STATE_WITHIN : BC_STATE_DOUBTFUL;
}

bool bc_limit_too_light(const struct bc_limit *limit, const struct bc_estimate *density)
{
	if (limit->grade != BC_GRADE_DIESEL || strcmp(limit->property, "density") != 0 ||
		!limit->in_force || !limit->judged || bc_standard_scope(limit->standard) != NULL ||
		!(density->value < limit->min))
		return false;
	struct bc_limit least = *limit;
	least.max = NAN;
	return chance_within(&least, density) <= CHANCE_OUTSIDE;
}

bool bc_grade_usual_density(enum bc_grade_name grade, double *min_kgm3, double *max_kgm3)
{
	bool kerosene = grade == BC_GRADE_KEROSENE;
	bool heavier = grade == BC_GRADE_DIESEL || grade == BC_GRADE_HEATING_OIL;
	*min_kgm3 = kerosene ? 750.0 : 780.0;
	*max_kgm3 = kerosene ? 840.0 : 900.0;
	return kerosene || heavier;
}

static bool claims_nothing(const struct bc_limit *limit, const struct bc_evidence *evidence)
{
	return strcmp(limit->property, "flash_point") == 0 && evidence->oil != NULL &&
	       !evidence->oil->flash_claim;
}

/* From the unit of a part's figure to that of the limit; NaN where it is of another property. Water
 * is part of water and sediment: 1 mg/kg of it fills density/1e7 %. */
static double part_factor(const struct bc_limit *limit, const struct bc_evidence *evidence,
	const struct bc_part_figure *figure)
{
	if (strcmp(figure->property, limit->property) == 0)
		return strcmp(limit->unit, "%m/m") == 0 ? 1e-4 : 1.0;
	if (strcmp(figure->property, "water") == 0 && evidence->oil != NULL &&
		strcmp(limit->property, "water_and_sediment") == 0)
		return evidence->oil->property[BC_DENSITY15].value / 1e7;
	return NAN;
}

/* Takes the figure of a part that breaks the limit. Of what adds up the least is known alone. */
static bool part_breaks(const struct bc_limit *limit, const struct bc_evidence *evidence,
	const struct bc_part_figure *figure, struct bc_criterion *criterion)
{
	double factor = part_factor(limit, evidence, figure);
	double most = (figure->adds_up ? figure->low : figure->high) * factor;
	double least = figure->low * factor;
	bool above = !meets_max(most, limit);
	bool below = !figure->adds_up && !meets_min(least, limit);
	if (isnan(factor) || (!above && !below))
		return false;
	double value = above ? most : least;
	criterion->value = (struct bc_estimate){value, value, figure->adds_up ? (double)NAN : value,
		figure->adds_up ? BC_MEASURED : BC_NOT_VALID};
	criterion->state = figure->adds_up ? BC_STATE_OUTSIDE : BC_STATE_DOUBTFUL;
	criterion->chance_within = figure->adds_up ? 0.0 : (double)NAN;
	criterion->of_part = !figure->adds_up;
	return true;
}

static void hold_parts(const struct bc_evidence *evidence, struct bc_criterion *criterion)
{
	for (size_t i = 0; i < evidence->n_part_figures && criterion->state != BC_STATE_OUTSIDE;
		i++)
		part_breaks(criterion->limit, evidence, &evidence->part_figures[i], criterion);
}

static struct bc_criterion assess_whole(
	const struct bc_limit *limit, const struct bc_evidence *evidence)
{
	struct bc_criterion criterion = {.limit = limit,
		.value = value_in_unit(limit, evidence),
		.state = BC_STATE_NOT_MEASURED,
		.chance_within = NAN};
	if (!bc_estimate_present(&criterion.value))
		return criterion;
	if (claims_nothing(limit, evidence)) {
		criterion.value.low = NAN;
		criterion.hopeless =
			!isnan(criterion.value.high) && !meets_min(criterion.value.high, limit);
		return criterion;
	}
	criterion.chance_within = chance_within(limit, &criterion.value);
	criterion.state = state_of(&criterion);
	return criterion;
}

static struct bc_criterion assess(const struct bc_limit *limit, const struct bc_evidence *evidence)
{
	struct bc_criterion criterion = assess_whole(limit, evidence);
	hold_parts(evidence, &criterion);
	return criterion;
}

/* ---- one standard */

static bool belongs(const struct bc_limit *limit, const char *standard)
{
	return limit->in_force && strcmp(limit->standard, standard) == 0;
}

static void count(struct bc_grade *grade, const struct bc_criterion *criterion)
{
	if (criterion->hopeless || criterion->state == BC_STATE_OUTSIDE)
		grade->outside++;
	else if (criterion->state == BC_STATE_DOUBTFUL)
		grade->doubtful++;
	else if (criterion->state == BC_STATE_NOT_MEASURED)
		grade->unmeasured++;
	grade->chance_all_within *= criterion->hopeless ? 0.0 : criterion->chance_within;
}

/* What is outside rests on memory only when no limit that was seen in print is missed too; what is
 * met or open rests on every limit. */
static bool rests_on_memory(const struct bc_grade *grade)
{
	bool any = false;
	for (size_t i = 0; i < grade->n_criteria; i++) {
		const struct bc_criterion *criterion = &grade->criteria[i];
		bool memory = criterion->limit->seen == BC_SEEN_MEMORY;
		bool out = criterion->hopeless || criterion->state == BC_STATE_OUTSIDE;
		if (!bc_limit_counts(criterion->limit, true) || (grade->outside > 0 && !out))
			continue;
		if (grade->outside > 0 && !memory)
			return false;
		any = any || memory;
	}
	return any;
}

static enum bc_state grade_state(const struct bc_grade *grade)
{
	if (grade->outside > 0)
		return BC_STATE_OUTSIDE;
	if (grade->doubtful > 0)
		return BC_STATE_DOUBTFUL;
	if (grade->unmeasured > 0)
		return BC_STATE_NOT_MEASURED;
	return grade->scope == NULL ? BC_STATE_WITHIN : BC_STATE_DOUBTFUL;
}

static void name_standard(struct bc_grade *grade, const struct bc_limit *limit)
{
	grade->name = limit->grade;
	grade->standard = limit->standard;
	grade->edition = limit->edition;
	grade->scope = bc_standard_scope(limit->standard);
}

static bool is_unmendable(const struct bc_criterion *criterion)
{
	return criterion->limit->role == BC_ROLE_OTHER_TEST &&
	       criterion->state == BC_STATE_OUTSIDE &&
	       !bc_limit_follows_boiling(criterion->limit->property);
}

/* From the states of the criteria to that of the grade. */
static void add_up(struct bc_grade *grade)
{
	bool counts = false;
	grade->outside = grade->doubtful = grade->unmeasured = grade->lines_missed = 0;
	grade->chance_all_within = 1.0;
	grade->unmendable = NULL;
	for (size_t i = 0; i < grade->n_criteria; i++) {
		const struct bc_criterion *criterion = &grade->criteria[i];
		if (grade->unmendable == NULL && is_unmendable(criterion))
			grade->unmendable = criterion;
		if (bc_limit_counts(criterion->limit, true)) {
			counts = true;
			count(grade, criterion);
		} else if (criterion->state == BC_STATE_OUTSIDE) {
			grade->lines_missed++;
		}
	}
	if (!counts)
		grade->chance_all_within = NAN;
	grade->state = counts ? grade_state(grade) : BC_STATE_NOT_MEASURED;
	grade->from_memory = rests_on_memory(grade);
}

enum bc_status bc_standard_assess(const struct bc_limits *limits, const char *standard,
	const struct bc_evidence *evidence, struct bc_grade *grade, struct bc_criterion *room,
	size_t room_n)
{
	*grade = (struct bc_grade){.criteria = room};
	for (size_t i = 0; i < limits->n; i++) {
		const struct bc_limit *limit = &limits->items[i];
		if (!belongs(limit, standard))
			continue;
		if (grade->standard == NULL)
			name_standard(grade, limit);
		struct bc_criterion criterion = assess(limit, evidence);
		if (limit->role == BC_ROLE_OTHER_TEST && criterion.state == BC_STATE_NOT_MEASURED)
			continue;
		if (grade->n_criteria == room_n)
			return BC_BAD_DOMAIN;
		room[grade->n_criteria] = criterion;
		grade->n_criteria++;
	}
	if (grade->standard == NULL)
		return BC_NOT_FOUND;
	add_up(grade);
	return BC_OK;
}

void bc_grade_settle(struct bc_grade *grade, double chance_all_within)
{
	for (size_t i = 0; i < grade->n_criteria; i++) {
		struct bc_criterion *criterion = &grade->criteria[i];
		if (criterion->state != BC_STATE_NOT_MEASURED)
			criterion->state = state_of(criterion);
	}
	add_up(grade);
	grade->chance_all_within = chance_all_within;
}

/* ---- what is left to other tests */

/* Whether word stands in a list of words parted by blanks. */
static bool listed(const char *list, const char *word)
{
	size_t n = strlen(word);
	for (const char *at = list; (at = strstr(at, word)) != NULL; at += n) {
		bool starts = at == list || at[-1] == ' ';
		if (starts && (at[n] == ' ' || at[n] == '\0'))
			return true;
	}
	return false;
}

static const struct bc_measured *find_measured(
	const struct bc_evidence *evidence, const char *property)
{
	return evidence->sample != NULL ? bc_sample_measured(evidence->sample, property) : NULL;
}

/* Water alone was measured and held against a limit of water and sediment. */
static bool lacks_sediment(
	const struct bc_limit *limit, const struct bc_evidence *evidence, const char *covers)
{
	return strcmp(limit->property, "water_and_sediment") == 0 && !listed(covers, "water") &&
	       find_measured(evidence, "water") != NULL &&
	       find_measured(evidence, limit->property) == NULL;
}

/* A line of the standard's own stands for the item, or the figure was measured and judged. */
static bool covered(const struct bc_limits *limits, const struct bc_evidence *evidence,
	const char *standard, const char *covers)
{
	for (size_t i = 0; i < limits->n; i++) {
		const struct bc_limit *limit = &limits->items[i];
		if (belongs(limit, standard) && limit->role == BC_ROLE_OTHER_TEST &&
			listed(covers, limit->property) && !lacks_sediment(limit, evidence, covers))
			return true;
	}
	return false;
}

static bool standard_limits(
	const struct bc_limits *limits, const char *standard, const char *property)
{
	for (size_t i = 0; i < limits->n; i++) {
		if (belongs(&limits->items[i], standard) &&
			strcmp(limits->items[i].property, property) == 0)
			return true;
	}
	return false;
}

/* Flash and viscosity reach the oil itself, and its curve goes with them. */
static bool stays_unjudged(
	const struct bc_limits *limits, const char *standard, const char *property)
{
	if (strcmp(property, "flash_point") == 0 || strcmp(property, "kin_viscosity") == 0 ||
		bc_limit_property_unit(property) == NULL)
		return false;
	if (strcmp(property, "water") == 0 &&
		standard_limits(limits, standard, "water_and_sediment"))
		return false;
	return !standard_limits(limits, standard, property);
}

static void list_unlimited(
	const struct bc_limits *limits, const struct bc_evidence *evidence, struct bc_grade *grade)
{
	const struct bc_sample *sample = evidence->sample;
	for (size_t i = 0; sample != NULL && i < sample->n_measured; i++) {
		const struct bc_measured *measured = &sample->measured[i];
		if (!stays_unjudged(limits, grade->standard, measured->property))
			continue;
		const char *unit = bc_limit_property_unit(measured->property);
		char name[BC_PHRASE_SIZE];
		bc_limit_property_text(measured->property, name, sizeof name);
		bool bare = strcmp(unit, "-") == 0 || strcmp(unit, "class") == 0;
		bc_strings_add_once(&grade->measured_unlimited, "%s %g%s%s", name, measured->value,
			bare ? "" : " ", bare ? "" : unit);
	}
}

/* A generic item; what was measured and not judged is said. */
static void list_generic(const struct bc_evidence *evidence, const char *item, const char *covers,
	const char *test, struct bc_strings *list)
{
	const struct bc_sample *sample = evidence->sample;
	for (size_t i = 0; sample != NULL && i < sample->n_measured; i++) {
		if (listed(covers, sample->measured[i].property)) {
			bc_strings_add_once(
				list, "%s (measured; this standard sets no limit)", item);
			return;
		}
	}
	bc_strings_add_once(list, "%s (%s)", item, test);
}

static void list_other_tests(
	const struct bc_limits *limits, const struct bc_evidence *evidence, struct bc_grade *grade)
{
	if (grade->scope != NULL)
		bc_strings_add(&grade->not_measured, "scope: %s", grade->scope);
	for (size_t i = 0; i < limits->n; i++) {
		const struct bc_limit *limit = &limits->items[i];
		if (!belongs(limit, grade->standard) || limit->role != BC_ROLE_OTHER_TEST)
			continue;
		struct bc_estimate value =
			bc_evidence_value(evidence, limit->property, limit->basis);
		if (bc_estimate_present(&value))
			continue;
		char name[BC_PHRASE_SIZE];
		char range[BC_PHRASE_SIZE];
		bc_limit_property_text(limit->property, name, sizeof name);
		bc_phrase_limit(limit, range, sizeof range);
		bc_strings_add_once(
			&grade->not_measured, "%s: %s (%s)", name, range, limit->method);
		grade->n_own_tests++;
	}
	for (size_t i = 0; i < COUNT(other_tests); i++) {
		bool asked = strcmp(other_tests[i].grades, "all") == 0 ||
			     strcmp(other_tests[i].grades, bc_grade_texts[grade->name]) == 0;
		if (asked && !covered(limits, evidence, grade->standard, other_tests[i].covers))
			list_generic(evidence, other_tests[i].item, other_tests[i].covers,
				other_tests[i].test, &grade->not_measured);
	}
	list_unlimited(limits, evidence, grade);
}

/* ---- all standards */

/* A variant that is not judged by default waits until its name or its grade is asked for. */
static bool takes_part(const struct bc_limit *limit, const struct bc_evidence *evidence)
{
	const char *standard = evidence->asked_standard;
	const char *grade_text = evidence->asked_grade;
	if (limit->judged || (standard != NULL && strcmp(limit->standard, standard) == 0))
		return true;
	return grade_text != NULL && strcmp(bc_grade_texts[limit->grade], grade_text) == 0;
}

static bool opens_standard(
	const struct bc_limits *limits, size_t i, const struct bc_evidence *evidence)
{
	return takes_part(&limits->items[i], evidence) && bc_limits_first_of_standard(limits, i);
}

/* The part of the table that holds the standard, whose first row is the i-th. */
static struct bc_limits part_of(const struct bc_limits *limits, size_t i)
{
	size_t last = i;
	for (size_t j = i + 1; j < limits->n; j++) {
		if (belongs(&limits->items[j], limits->items[i].standard))
			last = j;
	}
	return (struct bc_limits){limits->items + i, last - i + 1};
}

static enum bc_status assess_in_full(
	const struct bc_limits *part, const struct bc_evidence *evidence, struct bc_grade *grade)
{
	const char *standard = part->items[0].standard;
	struct bc_criterion *room = bc_alloc_array(part->n, sizeof *room);
	if (room == NULL)
		return BC_NO_MEMORY;
	enum bc_status status = bc_standard_assess(part, standard, evidence, grade, room, part->n);
	list_other_tests(part, evidence, grade);
	if (status == BC_OK && (grade->not_measured.failed || grade->measured_unlimited.failed))
		status = BC_NO_MEMORY;
	return status;
}

enum bc_status bc_grades_assess(const struct bc_limits *limits, const struct bc_evidence *evidence,
	struct bc_grades *grades)
{
	*grades = (struct bc_grades){0};
	size_t standards = 0;
	for (size_t i = 0; i < limits->n; i++)
		standards += opens_standard(limits, i, evidence) ? 1 : 0;
	if (standards == 0)
		return BC_OK;
	grades->items = bc_alloc_array(standards, sizeof *grades->items);
	if (grades->items == NULL)
		return BC_NO_MEMORY;
	enum bc_status status = BC_OK;
	for (size_t i = 0; i < limits->n && status == BC_OK; i++) {
		if (!opens_standard(limits, i, evidence))
			continue;
		struct bc_limits part = part_of(limits, i);
		status = assess_in_full(&part, evidence, &grades->items[grades->n++]);
	}
	if (status != BC_OK)
		bc_grades_release(grades);
	return status;
}

void bc_grades_release(struct bc_grades *grades)
{
	if (grades == NULL)
		return;
	for (size_t i = 0; i < grades->n; i++) {
		bc_free(grades->items[i].criteria);
		bc_strings_release(&grades->items[i].not_measured);
		bc_strings_release(&grades->items[i].measured_unlimited);
	}
	bc_free(grades->items);
	*grades = (struct bc_grades){0};
}
