/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records: what goes in comes out, the same bytes go in once, nothing changes, lists find. */
#include "book/check.h"
#include "unit/book/shed.h"

static void comes_back_as_it_went_in(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_place place;
	struct bc_record record;
	const char bytes[] = "sample,\0\r\n\xff'; DROP TABLE batch; --";
	shed_open_new(&shed);
	struct bc_entry entry = shed_entry("");
	entry.bytes = bytes;
	entry.n = sizeof bytes - 1;
	entry.name = "<b>\"Bobby\"</b> `tables`\n\x1b[31m";
	entry.basis[BC_BASIS_STILL] = "plates,3\n";
	assert_int_equal(bc_book_add(&shed.book, &entry, &place), BC_OK);
	assert_false(place.already);
	assert_int_equal(place.batch, 1);
	assert_int_equal(bc_book_read(&shed.book, 1, 0, &record), BC_OK);
	assert_int_equal(record.n, entry.n);
	assert_memory_equal(record.bytes, bytes, entry.n);
	assert_string_equal(record.name, entry.name);
	assert_string_equal(record.day, "2026-10-03");
	assert_string_equal(record.judgement, entry.judgement);
	assert_string_equal(record.grade, "diesel-range");
	assert_string_equal(record.basis[BC_BASIS_LIMITS], "grade,standard\n");
	assert_string_equal(record.basis[BC_BASIS_STILL], "plates,3\n");
	assert_null(record.basis[BC_BASIS_OFFSET]);
	assert_string_equal(record.basis[BC_BASIS_OPTIONS], "{}");
	assert_null(record.reason);
	assert_int_equal(record.n_revisions, 1);
	assert_int_equal(shed_count(&shed.book, "SELECT count(*) FROM figure"), 2);
	assert_int_equal(
		shed_count(&shed.book, "SELECT count(*) FROM figure WHERE low IS NULL"), 1);
	bc_record_release(&record);
	assert_int_equal(bc_book_read(&shed.book, 2, 0, &record), BC_NOT_FOUND);
	bc_record_release(&record);
	assert_int_equal(bc_book_read(&shed.book, 1, 2, &record), BC_NOT_FOUND);
	bc_record_release(&record);
	shed_remove(&shed);
}

static void an_empty_file_is_bytes_too(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_place place;
	shed_open_new(&shed);
	struct bc_entry entry = shed_entry("");
	assert_int_equal(bc_book_add(&shed.book, &entry, &place), BC_OK);
	assert_int_equal(bc_book_add(&shed.book, &entry, &place), BC_OK);
	assert_true(place.already);
	shed_remove(&shed);
}

static void undated_stands_under_the_day_it_was_added(void **state)
{
	(void)state;
	static const char *const dates[] = {NULL, "3 October", "2026-02-29", "2026-13-01",
		"2026-10-32", "2026-1-03", "1900-02-29"};
	struct shed shed;
	struct bc_place place;
	struct bc_record record;
	char text[32];
	shed_open_new(&shed);
	for (size_t i = 0; i < sizeof dates / sizeof dates[0]; i++) {
		snprintf(text, sizeof text, "undated %zu", i);
		struct bc_entry entry = shed_entry(text);
		entry.date = dates[i];
		entry.added = "2026-11-25T13:40:07Z";
		assert_int_equal(bc_book_add(&shed.book, &entry, &place), BC_OK);
		assert_int_equal(bc_book_read(&shed.book, place.batch, 0, &record), BC_OK);
		assert_string_equal(record.day, "2026-11-25");
		bc_record_release(&record);
	}
	assert_true(bc_day_valid("2024-02-29"));
	assert_true(bc_day_valid("2000-02-29"));
	shed_remove(&shed);
}

