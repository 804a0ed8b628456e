/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cards to print and hang up: what all of them share, the sheet to fill in, the slip for the
 * laboratory. */
#include "report/card.h"

#include <stdio.h>
#include <string.h>

#include "report/card_blocks.h"

const char *const bc_card_kinds[] = {"sheet", "tap", "stop", "lab", NULL};

static const struct {
	const char *kind;
	const char *title;
	void (*write)(struct bc_page *page, const struct bc_card *card);
} cards[] = {
	{"sheet", "Boil-off sheet", bc_card_sheet},
	{"tap", "At the tap", bc_card_tap},
	{"stop", "Start and stop", bc_card_stop},
	{"lab", "Slip for the laboratory", bc_card_lab},
};
enum { CARDS = sizeof cards / sizeof cards[0] };

enum bc_status bc_report_card_text(const char *kind, const struct bc_card *card,
	const struct bc_page_style *style, struct bc_text *text)
{
	struct bc_page page = {.text = text, .style = style};
	for (size_t i = 0; i < CARDS; i++) {
		if (strcmp(cards[i].kind, kind) != 0)
			continue;
		bc_page_title(&page, cards[i].title);
		cards[i].write(&page, card);
		return text->failed ? BC_NO_MEMORY : BC_OK;
	}
	return BC_NOT_FOUND;
}

enum bc_status bc_report_card_html(
	const char *kind, const struct bc_card *card, struct bc_text *html)
{
	static const struct bc_page_style style = {.colour = false};
	struct bc_page page = {.text = html, .style = &style};
	struct bc_page_html open;
	for (size_t i = 0; i < CARDS; i++) {
		if (strcmp(cards[i].kind, kind) != 0)
			continue;
		bc_page_html_open(&page, &open, &bc_html_card, cards[i].title);
		bc_page_title(&page, cards[i].title);
		cards[i].write(&page, card);
		bc_page_html_close(&page);
		return html->failed ? BC_NO_MEMORY : BC_OK;
	}
	return BC_NOT_FOUND;
}

void bc_card_name(struct bc_page *page, const struct bc_sample *sample)
{
	const size_t most = 60;
	struct bc_text line;
	bc_text_init(&line);
	bc_html_cut(&line, sample->name != NULL ? sample->name : sample->file, most);
	if (sample->date != NULL) {
		bc_text_append(&line, ", ");
		bc_html_cut(&line, sample->date, most / 2);
	}
	if (line.data != NULL)
		bc_page_paragraph(page, line.data, "", 0);
	page->text->failed = page->text->failed || line.failed;
	bc_text_release(&line);
}

/* ---- the sheet */

/* A key of the file, and what it asks for. */
static const struct {
	const char *key;
	const char *hint;
} fields[] = {
	{"sample, date", "which jar, which day"},
	{"feed", "which plastic"},
	{"history", "retort, rerun or aired"},
	{"charge", "100 mL"},
	{"density", "with its temperature"},
	{"barometer or altitude", "station pressure, not sea level"},
	{"thermometer", "glass d86, glass partial, glass total, probe"},
	{"ice, steam", "what it shows in melting ice, in steam"},
	{"residue", "mL left in the flask, cold"},
	{"loss", "100 less what came over and is left"},
	{"condenser temp", "degC"},
};

static const char *const rows[] = {
	"IBP", "5", "10", "20", "30", "40", "50", "60", "70", "80", "90", "95", "FBP"};

static void blank_rows(struct bc_page *page)
{
	bc_page_table(page, "  recovered, %   head, degC     pot, degC      time, min      note\n",
		"recovered, %|head, degC|pot, degC|time, min|note");
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		bc_page_row(page, 2);
		bc_page_cell(page, rows[i], 13);
		for (int column = 0; column < 4; column++)
			bc_page_cell(page, page->html == NULL ? "  _____________" : "", 0);
		bc_page_row_end(page);
	}
	bc_page_table_end(page);
}

