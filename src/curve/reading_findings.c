/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be seen in the readings alone: water, slips, cracking, rate of boiling, gaps. */
#include <math.h>

#include "base/stats.h"
#include "curve/boiloff.h"

/* A water shelf lies between the lowest boiling point of water with an oil component (benzene, 31
 * below water alone) and water's own; computed from Antoine constants and IAPWS-IF97. */
#define SHELF_BELOW_C 31.0
#define SHELF_ABOVE_C 2.0
/* How flat a shelf is and how steep what follows; common practice. */
#define SHELF_FLAT_C_PER_PCT 0.5
#define SHELF_JUMP_C_PER_PCT 2.5
#define SHELF_JUMP_C 15.0

/* A slip of the pen against its neighbours on probability paper; tuned on measured D86 curves so
 * that none of them raises it. */
#define JUMP_C 10.0
#define JUMP_MEDIANS 6.0
#define JUMP_SPAN_SHARE 0.30
#define JUMP_FALL_C 3.0
enum { JUMP_READINGS_MIN = 5, JUMP_READINGS_MAX = 200 };

/* Customary end of boiling at atmospheric pressure, head, and pot temperature at which oils crack;
 * common practice [degC]. */
#define CRACKING_HEAD_C 370.0
#define CRACKING_POT_C 350.0

/* ASTM D86 asks for 4 to 5 mL/min; half and about double that still gives a curve, common practice.
 */
#define RATE_LOW_ML_MIN 2.0
#define RATE_HIGH_ML_MIN 8.0

#define LOSS_LARGE_PCT 4.0    /* beyond it the receiver or joints lose vapour; common practice */
#define LOSS_LIGHT_IBP_C 50.0 /* below it a loss is in the nature of the oil; common practice */
/* "Appreciable residue" is outside the scope of ASTM D86, which gives no figure; common practice.
 */
#define RESIDUE_LARGE_PCT 5.0
#define PRESSURE_LOW_KPA 84.5 /* about 1500 m, where Sydney Young's formula is 10 % short */

static bool is_reading(const struct bc_point *point)
{
	return point->used && (point->kind == BC_READING_AMOUNT || point->kind == BC_READING_IBP);
}

static bool is_percent(const struct bc_point *point)
{
	return point->used && point->kind == BC_READING_AMOUNT;
}

static bool on_shelf(const struct bc_conditions *conditions, const struct bc_point *point)
{
	double above_c =
		bc_site_from_reading(conditions, point->observed_c) - conditions->steam_true_c;

	return above_c >= -SHELF_BELOW_C && above_c <= SHELF_ABOVE_C;
}

static double slope(const struct bc_point *a, const struct bc_point *b)
{
	return (b->corrected_c - a->corrected_c) / (b->recovered_pct - a->recovered_pct);
}

static void find_water(const struct bc_boiloff *boiloff, const struct bc_conditions *conditions,
	const struct bc_sample *sample, struct bc_findings *findings)
{
	static const char advice[] =
		"Dry the oil (let it settle, draw off the water, then a drying "
		"salt) and boil off again: water bumps, and hides the light end.";
	const struct bc_point *start = NULL; /* of a flat stretch */
	const struct bc_point *end = NULL;

	if (boiloff->wet) {
		bc_findings_say(findings, "water-shelf", BC_FINDING_WARNING, NAN, advice,
			"%.1f mL of water came over and is taken out of the percents",
			sample->water_ml);
		return;
	}
	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		if (!is_reading(point))
			continue;
		if (on_shelf(conditions, point)) {
			if (!start || slope(end, point) > SHELF_FLAT_C_PER_PCT)
				start = point;
			end = point;
			continue;
		}
		if (start && end != start && slope(end, point) >= SHELF_JUMP_C_PER_PCT &&
			point->corrected_c - end->corrected_c >= SHELF_JUMP_C) {
			bc_findings_say(findings, "water-shelf", BC_FINDING_WARNING,
				end->recovered_pct, advice,
				"the head stands at %.1f to %.1f C until %.1f %%, then jumps to "
				"%.1f C: water "
				"boils here at %.1f C",
				start->observed_c, end->observed_c, end->recovered_pct,
				point->observed_c, conditions->steam_true_c);
			return;
		}
		start = end = NULL;
	}
}

/* One reading between its neighbours. */
struct triple {
	const struct bc_point *before;
	const struct bc_point *here;
	const struct bc_point *after;
	double off_c; /* from the line of the neighbours on probability paper */
};

static void measure_triple(struct triple *t)
{
	double z0 = bc_probit_from_pct(t->before->recovered_pct);
	double z1 = bc_probit_from_pct(t->here->recovered_pct);
	double z2 = bc_probit_from_pct(t->after->recovered_pct);
	double share = (z1 - z0) / (z2 - z0);

	t->off_c = t->here->corrected_c - t->before->corrected_c -
		   share * (t->after->corrected_c - t->before->corrected_c);
}

