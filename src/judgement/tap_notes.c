/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Around the jars: heat and time, the run for a chart, choices, and what is said in words. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "judgement/tap_job.h"
#include "still/heat.h"

#define START_C 20.0
#define WATER_RISE_C 10.0

/* ---- heat and time */

static bool is_product(const struct bc_jar *jar)
{
	return !jar->empty && strncmp(jar->name, "product", strlen("product")) == 0;
}

/* Litres of product and what they give when burnt [MJ]. */
static void add_product(const struct bc_tapping *tapping, double *litres, double *heat_mj)
{
	*litres = 0.0;
	*heat_mj = 0.0;
	for (size_t i = 0; i < tapping->n_jars; i++) {
		const struct bc_jar *jar = &tapping->jars[i];
		if (!is_product(jar))
			continue;
		*litres += jar->volume_ml / 1000.0;
		*heat_mj += jar->mass_kg * jar->oil.property[BC_NET_HEAT].value;
	}
}

static void fill_times(const struct bc_tap_job *job, const struct bc_run_heat *run)
{
	const struct bc_tap_request *request = &job->tapping->request;
	struct bc_tap_heat *heat = &job->tapping->heat;
	const double s_per_h = 3600.0;
	double mw = request->heater_w * 1e-6;

	heat->time_h = heat->total_mj / mw / s_per_h;
	heat->warm_up_h = run->warm_up_mj / mw / s_per_h;
	heat->draw_ml_min =
		job->off_frac * request->charge_ml / ((heat->time_h - heat->warm_up_h) * 60.0);
	heat->water_l_min = bc_cooling_water_l_min(request->heater_w, WATER_RISE_C);
	heat->lower_limit_s = bc_vapour_fills_s(request->heater_w, request->room_m3, 1.0);
	heat->quarter_s = bc_vapour_fills_s(request->heater_w, request->room_m3, 0.25);
}

void bc_tap_fill_heat(struct bc_tap_job *job)
{
	struct bc_tap_heat *heat = &job->tapping->heat;
	struct bc_run_heat run;
	double litres;
	double own_mj;

	*heat = (struct bc_tap_heat){NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN};
	if (!(job->off_frac > 0.0) || bc_failed(bc_run_heat_mj(job->rerun.run, job->off_frac,
					      job->tapping->request.charge_ml, START_C, &run)))
		return;
	heat->sensible_mj = run.warm_up_mj + run.residue_mj;
	heat->latent_mj = run.latent_mj;
	if (isfinite(run.reflux_mj)) {
		heat->reflux_mj = run.reflux_mj;
		heat->total_mj = heat->sensible_mj + heat->latent_mj + heat->reflux_mj;
	}
	if (isfinite(job->tapping->request.heater_w))
		fill_times(job, &run);
	add_product(job->tapping, &litres, &own_mj);
	if (litres > 0.0) {
		heat->heat_mj_per_l_product = heat->total_mj / litres;
		heat->own_mj_per_l = own_mj / litres;
	}
}

/* ---- the run for a chart */

void bc_tap_fill_nodes(struct bc_tap_job *job)
{
	struct bc_tapping *tapping = job->tapping;
	double end = job->rerun.run->over_frac[job->rerun.run->n - 1];

	tapping->n_nodes = 0;
	for (size_t i = 0; i < BC_TAP_NODES_MAX; i++) {
		double frac = fmin((double)i / (BC_TAP_NODES_MAX - 1), end);
		tapping->nodes[tapping->n_nodes++] = (struct bc_tap_node){100.0 * frac,
			bc_rerun_head_c(&job->rerun, frac), bc_rerun_reading_c(&job->rerun, frac),
			bc_run_at(job->rerun.run, frac).pot_c};
	}
}

/* ---- choices */

