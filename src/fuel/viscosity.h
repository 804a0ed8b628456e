/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_VISCOSITY_H
#define BC_FUEL_VISCOSITY_H

#include "base/status.h"
#include "fuel/slices.h"

/*
 * bc_visc_abbott_37_8_mm2s, bc_visc_abbott_98_9_mm2s - kinematic viscosity of a fraction
 *
 * Given     watson_k  Watson factor, 10..13; api gravity [degAPI], 0..60
 * Returned  visc_mm2s [mm2/s] at 37.8 or 98.9 degC; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside the ranges above (where kerosene to heavy gas oil lie: the
 *                             source states none), value still computed
 *           BC_BAD_DOMAIN     not finite, or beyond the pole of the formula
 * Notes     1. best for kerosene to heavy gas oil; +-20 % on eight measured oils from kerosene
 *              to diesel, 35 to 63 % low on four gasolines and naphthas
 * Source    Abbott, Kaufmann & Domash 1971; 37.8 degC seen in a public copy, 98.9 degC from memory
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_visc_abbott_37_8_mm2s(double watson_k, double api, double *visc_mm2s);
enum bc_status bc_visc_abbott_98_9_mm2s(double watson_k, double api, double *visc_mm2s);

/*
 * bc_visc_d341_mm2s - viscosity at a third temperature from two
 *
 * Given     two temperatures [degC] with their viscosities [mm2/s], above 0.21; temp_c [degC]
 * Returned  visc_mm2s at temp_c [mm2/s]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, equal temperatures, or viscosity not above 0.21
 * Notes     1. straight in log log Z against log T, Z = v + 0.7 + exp(-1.47 - 1.84 v - 0.51 v^2)
 *           2. one public copy drops the square on the 0.6119 term of the way back
 * Source    ASTM D341; equations seen in a public copy
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_visc_d341_mm2s(double temp1_c, double visc1_mm2s, double temp2_c,
	double visc2_mm2s, double temp_c, double *visc_mm2s);

/*
 * bc_visc_of_slices_mm2s - viscosity of a wide oil, blended over its slices
 *
 * Given     slices with a Watson K; temp_c [degC], 15..100
 * Returned  visc_mm2s [mm2/s], outside_frac: the volume share of slices outside the range of
 * Abbott; NaN on failure Status    BC_OUTSIDE_RANGE  more than a fifth of the volume outside the
 * range of Abbott, or temp_c outside the above BC_BAD_DOMAIN     no slices, or a slice beyond the
 * pole Notes     1. each slice by Abbott and D341, mixed on the cube root by mole fraction
 *           2. a slice outside the range of Abbott is carried from 37.8 degC along a D341 slope of
 *              4, that of the range itself (3.6 to 4.3, computed)
 * Source    Kendall & Monroe, J. Am. Chem. Soc. 39 (1917) 1787; from memory
 */
enum bc_status bc_visc_of_slices_mm2s(
	const struct bc_slices *slices, double temp_c, double *visc_mm2s, double *outside_frac);

#endif
