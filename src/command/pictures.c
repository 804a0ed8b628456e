/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes chart scripts into a folder and has gnuplot draw them, without a shell between. */
#include "command/pictures.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/file.h"
#include "base/memory.h"
#include "base/text.h"
#include "command/arguments.h"
#include "command/output.h"
#include "report/report.h"

#define NAME_MAX_BYTES 80

int bc_pictures_open(struct bc_pictures *pictures, const char *folder)
{
	*pictures = (struct bc_pictures){.folder = folder};
	bc_strings_init(&pictures->names);
	char *path = bc_strdup(folder);
	if (path == NULL)
		return bc_no_memory();
	int result = BC_EXIT_DONE;
	for (char *at = path + 1; path[0] != '\0' && result == BC_EXIT_DONE; at++) {
		char here = *at;
		if (here != '/' && here != '\0')
			continue;
		*at = '\0';
		if (mkdir(path, 0777) != 0 && errno != EEXIST) {
			bc_complain("%s: cannot make the folder: %s", path, strerror(errno));
			result = BC_EXIT_SYSTEM;
		}
		*at = here;
		if (here == '\0')
			break;
	}
	bc_free(path);
	return result;
}

void bc_pictures_close(struct bc_pictures *pictures)
{
	if (pictures != NULL)
		bc_strings_release(&pictures->names);
}

static bool is_plain(char c)
{
	return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
	       c == '.' || c == '_' || c == '-';
}

/* The file's name without folder and ending, of letters, digits and ._- alone. */
static void plain_name(const char *file, struct bc_text *name)
{
	const char *slash = strrchr(file, '/');
	const char *base = slash != NULL ? slash + 1 : file;
	const char *dot = strrchr(base, '.');
	size_t n = dot != NULL && dot != base ? (size_t)(dot - base) : strlen(base);
	for (size_t i = 0; i < n && name->length < NAME_MAX_BYTES; i++) {
		bool first = name->length == 0;
		bool takes = is_plain(base[i]) && !(first && (base[i] == '-' || base[i] == '.'));
		bc_text_append_n(name, takes ? &base[i] : "_", 1);
	}
	if (name->length == 0 || strcmp(file, "-") == 0) {
		name->length = 0;
		bc_text_append(name, "sample");
	}
}

static bool is_taken(const struct bc_strings *names, const char *name)
{
	for (size_t i = 0; i < names->n; i++) {
		if (strcmp(names->items[i], name) == 0)
			return true;
	}
	return false;
}

/* A name that no earlier sample of this run has; the caller frees it. */
static char *own_name(struct bc_pictures *pictures, const char *file)
{
	struct bc_text base;
	bc_text_init(&base);
	plain_name(file, &base);
	char *name = base.failed ? NULL : bc_strdup(base.data);
	for (unsigned i = 2; name != NULL && is_taken(&pictures->names, name); i++) {
		bc_free(name);
		name = bc_format("%s-%u", base.data, i);
	}
	if (name != NULL)
		bc_strings_add(&pictures->names, "%s", name);
	bc_text_release(&base);
	return name;
}

/* Only returns in the child when gnuplot could not be started. */
static void become_gnuplot(const char *folder, char *output, char *script, int errors)
{
	char program[] = "gnuplot";
	char defaults[] = "-d";
	char execute[] = "-e";
	char *words[] = {program, defaults, execute, output, script, NULL};
	int nothing = open("/dev/null", O_RDWR);
	if (nothing < 0 || dup2(nothing, STDIN_FILENO) < 0 || dup2(nothing, STDOUT_FILENO) < 0 ||
		dup2(errors, STDERR_FILENO) < 0 || chdir(folder) != 0 ||
		setenv("LC_ALL", "C.UTF-8", 1) != 0) /* the scripts are UTF-8 */
		_exit(1);
	execvp(program, words);
	_exit(errno == ENOENT ? BC_PICTURES_NO_GNUPLOT : 1);
}

/* The first line that gnuplot has to say on its errors, for the message; reads all of it. */
static void first_words(int fd, char *words, size_t size)
{
	char piece[512];
	size_t length = 0;
	ssize_t got = 0;
	while ((got = read(fd, piece, sizeof piece)) > 0 || (got < 0 && errno == EINTR)) {
		for (ssize_t i = 0; i < got && length + 1 < size; i++)
			words[length++] = piece[i];
	}
	words[length] = '\0';
	size_t blank = strspn(words, " \n\t^");
	memmove(words, words + blank, length - blank + 1);
	words[strcspn(words, "\n")] = '\0';
}

static int wait_for(pid_t child)
{
	int state = 0;
	while (waitpid(child, &state, 0) < 0) {
		if (errno != EINTR)
			return -1;
	}
	return WIFEXITED(state) ? WEXITSTATUS(state) : -1;
}

