/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Out of one book, into another, and out again: the same to the byte; anything else is refused. */
#include <dirent.h>
#include <sys/stat.h>

#include "base/csv.h"
#include "base/file.h"
#include "book/exchange.h"
#include "book/sheet.h"
#include "unit/book/shed.h"

/* ---- cells */

static void expect_cell(const char *s, const char *written)
{
	struct bc_text csv;
	struct bc_csv read;
	bc_text_init(&csv);
	bc_sheet_append_text(&csv, s);
	assert_string_equal(csv.data, written);
	bc_text_append(&csv, ",2\n");
	assert_int_equal(bc_csv_parse(csv.data, csv.length, ',', &read, NULL), BC_OK);
	assert_int_equal(read.n, 1);
	assert_int_equal(read.rows[0].n, 2);
	const char *again = bc_sheet_text(read.rows[0].fields[0]);
	assert_non_null(again);
	assert_string_equal(again, s);
	bc_csv_release(&read);
	bc_text_release(&csv);
}

static void no_cell_is_a_formula(void **state)
{
	(void)state;
	expect_cell("PE bottle caps", "PE bottle caps");
	expect_cell("=1+1", "\"'=1+1\"");
	expect_cell("+cmd|' /C calc'!A0", "\"'+cmd|' /C calc'!A0\"");
	expect_cell("-2", "'-2");
	expect_cell("@SUM(A1)", "\"'@SUM(A1)\"");
	expect_cell("\tx", "\"'\tx\"");
	expect_cell("\rx", "\"'\rx\"");
	expect_cell("'=1", "\"''=1\"");
	expect_cell("", "'");
	expect_cell("say \"hot\", or\nnot; ", "\"say \"\"hot\"\", or\nnot; \"");
	expect_cell(" both ends ", "\" both ends \"");
	expect_cell("Lackdose \xC3\xA4", "\"Lackdose \xC3\xA4\"");
	assert_null(bc_sheet_text(""));
}

static void numbers_come_back(void **state)
{
	(void)state;
	const double values[] = {0.1, 1234.56789012345678, -0.0, 1e-300, 5e-324, 127.3, 1.0 / 3.0,
		1.7976931348623157e308};
	for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
		struct bc_text csv;
		bc_text_init(&csv);
		bc_sheet_append_number(&csv, values[i]);
		double again = strtod(csv.data, NULL);
		assert_memory_equal(&again, &values[i], sizeof again);
		bc_text_release(&csv);
	}
}

/* ---- folders */

static void remove_folder(const char *path)
{
	DIR *listing = opendir(path);
	const struct dirent *entry = NULL;
	while (listing != NULL && (entry = readdir(listing)) != NULL) {
		char *inner = bc_format("%s/%s", path, entry->d_name);
		if (strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0) {
			if (unlink(inner) != 0)
				remove_folder(inner);
		}
		bc_free(inner);
	}
	if (listing != NULL)
		closedir(listing);
	rmdir(path);
}

/* How many files of one folder are the same in the other; fails where one is not. */
static size_t expect_same(const char *one, const char *other)
{
	size_t files = 0;
	DIR *listing = opendir(one);
	assert_non_null(listing);
	const struct dirent *entry = NULL;
	while ((entry = readdir(listing)) != NULL) {
		struct stat about;
		char *a = bc_format("%s/%s", one, entry->d_name);
		char *b = bc_format("%s/%s", other, entry->d_name);
		if (entry->d_name[0] == '.') {
			/* the folder and the one above */
		} else if (stat(a, &about) == 0 && S_ISDIR(about.st_mode)) {
			files += expect_same(a, b);
		} else {
			char *left = NULL;
			char *right = NULL;
			size_t n = 0;
			size_t m = 0;
			assert_int_equal(bc_file_read(a, 1u << 30, &left, &n, NULL), BC_OK);
			assert_int_equal(bc_file_read(b, 1u << 30, &right, &m, NULL), BC_OK);
			assert_int_equal(n, m);
			assert_memory_equal(left, right, n);
			bc_free(left);
			bc_free(right);
			files++;
		}
		bc_free(a);
		bc_free(b);
	}
	closedir(listing);
	return files;
}

