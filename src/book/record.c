/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records on their way into the book: each batch, revision or note is one transaction. */
#include "book/record.h"

#include <assert.h>
#include <string.h>

#include "base/number.h"
#include "book/statement.h"

const char *const bc_basis_names[BC_BASES] = {"limits", "still", "flash offset", "options"};

void bc_entry_from_sample(struct bc_entry *entry, const struct bc_sample *sample)
{
	entry->file = sample->file;
	entry->name = sample->name;
	entry->date = sample->date;
	entry->feed = sample->feed;
	entry->history = bc_history_text(sample->history);
	entry->still = sample->still;
	entry->drawn = sample->drawn;
}

static int digits(const char *s, size_t n)
{
	int value = 0;
	for (size_t i = 0; i < n; i++) {
		if (s[i] < '0' || s[i] > '9')
			return -1;
		value = value * 10 + (s[i] - '0');
	}
	return value;
}

bool bc_day_valid(const char *s)
{
	static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
	if (strlen(s) != strlen("2026-10-03") || s[4] != '-' || s[7] != '-')
		return false;
	int year = digits(s, 4);
	int month = digits(s + 5, 2);
	int day = digits(s + 8, 2);
	if (year < 0 || month < 1 || month > 12 || day < 1)
		return false;
	bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
	return day <= days[month - 1] + (month == 2 && leap ? 1 : 0);
}

/* FNV-1a, 64 bit (Fowler, Noll, Vo; constants as in RFC 9923, from memory). */
static long long hash_of(const char *bytes, size_t n)
{
	unsigned long long hash = 0xcbf29ce484222325ULL;
	long long value;
	for (size_t i = 0; i < n; i++) {
		hash ^= (unsigned char)bytes[i];
		hash *= 0x100000001b3ULL;
	}
	memcpy(&value, &hash, sizeof value);
	return value;
}

static bool same_text(const char *a, const char *b)
{
	return a == NULL || b == NULL ? a == b : strcmp(a, b) == 0;
}

/* The first revision with these bytes in another batch than but_for; batch is 0 where none has. */
static enum bc_status find_bytes(struct bc_book *book, const struct bc_entry *entry,
	long long but_for, struct bc_place *place)
{
	struct bc_statement statement;
	*place = (struct bc_place){0};
	bc_statement_open(&statement, book,
		"SELECT r.batch, r.number FROM revision r JOIN content c ON c.revision = r.id "
		"WHERE r.hash = ? AND c.bytes = ? AND r.batch <> ? ORDER BY r.id LIMIT 1");
	bc_put_integer(&statement, hash_of(entry->bytes, entry->n));
	bc_put_bytes(&statement, entry->bytes, entry->n);
	bc_put_integer(&statement, but_for);
	if (bc_statement_row(&statement)) {
		place->batch = bc_get_integer(&statement, 0);
		place->number = bc_get_integer(&statement, 1);
		place->already = true;
	}
	return bc_statement_close(&statement);
}

/* The id of a text that judgements rest on, which is kept once; 0 for NULL. */
static enum bc_status keep_basis(
	struct bc_book *book, const char *kind, const char *text, long long *id)
{
	struct bc_statement statement;
	*id = 0;
	if (text == NULL)
		return BC_OK;
	bc_statement_open(&statement, book, "SELECT id FROM basis WHERE kind = ? AND text = ?");
	bc_put_text(&statement, kind);
	bc_put_text(&statement, text);
	if (bc_statement_row(&statement))
		*id = bc_get_integer(&statement, 0);
	enum bc_status status = bc_statement_close(&statement);
	if (bc_failed(status) || *id != 0)
		return status;
	bc_statement_open(&statement, book, "INSERT INTO basis (kind, text) VALUES (?, ?)");
	bc_put_text(&statement, kind);
	bc_put_text(&statement, text);
	status = bc_statement_close(&statement);
	*id = sqlite3_last_insert_rowid(book->db);
	return status;
}

static void put_id(struct bc_statement *statement, long long id)
{
	if (id != 0)
		bc_put_integer(statement, id);
	else
		bc_put_text(statement, NULL);
}

