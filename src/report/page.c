/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The small strokes that every page is drawn with: ink, headings, cells, spans, a frame. */
#include "report/page.h"
#include "report/page_html.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ECMA-48 graphic renditions. */
static const char *const inks[] = {
	[BC_INK_PLAIN] = "",
	[BC_INK_STRONG] = "\033[1m",
	[BC_INK_GOOD] = "\033[1;32m",
	[BC_INK_DOUBT] = "\033[1;33m",
	[BC_INK_BAD] = "\033[1;31m",
	[BC_INK_FAINT] = "\033[2m",
};

void bc_page_ink(struct bc_page *page, enum bc_ink ink)
{
	if (page->html != NULL)
		page->html->ink = ink;
	else if (page->style->colour)
		bc_text_append(page->text, inks[ink]);
}

void bc_page_ink_off(struct bc_page *page)
{
	if (page->html != NULL)
		page->html->ink = BC_INK_PLAIN;
	else if (page->style->colour)
		bc_text_append(page->text, "\033[0m");
}

void bc_page_printf(struct bc_page *page, const char *format, ...)
{
	va_list arguments;
	struct bc_text words;
	bc_text_init(&words);
	va_start(arguments, format);
	bc_text_vprintf(page->html != NULL ? &words : page->text, format, arguments);
	va_end(arguments);
	if (words.data != NULL)
		bc_page_html_words(page, words.data);
	page->text->failed = page->text->failed || words.failed;
	bc_text_release(&words);
}

void bc_page_repeat(struct bc_page *page, char c, size_t n)
{
	if (page->html != NULL)
		return;
	while (n-- > 0)
		bc_text_append_n(page->text, &c, 1);
}

void bc_page_blanks(struct bc_page *page, size_t n) { bc_page_repeat(page, ' ', n); }

void bc_page_gap(struct bc_page *page, size_t n) { bc_page_blanks(page, n); }

void bc_page_title(struct bc_page *page, const char *name)
{
	if (page->html != NULL) {
		bc_page_html_title(page, name);
		return;
	}
	bc_page_ink(page, BC_INK_STRONG);
	bc_page_paragraph(page, name, "", 0);
	bc_page_ink_off(page);
}

void bc_page_word(struct bc_page *page, const char *label, const char *word, enum bc_ink ink)
{
	if (page->html != NULL) {
		bc_page_html_verdict(page, label, word, ink);
		return;
	}
	bc_page_ink(page, ink);
	bc_page_printf(page, "%s: %s\n", label, word);
	bc_page_ink_off(page);
}

void bc_page_table(struct bc_page *page, const char *head, const char *columns)
{
	if (page->html != NULL)
		bc_page_html_table(page, columns);
	else
		bc_text_append(page->text, head);
}

void bc_page_table_end(struct bc_page *page)
{
	if (page->html != NULL)
		bc_page_html_table_end(page);
}

void bc_page_row(struct bc_page *page, size_t lead)
{
	if (page->html != NULL)
		bc_page_html_row(page);
	else
		bc_page_blanks(page, lead);
}

void bc_page_row_end(struct bc_page *page)
{
	if (page->html != NULL)
		bc_page_html_row_end(page);
	else
		bc_text_append(page->text, "\n");
}

void bc_page_heading(struct bc_page *page, const char *heading, const char *note)
{
	if (page->html != NULL) {
		bc_page_html_heading(page, heading, note);
		return;
	}
	bc_text_append(page->text, "\n");
	bc_page_ink(page, BC_INK_STRONG);
	bc_text_append(page->text, heading);
	bc_page_ink_off(page);
	if (note != NULL) {
		bc_page_ink(page, BC_INK_FAINT);
		bc_page_printf(page, "  %s", note);
		bc_page_ink_off(page);
	}
	bc_text_append(page->text, "\n");
}

void bc_page_paragraph(struct bc_page *page, const char *s, const char *first, size_t indent)
{
	struct bc_text escaped;
	if (page->html != NULL) {
		bc_page_html_paragraph(page, s, first);
		return;
	}
	bc_text_init(&escaped);
	bc_text_append_escaped(&escaped, s);
	if (escaped.failed)
		page->text->failed = true;
	else if (escaped.data != NULL)
		bc_text_append_wrapped(
			page->text, escaped.data, first, indent, BC_PAGE_COLUMNS - 2);
	bc_text_release(&escaped);
}

