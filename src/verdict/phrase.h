/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_VERDICT_PHRASE_H
#define BC_VERDICT_PHRASE_H

#include <stddef.h>

#include "verdict/grade.h"

/* Room that every phrase below fits in. */
#define BC_PHRASE_SIZE 256

/* "at least 38 degC", "above 55 degC", "820 to 845 kg/m3"; "pass" where no figure is set. */
void bc_phrase_limit(const struct bc_limit *limit, char *text, size_t size);

/* "61.3 degC (48.8 to 73.8)": a value with the spread it has, in the unit of the limit. */
void bc_phrase_value(const struct bc_criterion *criterion, char *text, size_t size);

/* "EN 590 temperate A-C (2022)", with "limit from memory" where it is. */
void bc_phrase_source(const struct bc_limit *limit, char *text, size_t size);

#endif
