/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The foot of the page: findings, what was assumed, what no boil-off tells, cautions. */
#include <math.h>

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

static void list(struct bc_page *page, const char *heading, const char *note,
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
	list(page, "Assumed, for want of a word in the file", NULL, &judgement->assumed);
}

void bc_page_untold(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_grade *grade = judgement->verdict.grade;
	if (grade != NULL)
		list(page, "Still to be tested", "no boil-off can tell these",
			&grade->not_measured);
}

void bc_page_cautions(struct bc_page *page, const struct bc_judgement *judgement)
{
	list(page, "Cautions", NULL, &judgement->cautions);
}
