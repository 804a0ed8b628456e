/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What went into a run and what came out, and what is missing. */
#include "book/balance.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "book/record.h"
#include "book/statement.h"
#include "sample/sample.h"

const char *const bc_amount_names[BC_AMOUNTS] = {
	"plastic", "oil", "gas", "char", "light", "product", "tail", "heat"};
const char *const bc_amount_units[] = {"kg", "mL", "MJ"};
#define UNITS (sizeof bc_amount_units / sizeof bc_amount_units[0])

#define G_PER_KG 1000.0

/* ---- writing down */

static enum bc_status insert(struct bc_book *book, long long batch, const char *added,
	const struct bc_balance_amount *item)
{
	struct bc_statement statement;
	bc_statement_open(&statement, book,
		"INSERT INTO amount (batch, added, what, resin, value, unit) VALUES (?, ?, ?, ?, ?, ?)");
	bc_put_integer(&statement, batch);
	bc_put_text(&statement, added);
	bc_put_text(&statement, bc_amount_names[item->kind]);
	bc_put_text(&statement, item->resin[0] != '\0' ? item->resin : NULL);
	bc_put_number(&statement, item->value);
	bc_put_text(&statement, bc_amount_units[item->unit]);
	return bc_statement_close(&statement);
}

enum bc_status bc_balance_add(
	struct bc_book *book, long long batch, const struct bc_balance_amount *items, size_t n)
{
	char now[BC_TIME_SIZE];
	long long newest = 0;
	bc_book_now(now);
	enum bc_status status = bc_book_begin(book);
	if (bc_failed(status))
		return status;
	status = bc_book_newest(book, batch, &newest);
	for (size_t i = 0; i < n && !bc_failed(status); i++)
		status = insert(book, batch, now, &items[i]);
	return bc_book_end(book, status);
}

/* ---- reading */

static enum bc_status put(struct bc_balance *balance, const struct bc_balance_amount *item)
{
	size_t at = 0;
	while (at < balance->n && (balance->items[at].kind != item->kind ||
					  strcmp(balance->items[at].resin, item->resin) != 0))
		at++;
	if (at == balance->n) {
		if (bc_grow((void **)&balance->items, balance->n, &balance->capacity,
			    sizeof *balance->items) != 0)
			return BC_NO_MEMORY;
		balance->n++;
	}
	balance->items[at] = *item;
	return BC_OK;
}

static size_t index_of(const char *word, const char *const *list, size_t n)
{
	size_t at = 0;
	while (at < n && (word == NULL || strcmp(list[at], word) != 0))
		at++;
	return at;
}

static const char *column_text(struct bc_statement *statement, int column)
{
	return (const char *)sqlite3_column_text(statement->handle, column);
}

static enum bc_status read_amounts(struct bc_book *book, struct bc_balance *balance)
{
	struct bc_statement statement;
	enum bc_status status = BC_OK;
	bc_statement_open(&statement, book,
		"SELECT what, resin, value, unit FROM amount WHERE batch = ? ORDER BY id");
	bc_put_integer(&statement, balance->batch);
	while (!bc_failed(status) && bc_statement_row(&statement)) {
		size_t kind = index_of(column_text(&statement, 0), bc_amount_names, BC_AMOUNTS);
		size_t unit = index_of(column_text(&statement, 3), bc_amount_units, UNITS);
		const char *resin = column_text(&statement, 1);
		if (kind == BC_AMOUNTS || unit == UNITS)
			continue; /* of a program that knows more */
		struct bc_balance_amount item = {.kind = (enum bc_amount_kind)kind,
			.value = bc_get_number(&statement, 2),
			.unit = (enum bc_amount_unit)unit};
		snprintf(item.resin, sizeof item.resin, "%s", resin != NULL ? resin : "");
		status = put(balance, &item);
	}
	enum bc_status closed = bc_statement_close(&statement);
	return bc_failed(status) ? status : closed;
}

static enum bc_status read_figures(struct bc_book *book, struct bc_balance *balance)
{
	struct bc_statement statement;
	bc_statement_open(&statement, book,
		"SELECT d.value, h.value, (SELECT total(m.volume_ml) FROM movement m "
		"WHERE m.batch = r.batch AND m.kind = 'fill') FROM revision r "
		"LEFT JOIN figure d ON d.key = 'density15_kgm3' AND d.revision = r.id "
		"LEFT JOIN figure h ON h.key = 'net_heat_mjkg' AND h.revision = r.id "
		"WHERE r.batch = ? ORDER BY r.number DESC LIMIT 1");
	bc_put_integer(&statement, balance->batch);
	if (bc_statement_row(&statement)) {
		balance->density_kgm3 = bc_get_number(&statement, 0);
		balance->net_heat_mjkg = bc_get_number(&statement, 1);
		balance->in_jars_ml = bc_get_number(&statement, 2);
	}
	return bc_statement_close(&statement);
}

static bool has(const struct bc_balance *balance, enum bc_amount_kind kind)
{
	for (size_t i = 0; i < balance->n; i++) {
		if (balance->items[i].kind == kind)
			return true;
	}
	return false;
}

static enum bc_status put_key(struct bc_balance *balance, bool wanted, enum bc_amount_kind kind,
	enum bc_amount_unit unit, double value)
{
	const struct bc_balance_amount item = {
		.kind = kind, .value = value, .unit = unit, .of_sample = true};
	return wanted && isfinite(value) ? put(balance, &item) : BC_OK;
}

