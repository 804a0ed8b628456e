/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A mixture as a page for a person. */
#include <math.h>
#include <string.h>

#include "report/mix.h"
#include "report/page.h"
#include "report/svg_mix.h"
#include "report/tap_page.h"
#include "verdict/phrase.h"

const char *bc_mix_part_name(const struct bc_mixing *mixing, size_t i)
{
	const char *file = mixing->parts[i].oil->sample->file;
	const char *slash = strrchr(file, '/');
	return slash != NULL ? slash + 1 : file;
}

double bc_mix_flash_limit_c(const struct bc_mixing *mixing)
{
	const struct bc_grades *grades = &mixing->mix.grades;
	const struct bc_grade *grade = mixing->mix.verdict.grade;
	for (size_t i = 0; mixing->share.standard != NULL && i < grades->n; i++)
		if (strcmp(grades->items[i].standard, mixing->share.standard) == 0)
			grade = &grades->items[i];
	for (size_t i = 0; grade != NULL && i < grade->n_criteria; i++) {
		const struct bc_limit *limit = grade->criteria[i].limit;
		if (strcmp(limit->property, "flash_point") == 0)
			return limit->min;
	}
	return NAN;
}

/* ---- how much may go in */

/* Three digits, never more than may go in. */
static double rounded_down(double value)
{
	if (!(value > 0.0))
		return value;
	double step = pow(10.0, floor(log10(value)) - 2.0);
	return step * floor(value / step * (1.0 + 1e-12));
}

static void breaking_words(const struct bc_mix_share *share, struct bc_text *line)
{
	struct bc_criterion criterion = {.limit = share->limit, .value = share->value};
	char name[BC_PHRASE_SIZE];
	char limit[BC_PHRASE_SIZE];
	char value[BC_PHRASE_SIZE];
	char source[BC_PHRASE_SIZE];
	bc_limit_property_text(share->limit->property, name, sizeof name);
	bc_phrase_limit(share->limit, limit, sizeof limit);
	bc_phrase_source(share->limit, source, sizeof source);
	bc_text_printf(line, "%s, %s by %s", name, limit, source);
	if (!bc_estimate_present(&share->value)) {
		bc_text_append(line, ", is not known there");
		return;
	}
	bc_phrase_value(&criterion, value, sizeof value);
	if (share->limit->role == BC_ROLE_OTHER_TEST && share->value.how == BC_NOT_VALID)
		bc_text_printf(line, ": a part has %s, and it does not add up", value);
	else if (share->value.how == BC_NOT_VALID)
		bc_text_printf(line, ": %s by a method that does not hold there", value);
	else
		bc_text_printf(
			line, ": %s %s", value, share->share_pct > 0.0 ? "there" : "is reached");
}

/* The limits are kept, and the word is another: what keeps it back. */
static void end_answer(const struct bc_mixing *mixing, struct bc_text *line)
{
	const struct bc_verdict *verdict = &mixing->mix.verdict;
	if (!(mixing->share.share_pct > 0.0) || verdict->word == BC_WORD_USABLE) {
		bc_text_append(line, ".");
		return;
	}
	bc_text_printf(line, ", by its limits; the verdict below is %s%s%s",
		bc_word_text(verdict->word), verdict->because.n > 0 ? ": " : ".",
		verdict->because.n > 0 ? verdict->because.items[0] : "");
}

static void answer_words(const struct bc_mixing *mixing, struct bc_text *line)
{
	const struct bc_mix_share *share = &mixing->share;
	const char *name = bc_mix_part_name(mixing, share->part);
	if (!share->base_meets)
		bc_text_printf(line,
			"NONE of '%s': what it would be poured into does not itself meet %s", name,
			share->standard != NULL ? share->standard : "what is wanted");
	else if (!(share->share_pct > 0.0))
		bc_text_printf(line, "NONE of '%s' may go in", name);
	else if (share->unlimited)
		bc_text_printf(line, "ANY SHARE of '%s' may go in: it meets %s by itself", name,
			share->standard);
	else if (isnan(share->volume_l))
		bc_text_printf(line, "UP TO %.3g %% of '%s' may go in, for %s",
			rounded_down(share->share_pct), name, share->standard);
	else
		bc_text_printf(line,
			"UP TO %.3g L of '%s' may go in (%.3g %% of the mixture), for %s",
			rounded_down(share->volume_l), name, rounded_down(share->share_pct),
			share->standard);
	end_answer(mixing, line);
}

