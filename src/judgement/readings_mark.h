/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_READINGS_MARK_H
#define BC_JUDGEMENT_READINGS_MARK_H

#include <stdint.h>

#include "sample/sample.h"

/* Begins a mark of readings. */
#define BC_MARK_START UINT64_C(14695981039346656037)

/* The mark after the readings of a sample, which may be NULL: a copy with another name, or without
 * its cup, is the same boil-off. */
uint64_t bc_readings_mark(uint64_t mark, const struct bc_sample *sample);
/* ... and after words; NULL: none. */
uint64_t bc_words_mark(uint64_t mark, const char *words);

#endif