static void same_bytes_are_refused_kindly(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_place place;
	shed_open_new(&shed);
	struct bc_entry first = shed_entry("first");
	struct bc_entry second = shed_entry("second");
	assert_int_equal(bc_book_add(&shed.book, &first, &place), BC_OK);
	assert_int_equal(bc_book_add(&shed.book, &second, &place), BC_OK);
	first.file = "copy.csv";
	assert_int_equal(bc_book_add(&shed.book, &first, &place), BC_OK);
	assert_true(place.already);
	assert_int_equal(place.batch, 1);
	assert_int_equal(place.number, 1);
	assert_int_equal(shed_count(&shed.book, "SELECT count(*) FROM batch"), 2);
	assert_int_equal(shed_count(&shed.book, "SELECT count(*) FROM basis"), 2);
	shed_remove(&shed);
}

/* Two files that differ and have one hash are two batches. */
static void a_hash_decides_nothing(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_place place;
	char sql[160];
	shed_open_new(&shed);
	struct bc_entry first = shed_entry("first");
	struct bc_entry second = shed_entry("other");
	struct bc_entry third = shed_entry("third");
	assert_int_equal(bc_book_add(&shed.book, &first, &place), BC_OK);
	assert_int_equal(bc_book_add(&shed.book, &second, &place), BC_OK);
	long long hash = shed_count(&shed.book, "SELECT hash FROM revision WHERE batch = 2");
	snprintf(sql, sizeof sql,
		"DROP TRIGGER revision_stays_update; UPDATE revision SET hash = %lld", hash);
	assert_int_equal(bc_book_run(&shed.book, sql), BC_OK);
	assert_int_equal(bc_book_add(&shed.book, &second, &place), BC_OK);
	assert_true(place.already);
	assert_int_equal(place.batch, 2);
	/* "other" looks up a row of "first" with its own hash */
	assert_int_equal(
		bc_book_run(&shed.book, "DROP TRIGGER content_stays_update;"
					"UPDATE content SET bytes = x'00' WHERE revision = 2"),
		BC_OK);
	assert_int_equal(bc_book_add(&shed.book, &second, &place), BC_OK);
	assert_false(place.already);
	assert_int_equal(place.batch, 3);
	assert_int_equal(bc_book_add(&shed.book, &third, &place), BC_OK);
	assert_false(place.already);
	shed_remove(&shed);
}

static void a_revision_keeps_the_old_one(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_place place;
	struct bc_record record;
	shed_open_new(&shed);
	struct bc_entry first = shed_entry("ibp 171");
	struct bc_entry other = shed_entry("ibp 190");
	struct bc_entry better = shed_entry("ibp 177");
	assert_int_equal(bc_book_add(&shed.book, &first, &place), BC_OK);
	assert_int_equal(bc_book_add(&shed.book, &other, &place), BC_OK);
	assert_int_equal(bc_book_revise(&shed.book, 1, "misread", &better, &place), BC_OK);
	assert_false(place.already);
	assert_int_equal(place.batch, 1);
	assert_int_equal(place.number, 2);
	assert_int_equal(bc_book_read(&shed.book, 1, 0, &record), BC_OK);
	assert_string_equal(record.bytes, "ibp 177");
	assert_string_equal(record.reason, "misread");
	assert_int_equal(record.n_revisions, 2);
	assert_null(record.revisions[0].reason);
	bc_record_release(&record);
	assert_int_equal(bc_book_read(&shed.book, 1, 1, &record), BC_OK);
	assert_string_equal(record.bytes, "ibp 171");
	bc_record_release(&record);

	assert_int_equal(bc_book_revise(&shed.book, 1, "again", &better, &place), BC_OK);
	assert_true(place.already);
	assert_int_equal(place.number, 2);
	better.judgement = "{}";
	assert_int_equal(bc_book_revise(&shed.book, 1, "other limits", &better, &place), BC_OK);
	assert_false(place.already);
	assert_int_equal(bc_book_revise(&shed.book, 1, "was right", &first, &place), BC_OK);
	assert_int_equal(place.number, 4);
	assert_int_equal(bc_book_revise(&shed.book, 1, "wrong file", &other, &place), BC_OK);
	assert_true(place.already);
	assert_int_equal(place.batch, 2);
	assert_int_equal(bc_book_revise(&shed.book, 3, "no", &better, &place), BC_NOT_FOUND);
	assert_int_equal(bc_book_check(&shed.book), BC_OK);
	shed_remove(&shed);
}

