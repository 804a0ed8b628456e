/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A page as HTML: what is open is closed by what follows, so that the blocks need not know. */
#include "report/page_html.h"

#include <stdio.h>
#include <string.h>

#include "report/svg_curve.h"

#define NAME_MOST 200

static const char *const classes[] = {
	[BC_INK_PLAIN] = "",
	[BC_INK_STRONG] = "strong",
	[BC_INK_GOOD] = "good",
	[BC_INK_DOUBT] = "doubt",
	[BC_INK_BAD] = "bad",
	[BC_INK_FAINT] = "soft",
};

static void end_list(struct bc_page *page)
{
	if (page->html->list != NULL)
		bc_text_printf(page->text, "</%s>\n", page->html->list);
	page->html->list = NULL;
}

/* Closes all that lies within a section. */
static void end_blocks(struct bc_page *page)
{
	struct bc_page_html *html = page->html;
	end_list(page);
	if (html->column != NULL)
		bc_page_html_row_end(page);
	bc_page_html_table_end(page);
	if (html->verdict || html->box)
		bc_text_append(page->text, "</div>\n");
	html->verdict = html->box = false;
}

static void end_section(struct bc_page *page)
{
	end_blocks(page);
	if (page->html->section)
		bc_text_append(page->text, "</section>\n");
	page->html->section = false;
}

void bc_page_html_open(struct bc_page *page, struct bc_page_html *html,
	const struct bc_html_medium *medium, const char *title)
{
	*html = (struct bc_page_html){.ink = BC_INK_PLAIN};
	page->html = html;
	bc_html_open(page->text, medium, title);
}

void bc_page_html_close(struct bc_page *page)
{
	end_section(page);
	bc_html_close(page->text);
}

void bc_page_html_title(struct bc_page *page, const char *name)
{
	end_section(page);
	bc_text_append(page->text, "<h1>");
	bc_html_name(page->text, name, NAME_MOST);
	bc_text_append(page->text, "</h1>\n");
}

void bc_page_html_verdict(
	struct bc_page *page, const char *label, const char *word, enum bc_ink ink)
{
	end_section(page);
	bc_text_printf(page->text,
		"<div class=\"verdict %s\">\n<p class=\"word\"><span "
		"class=\"label\">%s</span> %s</p>\n",
		classes[ink], label, word);
	page->html->verdict = true;
}

void bc_page_html_heading(struct bc_page *page, const char *heading, const char *note)
{
	end_section(page);
	bc_html_section(page->text, heading);
	page->html->section = true;
	if (note != NULL)
		bc_html_element(page->text, "p", "soft small", "%s", note);
}

static void open_element(struct bc_page *page, const char *tag)
{
	const char *of = classes[page->html->ink];
	if (of[0] != '\0')
		bc_text_printf(page->text, "<%s class=\"%s\">", tag, of);
	else
		bc_text_printf(page->text, "<%s>", tag);
}

static void begin_list(struct bc_page *page, const char *tag, const char *of)
{
	if (page->html->list != NULL && strcmp(page->html->list, tag) == 0)
		return;
	end_list(page);
	bc_text_printf(page->text, "<%s class=\"%s\">\n", tag, of);
	page->html->list = tag;
}

static void item(struct bc_page *page, const char *s)
{
	open_element(page, "li");
	bc_html_name(page->text, s, (size_t)64 * NAME_MOST);
	bc_text_append(page->text, "</li>\n");
}

/* first without its blanks. */
static void label_of(const char *first, char *label, size_t size)
{
	first += first != NULL ? strspn(first, " ") : 0;
	snprintf(label, size, "%s", first != NULL ? first : "");
	for (size_t n = strlen(label); n > 0 && label[n - 1] == ' '; n--)
		label[n - 1] = '\0';
}

