/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_BOOK_DAY_H
#define BC_COMMAND_BOOK_DAY_H

#include "book/jars.h"
#include "command/arguments.h"

/* The day that an option names, as 2026-10-03; today (UTC) where it was not given. Complains of
 * what is no day. */
int bc_day_read(const struct bc_arguments *arguments, const char *option, char day[BC_DAY_SIZE]);

#endif
