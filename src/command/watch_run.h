/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_WATCH_RUN_H
#define BC_COMMAND_WATCH_RUN_H

#include <stdbool.h>
#include <stddef.h>

#include "base/lines.h"
#include "command/arguments.h"
#include "judgement/watching.h"
#include "sample/journal.h"
#include "sample/logger.h"

/* Where a logger's lines come from. */
struct watch_source {
	const char *path; /* NULL: none; "-": standard input */
	int fd;           /* -1: not open now */
	struct bc_lines lines;
	struct bc_logger logger;
	double stall_s;
	double heard_s; /* steady clock, when the last line came */
	double tried_s; /* ... when it was last opened */
	bool silent;    /* said that it stands still */
	bool gone;      /* said that it is gone */
	size_t n_cut;   /* lines cut off or thrown away */
};

/* A sketch above the lines that scroll. */
struct watch_screen {
	bool on;
	bool plain;
	size_t rows; /* of the terminal; 0: it is none */
	size_t columns;
	size_t sketch_rows; /* taken by it now; 0: none */
};

/* One run of 'watch'. */
struct watch_run {
	const struct bc_arguments *arguments;
	const char *path;
	char *journal_path;
	char *first_bytes; /* of FILE when the run began; NULL: there was none */
	size_t n_first;
	struct bc_watching watching;
	struct bc_journal journal;
	struct watch_source source;
	struct watch_screen screen;
	struct bc_text welcome; /* said when the screen stands */
	struct bc_lines typed;
	int typed_fd;  /* -1: nobody types */
	bool terminal; /* a person types, and sees */
	const char *picture;
	bool no_gnuplot;
	bool ended;    /* the loop is over */
	bool finished; /* ... because the sample file is written */
	int result;
};

/* Signals become bytes that the loop reads; false, with errno, where they cannot be caught. */
bool watch_signals_catch(void);
void watch_signals_release(void);

/* The loop: until finish, quit, a signal or the end of the input. */
int watch_loop(struct watch_run *run);

/* What a line leads to: journal, notebook, reply. */
void watch_typed(struct watch_run *run, const char *line);
void watch_logged(struct watch_run *run, const char *line);
/* Shows a reply and the alarms of the last step. */
void watch_show(struct watch_run *run, const struct bc_text *reply);
/* A key asked for at the beginning. */
void watch_answer(struct watch_run *run, const char *key, const char *line);

/* The logger. */
void watch_source_open(struct watch_run *run);
void watch_source_read(struct watch_run *run);
void watch_source_tick(struct watch_run *run);
void watch_source_close(struct watch_source *source);
void watch_source_total(struct watch_run *run);

/* The sketch. */
void watch_screen_open(struct watch_run *run);
void watch_screen_resize(struct watch_run *run);
void watch_screen_draw(struct watch_run *run);
void watch_screen_close(struct watch_run *run);

/* The plan of --plan or --feed; *plan is NULL where there is none. */
int watch_plan_open(const struct bc_arguments *arguments, const struct bc_limits *limits,
	const struct bc_sample *sheet, struct bc_watch_plan **plan);

/* --picture: checks its name, and draws anew. */
int watch_picture_check(const struct bc_arguments *arguments);
void watch_picture_draw(struct watch_run *run);

/* Writes the sample file and removes the journal. */
void watch_finish(struct watch_run *run);

#endif
