/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two batches beside each other: how far apart, and whether that means anything. */
#include "book/compare.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "book/statement.h"
#include "curve/precision_forms.h"

/* ---- reading */

struct held {
	struct bc_figure *items;
	size_t n;
	size_t capacity;
};

/* by key, then revision: so that no other batch is read past */
static const char figures_sql[] =
	"WITH RECURSIVE k(key) AS (SELECT min(key) FROM figure UNION ALL "
	"SELECT (SELECT min(key) FROM figure g WHERE g.key > k.key) FROM k "
	"WHERE k.key IS NOT NULL) "
	"SELECT f.key, f.value, f.low, f.high FROM k JOIN figure f ON f.key = k.key "
	"WHERE f.revision = ? ORDER BY f.key";

static enum bc_status read_figures(struct bc_book *book, long long revision, struct held *held)
{
	struct bc_statement statement;
	bc_statement_open(&statement, book, figures_sql);
	bc_put_integer(&statement, revision);
	while (bc_statement_row(&statement)) {
		char *key = NULL;
		void *items = held->items;
		if (bc_grow(&items, held->n, &held->capacity, sizeof *held->items) != 0) {
			statement.status = BC_NO_MEMORY;
			break;
		}
		held->items = items;
		struct bc_figure *figure = &held->items[held->n++];
		*figure = (struct bc_figure){.value = bc_get_number(&statement, 1),
			.low = bc_get_number(&statement, 2),
			.high = bc_get_number(&statement, 3)};
		bc_get_text(&statement, 0, &key);
		if (key != NULL)
			memcpy(figure->key, key, strnlen(key, sizeof figure->key - 1));
		bc_free(key);
	}
	return bc_statement_close(&statement);
}

static enum bc_status read_side(
	struct bc_book *book, long long batch, struct bc_compared_side *side, struct held *held)
{
	struct bc_statement statement;
	long long revision = 0;
	side->batch = batch;
	enum bc_status status = bc_book_newest(book, batch, &side->number);
	if (bc_failed(status))
		return status;
	bc_statement_open(&statement, book,
		"SELECT id, ifnull(name, file), day, feed FROM revision "
		"WHERE batch = ? AND number = ?");
	bc_put_integer(&statement, batch);
	bc_put_integer(&statement, side->number);
	if (bc_statement_row(&statement)) {
		revision = bc_get_integer(&statement, 0);
		bc_get_text(&statement, 1, &side->name);
		bc_get_text(&statement, 2, &side->day);
		bc_get_text(&statement, 3, &side->feed);
	}
	status = bc_statement_close(&statement);
	return bc_failed(status) ? status : read_figures(book, revision, held);
}

/* ---- comparing */

static struct bc_estimate estimate_of(const struct held *held, const char *key)
{
	for (size_t i = 0; i < held->n; i++) {
		const struct bc_figure *figure = &held->items[i];
		if (strcmp(figure->key, key) == 0)
			return (struct bc_estimate){
				figure->value, figure->low, figure->high, BC_ESTIMATED};
	}
	return bc_estimate_absent();
}

/* The sides that face each other. */
static double own_bounds(const struct bc_estimate *a, const struct bc_estimate *b)
{
	const struct bc_estimate *lower = a->value <= b->value ? a : b;
	const struct bc_estimate *upper = lower == a ? b : a;
	return hypot(lower->high - lower->value, upper->value - upper->low);
}

static void compare(struct bc_compared *compared)
{
	compared->difference = compared->b.value - compared->a.value;
	compared->own = own_bounds(&compared->a, &compared->b);
	double size = fabs(compared->difference);
	bool anything = isfinite(compared->repeatability) || isfinite(compared->own);
	if (!isfinite(size) || !anything)
		compared->apart = BC_APART_UNKNOWN;
	else if (size <= compared->repeatability)
		compared->apart = BC_APART_WITHIN;
	else if (size <= compared->own)
		compared->apart =
			isfinite(compared->repeatability) ? BC_APART_DOUBT : BC_APART_WITHIN;
	else
		compared->apart = BC_APART_BEYOND;
}

/* Slope of one curve at a point, through the nearest points on both sides that it has. */
static double slope_at(const struct bc_comparison *comparison, size_t at, bool of_b)
{
	double from = NAN;
	double to = NAN;
	double from_pct = NAN;
	double to_pct = NAN;
	for (size_t i = 0; i < BC_POINTS; i++) {
		const struct bc_compared *point = &comparison->points[i];
		double value = of_b ? point->b.value : point->a.value;
		if (isnan(value))
			continue;
		if (i < at || (i == at && isnan(from))) {
			from = value;
			from_pct = bc_point_pct[i];
		}
		if (i > at || i == at) {
			to = value;
			to_pct = bc_point_pct[i];
		}
		if (i > at)
			break;
	}
	return to_pct > from_pct ? fmax(0.0, (to - from) / (to_pct - from_pct)) : (double)NAN;
}

static void compare_points(struct bc_comparison *comparison)
{
	double sum_c = 0.0;
	comparison->most = BC_POINTS;
	for (size_t i = 0; i < BC_POINTS; i++) {
		struct bc_compared *point = &comparison->points[i];
		double R_c = NAN;
		double slope =
			0.5 * (slope_at(comparison, i, false) + slope_at(comparison, i, true));
		bc_d86_precision_c(BC_PRECISION_24_MANUAL, bc_point_pct[i], slope,
			&point->repeatability, &R_c);
		compare(point);
		if (isnan(point->difference))
			continue;
		comparison->n_common++;
		comparison->n_beyond += point->apart == BC_APART_BEYOND ? 1 : 0;
		comparison->n_doubt += point->apart == BC_APART_DOUBT ? 1 : 0;
		sum_c += point->difference;
		if (comparison->most == BC_POINTS ||
			fabs(point->difference) >
				fabs(comparison->points[comparison->most].difference))
			comparison->most = i;
	}
	comparison->mean_c =
		comparison->n_common > 0 ? sum_c / (double)comparison->n_common : (double)NAN;
}

