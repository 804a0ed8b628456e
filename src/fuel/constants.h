/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_CONSTANTS_H
#define BC_FUEL_CONSTANTS_H

#include "base/status.h"

/* Further published forms of molar mass, critical constants and acentric factor, beside those of
 * fuel/component.h that the program works with. */

/*
 * bc_molar_mass_goossens_gmol - molar mass from boiling point and density at 20 degC
 *
 * Given     boiling_k  [K], 250..1078; density20_gml [g/mL], 0.6..1.1 (note 2)
 * Returned  molar_mass_gmol = 0.01077 T^b/d, b = 1.52869 + 0.06486 ln(T/(1078 - T)); NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside those spans, value still computed
 *           BC_BAD_DOMAIN     not finite, not positive, or at or above 1078 K
 * Notes     1. stated 2.1 % on 63 points
 *           2. the source states no spans: these catch other units
 * Source    Goossens 1996, Riazi, ASTM MNL50 (2005), page 57; seen in a public copy
 * Checks    tests/outside/oil.chk
 */
enum bc_status bc_molar_mass_goossens_gmol(
	double boiling_k, double density20_gml, double *molar_mass_gmol);

/*
 * bc_molar_mass_kesler_lee_gmol - molar mass, Kesler-Lee
 *
 * Given     boiling_k  [K]; sg 60/60 degF
 * Returned  molar_mass_gmol [g/mol]; NaN on failure
 * Status    BC_BAD_DOMAIN     not finite, not positive, or no positive result
 * Notes     1. 5 to 8 % high on n-alkanes
 * Source    Kesler & Lee, Hydrocarbon Processing 55 (1976); from memory
 * Checks    tests/outside/oil.chk
 */
enum bc_status bc_molar_mass_kesler_lee_gmol(double boiling_k, double sg, double *molar_mass_gmol);

/*
 * bc_critical_temp_rd80_k, bc_critical_pressure_rd80_bar - two-parameter power laws
 * bc_critical_temp_api_k, bc_critical_pressure_api_bar   - the extended form of 1987
 *
 * Given     boiling_k  [K]; sg 60/60 degF
 * Returned  critical_k [K], critical_bar [bar]; NaN on failure
 * Status    BC_BAD_DOMAIN     not finite, or not positive
 * Notes     1. temperature within 2 % (1980) and 1 % (1987), pressure within 5 % (1987) of six
 *              pure hydrocarbons C7..C16
 * Source    Riazi & Daubert, Hydrocarbon Processing 59 (1980); API Technical Data Book procedures
 *           4D3.1 and 4D4.1 (1987); from memory, cross-checked on pure hydrocarbons
 * Checks    tests/outside/oil.chk
 */
enum bc_status bc_critical_temp_rd80_k(double boiling_k, double sg, double *critical_k);
enum bc_status bc_critical_pressure_rd80_bar(double boiling_k, double sg, double *critical_bar);
enum bc_status bc_critical_temp_api_k(double boiling_k, double sg, double *critical_k);
enum bc_status bc_critical_pressure_api_bar(double boiling_k, double sg, double *critical_bar);

/*
 * bc_omega_heavy - acentric factor of a fraction whose Tb/Tc is above 0.8
 *
 * Given     watson_k  [-]; reduced_boiling Tb/Tc [-], 0.8..1
 * Returned  omega [-]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  reduced_boiling at or below 0.8, value still computed
 *           BC_BAD_DOMAIN     not finite, or not positive
 * Source    Kesler & Lee, Hydrocarbon Processing 55 (1976); from memory
 * Checks    tests/outside/oil.chk
 */
enum bc_status bc_omega_heavy(double watson_k, double reduced_boiling, double *omega);

/*
 * bc_antoine_bar, bc_antoine_boiling_k - log10 P = A - B/(T + C), bar and kelvin, and back
 *
 * Given     a, b, c of the compound; temp_k [K] or pressure_bar [bar]
 * Returned  pressure_bar [bar] or boiling_k [K]; NaN on failure
 * Status    BC_BAD_DOMAIN     not finite, at or beyond the pole of the equation
 * Notes     1. holds within the range of its set; C21, C23 and C24 of one collection are 5 to 14 K
 *              low at 1 atm
 * Source    Antoine 1888
 * Checks    tests/outside/oil.chk
 */
enum bc_status bc_antoine_bar(double a, double b, double c, double temp_k, double *pressure_bar);
enum bc_status bc_antoine_boiling_k(
	double a, double b, double c, double pressure_bar, double *boiling_k);

/*
 * bc_water_plateau_c - where water and an oil that does not mix with it boil together
 *
 * Given     a, b, c of the oil (bc_antoine_bar); pressure_kpa [kPa]
 * Returned  plateau_c at which both vapour pressures add up to the pressure; NaN on failure
 * Status    BC_BAD_DOMAIN     not finite, or no such temperature between 5 and 120 degC
 * Source    Dalton; water by IAPWS-IF97 (curve/correction.h)
 * Checks    tests/outside/oil.chk
 */
enum bc_status bc_water_plateau_c(
	double a, double b, double c, double pressure_kpa, double *plateau_c);

#endif
