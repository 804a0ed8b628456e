/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The journal of a boil-off: numbered records with a checksum, whatever the power does. */
#include "sample/journal.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "sample/cell.h"

#define MAGIC "boilcut journal "
#define VERSION "1"
#define CHECK_SIZE 9 /* '|' and eight digits */

static const char *const headings[] = {
	[BC_AMOUNT_VOLUME_PCT] = "recovered (%)",
	[BC_AMOUNT_MASS_PCT] = "recovered (mass %)",
	[BC_AMOUNT_VOLUME_ML] = "recovered (mL)",
	[BC_AMOUNT_MASS_G] = "recovered (g)",
};
#define HEADINGS (sizeof headings / sizeof headings[0])

const char *bc_amount_heading(enum bc_amount_basis basis) { return headings[basis]; }

/* CRC-32 of ISO 3309 and IEEE 802.3, polynomial 0x04C11DB7 reflected; from memory, checked on
 * "123456789" = CBF43926. */
static uint32_t check_of(const char *bytes, size_t n)
{
	uint32_t check = 0xFFFFFFFFu;
	for (size_t i = 0; i < n; i++) {
		check ^= (unsigned char)bytes[i];
		for (int bit = 0; bit < 8; bit++)
			check = (check >> 1) ^ ((check & 1u) ? 0xEDB88320u : 0u);
	}
	return check ^ 0xFFFFFFFFu;
}

/* Closes the line that starts at from. */
static void write_check(struct bc_text *text, size_t from)
{
	if (text->data != NULL && !text->failed)
		bc_text_printf(text, "|%08lX\n",
			(unsigned long)check_of(text->data + from, text->length - from));
}

static bool check_holds(const char *line, size_t n)
{
	char expected[CHECK_SIZE + 1];
	if (n < CHECK_SIZE || memchr(line, '\0', n) != NULL)
		return false;
	snprintf(
		expected, sizeof expected, "|%08lX", (unsigned long)check_of(line, n - CHECK_SIZE));
	return memcmp(expected, line + n - CHECK_SIZE, CHECK_SIZE) == 0;
}

/* ---- reading */

void bc_journal_text_release(struct bc_journal_text *text)
{
	if (text == NULL)
		return;
	bc_entries_release(&text->entries);
	bc_free(text->torn_text);
	*text = (struct bc_journal_text){0};
}

/* What a read goes through. */
struct pages {
	const char *bytes;
	size_t n;
	size_t at;
	size_t line;
	const char *path;
	struct bc_diagnostics *diagnostics;
};

static enum bc_status refuse(const struct pages *pages, const char *why)
{
	bc_diagnose(pages->diagnostics, BC_ERROR, pages->path, pages->line, "%s", why);
	return BC_MALFORMED;
}

/* The next line without its end; false at the end of the bytes. */
static bool next_line(struct pages *pages, const char **line, size_t *n, bool *ended)
{
	if (pages->at >= pages->n)
		return false;
	const char *start = pages->bytes + pages->at;
	const char *end = memchr(start, '\n', pages->n - pages->at);
	*line = start;
	*ended = end != NULL;
	*n = end != NULL ? (size_t)(end - start) : pages->n - pages->at;
	pages->at += *n + (*ended ? 1 : 0);
	pages->line++;
	return true;
}

/* Takes a field off the front of *rest: up to the next '|'. */
static char *take_field(char **rest)
{
	char *field = *rest;
	char *bar = field != NULL ? strchr(field, '|') : NULL;
	*rest = bar != NULL ? bar + 1 : NULL;
	if (bar != NULL)
		*bar = '\0';
	return field;
}

static enum bc_status read_head_fields(
	const struct pages *pages, char *words, const char *file, struct bc_journal_text *text)
{
	char *rest = words + strlen(MAGIC);
	const char *version = take_field(&rest);
	const char *amounts = take_field(&rest);
	const char *heads = take_field(&rest);
	size_t basis = 0;
	if (strcmp(version, VERSION) != 0)
		return refuse(pages, "is a journal of another version of boilcut; version " VERSION
				     " was expected");
	while (amounts != NULL && basis < HEADINGS && strcmp(amounts, headings[basis]) != 0)
		basis++;
	if (amounts == NULL || heads == NULL || rest == NULL || basis == HEADINGS ||
		strncmp(heads, "head (", 6) != 0 || strchr("CFK", heads[6]) == NULL)
		return refuse(pages, "has a first line that is not understood");
	text->head = (struct bc_journal_head){(enum bc_amount_basis)basis, heads[6], NULL};
	if (strcmp(rest, file) == 0)
		return BC_OK;
	char quoted[BC_QUOTED_SIZE];
	char own[BC_QUOTED_SIZE];
	bc_diagnose(pages->diagnostics, BC_ERROR, pages->path, 1,
		"is the journal of %s; that of %s was expected", bc_cell_quoted(rest, quoted),
		bc_cell_quoted(file, own));
	return BC_MALFORMED;
}

