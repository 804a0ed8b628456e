/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a line leads to in 'watch': first the journal, then the notebook, then the reply. */
#include <math.h>
#include <string.h>
#include <unistd.h>

#include "base/clock.h"
#include "base/file.h"
#include "base/memory.h"
#include "command/command.h"
#include "command/output.h"
#include "command/watch_run.h"

/* The lines of words behind lead; what is too wide is broken between words. */
static void add_lines(
	const struct watch_run *run, const char *lead, const char *words, struct bc_text *lines)
{
	const size_t usual = 80;
	size_t width = run->screen.rows > 0 ? run->screen.columns : usual;
	while (words != NULL && *words != '\0') {
		size_t n = strcspn(words, "\n");
		struct bc_text line;
		bc_text_init(&line);
		bc_text_append(&line, lead);
		bc_text_append_n(&line, words, n);
		if (line.data != NULL && bc_text_columns(line.data) < width) {
			bc_text_append(lines, line.data);
			bc_text_append(lines, "\n");
		} else if (line.data != NULL) {
			bc_text_append_wrapped(lines, line.data, "", 2, width - 1);
		}
		lines->failed = lines->failed || line.failed;
		bc_text_release(&line);
		words += n + (words[n] == '\n');
	}
}

void watch_show(struct watch_run *run, const struct bc_text *reply)
{
	struct bc_text *alarms = &run->watching.alarms;
	struct bc_text lines;
	bc_text_init(&lines);
	add_lines(run, "", reply->data, &lines);
	if (run->terminal && alarms->length > 0)
		bc_text_append(&lines, "\a");
	add_lines(run, "ALARM: ", alarms->data, &lines);
	if (lines.failed)
		run->result = bc_no_memory();
	else
		bc_out_text(&lines);
	bc_text_release(&lines);
	bc_text_release(alarms);
	bc_text_init(alarms);
}

static void fail(struct watch_run *run, int result)
{
	run->ended = true;
	run->result = result;
}

/* A disk that is full stops nothing but this entry. */
static void keep(struct watch_run *run, struct bc_text *reply)
{
	struct bc_diagnostics diagnostics;
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = bc_journal_add(&run->journal, &run->watching.entry, &diagnostics);
	bc_print_diagnostics(&diagnostics);
	bc_diagnostics_release(&diagnostics);
	if (status == BC_NO_MEMORY) {
		fail(run, bc_no_memory());
		return;
	}
	if (bc_failed(status)) {
		bc_entry_release(&run->watching.entry);
		bc_text_release(&run->watching.alarms);
		bc_text_init(&run->watching.alarms);
		bc_text_append(reply, "NOT kept; make room on the disk and write it again\n");
		return;
	}
	if (bc_failed(bc_watching_keep(&run->watching, reply)))
		fail(run, bc_no_memory());
}

static void act(struct watch_run *run, enum bc_watch_step step, struct bc_text *reply)
{
	switch (step) {
	case BC_WATCH_SAID:
		break;
	case BC_WATCH_KEEP:
		keep(run, reply);
		break;
	case BC_WATCH_FINISH:
		watch_show(run, reply);
		reply->length = 0;
		if (reply->data != NULL)
			reply->data[0] = '\0';
		watch_finish(run);
		break;
	case BC_WATCH_QUIT:
		run->ended = true;
		break;
	case BC_WATCH_FAILED:
		fail(run, bc_no_memory());
		break;
	}
}

static void after(struct watch_run *run, enum bc_watch_step step, const struct bc_text *reply)
{
	watch_show(run, reply);
	if (step == BC_WATCH_KEEP && !run->ended) {
		watch_screen_draw(run);
		watch_picture_draw(run);
	}
}

void watch_typed(struct watch_run *run, const char *line)
{
	struct bc_text reply;
	bc_text_init(&reply);
	enum bc_watch_step step = bc_watching_line(&run->watching, bc_clock_now(), line, &reply);
	act(run, step, &reply);
	after(run, step, &reply);
	bc_text_release(&reply);
}

/* The first few of a kind are said, then every hundredth. */
static bool is_said(size_t n) { return n <= 3 || n % 100 == 0; }

static bool is_due(const struct watch_run *run, const struct bc_entry *entry)
{
	bool ibp = false;
	double next = bc_watching_next(&run->watching, &ibp);
	const double slack = 1e-9;
	if (entry->point != BC_READING_AMOUNT)
		return bc_notebook_find(&run->watching.notebook, entry->point, NAN) == NULL;
	return entry->amount > 0.0 && entry->amount >= next - slack;
}

