/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The journal: a cut at every byte, strangers, damage, a full disk. */
#include "sample/journal.h"
#include "unit/unit.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/fault.h"
#include "base/file.h"
#include "base/memory.h"

static char folder[256];
static char path[288];
static const struct bc_journal_head head = {BC_AMOUNT_VOLUME_ML, 'F', "lake|shed.csv"};

static int make_folder(void **state)
{
	(void)state;
	const char *scratch = getenv("BUILD"); /* tests/run.sh sets it */
	snprintf(folder, sizeof folder, "%s/journal-XXXXXX", scratch ? scratch : ".");
	if (mkdtemp(folder) == NULL)
		return -1;
	snprintf(path, sizeof path, "%s/lake.journal", folder);
	return 0;
}

static int remove_folder(void **state)
{
	(void)state;
	bc_fault_set(BC_FAULT_WRITE, 0, false);
	unlink(path);
	return rmdir(folder);
}

static struct bc_entry reading(double amount, double temperature)
{
	struct bc_entry entry;
	bc_entry_init(&entry);
	entry.kind = BC_ENTRY_READ;
	entry.amount = amount;
	entry.head = temperature;
	entry.pot = temperature + 31.25;
	entry.time_s = 127.3;
	entry.wall_s = 1790000127.375;
	entry.session = 3;
	return entry;
}

static enum bc_status open_it(struct bc_journal *journal)
{
	return bc_journal_open(journal, path, &head, NULL);
}

/* A journal of three entries, the last of kind note; its bytes. */
static char *three(size_t *n)
{
	struct bc_journal journal;
	char *bytes = NULL;
	struct bc_entry first = reading(5.0, 233.6);
	struct bc_entry second = reading(10.0, 267.7);
	struct bc_entry third = reading(NAN, NAN);
	char words[] = "bumping | twice";
	third.kind = BC_ENTRY_NOTE;
	third.pot = NAN;
	third.text = words;
	assert_int_equal(open_it(&journal), BC_OK);
	assert_int_equal(bc_journal_add(&journal, &first, NULL), BC_OK);
	assert_int_equal(bc_journal_add(&journal, &second, NULL), BC_OK);
	assert_int_equal(bc_journal_add(&journal, &third, NULL), BC_OK);
	bc_journal_close(&journal);
	assert_int_equal(bc_file_read(path, 10000, &bytes, n, NULL), BC_OK);
	return bytes;
}

static void write_file(const char *bytes, size_t n)
{
	unlink(path);
	assert_int_equal(bc_file_write(path, bytes, n, NULL), BC_OK);
}

static size_t start_of_last(const char *bytes, size_t n)
{
	size_t at = n - 1;
	while (bytes[at - 1] != '\n')
		at--;
	return at;
}

static void comes_back(void **state)
{
	(void)state;
	size_t n = 0;
	struct bc_journal journal;
	bc_free(three(&n));
	assert_int_equal(open_it(&journal), BC_OK);
	const struct bc_journal_text *text = &journal.text;
	assert_int_equal(text->entries.n, 3);
	assert_int_equal(text->head.basis, BC_AMOUNT_VOLUME_ML);
	assert_int_equal(text->head.unit, 'F');
	assert_false(text->torn || text->mended || text->open_line || text->fresh);
	const struct bc_entry *second = &text->entries.items[1];
	assert_int_equal(second->kind, BC_ENTRY_READ);
	assert_close(second->amount, 10.0, 1e-12);
	assert_close(second->head, 267.7, 1e-12);
	assert_close(second->pot, 298.95, 1e-12);
	assert_close(second->time_s, 127.3, 1e-9);
	assert_close(second->wall_s, 1790000127.375, 1e-6);
	assert_int_equal(second->session, 3);
	assert_null(second->text);
	assert_string_equal(text->entries.items[2].text, "bumping | twice");
	assert_nan(text->entries.items[2].head);
	bc_journal_close(&journal);
}

/* The checksum is the one that everybody calls CRC-32: a line by an independent program. */
static void checksum(void **state)
{
	(void)state;
	static const char line[] = "boilcut journal 1|recovered (%)|head (C)|b.csv|42AE710E\n";
	struct bc_journal_text text;
	assert_int_equal(bc_journal_read(line, strlen(line), "b.csv", "b", NULL, &text), BC_OK);
	assert_int_equal(text.next, 1);
	bc_journal_text_release(&text);
}

/* Every cut of the last record: the others stand, what is left of it is shown, and what is added
 * afterwards stands too, through another cut. */
