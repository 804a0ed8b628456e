/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The turns of the tap as a page: first what a hand at the still must do, then what comes of it. */
#include "report/tap.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "report/page.h"
#include "report/tap_page.h"

bool bc_tap_answers(const struct bc_tapping *tapping)
{
	return tapping->has_want && tapping->feasible;
}

bool bc_tap_has_steps(const struct bc_tapping *tapping)
{
	return tapping->n_jars > 0 && (!tapping->has_want || bc_tap_answers(tapping));
}

static bool is_light(const struct bc_jar *jar) { return strcmp(jar->name, "light") == 0; }

bool bc_jar_is_product(const struct bc_jar *jar)
{
	return strncmp(jar->name, "product", strlen("product")) == 0;
}

void bc_tap_amount(double ml, struct bc_text *line)
{
	if (ml >= 10000.0)
		bc_text_printf(line, "%.1f L", ml / 1000.0);
	else if (ml >= 1000.0)
		bc_text_printf(line, "%.2f L", ml / 1000.0);
	else
		bc_text_printf(line, "%.0f mL", ml);
}

void bc_tap_paragraph(struct bc_page *page, struct bc_text *line, const char *first, size_t indent)
{
	if (line->data != NULL)
		bc_page_paragraph(page, line->data, first, indent);
	page->text->failed = page->text->failed || line->failed;
	bc_text_release(line);
}

/* ---- which oil, which still */

static void still_words(const struct bc_tapping *tapping, struct bc_text *line)
{
	const struct bc_still *still = &tapping->request.still;
	const struct bc_column *column = &still->column;
	bc_text_append(line, "Still");
	if (still->name[0] != '\0')
		bc_text_printf(line, " %s", still->name);
	if (!isnan(column->effective_plates)) {
		bc_text_printf(line, ": %.3g effective plates", column->effective_plates);
		if (still->plates_high > 0.0)
			bc_text_printf(
				line, " (%.3g to %.3g)", still->plates_low, still->plates_high);
		bc_text_printf(line, ", %s", bc_still_source_texts[still->source]);
	} else {
		double above = column->stages - 1.0;
		bc_text_printf(line, ": %.0f plate%s + pot", above, above == 1.0 ? "" : "s");
		if (above > 0.0 && isinf(column->reflux))
			bc_text_append(line, ", total reflux");
		else if (above > 0.0)
			bc_text_printf(line, ", reflux %.3g", column->reflux);
	}
	bc_text_printf(line, "; carry-over %.3g %% of the charge; %.1f kPa", still->carry_pct,
		tapping->pressure_kpa);
	if (!isnan(tapping->request.vacuum_kpa))
		bc_text_append(line, " (vacuum)");
	bc_text_append(line, "; charge ");
	bc_tap_amount(tapping->request.charge_ml, line);
	if (isnan(tapping->request.heater_w))
		bc_text_append(line, ".");
	else
		bc_text_printf(line, "; heater %.3g kW.", tapping->request.heater_w / 1000.0);
}

static void aim_words(const struct bc_tapping *tapping, struct bc_text *line)
{
	if (tapping->has_want && tapping->want != BC_GRADES)
		bc_text_printf(line, "For %s%s%s", bc_grade_texts[tapping->want],
			tapping->standard != NULL ? ": " : "",
			tapping->standard != NULL ? tapping->standard : "");
	else
		bc_text_append(line, tapping->request.split && tapping->request.n_cuts == 0
					     ? "Cut at the customary ranges"
					     : "Cut where it was asked");
}

void bc_page_tap_still(struct bc_page *page, const struct bc_tapping *tapping)
{
	struct bc_text aim;
	struct bc_text still;
	bc_text_init(&aim);
	bc_text_init(&still);
	aim_words(tapping, &aim);
	bc_text_append(&aim, ".");
	still_words(tapping, &still);
	bc_tap_paragraph(page, &aim, "", 0);
	bc_tap_paragraph(page, &still, "", 0);
}

/* ---- the card */

