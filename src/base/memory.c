/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every allocation of the program, so that running out of memory can be tested. */
#include "base/memory.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"

void *bc_alloc(size_t size) { return bc_alloc_array(1, size); }

void *bc_alloc_array(size_t n, size_t size)
{
	if (bc_fault_now(BC_FAULT_ALLOC))
		return NULL;
	if (n == 0 || size == 0)
		n = size = 1;
	return calloc(n, size);
}

void *bc_realloc_array(void *old, size_t n, size_t size)
{
	if (bc_fault_now(BC_FAULT_ALLOC))
		return NULL;
	if (n == 0 || size == 0)
		n = size = 1;
	if (n > SIZE_MAX / size)
		return NULL;
	return realloc(old, n * size);
}

void bc_free(void *memory) { free(memory); }

char *bc_strdup(const char *s) { return bc_strndup(s, strlen(s)); }

char *bc_strndup(const char *s, size_t n)
{
	size_t length = strnlen(s, n);
	char *copy = bc_alloc(length + 1);
	if (copy != NULL)
		memcpy(copy, s, length);
	return copy;
}

char *bc_format(const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	char *s = bc_vformat(format, arguments);
	va_end(arguments);
	return s;
}

char *bc_vformat(const char *format, va_list arguments)
{
	va_list again;
	va_copy(again, arguments);
	int length = vsnprintf(NULL, 0, format, again);
	va_end(again);
	if (length < 0)
		return NULL;
	char *s = bc_alloc((size_t)length + 1);
	if (s != NULL)
		vsnprintf(s, (size_t)length + 1, format, arguments);
	return s;
}

int bc_grow(void **items, size_t n, size_t *capacity, size_t item_size)
{
	if (n < *capacity)
		return 0;
	if (*capacity > SIZE_MAX / 2)
		return -1;
	size_t wanted = *capacity < 8 ? 8 : *capacity * 2;
	void *grown = bc_realloc_array(*items, wanted, item_size);
	if (grown == NULL)
		return -1;
	*items = grown;
	*capacity = wanted;
	return 0;
}
