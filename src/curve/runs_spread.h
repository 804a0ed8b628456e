/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_RUNS_SPREAD_H
#define BC_CURVE_RUNS_SPREAD_H

#include <stddef.h>

/* How well the mean of several runs of one oil is known, from the runs themselves. */
#define BC_RUNS_SPREAD_ROWS 13
struct bc_runs_spread {
	size_t runs;                              /* in the mean; 2 or more */
	size_t n;                                 /* rows, rising in percent */
	double pct[BC_RUNS_SPREAD_ROWS];          /* 0 is IBP, 100 is FBP */
	double half_width_c[BC_RUNS_SPREAD_ROWS]; /* 95 %, of the mean; without what runs share */
};

/* Half-width [degC] at a percent: straight between the rows, flat beyond them; 0 without rows. */
double bc_runs_spread_c(const struct bc_runs_spread *spread, double pct);

/*
 * bc_runs_half_width_c - 95 % half-width of a mean of n runs at one point
 *
 * Given     assumed_c  95 % half-width of one run, known before any was made [degC]
 *           sd_c       standard deviation between the runs, n - 1 in the denominator [degC]
 *           n          runs in the mean
 * Returned  t s / sqrt(n), s the two spreads joined by their degrees of freedom: the assumed one
 *           counts as 8, the other as n - 1; NaN for n == 0
 * Notes     1. a few runs alone would need t = 12.7 (n = 2): what is known of thermometers and
 *              receivers keeps its say, and loses it as runs are added
 * Source    an uncertainty good to 25 % counts as 8 degrees of freedom: JCGM 100:2008, G.4.2,
 *           from memory; pooled variance as in any textbook
 * Checks    tests/unit/curve/test_runs_spread.c
 */
double bc_runs_half_width_c(double assumed_c, double sd_c, size_t n);
/* The joined standard deviation s of one run alone [degC]; the sd of n == 1 has no say. */
double bc_runs_sigma_c(double assumed_c, double sd_c, size_t n);

#endif
