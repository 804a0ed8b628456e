/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Processes that die while they add, and processes that add at the same time: what was acknowledged
 * is there, and nothing is half there. */
#include <signal.h>
#include <sys/wait.h>
#include <time.h>

#include "book/book_memory.h"
#include "book/check.h"
#include "unit/book/shed.h"

static bool long_run(void) { return getenv("BOILCUT_LONG") != NULL; }

/* Large enough for several pages beside the figures. */
#define JUDGEMENT_BYTES 20000

/* Adds jar after jar of a series until most, and acknowledges each by its number in the pipe. */
static int add_series(const char *path, int series, int most, int pipe_to_parent)
{
	struct bc_book book;
	char text[48];
	static char judgement[JUDGEMENT_BYTES + 1];
	memset(judgement, 'j', JUDGEMENT_BYTES);
	if (bc_failed(bc_book_open(path, NULL, &book)))
		return 1;
	for (int i = 0; i < most; i++) {
		struct bc_place place;
		snprintf(text, sizeof text, "series %d, jar %d", series, i);
		struct bc_entry entry = shed_entry(text);
		entry.judgement = judgement;
		if (bc_failed(bc_book_add(&book, &entry, &place)) || place.already)
			return 2;
		if (pipe_to_parent >= 0 && write(pipe_to_parent, &place.batch,
						   sizeof place.batch) != sizeof place.batch)
			return 3;
	}
	bc_book_close(&book);
	return 0;
}

/* A linear congruential generator (Knuth, MMIX), so that a run can be repeated. */
static unsigned long long dice = 20261003;
static unsigned roll(unsigned sides)
{
	dice = dice * 6364136223846793005ULL + 1442695040888963407ULL;
	return (unsigned)(dice >> 33) % sides;
}

static void pause_us(unsigned us)
{
	struct timespec rest = {.tv_nsec = (long)us * 1000L};
	nanosleep(&rest, NULL);
}

static void assert_whole(struct bc_book *book)
{
	assert_int_equal(bc_book_check(book), BC_OK);
	assert_int_equal(shed_count(book, "SELECT count(*) FROM content WHERE length(judgement) <> "
					  "20000"),
		0);
	assert_int_equal(shed_count(book, "SELECT count(*) FROM revision r WHERE 2 <> "
					  "(SELECT count(*) FROM figure WHERE revision = r.id)"),
		0);
}

static void killed_while_adding(void **state)
{
	(void)state;
	const int rounds = long_run() ? 1000 : 100;
	long long last = 0; /* batch numbers have no gaps */
	int caught = 0;     /* killed with a batch under way that was not acknowledged */
	struct shed shed;
	shed_open_new(&shed);
	bc_book_close(&shed.book);
	for (int round = 0; round < rounds; round++) {
		int ends[2];
		long long batch = 0;
		assert_int_equal(pipe(ends), 0);
		pid_t child = fork();
		assert_true(child >= 0);
		if (child == 0) {
			close(ends[0]);
			_exit(add_series(shed.path, round, 1000, ends[1]));
		}
		close(ends[1]);
		pause_us(500 + roll(20000));
		assert_int_equal(kill(child, SIGKILL), 0);
		int ended = 0;
		assert_int_equal(waitpid(child, &ended, 0), child);
		assert_true(WIFSIGNALED(ended));
		while (read(ends[0], &batch, sizeof batch) == sizeof batch)
			last = batch;
		close(ends[0]);

		char journal[300];
		snprintf(journal, sizeof journal, "%s-journal", shed.path);
		caught += access(journal, F_OK) == 0;
		assert_int_equal(bc_book_open(shed.path, &shed.said, &shed.book), BC_OK);
		long long there = shed_count(&shed.book, "SELECT count(*) FROM batch");
		/* one may have been kept and not been acknowledged yet */
		assert_true(there == last || there == last + 1);
		assert_int_equal(
			shed_count(&shed.book, "SELECT ifnull(max(id), 0) FROM batch"), there);
		if (round % 10 == 9 || round + 1 == rounds)
			assert_whole(&shed.book);
		last = there;
		bc_book_close(&shed.book);
	}
	assert_true(last > 0);
	/* the kill did hit transactions under way */
	assert_true(caught > rounds / 50);
	shed_remove(&shed);
}

static void two_add_at_once(void **state)
{
	(void)state;
	const int each = long_run() ? 1000 : 50;
	pid_t children[2];
	struct shed shed;
	shed_open_new(&shed);
	bc_book_close(&shed.book);
	for (int i = 0; i < 2; i++) {
		children[i] = fork();
		assert_true(children[i] >= 0);
		if (children[i] == 0)
			_exit(add_series(shed.path, i, each, -1));
	}
	for (int i = 0; i < 2; i++) {
		int ended = 0;
		assert_int_equal(waitpid(children[i], &ended, 0), children[i]);
		assert_int_equal(ended, 0);
	}
	assert_int_equal(bc_book_open(shed.path, &shed.said, &shed.book), BC_OK);
	assert_int_equal(shed_count(&shed.book, "SELECT count(*) FROM content"), 2 * each);
	assert_int_equal(
		shed_count(&shed.book, "SELECT count(DISTINCT bytes) FROM content"), 2 * each);
	assert_int_equal(shed_count(&shed.book, "SELECT max(id) FROM batch"), 2 * each);
	assert_whole(&shed.book);
	shed_remove(&shed);
}

/* Both want to make the same book: one does. */
static void two_make_at_once(void **state)
{
	(void)state;
	for (int round = 0; round < 10; round++) {
		pid_t children[2];
		struct shed shed;
		int made = 0;
		shed_make(&shed);
		for (int i = 0; i < 2; i++) {
			children[i] = fork();
			assert_true(children[i] >= 0);
			if (children[i] == 0) {
				struct bc_book book;
				_exit(bc_failed(bc_book_create(shed.path, NULL, &book)) ? 1 : 0);
			}
		}
		for (int i = 0; i < 2; i++) {
			int ended = 0;
			assert_int_equal(waitpid(children[i], &ended, 0), children[i]);
			made += ended == 0;
		}
		assert_int_equal(made, 1);
		assert_int_equal(bc_book_open(shed.path, &shed.said, &shed.book), BC_OK);
		assert_int_equal(bc_book_check(&shed.book), BC_OK);
		shed_remove(&shed);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(killed_while_adding),
		cmocka_unit_test(two_add_at_once),
		cmocka_unit_test(two_make_at_once),
	};
	if (bc_failed(bc_book_memory()))
		return 1;
	return cmocka_run_group_tests(tests, NULL, NULL);
}
