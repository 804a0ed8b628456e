/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_HTML_H
#define BC_REPORT_HTML_H

#include <stddef.h>

#include "base/strings.h"
#include "base/text.h"

/*
 * HTML that needs nothing but itself: no network, no script. Whatever comes from a file is written
 * by the functions that escape; what is appended plainly must be the program's own words.
 */

/* s with the five characters that HTML and SVG obey as references; control characters and broken
 * UTF-8 as \xNN. Safe between tags and inside double quotes. */
void bc_html_words(struct bc_text *html, const char *s);
/* The same of at most so many characters; what is left out shows as an ellipsis. */
void bc_html_name(struct bc_text *html, const char *s, size_t most);
/* At most so many characters of s as they are, with an ellipsis where more was said. */
void bc_html_cut(struct bc_text *text, const char *s, size_t most);
/* A formatted string, escaped as a whole. */
__attribute__((format(printf, 2, 3))) void bc_html_printf(
	struct bc_text *html, const char *format, ...);
/* <tag class="of">words, escaped</tag>; of NULL: no class. */
__attribute__((format(printf, 4, 5))) void bc_html_element(
	struct bc_text *html, const char *tag, const char *of, const char *format, ...);
/* A list of sentences; nothing where there are none. */
void bc_html_list(struct bc_text *html, const char *of, const struct bc_strings *strings);
/* <section><h2>heading</h2>, to be closed with bc_html_section_end. */
void bc_html_section(struct bc_text *html, const char *heading);
void bc_html_section_end(struct bc_text *html);
/* The head of a table with its caption: names separated by "|", the rest of the row's cells are the
 * caller's, who ends with </tbody></table>. */
void bc_html_table(struct bc_text *html, const char *caption, const char *columns);

/* What the page is made for; of is the class of the body, paper the size and margin of print. */
struct bc_html_medium {
	const char *of;
	const char *paper;
};
extern const struct bc_html_medium bc_html_page;     /* a screen, or A4 */
extern const struct bc_html_medium bc_html_card;     /* one A4 page to hang up */
extern const struct bc_html_medium bc_html_label;    /* 100 by 60 mm */
extern const struct bc_html_medium bc_html_label_a6; /* 105 by 148 mm */

/* From the doctype to the open <main>. title is escaped. */
void bc_html_open(struct bc_text *html, const struct bc_html_medium *medium, const char *title);
void bc_html_close(struct bc_text *html);

#endif
