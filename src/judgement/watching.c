/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A boil-off that goes on, as data: lines and moments in, entries and replies out. */
#include "judgement/watching.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/units.h"
#include "fuel/pressure_shift.h"
#include "judgement/watch_parts.h"
#include "sample/keys.h"

#define SAME_PCT 1e-6
/* Two clocks that part by more: one was set, or the computer slept. */
#define CLOCKS_PART_S 5.0
#define DAY_S 86400.0

/* Common practice: the percents at which a boil-off of 100 mL is read. */
static const double grid_pct[] = {5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95};
#define GRID (sizeof grid_pct / sizeof grid_pct[0])

void bc_watching_init(struct bc_watching *watching)
{
	*watching = (struct bc_watching){.stream_head = NAN, .clock = true};
	bc_notebook_init(&watching->notebook);
	bc_entry_init(&watching->entry);
	bc_text_init(&watching->alarms);
}

void bc_watching_release(struct bc_watching *watching)
{
	if (watching == NULL)
		return;
	if (watching->judgement != NULL)
		bc_judgement_release(watching->judgement);
	bc_free(watching->judgement);
	bc_sample_free(watching->sample);
	bc_entry_release(&watching->entry);
	bc_typed_release(&watching->doubted);
	bc_notebook_release(&watching->notebook);
	bc_text_release(&watching->alarms);
	bc_watching_init(watching);
}

/* ---- the notebook's units */

static const struct bc_unit *unit_of(const struct bc_watching *watching)
{
	char name[] = {watching->notebook.unit, '\0'};
	return bc_unit_find(BC_QUANTITY_TEMPERATURE, name);
}

double bc_watching_c(const struct bc_watching *watching, double temperature)
{
	return bc_unit_to_base(unit_of(watching), temperature);
}

double bc_watching_shown(const struct bc_watching *watching, double temp_c)
{
	return bc_unit_from_base(unit_of(watching), temp_c);
}

/* The whole of which an amount is a part; NaN where nobody knows. */
static double whole(const struct bc_watching *watching)
{
	const struct bc_sample *sample = watching->sample;
	switch (watching->notebook.basis) {
	case BC_AMOUNT_VOLUME_ML:
		if (!sample->charge_stated && watching->plan != NULL)
			return watching->plan->charge_ml;
		return sample->charge_stated || isnan(sample->charge_g) ? sample->charge_ml
									: (double)NAN;
	case BC_AMOUNT_MASS_G:
		return sample->charge_g;
	case BC_AMOUNT_VOLUME_PCT:
	case BC_AMOUNT_MASS_PCT:
		break;
	}
	return 100.0;
}

double bc_watching_pct(const struct bc_watching *watching, double amount)
{
	return 100.0 * amount / whole(watching);
}

/* ---- readings in order */

size_t bc_watching_seen(const struct bc_watching *watching, struct bc_watch_seen *seen, size_t n)
{
	size_t written = 0;
	for (size_t i = 0; i < watching->notebook.n_noted && written < n; i++) {
		const struct bc_noted *noted = &watching->notebook.noted[i];
		double pct = noted->point == BC_READING_AMOUNT
				     ? bc_watching_pct(watching, noted->amount)
			     : noted->point == BC_READING_IBP ? 0.0
							      : (double)NAN;
		if (isnan(pct))
			continue;
		size_t at = written++;
		while (at > 0 && seen[at - 1].pct > pct) {
			seen[at] = seen[at - 1];
			at--;
		}
		seen[at] = (struct bc_watch_seen){pct, bc_watching_c(watching, noted->head), noted};
	}
	return written;
}

double bc_watching_next(const struct bc_watching *watching, bool *ibp)
{
	struct bc_watch_seen seen[BC_WATCH_SEEN_MAX];
	size_t n = bc_watching_seen(watching, seen, BC_WATCH_SEEN_MAX);
	*ibp = watching->notebook.n_noted == 0;
	if (bc_notebook_find(&watching->notebook, BC_READING_FBP, NAN) != NULL ||
		bc_notebook_find(&watching->notebook, BC_READING_DRY, NAN) != NULL)
		return NAN;
	double last = n > 0 ? seen[n - 1].pct : 0.0;
	for (size_t i = 0; i < GRID; i++) {
		if (grid_pct[i] > last + SAME_PCT)
			return grid_pct[i] * whole(watching) / 100.0;
	}
	return NAN;
}

