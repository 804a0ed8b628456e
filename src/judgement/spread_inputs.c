/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is uncertain in a boil-off, drawn: from standard normal numbers to a moved curve. */
#include "judgement/spread_inputs.h"

#include <math.h>
#include <string.h>

#include <gsl/gsl_cdf.h>

#include "base/memory.h"
#include "base/stats.h"

/* A loss that nobody measured is up to 3 mL of 100 (fuel/shares.c), and a residue no more where the
 * boil-off went to its end. */
#define UNMEASURED_REST_PCT 3.0
/* Neighbours of a drawn curve stay this far apart; only keeps it a function of the percent. */
#define LEAST_GAP_PCT 1e-4

static const enum bc_cause cause_of[BC_SHARED_METHOD] = {
	[BC_SHARED_OFFSET] = BC_CAUSE_CALIBRATION,
	[BC_SHARED_ICE] = BC_CAUSE_CALIBRATION,
	[BC_SHARED_STEAM] = BC_CAUSE_CALIBRATION,
	[BC_SHARED_KIND] = BC_CAUSE_THERMOMETER,
	[BC_SHARED_PRESSURE] = BC_CAUSE_PRESSURE,
	[BC_SHARED_RUN_FRONT] = BC_CAUSE_RUN,
	[BC_SHARED_RUN_MIDDLE] = BC_CAUSE_RUN,
	[BC_SHARED_RUN_BACK] = BC_CAUSE_RUN,
	[BC_SHARED_FLASK] = BC_CAUSE_RUN,
	[BC_SHARED_VOLUME] = BC_CAUSE_VOLUME,
	[BC_SHARED_RESIDUE] = BC_CAUSE_REST,
	[BC_SHARED_LOSS] = BC_CAUSE_REST,
	[BC_SHARED_FRONT_WAY] = BC_CAUSE_UNREAD,
	[BC_SHARED_FRONT_FIT] = BC_CAUSE_UNREAD,
	[BC_SHARED_BACK_WAY] = BC_CAUSE_UNREAD,
	[BC_SHARED_BACK_FIT] = BC_CAUSE_UNREAD,
	[BC_SHARED_FRONT_UNREAD] = BC_CAUSE_UNREAD,
	[BC_SHARED_BACK_UNREAD] = BC_CAUSE_UNREAD,
	[BC_SHARED_RANGE] = BC_CAUSE_RANGE,
	[BC_SHARED_DENSITY] = BC_CAUSE_DENSITY,
};

enum bc_cause bc_shared_cause(size_t shared)
{
	return shared < BC_SHARED_METHOD ? cause_of[shared] : BC_CAUSE_METHOD;
}

/* ---- what stays the same over all draws */

/* Front, middle and back share out a percent between them, and their squares add up to 1. */
static void fill_run_parts(struct bc_inputs *inputs, size_t i, double pct)
{
	double back = fmin(fmax((pct - 50.0) / 50.0, 0.0), 1.0);
	double front = fmin(fmax((50.0 - pct) / 50.0, 0.0), 1.0);
	double middle = 1.0 - front - back;
	double whole = sqrt(front * front + middle * middle + back * back);
	inputs->run_part[0][i] = front / whole;
	inputs->run_part[1][i] = middle / whole;
	inputs->run_part[2][i] = back / whole;
}

static void read_edges(struct bc_inputs *inputs)
{
	const struct bc_curve *curve = inputs->reader->curve;
	inputs->first_pct = bc_curve_first_pct(curve);
	inputs->last_pct = bc_curve_last_pct(curve);
	inputs->first_c = bc_curve_temp_c(curve, inputs->first_pct);
	inputs->last_c = bc_curve_temp_c(curve, inputs->last_pct);
	inputs->rms_c = inputs->reader->fit ? inputs->reader->fit->rms_c : 0.0;
}

/* What 0.35 effective plates less do to a reading: header. */
static double flask_move_c(double recovered_pct)
{
	static const struct {
		double pct;
		double move_c;
	} computed[] = {{5.0, 5.6}, {10.0, 4.8}, {20.0, 3.4}, {30.0, 2.5}, {40.0, 1.9}, {50.0, 1.3},
		{60.0, 0.8}, {70.0, 0.4}, {80.0, 0.0}, {90.0, -0.6}, {95.0, -0.9}};
	enum { N = sizeof computed / sizeof computed[0] };
	if (recovered_pct <= computed[0].pct)
		return computed[0].move_c;
	for (size_t i = 1; i < N; i++) {
		if (recovered_pct > computed[i].pct)
			continue;
		double share = (recovered_pct - computed[i - 1].pct) /
			       (computed[i].pct - computed[i - 1].pct);
		return computed[i - 1].move_c +
		       share * (computed[i].move_c - computed[i - 1].move_c);
	}
	return computed[N - 1].move_c;
}

