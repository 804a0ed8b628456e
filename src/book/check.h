/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BOOK_CHECK_H
#define BC_BOOK_CHECK_H

#include "book/book.h"

/* Whether the file is whole: its pages and indexes, every reference, every record with its content,
 * every batch with its revisions from 1 on. BC_MALFORMED: up to ten faults are said as errors. */
enum bc_status bc_book_check(struct bc_book *book);

#endif
