/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What lands in each jar between two turns of the tap, and what is left in the pot. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/units.h"
#include "fuel/flash.h"
#include "judgement/tap_job.h"

static void name_jar(const struct bc_tap_job *job, size_t i, struct bc_jar *jar)
{
	size_t n = job->n_names;

	if (i == 0)
		snprintf(jar->name, sizeof jar->name, "light");
	else if (n > 2 && i + 1 == n)
		snprintf(jar->name, sizeof jar->name, "tail");
	else if (n <= 3)
		snprintf(jar->name, sizeof jar->name, "product");
	else
		snprintf(jar->name, sizeof jar->name, "product%u", (unsigned)(i % 100));
}

static void place_jar(const struct bc_tap_job *job, size_t i, struct bc_jar *jar)
{
	double last = job->rerun.run->over_frac[job->rerun.run->n - 1];

	name_jar(job, i, jar);
	jar->from_frac = job->edge[i];
	jar->to_frac = job->edge[i + 1];
	jar->takes_pot = jar->to_frac >= 1.0;
	double to = jar->takes_pot ? jar->from_frac : fmin(jar->to_frac, last);
	jar->from_c = bc_rerun_head_c(&job->rerun, jar->from_frac);
	jar->from_reading_c = bc_rerun_reading_c(&job->rerun, jar->from_frac);
	jar->to_c = jar->takes_pot ? (double)NAN : bc_rerun_head_c(&job->rerun, to);
	jar->to_reading_c = jar->takes_pot ? (double)NAN : bc_rerun_reading_c(&job->rerun, to);
	jar->pot_to_c = bc_run_at(job->rerun.run, to).pot_c;
}

static void empty_jar(struct bc_jar *jar)
{
	jar->empty = true;
	jar->slices.n = 0;
	jar->volume_pct = jar->mass_pct = jar->volume_ml = jar->mass_kg = 0.0;
	for (size_t i = 0; i < BC_TBP_POINTS; i++)
		jar->d86_c[i] = NAN;
	for (size_t i = 0; i < BC_PROPERTIES; i++)
		jar->oil.property[i] = bc_estimate_absent();
	for (size_t i = 0; i < BC_POINTS; i++)
		jar->points.at[i] = bc_estimate_absent();
	for (size_t i = 0; i < BC_EVAPORATED_POINTS; i++)
		jar->points.evaporated_point[i] = bc_estimate_absent();
	for (size_t i = 0; i < BC_EVAPORATED_AT; i++)
		jar->points.evaporated_at[i] = bc_estimate_absent();
	for (size_t i = 0; i < BC_RECOVERED_AT; i++)
		jar->points.recovered_at[i] = bc_estimate_absent();
	for (size_t i = 0; i < BC_TBP_POINTS; i++)
		jar->oil.tbp_c[i] = NAN;
	jar->oil.flash_at_site_c = jar->oil.flash_low_at_site_c = NAN;
	jar->no_claim_why = "nothing is in it";
}

/* ---- the claim on its flash */

static const char *why_no_claim(const struct bc_tap_job *job, const struct bc_jar *jar)
{
	const struct bc_oil *oil = &job->tapping->feed.oil;

	if (!jar->oil.flash_claim)
		return jar->oil.no_claim_why;
	if (jar->pot_to_c > job->claim_limit_c + BC_TAP_POT_SLACK_C)
		return "distilled above the pot limit: cracked gas may be in it";
	if (!oil->flash_claim && jar->from_frac < BC_RERUN_GAS_FRONT_FRAC)
		return oil->no_claim_why;
	return NULL;
}

static void settle_claim(const struct bc_tap_job *job, struct bc_jar *jar)
{
	jar->no_claim_why = why_no_claim(job, jar);
	jar->flash_claim = !jar->no_claim_why;
	jar->oil.no_claim_why = jar->no_claim_why;
	jar->oil.flash_claim = jar->flash_claim;
	if (!jar->flash_claim)
		jar->oil.property[BC_FLASH].low = NAN;
	double site_c = BC_FLASH_PER_KPA * (101.325 - job->tapping->feed.conditions.pressure_kpa);
	jar->oil.flash_at_site_c = jar->oil.property[BC_FLASH].value - site_c;
	jar->oil.flash_low_at_site_c = jar->oil.property[BC_FLASH].low - site_c;
}

/* ---- what it is good for */

