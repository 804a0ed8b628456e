/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files: limits, folders, and that a failed write leaves the old file and nothing else. */
#include "base/file.h"
#include "unit/unit.h"

#include <dirent.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/fault.h"
#include "base/memory.h"

static char folder[256];
static char path[288];
static char link_path[288];

static int make_folder(void **state)
{
	(void)state;
	const char *scratch = getenv("BUILD"); /* tests/run.sh sets it */
	snprintf(folder, sizeof folder, "%s/file-XXXXXX", scratch ? scratch : ".");
	if (mkdtemp(folder) == NULL)
		return -1;
	snprintf(path, sizeof path, "%s/sample.csv", folder);
	snprintf(link_path, sizeof link_path, "%s/link.csv", folder);
	return 0;
}

static int remove_folder(void **state)
{
	(void)state;
	unlink(path);
	unlink(link_path);
	return rmdir(folder);
}

static size_t files_in_folder(void)
{
	size_t n = 0;
	DIR *open_folder = opendir(folder);
	for (struct dirent *entry = readdir(open_folder); entry != NULL;
		entry = readdir(open_folder))
		n += entry->d_name[0] != '.';
	closedir(open_folder);
	return n;
}

static void assert_holds(const char *expected)
{
	char *bytes = NULL;
	size_t n = 0;
	assert_int_equal(bc_file_read(path, 1000, &bytes, &n, NULL), BC_OK);
	assert_int_equal(n, strlen(expected));
	assert_string_equal(bytes, expected);
	bc_free(bytes);
}

static void writes_and_reads(void **state)
{
	(void)state;
	mode_t mask = umask(027);
	assert_int_equal(bc_file_write(path, "first", 5, NULL), BC_OK);
	umask(mask);
	struct stat about;
	assert_int_equal(stat(path, &about), 0);
	assert_int_equal(about.st_mode & 0777, 0640);
	assert_holds("first");
	assert_int_equal(bc_file_write(path, "", 0, NULL), BC_OK);
	assert_holds("");
	assert_int_equal(files_in_folder(), 1);
}

static void a_new_file_replaces_none(void **state)
{
	(void)state;
	assert_int_equal(bc_file_write_new(path, "first", 5, NULL), BC_OK);
	assert_holds("first");
	assert_int_equal(bc_file_write_new(path, "second", 6, NULL), BC_IO);
	assert_holds("first");
}

static void keeps_a_link(void **state)
{
	(void)state;
	assert_int_equal(bc_file_write(path, "old", 3, NULL), BC_OK);
	assert_int_equal(symlink("sample.csv", link_path), 0);
	assert_int_equal(bc_file_write(link_path, "through", 7, NULL), BC_OK);
	struct stat about;
	assert_int_equal(lstat(link_path, &about), 0);
	assert_true(S_ISLNK(about.st_mode));
	assert_holds("through");
}

/* A pipe of the test's own: where this breaks, a real device would be replaced. */
static void writes_pipes_in_place(void **state)
{
	(void)state;
	assert_int_equal(mkfifo(path, 0600), 0);
	int reader = open(path, O_RDONLY | O_NONBLOCK);
	assert_true(reader >= 0);
	assert_int_equal(bc_file_write(path, "through", 7, NULL), BC_OK);
	struct stat about;
	assert_int_equal(stat(path, &about), 0);
	assert_true(S_ISFIFO(about.st_mode));
	char bytes[16] = "";
	assert_int_equal(read(reader, bytes, sizeof bytes), 7);
	assert_string_equal(bytes, "through");
	close(reader);
}

static void keeps_to_the_limit(void **state)
{
	(void)state;
	char *bytes = NULL;
	size_t n = 0;
	struct bc_diagnostics list;
	bc_diagnostics_init(&list);
	assert_int_equal(bc_file_write(path, "12345", 5, &list), BC_OK);
	assert_int_equal(bc_file_read(path, 5, &bytes, &n, &list), BC_OK);
	bc_free(bytes);
	assert_int_equal(bc_file_read(path, 4, &bytes, &n, &list), BC_MALFORMED);
	assert_null(bytes);
	assert_string_equal(
		bc_diagnostics_first_error(&list)->text, "too large; at most 4 bytes are read");
	bc_diagnostics_release(&list);
}

/* The alarm ends a reader that would wait for more. */
static void keeps_to_the_limit_without_a_size(void **state)
{
	(void)state;
	char bytes[2000];
	char *got = NULL;
	size_t n = 0;
	memset(bytes, 'x', sizeof bytes);
	assert_int_equal(mkfifo(path, 0600), 0);
	int both_ends = open(path, O_RDWR);
	assert_int_equal(write(both_ends, bytes, sizeof bytes), sizeof bytes);
	alarm(20);
	assert_int_equal(bc_file_read(path, 1999, &got, &n, NULL), BC_MALFORMED);
	alarm(0);
	assert_null(got);
	close(both_ends);
}

