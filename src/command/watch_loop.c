/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The loop of 'watch': a keyboard, a logger and signals, one poll for all. */
#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <poll.h>
#include <signal.h>
#include <string.h>
#include <unistd.h>

#include "command/command.h"
#include "command/output.h"
#include "command/watch_run.h"

#ifndef SIGWINCH /* POSIX 2008 has no name for it */
#define SIGWINCH 28
#endif

enum { TICK_MS = 200 };

static int signal_pipe[2] = {-1, -1};

static void note_signal(int number)
{
	int why = errno;
	unsigned char byte = (unsigned char)number;
	ssize_t done = write(signal_pipe[1], &byte, 1);
	(void)done; /* a full pipe holds a signal already */
	errno = why;
}

static const int signals[] = {SIGINT, SIGTERM, SIGHUP, SIGWINCH};
enum { SIGNALS = sizeof signals / sizeof signals[0] };
static struct sigaction before[SIGNALS];
static bool caught;

bool watch_signals_catch(void)
{
	struct sigaction action = {.sa_handler = note_signal};
	sigemptyset(&action.sa_mask);
	if (pipe(signal_pipe) != 0)
		return false;
	for (int i = 0; i < 2; i++) {
		(void)fcntl(signal_pipe[i], F_SETFL, O_NONBLOCK);
		(void)fcntl(signal_pipe[i], F_SETFD, FD_CLOEXEC);
	}
	for (size_t i = 0; i < SIGNALS; i++) {
		if (sigaction(signals[i], &action, &before[i]) != 0)
			return false;
	}
	caught = true;
	return true;
}

void watch_signals_release(void)
{
	for (size_t i = 0; i < SIGNALS && caught; i++)
		(void)sigaction(signals[i], &before[i], NULL);
	caught = false;
	for (int i = 0; i < 2; i++) {
		if (signal_pipe[i] >= 0)
			close(signal_pipe[i]);
		signal_pipe[i] = -1;
	}
}

static void read_signals(struct watch_run *run, bool *asked)
{
	unsigned char numbers[32];
	ssize_t got = read(signal_pipe[0], numbers, sizeof numbers);
	bool resized = false;
	for (ssize_t i = 0; i < got; i++) {
		if (numbers[i] == SIGWINCH)
			resized = true;
		else
			run->ended = true;
	}
	if (run->ended && run->terminal)
		bc_out("\n");
	if (!resized || run->ended)
		return;
	watch_screen_resize(run);
	*asked = !run->screen.on; /* the prompt went with the old screen */
}

static void read_typed(struct watch_run *run)
{
	size_t room = 0;
	size_t thrown = run->typed.n_thrown;
	char *place = bc_lines_room(&run->typed, &room);
	ssize_t got = read(run->typed_fd, place, room);
	if (got < 0 && (errno == EINTR || errno == EAGAIN))
		return;
	const char *rest = got <= 0 ? bc_lines_rest(&run->typed) : NULL;
	if (got > 0)
		bc_lines_arrived(&run->typed, (size_t)got);
	for (const char *line = bc_lines_next(&run->typed); line != NULL && !run->ended;
		line = bc_lines_next(&run->typed))
		watch_typed(run, line);
	if (rest != NULL && !run->ended)
		watch_typed(run, rest);
	if (run->typed.n_thrown > thrown)
		bc_out("the line is too long, and is left out\n");
	if (got > 0 || run->ended)
		return;
	if (run->terminal)
		bc_out("\n");
	run->typed_fd = -1;
	run->ended = run->source.path == NULL || run->source.fd < 0 || run->terminal;
}

/* The place that a bare number stands for. */
static void prompt(struct watch_run *run)
{
	struct bc_text words;
	bool ibp = false;
	if (!run->terminal || run->ended)
		return;
	double next = bc_watching_next(&run->watching, &ibp);
	bc_text_init(&words);
	if (run->watching.asks)
		bc_text_append(&words, "y or n");
	else if (ibp)
		bc_text_append(&words, "IBP");
	else if (!isnan(next))
		bc_text_printf(&words, "%.10g", next);
	bc_text_append(&words, "> ");
	bc_out_text(&words);
	bc_text_release(&words);
}

static void wait_and_serve(struct watch_run *run, bool *asked)
{
	struct pollfd fds[] = {
		{.fd = signal_pipe[0], .events = POLLIN},
		{.fd = run->typed_fd, .events = POLLIN},
		{.fd = run->source.path != NULL ? run->source.fd : -1, .events = POLLIN},
	};
	int ready = poll(fds, 3, run->source.path != NULL ? TICK_MS : -1);
	if (ready < 0 && errno != EINTR) {
		bc_complain("cannot wait for input: %s", strerror(errno));
		run->ended = true;
		run->result = BC_EXIT_SYSTEM;
		return;
	}
	if (ready > 0 && fds[0].revents != 0)
		read_signals(run, asked);
	if (ready > 0 && fds[1].revents != 0 && !run->ended) {
		read_typed(run);
		*asked = false;
	}
	if (ready > 0 && fds[2].revents != 0 && !run->ended)
		watch_source_read(run);
	if (!run->ended)
		watch_source_tick(run);
}

int watch_loop(struct watch_run *run)
{
	bool asked = false;
	while (!run->ended && !bc_out_failed()) {
		if (!asked)
			prompt(run);
		asked = true;
		wait_and_serve(run, &asked);
	}
	return run->result;
}
