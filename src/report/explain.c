/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The way of every figure as text for a person and as JSON. */
#include <math.h>
#include <string.h>

#include "report/json.h"
#include "report/page.h"
#include "report/report.h"
#include "report/way.h"

static const char unchecked_words[] = "no value in print was found to check it";

static void append_value(struct bc_text *line, double value, const char *unit)
{
	if (isnan(value))
		bc_text_append(line, "-");
	else
		bc_text_printf(line, "%.6g", value);
	if (unit != NULL && unit[0] != '\0' && strcmp(unit, "-") != 0)
		bc_text_printf(line, " %s", unit);
}

/* "flash_t10_c = 88.0763 degC (56.4752 to 93.6739)" */
static void result_line(const struct bc_step *step, struct bc_text *line)
{
	bc_text_append(line, step->figure);
	bc_text_append(line, " = ");
	if (step->words != NULL)
		bc_text_append(line, step->words);
	else
		append_value(line, step->result, step->unit);
	if (!isnan(step->low) && !isnan(step->high))
		bc_text_printf(line, " (%.6g to %.6g)", step->low, step->high);
	else if (!isnan(step->high))
		bc_text_printf(line, " (up to %.6g, no low bound)", step->high);
	if (step->formula != NULL && bc_formula_unchecked(step->formula->id))
		bc_text_append(line, " *");
}

/* "flash.t10_api: t10_c 230.104 degC" */
static void origin_line(const struct bc_step *step, struct bc_text *line)
{
	const char *lead = step->formula != NULL ? step->formula->id : step->source;
	if (lead != NULL)
		bc_text_append(line, lead);
	for (size_t i = 0; i < step->n_inputs; i++) {
		bc_text_append(line, i > 0 ? ", " : lead != NULL ? ": " : "");
		bc_text_printf(line, "%s ", step->names[i]);
		append_value(line, step->inputs[i], step->units[i]);
	}
	if (step->note != NULL)
		bc_text_printf(line, "%s%s", line->length > 0 ? "; " : "", step->note);
}

static void paragraph(
	struct bc_page *page, const struct bc_text *line, const char *first, size_t indent)
{
	if (line->failed)
		page->text->failed = true;
	else if (line->data != NULL)
		bc_page_paragraph(page, line->data, first, indent);
}

static void print_step(struct bc_page *page, const struct bc_step *step)
{
	struct bc_text result;
	struct bc_text origin;
	bc_text_init(&result);
	bc_text_init(&origin);
	result_line(step, &result);
	origin_line(step, &origin);
	paragraph(page, &result, "  ", 4);
	paragraph(page, &origin, NULL, 6);
	bc_text_release(&result);
	bc_text_release(&origin);
}

static bool used_before(const struct bc_way *way, size_t at)
{
	for (size_t i = 0; i < at; i++)
		if (way->items[i].formula == way->items[at].formula)
			return true;
	return false;
}

/* Each formula once, with where it stands in print and how far it is to be trusted. */
static void print_sources(struct bc_page *page, const struct bc_way *way)
{
	bc_page_heading(page, "The formulae and their sources", NULL);
	for (size_t i = 0; i < way->n; i++) {
		const struct bc_formula *formula = way->items[i].formula;
		struct bc_text line;
		if (formula == NULL || used_before(way, i))
			continue;
		bc_text_init(&line);
		bc_text_printf(&line, "%s: %s%s%s; %s", formula->id, formula->source,
			formula->equation[0] != '\0' ? "; " : "", formula->equation,
			formula->accuracy);
		if (bc_formula_unchecked(formula->id))
			bc_text_printf(&line, "; * %s", unchecked_words);
		paragraph(page, &line, "  ", 4);
		bc_text_release(&line);
	}
}

enum bc_status bc_report_explain(const struct bc_judgement *judgement,
	const struct bc_page_style *style, struct bc_text *text)
{
	struct bc_page page = {.text = text, .style = style};
	const char *section = NULL;
	struct bc_way way;
	enum bc_status status = bc_way_find(judgement, &way);
	if (status != BC_OK)
		return status;
	bc_page_head(&page, judgement);
	bc_page_verdict(&page, judgement);
	bc_page_danger(&page, judgement);
	for (size_t i = 0; i < way.n; i++) {
		if (way.items[i].section != section)
			bc_page_heading(&page, way.items[i].section, NULL);
		section = way.items[i].section;
		print_step(&page, &way.items[i]);
	}
	print_sources(&page, &way);
	if (style->fits)
		bc_page_fits(&page, judgement);
	bc_page_assumed(&page, judgement);
	bc_page_cautions(&page, judgement);
	bc_way_release(&way);
	return text->failed ? BC_NO_MEMORY : BC_OK;
}

/* ---- JSON */

static json_t *source_json(const struct bc_step *step)
{
	const struct bc_formula *formula = step->formula;
	struct bc_text line;
	if (formula == NULL)
		return bc_json_text(step->source);
	bc_text_init(&line);
	bc_text_printf(&line, "%s%s%s", formula->source, formula->equation[0] != '\0' ? "; " : "",
		formula->equation);
	json_t *json = line.failed ? NULL : bc_json_text(line.data);
	bc_text_release(&line);
	return json;
}

static json_t *step_json(const struct bc_step *step, bool *failed)
{
	const struct bc_formula *formula = step->formula;
	json_t *object = json_object();
	json_t *inputs = json_object();
	for (size_t i = 0; i < step->n_inputs; i++)
		bc_json_put(failed, inputs, step->names[i], bc_json_number(step->inputs[i]));
	bc_json_put(failed, object, "figure", bc_json_text(step->figure));
	bc_json_put(failed, object, "formula", bc_json_text(formula != NULL ? formula->id : NULL));
	bc_json_put(failed, object, "inputs", inputs);
	bc_json_put(failed, object, "result",
		step->words != NULL ? bc_json_text(step->words) : bc_json_number(step->result));
	bc_json_put(failed, object, "unit", bc_json_text(step->unit));
	bc_json_put(failed, object, "source", source_json(step));
	bc_json_put(failed, object, "unchecked",
		json_boolean(formula != NULL && bc_formula_unchecked(formula->id)));
	bc_json_put(failed, object, "note", bc_json_text(step->note));
	return object;
}

json_t *bc_report_explain_json(const struct bc_judgement *judgement)
{
	struct bc_way way;
	bool failed = false;
	if (bc_way_find(judgement, &way) != BC_OK)
		return NULL;
	json_t *array = json_array();
	for (size_t i = 0; i < way.n; i++)
		bc_json_append(&failed, array, step_json(&way.items[i], &failed));
	bc_way_release(&way);
	return bc_json_whole(failed, array);
}
