/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Growing text: escaping, wrapping, folding, likeness, and memory that runs out. */
#include "base/text.h"
#include "unit/unit.h"

#include <string.h>

#include "base/fault.h"
#include "base/memory.h"

static void assert_escaped(const char *s, const char *expected)
{
	struct bc_text text;
	bc_text_init(&text);
	bc_text_append_escaped(&text, s);
	char *escaped = bc_text_take(&text);
	assert_string_equal(escaped, expected);
	bc_free(escaped);
}

static void escapes_what_a_terminal_obeys(void **state)
{
	(void)state;
	assert_escaped("plain", "plain");
	/* marks that turn text around: U+202E, U+2067, U+200F; not their neighbours U+2010, U+2065
	 */
	assert_escaped("a\xE2\x80\xAE"
		       "b\xE2\x81\xA7"
		       "c\xE2\x80\x8F",
		"a\\xE2\\x80\\xAEb\\xE2\\x81\\xA7c\\xE2\\x80\\x8F");
	assert_escaped(
		"\xE2\x80\x90\xE2\x81\xA5\xE2\x80\xAF", "\xE2\x80\x90\xE2\x81\xA5\xE2\x80\xAF");
	assert_escaped("", "");
	assert_escaped("a\x1B[31mb\n\x7F", "a\\x1B[31mb\\x0A\\x7F");
	assert_escaped("\xC2\x9B"
		       "2J",
		"\\xC2\\x9B2J");
	assert_escaped("Grad \xC2\xB0 \xE2\x82\xAC \xF0\x9F\x94\xA5",
		"Grad \xC2\xB0 \xE2\x82\xAC \xF0\x9F\x94\xA5");
}

static void escapes_broken_utf8(void **state)
{
	(void)state;
	assert_escaped("\xFF", "\\xFF");
	assert_escaped("a\xC3", "a\\xC3");
	assert_escaped("\xC0\xAF", "\\xC0\\xAF");                   /* overlong */
	assert_escaped("\xE0\x9F\xBF", "\\xE0\\x9F\\xBF");          /* overlong */
	assert_escaped("\xED\xA0\x80", "\\xED\\xA0\\x80");          /* surrogate */
	assert_escaped("\xF4\x90\x80\x80", "\\xF4\\x90\\x80\\x80"); /* beyond U+10FFFF */
	assert_escaped("\xE2\x82z", "\\xE2\\x82z");
}

static void assert_wrapped(
	const char *s, const char *first, size_t indent, size_t width, const char *expected)
{
	struct bc_text text;
	bc_text_init(&text);
	bc_text_append_wrapped(&text, s, first, indent, width);
	char *wrapped = bc_text_take(&text);
	assert_string_equal(wrapped, expected);
	bc_free(wrapped);
}

static void wraps_words(void **state)
{
	(void)state;
	assert_wrapped("one two three", NULL, 0, 7, "one two\nthree\n");
	assert_wrapped("one two three", "- ", 2, 9, "- one two\n  three\n");
	assert_wrapped("one two three", "- ", 2, 8, "- one\n  two\n  three\n");
	assert_wrapped("  spread \n over  ", NULL, 1, 40, " spread over\n");
	assert_wrapped("immeasurable it is", NULL, 2, 5, "  immeasurable\n  it\n  is\n");
	assert_wrapped("\xC2\xB0\xC2\xB0\xC2\xB0 ab", NULL, 0, 6, "\xC2\xB0\xC2\xB0\xC2\xB0 ab\n");
	assert_wrapped("", "x", 0, 10, "x\n");
}

static void counts_columns_and_folds(void **state)
{
	(void)state;
	assert_int_equal(bc_text_columns("5 \xC2\xB0"
					 "C"),
		4);
	char *folded = bc_text_folded("  Recovered \t (%)  ");
	assert_string_equal(folded, "recovered (%)");
	bc_free(folded);
	folded = bc_text_folded(" \t ");
	assert_string_equal(folded, "");
	bc_free(folded);
	assert_true(bc_text_equal_nocase("IbP", "iBp"));
	assert_false(bc_text_equal_nocase("IBP", "IB"));
	assert_false(bc_text_equal_nocase("IB", "IBP"));
	assert_true(bc_text_equal_nocase("", ""));
}

static void finds_the_word_meant(void **state)
{
	(void)state;
	static const char *const words[] = {"judge", "draw", "limits", "formula", "tidy", "new"};
	size_t n = sizeof words / sizeof *words;
	assert_string_equal(bc_nearest_word("jugde", words, n), "judge");
	assert_string_equal(bc_nearest_word("JUDG", words, n), "judge");
	assert_string_equal(bc_nearest_word("limit", words, n), "limits");
	assert_string_equal(bc_nearest_word("dray", words, n), "draw");
	assert_string_equal(bc_nearest_word("fromula", words, n), "formula");
	assert_null(bc_nearest_word("banana", words, n));
	assert_null(bc_nearest_word("q", (const char *const[]){"k"}, 1));
	assert_null(bc_nearest_word("", words, n));
	assert_null(bc_nearest_word("xyz", words, n));
	assert_null(bc_nearest_word(
		"a word that goes on and on and on and on and on and on and on and on", words, n));
}

static void appends_and_formats(void **state)
{
	(void)state;
	struct bc_text text;
	bc_text_init(&text);
	for (int i = 0; i < 1000; i++)
		bc_text_printf(&text, "%d,", i);
	assert_int_equal(text.length, 3890);
	assert_int_equal(strlen(text.data), 3890);
	assert_string_equal(text.data + 3882, "998,999,");
	char *taken = bc_text_take(&text);
	assert_null(text.data);
	bc_free(taken);
	bc_text_release(&text);
	bc_text_release(NULL);
	taken = bc_text_take(&text);
	assert_string_equal(taken, "");
	bc_free(taken);
}

/* Fails the n-th allocation, n = 1, 2, ..., until all goes well. */
static void every_allocation_may_fail(void **state)
{
	(void)state;
	unsigned long n = 0;
	for (bool done = false; !done;) {
		bc_fault_set(BC_FAULT_ALLOC, ++n, false);
		struct bc_text text;
		bc_text_init(&text);
		for (int i = 0; i < 100; i++)
			bc_text_append_wrapped(&text, "a few words", "* ", 2, 9);
		char *folded = bc_text_folded("A  b");
		char *all = bc_text_take(&text);
		done = bc_fault_count(BC_FAULT_ALLOC) < n;
		assert_true((folded == NULL || all == NULL) == !done);
		bc_free(folded);
		bc_free(all);
	}
	bc_fault_set(BC_FAULT_ALLOC, 0, false);
	assert_in_range(n, 4, 100);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(escapes_what_a_terminal_obeys),
		cmocka_unit_test(escapes_broken_utf8),
		cmocka_unit_test(wraps_words),
		cmocka_unit_test(counts_columns_and_folds),
		cmocka_unit_test(finds_the_word_meant),
		cmocka_unit_test(appends_and_formats),
		cmocka_unit_test(every_allocation_may_fail),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
