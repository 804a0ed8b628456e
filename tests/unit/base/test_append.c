/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A file that only grows: what a failed write leaves, and that a second writer is turned away. */
#include "base/append.h"
#include "unit/unit.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/fault.h"
#include "base/file.h"
#include "base/lines.h"
#include "base/memory.h"

static char folder[256];
static char path[288];

static int make_folder(void **state)
{
	(void)state;
	const char *scratch = getenv("BUILD"); /* tests/run.sh sets it */
	snprintf(folder, sizeof folder, "%s/append-XXXXXX", scratch ? scratch : ".");
	if (mkdtemp(folder) == NULL)
		return -1;
	snprintf(path, sizeof path, "%s/notes", folder);
	return 0;
}

static int remove_folder(void **state)
{
	(void)state;
	bc_fault_set(BC_FAULT_WRITE, 0, false);
	unlink(path);
	return rmdir(folder);
}

static void assert_holds(struct bc_append *file, const char *expected)
{
	char *bytes = NULL;
	size_t n = 0;
	assert_int_equal(bc_append_read(file, 1000, &bytes, &n, NULL), BC_OK);
	assert_string_equal(bytes, expected);
	assert_int_equal(n, strlen(expected));
	bc_free(bytes);
}

static void grows(void **state)
{
	(void)state;
	struct bc_append file;
	bool torn = true;
	assert_int_equal(bc_append_open(&file, path, NULL), BC_OK);
	assert_int_equal(bc_append_write(&file, "first\n", 6, &torn, NULL), BC_OK);
	assert_false(torn);
	assert_int_equal(bc_append_write(&file, "second\n", 7, &torn, NULL), BC_OK);
	assert_holds(&file, "first\nsecond\n");
	bc_append_close(&file);
	assert_int_equal(bc_append_open(&file, path, NULL), BC_OK);
	assert_int_equal(file.length, 13);
	assert_int_equal(bc_append_restart(&file, NULL), BC_OK);
	assert_holds(&file, "");
	assert_int_equal(bc_append_remove(&file, NULL), BC_OK);
	bc_append_close(&file);
	assert_int_equal(access(path, F_OK), -1);
}

/* The first write fails, the sync fails, and last the cutting back. */
static void a_full_disk(void **state)
{
	(void)state;
	struct bc_append file;
	bool torn = false;
	assert_int_equal(bc_append_open(&file, path, NULL), BC_OK);
	assert_int_equal(bc_append_write(&file, "kept\n", 5, &torn, NULL), BC_OK);
	for (unsigned long nth = 1; nth <= 2; nth++) {
		bc_fault_set(BC_FAULT_WRITE, nth, false);
		assert_int_equal(bc_append_write(&file, "lost\n", 5, &torn, NULL), BC_IO);
		assert_false(torn);
		assert_holds(&file, "kept\n");
	}
	bc_fault_set(BC_FAULT_WRITE, 2, true);
	assert_int_equal(bc_append_write(&file, "torn\n", 5, &torn, NULL), BC_IO);
	assert_true(torn);
	bc_fault_set(BC_FAULT_WRITE, 0, false);
	assert_holds(&file, "kept\ntorn\n");
	bc_append_close(&file);
}

/* What a second process gets from opening path. */
static int opened_elsewhere(void)
{
	pid_t child = fork();
	if (child == 0) {
		struct bc_append file;
		enum bc_status status = bc_append_open(&file, path, NULL);
		bc_append_close(&file);
		_exit(status == BC_OK ? 0 : status == BC_IO ? 4 : 1);
	}
	int state = -1;
	assert_int_equal(waitpid(child, &state, 0), child);
	assert_true(WIFEXITED(state));
	return WEXITSTATUS(state);
}

static void one_writer(void **state)
{
	(void)state;
	struct bc_append file;
	assert_int_equal(bc_append_open(&file, path, NULL), BC_OK);
	assert_int_equal(opened_elsewhere(), 4);
	bc_append_close(&file);
	assert_int_equal(opened_elsewhere(), 0);
}

static void no_plain_file(void **state)
{
	(void)state;
	struct bc_append file;
	assert_int_equal(bc_append_open(&file, folder, NULL), BC_IO);
	assert_int_equal(mkfifo(path, 0600), 0);
	assert_int_equal(bc_append_open(&file, path, NULL), BC_IO);
	assert_int_equal(file.fd, -1);
}

static void arrive(struct bc_lines *lines, const char *bytes, size_t n)
{
	while (n > 0) {
		size_t room = 0;
		char *place = bc_lines_room(lines, &room);
		size_t piece = n < room ? n : room;
		memcpy(place, bytes, piece);
		bc_lines_arrived(lines, piece);
		bytes += piece;
		n -= piece;
	}
}

static void lines_in_pieces(void **state)
{
	(void)state;
	struct bc_lines lines;
	bc_lines_init(&lines);
	arrive(&lines, "5 11", 4);
	assert_null(bc_lines_next(&lines));
	arrive(&lines, "2.5\r\n10 ", 8);
	assert_string_equal(bc_lines_next(&lines), "5 112.5");
	assert_null(bc_lines_next(&lines));
	arrive(&lines, "131\r20\0 148\n\nrest", 17);
	assert_string_equal(bc_lines_next(&lines), "10 131");
	assert_string_equal(bc_lines_next(&lines), "20? 148");
	assert_string_equal(bc_lines_next(&lines), "");
	assert_null(bc_lines_next(&lines));
	assert_string_equal(bc_lines_rest(&lines), "rest");
	assert_null(bc_lines_rest(&lines));
}

static void a_line_without_end(void **state)
{
	(void)state;
	static char long_line[3 * BC_LINES_SIZE];
	struct bc_lines lines;
	memset(long_line, 'x', sizeof long_line);
	bc_lines_init(&lines);
	arrive(&lines, long_line, sizeof long_line);
	assert_null(bc_lines_next(&lines));
	assert_int_equal(lines.n_thrown, 1);
	arrive(&lines, "x\n5 112.5\n", 10);
	assert_string_equal(bc_lines_next(&lines), "5 112.5");
	assert_null(bc_lines_next(&lines));
	assert_int_equal(lines.n_thrown, 1);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(grows, make_folder, remove_folder),
		cmocka_unit_test_setup_teardown(a_full_disk, make_folder, remove_folder),
		cmocka_unit_test_setup_teardown(one_writer, make_folder, remove_folder),
		cmocka_unit_test_setup_teardown(no_plain_file, make_folder, remove_folder),
		cmocka_unit_test(lines_in_pieces),
		cmocka_unit_test(a_line_without_end),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
