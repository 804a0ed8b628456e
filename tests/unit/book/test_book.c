/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file of a book: making and opening it, what is refused, and that a failure of memory, disk or
 * patience leaves it as it was. */
#include <errno.h>
#include <fcntl.h>
#include <sys/stat.h>

#include "base/fault.h"
#include "base/file.h"
#include "book/book_memory.h"
#include "book/check.h"
#include "unit/book/shed.h"

static void made_once(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_book second;
	shed_open_new(&shed);
	assert_int_equal(shed_count(&shed.book, "PRAGMA user_version"), BC_BOOK_SCHEMA);
	assert_int_equal(shed_count(&shed.book, "PRAGMA application_id"), BC_BOOK_APPLICATION_ID);
	assert_int_equal(shed_count(&shed.book, "PRAGMA synchronous"), 2);
	assert_int_equal(shed_count(&shed.book, "PRAGMA foreign_keys"), 1);
	assert_int_equal(bc_book_create(shed.path, &shed.said, &second), BC_IO);
	assert_string_equal(shed_last_words(&shed), "is there already");
	assert_int_equal(bc_book_open(shed.path, &shed.said, &second), BC_OK);
	bc_book_close(&second);
	shed_remove(&shed);
}

static void write_file(const char *path, const char *bytes, size_t n)
{
	assert_int_equal(bc_file_write(path, bytes, n, NULL), BC_OK);
}

static void an_empty_file_becomes_a_book(void **state)
{
	(void)state;
	struct shed shed;
	shed_make(&shed);
	write_file(shed.path, "", 0);
	assert_int_equal(bc_book_open(shed.path, &shed.said, &shed.book), BC_MALFORMED);
	assert_int_equal(bc_book_create(shed.path, &shed.said, &shed.book), BC_OK);
	shed_remove(&shed);
}

static void a_foreign_file_is_left_alone(void **state)
{
	(void)state;
	struct shed shed;
	const char text[] = "sample,Lake shed 14\nrecovered (%),head (C)\n5,112.5\n";
	char *bytes = NULL;
	size_t n = 0;
	shed_make(&shed);
	write_file(shed.path, text, sizeof text - 1);
	assert_int_equal(bc_book_open(shed.path, &shed.said, &shed.book), BC_MALFORMED);
	assert_string_equal(shed_last_words(&shed), "is no record book");
	assert_int_equal(bc_file_read(shed.path, 1000, &bytes, &n, NULL), BC_OK);
	assert_string_equal(bytes, text);
	bc_free(bytes);
	unlink(shed.path);
	/* another program's database */
	sqlite3 *db = NULL;
	assert_int_equal(sqlite3_open(shed.path, &db), SQLITE_OK);
	assert_int_equal(sqlite3_exec(db, "CREATE TABLE cats (name)", NULL, NULL, NULL), SQLITE_OK);
	sqlite3_close(db);
	assert_int_equal(bc_book_open(shed.path, &shed.said, &shed.book), BC_MALFORMED);
	assert_string_equal(shed_last_words(&shed), "is no record book");
	assert_int_equal(bc_book_open(shed.folder, &shed.said, &shed.book), BC_IO);
	shed_remove(&shed);
}

static void a_newer_schema_is_refused(void **state)
{
	(void)state;
	struct shed shed;
	char sql[64];
	shed_open_new(&shed);
	snprintf(sql, sizeof sql, "PRAGMA user_version = %d", BC_BOOK_SCHEMA + 1);
	assert_int_equal(bc_book_run(&shed.book, sql), BC_OK);
	bc_book_close(&shed.book);
	assert_int_equal(bc_book_open(shed.path, &shed.said, &shed.book), BC_MALFORMED);
	assert_string_equal(
		shed_last_words(&shed), "was written by a newer boilcut; this one would harm it");
	shed_remove(&shed);
}

/* Cut off or overwritten anywhere, a book is refused or found damaged; never a crash, never whole.
 */
