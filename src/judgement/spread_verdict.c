/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the draws say of limits: chances, jointly, and which input causes the doubt that decides. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "base/random.h"
#include "judgement/judgement.h"
#include "judgement/spread.h"
#include "judgement/spread_inputs.h"
#include "judgement/spread_table.h"

const char *const bc_cause_keys[BC_CAUSES] = {
	[BC_CAUSE_READING] = "reading",
	[BC_CAUSE_VOLUME] = "volume",
	[BC_CAUSE_CALIBRATION] = "calibration",
	[BC_CAUSE_THERMOMETER] = "thermometer",
	[BC_CAUSE_PRESSURE] = "pressure",
	[BC_CAUSE_RUN] = "run",
	[BC_CAUSE_REST] = "residue",
	[BC_CAUSE_UNREAD] = "unread",
	[BC_CAUSE_RANGE] = "range",
	[BC_CAUSE_DENSITY] = "density",
	[BC_CAUSE_METHOD] = "method",
};

const char *const bc_cause_words[BC_CAUSES] = {
	[BC_CAUSE_READING] = "single readings of the thermometer",
	[BC_CAUSE_VOLUME] = "the percents read on the receiver",
	[BC_CAUSE_CALIBRATION] = "what the thermometer is off by",
	[BC_CAUSE_THERMOMETER] = "the kind of thermometer, which is not stated",
	[BC_CAUSE_PRESSURE] = "the pressure",
	[BC_CAUSE_RUN] = "the boil-off itself (heat, flask, draught)",
	[BC_CAUSE_REST] = "residue and loss",
	[BC_CAUSE_UNREAD] = "the part of the curve that was not read",
	[BC_CAUSE_RANGE] = "readings outside the range of the conversion",
	[BC_CAUSE_DENSITY] = "the density",
	[BC_CAUSE_METHOD] = "the formula that estimates it",
};

/* Shares below this are the noise of so many draws. */
#define LEAST_SHARE 0.02

/* ---- chances */

/* In the unit of the limit: bc_standard_assess does the same. */
static double unit_factor(const struct bc_limit *limit)
{
	return strcmp(limit->unit, "%m/m") == 0 ? 1e-4 : 1.0;
}

static bool is_exact(const struct bc_estimate *value) { return value->low == value->high; }

/* Of the draws that have the figure, how many keep the limit; kept[], if not NULL, loses those that
 * do not, and those without the figure: nothing says that they keep it. */
static double share_kept(const struct bc_limit *limit, const double *value, size_t n, bool *kept)
{
	double factor = unit_factor(limit);
	size_t finite = 0;
	size_t met = 0;
	for (size_t i = 0; i < n; i++)
		finite += isfinite(value[i]) != 0;
	if (2 * finite < n)
		return NAN;
	for (size_t i = 0; i < n; i++) {
		if (isfinite(value[i]) && bc_limit_met(limit, factor * value[i]))
			met++;
		else if (kept)
			kept[i] = false;
	}
	return (double)met / (double)finite;
}

/* A figure read on the curve takes its bounds from the draws; beyond the readings, and on a curve
 * that was converted, only if they are wider. */
static void take_bounds(const double *value, size_t n, double *scratch, struct bc_estimate *at)
{
	double low;
	double high;
	memcpy(scratch, value, n * sizeof *scratch);
	bc_spread_of(scratch, n, &low, &high);
	if (isnan(low))
		return;
	bool measured = at->how == BC_MEASURED;
	at->low = fmin(at->value, measured ? low : fmin(low, at->low));
	at->high = fmax(at->value, measured ? high : fmax(high, at->high));
}

static bool is_of_curve(const char *property)
{
	return !isnan(bc_limit_property_number(property)) || strcmp(property, "IBP") == 0 ||
	       strcmp(property, "FBP") == 0;
}

struct weighing {
	const struct bc_draws *table;
	size_t n;
	bool *kept;
	double *scratch;
};

/* One criterion by the draws; *apart collects the chances of those that no draw tells. */
static void weigh_criterion(
	const struct weighing *weighing, struct bc_criterion *criterion, bool counts, double *apart)
{
	const double *value = bc_draws_of_limit(weighing->table, criterion->limit);
	double chance = NAN;
	if (criterion->hopeless)
		*apart *= counts ? 0.0 : 1.0;
	if (criterion->hopeless || criterion->state == BC_STATE_NOT_MEASURED) {
		if (counts && !criterion->hopeless)
			*apart = NAN;
		return;
	}
	if (value && !is_exact(&criterion->value)) {
		if (is_of_curve(criterion->limit->property))
			take_bounds(value, weighing->n, weighing->scratch, &criterion->value);
		chance = share_kept(
			criterion->limit, value, weighing->n, counts ? weighing->kept : NULL);
	}
	if (!isnan(chance))
		criterion->chance_within = chance;
	else if (counts)
		*apart *= criterion->chance_within;
}

