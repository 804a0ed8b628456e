/* SPDX-License-Identifier: GPL-3.0-or-later */
/* SQLite's own memory through base/memory, so that its failures are tested with ours. */
#include "book/book_memory.h"

#ifdef BC_FAULTS

#include <sqlite3.h>
#include <stdbool.h>
#include <stddef.h>
#include <string.h>

#include "base/memory.h"

/* In front of every block: its size, padded to what any type may be aligned to. */
union head {
	size_t size;
	max_align_t align;
};

static void *take(int size)
{
	union head *head = bc_alloc(sizeof *head + (size_t)size);
	if (head == NULL)
		return NULL;
	head->size = (size_t)size;
	return head + 1;
}

static void give_back(void *memory)
{
	if (memory != NULL)
		bc_free((union head *)memory - 1);
}

static int size_of(void *memory)
{
	return memory != NULL ? (int)((union head *)memory - 1)->size : 0;
}

static void *resize(void *memory, int size)
{
	union head *head = (union head *)memory - 1;
	head = bc_realloc_array(head, 1, sizeof *head + (size_t)size);
	if (head == NULL)
		return NULL;
	head->size = (size_t)size;
	return head + 1;
}

static int round_up(int size) { return (size + 7) & ~7; }

static int start(void *context)
{
	(void)context;
	return SQLITE_OK;
}

static void stop(void *context) { (void)context; }

enum bc_status bc_book_memory(void)
{
	static bool done;
	static const sqlite3_mem_methods methods = {
		take, give_back, resize, size_of, round_up, start, stop, NULL};
	if (done)
		return BC_OK;
	if (sqlite3_config(SQLITE_CONFIG_MALLOC, &methods) != SQLITE_OK ||
		sqlite3_config(SQLITE_CONFIG_LOOKASIDE, 0, 0) != SQLITE_OK)
		return BC_IO;
	done = true;
	return BC_OK;
}

#else

enum bc_status bc_book_memory(void) { return BC_OK; }

#endif
