/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Propagation of distributions through one judgement: the draws, and the bounds they give. */
#include "judgement/spread.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/random.h"
#include "judgement/inverted.h"
#include "judgement/judgement.h"
#include "judgement/spread_oil.h"
#include "judgement/spread_table.h"
#include "still/search.h"

/* Readings times draws stay below it. */
#define WORK_MAX 2000000
/* Below it chance alone may raise a bound: about 12 draws lie beyond each. */
#define DRAWS_MANY 500

/* Room for one judgement's draws. */
struct work {
	const struct bc_judgement *judgement;
	struct bc_inputs inputs;
	struct bc_drawn drawn;
	struct bc_oil_drawer drawer;
	struct bc_points points;     /* of the draw */
	struct bc_points flask;      /* what limits are held against, where that is another curve */
	struct bc_points flask_base; /* of an inverted oil: the flask by the correlation */
	double inversion_pct[BC_INVERSION_READINGS_MAX];
	struct bc_oil_drawn made;
	struct bc_oil oil; /* as evidence: properties alone */
	double share_pct[BC_SHARES];
};

static struct bc_estimate bare(double value)
{
	return (struct bc_estimate){value, value, value, isnan(value) ? BC_ABSENT : BC_ESTIMATED};
}

/* ---- one draw */

static void read_points(struct work *work)
{
	const struct bc_inputs *inputs = &work->inputs;
	const struct bc_drawn *drawn = &work->drawn;
	const struct bc_boiloff *boiloff = &drawn->boiloff;
	struct bc_points *points = &work->points;
	for (size_t i = 0; i < BC_POINTS; i++) {
		double temp_c = i == BC_AT_IBP   ? boiloff->ibp_c
				: i == BC_AT_FBP ? boiloff->fbp_c
						 : bc_drawn_temp_c(inputs, drawn, bc_point_pct[i]);
		points->at[i] = bare(temp_c);
	}
	for (size_t i = 0; i < BC_EVAPORATED_POINTS; i++)
		points->evaporated_point[i] =
			bare(bc_boiloff_temp_at_evaporated_c(boiloff, bc_evaporated_point_pct[i]));
	for (size_t i = 0; i < BC_RECOVERED_AT; i++)
		points->recovered_at[i] = bare(bc_drawn_pct(inputs, drawn, bc_recovered_at_c[i]));
	for (size_t i = 0; i < BC_EVAPORATED_AT; i++) {
		double temp_c = bc_evaporated_at_c[i];
		double pct = bc_boiloff_linear_pct(boiloff, temp_c);
		if (isnan(pct))
			pct = bc_drawn_pct(inputs, drawn, temp_c);
		if (pct > 0.0 || temp_c >= boiloff->ibp_c)
			pct += boiloff->loss_pct;
		points->evaporated_at[i] = bare(pct);
	}
}

static void read_shares(struct work *work)
{
	const struct bc_drawn *drawn = &work->drawn;
	const struct bc_boiloff *boiloff = &drawn->boiloff;
	double over_pct[BC_SHARE_CUTS];
	double last_pct = bc_curve_last_pct(drawn->curve);
	double last_c = bc_curve_temp_c(drawn->curve, last_pct);
	for (size_t i = 0; i < BC_SHARE_CUTS; i++)
		over_pct[i] = bc_share_cut_c[i] > last_c
				      ? last_pct
				      : bc_drawn_pct(&work->inputs, drawn, bc_share_cut_c[i]);
	bc_shares_part(over_pct, bc_curve_first_pct(drawn->curve), boiloff->residue_pct,
		boiloff->loss_pct, work->share_pct);
}

/* The simulated flask of an inverted oil is moved by what the correlation says of the draw: a
 * simulation for each would take a second. */
static void move_flask(
	const struct bc_points *simulated, const struct bc_points *base, struct bc_points *drawn)
{
	for (size_t i = 0; i < BC_POINTS; i++) {
		double moved = drawn->at[i].value - base->at[i].value;
		drawn->at[i] = bare(simulated->at[i].value + moved);
	}
}

/* What the limits are held against in this draw. */
static struct bc_evidence evidence_of(struct work *work)
{
	const struct bc_judgement *judgement = work->judgement;
	struct bc_evidence evidence = {.points = &work->points,
		.reader = &work->drawn.reader,
		.oil = &work->oil,
		.boiloff = &work->drawn.boiloff,
		.sample = judgement->sample};
	for (size_t i = 0; i < BC_PROPERTIES; i++) {
		work->oil.property[i] = bare(work->made.property[i]);
		work->oil.property[i].how = judgement->oil.property[i].how;
	}
	if (!judgement->conditions.tbp && !work->drawer.inversion)
		return evidence;
	evidence.reader = NULL;
	evidence.points = &work->flask;
	if (bc_failed(bc_flask_points(&work->made.slices, &work->flask)))
		evidence.points = NULL;
	else if (work->drawer.inversion)
		move_flask(&judgement->flask_points, &work->flask_base, &work->flask);
	return evidence;
}