static bool is_point(const char *key)
{
	for (size_t i = 0; i < BC_POINTS; i++) {
		if (strcmp(bc_point_keys[i], key) == 0)
			return true;
	}
	return false;
}

static enum bc_status compare_figures(
	const struct held *a, const struct held *b, struct bc_comparison *comparison)
{
	for (size_t i = 0; i < a->n; i++) {
		const char *key = a->items[i].key;
		struct bc_estimate other = estimate_of(b, key);
		void *items = comparison->figures;
		if (is_point(key) || isnan(other.value))
			continue;
		if (bc_grow(&items, comparison->n_figures, &comparison->capacity,
			    sizeof *comparison->figures) != 0)
			return BC_NO_MEMORY;
		comparison->figures = items;
		struct bc_compared *figure = &comparison->figures[comparison->n_figures++];
		*figure = (struct bc_compared){
			.a = estimate_of(a, key), .b = other, .repeatability = NAN};
		memcpy(figure->key, key, sizeof figure->key);
		compare(figure);
	}
	return BC_OK;
}

/* ---- in words */

/* "at 50 %", "at the start", "at the end" */
static void say_place(size_t at, struct bc_text *text)
{
	if (at == BC_AT_IBP)
		bc_text_append(text, "at the start (IBP)");
	else if (at == BC_AT_FBP)
		bc_text_append(text, "at the end (FBP)");
	else
		bc_text_printf(text, "at %g %%", bc_point_pct[at]);
}

static void say_distance(const struct bc_comparison *comparison, struct bc_text *text)
{
	const struct bc_compared *most = &comparison->points[comparison->most];
	const double level_c = 0.05; /* less than that prints as nothing */
	if (fabs(most->difference) < level_c) {
		bc_text_printf(text, "Batch %lld boils as batch %lld does at every point. ",
			comparison->b.batch, comparison->a.batch);
		return;
	}
	if (fabs(comparison->mean_c) < level_c)
		bc_text_printf(text, "On average batch %lld boils as batch %lld does",
			comparison->b.batch, comparison->a.batch);
	else
		bc_text_printf(text, "Batch %lld boils %.1f degC %s than batch %lld on average",
			comparison->b.batch, fabs(comparison->mean_c),
			comparison->mean_c > 0.0 ? "higher" : "lower", comparison->a.batch);
	bc_text_printf(text, ", the most %+.1f ", most->difference);
	say_place(comparison->most, text);
	bc_text_append(text, ". ");
}

static enum bc_status say(struct bc_comparison *comparison)
{
	struct bc_text text;
	bc_text_init(&text);
	if (comparison->n_common == 0) {
		bc_text_append(&text, "The two curves have no point in common.");
	} else {
		say_distance(comparison, &text);
		if (comparison->n_beyond == 1)
			bc_text_append(&text,
				"At one point that is more than the test or the readings leave "
				"open: a slip of reading there, or two different oils.");
		else if (comparison->n_beyond > 1)
			bc_text_printf(&text,
				"At %zu of %zu points that is more than either the test or the "
				"readings leave open: two different oils.",
				comparison->n_beyond, comparison->n_common);
		else if (comparison->n_doubt > 0)
			bc_text_printf(&text,
				"At %zu of %zu points that is more than two boil-offs of one oil "
				"differ in a laboratory, yet no more than these readings leave open: "
				"they cannot be told apart.",
				comparison->n_doubt, comparison->n_common);
		else
			bc_text_append(&text, "Two boil-offs of one oil differ as much: nothing "
					      "tells them apart.");
	}
	bool failed = text.failed;
	comparison->words = bc_text_take(&text);
	return failed || comparison->words == NULL ? BC_NO_MEMORY : BC_OK;
}

enum bc_status bc_book_compare(struct bc_book *book, long long a, long long b,
	struct bc_comparison *comparison, long long *missing)
{
	struct held of_a = {0};
	struct held of_b = {0};
	*comparison = (struct bc_comparison){.mean_c = NAN, .most = BC_POINTS};
	*missing = a;
	enum bc_status status = read_side(book, a, &comparison->a, &of_a);
	if (bc_failed(status))
		goto done;
	*missing = b;
	status = read_side(book, b, &comparison->b, &of_b);
	if (bc_failed(status))
		goto done;
	for (size_t i = 0; i < BC_POINTS; i++) {
		struct bc_compared *point = &comparison->points[i];
		memcpy(point->key, bc_point_keys[i], strlen(bc_point_keys[i]) + 1);
		point->a = estimate_of(&of_a, point->key);
		point->b = estimate_of(&of_b, point->key);
	}
	compare_points(comparison);
	status = compare_figures(&of_a, &of_b, comparison);
	if (!bc_failed(status))
		status = say(comparison);
done:
	bc_free(of_a.items);
	bc_free(of_b.items);
	return status;
}

void bc_comparison_release(struct bc_comparison *comparison)
{
	if (comparison == NULL)
		return;
	struct bc_compared_side *sides[] = {&comparison->a, &comparison->b};
	for (size_t i = 0; i < 2; i++) {
		bc_free(sides[i]->name);
		bc_free(sides[i]->day);
		bc_free(sides[i]->feed);
	}
	bc_free(comparison->figures);
	bc_free(comparison->words);
	*comparison = (struct bc_comparison){0};
}
