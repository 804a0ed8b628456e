/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A trend for a person: what is hardly chance first, then the picture and the figures. */
#include <math.h>
#include <string.h>

#include "report/page.h"
#include "report/trend.h"

/* The picture in the text. */
#define COLUMNS 40
#define ROWS 13
#define SENTENCES_MOST 12
#define GROUPS_SHOWN 8

static bool ends_with(const char *s, const char *ending)
{
	size_t n = strlen(s);
	size_t m = strlen(ending);
	return n >= m && strcmp(s + n - m, ending) == 0;
}

const char *bc_figure_unit(const char *key)
{
	static const struct {
		const char *ending;
		const char *unit;
	} units[] = {
		{"_c", "degC"},
		{"_pct", "%"},
		{"_kgm3", "kg/m3"},
		{"_mm2s", "mm2/s"},
		{"_mjkg", "MJ/kg"},
		{"_gmol", "g/mol"},
		{"_kpa", "kPa"},
	};
	for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
		if (ends_with(key, units[i].ending))
			return units[i].unit;
	}
	return "";
}

/* ---- the picture */

struct picture {
	const struct bc_trend *trend;
	size_t first; /* point in the first column */
	size_t n;
	double bottom; /* value in the middle of the lowest row */
	double step;   /* between rows */
};

static struct picture picture_of(const struct bc_trend *trend)
{
	struct picture picture = {.trend = trend};
	picture.first = trend->n > COLUMNS ? trend->n - COLUMNS : 0;
	picture.n = trend->n - picture.first;
	double low = isfinite(trend->chart.lower) ? trend->chart.lower : (double)INFINITY;
	double high = isfinite(trend->chart.upper) ? trend->chart.upper : -(double)INFINITY;
	for (size_t i = picture.first; i < trend->n; i++) {
		low = fmin(low, trend->values[i]);
		high = fmax(high, trend->values[i]);
	}
	double least = 1e-6 * (fabs(low) + fabs(high)) + 1e-9;
	picture.step = fmax(high - low, least) / (ROWS - 1);
	picture.bottom = low;
	return picture;
}

static int row_of(const struct picture *picture, double value)
{
	return isfinite(value) ? (int)lround((value - picture->bottom) / picture->step) : -1;
}

static void picture_row(struct bc_page *page, const struct picture *picture, int row)
{
	const struct bc_trend *trend = picture->trend;
	const struct bc_individuals *chart = &trend->chart;
	bool limit = row == row_of(picture, chart->upper) || row == row_of(picture, chart->lower);
	bool centre = row == row_of(picture, chart->mean);
	char blank = limit ? '=' : centre ? '-' : ' ';
	char marks[COLUMNS + 1] = "";
	for (size_t i = 0; i < picture->n; i++) {
		const struct bc_trend_point *point = &trend->points[picture->first + i];
		bool here = row == row_of(picture, point->value);
		marks[i] = here ? (point->signal ? 'X' : 'o') : blank;
	}
	for (size_t i = picture->n; i > 0 && marks[i - 1] == ' '; i--)
		marks[i - 1] = '\0';
	bc_page_printf(page, "  %9.5g |%s", picture->bottom + row * picture->step, marks);
	if (row == row_of(picture, chart->upper))
		bc_page_printf(page, "  upper limit %.5g", chart->upper);
	else if (row == row_of(picture, chart->lower))
		bc_page_printf(page, "  lower limit %.5g", chart->lower);
	else if (centre)
		bc_page_printf(page, "  mean %.5g", chart->mean);
	bc_page_printf(page, "\n");
}

static void show_picture(struct bc_page *page, const struct bc_trend *trend)
{
	struct picture picture = picture_of(trend);
	char note[80];
	snprintf(note, sizeof note, "oldest left; X is part of what is said above");
	bc_page_heading(page, trend->n > COLUMNS ? "The last 40 batches" : "The batches", note);
	for (int row = ROWS - 1; row >= 0; row--)
		picture_row(page, &picture, row);
	bc_page_blanks(page, 12);
	bc_page_printf(page, "%s", trend->points[picture.first].day);
	if (picture.n > 24) {
		bc_page_blanks(page, picture.n - 20);
		bc_page_printf(page, "%s", trend->points[trend->n - 1].day);
	}
	bc_page_printf(page, "\n");
}

/* ---- what it says */

static void head(struct bc_page *page, const struct bc_trend *trend)
{
	const struct bc_trend_request *request = &trend->request;
	bc_page_printf(
		page, "%s of %zu batch%s", request->key, trend->n, trend->n == 1 ? "" : "es");
	if (trend->n > 0)
		bc_page_printf(
			page, ", %s to %s", trend->points[0].day, trend->points[trend->n - 1].day);
	bc_page_printf(page, "\n");
	const struct {
		const char *name;
		const char *value;
	} narrowed[] = {{"  feed has ", request->feed}, {"  still ", request->still},
		{"  sample ", request->sample}};
	for (size_t i = 0; i < sizeof narrowed / sizeof narrowed[0]; i++) {
		if (narrowed[i].value != NULL)
			bc_page_paragraph(page, narrowed[i].value, narrowed[i].name, 4);
	}
	bc_page_printf(page, "\n");
}

static void say_few(struct bc_page *page, const struct bc_trend *trend)
{
	char words[200];
	snprintf(words, sizeof words,
		"Too few batches for limits: %zu, and they need %d to begin with and %d to be "
		"trusted. Nothing is said of a drift.",
		trend->n, BC_TREND_LEAST, BC_TREND_ENOUGH);
	bc_page_ink(page, BC_INK_DOUBT);
	bc_page_paragraph(page, words, NULL, 0);
	bc_page_ink_off(page);
}

