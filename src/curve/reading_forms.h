/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_READING_FORMS_H
#define BC_CURVE_READING_FORMS_H

#include "base/status.h"

/* The standard's corrections in their older units, and what goes with reading a curve. The forms
 * that the program works with are in curve/correction.h. */

/*
 * bc_sydney_young_mmhg_c, bc_sydney_young_mmhg_f - a reading carried to 760 mmHg
 *
 * Given     observed [degC or degF]; pressure_mmhg [mmHg], 375..825
 * Returned  observed + 0.00012 (760 - P)(273 + t) or (460 + t) [degC or degF]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside that pressure range, which the program sets
 *           BC_BAD_DOMAIN     not finite, pressure not positive, or below absolute zero
 * Notes     1. 0.1 degC from the kPa form after rounding at one point of the standard's example
 * Source    ASTM D86-12, calculation of the barometric correction, mmHg form; from memory
 * Checks    tests/outside/reading.chk
 */
enum bc_status bc_sydney_young_mmhg_c(double observed_c, double pressure_mmhg, double *corrected_c);
enum bc_status bc_sydney_young_mmhg_f(double observed_f, double pressure_mmhg, double *corrected_f);

/*
 * bc_loss_observed_pct - 100 less recovery less residue
 *
 * Given     recovery_pct, residue_pct [vol %], 0..100
 * Returned  loss_pct [vol %]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  negative: more came out than went in, value still computed
 *           BC_BAD_DOMAIN     not within 0..100
 * Source    ASTM D86-12, definitions; from memory
 * Checks    tests/outside/reading.chk
 */
enum bc_status bc_loss_observed_pct(double recovery_pct, double residue_pct, double *loss_pct);

/*
 * bc_loss_corrected_mmhg_pct - front-end loss carried to 760 mmHg
 *
 * Given     loss_pct [vol %], 0..20; pressure_mmhg [mmHg], 525..819
 * Returned  corrected_pct = 0.5 + (L - 0.5)/(1 + (760 - P)/60.0) [vol %]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside those ranges, value still computed
 *           BC_BAD_DOMAIN     a denominator that is not positive, or loss outside 0..100
 * Source    ASTM D86-12, corrected loss, mmHg form; from memory
 * Checks    tests/outside/reading.chk
 */
enum bc_status bc_loss_corrected_mmhg_pct(
	double loss_pct, double pressure_mmhg, double *corrected_pct);

/*
 * bc_loss_constant_a, bc_loss_constant_b - the older form Lc = A L + B
 *
 * Given     pressure_mmhg [mmHg], 560..760
 * Returned  A = 1/(1 + (760 - P)/60), B = 0.5 - 0.5 A [-]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  outside that range, value still computed
 *           BC_BAD_DOMAIN     a denominator that is not positive
 * Source    ASTM D86-95, table of constants; from memory
 * Checks    tests/outside/reading.chk
 */
enum bc_status bc_loss_constant_a(double pressure_mmhg, double *a);
enum bc_status bc_loss_constant_b(double pressure_mmhg, double *b);

/*
 * bc_evaporated_at_temp_pct - percent evaporated at a temperature, by straight line
 *
 * Given     temp_c [degC]; loss_pct observed loss [vol %]; low and high: readings around it,
 *           percent recovered and corrected degC
 * Returned  evaporated_pct [vol %]; NaN on failure
 * Status    BC_OUTSIDE_RANGE  temp_c not between the readings, value still computed
 *           BC_BAD_DOMAIN     not finite, high_c <= low_c, or loss outside 0..100
 * Source    ASTM D86-12, percent evaporated is percent recovered plus observed loss; from memory
 * Checks    tests/outside/reading.chk
 */
enum bc_status bc_evaporated_at_temp_pct(double temp_c, double loss_pct, double low_pct,
	double low_c, double high_pct, double high_c, double *evaporated_pct);

/*
 * bc_stem_general - thread outside the bath, any glass, any liquid, either scale
 *
 * Given     per_degree of the liquid in its glass [1/degC or 1/degF]; thread_degrees outside;
 *           reading; stem mean temperature of the thread [same scale]
 * Returned  correction = k n (T - t) [same scale]; NaN on failure
 * Status    BC_BAD_DOMAIN     not finite, or negative k or n
 * Notes     1. mercury 0.00016 or 0.000154 per degC, 0.000085 per degF; organic liquids about 0.001
 * Source    handbook form; the mercury constants seen in public copies, organic: NBS Monograph 150,
 *           from memory
 * Checks    tests/outside/reading.chk
 */
enum bc_status bc_stem_general(
	double per_degree, double thread_degrees, double reading, double stem, double *correction);

#define BC_SLOPE_POINTS 13
extern const double bc_slope_point_pct[BC_SLOPE_POINTS]; /* IBP 0, 5 10 20 ... 90 95, EP 100 */

/*
 * bc_d86_slope_c_per_pct - rate of the curve at a point, as the precision tables want it
 *
 * Given     pct one of bc_slope_point_pct; temp_c [degC] there; end_pct percent at EP [vol %]
 * Returned  slope = (TU - TL)/(VU - VL) [degC/%], the points of the standard's table; NaN on
 * failure Status    BC_BAD_DOMAIN     another percent, a temperature it needs is missing, or EP not
 * above the point before Notes     1. IBP, 5: from IBP to 5 and 10; 10 to 80: ten percent to either
 * side; 90 and 95: ten and five below
 *           2. GOST 2177-82 takes other intervals: 10 % inside 10-90, 5 % outside
 * Source    ASTM D86-04b/07b, slope table; from memory
 * Checks    tests/outside/reading.chk
 */
enum bc_status bc_d86_slope_c_per_pct(
	double pct, const double temp_c[BC_SLOPE_POINTS], double end_pct, double *slope_c_per_pct);

/*
 * bc_riazi_temp_k, bc_riazi_mean_k - the three-parameter distribution and its mean
 *
 * Given     t0_k [K], a, b [-] above 0; frac 0..1 below 1
 * Returned  temp_k = T0 (1 + ((A/B) ln(1/(1 - x)))^(1/B)) or its mean [K]; NaN on failure
 * Status    BC_BAD_DOMAIN     not finite, or not positive
 * Source    Riazi, ASTM MNL50 (2005), pages 152 and 174; seen in a public copy
 * Checks    tests/outside/reading.chk
 */
enum bc_status bc_riazi_temp_k(double t0_k, double a, double b, double frac, double *temp_k);
enum bc_status bc_riazi_mean_k(double t0_k, double a, double b, double *temp_k);

#endif
