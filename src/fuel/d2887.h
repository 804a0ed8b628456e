/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_D2887_H
#define BC_FUEL_D2887_H

#include "base/status.h"

/* Simulated distillation by gas chromatograph, percent by mass, and other curves from the D86. */

#define BC_D2887_TBP_POINTS 8
#define BC_D2887_D86_POINTS 7
extern const double bc_d2887_tbp_pct[BC_D2887_TBP_POINTS]; /* 5 10 30 50 70 90 95 100 */
extern const double bc_d2887_d86_pct[BC_D2887_D86_POINTS]; /* 0 10 30 50 70 90 100 */

/*
 * bc_tbp_from_d2887_c - simulated distillation to true boiling points, by differences from 50 %
 *
 * Given     d2887_c  [degC] at bc_d2887_tbp_pct, mass %, rising; NaN at an end: not measured
 * Returned  tbp_c    [degC] at the same percents by volume; NaN where not measured or on failure
 * Status    BC_BAD_DOMAIN  the 50 % point is not finite, or the points do not rise
 * Notes     1. mass percent on one side, volume percent on the other, as the source has it
 *           2. degF constants; those printed for degC are 1.8^(b - 1) times them
 * Source    API Technical Data Book procedure 3A3.1 (Daubert 1994); from memory
 * Checks    tests/outside/curves-of-others.chk
 */
enum bc_status bc_tbp_from_d2887_c(
	const double d2887_c[BC_D2887_TBP_POINTS], double tbp_c[BC_D2887_TBP_POINTS]);

/*
 * bc_d86_from_d2887_c - simulated distillation to the standard's flask, by differences from 50 %
 *
 * Given     d2887_c  [degC] at bc_d2887_d86_pct, mass %, rising; NaN at an end: not measured
 * Returned  d86_c    [degC] at the same percents by volume; NaN where not measured or on failure
 * Status    BC_BAD_DOMAIN  the 50 % point is not finite or not above 0 degF, or no rise
 * Notes     1. within 4.6 degC of the measured D86 of the handbook's naphtha
 * Source    API Technical Data Book procedure 3A3.2 (Daubert 1994); from memory
 * Checks    tests/outside/curves-of-others.chk
 */
enum bc_status bc_d86_from_d2887_c(
	const double d2887_c[BC_D2887_D86_POINTS], double d86_c[BC_D2887_D86_POINTS]);

/*
 * bc_d86_from_d2887_riazi_c - one point of simulated distillation to D86
 *
 * Given     pct       one of bc_d2887_d86_pct
 *           d2887_c   at that percent [degC]; d2887_10_c, d2887_50_c at 10 and 50 % [degC]
 * Returned  d86_c     [degC]; NaN on failure
 * Status    BC_BAD_DOMAIN  another percent, not finite, or at or below absolute zero
 * Notes     1. within 3.5 degC of the measured D86 of the handbook's naphtha
 * Source    Riazi & Daubert 1986, Riazi, ASTM MNL50 (2005); from memory, example as remembered
 * Checks    tests/outside/curves-of-others.chk
 */
enum bc_status bc_d86_from_d2887_riazi_c(
	double pct, double d2887_c, double d2887_10_c, double d2887_50_c, double *d86_c);

/*
 * bc_d86_from_tbp_daubert_c - the way back of bc_tbp_from_d86_daubert_c, step by step
 *
 * Given     tbp_c  [degC] at bc_tbp_point_pct (fuel/tbp.h), rising
 * Returned  d86_c  [degC] at the same percents; NaN on failure
 * Status    BC_BAD_DOMAIN  not finite, not rising, or 50 % at or below 0 degF
 * Source    API Technical Data Book procedure 3A1.1 (Daubert 1994), each step inverted
 * Checks    tests/outside/curves-of-others.chk
 */
enum bc_status bc_d86_from_tbp_daubert_c(const double tbp_c[7], double d86_c[7]);

/*
 * bc_efv_from_d86_c - equilibrium flash vaporization at 101.3 kPa from the D86
 *
 * Given     pct 0 10 30 50 70 90 100; d86_c [degC]; sg 60/60 degF
 * Returned  efv_c [degC]; NaN on failure
 * Status    BC_BAD_DOMAIN  another percent, not finite, or not positive
 * Source    Riazi & Daubert 1986, Riazi, ASTM MNL50 (2005), table 3.3; from memory
 * Checks    tests/outside/curves-of-others.chk
 */
enum bc_status bc_efv_from_d86_c(double pct, double d86_c, double sg, double *efv_c);

/*
 * bc_sg_from_tbp, bc_sg_from_efv - specific gravity guessed from a true-boiling or flash curve
 *
 * Given     t10_c, t50_c at 10 and 50 % of that curve [degC]
 * Returned  sg 60/60 degF; NaN on failure
 * Status    BC_BAD_DOMAIN  not finite, or at or below absolute zero
 * Notes     1. blind to what the oil is made of: bc_sg_from_d86 in fuel/density.h
 * Source    Riazi, ASTM MNL50 (2005), eq. (3.17); from memory
 * Checks    tests/outside/curves-of-others.chk
 */
enum bc_status bc_sg_from_tbp(double t10_c, double t50_c, double *sg);
enum bc_status bc_sg_from_efv(double t10_c, double t50_c, double *sg);

#endif
