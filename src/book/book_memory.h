/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BOOK_BOOK_MEMORY_H
#define BC_BOOK_BOOK_MEMORY_H

#include "base/status.h"

/* Before the first connection: in fault builds SQLite takes its memory from base/memory too. */
enum bc_status bc_book_memory(void);

#endif
