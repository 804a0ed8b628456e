/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Memory that runs out: the n-th allocation fails, n = 1, 2, ..., until the work succeeds. Each
 * failure must be said by the status and leave nothing behind (run under a sanitizer for leaks).
 */
#include "base/fault.h"
#include "reading.h"

/* Takes part in every allocation that the room makes: kinds of keys, joined cells, growth. */
static const char full[] =
	"sample;Lake shed 14\nfeed;\"PP; PE\"\nnote;a;b\ndensty;3\nmoon;full\nsmell;sour\n"
	"apparatus;kettle\nflash;61 C\nviscosity;2,1 @ 40\ncopper strip;1a\ndensity;0,794\n"
	"charge;80 g\nresidue;1,6 "
	"%\ncaf\xe9;x\n\n%;C;time;colour;note\n0;71,4;;;\n1;80;;;\n2;85;;;\n"
	"3;90;;;\n4;95;;;\n5;112,6;12:30;;\n10;131;;;first;b\n50;221,7;;;second\nFBP;361;;;\n";

static const char refused[] = "density;0,794\n%;C\n5;112.5\n10;131\n20;150\n";

typedef enum bc_status (*work_function)(void);

static enum bc_status read_and_write(const char *bytes, size_t n)
{
	struct outcome outcome;
	struct bc_text text;
	bc_text_init(&text);
	outcome_of_bytes(&outcome, bytes, n);
	enum bc_status status = outcome.status;
	assert_int_equal(status == BC_OK, outcome.sample != NULL);
	if (status == BC_OK)
		status = bc_sample_write(outcome.sample, &text);
	bc_text_release(&text);
	outcome_release(&outcome);
	return status;
}

static enum bc_status read_full(void) { return read_and_write(full, sizeof full - 1); }

static enum bc_status read_refused(void) { return read_and_write(refused, sizeof refused - 1); }

static enum bc_status write_blank(void)
{
	struct bc_text text;
	bc_text_init(&text);
	enum bc_status status = bc_sample_template(&text);
	bc_text_release(&text);
	return status;
}

static enum bc_status read_line(void)
{
	struct bc_diagnostics diagnostics;
	struct bc_sample *sample;
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = bc_sample_from_line(
		"ibp 71, 5 112, 10 131, 20 150, 30 160, 40 170, fbp 361", &diagnostics, &sample);
	bc_sample_free(sample);
	bc_diagnostics_release(&diagnostics);
	return status;
}

/* Once an allocation failed only a lost message may pass as success: the status says the rest. */
static void fail_each_allocation(work_function work, enum bc_status expected)
{
	unsigned long nth = 0;
	unsigned long failures = 0;
	for (bool reached = true; reached;) {
		bc_fault_set(BC_FAULT_ALLOC, ++nth, false);
		enum bc_status status = work();
		reached = bc_fault_count(BC_FAULT_ALLOC) >= nth;
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		if (status != expected)
			assert_int_equal(status, BC_NO_MEMORY);
		failures += status == BC_NO_MEMORY;
		if (!reached)
			assert_int_equal(status, expected);
	}
	assert_true(failures > 0);
	assert_true(nth > 1);
}

static void reading_survives_every_failed_allocation(void **state)
{
	(void)state;
	assert_int_equal(read_full(), BC_OK);
	fail_each_allocation(read_full, BC_OK);
}

static void refusing_survives_every_failed_allocation(void **state)
{
	(void)state;
	fail_each_allocation(read_refused, BC_MALFORMED);
}

static void one_line_survives_every_failed_allocation(void **state)
{
	(void)state;
	fail_each_allocation(read_line, BC_OK);
}

static void the_blank_sheet_survives_every_failed_allocation(void **state)
{
	(void)state;
	fail_each_allocation(write_blank, BC_OK);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(reading_survives_every_failed_allocation),
		cmocka_unit_test(refusing_survives_every_failed_allocation),
		cmocka_unit_test(one_line_survives_every_failed_allocation),
		cmocka_unit_test(the_blank_sheet_survives_every_failed_allocation),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