static void nothing_changes_in_place(void **state)
{
	(void)state;
	static const char *const tables[] = {"batch", "basis", "revision", "content", "figure",
		"note", "amount", "jar", "movement", "still", "pair"};
	static const char *const filled[] = {"batch", "basis", "revision", "content", "note"};
	struct shed shed;
	struct bc_place place;
	char sql[160];
	shed_open_new(&shed);
	struct bc_entry entry = shed_entry("first");
	assert_int_equal(bc_book_add(&shed.book, &entry, &place), BC_OK);
	assert_int_equal(bc_book_note(&shed.book, 1, "smells", NULL), BC_OK);
	for (size_t i = 0; i < sizeof tables / sizeof tables[0]; i++) {
		snprintf(sql, sizeof sql,
			"SELECT count(*) FROM sqlite_schema WHERE type = 'trigger' "
			"AND tbl_name = '%s'",
			tables[i]);
		assert_int_equal(shed_count(&shed.book, sql), 2);
	}
	assert_int_equal(shed_count(&shed.book, "SELECT count(*) FROM sqlite_schema "
						"WHERE type = 'table' AND name NOT LIKE 'sqlite%'"),
		sizeof tables / sizeof tables[0]);
	for (size_t i = 0; i < sizeof filled / sizeof filled[0]; i++) {
		snprintf(sql, sizeof sql, "DELETE FROM %s", filled[i]);
		assert_int_equal(bc_book_run(&shed.book, sql), BC_IO);
		assert_string_equal(shed_last_words(&shed), "the book is only added to");
		snprintf(sql, sizeof sql, "REPLACE INTO %s SELECT * FROM %s", filled[i], filled[i]);
		assert_int_equal(bc_book_run(&shed.book, sql), BC_IO);
	}
	assert_int_equal(bc_book_run(&shed.book, "UPDATE revision SET word = 'unfit'"), BC_IO);
	assert_int_equal(bc_book_run(&shed.book, "UPDATE figure SET value = 0"), BC_IO);
	shed_remove(&shed);
}

/* ---- lists */

struct seen {
	long long batches[32];
	size_t n;
	size_t stop_after;
};

static enum bc_status see(const struct bc_book_row *row, void *context)
{
	struct seen *seen = context;
	if (seen->n < 32)
		seen->batches[seen->n] = row->batch;
	seen->n++;
	return seen->stop_after != 0 && seen->n >= seen->stop_after ? BC_IO : BC_OK;
}

static void assert_lists(struct shed *shed, struct bc_book_filter filter, const char *expected)
{
	struct seen seen = {0};
	char got[256] = "";
	assert_int_equal(bc_book_list(&shed->book, &filter, see, &seen), BC_OK);
	for (size_t i = 0; i < seen.n; i++)
		snprintf(got + strlen(got), sizeof got - strlen(got), "%lld ", seen.batches[i]);
	assert_string_equal(got, expected);
}

static void fill(struct shed *shed)
{
	static const char *const rows[][6] = {
		{"2026-10-03", "PE crates", "copper", "usable", "diesel-range", "jar 1"},
		{"2026-11-03", "PP and pe CAPS", NULL, "re-run", "kerosene-range", "jar 2"},
		{"2026-10-03", NULL, "Copper", "unfit", NULL, "jar 3"},
		{"2026-09-30", "100% \"PE\"", "glass", "undecided", "diesel-range", "jar 4"},
	};
	struct bc_place place;
	for (size_t i = 0; i < 4; i++) {
		struct bc_entry entry = shed_entry(rows[i][5]);
		entry.date = rows[i][0];
		entry.feed = rows[i][1];
		entry.still = rows[i][2];
		entry.word = rows[i][3];
		entry.grade = rows[i][4];
		entry.name = rows[i][5];
		assert_int_equal(bc_book_add(&shed->book, &entry, &place), BC_OK);
	}
}

