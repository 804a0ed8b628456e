/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_PRESSURE_SHIFT_H
#define BC_FUEL_PRESSURE_SHIFT_H

#include "base/status.h"
#include "curve/conditions.h"

/* Below this site pressure [kPa], about 1500 m, slices replace Sydney Young. */
#define BC_PRESSURE_SHIFT_BELOW_KPA 84.56

/*
 * bc_pressure_shift_fill - boiling temperatures at the site against those at 101.3 kPa
 *
 * Given     pressure_kpa  [kPa], 50..110
 * Returned  *shift  rows rising in both columns [degC], -40..672.5 at 101.3 kPa; n = 0 on failure
 * Status    BC_OUTSIDE_RANGE  outside that range, rows still filled
 *           BC_BAD_DOMAIN     not finite, or not positive
 * Notes     1. a fraction of Watson K 12 at each boiling point; at 94.3 kPa within 0.3 degC of
 *              Antoine for toluene, decane, dodecane
 * Source    Lee-Kesler on Kesler-Lee constants: fuel/component.h
 * Checks    tests/unit/fuel/test_pressure_shift.c
 */
enum bc_status bc_pressure_shift_fill(double pressure_kpa, struct bc_pressure_shift *shift);

#endif