/* The light jar's end: nothing may be taken too early, so the later reading counts. */
static void later_words(const struct bc_jar *jar, struct bc_text *line)
{
	if (!isnan(jar->to_reading_c)) {
		bc_text_printf(
			line, "until your thermometer shows %.0f degC or ", jar->to_reading_c);
		bc_tap_amount(jar->over_ml, line);
		bc_text_append(line, " are over, whichever is LATER");
	} else {
		bc_text_append(line, "until ");
		bc_tap_amount(jar->over_ml, line);
		bc_text_append(line, " are over");
	}
}

/* Any other end: the first sign counts. */
static void first_words(
	const struct bc_tapping *tapping, const struct bc_jar *jar, struct bc_text *line)
{
	bool head = !isnan(jar->to_reading_c);
	if (head)
		bc_text_printf(line, "until your thermometer shows %.0f degC, ", jar->to_reading_c);
	else
		bc_text_append(line, "until ");
	bc_tap_amount(jar->over_ml, line);
	bc_text_printf(line, " are over%s or the pot stands at %.0f degC, whichever is FIRST",
		head ? " in all" : "", tapping->pot_limit_c);
	if (jar->pot_to_c > tapping->pot_limit_c + 0.5)
		bc_text_printf(
			line, " (the figures below go on to %.0f degC in the pot)", jar->pot_to_c);
}

static void card_line(struct bc_page *page, const struct bc_tapping *tapping,
	const struct bc_jar *jar, unsigned number)
{
	struct bc_text line;
	char first[16];
	bc_text_init(&line);
	snprintf(first, sizeof first, "  %u. ", number);
	for (const char *c = jar->name; *c != '\0'; c++)
		bc_text_printf(&line, "%c", *c >= 'a' && *c <= 'z' ? *c - 'a' + 'A' : *c);
	bc_text_append(&line, " jar ");
	if (jar->takes_pot)
		bc_text_append(&line, "is all that is left, with what stays in the pot: a figure "
				      "on paper, never distilled to dryness");
	else if (is_light(jar))
		later_words(jar, &line);
	else
		first_words(tapping, jar, &line);
	bc_text_append(&line, ".");
	bc_page_ink(page, BC_INK_STRONG);
	bc_tap_paragraph(page, &line, first, 5);
	bc_page_ink_off(page);
}

void bc_tap_above_usual(const struct bc_tapping *tapping, struct bc_text *line)
{
	if (tapping->pot_limit_c > tapping->usual_limit_c)
		bc_text_printf(line,
			" Above %.0f degC, the usual limit, the oil cracks, gas goes into the jar, "
			"and no flash is claimed.",
			tapping->usual_limit_c);
}

static void heat_off_line(struct bc_page *page, const struct bc_tapping *tapping, unsigned number)
{
	struct bc_text line;
	char first[16];
	bc_text_init(&line);
	snprintf(first, sizeof first, "  %u. ", number);
	bc_text_append(&line, "HEAT OFF, at the latest when the pot stands at ");
	bc_text_printf(&line, "%.0f degC.", tapping->pot_limit_c);
	bc_tap_above_usual(tapping, &line);
	bc_text_append(&line, " ");
	if (tapping->pot.volume_ml >= 0.5) {
		bc_text_append(&line, "About ");
		bc_tap_amount(tapping->pot.volume_ml, &line);
		bc_text_append(&line, " stay in the pot. ");
	}
	bc_text_append(&line, "Never to dryness; open, drain or top up only below 60 degC.");
	bc_page_ink(page, BC_INK_STRONG);
	bc_tap_paragraph(page, &line, first, 5);
	bc_page_ink_off(page);
}

void bc_page_tap_no_cut(struct bc_page *page, const struct bc_tapping *tapping)
{
	struct bc_text line;
	if (!tapping->has_want || bc_tap_answers(tapping))
		return;
	bc_text_init(&line);
	bc_text_printf(&line, "NO CUT of this oil on this still gives %s%s%s.",
		tapping->want != BC_GRADES ? bc_grade_texts[tapping->want] : "it",
		tapping->standard != NULL ? ", " : "",
		tapping->standard != NULL ? tapping->standard : "");
	bc_text_append(page->text, "\n");
	bc_page_ink(page, BC_INK_BAD);
	bc_tap_paragraph(page, &line, "", 0);
	bc_page_ink_off(page);
	bc_page_list(page, "What stops it", NULL, &tapping->binding);
}

