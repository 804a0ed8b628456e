/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_PAGE_H
#define BC_REPORT_PAGE_H

#include <stdbool.h>
#include <stddef.h>

#include "report/html.h"
#include "report/report.h"

#define BC_PAGE_COLUMNS 80

enum bc_ink { BC_INK_PLAIN, BC_INK_STRONG, BC_INK_GOOD, BC_INK_DOUBT, BC_INK_BAD, BC_INK_FAINT };

/* A page in the making, for a terminal or, the same blocks in the same order, as HTML. Colour says
 * again what the words say. */
struct bc_page {
	struct bc_text *text;
	const struct bc_page_style *style;
	struct bc_page_html *html; /* NULL: for a terminal */
};

/* What is open in a page of HTML. */
struct bc_page_html {
	enum bc_ink ink;
	const char *list; /* "ul", "ol" */
	bool section;
	bool verdict;
	bool box;
	bool box_named;      /* its first line is there */
	const char *columns; /* of the open table; NULL: none is open */
	const char *column;  /* what is left of them in the open row; NULL: none is open */
};

/* Starts and ends a page of HTML; what is written between is closed as it must be. */
void bc_page_html_open(struct bc_page *page, struct bc_page_html *html,
	const struct bc_html_medium *medium, const char *title);
void bc_page_html_close(struct bc_page *page);

/* The name over the whole. */
void bc_page_title(struct bc_page *page, const char *name);
/* "VERDICT: usable", and what is said up to the next heading belongs to it. */
void bc_page_word(struct bc_page *page, const char *label, const char *word, enum bc_ink ink);

/* A table: its head as the terminal has it, and its columns, separated by "|", as HTML has them;
 * then rows of cells. lead: blanks before the first cell. */
void bc_page_table(struct bc_page *page, const char *head, const char *columns);
void bc_page_table_end(struct bc_page *page);
void bc_page_row(struct bc_page *page, size_t lead);
void bc_page_row_end(struct bc_page *page);
/* Blanks between two cells. */
void bc_page_gap(struct bc_page *page, size_t n);
void bc_page_ink(struct bc_page *page, enum bc_ink ink);
void bc_page_ink_off(struct bc_page *page);

/* A blank line and a heading at the margin; note, if not NULL, follows it in faint ink. */
void bc_page_heading(struct bc_page *page, const char *heading, const char *note);
/* As it stands; in HTML a cell where a row is open, else a paragraph of its own. */
__attribute__((format(printf, 2, 3))) void bc_page_printf(
	struct bc_page *page, const char *format, ...);

/* s, control characters escaped, wrapped to the page; led by indent spaces, the first line by
 * first (NULL: spaces too). */
void bc_page_paragraph(struct bc_page *page, const char *s, const char *first, size_t indent);
/* s escaped and filled with blanks to width columns; longer text is kept whole. */
void bc_page_cell(struct bc_page *page, const char *s, size_t width);
/* ... set to the right. "-" for NaN. */
void bc_page_number(struct bc_page *page, double value, int decimals, int width);
/* "128.9 to 133.5", "up to 63", "from 12", or "-". */
void bc_page_span(struct bc_page *page, double low, double high, int decimals, size_t width);
void bc_page_blanks(struct bc_page *page, size_t n);
void bc_page_repeat(struct bc_page *page, char c, size_t n);

/* The unit that a property measured elsewhere is held in; "" for a bare number. */
const char *bc_measured_unit(const struct bc_measured *measured);

/* A frame around wrapped lines, for what nobody may overlook; opened, filled and closed. */
void bc_page_box_edge(struct bc_page *page);
void bc_page_box_line(struct bc_page *page, const char *s, bool strong);

/* Digits after the point that a value of this size deserves on paper; of a temperature one at most.
 */
int bc_page_decimals(double value, const char *unit);

/* Whether the page tells the flash at this site beside the one at 101.3 kPa. */
bool bc_page_site_flash(const struct bc_judgement *judgement);

enum bc_ink bc_page_state_ink(enum bc_state state);

/* One standard limit by limit. */
void bc_page_criteria(struct bc_page *page, const struct bc_grade *grade);
/* A heading with one paragraph for each string; nothing where there is none. */
void bc_page_list(struct bc_page *page, const char *heading, const char *note,
	const struct bc_strings *strings);

/* False on a terminal; else the picture may be written, and is ended with its caption. */
bool bc_page_figure(struct bc_page *page);
void bc_page_figure_end(struct bc_page *page, const char *caption);
/* The boiling curve, where the page can show a picture. */
void bc_page_curve(struct bc_page *page, const struct bc_judgement *judgement);

/* The blocks of the judgement, in the order of the page. */
void bc_page_head(struct bc_page *page, const struct bc_judgement *judgement);
void bc_page_verdict(struct bc_page *page, const struct bc_judgement *judgement);
/* The frame at the head of it; nothing where there is neither petrol nor another danger. */
void bc_page_danger_box(struct bc_page *page, const struct bc_judgement *judgement);
void bc_page_danger(struct bc_page *page, const struct bc_judgement *judgement);
void bc_page_readings(struct bc_page *page, const struct bc_judgement *judgement);
void bc_page_points(struct bc_page *page, const struct bc_judgement *judgement);
void bc_page_fits(struct bc_page *page, const struct bc_judgement *judgement);
void bc_page_shares(struct bc_page *page, const struct bc_judgement *judgement);
void bc_page_properties(struct bc_page *page, const struct bc_judgement *judgement);
void bc_page_measured(struct bc_page *page, const struct bc_judgement *judgement);
void bc_page_nearest(struct bc_page *page, const struct bc_judgement *judgement);
void bc_page_other_grades(struct bc_page *page, const struct bc_judgement *judgement);
void bc_page_rerun(struct bc_page *page, const struct bc_judgement *judgement);
void bc_page_findings(struct bc_page *page, const struct bc_judgement *judgement);
void bc_page_assumed(struct bc_page *page, const struct bc_judgement *judgement);
void bc_page_untold(struct bc_page *page, const struct bc_judgement *judgement);
void bc_page_cautions(struct bc_page *page, const struct bc_judgement *judgement);

#endif
