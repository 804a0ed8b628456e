/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Faults on purpose, for tests of what happens when memory or the disk runs out. */
#include "base/fault.h"

#ifdef BC_FAULTS

#include <stdlib.h>
#include <string.h>

static struct {
	unsigned long count;
	unsigned long nth;
	bool sticky;
} faults[BC_FAULT_KINDS];

static const char *const kind_names[BC_FAULT_KINDS] = {"alloc", "write"};

void bc_fault_set(enum bc_fault_kind kind, unsigned long nth, bool sticky)
{
	faults[kind].count = 0;
	faults[kind].nth = nth;
	faults[kind].sticky = sticky;
}

void bc_fault_from_environment(void)
{
	const char *wanted = getenv("BOILCUT_FAULT");
	if (wanted == NULL)
		return;
	for (int kind = 0; kind < BC_FAULT_KINDS; kind++) {
		size_t length = strlen(kind_names[kind]);
		if (strncmp(wanted, kind_names[kind], length) != 0 || wanted[length] != ':')
			continue;
		char *end = NULL;
		unsigned long nth = strtoul(wanted + length + 1, &end, 10);
		bc_fault_set((enum bc_fault_kind)kind, nth, *end == '+');
	}
}

unsigned long bc_fault_count(enum bc_fault_kind kind) { return faults[kind].count; }

bool bc_fault_now(enum bc_fault_kind kind)
{
	unsigned long count = ++faults[kind].count;
	unsigned long nth = faults[kind].nth;
	return nth != 0 && (count == nth || (faults[kind].sticky && count > nth));
}

#else

/* ISO C forbids an empty translation unit. */
typedef int bc_no_faults;

#endif
