/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_PAGE_HTML_H
#define BC_REPORT_PAGE_HTML_H

#include "report/page.h"

/* The strokes of report/page.h as HTML; for page.c alone. */
void bc_page_html_title(struct bc_page *page, const char *name);
void bc_page_html_verdict(
	struct bc_page *page, const char *label, const char *word, enum bc_ink ink);
void bc_page_html_heading(struct bc_page *page, const char *heading, const char *note);
/* first as the terminal has it: "  - " and "  > " make items of a list, "  1. " those of a counted
 * one, other words a label. */
void bc_page_html_paragraph(struct bc_page *page, const char *s, const char *first);
/* A cell where a row is open, else a paragraph; without the blanks around it. */
void bc_page_html_words(struct bc_page *page, const char *s);
void bc_page_html_table(struct bc_page *page, const char *columns);
void bc_page_html_table_end(struct bc_page *page);
void bc_page_html_row(struct bc_page *page);
void bc_page_html_row_end(struct bc_page *page);
void bc_page_html_box_edge(struct bc_page *page);
void bc_page_html_box_line(struct bc_page *page, const char *s, bool strong);

#endif