static void says_what_is_wrong(void **state)
{
	(void)state;
	char *bytes = NULL;
	size_t n = 0;
	struct bc_diagnostics list;
	bc_diagnostics_init(&list);
	assert_int_equal(bc_file_read(path, 10, &bytes, &n, &list), BC_IO);
	assert_int_equal(bc_file_read(folder, 10, &bytes, &n, &list), BC_MALFORMED);
	assert_int_equal(bc_file_write(folder, "x", 1, &list), BC_IO);
	assert_int_equal(bc_file_write("/no/such/folder/x", "x", 1, &list), BC_IO);
	assert_int_equal(list.n, 4);
	assert_string_equal(list.items[0].text, "cannot open: No such file or directory");
	assert_string_equal(list.items[0].file, path);
	assert_string_equal(list.items[1].text, "is a folder; expected a file");
	assert_string_equal(list.items[2].text, "cannot write: is a folder");
	assert_string_equal(list.items[3].text, "cannot write: No such file or directory");
	bc_diagnostics_release(&list);
}

static void every_step_of_a_write_may_fail(void **state)
{
	(void)state;
	assert_int_equal(bc_file_write(path, "old", 3, NULL), BC_OK);
	unsigned long n = 0;
	enum bc_status status = BC_IO;
	while (status != BC_OK) {
		struct bc_diagnostics list;
		bc_diagnostics_init(&list);
		bc_fault_set(BC_FAULT_WRITE, ++n, false);
		status = bc_file_write(path, "new", 3, &list);
		if (status != BC_OK) {
			assert_int_equal(status, BC_IO);
			assert_holds("old");
			assert_string_equal(
				list.items[0].text, "cannot write: No space left on device");
		}
		assert_int_equal(files_in_folder(), 1);
		bc_diagnostics_release(&list);
	}
	bc_fault_set(BC_FAULT_WRITE, 0, false);
	assert_holds("new");
	/* write, sync, close, rename */
	assert_int_equal(n, 5);
}

static void every_allocation_may_fail(void **state)
{
	(void)state;
	unsigned long n = 0;
	assert_int_equal(bc_file_write(path, "old", 3, NULL), BC_OK);
	enum bc_status status = BC_NO_MEMORY;
	while (status != BC_OK) {
		char *bytes = NULL;
		size_t length = 0;
		bc_fault_set(BC_FAULT_ALLOC, ++n, false);
		status = bc_file_read(path, 100, &bytes, &length, NULL);
		if (status == BC_OK)
			status = bc_file_write(path, "new", 3, NULL);
		assert_true(status == BC_OK || status == BC_NO_MEMORY);
		bc_free(bytes);
	}
	bc_fault_set(BC_FAULT_ALLOC, 0, false);
	assert_int_equal(n, 3);
	assert_holds("new");
	/* memory for the message alone */
	struct bc_diagnostics list;
	bc_diagnostics_init(&list);
	for (n = 1; n <= 3; n++) {
		bc_fault_set(BC_FAULT_ALLOC, n, false);
		bc_diagnose(&list, BC_ERROR, "a", 7, "b %d", 1);
		assert_int_equal(list.n, 0);
	}
	bc_fault_set(BC_FAULT_ALLOC, 0, false);
	bc_diagnostics_release(&list);
}

static void streams_lose_nothing(void **state)
{
	(void)state;
	FILE *stream = fopen(path, "w");
	assert_int_equal(bc_stream_write(stream, "all of it", 9), BC_OK);
	bc_fault_set(BC_FAULT_WRITE, 1, false);
	assert_int_equal(bc_stream_write(stream, "x", 1), BC_IO);
	bc_fault_set(BC_FAULT_WRITE, 0, false);
	fclose(stream);
	assert_holds("all of it");
	FILE *full = fopen("/dev/full", "w");
	if (full == NULL)
		skip();
	assert_int_equal(bc_stream_write(full, "x", 1), BC_IO);
	fclose(full);
}

#define in_folder(test) cmocka_unit_test_setup_teardown(test, make_folder, remove_folder)

int main(void)
{
	const struct CMUnitTest tests[] = {
		in_folder(writes_and_reads),
		in_folder(a_new_file_replaces_none),
		in_folder(keeps_a_link),
		in_folder(writes_pipes_in_place),
		in_folder(keeps_to_the_limit),
		in_folder(keeps_to_the_limit_without_a_size),
		in_folder(says_what_is_wrong),
		in_folder(every_step_of_a_write_may_fail),
		in_folder(every_allocation_may_fail),
		in_folder(streams_lose_nothing),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
