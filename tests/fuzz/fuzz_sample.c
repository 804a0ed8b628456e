/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Fuzzes the sample reader: whatever it accepts must come back from its canonical form, which
 * must not change when it is read and written again; whatever it refuses must say why.
 */
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "sample/sample.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void fail(const char *why, const struct bc_text *a, const struct bc_text *b)
{
	fprintf(stderr, "%s\n--- first\n%s\n--- second\n%s\n", why, a->data != NULL ? a->data : "",
		b->data != NULL ? b->data : "");
	abort();
}

static void check_again(const struct bc_sample *sample, struct bc_diagnostics *diagnostics)
{
	struct bc_sample *again = NULL;
	struct bc_text first;
	struct bc_text second;
	bc_text_init(&first);
	bc_text_init(&second);
	if (bc_sample_write(sample, &first) != BC_OK)
		fail("written without memory", &first, &second);
	if (bc_sample_read(first.data, first.length, "again", diagnostics, &again) != BC_OK) {
		const struct bc_diagnostic *error = bc_diagnostics_first_error(diagnostics);
		fail(error != NULL ? error->text : "refused in silence", &first, &second);
	}
	if (bc_sample_write(again, &second) != BC_OK || first.length != second.length ||
		memcmp(first.data, second.data, first.length) != 0)
		fail("the canonical form changes", &first, &second);
	if (sample->n_readings != again->n_readings || sample->n_kept != again->n_kept ||
		sample->n_measured != again->n_measured)
		fail("something is lost", &first, &second);
	bc_sample_free(again);
	bc_text_release(&first);
	bc_text_release(&second);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	struct bc_diagnostics diagnostics;
	struct bc_sample *sample = NULL;
	bc_diagnostics_init(&diagnostics);
	enum bc_status status =
		bc_sample_read((const char *)data, size, "fuzz", &diagnostics, &sample);
	if (status == BC_OK)
		check_again(sample, &diagnostics);
	else if (bc_diagnostics_first_error(&diagnostics) == NULL || sample != NULL)
		abort();
	bc_sample_free(sample);
	bc_diagnostics_release(&diagnostics);
	return 0;
}