/* A book with something in every table, and what no name should be. */
static void fill(struct shed *shed)
{
	static const char bytes[] = "sample,x\r\n\0\xFF\xFE\x1b[31m";
	struct bc_place place;
	struct bc_entry entry = shed_entry("plain");
	entry.basis[BC_BASIS_STILL] = "still,Copper\nplates,3\n";
	entry.basis[BC_BASIS_OFFSET] = "{\"offset_c\": -3.7}";
	assert_int_equal(bc_book_add(&shed->book, &entry, &place), BC_OK);
	entry = shed_entry("");
	entry.bytes = bytes;
	entry.n = sizeof bytes - 1;
	entry.file = "../..//etc/=cmd\n'\"`.csv";
	entry.name = "=HYPERLINK(\"http\")";
	entry.feed = "Robert'); DROP TABLE batch;--\r\n<b>";
	entry.still = "";
	entry.date = "soon";
	assert_int_equal(
		bc_book_revise(&shed->book, 1, "@misread, \"twice\"\n", &entry, &place), BC_OK);
	entry = shed_entry("third");
	entry.name = NULL;
	entry.grade = NULL;
	assert_int_equal(bc_book_add(&shed->book, &entry, &place), BC_OK);
	assert_int_equal(bc_book_note(&shed->book, 2, "\x1b[2J-\xff", NULL), BC_OK);
	assert_int_equal(bc_book_note(&shed->book, 1, "'", NULL), BC_OK);
	assert_int_equal(
		bc_book_run(&shed->book,
			"INSERT INTO amount VALUES (3, 2, '2026-10-03T00:00:00Z', 'plastic', 'PP', "
			"5.1234567890123456, 'kg');"
			"INSERT INTO jar VALUES ('=7', '2026-10-03T00:00:00Z', 1e-7, '+shelf'), "
			"('', '2026-10-03T00:00:00Z', NULL, '');"
			"INSERT INTO movement VALUES (1, 'a', '2026-10-03', 'fill', 2, NULL, '=7', "
			"437.3, NULL), (9, 'b', '2026-10-04', 'mix', NULL, '=7', '', 0.1, '-');"
			"INSERT INTO still VALUES (5, 'a', 'Copper', 'plates,3' || char(10));"
			"INSERT INTO pair VALUES (1, 'a', 1, 2, 'Copper', 170.3, NULL, '{}')"),
		BC_OK);
}

/* A filled book, exported. */
struct trip {
	struct shed from;
	struct shed to;
	char *folder;
	char *again;
};

static void set_out(struct trip *trip)
{
	shed_open_new(&trip->from);
	shed_open_new(&trip->to);
	trip->folder = bc_format("%s/out", trip->from.folder);
	trip->again = bc_format("%s/again", trip->from.folder);
	fill(&trip->from);
	assert_int_equal(bc_book_export(&trip->from.book, trip->folder), BC_OK);
}

static void come_home(struct trip *trip)
{
	remove_folder(trip->folder);
	remove_folder(trip->again);
	bc_free(trip->folder);
	bc_free(trip->again);
	shed_remove(&trip->from);
	shed_remove(&trip->to);
}

static void there_and_back(void **state)
{
	(void)state;
	struct trip trip;
	struct bc_record record;
	long long batches = 0;
	set_out(&trip);
	assert_int_equal(bc_book_import(&trip.to.book, trip.folder, &batches), BC_OK);
	assert_int_equal(batches, 2);
	assert_int_equal(bc_book_export(&trip.to.book, trip.again), BC_OK);
	/* 11 tables, 3 originals, 3 judgements, the head and the list */
	assert_int_equal(expect_same(trip.folder, trip.again), 19);
	assert_int_equal(bc_book_read(&trip.to.book, 1, 2, &record), BC_OK);
	assert_string_equal(record.name, "=HYPERLINK(\"http\")");
	assert_string_equal(record.still, "");
	assert_int_equal(record.n, 18);
	bc_record_release(&record);
	/* what was imported can be added to */
	struct bc_place place;
	struct bc_entry entry = shed_entry("plain");
	assert_int_equal(bc_book_add(&trip.to.book, &entry, &place), BC_OK);
	assert_true(place.already);
	come_home(&trip);
}

