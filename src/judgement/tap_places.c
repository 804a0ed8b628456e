/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether a request can be, and where its cuts lie in the run. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "judgement/tap_job.h"

/* ---- the request */

/* Beyond these a figure is a slip: a column's hold-up, a water pump, a pot that glows; judgement.
 */
#define CARRY_MAX_PCT 20.0
#define VACUUM_MIN_KPA 0.5
#define VACUUM_MAX_KPA 110.0
#define POT_MIN_C 100.0
#define POT_MAX_C 450.0
#define MARGIN_MAX_C 60.0

/* NaN passes where a figure may be missing. */
static bool outside(double value, double low, double high)
{
	return !isnan(value) && !(value >= low && value <= high);
}

static bool column_wrong(const struct bc_column *column)
{
	if (!isnan(column->effective_plates))
		return !(column->effective_plates > 0.0 && column->effective_plates <= 60.0);
	return !(column->stages >= 1.0 && column->stages <= 60.0) ||
	       column->stages != floor(column->stages) ||
	       (column->stages > 1.0 && !(column->reflux >= 0.0));
}

static bool cut_wrong(const struct bc_tap_request *request, size_t i)
{
	const struct bc_tap_cut *cut = &request->cuts[i];
	bool last = i + 1 == request->n_cuts;

	switch (cut->kind) {
	case BC_TAP_AT_HEAD:
		return !(cut->value > 0.0 && cut->value < 500.0);
	case BC_TAP_AT_VOLUME:
		return !(cut->value > 0.0 && cut->value <= 100.0 * BC_RUN_STOP_MAX);
	case BC_TAP_AT_MASS:
		return !(cut->value > 0.0 && (last ? cut->value <= 100.0 : cut->value < 100.0));
	}
	return true;
}

static bool standard_known(const struct bc_limits *limits, const char *standard)
{
	for (size_t i = 0; i < limits->n; i++)
		if (limits->items[i].in_force && strcmp(limits->items[i].standard, standard) == 0)
			return true;
	return false;
}

static const char *wrong_with(const struct bc_tap_request *request, const struct bc_limits *limits)
{
	const struct bc_still *still = &request->still;

	if (request->standard && !standard_known(limits, request->standard))
		return "no such standard";
	if (column_wrong(&still->column))
		return "no such still: plates are a whole number, 1 to 60, reflux 0 or more";
	if (!(still->carry_pct >= 0.0 && still->carry_pct <= CARRY_MAX_PCT))
		return "carry-over must be 0 to 20 % of the charge";
	if (!(request->charge_ml > 0.0) || !isfinite(request->charge_ml))
		return "the charge must be positive";
	if (outside(request->heater_w, 1.0, 1e6) || outside(request->room_m3, 0.1, 1e6))
		return "heater and room must be positive";
	if (outside(request->vacuum_kpa, VACUUM_MIN_KPA, VACUUM_MAX_KPA))
		return "the pressure must be 0.5 to 110 kPa, absolute";
	if (outside(request->pot_limit_c, POT_MIN_C, POT_MAX_C))
		return "the pot limit must be 100 to 450 degC";
	if (outside(request->margin_c, 0.0, MARGIN_MAX_C))
		return "the margin must be 0 to 60 degC";
	if (request->n_cuts > BC_TAP_CUTS_MAX)
		return "too many cuts: 8 at most";
	for (size_t i = 0; i < request->n_cuts; i++)
		if (cut_wrong(request, i))
			return "a cut is outside its range; only the last may be 100%m";
	return NULL;
}

enum bc_status bc_tap_check(struct bc_tapping *tapping, const struct bc_limits *limits)
{
	const char *wrong = wrong_with(&tapping->request, limits);

	if (!wrong)
		return BC_OK;
	snprintf(tapping->refused, sizeof tapping->refused, "%s", wrong);
	return BC_BAD_DOMAIN;
}

/* ---- places */

/* Where the head first stands at head_c, corrected; 0 where it begins above, NaN where it never
 * does. */
static double frac_at_head(const struct bc_tap_job *job, double head_c)
{
	const double step = 1.0 / 64.0;
	double end = job->rerun.run->over_frac[job->rerun.run->n - 1];
	double low = 0.0;
	double high = 0.0;

	while (bc_rerun_head_c(&job->rerun, high) < head_c) {
		if (high >= end)
			return NAN;
		low = high;
		high = fmin(high + step, end);
	}
	while (high - low > 1e-6) {
		double middle = 0.5 * (low + high);
		if (bc_rerun_head_c(&job->rerun, middle) < head_c)
			low = middle;
		else
			high = middle;
	}
	return high > 1e-6 ? high : 0.0;
}

static double frac_of_cut(const struct bc_tap_job *job, const struct bc_tap_cut *cut)
{
	switch (cut->kind) {
	case BC_TAP_AT_HEAD:
		return frac_at_head(job, cut->value);
	case BC_TAP_AT_VOLUME:
		return cut->value / 100.0;
	case BC_TAP_AT_MASS:
		return cut->value >= 100.0
			       ? 1.0
			       : bc_run_frac_at_mass(job->rerun.run, cut->value / 100.0);
	}
	return NAN;
}

static enum bc_status refuse(struct bc_tap_job *job, size_t cut, const char *why)
{
	snprintf(job->tapping->refused, sizeof job->tapping->refused, "cut %zu %s", cut + 1, why);
	return BC_BAD_DOMAIN;
}

