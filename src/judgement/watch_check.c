/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is wrong with an entry, and what makes one doubtful. */
#include <math.h>
#include <string.h>

#include "judgement/watch_parts.h"
#include "sample/cell.h"

#define COLDEST_C (-273.15) /* as in a sample file */
#define HOTTEST_C 700.0

/* A head that falls by more, or lies above the next reading, does not belong: as readings out of
 * order are judged. */
#define FALL_C 3.0
/* A step up to this steep is any oil's, beyond it only where the last step was a third as steep;
 * between the first drop and the next reading light ends span more. Judgement. */
#define RISE_C 40.0
#define RISE_STEPS 3.0
#define FIRST_RISE_C 120.0
/* No oil's first drop falls colder than a shed, and nothing boils off at home above this;
 * judgement. */
#define COLD_C 15.0
#define HOT_C 400.0
/* The liquid is never cooler than its vapour, but thermometers differ. */
#define POT_BELOW_HEAD_C 5.0

void bc_watch_place(const struct bc_watching *watching, enum bc_reading_kind point, double amount,
	struct bc_text *text)
{
	static const char *const units[] = {
		[BC_AMOUNT_VOLUME_PCT] = "%",
		[BC_AMOUNT_MASS_PCT] = "mass %",
		[BC_AMOUNT_VOLUME_ML] = "mL",
		[BC_AMOUNT_MASS_G] = "g",
	};
	bc_entry_point_text(point, amount, text);
	if (point == BC_READING_AMOUNT)
		bc_text_printf(text, " %s", units[watching->notebook.basis]);
}

/* ---- wrong */

static bool wrong_amount(
	const struct bc_watching *watching, const struct bc_entry *entry, struct bc_text *why)
{
	double pct = bc_watching_pct(watching, entry->amount);
	if (!(entry->amount > 0.0)) {
		bc_text_printf(
			why, "%.10g is no place; write 'ibp' for the first drop\n", entry->amount);
		return true;
	}
	if (isnan(pct) || pct <= 100.0)
		return false;
	bc_watch_place(watching, BC_READING_AMOUNT, entry->amount, why);
	bc_text_append(why, " is more than the charge\n");
	return true;
}

static bool wrong_temperature(
	const struct bc_watching *watching, double temperature, struct bc_text *why)
{
	double c = bc_watching_c(watching, temperature);
	if (isnan(temperature) || (c >= COLDEST_C && c <= HOTTEST_C))
		return false;
	bc_text_printf(why, "%.10g %c is no temperature of an oil; write such as 112.5\n",
		temperature, watching->notebook.unit);
	return true;
}

static bool wrong_place(
	const struct bc_watching *watching, const struct bc_entry *entry, struct bc_text *why)
{
	const struct bc_noted *noted =
		bc_notebook_find(&watching->notebook, entry->point, entry->amount);
	if (entry->kind == BC_ENTRY_READ && noted != NULL) {
		bc_watch_place(watching, entry->point, entry->amount, why);
		bc_text_printf(why, " is read already, %.10g; write 'fix ", noted->head);
		bc_entry_point_text(entry->point, entry->amount, why);
		bc_text_printf(why, " %.10g' to change it\n", entry->head);
		return true;
	}
	if (entry->kind == BC_ENTRY_FIX && noted == NULL) {
		bc_watch_place(watching, entry->point, entry->amount, why);
		bc_text_append(why, " is not read; 'list' shows what is\n");
		return true;
	}
	return false;
}

/* A key as the reader of sample files takes it: its own words where it does not. */
static bool wrong_key(
	const struct bc_watching *watching, const struct bc_entry *entry, struct bc_text *why)
{
	struct bc_diagnostics diagnostics;
	struct bc_sample *sample = NULL;
	bc_diagnostics_init(&diagnostics);
	enum bc_status status =
		bc_notebook_sample(&watching->notebook, entry, &diagnostics, &sample);
	bool wrong = bc_failed(status);
	for (size_t i = 0; i < diagnostics.n; i++)
		wrong = wrong || diagnostics.items[i].severity == BC_WARNING;
	for (size_t i = 0; i < diagnostics.n && wrong; i++) {
		bc_text_append_escaped(why, diagnostics.items[i].text);
		bc_text_append(why, "\n");
	}
	if (wrong && diagnostics.n == 0)
		bc_text_append(why, "out of memory\n");
	bc_sample_free(sample);
	bc_diagnostics_release(&diagnostics);
	return wrong;
}

bool bc_watch_wrong(
	const struct bc_watching *watching, const struct bc_entry *entry, struct bc_text *why)
{
	bool point = entry->kind == BC_ENTRY_READ || entry->kind == BC_ENTRY_FIX;
	if (point && entry->point == BC_READING_AMOUNT && wrong_amount(watching, entry, why))
		return true;
	if (wrong_temperature(watching, entry->head, why) ||
		wrong_temperature(watching, entry->pot, why))
		return true;
	if (point && wrong_place(watching, entry, why))
		return true;
	if (entry->kind == BC_ENTRY_POT && watching->notebook.n_noted == 0) {
		bc_text_append(why, "nothing is read yet that the pot could stand beside\n");
		return true;
	}
	if (entry->kind == BC_ENTRY_UNDO && watching->notebook.stands.n == 0) {
		bc_text_append(why, "there is nothing to take back\n");
		return true;
	}
	return entry->kind == BC_ENTRY_KEY && wrong_key(watching, entry, why);
}