void bc_page_tap_forbidden(struct bc_page *page, const struct bc_tapping *tapping)
{
	if (!tapping->forbidden || !bc_tap_has_steps(tapping))
		return;
	bc_text_append(page->text, "\n");
	bc_page_box_edge(page);
	bc_page_box_line(page, "DANGER - NOT TO BE DISTILLED AS IT IS", true);
	for (size_t i = 0; i < tapping->binding.n; i++)
		bc_page_box_line(page, tapping->binding.items[i], true);
	bc_page_box_line(page,
		"What follows is the run that was asked for; nothing can be promised of it.",
		false);
	bc_page_box_edge(page);
}

void bc_page_tap_turns(struct bc_page *page, const struct bc_tapping *tapping)
{
	bool light = false;
	unsigned number = 0;
	bc_page_tap_no_cut(page, tapping);
	bc_page_tap_forbidden(page, tapping);
	if (!bc_tap_has_steps(tapping))
		return;
	bc_page_heading(page, "AT THE TAP", "readings of your own thermometer, at this pressure");
	for (size_t i = 0; i < tapping->n_jars; i++)
		light = light || (is_light(&tapping->jars[i]) && !tapping->jars[i].empty);
	if (!light)
		bc_page_printf(page, "  No light jar: the first drop goes into the next one.\n");
	for (size_t i = 0; i < tapping->n_jars; i++) {
		if (!tapping->jars[i].empty)
			card_line(page, tapping, &tapping->jars[i], ++number);
	}
	heat_off_line(page, tapping, number + 1);
}

/* One paragraph: a page should be read to its end. */
static void assumed(struct bc_page *page, const struct bc_strings *strings)
{
	struct bc_text all;
	if (strings->n == 0)
		return;
	bc_text_init(&all);
	for (size_t i = 0; i < strings->n; i++)
		bc_text_printf(&all, "%s%s", i > 0 ? "; " : "", strings->items[i]);
	bc_text_append(&all, ".");
	bc_page_heading(page, "Assumed", NULL);
	bc_tap_paragraph(page, &all, NULL, 2);
}

/* Where there is nothing to do at the tap, the turns are not told by a table either. */
static void figures(struct bc_page *page, const struct bc_tapping *tapping)
{
	bool steps = bc_tap_has_steps(tapping);
	if (tapping->forbidden && !steps)
		return;
	if (steps) {
		bc_page_tap_run(page, tapping);
		bc_page_tap_jars(page, tapping);
	}
	bc_page_tap_product(page, tapping);
	bc_page_tap_good_for(page, tapping);
	if (steps)
		bc_page_tap_heat(page, tapping);
	bc_page_tap_choices(page, tapping);
	bc_page_tap_choice(page, tapping);
}

static void write_page(struct bc_page *page, const struct bc_tapping *tapping)
{
	bc_page_head(page, &tapping->feed);
	bc_text_append(page->text, "\n");
	bc_page_tap_still(page, tapping);
	bc_page_tap_turns(page, tapping);
	bc_page_danger_box(page, &tapping->feed);
	figures(page, tapping);
	if (bc_tap_answers(tapping))
		bc_page_list(page, "What stops a larger product", NULL, &tapping->binding);
	bc_page_list(page, "Worth knowing", NULL, &tapping->advice);
	assumed(page, &tapping->assumed);
	bc_page_list(page, "Cautions", NULL, &tapping->cautions);
}

enum bc_status bc_report_tap_text(
	const struct bc_tapping *tapping, const struct bc_page_style *style, struct bc_text *text)
{
	struct bc_page page = {.text = text, .style = style};
	write_page(&page, tapping);
	return text->failed ? BC_NO_MEMORY : BC_OK;
}

enum bc_status bc_report_tap_page(const struct bc_tapping *tapping, struct bc_text *html)
{
	static const struct bc_page_style style = {.colour = false};
	const struct bc_sample *sample = tapping->sample;
	struct bc_page page = {.text = html, .style = &style};
	struct bc_page_html open;
	bc_page_html_open(
		&page, &open, &bc_html_page, sample->name != NULL ? sample->name : sample->file);
	write_page(&page, tapping);
	bc_page_html_close(&page);
	return html->failed ? BC_NO_MEMORY : BC_OK;
}
