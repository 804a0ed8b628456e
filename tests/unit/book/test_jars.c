/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Jars: what is in one after any movements, what is refused, how dangerous it is, when it is due.
 */
#include "base/fault.h"
#include "book/contents.h"
#include "book/due.h"
#include "unit/book/shelf.h"

static void jar(const char *id, double capacity_ml)
{
	bool already = true;
	assert_int_equal(bc_jar_new(&shelf, id, capacity_ml, NULL, "2026-10-03", &already), BC_OK);
	assert_false(already);
}

static struct bc_move_outcome moved(struct bc_move move)
{
	struct bc_move_outcome outcome;
	if (move.date == NULL)
		move.date = "2026-10-03";
	assert_int_equal(bc_jar_move(&shelf, &move, &outcome), BC_OK);
	return outcome;
}

static enum bc_move_answer fill(const char *to, long long batch, double volume_ml)
{
	return moved(
		(struct bc_move){
			.kind = BC_MOVE_FILL, .to = to, .batch = batch, .volume_ml = volume_ml})
		.answer;
}

static enum bc_move_answer mix(const char *from, const char *to, double volume_ml)
{
	return moved((struct bc_move){
			     .kind = BC_MOVE_MIX, .from = from, .to = to, .volume_ml = volume_ml})
		.answer;
}

static enum bc_move_answer empty(const char *from, double volume_ml)
{
	return moved((struct bc_move){.kind = BC_MOVE_EMPTY, .from = from, .volume_ml = volume_ml})
		.answer;
}

static struct bc_contents look(const char *id)
{
	struct bc_store store;
	struct bc_contents contents;
	assert_int_equal(bc_store_read(&shelf, &store), BC_OK);
	const struct bc_store_jar *found = bc_store_find(&store, id);
	assert_non_null(found);
	assert_int_equal(bc_contents_read(&shelf, found, &contents), BC_OK);
	bc_store_release(&store);
	return contents;
}

static double held_ml(const char *id)
{
	struct bc_store store;
	assert_int_equal(bc_store_read(&shelf, &store), BC_OK);
	double volume_ml = bc_store_find(&store, id)->volume_ml;
	bc_store_release(&store);
	return volume_ml;
}

/* ---- movements */

static void test_mixing_keeps_shares(void **state)
{
	(void)state;
	long long first = shelf_batch("a", "2026-10-03", NULL, 61.7);
	long long second = shelf_batch("b", "2026-10-04", NULL, 52.3);
	jar("7", 9731.0);
	jar("8", NAN);
	assert_int_equal(fill("7", first, 3127.0), BC_MOVE_DONE);
	assert_int_equal(fill("7", second, 1173.0), BC_MOVE_DONE);
	assert_int_equal(fill("8", second, 411.0), BC_MOVE_DONE);
	assert_int_equal(mix("7", "8", 2150.0), BC_MOVE_DONE);
	struct bc_contents seven = look("7");
	struct bc_contents eight = look("8");
	assert_int_equal(seven.n, 2);
	assert_int_equal(eight.n, 2);
	assert_close(seven.items[0].volume_ml, 1563.5, 1e-9);
	assert_close(seven.items[0].share_pct, 100.0 * 3127.0 / 4300.0, 1e-9);
	assert_int_equal(eight.items[0].of.batch, first);
	assert_close(eight.items[0].volume_ml, 1563.5, 1e-9);
	assert_close(eight.items[1].volume_ml, 411.0 + 586.5, 1e-9);
	bc_contents_release(&seven);
	bc_contents_release(&eight);
}