/* A first line cut short by a power cut: nothing was ever acknowledged behind it. */
static bool is_beginning(const struct pages *pages)
{
	size_t n = strlen(MAGIC);
	size_t compared = pages->n < n ? pages->n : n;
	for (size_t i = 0; i < pages->n; i++) {
		if (pages->bytes[i] == '\n')
			return false;
	}
	return memcmp(pages->bytes, MAGIC, compared) == 0;
}

static enum bc_status read_head(struct pages *pages, const char *file, struct bc_journal_text *text)
{
	const char *line = NULL;
	size_t n = 0;
	bool ended = false;
	size_t all_zero = 0;
	while (all_zero < pages->n && pages->bytes[all_zero] == '\0')
		all_zero++;
	if (all_zero == pages->n || is_beginning(pages)) {
		text->fresh = true;
		return BC_OK;
	}
	bool any = next_line(pages, &line, &n, &ended);
	if (!any || n < strlen(MAGIC) || memcmp(line, MAGIC, strlen(MAGIC)) != 0)
		return refuse(pages, "is not a journal of boilcut; nothing was changed in it");
	if (!check_holds(line, n))
		return refuse(pages, "has a damaged first line; nothing was changed in it");
	char *words = bc_strndup(line, n - CHECK_SIZE);
	if (words == NULL)
		return BC_NO_MEMORY;
	enum bc_status status = read_head_fields(pages, words, file, text);
	bc_free(words);
	text->next = 1;
	return status;
}

/* One record and its number; BC_NOT_FOUND: it does not hold. */
static enum bc_status read_record(
	const char *line, size_t n, unsigned long *number, struct bc_entry *entry)
{
	const unsigned long most = 1000000000;
	size_t digits = 0;
	*number = 0;
	while (digits < n && line[digits] >= '0' && line[digits] <= '9' && *number < most)
		*number = 10 * *number + (unsigned long)(line[digits++] - '0');
	if (!check_holds(line, n) || digits == 0 || n < digits + 1 + CHECK_SIZE ||
		line[digits] != '|')
		return BC_NOT_FOUND;
	char *words = bc_strndup(line + digits + 1, n - digits - 1 - CHECK_SIZE);
	if (words == NULL)
		return BC_NO_MEMORY;
	enum bc_status status = bc_entry_read(words, entry);
	bc_free(words);
	return status == BC_MALFORMED ? BC_NOT_FOUND : status;
}

/* Keeps what is left of a torn line to be shown. */
static enum bc_status note_torn(struct bc_journal_text *text, const char *line, size_t n)
{
	const size_t most = 200;
	size_t shown = 0;
	while (shown < n && shown < most && line[shown] != '\0')
		shown++;
	text->torn = true;
	bc_free(text->torn_text);
	text->torn_text = bc_strndup(line, shown);
	return text->torn_text == NULL ? BC_NO_MEMORY : BC_OK;
}

static void forget_torn(struct bc_journal_text *text)
{
	text->torn = false;
	bc_free(text->torn_text);
	text->torn_text = NULL;
}

/* A record that holds. A "torn" one with the number of the record before takes it back: it was
 * written, but never acknowledged. */
static enum bc_status take_record(struct pages *pages, struct bc_journal_text *text,
	unsigned long number, size_t torn_line, struct bc_entry *entry)
{
	bool torn = entry->kind == BC_ENTRY_TORN;
	struct bc_entries *entries = &text->entries;
	if (torn && number + 1 == text->next && entries->n > 0) {
		bc_entry_release(&entries->items[--entries->n]);
		text->next--;
	}
	if (number != text->next || (torn_line != 0 && !torn)) {
		bc_entry_release(entry);
		pages->line = torn_line != 0 ? torn_line : pages->line;
		return refuse(pages,
			"is damaged here, with good lines behind it; nothing was changed in it");
	}
	forget_torn(text);
	text->next++;
	return bc_entries_add(entries, entry);
}

static enum bc_status read_records(struct pages *pages, struct bc_journal_text *text)
{
	const char *line = NULL;
	size_t n = 0;
	bool ended = true;
	size_t torn_line = 0;
	enum bc_status status = BC_OK;
	while (!bc_failed(status) && next_line(pages, &line, &n, &ended)) {
		struct bc_entry entry;
		unsigned long number = 0;
		status = read_record(line, n, &number, &entry);
		if (status == BC_NOT_FOUND) {
			torn_line = torn_line == 0 ? pages->line : torn_line;
			status = n == 0 && !text->torn ? BC_OK : note_torn(text, line, n);
		} else if (!bc_failed(status)) {
			status = take_record(pages, text, number, torn_line, &entry);
			torn_line = 0;
			text->mended = !ended;
		}
	}
	text->open_line = !ended;
	return status;
}