static void page_answer(struct bc_page *page, const struct bc_mixing *mixing)
{
	const struct bc_mix_share *share = &mixing->share;
	struct bc_text line;
	if (!share->asked)
		return;
	bc_text_init(&line);
	bc_text_append(page->text, "\n");
	answer_words(mixing, &line);
	bc_page_ink(page, share->share_pct > 0.0 ? BC_INK_STRONG : BC_INK_BAD);
	bc_tap_paragraph(page, &line, NULL, 0);
	bc_page_ink_off(page);
	bc_text_init(&line);
	if (share->why != NULL)
		bc_text_printf(&line, "Because %s.", share->why);
	else if (share->limit != NULL) {
		bc_text_append(
			&line, share->base_meets ? "What breaks first: " : "What is missed: ");
		breaking_words(share, &line);
		bc_text_append(&line, ".");
	}
	bc_tap_paragraph(page, &line, NULL, 2);
	bc_page_paragraph(page,
		"Counted as kept: the flash by its low bound, everything else by its plain value. "
		"It is the first share that breaks a limit, counted from none upwards.",
		NULL, 2);
	const char *below = share->unlimited ? "Below: half and half."
					     : "Below: the mixture with just so much.";
	bc_page_paragraph(page,
		share->share_pct > 0.0 ? below : "Below: the others alone, without it.", NULL, 2);
}

/* ---- what is in it */

static bool has_history(const struct bc_mixing *mixing, enum bc_history history)
{
	for (size_t i = 0; i < mixing->n; i++)
		if (mixing->parts[i].volume_pct > 0.0 &&
			mixing->parts[i].oil->sample->history == history)
			return true;
	return false;
}

/* "aired and rerun", where the record of the mixture has the worst alone. */
static void history_words(const struct bc_mixing *mixing, struct bc_text *line)
{
	static const enum bc_history histories[] = {
		BC_HISTORY_RETORT, BC_HISTORY_AIRED, BC_HISTORY_RERUN, BC_HISTORY_UNKNOWN};
	size_t n = 0;
	for (size_t i = 0; i < sizeof histories / sizeof histories[0]; i++) {
		if (!has_history(mixing, histories[i]) ||
			(n == 0 && histories[i] == BC_HISTORY_UNKNOWN))
			continue;
		bc_text_printf(line, "%s%s", n++ == 0 ? ", history " : " and ",
			histories[i] == BC_HISTORY_UNKNOWN ? "not given"
							   : bc_history_text(histories[i]));
	}
}

static void page_head(struct bc_page *page, const struct bc_mixing *mixing)
{
	const struct bc_sample *sample = mixing->mix.sample;
	struct bc_text line;
	bc_text_init(&line);
	bc_page_title(page, sample->name);
	bc_text_append(&line, sample->file);
	if (sample->feed != NULL)
		bc_text_printf(&line, ", feed %s", sample->feed);
	history_words(mixing, &line);
	bc_tap_paragraph(page, &line, NULL, 0);
}

static void part_row(struct bc_page *page, const struct bc_mixing *mixing, size_t i)
{
	const struct bc_mix_part *part = &mixing->parts[i];
	const struct bc_estimate *flash = &part->oil->oil.property[BC_FLASH];
	bc_page_row(page, 2);
	bc_page_cell(page, bc_mix_part_name(mixing, i), 24);
	bc_page_number(page, part->volume_l, 3, 9);
	bc_page_number(page, part->mass_kg, 3, 9);
	bc_page_number(page, part->volume_pct, 2, 9);
	bc_page_number(page, part->vapour_pct, 1, 9);
	bc_page_number(page, flash->value, 0, 7);
	bc_page_number(page, floor(flash->low), 0, 7);
	if (part->flash_measured)
		bc_page_cell(page, " m", 0);
	bc_page_row_end(page);
}

