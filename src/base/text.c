/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A growing string, and the few things done to words: escaping, wrapping, folding, likeness. */
#include "base/text.h"

#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"

void bc_text_init(struct bc_text *text) { *text = (struct bc_text){0}; }

void bc_text_release(struct bc_text *text)
{
	if (text == NULL)
		return;
	bc_free(text->data);
	bc_text_init(text);
}

/* Room for n more characters and the NUL. */
static bool reserve(struct bc_text *text, size_t n)
{
	if (text->failed)
		return false;
	if (n < text->capacity - text->length)
		return true;
	size_t capacity = text->capacity < 64 ? 64 : text->capacity;
	while (capacity - text->length <= n) {
		if (capacity > SIZE_MAX / 2) {
			text->failed = true;
			return false;
		}
		capacity *= 2;
	}
	char *data = bc_realloc_array(text->data, capacity, 1);
	if (data == NULL) {
		text->failed = true;
		return false;
	}
	text->data = data;
	text->capacity = capacity;
	return true;
}

void bc_text_append(struct bc_text *text, const char *s) { bc_text_append_n(text, s, strlen(s)); }

void bc_text_append_n(struct bc_text *text, const char *s, size_t n)
{
	if (!reserve(text, n))
		return;
	memcpy(text->data + text->length, s, n);
	text->length += n;
	text->data[text->length] = '\0';
}

void bc_text_printf(struct bc_text *text, const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	bc_text_vprintf(text, format, arguments);
	va_end(arguments);
}

void bc_text_vprintf(struct bc_text *text, const char *format, va_list arguments)
{
	va_list again;
	va_copy(again, arguments);
	int length = vsnprintf(NULL, 0, format, again);
	va_end(again);
	if (length < 0) {
		text->failed = true;
		return;
	}
	if (!reserve(text, (size_t)length))
		return;
	vsnprintf(text->data + text->length, (size_t)length + 1, format, arguments);
	text->length += (size_t)length;
}

static bool is_continuation(unsigned char byte) { return (byte & 0xC0u) == 0x80u; }

size_t bc_utf8_length(const char *bytes)
{
	const unsigned char *s = (const unsigned char *)bytes;

	if (s[0] < 0x80)
		return 1;
	if (s[0] < 0xC2 || s[0] > 0xF4 || !is_continuation(s[1]))
		return 0;
	if (s[0] < 0xE0)
		return 2;
	if ((s[0] == 0xE0 && s[1] < 0xA0) || (s[0] == 0xED && s[1] > 0x9F) ||
		!is_continuation(s[2]))
		return 0;
	if (s[0] < 0xF0)
		return 3;
	if ((s[0] == 0xF0 && s[1] < 0x90) || (s[0] == 0xF4 && s[1] > 0x8F) ||
		!is_continuation(s[3]))
		return 0;
	return 4;
}

bool bc_utf8_is_control(const char *bytes, size_t length)
{
	const unsigned char *s = (const unsigned char *)bytes;

	if (length == 1)
		return s[0] < 0x20 || s[0] == 0x7F;
	if (length == 2)
		return s[0] == 0xC2 && s[1] < 0xA0;
	if (length != 3 || s[0] != 0xE2)
		return false;
	if (s[1] == 0x80)
		return s[2] == 0x8E || s[2] == 0x8F || (s[2] >= 0xAA && s[2] <= 0xAE);
	return s[1] == 0x81 && s[2] >= 0xA6 && s[2] <= 0xA9;
}

size_t bc_escaped_character(const char *s, char escaped[BC_ESCAPED_SIZE])
{
	static const char hex[] = "0123456789ABCDEF";
	size_t length = bc_utf8_length(s);
	size_t taken = length == 0 ? 1 : length;
	char *to = escaped;

	for (size_t i = 0; i < taken; i++) {
		unsigned byte = (unsigned char)s[i];
		if (length != 0 && !bc_utf8_is_control(s, length)) {
			*to++ = s[i];
			continue;
		}
		*to++ = '\\';
		*to++ = 'x';
		*to++ = hex[byte >> 4];
		*to++ = hex[byte & 15];
	}
	*to = '\0';
	return taken;
}

void bc_text_append_escaped(struct bc_text *text, const char *s)
{
	char escaped[BC_ESCAPED_SIZE];

	while (*s != '\0') {
		s += bc_escaped_character(s, escaped);
		bc_text_append(text, escaped);
	}
}