static double steeper_at(const struct bc_inputs *inputs, double pct)
{
	const double half_pct = 0.5;
	const struct bc_fit *fit = inputs->reader->fit;
	bool inside = pct > inputs->first_pct && pct < inputs->last_pct;
	if (inside || !fit)
		return 0.0;
	double slope = (bc_fit_temp_c(fit, pct + half_pct) - bc_fit_temp_c(fit, pct - half_pct)) /
		       (2.0 * half_pct);
	double more = slope - bc_curve_slope_c_per_pct(inputs->reader->curve, pct);
	return more > 0.0 ? more : 0.0;
}

enum bc_status bc_inputs_new(const struct bc_reader *reader, struct bc_inputs *inputs)
{
	const struct bc_boiloff *boiloff = reader->boiloff;
	*inputs = (struct bc_inputs){.conditions = reader->conditions,
		.boiloff = boiloff,
		.reader = reader,
		.n = boiloff->n};
	inputs->run_c = bc_alloc_array(6 * boiloff->n, sizeof *inputs->run_c);
	if (!inputs->run_c)
		return BC_NO_MEMORY;
	for (size_t part = 0; part < 3; part++)
		inputs->run_part[part] = inputs->run_c + (part + 1) * boiloff->n;
	inputs->flask_c = inputs->run_c + 4 * boiloff->n;
	inputs->steeper = inputs->run_c + 5 * boiloff->n;
	read_edges(inputs);
	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		if (!point->used)
			continue;
		inputs->run_c[i] = bc_reader_run_half_width_c(reader, point->recovered_pct);
		fill_run_parts(inputs, i, point->recovered_pct);
		if (point->kind == BC_READING_AMOUNT && !reader->conditions->tbp)
			inputs->flask_c[i] = flask_move_c(point->recovered_pct);
		if (point->kind == BC_READING_AMOUNT)
			inputs->steeper[i] = steeper_at(inputs, point->recovered_pct);
	}
	return BC_OK;
}

void bc_inputs_release(struct bc_inputs *inputs)
{
	if (!inputs)
		return;
	bc_free(inputs->run_c);
	*inputs = (struct bc_inputs){.n = 0};
}

enum bc_status bc_drawn_new(const struct bc_inputs *inputs, struct bc_drawn *drawn)
{
	*drawn = (struct bc_drawn){.n = inputs->n, .boiloff = *inputs->boiloff};
	drawn->reading = bc_alloc_array(2 * inputs->n, sizeof *drawn->reading);
	drawn->boiloff.points = bc_alloc_array(inputs->n, sizeof *drawn->boiloff.points);
	if (!drawn->reading || !drawn->boiloff.points) {
		bc_drawn_release(drawn);
		return BC_NO_MEMORY;
	}
	drawn->volume = drawn->reading + inputs->n;
	drawn->reader =
		(struct bc_reader){&drawn->boiloff, inputs->conditions, NULL, inputs->reader->fit};
	return BC_OK;
}

void bc_drawn_release(struct bc_drawn *drawn)
{
	if (!drawn)
		return;
	bc_free(drawn->reading);
	bc_free(drawn->boiloff.points);
	bc_curve_free(drawn->curve);
	*drawn = (struct bc_drawn){.n = 0};
}

double *bc_shared_new(struct bc_random *random, size_t draws)
{
	double *shared = bc_alloc_array(BC_SHARED_N * draws, sizeof *shared);
	for (size_t i = 0; shared && i < BC_SHARED_N; i++)
		bc_random_strata(random, shared + i * draws, draws);
	return shared;
}

void bc_drawn_next(struct bc_random *random, const double *shared, size_t draws, size_t draw,
	struct bc_drawn *drawn)
{
	for (size_t i = 0; i < BC_SHARED_N; i++)
		drawn->shared[i] = shared[i * draws + draw];
	for (size_t i = 0; i < 2 * drawn->n; i++)
		drawn->reading[i] = bc_random_normal(random);
}

