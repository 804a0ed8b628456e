/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the files of stills are kept, by name. */
#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/file.h"
#include "base/memory.h"
#include "still/still_file.h"

#define ENDING ".csv"
#define LIMIT_BYTES ((size_t)1024 * 1024)

static bool is_plain(char c)
{
	return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
	       ((unsigned char)c & 0x80u) != 0;
}

/* A name goes into messages and files: whole characters, none that a terminal obeys. */
static bool is_clean(const char *name)
{
	while (*name != '\0') {
		size_t n = bc_utf8_length(name);
		if (n == 0 || bc_utf8_is_control(name, n))
			return false;
		name += n;
	}
	return true;
}

bool bc_still_name_is_safe(const char *name)
{
	size_t n = strlen(name);
	if (n == 0 || n >= BC_STILL_NAME_MAX || !is_plain(name[0]) || name[n - 1] == ' ' ||
		strcmp(name, "default") == 0)
		return false;
	for (size_t i = 0; i < n; i++) {
		if (!is_plain(name[i]) && strchr(" ._-", name[i]) == NULL)
			return false;
	}
	return is_clean(name);
}

char *bc_still_shelf(void)
{
	const char *data = getenv("XDG_DATA_HOME");
	const char *home = getenv("HOME");
	if (data != NULL && data[0] == '/') /* a relative one is to be ignored: XDG base folders */
		return bc_format("%s/boilcut/stills", data);
	if (home != NULL && home[0] != '\0')
		return bc_format("%s/.local/share/boilcut/stills", home);
	return NULL;
}

char *bc_still_path(const char *name)
{
	char *shelf = bc_still_shelf();
	char *path = shelf != NULL ? bc_format("%s/%s" ENDING, shelf, name) : NULL;
	bc_free(shelf);
	return path;
}

static enum bc_status no_path(struct bc_diagnostics *diagnostics)
{
	char *shelf = bc_still_shelf();
	const char *home = getenv("HOME");
	bool homeless = shelf == NULL && (home == NULL || home[0] == '\0');
	bc_free(shelf);
	if (!homeless)
		return BC_NO_MEMORY;
	bc_diagnose(diagnostics, BC_ERROR, "stills", 0,
		"no folder for stills; expected HOME or XDG_DATA_HOME to name one");
	return BC_IO;
}

enum bc_status bc_still_load(
	const char *name, struct bc_diagnostics *diagnostics, struct bc_still_record *record)
{
	struct stat about;
	char *bytes = NULL;
	size_t n = 0;
	*record = bc_still_record_new();
	if (!bc_still_name_is_safe(name))
		return BC_NOT_FOUND;
	char *path = bc_still_path(name);
	if (path == NULL)
		return no_path(NULL) == BC_NO_MEMORY ? BC_NO_MEMORY : BC_NOT_FOUND;
	enum bc_status status = BC_NOT_FOUND;
	bool there = stat(path, &about) == 0;
	if (there && !S_ISREG(about.st_mode)) {
		bc_diagnose(diagnostics, BC_ERROR, path, 0, "not a file; expected that of a still");
		status = BC_IO;
	} else if (there || errno != ENOENT) {
		status = bc_file_read(path, LIMIT_BYTES, &bytes, &n, diagnostics);
	}
	if (!bc_failed(status))
		status = bc_still_read_named(bytes, n, path, name, diagnostics, record);
	bc_free(bytes);
	bc_free(path);
	return status;
}

/* Each folder on the way to path, not its last part. */
static enum bc_status make_folders(char *path, struct bc_diagnostics *diagnostics)
{
	for (char *at = strchr(path + 1, '/'); at != NULL; at = strchr(at + 1, '/')) {
		*at = '\0';
		int made = mkdir(path, 0777);
		int why = errno;
		*at = '/';
		if (made != 0 && why != EEXIST) {
			bc_diagnose(diagnostics, BC_ERROR, path, 0, "cannot make its folder: %s",
				strerror(why));
			return BC_IO;
		}
	}
	return BC_OK;
}

enum bc_status bc_still_save(
	const struct bc_still_record *record, struct bc_diagnostics *diagnostics)
{
	struct bc_text text;
	if (!bc_still_name_is_safe(record->still.name))
		return BC_BAD_DOMAIN;
	char *path = bc_still_path(record->still.name);
	if (path == NULL)
		return no_path(diagnostics);
	bc_text_init(&text);
	enum bc_status status = bc_still_write(record, &text);
	if (!bc_failed(status))
		status = make_folders(path, diagnostics);
	if (!bc_failed(status))
		status = bc_file_write(path, text.data, text.length, diagnostics);
	bc_text_release(&text);
	bc_free(path);
	return status;
}

static int by_name(const void *a, const void *b)
{
	return strcmp(*(char *const *)a, *(char *const *)b);
}

/* Opening a pipe or a device would wait, or do worse. */
static bool is_regular(const char *shelf, const char *file)
{
	struct stat about;
	char *path = bc_format("%s/%s", shelf, file);
	bool regular = path != NULL && stat(path, &about) == 0 && S_ISREG(about.st_mode);
	bool no_memory = path == NULL; /* the name is then taken, and its reading tells */
	bc_free(path);
	return regular || no_memory;
}

/* The name of a file that may be a still's, or nothing. */
static void take_name(const char *shelf, const char *file, struct bc_strings *names)
{
	char name[BC_STILL_NAME_MAX];
	size_t n = strlen(file);
	size_t ending = strlen(ENDING);
	if (n <= ending || n - ending >= sizeof name || strcmp(file + n - ending, ENDING) != 0)
		return;
	memcpy(name, file, n - ending);
	name[n - ending] = '\0';
	if (bc_still_name_is_safe(name) && is_regular(shelf, file))
		bc_strings_add(names, "%s", name);
}

enum bc_status bc_still_list(struct bc_strings *names, struct bc_diagnostics *diagnostics)
{
	char *shelf = bc_still_shelf();
	if (shelf == NULL)
		return no_path(diagnostics);
	DIR *folder = opendir(shelf);
	if (folder == NULL && errno != ENOENT)
		bc_diagnose(diagnostics, BC_ERROR, shelf, 0, "cannot open: %s", strerror(errno));
	enum bc_status status = folder == NULL && errno != ENOENT ? BC_IO : BC_OK;
	for (struct dirent *entry = NULL; folder != NULL && (entry = readdir(folder)) != NULL;)
		take_name(shelf, entry->d_name, names);
	if (folder != NULL)
		closedir(folder);
	bc_free(shelf);
	if (names->failed)
		return BC_NO_MEMORY;
	if (names->n > 1)
		qsort(names->items, names->n, sizeof names->items[0], by_name);
	return status;
}
