/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_FLASH_FORMS_H
#define BC_FUEL_FLASH_FORMS_H

#include <stddef.h>

#include "base/status.h"

/* Further published forms of the flash point, beside those of fuel/flash.h that a judgement uses.
 * They differ by up to 10 degC: say which was used, never mix them. */

/*
 * bc_flash_linear_c - closed cup from the D86 10 % point, straight line
 *
 * Given     t10_c  [degC]; for oils with a 50 % point below 260 degC
 * Returned  flash_c = 15.48 + 0.70704 T10 in kelvin [degC]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, or at or below absolute zero
 * Notes     1. 6 degC above bc_flash_from_t10_api at 150 to 200 degC, 10 at 100 degC
 * Source    Riazi, ASTM MNL50 (2005), eq. (3.115); seen in a public copy
 * Checks    tests/outside/flash.chk
 */
enum bc_status bc_flash_linear_c(double t10_c, double *flash_c);

/*
 * bc_flash_closed_1997_c, bc_flash_open_1997_c - straight lines of the later data book, degF
 *
 * Given     t10_c  [degC]
 * Returned  flash_c [degC], closed (0.69 T10 - 118.2 degF) or open cup (0.68 T10 - 109.6 degF);
 *           NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, or at or below absolute zero
 * Source    API Technical Data Book procedure 2B7.1 (1997); from memory
 * Checks    tests/outside/flash.chk
 */
enum bc_status bc_flash_closed_1997_c(double t10_c, double *flash_c);
enum bc_status bc_flash_open_1997_c(double t10_c, double *flash_c);

/*
 * bc_flash_butler_c - closed cup of a narrow cut from its boiling point
 *
 * Given     boiling_c  [degC]
 * Returned  flash_c = 0.683 Tb - 119 in degF [degC]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, or at or below absolute zero
 * Notes     1. 2.1 degC in the mean on 18 pure compounds
 * Source    Butler, Cooke, Lukk & Jameson 1956; from memory, degF and degC forms agree
 * Checks    tests/outside/flash.chk
 */
enum bc_status bc_flash_butler_c(double boiling_c, double *flash_c);

/*
 * bc_flash_walsh_mortimer_c - closed cup from the vapour pressure at 37.8 degC
 *
 * Given     pressure_bar  at 37.8 degC [bar], above 0.003
 * Returned  flash_c = 231.2 - 40 log10 P in kelvin [degC]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  at or below 0.003 bar (n-dodecane: 18 degC high), value still
 * computed BC_BAD_DOMAIN     not finite, or not positive Source    Walsh & Mortimer 1971; from
 * memory, within 4 degC for C6..C10 Checks    tests/outside/flash.chk
 */
enum bc_status bc_flash_walsh_mortimer_c(double pressure_bar, double *flash_c);

/*
 * bc_flash_index_wickey, bc_flash_from_index_wickey_c - blending index, linear by volume, and back
 *
 * Given     flash_c  [degC], above -230.6; or index above 0
 * Returned  index = 10^(-6.1188 + 4345.2/(F + 383)), F in degF; flash_c [degC]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, or where the formula has no value
 * Source    Wickey & Chittenden 1963; formula from memory; of 13 printed values
 *           10 are reproduced, 3 within 0.1 %
 * Checks    tests/outside/flash.chk
 */
enum bc_status bc_flash_index_wickey(double flash_c, double *index);
enum bc_status bc_flash_from_index_wickey_c(double index, double *flash_c);

/*
 * bc_flash_blend_wickey_c, bc_flash_blend_thiele_c, bc_flash_blend_hu_burns_c - two oils mixed
 *
 * Given     volume_frac   of the first oil, 0..1
 *           flash1_c, flash2_c of the two [degC]
 * Returned  flash_c [degC]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, or a share outside 0..1
 * Notes     1. Thiele was made for lubricating oils: -100 log10(sum v 10^(-F/100)), degF
 *           2. Hu-Burns: (sum v T^(1/x))^x, degR, x = -0.06
 *           3. none of them sees light ends dissolved in one of the oils
 * Source    Wickey & Chittenden 1963, as above; Thiele, Ind. Eng. Chem. 1927, seen in a public
 * copy; Hu & Burns 1970, from memory Checks    tests/outside/flash.chk
 */
enum bc_status bc_flash_blend_wickey_c(
	double volume_frac, double flash1_c, double flash2_c, double *flash_c);
enum bc_status bc_flash_blend_thiele_c(
	double volume_frac, double flash1_c, double flash2_c, double *flash_c);
enum bc_status bc_flash_blend_hu_burns_c(
	double volume_frac, double flash1_c, double flash2_c, double *flash_c);

/* A component of bc_flash_liaw_c: mole share, its own closed cup [degC], Antoine in bar and K. */
struct bc_flash_part {
	double mole_frac;
	double flash_c;
	double a, b, c;
};

/*
 * bc_flash_liaw_c - ideal mixture of compounds whose own flash points are known
 *
 * Given     n parts, mole shares together 1 within 0.001
 * Returned  flash_c [degC] at which sum x P(T)/P(Tflash) = 1; NaN on failure
 * Status    BC_BAD_DOMAIN      no parts, not finite, or shares that miss 1
 * Notes     1. 5 mol % of hexane takes 21 degC off decane
 * Source    Liaw et al. 2002, as quoted by Vidal et al. 2006, seen in a public copy
 * Checks    tests/outside/flash.chk
 */
enum bc_status bc_flash_liaw_c(const struct bc_flash_part *parts, size_t n, double *flash_c);

/*
 * bc_flash_corrected_f, bc_flash_corrected_d93_c, bc_flash_corrected_d3828_c - barometer in mmHg
 *
 * Given     flash as read [degF or degC]; pressure_mmhg [mmHg]
 * Returned  flash + 0.06 (degF), + 0.033 (D93), + 0.03 (D3828) times (760 - P); NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, or pressure not positive
 * Notes     1. station pressure, never reduced to the sea
 * Source    ASTM D56 and D3828, clause 13, seen in a public copy; D93 from memory
 * Checks    tests/outside/flash.chk
 */
enum bc_status bc_flash_corrected_f(double flash_f, double pressure_mmhg, double *corrected_f);
enum bc_status bc_flash_corrected_d93_c(double flash_c, double pressure_mmhg, double *corrected_c);
enum bc_status bc_flash_corrected_d3828_c(
	double flash_c, double pressure_mmhg, double *corrected_c);

/*
 * bc_flash_r_d93_c, bc_flash_R_d93_c, bc_flash_r_d7236_c, bc_flash_R_d7236_c - precision
 *
 * Given     flash_c  [degC], 40..250 for D93 procedure A, 40..135 for D7236
 * Returned  repeatability r or reproducibility R [degC]: 0.029 x and 0.071 x (D93), 0.01285 (x +
 * 40) and 0.02482 (x + 40) (D7236); NaN on failure Status    BC_OUTSIDE_RANGE  outside that range,
 * value still computed BC_BAD_DOMAIN     not finite, or nothing positive Source    ASTM D93
 * procedure A, from memory, depends on the edition; ASTM D7236, seen in a public copy Checks
 * tests/outside/flash.chk
 */
enum bc_status bc_flash_r_d93_c(double flash_c, double *r_c);
enum bc_status bc_flash_R_d93_c(double flash_c, double *R_c);
enum bc_status bc_flash_r_d7236_c(double flash_c, double *r_c);
enum bc_status bc_flash_R_d7236_c(double flash_c, double *R_c);

#endif
