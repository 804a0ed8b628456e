/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_SAMPLE_NOTEBOOK_H
#define BC_SAMPLE_NOTEBOOK_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "base/text.h"
#include "sample/entry.h"
#include "sample/sample.h"

/* A reading as it stands after all entries; numbers as typed. */
struct bc_noted {
	enum bc_reading_kind point;
	double amount;
	double head;
	double pot;
	double time_s;
	unsigned session;
	struct bc_text note;
};

/* A sample that is being written: the keys of its file, and what was entered. */
struct bc_notebook {
	const char *file; /* of the sample; must outlive the notebook */
	char *keys;       /* key rows of the file in canonical form, "" when there are none */
	enum bc_amount_basis basis;
	char unit;                /* of heads and pots: 'C', 'F' or 'K' */
	struct bc_entries stands; /* entries that were not taken back */
	struct bc_noted *noted;   /* in the order of entry */
	size_t n_noted;
	size_t noted_capacity;
	char *sheet_note;      /* key "note" of the file, or NULL */
	struct bc_text remark; /* that and notes before the first reading */
};

void bc_notebook_init(struct bc_notebook *notebook);
void bc_notebook_release(struct bc_notebook *notebook);

/* Takes basis, unit and keys from a sheet; sheet NULL: percent and degC, no keys. */
enum bc_status bc_notebook_begin(
	struct bc_notebook *notebook, const struct bc_sample *sheet, char unit);

/* Applies one entry, taken over as by bc_entries_add. An undo or fix that finds nothing does
 * nothing. BC_OK or BC_NO_MEMORY. */
enum bc_status bc_notebook_apply(struct bc_notebook *notebook, struct bc_entry *entry);

/* The reading at that place, or NULL. */
const struct bc_noted *bc_notebook_find(
	const struct bc_notebook *notebook, enum bc_reading_kind point, double amount);

/* The whole as a sample file; without readings the table is a header alone. more, if not NULL, is a
 * key entry that is tried. BC_OK or BC_NO_MEMORY. */
enum bc_status bc_notebook_write(
	const struct bc_notebook *notebook, const struct bc_entry *more, struct bc_text *text);

/* The sample as a reader of that file would have it, also with few readings; statuses and messages
 * of bc_sample_read_sheet. */
enum bc_status bc_notebook_sample(const struct bc_notebook *notebook, const struct bc_entry *more,
	struct bc_diagnostics *diagnostics, struct bc_sample **sample);

#endif
