/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_SAMPLE_ENTRY_H
#define BC_SAMPLE_ENTRY_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "base/text.h"
#include "sample/sample.h"

/* What is noted down during a boil-off. */
enum bc_entry_kind {
	BC_ENTRY_READ, /* a reading */
	BC_ENTRY_FIX,  /* another head temperature for a reading that stands */
	BC_ENTRY_POT,  /* the pot temperature beside the last reading */
	BC_ENTRY_NOTE,
	BC_ENTRY_KEY,  /* a key of the sample file: text is its name, a tab, its value */
	BC_ENTRY_UNDO, /* takes back the last entry that still stands */
	BC_ENTRY_TORN, /* the line before it was cut off by a power cut, and was shown */
	BC_ENTRY_KINDS
};

/* One entry. Temperatures and amounts are as typed, in the units that the notebook's head names. */
struct bc_entry {
	enum bc_entry_kind kind;
	enum bc_reading_kind point; /* of READ and FIX */
	double amount;              /* NaN at end points */
	double head;
	double pot;       /* NaN where not read */
	double time_s;    /* since the first entry, on the steady clock; NaN without a clock */
	double wall_s;    /* since 1970; NaN without a clock */
	unsigned session; /* times of one session may be compared */
	char *text;       /* of a note or key; else NULL */
};

void bc_entry_init(struct bc_entry *entry); /* a note without text, all numbers NaN */
void bc_entry_release(struct bc_entry *entry);

struct bc_entries {
	struct bc_entry *items;
	size_t n;
	size_t capacity;
};
/* Takes *entry over, also on failure, and leaves it empty. BC_OK or BC_NO_MEMORY. */
enum bc_status bc_entries_add(struct bc_entries *entries, struct bc_entry *entry);
void bc_entries_release(struct bc_entries *entries);

/* "5", "IBP", "FBP" or "dry". */
void bc_entry_point_text(enum bc_reading_kind point, double amount, struct bc_text *text);

/* The entry as one line of a journal, without number and checksum, and back; its text must hold no
 * line end. BC_MALFORMED: no such line; BC_NO_MEMORY. */
void bc_entry_write(const struct bc_entry *entry, struct bc_text *text);
enum bc_status bc_entry_read(const char *line, struct bc_entry *entry);

#endif
