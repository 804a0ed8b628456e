/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether a book is whole. */
#include "book/check.h"

#include <string.h>

#include "base/memory.h"
#include "book/statement.h"

/* Each returns a row of text for every fault. */
static const char *const checks[] = {
	"SELECT * FROM (SELECT integrity_check AS fault FROM pragma_integrity_check(10)) "
	"WHERE fault <> 'ok'",
	"SELECT 'a row of ' || \"table\" || ' refers to one of ' || parent || ' that is not there' "
	"FROM pragma_foreign_key_check LIMIT 10",
	"SELECT 'batch ' || id || ' has no record' FROM batch "
	"WHERE id NOT IN (SELECT batch FROM revision) LIMIT 10",
	"SELECT 'batch ' || batch || ' lacks a revision' FROM revision "
	"GROUP BY batch HAVING max(number) <> count(*) LIMIT 10",
	"SELECT 'batch ' || batch || ', revision ' || number || ' has lost its content' "
	"FROM revision r LEFT JOIN content c ON c.revision = r.id "
	"WHERE c.revision IS NULL OR length(c.bytes) <> r.size LIMIT 10",
};

enum bc_status bc_book_check(struct bc_book *book)
{
	struct bc_statement statement;
	enum bc_status status = BC_OK;
	bool whole = true;
	for (size_t i = 0; i < sizeof checks / sizeof checks[0]; i++) {
		bc_statement_open(&statement, book, checks[i]);
		while (bc_statement_row(&statement)) {
			char *fault = NULL;
			bc_get_text(&statement, 0, &fault);
			if (fault != NULL)
				bc_diagnose(book->diagnostics, BC_ERROR, book->path, 0,
					"is damaged: %s", fault);
			bc_free(fault);
			whole = false;
		}
		status = bc_statement_close(&statement);
		if (bc_failed(status))
			return status;
	}
	return whole ? BC_OK : BC_MALFORMED;
}
