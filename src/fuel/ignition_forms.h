/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_IGNITION_FORMS_H
#define BC_FUEL_IGNITION_FORMS_H

#include "base/status.h"

/* Further published indices of ignition and volatility, beside those of fuel/ignition.h. */

/*
 * bc_cetane_index_d4737b - cetane index by four variables, procedure B (diesel 2-D, low sulphur)
 *
 * Given     density15_kgm3       [kg/m3], 600..1100 (note 1)
 *           t10_c, t50_c, t90_c  D86 at 10, 50, 90 % recovered [degC], -20..400, 50..400, 50..450
 * Returned  cetane_index [-]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside those spans, value still computed
 *           BC_BAD_DOMAIN     not finite, or density not positive
 * Notes     1. the source states no spans: these catch other units
 * Source    ASTM D4737-10 procedure B; from memory
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_cetane_index_d4737b(
	double density15_kgm3, double t10_c, double t50_c, double t90_c, double *cetane_index);

/*
 * bc_cetane_index_d976_api - calculated cetane index, API gravity and degF form
 *
 * Given     api gravity [degAPI]; t50_f D86 at 50 % [degF], above 0
 * Returned  cetane_index [-]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, or t50_f not positive
 * Notes     1. about 0.25 below the metric form by construction
 * Source    ASTM D976; from memory
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_cetane_index_d976_api(double api, double t50_f, double *cetane_index);

/*
 * bc_diesel_index - API gravity (1.8 aniline + 32)/100
 * bc_cetane_from_diesel_index - 0.72 DI + 10
 *
 * Given     aniline_c aniline point [degC]; api gravity [degAPI]; diesel_index [-]
 * Returned  index [-]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite
 * Notes     1. the second is a rule of thumb, several units wide
 * Source    Riazi, ASTM MNL50 (2005), eq. (3.130), seen in a public copy; the second from memory
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_diesel_index(double aniline_c, double api, double *diesel_index);
enum bc_status bc_cetane_from_diesel_index(double diesel_index, double *cetane_index);

/*
 * bc_aniline_linden_c, bc_aniline_api_c - aniline point from boiling point and gravity
 *
 * Given     boiling_k mean average boiling point [K]; sg 60/60 degF
 * Returned  aniline_c [degC]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, or not positive
 * Notes     1. the two are within 2.5 degC of each other from kerosene to diesel
 * Source    Linden 1949, Riazi, ASTM MNL50 (2005), eq. (3.125), page 137, seen in a public copy;
 *           API Technical Data Book procedure 2B9.1, from memory
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_aniline_linden_c(double boiling_k, double sg, double *aniline_c);
enum bc_status bc_aniline_api_c(double boiling_k, double sg, double *aniline_c);

/*
 * bc_driveability_index_f - 1.5 T10 + 3 T50 + T90 on the Fahrenheit scale, + 2.4 ethanol
 * bc_driveability_index_ethanol - the same on the Celsius scale, + 1.33 ethanol
 *
 * Given     temperatures at 10, 50, 90 % evaporated [degF or degC]; ethanol_pct [vol %], 0..15
 * Returned  index; NaN on failure
 * Status    BC_OUTSIDE_RANGE  ethanol above 15 %, value still computed
 *           BC_BAD_DOMAIN     not finite, or a negative share
 * Notes     1. the Fahrenheit index is not 1.8 times the other: it carries 5.5 times 32 more
 * Source    ASTM D4814, driveability index; formula seen in a public copy
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_driveability_index_f(double t10_evaporated_f, double t50_evaporated_f,
	double t90_evaporated_f, double ethanol_pct, double *index);
enum bc_status bc_driveability_index_ethanol(double t10_evaporated_c, double t50_evaporated_c,
	double t90_evaporated_c, double ethanol_pct, double *index);

/*
 * bc_vapour_liquid_20_c, bc_vapour_liquid_20_f - temperature of a vapour/liquid ratio of 20
 *
 * Given     vapour pressure at 37.8 degC, dry [kPa or psi]; T10 and T50 evaporated [degC or degF]
 * Returned  temperature [degC or degF]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, or vapour pressure not positive
 * Notes     1. the two forms agree within 0.03 degC
 * Source    ASTM D4814 appendix X1, linear equation; from memory
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_vapour_liquid_20_c(
	double pressure_kpa, double t10_evaporated_c, double t50_evaporated_c, double *temp_c);
enum bc_status bc_vapour_liquid_20_f(
	double pressure_psi, double t10_evaporated_f, double t50_evaporated_f, double *temp_f);

/*
 * bc_vapour_lock_index - 10 VP + 7 E70
 *
 * Given     pressure_kpa  vapour pressure [kPa]; e70_pct evaporated at 70 degC [vol %]
 * Returned  index [-]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, or negative
 * Source    EN 228, vapour lock index; from memory
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_vapour_lock_index(double pressure_kpa, double e70_pct, double *index);

/*
 * bc_true_vapour_pressure_ap42_psi, bc_true_vapour_pressure_crude_psi - of a stock in a tank
 *
 * Given     rvp_psi  Reid vapour pressure [psi], 1..20 (stocks), 2..15 (crude)
 *           slope_f_per_pct  of the D86 at 10 % evaporated [degF/%]; temp_f [degF], 0..140
 * Returned  pressure_psi [psia]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside those ranges, which the program sets, value still computed
 *           BC_BAD_DOMAIN     not finite, or not positive
 * Notes     1. there is no trustworthy form for the Reid vapour pressure itself from a D86 alone: a
 *              remembered one gave 0.66 bar for n-hexane, which has 0.34, and was left out
 * Source    US EPA AP-42 chapter 7.1, refined stocks, from memory; crude: Riazi, ASTM MNL50 (2005),
 *           eq. (7.26), page 314, seen in a public copy
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_true_vapour_pressure_ap42_psi(
	double rvp_psi, double slope_f_per_pct, double temp_f, double *pressure_psi);
enum bc_status bc_true_vapour_pressure_crude_psi(
	double rvp_psi, double temp_f, double *pressure_psi);

#endif
