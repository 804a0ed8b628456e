/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lines of a data logger in 'watch': a pipe, or a device that may go away and come back. */
#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

#include "base/clock.h"
#include "command/command.h"
#include "command/output.h"
#include "command/watch_run.h"

#define RETRY_S 1.0

/* A serial line as it is, but raw: no echo back to the logger. */
static void make_raw(int fd)
{
	struct termios line;
	if (!isatty(fd) || tcgetattr(fd, &line) != 0)
		return;
	line.c_iflag &= ~(tcflag_t)(IXON | IXOFF | INPCK | ISTRIP | PARMRK | BRKINT);
	line.c_iflag |= IGNBRK;
	line.c_oflag &= ~(tcflag_t)OPOST;
	line.c_lflag &= ~(tcflag_t)(ECHO | ECHONL | ICANON | ISIG | IEXTEN);
	line.c_cflag |= CREAD | CLOCAL;
	line.c_cc[VMIN] = 1;
	line.c_cc[VTIME] = 0;
	(void)tcsetattr(fd, TCSANOW, &line);
}

static bool is_input(const struct watch_source *source) { return strcmp(source->path, "-") == 0; }

void watch_source_open(struct watch_run *run)
{
	struct watch_source *source = &run->source;
	double now = bc_clock_now().steady_s;
	source->tried_s = now;
	if (is_input(source)) {
		source->fd = STDIN_FILENO;
		source->heard_s = now;
		return;
	}
	source->fd = open(source->path, O_RDONLY | O_NOCTTY | O_NONBLOCK | O_CLOEXEC);
	if (source->fd < 0) {
		if (!source->gone)
			bc_complain("%s: cannot open: %s; it is tried again every second",
				source->path, strerror(errno));
		source->gone = true;
		return;
	}
	make_raw(source->fd);
	bc_lines_init(&source->lines);
	bc_logger_again(&source->logger);
	source->heard_s = now;
}

void watch_source_close(struct watch_source *source)
{
	if (source->fd > STDIN_FILENO)
		close(source->fd);
	source->fd = -1;
}

/* The rest of a line that was cut off is not a reading. */
static void lose(struct watch_run *run)
{
	struct watch_source *source = &run->source;
	if (bc_lines_rest(&source->lines) != NULL) {
		source->n_cut++;
		bc_out("logger: a line was cut off; skipped\n");
	}
	watch_source_close(source);
	run->watching.stream_stands = true;
	if (is_input(source)) {
		if (run->typed_fd < 0)
			run->ended = true;
		else
			bc_out("logger: no more lines come\n");
		return;
	}
	if (!source->gone)
		bc_out("logger: gone; it is tried again every second\n");
	source->gone = true;
}

static void hear(struct watch_run *run)
{
	struct watch_source *source = &run->source;
	source->heard_s = bc_clock_now().steady_s;
	if (source->silent || source->gone)
		bc_out("logger: here again\n");
	source->silent = false;
	source->gone = false;
}

void watch_source_read(struct watch_run *run)
{
	struct watch_source *source = &run->source;
	size_t room = 0;
	size_t thrown = source->lines.n_thrown;
	char *place = bc_lines_room(&source->lines, &room);
	ssize_t got = read(source->fd, place, room);
	if (got < 0 && (errno == EINTR || errno == EAGAIN))
		return;
	if (got <= 0) {
		/* a pipe that nobody has opened yet reads as ended */
		if (got == 0 && source->gone && source->lines.n == 0)
			watch_source_close(source);
		else
			lose(run);
		return;
	}
	hear(run);
	bc_lines_arrived(&source->lines, (size_t)got);
	for (const char *line = bc_lines_next(&source->lines); line != NULL && !run->ended;
		line = bc_lines_next(&source->lines))
		watch_logged(run, line);
	if (source->lines.n_thrown > thrown) {
		source->n_cut++;
		bc_out("logger: a line without end; skipped\n");
	}
}

void watch_source_tick(struct watch_run *run)
{
	struct watch_source *source = &run->source;
	double now = bc_clock_now().steady_s;
	if (source->path == NULL || (source->fd < 0 && is_input(source)))
		return;
	if (source->fd < 0 && now - source->tried_s >= RETRY_S)
		watch_source_open(run);
	if (source->silent || source->gone || !(now - source->heard_s >= source->stall_s))
		return;
	source->silent = true;
	run->watching.stream_stands = true;
	struct bc_text words;
	bc_text_init(&words);
	bc_text_printf(&words, "no line of the logger for %.0f s: its temperature is old\n",
		source->stall_s);
	if (run->terminal)
		bc_out("\a");
	bc_out("ALARM: ");
	bc_out_text(&words);
	bc_text_release(&words);
}

void watch_source_total(struct watch_run *run)
{
	const struct watch_source *source = &run->source;
	const struct bc_logger *logger = &source->logger;
	struct bc_text words;
	if (source->path == NULL)
		return;
	bc_text_init(&words);
	bc_text_printf(&words, "logger: %zu lines read", logger->n_good);
	if (logger->n_garbled > 0)
		bc_text_printf(&words, ", %zu garbled", logger->n_garbled);
	if (logger->n_repeated > 0)
		bc_text_printf(&words, ", %zu repeated", logger->n_repeated);
	if (source->n_cut > 0)
		bc_text_printf(&words, ", %zu cut off", source->n_cut);
	bc_text_append(&words, "\n");
	bc_out_text(&words);
	bc_text_release(&words);
}
