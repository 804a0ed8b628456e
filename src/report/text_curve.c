/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The readings with their little dot picture, the points read off the curve, and the fits. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "report/page.h"

#define FIELD 32 /* columns of the dot picture */
#define ROWS_SHOWN 30

/* The cuts of the partition, at which the picture has its lines. */
static const double cuts_c[] = {35.0, 180.0, 240.0, 350.0};
#define CUTS (sizeof cuts_c / sizeof cuts_c[0])

struct scale {
	double from_c;
	double to_c;
};

static struct scale scale_of(const struct bc_boiloff *boiloff)
{
	struct scale scale = {INFINITY, -INFINITY};
	for (size_t i = 0; i < boiloff->n; i++) {
		if (!boiloff->points[i].used)
			continue;
		scale.from_c = fmin(scale.from_c, boiloff->points[i].corrected_c);
		scale.to_c = fmax(scale.to_c, boiloff->points[i].corrected_c);
	}
	if (!(scale.to_c - scale.from_c >= 1.0))
		scale.to_c = scale.from_c + 1.0;
	scale.from_c = 50.0 * floor(scale.from_c / 50.0);
	scale.to_c = 50.0 * ceil(scale.to_c / 50.0);
	return scale;
}

/* Column of a temperature in the field, or FIELD when it is not in the picture. */
static size_t column_of(const struct scale *scale, double temp_c)
{
	double frac = (temp_c - scale->from_c) / (scale->to_c - scale->from_c);
	if (!(frac >= 0.0 && frac <= 1.0))
		return FIELD;
	return (size_t)lround(frac * (FIELD - 1));
}

static void field_heads(const struct scale *scale, char field[FIELD + 4])
{
	memset(field, ' ', FIELD + 3);
	field[FIELD + 3] = '\0';
	size_t taken = 0;
	for (size_t i = 0; i < CUTS; i++) {
		char label[16];
		size_t at = column_of(scale, cuts_c[i]);
		int n = snprintf(label, sizeof label, "%.0f", cuts_c[i]);
		size_t from = at > 0 ? at - 1 : 0;
		if (at == FIELD || from < taken)
			continue;
		memcpy(field + from, label, (size_t)n);
		taken = from + (size_t)n + 1;
	}
	size_t n = FIELD + 3;
	while (n > 0 && field[n - 1] == ' ')
		n--;
	field[n] = '\0';
}

static void field_row(
	const struct scale *scale, const struct bc_point *point, char field[FIELD + 1])
{
	memset(field, ' ', FIELD);
	for (size_t i = 0; i < CUTS; i++) {
		size_t at = column_of(scale, cuts_c[i]);
		if (at < FIELD)
			field[at] = ':';
	}
	size_t at = column_of(scale, point->corrected_c);
	if (at < FIELD)
		field[at] = 'o';
	size_t n = FIELD;
	while (n > 0 && field[n - 1] == ' ')
		n--;
	field[n] = '\0';
}

static void reading_row(
	struct bc_page *page, const struct bc_point *point, const struct scale *scale)
{
	char field[FIELD + 1];
	bc_page_row(page, 0);
	switch (point->kind) {
	case BC_READING_IBP:
		bc_page_printf(page, "%11s", "IBP");
		break;
	case BC_READING_FBP:
		bc_page_printf(page, "%11s", "FBP");
		break;
	case BC_READING_DRY:
		bc_page_printf(page, "%11s", "dry");
		break;
	case BC_READING_AMOUNT:
		bc_page_number(page, point->recovered_pct, 1, 11);
		break;
	}
	bc_page_number(page, point->kind == BC_READING_AMOUNT ? point->evaporated_pct : (double)NAN,
		1, 12);
	bc_page_number(page, point->observed_c, 1, 10);
	bc_page_number(page, point->corrected_c, 1, 11);
	bc_page_gap(page, 2);
	if (!point->used)
		bc_page_cell(page, "not used", 0);
	else if (page->html == NULL) {
		field_row(scale, point, field);
		bc_page_cell(page, field, 0);
	} else {
		bc_page_cell(page, "", 0);
	}
	bc_page_row_end(page);
}

