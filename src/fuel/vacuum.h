/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_VACUUM_H
#define BC_FUEL_VACUUM_H

#include "base/status.h"

/* Maxwell and Bonnell: boiling under vacuum and its equivalent at 760 mmHg. */

/*
 * bc_maxwell_bonnell_mmhg - vapour pressure of a fraction with a Watson factor of 12
 * bc_maxwell_bonnell_watson_mmhg - the same with another Watson factor
 *
 * Given     temp_k, boiling_k (normal boiling point) [K]; watson_k [-]
 * Returned  pressure_mmhg [mmHg]; NaN on failure
 * Status    BC_BAD_DOMAIN      not finite, not positive, or beyond a pole of the formula
 *           BC_NO_CONVERGENCE  the correction for watson_k did not settle
 * Notes     1. three branches, parted at Q 0.0022 and 0.0013 (near 1.5 and 960 mmHg), where they
 *              are 0.4 % and 0.9 % apart
 *           2. the correction fades in between boiling points of 200 and 400 degF
 * Source    Maxwell & Bonnell 1955, API Technical Data Book procedure 5A1.19; constants of the
 *           middle branch seen in a copy of ASTM D2892 annex A8, the others from memory
 * Checks    tests/outside/vacuum.chk
 */
enum bc_status bc_maxwell_bonnell_mmhg(double temp_k, double boiling_k, double *pressure_mmhg);
enum bc_status bc_maxwell_bonnell_watson_mmhg(
	double temp_k, double boiling_k, double watson_k, double *pressure_mmhg);

/*
 * bc_aet_a_mmhg, bc_aet_a_kpa - the factor A of the equivalent temperature
 *
 * Given     pressure [mmHg] above 0, three branches; or [kPa], 0.266..101.325, middle branch
 * Returned  a [1/K]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  kPa form outside the middle branch, value still computed
 *           BC_BAD_DOMAIN     not finite, or not positive
 * Source    ASTM D2892 annex A8, eq. A8.2 and A8.3, seen in a public copy; below 2 mmHg ASTM D5236,
 *           above 760 mmHg API 5A1.19, from memory
 * Checks    tests/outside/vacuum.chk
 */
enum bc_status bc_aet_a_mmhg(double pressure_mmhg, double *a);
enum bc_status bc_aet_a_kpa(double pressure_kpa, double *a);

/*
 * bc_aet_c, bc_aet_kpa_c - boiling temperature under vacuum to its equivalent at 760 mmHg
 * bc_temp_from_aet_c     - and back
 *
 * Given     temp_c [degC] at the pressure [mmHg or kPa]; aet_c [degC]
 * Returned  aet_c, temp_c [degC]; NaN on failure
 * Status    as bc_aet_a_mmhg, bc_aet_a_kpa; BC_BAD_DOMAIN also beyond the pole
 * Notes     1. for a Watson factor of 12.0 +- 0.2
 *           2. at 760 mmHg it gives the temperature and 0.15 degC more: the constants do not close
 *           3. the source counts kelvin from 273.1
 *           4. the branches are 0.1 degC apart at 2 mmHg and 0.4 at 760 (150 degC, computed)
 * Source    ASTM D2892 annex A8, eq. A8.1; from memory
 * Checks    tests/outside/vacuum.chk
 */
enum bc_status bc_aet_c(double temp_c, double pressure_mmhg, double *aet_c);
enum bc_status bc_aet_kpa_c(double temp_c, double pressure_kpa, double *aet_c);
enum bc_status bc_temp_from_aet_c(double aet_c, double pressure_mmhg, double *temp_c);

/*
 * bc_aet_watson_c - the equivalent temperature with another Watson factor
 *
 * Given     temp_c [degC]; pressure_mmhg [mmHg]; watson_k [-]
 * Returned  aet_c = bc_aet_c - 1.4 (K - 12) log10(760/P) [degC]; NaN on failure
 * Status    as bc_aet_c
 * Notes     1. n-C12, C16, C20 from 10 mmHg come out within 1.1 degC of their boiling points
 * Source    ASTM D2892 annex A8, eq. A8.4 and A8.5; from memory
 * Checks    tests/outside/vacuum.chk
 */
enum bc_status bc_aet_watson_c(double temp_c, double pressure_mmhg, double watson_k, double *aet_c);

/*
 * bc_watson_k_d2892 - Watson factor as the annex writes it
 *
 * Given     boiling_c mid boiling point [degC], -20..700; density15_gml [g/mL], 0.6..1.1 (note 1)
 * Returned  watson_k = (1.8 (B + 273.1))^(1/3)/D; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside those spans, value still computed
 *           BC_BAD_DOMAIN     not finite, or not positive
 * Notes     1. the source states no spans: these catch other units
 * Source    ASTM D2892 annex A8, eq. A8.4; from memory
 * Checks    tests/outside/vacuum.chk
 */
enum bc_status bc_watson_k_d2892(double boiling_c, double density15_gml, double *watson_k);

#endif
