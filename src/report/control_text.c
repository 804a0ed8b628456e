/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A control sample against its own history, on the page. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "report/runs.h"

#define STRIP 41 /* columns of the chart of one run; odd, so that the centre has one */

static const char *chart_words(size_t chart)
{
	static const char *const words[] = {"T10", "T50", "T90", "mean 10-90"};
	return words[chart];
}

static void head(struct bc_page *page, const struct bc_control *control)
{
	const struct bc_sample *last = control->runs[control->n - 1].sample;
	bool in = control->word == BC_CONTROL_IN;
	struct bc_text line;
	bc_text_init(&line);
	bc_page_ink(page, BC_INK_STRONG);
	bc_text_printf(&line, "Control sample: %s",
		last->name ? last->name : (last->file ? last->file : "newest"));
	if (line.data)
		bc_page_paragraph(page, line.data, "", 0);
	bc_page_ink_off(page);
	bc_text_release(&line);
	bc_text_init(&line);
	bc_text_printf(&line, "newest %s%s%s, against %zu earlier run%s",
		last->file ? last->file : "run", last->date ? ", " : "",
		last->date ? last->date : "", control->n - 1, control->n == 2 ? "" : "s");
	if (line.data)
		bc_page_paragraph(page, line.data, "", 0);
	page->text->failed = page->text->failed || line.failed;
	bc_text_release(&line);
	bc_text_append(page->text, "\n");
	bc_page_ink(page, in ? BC_INK_GOOD : BC_INK_BAD);
	bc_page_printf(page, "CONTROL: %s\n", bc_control_word_text(control->word));
	bc_page_ink_off(page);
}

static void verdict(struct bc_page *page, const struct bc_control *control)
{
	struct bc_text line;
	if (control->word == BC_CONTROL_IN) {
		bc_page_paragraph(page,
			"Thermometer, still and control sample are as they were, as far as this "
			"test can see.",
			NULL, 2);
		return;
	}
	if (control->word == BC_CONTROL_DRIFTING) {
		bc_text_init(&line);
		bc_text_printf(&line,
			"The newest %zu runs all lie %s the centre, though none is beyond the "
			"limits: a slow drift.",
			control->row, control->change_c > 0.0 ? "above" : "below");
		if (line.data)
			bc_page_paragraph(page, line.data, NULL, 2);
		page->text->failed = page->text->failed || line.failed;
		bc_text_release(&line);
	}
	for (size_t i = 0; i < control->advice.n; i++)
		bc_page_paragraph(page, control->advice.items[i], "  > ", 4);
}

static void charts(struct bc_page *page, const struct bc_control *control)
{
	bc_page_heading(page, "Figures and limits",
		control->own_limits ? "degC corrected; centre -+ 3 moving ranges/1.128"
				    : "degC corrected; from assumed errors");
	bc_page_printf(page, "%14s%9s%9s%9s%9s\n", "", "newest", "lower", "centre", "upper");
	for (size_t i = 0; i < BC_CONTROL_CHARTS; i++) {
		const struct bc_control_chart *chart = &control->charts[i];
		bc_page_printf(page, "%14s", chart_words(i));
		bc_page_number(page, chart->values[control->n - 1], 1, 9);
		bc_page_number(page, chart->lower, 1, 9);
		bc_page_number(page, chart->centre, 1, 9);
		bc_page_number(page, chart->upper, 1, 9);
		bc_page_printf(page, "%s\n", chart->out ? "  out" : "");
	}
}

static void changes(struct bc_page *page, const struct bc_control *control)
{
	bc_page_heading(page, "Change along the curve",
		control->word == BC_CONTROL_DRIFTING ? "degC, mean of the runs of the drift"
						     : "degC, newest less the mean before");
	bc_page_printf(
		page, "%8s%9s%9s%9s%15s\n", "%", "before", "newest", "change", "chance, 3 s");
	for (size_t i = 0; i < control->n_points; i++) {
		const struct bc_control_point *point = &control->points[i];
		if (point->pct == 0.0 || point->pct == 100.0)
			bc_page_printf(page, "%8s", point->pct == 0.0 ? "IBP" : "FBP");
		else
			bc_page_number(page, point->pct, 0, 8);
		bc_page_number(page, point->before_c, 1, 9);
		bc_page_number(page, point->now_c, 1, 9);
		bc_page_printf(page, "%+9.1f", point->change_c);
		bc_page_number(page, 3.0 * point->sigma_c, 1, 15);
		bc_page_printf(
			page, "%s\n", fabs(point->change_c) > 3.0 * point->sigma_c ? "  !" : "");
	}
}

/* One run on the line from 1.5 times below the lower limit to the same above the upper. */
static void strip(struct bc_page *page, const struct bc_control *control, size_t i)
{
	const struct bc_control_chart *chart = &control->charts[BC_CONTROL_MEAN];
	const struct bc_sample *sample = control->runs[i].sample;
	const double reach = 1.5 * (chart->upper - chart->centre);
	const size_t middle = STRIP / 2;
	char field[STRIP + 1];
	double share = (chart->values[i] - chart->centre) / reach;
	memset(field, ' ', STRIP);
	field[STRIP] = '\0';
	field[middle] = ':';
	field[middle - (size_t)lround((double)middle / 1.5)] = '|';
	field[middle + (size_t)lround((double)middle / 1.5)] = '|';
	long at = (long)middle + lround(fmin(fmax(share, -1.0), 1.0) * (double)middle);
	field[at] = 'o';
	size_t n = STRIP;
	while (n > 0 && field[n - 1] == ' ')
		n--;
	field[n] = '\0';
	bc_page_printf(page, "%12.10s", sample->date ? sample->date : "-");
	bc_page_number(page, chart->values[i], 1, 9);
	bc_page_printf(page, "  %s\n", field);
}

static void history(struct bc_page *page, const struct bc_control *control)
{
	const size_t shown = 30;
	size_t from = control->n > shown ? control->n - shown : 0;
	if (isnan(control->charts[BC_CONTROL_MEAN].centre))
		return;
	bc_page_heading(page, "Mean from 10 to 90 %, run by run", "| limits, : centre, degC");
	for (size_t i = from; i < control->n; i++)
		strip(page, control, i);
}

enum bc_status bc_report_control(
	const struct bc_control *control, const struct bc_page_style *style, struct bc_text *text)
{
	struct bc_page page = {.text = text, .style = style};
	head(&page, control);
	verdict(&page, control);
	charts(&page, control);
	changes(&page, control);
	history(&page, control);
	bc_page_list(&page, "Notes", NULL, &control->notes);
	return text->failed ? BC_NO_MEMORY : BC_OK;
}
