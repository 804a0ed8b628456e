/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BOOK_COMPARE_H
#define BC_BOOK_COMPARE_H

#include "base/estimate.h"
#include "book/record.h"
#include "curve/points.h"

/* How far apart two figures are. */
enum bc_apart {
	BC_APART_UNKNOWN, /* one of them is absent, or there is nothing to hold them against */
	BC_APART_WITHIN,  /* no farther than two boil-offs of one oil: repeatability */
	BC_APART_DOUBT,   /* farther, yet within what both figures leave open themselves */
	BC_APART_BEYOND   /* farther than either */
};

struct bc_compared {
	char key[BC_FIGURE_KEY_SIZE];
	struct bc_estimate a;
	struct bc_estimate b;
	double difference;    /* b - a */
	double repeatability; /* of the standard test; NaN: none for this figure */
	double own;           /* 95 % of the difference by the bounds of both; NaN: no bounds */
	enum bc_apart apart;
};

struct bc_compared_side {
	long long batch;
	long long number;
	char *name;
	char *day;
	char *feed;
};

/* Two batches beside each other, by their newest records. */
struct bc_comparison {
	struct bc_compared_side a;
	struct bc_compared_side b;
	struct bc_compared points[BC_POINTS];
	struct bc_compared *figures; /* the others that both have, by key */
	size_t n_figures;
	size_t capacity;
	size_t n_common; /* points that both have */
	size_t n_beyond;
	size_t n_doubt;
	double mean_c; /* difference over the points in common, b - a */
	size_t most;   /* the point with the greatest difference; BC_POINTS: none */
	char *words;   /* one or two sentences */
};

/*
 * bc_book_compare - two batches point by point
 *
 * Given     a, b   numbers of batches
 * Returned  *comparison   release it after any status; *missing, where BC_NOT_FOUND, the number
 * Status    BC_NOT_FOUND, BC_IO, BC_MALFORMED, BC_NO_MEMORY
 * Notes     1. repeatability is that of groups 2 to 4, manual, at the mean slope of both curves; a
 *              home rig repeats worse, so it is a floor
 *           2. own bounds count on the sides that face each other, as if independent
 * Source    ASTM D86-07b, precision; from memory (curve/precision_forms.h)
 * Checks    tests/unit/book/test_compare.c
 */
enum bc_status bc_book_compare(struct bc_book *book, long long a, long long b,
	struct bc_comparison *comparison, long long *missing);
void bc_comparison_release(struct bc_comparison *comparison);

#endif