void watch_logged(struct watch_run *run, const char *line)
{
	struct bc_entry entry;
	struct bc_text reply;
	struct bc_logger *logger = &run->source.logger;
	enum bc_watch_step step = BC_WATCH_SAID;
	bc_text_init(&reply);
	enum bc_logged logged = bc_logger_line(logger, line, &entry, &reply);
	bool skipped = logged == BC_LOGGED_GARBLED || logged == BC_LOGGED_REPEATED;
	if (skipped &&
		is_said(logged == BC_LOGGED_GARBLED ? logger->n_garbled : logger->n_repeated)) {
		bc_text_append(&reply, "; skipped\n");
		bc_out("logger: ");
		watch_show(run, &reply);
	}
	bc_text_release(&reply);
	bc_text_init(&reply);
	if (logged == BC_LOGGED_HEAD || logged == BC_LOGGED_READING) {
		run->watching.stream_head = entry.head;
		run->watching.stream_stands = false;
	}
	if (logged == BC_LOGGED_READING && is_due(run, &entry)) {
		step = bc_watching_row(&run->watching, bc_clock_now(), &entry, &reply);
		act(run, step, &reply);
		after(run, step, &reply);
	}
	bc_entry_release(&entry);
	bc_text_release(&reply);
}

void watch_answer(struct watch_run *run, const char *key, const char *line)
{
	if (*line == '\0')
		return;
	char *typed = bc_format("%s %s", key, line);
	if (typed == NULL)
		fail(run, bc_no_memory());
	else
		watch_typed(run, typed);
	bc_free(typed);
}

/* ---- the end */

/* Somebody else wrote FILE meanwhile. */
static bool is_changed(const struct watch_run *run)
{
	char *bytes = NULL;
	size_t n = 0;
	bool exists = access(run->path, F_OK) == 0;
	if (!exists)
		return false;
	bool read = !bc_failed(bc_file_read(run->path, BC_SAMPLE_LIMIT_BYTES, &bytes, &n, NULL));
	bool same = read && run->first_bytes != NULL && n == run->n_first &&
		    memcmp(bytes, run->first_bytes, n) == 0;
	bc_free(bytes);
	return !same;
}

static enum bc_status write_sample(struct watch_run *run, struct bc_diagnostics *diagnostics)
{
	struct bc_sample *sample = NULL;
	struct bc_text sheet;
	struct bc_text text;
	bc_text_init(&sheet);
	bc_text_init(&text);
	enum bc_status status = bc_notebook_write(&run->watching.notebook, NULL, &sheet);
	if (!bc_failed(status))
		status = bc_sample_read(sheet.data, sheet.length, run->path, diagnostics, &sample);
	if (!bc_failed(status))
		status = bc_sample_write(sample, &text);
	if (!bc_failed(status))
		status = bc_file_write(run->path, text.data, text.length, diagnostics);
	bc_sample_free(sample);
	bc_text_release(&sheet);
	bc_text_release(&text);
	return status;
}

static size_t percents(const struct bc_notebook *notebook)
{
	size_t n = 0;
	for (size_t i = 0; i < notebook->n_noted; i++)
		n += notebook->noted[i].point == BC_READING_AMOUNT;
	return n;
}

void watch_finish(struct watch_run *run)
{
	const size_t least = 3; /* as a sample file has them */
	struct bc_diagnostics diagnostics;
	if (percents(&run->watching.notebook) < least) {
		bc_out("a sample needs 3 percent readings at least; 'quit' keeps these for later\n");
		return;
	}
	if (is_changed(run)) {
		bc_complain("%s: has changed since this run began, and is left as it is; move it "
			    "away and write 'finish' again",
			run->path);
		return;
	}
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = write_sample(run, &diagnostics);
	bool written = !bc_failed(status);
	if (written)
		status = bc_journal_remove(&run->journal, &diagnostics);
	bc_print_diagnostics(&diagnostics);
	bc_diagnostics_release(&diagnostics);
	if (status == BC_NO_MEMORY)
		bc_no_memory();
	if (!written) {
		bc_out("not written; the journal keeps everything\n");
		return;
	}
	run->finished = true;
	run->ended = true;
	run->result = bc_exit_from_status(status);
}
