/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists of strings, messages about an input, and faults asked for from outside. */
#include "base/strings.h"
#include "unit/unit.h"

#include <stdlib.h>

#include "base/diagnostic.h"
#include "base/fault.h"
#include "base/memory.h"

static void strings_are_kept_in_order(void **state)
{
	(void)state;
	struct bc_strings list;
	bc_strings_init(&list);
	for (int i = 0; i < 20; i++)
		bc_strings_add(&list, "line %d", i % 10);
	bc_strings_add_once(&list, "line %d", 7);
	bc_strings_add_once(&list, "line %d", 17);
	assert_int_equal(list.n, 21);
	assert_string_equal(list.items[13], "line 3");
	assert_string_equal(list.items[20], "line 17");
	assert_false(list.failed);
	bc_strings_release(&list);
	bc_strings_release(NULL);
}

static void strings_remember_a_failure(void **state)
{
	(void)state;
	struct bc_strings list;
	for (unsigned long n = 1; n <= 2; n++) {
		bc_strings_init(&list);
		bc_fault_set(BC_FAULT_ALLOC, n, false);
		bc_strings_add(&list, "lost");
		bc_strings_add(&list, "not even tried");
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		assert_true(list.failed);
		assert_int_equal(list.n, 0);
		bc_strings_release(&list);
	}
}

static void the_first_error_is_found(void **state)
{
	(void)state;
	struct bc_diagnostics list;
	bc_diagnostics_init(&list);
	assert_null(bc_diagnostics_first_error(&list));
	assert_null(bc_diagnostics_first_error(NULL));
	bc_diagnose(&list, BC_WARNING, NULL, 0, "odd");
	bc_diagnose(&list, BC_ERROR, "a.csv", 12, "'%s' is not a number", "12x");
	bc_diagnose(&list, BC_ERROR, "a.csv", 13, "later");
	bc_diagnose(NULL, BC_ERROR, "a.csv", 13, "nobody listens");
	assert_null(list.items[0].file);
	const struct bc_diagnostic *first = bc_diagnostics_first_error(&list);
	assert_string_equal(first->text, "'12x' is not a number");
	assert_int_equal(first->line, 12);
	bc_diagnostics_release(&list);
	bc_diagnostics_release(&list);
	bc_diagnostics_release(NULL);
}

static void faults_come_when_asked_for(void **state)
{
	(void)state;
	setenv("BOILCUT_FAULT", "alloc:2", 1);
	bc_fault_from_environment();
	static const bool once[] = {false, true, false};
	for (size_t i = 0; i < 3; i++)
		assert_int_equal(bc_fault_now(BC_FAULT_ALLOC), once[i]);
	setenv("BOILCUT_FAULT", "write:2+", 1);
	bc_fault_from_environment();
	static const bool on[] = {false, true, true};
	for (size_t i = 0; i < 3; i++)
		assert_int_equal(bc_fault_now(BC_FAULT_WRITE), on[i]);
	assert_int_equal(bc_fault_count(BC_FAULT_WRITE), 3);
	bc_fault_set(BC_FAULT_ALLOC, 0, false);
	bc_fault_set(BC_FAULT_WRITE, 0, false);
	unsetenv("BOILCUT_FAULT");
	bc_fault_from_environment();
	assert_false(bc_fault_now(BC_FAULT_WRITE));
}

static void too_much_memory_is_refused(void **state)
{
	(void)state;
	assert_null(bc_realloc_array(NULL, SIZE_MAX / 2, 3));
	void *items = NULL;
	size_t capacity = SIZE_MAX / 2 + 1;
	assert_int_equal(bc_grow(&items, capacity, &capacity, 1), -1);
	char *nothing = bc_alloc_array(0, 8);
	assert_non_null(nothing);
	bc_free(nothing);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(strings_are_kept_in_order),
		cmocka_unit_test(strings_remember_a_failure),
		cmocka_unit_test(the_first_error_is_found),
		cmocka_unit_test(faults_come_when_asked_for),
		cmocka_unit_test(too_much_memory_is_refused),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
