/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A figure of many batches over time: read, charted, and what is hardly chance said in words. */
#include "book/trend.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "book/statement.h"

/* ---- reading */

static const char trend_sql[] =
	"SELECT r.batch, r.day, ifnull(r.name, r.file), r.feed, r.still, f.value, f.low, f.high "
	"FROM figure f JOIN revision r ON r.id = f.revision WHERE f.key = ?1 "
	"AND NOT EXISTS (SELECT 1 FROM revision n WHERE n.batch = r.batch AND n.number > r.number) "
	"AND (?2 IS NULL OR r.day >= ?2) AND (?3 IS NULL OR r.day <= ?3) "
	"AND (?4 IS NULL OR instr(lower(r.feed), lower(?4)) > 0) "
	"AND (?5 IS NULL OR lower(r.still) = lower(?5)) "
	"AND (?6 IS NULL OR lower(r.name) = lower(?6)) ORDER BY r.day, r.batch";

/* A further point, zeroed; NULL without memory. */
static struct bc_trend_point *new_point(struct bc_trend *trend)
{
	void *points = trend->points;
	if (trend->n == trend->capacity) {
		size_t wanted = trend->capacity < 8 ? 8 : 2 * trend->capacity;
		double *values = bc_realloc_array(trend->values, wanted, sizeof *values);
		if (values == NULL)
			return NULL;
		trend->values = values;
	}
	if (bc_grow(&points, trend->n, &trend->capacity, sizeof *trend->points) != 0)
		return NULL;
	trend->points = points;
	trend->points[trend->n] = (struct bc_trend_point){0};
	return &trend->points[trend->n++];
}

static enum bc_status take_point(struct bc_statement *statement, struct bc_trend *trend)
{
	struct bc_trend_point *point = new_point(trend);
	if (point == NULL)
		return BC_NO_MEMORY;
	point->batch = bc_get_integer(statement, 0);
	bc_get_text(statement, 1, &point->day);
	bc_get_text(statement, 2, &point->name);
	bc_get_text(statement, 3, &point->feed);
	bc_get_text(statement, 4, &point->still);
	point->value = bc_get_number(statement, 5);
	point->low = bc_get_number(statement, 6);
	point->high = bc_get_number(statement, 7);
	trend->values[trend->n - 1] = point->value;
	return BC_OK;
}

static enum bc_status read_points(struct bc_book *book, struct bc_trend *trend)
{
	const struct bc_trend_request *request = &trend->request;
	struct bc_statement statement;
	enum bc_status taken = BC_OK;
	bc_statement_open(&statement, book, trend_sql);
	bc_put_text(&statement, request->key);
	bc_put_text(&statement, request->from);
	bc_put_text(&statement, request->until);
	bc_put_text(&statement, request->feed);
	bc_put_text(&statement, request->still);
	bc_put_text(&statement, request->sample);
	while (!bc_failed(taken) && bc_statement_row(&statement))
		taken = take_point(&statement, trend);
	enum bc_status status = bc_statement_close(&statement);
	return bc_failed(status) ? status : taken;
}

static enum bc_status check_key(struct bc_book *book, const char *key)
{
	struct bc_statement statement;
	bc_statement_open(&statement, book, "SELECT 1 FROM figure WHERE key = ? LIMIT 1");
	bc_put_text(&statement, key);
	bool found = bc_statement_row(&statement);
	enum bc_status status = bc_statement_close(&statement);
	return !bc_failed(status) && !found ? BC_NOT_FOUND : status;
}

/* one look into the index for each key, not one for each figure */
static const char keys_sql[] = "WITH RECURSIVE k(key) AS (SELECT min(key) FROM figure UNION ALL "
			       "SELECT (SELECT min(key) FROM figure f WHERE f.key > k.key) FROM k "
			       "WHERE k.key IS NOT NULL) SELECT key FROM k WHERE key IS NOT NULL";

enum bc_status bc_book_figure_keys(struct bc_book *book, struct bc_strings *keys)
{
	struct bc_statement statement;
	bc_strings_init(keys);
	bc_statement_open(&statement, book, keys_sql);
	while (bc_statement_row(&statement)) {
		char *key = NULL;
		bc_get_text(&statement, 0, &key);
		if (key != NULL)
			bc_strings_add(keys, "%s", key);
		bc_free(key);
	}
	enum bc_status status = bc_statement_close(&statement);
	return !bc_failed(status) && keys->failed ? BC_NO_MEMORY : status;
}

/* ---- feeds and stills */

static bool same(const char *a, const char *b)
{
	return a == NULL || b == NULL ? a == b : bc_text_equal_nocase(a, b);
}