void bc_page_cell(struct bc_page *page, const char *s, size_t width)
{
	if (page->html != NULL) {
		bc_page_html_words(page, s);
		return;
	}
	size_t from = page->text->length;
	bc_text_append_escaped(page->text, s);
	if (page->text->failed || page->text->data == NULL)
		return;
	size_t columns = bc_text_columns(page->text->data + from);
	if (columns < width)
		bc_page_blanks(page, width - columns);
}

void bc_page_number(struct bc_page *page, double value, int decimals, int width)
{
	if (isnan(value))
		bc_page_printf(page, "%*s", width, "-");
	else
		bc_page_printf(page, "%*.*f", width, decimals, value);
}

void bc_page_span(struct bc_page *page, double low, double high, int decimals, size_t width)
{
	char span[80];
	if (isnan(low) && isnan(high))
		snprintf(span, sizeof span, "-");
	else if (isnan(low))
		snprintf(span, sizeof span, "up to %.*f", decimals, high);
	else if (isnan(high))
		snprintf(span, sizeof span, "from %.*f", decimals, low);
	else
		snprintf(span, sizeof span, "%.*f to %.*f", decimals, low, decimals, high);
	bc_page_cell(page, span, width);
}

bool bc_page_site_flash(const struct bc_judgement *judgement)
{
	return judgement->conditions.pressure_source != BC_PRESSURE_ASSUMED &&
	       !isnan(judgement->oil.flash_at_site_c);
}

void bc_page_box_edge(struct bc_page *page)
{
	if (page->html != NULL) {
		bc_page_html_box_edge(page);
		return;
	}
	bc_page_ink(page, BC_INK_BAD);
	bc_page_repeat(page, '#', BC_PAGE_COLUMNS);
	bc_page_ink_off(page);
	bc_text_append(page->text, "\n");
}

static void box_row(struct bc_page *page, const char *line, size_t n, bool strong)
{
	const size_t inside = BC_PAGE_COLUMNS - 6;
	char row[4 * BC_PAGE_COLUMNS + 1];
	snprintf(row, sizeof row, "%.*s", (int)n, line);
	bc_page_ink(page, BC_INK_BAD);
	bc_text_append(page->text, "##");
	bc_page_ink_off(page);
	bc_text_append(page->text, " ");
	if (strong)
		bc_page_ink(page, BC_INK_STRONG);
	bc_text_append(page->text, row);
	if (strong)
		bc_page_ink_off(page);
	size_t columns = bc_text_columns(row);
	bc_page_blanks(page, columns < inside ? inside - columns : 0);
	bc_text_append(page->text, " ");
	bc_page_ink(page, BC_INK_BAD);
	bc_text_append(page->text, "##");
	bc_page_ink_off(page);
	bc_text_append(page->text, "\n");
}

void bc_page_box_line(struct bc_page *page, const char *s, bool strong)
{
	struct bc_text lines;
	struct bc_text escaped;
	if (page->html != NULL) {
		bc_page_html_box_line(page, s, strong);
		return;
	}
	bc_text_init(&lines);
	bc_text_init(&escaped);
	bc_text_append_escaped(&escaped, s);
	if (escaped.data != NULL)
		bc_text_append_wrapped(&lines, escaped.data, NULL, 0, BC_PAGE_COLUMNS - 6);
	if (escaped.failed || lines.failed)
		page->text->failed = true;
	else if (lines.data == NULL)
		box_row(page, "", 0, false);
	else
		for (const char *at = lines.data; *at != '\0';) {
			size_t n = strcspn(at, "\n");
			box_row(page, at, n, strong);
			at += n + (at[n] == '\n');
		}
	bc_text_release(&escaped);
	bc_text_release(&lines);
}

int bc_page_decimals(double value, const char *unit)
{
	double size = fabs(value);
	if (isnan(value) || size >= 1000.0)
		return 0;
	return size >= 10.0 || strcmp(unit, "degC") == 0 ? 1 : 2;
}

enum bc_ink bc_page_state_ink(enum bc_state state)
{
	switch (state) {
	case BC_STATE_WITHIN:
		return BC_INK_GOOD;
	case BC_STATE_DOUBTFUL:
		return BC_INK_DOUBT;
	case BC_STATE_OUTSIDE:
		return BC_INK_BAD;
	case BC_STATE_NOT_MEASURED:
		break;
	}
	return BC_INK_FAINT;
}
