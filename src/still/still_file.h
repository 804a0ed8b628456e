/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_STILL_STILL_FILE_H
#define BC_STILL_STILL_FILE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/diagnostic.h"
#include "base/status.h"
#include "base/strings.h"
#include "base/text.h"
#include "still/calibration.h"
#include "still/rig.h"
#include "still/still.h"

/* What one pair, or one run, said of a still. */
#define BC_STILL_PAIR_WORDS 96
struct bc_still_pair {
	char before[BC_STILL_PAIR_WORDS]; /* what went in, and what came out: names of samples */
	char after[BC_STILL_PAIR_WORDS];
	struct bc_plates_estimate estimate;
	uint64_t readings; /* which boil-offs; 0: not known */
};

/* All that is kept of a still. */
#define BC_STILL_PAIRS_MAX 24
struct bc_still_record {
	struct bc_still still;
	struct bc_rig rig;
	struct bc_still_pair pairs[BC_STILL_PAIRS_MAX];
	size_t n_pairs;
};
/* The default still without a name, nothing described, no pairs. */
struct bc_still_record bc_still_record_new(void);

/* Whether the same run is there already: by its readings, or where those are not known of either
 * by the same two names. */
bool bc_still_record_has(const struct bc_still_record *record, const struct bc_still_pair *pair);
/* Takes a pair in, in place of the same run; BC_BAD_DOMAIN when full. */
enum bc_status bc_still_record_add(
	struct bc_still_record *record, const struct bc_still_pair *pair);
/* Plates, carry-over and bounds of the still from all its pairs together; nothing without pairs. */
void bc_still_record_combine(struct bc_still_record *record);
struct bc_plates_estimate bc_still_record_estimate(const struct bc_still_record *record);

/*
 * bc_still_read - a still from the bytes of its file
 *
 * Given     bytes, n; file for messages
 * Returned  *record
 * Status    BC_MALFORMED  one error in diagnostics with its line; BC_NO_MEMORY
 * Notes     0. plates, bounds and errors that no still has are refused, low <= plates <= high
 *           1. rows of key and value as a sample's, then a table of pairs; numbers name their unit
 *           2. unknown keys are warnings
 *           3. what is written is read back the same to the last digit but one
 */
enum bc_status bc_still_read(const char *bytes, size_t n, const char *file,
	struct bc_diagnostics *diagnostics, struct bc_still_record *record);
/* The same of the file of the still so called: another name inside is refused. */
enum bc_status bc_still_read_named(const char *bytes, size_t n, const char *file, const char *name,
	struct bc_diagnostics *diagnostics, struct bc_still_record *record);
enum bc_status bc_still_write(const struct bc_still_record *record, struct bc_text *text);

/* ---- the shelf where stills are kept: $XDG_DATA_HOME/boilcut/stills, or
 * ~/.local/share/boilcut/stills */

/* Letters, digits, blank, ._- and UTF-8 beyond ASCII, none of ._- or blank first, no blank last,
 * 1..BC_STILL_NAME_MAX-1 bytes: such a name is a file's and no path. "default" is nobody's. */
bool bc_still_name_is_safe(const char *name);

/* The caller frees it; NULL without memory or without a home. */
char *bc_still_shelf(void);
char *bc_still_path(const char *name);

/* BC_NOT_FOUND: none of that name, and nothing is said. Else as bc_still_read, BC_IO. */
enum bc_status bc_still_load(
	const char *name, struct bc_diagnostics *diagnostics, struct bc_still_record *record);
/* Written beside and renamed; the folder is made where it is missing. */
enum bc_status bc_still_save(
	const struct bc_still_record *record, struct bc_diagnostics *diagnostics);
/* Names of all stills kept, in order; what is no regular file is none. No shelf is no still. */
enum bc_status bc_still_list(struct bc_strings *names, struct bc_diagnostics *diagnostics);

#endif