void bc_page_html_paragraph(struct bc_page *page, const char *s, const char *first)
{
	char label[64] = "";
	if (first != NULL)
		label_of(first, label, sizeof label);
	if (strcmp(label, "-") == 0 || strcmp(label, ">") == 0) {
		begin_list(page, "ul", label[0] == '-' ? "plain" : "next");
		item(page, s);
		return;
	}
	if (label[0] >= '1' && label[0] <= '9' && label[strlen(label) - 1] == '.') {
		begin_list(page, "ol", "turns");
		item(page, s);
		return;
	}
	end_list(page);
	open_element(page, "p");
	if (label[0] != '\0') {
		bc_text_append(page->text, "<span class=\"label\">");
		bc_html_words(page->text, label);
		bc_text_append(page->text, "</span> ");
	}
	bc_html_name(page->text, s, (size_t)64 * NAME_MOST);
	bc_text_append(page->text, "</p>\n");
}

/* A cell says its column again for narrow screens, where a wide row stands as a block. */
static void open_cell(struct bc_page *page)
{
	const char *at = page->html->column;
	const char *of = classes[page->html->ink];
	size_t n = strcspn(at, "|");
	bc_text_append(page->text, "<td");
	if (of[0] != '\0')
		bc_text_printf(page->text, " class=\"%s\"", of);
	if (n > 0)
		bc_text_printf(page->text, " data-of=\"%.*s\"", (int)n, at);
	bc_text_append(page->text, ">");
	page->html->column = at + n + (at[n] == '|');
}

void bc_page_html_words(struct bc_page *page, const char *s)
{
	bool in_row = page->html->column != NULL;
	s += strspn(s, " \n");
	size_t n = strlen(s);
	while (n > 0 && (s[n - 1] == ' ' || s[n - 1] == '\n'))
		n--;
	if (n == 0 && !in_row)
		return;
	struct bc_text words;
	bc_text_init(&words);
	bc_text_append_n(&words, s, n);
	if (in_row) {
		open_cell(page);
	} else {
		end_list(page);
		open_element(page, "p");
	}
	bc_html_words(page->text, words.data != NULL ? words.data : "");
	bc_text_append(page->text, in_row ? "</td>" : "</p>\n");
	page->text->failed = page->text->failed || words.failed;
	bc_text_release(&words);
}

void bc_page_html_table(struct bc_page *page, const char *columns)
{
	end_list(page);
	bc_html_table(page->text, NULL, columns);
	page->html->columns = columns;
}

void bc_page_html_table_end(struct bc_page *page)
{
	if (page->html->columns != NULL)
		bc_text_append(page->text, "</tbody></table>\n");
	page->html->columns = NULL;
}

void bc_page_html_row(struct bc_page *page)
{
	bc_text_append(page->text, "<tr>");
	page->html->column = page->html->columns != NULL ? page->html->columns : "";
}

void bc_page_html_row_end(struct bc_page *page)
{
	bc_text_append(page->text, "</tr>\n");
	page->html->column = NULL;
}

void bc_page_html_box_edge(struct bc_page *page)
{
	bool opens = !page->html->box;
	end_blocks(page);
	if (!opens)
		return;
	bc_text_append(page->text, "<div class=\"danger\" role=\"note\">\n");
	page->html->box = true;
	page->html->box_named = false;
}

void bc_page_html_box_line(struct bc_page *page, const char *s, bool strong)
{
	if (s[0] == '\0')
		return;
	bc_html_element(page->text, "p",
		strong ? (page->html->box_named ? "strong" : "word") : "small", "%s", s);
	page->html->box_named = true;
}

bool bc_page_figure(struct bc_page *page)
{
	if (page->html == NULL)
		return false;
	end_section(page);
	bc_text_append(page->text, "<figure>\n");
	return true;
}

void bc_page_figure_end(struct bc_page *page, const char *caption)
{
	bc_html_element(page->text, "figcaption", NULL, "%s", caption);
	bc_text_append(page->text, "</figure>\n");
}

void bc_page_curve(struct bc_page *page, const struct bc_judgement *judgement)
{
	if (!bc_page_figure(page))
		return;
	bc_svg_curve(judgement, page->text);
	bc_page_figure_end(page,
		"The curve with its 95 % band. Triangles: limits of the grade above. Upright lines: "
		"where the tap turns, at the volume over the still's head in the simulated re-run, "
		"with what this thermometer shows then. Open dots: readings not used.");
}
