/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut book add': files judged and kept, each in a transaction of its own. */
#include <string.h>

#include "base/file.h"
#include "base/memory.h"
#include "book/figures.h"
#include "command/arguments.h"
#include "command/basis.h"
#include "command/book.h"
#include "command/case.h"
#include "command/inputs.h"
#include "command/output.h"
#include "report/book.h"
#include "report/json.h"
#include "report/report.h"

struct run {
	struct bc_shelf shelf;
	struct bc_basis basis;
	bool json;
	long long replaces; /* 0: a new batch */
	const char *reason;
	size_t files;
	size_t done;
};

/* "Batch 12: re-run; lake-shed-14.csv" */
static int tell(struct run *run, const char *path, const struct bc_place *place, const char *word)
{
	struct bc_text line;
	bc_text_init(&line);
	bc_text_printf(&line, "Batch %lld", place->batch);
	if (place->number > 1)
		bc_text_printf(&line, ", revision %lld", place->number);
	bc_text_printf(&line, ": %s; ", word);
	bc_text_append_escaped(&line, path);
	bc_text_append(&line, "\n");
	int result = line.failed ? bc_no_memory() : BC_EXIT_DONE;
	if (!line.failed)
		bc_out_text(&line);
	bc_text_release(&line);
	run->done++;
	return result;
}

static int tell_json(struct run *run, const char *path, const struct bc_place *place,
	const char *word, const char *error)
{
	bool failed = false;
	json_t *object = json_object();
	bc_json_put(&failed, object, "file", bc_json_text(path));
	bc_json_put(&failed, object, "batch",
		place->batch > 0 ? json_integer(place->batch) : json_null());
	bc_json_put(&failed, object, "revision",
		place->number > 0 ? json_integer(place->number) : json_null());
	bc_json_put(&failed, object, "word", bc_json_text(word));
	bc_json_put(&failed, object, "error", bc_json_text(error));
	object = bc_json_whole(failed, object);
	bool several = run->files > 1;
	if (several)
		bc_out(run->done == 0 ? "[\n" : ",\n");
	int result = bc_out_json(object, several ? 2 : 0) ? (int)BC_EXIT_DONE : bc_no_memory();
	json_decref(object);
	run->done++;
	return result;
}

static int worst(int a, int b) { return a > b ? a : b; }

/* What became of a file. */
static int answer(struct run *run, const char *path, enum bc_status status,
	const struct bc_place *place, const char *word)
{
	const char *error = NULL;
	int result = bc_shelf_say(&run->shelf, status);
	if (status == BC_NOT_FOUND) {
		result = bc_no_such_batch(&run->shelf, run->replaces);
		error = "no such batch";
	} else if (bc_failed(status)) {
		error = "the book did not take it";
	} else if (place->already) {
		bc_complain("%s: already there: batch %lld%s", path, place->batch,
			run->replaces == 0 ? "; a corrected record of it is added with --replaces"
					   : "");
		result = BC_EXIT_NEGATIVE;
		error = "already there";
	}
	if (run->json)
		return worst(
			result, tell_json(run, path, place, error == NULL ? word : NULL, error));
	return error == NULL ? tell(run, path, place, word) : result;
}

/* The judgement as the book keeps it. */
static enum bc_status judgement_line(const struct bc_judgement *judgement, struct bc_text *line)
{
	json_t *json = bc_report_json(judgement);
	enum bc_status status =
		json != NULL ? bc_report_json_line(json, line) : (enum bc_status)BC_NO_MEMORY;
	json_decref(json);
	return status;
}

static int keep(
	struct run *run, const char *path, const char *bytes, size_t n, const struct bc_case *item)
{
	const struct bc_judgement *judgement = &item->judgement;
	bool failed = false;
	char *stills = bc_basis_stills(&item->stills, &failed);
	struct bc_entry entry = {.bytes = bytes, .n = n, .program = BC_VERSION};
	struct bc_place place = {0};
	struct bc_figures figures = {0};
	struct bc_text line;
	bc_text_init(&line);
	bc_entry_from_sample(&entry, judgement->sample);
	entry.word = bc_word_text(judgement->verdict.word);
	if (judgement->verdict.grade != NULL)
		entry.grade = bc_grade_texts[judgement->verdict.grade->name];
	for (int kind = 0; kind < BC_BASES; kind++)
		entry.basis[kind] = run->basis.text[kind];
	entry.basis[BC_BASIS_STILL] = stills;
	enum bc_status status =
		failed ? (enum bc_status)BC_NO_MEMORY : judgement_line(judgement, &line);
	if (!bc_failed(status))
		status = bc_figures_from_judgement(judgement, &figures);
	entry.judgement = line.data;
	entry.figures = figures.items;
	entry.n_figures = figures.n;
	if (!bc_failed(status) && run->replaces > 0)
		status = bc_book_revise(
			&run->shelf.book, run->replaces, run->reason, &entry, &place);
	else if (!bc_failed(status))
		status = bc_book_add(&run->shelf.book, &entry, &place);
	int result = answer(run, path, status, &place, entry.word);
	bc_figures_release(&figures);
	bc_text_release(&line);
	bc_free(stills);
	return result;
}