static void weigh_grade(const struct weighing *weighing, struct bc_grade *grade)
{
	double apart = 1.0;
	size_t all = 0;
	bool any = false;
	for (size_t i = 0; i < weighing->n; i++)
		weighing->kept[i] = true;
	for (size_t i = 0; i < grade->n_criteria; i++) {
		bool counts = bc_limit_counts(grade->criteria[i].limit, true);
		any = any || counts;
		weigh_criterion(weighing, &grade->criteria[i], counts, &apart);
	}
	for (size_t i = 0; i < weighing->n; i++)
		all += weighing->kept[i];
	bc_grade_settle(grade, any ? apart * (double)all / (double)weighing->n : (double)NAN);
}

enum bc_status bc_spread_weigh(const struct bc_spread *spread, struct bc_grades *grades)
{
	if (!spread)
		return BC_OK;
	struct weighing weighing = {.table = spread->table, .n = spread->draws};
	weighing.kept = bc_alloc_array(spread->draws, sizeof *weighing.kept);
	weighing.scratch = bc_alloc_array(spread->draws, sizeof *weighing.scratch);
	enum bc_status status = weighing.kept && weighing.scratch ? BC_OK : BC_NO_MEMORY;
	for (size_t i = 0; !bc_failed(status) && i < grades->n; i++)
		weigh_grade(&weighing, &grades->items[i]);
	bc_free(weighing.kept);
	bc_free(weighing.scratch);
	return status;
}

/* ---- the doubt */

/* The doubtful criterion that stands most in the way. */
static const struct bc_criterion *deciding(const struct bc_grade *grade)
{
	const struct bc_criterion *found = NULL;
	for (size_t i = 0; grade && i < grade->n_criteria; i++) {
		const struct bc_criterion *criterion = &grade->criteria[i];
		if (criterion->state != BC_STATE_DOUBTFUL || isnan(criterion->chance_within) ||
			criterion->value.how == BC_NOT_VALID ||
			!bc_limit_counts(criterion->limit, true))
			continue;
		if (!found || criterion->chance_within < found->chance_within)
			found = criterion;
	}
	return found;
}

/* Sums over the draws that have the figure. */
struct sums {
	double mean;
	double square;
	size_t n;
};

static struct sums sum_up(const double *value, size_t n)
{
	struct sums sums = {0.0, 0.0, 0};
	for (size_t i = 0; i < n; i++) {
		if (!isfinite(value[i]))
			continue;
		sums.mean += value[i];
		sums.n++;
	}
	sums.mean /= (double)sums.n;
	for (size_t i = 0; i < n; i++)
		if (isfinite(value[i]))
			sums.square += (value[i] - sums.mean) * (value[i] - sums.mean);
	return sums;
}

/* Products of the figure with every number drawn; the same seed gives the same numbers. */
static void add_products(const double *value, double mean, size_t draws, struct bc_random *random,
	const double *shared, struct bc_drawn *drawn, double *product)
{
	for (size_t k = 0; k < draws; k++) {
		bc_drawn_next(random, shared, draws, k, drawn);
		if (!isfinite(value[k]))
			continue;
		drawn->shared[BC_SHARED_KIND] = drawn->shared[BC_SHARED_KIND] > 0.0 ? 1.0 : -1.0;
		for (size_t i = 0; i < BC_SHARED_N; i++)
			product[i] += drawn->shared[i] * (value[k] - mean);
		for (size_t i = 0; i < 2 * drawn->n; i++)
			product[BC_SHARED_N + i] += drawn->reading[i] * (value[k] - mean);
	}
}

/* Squared correlations by cause; what chance alone gives, 1/n each, is taken off. */
static void fill_shares(
	const double *product, const struct sums *sums, size_t readings, double share[BC_CAUSES])
{
	double n = (double)sums->n;
	for (size_t i = 0; i < BC_CAUSES; i++)
		share[i] = 0.0;
	for (size_t i = 0; i < BC_SHARED_N + 2 * readings; i++) {
		enum bc_cause cause = i < BC_SHARED_N              ? bc_shared_cause(i)
				      : i < BC_SHARED_N + readings ? BC_CAUSE_READING
								   : BC_CAUSE_VOLUME;
		share[cause] += product[i] * product[i] / (n * sums->square) - 1.0 / n;
	}
	for (size_t i = 0; i < BC_CAUSES; i++)
		share[i] = fmin(fmax(share[i], 0.0), 1.0);
}

static void rank(const double share[BC_CAUSES], struct bc_doubt *doubt)
{
	doubt->n = 0;
	for (size_t i = 0; i < BC_CAUSES; i++) {
		if (share[i] < LEAST_SHARE)
			continue;
		size_t k = doubt->n++;
		for (; k > 0 && doubt->causes[k - 1].share < share[i]; k--)
			doubt->causes[k] = doubt->causes[k - 1];
		doubt->causes[k].input = (enum bc_cause)i;
		doubt->causes[k].share = share[i];
	}
}

