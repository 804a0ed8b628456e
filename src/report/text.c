/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The judgement as a page for a person: the word first, then danger, then what it rests on. */
#include "report/page.h"
#include "report/runs.h"

static void write_page(struct bc_page *page, const struct bc_judgement *judgement)
{
	bc_page_head(page, judgement);
	bc_page_verdict(page, judgement);
	bc_page_danger(page, judgement);
	bc_page_curve(page, judgement);
	bc_page_runs(page, judgement);
	bc_page_readings(page, judgement);
	bc_page_points(page, judgement);
	if (page->style->fits)
		bc_page_fits(page, judgement);
	bc_page_shares(page, judgement);
	bc_page_properties(page, judgement);
	bc_page_measured(page, judgement);
	bc_page_nearest(page, judgement);
	bc_page_other_grades(page, judgement);
	bc_page_rerun(page, judgement);
	bc_page_findings(page, judgement);
	bc_page_assumed(page, judgement);
	bc_page_untold(page, judgement);
	bc_page_cautions(page, judgement);
}

enum bc_status bc_report_text(const struct bc_judgement *judgement,
	const struct bc_page_style *style, struct bc_text *text)
{
	struct bc_page page = {.text = text, .style = style};
	write_page(&page, judgement);
	return text->failed ? BC_NO_MEMORY : BC_OK;
}

enum bc_status bc_report_page(const struct bc_judgement *judgement, struct bc_text *html)
{
	static const struct bc_page_style style = {.colour = false};
	const struct bc_sample *sample = judgement->sample;
	struct bc_page page = {.text = html, .style = &style};
	struct bc_page_html open;
	bc_page_html_open(
		&page, &open, &bc_html_page, sample->name != NULL ? sample->name : sample->file);
	write_page(&page, judgement);
	bc_page_html_close(&page);
	return html->failed ? BC_NO_MEMORY : BC_OK;
}
