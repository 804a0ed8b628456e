/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The limits: the nearest grade criterion by criterion, the others in a line each, the re-run. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "curve/cracking.h"
#include "report/page.h"
#include "verdict/phrase.h"

/* The name of what is limited, short enough for a column; a point is on percent evaporated where
 * the standard has it so. */
static void criterion_name(const struct bc_limit *limit, char *name, size_t size)
{
	static const char share[] = "share ";
	bc_limit_property_text(limit->property, name, size);
	if (strncmp(name, share, strlen(share)) == 0)
		memmove(name, name + strlen(share), strlen(name + strlen(share)) + 1);
	size_t used = strlen(name);
	if (strcmp(limit->basis, "evaporated") == 0 && strstr(name, " point") != NULL)
		snprintf(name + used, size - used, ", evaporated");
}

static void criterion_row(struct bc_page *page, const struct bc_criterion *criterion)
{
	char name[BC_PHRASE_SIZE];
	char limit[BC_PHRASE_SIZE];
	int decimals = bc_page_decimals(criterion->value.value, criterion->limit->unit);
	criterion_name(criterion->limit, name, sizeof name);
	bc_phrase_limit(criterion->limit, limit, sizeof limit);
	bc_page_row(page, 2);
	bc_page_cell(page, name, 22);
	bc_page_gap(page, 1);
	bc_page_cell(page, limit, 17);
	bc_page_gap(page, 1);
	bc_page_number(page, criterion->value.value, decimals, 6);
	bc_page_gap(page, 2);
	/* the longest state with its mark needs the column more than the span does */
	bool tight = criterion->state == BC_STATE_NOT_MEASURED &&
		     criterion->limit->seen == BC_SEEN_MEMORY;
	bc_page_span(page, criterion->value.low, criterion->value.high, decimals, tight ? 14 : 15);
	bc_page_gap(page, 1);
	bc_page_ink(page, bc_page_state_ink(criterion->state));
	bc_page_cell(page, bc_state_text(criterion->state), 0);
	bc_page_ink_off(page);
	bool memory = criterion->limit->seen == BC_SEEN_MEMORY;
	bool customs = criterion->limit->role == BC_ROLE_CUSTOMS;
	if (memory || customs || page->html != NULL)
		bc_page_printf(page, "%s%s", memory ? " m" : "", customs ? " c" : "");
	bc_page_row_end(page);
}

static void criterion_footnotes(struct bc_page *page, const struct bc_grade *grade)
{
	bool memory = false;
	bool customs = false;
	for (size_t i = 0; i < grade->n_criteria; i++) {
		memory = memory || grade->criteria[i].limit->seen == BC_SEEN_MEMORY;
		customs = customs || grade->criteria[i].limit->role == BC_ROLE_CUSTOMS;
	}
	if (memory)
		bc_page_printf(page, "  m  limit from memory; look it up in print\n");
	if (customs)
		bc_page_printf(
			page, "  c  customs line: decides the duty, never makes an oil unfit\n");
	if (!isnan(grade->chance_all_within))
		bc_page_printf(page,
			"  Chance that all that counts here is within together: %.0f %%\n",
			100.0 * grade->chance_all_within);
}

void bc_page_criteria(struct bc_page *page, const struct bc_grade *grade)
{
	bc_page_table(page, "", "limited|limit|value|95 %|state|");
	for (size_t i = 0; i < grade->n_criteria; i++)
		criterion_row(page, &grade->criteria[i]);
	bc_page_table_end(page);
	criterion_footnotes(page, grade);
}

void bc_page_nearest(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_grade *grade = judgement->verdict.grade;
	if (grade == NULL)
		return;
	struct bc_text title;
	bc_text_init(&title);
	bc_text_printf(
		&title, "%s: %s, %s", bc_grade_texts[grade->name], grade->standard, grade->edition);
	bc_page_heading(page,
		judgement->verdict.word == BC_WORD_USABLE ? "The grade it meets"
							  : "The nearest grade, limit by limit",
		NULL);
	if (title.data != NULL)
		bc_page_paragraph(page, title.data, NULL, 2);
	page->text->failed = page->text->failed || title.failed;
	bc_text_release(&title);
	if (grade->scope != NULL)
		bc_page_paragraph(page, grade->scope, NULL, 2);
	bc_page_criteria(page, grade);
}

static bool other(const struct bc_judgement *judgement, size_t i, enum bc_grade_name name)
{
	const struct bc_grade *grade = &judgement->grades.items[i];
	return grade != judgement->verdict.grade && grade->name == name;
}