static void lists_find(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_place place;
	shed_open_new(&shed);
	fill(&shed);
	assert_lists(&shed, (struct bc_book_filter){0}, "2 3 1 4 ");
	assert_lists(&shed, (struct bc_book_filter){.most = 3}, "2 3 1 ");
	assert_lists(&shed, (struct bc_book_filter){.from = "2026-10-03"}, "2 3 1 ");
	assert_lists(&shed, (struct bc_book_filter){.until = "2026-10-03"}, "3 1 4 ");
	assert_lists(&shed, (struct bc_book_filter){.feed = "pe c"}, "2 1 ");
	assert_lists(&shed, (struct bc_book_filter){.feed = "%"}, "4 ");
	assert_lists(&shed, (struct bc_book_filter){.still = "COPPER"}, "3 1 ");
	assert_lists(&shed, (struct bc_book_filter){.word = "unfit"}, "3 ");
	assert_lists(&shed, (struct bc_book_filter){.grade = "Diesel"}, "1 4 ");
	assert_lists(&shed, (struct bc_book_filter){.grade = "range"}, "");
	assert_lists(&shed, (struct bc_book_filter){.text = "JAR 3"}, "3 ");
	assert_lists(&shed, (struct bc_book_filter){.text = "' OR 1=1 --"}, "");
	assert_int_equal(bc_book_note(&shed.book, 4, "Smells of wax", NULL), BC_OK);
	assert_int_equal(bc_book_note(&shed.book, 5, "no such", NULL), BC_NOT_FOUND);
	assert_lists(&shed, (struct bc_book_filter){.text = "WAX"}, "4 ");
	struct bc_entry better = shed_entry("better");
	better.date = "2026-12-01";
	assert_int_equal(bc_book_revise(&shed.book, 1, "misread", &better, &place), BC_OK);
	assert_lists(&shed, (struct bc_book_filter){0}, "1 2 3 4 ");
	assert_lists(&shed, (struct bc_book_filter){.still = "copper"}, "3 ");
	shed_remove(&shed);
}

static void a_list_longer_than_a_page_is_whole(void **state)
{
	(void)state;
	enum { BATCHES = 700 };
	struct shed shed;
	struct bc_place place = {0};
	struct seen seen = {0};
	struct bc_book_filter all = {0};
	char text[32];
	shed_open_new(&shed);
	assert_int_equal(bc_book_begin(&shed.book), BC_OK);
	for (int i = 0; i < BATCHES; i++) {
		snprintf(text, sizeof text, "jar %d", i);
		struct bc_entry entry = shed_entry(text);
		assert_int_equal(bc_book_add(&shed.book, &entry, &place), BC_OK);
	}
	assert_int_equal(bc_book_end(&shed.book, BC_OK), BC_OK);
	assert_int_equal(bc_book_list(&shed.book, &all, see, &seen), BC_OK);
	assert_int_equal(seen.n, BATCHES);
	assert_int_equal(seen.batches[0], BATCHES);
	all.most = 300;
	seen.n = 0;
	assert_int_equal(bc_book_list(&shed.book, &all, see, &seen), BC_OK);
	assert_int_equal(seen.n, 300);
	seen = (struct seen){.stop_after = 5};
	assert_int_equal(bc_book_list(&shed.book, &all, see, &seen), BC_IO);
	assert_int_equal(seen.n, 5);
	place = (struct bc_place){0};
	size_t walked = 0;
	while (bc_book_next(&shed.book, &place) == BC_OK)
		walked++;
	assert_int_equal(walked, BATCHES);
	shed_remove(&shed);
}

struct guest {
	struct bc_book *book;
	int added;
};

