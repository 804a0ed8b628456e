/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_FLASH_H
#define BC_FUEL_FLASH_H

#include "base/status.h"
#include "fuel/slices.h"

/* What thinner air takes off a flash point [degC/kPa]: ISO 2719 11.2, to 101.3 kPa; seen in a
 * public copy. */
#define BC_FLASH_PER_KPA 0.25

/*
 * bc_flash_from_t10_api - closed-cup flash point from the D86 10 % point
 *
 * Given     t10_c  [degC], -20..400 (note 3)
 * Returned  flash_c [degC]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside that span, value still computed
 *           BC_BAD_DOMAIN     not finite, at or below absolute zero, or no root of the formula
 * Notes     1. kelvin constants; the set printed for degR is not interchangeable with it
 *           2. stated average deviation 6.8 degC; blind to the first ten percent, so it reads high
 *              on oils with light ends; its bounds: fuel/properties.h
 *           3. the source states no span: this one catches other units
 * Source    API Technical Data Book procedure 2B7.1, Riazi, ASTM MNL50 (2005), eq. (3.114); seen
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_flash_from_t10_api(double t10_c, double *flash_c);

/*
 * bc_flash_vapour_space_c - where the vapour over the oil reaches its lower flammable limit
 *
 * Given     slices        the oil
 *           pressure_kpa  101.325 for a closed-cup flash, the site's for what happens there
 * Returned  flash_c [degC] at which sum x_i P_i/(P L_i) = 1; NaN on failure
 * Status    BC_BAD_DOMAIN      no slices, or pressure not positive
 *           BC_NO_CONVERGENCE  no such temperature between -120 and 400 degC
 * Notes     1. Raoult and Le Chatelier; L = 0.55 of the stoichiometric share, no fitted constant
 *           2. on compositions of four jets the bias is -0.2 degC: the error of the estimate is the
 *              front end of the curve, not this equation
 * Source    Gmehling & Rasmussen 1982; Le Chatelier; Jones; Zabetakis: fuel/component.h
 * Checks    tests/unit/fuel/test_flash.c
 */
enum bc_status bc_flash_vapour_space_c(
	const struct bc_slices *slices, double pressure_kpa, double *flash_c);

/* The sum x_i P_i/(P L_i) of bc_flash_vapour_space_c at one temperature: 1 at the flash point,
 * rises with temp_c. BC_BAD_DOMAIN as there, or where L(T) has no value; sum is then NaN. */
enum bc_status bc_vapour_space_sum(
	const struct bc_slices *slices, double pressure_kpa, double temp_c, double *sum);

/*
 * bc_flash_corrected_c - a closed cup read at pressure_kpa, brought to 101.3 kPa
 *
 * Given     flash_c as read [degC]; pressure_kpa [kPa], 82.0..104.7
 * Returned  corrected_c = flash + 0.25 (101.3 - P) [degC]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside that pressure range, value still computed
 *           BC_BAD_DOMAIN     not finite, or pressure not positive
 * Source    ISO 2719 11.2; seen in a public copy
 * Checks    tests/outside/flash.chk
 */
enum bc_status bc_flash_corrected_c(double flash_c, double pressure_kpa, double *corrected_c);

#endif
