/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The figures of every draw, column by column. */
#include "judgement/spread_table.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/random.h"

/* A property and basis that some limit names. */
struct named {
	const char *property;
	const char *basis;
};

struct bc_draws {
	size_t draws;
	double *value; /* figures after one another, each with all its draws */
	double *scratch;
	struct named *named;
	size_t n_named;
};

static bool is_named(const struct bc_draws *table, const struct bc_limit *limit, size_t *at)
{
	for (*at = 0; *at < table->n_named; (*at)++)
		if (strcmp(table->named[*at].property, limit->property) == 0 &&
			strcmp(table->named[*at].basis, limit->basis) == 0)
			return true;
	return false;
}

static void collect_names(const struct bc_limits *limits, struct bc_draws *table)
{
	for (size_t i = 0; i < limits->n; i++) {
		const struct bc_limit *limit = &limits->items[i];
		size_t at;
		if (limit->in_force && !is_named(table, limit, &at))
			table->named[table->n_named++] =
				(struct named){limit->property, limit->basis};
	}
}

enum bc_status bc_draws_new(size_t draws, const struct bc_limits *limits, struct bc_draws **table)
{
	struct bc_draws *new_table = bc_alloc(sizeof *new_table);
	*table = NULL;
	if (!new_table)
		return BC_NO_MEMORY;
	new_table->draws = draws;
	new_table->named = bc_alloc_array(limits->n, sizeof *new_table->named);
	if (new_table->named)
		collect_names(limits, new_table);
	size_t figures = BC_FIGURES + new_table->n_named;
	new_table->value = bc_alloc_array(figures * draws, sizeof *new_table->value);
	new_table->scratch = bc_alloc_array(draws, sizeof *new_table->scratch);
	if (!new_table->named || !new_table->value || !new_table->scratch) {
		bc_draws_free(new_table);
		return BC_NO_MEMORY;
	}
	*table = new_table;
	return BC_OK;
}

void bc_draws_free(struct bc_draws *table)
{
	if (!table)
		return;
	bc_free(table->named);
	bc_free(table->value);
	bc_free(table->scratch);
	bc_free(table);
}

void bc_draws_set(struct bc_draws *table, size_t figure, size_t draw, double value)
{
	table->value[figure * table->draws + draw] = value;
}

void bc_draws_lose(struct bc_draws *table, size_t draw)
{
	for (size_t figure = 0; figure < BC_FIGURES + table->n_named; figure++)
		bc_draws_set(table, figure, draw, NAN);
}

void bc_draws_hold(struct bc_draws *table, size_t draw, const struct bc_evidence *evidence)
{
	for (size_t i = 0; i < table->n_named; i++) {
		struct bc_estimate value = bc_evidence_value(
			evidence, table->named[i].property, table->named[i].basis);
		bc_draws_set(table, BC_FIGURES + i, draw, value.value);
	}
}

void bc_draws_bounds(struct bc_draws *table, size_t figure, double *low, double *high)
{
	memcpy(table->scratch, table->value + figure * table->draws,
		table->draws * sizeof *table->scratch);
	bc_spread_of(table->scratch, table->draws, low, high);
}

const double *bc_draws_of_limit(const struct bc_draws *table, const struct bc_limit *limit)
{
	size_t at;
	if (!is_named(table, limit, &at))
		return NULL;
	return table->value + (BC_FIGURES + at) * table->draws;
}

size_t bc_draws_count(const struct bc_draws *table) { return table->draws; }