void bc_card_sheet(struct bc_page *page, const struct bc_card *card)
{
	static const char *const steps[] = {
		"Outdoors or under extraction; no flame, spark or pilot light near. Gloves, goggles, "
		"a lid and a dry-powder extinguisher at hand.",
		"Water first: let the oil settle and draw the water off. Fill the flask no more than "
		"half. Boiling chips go in cold.",
		"Electric mantle, receiver in ice for a light oil. The bulb's top stands level with "
		"the lower edge of the side arm.",
		"First drop in 5 to 15 minutes, then 4 to 5 mL a minute. Write down each line as the "
		"mark is reached.",
		"Stop when the temperature falls or white fumes come, at the latest at 340 degC in "
		"the pot. Never to dryness.",
		"An oil older than three months: test for peroxides first, leave a tenth in the "
		"flask. Open and empty the flask only below 60 degC.",
	};
	(void)card;
	bc_page_table(page, "", "key of the file|what it asks for|written down");
	for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++) {
		bc_page_row(page, 2);
		bc_page_cell(page, fields[i].key, 23);
		bc_page_cell(page, fields[i].hint, 0);
		if (page->html != NULL)
			bc_page_cell(page, "", 0);
		bc_page_row_end(page);
	}
	bc_page_table_end(page);
	blank_rows(page);
	for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++) {
		char first[16];
		snprintf(first, sizeof first, "  %zu. ", i + 1);
		bc_page_paragraph(page, steps[i], first, 5);
	}
	bc_page_paragraph(page,
		"The loss is vapour that was breathed or could have burned. A boil-off tells nothing "
		"of dissolved gas, sulphur, chlorine, water or benzene.",
		NULL, 2);
}

/* ---- the slip */

static const struct test {
	const char *name;
	const char *method;
	double volume_ml;
	const char *bottle;
	const char *key;
	const char *grades;
} tests[] = {
#include "laboratory-tests.inc"
};

static bool asked_for(const struct test *test, const struct bc_judgement *judgement)
{
	if (strcmp(test->grades, "all") == 0 || judgement == NULL)
		return true;
	const struct bc_grade *grade = judgement->verdict.grade;
	return grade != NULL && strcmp(bc_grade_texts[grade->name], test->grades) == 0;
}

void bc_card_lab(struct bc_page *page, const struct bc_card *card)
{
	const struct bc_judgement *judgement = card->judgement;
	double total_ml = 0.0;
	if (judgement != NULL)
		bc_card_name(page, judgement->sample);
	bc_page_paragraph(page,
		"An oil distilled from waste plastic, of unknown composition: take it to be flammable "
		"and to hold benzene. What is wanted, in the order of worth:",
		"", 0);
	bc_page_table(page, "  test                     mL  into the file as    method\n",
		"test|mL|into the file as|method|bottle|result");
	for (size_t i = 0; i < sizeof tests / sizeof tests[0]; i++) {
		const struct test *test = &tests[i];
		if (!asked_for(test, judgement))
			continue;
		total_ml += test->volume_ml;
		bc_page_row(page, 2);
		bc_page_cell(page, test->name, 23);
		bc_page_number(page, test->volume_ml, 0, 4);
		bc_page_gap(page, 2);
		bc_page_cell(page, test->key, 20);
		bc_page_cell(page, test->method, 0);
		if (page->html != NULL) {
			bc_page_cell(page, test->bottle, 0);
			bc_page_cell(page, "", 0);
		}
		bc_page_row_end(page);
	}
	bc_page_table_end(page);
	bc_page_printf(
		page, "  In all about %.0f mL; methods and volumes from memory.\n", total_ml);
	bc_page_paragraph(page,
		"Fill the bottles cold, from the bottom, to the top, in the shade; close them at once, "
		"keep them cool and dark, and bring them the same day: light ends that are lost "
		"raise the flash point. Glass or metal, never thin plastic. Ask before posting: it is "
		"dangerous goods below 60 degC of flash.",
		NULL, 2);
	bc_page_paragraph(page,
		"Each answer goes into the sample file as a row, as: flash,61 C or sulphur,12 mg/kg; "
		"judge the file again: a measured value replaces its estimate.",
		NULL, 2);
}
