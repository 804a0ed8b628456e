/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_CARD_H
#define BC_REPORT_CARD_H

#include "base/status.h"
#include "judgement/judgement.h"
#include "judgement/tapping.h"
#include "report/report.h"

/* What a card shows; those that a card does not need may be NULL. */
struct bc_card {
	const struct bc_tapping *tapping;     /* tap, stop */
	const struct bc_judgement *judgement; /* lab, may be NULL there too */
};

/* Cards to print, one sheet of A4 each, or 80 columns for a terminal: "sheet" is a boil-off to fill
 * in by hand with the safe way to do it, "tap" the turns, "stop" when to start and stop this charge
 * on this heater, "lab" a slip for the laboratory. */
extern const char *const bc_card_kinds[]; /* NULL last */

/* BC_NOT_FOUND: no such kind. */
enum bc_status bc_report_card_text(const char *kind, const struct bc_card *card,
	const struct bc_page_style *style, struct bc_text *text);
enum bc_status bc_report_card_html(
	const char *kind, const struct bc_card *card, struct bc_text *html);

#endif
