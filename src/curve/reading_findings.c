/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be seen in the readings alone: water, slips, cracking, rate of boiling, gaps. */
#include <math.h>
#include <stdio.h>

#include "base/memory.h"
#include "base/stats.h"
#include "curve/amounts.h"
#include "curve/boiloff.h"
#include "curve/cracking.h"
#include "curve/finding_limits.h"
#include "curve/level.h"
#include "curve/slip.h"
#include "curve/stall.h"

enum { JUMPS_TOLD_MAX = 8 };

static bool is_percent(const struct bc_point *point)
{
	return point->used && !point->slip && point->kind == BC_READING_AMOUNT;
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

	if (beyond > BC_JUMP_FALL_C)
		return true;
	return neighbours_answer(triples, n, i) &&
	       fabs(t->off_c) > fmax(BC_JUMP_C, BC_JUMP_MEDIANS * median_c) &&
	       fabs(t->off_c) > BC_JUMP_SPAN_SHARE * span;
}

static void say_jump(const struct triple *t, struct bc_findings *findings)
{
	char slip[BC_SLIP_NAME_SIZE];
	double near = BC_SLIP_NEAR_SHARE * fabs(t->after->observed_c - t->before->observed_c);

	bc_slip_name(t->here->observed_c, t->here->observed_c - t->off_c, t->before->observed_c,
		t->after->observed_c, fmax(BC_SLIP_NEAR_C, near), slip);
	bc_findings_say(findings, "jump", BC_FINDING_WARNING, t->here->recovered_pct,
		"Look at the sheet again: a slip of the pen, a bump, or a change of heat there.",
		"the reading at %.1f %%, %.1f C, lies %.0f C %s the line of its neighbours, and is "
		"still used; %s",
		t->here->recovered_pct, t->here->observed_c, fabs(t->off_c),
		t->off_c > 0.0 ? "above" : "below", slip);
}

/* Where a level stretch begins or ends the curve has a corner, which is no slip. */
static bool is_corner(const struct bc_level *level, const struct triple *t)
{
	return level->found && (t->after->recovered_pct == level->from_pct ||
				       t->here->recovered_pct == level->from_pct ||
				       t->here->recovered_pct == level->to_pct ||
				       t->before->recovered_pct == level->to_pct);
}

/* A thermometer read every second may jump a thousand times: the first few say enough. */
static void say_jumps(const struct triple *triples, size_t n, double median_c,
	const struct bc_level *level, struct bc_findings *findings)
{
	size_t told = 0;

	for (size_t i = 0; i < n && told < JUMPS_TOLD_MAX; i++) {
		/* a slip puts its neighbours off as well, but less */
		bool greatest = (i == 0 || fabs(triples[i].off_c) >= fabs(triples[i - 1].off_c)) &&
				(i + 1 == n || fabs(triples[i].off_c) > fabs(triples[i + 1].off_c));
		if (!greatest || is_corner(level, &triples[i]) ||
			!out_of_line(triples, n, i, median_c))
			continue;
		say_jump(&triples[i], findings);
		told++;
	}
}

static enum bc_status find_jumps(const struct bc_boiloff *boiloff, struct bc_findings *findings)
{
	if (boiloff->n_amounts < BC_JUMP_READINGS_MIN)
		return BC_OK;
	struct triple *triples = bc_alloc_array(boiloff->n_amounts, sizeof *triples);
	double *sizes = bc_alloc_array(boiloff->n_amounts, sizeof *sizes);
	enum bc_status status = triples && sizes ? BC_OK : BC_NO_MEMORY;
	if (!bc_failed(status)) {
		size_t n = take_triples(boiloff, triples);
		for (size_t i = 0; i < n; i++)
			sizes[i] = fabs(triples[i].off_c);
		const struct bc_level level = bc_level_seen(boiloff);
		say_jumps(triples, n, bc_median(sizes, n), &level, findings);
	}
	bc_free(triples);
	bc_free(sizes);
	return status;
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
	if (rate > BC_RATE_HIGH_ML_MIN)
		bc_findings_say(findings, "too-fast", BC_FINDING_WARNING, NAN,
			"Turn the heat down to 4 to 5 mL a minute: boiled fast, the head reads "
			"high and cuts blur.",
			"%.1f mL a minute came over between %.1f and %.1f %%", rate,
			first->recovered_pct, last->recovered_pct);
	if (rate < BC_RATE_LOW_ML_MIN)
		bc_findings_say(findings, "too-slow", BC_FINDING_WARNING, NAN,
			"Turn the heat up to 4 to 5 mL a minute and keep draughts off: boiled "
			"slowly, the head reads low.",
			"only %.1f mL a minute came over between %.1f and %.1f %%", rate,
			first->recovered_pct, last->recovered_pct);
}

