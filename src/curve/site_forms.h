/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_SITE_FORMS_H
#define BC_CURVE_SITE_FORMS_H

#include "base/status.h"

/* Barometers, altitude and scales: what goes on around the flask, in the units of its sources. */

/*
 * bc_mercury_glass_mmhg, bc_mercury_brass_mmhg - a mercury barometer reduced to 0 degC
 *
 * Given     reading_mmhg [mmHg], 500..850; temp_c of the barometer [degC], -10..40
 * Returned  reduced_mmhg = H - 0.000172 H t (glass scale), - 0.000161 H t (brass); NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside those ranges, which the program sets, value still computed
 *           BC_BAD_DOMAIN     not finite, or reading not positive
 * Source    Young, Distillation Principles and Processes, appendix; seen in a public copy
 * Checks    tests/outside/reading.chk
 */
enum bc_status bc_mercury_glass_mmhg(double reading_mmhg, double temp_c, double *reduced_mmhg);
enum bc_status bc_mercury_brass_mmhg(double reading_mmhg, double temp_c, double *reduced_mmhg);

/*
 * bc_station_from_sea_level_kpa - what the barometer shows where the weather service tells sea
 * level
 *
 * Given     sea_level_kpa [kPa], 90..110; altitude_m [m], -500..11000
 * Returned  station_kpa = P (1 - 0.0065 h/288.15)^5.255876 [kPa]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside those ranges, value still computed
 *           BC_BAD_DOMAIN     not finite, not positive, or above 44330 m
 * Notes     1. the boil-off wants station pressure; a sea-level one taken for it at 600 m is
 *              2 degC of correction gone wrong
 * Source    ICAO / U.S. Standard Atmosphere 1976, lowest layer; formula seen in a public copy
 * Checks    tests/outside/reading.chk
 */
enum bc_status bc_station_from_sea_level_kpa(
	double sea_level_kpa, double altitude_m, double *station_kpa);

/*
 * bc_pressure_from_feet_inhg - standard pressure at an altitude in feet
 *
 * Given     altitude_ft [ft], -1640..36000
 * Returned  pressure_inhg = 29.921 (1 - 6.8753e-6 h)^5.2559 [inHg]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside that range, value still computed
 *           BC_BAD_DOMAIN     not finite, or above 145448 ft
 * Source    US engineering table; formula and table seen in a public copy
 * Checks    tests/outside/reading.chk
 */
enum bc_status bc_pressure_from_feet_inhg(double altitude_ft, double *pressure_inhg);

/*
 * bc_water_boils_us_f - boiling point of water by the US table
 *
 * Given     pressure_inhg [inHg], 25..31
 * Returned  boiling_f = 49.161 ln P + 44.932 [degF]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside that range, which the program sets, value still computed
 *           BC_BAD_DOMAIN     not finite, or not positive
 * Notes     1. 0.1 degF above IAPWS-IF97, with which the program works
 * Source    US table of water against the barometer; formula and table seen in a public copy
 * Checks    tests/outside/reading.chk
 */
enum bc_status bc_water_boils_us_f(double pressure_inhg, double *boiling_f);

/*
 * bc_water_density_kgm3 - density of air-free water
 *
 * Given     temp_c [degC], 0..40
 * Returned  density_kgm3 [kg/m3]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside that range, value still computed
 *           BC_BAD_DOMAIN     not finite, or outside -20..100
 * Notes     1. within 0.004 of a printed metrological table
 * Source    Tanaka et al., Metrologia 38 (2001) 301; from memory
 * Checks    tests/outside/density.chk
 */
enum bc_status bc_water_density_kgm3(double temp_c, double *density_kgm3);

/*
 * bc_pycnometer_volume_ml, bc_pycnometer_density_gml - one vessel, water and oil in turn, in air
 *
 * Given     empty_g, with_water_g, with_oil_g [g]; water_gml, air_gml densities [g/mL]
 * Returned  volume_ml = (mw - me)/(rho_w - rho_a) [mL]; density_gml of the oil
 *           = (mo - me)/(mw - me) (rho_w - rho_a) + rho_a [g/mL]; NaN on failure
 * Status    BC_BAD_DOMAIN     not finite, full not heavier than empty, or air not below water
 * Notes     1. air is about 0.0012 g/mL
 * Source    practice of weighing, ISO 3838; formula seen in a public copy
 * Checks    tests/outside/density.chk
 */
enum bc_status bc_pycnometer_volume_ml(
	double empty_g, double with_water_g, double water_gml, double air_gml, double *volume_ml);
enum bc_status bc_pycnometer_density_gml(double empty_g, double with_water_g, double with_oil_g,
	double water_gml, double air_gml, double *density_gml);

/*
 * bc_kitchen_scale_density_gml - the same without the air
 *
 * Given     empty_g, with_water_g, with_oil_g [g]; water_gml at its temperature [g/mL]
 * Returned  density_gml = (mo - me)/(mw - me) rho_w [g/mL]; NaN on failure
 * Status    BC_BAD_DOMAIN     not finite, or full not heavier than empty
 * Notes     1. 0.0002 g/mL low on a light oil; a scale that steps by 1 g on 80 g costs 0.01 g/mL
 *           2. the density is that at the temperature of the oil
 * Source    practice of weighing; common practice
 * Checks    tests/outside/density.chk
 */
enum bc_status bc_kitchen_scale_density_gml(double empty_g, double with_water_g, double with_oil_g,
	double water_gml, double *density_gml);

#endif
