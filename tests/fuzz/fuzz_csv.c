/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any bytes through the CSV reader and the number parser; the first byte picks the separator. */
#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include "base/csv.h"
#include "base/number.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	if (size == 0)
		return 0;
	char separator = ",;\t"[data[0] % 3];
	struct bc_csv csv;
	size_t bad_line = 0;
	enum bc_status status =
		bc_csv_parse((const char *)data + 1, size - 1, separator, &csv, &bad_line);
	assert(status == BC_OK || (status == BC_MALFORMED && bad_line > 0));
	size_t line = 0;
	for (size_t i = 0; i < csv.n; i++) {
		assert(csv.rows[i].n > 0 && csv.rows[i].line > line);
		line = csv.rows[i].line;
		for (size_t j = 0; j < csv.rows[i].n; j++) {
			double value = NAN;
			const char *field = csv.rows[i].fields[j];
			size_t taken = bc_number_prefix(field, j % 2 == 0 ? '.' : ',', &value);
			assert(taken <= strlen(field) && (taken > 0) == (isfinite(value) != 0));
		}
	}
	bc_csv_release(&csv);
	return 0;
}
