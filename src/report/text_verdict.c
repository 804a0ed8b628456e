/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The top of the page: which oil, the word and why, what to do, and what is dangerous. */
#include <math.h>
#include <string.h>

#include "curve/cracking.h"
#include "report/page.h"
#include "verdict/phrase.h"

static void detail(struct bc_text *line, const char *label, const char *value)
{
	if (value == NULL || value[0] == '\0')
		return;
	if (line->length > 0)
		bc_text_append(line, ", ");
	bc_text_append(line, label);
	bc_text_append(line, value);
}

void bc_page_head(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_sample *sample = judgement->sample;
	struct bc_text line;
	bc_text_init(&line);

	bc_page_title(page, sample->name != NULL ? sample->name : sample->file);
	if (sample->name != NULL)
		detail(&line, "", sample->file);
	detail(&line, "", sample->date);
	detail(&line, "feed ", sample->feed);
	detail(&line, "history ", bc_history_text(sample->history));
	if (line.data != NULL)
		bc_page_paragraph(page, line.data, "", 0);
	if (sample->note != NULL)
		bc_page_paragraph(page, sample->note, "Note: ", 6);
	page->text->failed = page->text->failed || line.failed;
	bc_text_release(&line);
}

static enum bc_ink word_ink(enum bc_word word)
{
	switch (word) {
	case BC_WORD_USABLE:
		return BC_INK_GOOD;
	case BC_WORD_UNFIT:
		return BC_INK_BAD;
	case BC_WORD_RERUN:
	case BC_WORD_UNDECIDED:
		break;
	}
	return BC_INK_DOUBT;
}

static const char *word_meaning(const struct bc_judgement *judgement)
{
	switch (judgement->verdict.word) {
	case BC_WORD_USABLE:
		return "as";
	case BC_WORD_RERUN:
		return "distil it again; nearest is";
	case BC_WORD_UNFIT:
		return judgement->rerun.standard == NULL && judgement->perfect.standard != NULL
			       ? "no cut on this still mends it; nearest is"
			       : "no cut mends it; nearest is";
	case BC_WORD_UNDECIDED:
		break;
	}
	return "not settled; nearest is";
}

static void word_line(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_verdict *verdict = &judgement->verdict;
	const struct bc_grade *grade = verdict->grade;
	struct bc_text line;
	bc_text_init(&line);
	bc_text_append(&line, word_meaning(judgement));
	if (grade == NULL)
		bc_text_append(&line, " no grade");
	else
		bc_text_printf(&line, " %s: %s, %s", bc_grade_texts[grade->name], grade->standard,
			grade->edition);
	bc_page_word(page, "VERDICT", bc_word_text(verdict->word), word_ink(verdict->word));
	if (line.data != NULL)
		bc_page_paragraph(page, line.data, NULL, 2);
	page->text->failed = page->text->failed || line.failed;
	bc_text_release(&line);
}

/* The end of the product jar: where the tail begins, or where the pot begins to crack the oil. */
static void stop_words(const struct bc_judgement *judgement, struct bc_text *line)
{
	double until_c = judgement->rerun.product_until_reading_c;
	double limit_c = bc_reading_from_corrected(&judgement->conditions, BC_HEAD_LIMIT_C);
	if (until_c <= limit_c)
		bc_text_printf(line, "Stop the product at %.0f degC", until_c);
	else
		bc_text_printf(line, "Stop at %.0f degC or when the flow ends", limit_c);
	bc_text_printf(line, ", at the latest when the pot reaches %.0f degC; never to dryness.",
		judgement->rerun_pot_limit_c);
}