static const char *use_of(const struct bc_jar *jar)
{
	const struct bc_estimate *flash = &jar->oil.property[BC_FLASH];
	double t50_c = jar->points.at[BC_AT_T50].value;
	double t95_c = jar->points.at[BC_AT_T95].value; /* 300: end point of kerosene, EN and ASTM */

	/* 23 degC: GHS flammable liquid, category 2; 38 and 55 degC: common limits of kerosene and
	 * of diesel and heating oil */
	if (!jar->flash_claim || flash->low < 23.0)
		return "handle and store it as petrol: a solvent, or fuel for a flare that is "
		       "built for it; not for lamps, stoves, burners or diesel engines";
	if (flash->low < 38.0)
		return "flammable at a warm room's temperature: a solvent like white spirit; no "
		       "lamp or stove fuel";
	if (jar->takes_pot)
		return "a figure on paper, with what was never distilled: no fuel as it is";
	if (t50_c < 230.0 && !(t95_c > 300.0))
		return "kerosene range: cleaning, and pressure burners made for kerosene; not for "
		       "lamps or heaters without a flue";
	if (flash->low < 55.0 && !(t95_c > 300.0))
		return "between kerosene and diesel: a pressure burner made for kerosene; below "
		       "the 55 degC of European diesel and heating oil";
	if (t50_c < 330.0 && !(flash->low < 55.0))
		return "diesel and heating oil range: flued pressure-jet burners; in an engine "
		       "lubricity, gum and cetane number are unknown";
	if (t50_c < 330.0 && flash->low < 55.0)
		return "heating oil range, but below the 55 degC of European heating oil: flued "
		       "pressure-jet burners where the law allows its flash; no kerosene burner";
	return "heavy: burners made for heavy oil, or back to the retort";
}

/* ---- filling */

static enum bc_status assess(const struct bc_tap_job *job, struct bc_jar *jar)
{
	const struct bc_tapping *tapping = job->tapping;
	struct bc_evidence evidence = {.points = &jar->points,
		.oil = &jar->oil,
		.asked_standard = tapping->request.standard,
		.asked_grade = tapping->want < BC_GRADES ? bc_grade_texts[tapping->want] : NULL};

	if (!tapping->has_want)
		return BC_OK;
	return bc_grades_assess(job->options->limits, &evidence, &jar->grades);
}

static enum bc_status fill_jar(const struct bc_tap_job *job, struct bc_jar *jar)
{
	struct bc_tapping *tapping = job->tapping;
	double share = 0.0;
	enum bc_status status = jar->to_frac > jar->from_frac
					? bc_tap_jar(&job->rerun.still, jar->from_frac,
						  jar->to_frac, &jar->slices, &share)
					: BC_BAD_DOMAIN;

	if (bc_failed(status)) {
		empty_jar(jar);
		return BC_OK;
	}
	status = bc_tap_product(&job->rerun.still, jar->from_frac, jar->to_frac, job->cut);
	if (bc_failed(status))
		return status;
	jar->volume_pct = 100.0 * share;
	jar->volume_ml = share * tapping->request.charge_ml;
	jar->mass_kg = jar->volume_ml * 1e-6 * BC_WATER_DENSITY_60F_KGM3 * jar->slices.sg;
	jar->mass_pct = jar->volume_pct * jar->slices.sg / tapping->feed.oil.slices.sg;
	memcpy(jar->d86_c, job->cut->product_d86_c, sizeof jar->d86_c);
	jar->oil = job->cut->product;
	jar->points = job->cut->product_points;
	settle_claim(job, jar);
	jar->good_for = use_of(jar);
	return assess(job, jar);
}

static void fill_pot(struct bc_tapping *tapping, double mass_sg)
{
	double volume = 100.0;
	double mass = 100.0;

	for (size_t i = 0; i < tapping->n_jars; i++) {
		volume -= tapping->jars[i].volume_pct;
		mass -= tapping->jars[i].mass_pct;
	}
	/* what is lost in the last digits is not in the pot */
	tapping->pot.volume_pct = volume < 1e-4 ? 0.0 : volume;
	tapping->pot.mass_pct = mass < 1e-4 ? 0.0 : mass;
	tapping->pot.volume_ml = tapping->pot.volume_pct / 100.0 * tapping->request.charge_ml;
	tapping->pot.mass_kg = tapping->pot.mass_pct / 100.0 * tapping->request.charge_ml * 1e-6 *
			       BC_WATER_DENSITY_60F_KGM3 * mass_sg;
}

/* A grade asks for a flash, and of a jar that was filled above the pot limit none is claimed. */
static void refuse_cracked(struct bc_tap_job *job)
{
	struct bc_tapping *tapping = job->tapping;

	for (size_t i = 0; tapping->feasible && i < tapping->n_jars; i++) {
		const struct bc_jar *jar = &tapping->jars[i];
		if (jar->empty || jar->flash_claim || strcmp(jar->name, "product") != 0)
			continue;
		tapping->feasible = false;
		bc_strings_add(&tapping->binding, "no claim on the flash of the product: %s",
			jar->no_claim_why);
	}
}

enum bc_status bc_tap_fill_jars(struct bc_tap_job *job)
{
	struct bc_tapping *tapping = job->tapping;
	double over_ml = 0.0;

	for (size_t i = 0; i < job->n_jars; i++) {
		struct bc_jar *jar = &tapping->jars[i];
		place_jar(job, i, jar);
		tapping->n_jars = i + 1;
		enum bc_status status = fill_jar(job, jar);
		if (bc_failed(status))
			return status;
		over_ml += jar->volume_ml;
		jar->over_ml = over_ml;
	}
	fill_pot(tapping, tapping->feed.oil.slices.sg);
	refuse_cracked(job);
	return BC_OK;
}