/* Through the last reading: along the fit where there is one, else straight on. */
double bc_watching_expected_c(const struct bc_watching *watching, double recovered_pct)
{
	struct bc_watch_seen seen[BC_WATCH_SEEN_MAX];
	size_t n = bc_watching_seen(watching, seen, BC_WATCH_SEEN_MAX);
	double planned = watching->plan != NULL
				 ? bc_watch_plan_head_c(watching->plan, recovered_pct / 100.0)
				 : (double)NAN;
	if (!isnan(planned))
		return planned;
	if (n < 2 || !(seen[n - 1].pct > seen[n - 2].pct))
		return NAN;
	const struct bc_watch_seen *last = &seen[n - 1];
	if (watching->judged && watching->judgement->reader.fit != NULL) {
		const struct bc_fit *fit = watching->judgement->reader.fit;
		double there = bc_fit_temp_c(fit, recovered_pct);
		double here = bc_fit_temp_c(fit, last->pct);
		if (isfinite(there) && isfinite(here) && there >= here)
			return last->head_c + there - here;
	}
	double slope = (last->head_c - seen[n - 2].head_c) / (last->pct - seen[n - 2].pct);
	return slope < 0.0 ? (double)NAN : last->head_c + slope * (recovered_pct - last->pct);
}

/* ---- what follows from the notebook */

static enum bc_status renew_conditions(struct bc_watching *watching)
{
	struct bc_strings assumed;
	bc_strings_init(&assumed);
	enum bc_status status =
		bc_conditions_from_sample(watching->sample, &watching->conditions, &assumed);
	if (!bc_failed(status))
		status = bc_pressure_shift_fill(
			watching->conditions.pressure_kpa, &watching->conditions.shift);
	bc_strings_release(&assumed);
	return status;
}

/* A judgement that fails is none: it never stops the notebook, but for memory. */
static enum bc_status judge(struct bc_watching *watching)
{
	watching->judged = false;
	if (watching->judgement == NULL) {
		watching->judgement = bc_alloc(sizeof *watching->judgement);
		if (watching->judgement == NULL)
			return BC_NO_MEMORY;
		bc_judgement_init(watching->judgement);
	}
	bc_judgement_release(watching->judgement);
	enum bc_status status = bc_judge(watching->sample, &watching->options, watching->judgement);
	watching->judged = !bc_failed(status);
	return status == BC_NO_MEMORY ? status : BC_OK;
}

/* The plan goes through all readings anew; what it says of the last one goes into said. */
static void replay_plan(struct bc_watching *watching, bool alarms, struct bc_text *said)
{
	struct bc_watch_seen seen[BC_WATCH_SEEN_MAX];
	size_t n = bc_watching_seen(watching, seen, BC_WATCH_SEEN_MAX);
	if (watching->plan == NULL)
		return;
	bc_watch_plan_restart(watching->plan);
	for (size_t i = 0; i < n; i++) {
		struct bc_text words;
		struct bc_text turns;
		bc_text_init(&words);
		bc_text_init(&turns);
		bc_watch_plan_reading(watching->plan, seen[i].pct / 100.0, seen[i].head_c,
			bc_watching_c(watching, seen[i].noted->pot), &words, &turns);
		bool last = i + 1 == n;
		if (last && said != NULL && words.data != NULL)
			bc_text_append(said, words.data);
		if (last && alarms && turns.data != NULL)
			bc_text_append(&watching->alarms, turns.data);
		watching->alarms.failed = watching->alarms.failed || turns.failed || words.failed;
		bc_text_release(&words);
		bc_text_release(&turns);
	}
}

static enum bc_status renew(struct bc_watching *watching)
{
	struct bc_sample *sample = NULL;
	enum bc_status status = bc_notebook_sample(&watching->notebook, NULL, NULL, &sample);
	if (bc_failed(status))
		return status;
	if (watching->judgement != NULL)
		bc_judgement_release(watching->judgement);
	bc_sample_free(watching->sample);
	watching->sample = sample;
	status = renew_conditions(watching);
	return bc_failed(status) ? status : judge(watching);
}

/* ---- the clock */

