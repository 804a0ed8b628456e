/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_STORE_H
#define BC_REPORT_STORE_H

#include <jansson.h>

#include "base/text.h"
#include "book/contents.h"
#include "book/due.h"

/* Jars for a person, 80 columns, and as JSON. BC_NO_MEMORY. */

/* One jar, whole; movements may be NULL. */
struct bc_jar_page {
	const struct bc_store_jar *jar;
	const struct bc_contents *contents;
	const struct bc_movements *movements;
};
enum bc_status bc_report_jar(const struct bc_jar_page *page, struct bc_text *text);
json_t *bc_report_jar_json(const struct bc_jar_page *page);

/* One line: "jar 7: 8.20 L of 20 L; batch 3 62 %, batch 5 38 %; treat it as petrol". */
enum bc_status bc_report_jar_line(const struct bc_jar_page *page, struct bc_text *text);

/* What has been written down and what the jars then hold; either may be NULL. */
json_t *bc_report_move_json(
	double moved_ml, const struct bc_jar_page *from, const struct bc_jar_page *to);

/* Jars that are due; on is the day. */
enum bc_status bc_report_dues(const struct bc_dues *dues, const char *on, struct bc_text *text);
json_t *bc_report_dues_json(const struct bc_dues *dues);

/* "820 mL", "8.2 L" */
#define BC_VOLUME_WORDS_SIZE 32
const char *bc_volume_words(double volume_ml, char words[BC_VOLUME_WORDS_SIZE]);

#endif
