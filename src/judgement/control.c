/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A control sample against its own history: runs in order, charts, and the word. */
#include "judgement/control.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

#include "base/individuals.h"
#include "base/memory.h"
#include "base/stats.h"
#include "judgement/control_cause.h"
#include "judgement/pool_parts.h"

/* A manual thermometer is read to it; ASTM D86, seen in a public copy [degC]. */
#define READ_TO_C 0.5
/* Charts of fewer runs are rough; ISO 7870-2 practice, from memory. */
#define GOOD_BASELINE 15

const char *bc_control_word_text(enum bc_control_word word)
{
	switch (word) {
	case BC_CONTROL_IN:
		break;
	case BC_CONTROL_OUT:
		return "out of its own limits";
	case BC_CONTROL_DRIFTING:
		return "drifting";
	}
	return "in its own limits";
}

/* ---- order */

static bool is_date(const char *s)
{
	if (!s || strlen(s) != 10)
		return false;
	for (size_t i = 0; i < 10; i++) {
		bool dash = i == 4 || i == 7;
		if (dash ? s[i] != '-' : !isdigit((unsigned char)s[i]))
			return false;
	}
	return true;
}

/* By date, files of one day in the order in which they were given. */
static bool put_in_order(struct bc_pool_run *runs, size_t n)
{
	for (size_t i = 0; i < n; i++)
		if (!is_date(runs[i].sample->date))
			return false;
	for (size_t i = 1; i < n; i++) {
		struct bc_pool_run run = runs[i];
		size_t k = i;
		for (; k > 0 && strcmp(runs[k - 1].sample->date, run.sample->date) > 0; k--)
			runs[k] = runs[k - 1];
		runs[k] = run;
	}
	return true;
}

/* ---- charts */

static const size_t chart_point[] = {BC_AT_T10, BC_AT_T50, BC_AT_T90};

static bool all_have(const struct bc_control *control, size_t point)
{
	for (size_t i = 0; i < control->n; i++)
		if (isnan(control->runs[i].at_c[point]))
			return false;
	return true;
}

static double mean_c(const struct bc_control *control, const struct bc_pool_run *run)
{
	double sum_c = 0.0;
	size_t n = 0;
	for (size_t k = BC_AT_T10; k <= BC_AT_T90; k++) {
		if (!all_have(control, k))
			continue;
		sum_c += run->at_c[k];
		n++;
	}
	return n > 0 ? sum_c / (double)n : (double)NAN;
}

/* Mean of the assumed 95 % half-widths of the baseline at a percent. */
static double assumed_c(const struct bc_control *control, size_t point)
{
	double sum_c = 0.0;
	for (size_t i = 0; i < control->n_baseline; i++)
		sum_c += control->runs[i].random_c[point];
	return sum_c / (double)control->n_baseline;
}

/* Centre and spread of the baseline's values: its own where it is long enough. */
static void settle_spread(const struct bc_control *control, const double *values, double half_c,
	double *centre, double *sigma)
{
	size_t n = control->n_baseline;
	double square = 0.0;
	struct bc_individuals chart;

	*centre = 0.0;
	for (size_t i = 0; i < n; i++)
		*centre += values[i] / (double)n;
	if (control->own_limits && !bc_failed(bc_individuals_chart(values, n, &chart))) {
		*sigma = fmax(chart.sigma, READ_TO_C / 3.0);
		return;
	}
	for (size_t i = 0; i < n; i++)
		square += (values[i] - *centre) * (values[i] - *centre);
	double sd = n > 1 ? sqrt(square / ((double)n - 1.0)) : 0.0;
	*sigma = bc_runs_sigma_c(half_c, sd, n) * sqrt(1.0 + 1.0 / (double)n);
}

static void draw_chart(struct bc_control *control, size_t which)
{
	static const char *const names[] = {"t10_c", "t50_c", "t90_c", "mean_c"};
	struct bc_control_chart *chart = &control->charts[which];
	bool mean = which == BC_CONTROL_MEAN;
	size_t point = mean ? BC_AT_T50 : chart_point[which];

	chart->name = names[which];
	chart->centre = chart->sigma = chart->lower = chart->upper = NAN;
	for (size_t i = 0; i < control->n; i++)
		chart->values[i] =
			mean ? mean_c(control, &control->runs[i]) : control->runs[i].at_c[point];
	double half_c = 0.0;
	size_t n = 0;
	for (size_t k = BC_AT_T10; k <= BC_AT_T90; k++) {
		if ((mean || k == point) && all_have(control, k)) {
			half_c += assumed_c(control, k);
			n++;
		}
	}
	if (n == 0)
		return;
	settle_spread(control, chart->values, half_c / (double)n, &chart->centre, &chart->sigma);
	chart->lower = chart->centre - 3.0 * chart->sigma;
	chart->upper = chart->centre + 3.0 * chart->sigma;
	double now = chart->values[control->n - 1];
	chart->out = now < chart->lower || now > chart->upper;
}

static void settle_points(struct bc_control *control)
{
	double values[BC_CONTROL_RUNS] = {0.0};

	for (size_t k = 0; k < BC_POINTS; k++) {
		if (!all_have(control, k))
			continue;
		struct bc_control_point *point = &control->points[control->n_points++];
		for (size_t i = 0; i < control->n; i++)
			values[i] = control->runs[i].at_c[k];
		point->pct = bc_point_pct[k];
		point->now_c = values[control->n - 1];
		settle_spread(
			control, values, assumed_c(control, k), &point->before_c, &point->sigma_c);
		point->change_c = point->now_c - point->before_c;
	}
}