/* ---- temperatures */

/* What is added to every reading alike, by temperature [degC]. */
struct common {
	double offset_c;
	double ice_c; /* errors of the check points, on a straight line through both */
	double steam_c;
	double pressure_kpa;
	bool true_vapour;
};

static struct common draw_common(const struct bc_inputs *inputs, const double *shared)
{
	const struct bc_conditions *conditions = inputs->conditions;
	double own = fmin(conditions->own_half_width_c, conditions->reading_half_width_c);
	double rest = sqrt(
		conditions->reading_half_width_c * conditions->reading_half_width_c - own * own);
	struct common common = {
		.offset_c = shared[BC_SHARED_OFFSET] * rest / BC_Z95,
		.ice_c = shared[BC_SHARED_ICE] * conditions->calibration_half_width_c / BC_Z95,
		.steam_c = shared[BC_SHARED_STEAM] * conditions->calibration_half_width_c / BC_Z95,
		.true_vapour = conditions->thermometer == BC_THERMOMETER_NOT_STATED &&
			       !conditions->tbp && shared[BC_SHARED_KIND] > 0.0,
	};
	double up = conditions->pressure_half_width_kpa;
	double down = conditions->pressure_down_kpa;
	if (conditions->pressure_source == BC_PRESSURE_WATER_BOILS) {
		/* the boiling water was read with the same thermometer, once */
		double once = conditions->water_own_share;
		double with_all = sqrt(1.0 - once * once);
		common.pressure_kpa =
			up / BC_Z95 *
			(with_all * shared[BC_SHARED_OFFSET] + once * shared[BC_SHARED_PRESSURE]);
	} else {
		common.pressure_kpa = bc_half_and_half(shared[BC_SHARED_PRESSURE], 0.0, -down, up);
	}
	return common;
}

/* Half of the square is each reading's own, half shared. Of a mean of runs their spread holds it
 * already. */
static double volume_sigma_pct(const struct bc_inputs *inputs)
{
	return inputs->boiloff->runs ? 0.0
				     : inputs->boiloff->volume_half_width_pct / sqrt(2.0) / BC_Z95;
}

static double drawn_temp_c(const struct bc_inputs *inputs, const struct bc_drawn *drawn,
	const struct common *common, size_t i)
{
	const struct bc_conditions *conditions = inputs->conditions;
	double temp_c = inputs->boiloff->points[i].corrected_c;
	const struct bc_runs_spread *runs = inputs->boiloff->runs;
	double own = runs ? bc_runs_spread_c(runs, inputs->boiloff->points[i].recovered_pct)
			  : fmin(conditions->own_half_width_c, conditions->reading_half_width_c);
	double run = inputs->run_part[0][i] * drawn->shared[BC_SHARED_RUN_FRONT] +
		     inputs->run_part[1][i] * drawn->shared[BC_SHARED_RUN_MIDDLE] +
		     inputs->run_part[2][i] * drawn->shared[BC_SHARED_RUN_BACK];
	double volume =
		volume_sigma_pct(inputs) * (drawn->volume[i] + drawn->shared[BC_SHARED_VOLUME]);
	double moved = temp_c - inputs->steeper[i] * volume + drawn->reading[i] * own / BC_Z95 +
		       common->offset_c + common->ice_c +
		       (common->steam_c - common->ice_c) * temp_c / 100.0 +
		       bc_pressure_effect_c(temp_c, -common->pressure_kpa) +
		       run * inputs->run_c[i] / BC_Z95 +
		       drawn->shared[BC_SHARED_FLASK] * inputs->flask_c[i] / BC_Z95;
	return common->true_vapour ? bc_corrected_from_true(moved) : moved;
}

/* ---- percents, residue, loss */

