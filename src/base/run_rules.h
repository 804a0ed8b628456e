/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_RUN_RULES_H
#define BC_BASE_RUN_RULES_H

#include <stdbool.h>
#include <stddef.h>

#include "base/individuals.h"
#include "base/status.h"

/* What on a chart of individual values is hardly chance. */
enum bc_run_rule {
	BC_RULE_BEYOND, /* a value beyond the limits */
	BC_RULE_JUMP,   /* a moving range beyond its limit */
	BC_RULE_SIDE,   /* so many in a row on one side of the centre line */
	BC_RULE_RISE,   /* so many in a row steadily rising or steadily falling */
	BC_RULE_ZIGZAG, /* 14 in a row up and down by turns */
	BC_RULE_FAR,    /* two of three beyond two sigma on one side */
	BC_RULE_OFF,    /* four of five beyond one sigma on one side */
	BC_RULE_QUIET,  /* 15 in a row within one sigma */
	BC_RULE_SPLIT,  /* eight in a row beyond one sigma, on both sides */
	BC_RUN_RULES
};
extern const char *const bc_run_rule_names[BC_RUN_RULES]; /* "beyond", "jump", ... */

/* Which rules are looked for, and how long a run is one. */
struct bc_run_rules {
	bool on[BC_RUN_RULES];
	size_t side; /* points in a row on one side */
	size_t rise; /* points in a row that rise, the first among them */
};

/*
 * The customary choices, the lengths of runs among them:
 *
 * limits  beyond, jump: both charts of ISO 7870-2
 * runs    beyond, seven on one side, seven rising: ISO 7870-2:2013, from memory
 * zones   beyond, far, off, eight on one side: the zone tests of a handbook of 1956, seen in a
 *         public copy
 * all     every rule, nine on one side, six rising: ISO 8258:1991 and a paper of 1984, widely
 * printed
 *
 * The range of neighbours leaves its limit by chance once in some 120 points, three times as often
 * as a value does: runs, which is taken when nothing is asked for, leaves it out.
 */
struct bc_run_set {
	const char *name;
	struct bc_run_rules rules;
	double once_in; /* points until the first find by chance alone, on average, with known
			   limits */
};
#define BC_RUN_SETS 4
#define BC_RUN_SET_USUAL "runs"
extern const struct bc_run_set bc_run_sets[BC_RUN_SETS];

/* once_in of these rules where they are a set, else NaN. Source: zones, Champ and Woodall 1987; the
 * others simulated (tests/unit/base/test_run_rules.c). */
double bc_run_rules_once_in(const struct bc_run_rules *rules);

/* The set so called, or the rules of a list such as "beyond,side" with the lengths of "all". False
 * where a word is neither. */
bool bc_run_rules_parse(const char *words, struct bc_run_rules *rules);

/* Points of a chart that break a rule together: from first to last, both counted from 0. For a rule
 * of several points first is the first of them; overlapping finds of one rule are one stretch. */
struct bc_run_stretch {
	enum bc_run_rule rule;
	size_t first;
	size_t last;
	int side; /* 1: above, or rising; -1: below, or falling; 0: neither */
};

struct bc_run_stretches {
	struct bc_run_stretch *items; /* by rule, then by place */
	size_t n;
	size_t capacity;
};

/*
 * bc_run_stretches_find - where values break the rules against a chart
 *
 * Given     values [any unit], n; chart with finite limits; rules
 * Returned  *found; release it after any status
 * Status    BC_BAD_DOMAIN  a value or the chart is not finite; BC_NO_MEMORY
 * Notes     1. a value on a line is not beyond it, and ends a run on one side; within a billionth
 *              of the size of the figures a value counts as on the line
 * Source    the sets above
 * Checks    tests/unit/base/test_run_rules.c: the average run lengths of Champ and Woodall
 *           (Technometrics 29, 1987; from memory)
 */
enum bc_status bc_run_stretches_find(const double *values, size_t n,
	const struct bc_individuals *chart, const struct bc_run_rules *rules,
	struct bc_run_stretches *found);
void bc_run_stretches_release(struct bc_run_stretches *found);

/*
 * bc_chart_doubt_frac - how uncertain sigma of a chart, and with it the width of its limits, is
 *
 * Given     n values that it was made from, 2 or more
 * Returned  half of the 95 % interval by sigma, 1.96 sqrt(0.8264 n - 1.082)/(n - 1); NaN for fewer
 * Status    BC_TOO_FEW  fewer than two
 * Source    Cryer and Ryan, Journal of Quality Technology 22, 1990; from memory, and recomputed by
 *           simulation for n of 8 to 50
 * Checks    tests/unit/base/test_run_rules.c
 */
enum bc_status bc_chart_doubt_frac(size_t n, double *doubt_frac);

#endif