static void find_cracking(const struct bc_boiloff *boiloff, struct bc_findings *findings)
{
	static const char advice[] =
		"Stop before the pot passes its limit: above it the oil cracks, makes gas and light "
		"ends again, and the readings no longer mean boiling points.";

	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		if (!point->slip && point->corrected_c > BC_CRACKING_HEAD_C) {
			bc_findings_say(findings, "cracking", BC_FINDING_WARNING,
				point->recovered_pct, advice,
				"the head reached %.1f C; oils crack where the pot is above %.0f C",
				point->observed_c, BC_POT_LIMIT_C);
			return;
		}
		if (point->pot_c > BC_POT_LIMIT_C) {
			bc_findings_say(findings, "cracking", BC_FINDING_WARNING,
				point->recovered_pct, advice,
				"the pot reached %.1f C; oils crack above %.0f C", point->pot_c,
				BC_POT_LIMIT_C);
			return;
		}
	}
}

static void find_gaps(const struct bc_boiloff *boiloff, struct bc_findings *findings)
{
	const struct bc_point *before = NULL;
	const struct bc_point *from = NULL;
	double widest_pct = 0.0;
	bool holds_slip = false; /* a reading between, which is said to be left out */
	bool widest_holds_slip = false;

	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		holds_slip = holds_slip || point->slip;
		if (!point->used)
			continue;
		if (before && point->recovered_pct - before->recovered_pct > widest_pct) {
			widest_pct = point->recovered_pct - before->recovered_pct;
			widest_holds_slip = holds_slip;
			from = before;
		}
		holds_slip = false;
		before = point;
	}
	/* few readings are said already */
	bool said = boiloff->n_amounts < BC_READINGS_MIN || widest_holds_slip;
	if (!from || !(widest_pct > (said ? BC_GAP_WIDE_PCT : BC_GAP_PCT)))
		return;
	bc_findings_say(findings, "gap", BC_FINDING_WARNING, from->recovered_pct,
		"Boil off again and read at 5, 10, 20, ... 90, 95 %.",
		"nothing was read, or can be used, between %.1f and %.1f %%", from->recovered_pct,
		from->recovered_pct + widest_pct);
	/* a front of which only the first drop is known says too little of the flash */
	bool front = from->recovered_pct + widest_pct > BC_GAP_FRONT_TO_PCT &&
		     from->recovered_pct < BC_GAP_FRONT_FROM_PCT;
	bc_findings_forbid(findings, front || widest_pct > BC_GAP_WIDE_PCT, false);
}

/* Rows that do not follow each other: sorted, and said where no slip explains it. */
static void find_row_order(const struct bc_boiloff *boiloff, const struct bc_sample *sample,
	struct bc_findings *findings)
{
	double before = -INFINITY;

	for (size_t i = 0; i < boiloff->n; i++) {
		if (boiloff->points[i].slip)
			return;
	}
	if (bc_findings_has(findings, "readings-disordered"))
		return;
	for (size_t i = 0; i < sample->n_readings; i++) {
		const struct bc_reading *reading = &sample->readings[i];
		if (reading->kind != BC_READING_AMOUNT || !isfinite(reading->amount))
			continue;
		if (reading->amount < before) {
			bc_findings_say(findings, "rows-out-of-order", BC_FINDING_NOTE,
				bc_share_pct(sample, reading->amount),
				"Look whether the amount was written wrongly.",
				"the row of %.1f C stands behind one of a larger amount: the rows "
				"were sorted",
				reading->head_c);
			return;
		}
		before = reading->amount;
	}
}

static void find_missing(const struct bc_boiloff *boiloff, struct bc_findings *findings)
{
	if (boiloff->n_amounts < BC_READINGS_MIN)
		bc_findings_say(findings, "few-readings", BC_FINDING_WARNING, NAN,
			"Boil off again and read at 5, 10, 20, ... 90, 95 %.",
			"only %zu percent readings: nothing can be decided on them alone",
			boiloff->n_amounts);
	if (!isfinite(boiloff->ibp_c))
		bc_findings_add(findings, "no-ibp", BC_FINDING_WARNING, 0.0,
			"no IBP was read that can be used: the light end, and with it the flash "
			"point, stays unknown",
			"Read the thermometer when the first drop falls.");
}

/* Where the oil starts to boil: the IBP, or the first reading in use. */
static double start_c(const struct bc_boiloff *boiloff)
{
	double light_c = boiloff->ibp_c;

	for (size_t i = 0; isnan(light_c) && i < boiloff->n; i++) {
		if (is_percent(&boiloff->points[i]))
			light_c = boiloff->points[i].corrected_c;
	}
	return light_c;
}

