/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_TAP_PAGE_H
#define BC_REPORT_TAP_PAGE_H

#include <stdbool.h>

#include "judgement/tapping.h"
#include "report/page.h"

/* "product", "product1", ... */
bool bc_jar_is_product(const struct bc_jar *jar);
/* "152 mL", "1.52 L", "31.4 L" */
void bc_tap_amount(double ml, struct bc_text *line);
/* As bc_page_paragraph; releases line. */
void bc_tap_paragraph(struct bc_page *page, struct bc_text *line, const char *first, size_t indent);

/* Whether there is anything to be done at the tap: not where the wanted grade is not to be had. */
bool bc_tap_has_steps(const struct bc_tapping *tapping);
/* " Above 330 degC, the usual limit, ..." where the heat goes off later than that. */
void bc_tap_above_usual(const struct bc_tapping *tapping, struct bc_text *line);

/* Which still, and what a hand at the tap must do. */
void bc_page_tap_still(struct bc_page *page, const struct bc_tapping *tapping);
void bc_page_tap_turns(struct bc_page *page, const struct bc_tapping *tapping);
/* That no cut does it, with the reasons; nothing where one does. */
void bc_page_tap_no_cut(struct bc_page *page, const struct bc_tapping *tapping);
/* A frame around why the oil should not be distilled; nothing where it may be. */
void bc_page_tap_forbidden(struct bc_page *page, const struct bc_tapping *tapping);

/* Pictures, where the page can show them: the run with its turns, and yield against flash. */
void bc_page_tap_run(struct bc_page *page, const struct bc_tapping *tapping);
void bc_page_tap_choice(struct bc_page *page, const struct bc_tapping *tapping);

/* The blocks of the page below the card. */
void bc_page_tap_jars(struct bc_page *page, const struct bc_tapping *tapping);
void bc_page_tap_product(struct bc_page *page, const struct bc_tapping *tapping);
void bc_page_tap_good_for(struct bc_page *page, const struct bc_tapping *tapping);
void bc_page_tap_heat(struct bc_page *page, const struct bc_tapping *tapping);
void bc_page_tap_choices(struct bc_page *page, const struct bc_tapping *tapping);

#endif
