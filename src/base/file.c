/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading whole files within a limit, and writing them so that a failure leaves the old one. */
#define _XOPEN_SOURCE 700 /* realpath */
#include "base/file.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/fault.h"
#include "base/file_steps.h"
#include "base/memory.h"

#define FIRST_READ 65536

static enum bc_status too_large(struct bc_diagnostics *diagnostics, const char *path, size_t limit)
{
	const size_t mib = 1024 * 1024;
	if (limit >= mib)
		bc_diagnose(diagnostics, BC_ERROR, path, 0, "too large; at most %zu MiB are read",
			limit / mib);
	else
		bc_diagnose(diagnostics, BC_ERROR, path, 0, "too large; at most %zu bytes are read",
			limit);
	return BC_MALFORMED;
}

static ssize_t read_some(int fd, char *buffer, size_t n)
{
	ssize_t got;
	do
		got = read(fd, buffer, n);
	while (got < 0 && errno == EINTR);
	return got;
}

/* Reads to the end of fd; always keeps a byte for the NUL. */
enum bc_status bc_file_read_all(int fd, const char *path, size_t limit, char **bytes, size_t *n,
	struct bc_diagnostics *diagnostics)
{
	size_t capacity = 0;
	for (;;) {
		if (capacity - *n < 2) {
			size_t wanted = capacity == 0 ? FIRST_READ : capacity * 2;
			char *grown = bc_realloc_array(*bytes, wanted, 1);
			if (grown == NULL)
				return BC_NO_MEMORY;
			*bytes = grown;
			capacity = wanted;
		}
		ssize_t got = read_some(fd, *bytes + *n, capacity - *n - 1);
		if (got < 0) {
			bc_diagnose(
				diagnostics, BC_ERROR, path, 0, "cannot read: %s", strerror(errno));
			return BC_IO;
		}
		*n += (size_t)got;
		(*bytes)[*n] = '\0';
		if (*n > limit)
			return too_large(diagnostics, path, limit);
		if (got == 0)
			return BC_OK;
	}
}

static enum bc_status open_to_read(
	const char *path, size_t limit, int *fd, struct bc_diagnostics *diagnostics)
{
	struct stat about;
	*fd = strcmp(path, "-") == 0 ? STDIN_FILENO : open(path, O_RDONLY | O_CLOEXEC);
	if (*fd < 0 || fstat(*fd, &about) != 0) {
		bc_diagnose(diagnostics, BC_ERROR, path, 0, "cannot open: %s", strerror(errno));
		return BC_IO;
	}
	if (S_ISDIR(about.st_mode)) {
		bc_diagnose(diagnostics, BC_ERROR, path, 0, "is a folder; expected a file");
		return BC_MALFORMED;
	}
	if (S_ISREG(about.st_mode) && (unsigned long long)about.st_size > limit)
		return too_large(diagnostics, path, limit);
	return BC_OK;
}

enum bc_status bc_file_read(
	const char *path, size_t limit, char **bytes, size_t *n, struct bc_diagnostics *diagnostics)
{
	int fd = -1;
	*bytes = NULL;
	*n = 0;
	enum bc_status status = open_to_read(path, limit, &fd, diagnostics);
	if (!bc_failed(status))
		status = bc_file_read_all(fd, path, limit, bytes, n, diagnostics);
	if (fd > STDIN_FILENO)
		close(fd);
	if (bc_failed(status)) {
		bc_free(*bytes);
		*bytes = NULL;
		*n = 0;
	}
	return status;
}

bool bc_file_fails(void)
{
	if (!bc_fault_now(BC_FAULT_WRITE))
		return false;
	errno = ENOSPC;
	return true;
}

int bc_file_put(int fd, const char *bytes, size_t n)
{
	while (n > 0) {
		ssize_t done = bc_file_fails() ? -1 : write(fd, bytes, n);
		if (done < 0 && errno == EINTR)
			continue;
		if (done < 0)
			return -1;
		bytes += done;
		n -= (size_t)done;
	}
	return 0;
}

static int close_checked(int fd)
{
	int result = close(fd);
	return bc_file_fails() ? -1 : result;
}

mode_t bc_file_new_mode(void)
{
	mode_t mask = umask(0);
	umask(mask);
	return (mode_t)(0666 & ~mask);
}

/* The rename has been done when this is called, so a failure is no longer one of the write; some
 * file systems cannot sync a folder at all. */
