/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_UNIT_H
#define BC_UNIT_H

/* What every unit test includes: cmocka, and a comparison of doubles that a NaN fails. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#define assert_close(got, expected, tolerance)                                                     \
	do {                                                                                       \
		double got_ = (got);                                                               \
		double expected_ = (expected);                                                     \
		if (!(fabs(got_ - expected_) <= (tolerance)))                                      \
			fail_msg("%s is %.12g, expected %.12g", #got, got_, expected_);            \
	} while (0)

#define assert_nan(got) assert_true(isnan(got))

#endif
