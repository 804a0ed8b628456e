/* SPDX-License-Identifier: GPL-3.0-or-later */
/* FNV-1a, 64 bit: the values that its authors publish. */
#include "base/hash.h"
#include "unit/unit.h"

/* From the authors' list of test vectors, from memory. */
static void published_values(void **state)
{
	(void)state;
	assert_true(bc_hash("", 0) == UINT64_C(0xcbf29ce484222325));
	assert_true(bc_hash("a", 1) == UINT64_C(0xaf63dc4c8601ec8c));
	assert_true(bc_hash("foobar", 6) == UINT64_C(0x85944171f73967e8));
}

int main(void)
{
	const struct CMUnitTest tests[] = {cmocka_unit_test(published_values)};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