/* Residue and loss of a draw; where nobody measured them they share what was not read. */
static void draw_rest(const struct bc_inputs *inputs, struct bc_drawn *drawn)
{
	const struct bc_boiloff *as_read = inputs->boiloff;
	struct bc_boiloff *boiloff = &drawn->boiloff;
	double sigma = as_read->rest_half_width_pct / BC_Z95;
	double unread = fmax(100.0 - as_read->last_pct, 0.0);
	boiloff->loss_pct =
		as_read->loss_known
			? fmax(as_read->loss_pct + sigma * drawn->shared[BC_SHARED_LOSS], 0.0)
			: fabs(drawn->shared[BC_SHARED_LOSS]) * UNMEASURED_REST_PCT / BC_Z95;
	boiloff->loss_pct = fmin(boiloff->loss_pct, fmax(unread, as_read->loss_pct));
	double left = fmax(unread - boiloff->loss_pct, 0.0);
	if (!as_read->residue_known && isfinite(as_read->fbp_c)) {
		double some = fabs(drawn->shared[BC_SHARED_RESIDUE]) * UNMEASURED_REST_PCT / BC_Z95;
		boiloff->residue_pct = fmin(some, left);
		return;
	}
	boiloff->residue_pct =
		as_read->residue_known
			? fmax(as_read->residue_pct + sigma * drawn->shared[BC_SHARED_RESIDUE], 0.0)
			: left * gsl_cdf_ugaussian_P(drawn->shared[BC_SHARED_RESIDUE]);
}

/* Drawn percents in order again, each temperature keeping its place; they are nearly so. */
static void sort_percents(struct bc_point *points, const size_t *at, size_t n)
{
	for (size_t i = 1; i < n; i++) {
		double pct = points[at[i]].recovered_pct;
		size_t k = i;
		for (; k > 0 && points[at[k - 1]].recovered_pct > pct; k--)
			points[at[k]].recovered_pct = points[at[k - 1]].recovered_pct;
		points[at[k]].recovered_pct = pct;
	}
}

static void keep_apart(struct bc_point *points, size_t n)
{
	double before = -LEAST_GAP_PCT;
	for (size_t i = 0; i < n; i++) {
		if (!points[i].used)
			continue;
		points[i].recovered_pct = fmax(points[i].recovered_pct, before + LEAST_GAP_PCT);
		before = points[i].recovered_pct;
	}
}

static void draw_percents(const struct bc_inputs *inputs, struct bc_drawn *drawn, size_t *at)
{
	struct bc_boiloff *boiloff = &drawn->boiloff;
	double sigma = volume_sigma_pct(inputs);
	size_t n = 0;
	for (size_t i = 0; i < boiloff->n; i++) {
		struct bc_point *point = &boiloff->points[i];
		if (!point->used || point->kind != BC_READING_AMOUNT)
			continue;
		point->recovered_pct +=
			sigma * (drawn->volume[i] + drawn->shared[BC_SHARED_VOLUME]);
		point->recovered_pct = fmin(fmax(point->recovered_pct, LEAST_GAP_PCT), 100.0);
		at[n++] = i;
	}
	sort_percents(boiloff->points, at, n);
	boiloff->first_pct = boiloff->points[at[0]].recovered_pct;
	boiloff->last_pct = boiloff->points[at[n - 1]].recovered_pct;
	double end = 100.0 - boiloff->residue_pct - boiloff->loss_pct;
	boiloff->end_pct = fmax(end, boiloff->last_pct + LEAST_GAP_PCT);
	for (size_t i = 0; i < boiloff->n; i++)
		if (boiloff->points[i].kind == BC_READING_FBP)
			boiloff->points[i].recovered_pct = boiloff->end_pct;
	keep_apart(boiloff->points, boiloff->n);
}

/* ---- the curve */

static enum bc_status build_curve(struct bc_drawn *drawn)
{
	struct bc_boiloff *boiloff = &drawn->boiloff;
	bc_curve_free(drawn->curve);
	drawn->curve = NULL;
	enum bc_status status = bc_boiloff_curve(boiloff, &drawn->curve);
	drawn->reader.curve = drawn->curve;
	if (bc_failed(status))
		return status;
	for (size_t i = 0; i < boiloff->n; i++) {
		struct bc_point *point = &boiloff->points[i];
		if (point->used)
			point->corrected_c = bc_curve_temp_c(drawn->curve, point->recovered_pct);
		point->evaporated_pct = fmin(point->recovered_pct + boiloff->loss_pct, 100.0);
		if (point->used && point->kind == BC_READING_IBP)
			boiloff->ibp_c = point->corrected_c;
		if (point->used && point->kind == BC_READING_FBP)
			boiloff->fbp_c = point->corrected_c;
	}
	return BC_OK;
}

