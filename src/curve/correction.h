/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_CORRECTION_H
#define BC_CURVE_CORRECTION_H

#include "base/status.h"

/*
 * The published corrections around a boil-off, one function each, in the units of their source.
 * Every function returns a status and leaves NaN in its output on failure. BC_BAD_DOMAIN is given
 * for anything not finite, and where a note says so.
 */

/* The pressure to which readings are corrected [kPa]; ASTM D86 writes 101.3, from memory. */
#define BC_STANDARD_PRESSURE_KPA 101.3
/* Sydney Young's factor, kPa form [1/kPa]; ASTM D86-12, from memory. */
#define BC_YOUNG_PER_KPA 0.0009
/* Mercury in glass; seen in a public copy of a laboratory handbook [1/degC]. */
#define BC_STEM_PER_C 0.00016

/*
 * bc_sydney_young_corrected_c - a reading carried to 101.3 kPa
 *
 * Given     observed_c    reading at the site [degC], -50..700 (note 1)
 *           pressure_kpa  barometric pressure [kPa], 50..110 (note 1)
 * Returned  corrected_c   observed + 0.0009 (101.3 - P)(273 + t) [degC]
 * Status    BC_OUTSIDE_RANGE  outside the ranges above, value still computed
 *           BC_BAD_DOMAIN     pressure_kpa <= 0, or observed_c below 0 K
 * Notes     1. the source states no range; these are what a sample file accepts
 *           2. made for normal liquids; 9 % (acetic acid) to 26 % (1-butanol) too large for
 *              associated ones, about 10 % too small for hydrocarbons near 80 kPa
 * Source    ASTM D86-12, calculation of the barometric correction, kPa form; from memory
 * Checks    tests/outside/method.chk
 */
enum bc_status bc_sydney_young_corrected_c(
	double observed_c, double pressure_kpa, double *corrected_c);

/*
 * bc_sydney_young_observed_c - the reading at the site that corrects to a given temperature
 *
 * Given     corrected_c   temperature at 101.3 kPa [degC], -50..700
 *           pressure_kpa  barometric pressure [kPa], 50..110
 * Returned  observed_c    (T - 273 k)/(1 + k), k = 0.0009 (101.3 - P) [degC]
 * Status    BC_OUTSIDE_RANGE  outside the ranges above, value still computed
 *           BC_BAD_DOMAIN     pressure_kpa <= 0, or corrected_c below 0 K
 * Source    inverse of bc_sydney_young_corrected_c, exact
 * Checks    tests/outside/method.chk
 */
enum bc_status bc_sydney_young_observed_c(
	double corrected_c, double pressure_kpa, double *observed_c);

/*
 * bc_loss_corrected_pct - front-end loss carried to 101.3 kPa
 *
 * Given     loss_pct      observed loss [vol %], 0..20 (note 1)
 *           pressure_kpa  barometric pressure [kPa], 70..110 (note 1)
 * Returned  corrected_pct 0.5 + (L - 0.5)/(1 + (101.3 - P)/8.00) [vol %]
 * Status    BC_OUTSIDE_RANGE  outside the ranges above, value still computed
 *           BC_BAD_DOMAIN     the denominator is not positive (P >= 109.3 kPa), P <= 0,
 *                             or loss_pct outside 0..100
 * Notes     1. the source states no range; these span the sea to 3000 m
 * Source    ASTM D86-12, corrected loss, kPa form; from memory
 * Checks    tests/outside/method.chk
 */
enum bc_status bc_loss_corrected_pct(double loss_pct, double pressure_kpa, double *corrected_pct);

/*
 * bc_recovery_corrected_pct - recovery that goes with a corrected loss
 *
 * Given     recovery_pct        observed recovery [vol %], 0..100
 *           loss_pct            observed loss [vol %], 0..100
 *           corrected_loss_pct  from bc_loss_corrected_pct [vol %]
 * Returned  corrected_pct       R + (L - Lc) [vol %]
 * Status    BC_OUTSIDE_RANGE  the result lies outside 0..100, value still computed
 *           BC_BAD_DOMAIN     recovery_pct or loss_pct outside 0..100
 * Source    ASTM D86-12, corrected recovery; from memory
 * Checks    tests/outside/method.chk
 */
enum bc_status bc_recovery_corrected_pct(
	double recovery_pct, double loss_pct, double corrected_loss_pct, double *corrected_pct);

/*
 * bc_temp_at_evaporated_c - temperature at a percent evaporated, by straight line
 *
 * Given     evaporated_pct   wanted percent evaporated [vol %], loss_pct..100
 *           loss_pct         observed, never corrected, loss [vol %], 0..100 (note 1)
 *           low_pct, low_c   reading below: percent recovered, corrected degC
 *           high_pct, high_c reading above
 * Returned  temp_c           TL + (TH - TL)(E - L - RL)/(RH - RL) [degC]
 * Status    BC_OUTSIDE_RANGE  E - L lies outside low_pct..high_pct, value still computed
 *           BC_BAD_DOMAIN     high_pct <= low_pct, or evaporated_pct < loss_pct
 * Notes     1. with the corrected loss T10E of the standard's example would come out 1.4 degC high
 * Source    ASTM D86-12, arithmetical procedure for percent evaporated; from memory. That the
 *           observed loss is added: GB/T 6536, seen in a public copy
 * Checks    tests/outside/method.chk
 */
