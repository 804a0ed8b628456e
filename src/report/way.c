/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The steps from readings to figures: how one is made, held against the judgement, and forgotten.
 */
#include "report/way.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>

#include "base/memory.h"

void bc_way_section(struct bc_way *way, const char *heading) { way->section = heading; }

static struct bc_step *last(const struct bc_way *way)
{
	return way->failed || way->n == 0 ? NULL : &way->items[way->n - 1];
}

void bc_way_plain(struct bc_way *way, const char *figure, double result, const char *unit)
{
	void *items = way->items;
	if (way->failed || bc_grow(&items, way->n, &way->capacity, sizeof *way->items) != 0) {
		way->failed = true;
		return;
	}
	way->items = items;
	struct bc_step *step = &way->items[way->n];
	*step = (struct bc_step){
		.section = way->section,
		.figure = bc_strdup(figure),
		.result = result,
		.unit = unit,
		.low = NAN,
		.high = NAN,
		.reported = NAN,
	};
	if (step->figure == NULL)
		way->failed = true;
	else
		way->n++;
}

void bc_way_input(struct bc_way *way, const char *name, double value, const char *unit)
{
	struct bc_step *step = last(way);
	if (step == NULL || step->n_inputs == BC_FORMULA_INPUTS_MAX)
		return;
	step->names[step->n_inputs] = name;
	step->units[step->n_inputs] = unit;
	step->inputs[step->n_inputs++] = value;
}

void bc_way_formula(struct bc_way *way, const char *figure, const char *id, const double *inputs,
	double reported)
{
	const struct bc_formula *formula = bc_formula_find(id);
	assert(formula != NULL);
	double result = NAN;
	enum bc_status status = formula->eval(inputs, &result);
	bc_way_plain(way, figure, result, formula->unit);
	struct bc_step *step = last(way);
	if (step == NULL)
		return;
	step->formula = formula;
	for (size_t i = 0; i < formula->n_inputs; i++)
		bc_way_input(way, formula->inputs[i].name, inputs[i], formula->inputs[i].unit);
	if (status == BC_OUTSIDE_RANGE)
		bc_way_note(way, "outside the range that its source states");
	else if (bc_failed(status))
		bc_way_note(way, "no result: %s", bc_status_text(status));
	bc_way_reported(way, reported);
}

void bc_way_reported(struct bc_way *way, double reported)
{
	struct bc_step *step = last(way);
	if (step == NULL)
		return;
	step->reported = reported;
	if (!bc_step_agrees(step))
		bc_way_note(way,
			"the report has %.6g, mended: see what was noticed and what was measured",
			reported);
}

void bc_way_words(struct bc_way *way, const char *words)
{
	struct bc_step *step = last(way);
	if (step != NULL)
		step->words = words;
}

void bc_way_bounds(struct bc_way *way, const struct bc_estimate *estimate)
{
	struct bc_step *step = last(way);
	if (step == NULL)
		return;
	step->low = estimate->low;
	step->high = estimate->high;
}

void bc_way_source(struct bc_way *way, const char *format, ...)
{
	struct bc_step *step = last(way);
	if (step == NULL)
		return;
	va_list arguments;
	va_start(arguments, format);
	char *source = bc_vformat(format, arguments);
	va_end(arguments);
	way->failed = way->failed || source == NULL;
	bc_free(step->source);
	step->source = source;
}

void bc_way_note(struct bc_way *way, const char *format, ...)
{
	struct bc_step *step = last(way);
	if (step == NULL)
		return;
	va_list arguments;
	va_start(arguments, format);
	char *note = bc_vformat(format, arguments);
	va_end(arguments);
	if (note != NULL && step->note != NULL) {
		char *both = bc_format("%s; %s", step->note, note);
		bc_free(note);
		note = both;
	}
	way->failed = way->failed || note == NULL;
	bc_free(step->note);
	step->note = note;
}

double bc_way_result(const struct bc_way *way)
{
	const struct bc_step *step = last(way);
	return step != NULL ? step->result : (double)NAN;
}

bool bc_step_agrees(const struct bc_step *step)
{
	const double rounding = 1e-7; /* tables and solvers work to more digits than this */
	if (isnan(step->reported))
		return true;
	return fabs(step->result - step->reported) <= rounding * fmax(1.0, fabs(step->reported));
}

void bc_way_release(struct bc_way *way)
{
	if (way == NULL)
		return;
	for (size_t i = 0; i < way->n; i++) {
		bc_free(way->items[i].figure);
		bc_free(way->items[i].source);
		bc_free(way->items[i].note);
	}
	bc_free(way->items);
	*way = (struct bc_way){0};
}

enum bc_status bc_way_find(const struct bc_judgement *judgement, struct bc_way *way)
{
	*way = (struct bc_way){0};
	bc_way_reading(judgement, way);
	bc_way_curve(judgement, way);
	bc_way_slices(judgement, way);
	bc_way_properties(judgement, way);
	bc_way_flash(judgement, way);
	bc_way_verdict(judgement, way);
	bc_way_cut(judgement, way);
	if (!way->failed)
		return BC_OK;
	bc_way_release(way);
	return BC_NO_MEMORY;
}