/* What the sample's own keys say, where nothing was written down. */
static enum bc_status read_keys(struct bc_book *book, struct bc_balance *balance)
{
	struct bc_record record;
	struct bc_sample *sample = NULL;
	bool plastic = !has(balance, BC_AMOUNT_PLASTIC);
	bool oil = !has(balance, BC_AMOUNT_OIL);
	bool coke = !has(balance, BC_AMOUNT_CHAR);
	enum bc_status status = bc_book_read(book, balance->batch, 0, &record);
	if (!bc_failed(status)) {
		status = bc_sample_read(record.bytes, record.n, record.file, NULL, &sample);
		/* an imported record need not be one that this program reads */
		if (status == BC_MALFORMED)
			status = BC_OK;
	}
	if (!bc_failed(status) && sample != NULL) {
		status = put_key(balance, plastic, BC_AMOUNT_PLASTIC, BC_AMOUNT_KG,
			sample->plastic_in_g / G_PER_KG);
		if (!bc_failed(status))
			status = put_key(
				balance, oil, BC_AMOUNT_OIL, BC_AMOUNT_ML, sample->oil_out_ml);
		if (!bc_failed(status))
			status = put_key(balance, oil && isnan(sample->oil_out_ml), BC_AMOUNT_OIL,
				BC_AMOUNT_KG, sample->oil_out_g / G_PER_KG);
		if (!bc_failed(status))
			status = put_key(balance, coke, BC_AMOUNT_CHAR, BC_AMOUNT_KG,
				sample->char_g / G_PER_KG);
	}
	bc_sample_free(sample);
	bc_record_release(&record);
	return status;
}

/* ---- what follows */

static double kg_of(const struct bc_balance *balance, const struct bc_balance_amount *item)
{
	/* 1 kg/m3 is 1e-6 kg/mL */
	return item->unit == BC_AMOUNT_ML ? item->value * balance->density_kgm3 * 1e-6
					  : item->value;
}

static double ml_of(const struct bc_balance *balance, const struct bc_balance_amount *item)
{
	return item->unit == BC_AMOUNT_ML ? item->value : item->value / balance->density_kgm3 * 1e6;
}

static void add_up(struct bc_balance *balance)
{
	for (int kind = 0; kind < BC_AMOUNTS; kind++)
		balance->kg[kind] = balance->ml[kind] = (double)NAN;
	for (size_t i = 0; i < balance->n; i++) {
		const struct bc_balance_amount *item = &balance->items[i];
		if (item->kind == BC_AMOUNT_HEAT) {
			balance->heat_mj = item->value;
			continue;
		}
		double *kg = &balance->kg[item->kind];
		*kg = (isnan(*kg) ? 0.0 : *kg) + kg_of(balance, item);
		if (item->kind != BC_AMOUNT_PLASTIC && item->kind != BC_AMOUNT_GAS &&
			item->kind != BC_AMOUNT_CHAR)
			balance->ml[item->kind] = ml_of(balance, item);
	}
}

static double or_none(double value) { return isnan(value) ? 0.0 : value; }

static double pct(double part, double whole)
{
	return whole > 0.0 ? 100.0 * part / whole : (double)NAN;
}

static void conclude(struct bc_balance *balance)
{
	const double *kg = balance->kg;
	const double *ml = balance->ml;
	double plastic = kg[BC_AMOUNT_PLASTIC];
	balance->out_kg =
		kg[BC_AMOUNT_OIL] + or_none(kg[BC_AMOUNT_GAS]) + or_none(kg[BC_AMOUNT_CHAR]);
	balance->missing_kg = plastic - balance->out_kg;
	balance->oil_pct = pct(kg[BC_AMOUNT_OIL], plastic);
	balance->gas_pct = pct(kg[BC_AMOUNT_GAS], plastic);
	balance->char_pct = pct(kg[BC_AMOUNT_CHAR], plastic);
	balance->missing_pct = pct(balance->missing_kg, plastic);
	balance->rerun_rest_ml = ml[BC_AMOUNT_OIL] - ml[BC_AMOUNT_PRODUCT] -
				 or_none(ml[BC_AMOUNT_LIGHT]) - or_none(ml[BC_AMOUNT_TAIL]);
	balance->light_pct = pct(ml[BC_AMOUNT_LIGHT], ml[BC_AMOUNT_OIL]);
	balance->product_pct = pct(ml[BC_AMOUNT_PRODUCT], ml[BC_AMOUNT_OIL]);
	balance->tail_pct = pct(ml[BC_AMOUNT_TAIL], ml[BC_AMOUNT_OIL]);
	balance->product_plastic_pct = pct(kg[BC_AMOUNT_PRODUCT], plastic);
	balance->heat_mjkg = plastic > 0.0 ? balance->heat_mj / plastic : (double)NAN;
	double fuel_kg = isnan(kg[BC_AMOUNT_PRODUCT]) ? kg[BC_AMOUNT_OIL] : kg[BC_AMOUNT_PRODUCT];
	balance->heat_share_pct = pct(balance->heat_mj, fuel_kg * balance->net_heat_mjkg);
}

enum bc_status bc_balance_read(struct bc_book *book, long long batch, struct bc_balance *balance)
{
	long long newest = 0;
	*balance = (struct bc_balance){.batch = batch,
		.density_kgm3 = (double)NAN,
		.net_heat_mjkg = (double)NAN,
		.heat_mj = (double)NAN};
	enum bc_status status = bc_book_newest(book, batch, &newest);
	if (!bc_failed(status))
		status = read_amounts(book, balance);
	if (!bc_failed(status))
		status = read_figures(book, balance);
	if (!bc_failed(status))
		status = read_keys(book, balance);
	add_up(balance);
	conclude(balance);
	return status;
}

void bc_balance_release(struct bc_balance *balance)
{
	if (balance == NULL)
		return;
	bc_free(balance->items);
	*balance = (struct bc_balance){0};
}