enum bc_status bc_drawn_make(const struct bc_inputs *inputs, struct bc_drawn *drawn)
{
	struct common common = draw_common(inputs, drawn->shared);
	size_t *at = bc_alloc_array(inputs->n, sizeof *at);
	if (!at)
		return BC_NO_MEMORY;
	memcpy(drawn->boiloff.points, inputs->boiloff->points,
		inputs->n * sizeof *drawn->boiloff.points);
	for (size_t i = 0; i < inputs->n; i++)
		drawn->boiloff.points[i].corrected_c = drawn_temp_c(inputs, drawn, &common, i);
	draw_rest(inputs, drawn);
	draw_percents(inputs, drawn, at);
	bc_free(at);
	return build_curve(drawn);
}

/* ---- reading it */

/* Beyond the readings: how far the drawn fit stands above the central one at the edge, how much
 * steeper it goes on. */
struct beyond {
	double edge_c;
	double move_c;
	double steeper;
	double drawn_edge_c;
};

static struct beyond beyond_of(
	const struct bc_inputs *inputs, const struct bc_drawn *drawn, bool back)
{
	double pct = back ? bc_curve_last_pct(drawn->curve) : bc_curve_first_pct(drawn->curve);
	double way = drawn->shared[back ? BC_SHARED_BACK_WAY : BC_SHARED_FRONT_WAY];
	double fit = drawn->shared[back ? BC_SHARED_BACK_FIT : BC_SHARED_FRONT_FIT];
	struct beyond beyond = {
		.edge_c = back ? inputs->last_c : inputs->first_c,
		.drawn_edge_c = bc_curve_temp_c(drawn->curve, pct),
		.steeper = fmax(1.0 + 0.5 * way / BC_Z95, 0.05),
	};
	beyond.move_c = beyond.drawn_edge_c - beyond.edge_c + fit * 2.0 * inputs->rms_c / BC_Z95;
	return beyond;
}

double bc_drawn_temp_c(
	const struct bc_inputs *inputs, const struct bc_drawn *drawn, double recovered_pct)
{
	double first = bc_curve_first_pct(drawn->curve);
	double last = bc_curve_last_pct(drawn->curve);
	if (recovered_pct >= first && recovered_pct <= last)
		return bc_curve_temp_c(drawn->curve, recovered_pct);
	bool back = recovered_pct > last;
	struct beyond beyond = beyond_of(inputs, drawn, back);
	/* nothing comes over hotter than the last of it */
	if (back && isfinite(drawn->boiloff.fbp_c))
		return beyond.drawn_edge_c;
	/* a read point that the draw has moved past its percent: on along the curve */
	if (recovered_pct >= inputs->first_pct && recovered_pct <= inputs->last_pct)
		return beyond.drawn_edge_c +
		       bc_curve_slope_c_per_pct(drawn->curve, back ? last : first) *
			       (recovered_pct - (back ? last : first));
	double temp_c = bc_reader_beyond_c(inputs->reader, recovered_pct);
	if (!isfinite(temp_c))
		return NAN;
	temp_c = back ? fmax(temp_c, beyond.edge_c) : fmin(temp_c, beyond.edge_c);
	temp_c = beyond.edge_c + beyond.move_c + beyond.steeper * (temp_c - beyond.edge_c);
	return back ? fmax(temp_c, beyond.drawn_edge_c) : fmin(temp_c, beyond.drawn_edge_c);
}

double bc_drawn_pct(
	const struct bc_inputs *inputs, const struct bc_drawn *drawn, double corrected_c)
{
	double first = bc_curve_first_pct(drawn->curve);
	double last = bc_curve_last_pct(drawn->curve);
	bool back = corrected_c > bc_curve_temp_c(drawn->curve, last);
	bool front = corrected_c < bc_curve_temp_c(drawn->curve, first);
	if (!back && !front)
		return bc_curve_pct(drawn->curve, corrected_c);
	if (front && inputs->first_pct <= 0.0)
		return 0.0;
	double end = drawn->boiloff.end_pct;
	if (back && isfinite(drawn->boiloff.fbp_c))
		return end;
	struct beyond beyond = beyond_of(inputs, drawn, back);
	double temp_c =
		beyond.edge_c + (corrected_c - beyond.edge_c - beyond.move_c) / beyond.steeper;
	double pct = bc_reader_pct(inputs->reader, temp_c);
	if (isnan(pct))
		return NAN;
	return back ? fmin(fmax(pct, last), fmax(end, last)) : fmin(fmax(pct, 0.0), first);
}
