/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Re-runs: which batch became which, and what had been expected of it. */
#include "book/pairs.h"

#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "book/balance.h"
#include "book/statement.h"

/* ---- kept */

static enum bc_status insert(struct bc_book *book, const struct bc_pair *pair)
{
	struct bc_statement statement;
	char now[BC_TIME_SIZE];
	bc_book_now(now);
	bc_statement_open(&statement, book,
		"INSERT INTO pair (added, feed, product, still, cut_c, until_c, plan) "
		"VALUES (?, ?, ?, ?, ?, ?, ?)");
	bc_put_text(&statement, now);
	bc_put_integer(&statement, pair->feed);
	bc_put_integer(&statement, pair->product);
	bc_put_text(&statement, pair->still);
	bc_put_number(&statement, pair->cut_c);
	bc_put_number(&statement, pair->until_c);
	bc_put_text(&statement, pair->plan);
	return bc_statement_close(&statement);
}

enum bc_status bc_pair_add(struct bc_book *book, const struct bc_pair *pair, long long *id)
{
	long long newest = 0;
	enum bc_status status = bc_book_begin(book);
	if (bc_failed(status))
		return status;
	status = bc_book_newest(book, pair->feed, &newest);
	if (!bc_failed(status))
		status = bc_book_newest(book, pair->product, &newest);
	if (!bc_failed(status))
		status = insert(book, pair);
	*id = sqlite3_last_insert_rowid(book->db);
	return bc_book_end(book, status);
}

static void take(struct bc_statement *statement, struct bc_pair *pair)
{
	pair->id = bc_get_integer(statement, 0);
	bc_get_text(statement, 1, &pair->added);
	pair->feed = bc_get_integer(statement, 2);
	pair->product = bc_get_integer(statement, 3);
	bc_get_text(statement, 4, &pair->still);
	pair->cut_c = bc_get_number(statement, 5);
	pair->until_c = bc_get_number(statement, 6);
	bc_get_text(statement, 7, &pair->plan);
}

enum bc_status bc_pair_read(struct bc_book *book, long long id, struct bc_pair *pair)
{
	struct bc_statement statement;
	bool found = false;
	*pair = (struct bc_pair){0};
	bc_statement_open(&statement, book,
		"SELECT id, added, feed, product, still, cut_c, until_c, plan FROM pair WHERE id = ?");
	bc_put_integer(&statement, id);
	if (bc_statement_row(&statement)) {
		found = true;
		take(&statement, pair);
	}
	enum bc_status status = bc_statement_close(&statement);
	return !bc_failed(status) && !found ? BC_NOT_FOUND : status;
}

enum bc_status bc_pair_list(struct bc_book *book, const char *still, struct bc_pairs *pairs)
{
	struct bc_statement statement;
	enum bc_status status = BC_OK;
	*pairs = (struct bc_pairs){0};
	bc_statement_open(&statement, book,
		"SELECT id, added, feed, product, still, cut_c, until_c, NULL FROM pair "
		"WHERE ?1 IS NULL OR still = ?1 COLLATE NOCASE ORDER BY id");
	bc_put_text(&statement, still);
	while (!bc_failed(status) && bc_statement_row(&statement)) {
		if (bc_grow((void **)&pairs->items, pairs->n, &pairs->capacity,
			    sizeof *pairs->items) != 0) {
			status = BC_NO_MEMORY;
			break;
		}
		pairs->items[pairs->n] = (struct bc_pair){0};
		take(&statement, &pairs->items[pairs->n++]);
	}
	enum bc_status closed = bc_statement_close(&statement);
	return bc_failed(status) ? status : closed;
}

void bc_pair_release(struct bc_pair *pair)
{
	if (pair == NULL)
		return;
	bc_free(pair->added);
	bc_free(pair->still);
	bc_free(pair->plan);
	*pair = (struct bc_pair){0};
}