static void damage_is_found(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_place place;
	char text[32];
	char *bytes = NULL;
	size_t n = 0;
	shed_open_new(&shed);
	for (int i = 0; i < 20; i++) {
		snprintf(text, sizeof text, "jar %d", i);
		struct bc_entry entry = shed_entry(text);
		assert_int_equal(bc_book_add(&shed.book, &entry, &place), BC_OK);
	}
	bc_book_close(&shed.book);
	assert_int_equal(bc_file_read(shed.path, 1 << 24, &bytes, &n, NULL), BC_OK);
	for (size_t at = 1; at < n; at += n / 23) {
		write_file(shed.path, bytes, at);
		enum bc_status status = bc_book_open(shed.path, &shed.said, &shed.book);
		if (!bc_failed(status))
			status = bc_book_check(&shed.book);
		assert_int_equal(status, BC_MALFORMED);
		bc_book_close(&shed.book);
	}
	size_t page = 4096;
	for (size_t at = page; at + page <= n; at += page) {
		char *harmed = bc_alloc(n);
		memcpy(harmed, bytes, n);
		memset(harmed + at, 0xa7, page);
		write_file(shed.path, harmed, n);
		enum bc_status status = bc_book_open(shed.path, &shed.said, &shed.book);
		if (!bc_failed(status))
			status = bc_book_check(&shed.book);
		assert_int_equal(status, BC_MALFORMED);
		bc_book_close(&shed.book);
		bc_free(harmed);
	}
	bc_free(bytes);
	shed_remove(&shed);
}

static void lost_rows_are_found(void **state)
{
	(void)state;
	static const char *const harms[] = {
		"PRAGMA foreign_keys = OFF; DROP TRIGGER content_stays_delete; "
		"DELETE FROM content",
		"DROP TRIGGER content_stays_update; UPDATE content SET bytes = x'31'",
		"PRAGMA foreign_keys = OFF; DROP TRIGGER batch_stays_delete; DELETE FROM batch",
		"INSERT INTO batch (opened) VALUES ('2026-10-03T12:00:00Z')",
		"DROP TRIGGER revision_stays_update; "
		"UPDATE revision SET number = 2, reason = 'x'",
	};
	for (size_t i = 0; i < sizeof harms / sizeof harms[0]; i++) {
		struct shed shed;
		struct bc_place place;
		shed_open_new(&shed);
		struct bc_entry entry = shed_entry("first");
		assert_int_equal(bc_book_add(&shed.book, &entry, &place), BC_OK);
		assert_int_equal(bc_book_check(&shed.book), BC_OK);
		assert_int_equal(bc_book_run(&shed.book, harms[i]), BC_OK);
		assert_int_equal(bc_book_check(&shed.book), BC_MALFORMED);
		shed_remove(&shed);
	}
}

/* ---- older books */

static void open_stored(struct shed *shed, const char *name)
{
	char path[512];
	char *sql = NULL;
	size_t n = 0;
	sqlite3 *db = NULL;
	const char *top = getenv("TOP");
	snprintf(path, sizeof path, "%s/tests/book/%s", top ? top : ".", name);
	shed_make(shed);
	assert_int_equal(bc_file_read(path, 1 << 24, &sql, &n, NULL), BC_OK);
	assert_int_equal(sqlite3_open(shed->path, &db), SQLITE_OK);
	assert_int_equal(sqlite3_exec(db, sql, NULL, NULL, NULL), SQLITE_OK);
	sqlite3_close(db);
	bc_free(sql);
	assert_int_equal(bc_book_open(shed->path, &shed->said, &shed->book), BC_OK);
}

static void version_1_opens(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_record record;
	open_stored(&shed, "version-1.sql");
	assert_int_equal(shed_count(&shed.book, "PRAGMA user_version"), BC_BOOK_SCHEMA);
	assert_int_equal(bc_book_check(&shed.book), BC_OK);
	assert_int_equal(bc_book_read(&shed.book, 2, 0, &record), BC_OK);
	assert_int_equal(record.place.number, 2);
	assert_string_equal(record.reason, "IBP misread");
	assert_int_equal(record.n_notes, 1);
	assert_true(record.n > 100);
	bc_record_release(&record);
	shed_remove(&shed);
}

static void steps_lead_forward(void **state)
{
	(void)state;
	static const char *const steps[] = {NULL,
		"CREATE TABLE shelf (id INTEGER PRIMARY KEY, place TEXT NOT NULL) STRICT",
		"INSERT INTO shelf (place) VALUES ('by the door')"};
	static const char *const broken[] = {
		NULL, NULL, NULL, "CREATE TABLE lid (id)", "CREATE TABLE shelf (id)"};
	struct shed shed;
	open_stored(&shed, "version-1.sql");
	assert_int_equal(bc_book_run(&shed.book, "PRAGMA user_version = 1"), BC_OK);
	assert_int_equal(bc_book_bring_forward(&shed.book, steps, 3), BC_OK);
	assert_int_equal(shed_count(&shed.book, "PRAGMA user_version"), 3);
	assert_int_equal(shed_count(&shed.book, "SELECT count(*) FROM shelf"), 1);
	assert_int_equal(bc_book_bring_forward(&shed.book, broken, 5), BC_IO);
	assert_int_equal(shed_count(&shed.book, "PRAGMA user_version"), 3);
	assert_int_equal(
		shed_count(&shed.book, "SELECT count(*) FROM sqlite_schema WHERE name = 'lid'"), 0);
	assert_int_equal(bc_book_check(&shed.book), BC_OK);
	shed_remove(&shed);
}

