/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a judgement is made with: texts for the book, options for the judgement. */
#include "command/basis.h"

#include <jansson.h>
#include <string.h>

#include "base/file.h"
#include "base/memory.h"
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

/* {"want": "diesel-range" or null, "standard": "EN 590 ..." or null} */
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
	return result == BC_EXIT_DONE ? read_options(basis) : result;
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