static void only_new_folders_and_empty_books(void **state)
{
	(void)state;
	struct trip trip;
	long long batches = 0;
	set_out(&trip);
	assert_int_equal(bc_book_export(&trip.from.book, trip.folder), BC_IO);
	assert_non_null(strstr(shed_last_words(&trip.from), "not empty"));
	assert_int_equal(bc_book_import(&trip.from.book, trip.folder, &batches), BC_MALFORMED);
	assert_non_null(strstr(shed_last_words(&trip.from), "not empty"));
	assert_int_equal(shed_count(&trip.from.book, "SELECT count(*) FROM revision"), 3);
	assert_int_equal(bc_book_import(&trip.to.book, trip.to.folder, &batches), BC_MALFORMED);
	come_home(&trip);
}

/* ---- damage */

/* A byte of a file is turned, at its end or in the middle; or the file is cut, or gone. */
enum damage { DAMAGE_TURN, DAMAGE_CUT, DAMAGE_GONE };

static void harm(const char *folder, const char *file, enum damage damage)
{
	char *path = bc_format("%s/%s", folder, file);
	char *bytes = NULL;
	size_t n = 0;
	assert_int_equal(bc_file_read(path, 1u << 30, &bytes, &n, NULL), BC_OK);
	if (damage == DAMAGE_GONE)
		assert_int_equal(unlink(path), 0);
	else if (damage == DAMAGE_CUT)
		assert_int_equal(bc_file_write(path, bytes, n / 2, NULL), BC_OK);
	bytes[n / 2] ^= 1;
	if (damage == DAMAGE_TURN)
		assert_int_equal(bc_file_write(path, bytes, n, NULL), BC_OK);
	bc_free(bytes);
	bc_free(path);
}

static void damage_is_refused(void **state)
{
	(void)state;
	static const char *const files[] = {"book.csv", "contents.csv", "revision.csv",
		"figure.csv", "content.csv", "jar.csv", "originals/1-1-jar.csv",
		"judgements/2-1.json"};
	for (size_t i = 0; i < sizeof files / sizeof files[0]; i++) {
		for (int damage = DAMAGE_TURN; damage <= DAMAGE_GONE; damage++) {
			struct trip trip;
			long long batches = 0;
			set_out(&trip);
			harm(trip.folder, files[i], (enum damage)damage);
			enum bc_status status =
				bc_book_import(&trip.to.book, trip.folder, &batches);
			if (status != BC_MALFORMED)
				fail_msg("%s, damage %d: status %d", files[i], damage, status);
			assert_true(trip.to.said.n > 0);
			assert_int_equal(
				shed_count(&trip.to.book, "SELECT (SELECT count(*) FROM batch) + "
							  "(SELECT count(*) FROM basis)"),
				0);
			come_home(&trip);
		}
	}
}

/* ---- forgery: sums agree, the content does not */

static void rewrite(const char *folder, const char *file, const char *text)
{
	char *path = bc_format("%s/%s", folder, file);
	assert_int_equal(bc_file_write(path, text, strlen(text), NULL), BC_OK);
	bc_free(path);
}

static uint64_t sum_of(const char *s)
{
	uint64_t hash = UINT64_C(0xcbf29ce484222325);
	for (; *s != '\0'; s++)
		hash = (hash ^ (unsigned char)*s) * UINT64_C(0x100000001b3);
	return hash;
}

