/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_LOWER_LIMIT_H
#define BC_FUEL_LOWER_LIMIT_H

#include <stddef.h>

#include "base/status.h"

/* Lower flammable limits by other published forms, beside those of fuel/component.h. */

/*
 * bc_lower_limit_atoms_pct - 0.55 of the stoichiometric share of CnHh
 *
 * Given     carbon, hydrogen atoms of the compound, above 0 and 0 or more
 * Returned  limit_pct at 25 degC [vol % in air]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, or no carbon
 * Notes     1. within 5 % for alkanes C5..C12, 15 % high for benzene
 * Source    Jones 1938; from memory
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_lower_limit_atoms_pct(double carbon, double hydrogen, double *limit_pct);

/*
 * bc_lower_limit_alkane_pct - measured limits of n-alkanes, C5 to C16
 *
 * Given     carbon atoms, a whole number, 5..16
 * Returned  limit_pct at 25 degC [vol % in air]; NaN on failure
 * Status    BC_BAD_DOMAIN   not a whole number within 5..16
 * Notes     1. an international safety standard is lower throughout: n-octane 0.8 against 0.95
 * Source    Zabetakis, US Bureau of Mines Bulletin 627 (1965); from memory
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_lower_limit_alkane_pct(double carbon, double *limit_pct);

/*
 * bc_lower_limit_burgess_wheeler_pct - the limit at another temperature, by heat of combustion
 *
 * Given     limit25_pct at 25 degC [vol %]; heat_kcalmol net heat of combustion [kcal/mol];
 *           temp_c [degC]
 * Returned  limit_pct = L25 - 0.75 (t - 25)/H [vol %]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, not positive, or nothing left of the limit
 * Source    Burgess & Wheeler, as modified by Zabetakis 1965; from memory
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_lower_limit_burgess_wheeler_pct(
	double limit25_pct, double heat_kcalmol, double temp_c, double *limit_pct);

/*
 * bc_lower_limit_mixture_pct - Le Chatelier
 *
 * Given     share of n vapours on the fuel alone, together 1 within 0.001; limit_pct of each
 *           [vol %], above 0 where its share is
 * Returned  mixture_pct = 1/sum(y/L) [vol %]; NaN on failure
 * Status    BC_BAD_DOMAIN   nothing given, not finite, or shares that miss 1
 * Source    Le Chatelier 1891; formula seen in a public copy
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_lower_limit_mixture_pct(
	const double *share, const double *limit_pct, size_t n, double *mixture_pct);

#endif
