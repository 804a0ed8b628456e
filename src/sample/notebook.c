/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sample that is being written: entries one after the other, fixed and taken back, and the file
 * that they make. */
#include "sample/notebook.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "sample/cell.h"
#include "sample/journal.h"

#define SAME_AMOUNT 1e-9
#define NUMBER "%.10g"

void bc_notebook_init(struct bc_notebook *notebook)
{
	*notebook = (struct bc_notebook){.basis = BC_AMOUNT_VOLUME_PCT, .unit = 'C'};
	bc_text_init(&notebook->remark);
}

static void forget(struct bc_notebook *notebook)
{
	for (size_t i = 0; i < notebook->n_noted; i++)
		bc_text_release(&notebook->noted[i].note);
	notebook->n_noted = 0;
	bc_text_release(&notebook->remark);
	bc_text_init(&notebook->remark);
	if (notebook->sheet_note != NULL)
		bc_text_append(&notebook->remark, notebook->sheet_note);
}

void bc_notebook_release(struct bc_notebook *notebook)
{
	if (notebook == NULL)
		return;
	bc_free(notebook->sheet_note);
	notebook->sheet_note = NULL;
	forget(notebook);
	bc_free(notebook->noted);
	bc_entries_release(&notebook->stands);
	bc_free(notebook->keys);
	bc_notebook_init(notebook);
}

/* The rows above the table, of a sample without readings. */
static char *key_rows(const struct bc_sample *sheet)
{
	struct bc_text text;
	bc_text_init(&text);
	enum bc_status status = bc_sample_write(sheet, &text);
	char *rows = bc_failed(status) || text.failed ? NULL : bc_text_take(&text);
	bc_text_release(&text);
	if (rows == NULL)
		return NULL;
	const char *heading = bc_amount_heading(sheet->amount_basis);
	char *table = strncmp(rows, heading, strlen(heading)) == 0 ? rows : strstr(rows, "\n\n");
	if (table != NULL)
		*table = '\0';
	return rows;
}

enum bc_status bc_notebook_begin(
	struct bc_notebook *notebook, const struct bc_sample *sheet, char unit)
{
	notebook->unit = unit;
	if (sheet != NULL)
		notebook->basis = sheet->amount_basis;
	notebook->keys = sheet != NULL ? key_rows(sheet) : bc_strdup("");
	if (sheet != NULL && sheet->note != NULL) {
		notebook->sheet_note = bc_strdup(sheet->note);
		if (notebook->sheet_note == NULL)
			return BC_NO_MEMORY;
		forget(notebook);
	}
	return notebook->keys == NULL || notebook->remark.failed ? BC_NO_MEMORY : BC_OK;
}

/* ---- applying */

static struct bc_noted *find(
	struct bc_notebook *notebook, enum bc_reading_kind point, double amount)
{
	for (size_t i = notebook->n_noted; i-- > 0;) {
		struct bc_noted *noted = &notebook->noted[i];
		if (noted->point != point)
			continue;
		if (point != BC_READING_AMOUNT || fabs(noted->amount - amount) <= SAME_AMOUNT)
			return noted;
	}
	return NULL;
}

const struct bc_noted *bc_notebook_find(
	const struct bc_notebook *notebook, enum bc_reading_kind point, double amount)
{
	for (size_t i = notebook->n_noted; i-- > 0;) {
		const struct bc_noted *noted = &notebook->noted[i];
		bool same =
			point != BC_READING_AMOUNT || fabs(noted->amount - amount) <= SAME_AMOUNT;
		if (noted->point == point && same)
			return noted;
	}
	return NULL;
}

static enum bc_status add_reading(struct bc_notebook *notebook, const struct bc_entry *entry)
{
	void *items = notebook->noted;
	if (bc_grow(&items, notebook->n_noted, &notebook->noted_capacity,
		    sizeof *notebook->noted) != 0)
		return BC_NO_MEMORY;
	notebook->noted = items;
	struct bc_noted *noted = &notebook->noted[notebook->n_noted++];
	*noted = (struct bc_noted){.point = entry->point,
		.amount = entry->amount,
		.head = entry->head,
		.pot = entry->pot,
		.time_s = entry->time_s,
		.session = entry->session};
	bc_text_init(&noted->note);
	return BC_OK;
}

static enum bc_status add_note(struct bc_text *note, const char *words)
{
	if (note->length > 0)
		bc_text_append(note, "; ");
	bc_text_append(note, words);
	return note->failed ? BC_NO_MEMORY : BC_OK;
}

static enum bc_status put(struct bc_notebook *notebook, const struct bc_entry *entry)
{
	struct bc_noted *last =
		notebook->n_noted > 0 ? &notebook->noted[notebook->n_noted - 1] : NULL;
	struct bc_noted *fixed = NULL;
	switch (entry->kind) {
	case BC_ENTRY_READ:
		return add_reading(notebook, entry);
	case BC_ENTRY_FIX:
		fixed = find(notebook, entry->point, entry->amount);
		if (fixed != NULL)
			fixed->head = entry->head;
		return BC_OK;
	case BC_ENTRY_POT:
		if (last != NULL)
			last->pot = entry->pot;
		return BC_OK;
	case BC_ENTRY_NOTE:
		return add_note(last != NULL ? &last->note : &notebook->remark, entry->text);
	case BC_ENTRY_KEY:
	case BC_ENTRY_UNDO:
	case BC_ENTRY_TORN:
	case BC_ENTRY_KINDS:
		break;
	}
	return BC_OK;
}