static const char *pressure_words(enum bc_pressure_source source)
{
	switch (source) {
	case BC_PRESSURE_BAROMETER:
		return "by the barometer";
	case BC_PRESSURE_ALTITUDE:
		return "from the altitude";
	case BC_PRESSURE_WATER_BOILS:
		return "from boiling water";
	case BC_PRESSURE_ASSUMED:
		break;
	}
	return "assumed";
}

static void weighed_words(const struct bc_boiloff *boiloff, struct bc_text *line)
{
	const struct {
		const char *name;
		double value;
		int decimals;
		const char *unit;
	} weighed[] = {
		{"mass loss", boiloff->mass_loss_pct, 2, "%"},
		{"distillate", boiloff->distillate_kgm3, 1, "kg/m3"},
		{"residue", boiloff->residue_kgm3, 1, "kg/m3"},
	};
	bool any = false;
	for (size_t i = 0; i < sizeof weighed / sizeof weighed[0]; i++) {
		if (isnan(weighed[i].value))
			continue;
		bc_text_printf(line, "%s%s %.*f %s", any ? ", " : " Weighed: ", weighed[i].name,
			weighed[i].decimals, weighed[i].value, weighed[i].unit);
		any = true;
	}
	bc_text_append(line, any ? "." : "");
}

static void site_lines(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_boiloff *boiloff = &judgement->boiloff;
	const struct bc_conditions *conditions = &judgement->conditions;
	struct bc_text line;
	bc_text_init(&line);
	bc_text_printf(&line, "Pressure %.1f kPa (%s). Thermometer: %s. ", conditions->pressure_kpa,
		pressure_words(conditions->pressure_source),
		bc_thermometer_text(conditions->thermometer));
	if (boiloff->residue_known)
		bc_text_printf(&line, "Residue %.1f %%. ", boiloff->residue_pct);
	if (boiloff->loss_known)
		bc_text_printf(&line, "Loss %.1f %%, corrected %.1f %%.", boiloff->loss_pct,
			boiloff->corrected_loss_pct);
	weighed_words(boiloff, &line);
	if (line.data != NULL)
		bc_page_paragraph(page, line.data, NULL, 2);
	page->text->failed = page->text->failed || line.failed;
	bc_text_release(&line);
}

void bc_page_readings(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_boiloff *boiloff = &judgement->boiloff;
	struct scale scale = scale_of(boiloff);
	char heads[FIELD + 4];
	char head[200];
	field_heads(&scale, heads);
	snprintf(head, sizeof head, "%11s%12s%10s%11s\n%11s%12s%10s%11s  %s\n", "recovered",
		"evaporated", "observed", "corrected", "%", "%", "degC", "degC", heads);
	bc_page_heading(
		page, "Readings", "corrected: the D86 basis at 101.3 kPa, on which limits stand");
	bc_page_table(page, head, "recovered, %|evaporated, %|observed, degC|corrected, degC|");
	size_t step = boiloff->n <= ROWS_SHOWN ? 1 : (boiloff->n + ROWS_SHOWN - 1) / ROWS_SHOWN;
	for (size_t i = 0; i < boiloff->n; i++) {
		bool end = i == 0 || i + 1 == boiloff->n ||
			   boiloff->points[i].kind != BC_READING_AMOUNT;
		if (end || i % step == 0)
			reading_row(page, &boiloff->points[i], &scale);
	}
	bc_page_table_end(page);
	if (step > 1)
		bc_page_printf(
			page, "  %zu readings in all; every %zuth is shown\n", boiloff->n, step);
	site_lines(page, judgement);
}

static void one_point(struct bc_page *page, const struct bc_points *points, size_t i, bool last)
{
	char label[16];
	if (i == BC_AT_IBP)
		snprintf(label, sizeof label, "IBP");
	else if (i == BC_AT_FBP)
		snprintf(label, sizeof label, "FBP");
	else
		snprintf(label, sizeof label, "%.0f %%", bc_point_pct[i]);
	bc_page_printf(page, "%6s", label);
	bc_page_number(page, points->at[i].value, 1, 8);
	if (page->html == NULL)
		bc_page_printf(page, "%c ", points->extrapolated[i] ? '~' : ' ');
	bc_page_span(page, points->at[i].low, points->at[i].high, 1, last ? 0 : 22);
}

