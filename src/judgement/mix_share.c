/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How much of one oil may go into others before a limit breaks: a scan of shares, then bisection.
 */
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "judgement/mix_job.h"

/* Shares of the scan: fine where a little of a light oil decides. */
static const double grid_frac[] = {0.0, 0.001, 0.002, 0.005, 0.01, 0.015, 0.02, 0.03, 0.04, 0.05,
	0.07, 0.1, 0.13, 0.16, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.55, 0.6, 0.65, 0.7, 0.75,
	0.8, 0.85, 0.9, 0.95, 1.0};
enum { GRID = sizeof grid_frac / sizeof grid_frac[0] };
_Static_assert(GRID <= BC_MIX_NODES_MAX, "a node for every share of the scan");

#define FINEST_FRAC 1e-4 /* 2 mL in 20 L: finer than a jar is measured */
#define HALF_FRAC 0.5    /* shown where every share will do */
#define FEW_READINGS 5   /* fewer carry no firm answer, as in 'judge' */

/* What is known of the mixture at one share. */
struct look {
	double share_frac;
	struct bc_oil oil;
	struct bc_points points;
	struct bc_mix_measured measured;
};

/* The rest keeps its proportions. */
static void recipe_at(const struct bc_mixing *mixing, size_t part, double share_frac,
	struct bc_mix_recipe *recipe)
{
	double rest = 0.0;
	for (size_t i = 0; i < mixing->n; i++)
		rest += i == part ? 0.0 : mixing->parts[i].volume_l;
	recipe->n = 0;
	for (size_t i = 0; i < mixing->n; i++) {
		double volume = i == part ? share_frac
					  : (1.0 - share_frac) * mixing->parts[i].volume_l / rest;
		if (!(volume > 0.0))
			continue;
		recipe->oil[recipe->n] = mixing->parts[i].oil;
		recipe->volume[recipe->n++] = volume;
	}
}

static enum bc_status look_at(
	const struct bc_mixing *mixing, size_t part, double share_frac, struct look *look)
{
	struct bc_mix_recipe recipe;
	double d86_c[BC_TBP_POINTS];
	recipe_at(mixing, part, share_frac, &recipe);
	look->share_frac = share_frac;
	bc_mix_measure(&recipe, &look->measured);
	return bc_mix_oil(&recipe, d86_c, &look->oil, &look->points);
}

/* ---- limits */

/* The flash by its bad side, everything else by its value; a method that does not hold keeps
 * nothing. */
static bool keeps(const struct bc_criterion *criterion)
{
	const struct bc_estimate *value = &criterion->value;
	struct bc_limit least = *criterion->limit;
	struct bc_limit most = *criterion->limit;
	bool safety = criterion->limit->role == BC_ROLE_SAFETY;
	if (!bc_limit_counts(criterion->limit, bc_estimate_present(value)))
		return true;
	if (!bc_estimate_present(value))
		return !safety;
	if (value->how == BC_NOT_VALID)
		return false;
	least.max = NAN;
	most.min = NAN;
	if (safety && !isnan(least.min) && isnan(value->low))
		return false;
	return bc_limit_met(&least, safety ? value->low : value->value) &&
	       bc_limit_met(&most, safety ? value->high : value->value);
}

/* The first limit of a standard that is not kept, with the value there. */
struct breach {
	const struct bc_limit *limit; /* NULL: it could not be told */
	struct bc_estimate value;
	size_t count; /* limits that are not kept */
};

