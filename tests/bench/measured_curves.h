/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BENCH_MEASURED_CURVES_H
#define BC_BENCH_MEASURED_CURVES_H

/* A folder of measured curves (samples.csv, and files of curve_id,percent,temp_c,kind) as samples. */
#include <math.h>
#include <stdbool.h>
#include <string.h>

#include "base/csv.h"
#include "base/file.h"
#include "base/memory.h"
#include "base/number.h"
#include "base/text.h"

enum { LIMIT_BYTES = 1 << 26 };

static inline struct bc_csv load(const char *folder, const char *name)
{
	struct bc_csv csv = {.n = 0};
	char *path = bc_format("%s/%s", folder, name);
	char *bytes = NULL;
	size_t n = 0;
	if (path && !bc_failed(bc_file_read(path, LIMIT_BYTES, &bytes, &n, NULL)))
		bc_csv_parse(bytes, n, ',', &csv, NULL);
	bc_free(bytes);
	bc_free(path);
	return csv;
}

static inline const char *cell(const struct bc_csv *table, size_t row, const char *head)
{
	for (size_t i = 0; i < table->rows[0].n; i++)
		if (strcmp(table->rows[0].fields[i], head) == 0 && i < table->rows[row].n)
			return table->rows[row].fields[i];
	return "";
}

static inline double number(const char *text)
{
	double value = NAN;
	return bc_number_parse(text, '.', &value) ? value : (double)NAN;
}

/* One row of a curve as a line of a sample; false when it is not of the D86 kind. */
static inline bool write_row(const struct bc_csv_row *row, struct bc_text *text)
{
	const char *percent = row->fields[1];
	const char *kind = row->fields[3];
	bool volume = strcmp(kind, "distilled-volume") == 0;
	if (strcmp(kind, "IBP") == 0 || (volume && number(percent) == 1.0))
		percent = "IBP";
	else if (strcmp(kind, "FBP") == 0 || (volume && number(percent) >= 99.0))
		percent = "FBP";
	else if (!volume && strcmp(kind, "recovered") != 0)
		return false;
	bc_text_printf(text, "%s,%s\n", percent, row->fields[2]);
	return true;
}

static inline char *sample_text(const struct bc_csv *curves, const char *id, const char *density)
{
	struct bc_text text;
	bc_text_init(&text);
	bc_text_append(&text, "history,rerun\nthermometer,glass d86\nbarometer,101.3 kPa\n");
	if (density[0] != '\0')
		bc_text_printf(&text, "density,%s kg/m3\n", density);
	bc_text_append(&text, "\nrecovered (%),head (C)\n");
	bool usable = true;
	for (size_t i = 1; i < curves->n && usable; i++)
		if (strcmp(curves->rows[i].fields[0], id) == 0)
			usable = write_row(&curves->rows[i], &text);
	if (usable)
		return bc_text_take(&text);
	bc_text_release(&text);
	return NULL;
}

#endif
