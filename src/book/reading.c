/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One record read back whole, with the revisions and notes of its batch. */
#include <stddef.h>

#include "base/memory.h"
#include "book/record.h"
#include "book/statement.h"

static enum bc_status read_record(
	struct bc_book *book, const struct bc_place *place, struct bc_record *record)
{
	struct bc_statement statement;
	char **texts[] = {&record->added, &record->reason, &record->file, &record->name,
		&record->date, &record->day, &record->feed, &record->history, &record->still,
		&record->drawn, &record->program, &record->word, &record->grade, &record->judgement,
		&record->basis[BC_BASIS_LIMITS], &record->basis[BC_BASIS_STILL],
		&record->basis[BC_BASIS_OFFSET], &record->basis[BC_BASIS_OPTIONS]};
	bool found = false;
	bc_statement_open(&statement, book,
		"SELECT r.id, c.bytes, r.added, r.reason, r.file, r.name, r.date, r.day, r.feed, "
		"r.history, r.still, r.drawn, r.program, r.word, r.grade, c.judgement, l.text, "
		"s.text, f.text, o.text "
		"FROM revision r JOIN content c ON c.revision = r.id "
		"JOIN basis l ON l.id = r.limits_basis LEFT JOIN basis s ON s.id = r.still_basis "
		"LEFT JOIN basis f ON f.id = r.offset_basis JOIN basis o ON o.id = r.options_basis "
		"WHERE r.batch = ? AND r.number = ?");
	bc_put_integer(&statement, place->batch);
	bc_put_integer(&statement, place->number);
	if (bc_statement_row(&statement)) {
		found = true;
		record->id = bc_get_integer(&statement, 0);
		bc_get_bytes(&statement, 1, &record->bytes, &record->n);
		for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
			bc_get_text(&statement, (int)i + 2, texts[i]);
	}
	enum bc_status status = bc_statement_close(&statement);
	return !bc_failed(status) && !found ? BC_NOT_FOUND : status;
}

static enum bc_status read_revisions(struct bc_book *book, struct bc_record *record)
{
	struct bc_statement statement;
	size_t capacity = 0;
	bc_statement_open(&statement, book,
		"SELECT number, added, reason, file, program, word FROM revision "
		"WHERE batch = ? ORDER BY number");
	bc_put_integer(&statement, record->place.batch);
	while (bc_statement_row(&statement)) {
		if (bc_grow((void **)&record->revisions, record->n_revisions, &capacity,
			    sizeof *record->revisions) != 0) {
			statement.status = BC_NO_MEMORY;
			break;
		}
		struct bc_revision *revision = &record->revisions[record->n_revisions++];
		*revision = (struct bc_revision){.number = bc_get_integer(&statement, 0)};
		bc_get_text(&statement, 1, &revision->added);
		bc_get_text(&statement, 2, &revision->reason);
		bc_get_text(&statement, 3, &revision->file);
		bc_get_text(&statement, 4, &revision->program);
		bc_get_text(&statement, 5, &revision->word);
	}
	return bc_statement_close(&statement);
}

static enum bc_status read_notes(struct bc_book *book, struct bc_record *record)
{
	struct bc_statement statement;
	size_t capacity = 0;
	bc_statement_open(
		&statement, book, "SELECT added, text FROM note WHERE batch = ? ORDER BY id");
	bc_put_integer(&statement, record->place.batch);
	while (bc_statement_row(&statement)) {
		if (bc_grow((void **)&record->notes, record->n_notes, &capacity,
			    sizeof *record->notes) != 0) {
			statement.status = BC_NO_MEMORY;
			break;
		}
		struct bc_note *note = &record->notes[record->n_notes++];
		*note = (struct bc_note){0};
		bc_get_text(&statement, 0, &note->added);
		bc_get_text(&statement, 1, &note->text);
	}
	return bc_statement_close(&statement);
}

enum bc_status bc_book_read(
	struct bc_book *book, long long batch, long long number, struct bc_record *record)
{
	enum bc_status status = BC_OK;
	*record = (struct bc_record){.place = {.batch = batch, .number = number}};
	if (number == 0)
		status = bc_book_newest(book, batch, &record->place.number);
	if (!bc_failed(status))
		status = read_record(book, &record->place, record);
	if (!bc_failed(status))
		status = read_revisions(book, record);
	if (!bc_failed(status))
		status = read_notes(book, record);
	return status;
}

void bc_record_release(struct bc_record *record)
{
	if (record == NULL)
		return;
	char *texts[] = {record->added, record->reason, record->file, record->bytes, record->name,
		record->date, record->day, record->feed, record->history, record->still,
		record->drawn, record->program, record->judgement, record->word, record->grade};
	for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
		bc_free(texts[i]);
	for (int kind = 0; kind < BC_BASES; kind++)
		bc_free(record->basis[kind]);
	for (size_t i = 0; i < record->n_revisions; i++) {
		bc_free(record->revisions[i].added);
		bc_free(record->revisions[i].reason);
		bc_free(record->revisions[i].file);
		bc_free(record->revisions[i].program);
		bc_free(record->revisions[i].word);
	}
	for (size_t i = 0; i < record->n_notes; i++) {
		bc_free(record->notes[i].added);
		bc_free(record->notes[i].text);
	}
	bc_free(record->revisions);
	bc_free(record->notes);
	*record = (struct bc_record){0};
}