/* Groups beyond so many differ only by how they were written down. */
#define GROUPS_MOST 64

static enum bc_status count_in(
	struct bc_trend_groups *groups, const char *name, const struct bc_trend_point *point)
{
	struct bc_trend_group *group = NULL;
	for (size_t i = 0; i < groups->n && group == NULL; i++) {
		if (same(groups->items[i].name, name))
			group = &groups->items[i];
	}
	if (group == NULL && groups->n == GROUPS_MOST)
		return BC_OK;
	if (group == NULL) {
		void *items = groups->items;
		char *copy = name != NULL ? bc_strdup(name) : NULL;
		if ((name != NULL && copy == NULL) ||
			bc_grow(&items, groups->n, &groups->capacity, sizeof *groups->items) != 0) {
			bc_free(copy);
			return BC_NO_MEMORY;
		}
		groups->items = items;
		group = &groups->items[groups->n++];
		*group = (struct bc_trend_group){.name = copy};
	}
	group->n++;
	group->signals += point->signal ? 1 : 0;
	group->mean += (point->value - group->mean) / (double)group->n;
	return BC_OK;
}

static int larger_first(const void *a, const void *b)
{
	const struct bc_trend_group *left = a;
	const struct bc_trend_group *right = b;
	if (left->n != right->n)
		return left->n < right->n ? 1 : -1;
	if (left->name == NULL || right->name == NULL)
		return (left->name == NULL) - (right->name == NULL);
	return strcmp(left->name, right->name);
}

static enum bc_status make_groups(struct bc_trend *trend)
{
	enum bc_status status = BC_OK;
	for (size_t i = 0; i < trend->n && !bc_failed(status); i++) {
		const struct bc_trend_point *point = &trend->points[i];
		status = count_in(&trend->feeds, point->feed, point);
		if (!bc_failed(status))
			status = count_in(&trend->stills, point->still, point);
	}
	if (trend->feeds.n > 1)
		qsort(trend->feeds.items, trend->feeds.n, sizeof *trend->feeds.items, larger_first);
	if (trend->stills.n > 1)
		qsort(trend->stills.items, trend->stills.n, sizeof *trend->stills.items,
			larger_first);
	return status;
}

/* ---- in words */

/* "Batch 12 (2026-10-03)" or "Batches 12 to 19 (2026-10-03 to 2026-11-02, 8 in a row)" */
static void say_where(
	const struct bc_trend *trend, const struct bc_run_stretch *stretch, struct bc_text *text)
{
	const struct bc_trend_point *first = &trend->points[stretch->first];
	const struct bc_trend_point *last = &trend->points[stretch->last];
	if (stretch->first == stretch->last)
		bc_text_printf(text, "Batch %lld (%s)", first->batch, first->day);
	else
		bc_text_printf(text, "Batches %lld to %lld (%s to %s, %zu of them)", first->batch,
			last->batch, first->day, last->day, stretch->last - stretch->first + 1);
}

static void say_what(
	const struct bc_trend *trend, const struct bc_run_stretch *stretch, struct bc_text *text)
{
	const struct bc_individuals *chart = &trend->chart;
	bool one = stretch->first == stretch->last;
	bool up = stretch->side > 0;
	double value = trend->values[stretch->first];
	switch (stretch->rule) {
	case BC_RULE_BEYOND:
		bc_text_printf(text, "%s %s the %s limit %.5g", one ? "lies" : "lie",
			up ? "above" : "below", up ? "upper" : "lower",
			up ? chart->upper : chart->lower);
		if (one)
			bc_text_printf(text, " with %.5g", value);
		bc_text_append(text, ": something was different");
		break;
	case BC_RULE_JUMP:
		if (one)
			bc_text_printf(text,
				"differs by %.5g from the one before, more than the %.5g that "
				"chance explains",
				fabs(value - trend->values[stretch->first - 1]),
				chart->range_upper);
		else
			bc_text_printf(text,
				"differ each by more than %.5g from the one before: more than "
				"chance explains",
				chart->range_upper);
		break;
	case BC_RULE_SIDE:
		bc_text_printf(text, "all lie %s the centre line %.5g: the level has shifted %s",
			up ? "above" : "below", chart->mean, up ? "up" : "down");
		break;
	case BC_RULE_RISE:
		bc_text_printf(text, "%s each time: a drift", up ? "rise" : "fall");
		break;
	case BC_RULE_ZIGZAG:
		bc_text_append(text, "go up and down by turns: two causes may take turns, as two "
				     "feeds or two people");
		break;
	case BC_RULE_FAR:
		bc_text_printf(text, "lie mostly beyond two sigma, two of three %s %.5g",
			up ? "above" : "below", chart->mean + (up ? 2.0 : -2.0) * chart->sigma);
		break;
	case BC_RULE_OFF:
		bc_text_printf(text, "lie mostly beyond one sigma, four of five %s %.5g",
			up ? "above" : "below", chart->mean + (up ? 1.0 : -1.0) * chart->sigma);
		break;
	case BC_RULE_QUIET:
		bc_text_append(text, "all lie close to the centre line: the limits are too wide, "
				     "or figures were copied");
		break;
	case BC_RULE_SPLIT:
		bc_text_append(text, "lie on both sides and none near the centre line: two kinds "
				     "of batch may be mixed");
		break;
	case BC_RUN_RULES:
		break;
	}
}