/* The test that tells a property itself, or NULL. */
static const char *direct_test(const char *property)
{
	static const struct {
		const char *property;
		const char *test;
	} tests[] = {
		{"flash_point", "a closed-cup flash test"},
		{"density", "a hydrometer"},
		{"kin_viscosity", "the viscosity measured at 40 degC"},
		{"kin_viscosity_20C", "the viscosity measured at 20 degC"},
		{"cetane_index", "a cetane number measured in a laboratory"},
		{"cetane_index_d976", "a cetane number measured in a laboratory"},
	};
	for (size_t i = 0; i < sizeof tests / sizeof tests[0]; i++)
		if (strcmp(tests[i].property, property) == 0)
			return tests[i].test;
	return NULL;
}

/* What a shed can measure against a cause. */
static const char *remedy(const struct bc_conditions *conditions, enum bc_cause cause)
{
	bool checked = isfinite(conditions->ice_c) && isfinite(conditions->steam_c);
	switch (cause) {
	case BC_CAUSE_CALIBRATION:
		return checked ? "a check point of the thermometer at high temperature "
				 "(naphthalene boils at 218 degC, hexadecane at 287)"
			       : "the thermometer read in melting ice and in boiling water";
	case BC_CAUSE_THERMOMETER:
		return "the kind of thermometer written down, or a check point at high "
		       "temperature (naphthalene boils at 218 degC)";
	case BC_CAUSE_PRESSURE:
		return "a barometer";
	case BC_CAUSE_REST:
		return "residue and loss read in a small cylinder";
	case BC_CAUSE_UNREAD:
		return "a boil-off read from the first drop to the last";
	case BC_CAUSE_DENSITY:
		return "a hydrometer";
	case BC_CAUSE_RANGE:
	case BC_CAUSE_METHOD:
		return "a laboratory's test of it";
	case BC_CAUSE_VOLUME:
		return "a second boil-off, the receiver read more finely";
	case BC_CAUSE_READING:
	case BC_CAUSE_RUN:
	case BC_CAUSES:
		break;
	}
	return "a second boil-off of the same oil";
}

/* A cheap measurement against the greatest cause, else the figure itself. */
/* A density that is estimated is the work of its formula. */
static void name_density(struct bc_doubt *doubt, bool measured)
{
	for (size_t i = 0; i < doubt->n && !measured; i++)
		if (doubt->causes[i].input == BC_CAUSE_DENSITY &&
			strcmp(doubt->criterion->limit->property, "density") == 0)
			doubt->causes[i].input = BC_CAUSE_METHOD;
}

static const char *what_next(const struct bc_conditions *conditions, const struct bc_doubt *doubt)
{
	enum bc_cause cause = doubt->causes[0].input;
	const char *direct = direct_test(doubt->criterion->limit->property);
	bool cheap = cause == BC_CAUSE_CALIBRATION || cause == BC_CAUSE_THERMOMETER ||
		     cause == BC_CAUSE_PRESSURE || cause == BC_CAUSE_DENSITY;
	return direct && !cheap ? direct : remedy(conditions, cause);
}

static enum bc_status find_causes(struct bc_judgement *judgement, const double *value)
{
	struct bc_spread *spread = judgement->spread;
	struct bc_inputs inputs = {.n = judgement->boiloff.n,
		.boiloff = &judgement->boiloff,
		.reader = &judgement->reader,
		.conditions = &judgement->conditions};
	struct bc_drawn drawn = {.n = 0};
	struct sums sums = sum_up(value, spread->draws);
	double share[BC_CAUSES];
	struct bc_random *random = bc_random_new(spread->seed);
	double *product = bc_alloc_array(BC_SHARED_N + 2 * inputs.n, sizeof *product);
	double *shared = random ? bc_shared_new(random, spread->draws) : NULL;
	enum bc_status status = shared && product ? bc_drawn_new(&inputs, &drawn) : BC_NO_MEMORY;
	if (!bc_failed(status) && sums.square > 0.0) {
		add_products(value, sums.mean, spread->draws, random, shared, &drawn, product);
		fill_shares(product, &sums, inputs.n, share);
		rank(share, &spread->doubt);
	}
	bc_drawn_release(&drawn);
	bc_free(product);
	bc_free(shared);
	bc_random_free(random);
	return status;
}

/* Far larger than all the rest of a judgement. */
static void forget_table(struct bc_spread *spread)
{
	bc_draws_free(spread->table);
	spread->table = NULL;
}

enum bc_status bc_spread_blame(struct bc_judgement *judgement, const struct bc_grade *grade)
{
	struct bc_spread *spread = judgement->spread;
	if (!spread)
		return BC_OK;
	spread->doubt = (struct bc_doubt){.criterion = deciding(grade)};
	if (!spread->doubt.criterion) {
		forget_table(spread);
		return BC_OK;
	}
	const double *value = bc_draws_of_limit(spread->table, spread->doubt.criterion->limit);
	enum bc_status status = value ? find_causes(judgement, value) : BC_OK;
	name_density(&spread->doubt, judgement->oil.property[BC_DENSITY15].how == BC_MEASURED);
	if (spread->doubt.n > 0)
		spread->doubt.measure_next = what_next(&judgement->conditions, &spread->doubt);
	else
		spread->doubt.criterion = NULL;
	forget_table(spread);
	return status;
}