enum bc_status bc_temp_at_evaporated_c(double evaporated_pct, double loss_pct, double low_pct,
	double low_c, double high_pct, double high_c, double *temp_c);

/*
 * bc_stem_correction_c - mercury thread outside the vapour
 *
 * Given     reading_c     thermometer reading [degC], -10..400
 *           immersion_c   scale mark down to which the stem is in the vapour [degC], -10..400
 *           stem_c        mean temperature of the emergent thread [degC], 0..150
 * Returned  correction_c  0.00016 n (T - t), n = reading - immersion where positive [degC]
 * Status    BC_OUTSIDE_RANGE  outside the ranges above, value still computed
 * Notes     1. k depends on the glass: 0.000154 to 0.000164 per degC; about 5 % of the correction
 *           2. not for a partial-immersion thermometer at its line, nor for a probe
 * Source    common handbook form; k = 0.00016 seen in a public copy of a laboratory handbook
 * Checks    tests/outside/method.chk
 */
enum bc_status bc_stem_correction_c(
	double reading_c, double immersion_c, double stem_c, double *correction_c);

/*
 * bc_two_point_c - a reading put right by melting ice and boiling water
 *
 * Given     reading_c     thermometer reading [degC]
 *           ice_c         what it reads in melting ice [degC], -10..10
 *           steam_c       what it reads in boiling water [degC], within 15 of steam_true_c
 *           steam_true_c  where water boils at the site [degC], 80..103
 * Returned  true_c        (reading - ice) steam_true/(steam - ice) [degC]
 * Status    BC_OUTSIDE_RANGE  outside the ranges above, value still computed
 *           BC_BAD_DOMAIN     steam_c <= ice_c, or steam_true_c <= 0
 * Notes     1. above the boiling point an error at that point grows as T/100
 * Source    straight line through two fixed points; example seen in a public copy
 * Checks    tests/outside/method.chk
 */
enum bc_status bc_two_point_c(
	double reading_c, double ice_c, double steam_c, double steam_true_c, double *true_c);

/*
 * bc_water_boils_c - boiling point of water
 *
 * Given     pressure_kpa  [kPa], 0.611213..22064
 * Returned  temp_c        [degC, ITS-90]
 * Status    BC_BAD_DOMAIN     pressure_kpa <= 0 or above the critical pressure
 *           BC_OUTSIDE_RANGE  below the triple point, value still computed
 * Source    IAPWS-IF97, region 4, backward equation; from memory, verification table reproduced
 * Checks    tests/outside/method.chk
 */
enum bc_status bc_water_boils_c(double pressure_kpa, double *temp_c);

/*
 * bc_water_pressure_kpa - vapour pressure of water
 *
 * Given     temp_c        [degC], 0..373.946
 * Returned  pressure_kpa  [kPa]
 * Status    BC_BAD_DOMAIN     below -20 degC or above the critical temperature
 *           BC_OUTSIDE_RANGE  below 0 degC, value still computed
 * Source    IAPWS-IF97, region 4, basic equation, same ten coefficients; from memory
 * Checks    tests/outside/method.chk
 */
enum bc_status bc_water_pressure_kpa(double temp_c, double *pressure_kpa);

/*
 * bc_pressure_from_altitude_kpa - mean station pressure at an altitude
 *
 * Given     altitude_m    above the sea [m], -500..11000
 * Returned  pressure_kpa  101.325 (1 - 0.0065 h/288.15)^5.255876 [kPa]
 * Status    BC_OUTSIDE_RANGE  outside the range above, value still computed
 *           BC_BAD_DOMAIN     above 44330 m, where the formula ends
 * Source    ICAO / U.S. Standard Atmosphere 1976, lowest layer; formula seen in a public copy
 * Checks    tests/outside/method.chk
 */
enum bc_status bc_pressure_from_altitude_kpa(double altitude_m, double *pressure_kpa);

/*
 * bc_d86_reproducibility_c - reproducibility R of the standard test, groups 2 to 4, manual
 *
 * Given     recovered_pct      0 for IBP, 5..95, 100 for FBP [vol %]
 *           slope_c_per_pct    of the curve there [degC/%], 0..20 (note 1)
 * Returned  reproducibility_c  [degC]; R/sqrt(2) is the 95 % half-width of one result
 * Status    BC_OUTSIDE_RANGE  between 0 and 5 or 95 and 100 (note 2), or slope above 20
 *           BC_BAD_DOMAIN     percent outside 0..100, negative slope
 * Notes     1. the source states no range
 *           2. straight line between the two rows of the table
 *           3. a home rig does not meet the apparatus conditions: a floor
 * Source    ASTM D86-04b/07b, precision table; from memory (standards-notes/d86-precision.csv)
 * Checks    tests/outside/method.chk
 */
enum bc_status bc_d86_reproducibility_c(
	double recovered_pct, double slope_c_per_pct, double *reproducibility_c);

#endif
