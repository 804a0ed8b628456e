/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the bytes of a file to plain UTF-8 text: byte order mark, code page, comment lines. */
#include "sample/plain.h"

#include <stdint.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "sample/sample.h"

/* Windows-1252, 0x80 to 0x9f (code page table, from memory); 0xfffd where it names nothing. */
static const uint16_t windows_1252[32] = {
	0x20ac, 0xfffd, 0x201a, 0x0192, 0x201e, 0x2026, 0x2020, 0x2021, /* 80 */
	0x02c6, 0x2030, 0x0160, 0x2039, 0x0152, 0xfffd, 0x017d, 0xfffd, /* 88 */
	0xfffd, 0x2018, 0x2019, 0x201c, 0x201d, 0x2022, 0x2013, 0x2014, /* 90 */
	0x02dc, 0x2122, 0x0161, 0x203a, 0x0153, 0xfffd, 0x017e, 0x0178, /* 98 */
};

static const char *what_is_wrong(const char *bytes, size_t n)
{
	if (n > BC_SAMPLE_LIMIT_BYTES)
		return "file is larger than 64 MiB; a sample file was expected";
	if (n >= 2 && (memcmp(bytes, "\xff\xfe", 2) == 0 || memcmp(bytes, "\xfe\xff", 2) == 0))
		return "file is UTF-16 text; UTF-8 was expected (save it as 'CSV UTF-8')";
	if (n >= 4 && memcmp(bytes, "PK\3\4", 4) == 0)
		return "file is a workbook or an archive; CSV text was expected (save it as CSV)";
	if (n > 0 && memchr(bytes, '\0', n) != NULL)
		return "file is binary, it holds NUL bytes; CSV text was expected";
	return NULL;
}

/* text ends with NUL and holds no other. */
static bool is_utf8(const char *text)
{
	while (*text != '\0') {
		size_t length = bc_utf8_length(text);
		if (length == 0)
			return false;
		text += length;
	}
	return true;
}

/* A line ends at LF, CR or CR LF. */
static bool ends_line(const char *s) { return *s == '\n' || (*s == '\r' && s[1] != '\n'); }

static void drop_controls(struct bc_plain *plain)
{
	size_t line = 1;
	char *to = plain->text;
	for (const char *s = plain->text; *s != '\0';) {
		size_t length = bc_utf8_length(s);
		bool white = *s == '\t' || *s == '\n' || *s == '\r';
		line += ends_line(s);
		if (!white && bc_utf8_is_control(s, length)) {
			if (plain->dropped_line == 0)
				plain->dropped_line = line;
		} else {
			memmove(to, s, length);
			to += length;
		}
		s += length;
	}
	*to = '\0';
	plain->n = (size_t)(to - plain->text);
}

/* Three bytes are enough for every character of the code page. */
static char *from_windows_1252(const char *bytes, size_t n, size_t *length)
{
	char *text = bc_alloc(3 * n + 1);
	size_t at = 0;
	if (text == NULL)
		return NULL;
	for (size_t i = 0; i < n; i++) {
		unsigned code = (unsigned char)bytes[i];
		if (code >= 0x80 && code < 0xa0)
			code = windows_1252[code - 0x80];
		if (code < 0x80) {
			text[at++] = (char)code;
		} else if (code < 0x800) {
			text[at++] = (char)(0xc0 | code >> 6);
			text[at++] = (char)(0x80 | (code & 0x3f));
		} else {
			text[at++] = (char)(0xe0 | code >> 12);
			text[at++] = (char)(0x80 | (code >> 6 & 0x3f));
			text[at++] = (char)(0x80 | (code & 0x3f));
		}
	}
	text[at] = '\0';
	*length = at;
	return text;
}

/*
 * Empties lines that start with #, so that a quote in a comment opens no cell. A line inside a
 * quoted cell is none: the quotes before it are odd in number.
 */
static void empty_comments(char *text, size_t *n)
{
	size_t to = 0;
	bool quoted = false;
	bool line_start = true;
	bool comment = false;
	for (size_t from = 0; from < *n; from++) {
		char c = text[from];
		if (line_start && !quoted && c == '#')
			comment = true;
		line_start = c == '\n' || c == '\r';
		if (line_start)
			comment = false;
		if (comment)
			continue;
		if (c == '"')
			quoted = !quoted;
		text[to++] = c;
	}
	text[to] = '\0';
	*n = to;
}

enum bc_status bc_plain_from_bytes(const char *bytes, size_t n_bytes, struct bc_plain *plain)
{
	*plain = (struct bc_plain){.wrong = what_is_wrong(bytes, n_bytes)};
	if (plain->wrong != NULL)
		return BC_MALFORMED;
	if (n_bytes >= 3 && memcmp(bytes, "\xef\xbb\xbf", 3) == 0) {
		bytes += 3;
		n_bytes -= 3;
	}
	plain->n = n_bytes;
	plain->text = bc_alloc(n_bytes + 1);
	if (plain->text != NULL && n_bytes > 0)
		memcpy(plain->text, bytes, n_bytes);
	if (plain->text != NULL && !is_utf8(plain->text)) {
		bc_free(plain->text);
		plain->converted = true;
		plain->text = from_windows_1252(bytes, n_bytes, &plain->n);
	}
	if (plain->text == NULL)
		return BC_NO_MEMORY;
	drop_controls(plain);
	empty_comments(plain->text, &plain->n);
	return BC_OK;
}
