/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_SPREAD_TABLE_H
#define BC_JUDGEMENT_SPREAD_TABLE_H

#include <stddef.h>

#include "base/status.h"
#include "curve/points.h"
#include "fuel/properties.h"
#include "fuel/shares.h"
#include "judgement/spread.h"
#include "verdict/grade.h"
#include "verdict/limits.h"

/* The figures of a draw, in this order; behind them one for each limited property. */
enum bc_figure {
	BC_FIGURE_POINT = 0,
	BC_FIGURE_EVAPORATED_POINT = BC_FIGURE_POINT + BC_POINTS,
	BC_FIGURE_EVAPORATED_AT = BC_FIGURE_EVAPORATED_POINT + BC_EVAPORATED_POINTS,
	BC_FIGURE_RECOVERED_AT = BC_FIGURE_EVAPORATED_AT + BC_EVAPORATED_AT,
	BC_FIGURE_SHARE = BC_FIGURE_RECOVERED_AT + BC_RECOVERED_AT,
	BC_FIGURE_PROPERTY = BC_FIGURE_SHARE + BC_SHARES,
	BC_FIGURE_BAND = BC_FIGURE_PROPERTY + BC_PROPERTIES,
	BC_FIGURES = BC_FIGURE_BAND + BC_BAND_POINTS
};

/* All figures of all draws, and those of every property and basis that the limits name. */
struct bc_draws;
enum bc_status bc_draws_new(size_t draws, const struct bc_limits *limits, struct bc_draws **table);
void bc_draws_free(struct bc_draws *table);

void bc_draws_set(struct bc_draws *table, size_t figure, size_t draw, double value);
/* A draw that gave nothing: all its figures are NaN. */
void bc_draws_lose(struct bc_draws *table, size_t draw);
/* The limited properties of a draw. */
void bc_draws_hold(struct bc_draws *table, size_t draw, const struct bc_evidence *evidence);

/* 2.5 and 97.5 percentiles of a figure; NaN when fewer than half of the draws have it. */
void bc_draws_bounds(struct bc_draws *table, size_t figure, double *low, double *high);

/* The figures (one a draw) that a limit is held against. */
const double *bc_draws_of_limit(const struct bc_draws *table, const struct bc_limit *limit);
size_t bc_draws_count(const struct bc_draws *table);

#endif