void bc_tap_fill_choices(struct bc_tap_job *job)
{
	/* limits of fuels, and steps between them */
	static const double target_c[] = {38.0, 45.0, 52.0, 55.0, 60.0, 66.0, 75.0};
	struct bc_tapping *tapping = job->tapping;
	struct bc_tap_still still = job->rerun.still;

	if (tapping->request.n_cuts > 0)
		return;
	for (size_t i = 0; i < sizeof target_c / sizeof target_c[0]; i++) {
		if (bc_failed(bc_tap_at_flash(&still, job->options->limits, tapping->standard,
			    target_c[i], job->cut)))
			continue;
		const struct bc_cut *cut = job->cut;
		bool light = cut->light_until_frac > 0.0;
		double pot_to_c = bc_run_at(job->rerun.run, cut->product_until_frac).pot_c;
		bool claim = bc_tap_no_claim(job, &cut->product, cut->light_until_frac, pot_to_c) ==
			     NULL;
		tapping->choices[tapping->n_choices++] = (struct bc_tap_choice){
			.flash_target_c = target_c[i],
			.light_until_c = light ? bc_rerun_head_c(&job->rerun, cut->light_until_frac)
					       : (double)NAN,
			.product_until_c = bc_rerun_head_c(&job->rerun, cut->product_until_frac),
			.product_pct = cut->product_pct,
			.flash_c = cut->product.property[BC_FLASH].value,
			.flash_low_c = claim ? cut->product.property[BC_FLASH].low : (double)NAN,
			.t95_c = cut->product_points.at[BC_AT_T95].value};
	}
}

/* ---- what would help */

/* The largest product of the grade with another still or pressure, volume %; 0: none. */
static double try_with(struct bc_tap_job *job, const struct bc_column *column)
{
	const struct bc_run_options options = {BC_RUN_STOP_MAX, INFINITY, BC_STEPS_COARSE, 0.0};
	const struct bc_tapping *tapping = job->tapping;
	struct bc_tap_still still = job->rerun.still;

	if (bc_failed(bc_column_run(
		    &tapping->feed.oil.slices, column, &options, job->rerun.work, job->rerun.run)))
		return 0.0;
	double limit = bc_run_frac_at_pot(job->rerun.run, tapping->pot_limit_c);
	double over = bc_rerun_over_frac(&job->rerun);
	still.ceiling_frac = isnan(limit) ? over : fmin(over, limit);
	still.worst_run = NULL; /* of the still as it is */
	if (bc_failed(bc_tap_best(
		    &still, job->options->limits, tapping->want, tapping->standard, job->cut)))
		return 0.0;
	return job->cut->product_pct;
}

/* The same pot with a better front: a few plates and a hard reflux. */
static struct bc_column better_front(const struct bc_column *column)
{
	struct bc_column better = *column;

	if (!isnan(column->effective_plates)) {
		better.effective_plates = column->effective_plates + 2.0;
	} else {
		better.stages = fmax(column->stages, 3.0);
		better.reflux = fmax(5.0, isfinite(column->reflux) ? column->reflux : 5.0);
	}
	return better;
}

static void say_gain(struct bc_strings *advice, const char *what, double pct, double now_pct)
{
	const double worth_pct = 1.0; /* of the charge; less is within the error of all this */

	if (pct <= now_pct + worth_pct)
		return;
	if (now_pct > 0.0)
		bc_strings_add(
			advice, "%s: %.0f %% product instead of %.0f %%.", what, pct, now_pct);
	else
		bc_strings_add(advice, "%s would do it: %.0f %% product.", what, pct);
}

static double product_pct(const struct bc_tapping *tapping)
{
	double sum = 0.0;

	for (size_t i = 0; i < tapping->n_jars; i++)
		if (is_product(&tapping->jars[i]))
			sum += tapping->jars[i].volume_pct;
	return sum;
}

