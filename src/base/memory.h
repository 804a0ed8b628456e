/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_MEMORY_H
#define BC_BASE_MEMORY_H

#include <stdarg.h>
#include <stddef.h>

/* Every allocation of the program. All return NULL on failure; memory from bc_alloc is zeroed. */
void *bc_alloc(size_t size);
void *bc_alloc_array(size_t n, size_t size);
void *bc_realloc_array(void *old, size_t n, size_t size);
void bc_free(void *memory);
char *bc_strdup(const char *s);
char *bc_strndup(const char *s, size_t n);
__attribute__((format(printf, 1, 2))) char *bc_format(const char *format, ...);
__attribute__((format(printf, 1, 0))) char *bc_vformat(const char *format, va_list arguments);

/*
 * Makes room for one more item: *items grows by doubling when n == *capacity. Returns 0, or -1
 * without memory, *items then being as it was.
 */
int bc_grow(void **items, size_t n, size_t *capacity, size_t item_size);

#endif
