/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BOOK_PAIRS_H
#define BC_BOOK_PAIRS_H

#include <stddef.h>

#include "book/book.h"
#include "book/record.h"

/* A re-run: the batch that was charged, and the one that came out. */
struct bc_pair {
	long long id;
	char *added;
	long long feed;
	long long product;
	char *still;  /* NULL: not said */
	double cut_c; /* head readings between which the product came over; NaN: not said */
	double until_c;
	char *plan; /* what 'tap --json' printed before the run; NULL: none, or in a list */
};

struct bc_pairs {
	struct bc_pair *items; /* in the order in which they came */
	size_t n;
	size_t capacity;
};

/*
 * bc_pair_add  - links two batches
 * bc_pair_read - one pair; bc_pair_list - all, or those of a still
 *
 * Given     pair  feed and product are two batches; id and added are not looked at
 *           still NULL: all; ASCII letters without case
 * Returned  *id; *pair, *pairs: released by the caller whatever the status
 * Status    BC_NOT_FOUND  there is no such batch or pair; BC_IO, BC_MALFORMED, BC_NO_MEMORY
 * Notes     1. what a pair says of the still is for whoever calibrates: bc_book_read gives the
 * bytes of both boil-offs, bc_book_still_add keeps what was learnt as a further version
 */
enum bc_status bc_pair_add(struct bc_book *book, const struct bc_pair *pair, long long *id);
enum bc_status bc_pair_read(struct bc_book *book, long long id, struct bc_pair *pair);
enum bc_status bc_pair_list(struct bc_book *book, const char *still, struct bc_pairs *pairs);
void bc_pair_release(struct bc_pair *pair);
void bc_pairs_release(struct bc_pairs *pairs);

/* Whether text is what 'tap --json' or 'judge --json' prints, with a product in it. */
bool bc_plan_valid(const char *text);

/* A figure of the product, as it was predicted and as it was measured; bounds are 95 % or NaN. */
struct bc_pair_figure {
	char key[BC_FIGURE_KEY_SIZE];
	double predicted;
	double predicted_low;
	double predicted_high;
	double measured;
	double low;
	double high;
	double difference; /* measured less predicted */
	bool apart;        /* both have bounds, and these do not touch */
};

enum bc_plan_source {
	BC_PLAN_NONE,
	BC_PLAN_KEPT,  /* kept with the pair */
	BC_PLAN_JUDGED /* the re-run that the judgement of the feed suggested */
};

struct bc_pair_comparison {
	enum bc_plan_source source;
	struct bc_pair_figure *items;
	size_t n;
	size_t capacity;
};

/*
 * bc_pair_compare - the product that was predicted against the one that was boiled off
 *
 * Given     pair of bc_pair_read
 * Returned  *comparison, to be released whatever the status: figures that both sides have
 * Status    BC_IO, BC_MALFORMED, BC_NO_MEMORY
 * Notes     1. the jar "product" of the plan, or its first; figures of the newest record of the
 * product
 *           2. product_pct is held against the balance of the feed, by volume of its oil
 */
enum bc_status bc_pair_compare(
	struct bc_book *book, const struct bc_pair *pair, struct bc_pair_comparison *comparison);
void bc_pair_comparison_release(struct bc_pair_comparison *comparison);

#endif