static size_t take_triples(const struct bc_boiloff *boiloff, struct triple *triples)
{
	const struct bc_point *last[2] = {NULL};
	size_t n = 0;

	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		if (!is_percent(point) || point->recovered_pct >= 100.0)
			continue;
		if (last[0]) {
			triples[n] = (struct triple){last[0], last[1], point, 0.0};
			measure_triple(&triples[n++]);
		}
		last[0] = last[1];
		last[1] = point;
	}
	return n;
}

/* A slip puts both neighbours off to the other side; a bend of the curve does not. */
static bool neighbours_answer(const struct triple *triples, size_t n, size_t i)
{
	return i > 0 && i + 1 < n && triples[i].off_c * triples[i - 1].off_c < 0.0 &&
	       triples[i].off_c * triples[i + 1].off_c < 0.0;
}

/* The reading lies beyond a neighbour, or far off the line where the others do not. */
static bool out_of_line(const struct triple *triples, size_t n, size_t i, double median_c)
{
	const struct triple *t = &triples[i];
	double low = t->before->corrected_c;
	double high = t->after->corrected_c;
	double span = fabs(high - low);
	double beyond = fmax(
		fmin(low, high) - t->here->corrected_c, t->here->corrected_c - fmax(low, high));

	if (beyond > JUMP_FALL_C)
		return true;
	return neighbours_answer(triples, n, i) &&
	       fabs(t->off_c) > fmax(JUMP_C, JUMP_MEDIANS * median_c) &&
	       fabs(t->off_c) > JUMP_SPAN_SHARE * span;
}

static void find_jumps(const struct bc_boiloff *boiloff, struct bc_findings *findings)
{
	struct triple triples[JUMP_READINGS_MAX];
	double sizes[JUMP_READINGS_MAX];

	if (boiloff->n_amounts < JUMP_READINGS_MIN || boiloff->n_amounts > JUMP_READINGS_MAX)
		return;
	size_t n = take_triples(boiloff, triples);
	for (size_t i = 0; i < n; i++)
		sizes[i] = fabs(triples[i].off_c);
	double median_c = bc_median(sizes, n);
	for (size_t i = 0; i < n; i++) {
		const struct triple *t = &triples[i];
		/* a slip puts its neighbours off as well, but less */
		bool greatest = (i == 0 || fabs(t->off_c) >= fabs(triples[i - 1].off_c)) &&
				(i + 1 == n || fabs(t->off_c) > fabs(triples[i + 1].off_c));
		if (!greatest || !out_of_line(triples, n, i, median_c))
			continue;
		bc_findings_say(findings, "jump", BC_FINDING_WARNING, t->here->recovered_pct,
			"Look at the sheet again: a slip of the pen, a bump, or a change of heat "
			"there.",
			"the reading at %.1f %%, %.1f C, lies %.0f C %s the line of its neighbours",
			t->here->recovered_pct, t->here->observed_c, fabs(t->off_c),
			t->off_c > 0.0 ? "above" : "below");
	}
}

static void find_rate(const struct bc_boiloff *boiloff, struct bc_findings *findings)
{
	const struct bc_point *first = NULL;
	const struct bc_point *last = NULL;

	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		if (!is_percent(point) || !isfinite(point->time_s))
			continue;
		if (!first)
			first = point;
		last = point;
	}
	if (!first || !(last->time_s > first->time_s))
		return;
	double ml = (last->recovered_pct - first->recovered_pct) / 100.0 * boiloff->charge_ml;
	double rate = 60.0 * ml / (last->time_s - first->time_s);
	if (rate > RATE_HIGH_ML_MIN)
		bc_findings_say(findings, "too-fast", BC_FINDING_WARNING, NAN,
			"Turn the heat down to 4 to 5 mL a minute: boiled fast, the head reads "
			"high and cuts blur.",
			"%.1f mL a minute came over between %.1f and %.1f %%", rate,
			first->recovered_pct, last->recovered_pct);
	if (rate < RATE_LOW_ML_MIN)
		bc_findings_say(findings, "too-slow", BC_FINDING_WARNING, NAN,
			"Turn the heat up to 4 to 5 mL a minute and keep draughts off: boiled "
			"slowly, the head reads low.",
			"only %.1f mL a minute came over between %.1f and %.1f %%", rate,
			first->recovered_pct, last->recovered_pct);
}

