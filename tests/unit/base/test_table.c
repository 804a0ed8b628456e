/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The embedded tables: every CSV file of standards-notes/, byte for byte. */
#include "base/table.h"
#include "unit/unit.h"

#include <string.h>

#include "base/file.h"
#include "base/memory.h"

static void tables_are_the_files(void **state)
{
	(void)state;
	for (size_t i = 0; i < bc_tables_count; i++) {
		char *path = bc_format("standards-notes/%s.csv", bc_tables[i].name);
		char *bytes = NULL;
		size_t n = 0;
		assert_int_equal(bc_file_read(path, 10000000, &bytes, &n, NULL), BC_OK);
		char *text = bc_table_text(&bc_tables[i]);
		assert_non_null(text);
		if (strcmp(text, bytes) != 0)
			fail_msg("table %s differs from its file", bc_tables[i].name);
		assert_ptr_equal(bc_table_find(bc_tables[i].name), &bc_tables[i]);
		bc_free(text);
		bc_free(bytes);
		bc_free(path);
	}
	assert_null(bc_table_find("no such table"));
}

static void text_of_a_table(void **state)
{
	(void)state;
	static const char *const lines[] = {"a,b", "", "\"c\",d"};
	const struct bc_table table = {"made up", lines, 3};
	char *text = bc_table_text(&table);
	assert_string_equal(text, "a,b\n\n\"c\",d\n");
	bc_free(text);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(tables_are_the_files),
		cmocka_unit_test(text_of_a_table),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