static int add_one(struct run *run, const char *path)
{
	const struct bc_place nowhere = {0};
	struct bc_diagnostics diagnostics;
	char *bytes = NULL;
	size_t n = 0;
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = bc_file_read(path, BC_SAMPLE_LIMIT_BYTES, &bytes, &n, &diagnostics);
	bc_print_diagnostics(&diagnostics);
	bc_diagnostics_release(&diagnostics);
	int result = status == BC_NO_MEMORY ? bc_no_memory() : bc_exit_from_status(status);
	struct bc_case *item = bc_alloc(sizeof *item);
	if (item == NULL)
		result = bc_no_memory();
	else if (!bc_failed(status))
		result = bc_case_open_bytes(item, path, bytes, n, &run->basis.options);
	if (result == BC_EXIT_DONE && item != NULL)
		result = keep(run, path, bytes, n, item);
	else if (run->json)
		result = worst(result,
			tell_json(run, path, &nowhere, NULL,
				item != NULL && item->error != NULL ? item->error : "not read"));
	bc_case_close(item);
	bc_free(item);
	bc_free(bytes);
	return result;
}

static int read_replaces(const struct bc_arguments *arguments, struct run *run, size_t files)
{
	const char *batch = bc_arguments_value(arguments, "replaces");
	run->reason = bc_arguments_value(arguments, "reason");
	if (batch == NULL && run->reason == NULL)
		return BC_EXIT_DONE;
	if (batch == NULL || run->reason == NULL || run->reason[0] == '\0')
		return bc_wrong_usage(arguments->command, "a record is replaced for a reason; "
							  "expected --replaces N --reason TEXT");
	if (files != 1)
		return bc_wrong_usage(
			arguments->command, "'--replaces' is about one record; expected one FILE");
	return bc_batch_number(arguments, batch, &run->replaces);
}

static int add_all(
	const struct bc_arguments *arguments, struct run *run, const struct bc_strings *paths)
{
	int result = read_replaces(arguments, run, paths->n);
	if (result == BC_EXIT_DONE)
		result = bc_basis_from_arguments(arguments, &run->basis);
	if (result == BC_EXIT_DONE)
		result = bc_shelf_open(arguments, &run->shelf);
	if (result != BC_EXIT_DONE)
		return result;
	run->files = paths->n;
	for (size_t i = 0; i < paths->n && !bc_out_failed(); i++)
		result = worst(result, add_one(run, paths->items[i]));
	if (run->json && run->files > 1)
		bc_out("\n]\n");
	return result;
}

int bc_add_paths(const struct bc_arguments *arguments, const struct bc_strings *paths)
{
	struct run run = {.json = bc_arguments_has(arguments, "json")};
	int result = add_all(arguments, &run, paths);
	bc_shelf_close(&run.shelf);
	bc_basis_release(&run.basis);
	return result;
}

static int run_add(const struct bc_arguments *arguments)
{
	struct bc_strings paths;
	bc_strings_init(&paths);
	int result = bc_inputs_collect(arguments, &paths);
	if (result == BC_EXIT_DONE && paths.n == 0)
		result = bc_wrong_usage(
			arguments->command, "book add lacks a word; expected FILE or --files-from");
	if (result == BC_EXIT_DONE)
		result = bc_add_paths(arguments, &paths);
	bc_strings_release(&paths);
	return result;
}

static const struct bc_option options[] = {
	BC_BOOK_OPTION,
	{"replaces", '\0', "N", "a corrected record of batch N; the old one is kept"},
	{"reason", '\0', "TEXT", "why: stands beside the corrected record"},
	{"files-from", '\0', "LIST", "also add the files named in LIST, one a line; - is stdin"},
	{"want", '\0', "GRADE", "judge for GRADE, as 'boilcut judge' does"},
	{"standard", '\0', "NAME", "the same for one standard; the beginning of its name will do"},
	{"limits", '\0', "FILE", "limits from a CSV file (default: those of 'boilcut limits')"},
	{"json", '\0', NULL, "one JSON object, or an array for several files"},
};

static const char *const synopses[] = {
	"book add [OPTION...] FILE...",
	"book add [OPTION...] --replaces N --reason TEXT FILE",
	NULL,
};
static const char *const examples[] = {
	"boilcut book add samples/lake-shed-14.csv samples/lamp-oil.csv",
	"boilcut book add --replaces 1 --reason 'IBP misread' samples/wet-oil.csv",
	NULL,
};

const struct bc_command bc_book_add_command = {
	.name = "book add",
	.summary = "judge files and keep them",
	.synopses = synopses,
	.about = "Judges each file as 'boilcut judge' does and keeps it: the file as it is, the "
		 "judgement, and the limits and options it was made with. A file that is there "
		 "already is not added again (exit 1); one that cannot be judged is not added, and "
		 "the others are.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_add,
};
