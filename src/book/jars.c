/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Jars as the replay of their movements, and movements on their way into the book. */
#include "book/jars.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "book/statement.h"

static const char *const kinds[] = {"fill", "mix", "empty", "place", "test"};
#define KINDS (sizeof kinds / sizeof kinds[0])

bool bc_jar_id_valid(const char *s)
{
	size_t length = strlen(s);
	if (length == 0 || length >= BC_JAR_ID_SIZE || s[0] == ' ' || s[length - 1] == ' ')
		return false;
	for (size_t n = 0; *s != '\0'; s += n) {
		n = bc_utf8_length(s);
		if (n == 0 || bc_utf8_is_control(s, n))
			return false;
	}
	return true;
}

/* ---- content */

static void copy_day(char day[BC_DAY_SIZE], const char *from)
{
	size_t n = from != NULL ? strnlen(from, BC_DAY_SIZE - 1) : 0;
	if (n > 0)
		memcpy(day, from, n);
	day[n] = '\0';
}

static enum bc_status put_in(struct bc_store_jar *jar, const struct bc_jar_part *part)
{
	for (size_t i = 0; i < jar->n_parts; i++) {
		struct bc_jar_part *own = &jar->parts[i];
		if (own->batch != part->batch)
			continue;
		own->volume_ml += part->volume_ml;
		if (strcmp(part->since, own->since) < 0)
			copy_day(own->since, part->since);
		return BC_OK;
	}
	if (bc_grow((void **)&jar->parts, jar->n_parts, &jar->parts_capacity, sizeof *jar->parts) !=
		0)
		return BC_NO_MEMORY;
	jar->parts[jar->n_parts++] = *part;
	return BC_OK;
}

static void add_up(struct bc_store_jar *jar)
{
	jar->volume_ml = 0.0;
	for (size_t i = 0; i < jar->n_parts; i++)
		jar->volume_ml += jar->parts[i].volume_ml;
}

static enum bc_status remember(struct bc_store_jar *jar)
{
	for (size_t i = 0; i < jar->n_parts; i++) {
		size_t at = 0;
		while (at < jar->n_before && jar->before[at] != jar->parts[i].batch)
			at++;
		if (at < jar->n_before)
			continue;
		if (bc_grow((void **)&jar->before, jar->n_before, &jar->before_capacity,
			    sizeof *jar->before) != 0)
			return BC_NO_MEMORY;
		jar->before[jar->n_before++] = jar->parts[i].batch;
	}
	jar->n_parts = 0;
	return BC_OK;
}

/* Draws a volume in the shares of what is there into another jar, or away where it is NULL. A part
 * stays, however little of it, until the jar is empty. */
static enum bc_status draw(struct bc_store_jar *from, double volume_ml, struct bc_store_jar *to)
{
	enum bc_status status = BC_OK;
	bool all = !(volume_ml < from->volume_ml - BC_JAR_STEP_ML);
	double frac = all ? 1.0 : volume_ml / from->volume_ml;
	for (size_t i = 0; i < from->n_parts && !bc_failed(status); i++) {
		struct bc_jar_part drawn = from->parts[i];
		drawn.volume_ml *= frac;
		from->parts[i].volume_ml -= drawn.volume_ml;
		if (to != NULL)
			status = put_in(to, &drawn);
	}
	if (all && !bc_failed(status))
		status = remember(from);
	add_up(from);
	if (to != NULL)
		add_up(to);
	return status;
}

/* ---- replay */

static int by_id(const void *id, const void *jar)
{
	return strcmp(id, ((const struct bc_store_jar *)jar)->id);
}

static struct bc_store_jar *exactly(struct bc_store *store, const char *id)
{
	if (id == NULL || store->n == 0)
		return NULL;
	return bsearch(id, store->jars, store->n, sizeof *store->jars, by_id);
}

const struct bc_store_jar *bc_store_find(const struct bc_store *store, const char *id)
{
	for (size_t i = 0; id != NULL && i < store->n; i++) {
		if (bc_text_equal_nocase(store->jars[i].id, id))
			return &store->jars[i];
	}
	return NULL;
}

