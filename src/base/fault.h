/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_FAULT_H
#define BC_BASE_FAULT_H

#include <stdbool.h>

/*
 * Faults on purpose, in builds with -DBC_FAULTS only: the n-th call of a kind fails, and every
 * later one too when sticky. Elsewhere the questions are constants and cost nothing.
 */
enum bc_fault_kind { BC_FAULT_ALLOC, BC_FAULT_WRITE, BC_FAULT_KINDS };

#ifdef BC_FAULTS
void bc_fault_set(enum bc_fault_kind kind, unsigned long nth, bool sticky); /* nth 0: off */
void bc_fault_from_environment(void); /* BOILCUT_FAULT=alloc:17 or write:2 or alloc:17+ */
unsigned long bc_fault_count(enum bc_fault_kind kind);
bool bc_fault_now(enum bc_fault_kind kind);
#else
static inline void bc_fault_from_environment(void) {}
static inline bool bc_fault_now(enum bc_fault_kind kind)
{
	(void)kind;
	return false;
}
#endif

#endif