void bc_file_sync_folder(char *path)
{
	char *slash = strrchr(path, '/');
	const char *folder = ".";
	if (slash != NULL) {
		slash[slash == path ? 1 : 0] = '\0';
		folder = path;
	}
	int fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
	if (fd < 0)
		return;
	(void)fsync(fd);
	close(fd);
}

/* Writes to a new file beside path and renames it. errno tells why it returned -1. */
static int replace_file(const char *path, char *temporary, mode_t mode, const char *bytes, size_t n)
{
	int fd = mkstemp(temporary);
	if (fd < 0)
		return -1;
	int result = -1;
	if (bc_file_put(fd, bytes, n) == 0 && fchmod(fd, mode) == 0 && !bc_file_fails() &&
		fsync(fd) == 0)
		result = 0;
	int why = errno;
	if (close_checked(fd) != 0 && result == 0) {
		result = -1;
		why = errno;
	}
	if (result == 0 && (bc_file_fails() || rename(temporary, path) != 0)) {
		result = -1;
		why = errno;
	}
	if (result == 0)
		bc_file_sync_folder(temporary);
	else
		unlink(temporary);
	errno = why;
	return result;
}

/* Pipes and devices cannot be replaced. */
static int write_in_place(const char *path, const char *bytes, size_t n)
{
	int fd = open(path, O_WRONLY | O_CLOEXEC);
	if (fd < 0)
		return -1;
	int result = bc_file_put(fd, bytes, n);
	int why = errno;
	if (close_checked(fd) != 0 && result == 0)
		return -1;
	errno = why;
	return result;
}

enum bc_status bc_file_write(
	const char *path, const char *bytes, size_t n, struct bc_diagnostics *diagnostics)
{
	struct stat about;
	bool exists = stat(path, &about) == 0;
	if (exists && S_ISDIR(about.st_mode)) {
		bc_diagnose(diagnostics, BC_ERROR, path, 0, "cannot write: is a folder");
		return BC_IO;
	}
	int result = -1;
	if (exists && !S_ISREG(about.st_mode)) {
		result = write_in_place(path, bytes, n);
	} else {
		/* a link stays, what it points to is replaced */
		char target[PATH_MAX];
		const char *real = exists && realpath(path, target) != NULL ? target : path;
		char *temporary = bc_format("%s.XXXXXX", real);
		if (temporary == NULL)
			return BC_NO_MEMORY;
		mode_t mode = exists ? about.st_mode & 0777 : bc_file_new_mode();
		result = replace_file(real, temporary, mode, bytes, n);
		int why = errno;
		bc_free(temporary);
		errno = why;
	}
	if (result == 0)
		return BC_OK;
	bc_diagnose(diagnostics, BC_ERROR, path, 0, "cannot write: %s", strerror(errno));
	return BC_IO;
}

enum bc_status bc_file_write_new(
	const char *path, const char *bytes, size_t n, struct bc_diagnostics *diagnostics)
{
	int fd = bc_file_fails() ? -1 : open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
	int result = fd >= 0 ? bc_file_put(fd, bytes, n) : -1;
	int why = errno;
	if (fd >= 0 && close_checked(fd) != 0 && result == 0) {
		result = -1;
		why = errno;
	}
	if (result == 0)
		return BC_OK;
	bc_diagnose(diagnostics, BC_ERROR, path, 0, "cannot write: %s", strerror(why));
	return BC_IO;
}

enum bc_status bc_stream_write(FILE *stream, const char *bytes, size_t n)
{
	if (bc_file_fails() || fwrite(bytes, 1, n, stream) != n || fflush(stream) != 0 ||
		ferror(stream))
		return BC_IO;
	return BC_OK;
}

#define BEGINNING 64

bool bc_file_is_other(const char *path, const char *const *beginnings, size_t n)
{
	char bytes[BEGINNING];
	struct stat what;
	if (stat(path, &what) != 0 || !S_ISREG(what.st_mode))
		return false;
	FILE *stream = fopen(path, "rb");
	if (stream == NULL)
		return true;
	size_t got = fread(bytes, 1, sizeof bytes, stream);
	fclose(stream);
	for (size_t i = 0; i < n; i++) {
		size_t length = strlen(beginnings[i]);
		if (got >= length && memcmp(bytes, beginnings[i], length) == 0)
			return false;
	}
	return true;
}