static enum bc_status say_stretch(struct bc_trend *trend, const struct bc_run_stretch *stretch)
{
	struct bc_text text;
	bc_text_init(&text);
	say_where(trend, stretch, &text);
	bc_text_append(&text, " ");
	say_what(trend, stretch, &text);
	bc_text_append(&text, ".");
	if (!text.failed)
		bc_strings_add(&trend->words, "%s", text.data);
	bool failed = text.failed || trend->words.failed;
	bc_text_release(&text);
	return failed ? BC_NO_MEMORY : BC_OK;
}

/* ---- the chart */

static enum bc_status judge(struct bc_trend *trend)
{
	size_t wanted = trend->request.baseline;
	trend->baseline = wanted >= BC_TREND_LEAST && wanted < trend->n ? wanted : trend->n;
	trend->too_few = trend->n < BC_TREND_LEAST;
	trend->provisional = trend->baseline < BC_TREND_ENOUGH;
	if (trend->too_few)
		return BC_OK;
	bc_chart_doubt_frac(trend->baseline, &trend->doubt_frac);
	enum bc_status status = bc_individuals_chart(trend->values, trend->baseline, &trend->chart);
	if (!bc_failed(status))
		status = bc_run_stretches_find(trend->values, trend->n, &trend->chart,
			&trend->request.rules, &trend->found);
	for (size_t i = 0; i < trend->found.n && !bc_failed(status); i++) {
		const struct bc_run_stretch *stretch = &trend->found.items[i];
		for (size_t k = stretch->first; k <= stretch->last; k++)
			trend->points[k].signal = true;
		status = say_stretch(trend, stretch);
	}
	return status;
}

static void begin(const struct bc_trend_request *request, struct bc_trend *trend)
{
	*trend = (struct bc_trend){
		.request = *request, .doubt_frac = NAN, .chart = {NAN, NAN, NAN, NAN, NAN, NAN}};
	bc_strings_init(&trend->words);
}

enum bc_status bc_book_trend(
	struct bc_book *book, const struct bc_trend_request *request, struct bc_trend *trend)
{
	begin(request, trend);
	enum bc_status status = check_key(book, request->key);
	if (!bc_failed(status))
		status = read_points(book, trend);
	if (!bc_failed(status))
		status = judge(trend);
	if (!bc_failed(status))
		status = make_groups(trend);
	return status;
}

enum bc_status bc_trend_of_values(const double *values, size_t n,
	const struct bc_trend_request *request, struct bc_trend *trend)
{
	begin(request, trend);
	for (size_t i = 0; i < n; i++) {
		struct bc_trend_point *point = new_point(trend);
		if (point == NULL)
			return BC_NO_MEMORY;
		point->batch = (long long)i + 1;
		point->day = bc_strdup("-");
		point->name = bc_strdup("-");
		point->value = trend->values[i] = values[i];
		point->low = point->high = NAN;
		if (point->day == NULL || point->name == NULL)
			return BC_NO_MEMORY;
	}
	enum bc_status status = judge(trend);
	return bc_failed(status) ? status : make_groups(trend);
}

static void release_groups(struct bc_trend_groups *groups)
{
	for (size_t i = 0; i < groups->n; i++)
		bc_free(groups->items[i].name);
	bc_free(groups->items);
}

void bc_trend_release(struct bc_trend *trend)
{
	if (trend == NULL)
		return;
	for (size_t i = 0; i < trend->n; i++) {
		bc_free(trend->points[i].day);
		bc_free(trend->points[i].name);
		bc_free(trend->points[i].feed);
		bc_free(trend->points[i].still);
	}
	bc_free(trend->points);
	bc_free(trend->values);
	bc_run_stretches_release(&trend->found);
	release_groups(&trend->feeds);
	release_groups(&trend->stills);
	bc_strings_release(&trend->words);
	*trend = (struct bc_trend){0};
}