/* An export of one table with these lines. */
static void forge(const char *folder, const char *table, const char *lines, int schema)
{
	char *contents = bc_format("file,bytes,sum\n%s,%zu,%016llx\n", table, strlen(lines),
		(unsigned long long)sum_of(lines));
	char *head = bc_format("what,value\nformat,boilcut book\nschema,%d\ncontents,%016llx\n",
		schema, (unsigned long long)sum_of(contents));
	mkdir(folder, 0700);
	rewrite(folder, table, lines);
	rewrite(folder, "contents.csv", contents);
	rewrite(folder, "book.csv", head);
	bc_free(contents);
	bc_free(head);
}

static void forgery_is_refused(void **state)
{
	(void)state;
	static const struct {
		const char *table;
		const char *lines;
		int schema;
		const char *words;
	} cases[] = {
		{"batch.csv", "id,opened\n1,x\n", 99, "newer"},
		{"batch.csv", "id,opened\n1,x\n1,y\n", 1, "does not fit"},
		{"batch.csv", "id,opened\nx,y\n", 1, "no whole number"},
		{"batch.csv", "id,opened\n1\n", 1, "number of cells"},
		{"batch.csv", "id,open\n1,y\n", 1, "column"},
		{"batch.csv", "id,id\n1,2\n", 1, "fit"},
		{"batch.csv", "id,opened\n1,\"y\n", 1, "quote"},
		{"batch.csv", "id,opened\n1,y\n", 1, "no record"},
		{"batch.csv", "", 1, "no head"},
		{"note.csv", "id,batch,added,text\n1,7,a,b\n", 1, "refers to one of batch"},
		{"content.csv", "revision,bytes,judgement\n1,../x,x\n", 1, "outside"},
		{"content.csv", "revision,bytes,judgement\n1,originals/x,x\n", 1, "list"},
		{"strange.csv", "id\n1\n", 1, "belongs to nothing"},
		{"jar.csv", "id,opened,capacity_ml\n7,x,1e999\n", 1, "no number"},
	};
	for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
		struct shed shed;
		long long batches = 0;
		shed_open_new(&shed);
		char *folder = bc_format("%s/forged", shed.folder);
		forge(folder, cases[i].table, cases[i].lines, cases[i].schema);
		assert_int_equal(bc_book_import(&shed.book, folder, &batches), BC_MALFORMED);
		bool said = false;
		for (size_t k = 0; k < shed.said.n; k++)
			said = said || strstr(shed.said.items[k].text, cases[i].words) != NULL;
		if (!said)
			fail_msg("case %zu: '%s' is not said, but '%s'", i, cases[i].words,
				shed_last_words(&shed));
		assert_int_equal(shed_count(&shed.book, "SELECT count(*) FROM batch"), 0);
		remove_folder(folder);
		bc_free(folder);
		shed_remove(&shed);
	}
}

static void one_table_for_a_spreadsheet(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_text csv;
	struct bc_csv read;
	shed_open_new(&shed);
	fill(&shed);
	bc_text_init(&csv);
	assert_int_equal(bc_book_sheet(&shed.book, &csv), BC_OK);
	assert_int_equal(bc_csv_parse(csv.data, csv.length, ',', &read, NULL), BC_OK);
	assert_int_equal(read.n, 3);
	assert_int_equal(read.rows[0].n, 15);
	assert_string_equal(read.rows[0].fields[13], "flash_c");
	assert_string_equal(read.rows[1].fields[0], "1");
	assert_string_equal(read.rows[1].fields[1], "2");
	assert_string_equal(read.rows[1].fields[5], "'=HYPERLINK(\"http\")");
	assert_string_equal(read.rows[2].fields[13], "61.3");
	assert_string_equal(read.rows[2].fields[5], "");
	bc_csv_release(&read);
	bc_text_release(&csv);
	shed_remove(&shed);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(no_cell_is_a_formula),
		cmocka_unit_test(numbers_come_back),
		cmocka_unit_test(there_and_back),
		cmocka_unit_test(only_new_folders_and_empty_books),
		cmocka_unit_test(damage_is_refused),
		cmocka_unit_test(forgery_is_refused),
		cmocka_unit_test(one_table_for_a_spreadsheet),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
