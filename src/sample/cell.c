/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The text of one cell: blanks, case, decimal marks, and how a message quotes it. */
#include "sample/cell.h"

#include <string.h>

#include "base/number.h"
#include "base/text.h"

#define QUOTED_COLUMNS 40

size_t bc_cell_blank_length(const char *s)
{
	const unsigned char *b = (const unsigned char *)s;
	if (b[0] == ' ' || (b[0] >= '\t' && b[0] <= '\r'))
		return 1;
	if (b[0] == 0xc2 && b[1] == 0xa0)
		return 2;
	if (b[0] == 0xe2 && b[1] == 0x80 && ((b[2] >= 0x80 && b[2] <= 0x8a) || b[2] == 0xaf))
		return 3;
	return 0;
}

const char *bc_cell_skip_blanks(const char *s)
{
	for (size_t n; (n = bc_cell_blank_length(s)) > 0;)
		s += n;
	return s;
}

char *bc_cell_trim(char *cell)
{
	char *start = cell + (bc_cell_skip_blanks(cell) - cell);
	char *end = start;
	for (char *s = start; *s != '\0';) {
		size_t blank = bc_cell_blank_length(s);
		s += blank > 0 ? blank : 1;
		if (blank == 0)
			end = s;
	}
	*end = '\0';
	return start;
}

bool bc_cell_fold(const char *cell, char *folded, size_t size)
{
	size_t n = 0;
	bool gap = false;
	for (const char *s = bc_cell_skip_blanks(cell); *s != '\0';) {
		size_t blank = bc_cell_blank_length(s);
		if (blank > 0) {
			gap = true;
			s += blank;
			continue;
		}
		if (n + 3 > size)
			return false;
		if (gap)
			folded[n++] = ' ';
		gap = false;
		folded[n++] = *s >= 'A' && *s <= 'Z' ? (char)(*s - 'A' + 'a') : *s;
		s++;
	}
	folded[n] = '\0';
	return true;
}

const char *bc_cell_quoted(const char *cell, char quoted[BC_QUOTED_SIZE])
{
	char shown[BC_ESCAPED_SIZE];
	size_t n = 0;
	size_t columns = 0;
	quoted[n++] = '\'';
	while (*cell != '\0' && columns < QUOTED_COLUMNS) {
		cell += bc_escaped_character(cell, shown);
		memcpy(quoted + n, shown, strlen(shown));
		n += strlen(shown);
		columns += bc_text_columns(shown);
	}
	if (*cell != '\0') {
		memcpy(quoted + n, "...", 3);
		n += 3;
	}
	quoted[n++] = '\'';
	quoted[n] = '\0';
	return quoted;
}

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

/* n characters such as 1,234 or 12,345,678, which a reader may take for thousands. */
static bool is_grouped(const char *s, size_t n)
{
	const char *comma = memchr(s, ',', n);
	if (comma == NULL || s[0] == '0')
		return false;
	size_t head = (size_t)(comma - s);
	if (head < 1 || head > 3 || (n - head) % 4 != 0)
		return false;
	for (size_t i = head; i < n; i++) {
		bool mark = (i - head) % 4 == 0;
		if (mark ? s[i] != ',' : !is_digit(s[i]))
			return false;
	}
	return true;
}

unsigned bc_cell_marks(const char *cell)
{
	unsigned marks = 0;
	for (const char *s = cell; *s != '\0';) {
		size_t n = strspn(s, "0123456789.,");
		if (n == 0) {
			s++;
			continue;
		}
		bool digits = strcspn(s, "0123456789") < n;
		bool point = memchr(s, '.', n) != NULL;
		bool comma = memchr(s, ',', n) != NULL;
		if (digits && point && !comma)
			marks |= BC_MARK_POINT;
		if (digits && comma && !point)
			marks |= is_grouped(s, n) ? BC_MARK_GROUPS : BC_MARK_COMMA;
		s += n;
	}
	return marks;
}

bool bc_cell_is_number(const char *cell)
{
	double value;
	return bc_number_parse(cell, '.', &value) || bc_number_parse(cell, ',', &value);
}

void bc_cell_append(struct bc_text *text, const char *cell)
{
	if (strpbrk(cell, ",;\"\t\r\n") == NULL) {
		bc_text_append(text, cell);
		return;
	}
	bc_text_append(text, "\"");
	for (const char *s = cell; *s != '\0';) {
		size_t n = strcspn(s, "\"");
		bc_text_append_n(text, s, n);
		s += n;
		if (*s == '"') {
			bc_text_append(text, "\"\"");
			s++;
		}
	}
	bc_text_append(text, "\"");
}
