/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_HEAT_H
#define BC_FUEL_HEAT_H

#include "base/status.h"

/*
 * bc_net_heat_d4868_mjkg - net heat of combustion of a clean hydrocarbon oil
 *
 * Given     density15_kgm3  [kg/m3], 750..1000
 * Returned  net_heat_mjkg [MJ/kg], no water, ash or sulphur; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside the range above, value still computed
 *           BC_BAD_DOMAIN     not finite, or not positive
 * Source    ASTM D4868-90, net heat with x = y = s = 0; coefficients from memory, range seen
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_net_heat_d4868_mjkg(double density15_kgm3, double *net_heat_mjkg);

#endif