/* Overwrites the run: the last thing that is done with it. */
static void say_what_helps(struct bc_tap_job *job)
{
	const double low_kpa = 10.0;
	struct bc_strings *advice = &job->tapping->advice;
	double now_pct = job->tapping->feasible ? product_pct(job->tapping) : 0.0;
	struct bc_column front = better_front(&job->rerun.column);
	struct bc_column back = job->rerun.column;
	struct bc_column both = front;
	size_t before = advice->n;
	char what[96];

	back.pressure_kpa = both.pressure_kpa = fmin(low_kpa, job->rerun.column.pressure_kpa);
	double front_pct = try_with(job, &front);
	double back_pct = try_with(job, &back);
	if (!isnan(front.effective_plates))
		snprintf(what, sizeof what, "A better column (%g effective plates)",
			front.effective_plates);
	else
		snprintf(what, sizeof what, "More reflux over the front (%g plates + pot, R %g)",
			front.stages - 1.0, front.reflux);
	say_gain(advice, what, front_pct, now_pct);
	say_gain(advice, "Vacuum at the back (10 kPa)", back_pct, now_pct);
	if (advice->n == before && !job->tapping->feasible)
		say_gain(advice, "Reflux at the front and vacuum at the back together",
			try_with(job, &both), now_pct);
	if (advice->n == before && !job->tapping->feasible)
		bc_strings_add(advice, "Neither more reflux at the front nor vacuum at the back "
				       "helps: no cut of this oil meets it.");
}

static void say_worth(struct bc_tapping *tapping)
{
	const double dear = 0.3; /* of its own heat; judgement */
	const struct bc_tap_heat *heat = &tapping->heat;
	double share = heat->heat_mj_per_l_product / heat->own_mj_per_l;

	if (isnan(share))
		return;
	bc_strings_add(&tapping->advice,
		"The heat is %.1f MJ for each litre of product, %.0f %% of the %.1f MJ that it "
		"gives when burnt: %s.",
		heat->heat_mj_per_l_product, 100.0 * share, heat->own_mj_per_l,
		share < dear ? "worth it where the light ends must go"
			     : "dear; burn what you cannot use under the still, or leave it");
}

/* The least flash that a standard asks for, degC; NaN: none. */
static double flash_asked(const struct bc_limits *limits, const char *standard)
{
	for (size_t i = 0; i < limits->n; i++) {
		const struct bc_limit *limit = &limits->items[i];
		if (limit->in_force && strcmp(limit->standard, standard) == 0 &&
			strcmp(limit->property, "flash_point") == 0)
			return limit->min;
	}
	return NAN;
}

/* The largest product is had with the mildest standard, which may not be the one that counts here.
 */
static void say_choice(const struct bc_tap_job *job)
{
	const struct bc_tapping *tapping = job->tapping;
	const struct bc_limits *limits = job->options->limits;
	double most_c = NAN;
	size_t n = 0;
	char others[48] = "";

	if (!tapping->feasible || tapping->request.standard || !tapping->standard)
		return;
	for (size_t i = 0; i < limits->n; i++) {
		const struct bc_limit *limit = &limits->items[i];
		if (!bc_limits_first_of_standard(limits, i) ||
			!bc_standard_asked_for(limit->grade, limit->standard, tapping->want, NULL))
			continue;
		n++;
		most_c = fmax(most_c, flash_asked(limits, limit->standard));
	}
	double own_c = flash_asked(limits, tapping->standard);
	if (n < 2 || isnan(own_c))
		return;
	if (most_c > own_c)
		snprintf(others, sizeof others, " (others up to %g)", most_c);
	bc_strings_add(&job->tapping->advice,
		"%s was chosen among %zu standards of the grade because its product is the "
		"largest; it asks for a flash of at least %g degC%s. --standard asks for another.",
		tapping->standard, n, own_c, others);
}