void bc_pairs_release(struct bc_pairs *pairs)
{
	if (pairs == NULL)
		return;
	for (size_t i = 0; i < pairs->n; i++)
		bc_pair_release(&pairs->items[i]);
	bc_free(pairs->items);
	*pairs = (struct bc_pairs){0};
}

/* ---- what a plan expects */

static const json_t *product_jar(const json_t *plan)
{
	const json_t *jars = json_object_get(plan, "jars");
	const json_t *first = NULL;
	for (size_t i = 0; i < json_array_size(jars); i++) {
		const json_t *jar = json_array_get(jars, i);
		const char *name = json_string_value(json_object_get(jar, "jar"));
		if (name != NULL && strcmp(name, "product") == 0)
			return jar;
		if (name != NULL && strncmp(name, "product", strlen("product")) == 0 &&
			first == NULL)
			first = jar;
	}
	return first;
}

static const json_t *rerun_product(const json_t *plan)
{
	return json_object_get(json_object_get(plan, "rerun"), "product");
}

bool bc_plan_valid(const char *text)
{
	json_t *plan = json_loads(text, 0, NULL);
	bool valid = json_is_object(product_jar(plan)) || json_is_object(rerun_product(plan));
	json_decref(plan);
	return valid;
}

static double number_at(const json_t *object, const char *key)
{
	const json_t *value = json_object_get(object, key);
	return json_is_number(value) ? json_number_value(value) : (double)NAN;
}

static enum bc_status expect(struct bc_pair_comparison *comparison, const char *key, double value,
	double low, double high)
{
	if (!isfinite(value) || strlen(key) >= BC_FIGURE_KEY_SIZE)
		return BC_OK;
	if (bc_grow((void **)&comparison->items, comparison->n, &comparison->capacity,
		    sizeof *comparison->items) != 0)
		return BC_NO_MEMORY;
	struct bc_pair_figure *figure = &comparison->items[comparison->n++];
	*figure = (struct bc_pair_figure){.predicted = value,
		.predicted_low = low,
		.predicted_high = high,
		.measured = (double)NAN,
		.low = (double)NAN,
		.high = (double)NAN};
	snprintf(figure->key, sizeof figure->key, "%s", key);
	return BC_OK;
}

/* Numbers and {value, low, high} alike. */
static enum bc_status expect_all(
	struct bc_pair_comparison *comparison, const json_t *object, const char *but_for)
{
	const char *key;
	json_t *value;
	enum bc_status status = BC_OK;
	json_object_foreach((json_t *)object, key, value)
	{
		if (bc_failed(status) || (but_for != NULL && strcmp(key, but_for) == 0))
			continue;
		if (json_is_object(value))
			status = expect(comparison, key, number_at(value, "value"),
				number_at(value, "low"), number_at(value, "high"));
		else
			status = expect(
				comparison, key, number_at(object, key), (double)NAN, (double)NAN);
	}
	return status;
}

static enum bc_status expect_jar(struct bc_pair_comparison *comparison, const json_t *jar)
{
	enum bc_status status = expect(
		comparison, "product_pct", number_at(jar, "volume_pct"), (double)NAN, (double)NAN);
	if (!bc_failed(status))
		status = expect_all(comparison, json_object_get(jar, "points"), NULL);
	if (!bc_failed(status))
		status = expect_all(comparison, json_object_get(jar, "properties"), NULL);
	return status;
}

/* Of the re-run only the low bound of the flash is told. */
static enum bc_status expect_rerun(struct bc_pair_comparison *comparison, const json_t *rerun)
{
	const json_t *product = json_object_get(rerun, "product");
	enum bc_status status = expect(comparison, "product_pct", number_at(rerun, "product_pct"),
		(double)NAN, (double)NAN);
	if (!bc_failed(status))
		status = expect_all(comparison, product, "flash_low_c");
	for (size_t i = 0; i < comparison->n; i++) {
		if (strcmp(comparison->items[i].key, "flash_c") == 0)
			comparison->items[i].predicted_low = number_at(product, "flash_low_c");
	}
	return status;
}