static bool breaks(struct look *look, const struct bc_limits *limits, const char *standard,
	struct breach *breach)
{
	struct bc_criterion room[BC_CUT_CRITERIA_MAX];
	struct bc_grade grade;
	const struct bc_sample sample = {
		.measured = look->measured.items, .n_measured = look->measured.n};
	const struct bc_evidence evidence = {.points = &look->points,
		.oil = &look->oil,
		.sample = &sample,
		.asked_standard = standard,
		.part_figures = look->measured.figures,
		.n_part_figures = look->measured.n_figures};
	*breach = (struct breach){NULL, bc_estimate_absent(), 0};
	if (bc_failed(bc_standard_assess(
		    limits, standard, &evidence, &grade, room, BC_CUT_CRITERIA_MAX)))
		return true;
	for (size_t i = 0; i < grade.n_criteria; i++) {
		if (keeps(&room[i]))
			continue;
		if (breach->count++ == 0) {
			breach->limit = room[i].limit;
			breach->value = room[i].value;
		}
	}
	return breach->count > 0;
}

/* ---- what no limit says */

/* Light ends are what the flash limit is for. */
static const struct bc_finding *forbidding(const struct bc_judgement *oil)
{
	for (size_t i = 0; i < oil->findings.n; i++) {
		const struct bc_finding *finding = &oil->findings.items[i];
		bool dispute = strcmp(finding->code, "flash-measured-low") == 0 ||
			       strcmp(finding->code, "flash-measured-high") == 0 ||
			       (strcmp(finding->code, "flash-open-cup-lower") == 0 &&
				       oil->oil.flash_open_disputed);
		if ((finding->forbids_usable || dispute) &&
			strcmp(finding->code, "light-ends") != 0)
			return finding;
	}
	return NULL;
}

bool bc_mix_few_readings(const struct bc_judgement *oil)
{
	return oil->boiloff.n_amounts < FEW_READINGS;
}

bool bc_mix_rough(const struct bc_judgement *oil)
{
	return oil->sample->apparatus == BC_APPARATUS_COLUMN ||
	       oil->sample->apparatus == BC_APPARATUS_STILL;
}

static bool may_be_mixed(const struct bc_judgement *oil)
{
	return oil->oil.flash_claim && !oil->oil.wet && forbidding(oil) == NULL &&
	       !bc_mix_few_readings(oil) && !bc_mix_rough(oil) && !oil->conditions.tbp;
}

static char *why_not(const struct bc_judgement *oil)
{
	const struct bc_finding *finding = forbidding(oil);
	if (oil->oil.wet)
		return bc_format("'%s' is wet: dry it first", bc_mix_name(oil));
	if (!oil->oil.flash_claim)
		return bc_format("nothing is claimed of the flash of '%s' (%s)", bc_mix_name(oil),
			oil->oil.no_claim_why != NULL ? oil->oil.no_claim_why : "unknown");
	if (finding != NULL)
		return bc_format("of '%s': %s", bc_mix_name(oil), finding->message);
	if (bc_mix_few_readings(oil))
		return bc_format(
			"'%s' has three or four readings, which carry no firm answer: boil "
			"it off again with a reading every 5 or 10 percent",
			bc_mix_name(oil));
	return bc_format("'%s' was not boiled off in a plain flask, which the limits are for: boil "
			 "it off in one",
		bc_mix_name(oil));
}

/* ---- the search */

struct hunt {
	struct bc_mixing *mixing;
	const struct bc_judge_options *options;
	struct look *looks; /* GRID of them */
	struct look *middle;
	size_t fewest; /* limits of a standard that the rest alone does not keep */
};

/* Places of the scan up to the first that is not kept; GRID where all are. */
static size_t kept_places(const struct hunt *hunt, const char *standard)
{
	struct breach breach;
	for (size_t i = 0; i < GRID; i++)
		if (breaks(&hunt->looks[i], hunt->options->limits, standard, &breach))
			return i;
	return GRID;
}

/* Between the last place that is kept and the first that is not. */
static enum bc_status close_in(
	struct hunt *hunt, size_t kept, const struct bc_limit *of, struct bc_mix_share *share)
{
	double good = grid_frac[kept - 1];
	double bad = grid_frac[kept];
	struct breach breach;
	breaks(&hunt->looks[kept], hunt->options->limits, of->standard, &breach);
	while (bad - good > FINEST_FRAC) {
		double middle = 0.5 * (good + bad);
		enum bc_status status = look_at(hunt->mixing, share->part, middle, hunt->middle);
		if (bc_failed(status))
			return status;
		struct breach here;
		if (breaks(hunt->middle, hunt->options->limits, of->standard, &here)) {
			bad = middle;
			breach = here;
		} else {
			good = middle;
		}
	}
	share->limit = breach.limit;
	share->value = breach.value;
	share->share_pct = 100.0 * good;
	return BC_OK;
}

