/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_COMPONENT_H
#define BC_FUEL_COMPONENT_H

#include "base/status.h"

/* Constants of a petroleum fraction from boiling point and specific gravity, and what follows. */

/*
 * bc_molar_mass_api_gmol - molar mass of a petroleum fraction, extended Riazi-Daubert
 *
 * Given     boiling_k  mean average boiling point [K], 293..833
 *           sg         specific gravity 60/60 degF, 0.63..0.973
 * Returned  molar_mass_gmol [g/mol]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside the ranges above, value still computed
 *           BC_BAD_DOMAIN     not finite, or not positive
 * Notes     1. stated average error 7 %; -1 to +3 % on n-alkanes C8..C16
 * Source    API Technical Data Book procedure 2B2.1 (1987); seen in a public copy
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_molar_mass_api_gmol(double boiling_k, double sg, double *molar_mass_gmol);

/*
 * bc_molar_mass_rd80_gmol - molar mass, the older two-parameter form
 *
 * Given     boiling_k  [K]; sg 60/60 degF; the source states no range, fine below 300 g/mol
 * Returned  molar_mass_gmol [g/mol]; NaN on failure
 * Status    BC_BAD_DOMAIN     not finite, or not positive
 * Source    Riazi & Daubert, Hydrocarbon Processing 59 (1980); seen in a public copy
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_molar_mass_rd80_gmol(double boiling_k, double sg, double *molar_mass_gmol);

/*
 * bc_critical_temp_kesler_lee_k, bc_critical_pressure_kesler_lee_bar - (pseudo)critical constants
 *
 * Given     boiling_k  [K]; sg 60/60 degF
 * Returned  critical_k [K], critical_bar [bar]; NaN on failure
 * Status    BC_BAD_DOMAIN     not finite, not positive, or no critical point above boiling_k
 * Notes     1. within 1.2 % (temperature) and 6 % (pressure) of six pure hydrocarbons C7..C16
 * Source    Kesler & Lee, Hydrocarbon Processing 55 (1976); from memory, cross-checked
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_critical_temp_kesler_lee_k(double boiling_k, double sg, double *critical_k);
enum bc_status bc_critical_pressure_kesler_lee_bar(
	double boiling_k, double sg, double *critical_bar);

/*
 * bc_omega_from_boiling - acentric factor that makes Lee-Kesler give 1.01325 bar at boiling_k
 *
 * Given     boiling_k, critical_k [K]; critical_bar [bar]
 * Returned  omega [-]; NaN on failure
 * Status    BC_BAD_DOMAIN     not finite, not positive, or boiling_k >= critical_k
 * Source    Lee & Kesler, AIChE J. 21 (1975), rearranged; functions seen in a public copy
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_omega_from_boiling(
	double boiling_k, double critical_k, double critical_bar, double *omega);

/*
 * bc_vapour_pressure_lee_kesler_bar - ln(P/Pc) = f0(Tr) + omega f1(Tr)
 *
 * Given     temp_k, critical_k [K]; critical_bar [bar]; omega [-]
 * Returned  pressure_bar [bar]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  temp_k above critical_k: the curve carried on, not a pressure that
 *                             could be measured
 *           BC_BAD_DOMAIN     not finite, or not positive
 * Source    Lee & Kesler, AIChE J. 21 (1975); functions seen in a public copy
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_vapour_pressure_lee_kesler_bar(
	double temp_k, double critical_k, double critical_bar, double omega, double *pressure_bar);

/*
 * bc_lower_limit_jones_pct - lower flammable limit at 25 degC of an alkane-like vapour
 *
 * Given     molar_mass_gmol  [g/mol]; the vapour is taken as CnH2n of this molar mass
 * Returned  limit_pct [vol % in air]: 0.55 of the stoichiometric share; NaN on failure
 * Status    BC_BAD_DOMAIN     not finite, or not positive
 * Notes     1. within 5 % for C5..C12 alkanes, 15 % high for benzene
 * Source    Jones 1938, with Zabetakis, US Bureau of Mines Bulletin 627; from memory
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_lower_limit_jones_pct(double molar_mass_gmol, double *limit_pct);

/*
 * bc_lower_limit_at_temp_pct - the limit at another temperature
 *
 * Given     limit25_pct  limit at 25 degC [vol %]; temp_c [degC], below 1300
 * Returned  limit_pct [vol %]; NaN on failure
 * Status    BC_BAD_DOMAIN     not finite, limit25_pct <= 0, or nothing left of the limit
 * Source    Zabetakis, US Bureau of Mines Bulletin 627: L25 (1 - 0.000721 (t - 25)); from memory
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_lower_limit_at_temp_pct(double limit25_pct, double temp_c, double *limit_pct);

#endif