enum bc_status bc_journal_read(const char *bytes, size_t n, const char *file, const char *path,
	struct bc_diagnostics *diagnostics, struct bc_journal_text *text)
{
	struct pages pages = {bytes, n, 0, 0, path, diagnostics};
	*text = (struct bc_journal_text){0};
	enum bc_status status = read_head(&pages, file, text);
	if (!bc_failed(status) && !text->fresh)
		status = read_records(&pages, text);
	return status;
}

/* ---- writing */

void bc_journal_init(struct bc_journal *journal)
{
	*journal = (struct bc_journal){0};
	bc_append_init(&journal->file);
}

void bc_journal_close(struct bc_journal *journal)
{
	if (journal == NULL)
		return;
	bc_append_close(&journal->file);
	bc_journal_text_release(&journal->text);
	bc_journal_init(journal);
}

static enum bc_status put(
	struct bc_journal *journal, const struct bc_text *text, struct bc_diagnostics *diagnostics)
{
	bool torn = false;
	if (text->failed || text->data == NULL)
		return BC_NO_MEMORY;
	enum bc_status status =
		bc_append_write(&journal->file, text->data, text->length, &torn, diagnostics);
	journal->torn = bc_failed(status) && (journal->torn || torn);
	return status;
}

static void write_record(unsigned long number, const struct bc_entry *entry, struct bc_text *text)
{
	size_t from = text->length;
	bc_text_printf(text, "%lu|", number);
	bc_entry_write(entry, text);
	write_check(text, from);
}

/* Behind a line that was never finished: its end, and a record that says so. */
static void write_torn(unsigned long number, struct bc_text *text)
{
	struct bc_entry entry;
	bc_entry_init(&entry);
	entry.kind = BC_ENTRY_TORN;
	bc_text_append(text, "\n");
	write_record(number, &entry, text);
}

static enum bc_status write_head(struct bc_journal *journal, const struct bc_journal_head *head,
	struct bc_diagnostics *diagnostics)
{
	struct bc_text text;
	bc_text_init(&text);
	bc_text_printf(&text, MAGIC VERSION "|%s|head (%c)|%s", headings[head->basis], head->unit,
		head->file);
	write_check(&text, 0);
	enum bc_status status = BC_OK;
	if (journal->file.length > 0)
		status = bc_append_restart(&journal->file, diagnostics);
	if (!bc_failed(status))
		status = put(journal, &text, diagnostics);
	if (!bc_failed(status))
		journal->text.head = (struct bc_journal_head){head->basis, head->unit, NULL};
	journal->next = 1;
	bc_text_release(&text);
	return status;
}

/* The end of a line that is whole but for it, or the word that the last line is torn. */
static enum bc_status mend(struct bc_journal *journal, struct bc_diagnostics *diagnostics)
{
	struct bc_text text;
	bc_text_init(&text);
	if (journal->text.torn)
		write_torn(journal->next, &text);
	else
		bc_text_append(&text, "\n");
	enum bc_status status = put(journal, &text, diagnostics);
	if (!bc_failed(status) && journal->text.torn)
		journal->next++;
	bc_text_release(&text);
	return status;
}

enum bc_status bc_journal_open(struct bc_journal *journal, const char *path,
	const struct bc_journal_head *head, struct bc_diagnostics *diagnostics)
{
	char *bytes = NULL;
	size_t n = 0;
	bc_journal_init(journal);
	enum bc_status status = bc_append_open(&journal->file, path, diagnostics);
	if (!bc_failed(status))
		status = bc_append_read(
			&journal->file, BC_JOURNAL_LIMIT_BYTES, &bytes, &n, diagnostics);
	if (!bc_failed(status))
		status = bc_journal_read(bytes, n, head->file, path, diagnostics, &journal->text);
	bc_free(bytes);
	if (bc_failed(status))
		return status;
	journal->next = journal->text.next;
	if (journal->text.fresh)
		return write_head(journal, head, diagnostics);
	if (journal->text.torn || journal->text.open_line)
		return mend(journal, diagnostics);
	return BC_OK;
}

enum bc_status bc_journal_add(struct bc_journal *journal, const struct bc_entry *entry,
	struct bc_diagnostics *diagnostics)
{
	struct bc_text text;
	unsigned long number = journal->next;
	bc_text_init(&text);
	if (journal->torn)
		write_torn(number++, &text);
	write_record(number, entry, &text);
	enum bc_status status = put(journal, &text, diagnostics);
	if (!bc_failed(status))
		journal->next = number + 1;
	bc_text_release(&text);
	return status;
}

enum bc_status bc_journal_remove(struct bc_journal *journal, struct bc_diagnostics *diagnostics)
{
	return bc_append_remove(&journal->file, diagnostics);
}