static bool is_blank(char c) { return c == ' ' || (c >= '\t' && c <= '\r'); }

static size_t columns_of(const char *s, size_t n)
{
	size_t columns = 0;
	for (size_t i = 0; i < n; i++) {
		if (!is_continuation((unsigned char)s[i]))
			columns++;
	}
	return columns;
}

size_t bc_text_columns(const char *s) { return columns_of(s, strlen(s)); }

static void append_spaces(struct bc_text *text, size_t n)
{
	while (n-- > 0)
		bc_text_append_n(text, " ", 1);
}

void bc_text_append_wrapped(
	struct bc_text *text, const char *s, const char *first, size_t indent, size_t width)
{
	size_t column = indent;
	if (first == NULL) {
		append_spaces(text, indent);
	} else {
		bc_text_append(text, first);
		column = bc_text_columns(first);
	}
	bool at_start = true;
	while (*s != '\0') {
		if (is_blank(*s)) {
			s++;
			continue;
		}
		size_t length = 0;
		while (s[length] != '\0' && !is_blank(s[length]))
			length++;
		size_t wide = columns_of(s, length);
		if (!at_start && column + 1 + wide > width) {
			bc_text_append(text, "\n");
			append_spaces(text, indent);
			column = indent;
		} else if (!at_start) {
			bc_text_append(text, " ");
			column++;
		}
		bc_text_append_n(text, s, length);
		column += wide;
		at_start = false;
		s += length;
	}
	bc_text_append(text, "\n");
}

char *bc_text_take(struct bc_text *text)
{
	bc_text_append(text, "");
	char *data = NULL;
	if (!text->failed) {
		data = text->data;
		text->data = NULL;
	}
	bc_text_release(text);
	return data;
}

static char lower(char c) { return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c; }

char *bc_text_folded(const char *s)
{
	char *folded = bc_alloc(strlen(s) + 1);
	if (folded == NULL)
		return NULL;
	size_t n = 0;
	bool gap = false;
	for (; *s != '\0'; s++) {
		if (is_blank(*s)) {
			gap = n > 0;
			continue;
		}
		if (gap)
			folded[n++] = ' ';
		gap = false;
		folded[n++] = lower(*s);
	}
	return folded;
}

bool bc_text_equal_nocase(const char *a, const char *b)
{
	while (*a != '\0' && lower(*a) == lower(*b)) {
		a++;
		b++;
	}
	return lower(*a) == lower(*b);
}

/* Longer words are nobody's misspelling. */
#define LONGEST_WORD 63

static size_t smallest(size_t a, size_t b) { return a < b ? a : b; }

/*
 * Edit distance with insertion, deletion, change and the swap of two neighbours, each counting 1
 * (optimal string alignment), case-blind. Three rows of the table are kept.
 */
static size_t edit_distance(const char *a, size_t n_a, const char *b, size_t n_b)
{
	size_t rows[3][LONGEST_WORD + 1];
	for (size_t j = 0; j <= n_b; j++)
		rows[0][j] = j;
	for (size_t i = 1; i <= n_a; i++) {
		size_t *now = rows[i % 3];
		const size_t *above = rows[(i - 1) % 3];
		now[0] = i;
		for (size_t j = 1; j <= n_b; j++) {
			size_t change = lower(a[i - 1]) == lower(b[j - 1]) ? 0 : 1;
			now[j] =
				smallest(above[j - 1] + change, smallest(above[j], now[j - 1]) + 1);
			if (i > 1 && j > 1 && lower(a[i - 1]) == lower(b[j - 2]) &&
				lower(a[i - 2]) == lower(b[j - 1]))
				now[j] = smallest(now[j], rows[(i - 2) % 3][j - 2] + 1);
		}
	}
	return rows[n_a % 3][n_b];
}

const char *bc_nearest_word(const char *word, const char *const *list, size_t n)
{
	size_t length = strlen(word);
	if (length == 0 || length > LONGEST_WORD)
		return NULL;
	/* a third of the letters may be wrong, at least one */
	size_t best = 1 + (length < 3 ? 1 : length / 3);
	const char *nearest = NULL;
	for (size_t i = 0; i < n; i++) {
		size_t candidate = strlen(list[i]);
		if (candidate > LONGEST_WORD)
			continue;
		size_t distance = edit_distance(word, length, list[i], candidate);
		if (distance < best && distance < smallest(length, candidate)) {
			best = distance;
			nearest = list[i];
		}
	}
	return nearest;
}
