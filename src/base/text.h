/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_TEXT_H
#define BC_BASE_TEXT_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

/*
 * A growing string. A failed allocation is remembered in failed and later appends do nothing, so
 * that a page of output is written plainly and checked once.
 */
struct bc_text {
	char *data; /* NUL-terminated; NULL while empty */
	size_t length;
	size_t capacity;
	bool failed;
};

void bc_text_init(struct bc_text *text);
void bc_text_release(struct bc_text *text);
void bc_text_append(struct bc_text *text, const char *s);
void bc_text_append_n(struct bc_text *text, const char *s, size_t n);
__attribute__((format(printf, 2, 3))) void bc_text_printf(
	struct bc_text *text, const char *format, ...);
void bc_text_vprintf(struct bc_text *text, const char *format, va_list arguments);

/* Control characters and broken UTF-8 become \xNN; everything else passes. For a terminal. */
void bc_text_append_escaped(struct bc_text *text, const char *s);

/* Words of s wrapped to width columns, every line led by indent spaces, the first by first (NULL:
 * by indent spaces too). Each line ends with "\n"; a word wider than the line stands alone. */
void bc_text_append_wrapped(
	struct bc_text *text, const char *s, const char *first, size_t indent, size_t width);

/* Hands the string over (never NULL unless failed) and leaves text empty. */
char *bc_text_take(struct bc_text *text);

/* Columns that UTF-8 s takes, one for each code point. */
size_t bc_text_columns(const char *s);

/* A new copy of s without blanks at both ends and with inner runs of blanks as one, ASCII lower
 * case. */
char *bc_text_folded(const char *s);
bool bc_text_equal_nocase(const char *a, const char *b);

/* The word of list that word most resembles (edit distance), or NULL when none is near. */
const char *bc_nearest_word(const char *word, const char *const *list, size_t n);

#endif
