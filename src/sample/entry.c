/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One entry of a notebook, and the line of the journal that stands for it. */
#include "sample/entry.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/number.h"
#include "sample/reader.h"

/* Fields of a line: session|time|wall|kind|amount|head|pot|text. */
enum { FIELDS = 7 };
#define HIGHEST_SESSION 1e6

static const char *const kinds[BC_ENTRY_KINDS] = {
	"read", "fix", "pot", "note", "key", "undo", "torn"};

void bc_entry_init(struct bc_entry *entry)
{
	*entry = (struct bc_entry){.kind = BC_ENTRY_NOTE,
		.point = BC_READING_AMOUNT,
		.amount = NAN,
		.head = NAN,
		.pot = NAN,
		.time_s = NAN,
		.wall_s = NAN};
}

void bc_entry_release(struct bc_entry *entry)
{
	if (entry == NULL)
		return;
	bc_free(entry->text);
	bc_entry_init(entry);
}

enum bc_status bc_entries_add(struct bc_entries *entries, struct bc_entry *entry)
{
	void *items = entries->items;
	if (bc_grow(&items, entries->n, &entries->capacity, sizeof *entries->items) != 0) {
		bc_entry_release(entry);
		return BC_NO_MEMORY;
	}
	entries->items = items;
	entries->items[entries->n++] = *entry;
	bc_entry_init(entry);
	return BC_OK;
}

void bc_entries_release(struct bc_entries *entries)
{
	for (size_t i = 0; i < entries->n; i++)
		bc_entry_release(&entries->items[i]);
	bc_free(entries->items);
	*entries = (struct bc_entries){0};
}

void bc_entry_point_text(enum bc_reading_kind point, double amount, struct bc_text *text)
{
	if (point == BC_READING_AMOUNT)
		bc_text_printf(text, "%.10g", amount);
	else
		bc_text_append(text, point == BC_READING_IBP   ? "IBP"
				     : point == BC_READING_FBP ? "FBP"
							       : "dry");
}

static void write_time(double value, int decimals, struct bc_text *text)
{
	if (!isnan(value))
		bc_text_printf(text, "%.*f", decimals, value);
	bc_text_append(text, "|");
}

void bc_entry_write(const struct bc_entry *entry, struct bc_text *text)
{
	bool point = entry->kind == BC_ENTRY_READ || entry->kind == BC_ENTRY_FIX;
	bc_text_printf(text, "%u|", entry->session);
	write_time(entry->time_s, 3, text);
	write_time(entry->wall_s, 3, text);
	bc_text_printf(text, "%s|", kinds[entry->kind]);
	if (point)
		bc_entry_point_text(entry->point, entry->amount, text);
	bc_text_append(text, "|");
	if (!isnan(entry->head))
		bc_text_printf(text, "%.10g", entry->head);
	bc_text_append(text, "|");
	if (!isnan(entry->pot))
		bc_text_printf(text, "%.10g", entry->pot);
	bc_text_printf(text, "|%s", entry->text != NULL ? entry->text : "");
}

/* An empty field is NaN. */
static bool read_number(const char *field, double *value)
{
	*value = NAN;
	return *field == '\0' || bc_number_parse(field, '.', value);
}

static bool read_kind(const char *word, enum bc_entry_kind *kind)
{
	for (size_t i = 0; i < BC_ENTRY_KINDS; i++) {
		if (strcmp(kinds[i], word) == 0) {
			*kind = (enum bc_entry_kind)i;
			return true;
		}
	}
	return false;
}

static bool read_point(const char *word, struct bc_entry *entry)
{
	if (bc_end_point_from_label(word, &entry->point))
		return true;
	entry->point = BC_READING_AMOUNT;
	return read_number(word, &entry->amount);
}

/* A reading without a temperature, or a key without a value, was never written. */
static bool is_whole(const struct bc_entry *entry)
{
	bool point = entry->kind == BC_ENTRY_READ || entry->kind == BC_ENTRY_FIX;
	bool worded = entry->kind == BC_ENTRY_NOTE || entry->kind == BC_ENTRY_KEY;
	if (point &&
		(isnan(entry->head) || (entry->point == BC_READING_AMOUNT && isnan(entry->amount))))
		return false;
	if (entry->kind == BC_ENTRY_POT && isnan(entry->pot))
		return false;
	if (entry->kind == BC_ENTRY_KEY && strchr(entry->text, '\t') == NULL)
		return false;
	return !worded || *entry->text != '\0';
}

static bool read_fields(char *fields[FIELDS], const char *rest, struct bc_entry *entry)
{
	double session = NAN;
	if (!read_number(fields[0], &session) || !(session >= 0.0 && session <= HIGHEST_SESSION) ||
		!read_number(fields[1], &entry->time_s) || !read_number(fields[2], &entry->wall_s))
		return false;
	if (!read_kind(fields[3], &entry->kind) || !read_point(fields[4], entry) ||
		!read_number(fields[5], &entry->head) || !read_number(fields[6], &entry->pot))
		return false;
	entry->session = (unsigned)session;
	entry->text = bc_strdup(rest);
	return entry->text == NULL || is_whole(entry);
}

enum bc_status bc_entry_read(const char *line, struct bc_entry *entry)
{
	char *fields[FIELDS];
	bc_entry_init(entry);
	char *copy = bc_strdup(line);
	char *at = copy;
	size_t n = 0;
	if (copy == NULL)
		return BC_NO_MEMORY;
	while (n < FIELDS && at != NULL) {
		fields[n++] = at;
		at = strchr(at, '|');
		if (at != NULL)
			*at++ = '\0';
	}
	bool whole = n == FIELDS && at != NULL && read_fields(fields, at, entry);
	bc_free(copy);
	if (whole && entry->text == NULL)
		return BC_NO_MEMORY;
	if (!whole) {
		bc_entry_release(entry);
		return BC_MALFORMED;
	}
	if (*entry->text == '\0') {
		bc_free(entry->text);
		entry->text = NULL;
	}
	return BC_OK;
}