/* When entries are compared in time: since the first, on the steady clock. */
static double elapsed(struct bc_watching *watching, struct bc_moment now, struct bc_text *reply)
{
	double steady = now.steady_s - watching->base.steady_s;
	double wall = now.wall_s - watching->base.wall_s;
	if (!(fabs(wall - steady) <= CLOCKS_PART_S)) {
		if (reply != NULL)
			bc_text_printf(reply,
				"the clock jumped by %.0f s, or the computer slept; the rate starts "
				"anew\n",
				wall - steady);
		watching->base_time_s += fmax(steady, 0.0);
		watching->base = now;
		watching->session++;
		steady = 0.0;
	}
	double time_s = watching->base_time_s + fmax(steady, 0.0);
	watching->last_time_s = fmax(time_s, watching->last_time_s);
	return watching->last_time_s;
}

/* Goes on where the journal ends; a wall clock that stands before its last entry counts nothing. */
static void go_on(struct bc_watching *watching, struct bc_moment now, struct bc_text *reply)
{
	double gap = now.wall_s - watching->last_wall_s;
	watching->session++;
	watching->base = now;
	watching->base_time_s = watching->last_time_s;
	if (!watching->started || !watching->clock)
		return;
	if (gap >= 0.0 && gap < DAY_S)
		watching->base_time_s += gap;
	else if (gap < 0.0)
		bc_text_printf(reply,
			"the clock stands %.0f s before the last entry; the rate starts anew\n",
			-gap);
	watching->last_time_s = watching->base_time_s;
}

enum bc_status bc_watching_begin(struct bc_watching *watching, struct bc_entries *entries,
	struct bc_moment now, struct bc_text *reply)
{
	enum bc_status status = BC_OK;
	for (size_t i = 0; i < entries->n && !bc_failed(status); i++) {
		struct bc_entry *entry = &entries->items[i];
		if (entry->session > watching->session)
			watching->session = entry->session;
		if (!isnan(entry->time_s))
			watching->last_time_s = fmax(watching->last_time_s, entry->time_s);
		if (!isnan(entry->wall_s)) {
			watching->last_wall_s = entry->wall_s;
			watching->started = true;
		}
		status = bc_notebook_apply(&watching->notebook, entry);
	}
	if (!bc_failed(status))
		status = renew(watching);
	if (bc_failed(status))
		return status;
	go_on(watching, now, reply);
	replay_plan(watching, false, NULL);
	return watching->alarms.failed ? BC_NO_MEMORY : BC_OK;
}

/* ---- lines */

static enum bc_watch_step keep_step(struct bc_watching *watching, struct bc_moment now,
	struct bc_entry *entry, struct bc_text *reply)
{
	bc_entry_release(&watching->entry);
	watching->entry = *entry;
	bc_entry_init(entry);
	watching->entry.session = watching->session;
	if (watching->clock) {
		watching->entry.time_s = elapsed(watching, now, reply);
		watching->entry.wall_s = now.wall_s;
		watching->entry.session = watching->session;
	}
	return BC_WATCH_KEEP;
}

/* What a bare number or word leaves open: the place, or the temperature of the logger. */
static bool fill_in(struct bc_watching *watching, struct bc_typed *typed, struct bc_text *reply)
{
	struct bc_entry *entry = &typed->entry;
	bool ibp = false;
	bool logged = !isnan(watching->stream_head);
	if (typed->kind == BC_TYPED_BARE && logged) {
		entry->kind = BC_ENTRY_READ;
		entry->amount = entry->head;
		entry->head = NAN;
	} else if (typed->kind == BC_TYPED_BARE) {
		entry->kind = BC_ENTRY_READ;
		entry->amount = bc_watching_next(watching, &ibp);
		entry->point = ibp ? BC_READING_IBP : BC_READING_AMOUNT;
		if (ibp)
			entry->amount = NAN;
		if (!ibp && isnan(entry->amount)) {
			bc_text_append(reply, "no place is expected any more; write it "
					      "too, such as 'fbp 361'\n");
			return false;
		}
	}
	if (entry->kind != BC_ENTRY_READ || !isnan(entry->head))
		return true;
	if (logged && !watching->stream_stands) {
		entry->head = watching->stream_head;
		return true;
	}
	if (logged) {
		bc_text_append(reply, "the logger stands still; write the temperature too\n");
		return false;
	}
	if (entry->point == BC_READING_DRY) {
		entry->kind = BC_ENTRY_NOTE;
		entry->point = BC_READING_AMOUNT;
		entry->text = bc_strdup("dry");
		bc_watch_alarm(watching, "the flask is dry: heat off");
		return true;
	}
	bc_text_append(reply, "the temperature is missing; write such as 'ibp 71'\n");
	return false;
}

