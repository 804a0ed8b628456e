/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_IGNITION_H
#define BC_FUEL_IGNITION_H

#include "base/status.h"

/*
 * bc_cetane_index_d4737a - cetane index by four variables, procedure A
 *
 * Given     density15_kgm3       [kg/m3], 805..895
 *           t10_c, t50_c, t90_c  D86 at 10, 50, 90 % recovered [degC], 171..259, 212..308, 251..363
 * Returned  cetane_index [-]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside the ranges above: the index is not valid there
 *           BC_BAD_DOMAIN     not finite, or density not positive
 * Notes     1. error under 2 for 65 % of fuels of cetane number 32.5..56.5; far too high for
 *              branched oils (by 16 to 43 on three synthetic kerosenes)
 *           2. a copy in circulation prints the T90 term with +0.420 B; the standard has minus
 * Source    ASTM D4737-10 procedure A = ISO 4264:2018; formula seen in a public copy, sign of note
 * 2 from memory Checks    tests/outside/fuel.chk
 */
enum bc_status bc_cetane_index_d4737a(
	double density15_kgm3, double t10_c, double t50_c, double t90_c, double *cetane_index);

/*
 * bc_cetane_index_d976 - calculated cetane index, metric form
 *
 * Given     density15_kgm3  [kg/m3], 600..1100; t50_c D86 at 50 % [degC], 50..400 (note 3)
 * Returned  cetane_index [-]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside those spans, value still computed
 *           BC_BAD_DOMAIN     not finite, or not positive
 * Notes     1. not for synthetic fuels, pure hydrocarbons, residues or end points below 260 degC:
 *              the caller must know that
 *           2. 97.803, not the 97.083 that a handbook prints: 4.2 units at 260 degC
 *           3. the source states no spans: these catch other units
 * Source    ASTM D976, metric equation; seen in a public copy
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_cetane_index_d976(double density15_kgm3, double t50_c, double *cetane_index);

/*
 * bc_driveability_index - 1.5 T10 + 3 T50 + T90
 *
 * Given     temperatures at 10, 50, 90 % evaporated [degC], no ethanol
 * Returned  index, on the Celsius scale (the Fahrenheit one is not 1.8 times it); NaN on failure
 * Status    BC_BAD_DOMAIN   not finite
 * Source    ASTM D4814, driveability index; formula seen in a public copy
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_driveability_index(
	double t10_evaporated_c, double t50_evaporated_c, double t90_evaporated_c, double *index);

#endif
