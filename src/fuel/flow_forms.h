/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_FLOW_FORMS_H
#define BC_FUEL_FLOW_FORMS_H

#include <stddef.h>

#include "base/status.h"

/* Viscosity by other published forms, and the cold end: pour, cloud and freezing point. */

/*
 * bc_visc_api_37_8_mm2s, bc_visc_api_98_9_mm2s - kinematic viscosity of a fraction
 *
 * Given     boiling_k mean average boiling point [K]; sg 60/60 degF
 * Returned  visc_mm2s [mm2/s] at 37.8 or 98.9 degC; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, not positive, or no positive result
 * Notes     1. about 7 % on n-alkanes C12 and C16
 * Source    API Technical Data Book procedure 11A4.2; from memory
 * Checks    tests/outside/flow.chk
 */
enum bc_status bc_visc_api_37_8_mm2s(double boiling_k, double sg, double *visc_mm2s);
enum bc_status bc_visc_api_98_9_mm2s(double boiling_k, double sg, double *visc_mm2s);

/*
 * bc_d341_z, bc_d341_visc_from_z - the straightening of D341 and its way back
 *
 * Given     visc_mm2s [mm2/s], 0.21 and above; or z [-], above 0.9
 * Returned  z = v + 0.7 + exp(-1.47 - 1.84 v - 0.51 v^2), or visc_mm2s; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, or below those limits
 * Notes     1. there and back again within 0.02 mm2/s at 0.3, better above
 * Source    ASTM D341; equations seen in a public copy (another copy drops the square on 0.6119)
 * Checks    tests/outside/flow.chk
 */
enum bc_status bc_d341_z(double visc_mm2s, double *z);
enum bc_status bc_d341_visc_from_z(double z, double *visc_mm2s);

/*
 * bc_visc_blend_mm2s - oils poured together, at the temperature of their viscosities
 *
 * Given     volume_frac of n oils, 0..1, together 1 within 0.001; visc_mm2s of each [mm2/s], 0.21
 *           and above
 * Returned  blend_mm2s [mm2/s]; NaN on failure
 * Status    BC_BAD_DOMAIN   no oils, not finite, a negative share, shares that miss 1, or too thin
 * Notes     1. log log Z adds up by volume, Z as in bc_d341_z
 *           2. two halves of an oil are that oil; unlike hydrocarbons within some percent
 *              (common practice)
 * Source    ASTM D7152, procedure C; from memory
 * Checks    tests/outside/flow.chk
 */
enum bc_status bc_visc_blend_mm2s(
	const double *volume_frac, const double *visc_mm2s, size_t n, double *blend_mm2s);

/*
 * bc_d341_a, bc_d341_b - constants of log log (v + 0.7) = A - B log(t + 273), the short form
 *
 * Given     two temperatures [degC], different, and their viscosities [mm2/s], above 2 for the
 *           short form to be good
 * Returned  A or B [-]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  a viscosity of 2 or less, value still computed
 *           BC_BAD_DOMAIN     not finite, equal temperatures, or v + 0.7 not above 1
 * Source    ASTM D341, worked sheet seen in a public copy
 * Checks    tests/outside/flow.chk
 */
enum bc_status bc_d341_a(
	double temp1_c, double visc1_mm2s, double temp2_c, double visc2_mm2s, double *a);
enum bc_status bc_d341_b(
	double temp1_c, double visc1_mm2s, double temp2_c, double visc2_mm2s, double *b);

/*
 * bc_pour_api_c - pour point with a known viscosity; bc_pour_plain_api_c - without
 * bc_cloud_api_c, bc_freeze_api_c - cloud point, freezing point
 *
 * Given     sg 60/60 degF; molar_mass_gmol [g/mol]; visc38_mm2s at 37.8 degC [mm2/s];
 *           boiling_k mean average boiling point [K]
 * Returned  [degC]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, or not positive
 * Notes     1. oils rich in n-alkanes, and polyolefin oils are, wax far above these: no safe side
 *           2. pour without viscosity and cloud are one equation 1.4 degR apart: no second witness
 * Source    API Technical Data Book procedures 2B8.1, 2B12.1, 2B11.1, Riazi, ASTM MNL50 (2005),
 *           eq. (3.118) to (3.122); from memory
 * Checks    tests/outside/flow.chk
 */
enum bc_status bc_pour_api_c(double sg, double molar_mass_gmol, double visc38_mm2s, double *pour_c);
enum bc_status bc_pour_plain_api_c(double boiling_k, double sg, double *pour_c);
enum bc_status bc_cloud_api_c(double boiling_k, double sg, double *cloud_c);
enum bc_status bc_freeze_api_c(double boiling_k, double sg, double *freeze_c);

#endif