static void say_provisional(struct bc_page *page, const struct bc_trend *trend)
{
	char words[240];
	snprintf(words, sizeof words,
		"The limits are provisional: they rest on %zu batches, %d are wanted, and their "
		"distance from the mean is uncertain by %.0f %% either way.",
		trend->baseline, BC_TREND_ENOUGH, 100.0 * trend->doubt_frac);
	bc_page_ink(page, BC_INK_DOUBT);
	bc_page_paragraph(page, words, NULL, 0);
	bc_page_ink_off(page);
}

static void say_findings(struct bc_page *page, const struct bc_trend *trend)
{
	size_t n = trend->words.n;
	size_t first = n > SENTENCES_MOST ? n - SENTENCES_MOST : 0;
	if (n == 0) {
		bc_page_ink(page, BC_INK_GOOD);
		bc_page_printf(
			page, "No drift: what varies is what this process does by itself.\n");
		bc_page_ink_off(page);
	} else {
		bc_page_ink(page, BC_INK_BAD);
		bc_page_printf(page, "Not chance alone, %zu finding%s:\n", n, n == 1 ? "" : "s");
		bc_page_ink_off(page);
	}
	if (first > 0)
		bc_page_printf(page, "  the last %d of them; --json has all\n", SENTENCES_MOST);
	for (size_t i = first; i < n; i++) {
		char lead[32];
		snprintf(lead, sizeof lead, "  %-7s ",
			bc_run_rule_names[trend->found.items[i].rule]);
		bc_page_paragraph(page, trend->words.items[i], lead, 10);
	}
	if (trend->provisional)
		say_provisional(page, trend);
	if (trend->feeds.n > 1 && trend->request.feed == NULL)
		bc_page_paragraph(page,
			"Batches of several feeds are on one chart; a change of feed looks like a "
			"drift. --feed keeps to one.",
			NULL, 0);
}

/* ---- figures */

static void figures(struct bc_page *page, const struct bc_trend *trend)
{
	const struct bc_individuals *chart = &trend->chart;
	const char *unit = bc_figure_unit(trend->request.key);
	bc_page_heading(
		page, "Limits", "what this process does by itself, not what a grade allows");
	bc_page_printf(page, "  %-34s %10.5g %s\n", "centre line, the mean", chart->mean, unit);
	bc_page_printf(
		page, "  %-34s %10.5g %s\n", "upper limit, mean + 2.66 mR", chart->upper, unit);
	bc_page_printf(
		page, "  %-34s %10.5g %s\n", "lower limit, mean - 2.66 mR", chart->lower, unit);
	bc_page_printf(page, "  %-34s %10.5g %s\n", "mR, mean range of neighbours",
		chart->mean_range, unit);
	bc_page_printf(
		page, "  %-34s %10.5g %s\n", "range limit, 3.267 mR", chart->range_upper, unit);
	if (trend->baseline < trend->n)
		bc_page_printf(page, "  from the first %zu batches, until %s\n", trend->baseline,
			trend->points[trend->baseline - 1].day);
}

static void rules(struct bc_page *page, const struct bc_trend *trend)
{
	const struct bc_run_rules *set = &trend->request.rules;
	struct bc_text words;
	bc_text_init(&words);
	for (size_t i = 0; i < BC_RUN_RULES; i++) {
		if (!set->on[i])
			continue;
		bc_text_printf(&words, "%s%s", words.length > 0 ? ", " : "", bc_run_rule_names[i]);
		if (i == BC_RULE_SIDE)
			bc_text_printf(&words, " (%zu in a row)", set->side);
		if (i == BC_RULE_RISE)
			bc_text_printf(&words, " (%zu in a row)", set->rise);
	}
	bc_page_paragraph(page, words.data != NULL ? words.data : "none", "  rules: ", 9);
	double once_in = bc_run_rules_once_in(set);
	if (isfinite(once_in))
		bc_page_printf(page,
			"  by chance alone these find something about once in %.0f batches\n",
			once_in);
	page->text->failed = page->text->failed || words.failed;
	bc_text_release(&words);
}

static void groups(struct bc_page *page, const char *heading, const struct bc_trend_groups *groups)
{
	if (groups->n < 2)
		return;
	bc_page_heading(page, heading, "batches, mean, batches in what is said above");
	for (size_t i = 0; i < groups->n && i < GROUPS_SHOWN; i++) {
		const struct bc_trend_group *group = &groups->items[i];
		bc_page_printf(
			page, "  %6zu  %10.5g  %6zu  ", group->n, group->mean, group->signals);
		bc_page_paragraph(page, group->name != NULL ? group->name : "(not stated)", "", 28);
	}
	if (groups->n > GROUPS_SHOWN)
		bc_page_printf(page, "  and %zu more\n", groups->n - GROUPS_SHOWN);
}

enum bc_status bc_report_trend_text(
	const struct bc_trend *trend, const struct bc_page_style *style, struct bc_text *text)
{
	struct bc_page page = {.text = text, .style = style};
	head(&page, trend);
	if (trend->too_few) {
		say_few(&page, trend);
	} else {
		say_findings(&page, trend);
	}
	if (trend->n > 0)
		show_picture(&page, trend);
	if (!trend->too_few) {
		figures(&page, trend);
		rules(&page, trend);
	}
	groups(&page, "By feed", &trend->feeds);
	groups(&page, "By still", &trend->stills);
	return text->failed ? BC_NO_MEMORY : BC_OK;
}