/* Another process adds while a list is being read. */
static enum bc_status add_meanwhile(const struct bc_book_row *row, void *context)
{
	struct guest *guest = context;
	struct bc_place place;
	char text[32];
	snprintf(text, sizeof text, "meanwhile %lld", row->batch);
	struct bc_entry entry = shed_entry(text);
	guest->added++;
	return bc_book_add(guest->book, &entry, &place);
}

static void a_list_keeps_nobody_waiting(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_book other;
	struct guest guest = {.book = &other};
	shed_open_new(&shed);
	fill(&shed);
	setenv("BOILCUT_PATIENCE_MS", "0", 1);
	assert_int_equal(bc_book_open(shed.path, &shed.said, &other), BC_OK);
	unsetenv("BOILCUT_PATIENCE_MS");
	struct bc_book_filter all = {.until = "2026-10-04"};
	assert_int_equal(bc_book_list(&shed.book, &all, add_meanwhile, &guest), BC_OK);
	assert_int_equal(guest.added, 3);
	bc_book_close(&other);
	shed_remove(&shed);
}

static void a_megabyte_is_text(void **state)
{
	(void)state;
	enum { MEGABYTE = 1 << 20 };
	struct shed shed;
	struct bc_place place;
	struct bc_record record;
	char text[32];
	char *huge = bc_alloc(MEGABYTE + 1);
	shed_open_new(&shed);
	memset(huge, 'x', MEGABYTE);
	for (int i = 0; i < 5; i++) {
		snprintf(text, sizeof text, "jar %d", i);
		struct bc_entry entry = shed_entry(text);
		entry.name = huge;
		entry.feed = huge;
		assert_int_equal(bc_book_add(&shed.book, &entry, &place), BC_OK);
	}
	assert_int_equal(bc_book_note(&shed.book, 1, huge, NULL), BC_OK);
	assert_lists(&shed, (struct bc_book_filter){.text = huge}, "5 4 3 2 1 ");
	assert_int_equal(bc_book_read(&shed.book, 1, 0, &record), BC_OK);
	assert_int_equal(strlen(record.notes[0].text), MEGABYTE);
	bc_record_release(&record);
	bc_free(huge);
	shed_remove(&shed);
}

static void one_failure_undoes_the_whole_transaction(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_place place;
	shed_open_new(&shed);
	struct bc_entry good = shed_entry("good");
	struct bc_entry bad = shed_entry("bad");
	bad.word = NULL;
	assert_int_equal(bc_book_begin(&shed.book), BC_OK);
	assert_int_equal(bc_book_add(&shed.book, &good, &place), BC_OK);
	assert_int_equal(bc_book_add(&shed.book, &bad, &place), BC_IO);
	assert_int_equal(bc_book_end(&shed.book, BC_IO), BC_IO);
	assert_int_equal(shed_count(&shed.book, "SELECT count(*) FROM batch"), 0);
	assert_int_equal(shed_count(&shed.book, "SELECT count(*) FROM basis"), 0);
	assert_int_equal(bc_book_add(&shed.book, &good, &place), BC_OK);
	assert_int_equal(place.batch, 1);
	shed_remove(&shed);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(comes_back_as_it_went_in),
		cmocka_unit_test(an_empty_file_is_bytes_too),
		cmocka_unit_test(undated_stands_under_the_day_it_was_added),
		cmocka_unit_test(same_bytes_are_refused_kindly),
		cmocka_unit_test(a_hash_decides_nothing),
		cmocka_unit_test(a_revision_keeps_the_old_one),
		cmocka_unit_test(nothing_changes_in_place),
		cmocka_unit_test(lists_find),
		cmocka_unit_test(a_list_longer_than_a_page_is_whole),
		cmocka_unit_test(a_list_keeps_nobody_waiting),
		cmocka_unit_test(a_megabyte_is_text),
		cmocka_unit_test(one_failure_undoes_the_whole_transaction),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