static void page_parts(struct bc_page *page, const struct bc_mixing *mixing)
{
	bool any = false;
	bc_page_heading(
		page, "What is in it", "litres at 15 degC; flash degC, low bound beside it");
	char head[100];
	snprintf(head, sizeof head, "  %-24s%9s%9s%9s%9s%7s%7s\n", "", "L", "kg", "vol %",
		"vapour %", "flash", "low");
	bc_page_table(page, head, "part|L|kg|vol %|vapour %|flash|low");
	for (size_t i = 0; i < mixing->n; i++) {
		part_row(page, mixing, i);
		any = any || mixing->parts[i].flash_measured;
	}
	bc_page_row(page, 2);
	bc_page_cell(page, "together", 24);
	bc_page_number(page, mixing->volume_l, 3, 9);
	bc_page_number(page, mixing->mass_kg, 3, 9);
	bc_page_number(page, 100.0, 2, 9);
	bc_page_number(page, 100.0, 1, 9);
	bc_page_number(page, mixing->mix.oil.property[BC_FLASH].value, 0, 7);
	bc_page_number(page, floor(mixing->mix.oil.property[BC_FLASH].low), 0, 7);
	bc_page_row_end(page);
	bc_page_table_end(page);
	bc_page_paragraph(page,
		"Vapour %: what each brings of the vapour that takes fire at the flash point.",
		NULL, 2);
	if (any)
		bc_page_paragraph(page, "m: measured closed cup.", NULL, 2);
}

static void page_index(struct bc_page *page, const struct bc_mixing *mixing)
{
	const struct bc_estimate *flash = &mixing->mix.oil.property[BC_FLASH];
	struct bc_text line;
	if (isnan(mixing->flash_index_c))
		return;
	bc_text_init(&line);
	bc_text_printf(&line,
		"By the blending index of Wickey and Chittenden, volume by volume on the flash "
		"of the parts, it would be %.0f degC; the vapour over the slices says %.0f.",
		mixing->flash_index_c, flash->value);
	if (mixing->flash_index_c > flash->high || mixing->flash_index_c < flash->low)
		bc_text_append(&line, " They do not agree: the parts are too unlike for the "
				      "index, which knows no light ends. Go by the lower.");
	bc_tap_paragraph(page, &line, NULL, 2);
}

/* Flash against the share of one part, where the page can show a picture. */
static void page_share(struct bc_page *page, const struct bc_mixing *mixing)
{
	if (mixing->n_nodes < 2 || !bc_page_figure(page))
		return;
	bc_svg_mix(mixing, page->text);
	bc_page_figure_end(page,
		"Flash of the mixture against the share of the part named below the "
		"picture. Broken line: the low bound. Dots: this mixture.");
}

static void write_page(struct bc_page *page, const struct bc_mixing *mixing)
{
	const struct bc_judgement *mix = &mixing->mix;
	page_head(page, mixing);
	page_answer(page, mixing);
	bc_page_verdict(page, mix);
	bc_page_danger(page, mix);
	page_share(page, mixing);
	page_parts(page, mixing);
	bc_page_points(page, mix);
	bc_page_paragraph(page,
		"Nobody read this curve: it is what a flask would show of the parts' slices "
		"together.",
		NULL, 2);
	bc_page_shares(page, mix);
	bc_page_properties(page, mix);
	page_index(page, mixing);
	bc_page_measured(page, mix);
	bc_page_nearest(page, mix);
	bc_page_other_grades(page, mix);
	bc_page_rerun(page, mix);
	bc_page_findings(page, mix);
	bc_page_assumed(page, mix);
	bc_page_untold(page, mix);
	bc_page_cautions(page, mix);
}

enum bc_status bc_report_mix_text(
	const struct bc_mixing *mixing, const struct bc_page_style *style, struct bc_text *text)
{
	struct bc_page page = {.text = text, .style = style};
	write_page(&page, mixing);
	return text->failed ? BC_NO_MEMORY : BC_OK;
}

enum bc_status bc_report_mix_page(const struct bc_mixing *mixing, struct bc_text *html)
{
	static const struct bc_page_style style = {.colour = false};
	const struct bc_sample *sample = mixing->mix.sample;
	struct bc_page page = {.text = html, .style = &style};
	struct bc_page_html open;
	bc_page_html_open(
		&page, &open, &bc_html_page, sample->name != NULL ? sample->name : "mixture");
	write_page(&page, mixing);
	bc_page_html_close(&page);
	return html->failed ? BC_NO_MEMORY : BC_OK;
}
