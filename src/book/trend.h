/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BOOK_TREND_H
#define BC_BOOK_TREND_H

#include <stdbool.h>
#include <stddef.h>

#include "base/individuals.h"
#include "base/run_rules.h"
#include "base/strings.h"
#include "book/book.h"

/* With fewer values than the first no limits are drawn; with fewer than the second they are said to
 * be provisional: common practice. */
#define BC_TREND_LEAST 5
#define BC_TREND_ENOUGH 20

/* Which figures, and how they are judged. NULL and 0: all, or the default. */
struct bc_trend_request {
	const char *key;  /* of a figure: "t50_c" */
	const char *from; /* first and last day, as 2026-10-03 */
	const char *until;
	const char *feed;       /* part of it; ASCII case does not matter */
	const char *still;      /* whole */
	const char *sample;     /* whole: a control sample goes by its name */
	size_t baseline;        /* limits from the first so many; 0: from all */
	const char *rules_name; /* as it was asked for */
	struct bc_run_rules rules;
};

struct bc_trend_point {
	long long batch;
	char *day;
	char *name; /* of the sample, else of the file */
	char *feed; /* may be NULL */
	char *still;
	double value;
	double low; /* 95 % bounds of the figure itself, NaN: none */
	double high;
	bool signal; /* part of a stretch */
};

/* What of one feed, or of one still, is in the trend. */
struct bc_trend_group {
	char *name; /* NULL: not stated */
	size_t n;
	size_t signals;
	double mean;
};
struct bc_trend_groups {
	struct bc_trend_group *items; /* largest first */
	size_t n;
	size_t capacity;
};

struct bc_trend {
	struct bc_trend_request request; /* the caller's texts */
	struct bc_trend_point *points;   /* by day, then batch; the newest record of each */
	double *values;                  /* the same */
	size_t n;
	size_t capacity;
	size_t baseline; /* points that the limits rest on */
	bool too_few;    /* no limits; chart is NaN and no rule was tried */
	bool provisional;
	double doubt_frac; /* of the width of the limits, 95 % */
	struct bc_individuals chart;
	struct bc_run_stretches found;
	struct bc_trend_groups feeds;
	struct bc_trend_groups stills;
	struct bc_strings words; /* one sentence for each stretch, in the order of found */
};

/*
 * bc_book_trend - a figure of many batches on a chart of individuals and moving ranges
 *
 * Given     request   its texts must outlive *trend
 * Returned  *trend    release it after any status
 * Status    BC_NOT_FOUND  no batch has such a figure at all
 *           BC_IO, BC_MALFORMED, BC_NO_MEMORY as bc_book_open
 * Notes     1. no batch in the selection is a trend of none, not a failure
 *           2. a baseline of fewer than BC_TREND_LEAST, or of more points than there are, is all
 *              points
 * Source    ISO 7870-2, chart of individuals; rules as in base/run_rules.h
 * Checks    tests/unit/book/test_trend.c, tests/outside/trend.c
 */
enum bc_status bc_book_trend(
	struct bc_book *book, const struct bc_trend_request *request, struct bc_trend *trend);
void bc_trend_release(struct bc_trend *trend);

/* A trend of values that stand in no book, in their order, the batches numbered from 1. */
enum bc_status bc_trend_of_values(const double *values, size_t n,
	const struct bc_trend_request *request, struct bc_trend *trend);

/* The keys that the book has figures of, in their order. Release keys after any status. */
enum bc_status bc_book_figure_keys(struct bc_book *book, struct bc_strings *keys);

#endif