static void write_down(struct work *work, struct bc_draws *table, size_t draw)
{
	const struct bc_points *points = &work->points;
	for (size_t i = 0; i < BC_POINTS; i++)
		bc_draws_set(table, BC_FIGURE_POINT + i, draw, points->at[i].value);
	for (size_t i = 0; i < BC_EVAPORATED_POINTS; i++)
		bc_draws_set(table, BC_FIGURE_EVAPORATED_POINT + i, draw,
			points->evaporated_point[i].value);
	for (size_t i = 0; i < BC_EVAPORATED_AT; i++)
		bc_draws_set(
			table, BC_FIGURE_EVAPORATED_AT + i, draw, points->evaporated_at[i].value);
	for (size_t i = 0; i < BC_RECOVERED_AT; i++)
		bc_draws_set(
			table, BC_FIGURE_RECOVERED_AT + i, draw, points->recovered_at[i].value);
	for (size_t i = 0; i < BC_SHARES; i++)
		bc_draws_set(table, BC_FIGURE_SHARE + i, draw, work->share_pct[i]);
	for (size_t i = 0; i < BC_PROPERTIES; i++)
		bc_draws_set(table, BC_FIGURE_PROPERTY + i, draw, work->made.property[i]);
	for (size_t i = 0; i < BC_BAND_POINTS; i++)
		bc_draws_set(table, BC_FIGURE_BAND + i, draw,
			bc_drawn_temp_c(
				&work->inputs, &work->drawn, work->judgement->spread->band_pct[i]));
}

static enum bc_status draw_once(struct work *work, struct bc_draws *table, size_t draw)
{
	enum bc_status status = bc_drawn_make(&work->inputs, &work->drawn);
	if (status == BC_NO_MEMORY)
		return status;
	if (bc_failed(status)) {
		bc_draws_lose(table, draw);
		return BC_OK;
	}
	read_points(work);
	read_shares(work);
	bc_oil_draw(&work->drawer, &work->inputs, &work->drawn, &work->points, &work->made);
	write_down(work, table, draw);
	struct bc_evidence evidence = evidence_of(work);
	bc_draws_hold(table, draw, &evidence);
	return BC_OK;
}

/* ---- what the draws say */

static void take_bounds(struct bc_draws *table, size_t figure, struct bc_estimate *estimate)
{
	double low;
	double high;
	bc_draws_bounds(table, figure, &low, &high);
	if (!bc_estimate_present(estimate) || isnan(low))
		return;
	estimate->low = fmin(low, estimate->value);
	estimate->high = fmax(high, estimate->value);
}

/* A percent beyond the readings may lie anywhere up to them or to the end, whatever a fit says. */
static void take_pct_bounds(struct bc_draws *table, size_t figure, struct bc_estimate *estimate)
{
	struct bc_estimate before = *estimate;
	take_bounds(table, figure, estimate);
	if (before.how == BC_MEASURED)
		return;
	estimate->low = fmin(estimate->low, before.low);
	estimate->high = fmax(estimate->high, before.high);
}

static void take_points(struct bc_draws *table, struct bc_judgement *judgement)
{
	struct bc_points *points = &judgement->points;
	double loss_pct = judgement->boiloff.loss_pct;
	for (size_t i = 0; i < BC_POINTS; i++)
		take_bounds(table, BC_FIGURE_POINT + i, &points->at[i]);
	for (size_t i = 0; i < BC_EVAPORATED_POINTS; i++)
		take_bounds(table, BC_FIGURE_EVAPORATED_POINT + i, &points->evaporated_point[i]);
	for (size_t i = 0; i < BC_EVAPORATED_AT; i++) {
		struct bc_estimate *at = &points->evaporated_at[i];
		take_pct_bounds(table, BC_FIGURE_EVAPORATED_AT + i, at);
		/* below the IBP part of the loss may have gone already */
		if (at->value < loss_pct)
			at->high = fmax(at->high, loss_pct);
	}
	for (size_t i = 0; i < BC_RECOVERED_AT; i++)
		take_pct_bounds(table, BC_FIGURE_RECOVERED_AT + i, &points->recovered_at[i]);
}

/* A low bound that nobody claims stays so; the flash's falls to the T10 route where that is lower.
 */
static void take_properties(
	struct bc_draws *table, const struct bc_oil_drawer *drawer, bool few, struct bc_oil *oil)
{
	for (size_t i = 0; i < BC_PROPERTIES; i++) {
		bool direct = i == BC_DENSITY15 && drawer->density_measured;
		if (drawer->held[i] || direct || i == BC_FLASH)
			continue;
		struct bc_estimate before = oil->property[i];
		take_bounds(table, BC_FIGURE_PROPERTY + i, &oil->property[i]);
		if (few && i == BC_FLASH_VAPOUR && before.low < oil->property[i].low)
			oil->property[i].low = before.low;
		/* the still as a model is not drawn */
		if (drawer->inversion && before.low <= before.value) {
			oil->property[i].low = fmin(oil->property[i].low, before.low);
			oil->property[i].high = fmax(oil->property[i].high, before.high);
		}
	}
	struct bc_estimate *flash = &oil->property[BC_FLASH];
	const struct bc_estimate *vapour = &oil->property[BC_FLASH_VAPOUR];
	if (drawer->held[BC_FLASH] || !bc_estimate_present(flash))
		return;
	flash->high = vapour->high;
	if (isnan(flash->low))
		return;
	double fall = flash->low;
	flash->low = fmin(vapour->low, oil->property[BC_FLASH_T10].value);
	if (isnan(flash->low))
		flash->low = vapour->low;
	if (few)
		flash->low = fmin(flash->low, fall);
	oil->flash_low_at_site_c += flash->low - fall;
}