static void test_what_cannot_be_is_refused(void **state)
{
	(void)state;
	long long batch = shelf_batch("a", "2026-10-03", NULL, 61.7);
	bool already = false;
	jar("Can 7", 1000.0);
	jar("8", NAN);
	assert_int_equal(bc_jar_new(&shelf, "can 7", NAN, NULL, "2026-10-03", &already), BC_OK);
	assert_true(already);
	assert_int_equal(fill("can 7", batch + 1, 5.0), BC_MOVE_NO_BATCH);
	assert_int_equal(fill("9", batch, 5.0), BC_MOVE_NO_TO);
	assert_int_equal(mix("9", "8", 5.0), BC_MOVE_NO_FROM);
	assert_int_equal(mix("8", "8", 5.0), BC_MOVE_SAME);
	assert_int_equal(empty("8", NAN), BC_MOVE_NOTHING);
	assert_int_equal(fill("CAN 7", batch, 1000.01), BC_MOVE_TOO_MUCH);
	assert_close(held_ml("can 7"), 0.0, 0.0);
	struct bc_move most = {
		.kind = BC_MOVE_FILL, .to = "can 7", .batch = batch, .volume_ml = 949.9};
	assert_false(moved(most).full);
	most.volume_ml = 0.2;
	assert_true(moved(most).full);
	struct bc_move_outcome little =
		moved((struct bc_move){.kind = BC_MOVE_EMPTY, .from = "can 7", .volume_ml = 950.2});
	assert_int_equal(little.answer, BC_MOVE_TOO_LITTLE);
	assert_close(little.volume_ml, 950.1, 1e-9);
	assert_int_equal(empty("can 7", 950.1), BC_MOVE_DONE);
	struct bc_contents nothing = look("can 7");
	assert_int_equal(nothing.n, 0);
	bc_contents_release(&nothing);
}

static void test_ids(void **state)
{
	(void)state;
	char longest[BC_JAR_ID_SIZE + 1];
	memset(longest, 'x', sizeof longest);
	longest[BC_JAR_ID_SIZE] = '\0';
	assert_false(bc_jar_id_valid(longest));
	longest[BC_JAR_ID_SIZE - 1] = '\0';
	assert_true(bc_jar_id_valid(longest));
	assert_true(bc_jar_id_valid("'); DROP TABLE jar; --"));
	assert_true(bc_jar_id_valid("K\xC3\xBC"
				    "bel 7"));
	assert_false(bc_jar_id_valid(""));
	assert_false(bc_jar_id_valid(" 7"));
	assert_false(bc_jar_id_valid("7 "));
	assert_false(bc_jar_id_valid("7\n8"));
	assert_false(bc_jar_id_valid("7\x1b[2J"));
	assert_false(bc_jar_id_valid("7\xff"));
}

/* ---- a thousand movements, against a table of jars and batches kept beside */

#define JARS 9
#define BATCHES 7
static const char *const names[JARS] = {"a", "b", "c", "d", "e", "f", "g", "h", "i"};
static long double kept[JARS][BATCHES];
static unsigned long seed = 20261003;

static unsigned long pick(unsigned long n)
{
	seed = (seed * 6364136223846793005UL + 1442695040888963407UL) & 0xffffffffffffffffUL;
	return (seed >> 33) % n;
}

static long double sum(size_t at)
{
	long double all = 0.0L;
	for (size_t i = 0; i < BATCHES; i++)
		all += kept[at][i];
	return all;
}

static void random_move(const long long *batches)
{
	size_t from = pick(JARS);
	size_t to = (from + 1 + pick(JARS - 1)) % JARS;
	double volume_ml = 0.001 * (double)(1 + pick(20000000));
	unsigned long kind = pick(4);
	bool enough = sum(from) >= (long double)volume_ml;
	if (kind < 2 || sum(from) < 1e-3L) {
		size_t batch = pick(BATCHES);
		assert_int_equal(fill(names[to], batches[batch], volume_ml), BC_MOVE_DONE);
		kept[to][batch] += (long double)volume_ml;
		return;
	}
	long double frac = enough ? (long double)volume_ml / sum(from) : 1.0L;
	double stated_ml = enough ? volume_ml : (double)NAN;
	if (kind == 2)
		assert_int_equal(mix(names[from], names[to], stated_ml), BC_MOVE_DONE);
	else
		assert_int_equal(empty(names[from], stated_ml), BC_MOVE_DONE);
	for (size_t i = 0; i < BATCHES; i++) {
		if (kind == 2)
			kept[to][i] += frac * kept[from][i];
		kept[from][i] -= frac * kept[from][i];
	}
}

