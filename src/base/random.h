/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_RANDOM_H
#define BC_BASE_RANDOM_H

#include <stddef.h>

/*
 * Draws from the distributions of JCGM 101:2008, 6.4, by a generator whose sequence follows from
 * its seed alone (Mersenne twister MT19937, GSL): the same seed gives the same draws everywhere.
 */
struct bc_random;
struct bc_random *bc_random_new(unsigned long seed); /* NULL without memory */
void bc_random_free(struct bc_random *random);
/* From the beginning, as if new. */
void bc_random_restart(struct bc_random *random, unsigned long seed);

double bc_random_uniform(struct bc_random *random); /* 0 <= u < 1 */
double bc_random_normal(struct bc_random *random);  /* mean 0, standard deviation 1 */
double bc_random_rectangular(struct bc_random *random, double low, double high);
/* Symmetric triangle between low and high. */
double bc_random_triangular(struct bc_random *random, double low, double high);
/* Arc sine (U-shaped), as of a temperature that swings between low and high. */
double bc_random_arc_sine(struct bc_random *random, double low, double high);
/* Rectangular, each limit itself known to within -+ doubt only: 6.4.3.2, a trapezoid with curved
 * sides. */
double bc_random_curved_trapezoid(struct bc_random *random, double low, double high, double doubt);
/* Student's t with degrees of freedom. */
double bc_random_t(struct bc_random *random, double degrees);

/*
 * bc_random_strata - n standard normal draws, one from each n-th of the curve, in random order
 *
 * Returned  z[n]: as good as n draws of bc_random_normal, but percentiles of what rests on one such
 *           input alone hardly vary from seed to seed
 * Source    McKay, Beckman, Conover, Technometrics 21 (1979) 239: Latin hypercube; from memory
 */
void bc_random_strata(struct bc_random *random, double *z, size_t n);

/* Two halves of normal curves that meet at value, each side half of the draws, whose 95 % bounds
 * are low and high: a standard normal draw z carried to that scale. */
double bc_half_and_half(double z, double value, double low, double high);

/*
 * bc_spread_of - the 2.5 and 97.5 percentiles of draws
 *
 * Given     values, n of them, which are reordered; those that are not finite are left out
 * Returned  *low, *high: probabilistically symmetric 95 % interval, straight between order
 *           statistics; NaN when fewer than half are finite
 * Source    JCGM 101:2008, 7.7; from memory
 */
void bc_spread_of(double *values, size_t n, double *low, double *high);

/* The shortest interval that holds share (0..1) of n draws, which are reordered: JCGM 101:2008,
 * 5.3.4 and 7.7; from memory. */
void bc_shortest_interval(double *values, size_t n, double share, double *low, double *high);

#endif
