/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_DENSITY_H
#define BC_FUEL_DENSITY_H

#include "base/status.h"

/*
 * bc_density15_from_observed_kgm3 - density at temp_c -> density at 15 degC
 *
 * Given     density_kgm3  at temp_c [kg/m3]; temp_c [degC], -40..150
 * Returned  density15_kgm3 [kg/m3], within 610..1075; NaN on failure
 * Status    BC_OUTSIDE_RANGE   outside the ranges above, value still computed
 *           BC_BAD_DOMAIN      not finite, or density not within 300..1500
 *           BC_NO_CONVERGENCE  the iteration did not settle
 * Notes     1. the product class goes by the density at 15 degC and is tested again at each step
 *           2. no glass hydrometer correction: the reading is taken as the density; the glass
 *              would change it by 0.2 kg/m3 over 10 degC
 *           3. recovered oils are none of the classes exactly: up to 0.8 kg/m3 over 10 degC
 * Source    API MPMS chapter 11.1:1980, table 53B; constants from memory, partly seen
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_density15_from_observed_kgm3(
	double density_kgm3, double temp_c, double *density15_kgm3);

/*
 * bc_volume_correction_54b - density at temp_c = density15 * factor
 *
 * Given     density15_kgm3  [kg/m3], 610..1075; temp_c [degC], -40..150
 * Returned  factor [-]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside the ranges above, value still computed
 *           BC_BAD_DOMAIN     not finite, or density not positive
 * Source    API MPMS chapter 11.1:1980, table 54B: exp(-alpha dt (1 + 0.8 alpha dt)); 12 of the
 *           29 printed values for 800 kg/m3 are held in the check files
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_volume_correction_54b(double density15_kgm3, double temp_c, double *factor);

/* Density at 15 degC [kg/m3] <-> specific gravity 60/60 degF, by table 54B from 15 to 15.56 degC
 * and water of 999.016 kg/m3 at 60 degF. NaN for what is not a density. */
double bc_sg_from_density15(double density15_kgm3);
double bc_density15_from_sg(double sg);

/*
 * bc_sg_from_d86 - specific gravity from the boil-off alone
 *
 * Given     t10_c, t50_c  D86 at 10 and 50 % [degC]; the source states no range
 * Returned  sg 60/60 degF; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, or below absolute zero
 * Notes     1. blind to what the oil is made of: on 60 measured D86-type curves it read
 *              6 kg/m3 high in the mean, 58 of 60 within 58; three whole polyolefin oils read 24 to
 *              48 too heavy, paraffinic kerosenes up to 59, reformates up to 90 too light
 * Source    Riazi, ASTM MNL50 (2005), eq. (3.17), kelvin; from memory
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_sg_from_d86(double t10_c, double t50_c, double *sg);

/* API gravity of a specific gravity: 141.5/SG - 131.5 (definition). NaN when sg is not positive. */
double bc_api_from_sg(double sg);

#endif
