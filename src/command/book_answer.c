/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The answer of a part of the book, made before what it tells of is committed. */
#include "command/book_answer.h"

#include "command/output.h"

int bc_answer_begin(struct bc_answer *answer, const struct bc_arguments *arguments,
	struct bc_shelf *shelf, bool writes)
{
	int result = BC_EXIT_DONE;
	*answer = (struct bc_answer){.wants_json = bc_arguments_has(arguments, "json")};
	bc_text_init(&answer->text);
	if (writes)
		result = bc_shelf_say(shelf, bc_book_begin(&shelf->book));
	answer->writes = writes && result == BC_EXIT_DONE;
	return result;
}

int bc_answer_end(struct bc_answer *answer, struct bc_shelf *shelf, int result)
{
	bool whole = answer->wants_json ? answer->json != NULL : !answer->text.failed;
	if (result == BC_EXIT_DONE && !whole)
		result = bc_no_memory();
	if (answer->writes) {
		/* any failure undoes; which one has been said */
		enum bc_status status =
			bc_book_end(&shelf->book, result == BC_EXIT_DONE ? BC_OK : BC_NO_MEMORY);
		if (result == BC_EXIT_DONE)
			result = bc_shelf_say(shelf, status);
	}
	if (result == BC_EXIT_DONE && answer->wants_json)
		result = bc_out_json(answer->json, 0) ? (int)BC_EXIT_DONE : bc_no_memory();
	else if (result == BC_EXIT_DONE)
		bc_out_text(&answer->text);
	json_decref(answer->json);
	bc_text_release(&answer->text);
	return result;
}
