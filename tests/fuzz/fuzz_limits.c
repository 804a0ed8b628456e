/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any bytes as a table of limits: read whole or refused with one error, never anything else. */
#include <assert.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include "base/memory.h"
#include "verdict/limits.h"
#include "verdict/phrase.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	struct bc_diagnostics diagnostics;
	struct bc_limits *limits;
	bc_diagnostics_init(&diagnostics);
	char *text = bc_strndup((const char *)data, size);
	enum bc_status status =
		bc_limits_read(text, strlen(text), "fuzz.csv", &diagnostics, &limits);
	if (status == BC_OK) {
		char words[BC_PHRASE_SIZE];
		for (size_t i = 0; i < limits->n; i++) {
			assert(bc_limit_property_known(limits->items[i].property));
			bc_phrase_limit(&limits->items[i], words, sizeof words);
			bc_phrase_source(&limits->items[i], words, sizeof words);
		}
	} else {
		assert(limits == NULL);
		assert(bc_diagnostics_first_error(&diagnostics) != NULL);
	}
	bc_limits_free(limits);
	bc_diagnostics_release(&diagnostics);
	bc_free(text);
	return 0;
}