/* ---- what fails on the way */

static void a_busy_book_says_so(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_book other;
	struct bc_place place;
	shed_open_new(&shed);
	setenv("BOILCUT_PATIENCE_MS", "20", 1);
	assert_int_equal(bc_book_open(shed.path, &shed.said, &other), BC_OK);
	struct bc_entry entry = shed_entry("first");
	assert_int_equal(bc_book_begin(&shed.book), BC_OK);
	assert_int_equal(bc_book_add(&other, &entry, &place), BC_IO);
	assert_string_equal(
		shed_last_words(&shed), "is in use by another process, and did not come free");
	assert_int_equal(bc_book_end(&shed.book, BC_OK), BC_OK);
	assert_int_equal(bc_book_add(&other, &entry, &place), BC_OK);
	bc_book_close(&other);
	unsetenv("BOILCUT_PATIENCE_MS");
	shed_remove(&shed);
}

static void a_reader_makes_no_half_batch(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_book other;
	struct bc_place place;
	shed_open_new(&shed);
	setenv("BOILCUT_PATIENCE_MS", "20", 1);
	assert_int_equal(bc_book_open(shed.path, &shed.said, &other), BC_OK);
	unsetenv("BOILCUT_PATIENCE_MS");
	struct bc_entry entry = shed_entry("first");
	sqlite3_stmt *reading = NULL;
	assert_int_equal(sqlite3_prepare_v2(shed.book.db, "SELECT name FROM sqlite_schema", -1,
				 &reading, NULL),
		SQLITE_OK);
	assert_int_equal(sqlite3_step(reading), SQLITE_ROW);
	assert_int_equal(bc_book_add(&other, &entry, &place), BC_IO);
	sqlite3_finalize(reading);
	assert_int_equal(shed_count(&shed.book, "SELECT count(*) FROM batch"), 0);
	assert_int_equal(bc_book_add(&other, &entry, &place), BC_OK);
	bc_book_close(&other);
	shed_remove(&shed);
}

static void a_full_disk_leaves_it_as_it_was(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_place place;
	struct bc_entry small = shed_entry("small");
	struct bc_entry large = shed_entry("large");
	char *judgement = bc_alloc(1 << 20);
	shed_open_new(&shed);
	memset(judgement, ' ', (1 << 20) - 1);
	large.judgement = judgement;
	assert_int_equal(bc_book_add(&shed.book, &small, &place), BC_OK);
	assert_int_equal(bc_book_run(&shed.book, "PRAGMA max_page_count = 100"), BC_OK);
	assert_int_equal(bc_book_add(&shed.book, &large, &place), BC_IO);
	assert_string_equal(shed_last_words(&shed), "the disk is full; the book is as it was");
	assert_int_equal(shed_count(&shed.book, "SELECT count(*) FROM batch"), 1);
	assert_int_equal(bc_book_run(&shed.book, "PRAGMA max_page_count = 10000"), BC_OK);
	assert_int_equal(bc_book_add(&shed.book, &large, &place), BC_OK);
	assert_int_equal(bc_book_check(&shed.book), BC_OK);
	bc_free(judgement);
	shed_remove(&shed);
}

/* Writes fail from the n-th on, as on a disk that fills up or a stick that is pulled. */
static long writes_left;
static int write_errno;

static ssize_t failing_write(int fd, const void *bytes, size_t n, off_t at)
{
	if (writes_left-- <= 0) {
		errno = write_errno;
		return -1;
	}
	return pwrite(fd, bytes, n, at);
}

static int failing_sync(int fd)
{
	if (writes_left-- <= 0) {
		errno = EIO;
		return -1;
	}
	return fsync(fd);
}

