/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_LEARNING_H
#define BC_JUDGEMENT_LEARNING_H

#include <stddef.h>
#include <stdint.h>

#include "base/status.h"
#include "judgement/judgement.h"

/* Fewer pairs change nothing. */
#define BC_LEARNING_LEAST 3

/* An estimate and the closed cup that was measured on the same jar. */
struct bc_flash_pair {
	char *file;
	char *kind;        /* feed, apparatus, thermometer and still, as bc_learning_kind has it */
	uint64_t readings; /* which boil-off: two files of one count once */
	double estimate_c; /* by the vapour space, as if no cup had been measured */
	double measured_c;
};

/* A person's own cups. */
struct bc_learning {
	struct bc_flash_pair *pairs;
	size_t n;
	size_t capacity;
};

void bc_learning_init(struct bc_learning *learning);
void bc_learning_release(struct bc_learning *learning);

/*
 * bc_learning_add - the pair of a judged sample
 *
 * Given     judgement  made without bc_judge_options.learned
 * Returned  *why       NULL where a pair was added or the sample has no closed cup; else why its
 * cup teaches nothing: water, no claim without the cup (history, IBP, pot limit), a heavy oil, a
 * feed that is not named, the same boil-off again Status    BC_OK; BC_NO_MEMORY
 */
enum bc_status bc_learning_add(
	struct bc_learning *learning, const struct bc_judgement *judgement, const char **why);

/*
 * bc_flash_offset_from_residuals - what own cups say of the next estimate
 *
 * Given     residual_c    measured less estimated [degC], n of them
 *           half_width_c  of the method (95 %) [degC]
 * Returned  *offset: pairs, offset_c [degC], half_width_c (95 %) [degC]; zeroes on failure
 * Status    BC_TOO_FEW     fewer than BC_LEARNING_LEAST
 *           BC_BAD_DOMAIN  half_width_c not positive, or a residual that is not finite
 * Notes     1. of the variance of the method V = (half_width / 1.96)^2 three tenths are taken to be
 *              what all jars of one feed and still share, tau^2 = 0.3 V, the rest each jar's own.
 * That rest counts as four degrees of freedom beside the scatter of the cups: s^2 = (4 x 0.7 V +
 * sum (d - mean)^2) / (4 + n - 1). Then k = s^2 / tau^2, offset = n / (n + k) mean, half-width = t
 * s sqrt(1 + 1 / (n + k)), t the two-sided 95 % point of Student's t with 3 + n degrees of freedom
 *           2. the 0.3 and the four are judgement: between nine sources of measured oils less than
 * a tenth of the variance is shared, but no source is one still. Whatever the true share, 0 to 0.9,
 * simulated bounds hold 94.5 to 100 %; with a share of 0.9 six cups narrow them to three quarters
 * on average and 15 to half; three that scatter do not narrow them
 *           3. the cups' own error is in the scatter
 * Source    posterior of a normal mean with a normal prior, and predictive interval of one more;
 *           any textbook of statistics
 * Checks    tests/unit/judgement/test_learning.c
 */
enum bc_status bc_flash_offset_from_residuals(
	const double *residual_c, size_t n, double half_width_c, struct bc_flash_offset *offset);

/*
 * bc_learning_apply - own cups move and narrow the flash estimate of a judgement
 *
 * Pairs of the same kind and of another boil-off count, with weight one; others not at all. A pair
 * farther from the median than 1.5 half-widths of the method is told; it is left out where it would
 * raise the estimate and kept where it lowers it. The half-width is never below R/sqrt(2) of a
 * closed cup (fuel/measured.h). Only an estimate that has a low bound is moved: a measured flash
 * stays, and history, IBP or a hot pot that forbid a claim forbid it still. However late own cups
 * flash, the low bound rises no higher than the estimate without them, the flash by T10, or an open
 * cup. judgement->learned and ->assumed say what was done.
 */
enum bc_status bc_learning_apply(
	const struct bc_learning *learning, struct bc_judgement *judgement);

/* "polyethylene, flask, thermometer probe, still berta" in *kind, owned by the caller; NULL where
 * the feed names no plastic. BC_OK or BC_NO_MEMORY. */
enum bc_status bc_learning_kind(const struct bc_sample *sample, char **kind);

#endif
