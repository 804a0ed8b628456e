/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_WATCHING_H
#define BC_JUDGEMENT_WATCHING_H

#include <stdbool.h>
#include <stddef.h>

#include "base/clock.h"
#include "base/status.h"
#include "base/text.h"
#include "judgement/judgement.h"
#include "judgement/watch_plan.h"
#include "sample/notebook.h"
#include "sample/typed.h"

/* What is to be done after a line. */
enum bc_watch_step {
	BC_WATCH_SAID,   /* nothing but to show the reply */
	BC_WATCH_KEEP,   /* write watching->entry to the journal, then bc_watching_keep */
	BC_WATCH_FINISH, /* write the sample file */
	BC_WATCH_QUIT,
	BC_WATCH_FAILED /* no memory */
};

/*
 * A boil-off that goes on. It reads no terminal, file or clock: lines and moments go in, entries
 * for the journal and replies come out, the same for the same lines.
 */
struct bc_watching {
	struct bc_notebook notebook;
	struct bc_judge_options options;
	struct bc_watch_plan *plan; /* of a re-run; NULL: none; not owned */
	bool clock;                 /* false: a run on paper, without times */

	struct bc_sample *sample; /* the notebook as it stands */
	struct bc_conditions conditions;
	struct bc_judgement *judgement; /* of the readings so far */
	bool judged;

	struct bc_entry entry;   /* to be kept */
	struct bc_typed doubted; /* an entry that waits for a yes */
	bool asks;
	bool sure;          /* nobody is there to ask: what would be asked is kept with a word */
	double stream_head; /* as a logger shows it now, in the notebook's unit; NaN: none */
	bool stream_stands; /* ... but it is old */

	struct bc_moment base; /* of this session */
	double base_time_s;
	double last_time_s;
	double last_wall_s;
	unsigned session;
	bool started;
	unsigned told; /* alarms that are raised only once, as bits */

	struct bc_text alarms; /* of the last step, a line each */
};

void bc_watching_init(struct bc_watching *watching);
void bc_watching_release(struct bc_watching *watching);

/*
 * Begins, or begins again after a break: entries of the journal are taken over and applied. What is
 * to be said about the clock goes into reply. BC_OK, BC_NO_MEMORY, BC_BAD_DOMAIN.
 */
enum bc_status bc_watching_begin(struct bc_watching *watching, struct bc_entries *entries,
	struct bc_moment now, struct bc_text *reply);

/* One typed line. */
enum bc_watch_step bc_watching_line(struct bc_watching *watching, struct bc_moment now,
	const char *line, struct bc_text *reply);

/* One row of a logger with an amount or end point; no question is asked. */
enum bc_watch_step bc_watching_row(struct bc_watching *watching, struct bc_moment now,
	struct bc_entry *entry, struct bc_text *reply);

/* The entry is in the journal: applies it, and says what it means. */
enum bc_status bc_watching_keep(struct bc_watching *watching, struct bc_text *reply);

/* The amount that a bare temperature stands for, in the notebook's unit: *ibp before the first
 * drop; NaN when none is expected any more, as behind 95 % or the highest temperature. */
double bc_watching_next(const struct bc_watching *watching, bool *ibp);

/* Percent recovered of an amount; NaN where the charge is not known. */
double bc_watching_pct(const struct bc_watching *watching, double amount);
/* A temperature of the notebook in degC, and back. */
double bc_watching_c(const struct bc_watching *watching, double temperature);
double bc_watching_shown(const struct bc_watching *watching, double temp_c);

/* The head [as read, degC] that the readings so far let expect at recovered_pct; NaN where they do
 * not. */
double bc_watching_expected_c(const struct bc_watching *watching, double recovered_pct);

/* Readings in ascending order of percent, end points with NaN left out but the IBP at 0; returns
 * how many of at most n were written. For a sketch and for the checks. */
struct bc_watch_seen {
	double pct;
	double head_c; /* as read */
	const struct bc_noted *noted;
};
#define BC_WATCH_SEEN_MAX 512
size_t bc_watching_seen(const struct bc_watching *watching, struct bc_watch_seen *seen, size_t n);

#endif