/* From the start without the last entry: a fix may have hidden what it fixed. */
static enum bc_status undo(struct bc_notebook *notebook)
{
	struct bc_entries *stands = &notebook->stands;
	enum bc_status status = BC_OK;
	if (stands->n == 0)
		return BC_OK;
	bc_entry_release(&stands->items[--stands->n]);
	forget(notebook);
	for (size_t i = 0; i < stands->n && !bc_failed(status); i++)
		status = put(notebook, &stands->items[i]);
	return status;
}

enum bc_status bc_notebook_apply(struct bc_notebook *notebook, struct bc_entry *entry)
{
	enum bc_status status = BC_OK;
	if (entry->kind == BC_ENTRY_UNDO)
		status = undo(notebook);
	if (entry->kind == BC_ENTRY_UNDO || entry->kind == BC_ENTRY_TORN) {
		bc_entry_release(entry);
		return status;
	}
	status = bc_entries_add(&notebook->stands, entry);
	if (!bc_failed(status))
		status = put(notebook, &notebook->stands.items[notebook->stands.n - 1]);
	return status;
}

/* ---- writing */

static bool is_named(const char *line, size_t n, const char *name, size_t n_name)
{
	return n > n_name && line[n_name] == ',' && strncmp(line, name, n_name) == 0;
}

/* Whether a later entry gives the key that starts at name. */
static bool given_later(const struct bc_notebook *notebook, size_t from,
	const struct bc_entry *more, const char *line, size_t n)
{
	for (size_t i = from; i < notebook->stands.n; i++) {
		const struct bc_entry *entry = &notebook->stands.items[i];
		if (entry->kind == BC_ENTRY_KEY &&
			is_named(line, n, entry->text, strcspn(entry->text, "\t")))
			return true;
	}
	return more != NULL && is_named(line, n, more->text, strcspn(more->text, "\t"));
}

static void write_key(const char *text, struct bc_text *file)
{
	size_t n = strcspn(text, "\t");
	bc_text_append_n(file, text, n);
	bc_text_append(file, ",");
	bc_cell_append(file, text + n + 1);
	bc_text_append(file, "\n");
}

static void write_keys(
	const struct bc_notebook *notebook, const struct bc_entry *more, struct bc_text *file)
{
	for (const char *line = notebook->keys; *line != '\0';) {
		size_t n = strcspn(line, "\n");
		if (!given_later(notebook, 0, more, line, n) && !is_named(line, n, "note", 4)) {
			bc_text_append_n(file, line, n);
			bc_text_append(file, "\n");
		}
		line += n + (line[n] == '\n');
	}
	for (size_t i = 0; i < notebook->stands.n; i++) {
		const struct bc_entry *entry = &notebook->stands.items[i];
		if (entry->kind != BC_ENTRY_KEY)
			continue;
		struct bc_text row;
		bc_text_init(&row);
		write_key(entry->text, &row);
		if (row.data != NULL &&
			!given_later(notebook, i + 1, more, row.data, strlen(row.data)))
			bc_text_append(file, row.data);
		file->failed = file->failed || row.failed;
		bc_text_release(&row);
	}
	if (more != NULL)
		write_key(more->text, file);
	if (notebook->remark.length > 0) {
		bc_text_append(file, "note,");
		bc_cell_append(file, notebook->remark.data);
		bc_text_append(file, "\n");
	}
}

static void write_number(double value, struct bc_text *file)
{
	bc_text_append(file, ",");
	if (!isnan(value))
		bc_text_printf(file, NUMBER, value);
}

/* All IBP first, then the amounts as entered, then FBP and dry point: the order of a table. */
static int place_of(enum bc_reading_kind point)
{
	return point == BC_READING_IBP ? 0 : point == BC_READING_AMOUNT ? 1 : 2;
}

enum bc_status bc_notebook_write(
	const struct bc_notebook *notebook, const struct bc_entry *more, struct bc_text *file)
{
	char unit = notebook->unit;
	write_keys(notebook, more, file);
	bc_text_printf(file, "\n%s,head (%c),pot (%c),time (s),note\n",
		bc_amount_heading(notebook->basis), unit, unit);
	for (int place = 0; place < 3; place++) {
		for (size_t i = 0; i < notebook->n_noted; i++) {
			const struct bc_noted *noted = &notebook->noted[i];
			if (place_of(noted->point) != place)
				continue;
			bc_entry_point_text(noted->point, noted->amount, file);
			write_number(noted->head, file);
			write_number(noted->pot, file);
			write_number(round(noted->time_s), file);
			bc_text_append(file, ",");
			if (noted->note.length > 0)
				bc_cell_append(file, noted->note.data);
			bc_text_append(file, "\n");
		}
	}
	return file->failed ? BC_NO_MEMORY : BC_OK;
}

enum bc_status bc_notebook_sample(const struct bc_notebook *notebook, const struct bc_entry *more,
	struct bc_diagnostics *diagnostics, struct bc_sample **sample)
{
	const struct bc_unit *unit = NULL;
	struct bc_text text;
	*sample = NULL;
	bc_text_init(&text);
	enum bc_status status = bc_notebook_write(notebook, more, &text);
	if (!bc_failed(status))
		status = bc_sample_read_sheet(
			text.data, text.length, notebook->file, diagnostics, sample, &unit);
	bc_text_release(&text);
	return status;
}