static void a_cut_at_every_byte(void **state)
{
	(void)state;
	size_t n = 0;
	char *bytes = three(&n);
	size_t last = start_of_last(bytes, n);
	for (size_t cut = last; cut <= n; cut++) {
		struct bc_journal journal;
		struct bc_entry more = reading(20.0, 298.4);
		write_file(bytes, cut);
		assert_int_equal(open_it(&journal), BC_OK);
		bool whole = cut >= n - 1;
		assert_int_equal(journal.text.entries.n, whole ? 3 : 2);
		assert_int_equal(journal.text.torn, !whole && cut > last);
		assert_int_equal(journal.text.mended, cut == n - 1);
		if (journal.text.torn) {
			assert_int_equal(strlen(journal.text.torn_text), cut - last);
			assert_memory_equal(journal.text.torn_text, bytes + last, cut - last);
		}
		assert_int_equal(bc_journal_add(&journal, &more, NULL), BC_OK);
		bc_journal_close(&journal);
		assert_int_equal(open_it(&journal), BC_OK);
		const struct bc_entries *entries = &journal.text.entries;
		assert_false(journal.text.torn);
		assert_close(entries->items[entries->n - 1].amount, 20.0, 1e-12);
		assert_close(entries->items[1].amount, 10.0, 1e-12);
		bc_journal_close(&journal);
	}
	bc_free(bytes);
}

/* A power cut while the word "torn" is written behind a torn line. */
static void a_cut_behind_a_cut(void **state)
{
	(void)state;
	size_t n = 0;
	size_t again = 0;
	struct bc_journal journal;
	char *bytes = three(&n);
	write_file(bytes, n - 4);
	bc_free(bytes);
	assert_int_equal(open_it(&journal), BC_OK);
	bc_journal_close(&journal);
	assert_int_equal(bc_file_read(path, 10000, &bytes, &again, NULL), BC_OK);
	for (size_t cut = n - 4; cut <= again; cut++) {
		struct bc_entry more = reading(20.0, 298.4);
		write_file(bytes, cut);
		assert_int_equal(open_it(&journal), BC_OK);
		assert_int_equal(bc_journal_add(&journal, &more, NULL), BC_OK);
		bc_journal_close(&journal);
		assert_int_equal(open_it(&journal), BC_OK);
		const struct bc_entries *entries = &journal.text.entries;
		assert_close(entries->items[entries->n - 1].amount, 20.0, 1e-12);
		assert_close(entries->items[1].amount, 10.0, 1e-12);
		bc_journal_close(&journal);
	}
	bc_free(bytes);
}

static void a_first_line_cut_short(void **state)
{
	(void)state;
	size_t n = 0;
	char *bytes = three(&n);
	size_t first = strcspn(bytes, "\n");
	for (size_t cut = 0; cut <= first; cut++) {
		struct bc_journal journal;
		write_file(bytes, cut);
		assert_int_equal(open_it(&journal), BC_OK);
		assert_true(journal.text.fresh);
		bc_journal_close(&journal);
		assert_int_equal(open_it(&journal), BC_OK);
		assert_false(journal.text.fresh);
		assert_int_equal(journal.text.entries.n, 0);
		bc_journal_close(&journal);
	}
	bc_free(bytes);
}

/* A disk that lost what was not synced leaves zeros. */
static void zeros_at_the_end(void **state)
{
	(void)state;
	size_t n = 0;
	struct bc_journal journal;
	char *bytes = three(&n);
	memset(bytes + n - 20, 0, 20);
	write_file(bytes, n);
	bc_free(bytes);
	assert_int_equal(open_it(&journal), BC_OK);
	assert_int_equal(journal.text.entries.n, 2);
	assert_true(journal.text.torn);
	bc_journal_close(&journal);
}

static void assert_refused(const char *bytes, size_t n, const char *file, const char *why)
{
	struct bc_diagnostics diagnostics;
	struct bc_journal_text text;
	bc_diagnostics_init(&diagnostics);
	assert_int_equal(bc_journal_read(bytes, n, file, "j", &diagnostics, &text), BC_MALFORMED);
	assert_non_null(strstr(diagnostics.items[0].text, why));
	bc_journal_text_release(&text);
	bc_diagnostics_release(&diagnostics);
}

