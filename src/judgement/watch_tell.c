/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a reading means at once: one line, and alarms. */
#include <math.h>
#include <stdarg.h>

#include "base/memory.h"
#include "curve/cracking.h"
#include "judgement/watch_parts.h"

/* ASTM D86 asks for 4 to 5 mL/min; half a unit of the last figure either way. */
#define RATE_LOW_ML_MIN 3.95
#define RATE_HIGH_ML_MIN 5.05
/* A fifth faster than that the head reads high and the cuts blur; judgement. */
#define RATE_ALARM_ML_MIN 6.0
/* The rate is that of a flask, not of a still; common charges, common practice. */
#define FLASK_LEAST_ML 50.0
#define FLASK_MOST_ML 200.0
/* Times nearer than this give no rate. */
#define LEAST_TIME_S 5.0

/* A shelf while it lasts: three readings in the band where water boils with oil, nearly level, in
 * the first 60 %; the band and the figures are those by which a shelf is found afterwards. */
#define SHELF_BELOW_C 31.0
#define SHELF_ABOVE_C 4.0
#define SHELF_C_PER_PCT 0.5
#define SHELF_LATEST_PCT 60.0

#define FALL_C 1.0  /* less is the thermometer's own; common practice */
#define NEAR_C 10.0 /* of the pot or cracking limit; judgement */

#define HOTTEST_C 400.0 /* no oil boils unharmed above; as where a reading is asked about */

/* A flash needs the front, a verdict most of the curve; judgement. */
#define FLASH_FROM_PCT 10.0
#define VERDICT_FROM_PCT 50.0
#define VERDICT_READINGS 5

enum told { TOLD_WATER = 1, TOLD_NEAR = 2, TOLD_CRACKING = 4, TOLD_POT_NEAR = 8, TOLD_POT = 16 };

void bc_watch_alarm(struct bc_watching *watching, const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	bc_text_vprintf(&watching->alarms, format, arguments);
	va_end(arguments);
	bc_text_append(&watching->alarms, "\n");
}

/* Once in a run. */
static bool untold(struct bc_watching *watching, enum told told)
{
	bool first = (watching->told & (unsigned)told) == 0;
	watching->told |= (unsigned)told;
	return first;
}

/* ---- the line */

/* The reading at the place before, if it was seen in the same session; 0 mL/min without. */
static double rate_ml_min(const struct bc_watching *watching, const struct bc_noted *noted)
{
	const struct bc_notebook *notebook = &watching->notebook;
	double charge_ml =
		watching->plan != NULL ? watching->plan->charge_ml : watching->sample->charge_ml;
	if (notebook->n_noted < 2 || noted->point != BC_READING_AMOUNT)
		return NAN;
	const struct bc_noted *before = &notebook->noted[notebook->n_noted - 2];
	double from = before->point == BC_READING_IBP ? 0.0 : before->amount;
	double pct = bc_watching_pct(watching, noted->amount) - bc_watching_pct(watching, from);
	double time_s = noted->time_s - before->time_s;
	if (before->session != noted->session || !(time_s >= LEAST_TIME_S) || !(pct > 0.0))
		return NAN;
	return 60.0 * pct / 100.0 * charge_ml / time_s;
}

/* Whether the rate of the standard is meant for this run. */
static bool is_flask(const struct bc_watching *watching)
{
	const struct bc_sample *sample = watching->sample;
	return watching->plan == NULL && sample->apparatus == BC_APPARATUS_FLASK &&
	       sample->charge_ml >= FLASK_LEAST_ML && sample->charge_ml <= FLASK_MOST_ML;
}

static void say_rate(
	struct bc_watching *watching, const struct bc_noted *noted, struct bc_text *reply)
{
	double rate = rate_ml_min(watching, noted);
	if (isnan(rate))
		return;
	bc_text_printf(reply, "; %.1f mL/min", rate);
	if (!is_flask(watching))
		return;
	if (rate > RATE_HIGH_ML_MIN)
		bc_text_append(reply, " (fast)");
	if (rate < RATE_LOW_ML_MIN)
		bc_text_append(reply, " (slow)");
	if (rate > RATE_ALARM_ML_MIN)
		bc_watch_alarm(watching,
			"too fast, %.1f mL/min: turn the heat down to 4 to 5 mL/min", rate);
}

static void say_next(const struct bc_watching *watching, struct bc_text *reply)
{
	bool ibp = false;
	double next = bc_watching_next(watching, &ibp);
	if (isnan(next))
		return;
	double c = bc_watching_expected_c(watching, bc_watching_pct(watching, next));
	if (!(c <= HOTTEST_C))
		return;
	bc_text_append(reply, "; ");
	bc_watch_place(watching, BC_READING_AMOUNT, next, reply);
	bc_text_printf(reply, " near %.0f", bc_watching_shown(watching, c));
}

