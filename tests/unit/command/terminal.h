/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_UNIT_COMMAND_TERMINAL_H
#define BC_UNIT_COMMAND_TERMINAL_H

/* A program on a pseudo-terminal, and the screen that a person would see of it. */
#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/types.h>
#include <sys/wait.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

#include "unit/unit.h"

enum { SCREEN_ROWS = 90, SCREEN_COLUMNS = 100, RAW_BYTES = 65536, WAIT_MS = 8000 };

struct screen {
	char cell[SCREEN_ROWS][SCREEN_COLUMNS][5]; /* UTF-8 */
	int rows, columns;
	int row, column, saved_row, saved_column;
	int top, bottom; /* of what scrolls */
	int bells;
	char escape[32];
	size_t n_escape;
	char character[5];
	size_t n_character;
};

struct session {
	pid_t pid;
	int fd; /* master of the pseudo-terminal, or the end of pipes */
	int in; /* what is typed goes here */
	char raw[RAW_BYTES];
	size_t n;
	size_t seen; /* of raw, by wait_for */
	struct screen screen;
	int status; /* -1 while it runs */
};

/* ---- the screen */

static inline void screen_init(struct screen *screen, int rows, int columns)
{
	memset(screen, 0, sizeof *screen);
	screen->rows = rows;
	screen->columns = columns;
	screen->bottom = rows - 1;
	for (int r = 0; r < SCREEN_ROWS; r++)
		for (int c = 0; c < SCREEN_COLUMNS; c++)
			strcpy(screen->cell[r][c], " ");
}

static inline void screen_blank(struct screen *screen, int row, int from)
{
	for (int c = from; c < SCREEN_COLUMNS; c++)
		strcpy(screen->cell[row][c], " ");
}

static inline void screen_line_feed(struct screen *screen)
{
	if (screen->row != screen->bottom) {
		if (screen->row < screen->rows - 1)
			screen->row++;
		return;
	}
	for (int r = screen->top; r < screen->bottom; r++)
		memcpy(screen->cell[r], screen->cell[r + 1], sizeof screen->cell[r]);
	screen_blank(screen, screen->bottom, 0);
}

static inline void screen_sequence(struct screen *screen)
{
	int a = 0;
	int b = 0;
	const char *s = screen->escape;
	char last = s[screen->n_escape - 1];
	if (s[0] == '7') {
		screen->saved_row = screen->row;
		screen->saved_column = screen->column;
	} else if (s[0] == '8') {
		screen->row = screen->saved_row;
		screen->column = screen->saved_column;
	} else if (last == 'H') {
		char *end = NULL;
		a = (int)strtol(s + 1, &end, 10);
		b = *end == ';' ? (int)strtol(end + 1, NULL, 10) : 1;
		screen->row = a - 1;
		screen->column = b - 1;
	} else if (last == 'r') {
		char *end = NULL;
		a = (int)strtol(s + 1, &end, 10);
		b = *end == ';' ? (int)strtol(end + 1, NULL, 10) : 0;
		screen->top = a > 0 ? a - 1 : 0;
		screen->bottom = b > 0 ? b - 1 : screen->rows - 1;
		screen->row = 0;
		screen->column = 0;
	} else if (last == 'm') {
		return; /* colours */
	} else if (last == 'K') {
		screen_blank(screen, screen->row, screen->column);
	} else if (strcmp(s, "[2J") == 0) {
		for (int r = 0; r < screen->rows; r++)
			screen_blank(screen, r, 0);
	} else {
		fail_msg("the terminal does not know ESC %s", s);
	}
}

static inline void screen_character(struct screen *screen)
{
	if (screen->column == screen->columns) {
		screen->column = 0;
		screen_line_feed(screen);
	}
	screen->character[screen->n_character] = '\0';
	strcpy(screen->cell[screen->row][screen->column++], screen->character);
	screen->n_character = 0;
}

static inline void screen_byte(struct screen *screen, char byte)
{
	if (screen->n_escape > 0) {
		screen->escape[screen->n_escape - 1] = byte;
		screen->escape[screen->n_escape] = '\0';
		bool more = byte == '[' || byte == ';' || (byte >= '0' && byte <= '9');
		bool first = screen->n_escape == 1;
		if ((first && byte != '[') || (!first && !more)) {
			screen_sequence(screen);
			screen->n_escape = 0;
		} else {
			screen->n_escape++;
		}
		return;
	}
	if (byte == '\033')
		screen->n_escape = 1;
	else if (byte == '\a')
		screen->bells++;
	else if (byte == '\r')
		screen->column = 0;
	else if (byte == '\n')
		screen_line_feed(screen);
	else {
		screen->character[screen->n_character++] = byte;
		unsigned char lead = (unsigned char)screen->character[0];
		size_t length = lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
		if (screen->n_character == length)
			screen_character(screen);
	}
}

