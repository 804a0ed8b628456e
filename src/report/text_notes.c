/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The foot of the page: findings, what was assumed, what no boil-off tells, cautions. */
#include <math.h>
#include <string.h>

#include "report/page.h"

static void finding(struct bc_page *page, const struct bc_finding *item)
{
	struct bc_text line;
	bc_text_init(&line);
	bc_text_printf(&line, "%s", bc_weight_text(item->weight));
	if (!isnan(item->at_pct))
		bc_text_printf(&line, " at %.4g %%", item->at_pct);
	bc_text_printf(&line, ": %s", item->message);
	if (line.data != NULL)
		bc_page_paragraph(page, line.data, "  - ", 4);
	if (item->advice != NULL && item->advice[0] != '\0')
		bc_page_paragraph(page, item->advice, "    > ", 6);
	page->text->failed = page->text->failed || line.failed;
	bc_text_release(&line);
}

/* Dangers stand in their box at the top already. */
void bc_page_findings(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_findings *findings = &judgement->findings;
	bool any = false;
	for (int weight = BC_FINDING_WARNING; weight >= BC_FINDING_NOTE; weight--) {
		for (size_t i = 0; i < findings->n; i++) {
			if ((int)findings->items[i].weight != weight)
				continue;
			if (!any)
				bc_page_heading(page, "What was noticed", NULL);
			any = true;
			finding(page, &findings->items[i]);
		}
	}
}

void bc_page_list(struct bc_page *page, const char *heading, const char *note,
	const struct bc_strings *strings)
{
	if (strings->n == 0)
		return;
	bc_page_heading(page, heading, note);
	for (size_t i = 0; i < strings->n; i++)
		bc_page_paragraph(page, strings->items[i], "  - ", 4);
}

void bc_page_assumed(struct bc_page *page, const struct bc_judgement *judgement)
{
	bc_page_list(page, "Assumed, for want of a word in the file", NULL, &judgement->assumed);
}

/* "sulphur: at most 10 mg/kg" of "sulphur: at most 10 mg/kg (EN ISO 20846)": the methods are for a
 * laboratory and stand in the JSON, but for the flash, which a shed can measure. */
static size_t without_method(const char *test)
{
	const char *method = strrchr(test, '(');
	if (method == NULL || method == test || method[-1] != ' ' ||
		strstr(method, "flash") != NULL)
		return strlen(test);
	return (size_t)(method - 1 - test);
}

/* One paragraph: a page should be read to its end. */
void bc_page_untold(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_grade *grade = judgement->verdict.grade;
	if (grade == NULL || grade->not_measured.n == 0)
		return;
	struct bc_text all;
	bc_text_init(&all);
	for (size_t i = 0; i < grade->not_measured.n; i++) {
		const char *test = grade->not_measured.items[i];
		bc_text_append(&all, i > 0 ? "; " : "");
		bc_text_append_n(&all, test, without_method(test));
	}
	bc_text_append(&all, ".");
	bc_page_heading(page, "Still to be tested", "no boil-off can tell these");
	if (!all.failed)
		bc_page_paragraph(page, all.data, NULL, 2);
	page->text->failed = page->text->failed || all.failed;
	bc_text_release(&all);
}

void bc_page_cautions(struct bc_page *page, const struct bc_judgement *judgement)
{
	bc_page_list(page, "Cautions", NULL, &judgement->cautions);
}
