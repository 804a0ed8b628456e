/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_STILL_HEAT_H
#define BC_STILL_HEAT_H

#include "base/status.h"
#include "still/column.h"

/*
 * bc_liquid_heat_kjkgk - heat capacity of a liquid petroleum fraction
 *
 * Given     temp_c    [degC], -18..540
 *           sg        60/60 degF, 0.6..1.1
 *           watson_k  10..13
 * Returned  heat_kjkgk [kJ/(kg K)]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside the ranges above, value still computed
 *           BC_BAD_DOMAIN     not finite, sg or watson_k not positive, or no positive result
 * Notes     1. about 5 %; near the critical point it is short
 * Source    Watson & Nelson 1933, cp = (0.6811 - 0.308 SG + (0.000815 - 0.000306 SG) t/degF)
 *           (0.055 K + 0.35) BTU/(lb degF); from memory, ranges are judgement
 * Checks    tests/unit/still/test_heat.c
 */
enum bc_status bc_liquid_heat_kjkgk(double temp_c, double sg, double watson_k, double *heat_kjkgk);

/*
 * bc_latent_heat_riedel_kjmol - heat of vaporisation at the normal boiling point
 *
 * Given     boiling_k, critical_k [K], boiling_k below 0.93 critical_k; critical_bar [bar], above e
 * Returned  latent_kjmol [kJ/mol]; NaN on failure
 * Status    BC_BAD_DOMAIN     not finite, or outside the above
 * Notes     1. within 2 % on pure hydrocarbons with measured constants; with those of Kesler-Lee 0
 *              to 5 % above handbooks
 * Source    Riedel 1954, 1.093 R Tc Tbr (ln Pc - 1.013)/(0.93 - Tbr); from memory
 * Checks    tests/unit/still/test_heat.c
 */
enum bc_status bc_latent_heat_riedel_kjmol(
	double boiling_k, double critical_k, double critical_bar, double *latent_kjmol);

/*
 * bc_latent_heat_watson_kjmol - heat of vaporisation at another temperature than it is known at
 *
 * Given     latent_kjmol at known_k; temp_k, critical_k [K], both below critical_k
 * Returned  there_kjmol; NaN on failure
 * Status    BC_BAD_DOMAIN  not finite, not positive, or not below the critical temperature
 * Source    Watson 1943, exponent 0.38 (textbook, from memory)
 * Checks    tests/unit/still/test_heat.c
 */
enum bc_status bc_latent_heat_watson_kjmol(
	double latent_kjmol, double known_k, double temp_k, double critical_k, double *there_kjmol);

/*
 * bc_reflux_of_plates - the reflux that a still known by effective plates alone may be taken to
 * have
 *
 * Returned  plates - 1, and 0 below one plate
 * Notes     1. columns of 2 to 10 stages with refluxes of 0.25 to 5 that are worth 1.4 to 5.3
 *              plates have 0.6 to 2.2 times that; for heat and time alone
 * Source    simulated columns fitted by effective plates (computed for this program)
 */
double bc_reflux_of_plates(double effective_plates);

/* Heat of one run [MJ]; without what the walls lose. */
struct bc_run_heat {
	double warm_up_mj; /* to the first drop */
	double residue_mj; /* what is in the pot, on its way to the end */
	double latent_mj;  /* of what is drawn */
	double reflux_mj;  /* of what runs back; INFINITY at total reflux; bc_reflux_of_plates for a
			      still known by these alone */
};

/*
 * bc_run_heat_mj - the heat that a run takes up to a place
 *
 * Given     run; over_frac within it; charge_ml at 60 degF; start_c of the charge [degC]
 * Returned  *heat
 * Status    BC_BAD_DOMAIN  outside the run, or a slice without heat of vaporisation
 * Notes     1. each slice evaporates with its heat where it boils by itself at the pressure of the
 *              run
 * Source    balance: m cp dT of the charge, of what is left as the pot warms, and (R + 1) n dHv
 * Checks    tests/unit/still/test_heat.c
 */
enum bc_status bc_run_heat_mj(const struct bc_run *run, double over_frac, double charge_ml,
	double start_c, struct bc_run_heat *heat);

/* Cooling water [L/min] that takes power_w with a rise of rise_c [degC], both positive. */
double bc_cooling_water_l_min(double power_w, double rise_c);

/*
 * bc_vapour_fills_s - cooling fails: how long until the vapour in a room is at share_frac of its
 * lower limit
 *
 * Given     power_w  that still boils the oil [W]; room_m3 [m3]; share_frac 0..1
 * Returned  [s]; NaN when one is not positive
 * Notes     1. well mixed, no ventilation; near the still it is at the limit at once
 * Source    lower limit 45 g/m3, latent heat 290 J/g: common figures of middle distillates
 */
double bc_vapour_fills_s(double power_w, double room_m3, double share_frac);

#endif