static enum bc_status read_jars(struct bc_book *book, struct bc_store *store)
{
	struct bc_statement statement;
	size_t capacity = 0;
	enum bc_status status = BC_OK;
	bc_statement_open(
		&statement, book, "SELECT id, opened, capacity_ml, place FROM jar ORDER BY id");
	while (!bc_failed(status) && bc_statement_row(&statement)) {
		if (bc_grow((void **)&store->jars, store->n, &capacity, sizeof *store->jars) != 0) {
			status = BC_NO_MEMORY;
			break;
		}
		struct bc_store_jar *jar = &store->jars[store->n++];
		*jar = (struct bc_store_jar){0};
		bc_get_text(&statement, 0, &jar->id);
		bc_get_text(&statement, 1, &jar->opened);
		jar->capacity_ml = bc_get_number(&statement, 2);
		bc_get_text(&statement, 3, &jar->place);
		if (jar->id == NULL || jar->opened == NULL)
			status = BC_NO_MEMORY;
	}
	enum bc_status closed = bc_statement_close(&statement);
	return bc_failed(status) ? status : closed;
}

/* A movement as it is read: texts live as long as the row. */
struct row {
	struct bc_move move;
	const char *since; /* clock of the batch */
};

static enum bc_status apply(struct bc_store *store, const struct row *row)
{
	const struct bc_move *move = &row->move;
	struct bc_store_jar *from = exactly(store, move->from);
	struct bc_store_jar *to = exactly(store, move->to);
	enum bc_status status = BC_OK;
	if (from != NULL)
		copy_day(from->moved, move->date);
	if (to != NULL)
		copy_day(to->moved, move->date);
	if (move->kind == BC_MOVE_FILL && to != NULL) {
		struct bc_jar_part part = {.batch = move->batch, .volume_ml = move->volume_ml};
		copy_day(part.since, row->since);
		status = put_in(to, &part);
		add_up(to);
	} else if (move->kind == BC_MOVE_MIX && from != NULL && to != NULL && from != to) {
		status = draw(from, move->volume_ml, to);
	} else if (move->kind == BC_MOVE_EMPTY && from != NULL) {
		status = draw(from, move->volume_ml, NULL);
	} else if (move->kind == BC_MOVE_PLACE && to != NULL) {
		char *place = bc_strdup(move->text != NULL ? move->text : "");
		status = place == NULL ? BC_NO_MEMORY : BC_OK;
		bc_free(to->place);
		to->place = place;
	} else if (move->kind == BC_MOVE_TEST && to != NULL) {
		for (size_t i = 0; i < to->n_parts; i++)
			copy_day(to->parts[i].since, move->date);
	} else {
		status = BC_MALFORMED;
	}
	return status;
}

static const char *column_text(struct bc_statement *statement, int column)
{
	return (const char *)sqlite3_column_text(statement->handle, column);
}

static enum bc_move_kind kind_named(const char *name)
{
	for (size_t i = 0; name != NULL && i < KINDS; i++) {
		if (strcmp(kinds[i], name) == 0)
			return (enum bc_move_kind)i;
	}
	return BC_MOVE_PLACE;
}

/* The storage clock of a batch starts when its oil was drawn, else on its day. */
#define SINCE                                                                                      \
	"(SELECT CASE WHEN r.drawn GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]' "             \
	"AND date(r.drawn) IS r.drawn THEN r.drawn ELSE r.day END FROM revision r "                \
	"WHERE r.batch = m.batch ORDER BY r.number DESC LIMIT 1)"

static enum bc_status replay(struct bc_book *book, struct bc_store *store)
{
	struct bc_statement statement;
	enum bc_status status = BC_OK;
	bc_statement_open(&statement, book,
		"SELECT m.kind, m.date, m.batch, m.from_jar, m.to_jar, m.volume_ml, m.text, " SINCE
		" FROM movement m ORDER BY m.id");
	while (!bc_failed(status) && bc_statement_row(&statement)) {
		struct row row = {
			.move = {.kind = kind_named(column_text(&statement, 0)),
				.date = column_text(&statement, 1),
				.batch = bc_get_integer(&statement, 2),
				.from = column_text(&statement, 3),
				.to = column_text(&statement, 4),
				.volume_ml = bc_get_number(&statement, 5),
				.text = column_text(&statement, 6)},
			.since = column_text(&statement, 7),
		};
		status = apply(store, &row);
	}
	if (status == BC_MALFORMED)
		bc_diagnose(book->diagnostics, BC_ERROR, book->path, 0,
			"a movement names no jar; the book is damaged");
	enum bc_status closed = bc_statement_close(&statement);
	return bc_failed(status) ? status : closed;
}