int bc_pictures_run(const char *folder, const char *picture, const char *script)
{
	char words[256] = "";
	int pipe_ends[2];
	int state = -1;
	char *output = bc_format("out='%s'", picture);
	char *input = bc_strdup(script);
	if (output != NULL && input != NULL && pipe(pipe_ends) == 0) {
		pid_t child = fork();
		if (child == 0) {
			close(pipe_ends[0]);
			become_gnuplot(folder, output, input, pipe_ends[1]);
		}
		close(pipe_ends[1]);
		if (child > 0) {
			first_words(pipe_ends[0], words, sizeof words);
			state = wait_for(child);
		}
		close(pipe_ends[0]);
	}
	if (state != 0 && state != BC_PICTURES_NO_GNUPLOT)
		bc_complain("%s/%s: gnuplot could not draw it%s%s", folder, script,
			words[0] != '\0' ? ": " : "", words);
	bc_free(output);
	bc_free(input);
	return state;
}

static void tell(const struct bc_pictures *pictures, const char *file)
{
	struct bc_text line;
	if (!pictures->tell)
		return;
	bc_text_init(&line);
	bc_text_append_escaped(&line, pictures->folder);
	bc_text_printf(&line, "/%s\n", file);
	if (!line.failed)
		bc_out_text(&line);
	bc_text_release(&line);
}

static int draw_picture(
	struct bc_pictures *pictures, const char *name, const char *kind, const char *ending)
{
	char *script = bc_format("%s-%s.gp", name, kind);
	char *picture = bc_format("%s-%s.%s", name, kind, ending);
	int result = BC_EXIT_DONE;
	if (script == NULL || picture == NULL) {
		result = bc_no_memory();
	} else {
		int state = bc_pictures_run(pictures->folder, picture, script);
		if (state == 0) {
			tell(pictures, picture);
		} else if (state == BC_PICTURES_NO_GNUPLOT) {
			pictures->no_gnuplot = true;
			bc_complain(
				"gnuplot is not installed, so scripts alone were written; where it "
				"is, draw one with: gnuplot -e \"out='%s'\" %s",
				picture, script);
		} else {
			result = BC_EXIT_SYSTEM;
		}
	}
	bc_free(script);
	bc_free(picture);
	return result;
}

/* What is drawn, and by whom. */
struct drawing {
	bc_picture_writer *write;
	const void *subject;
};

static int write_script(const struct bc_pictures *pictures, const struct drawing *drawing,
	const char *name, const char *kind)
{
	struct bc_text script;
	struct bc_diagnostics diagnostics;
	bc_text_init(&script);
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = drawing->write(drawing->subject, kind, &script);
	char *file = bc_format("%s-%s.gp", name, kind);
	char *path = bc_format("%s/%s-%s.gp", pictures->folder, name, kind);
	if (file == NULL || path == NULL)
		status = BC_NO_MEMORY;
	if (!bc_failed(status))
		status = bc_file_write(path, script.data, script.length, &diagnostics);
	if (!bc_failed(status))
		tell(pictures, file);
	bc_print_diagnostics(&diagnostics);
	if (status == BC_NO_MEMORY)
		bc_no_memory();
	bc_free(file);
	bc_free(path);
	bc_diagnostics_release(&diagnostics);
	bc_text_release(&script);
	return bc_exit_from_status(status);
}

static int draw_kind(struct bc_pictures *pictures, const struct drawing *drawing, const char *name,
	const char *kind)
{
	static const char *const endings[] = {"svg", "png"};
	int result = write_script(pictures, drawing, name, kind);
	for (size_t i = 0; i < 2 && result == BC_EXIT_DONE; i++) {
		if (pictures->scripts_only || pictures->no_gnuplot)
			break;
		result = draw_picture(pictures, name, kind, endings[i]);
	}
	return result;
}

int bc_pictures_draw_all(struct bc_pictures *pictures, const char *file, const char *const *kinds,
	bc_picture_writer *write, const void *subject)
{
	const struct drawing drawing = {write, subject};
	char *name = own_name(pictures, file);
	if (name == NULL || pictures->names.failed) {
		bc_free(name);
		return bc_no_memory();
	}
	int worst = BC_EXIT_DONE;
	for (size_t i = 0; kinds[i] != NULL; i++) {
		if (pictures->only != NULL && strcmp(pictures->only, kinds[i]) != 0)
			continue;
		int result = draw_kind(pictures, &drawing, name, kinds[i]);
		worst = result > worst ? result : worst;
	}
	bc_free(name);
	return worst;
}

static enum bc_status write_chart(const void *subject, const char *kind, struct bc_text *script)
{
	return bc_report_chart(subject, kind, script);
}

int bc_pictures_draw(struct bc_pictures *pictures, const struct bc_judgement *judgement)
{
	return bc_pictures_draw_all(
		pictures, judgement->sample->file, bc_chart_kinds, write_chart, judgement);
}
