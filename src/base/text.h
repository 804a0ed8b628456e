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

/* Bytes of the UTF-8 character at s, which ends with NUL; 0 where it is broken: overlong,
 * surrogate, cut off, or beyond U+10FFFF (RFC 3629, section 4). */
size_t bc_utf8_length(const char *s);

/* The character of length bytes at s is one that a terminal may obey or that turns text around: C0,
 * DEL, C1, and the directional marks U+200E, U+200F, U+202A to U+202E, U+2066 to U+2069. */
bool bc_utf8_is_control(const char *s, size_t length);

/* Four bytes as \xNN and the NUL. */
#define BC_ESCAPED_SIZE 17
/* The character at s as it may be shown: itself, or \xNN for each byte of a control character or of
 * broken UTF-8. Returns the bytes of s that it stands for. */
size_t bc_escaped_character(const char *s, char escaped[BC_ESCAPED_SIZE]);

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