/* What a hand at the tap needs, in two sentences. */
static void tap_line(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_cut *cut = &judgement->rerun;
	enum bc_word word = judgement->verdict.word;
	struct bc_text line;
	if (!judgement->has_rerun || (word != BC_WORD_RERUN && word != BC_WORD_UNDECIDED))
		return;
	bc_text_init(&line);
	bool settled = word == BC_WORD_RERUN;
	bc_text_append(&line, settled ? "" : "If it is distilled again: ");
	double left_pct = 100.0;
	if (isnan(cut->light_until_reading_c)) {
		bc_text_printf(&line, "%s light jar, product from the first drop: about ",
			settled ? "No" : "no");
	} else {
		bc_text_printf(&line,
			"%s jars when your thermometer shows %.0f degC: about %.0f %% light, ",
			settled ? "Change" : "change", cut->light_until_reading_c, cut->light_pct);
		left_pct -= round(cut->light_pct);
	}
	/* rounded so that the jars add up */
	bool tail = cut->tail_pct >= 0.5;
	double product_pct = tail ? round(cut->product_pct) : left_pct;
	bc_text_printf(&line, "%.0f %% product", product_pct);
	if (tail && left_pct - product_pct >= 0.5)
		bc_text_printf(&line, ", %.0f %% tail and pot", left_pct - product_pct);
	bc_text_printf(&line, " (on %s). ", cut->basis != NULL ? cut->basis : "this still");
	stop_words(judgement, &line);
	bc_page_ink(page, BC_INK_STRONG);
	if (line.data != NULL)
		bc_page_paragraph(page, line.data, NULL, 2);
	bc_page_ink_off(page);
	page->text->failed = page->text->failed || line.failed;
	bc_text_release(&line);
}

/* Which input stands behind the doubt that decides, and what to measure against it. */
static void doubt_line(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_doubt *doubt = judgement->spread ? &judgement->spread->doubt : NULL;
	char name[BC_PHRASE_SIZE];
	struct bc_text line;
	if (doubt == NULL || doubt->criterion == NULL)
		return;
	bc_text_init(&line);
	bc_limit_property_text(doubt->criterion->limit->property, name, sizeof name);
	bc_text_printf(&line, "The %s is in doubt, most of all by %s (%.0f %%)", name,
		bc_cause_words[doubt->causes[0].input], 100.0 * doubt->causes[0].share);
	if (doubt->n > 1 && doubt->causes[1].share >= 0.2)
		bc_text_printf(&line, " and %s (%.0f %%)", bc_cause_words[doubt->causes[1].input],
			100.0 * doubt->causes[1].share);
	bc_text_printf(&line, ". What would settle it: %s.", doubt->measure_next);
	if (line.data != NULL)
		bc_page_paragraph(page, line.data, "  ? ", 4);
	page->text->failed = page->text->failed || line.failed;
	bc_text_release(&line);
}

void bc_page_verdict(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_verdict *verdict = &judgement->verdict;
	bc_text_append(page->text, "\n");
	word_line(page, judgement);
	tap_line(page, judgement);
	if (verdict->grade != NULL && verdict->grade->from_memory)
		bc_page_paragraph(page,
			"This standard's deciding limits are written down from memory; look them "
			"up in print before relying on them.",
			NULL, 2);
	if (verdict->because.n > 0)
		bc_page_heading(page, "Because", NULL);
	for (size_t i = 0; i < verdict->because.n; i++)
		bc_page_paragraph(page, verdict->because.items[i], "  - ", 4);
	doubt_line(page, judgement);
	if (verdict->next.n > 0)
		bc_page_heading(page, "What to do next", NULL);
	for (size_t i = 0; i < verdict->next.n; i++)
		bc_page_paragraph(page, verdict->next.items[i], "  > ", 4);
}

/* What the flash says of it; at the site's own pressure it is lower than at sea level. */
static void flash_sentence(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_oil *oil = &judgement->oil;
	struct bc_text why;
	bc_text_init(&why);
	if (!oil->flash_claim)
		bc_text_printf(&why, "Nothing can be claimed of its flash point%s%s.",
			oil->no_claim_why != NULL ? ": " : "",
			oil->no_claim_why != NULL ? oil->no_claim_why : "");
	else if (!isnan(oil->property[BC_FLASH].low))
		bc_text_printf(&why, "Its flash point may be as low as %.0f degC",
			floor(oil->property[BC_FLASH].low));
	if (oil->flash_claim && why.length > 0) {
		if (bc_page_site_flash(judgement) && !isnan(oil->flash_low_at_site_c))
			bc_text_printf(&why,
				" at sea level, %.0f degC at the %.1f kPa of this site",
				floor(oil->flash_low_at_site_c),
				judgement->conditions.pressure_kpa);
		bc_text_append(&why, ".");
	}
	if (why.length > 0)
		bc_page_box_line(page, why.data, false);
	page->text->failed = page->text->failed || why.failed;
	bc_text_release(&why);
}

