/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_KNOWN_MIXTURE_H
#define BC_FUEL_KNOWN_MIXTURE_H

#include <stddef.h>

#include "base/status.h"

/*
 * Average boiling points of a mixture whose components are known.
 *
 * bc_known_average_c - share-weighted boiling point
 *
 * Given     share      of n components, 0..1, together 1 within 0.001: by mole for the molar
 *                      average, by mass for the mass one, by volume for the volume one
 *           boiling_c  of the components [degC]
 * Returned  average_c  [degC]; NaN on failure
 * Status    BC_BAD_DOMAIN  no components, not finite, a negative share, or shares that miss 1
 * Source    API Technical Data Book 2B1.1, definitions; example seen in an engineering handbook
 * Checks    tests/outside/oil.chk
 */
enum bc_status bc_known_average_c(
	const double *share, const double *boiling_c, size_t n, double *average_c);

/*
 * bc_known_cubic_c, bc_known_cubic_rankine_c - cubic average (sum v T^(1/3))^3
 *
 * Given     share      by volume, as above; boiling_c [degC]
 * Returned  average_c  [degC]; NaN on failure
 * Status    as bc_known_average_c
 * Notes     1. the cube root depends on the zero of its scale: one mixture comes to 108.3 degC on
 *              degF (first form), 114.7 on degR (second), and 106.5 on degC, which is wrong though
 *              printed. The procedures of fuel/average.h are on degF
 * Source    first: API Technical Data Book, definition, from memory; second: UOP 375-86, seen in a
 *           public copy
 * Checks    tests/outside/oil.chk
 */
enum bc_status bc_known_cubic_c(
	const double *share, const double *boiling_c, size_t n, double *average_c);
enum bc_status bc_known_cubic_rankine_c(
	const double *share, const double *boiling_c, size_t n, double *average_c);

/*
 * bc_known_mean_c - mean average: half molar, half cubic (degF)
 *
 * Given     mole_share, volume_share, boiling_c of n components
 * Returned  average_c  [degC]; NaN on failure
 * Status    as bc_known_average_c
 * Source    API Technical Data Book 2B1.1, definition; from memory
 * Checks    tests/outside/oil.chk
 */
enum bc_status bc_known_mean_c(const double *mole_share, const double *volume_share,
	const double *boiling_c, size_t n, double *average_c);

#endif
