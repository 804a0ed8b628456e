/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_BOOK_ANSWER_H
#define BC_COMMAND_BOOK_ANSWER_H

#include <jansson.h>
#include <stdbool.h>

#include "command/arguments.h"
#include "command/book.h"

/*
 * What a part of the book prints, as text or as JSON. Where it writes too, it writes, makes its
 * answer and only then commits: a failure in between leaves nothing that would be written twice.
 *
 *     result = bc_answer_begin(&answer, arguments, &shelf, true);
 *     ... result = ..., answer.json = ... or bc_text_append(&answer.text, ...)
 *     result = bc_answer_end(&answer, &shelf, result);
 */
struct bc_answer {
	bool wants_json;
	bool writes; /* a transaction is open */
	json_t *json;
	struct bc_text text;
};

int bc_answer_begin(struct bc_answer *answer, const struct bc_arguments *arguments,
	struct bc_shelf *shelf, bool writes);
/* Commits and prints where result is BC_EXIT_DONE and the answer is whole, else undoes. */
int bc_answer_end(struct bc_answer *answer, struct bc_shelf *shelf, int result);

#endif