static void set_failing(bool on)
{
	sqlite3_vfs *vfs = sqlite3_vfs_find(NULL);
	sqlite3_syscall_ptr writing = on ? (sqlite3_syscall_ptr)failing_write : NULL;
	vfs->xSetSystemCall(vfs, "pwrite", writing);
	vfs->xSetSystemCall(vfs, "pwrite64", writing);
	vfs->xSetSystemCall(vfs, "fsync", on ? (sqlite3_syscall_ptr)failing_sync : NULL);
}

static void the_nth_write_fails(void **state)
{
	(void)state;
	static const int errors[] = {ENOSPC, EIO};
	for (size_t kind = 0; kind < 2; kind++) {
		struct shed shed;
		struct bc_place place;
		shed_open_new(&shed);
		struct bc_entry first = shed_entry("first");
		struct bc_entry second = shed_entry("second");
		assert_int_equal(bc_book_add(&shed.book, &first, &place), BC_OK);
		bc_book_close(&shed.book);
		long n = 0;
		enum bc_status status = BC_IO;
		while (bc_failed(status) && n < 1000) {
			assert_int_equal(bc_book_open(shed.path, &shed.said, &shed.book), BC_OK);
			writes_left = n++;
			write_errno = errors[kind];
			set_failing(true);
			status = bc_book_add(&shed.book, &second, &place);
			bc_book_close(&shed.book);
			set_failing(false);
			assert_true(status == BC_OK || status == BC_IO);
			assert_int_equal(bc_book_open(shed.path, &shed.said, &shed.book), BC_OK);
			assert_int_equal(bc_book_check(&shed.book), BC_OK);
			assert_int_equal(shed_count(&shed.book, "SELECT count(*) FROM content"),
				bc_failed(status) ? 1 : 2);
			bc_book_close(&shed.book);
		}
		assert_true(n > 10);
		assert_int_equal(status, BC_OK);
		shed_remove(&shed);
	}
}

static enum bc_status count_row(const struct bc_book_row *row, void *context)
{
	(void)row;
	++*(int *)context;
	return BC_OK;
}

/* What a day with the book does, in a process of its own to the library: open, add, list, read. */
static enum bc_status a_day(struct shed *shed, const struct bc_entry *entry)
{
	struct bc_book book;
	struct bc_record record = {0};
	struct bc_place place = {0};
	int rows = 0;
	enum bc_status status = bc_book_open(shed->path, &shed->said, &book);
	if (!bc_failed(status))
		status = bc_book_add(&book, entry, &place);
	if (!bc_failed(status))
		status = bc_book_list(
			&book, &(struct bc_book_filter){.text = "e"}, count_row, &rows);
	if (!bc_failed(status))
		status = bc_book_read(&book, 1, 0, &record);
	if (!bc_failed(status))
		assert_int_equal(rows, (int)place.batch);
	if (!bc_failed(status))
		status = bc_book_note(&book, 1, "once a day", NULL);
	bc_record_release(&record);
	bc_book_close(&book);
	return status;
}

static void the_nth_allocation_fails(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_place place;
	shed_open_new(&shed);
	struct bc_entry first = shed_entry("first");
	struct bc_entry second = shed_entry("second");
	assert_int_equal(bc_book_add(&shed.book, &first, &place), BC_OK);
	bc_book_close(&shed.book);
	for (int sticky = 1; sticky >= 0; sticky--) {
		enum bc_status status = BC_NO_MEMORY;
		unsigned long n = 0;
		unsigned long made = 0;
		/* SQLite may bear a single failure, and do without a cache */
		do {
			n += getenv("BOILCUT_LONG") != NULL ? 1 : 3;
			bc_fault_set(BC_FAULT_ALLOC, n, sticky != 0);
			status = a_day(&shed, &second);
			made = bc_fault_count(BC_FAULT_ALLOC);
			bc_fault_set(BC_FAULT_ALLOC, 0, false);
			assert_true(status == BC_OK || status == BC_NO_MEMORY);
		} while (n < 20000 && made >= n);
		assert_int_equal(status, BC_OK);
		assert_true(n > 100);
		assert_int_equal(bc_book_open(shed.path, &shed.said, &shed.book), BC_OK);
		assert_int_equal(bc_book_check(&shed.book), BC_OK);
		assert_int_equal(shed_count(&shed.book, "SELECT count(*) FROM content"), 2);
		bc_book_close(&shed.book);
	}
	shed_remove(&shed);
}

