/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The runs of one sample side by side on the page. */
#include <math.h>
#include <stdio.h>

#include "report/runs.h"

/* As many as stand beside each other in 80 columns. */
#define COLUMNS_MAX 3

static void run_line(struct bc_page *page, const struct bc_pool_run *run, size_t number)
{
	struct bc_text line;
	char first[32];
	bc_text_init(&line);
	snprintf(first, sizeof first, "%4zu  ", number);
	bc_text_printf(&line, "%s", run->sample->file ? run->sample->file : "a run");
	if (run->sample->date)
		bc_text_printf(&line, ", %s", run->sample->date);
	bc_text_printf(&line, ": %s", bc_belonging_text(run->belonging));
	if (!isnan(run->shift_c))
		bc_text_printf(&line, "; %+.1f degC from the others in the mean", run->shift_c);
	if (!isnan(run->difference_max_pct))
		bc_text_printf(&line, ", at most %+.1f at %.4g %%", run->difference_max_c,
			run->difference_max_pct);
	if (line.data)
		bc_page_paragraph(page, line.data, first, 6);
	page->text->failed = page->text->failed || line.failed;
	bc_text_release(&line);
}

static void heads(struct bc_page *page, const struct bc_pool *pool, size_t from, size_t to)
{
	static const char *const columns[] = {"|1|mean|+-95 %|apart|D86 r|this rig|",
		"|1|2|mean|+-95 %|apart|D86 r|this rig|",
		"|1|2|3|mean|+-95 %|apart|D86 r|this rig|"};
	struct bc_text head;
	bc_text_init(&head);
	bc_text_printf(&head, "%6s", "");
	for (size_t i = from; i < to; i++) {
		bool out = pool->runs[i].belonging == BC_RUN_LEFT_OUT;
		char number[32];
		snprintf(number, sizeof number, out ? "(%zu)" : "%zu ", i + 1);
		bc_text_printf(&head, "%9s", number);
	}
	bc_text_printf(&head, "%8s%8s%8s%9s%9s\n", "mean", "+-95 %", "apart", "D86 r", "this rig");
	bc_page_table(page, head.data != NULL ? head.data : "", columns[to - from - 1]);
	page->text->failed = page->text->failed || head.failed;
	bc_text_release(&head);
}

static void point_row(
	struct bc_page *page, const struct bc_pool *pool, size_t k, size_t from, size_t to)
{
	const struct bc_pool_point *at = &pool->points[k];
	char label[16];
	snprintf(label, sizeof label, "%.0f %%", bc_point_pct[k]);
	bc_page_row(page, 0);
	bc_page_printf(page, "%6s", k == BC_AT_IBP ? "IBP" : k == BC_AT_FBP ? "FBP" : label);
	for (size_t i = from; i < to; i++) {
		bc_page_number(page, pool->runs[i].at_c[k], 1, 8);
		bc_page_blanks(page, 1);
	}
	bc_page_number(page, at->mean_c, 1, 8);
	bc_page_number(page, at->half_width_c, 1, 8);
	bc_page_number(page, at->range_c, 1, 8);
	bc_page_number(page, at->published_range_c, 1, 9);
	bc_page_number(page, at->rig_range_c, 1, 9);
	if (at->range_c > at->rig_range_c)
		bc_page_cell(page, " !", 0);
	bc_page_row_end(page);
}

static void table(struct bc_page *page, const struct bc_pool *pool, size_t from, size_t to)
{
	heads(page, pool, from, to);
	for (size_t k = 0; k < BC_POINTS; k++) {
		bool any = false;
		for (size_t i = from; i < to; i++)
			any = any || !isnan(pool->runs[i].at_c[k]);
		if (any)
			point_row(page, pool, k, from, to);
	}
	bc_page_table_end(page);
}

static void agreement(struct bc_page *page, const struct bc_pool *pool)
{
	struct bc_text line;
	bc_text_init(&line);
	bc_text_printf(&line,
		"The %zu runs in the pool %s by what a rig like this repeats (ratio %.2f; 1 is "
		"the limit). Within the standard's own repeatability at %zu of %zu percents (D86 "
		"groups 2 to 4, manual, from memory).",
		pool->n_kept, pool->agree ? "agree" : "do not agree", pool->agree_ratio,
		pool->within_published, pool->compared);
	if (line.data)
		bc_page_paragraph(page, line.data, NULL, 2);
	page->text->failed = page->text->failed || line.failed;
	bc_text_release(&line);
	bc_page_paragraph(page,
		"+-95 %: of the mean, from the spread between the runs; what they share, as "
		"thermometer and pressure, comes on top in the bounds below. apart: highest less "
		"lowest; D86 r and this rig: how far apart chance lets them be.",
		NULL, 2);
}

void bc_page_runs(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_pool *pool = judgement->pool;
	if (!pool)
		return;
	bc_page_heading(page, "Runs side by side", "degC corrected at % recovered");
	for (size_t i = 0; i < pool->n; i++)
		run_line(page, &pool->runs[i], i + 1);
	for (size_t from = 0; from < pool->n; from += COLUMNS_MAX) {
		size_t to = from + COLUMNS_MAX;
		table(page, pool, from, to < pool->n ? to : pool->n);
	}
	agreement(page, pool);
}
