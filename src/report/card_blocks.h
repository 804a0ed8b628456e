/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_CARD_BLOCKS_H
#define BC_REPORT_CARD_BLOCKS_H

#include "report/card.h"
#include "report/page.h"

/* What is on each card, below its title. */
void bc_card_sheet(struct bc_page *page, const struct bc_card *card);
void bc_card_tap(struct bc_page *page, const struct bc_card *card);
void bc_card_stop(struct bc_page *page, const struct bc_card *card);
void bc_card_lab(struct bc_page *page, const struct bc_card *card);

/* Which jar, cut to a line. */
void bc_card_name(struct bc_page *page, const struct bc_sample *sample);

#endif