static bool has_danger(const struct bc_findings *findings)
{
	for (size_t i = 0; i < findings->n; i++) {
		if (findings->items[i].weight == BC_FINDING_DANGER)
			return true;
	}
	return false;
}

void bc_page_danger_box(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_findings *findings = &judgement->findings;
	bool petrol = judgement->hazards.petrol_like;
	if (!petrol && !has_danger(findings))
		return;
	bc_text_append(page->text, "\n");
	bc_page_box_edge(page);
	bc_page_box_line(page, petrol ? "DANGER - TREAT THIS JAR AS PETROL" : "DANGER", true);
	if (petrol) {
		bc_page_box_line(page, "", false);
		flash_sentence(page, judgement);
		bc_page_box_line(page,
			"Its vapour can light at room temperature from a spark, a pilot flame or a "
			"motor. Open it only outdoors, away from every flame and switch. Keep it "
			"closed, in metal, cool and away from living rooms. Never pour it into a "
			"stove, lamp, heater or engine as it is.",
			false);
	}
	for (size_t i = 0; i < findings->n; i++) {
		const struct bc_finding *finding = &findings->items[i];
		if (finding->weight != BC_FINDING_DANGER)
			continue;
		bc_page_box_line(page, "", false);
		bc_page_box_line(page, finding->message, true);
		if (finding->advice != NULL && finding->advice[0] != '\0')
			bc_page_box_line(page, finding->advice, false);
	}
	bc_page_box_edge(page);
}

static bool same_basis(const struct bc_hazards *hazards)
{
	for (size_t i = 0; i < hazards->n; i++) {
		const char *from = hazards->items[i].from;
		if (from == NULL || strcmp(from, hazards->items[0].from) != 0)
			return false;
	}
	return true;
}

/* The plain words without the clauses of the regulation, which stand in the JSON: a last pair of
 * brackets that names them. */
static void plain_message(const char *message, struct bc_text *line)
{
	const char *open = strrchr(message, '(');
	const char *end = open != NULL ? strchr(open, ')') : NULL;
	bool clause = end != NULL && open > message && open[-1] == ' ' &&
		      (end[1] == '\0' || end[1] == ';') &&
		      (strcspn(open, "0123456789") < (size_t)(end - open) ||
			      strncmp(open, "(all ", 5) == 0);
	if (!clause) {
		bc_text_append(line, message);
		return;
	}
	bc_text_append_n(line, message, (size_t)(open - 1 - message));
	bc_text_append(line, end + 1);
}

/* A class that the oil is not in needs no words of warning. */
static void hazard_row(struct bc_page *page, const struct bc_hazard *hazard, bool with_basis)
{
	static const char not_in[] = "not ";
	struct bc_text line;
	bc_text_init(&line);
	bc_text_printf(&line, "%s: %s", hazard->scheme, hazard->class_name);
	if (with_basis && hazard->from != NULL)
		bc_text_printf(&line, " (%s)", hazard->from);
	if (hazard->message != NULL && strncmp(hazard->class_name, not_in, strlen(not_in)) != 0) {
		bc_text_append(&line, "; ");
		plain_message(hazard->message, &line);
	}
	if (line.data != NULL)
		bc_page_paragraph(page, line.data, "  - ", 4);
	page->text->failed = page->text->failed || line.failed;
	bc_text_release(&line);
}

void bc_page_danger(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_hazards *hazards = &judgement->hazards;
	bc_page_danger_box(page, judgement);
	if (hazards->n == 0)
		return;
	bool once = same_basis(hazards);
	bc_page_heading(page, "Fire hazard of this jar", NULL);
	if (once)
		bc_page_paragraph(page, hazards->items[0].from, "  By ", 5);
	for (size_t i = 0; i < hazards->n; i++)
		hazard_row(page, &hazards->items[i], !once);
}
