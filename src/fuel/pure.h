/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_PURE_H
#define BC_FUEL_PURE_H

#include <stddef.h>

#include "base/status.h"
#include "fuel/slices.h"

/* Pure liquids by name, standards-notes/pure-components.csv. */
struct bc_pure {
	const char *name;
	double boiling_c; /* at 101.325 kPa */
	double sg;        /* 60/60 degF */
	const char *seen; /* "seen", or "from memory" */
};
extern const struct bc_pure bc_pures[];
extern const size_t bc_pure_count;

/* The liquid so called, case-blind; "heptane" is "n-heptane". NULL where there is none. */
const struct bc_pure *bc_pure_find(const char *name);

/*
 * bc_pure_blend - a blend of pure liquids as slices
 *
 * Given     liquids, shares by volume (any positive numbers) of n, 1..BC_SLICES_MAX
 * Returned  *slices, the lightest first, edges by volume in that order
 * Status    as bc_slices_from_components
 * Notes     1. volumes are added as if mixing changed none; Raoult's law: paraffins with aromatics
 *              stray from it, alcohols and water do not follow it at all
 */
enum bc_status bc_pure_blend(const struct bc_pure *const *liquids, const double *shares, size_t n,
	struct bc_slices *slices);

#endif
