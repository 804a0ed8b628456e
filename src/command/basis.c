/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a judgement is made with: texts for the book, options for the judgement. */
#include "command/basis.h"

#include <jansson.h>
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "base/file.h"
#include "base/memory.h"
#include "base/number.h"
#include "base/table.h"
#include "command/command.h"
#include "command/output.h"
#include "command/wishes.h"
#include "report/book.h"
#include "report/json.h"

/* The text of --limits FILE, or of the embedded table. */
static int limits_text(const char *path, char **text)
{
	struct bc_diagnostics diagnostics;
	size_t n = 0;
	enum bc_status status = BC_OK;
	bc_diagnostics_init(&diagnostics);
	if (path != NULL)
		status = bc_file_read(path, BC_SAMPLE_LIMIT_BYTES, text, &n, &diagnostics);
	else
		*text = bc_table_text(bc_table_find("limits"));
	if (!bc_failed(status) && *text == NULL)
		status = BC_NO_MEMORY;
	if (!bc_failed(status) && path != NULL && strlen(*text) != n) {
		bc_diagnose(&diagnostics, BC_ERROR, path, 0, "is not text; expected a CSV file");
		status = BC_MALFORMED;
	}
	bc_print_diagnostics(&diagnostics);
	bc_diagnostics_release(&diagnostics);
	return status == BC_NO_MEMORY ? bc_no_memory() : bc_exit_from_status(status);
}

static int read_limits(const char *name, struct bc_basis *basis)
{
	struct bc_diagnostics diagnostics;
	const char *text = basis->text[BC_BASIS_LIMITS];
	bc_diagnostics_init(&diagnostics);
	enum bc_status status =
		bc_limits_read(text, strlen(text), name, &diagnostics, &basis->limits);
	bc_print_diagnostics(&diagnostics);
	bc_diagnostics_release(&diagnostics);
	basis->options.limits = basis->limits;
	return status == BC_NO_MEMORY ? bc_no_memory() : bc_exit_from_status(status);
}

/* {"want": "diesel-range" or null, "standard": "EN 590 ..." or null, "draws", "seed"} */
static int write_options(struct bc_basis *basis)
{
	const struct bc_judge_options *options = &basis->options;
	struct bc_text text;
	bool failed = false;
	json_t *json = json_object();
	bc_text_init(&text);
	bc_json_put(&failed, json, "want",
		bc_json_text(options->want == BC_GRADES ? NULL : bc_grade_texts[options->want]));
	bc_json_put(&failed, json, "standard", bc_json_text(options->standard));
	bc_json_put(&failed, json, "draws", json_integer((json_int_t)options->draws));
	bc_json_put(&failed, json, "seed", json_integer((json_int_t)options->seed));
	json = bc_json_whole(failed, json);
	failed = json == NULL || bc_failed(bc_report_json_line(json, &text));
	json_decref(json);
	if (!failed)
		basis->text[BC_BASIS_OPTIONS] = bc_text_take(&text);
	bc_text_release(&text);
	return basis->text[BC_BASIS_OPTIONS] != NULL ? (int)BC_EXIT_DONE : bc_no_memory();
}

int bc_basis_from_arguments(const struct bc_arguments *arguments, struct bc_basis *basis)
{
	const char *path = bc_arguments_value(arguments, "limits");
	*basis = (struct bc_basis){0};
	int result = limits_text(path, &basis->text[BC_BASIS_LIMITS]);
	if (result == BC_EXIT_DONE)
		result = read_limits(path != NULL ? path : "limits", basis);
	if (result == BC_EXIT_DONE)
		result = bc_wishes_read(arguments, basis->limits, &basis->options);
	if (result == BC_EXIT_DONE)
		result = write_options(basis);
	return result;
}

/* The options of a record; what this program does not know of them is passed over. */
static int read_options(struct bc_basis *basis)
{
	json_t *json = NULL;
	enum bc_status status = bc_report_json_read(basis->text[BC_BASIS_OPTIONS], &json);
	if (status == BC_NO_MEMORY)
		return bc_no_memory();
	const char *want = json_string_value(json_object_get(json, "want"));
	const char *standard = json_string_value(json_object_get(json, "standard"));
	basis->options.want = BC_GRADES;
	basis->options.draws = (size_t)json_integer_value(json_object_get(json, "draws"));
	basis->options.seed = (unsigned long)json_integer_value(json_object_get(json, "seed"));
	for (int i = 0; want != NULL && i < BC_GRADES; i++) {
		if (strcmp(bc_grade_texts[i], want) == 0)
			basis->options.want = (enum bc_grade_name)i;
	}
	for (size_t i = 0; standard != NULL && i < basis->limits->n; i++) {
		if (strcmp(basis->limits->items[i].standard, standard) == 0)
			basis->options.standard = basis->limits->items[i].standard;
	}
	json_decref(json);
	return bc_exit_from_status(status);
}

/* ---- stills */