static enum bc_status write_revision(struct bc_book *book, const struct bc_place *place,
	const char *reason, const struct bc_entry *entry, const char *added)
{
	struct bc_statement statement;
	long long basis[BC_BASES];
	char today[sizeof "2026-10-03"] = "";
	bool dated = entry->date != NULL && bc_day_valid(entry->date);
	memcpy(today, added, strnlen(added, sizeof today - 1));
	for (int kind = 0; kind < BC_BASES; kind++) {
		enum bc_status status =
			keep_basis(book, bc_basis_names[kind], entry->basis[kind], &basis[kind]);
		if (bc_failed(status))
			return status;
	}
	bc_statement_open(&statement, book,
		"INSERT INTO revision (batch, number, added, reason, file, size, hash, name, date, "
		"day, feed, history, still, drawn, program, word, grade, limits_basis, "
		"still_basis, offset_basis, options_basis) "
		"VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
	bc_put_integer(&statement, place->batch);
	bc_put_integer(&statement, place->number);
	bc_put_text(&statement, added);
	bc_put_text(&statement, reason);
	bc_put_text(&statement, entry->file);
	bc_put_integer(&statement, (long long)entry->n);
	bc_put_integer(&statement, hash_of(entry->bytes, entry->n));
	bc_put_text(&statement, entry->name);
	bc_put_text(&statement, entry->date);
	bc_put_text(&statement, dated ? entry->date : today);
	bc_put_text(&statement, entry->feed);
	bc_put_text(&statement, entry->history);
	bc_put_text(&statement, entry->still);
	bc_put_text(&statement, entry->drawn);
	bc_put_text(&statement, entry->program);
	bc_put_text(&statement, entry->word);
	bc_put_text(&statement, entry->grade);
	for (int kind = 0; kind < BC_BASES; kind++)
		put_id(&statement, basis[kind]);
	return bc_statement_close(&statement);
}

static enum bc_status write_content(
	struct bc_book *book, long long revision, const struct bc_entry *entry)
{
	struct bc_statement statement;
	bc_statement_open(&statement, book,
		"INSERT INTO content (revision, bytes, judgement) VALUES (?, ?, ?)");
	bc_put_integer(&statement, revision);
	bc_put_bytes(&statement, entry->bytes, entry->n);
	bc_put_text(&statement, entry->judgement);
	enum bc_status status = bc_statement_close(&statement);
	for (size_t i = 0; i < entry->n_figures && !bc_failed(status); i++) {
		const struct bc_figure *figure = &entry->figures[i];
		bc_statement_open(&statement, book,
			"INSERT INTO figure (revision, key, value, low, high) "
			"VALUES (?, ?, ?, ?, ?)");
		bc_put_integer(&statement, revision);
		bc_put_text(&statement, figure->key);
		bc_put_number(&statement, figure->value);
		bc_put_number(&statement, figure->low);
		bc_put_number(&statement, figure->high);
		status = bc_statement_close(&statement);
	}
	return status;
}

static enum bc_status write_record(struct bc_book *book, const struct bc_place *place,
	const char *reason, const struct bc_entry *entry, const char *added)
{
	enum bc_status status = write_revision(book, place, reason, entry, added);
	if (bc_failed(status))
		return status;
	return write_content(book, sqlite3_last_insert_rowid(book->db), entry);
}

static enum bc_status open_batch(struct bc_book *book, const char *added, long long *batch)
{
	struct bc_statement statement;
	bc_statement_open(&statement, book, "INSERT INTO batch (opened) VALUES (?)");
	bc_put_text(&statement, added);
	enum bc_status status = bc_statement_close(&statement);
	*batch = sqlite3_last_insert_rowid(book->db);
	return status;
}

enum bc_status bc_book_add(
	struct bc_book *book, const struct bc_entry *entry, struct bc_place *place)
{
	char now[BC_TIME_SIZE];
	const char *added = entry->added != NULL ? entry->added : now;
	bc_book_now(now);
	*place = (struct bc_place){0};
	enum bc_status status = bc_book_begin(book);
	if (bc_failed(status))
		return status;
	status = find_bytes(book, entry, 0, place);
	if (!bc_failed(status) && !place->already) {
		place->number = 1;
		status = open_batch(book, added, &place->batch);
		if (!bc_failed(status))
			status = write_record(book, place, NULL, entry, added);
	}
	return bc_book_end(book, status);
}

enum bc_status bc_book_newest(struct bc_book *book, long long batch, long long *number)
{
	struct bc_statement statement;
	bc_statement_open(
		&statement, book, "SELECT ifnull(max(number), 0) FROM revision WHERE batch = ?");
	bc_put_integer(&statement, batch);
	*number = bc_statement_row(&statement) ? bc_get_integer(&statement, 0) : 0;
	enum bc_status status = bc_statement_close(&statement);
	return !bc_failed(status) && *number == 0 ? BC_NOT_FOUND : status;
}

/* Whether a record says all that entry says. */
static bool says_the_same(const struct bc_record *record, const struct bc_entry *entry)
{
	bool same = record->n == entry->n && memcmp(record->bytes, entry->bytes, entry->n) == 0 &&
		    same_text(record->judgement, entry->judgement);
	for (int kind = 0; kind < BC_BASES; kind++)
		same = same && same_text(record->basis[kind], entry->basis[kind]);
	return same;
}

static enum bc_status revise(struct bc_book *book, long long batch, const char *reason,
	const struct bc_entry *entry, struct bc_place *place)
{
	struct bc_record newest;
	char now[BC_TIME_SIZE];
	bc_book_now(now);
	enum bc_status status = bc_book_read(book, batch, 0, &newest);
	if (bc_failed(status))
		goto done;
	if (says_the_same(&newest, entry)) {
		*place = newest.place;
		place->already = true;
		goto done;
	}
	status = find_bytes(book, entry, batch, place);
	if (bc_failed(status) || place->already)
		goto done;
	place->batch = batch;
	place->number = newest.place.number + 1;
	status =
		write_record(book, place, reason, entry, entry->added != NULL ? entry->added : now);
done:
	bc_record_release(&newest);
	return status;
}

enum bc_status bc_book_revise(struct bc_book *book, long long batch, const char *reason,
	const struct bc_entry *entry, struct bc_place *place)
{
	assert(reason != NULL);
	*place = (struct bc_place){0};
	enum bc_status status = bc_book_begin(book);
	if (bc_failed(status))
		return status;
	return bc_book_end(book, revise(book, batch, reason, entry, place));
}

enum bc_status bc_book_note(
	struct bc_book *book, long long batch, const char *text, const char *added)
{
	struct bc_statement statement;
	char now[BC_TIME_SIZE];
	long long number = 0;
	bc_book_now(now);
	enum bc_status status = bc_book_begin(book);
	if (bc_failed(status))
		return status;
	status = bc_book_newest(book, batch, &number);
	if (!bc_failed(status)) {
		bc_statement_open(
			&statement, book, "INSERT INTO note (batch, added, text) VALUES (?, ?, ?)");
		bc_put_integer(&statement, batch);
		bc_put_text(&statement, added != NULL ? added : now);
		bc_put_text(&statement, text);
		status = bc_statement_close(&statement);
	}
	return bc_book_end(book, status);
}