static enum bc_status expect_from(
	struct bc_pair_comparison *comparison, const char *text, enum bc_plan_source source)
{
	json_error_t error;
	json_t *plan = json_loads(text, 0, &error);
	const json_t *jar = product_jar(plan);
	enum bc_status status = BC_OK;
	if (plan == NULL && json_error_code(&error) == json_error_out_of_memory)
		status = BC_NO_MEMORY;
	else if (jar != NULL)
		status = expect_jar(comparison, jar);
	else if (json_is_object(rerun_product(plan)))
		status = expect_rerun(comparison, json_object_get(plan, "rerun"));
	if (comparison->n > 0)
		comparison->source = source;
	json_decref(plan);
	return status;
}

/* ---- against what was boiled off */

static void measure(struct bc_pair_comparison *comparison, const char *key, double value,
	double low, double high)
{
	for (size_t i = 0; i < comparison->n; i++) {
		struct bc_pair_figure *figure = &comparison->items[i];
		if (strcmp(figure->key, key) != 0)
			continue;
		figure->measured = value;
		figure->low = low;
		figure->high = high;
		figure->difference = value - figure->predicted;
		figure->apart = figure->predicted_low > high || figure->predicted_high < low;
	}
}

static enum bc_status measure_figures(
	struct bc_book *book, long long batch, struct bc_pair_comparison *comparison)
{
	struct bc_statement statement;
	bc_statement_open(&statement, book,
		"SELECT key, value, low, high FROM figure WHERE revision = "
		"(SELECT id FROM revision WHERE batch = ? ORDER BY number DESC LIMIT 1)");
	bc_put_integer(&statement, batch);
	while (bc_statement_row(&statement)) {
		const char *key = (const char *)sqlite3_column_text(statement.handle, 0);
		if (key != NULL)
			measure(comparison, key, bc_get_number(&statement, 1),
				bc_get_number(&statement, 2), bc_get_number(&statement, 3));
	}
	return bc_statement_close(&statement);
}

static enum bc_status measure_yield(
	struct bc_book *book, long long feed, struct bc_pair_comparison *comparison)
{
	struct bc_balance balance;
	enum bc_status status = bc_balance_read(book, feed, &balance);
	if (!bc_failed(status))
		measure(comparison, "product_pct", balance.product_pct, (double)NAN, (double)NAN);
	bc_balance_release(&balance);
	return status;
}

static void keep_measured(struct bc_pair_comparison *comparison)
{
	size_t kept = 0;
	for (size_t i = 0; i < comparison->n; i++) {
		if (isfinite(comparison->items[i].measured))
			comparison->items[kept++] = comparison->items[i];
	}
	comparison->n = kept;
}

enum bc_status bc_pair_compare(
	struct bc_book *book, const struct bc_pair *pair, struct bc_pair_comparison *comparison)
{
	struct bc_record feed = {0};
	enum bc_status status = BC_OK;
	*comparison = (struct bc_pair_comparison){0};
	if (pair->plan != NULL)
		status = expect_from(comparison, pair->plan, BC_PLAN_KEPT);
	if (!bc_failed(status) && comparison->n == 0)
		status = bc_book_read(book, pair->feed, 0, &feed);
	if (!bc_failed(status) && feed.judgement != NULL)
		status = expect_from(comparison, feed.judgement, BC_PLAN_JUDGED);
	if (!bc_failed(status))
		status = measure_figures(book, pair->product, comparison);
	if (!bc_failed(status))
		status = measure_yield(book, pair->feed, comparison);
	keep_measured(comparison);
	bc_record_release(&feed);
	return status;
}

void bc_pair_comparison_release(struct bc_pair_comparison *comparison)
{
	if (comparison == NULL)
		return;
	bc_free(comparison->items);
	*comparison = (struct bc_pair_comparison){0};
}