/* Where a figure of a still stands. */
static const struct {
	const char *key;
	size_t offset;
} still_figures[] = {
	{"stages", offsetof(struct bc_still, column.stages)},
	{"reflux", offsetof(struct bc_still, column.reflux)},
	{"effective_plates", offsetof(struct bc_still, column.effective_plates)},
	{"carry_pct", offsetof(struct bc_still, carry_pct)},
	{"carry_half_width_pct", offsetof(struct bc_still, carry_half_width_pct)},
	{"plates_low", offsetof(struct bc_still, plates_low)},
	{"plates_high", offsetof(struct bc_still, plates_high)},
};
enum { STILL_FIGURES = sizeof still_figures / sizeof still_figures[0] };

/* Figures as text with all their digits: "nan" and "inf" are figures too. */
static json_t *still_json(const struct bc_still *still, bool *failed)
{
	json_t *json = json_object();
	bc_json_put(failed, json, "name", bc_json_text(still->name));
	bc_json_put(failed, json, "source", json_integer(still->source));
	bc_json_put(failed, json, "thermometer", json_integer(still->thermometer));
	for (size_t i = 0; i < STILL_FIGURES; i++) {
		double value;
		char digits[32];
		memcpy(&value, (const char *)still + still_figures[i].offset, sizeof value);
		snprintf(digits, sizeof digits, "%.17g", value);
		bc_json_put(failed, json, still_figures[i].key, bc_json_text(digits));
	}
	return json;
}

char *bc_basis_stills(const struct bc_sample_stills *stills, bool *failed)
{
	struct bc_text text;
	if (!stills->has_rerun && !stills->has_apparatus)
		return NULL;
	json_t *json = json_object();
	if (stills->has_rerun)
		bc_json_put(failed, json, "rerun", still_json(&stills->rerun, failed));
	if (stills->has_apparatus)
		bc_json_put(failed, json, "apparatus", still_json(&stills->apparatus, failed));
	bc_text_init(&text);
	json = bc_json_whole(*failed, json);
	*failed = json == NULL || bc_failed(bc_report_json_line(json, &text));
	json_decref(json);
	char *line = *failed ? NULL : bc_text_take(&text);
	bc_text_release(&text);
	return line;
}

static bool read_still(const json_t *json, struct bc_still *still)
{
	const char *name = json_string_value(json_object_get(json, "name"));
	*still = bc_still_default();
	snprintf(still->name, sizeof still->name, "%s", name != NULL ? name : "");
	json_int_t source = json_integer_value(json_object_get(json, "source"));
	json_int_t thermometer = json_integer_value(json_object_get(json, "thermometer"));
	if (source < 0 || source >= BC_STILL_SOURCES || thermometer < 0 ||
		thermometer > BC_THERMOMETER_PROBE)
		return false;
	still->source = (enum bc_still_source)source;
	still->thermometer = (enum bc_thermometer)thermometer;
	for (size_t i = 0; i < STILL_FIGURES; i++) {
		const char *digits = json_string_value(json_object_get(json, still_figures[i].key));
		double value = NAN;
		if (digits == NULL)
			return false;
		if (strcmp(digits, "inf") == 0)
			value = INFINITY;
		else if (strstr(digits, "nan") == NULL && !bc_number_parse(digits, '.', &value))
			return false;
		memcpy((char *)still + still_figures[i].offset, &value, sizeof value);
	}
	return true;
}

static int read_stills(struct bc_basis *basis)
{
	json_t *json = NULL;
	struct bc_sample_stills *stills = &basis->stills;
	if (basis->text[BC_BASIS_STILL] == NULL)
		return BC_EXIT_DONE;
	enum bc_status status = bc_report_json_read(basis->text[BC_BASIS_STILL], &json);
	if (status == BC_NO_MEMORY)
		return bc_no_memory();
	const json_t *rerun = json_object_get(json, "rerun");
	const json_t *apparatus = json_object_get(json, "apparatus");
	stills->has_rerun = rerun != NULL;
	stills->has_apparatus = apparatus != NULL;
	bool whole = (rerun == NULL || read_still(rerun, &stills->rerun)) &&
		     (apparatus == NULL || read_still(apparatus, &stills->apparatus));
	basis->options = bc_sample_stills_options(stills, &basis->options);
	json_decref(json);
	return whole ? bc_exit_from_status(status) : (int)BC_EXIT_DATA;
}

int bc_basis_from_record(const struct bc_record *record, struct bc_basis *basis)
{
	*basis = (struct bc_basis){0};
	for (int kind = 0; kind < BC_BASES; kind++) {
		if (record->basis[kind] == NULL)
			continue;
		basis->text[kind] = bc_strdup(record->basis[kind]);
		if (basis->text[kind] == NULL)
			return bc_no_memory();
	}
	int result = read_limits("limits of the book", basis);
	if (result == BC_EXIT_DONE)
		result = read_options(basis);
	return result == BC_EXIT_DONE ? read_stills(basis) : result;
}

void bc_basis_release(struct bc_basis *basis)
{
	if (basis == NULL)
		return;
	for (int kind = 0; kind < BC_BASES; kind++)
		bc_free(basis->text[kind]);
	bc_limits_free(basis->limits);
	*basis = (struct bc_basis){0};
}