static void compare_all(const long long *batches)
{
	struct bc_store store;
	assert_int_equal(bc_store_read(&shelf, &store), BC_OK);
	for (size_t at = 0; at < JARS; at++) {
		const struct bc_store_jar *found = bc_store_find(&store, names[at]);
		assert_close(found->volume_ml, (double)sum(at), 1e-6);
		for (size_t i = 0; i < BATCHES; i++) {
			double volume_ml = 0.0;
			for (size_t part = 0; part < found->n_parts; part++) {
				if (found->parts[part].batch == batches[i])
					volume_ml = found->parts[part].volume_ml;
			}
			assert_close(volume_ml, (double)kept[at][i], 1e-6);
		}
	}
	bc_store_release(&store);
}

static void test_a_thousand_movements(void **state)
{
	(void)state;
	long long batches[BATCHES];
	for (size_t i = 0; i < BATCHES; i++) {
		const char bytes[] = {(char)('a' + (char)i), '\0'};
		batches[i] = shelf_batch(bytes, "2026-10-03", NULL, 61.7);
	}
	assert_int_equal(bc_book_begin(&shelf), BC_OK);
	for (size_t at = 0; at < JARS; at++)
		jar(names[at], NAN);
	for (int i = 0; i < 1000; i++)
		random_move(batches);
	assert_int_equal(bc_book_end(&shelf, BC_OK), BC_OK);
	compare_all(batches);
}

/* ---- danger */

static void test_as_dangerous_as_the_worst(void **state)
{
	(void)state;
	long long mild = shelf_batch("a", "2026-10-03", NULL, 61.7);
	long long warm = shelf_batch("b", "2026-10-04", NULL, 41.2);
	/* 24.1 at 101.3 kPa is 22.3 at 94.1 kPa */
	long long hidden = shelf_batch("c", "2026-10-05", NULL, 24.1);
	long long nobody = shelf_batch("d", "2026-10-06", NULL, (double)NAN);
	jar("7", NAN);
	fill("7", mild, 8000.0);
	fill("7", warm, 20.0);
	struct bc_contents contents = look("7");
	assert_false(contents.petrol);
	assert_close(contents.flash_low_c, 41.2, 1e-9);
	assert_int_equal(contents.items[contents.worst].of.batch, warm);
	bc_contents_release(&contents);
	fill("7", hidden, 1.0);
	contents = look("7");
	assert_true(contents.petrol);
	assert_int_equal(contents.items[contents.worst].of.batch, hidden);
	bc_contents_release(&contents);
	fill("7", nobody, 0.1);
	contents = look("7");
	assert_nan(contents.flash_low_c);
	assert_int_equal(contents.items[contents.worst].of.batch, nobody);
	bc_contents_release(&contents);
	empty("7", NAN);
	fill("7", mild, 500.0);
	contents = look("7");
	assert_false(contents.petrol);
	assert_true(contents.was_petrol);
	bc_contents_release(&contents);
}

/* ---- the storage clock */

static void test_three_months(void **state)
{
	(void)state;
	static const char *const days[][2] = {{"2026-10-03", "2027-01-03"},
		{"2026-11-30", "2027-02-28"}, {"2027-11-30", "2028-02-29"},
		{"2026-08-31", "2026-11-30"}, {"2026-12-31", "2027-03-31"}};
	for (size_t i = 0; i < sizeof days / sizeof days[0]; i++) {
		char due[BC_DAY_SIZE];
		assert_int_equal(bc_retest_day(&shelf, days[i][0], due), BC_OK);
		assert_string_equal(due, days[i][1]);
	}
}

static void assert_due(const char *on, const char *first, size_t n)
{
	struct bc_dues dues;
	assert_int_equal(bc_book_due(&shelf, on, &dues), BC_OK);
	assert_int_equal(dues.n, n);
	if (n > 0)
		assert_string_equal(dues.items[0].jar, first);
	bc_dues_release(&dues);
}

