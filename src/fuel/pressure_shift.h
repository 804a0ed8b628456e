/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_PRESSURE_SHIFT_H
#define BC_FUEL_PRESSURE_SHIFT_H

#include "base/status.h"
#include "curve/conditions.h"

/* Below this site pressure [kPa], about 1300 m, slices begin to replace Sydney Young, and from
 * about 1750 m they stand alone; between, the share of the slices grows straight. The formula is 10
 * % short at 1500 m (computed); the span is judgement. */
#define BC_PRESSURE_SHIFT_BELOW_KPA 87.0
#define BC_PRESSURE_SHIFT_ALONE_KPA 82.0

/*
 * bc_pressure_shift_fill - boiling temperatures at the site against those at 101.3 kPa
 *
 * Given     pressure_kpa  [kPa], 50..110
 * Returned  *shift  rows rising in both columns [degC], -40..672.5 at 101.3 kPa; n = 0 on failure
 *           and from BC_PRESSURE_SHIFT_BELOW_KPA up, where Sydney Young is used
 * Status    BC_OUTSIDE_RANGE  outside that range, rows still filled
 *           BC_BAD_DOMAIN     not finite, or not positive
 * Notes     1. a fraction of Watson K 12 at each boiling point; at 79.5 kPa the shift is
 *              8.17 degC for toluene, 9.20 for decane, 8.74 for styrene, where Antoine has 8.32,
 *              9.29, 9.12 and Sydney Young 7.36, 8.59, 8.05
 * Source    Lee-Kesler on Kesler-Lee constants: fuel/component.h; Sydney Young: curve/correction.h
 * Checks    tests/unit/fuel/test_pressure_shift.c
 */
enum bc_status bc_pressure_shift_fill(double pressure_kpa, struct bc_pressure_shift *shift);

#endif