/* One column, for a narrow screen. */
static void point_table(struct bc_page *page, const struct bc_points *points)
{
	bc_page_table(page, "", "recovered|degC|95 %|");
	for (size_t i = 0; i < BC_POINTS; i++) {
		bc_page_row(page, 0);
		one_point(page, points, i, true);
		bc_page_cell(page, points->extrapolated[i] ? "~" : "", 0);
		bc_page_row_end(page);
	}
	bc_page_table_end(page);
}

static void recovered_rows(struct bc_page *page, const struct bc_points *points)
{
	if (page->html != NULL) {
		bc_page_table(page, "", "by, degC corrected|% of the charge|95 %");
		for (size_t i = 0; i < BC_RECOVERED_AT; i++) {
			const struct bc_estimate *at = &points->recovered_at[i];
			bc_page_row(page, 0);
			bc_page_number(page, bc_recovered_at_c[i], 0, 8);
			bc_page_number(page, at->value, 1, 8);
			bc_page_span(page, at->low, at->high, 1, 0);
			bc_page_row_end(page);
		}
		bc_page_table_end(page);
		return;
	}
	bc_page_printf(page, "  recovered by, degC");
	for (size_t i = 0; i < BC_RECOVERED_AT; i++)
		bc_page_number(page, bc_recovered_at_c[i], 0, 8);
	bc_page_printf(page, "\n  %% of the charge   ");
	for (size_t i = 0; i < BC_RECOVERED_AT; i++)
		bc_page_number(page, points->recovered_at[i].value, 1, 8);
	bc_text_append(page->text, "\n");
}

void bc_page_points(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_points *points = &judgement->points;
	const size_t half = (BC_POINTS + 1) / 2;
	bool any = false;
	bc_page_heading(
		page, "Read off the curve", "degC corrected at % recovered, with 95 % bounds");
	if (page->html != NULL)
		point_table(page, points);
	for (size_t i = 0; page->html == NULL && i < half; i++) {
		one_point(page, points, i, i + half >= BC_POINTS);
		if (i + half < BC_POINTS)
			one_point(page, points, i + half, true);
		bc_text_append(page->text, "\n");
	}
	for (size_t i = 0; i < BC_POINTS; i++)
		any = any || points->extrapolated[i];
	if (any)
		bc_page_printf(page, "  ~ beyond the readings, from the fitted family alone\n");
	recovered_rows(page, points);
}

static void fit_row(struct bc_page *page, const struct bc_fit *fit, bool chosen)
{
	bc_page_row(page, 2);
	bc_page_cell(page, chosen ? "*" : "", 2);
	bc_page_cell(page, fit->model->name, 34);
	if (bc_failed(fit->status)) {
		bc_page_printf(page, "  %s",
			fit->status == BC_TOO_FEW ? "too few readings for it"
						  : "found no solution");
		bc_page_row_end(page);
		return;
	}
	bc_page_number(page, fit->rms_c, 2, 10);
	bc_page_number(page, fit->aicc, 1, 10);
	bc_page_printf(page, "%8zu", fit->points);
	bc_page_row_end(page);
	struct bc_text parameters;
	bc_text_init(&parameters);
	for (size_t i = 0; i < fit->model->n_parameters; i++)
		bc_text_printf(&parameters, "%s%s = %.5g", i > 0 ? ", " : "",
			fit->model->parameter_names[i], fit->parameters[i]);
	bc_page_row(page, 6);
	if (page->html != NULL)
		bc_page_cell(page, "", 0);
	bc_page_cell(page, parameters.data != NULL ? parameters.data : "", 0);
	bc_page_row_end(page);
	page->text->failed = page->text->failed || parameters.failed;
	bc_text_release(&parameters);
}

void bc_page_fits(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_fits *fits = &judgement->fits;
	bc_page_heading(page, "Fitted families", "* chosen: least AICc; IBP and FBP are left out");
	char head[100];
	snprintf(head, sizeof head, "    %-34s%10s%10s%8s\n", "family", "rms, degC", "AICc",
		"points");
	bc_page_table(page, head, "|family|rms, degC|AICc|points");
	bool chosen = true;
	for (size_t i = 0; i < fits->n; i++) {
		if (fits->items[i].model == NULL)
			continue;
		fit_row(page, &fits->items[i], chosen && !bc_failed(fits->items[i].status));
		chosen = false;
	}
	bc_page_table_end(page);
	if (chosen)
		bc_page_printf(page, "    none: too few readings\n");
}