static void take_all(struct work *work, struct bc_draws *table, struct bc_judgement *judgement)
{
	struct bc_spread *spread = judgement->spread;
	take_points(table, judgement);
	for (size_t i = 0; i < BC_SHARES; i++)
		take_bounds(table, BC_FIGURE_SHARE + i, &judgement->shares.pct[i]);
	take_properties(table, &work->drawer, spread->draws < DRAWS_MANY, &judgement->oil);
	for (size_t i = 0; i < BC_BAND_POINTS; i++) {
		struct bc_estimate at =
			bare(bc_curve_temp_c(judgement->curve, spread->band_pct[i]));
		take_bounds(table, BC_FIGURE_BAND + i, &at);
		spread->band_low_c[i] = at.low;
		spread->band_high_c[i] = at.high;
	}
}

/* ---- the whole */

static size_t draws_for(size_t wanted, size_t readings)
{
	size_t most = WORK_MAX / (readings > 0 ? readings : 1);
	if (most < BC_DRAWS_MIN)
		most = BC_DRAWS_MIN;
	return wanted < most ? wanted : most;
}

/* What own cups taught keeps its bounds, and what a poorer still would mean; slices of an inverted
 * boil-off come from the inversion. */
static enum bc_status hold_and_invert(const struct bc_judgement *judgement, struct work *work)
{
	if (judgement->learned.pairs > 0 || judgement->flash_held)
		work->drawer.held[BC_FLASH] = true;
	if (!judgement->by_inversion)
		return BC_OK;
	work->drawer.inversion = judgement->inversion;
	work->drawer.inversion_pct = work->inversion_pct;
	bc_inverted_pcts(judgement, work->inversion_pct);
	return bc_flask_points(&judgement->oil.slices, &work->flask_base);
}

static enum bc_status begin(
	struct bc_judgement *judgement, const struct bc_judge_options *options, struct work *work)
{
	struct bc_spread *spread = bc_alloc(sizeof *spread);
	if (!spread)
		return BC_NO_MEMORY;
	judgement->spread = spread;
	spread->draws = draws_for(options->draws, judgement->boiloff.n);
	spread->seed = options->seed;
	double first = bc_curve_first_pct(judgement->curve);
	double last = bc_curve_last_pct(judgement->curve);
	for (size_t i = 0; i < BC_BAND_POINTS; i++)
		spread->band_pct[i] = first + (last - first) * (double)i / (BC_BAND_POINTS - 1);
	spread->band_pct[BC_BAND_POINTS - 1] = last;

	work->judgement = judgement;
	work->oil.flash_claim = judgement->oil.flash_claim;
	enum bc_status status = bc_inputs_new(&judgement->reader, &work->inputs);
	if (!bc_failed(status))
		status = bc_drawn_new(&work->inputs, &work->drawn);
	if (!bc_failed(status))
		status = bc_oil_drawer_new(judgement->sample, &judgement->reader,
			&judgement->points, &judgement->oil,
			judgement->by_inversion ? &judgement->inverted_input : NULL, &work->drawer);
	if (!bc_failed(status))
		status = hold_and_invert(judgement, work);
	if (!bc_failed(status))
		status = bc_draws_new(spread->draws, options->limits, &spread->table);
	return status;
}

enum bc_status bc_spread_draw(
	struct bc_judgement *judgement, const struct bc_judge_options *options)
{
	if (options->draws == 0)
		return BC_OK;
	struct work *work = bc_alloc(sizeof *work);
	struct bc_random *random = bc_random_new(options->seed);
	enum bc_status status = work && random ? BC_OK : BC_NO_MEMORY;
	if (!bc_failed(status))
		status = begin(judgement, options, work);
	size_t draws = bc_failed(status) ? 0 : judgement->spread->draws;
	double *shared = bc_failed(status) ? NULL : bc_shared_new(random, draws);
	if (!bc_failed(status) && !shared)
		status = BC_NO_MEMORY;
	for (size_t k = 0; !bc_failed(status) && k < draws; k++) {
		bc_drawn_next(random, shared, draws, k, &work->drawn);
		status = draw_once(work, judgement->spread->table, k);
	}
	if (!bc_failed(status))
		take_all(work, judgement->spread->table, judgement);
	if (work) {
		bc_drawn_release(&work->drawn);
		bc_inputs_release(&work->inputs);
	}
	bc_random_free(random);
	bc_free(shared);
	bc_free(work);
	return bc_failed(status) ? status : BC_OK;
}

void bc_spread_free(struct bc_spread *spread)
{
	if (!spread)
		return;
	bc_draws_free(spread->table);
	bc_free(spread);
}