/* ---- doubtful */

/* The neighbours of a place among what is read, without the reading that is fixed. */
struct neighbours {
	struct bc_watch_seen before[2]; /* the nearer one first */
	size_t n_before;
	struct bc_watch_seen after;
	bool has_after;
};

static struct neighbours neighbours_of(
	const struct bc_watching *watching, const struct bc_entry *entry, double pct)
{
	struct neighbours found = {.n_before = 0};
	struct bc_watch_seen seen[BC_WATCH_SEEN_MAX];
	size_t n = bc_watching_seen(watching, seen, BC_WATCH_SEEN_MAX);
	const struct bc_noted *fixed =
		bc_notebook_find(&watching->notebook, entry->point, entry->amount);
	for (size_t i = 0; i < n; i++) {
		if (seen[i].noted == fixed)
			continue;
		if (seen[i].pct < pct) {
			found.before[1] = found.before[0];
			found.before[0] = seen[i];
			found.n_before += found.n_before < 2;
		} else if (!found.has_after) {
			found.has_after = true;
			found.after = seen[i];
		}
	}
	return found;
}

static double highest_rise(const struct neighbours *found, double pct)
{
	const struct bc_watch_seen *near = &found->before[0];
	const struct bc_watch_seen *far = &found->before[1];
	if (found->n_before < 2)
		return FIRST_RISE_C;
	double slope = (near->head_c - far->head_c) / (near->pct - far->pct);
	return fmax(RISE_C, RISE_STEPS * slope * (pct - near->pct));
}

static void lead(
	const struct bc_watching *watching, const struct bc_entry *entry, struct bc_text *why)
{
	bc_text_printf(why, "%.10g at ", entry->head);
	bc_watch_place(watching, entry->point, entry->amount, why);
}

/* Amounts of temperature in the notebook's own unit. */
static double shown_step(const struct bc_watching *watching, double step_c)
{
	return bc_watching_shown(watching, step_c) - bc_watching_shown(watching, 0.0);
}

static bool unlike_neighbours(
	const struct bc_watching *watching, const struct bc_entry *entry, struct bc_text *why)
{
	double pct = entry->point == BC_READING_IBP      ? 0.0
		     : entry->point == BC_READING_AMOUNT ? bc_watching_pct(watching, entry->amount)
							 : 101.0;
	double head_c = bc_watching_c(watching, entry->head);
	struct neighbours found = neighbours_of(watching, entry, pct);
	double below = found.n_before > 0 ? found.before[0].head_c - head_c : 0.0;
	if (below > FALL_C) {
		lead(watching, entry, why);
		bc_text_printf(
			why, " is %.1f below the reading before", shown_step(watching, below));
		return true;
	}
	if (found.has_after && head_c - found.after.head_c > FALL_C) {
		lead(watching, entry, why);
		bc_text_printf(why, " is %.1f above the reading behind",
			shown_step(watching, head_c - found.after.head_c));
		return true;
	}
	if (found.n_before > 0 && -below > highest_rise(&found, fmin(pct, 100.0))) {
		lead(watching, entry, why);
		bc_text_printf(
			why, " is %.1f above the reading before", shown_step(watching, -below));
		return true;
	}
	if (entry->kind == BC_ENTRY_READ && entry->point != BC_READING_IBP && found.has_after) {
		lead(watching, entry, why);
		bc_text_append(why, " comes behind a later place");
		return true;
	}
	return false;
}

static bool unlike_anything(
	const struct bc_watching *watching, const struct bc_entry *entry, struct bc_text *why)
{
	double head_c = bc_watching_c(watching, entry->head);
	if (head_c >= COLD_C && head_c <= HOT_C)
		return false;
	lead(watching, entry, why);
	bc_text_append(why, head_c < COLD_C ? " is colder than a shed"
					    : " is hotter than any oil boils unharmed");
	return true;
}

static bool pot_below_head(
	const struct bc_watching *watching, const struct bc_entry *entry, struct bc_text *why)
{
	const struct bc_notebook *notebook = &watching->notebook;
	double head = entry->head;
	if (entry->kind == BC_ENTRY_POT)
		head = notebook->noted[notebook->n_noted - 1].head;
	double below_c = bc_watching_c(watching, head) - bc_watching_c(watching, entry->pot);
	if (isnan(entry->pot) || !(below_c > POT_BELOW_HEAD_C))
		return false;
	bc_text_printf(
		why, "pot %.10g is %.1f below the head", entry->pot, shown_step(watching, below_c));
	return true;
}

bool bc_watch_doubtful(
	const struct bc_watching *watching, const struct bc_entry *entry, struct bc_text *why)
{
	switch (entry->kind) {
	case BC_ENTRY_READ:
	case BC_ENTRY_FIX:
		return unlike_anything(watching, entry, why) ||
		       unlike_neighbours(watching, entry, why) ||
		       pot_below_head(watching, entry, why);
	case BC_ENTRY_POT:
		return pot_below_head(watching, entry, why);
	case BC_ENTRY_NOTE:
	case BC_ENTRY_KEY:
	case BC_ENTRY_UNDO:
	case BC_ENTRY_TORN:
	case BC_ENTRY_KINDS:
		break;
	}
	return false;
}
