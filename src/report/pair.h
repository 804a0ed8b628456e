/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_PAIR_H
#define BC_REPORT_PAIR_H

#include <jansson.h>

#include "base/text.h"
#include "book/pairs.h"
#include "book/stills.h"

/* Re-runs and stills of the book for a person, 80 columns, and as JSON. */

/* comparison may be NULL in JSON: then the figures are null. */
enum bc_status bc_report_pair(const struct bc_pair *pair,
	const struct bc_pair_comparison *comparison, struct bc_text *text);
json_t *bc_report_pair_json(
	const struct bc_pair *pair, const struct bc_pair_comparison *comparison);
enum bc_status bc_report_pairs(const struct bc_pairs *pairs, struct bc_text *text);

/* Its file line by line, what a terminal may obey escaped. */
enum bc_status bc_report_book_still(const struct bc_book_still *still, struct bc_text *text);
json_t *bc_report_book_still_json(const struct bc_book_still *still);
enum bc_status bc_report_book_stills(const struct bc_book_stills *stills, struct bc_text *text);

#endif
