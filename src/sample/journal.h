/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_SAMPLE_JOURNAL_H
#define BC_SAMPLE_JOURNAL_H

#include <stdbool.h>
#include <stddef.h>

#include "base/append.h"
#include "base/diagnostic.h"
#include "base/status.h"
#include "sample/entry.h"
#include "sample/sample.h"

/*
 * The journal of a boil-off that goes on: text, one record a line, only ever added to.
 *
 *     boilcut journal 1|recovered (%)|head (C)|lake.csv|0|CHECK
 *     1|1|0.000|1790000000.000|read|IBP|71|||CHECK
 *     2|1|95.200|1790000095.200|read|5|112.5|240||CHECK
 *
 * Each line is its number, the entry, and the CRC-32 of all before the last '|' in eight
 * hexadecimal digits. A line that a power cut left unfinished stays where it is; the next record
 * behind it is a "torn" one.
 */
#define BC_JOURNAL_LIMIT_BYTES ((size_t)16 * 1024 * 1024)

/* The first line. */
struct bc_journal_head {
	enum bc_amount_basis basis; /* of the amounts in it */
	char unit;                  /* of its temperatures: 'C', 'F' or 'K' */
	const char *file;           /* the sample's file name, without its folder */
};

/* What the bytes of a journal hold. */
struct bc_journal_text {
	struct bc_journal_head head; /* file is NULL; it was compared */
	struct bc_entries entries;
	unsigned long next; /* number of the next record */
	bool fresh;         /* nothing but, at most, the beginning of a first line */
	bool open_line;     /* the last line has no end */
	bool torn;          /* the last line was never finished, and nothing says so yet */
	char *torn_text;    /* what is left of it; NULL where nothing is torn */
	bool mended;        /* the last line was whole but for its end */
};

/*
 * bc_journal_read - the records of a journal
 *
 * Given     bytes, n  the whole file; file  name of the sample that it should belong to
 *           path      the journal's name, for messages
 * Returned  *text, to be released whatever the status
 * Status    BC_MALFORMED  no journal, another version, another sample's, or damaged before its
 *                         last line; BC_NO_MEMORY
 */
enum bc_status bc_journal_read(const char *bytes, size_t n, const char *file, const char *path,
	struct bc_diagnostics *diagnostics, struct bc_journal_text *text);
void bc_journal_text_release(struct bc_journal_text *text);

/* An open journal. */
struct bc_journal {
	struct bc_append file;
	struct bc_journal_text text; /* as it was when it was opened; entries are the caller's to
					take */
	unsigned long next;
	bool torn;
};
void bc_journal_init(struct bc_journal *journal);

/*
 * Opens, locks and reads path, and writes the first line of a new one: head counts for that alone.
 * Status as bc_append_open and bc_journal_read; BC_IO where it cannot be written.
 */
enum bc_status bc_journal_open(struct bc_journal *journal, const char *path,
	const struct bc_journal_head *head, struct bc_diagnostics *diagnostics);

/* Adds one entry; BC_OK: it is on the disk. BC_IO, BC_NO_MEMORY: it is not in the journal. */
enum bc_status bc_journal_add(struct bc_journal *journal, const struct bc_entry *entry,
	struct bc_diagnostics *diagnostics);

/* The journal has served: its sample is written. */
enum bc_status bc_journal_remove(struct bc_journal *journal, struct bc_diagnostics *diagnostics);
void bc_journal_close(struct bc_journal *journal);

/* "recovered (%)" and so on, as in a sample file. */
const char *bc_amount_heading(enum bc_amount_basis basis);

#endif
