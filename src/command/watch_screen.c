/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sketch of 'watch': it keeps the top of a terminal, and the lines scroll below it. */
#define _DEFAULT_SOURCE /* TIOCGWINSZ */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include "base/text.h"
#include "command/output.h"
#include "command/watch_run.h"
#include "report/sketch.h"

/* A terminal this low has no room beside the lines; a third of a higher one is the sketch's. */
enum { ROWS_LEAST = 16, SKETCH_MOST = 10, ROWS_USUAL = 24, COLUMNS_USUAL = 80 };

static bool is_utf8(void)
{
	static const char *const names[] = {"LC_ALL", "LC_CTYPE", "LANG"};
	for (size_t i = 0; i < 3; i++) {
		const char *value = getenv(names[i]);
		if (value == NULL || *value == '\0')
			continue;
		const char *dot = strchr(value, '.');
		return dot != NULL &&
		       (strncasecmp(dot, ".utf-8", 6) == 0 || strncasecmp(dot, ".utf8", 5) == 0);
	}
	return false;
}

static void measure(struct watch_screen *screen)
{
	struct winsize size = {0};
	screen->rows = ROWS_USUAL;
	screen->columns = COLUMNS_USUAL;
	if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_row > 0 && size.ws_col > 0) {
		screen->rows = size.ws_row;
		screen->columns = size.ws_col;
	}
}

__attribute__((format(printf, 1, 2))) static void send(const char *format, ...)
{
	struct bc_text text;
	va_list arguments;
	bc_text_init(&text);
	va_start(arguments, format);
	bc_text_vprintf(&text, format, arguments);
	va_end(arguments);
	bc_out_text(&text);
	bc_text_release(&text);
}

/* The scrolling part begins below the sketch; without one it is the whole terminal. */
static void take_room(struct watch_screen *screen)
{
	size_t wanted = screen->rows / 3 < SKETCH_MOST ? screen->rows / 3 : SKETCH_MOST;
	bool room = screen->rows >= ROWS_LEAST && screen->columns >= BC_SKETCH_COLUMNS_MIN;
	screen->sketch_rows = room ? wanted : 0;
	if (screen->sketch_rows > 0)
		send("\033[%zu;%zur\033[%zu;1H", screen->sketch_rows + 1, screen->rows,
			screen->rows);
	else
		send("\033[r\033[%zu;1H", screen->rows);
}

void watch_screen_open(struct watch_run *run)
{
	struct watch_screen *screen = &run->screen;
	const char *terminal = getenv("TERM");
	screen->on = run->terminal && !bc_arguments_has(run->arguments, "no-sketch") &&
		     terminal != NULL && *terminal != '\0' && strcmp(terminal, "dumb") != 0;
	screen->plain = bc_arguments_has(run->arguments, "plain") || !is_utf8();
	if (run->terminal)
		measure(screen);
	if (!screen->on)
		return;
	send("\033[2J");
	take_room(screen);
	watch_screen_draw(run);
}

void watch_screen_resize(struct watch_run *run)
{
	struct watch_screen *screen = &run->screen;
	if (run->terminal)
		measure(screen);
	if (!screen->on)
		return;
	send("\033[r\033[2J");
	take_room(screen);
	watch_screen_draw(run);
}

void watch_screen_close(struct watch_run *run)
{
	if (run->screen.on && run->screen.sketch_rows > 0)
		send("\033[r\033[%zu;1H", run->screen.rows);
	run->screen.on = false;
}

void watch_screen_draw(struct watch_run *run)
{
	const struct watch_screen *screen = &run->screen;
	struct bc_watch_seen seen[BC_WATCH_SEEN_MAX];
	double pct[BC_WATCH_SEEN_MAX];
	double head[BC_WATCH_SEEN_MAX];
	struct bc_text picture;
	struct bc_text out;
	if (!screen->on || screen->sketch_rows == 0)
		return;
	size_t n = bc_watching_seen(&run->watching, seen, BC_WATCH_SEEN_MAX);
	for (size_t i = 0; i < n; i++) {
		pct[i] = seen[i].pct;
		head[i] = seen[i].noted->head;
	}
	const struct bc_sketch size = {screen->columns, screen->sketch_rows, screen->plain};
	bc_text_init(&picture);
	bc_text_init(&out);
	bc_report_sketch(&size, pct, head, n, &picture);
	const char *line = picture.data != NULL ? picture.data : "";
	bc_text_append(&out, "\0337");
	for (size_t row = 0; row < screen->sketch_rows; row++) {
		size_t length = strcspn(line, "\n");
		bc_text_printf(&out, "\033[%zu;1H\033[K", row + 1);
		bc_text_append_n(&out, line, length);
		line += length + (line[length] == '\n');
	}
	bc_text_append(&out, "\0338");
	if (!picture.failed && !out.failed)
		bc_out_text(&out);
	bc_text_release(&picture);
	bc_text_release(&out);
}
