/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The few words of a boil-off's notebook: what a line typed beside the flask asks for. */
#include "sample/typed.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "base/number.h"
#include "base/text.h"
#include "sample/cell.h"
#include "sample/keys.h"
#include "sample/reader.h"

enum { WORDS_MAX = 6 };
#define LONGEST_LINE 400

void bc_typed_release(struct bc_typed *typed)
{
	if (typed != NULL)
		bc_entry_release(&typed->entry);
}

__attribute__((format(printf, 2, 3))) static enum bc_status wrong(
	struct bc_typed *typed, const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	vsnprintf(typed->why, sizeof typed->why, format, arguments);
	va_end(arguments);
	typed->kind = BC_TYPED_WRONG;
	return BC_OK;
}

/* The words of a line, blanks between them. */
struct words {
	char text[LONGEST_LINE];
	char *at[WORDS_MAX];
	size_t n; /* also of those beyond WORDS_MAX */
};

static void split(const char *line, struct words *words)
{
	snprintf(words->text, sizeof words->text, "%s", line);
	words->n = 0;
	for (char *s = words->text; *s != '\0';) {
		size_t blank = bc_cell_blank_length(s);
		if (blank > 0) {
			*s = '\0';
			s += blank;
			continue;
		}
		if (words->n < WORDS_MAX)
			words->at[words->n] = s;
		words->n++;
		while (*s != '\0' && bc_cell_blank_length(s) == 0)
			s++;
	}
}

static bool number(const char *word, double *value)
{
	return bc_number_parse(word, '.', value) || bc_number_parse(word, ',', value);
}

static bool is(const char *word, const char *name) { return bc_text_equal_nocase(word, name); }

/* "pot 240" as the last two of n words. */
static bool takes_pot(const struct words *words, size_t at, struct bc_entry *entry)
{
	return words->n == at + 2 && is(words->at[at], "pot") &&
	       number(words->at[at + 1], &entry->pot);
}

static enum bc_status read_end_point(struct bc_typed *typed, const struct words *words)
{
	struct bc_entry *entry = &typed->entry;
	typed->kind = BC_TYPED_ENTRY;
	entry->kind = BC_ENTRY_READ;
	if (words->n == 1)
		return BC_OK;
	if (number(words->at[1], &entry->head) && (words->n == 2 || takes_pot(words, 2, entry)))
		return BC_OK;
	return wrong(typed, "'%.20s' goes with one temperature; write such as '%.20s 171'",
		words->at[0], words->at[0]);
}

static enum bc_status read_numbers(struct bc_typed *typed, const struct words *words)
{
	struct bc_entry *entry = &typed->entry;
	char quoted[BC_QUOTED_SIZE];
	double first = NAN;
	if (!number(words->at[0], &first))
		return wrong(typed, "%s is not a number; write such as '5 112.5', or 'help'",
			bc_cell_quoted(words->at[0], quoted));
	if (words->n == 1) {
		typed->kind = BC_TYPED_BARE;
		entry->head = first;
		return BC_OK;
	}
	entry->kind = BC_ENTRY_READ;
	typed->kind = BC_TYPED_ENTRY;
	if (takes_pot(words, 1, entry)) {
		typed->kind = BC_TYPED_BARE;
		entry->head = first;
		return BC_OK;
	}
	entry->amount = first;
	if (!number(words->at[1], &entry->head))
		return wrong(typed, "%s is not a temperature; write such as '5 112.5'",
			bc_cell_quoted(words->at[1], quoted));
	if (words->n == 2 || takes_pot(words, 2, entry))
		return BC_OK;
	return wrong(typed, "%s is one word too many; write such as '5 112.5', or 'note ...'",
		bc_cell_quoted(words->at[2], quoted));
}

static enum bc_status read_fix(struct bc_typed *typed, const struct words *words)
{
	struct bc_entry *entry = &typed->entry;
	typed->kind = BC_TYPED_ENTRY;
	entry->kind = BC_ENTRY_FIX;
	if (words->n == 3 && number(words->at[2], &entry->head) &&
		(bc_end_point_from_label(words->at[1], &entry->point) ||
			number(words->at[1], &entry->amount)))
		return BC_OK;
	return wrong(typed, "'fix' goes with a place and a temperature; write such as 'fix 20 148' "
			    "or 'fix ibp 71'");
}

static enum bc_status read_pot(struct bc_typed *typed, const struct words *words)
{
	typed->kind = BC_TYPED_ENTRY;
	typed->entry.kind = BC_ENTRY_POT;
	if (words->n == 2 && number(words->at[1], &typed->entry.pot))
		return BC_OK;
	return wrong(typed, "'pot' goes with one temperature; write such as 'pot 240'");
}

