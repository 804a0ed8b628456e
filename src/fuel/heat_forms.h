/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_HEAT_FORMS_H
#define BC_FUEL_HEAT_FORMS_H

#include "base/status.h"

/* Heats by the published forms: of combustion, of vaporization, of warming. */

/*
 * bc_gross_heat_d4868_mjkg, bc_net_heat_impure_d4868_mjkg - heat of combustion of an oil with
 * water, ash and sulphur
 *
 * Given     density15_kgm3 [kg/m3], 750..1000; water_frac, ash_frac, sulphur_frac by mass, 0..1
 * Returned  heat_mjkg [MJ/kg]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  density outside that range, value still computed
 *           BC_BAD_DOMAIN     not finite, or shares that are not shares
 * Notes     1. for burner and diesel fuel, not for pure compounds
 * Source    ASTM D4868-90; coefficients from memory, range seen
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_gross_heat_d4868_mjkg(double density15_kgm3, double water_frac, double ash_frac,
	double sulphur_frac, double *heat_mjkg);
enum bc_status bc_net_heat_impure_d4868_mjkg(double density15_kgm3, double water_frac,
	double ash_frac, double sulphur_frac, double *heat_mjkg);

/*
 * bc_net_heat_d4529_mjkg - net heat of an aviation fuel from aniline point and density
 *
 * Given     aniline_c [degC], -60..150; density15_kgm3 [kg/m3], 600..1100 (note 1); sulphur_pct by
 *           mass [%]
 * Returned  heat_mjkg [MJ/kg]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside those spans, value still computed
 *           BC_BAD_DOMAIN     not finite, density not positive, or sulphur outside 0..100
 * Notes     1. the source states no spans: these catch other units
 * Source    ASTM D4529; formula seen in a public copy
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_net_heat_d4529_mjkg(
	double aniline_c, double density15_kgm3, double sulphur_pct, double *heat_mjkg);

/*
 * bc_net_heat_d3338_mjkg - net heat of an aviation fuel from aromatics, boiling and density
 *
 * Given     aromatics_pct [vol %]; mean_c mean of T10, T50, T90 [degC], -20..400; density15_kgm3
 *           [kg/m3], 600..1100 (note 2)
 * Returned  heat_mjkg [MJ/kg], free of sulphur; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside those spans, value still computed
 *           BC_BAD_DOMAIN     not finite, density not positive, or aromatics outside 0..100
 * Notes     1. within 0.1 of D4529
 *           2. the source states no spans: these catch other units
 * Source    ASTM D3338; from memory
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_net_heat_d3338_mjkg(
	double aromatics_pct, double mean_c, double density15_kgm3, double *heat_mjkg);

/*
 * bc_gross_heat_cragoe_btulb - 22320 - 3780 d^2
 *
 * Given     sg 60/60 degF
 * Returned  heat_btulb [Btu/lb]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, or not positive
 * Source    Cragoe, NBS Miscellaneous Publication 97 (1929); from memory, equals D4868
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_gross_heat_cragoe_btulb(double sg, double *heat_btulb);

/*
 * bc_latent_cragoe_kjkg - (110.9 - 0.09 F)/d Btu/lb, here in kJ/kg
 *
 * Given     temp_c [degC]; sg 60/60 degF
 * Returned  latent_kjkg [kJ/kg]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, sg not positive, or nothing left of it
 * Notes     1. 4 to 9 % low for alkanes, 33 % low for toluene
 * Source    Cragoe, NBS Miscellaneous Publication 97 (1929); seen in a public copy
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_latent_cragoe_kjkg(double temp_c, double sg, double *latent_kjkg);

/*
 * bc_latent_riazi_kjmol, bc_latent_kistiakowsky_kjmol, bc_latent_riedel_kjmol - at the boiling
 * point
 *
 * Given     boiling_k [K]; sg 60/60 degF; critical_k [K]; critical_bar [bar]
 * Returned  latent_kjmol [kJ/mol]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, not positive, or boiling_k >= 0.93 critical_k
 * Notes     1. within 1 %, 1.3 % and 1.6 % of n-octane, n-decane and toluene
 * Source    Riazi & Daubert 1987; Kistiakowsky 1923; Riedel 1954; all from memory
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_latent_riazi_kjmol(double boiling_k, double sg, double *latent_kjmol);
enum bc_status bc_latent_kistiakowsky_kjmol(double boiling_k, double *latent_kjmol);
enum bc_status bc_latent_riedel_kjmol(
	double boiling_k, double critical_k, double critical_bar, double *latent_kjmol);

/*
 * bc_latent_watson_kjmol - latent heat carried to another temperature, exponent 0.38
 *
 * Given     latent_kjmol at boiling_k; temp_k, boiling_k, critical_k [K]
 * Returned  there_kjmol [kJ/mol]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, not positive, or a temperature not below critical_k
 * Source    Watson 1943; from memory
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_latent_watson_kjmol(double latent_kjmol, double boiling_k, double critical_k,
	double temp_k, double *there_kjmol);

/*
 * bc_liquid_heat_kesler_lee_kjkgk, bc_liquid_heat_cragoe_kjkgk - heat capacity of the liquid
 *
 * Given     temp_k [K] (Kesler-Lee: up to 0.8 of the critical), watson_k [-], sg 60/60 degF;
 *           temp_c [degC], -18..204 (Cragoe)
 * Returned  [kJ/(kg K)]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  Cragoe outside 0..400 degF, value still computed
 *           BC_BAD_DOMAIN     not finite, or not positive
 * Notes     1. Cragoe about 4 % as stated
 * Source    Kesler & Lee, Hydrocarbon Processing 55 (1976); Cragoe, NBS Miscellaneous Publication
 *           97 (1929); from memory
 * Checks    tests/outside/burning.chk
 */
enum bc_status bc_liquid_heat_kesler_lee_kjkgk(
	double temp_k, double watson_k, double sg, double *heat_kjkgk);
enum bc_status bc_liquid_heat_cragoe_kjkgk(double temp_c, double sg, double *heat_kjkgk);

#endif
