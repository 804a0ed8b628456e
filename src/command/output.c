/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Everything that leaves the program: results on standard output, checked; messages on standard
 * error, escaped. */
#include "command/output.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/file.h"
#include "base/memory.h"
#include "command/command.h"

static bool out_lost;

static void lose(int why)
{
	if (!out_lost)
		bc_complain("standard output: %s", strerror(why));
	out_lost = true;
}

static void out_n(const char *s, size_t n)
{
	if (out_lost || n == 0)
		return;
	errno = 0;
	if (bc_failed(bc_stream_write(stdout, s, n)))
		lose(errno != 0 ? errno : EIO);
}

void bc_out(const char *s) { out_n(s, strlen(s)); }

void bc_out_text(const struct bc_text *text)
{
	if (text->data != NULL)
		out_n(text->data, text->length);
}

static int append_piece(const char *piece, size_t n, void *context)
{
	struct bc_text *text = context;
	bc_text_append_n(text, piece, n);
	return text->failed ? -1 : 0;
}

/* A JSON text holds raw newlines between its tokens only. */
static void append_indented(struct bc_text *text, const char *lines, size_t indent)
{
	while (*lines != '\0') {
		size_t n = strcspn(lines, "\n");
		bc_text_printf(text, "%*s", (int)indent, "");
		bc_text_append_n(text, lines, n);
		lines += n;
		if (*lines == '\n') {
			bc_text_append(text, "\n");
			lines++;
		}
	}
}

bool bc_out_json(const json_t *json, size_t indent)
{
	const size_t flags = JSON_INDENT(2) | JSON_PRESERVE_ORDER | JSON_REAL_PRECISION(6);
	struct bc_text plain;
	struct bc_text moved;
	bc_text_init(&plain);
	bc_text_init(&moved);
	bool done = json != NULL && json_dump_callback(json, append_piece, &plain, flags) == 0 &&
		    !plain.failed && plain.data != NULL;
	if (done && indent == 0) {
		bc_out_text(&plain);
		bc_out("\n");
	} else if (done) {
		append_indented(&moved, plain.data, indent);
		done = !moved.failed;
		if (done)
			bc_out_text(&moved);
	}
	bc_text_release(&plain);
	bc_text_release(&moved);
	return done;
}

bool bc_out_failed(void) { return out_lost; }

bool bc_out_may_replace(const char *path)
{
	static const char *const pages[] = {"<!DOCTYPE html>", "<svg"};
	if (!bc_file_is_other(path, pages, sizeof pages / sizeof pages[0]))
		return true;
	bc_complain(
		"'%s' is there already and is no page of this kind; expected another name", path);
	return false;
}

int bc_out_file(const char *path, const struct bc_text *text)
{
	struct bc_diagnostics diagnostics;
	if (text->failed || text->data == NULL)
		return bc_no_memory();
	if (!bc_out_may_replace(path))
		return BC_EXIT_USAGE;
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = bc_file_write(path, text->data, text->length, &diagnostics);
	bc_print_diagnostics(&diagnostics);
	bc_diagnostics_release(&diagnostics);
	return bc_exit_from_status(status);
}

int bc_out_close(int exit_status)
{
	errno = 0;
	if (fclose(stdout) != 0 && !out_lost)
		lose(errno);
	if (!out_lost)
		return exit_status;
	return exit_status > BC_EXIT_SYSTEM ? exit_status : BC_EXIT_SYSTEM;
}

static void say(const char *lead, const char *format, va_list arguments)
{
	struct bc_text line;
	bc_text_init(&line);
	char *words = bc_vformat(format, arguments);
	bc_text_append(&line, lead);
	if (words != NULL)
		bc_text_append_escaped(&line, words);
	bc_text_append(&line, "\n");
	if (words == NULL || line.failed || line.data == NULL)
		fputs("boilcut: out of memory\n", stderr);
	else
		fputs(line.data, stderr);
	bc_free(words);
	bc_text_release(&line);
}

void bc_vcomplain(const char *format, va_list arguments) { say("boilcut: ", format, arguments); }

void bc_complain(const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	say("boilcut: ", format, arguments);
	va_end(arguments);
}

void bc_say_line(const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	say("", format, arguments);
	va_end(arguments);
}

int bc_no_memory(void)
{
	fputs("boilcut: out of memory\n", stderr);
	return BC_EXIT_SYSTEM;
}

void bc_print_diagnostics(const struct bc_diagnostics *list)
{
	for (size_t i = 0; i < list->n; i++) {
		const struct bc_diagnostic *item = &list->items[i];
		if (item->file == NULL)
			bc_complain("%s", item->text);
		else if (item->line == 0)
			bc_complain("%s: %s", item->file, item->text);
		else
			bc_complain("%s:%zu: %s", item->file, item->line, item->text);
	}
}

bool bc_wants_colour(const char *when)
{
	if (strcmp(when, "auto") != 0)
		return strcmp(when, "always") == 0;
	const char *no_colour = getenv("NO_COLOR");
	const char *terminal = getenv("TERM");
	return isatty(STDOUT_FILENO) && (no_colour == NULL || no_colour[0] == '\0') &&
	       (terminal == NULL || strcmp(terminal, "dumb") != 0);
}