static void find_losses(const struct bc_boiloff *boiloff, const struct bc_sample *sample,
	struct bc_findings *findings)
{
	double light_c = start_c(boiloff);
	double loss_pct =
		fmax(boiloff->loss_known ? boiloff->loss_pct : 0.0, boiloff->mass_loss_pct);

	if (loss_pct > BC_LOSS_LARGE_PCT && light_c > BC_LOSS_LIGHT_IBP_C &&
		!bc_findings_has(findings, "balance-impossible")) {
		bc_findings_say(findings, "loss-large", BC_FINDING_WARNING, NAN,
			"What is lost is the light end, on which the flash hangs: look for a "
			"leaking joint, a warm receiver or a wrong charge, and boil off again.",
			"%.1f %% was lost, much for an oil that starts at %.0f C", loss_pct,
			light_c);
		bc_findings_forbid(findings, true, false);
	}
	if (sample->condenser_c > BC_CONDENSER_HOT_C ||
		(sample->condenser_c > BC_CONDENSER_WARM_C && light_c < BC_CONDENSER_LIGHT_IBP_C)) {
		bc_findings_say(findings, "condenser-warm", BC_FINDING_WARNING, NAN,
			"Cool the condenser with ice water and boil off again: light vapour went "
			"past it and is missing in the readings.",
			"the condenser stood at %.0f C for an oil that starts at %.0f C",
			sample->condenser_c, light_c);
		bc_findings_forbid(findings, true, false);
	}
}

static void find_weights(const struct bc_boiloff *boiloff, const struct bc_sample *sample,
	struct bc_findings *findings)
{
	double apart_pct = 100.0 * (boiloff->charge_kgm3 / sample->density_kgm3 - 1.0);

	if (boiloff->mass_loss_pct < -BC_WEIGHED_GAIN_PCT &&
		!bc_findings_has(findings, "balance-impossible")) {
		bc_findings_say(findings, "balance-impossible", BC_FINDING_WARNING, NAN,
			"Weigh again: charge, receiver and flask, each without its glass.",
			"distillate and residue weigh %.1f %% more than the charge",
			-boiloff->mass_loss_pct);
		bc_findings_forbid(findings, true, false);
	}
	if (fabs(apart_pct) > BC_DENSITIES_APART_PCT)
		bc_findings_say(findings, "weighed-density-unlike", BC_FINDING_WARNING, NAN,
			"Weigh and measure the charge again, and read the hydrometer again.",
			"the charge weighs %.0f kg/m3, the density given is %.0f kg/m3",
			boiloff->charge_kgm3, sample->density_kgm3);
}

/* The heaviest reading in use, about T95; a boil-off has three at least. */
static const struct bc_point *last_point(const struct bc_boiloff *boiloff)
{
	const struct bc_point *last = NULL;

	for (size_t i = 0; i < boiloff->n; i++) {
		if (is_percent(&boiloff->points[i]))
			last = &boiloff->points[i];
	}
	return last;
}

/* A tenth and more stays behind above the limit for heads. */
static bool is_outside_scope(const struct bc_boiloff *boiloff)
{
	double stays_pct = boiloff->residue_pct;

	if (!boiloff->residue_known)
		stays_pct = isfinite(boiloff->fbp_c) ? 0.0 : 100.0 - boiloff->last_pct;
	return stays_pct >= BC_SCOPE_RESIDUE_PCT &&
	       last_point(boiloff)->corrected_c > BC_HEAD_LIMIT_C;
}

/* A whole table in degF is told by its end: no oil boils so hot. */
static void find_too_hot(const struct bc_boiloff *boiloff, struct bc_findings *findings)
{
	const struct bc_point *last = last_point(boiloff);

	if (!(last->observed_c > BC_TOO_HOT_C))
		return;
	bc_findings_say(findings, "too-hot", BC_FINDING_WARNING, last->recovered_pct,
		"Look at the thermometer: if it shows Fahrenheit, write F into the header of the "
		"table, as head (F).",
		"the head goes up to %.0f C: no oil boils so hot at the pressure of the air without "
		"cracking; are these degrees Fahrenheit?",
		last->observed_c);
	bc_findings_forbid(findings, true, true);
}

