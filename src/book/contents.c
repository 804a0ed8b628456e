/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is in a jar: its batches, their shares, and the worst of them. */
#include "book/contents.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "book/due.h"
#include "book/statement.h"

/* GHS category 2 */
#define PETROL_LIKE_C 23.0
/* Flash points are reported at 101.3 kPa; they fall with the pressure (ASTM D93, from memory). */
#define STANDARD_KPA 101.3
#define FLASH_C_PER_KPA 0.25

static bool petrol_like(double flash_low_c, double pressure_kpa)
{
	double lost_c = 0.0;
	if (pressure_kpa < STANDARD_KPA)
		lost_c = FLASH_C_PER_KPA * (STANDARD_KPA - pressure_kpa);
	return !(flash_low_c - lost_c >= PETROL_LIKE_C);
}

enum bc_status bc_batch_brief_read(
	struct bc_book *book, long long batch, struct bc_batch_brief *brief)
{
	struct bc_statement statement;
	bool found = false;
	*brief = (struct bc_batch_brief){.batch = batch, .flash_low_c = (double)NAN};
	bc_statement_open(&statement, book,
		"SELECT r.name, r.file, r.day, r.feed, r.word, r.grade, f.low, p.value "
		"FROM revision r "
		"LEFT JOIN figure f ON f.key = 'flash_c' AND f.revision = r.id "
		"LEFT JOIN figure p ON p.key = 'pressure_kpa' AND p.revision = r.id "
		"WHERE r.batch = ? ORDER BY r.number DESC LIMIT 1");
	bc_put_integer(&statement, batch);
	if (bc_statement_row(&statement)) {
		found = true;
		bc_get_text(&statement, 0, &brief->name);
		bc_get_text(&statement, 1, &brief->file);
		bc_get_text(&statement, 2, &brief->day);
		bc_get_text(&statement, 3, &brief->feed);
		bc_get_text(&statement, 4, &brief->word);
		bc_get_text(&statement, 5, &brief->grade);
		brief->flash_low_c = bc_get_number(&statement, 6);
		brief->petrol = petrol_like(brief->flash_low_c, bc_get_number(&statement, 7));
	}
	enum bc_status status = bc_statement_close(&statement);
	return !bc_failed(status) && !found ? BC_NOT_FOUND : status;
}

void bc_batch_brief_release(struct bc_batch_brief *brief)
{
	if (brief == NULL)
		return;
	bc_free(brief->name);
	bc_free(brief->file);
	bc_free(brief->day);
	bc_free(brief->feed);
	bc_free(brief->word);
	bc_free(brief->grade);
	*brief = (struct bc_batch_brief){0};
}

static int larger(const void *a, const void *b)
{
	const struct bc_content *left = a;
	const struct bc_content *right = b;
	if (left->volume_ml != right->volume_ml)
		return left->volume_ml < right->volume_ml ? 1 : -1;
	return left->of.batch < right->of.batch ? -1 : left->of.batch > right->of.batch;
}

static bool worse(const struct bc_batch_brief *a, const struct bc_batch_brief *b)
{
	if (isnan(a->flash_low_c) || isnan(b->flash_low_c))
		return isnan(a->flash_low_c) && !isnan(b->flash_low_c);
	if (a->petrol != b->petrol)
		return a->petrol;
	return a->flash_low_c < b->flash_low_c;
}

static void find_worst(struct bc_contents *contents)
{
	for (size_t i = 0; i < contents->n; i++) {
		const struct bc_content *item = &contents->items[i];
		if (worse(&item->of, &contents->items[contents->worst].of))
			contents->worst = i;
		contents->petrol = contents->petrol || item->of.petrol;
		if (contents->since[0] == '\0' || strcmp(item->since, contents->since) < 0)
			memcpy(contents->since, item->since, sizeof contents->since);
	}
	contents->flash_low_c =
		contents->n > 0 ? contents->items[contents->worst].of.flash_low_c : (double)NAN;
}

static enum bc_status look_before(
	struct bc_book *book, const struct bc_store_jar *jar, struct bc_contents *contents)
{
	enum bc_status status = BC_OK;
	for (size_t i = 0; i < jar->n_before && !bc_failed(status); i++) {
		struct bc_batch_brief brief;
		status = bc_batch_brief_read(book, jar->before[i], &brief);
		contents->was_petrol = contents->was_petrol || brief.petrol;
		bc_batch_brief_release(&brief);
	}
	return status;
}

static enum bc_status read_parts(
	struct bc_book *book, const struct bc_store_jar *jar, struct bc_contents *contents)
{
	enum bc_status status = BC_OK;
	if (jar->n_parts == 0)
		return BC_OK;
	contents->items = bc_alloc_array(jar->n_parts, sizeof *contents->items);
	if (contents->items == NULL)
		return BC_NO_MEMORY;
	for (size_t i = 0; i < jar->n_parts && !bc_failed(status); i++) {
		struct bc_content *item = &contents->items[contents->n++];
		item->volume_ml = jar->parts[i].volume_ml;
		item->share_pct = 100.0 * item->volume_ml / jar->volume_ml;
		memcpy(item->since, jar->parts[i].since, sizeof item->since);
		status = bc_batch_brief_read(book, jar->parts[i].batch, &item->of);
	}
	return status;
}

enum bc_status bc_contents_read(
	struct bc_book *book, const struct bc_store_jar *jar, struct bc_contents *contents)
{
	*contents = (struct bc_contents){.flash_low_c = (double)NAN};
	enum bc_status status = read_parts(book, jar, contents);
	if (!bc_failed(status))
		status = look_before(book, jar, contents);
	if (status == BC_NOT_FOUND) {
		bc_diagnose(book->diagnostics, BC_ERROR, book->path, 0,
			"a batch without a record; the book is damaged");
		status = BC_MALFORMED;
	}
	if (bc_failed(status) || contents->n == 0)
		return status;
	qsort(contents->items, contents->n, sizeof *contents->items, larger);
	find_worst(contents);
	return bc_retest_day(book, contents->since, contents->due);
}

void bc_contents_release(struct bc_contents *contents)
{
	if (contents == NULL)
		return;
	for (size_t i = 0; i < contents->n; i++)
		bc_batch_brief_release(&contents->items[i].of);
	bc_free(contents->items);
	*contents = (struct bc_contents){0};
}
