/* SPDX-License-Identifier: GPL-3.0-or-later */
/* CSV: quotes, line endings, line numbers, size, and memory that runs out. */
#include "base/csv.h"
#include "unit/unit.h"

#include <string.h>

#include "base/fault.h"
#include "base/memory.h"
#include "base/text.h"

static enum bc_status parse(const char *s, char separator, struct bc_csv *csv)
{
	return bc_csv_parse(s, strlen(s), separator, csv, NULL);
}

/* Rows written as "line:field|field;" */
static void assert_rows(const char *s, char separator, const char *expected)
{
	struct bc_csv csv;
	assert_int_equal(parse(s, separator, &csv), BC_OK);
	struct bc_text text;
	bc_text_init(&text);
	for (size_t i = 0; i < csv.n; i++) {
		bc_text_printf(&text, "%zu:", csv.rows[i].line);
		for (size_t j = 0; j < csv.rows[i].n; j++)
			bc_text_printf(&text, "%s%s", j == 0 ? "" : "|", csv.rows[i].fields[j]);
		bc_text_append(&text, ";");
	}
	char *rows = bc_text_take(&text);
	assert_string_equal(rows, expected);
	bc_free(rows);
	bc_csv_release(&csv);
}

static void line_endings_and_numbers(void **state)
{
	(void)state;
	const char *expected = "1:a|b;3:c|d;4:e|;";
	assert_rows("a,b\n\nc,d\ne,\n", ',', expected);
	assert_rows("a,b\r\n\r\nc,d\r\ne,\r\n", ',', expected);
	assert_rows("a,b\r\rc,d\re,\r", ',', expected);
	assert_rows("a,b\n\nc,d\ne,", ',', expected);
	assert_rows("", ',', "");
	assert_rows("\n \n\t\n", ',', "");
	assert_rows("a", ',', "1:a;");
}

static void separators(void **state)
{
	(void)state;
	assert_rows("a;b,c\n;;\n", ';', "1:a|b,c;2:||;");
	assert_rows("a\tb\n\t\t\n", '\t', "1:a|b;2:||;");
	assert_rows(",,\n\n,\n", ',', "1:||;3:|;");
	assert_rows("  a  , b c \n", ',', "1:a|b c;");
}

static void quotes(void **state)
{
	(void)state;
	assert_rows("\"a,b\",\"say \"\"hot\"\"\"\nx,y\n", ',', "1:a,b|say \"hot\";2:x|y;");
	assert_rows("\"two\nlines\",1\nx,y\n", ',', "1:two\nlines|1;3:x|y;");
	assert_rows("\"a\r\n\r\nb\",1\r\nx,y\r\n", ',', "1:a\r\n\r\nb|1;4:x|y;");
	assert_rows("\"last\"", ',', "1:last;");
	assert_rows("12\" pipe,x\n", ',', "1:12\" pipe|x;");
}

static void open_quote(void **state)
{
	(void)state;
	struct bc_csv csv;
	size_t line = 0;
	const char *s = "a,b\nc,d\n\ne,\"open\nf,g\n";
	assert_int_equal(bc_csv_parse(s, strlen(s), ',', &csv, &line), BC_MALFORMED);
	assert_int_equal(line, 4);
	assert_null(csv.rows);
	assert_null(csv.fields);
	assert_null(csv.text);
	assert_int_equal(bc_csv_parse("\"", 1, ',', &csv, &line), BC_MALFORMED);
	assert_int_equal(line, 1);
	bc_csv_release(&csv);
	bc_csv_release(NULL);
}

static void many_rows(void **state)
{
	(void)state;
	struct bc_text text;
	bc_text_init(&text);
	for (int i = 0; i < 100000; i++)
		bc_text_printf(&text, "%d,%d.5\n", i, i);
	struct bc_csv csv;
	assert_int_equal(bc_csv_parse(text.data, text.length, ',', &csv, NULL), BC_OK);
	assert_int_equal(csv.n, 100000);
	assert_int_equal(csv.rows[73217].line, 73218);
	assert_string_equal(csv.rows[73217].fields[1], "73217.5");
	bc_csv_release(&csv);
	bc_text_release(&text);
}

/* Sticky, since libcsv asks again for less when its buffer cannot grow. */
static void every_allocation_may_fail(void **state)
{
	(void)state;
	const char *s = "a,b,c\n1,2,3\n4,5,6\n7,8,9\n\"x\",y,z\na\nb\nc\nd\ne\nf\ng\n";
	unsigned long n = 0;
	enum bc_status status = BC_NO_MEMORY;
	while (status != BC_OK) {
		struct bc_csv csv;
		bc_fault_set(BC_FAULT_ALLOC, ++n, true);
		status = parse(s, ',', &csv);
		if (status == BC_OK) {
			assert_int_equal(csv.n, 12);
			assert_true(bc_fault_count(BC_FAULT_ALLOC) < n);
		} else {
			assert_int_equal(status, BC_NO_MEMORY);
			assert_null(csv.text);
		}
		bc_csv_release(&csv);
	}
	bc_fault_set(BC_FAULT_ALLOC, 0, false);
	assert_in_range(n, 6, 30);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(line_endings_and_numbers),
		cmocka_unit_test(separators),
		cmocka_unit_test(quotes),
		cmocka_unit_test(open_quote),
		cmocka_unit_test(many_rows),
		cmocka_unit_test(every_allocation_may_fail),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