/* Everything that can be said of an entry before it is kept. */
static enum bc_watch_step weigh(struct bc_watching *watching, struct bc_moment now,
	struct bc_typed *typed, struct bc_text *reply)
{
	if (!fill_in(watching, typed, reply))
		return BC_WATCH_SAID;
	if (typed->entry.kind == BC_ENTRY_NOTE && typed->entry.text == NULL)
		return BC_WATCH_FAILED;
	if (bc_watch_wrong(watching, &typed->entry, reply))
		return BC_WATCH_SAID;
	if (!bc_watch_doubtful(watching, &typed->entry, reply))
		return keep_step(watching, now, &typed->entry, reply);
	if (watching->sure) {
		bc_text_append(reply, "; kept\n");
		return keep_step(watching, now, &typed->entry, reply);
	}
	bc_text_append(reply, "; keep it? y or n\n");
	bc_typed_release(&watching->doubted);
	watching->doubted = *typed;
	bc_entry_init(&typed->entry);
	watching->asks = true;
	return BC_WATCH_SAID;
}

static void list(const struct bc_watching *watching, struct bc_text *reply)
{
	const struct bc_notebook *notebook = &watching->notebook;
	if (notebook->n_noted == 0)
		bc_text_append(reply, "nothing is read yet\n");
	for (size_t i = 0; i < notebook->n_noted; i++) {
		const struct bc_noted *noted = &notebook->noted[i];
		bc_text_append(reply, "  ");
		bc_watch_place(watching, noted->point, noted->amount, reply);
		bc_text_printf(reply, "  %.10g %c", noted->head, notebook->unit);
		if (!isnan(noted->pot))
			bc_text_printf(reply, "  pot %.10g", noted->pot);
		if (!isnan(noted->time_s))
			bc_text_printf(reply, "  %d:%02d", (int)(noted->time_s / 60.0),
				(int)fmod(noted->time_s, 60.0));
		if (noted->note.length > 0) {
			bc_text_append(reply, "  ");
			bc_text_append_escaped(reply, noted->note.data);
		}
		bc_text_append(reply, "\n");
	}
}

static void help(const struct bc_watching *watching, struct bc_text *reply)
{
	bool logged = !isnan(watching->stream_head);
	bc_text_append(reply, logged ? "  5             at 5: the logger's temperature now\n"
				     : "  112.5         the next expected place\n");
	bc_text_append(reply,
		"  5 112.5       at 5 the thermometer shows 112.5\n"
		"  ibp 71        first drop; fbp 361 the highest; dry, or dry 352\n"
		"  pot 240       the pot, beside the last reading; or 5 112.5 pot 240\n"
		"  note WORDS    beside the last reading\n"
		"  residue 1.4 mL, density 0.803 g/mL, ...   any key of a sample file\n"
		"  fix 20 148    another temperature for a reading\n"
		"  undo          takes back the last entry\n"
		"  list          what is read\n"
		"  finish        writes the sample file; quit keeps the journal for later\n");
}

static void drop_doubted(struct bc_watching *watching, struct bc_text *reply)
{
	watching->asks = false;
	bc_text_append(reply, "left out: ");
	bc_watch_place(
		watching, watching->doubted.entry.point, watching->doubted.entry.amount, reply);
	bc_text_append(reply, "\n");
	bc_typed_release(&watching->doubted);
}

static enum bc_watch_step act(struct bc_watching *watching, struct bc_moment now,
	struct bc_typed *typed, struct bc_text *reply)
{
	switch (typed->kind) {
	case BC_TYPED_NOTHING:
		return BC_WATCH_SAID;
	case BC_TYPED_ENTRY:
	case BC_TYPED_BARE:
		return weigh(watching, now, typed, reply);
	case BC_TYPED_LIST:
		list(watching, reply);
		return BC_WATCH_SAID;
	case BC_TYPED_HELP:
		help(watching, reply);
		return BC_WATCH_SAID;
	case BC_TYPED_FINISH:
		return BC_WATCH_FINISH;
	case BC_TYPED_QUIT:
		return BC_WATCH_QUIT;
	case BC_TYPED_YES:
	case BC_TYPED_NO:
		bc_text_append(reply, "nothing was asked\n");
		return BC_WATCH_SAID;
	case BC_TYPED_WRONG:
		bc_text_printf(reply, "%s\n", typed->why);
		return BC_WATCH_SAID;
	}
	return BC_WATCH_SAID;
}

