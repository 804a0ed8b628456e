/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_NUMBER_H
#define BC_BASE_NUMBER_H

#include <stdbool.h>
#include <stddef.h>

/*
 * The one number parser. The number must start at s: sign, digits, one decimal mark (decimal is
 * '.' or ','), exponent; no hex, inf, nan or thousands. A Unicode minus is a minus. Returns the
 * count of bytes taken, 0 where no number stands or it is not finite. Does not depend on locale.
 */
size_t bc_number_prefix(const char *s, char decimal, double *value);

/* The whole of s, blanks at both ends aside, is one number. */
bool bc_number_parse(const char *s, char decimal, double *value);

#endif
