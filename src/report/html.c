/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pages that stand alone: escaping, the frame with its style sheet, sections, lists, tables. */
#include "report/html.h"

#include <stdarg.h>
#include <string.h>

static const char *const style_lines[] = {
#include "page.css.inc"
};

const struct bc_html_medium bc_html_page = {"page", "A4; margin: 14mm 14mm 16mm"};
const struct bc_html_medium bc_html_card = {"card", "A4; margin: 12mm"};
const struct bc_html_medium bc_html_label = {"label", "100mm 60mm; margin: 0"};
const struct bc_html_medium bc_html_label_a6 = {"label a6", "105mm 148mm; margin: 0"};

static const char *reference(const char *s)
{
	switch (*s) {
	case '&':
		return "&amp;";
	case '<':
		return "&lt;";
	case '>':
		return "&gt;";
	case '"':
		return "&quot;";
	case '\'':
		return "&#39;";
	default:
		return NULL;
	}
}

/* U+FFFE and U+FFFF are no characters of XML (1.0, production 2), which a picture is. */
static const char *noncharacter(const char *s)
{
	if (strncmp(s, "\xEF\xBF\xBE", 3) == 0)
		return "\\xEF\\xBF\\xBE";
	return strncmp(s, "\xEF\xBF\xBF", 3) == 0 ? "\\xEF\\xBF\\xBF" : NULL;
}

/* Escapes at most so many characters; returns what is left. */
static const char *escape(struct bc_text *html, const char *s, size_t most)
{
	char shown[BC_ESCAPED_SIZE];
	for (size_t n = 0; *s != '\0' && n < most; n++) {
		const char *plain = reference(s);
		if (plain != NULL) {
			bc_text_append(html, plain);
			s++;
			continue;
		}
		const char *escaped = noncharacter(s);
		if (escaped != NULL) {
			bc_text_append(html, escaped);
			s += 3;
			continue;
		}
		s += bc_escaped_character(s, shown);
		bc_text_append(html, shown);
	}
	return s;
}

void bc_html_words(struct bc_text *html, const char *s) { escape(html, s, (size_t)-1); }

void bc_html_name(struct bc_text *html, const char *s, size_t most)
{
	if (*escape(html, s, most) != '\0')
		bc_text_append(html, "\xe2\x80\xa6");
}

void bc_html_cut(struct bc_text *text, const char *s, size_t most)
{
	for (size_t n = 0; *s != '\0' && n < most; n++) {
		size_t length = bc_utf8_length(s);
		length = length > 0 ? length : 1;
		bc_text_append_n(text, s, length);
		s += length;
	}
	bc_text_append(text, *s != '\0' ? "\xe2\x80\xa6" : "");
}

static void print_escaped(struct bc_text *html, const char *format, va_list arguments)
{
	struct bc_text words;
	bc_text_init(&words);
	bc_text_vprintf(&words, format, arguments);
	if (words.data != NULL)
		bc_html_words(html, words.data);
	html->failed = html->failed || words.failed;
	bc_text_release(&words);
}

void bc_html_printf(struct bc_text *html, const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	print_escaped(html, format, arguments);
	va_end(arguments);
}

void bc_html_element(struct bc_text *html, const char *tag, const char *of, const char *format, ...)
{
	va_list arguments;
	if (of != NULL)
		bc_text_printf(html, "<%s class=\"%s\">", tag, of);
	else
		bc_text_printf(html, "<%s>", tag);
	va_start(arguments, format);
	print_escaped(html, format, arguments);
	va_end(arguments);
	bc_text_printf(html, "</%s>\n", tag);
}

void bc_html_list(struct bc_text *html, const char *of, const struct bc_strings *strings)
{
	if (strings->n == 0)
		return;
	bc_text_printf(html, "<ul class=\"%s\">\n", of);
	for (size_t i = 0; i < strings->n; i++)
		bc_html_element(html, "li", NULL, "%s", strings->items[i]);
	bc_text_append(html, "</ul>\n");
}

void bc_html_section(struct bc_text *html, const char *heading)
{
	bc_text_append(html, "<section>\n");
	bc_html_element(html, "h2", NULL, "%s", heading);
}

void bc_html_section_end(struct bc_text *html) { bc_text_append(html, "</section>\n"); }

/* More columns than this do not fit a narrow screen. */
#define WIDE 6

void bc_html_table(struct bc_text *html, const char *caption, const char *columns)
{
	size_t cells = 1;
	for (const char *at = columns; *at != '\0'; at++)
		cells += *at == '|';
	bc_text_append(html, cells > WIDE ? "<table class=\"wide\">\n" : "<table>\n");
	if (caption != NULL)
		bc_html_element(html, "caption", NULL, "%s", caption);
	bc_text_append(html, "<thead><tr>");
	for (const char *at = columns; *at != '\0';) {
		size_t n = strcspn(at, "|");
		bc_text_append(html, "<th scope=\"col\">");
		bc_text_append_n(html, at, n);
		bc_text_append(html, "</th>");
		at += n + (at[n] == '|');
	}
	bc_text_append(html, "</tr></thead>\n<tbody>\n");
}

#define TITLE_MOST 120

void bc_html_open(struct bc_text *html, const struct bc_html_medium *medium, const char *title)
{
	bc_text_append(html,
		"<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
		"<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
		"<meta name=\"color-scheme\" content=\"light dark\">\n<title>");
	bc_html_name(html, title, TITLE_MOST);
	bc_text_append(html, "</title>\n<style>\n");
	for (size_t i = 0; i < sizeof style_lines / sizeof style_lines[0]; i++)
		bc_text_append(html, style_lines[i]);
	bc_text_printf(html, "@page { size: %s }\n</style>\n</head>\n<body class=\"%s\">\n<main>\n",
		medium->paper, medium->of);
}

void bc_html_close(struct bc_text *html) { bc_text_append(html, "</main>\n</body>\n</html>\n"); }