static void find_amounts(const struct bc_boiloff *boiloff, const struct bc_sample *sample,
	struct bc_findings *findings)
{
	bool known = !bc_findings_has(findings, "balance-impossible"); /* what stayed */
	find_too_hot(boiloff, findings);
	if (known && is_outside_scope(boiloff))
		bc_findings_say(findings, "outside-scope", BC_FINDING_WARNING, boiloff->last_pct,
			"Take its figures as D86-type, not as D86: split off the tail, or have its "
			"boiling range measured by simulated distillation (ASTM D2887).",
			"a heavy, waxy oil: %.0f C at %.0f %%, and the rest did not come over; the "
			"standard test leaves out oils with such a residue",
			last_point(boiloff)->observed_c, boiloff->last_pct);
	else if (known && boiloff->residue_known && boiloff->residue_pct > BC_RESIDUE_LARGE_PCT)
		bc_findings_say(findings, "residue-large", BC_FINDING_NOTE, NAN,
			"Read limits with care: the standard test leaves out oils with appreciable "
			"residue.",
			"%.1f %% stayed in the flask", boiloff->residue_pct);
	if (sample->amount_basis == BC_AMOUNT_MASS_PCT || sample->amount_basis == BC_AMOUNT_MASS_G)
		bc_findings_add(findings, "mass-basis", BC_FINDING_NOTE, NAN,
			"the readings are by mass; the percents shown are computed volumes",
			"Read a measuring cylinder where you can: limits are written for volumes.");
}

/* Check points so far off that the thermometer, or the check, is not to be trusted. */
static void find_check_points(const struct bc_sample *sample,
	const struct bc_conditions *conditions, struct bc_findings *findings)
{
	double ice_c = sample->ice_c;
	double steam_c = sample->steam_c - conditions->steam_true_c;
	bool opposed = ice_c * steam_c < 0.0 && fabs(steam_c - ice_c) > BC_CHECKS_APART_C;

	if (!(fabs(ice_c) > BC_ICE_FAR_C) && !(fabs(steam_c) > BC_STEAM_FAR_C) && !opposed)
		return;
	char ice[40] = "ice not checked";
	char steam[60] = "steam not checked";
	if (isfinite(ice_c))
		snprintf(ice, sizeof ice, "%.1f C in melting ice", ice_c);
	if (isfinite(steam_c))
		snprintf(steam, sizeof steam, "%.1f C in boiling water", sample->steam_c);
	bc_findings_say(findings, "thermometer-far-off", BC_FINDING_WARNING, NAN,
		"Check it again in crushed ice and in steam; if it stays so, take another "
		"thermometer and boil off again.",
		"the thermometer shows %s, %s; water boils here at %.1f C", ice, steam,
		conditions->steam_true_c);
	bc_findings_forbid(findings, true, false);
}

static void find_pressure_conflicts(const struct bc_boiloff *boiloff,
	const struct bc_sample *sample, const struct bc_conditions *conditions,
	struct bc_findings *findings)
{
	double apart_kpa = fabs(sample->barometer_kpa - conditions->altitude_kpa);

	if (apart_kpa > BC_BAROMETER_ALTITUDE_KPA) {
		double moved_c = bc_pressure_effect_c(last_point(boiloff)->corrected_c, apart_kpa);
		bool sea = fabs(sample->barometer_kpa - BC_SEA_LEVEL_KPA) <= BC_SEA_WEATHER_KPA;
		bc_findings_say(findings, "barometer-not-station", BC_FINDING_WARNING, NAN,
			"A weather service reduces its pressure to sea level: read a barometer in "
			"the shed, or leave the key 'barometer' out.",
			"barometer %.1f kPa%s, but at %.0f m about %.1f kPa is expected: it moves "
			"the heavy end by %.1f C",
			sample->barometer_kpa, sea ? " looks like a sea-level figure" : "",
			sample->altitude_m, conditions->altitude_kpa, moved_c);
		bc_findings_forbid(findings, moved_c > BC_PRESSURE_DECIDES_C, false);
	}
	if (conditions->water_unlike_known)
		bc_findings_say(findings, "water-boils-unlike-pressure", BC_FINDING_WARNING, NAN,
			"Check the thermometer in boiling water again, and the barometer or the "
			"altitude.",
			"water boils at %.1f C on this thermometer, at %.1f kPa it does at %.1f C: "
			"not used",
			sample->water_boils_c, conditions->pressure_kpa, conditions->steam_true_c);
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
	if (conditions->pressure_kpa < BC_PRESSURE_LOW_KPA)
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
	enum bc_status status = find_jumps(boiloff, findings);

	find_rate(boiloff, findings);
	find_cracking(boiloff, findings);
	bc_find_stall(boiloff, findings);
	find_row_order(boiloff, sample, findings);
	find_missing(boiloff, findings);
	find_gaps(boiloff, findings);
	find_losses(boiloff, sample, findings);
	find_weights(boiloff, sample, findings);
	find_amounts(boiloff, sample, findings);
	find_instrument(conditions, findings);
	find_check_points(sample, conditions, findings);
	find_pressure_conflicts(boiloff, sample, conditions, findings);
	return findings->failed ? BC_NO_MEMORY : status;
}