static void take_standard(const struct bc_limit *of, struct bc_mix_share *share)
{
	share->grade = of->grade;
	share->standard = of->standard;
}

/* The rest alone fails: which limit, of the standard that it misses by the fewest. */
static void base_fails(struct hunt *hunt, const struct bc_limit *of, struct bc_mix_share *share)
{
	struct breach breach;
	breaks(&hunt->looks[0], hunt->options->limits, of->standard, &breach);
	if (share->standard != NULL && breach.count >= hunt->fewest)
		return;
	hunt->fewest = breach.count;
	take_standard(of, share);
	share->share_pct = 0.0;
	share->limit = breach.limit;
	share->value = breach.value;
}

/* One standard against the best so far. */
static enum bc_status try_standard(
	struct hunt *hunt, const struct bc_limit *of, struct bc_mix_share *best)
{
	struct bc_mix_share share = *best;
	enum bc_status status = BC_OK;
	size_t kept = kept_places(hunt, of->standard);
	if (kept == 0) {
		if (!best->base_meets)
			base_fails(hunt, of, best);
		return BC_OK;
	}
	share.base_meets = true;
	share.limit = NULL;
	share.value = bc_estimate_absent();
	take_standard(of, &share);
	share.unlimited = kept == GRID;
	share.share_pct = 100.0;
	if (!share.unlimited)
		status = close_in(hunt, kept, of, &share);
	if (!bc_failed(status) && (!best->base_meets || share.share_pct > best->share_pct))
		*best = share;
	return status;
}

/* Without a flash limit nothing is called usable. */
static bool limits_flash(const struct bc_limits *limits, const char *standard)
{
	for (size_t i = 0; i < limits->n; i++) {
		const struct bc_limit *limit = &limits->items[i];
		if (limit->in_force && limit->role == BC_ROLE_SAFETY &&
			strcmp(limit->standard, standard) == 0 &&
			strcmp(limit->property, "flash_point") == 0)
			return true;
	}
	return false;
}

static bool is_asked_for(const struct bc_limits *limits, size_t i, const struct bc_judge_options *o)
{
	const struct bc_limit *limit = &limits->items[i];
	return bc_limits_first_of_standard(limits, i) &&
	       bc_standard_asked_for(limit->grade, limit->standard, o->want, o->standard) &&
	       limit->grade != BC_GRADE_GASOLINE && limits_flash(limits, limit->standard);
}

static enum bc_status try_standards(struct hunt *hunt)
{
	struct bc_mix_share *share = &hunt->mixing->share;
	const struct bc_limits *limits = hunt->options->limits;
	enum bc_status status = BC_OK;
	for (size_t i = 0; i < limits->n && !bc_failed(status); i++)
		if (is_asked_for(limits, i, hunt->options))
			status = try_standard(hunt, &limits->items[i], share);
	if (!bc_failed(status) && share->standard == NULL) {
		share->share_pct = 0.0;
		share->why =
			bc_strdup("no standard of the table that limits the flash answers what "
				  "was asked for; gasoline-range is never called usable");
		status = share->why != NULL ? BC_OK : BC_NO_MEMORY;
	}
	return status;
}

/* What forbids a part forbids every share of it, whatever the limits say. */
static enum bc_status hold_back(struct bc_mixing *mixing)
{
	struct bc_mix_share *share = &mixing->share;
	for (size_t k = 0; k < mixing->n; k++) {
		/* the rest first */
		size_t i = k + 1 == mixing->n ? share->part : k + (k >= share->part);
		if (share->why != NULL || may_be_mixed(mixing->parts[i].oil))
			continue;
		share->why = why_not(mixing->parts[i].oil);
		if (share->why == NULL)
			return BC_NO_MEMORY;
		share->share_pct = 0.0;
		share->unlimited = false;
		share->limit = NULL;
		share->value = bc_estimate_absent();
		share->base_meets = share->base_meets && i == share->part;
	}
	return BC_OK;
}

