/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where record and oil contradict each other: front end, density, condenser. */
#include "fuel/cross_findings.h"

#include <math.h>

#include "base/stats.h"
#include "curve/finding_limits.h"
#include "fuel/density.h"

static bool in_use(const struct bc_point *point)
{
	return point->used && !point->slip && point->kind == BC_READING_AMOUNT;
}

/* The IBP on the line through the first reading and one at least twice and 15 % further on, on
 * probability paper. first is set where there is such a line. */
static double ibp_on_line_c(const struct bc_boiloff *boiloff, const struct bc_point **first)
{
	const double apart_pct = 15.0;
	const struct bc_point *from = NULL;

	*first = NULL;
	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		if (!in_use(point) || point->recovered_pct >= 100.0 || point->recovered_pct <= 0.0)
			continue;
		if (!from) {
			from = point;
			continue;
		}
		if (point->recovered_pct < from->recovered_pct + apart_pct)
			continue;
		double z0 = bc_probit_from_pct(from->recovered_pct);
		double z1 = bc_probit_from_pct(point->recovered_pct);
		double z = bc_probit_from_pct(fmin(BC_SLIP_IBP_PCT, 0.5 * from->recovered_pct));
		*first = from;
		return from->corrected_c +
		       (point->corrected_c - from->corrected_c) * (z - z0) / (z1 - z0);
	}
	return NAN;
}

static void find_front_jump(const struct bc_boiloff *boiloff, struct bc_findings *findings)
{
	const struct bc_point *first;
	double line_c = ibp_on_line_c(boiloff, &first);
	double step_c = first ? first->corrected_c - boiloff->ibp_c : (double)NAN;

	if (!first || first->recovered_pct > BC_FRONT_FIRST_PCT ||
		!(line_c - boiloff->ibp_c > BC_FRONT_BELOW_LINE_C) || !(step_c > BC_FRONT_STEP_C))
		return;
	bc_findings_say(findings, "front-jump", BC_FINDING_WARNING, 0.0,
		"Look at the sheet again; if it stands, air the oil or take a light jar off, and "
		"treat it as petrol until a closed-cup flash is measured.",
		"from IBP to %.1f %% the head jumps by %.0f C, where the readings above ask for an "
		"IBP of about %.0f C: gas or light ends went first, or the IBP was misread",
		first->recovered_pct, step_c, line_c);
}

static bool is_aromatic_feed(const struct bc_feed *feed)
{
	return feed->polystyrene || feed->tyre || feed->abs || feed->pet || feed->mixture ||
	       feed->foam;
}

static void find_density(const struct bc_feed *feed, const struct bc_oil *oil, double t10_c,
	double t50_c, struct bc_findings *findings)
{
	const struct bc_estimate *density = &oil->property[BC_DENSITY15];
	double sg = NAN;

	if (density->how != BC_MEASURED || bc_findings_has(findings, "density-unlike-feed") ||
		bc_findings_has(findings, "weighed-density-unlike"))
		return;
	bc_sg_from_d86(t10_c, t50_c, &sg);
	double expected = bc_density15_from_sg(sg);
	double low = expected - BC_DENSITY_APART_KGM3;
	double high = expected + BC_DENSITY_APART_KGM3;
	if (bc_feed_only_polyolefin(feed)) {
		low += BC_DENSITY_POLYOLEFIN_KGM3;
		high += BC_DENSITY_POLYOLEFIN_KGM3;
	}
	if (is_aromatic_feed(feed) || bc_findings_has(findings, "styrenic-oil"))
		high += BC_DENSITY_AROMATIC_KGM3;
	if (density->value >= low && density->value <= high)
		return;
	if (isnan(expected))
		return;
	bc_findings_say(findings, "density-unlike-curve", BC_FINDING_WARNING, NAN,
		"Read the hydrometer, or weigh a full flask, again, and look at unit and "
		"temperature: density goes into flash, cetane and viscosity.",
		"the density, %.0f kg/m3 at 15 C, does not fit the curve: such an oil has %.0f to "
		"%.0f",
		density->value, low, high);
	bc_findings_forbid(findings, true, false);
}

/* The hottest head of the run. */
static double hottest_c(const struct bc_boiloff *boiloff)
{
	double most = -INFINITY;

	for (size_t i = 0; i < boiloff->n; i++) {
		if (boiloff->points[i].used && !boiloff->points[i].slip)
			most = fmax(most, boiloff->points[i].corrected_c);
	}
	return most;
}

static void find_cold_condenser(const struct bc_sample *sample, const struct bc_boiloff *boiloff,
	const struct bc_feed *feed, struct bc_findings *findings)
{
	double head_c = hottest_c(boiloff);

	if (!(sample->condenser_c < BC_CONDENSER_COLD_C) || !(head_c > BC_CONDENSER_WAX_HEAD_C) ||
		bc_feed_only_petroleum(feed))
		return;
	bc_findings_say(findings, "condenser-cold", BC_FINDING_WARNING, NAN,
		"Let the condenser warm to 60 C once the head passes 300: a condenser that wax has "
		"plugged makes a closed vessel. If the flow stops while the heat is on, heat off.",
		"the condenser stood at %.0f C while the head went to %.0f C: wax sets below 40 C",
		sample->condenser_c, head_c);
}

void bc_cross_findings(const struct bc_sample *sample, const struct bc_boiloff *boiloff,
	const struct bc_feed *feed, const struct bc_oil *oil, double t10_c, double t50_c,
	struct bc_findings *findings)
{
	if (!bc_findings_has(findings, "light-ends"))
		find_front_jump(boiloff, findings);
	find_density(feed, oil, t10_c, t50_c, findings);
	find_cold_condenser(sample, boiloff, feed, findings);
}