static size_t count_others(
	const struct bc_judgement *judgement, enum bc_grade_name name, enum bc_state state)
{
	size_t n = 0;
	for (size_t i = 0; i < judgement->grades.n; i++)
		n += other(judgement, i, name) && judgement->grades.items[i].state == state;
	return n;
}

static void standard_words(const struct bc_grade *grade, struct bc_text *line)
{
	bc_text_printf(line, "%s%s", grade->standard, grade->scope != NULL ? " (*)" : "");
	if (grade->state == BC_STATE_DOUBTFUL && grade->doubtful > 0)
		bc_text_printf(line, " (%zu in doubt)", grade->doubtful);
}

static const char *separator(const struct bc_text *line) { return line->length > 0 ? "; " : ""; }

/* "doubtful: ASTM D975 No. 2-D (1 in doubt)" */
static void state_words(const struct bc_judgement *judgement, enum bc_grade_name name,
	enum bc_state state, struct bc_text *line)
{
	bool any = false;
	for (size_t i = 0; i < judgement->grades.n; i++) {
		if (!other(judgement, i, name) || judgement->grades.items[i].state != state)
			continue;
		if (any)
			bc_text_append(line, ", ");
		else
			bc_text_printf(line, "%s%s: ", separator(line), bc_state_text(state));
		standard_words(&judgement->grades.items[i], line);
		any = true;
	}
}

/* All of one grade in one paragraph; those that say no are counted, since the JSON has them limit
 * by limit. */
static void grade_rows(
	struct bc_page *page, const struct bc_judgement *judgement, enum bc_grade_name name)
{
	struct bc_text line;
	char lead[32];
	size_t n = 0;
	for (size_t i = 0; i < judgement->grades.n; i++)
		n += other(judgement, i, name);
	if (n == 0)
		return;
	size_t outside = count_others(judgement, name, BC_STATE_OUTSIDE);
	bool nearest = judgement->verdict.grade != NULL && judgement->verdict.grade->name == name;
	bc_text_init(&line);
	state_words(judgement, name, BC_STATE_WITHIN, &line);
	state_words(judgement, name, BC_STATE_DOUBTFUL, &line);
	state_words(judgement, name, BC_STATE_NOT_MEASURED, &line);
	if (name == BC_GRADE_COMPARISON || outside == 1)
		state_words(judgement, name, BC_STATE_OUTSIDE, &line);
	else if (outside > 0)
		bc_text_printf(&line, "%soutside by %s%zu %s", separator(&line),
			outside == n && !nearest ? "all " : "", outside,
			outside == n && !nearest ? "standards" : "others");
	snprintf(lead, sizeof lead, "  %-19s", bc_grade_texts[name]);
	if (line.data != NULL)
		bc_page_paragraph(page, line.data, lead, 21);
	page->text->failed = page->text->failed || line.failed;
	bc_text_release(&line);
}

/* Whether the list above names a standard that has a scope. */
static bool scope_shown(const struct bc_judgement *judgement, size_t i)
{
	const struct bc_grade *grade = &judgement->grades.items[i];
	return grade->scope != NULL && grade != judgement->verdict.grade &&
	       (grade->state != BC_STATE_OUTSIDE ||
		       count_others(judgement, grade->name, BC_STATE_OUTSIDE) == 1);
}

/* Each scope once, below the list. */
static void scope_notes(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_grades *grades = &judgement->grades;
	for (size_t i = 0; i < grades->n; i++) {
		const char *scope = grades->items[i].scope;
		bool said = !scope_shown(judgement, i);
		for (size_t j = 0; j < i && !said; j++)
			said = scope_shown(judgement, j) &&
			       strcmp(grades->items[j].scope, scope) == 0;
		if (!said)
			bc_page_paragraph(page, scope, "  (*) ", 6);
	}
}

void bc_page_other_grades(struct bc_page *page, const struct bc_judgement *judgement)
{
	bc_page_heading(page, "Other grades", "comparison: shown, never in a verdict");
	for (int name = 0; name < BC_GRADES; name++)
		grade_rows(page, judgement, (enum bc_grade_name)name);
	scope_notes(page, judgement);
}

static void jar_row(
	struct bc_page *page, const char *jar, double pct, double until_c, double reading_c)
{
	bc_page_row(page, 2);
	bc_page_printf(page, "%-16s", jar);
	if (pct < 0.1)
		bc_page_printf(page, "%9s", "< 0.1");
	else
		bc_page_number(page, pct, 1, 9);
	bc_page_number(page, until_c, 0, 20);
	bc_page_number(page, reading_c, 0, 23);
	bc_page_row_end(page);
}