/* NULL: nothing holds it. */
static const char *held_by(const struct bc_judgement *mix)
{
	const struct bc_finding *finding = forbidding(mix);
	if (finding != NULL)
		return finding->message;
	if (mix->oil.wet)
		return "there is water in it";
	if (!mix->oil.flash_claim)
		return "nothing is claimed of its flash";
	return mix->hazards.petrol_like ? "its vapour may light at room temperature" : NULL;
}

enum bc_status bc_mix_hold_share(struct bc_mixing *mixing, bool *held)
{
	struct bc_mix_share *share = &mixing->share;
	const char *by = share->share_pct > 0.0 ? held_by(&mixing->mix) : NULL;
	*held = by != NULL;
	if (by == NULL)
		return BC_OK;
	share->why = bc_format(
		"of the mixture with %.3g %% of it: %s", mixing->parts[share->part].volume_pct, by);
	share->share_pct = 0.0;
	share->unlimited = false;
	share->limit = NULL;
	share->value = bc_estimate_absent();
	share->volume_l = mixing->wholly_percent ? (double)NAN : 0.0;
	share->mass_kg = share->volume_l;
	return share->why != NULL ? BC_OK : BC_NO_MEMORY;
}

static void fill_nodes(const struct look *looks, struct bc_mixing *mixing)
{
	for (size_t i = 0; i < GRID; i++) {
		const struct bc_estimate *flash = &looks[i].oil.property[BC_FLASH];
		mixing->nodes[i] =
			(struct bc_mix_node){100.0 * looks[i].share_frac, flash->value, flash->low};
	}
	mixing->n_nodes = GRID;
}

/* The asked part gets its volume: what may go in, or half and half where all may. */
static void pour_in(struct bc_mixing *mixing)
{
	struct bc_mix_share *share = &mixing->share;
	struct bc_mix_part *part = &mixing->parts[share->part];
	double frac = share->unlimited ? HALF_FRAC : share->share_pct / 100.0;
	double rest = 0.0;
	for (size_t i = 0; i < mixing->n; i++)
		rest += i == share->part ? 0.0 : mixing->parts[i].volume_l;
	part->volume_l = frac / (1.0 - frac) * rest;
	if (share->unlimited || mixing->wholly_percent)
		return;
	share->volume_l = part->volume_l;
	share->mass_kg = part->volume_l * part->oil->oil.property[BC_DENSITY15].value / 1000.0;
}

enum bc_status bc_mix_find_share(struct bc_mixing *mixing, const struct bc_judge_options *options)
{
	struct hunt hunt = {.mixing = mixing, .options = options};
	enum bc_status status = BC_OK;
	mixing->node_part = mixing->share.asked ? mixing->share.part : 0;
	hunt.looks = bc_alloc_array(GRID, sizeof *hunt.looks);
	hunt.middle = bc_alloc(sizeof *hunt.middle);
	if (hunt.looks == NULL || hunt.middle == NULL)
		status = BC_NO_MEMORY;
	for (size_t i = 0; i < GRID && !bc_failed(status); i++)
		status = look_at(mixing, mixing->node_part, grid_frac[i], &hunt.looks[i]);
	if (!bc_failed(status))
		fill_nodes(hunt.looks, mixing);
	if (!bc_failed(status) && mixing->share.asked)
		status = try_standards(&hunt);
	if (!bc_failed(status) && mixing->share.asked)
		status = hold_back(mixing);
	if (!bc_failed(status) && mixing->share.asked)
		pour_in(mixing);
	bc_free(hunt.middle);
	bc_free(hunt.looks);
	return status;
}
