/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sketch: exactly its room, whatever the readings. */
#include "report/sketch.h"
#include "unit/unit.h"

#include <string.h>

static void assert_sketch(const struct bc_sketch *sketch, const double *pct, const double *head,
	size_t n, const char *expected)
{
	struct bc_text text;
	bc_text_init(&text);
	bc_report_sketch(sketch, pct, head, n, &text);
	assert_string_equal(text.data != NULL ? text.data : "", expected);
	bc_text_release(&text);
}

static void a_curve(void **state)
{
	(void)state;
	const struct bc_sketch sketch = {40, 6, true};
	const double pct[] = {0.0, 50.0, 100.0};
	const double head[] = {171.0, 222.0, 284.0};
	assert_sketch(&sketch, pct, head, 3,
		"  290 |                             ..*\n"
		"      |                     .........\n"
		"      |             ...*.....\n"
		"      |    ..........\n"
		"  170 |*....\n"
		"      +---------------50------------100\n");
}

static void one_reading(void **state)
{
	(void)state;
	const struct bc_sketch sketch = {24, 4, true};
	const double pct[] = {95.0};
	const double head[] = {233.6};
	assert_sketch(&sketch, pct, head, 1,
		"  250 |\n"
		"      |\n"
		"  230 |              *\n"
		"      +-------50----100\n");
}

static void no_room(void **state)
{
	(void)state;
	const struct bc_sketch low = {80, 3, true};
	const struct bc_sketch narrow = {23, 10, true};
	const struct bc_sketch sketch = {80, 10, true};
	const double pct[] = {5.0};
	const double head[] = {112.5};
	assert_sketch(&low, pct, head, 1, "");
	assert_sketch(&narrow, pct, head, 1, "");
	assert_sketch(&sketch, pct, head, 0, "");
}

/* Of every size, also with readings that are nowhere: so many lines, none too wide. */
static void fits(void **state)
{
	(void)state;
	const double pct[] = {0.0, 5.0, 5.0, 95.0, 140.0};
	const double head[] = {-200.0, 112.5, 700.0, 12.5, 333.3};
	for (size_t columns = 24; columns <= 130; columns += 7) {
		for (size_t rows = 4; rows <= 25; rows++) {
			const struct bc_sketch sketch = {columns, rows, false};
			struct bc_text text;
			size_t lines = 0;
			bc_text_init(&text);
			bc_report_sketch(&sketch, pct, head, 5, &text);
			for (char *line = strtok(text.data, "\n"); line != NULL;
				line = strtok(NULL, "\n"), lines++)
				assert_true(bc_text_columns(line) <= columns);
			assert_int_equal(lines, rows);
			bc_text_release(&text);
		}
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_curve),
		cmocka_unit_test(one_reading),
		cmocka_unit_test(no_room),
		cmocka_unit_test(fits),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