enum bc_watch_step bc_watching_line(
	struct bc_watching *watching, struct bc_moment now, const char *line, struct bc_text *reply)
{
	struct bc_typed typed;
	enum bc_watch_step step = BC_WATCH_SAID;
	bc_text_release(&watching->alarms);
	bc_text_init(&watching->alarms);
	enum bc_status status = bc_typed_read(line, &typed);
	if (bc_failed(status)) {
		bc_typed_release(&typed);
		return BC_WATCH_FAILED;
	}
	if (watching->asks && typed.kind == BC_TYPED_YES) {
		watching->asks = false;
		step = keep_step(watching, now, &watching->doubted.entry, reply);
	} else if (watching->asks &&
		   (typed.kind == BC_TYPED_NO || typed.kind == BC_TYPED_NOTHING)) {
		drop_doubted(watching, reply);
	} else {
		if (watching->asks)
			drop_doubted(watching, reply);
		step = act(watching, now, &typed, reply);
	}
	bc_typed_release(&typed);
	return reply->failed || watching->alarms.failed ? BC_WATCH_FAILED : step;
}

enum bc_watch_step bc_watching_row(struct bc_watching *watching, struct bc_moment now,
	struct bc_entry *entry, struct bc_text *reply)
{
	bc_text_release(&watching->alarms);
	bc_text_init(&watching->alarms);
	if (bc_watch_wrong(watching, entry, reply))
		return BC_WATCH_SAID;
	if (bc_watch_doubtful(watching, entry, reply))
		bc_text_append(reply, "; kept\n");
	return keep_step(watching, now, entry, reply);
}

/* ---- keeping */

/* What an entry that is no reading did. */
static void confirm(struct bc_watching *watching, enum bc_entry_kind kind,
	const struct bc_entry *shown, struct bc_text *reply)
{
	switch (kind) {
	case BC_ENTRY_FIX:
		bc_text_append(reply, "fixed: ");
		bc_watch_place(watching, shown->point, shown->amount, reply);
		bc_text_printf(reply, " %.10g\n", shown->head);
		break;
	case BC_ENTRY_POT:
		bc_text_printf(reply, "pot %.10g noted\n", shown->pot);
		break;
	case BC_ENTRY_NOTE:
		bc_text_append(reply, "noted\n");
		break;
	case BC_ENTRY_KEY:
		bc_text_printf(reply, "%.*s noted\n", (int)strcspn(shown->text, "\t"), shown->text);
		break;
	case BC_ENTRY_UNDO:
		bc_text_printf(reply, "taken back; %zu %s\n", watching->notebook.n_noted,
			watching->notebook.n_noted == 1 ? "reading stands" : "readings stand");
		break;
	case BC_ENTRY_READ:
	case BC_ENTRY_TORN:
	case BC_ENTRY_KINDS:
		break;
	}
}

enum bc_status bc_watching_keep(struct bc_watching *watching, struct bc_text *reply)
{
	struct bc_entry *entry = &watching->entry;
	enum bc_entry_kind kind = entry->kind;
	struct bc_entry shown = *entry;
	char key[64] = "";
	if (kind == BC_ENTRY_KEY)
		memcpy(key, entry->text, strcspn(entry->text, "\t") % sizeof key);
	shown.text = key;
	enum bc_status status = bc_notebook_apply(&watching->notebook, entry);
	if (!bc_failed(status))
		status = renew(watching);
	if (bc_failed(status))
		return status;
	const struct bc_notebook *notebook = &watching->notebook;
	struct bc_text turns;
	bc_text_init(&turns);
	replay_plan(watching, kind == BC_ENTRY_READ, &turns);
	confirm(watching, kind, &shown, reply);
	if (kind == BC_ENTRY_READ)
		bc_watch_tell(watching, &notebook->noted[notebook->n_noted - 1], reply);
	if (!isnan(shown.pot))
		bc_watch_alarm_pot(watching, bc_watching_c(watching, shown.pot));
	if (turns.data != NULL && kind != BC_ENTRY_NOTE && kind != BC_ENTRY_KEY)
		bc_text_append(reply, turns.data);
	reply->failed = reply->failed || turns.failed;
	bc_text_release(&turns);
	return reply->failed || watching->alarms.failed ? BC_NO_MEMORY : BC_OK;
}