/* The heat goes off at the last stated cut or the pot limit, whichever is later. */
enum bc_status bc_tap_place_cuts(struct bc_tap_job *job)
{
	const struct bc_tap_request *request = &job->tapping->request;
	size_t n = request->n_cuts;

	job->edge[0] = 0.0;
	for (size_t i = 0; i < n; i++) {
		double frac = frac_of_cut(job, &request->cuts[i]);
		if (isnan(frac))
			return refuse(job, i, "lies beyond the end of the run");
		if (frac < job->edge[i] || (frac == job->edge[i] && frac > 0.0))
			return refuse(job, i, "does not lie after the one before it");
		job->edge[i + 1] = frac;
	}
	bool takes_pot = job->edge[n] >= 1.0;
	job->n_names = n + 1;
	job->n_jars = takes_pot ? n : n + 1;
	job->off_frac =
		takes_pot ? job->edge[n - 1] : fmax(job->edge[n], job->rerun.still.ceiling_frac);
	if (!takes_pot)
		job->edge[n + 1] = job->off_frac;
	/* what the lines hold is poured to the rest of the pot */
	job->rerun.still.ceiling_frac = takes_pot ? 1.0 : job->off_frac;
	return BC_OK;
}

/* Customary ranges, D86 basis, as in the table of the boil-off. */
void bc_tap_place_split(struct bc_tap_job *job)
{
	static const double cut_c[] = {180.0, 240.0, 350.0};
	enum { CUTS = sizeof cut_c / sizeof cut_c[0] };
	double ceiling = job->rerun.still.ceiling_frac;

	job->edge[0] = 0.0;
	for (size_t i = 0; i < CUTS; i++) {
		double frac = frac_at_head(job, cut_c[i]);
		job->edge[i + 1] = isnan(frac) ? ceiling : fmin(frac, ceiling);
	}
	job->edge[CUTS + 1] = ceiling;
	job->n_jars = job->n_names = CUTS + 1;
	job->off_frac = ceiling;
}

/* The standard to speak of when none is met: the one asked for, or the nearest of the grade. */
static const char *nearest_standard(const struct bc_tap_job *job)
{
	const struct bc_tapping *tapping = job->tapping;
	const struct bc_grade *nearest =
		bc_grade_nearest(&tapping->feed.grades, tapping->want, tapping->request.standard);

	return nearest ? nearest->standard : tapping->request.standard;
}

/* No still mends what a finding forbids, and slices of a wet oil are not its own. */
void bc_tap_forbid(struct bc_tap_job *job)
{
	struct bc_tapping *tapping = job->tapping;
	const struct bc_judgement *feed = &tapping->feed;
	const struct bc_evidence evidence = {
		.oil = &feed->oil, .boiloff = &feed->boiloff, .sample = tapping->sample};
	const struct bc_bearing bearing = {
		.evidence = &evidence, .findings = &feed->findings, .cut_exists = true};
	size_t before = tapping->binding.n;

	tapping->forbidden = !bc_bearing_may_cut(&bearing);
	if (!tapping->forbidden)
		return;
	for (size_t i = 0; i < feed->findings.n; i++)
		if (feed->findings.items[i].forbids_rerun)
			bc_strings_add(&tapping->binding, "not to be distilled: %s",
				feed->findings.items[i].message);
	if (feed->oil.wet)
		bc_strings_add(&tapping->binding,
			"water in the oil: dry it, boil it off again, then plan");
	if (tapping->binding.n == before)
		bc_strings_add(&tapping->binding,
			"the measured flash contradicts the boil-off: settle that first");
}

/* What no boil-off can show no still makes sure of. */
static bool never_met(struct bc_tap_job *job, bool found)
{
	struct bc_tapping *tapping = job->tapping;

	if (tapping->want != BC_GRADE_GASOLINE && !(found && job->cut->grade == BC_GRADE_GASOLINE))
		return false;
	bc_strings_add(&tapping->binding,
		"gasoline-range is never called met: octane, dienes, gum and benzene are unknown; a "
		"light cut like a solvent, never a motor fuel");
	return true;
}

enum bc_status bc_tap_place_best(struct bc_tap_job *job)
{
	struct bc_tapping *tapping = job->tapping;
	enum bc_status status = bc_tap_best(&job->rerun.still, job->options->limits, tapping->want,
		tapping->request.standard, job->cut);
	bool found = !bc_failed(status);

	if (!found && status != BC_NOT_FOUND)
		return status;
	job->n_jars = 0;
	job->off_frac = 0.0;
	tapping->standard = found ? job->cut->standard : nearest_standard(job);
	job->forbidden = tapping->forbidden || never_met(job, found);
	tapping->feasible = !job->forbidden && found;
	if (tapping->standard && tapping->binding.n == 0)
		bc_tap_binding(&job->rerun.still, job->options->limits, tapping->standard,
			found ? job->cut : NULL, job->rerun.end, &tapping->binding);
	if (!found)
		return BC_OK;
	job->edge[0] = 0.0;
	job->edge[1] = job->cut->light_until_frac;
	job->edge[2] = job->cut->product_until_frac;
	job->edge[3] = job->rerun.still.ceiling_frac;
	job->n_jars = job->n_names = 3;
	job->off_frac = job->rerun.still.ceiling_frac;
	return BC_OK;
}
