/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_TESTS_UNIT_SAMPLE_READING_H
#define BC_TESTS_UNIT_SAMPLE_READING_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/memory.h"
#include "sample/sample.h"

/* A table that is enough for a sample. */
#define TABLE "recovered (%),head (C)\nIBP,71.4\n5,112.6\n10,131.3\n50,221.7\nFBP,361.2\n"

/* Text that was read, with what was said about it. */
struct outcome {
	enum bc_status status;
	struct bc_sample *sample;
	struct bc_diagnostics diagnostics;
};

static inline void outcome_of_bytes(struct outcome *outcome, const char *bytes, size_t n)
{
	bc_diagnostics_init(&outcome->diagnostics);
	outcome->status =
		bc_sample_read(bytes, n, "t.csv", &outcome->diagnostics, &outcome->sample);
}

static inline void outcome_of(struct outcome *outcome, const char *text)
{
	outcome_of_bytes(outcome, text, strlen(text));
}

static inline void outcome_release(struct outcome *outcome)
{
	bc_sample_free(outcome->sample);
	bc_diagnostics_release(&outcome->diagnostics);
}

/* Reads text, which must be accepted. */
static inline struct bc_sample *accepted(struct outcome *outcome, const char *text)
{
	outcome_of(outcome, text);
	const struct bc_diagnostic *error = bc_diagnostics_first_error(&outcome->diagnostics);
	if (outcome->status != BC_OK)
		fail_msg("refused: %s", error != NULL ? error->text : "in silence");
	assert_null(error);
	return outcome->sample;
}

/* Text must be refused in this line with these words, and with no second error. */
static inline void assert_refused_bytes(
	const char *bytes, size_t n, size_t line, const char *message)
{
	struct outcome outcome;
	outcome_of_bytes(&outcome, bytes, n);
	assert_int_equal(outcome.status, BC_MALFORMED);
	assert_null(outcome.sample);
	const struct bc_diagnostic *error = bc_diagnostics_first_error(&outcome.diagnostics);
	assert_non_null(error);
	assert_string_equal(error->text, message);
	assert_string_equal(error->file, "t.csv");
	assert_int_equal(error->line, line);
	size_t errors = 0;
	for (size_t i = 0; i < outcome.diagnostics.n; i++)
		errors += outcome.diagnostics.items[i].severity == BC_ERROR;
	assert_int_equal(errors, 1);
	outcome_release(&outcome);
}

static inline void assert_refused(const char *text, size_t line, const char *message)
{
	assert_refused_bytes(text, strlen(text), line, message);
}

/* The first message of a severity, or NULL. */
static inline const struct bc_diagnostic *first_of(
	const struct outcome *outcome, enum bc_severity severity)
{
	for (size_t i = 0; i < outcome->diagnostics.n; i++) {
		if (outcome->diagnostics.items[i].severity == severity)
			return &outcome->diagnostics.items[i];
	}
	return NULL;
}

static inline void assert_near(double value, double expected, double tolerance)
{
	if (!(fabs(value - expected) <= tolerance))
		fail_msg("%.12g is not %.12g", value, expected);
}

#endif
