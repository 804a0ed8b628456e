/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_STILL_BLEND_H
#define BC_STILL_BLEND_H

#include <stddef.h>

#include "base/status.h"
#include "fuel/slices.h"

#define BC_BLEND_PARTS_MAX 16
/* What the slices of a mixture are merged down to. */
#define BC_BLEND_SLICES 60

/* One of the oils poured together. */
struct bc_blend_part {
	const struct bc_slices *slices;
	double volume; /* at 15 degC, in any unit, above 0 */
};

/*
 * bc_blend_slices - the slices of several oils poured together
 *
 * Given     parts    n of them, 1..BC_BLEND_PARTS_MAX
 *           most     slices at most, 4..BC_SLICES_MAX
 * Returned  *blend   the union of all slices, merged down to most; slices->n is 0 on failure
 * Status    BC_OUTSIDE_RANGE  as bc_slices_from_tbp
 *           BC_BAD_DOMAIN     no parts, too many, a volume that is not positive, no slices
 * Notes     1. volumes are ideal: those of the parts add up. Paraffins and aromatics swell by up
 *              to 0.3 % (common practice), which is left out
 *           2. merged are the two neighbours that make the least difference: boiling points
 *              apart, squared, times what they hold together of the volume and of the vapour over
 *              the oil near its flash, so that the light end stays fine
 *           3. volume, mass and moles are those of the parts, to rounding; a merged slice boils
 *              at the mean by moles and has the constants of that boiling point and density
 *           4. edges lie where the parts' own slices together have boiled away as much: an oil
 *              mixed with itself is the same oil
 * Source    worked out for this program
 * Checks    tests/unit/still/test_blend.c
 */
enum bc_status bc_blend_slices(
	const struct bc_blend_part *parts, size_t n, size_t most, struct bc_slices *blend);

/* What a part is to the vapour over the mixture. */
struct bc_blend_vapour {
	const struct bc_slices *slices;
	double volume;
	/* The part is as flammable at T as its slices are at T + shift_c: 0 for the slices as they
	 * are, F(slices) - F for one that is known to flash at F. */
	double shift_c;
	double share_frac; /* returned: what it brings of the vapour at the flash point */
};

/*
 * bc_blend_flash_c - where the vapour over parts poured together reaches its lower limit
 *
 * Given     parts    n of them, 1..BC_BLEND_PARTS_MAX
 * Returned  flash_c  [degC] at 101.325 kPa where sum m_i S_i(T + shift_i) = 1, m the mole share
 *                    and S_i = sum x P/(P0 L) of the part alone; share_frac of every part
 * Status    BC_BAD_DOMAIN      as bc_blend_slices
 *           BC_NO_CONVERGENCE  no such temperature between -120 and 400 degC
 * Notes     1. Raoult and Le Chatelier, as bc_flash_vapour_space_c: what a part brings adds up
 *           2. lies between the lowest and the highest flash of the parts, and is that of the
 *              part where there is one alone
 * Source    fuel/flash.h; the shift is worked out for this program
 * Checks    tests/unit/still/test_blend.c
 */
enum bc_status bc_blend_flash_c(struct bc_blend_vapour *parts, size_t n, double *flash_c);

#endif