enum bc_status bc_store_read(struct bc_book *book, struct bc_store *store)
{
	*store = (struct bc_store){0};
	enum bc_status status = read_jars(book, store);
	if (!bc_failed(status))
		status = replay(book, store);
	return status;
}

void bc_store_release(struct bc_store *store)
{
	if (store == NULL)
		return;
	for (size_t i = 0; i < store->n; i++) {
		struct bc_store_jar *jar = &store->jars[i];
		bc_free(jar->id);
		bc_free(jar->opened);
		bc_free(jar->place);
		bc_free(jar->parts);
		bc_free(jar->before);
	}
	bc_free(store->jars);
	*store = (struct bc_store){0};
}

/* ---- writing */

static enum bc_status insert_jar(struct bc_book *book, const char *id, double capacity_ml,
	const char *place, const char *day)
{
	struct bc_statement statement;
	bc_statement_open(&statement, book,
		"INSERT INTO jar (id, opened, capacity_ml, place) VALUES (?, ?, ?, ?)");
	bc_put_text(&statement, id);
	bc_put_text(&statement, day);
	bc_put_number(&statement, capacity_ml);
	bc_put_text(&statement, place);
	return bc_statement_close(&statement);
}

enum bc_status bc_jar_new(struct bc_book *book, const char *id, double capacity_ml,
	const char *place, const char *day, bool *already)
{
	struct bc_statement statement;
	*already = false;
	enum bc_status status = bc_book_begin(book);
	if (bc_failed(status))
		return status;
	bc_statement_open(&statement, book, "SELECT 1 FROM jar WHERE id = ? COLLATE NOCASE");
	bc_put_text(&statement, id);
	*already = bc_statement_row(&statement);
	status = bc_statement_close(&statement);
	if (!bc_failed(status) && !*already)
		status = insert_jar(book, id, capacity_ml, place, day);
	return bc_book_end(book, status);
}

static enum bc_status has_batch(struct bc_book *book, long long batch, bool *there)
{
	struct bc_statement statement;
	bc_statement_open(&statement, book, "SELECT 1 FROM batch WHERE id = ?");
	bc_put_integer(&statement, batch);
	*there = bc_statement_row(&statement);
	return bc_statement_close(&statement);
}

static enum bc_status insert_move(struct bc_book *book, const struct bc_move *move,
	const struct bc_store_jar *from, const struct bc_store_jar *to, double volume_ml)
{
	struct bc_statement statement;
	char now[BC_TIME_SIZE];
	bc_book_now(now);
	bc_statement_open(&statement, book,
		"INSERT INTO movement (added, date, kind, from_jar, to_jar, volume_ml, text, batch) "
		"VALUES (?, ?, ?, ?, ?, ?, ?, ?)");
	bc_put_text(&statement, now);
	bc_put_text(&statement, move->date);
	bc_put_text(&statement, kinds[move->kind]);
	bc_put_text(&statement, from != NULL ? from->id : NULL);
	bc_put_text(&statement, to != NULL ? to->id : NULL);
	bc_put_number(&statement, volume_ml);
	bc_put_text(&statement, move->text);
	if (move->kind == BC_MOVE_FILL)
		bc_put_integer(&statement, move->batch);
	return bc_statement_close(&statement);
}

static bool draws(enum bc_move_kind kind) { return kind == BC_MOVE_MIX || kind == BC_MOVE_EMPTY; }
static bool pours(enum bc_move_kind kind) { return kind == BC_MOVE_MIX || kind == BC_MOVE_FILL; }