static void test_due(void **state)
{
	(void)state;
	long long drawn = shelf_batch("a", "2026-10-19", "2026-10-03", 61.7);
	long long dated = shelf_batch("b", "2026-10-11", "last week", 61.7);
	jar("7", NAN);
	jar("8", NAN);
	jar("9", NAN);
	fill("7", dated, 900.0);
	fill("8", drawn, 1.3);
	assert_due("2027-01-02", NULL, 0);
	assert_due("2027-01-03", "8", 1);
	assert_due("2027-01-11", "8", 2);
	/* the oldest counts, however little of it */
	mix("8", "7", NAN);
	assert_due("2027-01-10", "7", 1);
	moved((struct bc_move){.kind = BC_MOVE_TEST, .date = "2027-01-04", .to = "7"});
	assert_due("2027-04-03", NULL, 0);
	assert_due("2027-04-04", "7", 1);
	fill("7", drawn, 2.0);
	assert_due("2027-01-03", "7", 1);
	empty("7", NAN);
	assert_due(NULL, NULL, 0);
}

/* ---- the book */

static void test_nothing_changes_in_place(void **state)
{
	(void)state;
	static const char *const tries[] = {"UPDATE jar SET place = 'x'", "DELETE FROM jar",
		"UPDATE movement SET volume_ml = 1", "DELETE FROM movement"};
	long long batch = shelf_batch("a", "2026-10-03", NULL, 61.7);
	jar("7", NAN);
	fill("7", batch, 127.3);
	for (size_t i = 0; i < sizeof tries / sizeof tries[0]; i++)
		assert_true(bc_failed(bc_book_run(&shelf, tries[i])));
	assert_close(held_ml("7"), 127.3, 1e-12);
}

static void test_no_memory(void **state)
{
	(void)state;
	long long batch = shelf_batch("a", "2026-10-03", NULL, 61.7);
	jar("7", NAN);
	jar("8", NAN);
	fill("7", batch, 127.3);
	empty("7", 20.1);
	moved((struct bc_move){.kind = BC_MOVE_PLACE, .to = "7", .text = "loft"});
	mix("7", "8", NAN);
	unsigned long n = 0;
	bool reached = true;
	while (reached) {
		struct bc_dues dues;
		struct bc_movements movements;
		bc_fault_set(BC_FAULT_ALLOC, ++n, false);
		enum bc_status due = bc_book_due(&shelf, NULL, &dues);
		enum bc_status all = bc_movements_read(&shelf, "7", &movements);
		reached = bc_fault_count(BC_FAULT_ALLOC) >= n;
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		assert_true(due == BC_OK || due == BC_NO_MEMORY);
		assert_true(all == BC_OK || all == BC_NO_MEMORY);
		assert_true(reached || (due == BC_OK && all == BC_OK));
		bc_dues_release(&dues);
		bc_movements_release(&movements);
	}
	assert_true(n > 20);
}

/* A movement that failed leaves the jar as it was. Those that SQLite bears fill it on. */
static void test_no_memory_while_moving(void **state)
{
	(void)state;
	const unsigned long most = 120;
	size_t failed = 0;
	long long batch = shelf_batch("a", "2026-10-03", NULL, 61.7);
	jar("7", NAN);
	fill("7", batch, 127.3);
	for (unsigned long n = 1; n <= most; n++) {
		const struct bc_move move = {.kind = BC_MOVE_FILL,
			.date = "2026-10-03",
			.to = "7",
			.batch = batch,
			.volume_ml = 1.7};
		struct bc_move_outcome outcome;
		double before_ml = held_ml("7");
		bc_fault_set(BC_FAULT_ALLOC, n, false);
		enum bc_status status = bc_jar_move(&shelf, &move, &outcome);
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		assert_true(status == BC_OK || status == BC_NO_MEMORY);
		assert_close(held_ml("7"), before_ml + (status == BC_OK ? 1.7 : 0.0), 1e-9);
		failed += status == BC_NO_MEMORY;
	}
	assert_true(failed > 20);
}

#define ONE(test) cmocka_unit_test_setup_teardown(test, shelf_set_up, shelf_tear_down)

int main(void)
{
	const struct CMUnitTest tests[] = {
		ONE(test_mixing_keeps_shares),
		ONE(test_what_cannot_be_is_refused),
		ONE(test_ids),
		ONE(test_a_thousand_movements),
		ONE(test_as_dangerous_as_the_worst),
		ONE(test_three_months),
		ONE(test_due),
		ONE(test_nothing_changes_in_place),
		ONE(test_no_memory),
		ONE(test_no_memory_while_moving),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