static void making_runs_out_of_memory(void **state)
{
	(void)state;
	struct shed shed;
	enum bc_status status = BC_NO_MEMORY;
	shed_make(&shed);
	for (unsigned long n = 1; n < 100000 && status == BC_NO_MEMORY; n += 1 + n / 16) {
		bc_fault_set(BC_FAULT_ALLOC, n, true);
		status = bc_book_create(shed.path, &shed.said, &shed.book);
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		assert_int_equal(access(shed.path, F_OK), bc_failed(status) ? -1 : 0);
	}
	assert_int_equal(status, BC_OK);
	shed_remove(&shed);
}

#define NOBODY 65534

static void a_book_that_cannot_be_written_is_read(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_place place;
	int rows = 0;
	const bool root = geteuid() == 0;
	shed_open_new(&shed);
	struct bc_entry first = shed_entry("first");
	struct bc_entry second = shed_entry("second");
	assert_int_equal(bc_book_add(&shed.book, &first, &place), BC_OK);
	bc_book_close(&shed.book);
	/* nothing is closed to root */
	if (root && (chown(shed.folder, NOBODY, (gid_t)-1) != 0 ||
			    chown(shed.path, NOBODY, (gid_t)-1) != 0 || seteuid(NOBODY) != 0))
		skip();
	assert_int_equal(chmod(shed.path, 0444), 0);
	assert_int_equal(bc_book_open(shed.path, &shed.said, &shed.book), BC_OK);
	assert_int_equal(
		bc_book_list(&shed.book, &(struct bc_book_filter){0}, count_row, &rows), BC_OK);
	assert_int_equal(rows, 1);
	assert_int_equal(bc_book_add(&shed.book, &second, &place), BC_IO);
	assert_string_equal(shed_last_words(&shed), "cannot be written");
	bc_book_close(&shed.book);
	assert_int_equal(chmod(shed.path, 0644), 0);
	assert_int_equal(chmod(shed.folder, 0555), 0);
	assert_int_equal(bc_book_open(shed.path, &shed.said, &shed.book), BC_OK);
	assert_int_equal(bc_book_add(&shed.book, &second, &place), BC_IO);
	assert_int_equal(chmod(shed.folder, 0755), 0);
	assert_int_equal(bc_book_add(&shed.book, &second, &place), BC_OK);
	if (root)
		assert_int_equal(seteuid(0), 0);
	shed_remove(&shed);
}

static void where_it_is(void **state)
{
	(void)state;
	static const char *const cases[][5] = {
		{"own.db", "/b.db", "/data", "/home/a", "own.db"},
		{NULL, "/b.db", "/data", "/home/a", "/b.db"},
		{NULL, "", "/data", "/home/a", "/data/boilcut/book.db"},
		{NULL, NULL, "relative", "/home/a", "/home/a/.local/share/boilcut/book.db"},
		{NULL, NULL, NULL, "/home/a", "/home/a/.local/share/boilcut/book.db"},
	};
	static const char *const names[] = {"BOILCUT_BOOK", "XDG_DATA_HOME", "HOME"};
	for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
		for (size_t k = 0; k < 3; k++) {
			if (cases[i][k + 1] != NULL)
				setenv(names[k], cases[i][k + 1], 1);
			else
				unsetenv(names[k]);
		}
		char *path = bc_book_path(cases[i][0]);
		assert_string_equal(path, cases[i][4]);
		bc_free(path);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(made_once),
		cmocka_unit_test(an_empty_file_becomes_a_book),
		cmocka_unit_test(a_foreign_file_is_left_alone),
		cmocka_unit_test(a_newer_schema_is_refused),
		cmocka_unit_test(damage_is_found),
		cmocka_unit_test(lost_rows_are_found),
		cmocka_unit_test(version_1_opens),
		cmocka_unit_test(steps_lead_forward),
		cmocka_unit_test(a_busy_book_says_so),
		cmocka_unit_test(a_reader_makes_no_half_batch),
		cmocka_unit_test(a_full_disk_leaves_it_as_it_was),
		cmocka_unit_test(the_nth_write_fails),
		cmocka_unit_test(the_nth_allocation_fails),
		cmocka_unit_test(making_runs_out_of_memory),
		cmocka_unit_test(a_book_that_cannot_be_written_is_read),
		cmocka_unit_test(where_it_is),
	};
	/* before anything else starts the library */
	if (bc_failed(bc_book_memory()))
		return 1;
	return cmocka_run_group_tests(tests, NULL, NULL);
}