/* Whether the volumes allow it; *volume_ml is what then moves. */
static void weigh(const struct bc_move *move, const struct bc_store_jar *from,
	const struct bc_store_jar *to, struct bc_move_outcome *outcome)
{
	double volume_ml = move->volume_ml;
	*outcome = (struct bc_move_outcome){.answer = BC_MOVE_DONE, .volume_ml = (double)NAN};
	if (from != NULL && draws(move->kind)) {
		if (from->n_parts == 0) {
			outcome->answer = BC_MOVE_NOTHING;
			return;
		}
		if (isnan(volume_ml))
			volume_ml = from->volume_ml;
		if (volume_ml > from->volume_ml + BC_JAR_STEP_ML) {
			*outcome = (struct bc_move_outcome){
				.answer = BC_MOVE_TOO_LITTLE, .volume_ml = from->volume_ml};
			return;
		}
	}
	if (to != NULL && pours(move->kind) && !isnan(to->capacity_ml)) {
		double room_ml = to->capacity_ml - to->volume_ml;
		if (volume_ml > room_ml + BC_JAR_STEP_ML) {
			*outcome = (struct bc_move_outcome){
				.answer = BC_MOVE_TOO_MUCH, .volume_ml = fmax(room_ml, 0.0)};
			return;
		}
		outcome->full = to->volume_ml + volume_ml >
				BC_JAR_FULL_FRAC * to->capacity_ml + BC_JAR_STEP_ML;
	}
	if (draws(move->kind) || pours(move->kind))
		outcome->volume_ml = volume_ml;
}

static enum bc_status consider(struct bc_book *book, const struct bc_move *move,
	const struct bc_store *store, struct bc_move_outcome *outcome)
{
	const struct bc_store_jar *from = bc_store_find(store, move->from);
	const struct bc_store_jar *to = bc_store_find(store, move->to);
	bool known = true;
	enum bc_status status = BC_OK;
	if (move->kind == BC_MOVE_FILL)
		status = has_batch(book, move->batch, &known);
	if (bc_failed(status))
		return status;
	if (from == NULL && (move->from != NULL || draws(move->kind)))
		outcome->answer = BC_MOVE_NO_FROM;
	else if (to == NULL && (move->to != NULL || move->kind != BC_MOVE_EMPTY))
		outcome->answer = BC_MOVE_NO_TO;
	else if (!known)
		outcome->answer = BC_MOVE_NO_BATCH;
	else if (from != NULL && from == to)
		outcome->answer = BC_MOVE_SAME;
	else
		weigh(move, from, to, outcome);
	if (outcome->answer == BC_MOVE_DONE)
		status = insert_move(book, move, from, to, outcome->volume_ml);
	return status;
}

enum bc_status bc_jar_move(
	struct bc_book *book, const struct bc_move *move, struct bc_move_outcome *outcome)
{
	struct bc_store store = {0};
	*outcome = (struct bc_move_outcome){.answer = BC_MOVE_DONE, .volume_ml = (double)NAN};
	enum bc_status status = bc_book_begin(book);
	if (bc_failed(status))
		return status;
	status = bc_store_read(book, &store);
	if (!bc_failed(status))
		status = consider(book, move, &store, outcome);
	bc_store_release(&store);
	return bc_book_end(book, status);
}

/* ---- what was written down */

enum bc_status bc_movements_read(
	struct bc_book *book, const char *id, struct bc_movements *movements)
{
	struct bc_statement statement;
	enum bc_status status = BC_OK;
	*movements = (struct bc_movements){0};
	bc_statement_open(&statement, book,
		"SELECT kind, date, batch, from_jar, to_jar, volume_ml, text FROM movement "
		"WHERE from_jar = ?1 OR to_jar = ?1 ORDER BY id");
	bc_put_text(&statement, id);
	while (!bc_failed(status) && bc_statement_row(&statement)) {
		if (bc_grow((void **)&movements->items, movements->n, &movements->capacity,
			    sizeof *movements->items) != 0) {
			status = BC_NO_MEMORY;
			break;
		}
		struct bc_movement *item = &movements->items[movements->n++];
		*item = (struct bc_movement){.kind = kind_named(column_text(&statement, 0)),
			.batch = bc_get_integer(&statement, 2),
			.volume_ml = bc_get_number(&statement, 5)};
		bc_get_text(&statement, 1, &item->date);
		bc_get_text(&statement, 3, &item->from);
		bc_get_text(&statement, 4, &item->to);
		bc_get_text(&statement, 6, &item->text);
	}
	enum bc_status closed = bc_statement_close(&statement);
	return bc_failed(status) ? status : closed;
}

void bc_movements_release(struct bc_movements *movements)
{
	if (movements == NULL)
		return;
	for (size_t i = 0; i < movements->n; i++) {
		bc_free(movements->items[i].date);
		bc_free(movements->items[i].from);
		bc_free(movements->items[i].to);
		bc_free(movements->items[i].text);
	}
	bc_free(movements->items);
	*movements = (struct bc_movements){0};
}