/* How many of the newest lie on the side of the centre where the newest does. */
static size_t row_of(const struct bc_control *control)
{
	const struct bc_control_chart *mean = &control->charts[BC_CONTROL_MEAN];
	double side = mean->values[control->n - 1] - mean->centre;
	size_t row = 0;

	for (size_t i = control->n; i-- > control->n_baseline;) {
		if (!((mean->values[i] - mean->centre) * side > 0.0))
			break;
		row++;
	}
	return row;
}

/* A drift is seen in the mean of the runs of its row, not in the newest alone. */
static void change_of_row(struct bc_control *control)
{
	size_t at = 0;

	for (size_t k = 0; k < BC_POINTS; k++) {
		if (!all_have(control, k))
			continue;
		double sum_c = 0.0;
		for (size_t i = control->n - control->row; i < control->n; i++)
			sum_c += control->runs[i].at_c[k];
		struct bc_control_point *point = &control->points[at++];
		point->change_c = sum_c / (double)control->row - point->before_c;
	}
}

static void settle_word(struct bc_control *control)
{
	control->row = control->own_limits ? row_of(control) : 0;
	for (size_t i = 0; i < BC_CONTROL_CHARTS; i++)
		if (control->charts[i].out)
			control->word = BC_CONTROL_OUT;
	if (control->word != BC_CONTROL_OUT && control->row >= BC_CONTROL_ROW) {
		control->word = BC_CONTROL_DRIFTING;
		change_of_row(control);
	}
}

static void say_basis(struct bc_control *control)
{
	size_t old = control->n - 1;
	const struct bc_sample *first = control->runs[0].sample;
	const struct bc_sample *last = control->runs[old].sample;

	if (!control->by_date)
		bc_strings_add(&control->notes,
			"not every file has a date such as 2026-10-03: taken in the order given, "
			"the last as the newest");
	if (!control->own_limits)
		bc_strings_add(&control->notes,
			"%zu earlier run%s are too few for limits of their own (%d are needed): "
			"the limits are what readings at a rig like this are taken to repeat",
			old, old == 1 ? "" : "s", BC_CONTROL_LEAST);
	else if (control->n_baseline < GOOD_BASELINE)
		bc_strings_add(&control->notes,
			"limits from %zu runs are rough: about one unchanged control in eight lies "
			"outside them by chance; %d or more make them firm",
			control->n_baseline, GOOD_BASELINE);
	for (size_t i = 0; i < old; i++) {
		const struct bc_sample *sample = control->runs[i].sample;
		if (sample->thermometer == last->thermometer &&
			sample->apparatus == last->apparatus)
			continue;
		bc_strings_add(&control->notes,
			"%s was read with another thermometer or apparatus: begin a new history "
			"when one is changed",
			sample->file ? sample->file : "an earlier run");
		break;
	}
	if (first->name && last->name && strcmp(first->name, last->name) != 0)
		bc_strings_add(&control->notes, "the first file names '%s', the newest '%s'",
			first->name, last->name);
}

static enum bc_status judge_control(struct bc_control *control)
{
	size_t old = control->n - 1;

	control->by_date = put_in_order(control->runs, control->n);
	control->n_baseline = old < BC_CONTROL_MOST ? old : BC_CONTROL_MOST;
	control->own_limits = old >= BC_CONTROL_LEAST;
	/* a drift is only seen against runs that came before it */
	if (old >= BC_CONTROL_LEAST + BC_CONTROL_ROW && old < BC_CONTROL_MOST + BC_CONTROL_ROW)
		control->n_baseline = old + 1 - BC_CONTROL_ROW;
	settle_points(control);
	if (control->n_points < 3)
		return BC_TOO_FEW;
	for (size_t i = 0; i < BC_CONTROL_CHARTS; i++)
		draw_chart(control, i);
	settle_word(control);
	say_basis(control);
	bc_control_find_cause(control);
	return control->notes.failed || control->advice.failed ? BC_NO_MEMORY : BC_OK;
}

enum bc_status bc_control_new(const struct bc_sample *const *samples, size_t n,
	struct bc_control **control, size_t *failed)
{
	enum bc_status status = BC_OK;

	*control = NULL;
	*failed = n;
	if (n < 2 || n > BC_CONTROL_RUNS)
		return BC_TOO_FEW;
	struct bc_control *made = bc_alloc(sizeof *made);
	if (!made)
		return BC_NO_MEMORY;
	*made = (struct bc_control){.change_c = NAN, .per_100_c = NAN, .pressure_kpa = NAN};
	bc_strings_init(&made->notes);
	bc_strings_init(&made->advice);
	made->runs = bc_alloc_array(n, sizeof *made->runs);
	if (!made->runs) {
		status = BC_NO_MEMORY;
		goto done;
	}
	memset(made->runs, 0, n * sizeof *made->runs);
	for (size_t i = 0; i < n && !bc_failed(status); i++) {
		made->runs[i].sample = samples[i];
		made->n++;
		status = bc_pool_run_read(&made->runs[i]);
		if (bc_failed(status))
			*failed = i;
	}
	if (!bc_failed(status))
		status = judge_control(made);
done:
	if (bc_failed(status)) {
		bc_control_free(made);
		return status;
	}
	*control = made;
	return BC_OK;
}

void bc_control_free(struct bc_control *control)
{
	if (!control)
		return;
	for (size_t i = 0; control->runs && i < control->n; i++)
		bc_pool_run_release(&control->runs[i]);
	bc_free(control->runs);
	bc_strings_release(&control->notes);
	bc_strings_release(&control->advice);
	bc_free(control);
}
