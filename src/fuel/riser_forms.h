/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_RISER_FORMS_H
#define BC_FUEL_RISER_FORMS_H

#include "base/status.h"

/* What the riser of a small still does with its vapour, from its size alone: estimates. */

/*
 * bc_riser_wall_w - heat that the wall of a riser loses
 *
 * Given     u_wm2k     heat transfer, of the inner wall [W/(m2 K)], 0.5..50 (note 1)
 *           inner_mm   inner diameter [mm]; height_mm [mm]; both above 0
 *           warmer_c   vapour less surroundings [degC], 0 or more
 * Returned  power_w    U pi D L dT [W]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  u_wm2k outside its range, value still computed
 *           BC_BAD_DOMAIN     not finite, or outside the above
 * Notes     1. still air and radiation: about 12 for a bare pipe, give or take a third
 * Source    heat transfer through a wall (textbook)
 * Checks    tests/outside/still.chk
 */
enum bc_status bc_riser_wall_w(
	double u_wm2k, double inner_mm, double height_mm, double warmer_c, double *power_w);

/*
 * bc_riser_u_lagged_wm2k - heat transfer of a lagged riser, of its inner wall
 *
 * Given     inner_mm      [mm], above 0; the wall counts as thin
 *           thickness_mm  of the wool [mm], 0 (bare) to 300
 * Returned  u_wm2k        1/(D ln((D + 2 s)/D)/(2 k) + D/((D + 2 s) h)), wool k 0.045 W/(m K),
 *                         outside h 12 W/(m2 K) [W/(m2 K)]; NaN on failure
 * Status    BC_BAD_DOMAIN  not finite, or outside the above
 * Notes     1. k and h are common figures of mineral wool and of a warm pipe in still air: a third
 *              both ways
 * Source    heat through a pipe and its lagging (textbook)
 * Checks    tests/outside/still.chk
 */
enum bc_status bc_riser_u_lagged_wm2k(double inner_mm, double thickness_mm, double *u_wm2k);

/*
 * bc_riser_wall_reflux - what the wall sends back, of what comes over
 *
 * Given     wall_w, boil_w  [W]: lost by the wall, and boiling the liquid; 0 <= wall_w < boil_w
 * Returned  reflux          Q/(P - Q) [-]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, or the wall condenses all
 * Source    balance
 * Checks    tests/outside/still.chk
 */
enum bc_status bc_riser_wall_reflux(double wall_w, double boil_w, double *reflux);

/*
 * bc_riser_power_w - the heat at which the vapour in a riser has a given F-factor
 *
 * Given     inner_mm      [mm], above 0
 *           f_factor      velocity times root of vapour density [Pa^0.5], 0.1..4
 *           pressure_kpa, temp_c of the vapour; molar_mass_gmol; latent_kjmol; all positive (temp_c
 *           above 0 K)
 * Returned  power_w       F sqrt(rho) pi D^2/4 dH/M, rho of an ideal gas [W]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  f_factor outside its range, value still computed
 *           BC_BAD_DOMAIN     not finite, or outside the above
 * Source    definition of the F-factor (textbook)
 * Checks    tests/outside/still.chk
 */
enum bc_status bc_riser_power_w(double inner_mm, double f_factor, double pressure_kpa,
	double temp_c, double molar_mass_gmol, double latent_kjmol, double *power_w);

/*
 * bc_riser_stages - equilibrium contacts of a riser, the pot among them
 *
 * Given     height_mm, hetp_mm [mm], positive
 * Returned  stages  1 + height/HETP; NaN on failure
 * Status    BC_BAD_DOMAIN  not finite, or not positive
 * Source    definition
 * Checks    tests/outside/still.chk
 */
enum bc_status bc_riser_stages(double height_mm, double hetp_mm, double *stages);

#endif
