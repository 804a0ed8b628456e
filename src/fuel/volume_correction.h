/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_VOLUME_CORRECTION_H
#define BC_FUEL_VOLUME_CORRECTION_H

#include "base/status.h"

/* The petroleum measurement tables of 1980 for every product class, in degC and in degF. */

enum bc_product {
	BC_PRODUCT_BY_DENSITY, /* tables B: gasolines, transition, jet and kerosene, fuel oils */
	BC_PRODUCT_CRUDE,      /* tables A */
	BC_PRODUCT_LUBRICATING /* tables D */
};

/*
 * bc_volume_correction_15c, bc_volume_correction_60f - density at t = density at base * factor
 *
 * Given     product; base density [kg/m3] at 15 degC or 60 degF, 610..1163; temp [degC or degF],
 *           -40..150 degC or 0..300 degF
 * Returned  factor = exp(-alpha dt (1 + 0.8 alpha dt)) [-]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside those ranges, value still computed
 *           BC_BAD_DOMAIN     not finite, or density not positive
 * Notes     1. tables 54A 54B 54D and 6A 6B 6D; the older table 6 of 1952 differs by 0.0014 at
 *              64 degAPI and 34 degF
 *           2. classes by density are parted where their constants meet: 770.35, 787.52 and
 *              838.31 kg/m3 at 60 degF
 * Source    API MPMS chapter 11.1:1980; constants for 60 degF seen in a public copy, those for
 *           15 degC from memory
 * Checks    tests/outside/density.chk
 */
enum bc_status bc_volume_correction_15c(
	enum bc_product product, double density15_kgm3, double temp_c, double *factor);
enum bc_status bc_volume_correction_60f(
	enum bc_product product, double density60f_kgm3, double temp_f, double *factor);

/*
 * bc_volume_correction_api - table 6 entered with API gravity at 60 degF
 *
 * Given     product; api at 60 degF [degAPI], 0..100; temp_f [degF], 0..300
 * Returned  factor [-]; NaN on failure
 * Status    as bc_volume_correction_60f
 * Notes     1. water at 60 degF of 999.012 kg/m3
 * Source    API MPMS chapter 11.1:1980, tables 6A 6B 6D
 * Checks    tests/outside/density.chk
 */
enum bc_status bc_volume_correction_api(
	enum bc_product product, double api, double temp_f, double *factor);

/*
 * bc_glass_factor_15c, bc_glass_factor_60f - what a glass hydrometer's own expansion does
 *
 * Given     temp [degC, -40..150] or [degF, 0..300]
 * Returned  factor; reading * factor is the density at temp; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside those ranges, value still computed
 *           BC_BAD_DOMAIN     not finite
 * Notes     1. for glass hydrometers alone, not for digital meters or pycnometers
 * Source    API MPMS chapter 11.1:1980, tables 53 and 5; from memory, printed lines of table 5B
 *           come out right only with it
 * Checks    tests/outside/density.chk
 */
enum bc_status bc_glass_factor_15c(double temp_c, double *factor);
enum bc_status bc_glass_factor_60f(double temp_f, double *factor);

/*
 * bc_density15_from_hydrometer_kgm3 - a glass hydrometer read at temp_c to density at 15 degC
 * bc_density15_of_product_kgm3 - a density at temp_c (no glass) to 15 degC, product given
 * bc_api60_from_hydrometer - a glass hydrometer in API degrees read at temp_f to 60 degF
 *
 * Given     reading [kg/m3 or degAPI]; temp [degC or degF]; product
 * Returned  density15_kgm3 or api60; NaN on failure
 * Status    BC_OUTSIDE_RANGE   outside the tables, value still computed
 *           BC_BAD_DOMAIN      not finite, or not a density of an oil (300..1500 kg/m3)
 *           BC_NO_CONVERGENCE  no density at base within 0.7 to 1.4 times the reading
 * Source    API MPMS chapter 11.1:1980, tables 53A 53B 53D and 5B
 * Checks    tests/outside/density.chk
 */
enum bc_status bc_density15_from_hydrometer_kgm3(
	double reading_kgm3, double temp_c, double *density15_kgm3);
enum bc_status bc_density15_of_product_kgm3(
	enum bc_product product, double density_kgm3, double temp_c, double *density15_kgm3);
enum bc_status bc_api60_from_hydrometer(double reading_api, double temp_f, double *api60);

/* Specific gravity 60/60 degF of an API gravity, 141.5/(API + 131.5): definition. NaN below -131.
 */
double bc_sg_from_api(double api);

#endif