static enum bc_status read_note(struct bc_typed *typed, const char *line)
{
	const char *words = bc_cell_skip_blanks(bc_cell_skip_blanks(line) + strlen("note"));
	typed->kind = BC_TYPED_ENTRY;
	typed->entry.kind = BC_ENTRY_NOTE;
	if (*words == '\0' || bc_cell_is_number(words))
		return wrong(typed, "'note' goes with words; write such as 'note bumping'");
	typed->entry.text = bc_strdup(words);
	return typed->entry.text == NULL ? BC_NO_MEMORY : BC_OK;
}

/* A key of the sample file stands before its value: "charge mass 81.2 g". */
static enum bc_status read_key(struct bc_typed *typed, const char *line, bool *found)
{
	char name[LONGEST_LINE];
	const struct bc_key *key = NULL;
	const char *value = NULL;
	const char *start = bc_cell_skip_blanks(line);
	for (const char *s = start; *s != '\0'; s++) {
		if (bc_cell_blank_length(s) == 0 && *s != ',' && *s != ':')
			continue;
		size_t n = (size_t)(s - start);
		if (n >= sizeof name)
			break;
		memcpy(name, start, n);
		name[n] = '\0';
		const struct bc_key *longer = bc_key_find(name);
		if (longer != NULL) {
			key = longer;
			value = s;
		}
	}
	*found = key != NULL || bc_key_find(start) != NULL;
	if (!*found)
		return BC_OK;
	while (value != NULL && (bc_cell_blank_length(value) > 0 || *value == ',' || *value == ':'))
		value++;
	if (value == NULL || *value == '\0')
		return wrong(typed, "'%.40s' goes with its value; write such as 'residue 1.4 mL'",
			start);
	typed->kind = BC_TYPED_ENTRY;
	typed->entry.kind = BC_ENTRY_KEY;
	typed->entry.text = bc_format("%s\t%s", key->name, value);
	return typed->entry.text == NULL ? BC_NO_MEMORY : BC_OK;
}

static bool read_word(struct bc_typed *typed, const char *word)
{
	static const struct {
		const char *word;
		enum bc_typed_kind kind;
	} words[] = {
		{"undo", BC_TYPED_ENTRY},
		{"list", BC_TYPED_LIST},
		{"help", BC_TYPED_HELP},
		{"?", BC_TYPED_HELP},
		{"finish", BC_TYPED_FINISH},
		{"quit", BC_TYPED_QUIT},
		{"exit", BC_TYPED_QUIT},
		{"y", BC_TYPED_YES},
		{"yes", BC_TYPED_YES},
		{"n", BC_TYPED_NO},
		{"no", BC_TYPED_NO},
	};
	for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
		if (!is(word, words[i].word))
			continue;
		typed->kind = words[i].kind;
		typed->entry.kind = BC_ENTRY_UNDO;
		return true;
	}
	return false;
}

static enum bc_status read_words(struct bc_typed *typed, const char *line)
{
	struct words words;
	bool found = false;
	split(line, &words);
	if (words.n == 0)
		return BC_OK;
	const char *first = words.at[0];
	if (is(first, "note"))
		return read_note(typed, line);
	if (is(first, "fix"))
		return read_fix(typed, &words);
	if (is(first, "pot"))
		return read_pot(typed, &words);
	if (words.n == 1 && read_word(typed, first))
		return BC_OK;
	if (bc_end_point_from_label(first, &typed->entry.point))
		return read_end_point(typed, &words);
	enum bc_status status = read_key(typed, line, &found);
	return found || bc_failed(status) ? status : read_numbers(typed, &words);
}

/* Without control characters, and with what is no UTF-8 as '?'. */
static void clean(const char *line, char *cleaned, size_t size)
{
	size_t n = 0;
	while (*line != '\0' && n + 4 < size) {
		size_t length = bc_utf8_length(line);
		if (length == 0) {
			cleaned[n++] = '?';
			line++;
			continue;
		}
		if (*line == '\t')
			cleaned[n++] = ' ';
		else if (!bc_utf8_is_control(line, length)) {
			memcpy(cleaned + n, line, length);
			n += length;
		}
		line += length;
	}
	while (n > 0 && cleaned[n - 1] == ' ')
		n--;
	cleaned[n] = '\0';
}

enum bc_status bc_typed_read(const char *line, struct bc_typed *typed)
{
	char cleaned[LONGEST_LINE];
	*typed = (struct bc_typed){.kind = BC_TYPED_NOTHING};
	bc_entry_init(&typed->entry);
	if (strlen(line) > LONGEST_LINE - 8)
		return wrong(typed, "the line is too long; at most %d characters were expected",
			LONGEST_LINE - 8);
	clean(line, cleaned, sizeof cleaned);
	return read_words(typed, cleaned);
}
