/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The number grammar. */
#include "base/number.h"
#include "unit/unit.h"

#include <stdlib.h>
#include <string.h>

static void assert_number(const char *s, char decimal, double expected)
{
	double value = NAN;
	if (!bc_number_parse(s, decimal, &value))
		fail_msg("'%s' was refused", s);
	if (!(value == expected))
		fail_msg("'%s' is %.17g, expected %.17g", s, value, expected);
}

static void assert_refused(const char *s, char decimal)
{
	double value = 1.0;
	if (bc_number_parse(s, decimal, &value))
		fail_msg("'%s' became %.17g", s, value);
	assert_nan(value);
}

static void accepts_what_people_write(void **state)
{
	(void)state;
	assert_number("127.3", '.', 127.3);
	assert_number("127,3", ',', 127.3);
	assert_number("  -0.25\t", '.', -0.25);
	assert_number("+4", '.', 4.0);
	assert_number("\xE2\x88\x92"
		      "7.5",
		'.', -7.5);
	assert_number("\xC2\xA0"
		      "81.5\xC2\xA0",
		'.', 81.5);
	assert_number(".5", '.', 0.5);
	assert_number("5.", '.', 5.0);
	assert_number("1.5e-3", '.', 1.5e-3);
	assert_number("2,5E+2", ',', 250.0);
	assert_number("0071.25", '.', 71.25);
	assert_number("1e-400", '.', 0.0);
}

static void refuses_everything_else(void **state)
{
	(void)state;
	static const char *const bad[] = {"", " ", ".", "-", "+.", "abc", "12x", "12.5.1", "1 2",
		"0x1F", "inf", "nan", "1e", "e5", "1e+", "--1", "+-1", "1,000.5", "1'000", "1_000",
		"1e400", "-1e400", "12,5", "5%", "\xE2\x88\x92", "- 5", "1d3"};
	for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
		assert_refused(bad[i], '.');
	assert_refused("12.5", ',');
	assert_refused("1.000,5", ',');
}

static void prefix_says_how_much_it_took(void **state)
{
	(void)state;
	double value = NAN;
	assert_int_equal(bc_number_prefix("0.794 g/mL", '.', &value), 5);
	assert_close(value, 0.794, 0.0);
	assert_int_equal(bc_number_prefix("21C", '.', &value), 2);
	assert_close(value, 21.0, 0.0);
	assert_int_equal(bc_number_prefix("5e", '.', &value), 1);
	assert_int_equal(bc_number_prefix("0x10", '.', &value), 1);
	assert_int_equal(bc_number_prefix("\xE2\x88\x92"
					  "3,5",
				 ',', &value),
		6);
	assert_close(value, -3.5, 0.0);
	assert_int_equal(bc_number_prefix(" 5", '.', &value), 0);
	assert_nan(value);
	assert_int_equal(bc_number_prefix("9e999", '.', &value), 0);
	assert_nan(value);
}

static void long_digit_strings(void **state)
{
	(void)state;
	char digits[1001];
	memset(digits, '0', sizeof digits);
	memcpy(digits, "127.3", 5);
	digits[300] = '\0';
	assert_number(digits, '.', 127.3);
	digits[300] = '0';
	digits[1000] = '\0';
	assert_refused(digits, '.');
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(accepts_what_people_write),
		cmocka_unit_test(refuses_everything_else),
		cmocka_unit_test(prefix_says_how_much_it_took),
		cmocka_unit_test(long_digit_strings),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