/* The head of a still that re-distils is not the flask's. */
static void say_so_far(const struct bc_watching *watching, struct bc_text *reply)
{
	if (!watching->judged || watching->plan != NULL)
		return;
	const struct bc_judgement *judgement = watching->judgement;
	const struct bc_boiloff *boiloff = &judgement->boiloff;
	const struct bc_estimate *flash = &judgement->oil.property[BC_FLASH];
	bool front = isfinite(boiloff->ibp_c) && boiloff->last_pct >= FLASH_FROM_PCT;
	if (front && isfinite(flash->value)) {
		bc_text_printf(reply, "; flash %.0f", flash->value);
		if (isnan(flash->low))
			bc_text_append(reply, ", no low bound");
		else
			bc_text_printf(reply, ", low %.0f", floor(flash->low));
	}
	if (boiloff->last_pct >= VERDICT_FROM_PCT && boiloff->n_amounts >= VERDICT_READINGS)
		bc_text_printf(reply, "; so far %s", bc_word_text(judgement->verdict.word));
}

/* ---- alarms */

/* The last three places that are read, IBP among them, level where water boils. */
static bool on_shelf(const struct bc_watching *watching)
{
	struct bc_watch_seen seen[BC_WATCH_SEEN_MAX];
	size_t n = bc_watching_seen(watching, seen, BC_WATCH_SEEN_MAX);
	const struct bc_conditions *conditions = &watching->conditions;
	if (n < 3 || seen[n - 1].pct > SHELF_LATEST_PCT)
		return false;
	for (size_t i = n - 3; i < n; i++) {
		double above =
			bc_site_from_reading(conditions, seen[i].head_c) - conditions->steam_true_c;
		if (!(above >= -SHELF_BELOW_C && above <= SHELF_ABOVE_C))
			return false;
		if (i > n - 3 && !(seen[i].head_c - seen[i - 1].head_c <=
					 SHELF_C_PER_PCT * (seen[i].pct - seen[i - 1].pct)))
			return false;
	}
	return true;
}

static void alarm_water(struct bc_watching *watching)
{
	bool seen =
		watching->judged && bc_findings_has(&watching->judgement->findings, "water-shelf");
	if (!seen && !on_shelf(watching))
		return;
	if (untold(watching, TOLD_WATER))
		bc_watch_alarm(watching,
			"water: the head stands where water boils, %.0f degC here; it may bump, heat "
			"gently",
			watching->conditions.steam_true_c);
}

static void alarm_fall(struct bc_watching *watching, const struct bc_noted *noted)
{
	const struct bc_notebook *notebook = &watching->notebook;
	if (notebook->n_noted < 2)
		return;
	const struct bc_noted *before = &notebook->noted[notebook->n_noted - 2];
	double fall_c =
		bc_watching_c(watching, before->head) - bc_watching_c(watching, noted->head);
	if (!(fall_c > FALL_C) || noted->point == BC_READING_IBP)
		return;
	bc_watch_alarm(watching,
		"the head falls, by %.1f degC: too little heat, or the oil cracks or runs dry",
		fall_c);
}

static void alarm_head(struct bc_watching *watching, double corrected_c)
{
	if (corrected_c >= BC_HEAD_LIMIT_C) {
		if (untold(watching, TOLD_CRACKING))
			bc_watch_alarm(watching,
				"the head is past %.0f degC corrected: the oil cracks in the pot; "
				"stop soon",
				BC_HEAD_LIMIT_C);
	} else if (corrected_c >= BC_HEAD_LIMIT_C - NEAR_C && untold(watching, TOLD_NEAR)) {
		bc_watch_alarm(watching, "the head is near %.0f degC corrected, where oils crack",
			BC_HEAD_LIMIT_C);
	}
}

void bc_watch_alarm_pot(struct bc_watching *watching, double pot_c)
{
	double limit_c = BC_POT_LIMIT_C;
	if (watching->plan != NULL)
		limit_c = fmin(limit_c, watching->plan->pot_limit_c);
	if (pot_c >= limit_c) {
		if (untold(watching, TOLD_POT))
			bc_watch_alarm(watching,
				"the pot is past its limit of %.0f degC: heat off, it cracks the oil",
				limit_c);
	} else if (pot_c >= limit_c - NEAR_C && untold(watching, TOLD_POT_NEAR)) {
		bc_watch_alarm(watching, "the pot is near its limit of %.0f degC", limit_c);
	}
}

void bc_watch_tell(
	struct bc_watching *watching, const struct bc_noted *noted, struct bc_text *reply)
{
	double head_c = bc_watching_c(watching, noted->head);
	double corrected_c = bc_corrected_from_reading(&watching->conditions, head_c);
	bc_watch_place(watching, noted->point, noted->amount, reply);
	bc_text_printf(reply, ": %.1f degC corrected", corrected_c);
	say_rate(watching, noted, reply);
	say_next(watching, reply);
	say_so_far(watching, reply);
	bc_text_append(reply, "\n");
	alarm_water(watching);
	alarm_fall(watching, noted);
	alarm_head(watching, corrected_c);
}