static void product_row(
	struct bc_page *page, const char *name, const struct bc_estimate *value, const char *unit)
{
	if (isnan(value->value))
		return;
	int decimals = bc_page_decimals(value->value, unit);
	bc_page_row(page, 4);
	bc_page_cell(page, name, 22);
	bool holds = value->how != BC_NOT_VALID;
	bc_page_number(page, holds ? value->value : (double)NAN, decimals, 8);
	bc_page_printf(page, " %-6s ", unit);
	if (holds)
		bc_page_span(page, value->low, value->high, decimals, 0);
	else
		bc_page_cell(page, "the method does not hold for it", 0);
	bc_page_row_end(page);
}

static void product_rows(struct bc_page *page, const struct bc_cut *cut)
{
	const struct bc_points *points = &cut->product_points;
	bc_page_printf(page, "  The product jar would be:\n");
	bc_page_table(page, "", "property|value|unit|95 %");
	product_row(page, "flash, closed cup", &cut->product.property[BC_FLASH], "degC");
	product_row(page, "10 % point", &points->at[BC_AT_T10], "degC");
	product_row(page, "50 % point", &points->at[BC_AT_T50], "degC");
	product_row(page, "90 % point", &points->at[BC_AT_T90], "degC");
	product_row(page, "95 % point", &points->at[BC_AT_T95], "degC");
	product_row(page, "density at 15 degC", &cut->product.property[BC_DENSITY15], "kg/m3");
	product_row(page, "cetane index", &cut->product.property[BC_CETANE_INDEX], "");
	bc_page_table_end(page);
}

/* What the still leaves to be had. */
static void perfect_line(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_cut *perfect = &judgement->perfect;
	struct bc_text line;
	if (perfect->standard == NULL)
		return;
	bc_text_init(&line);
	bc_text_printf(&line, "A %s%s would give %.0f %% ", perfect->basis,
		strchr(perfect->basis, ',') != NULL ? "," : "", perfect->product_pct);
	if (isnan(perfect->light_until_reading_c))
		bc_text_append(&line, "product from the first drop");
	else
		bc_text_printf(&line, "product after %.0f %% light", perfect->light_pct);
	bc_text_printf(&line,
		", until this thermometer shows %.0f degC. 'boilcut tap' plans the run "
		"on your own still.",
		perfect->product_until_reading_c);
	if (line.data != NULL)
		bc_page_paragraph(page, line.data, NULL, 2);
	page->text->failed = page->text->failed || line.failed;
	bc_text_release(&line);
}

void bc_page_rerun(struct bc_page *page, const struct bc_judgement *judgement)
{
	if (!judgement->has_rerun)
		return;
	const struct bc_cut *cut = &judgement->rerun;
	struct bc_text line;
	bc_text_init(&line);
	bc_page_heading(page, "If it is distilled again", NULL);
	bc_text_printf(&line, "Towards %s (%s), on %s.", bc_grade_texts[cut->grade],
		cut->standard != NULL ? cut->standard : "", cut->basis != NULL ? cut->basis : "");
	if (line.data != NULL)
		bc_page_paragraph(page, line.data, NULL, 2);
	page->text->failed = page->text->failed || line.failed;
	bc_text_release(&line);
	char head[100];
	snprintf(head, sizeof head, "  %-16s%9s%20s%23s\n", "", "share, %", "full at, degC",
		"shown here, degC");
	bc_page_table(page, head, "jar|share, %|full at, degC|shown here, degC");
	if (!isnan(cut->light_until_c))
		jar_row(page, "light jar", cut->light_pct, cut->light_until_c,
			cut->light_until_reading_c);
	jar_row(page, "product jar", cut->product_pct, cut->product_until_c,
		cut->product_until_reading_c);
	if (cut->tail_pct >= 0.05)
		jar_row(page, "tail and pot", cut->tail_pct, NAN, NAN);
	bc_page_table_end(page);
	if (isnan(cut->product_until_c))
		bc_page_printf(page,
			"  No tail: the product runs until the flow ends; stop at %.0f degC shown "
			"here.\n",
			bc_reading_from_corrected(&judgement->conditions, BC_HEAD_LIMIT_C));
	bc_page_paragraph(page,
		"Full at: the corrected temperature at which the tap is turned; shown here: what "
		"this thermometer reads then, at this pressure.",
		NULL, 2);
	product_rows(page, cut);
	perfect_line(page, judgement);
}