static void strangers(void **state)
{
	(void)state;
	size_t n = 0;
	static const char later[] = "boilcut journal 2|x|2E5B6B4E\n";
	char *bytes = three(&n);
	assert_refused("recovered (%),head (C)\n5,112\n", 29, "x", "is not a journal");
	assert_refused("hello", 5, "x", "is not a journal");
	assert_refused("\n", 1, "x", "is not a journal");
	assert_refused(later, strlen(later), "x", "damaged first line");
	assert_refused(
		bytes, n, "other.csv", "is the journal of 'lake|shed.csv'; that of 'other.csv'");
	bc_free(bytes);
	/* nothing of it is changed */
	write_file("hello", 5);
	struct bc_journal journal;
	assert_int_equal(open_it(&journal), BC_MALFORMED);
	bc_journal_close(&journal);
	assert_int_equal(bc_file_read(path, 100, &bytes, &n, NULL), BC_OK);
	assert_string_equal(bytes, "hello");
	bc_free(bytes);
}

/* Every single byte of the records but the last, changed: the reader refuses, or it was a line of
 * the tail. */
static void damage(void **state)
{
	(void)state;
	size_t n = 0;
	char *bytes = three(&n);
	size_t last = start_of_last(bytes, n);
	size_t first = strcspn(bytes, "\n") + 1;
	for (size_t i = first; i + 1 < last; i++) {
		struct bc_journal_text text;
		bytes[i] ^= 4;
		assert_int_equal(
			bc_journal_read(bytes, n, head.file, "j", NULL, &text), BC_MALFORMED);
		bc_journal_text_release(&text);
		bytes[i] ^= 4;
	}
	bc_free(bytes);
}

/* A line that somebody wrote in between, though all others hold and are in order. */
static void a_line_in_between(void **state)
{
	(void)state;
	size_t n = 0;
	char *bytes = three(&n);
	size_t last = start_of_last(bytes, n);
	struct bc_text text;
	bc_text_init(&text);
	bc_text_append_n(&text, bytes, last);
	bc_text_append(&text, "20 298.4\n");
	bc_text_append(&text, bytes + last);
	assert_refused(text.data, text.length, head.file, "damaged here, with good lines behind");
	bc_text_release(&text);
	bc_free(bytes);
}

static void a_full_disk(void **state)
{
	(void)state;
	size_t n = 0;
	bc_free(three(&n));
	for (unsigned long nth = 1; nth <= 4; nth++) {
		struct bc_journal journal;
		struct bc_entry lost = reading(20.0, 298.4);
		struct bc_entry kept = reading(30.0 + (double)nth, 321.7);
		assert_int_equal(open_it(&journal), BC_OK);
		size_t before = journal.text.entries.n;
		/* from the third on the disk fails for good, and the end of the file with it */
		bc_fault_set(BC_FAULT_WRITE, nth > 2 ? nth - 2 : nth, nth > 2);
		assert_int_equal(bc_journal_add(&journal, &lost, NULL), BC_IO);
		bc_fault_set(BC_FAULT_WRITE, 0, false);
		assert_int_equal(bc_journal_add(&journal, &kept, NULL), BC_OK);
		bc_journal_close(&journal);
		assert_int_equal(open_it(&journal), BC_OK);
		const struct bc_entries *entries = &journal.text.entries;
		assert_close(entries->items[entries->n - 1].amount, 30.0 + (double)nth, 1e-12);
		for (size_t i = before; i < entries->n; i++)
			assert_false(entries->items[i].amount == 20.0);
		bc_journal_close(&journal);
	}
}

static void no_memory(void **state)
{
	(void)state;
	size_t n = 0;
	char *bytes = three(&n);
	unsigned long nth = 1;
	for (enum bc_status status = BC_NO_MEMORY; status == BC_NO_MEMORY; nth++) {
		struct bc_journal_text text;
		bc_fault_set(BC_FAULT_ALLOC, nth, false);
		status = bc_journal_read(bytes, n, head.file, "j", NULL, &text);
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		assert_true(status == BC_OK || status == BC_NO_MEMORY);
		bc_journal_text_release(&text);
	}
	assert_true(nth > 5);
	bc_free(bytes);
}

#define WITH_FOLDER(test) cmocka_unit_test_setup_teardown(test, make_folder, remove_folder)

int main(void)
{
	const struct CMUnitTest tests[] = {
		WITH_FOLDER(comes_back),
		cmocka_unit_test(checksum),
		WITH_FOLDER(a_cut_at_every_byte),
		WITH_FOLDER(a_cut_behind_a_cut),
		WITH_FOLDER(a_first_line_cut_short),
		WITH_FOLDER(zeros_at_the_end),
		WITH_FOLDER(strangers),
		WITH_FOLDER(damage),
		WITH_FOLDER(a_line_in_between),
		WITH_FOLDER(a_full_disk),
		WITH_FOLDER(no_memory),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