void bc_tap_advise(struct bc_tap_job *job)
{
	struct bc_tapping *tapping = job->tapping;

	if (isinf(job->rerun.column.reflux) && job->rerun.column.stages > 1.0 &&
		isnan(job->rerun.column.effective_plates))
		bc_strings_add(&tapping->advice,
			"At total reflux nothing is drawn: the jars are a bound, and no heat or "
			"time can be said.");
	say_choice(job);
	say_worth(tapping);
	if (tapping->has_want && tapping->request.n_cuts == 0 && !tapping->request.split &&
		!job->forbidden)
		say_what_helps(job);
}

/* ---- assumed and cautions */

static void copy(const struct bc_strings *from, struct bc_strings *to)
{
	for (size_t i = 0; i < from->n; i++)
		bc_strings_add_once(to, "%s", from->items[i]);
}

static void assume_still(const struct bc_tap_job *job, struct bc_strings *assumed)
{
	const struct bc_tap_request *request = &job->tapping->request;
	const struct bc_still *still = &request->still;

	bc_rerun_assume(still, assumed);
	if (still->carry_pct > 0.0)
		bc_strings_add(assumed,
			"head and lines hold %g %% of the charge (%g to %g), well stirred, which "
			"lands in the next jar",
			still->carry_pct, bc_rerun_carry_low_pct(still),
			100.0 * job->rerun.still.carry_high_frac);
	if (isnan(request->pot_limit_c))
		bc_strings_add(assumed, "pot limit not given: %g degC", job->tapping->pot_limit_c);
	double plates = job->rerun.column.effective_plates;
	if (isfinite(plates) && plates > 1.0)
		bc_strings_add(assumed,
			"reflux not stated: heat and time are those of a reflux of %.2g, about what "
			"stills worth %.3g plates have, to a factor of 2",
			bc_reflux_of_plates(plates), plates);
	bc_strings_add(assumed,
		"the still is simulated: no hold-up in the column, no azeotropes, no water");
}

static void caution_front(const struct bc_tap_job *job, struct bc_strings *cautions)
{
	enum bc_history history = job->tapping->sample->history;

	if (job->tapping->feed.oil.flash_claim ||
		(history != BC_HISTORY_RETORT && history != BC_HISTORY_UNKNOWN))
		return;
	bc_strings_add(cautions,
		"Gas is dissolved in oil from a retort. The light jar takes it along only when "
		"the front is really boiled off: heat slowly, vent outdoors, throw no light jar "
		"together with the product, and measure the product's flash.");
}

static void caution_pot(const struct bc_tap_job *job, struct bc_strings *cautions)
{
	const struct bc_tapping *tapping = job->tapping;

	for (size_t i = 0; i < tapping->n_jars; i++) {
		const struct bc_jar *jar = &tapping->jars[i];
		if (!jar->empty && jar->pot_to_c > job->claim_limit_c + BC_TAP_POT_SLACK_C)
			bc_strings_add(cautions,
				"The pot stands at %.0f degC when jar '%s' ends, above %g degC: "
				"it cracks the oil, and gas goes into the jar. Heat off earlier, "
				"or use vacuum.",
				jar->pot_to_c, jar->name, job->claim_limit_c);
	}
	if (bc_run_at(job->rerun.run, 0.0).pot_c > tapping->pot_limit_c)
		bc_strings_add(cautions, "The pot boils above its limit from the first drop.");
}

enum bc_status bc_tap_note(struct bc_tap_job *job)
{
	struct bc_tapping *tapping = job->tapping;
	const struct bc_judgement *feed = &tapping->feed;

	copy(&feed->assumed, &tapping->assumed);
	assume_still(job, &tapping->assumed);
	caution_front(job, &tapping->cautions);
	caution_pot(job, &tapping->cautions);
	if (feed->oil.wet)
		bc_strings_add(&tapping->cautions,
			"Water is in the oil: dry it first. Water bumps in a hot pot, and the "
			"simulation knows none.");
	return bc_cautions_collect(tapping->sample, &feed->oil, &feed->hazards, &feed->findings,
		true, &tapping->cautions);
}
