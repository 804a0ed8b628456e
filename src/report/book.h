/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_BOOK_H
#define BC_REPORT_BOOK_H

#include <jansson.h>

#include "base/strings.h"
#include "base/text.h"
#include "book/record.h"

/* A JSON value as one line without blanks, as the book keeps it. */
enum bc_status bc_report_json_line(const json_t *json, struct bc_text *text);

/* A JSON text out of the book, as a new reference. BC_MALFORMED: it is none; *json is NULL. */
enum bc_status bc_report_json_read(const char *text, json_t **json);

/* The head of a list and one batch of it, for a person; its JSON object. */
void bc_report_book_head(struct bc_text *text);
void bc_report_book_row(const struct bc_book_row *row, struct bc_text *text);
json_t *bc_report_book_row_json(const struct bc_book_row *row);

/* One record with the revisions and notes of its batch. BC_MALFORMED: its judgement is no JSON. */
enum bc_status bc_report_record(const struct bc_record *record, struct bc_text *text);
json_t *bc_report_record_json(const struct bc_record *record);

/* Where two judgements differ, the version of the program aside, as "properties.flash_c.low: 61.2
 * was 60.9"; at most so many. */
enum bc_status bc_report_differences(
	const char *was, const json_t *is, size_t most, struct bc_strings *differences);

#endif
