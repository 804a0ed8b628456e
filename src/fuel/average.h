/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_AVERAGE_H
#define BC_FUEL_AVERAGE_H

#include "base/status.h"

/* Average boiling points [degC] of an oil. */
struct bc_average_boiling {
	double volume_c;
	double mass_c;
	double molar_c;
	double cubic_c;
	double mean_c; /* MeABP */
	double slope_c_per_pct;
};

/*
 * bc_average_boiling_from_d86 - the five average boiling points of a petroleum fraction
 *
 * Given     d86_c  D86 at 10 30 50 70 90 % recovered [degC]
 * Returned  average, temperatures [degC] that count as true (they feed true-temperature formulae)
 *           and the slope (T90 - T10)/80 [degC per %]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, T90 <= T10, or a volume average of 0 degC or below
 * Notes     1. worked in degF as the source is; the kelvin set agrees within 0.001 degC
 * Source    API Technical Data Book procedure 2B1.1 (Zhou 1984); the mean average seen in a worked
 *           example, the others from memory
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_average_boiling_from_d86(
	const double d86_c[5], struct bc_average_boiling *average);

/*
 * bc_watson_k - Watson characterisation factor (1.8 T)^(1/3)/SG
 *
 * Given     mean_average_c  mean average boiling point [degC]; sg 60/60 degF
 * Returned  watson_k [-]; NaN on failure
 * Status    BC_BAD_DOMAIN   not finite, below absolute zero, or sg <= 0
 * Source    Watson & Nelson 1933, definition
 * Checks    tests/outside/fuel.chk
 */
enum bc_status bc_watson_k(double mean_average_c, double sg, double *watson_k);

#endif