static void find_cracking(const struct bc_boiloff *boiloff, struct bc_findings *findings)
{
	static const char advice[] =
		"Stop at about 350 C in the pot: above it the oil cracks, makes gas and light ends "
		"again, and the readings no longer mean boiling points.";

	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		if (point->corrected_c > CRACKING_HEAD_C) {
			bc_findings_say(findings, "cracking", BC_FINDING_WARNING,
				point->recovered_pct, advice, "the head reached %.1f C",
				point->observed_c);
			return;
		}
		if (point->pot_c > CRACKING_POT_C) {
			bc_findings_say(findings, "cracking", BC_FINDING_WARNING,
				point->recovered_pct, advice, "the pot reached %.1f C",
				point->pot_c);
			return;
		}
	}
}

static void find_gaps(const struct bc_boiloff *boiloff, struct bc_findings *findings)
{
	if (boiloff->n_amounts < 5)
		bc_findings_say(findings, "few-readings", BC_FINDING_WARNING, NAN,
			"Boil off again and read at 5, 10, 20, ... 90, 95 %.",
			"only %zu percent readings: nothing can be decided on them alone",
			boiloff->n_amounts);
	if (!isfinite(boiloff->ibp_c))
		bc_findings_add(findings, "no-ibp", BC_FINDING_WARNING, 0.0,
			"no IBP was read: the light end, and with it the flash point, stays "
			"unknown",
			"Read the thermometer when the first drop falls.");
}

static void find_amounts(const struct bc_boiloff *boiloff, const struct bc_sample *sample,
	struct bc_findings *findings)
{
	double light_c = boiloff->ibp_c;

	for (size_t i = 0; isnan(light_c) && i < boiloff->n; i++) {
		if (is_percent(&boiloff->points[i]))
			light_c = boiloff->points[i].corrected_c;
	}
	if (boiloff->loss_known && boiloff->loss_pct > LOSS_LARGE_PCT && light_c > LOSS_LIGHT_IBP_C)
		bc_findings_say(findings, "loss-large", BC_FINDING_WARNING, NAN,
			"Look for a leaking joint, a warm receiver or a wrong charge.",
			"%.1f %% was lost, much for an oil that starts at %.0f C",
			boiloff->loss_pct, light_c);
	if (boiloff->residue_known && boiloff->residue_pct > RESIDUE_LARGE_PCT)
		bc_findings_say(findings, "residue-large", BC_FINDING_NOTE, NAN,
			"Read limits with care: the standard test leaves out oils with appreciable "
			"residue.",
			"%.1f %% stayed in the flask", boiloff->residue_pct);
	if (sample->amount_basis == BC_AMOUNT_MASS_PCT || sample->amount_basis == BC_AMOUNT_MASS_G)
		bc_findings_add(findings, "mass-basis", BC_FINDING_NOTE, NAN,
			"the readings are by mass; the percents shown are computed volumes",
			"Read a measuring cylinder where you can: limits are written for volumes.");
}

static void find_instrument(const struct bc_conditions *conditions, struct bc_findings *findings)
{
	if (conditions->thermometer == BC_THERMOMETER_NOT_STATED && !conditions->tbp)
		bc_findings_add(findings, "thermometer-not-stated", BC_FINDING_NOTE, NAN,
			"the thermometer is not stated: at 340 C a probe reads about 12 C higher "
			"than the glass thermometer for which limits are written",
			"State it: thermometer,glass partial or probe or glass total with "
			"immersion.");
	if (conditions->thermometer == BC_THERMOMETER_GLASS_TOTAL && !conditions->tbp &&
		!isfinite(conditions->immersion_c))
		bc_findings_add(findings, "glass-total-no-immersion", BC_FINDING_NOTE, NAN,
			"a total-immersion thermometer without its immersion: no stem correction "
			"made",
			"State the scale mark at the stopper: immersion,60 C.");
	if (conditions->pressure_kpa < PRESSURE_LOW_KPA)
		bc_findings_say(findings, "altitude-correction-large", BC_FINDING_NOTE, NAN,
			"Give the station pressure from a barometer in the shed.",
			"at %.1f kPa readings near 250 C are raised by about %.0f C: the "
			"correction itself is unsure",
			conditions->pressure_kpa,
			bc_corrected_from_reading(conditions, 250.0) - 250.0 +
				(conditions->reads_true_vapour ? bc_thermometer_delta_c(250.0)
							       : 0.0));
}

enum bc_status bc_boiloff_findings(const struct bc_boiloff *boiloff, const struct bc_sample *sample,
	const struct bc_conditions *conditions, struct bc_findings *findings)
{
	find_water(boiloff, conditions, sample, findings);
	find_jumps(boiloff, findings);
	find_rate(boiloff, findings);
	find_cracking(boiloff, findings);
	find_gaps(boiloff, findings);
	find_amounts(boiloff, sample, findings);
	find_instrument(conditions, findings);
	return findings->failed ? BC_NO_MEMORY : BC_OK;
}