/* The whole screen: blanks at the ends of lines and empty lines at the end are left out. */
static inline void assert_screen(const struct session *session, const char *expected)
{
	static char text[SCREEN_ROWS * SCREEN_COLUMNS * 4];
	const struct screen *screen = &session->screen;
	size_t n = 0;
	size_t end = 0;
	for (int r = 0; r < screen->rows; r++) {
		size_t filled = n;
		for (int c = 0; c < screen->columns; c++) {
			size_t length = strlen(screen->cell[r][c]);
			memcpy(text + n, screen->cell[r][c], length);
			n += length;
			if (strcmp(screen->cell[r][c], " ") != 0)
				filled = n;
		}
		bool empty = r == 0 ? filled == 0 : text[filled - 1] == '\n';
		n = filled;
		text[n++] = '\n';
		end = empty ? end : n;
	}
	text[end] = '\0';
	assert_string_equal(text, expected);
}

/* ---- the program */

static inline double steady_now(void)
{
	struct timespec time;
	clock_gettime(CLOCK_MONOTONIC, &time);
	return (double)time.tv_sec + (double)time.tv_nsec * 1e-9;
}

static inline void session_on_terminal(
	struct session *session, const char *const *words, int rows, int columns)
{
	memset(session, 0, sizeof *session);
	session->status = -1;
	screen_init(&session->screen, rows, columns);
	session->fd = posix_openpt(O_RDWR | O_NOCTTY);
	assert_true(session->fd >= 0 && grantpt(session->fd) == 0 && unlockpt(session->fd) == 0);
	const struct winsize size = {
		.ws_row = (unsigned short)rows, .ws_col = (unsigned short)columns};
	const char *name = ptsname(session->fd);
	session->in = session->fd;
	session->pid = fork();
	if (session->pid == 0) {
		setsid();
		int fd = open(name, O_RDWR);
		ioctl(fd, TIOCSCTTY, 0);
		ioctl(fd, TIOCSWINSZ, &size);
		dup2(fd, STDIN_FILENO);
		dup2(fd, STDOUT_FILENO);
		dup2(fd, STDERR_FILENO);
		close(fd);
		close(session->fd);
		execv(words[0], (char *const *)(uintptr_t)words);
		_exit(126);
	}
	assert_true(session->pid > 0);
}

/* What is written to both standard streams arrives; -1 for in: standard input is a pipe. */
static inline void session_on_pipes(struct session *session, const char *const *words)
{
	int in[2];
	int out[2];
	memset(session, 0, sizeof *session);
	session->status = -1;
	screen_init(&session->screen, SCREEN_ROWS, SCREEN_COLUMNS);
	assert_true(pipe(in) == 0 && pipe(out) == 0);
	session->pid = fork();
	if (session->pid == 0) {
		setsid();
		dup2(in[0], STDIN_FILENO);
		dup2(out[1], STDOUT_FILENO);
		dup2(out[1], STDERR_FILENO);
		close(in[0]);
		close(in[1]);
		close(out[0]);
		close(out[1]);
		execv(words[0], (char *const *)(uintptr_t)words);
		_exit(126);
	}
	assert_true(session->pid > 0);
	close(in[0]);
	close(out[1]);
	session->in = in[1];
	session->fd = out[0];
}

/* Takes in what there is for at most so long; false at the end. */
static inline bool session_listen(struct session *session, int ms)
{
	struct pollfd fd = {.fd = session->fd, .events = POLLIN};
	if (poll(&fd, 1, ms) <= 0)
		return true;
	if (session->n == RAW_BYTES - 1)
		fail_msg("it says more than anybody reads");
	ssize_t got = read(session->fd, session->raw + session->n, RAW_BYTES - 1 - session->n);
	if (got <= 0)
		return got < 0 && errno == EINTR;
	for (ssize_t i = 0; i < got; i++)
		screen_byte(&session->screen, session->raw[session->n + (size_t)i]);
	session->n += (size_t)got;
	session->raw[session->n] = '\0';
	return true;
}

/* Waits until words come that were not waited for before. */
static inline void wait_for(struct session *session, const char *words)
{
	double end = steady_now() + WAIT_MS / 1000.0;
	for (;;) {
		char *found = strstr(session->raw + session->seen, words);
		if (found != NULL) {
			session->seen = (size_t)(found - session->raw) + strlen(words);
			return;
		}
		bool more = session_listen(session, 100);
		if ((!more || steady_now() > end) &&
			strstr(session->raw + session->seen, words) == NULL)
			fail_msg("'%s' did not come; what came: %s", words,
				session->raw + session->seen);
	}
}

static inline void type(struct session *session, const char *words)
{
	size_t n = strlen(words);
	assert_int_equal(write(session->in, words, n), (ssize_t)n);
}

/* The exit status, once it ends; what it says to the end is taken in. */
static inline int session_end(struct session *session)
{
	double end = steady_now() + WAIT_MS / 1000.0;
	while (session_listen(session, 100)) {
		if (steady_now() > end)
			fail_msg("it does not end; what came: %s", session->raw);
	}
	if (session->in != session->fd)
		close(session->in);
	close(session->fd);
	int state = 0;
	while (waitpid(session->pid, &state, 0) < 0)
		assert_int_equal(errno, EINTR);
	session->status = WIFEXITED(state) ? WEXITSTATUS(state) : 128 + WTERMSIG(state);
	return session->status;
}

/* Ends a program that a failed test left behind. */
static inline void session_kill(struct session *session)
{
	if (session->pid <= 0 || session->status != -1)
		return;
	kill(session->pid, SIGKILL);
	waitpid(session->pid, NULL, 0);
	session->status = 128 + SIGKILL;
}

#endif
