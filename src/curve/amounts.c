/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From amounts as read (percent, mL, g, with or without water) to percent of the dry charge by
 * volume. */
#include "curve/amounts.h"

#include <math.h>

#include "base/units.h"
#include "curve/water.h"

static int by_mass(const struct bc_sample *sample)
{
	return sample->amount_basis == BC_AMOUNT_MASS_PCT ||
	       sample->amount_basis == BC_AMOUNT_MASS_G;
}

static double density_g_per_ml(const struct bc_sample *sample)
{
	double density =
		isfinite(sample->density_kgm3) ? sample->density_kgm3 : BC_DENSITY_ASSUMED_KGM3;

	return density / 1000.0;
}

/* The charge is known by its mass alone. */
static int only_weighed(const struct bc_sample *sample)
{
	return !sample->charge_stated && isfinite(sample->charge_g);
}

double bc_charge_ml(const struct bc_sample *sample)
{
	return only_weighed(sample) ? sample->charge_g / density_g_per_ml(sample)
				    : sample->charge_ml;
}

/* As stated in percent of the charge, or else in mL; 0 where neither is given. */
static double part_ml(const struct bc_sample *sample, double ml, double pct)
{
	return isfinite(pct) ? pct / 100.0 * bc_charge_ml(sample) : ml;
}

double bc_water_ml(const struct bc_sample *sample)
{
	double water_ml = part_ml(sample, sample->water_ml, sample->water_pct);

	return water_ml > 0.0 ? water_ml : 0.0;
}

double bc_part_pct(const struct bc_sample *sample, double ml, double pct)
{
	return 100.0 * part_ml(sample, ml, pct) / (bc_charge_ml(sample) - bc_water_ml(sample));
}

static double charge_g(const struct bc_sample *sample)
{
	if (isfinite(sample->charge_g))
		return sample->charge_g;
	return sample->charge_ml * density_g_per_ml(sample);
}

double bc_share_pct(const struct bc_sample *sample, double amount)
{
	switch (sample->amount_basis) {
	case BC_AMOUNT_VOLUME_PCT:
	case BC_AMOUNT_MASS_PCT:
		return amount;
	case BC_AMOUNT_VOLUME_ML:
		return 100.0 * amount / bc_charge_ml(sample);
	case BC_AMOUNT_MASS_G:
		return 100.0 * amount / charge_g(sample);
	}
	return NAN;
}

/* A volume is set against the charge. */
static int charge_matters(const struct bc_sample *sample)
{
	return sample->amount_basis == BC_AMOUNT_VOLUME_ML || isfinite(sample->residue_ml) ||
	       isfinite(sample->loss_ml) || isfinite(sample->water_ml);
}

void bc_amounts_say(const struct bc_sample *sample, struct bc_strings *assumed)
{
	int dense = isfinite(sample->density_kgm3);

	if (sample->amount_basis == BC_AMOUNT_MASS_G && !isfinite(sample->charge_g))
		bc_strings_add(assumed,
			"mass of the charge not given: %.1f g, %.1f mL at %.2f g/mL",
			charge_g(sample), sample->charge_ml, density_g_per_ml(sample));
	else if (only_weighed(sample) && !dense)
		bc_strings_add(assumed,
			"density not given: 0.80 g/mL, which makes the charge %.1f mL",
			bc_charge_ml(sample));
	else if (!sample->charge_stated && charge_matters(sample))
		bc_strings_add(assumed, "charge not given in mL: %.1f mL", bc_charge_ml(sample));
	if (by_mass(sample))
		bc_strings_add(
			assumed, "mass turned into volume along the curve at constant Watson K");
}

double bc_water_pct(const struct bc_sample *sample)
{
	double water_ml = bc_water_ml(sample);

	if (by_mass(sample))
		return 100.0 * water_ml * BC_WATER_G_PER_ML / charge_g(sample);
	return 100.0 * water_ml / bc_charge_ml(sample);
}

/* Volume of one percent of mass, but for a factor. */
static double specific_volume(double temp_c) { return 1.0 / cbrt(bc_temp_k_from_c(temp_c)); }

void bc_volume_from_mass(struct bc_point *points, size_t n, double loss_pct)
{
	double mass = 0.0;
	double volume = 0.0;
	double before = NAN; /* specific volume at the last point */
	double first = NAN;

	for (size_t i = 0; i < n; i++) {
		struct bc_point *point = &points[i];
		int end_point = point->kind == BC_READING_FBP || point->kind == BC_READING_DRY;
		if (!point->used || end_point)
			continue;
		double here = specific_volume(point->corrected_c);
		if (isnan(first))
			first = before = here;
		double share = point->recovered_pct - mass;
		mass = point->recovered_pct;
		volume += share * 0.5 * (before + here);
		before = here;
		point->recovered_pct = volume;
	}
	double left = fmax(100.0 - mass - loss_pct, 0.0);
	double whole = volume + left * before + loss_pct * first;
	for (size_t i = 0; i < n; i++) {
		if (points[i].used)
			points[i].recovered_pct *= 100.0 / whole;
	}
}
