/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A file that only grows: locked against a second writer, synced before a write counts as done. */
#include "base/append.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/file_steps.h"
#include "base/memory.h"

#define TRIES 8 /* a file that is removed between opening and locking */

void bc_append_init(struct bc_append *file) { *file = (struct bc_append){.fd = -1}; }

void bc_append_close(struct bc_append *file)
{
	if (file == NULL)
		return;
	if (file->fd >= 0)
		close(file->fd);
	bc_free(file->path);
	bc_append_init(file);
}

static enum bc_status complain(
	const struct bc_append *file, const char *what, struct bc_diagnostics *diagnostics)
{
	bc_diagnose(diagnostics, BC_ERROR, file->path, 0, "cannot %s: %s", what, strerror(errno));
	return BC_IO;
}

static enum bc_status lock(struct bc_append *file, struct bc_diagnostics *diagnostics)
{
	struct flock wanted = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
	int result;
	do
		result = fcntl(file->fd, F_SETLK, &wanted);
	while (result != 0 && errno == EINTR);
	if (result == 0)
		return BC_OK;
	if (errno != EACCES && errno != EAGAIN)
		return complain(file, "lock", diagnostics);
	if (fcntl(file->fd, F_GETLK, &wanted) == 0 && wanted.l_type != F_UNLCK)
		bc_diagnose(diagnostics, BC_ERROR, file->path, 0,
			"is in use by process %ld; one at a time was expected", (long)wanted.l_pid);
	else
		bc_diagnose(diagnostics, BC_ERROR, file->path, 0,
			"is in use by another process; one at a time was expected");
	return BC_IO;
}

/* Opens and locks once; *gone: the file was removed meanwhile by the one who had it. */
static enum bc_status open_once(
	struct bc_append *file, bool *made, bool *gone, struct bc_diagnostics *diagnostics)
{
	struct stat about;
	*gone = false;
	*made = access(file->path, F_OK) != 0;
	file->fd = open(file->path, O_RDWR | O_CREAT | O_APPEND | O_NONBLOCK | O_CLOEXEC, 0666);
	if (file->fd < 0 || fstat(file->fd, &about) != 0)
		return complain(file, "open", diagnostics);
	if (!S_ISREG(about.st_mode)) {
		bc_diagnose(diagnostics, BC_ERROR, file->path, 0,
			"is no plain file; a place for one was expected");
		return BC_IO;
	}
	enum bc_status status = lock(file, diagnostics);
	if (bc_failed(status))
		return status;
	if (fstat(file->fd, &about) != 0)
		return complain(file, "open", diagnostics);
	*gone = about.st_nlink == 0;
	file->length = (size_t)about.st_size;
	return BC_OK;
}

static enum bc_status sync_folder(const struct bc_append *file)
{
	char *path = bc_strdup(file->path);
	if (path == NULL)
		return BC_NO_MEMORY;
	bc_file_sync_folder(path);
	bc_free(path);
	return BC_OK;
}

enum bc_status bc_append_open(
	struct bc_append *file, const char *path, struct bc_diagnostics *diagnostics)
{
	bool made = false;
	bool gone = true;
	bc_append_init(file);
	file->path = bc_strdup(path);
	enum bc_status status = file->path == NULL ? BC_NO_MEMORY : BC_OK;
	for (int i = 0; i < TRIES && gone && !bc_failed(status); i++) {
		if (file->fd >= 0)
			close(file->fd);
		status = open_once(file, &made, &gone, diagnostics);
	}
	if (!bc_failed(status) && made)
		status = sync_folder(file);
	if (bc_failed(status))
		bc_append_close(file);
	return status;
}

enum bc_status bc_append_read(struct bc_append *file, size_t limit, char **bytes, size_t *n,
	struct bc_diagnostics *diagnostics)
{
	*bytes = NULL;
	*n = 0;
	if (lseek(file->fd, 0, SEEK_SET) != 0)
		return complain(file, "read", diagnostics);
	enum bc_status status =
		bc_file_read_all(file->fd, file->path, limit, bytes, n, diagnostics);
	if (bc_failed(status)) {
		bc_free(*bytes);
		*bytes = NULL;
		*n = 0;
	}
	return status;
}

enum bc_status bc_append_write(struct bc_append *file, const char *bytes, size_t n, bool *torn,
	struct bc_diagnostics *diagnostics)
{
	*torn = false;
	if (bc_file_put(file->fd, bytes, n) == 0 && !bc_file_fails() && fsync(file->fd) == 0) {
		file->length += n;
		return BC_OK;
	}
	enum bc_status status = complain(file, "write", diagnostics);
	*torn = bc_file_fails() || ftruncate(file->fd, (off_t)file->length) != 0;
	return status;
}

enum bc_status bc_append_restart(struct bc_append *file, struct bc_diagnostics *diagnostics)
{
	if (bc_file_fails() || ftruncate(file->fd, 0) != 0)
		return complain(file, "write", diagnostics);
	file->length = 0;
	return BC_OK;
}

enum bc_status bc_append_remove(struct bc_append *file, struct bc_diagnostics *diagnostics)
{
	if (bc_file_fails() || unlink(file->path) != 0)
		return complain(file, "remove", diagnostics);
	return sync_folder(file);
}
