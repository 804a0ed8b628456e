/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From amounts as read (percent, mL, g, with or without water) to percent of the dry charge by
 * volume. */
#include "curve/amounts.h"

#include <math.h>

#include "base/units.h"

#define WATER_G_PER_ML                                                                             \
	0.998 /* at 20 degC; Tanaka's formula, tabulated value seen in a public copy */

/* Benzene, the oil component that boils with water at the lowest head worth a shelf, does so at
 * 69.1 degC: 31 below water alone. Computed from Antoine constants and IAPWS-IF97. */
#define SHELF_BELOW_C 31.0
#define SHELF_ABOVE_C 1.0 /* finest reading of a cheap thermometer; common practice */

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

double bc_charge_ml(const struct bc_sample *sample)
{
	int density_counts = isfinite(sample->density_kgm3) || by_mass(sample);

	if (!sample->charge_stated && isfinite(sample->charge_g) && density_counts)
		return sample->charge_g / density_g_per_ml(sample);
	return sample->charge_ml;
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

void bc_amounts_say(const struct bc_sample *sample, struct bc_strings *assumed)
{
	enum bc_amount_basis basis = sample->amount_basis;

	if (basis == BC_AMOUNT_VOLUME_ML && !sample->charge_stated)
		bc_strings_add(assumed, "charge not given in mL: %.1f mL", bc_charge_ml(sample));
	if (basis == BC_AMOUNT_MASS_G && !isfinite(sample->charge_g) &&
		!isfinite(sample->density_kgm3))
		bc_strings_add(assumed,
			"mass of the charge not given: %.1f g, %.1f mL at 0.80 g/mL",
			charge_g(sample), sample->charge_ml);
	if (by_mass(sample))
		bc_strings_add(
			assumed, "mass turned into volume along the curve at constant Watson K");
}

static double water_pct(const struct bc_sample *sample)
{
	if (!(sample->water_ml > 0.0))
		return 0.0;
	if (by_mass(sample))
		return 100.0 * sample->water_ml * WATER_G_PER_ML / charge_g(sample);
	return 100.0 * sample->water_ml / bc_charge_ml(sample);
}

/* Percents between which the water came over. */
static void find_shelf(const struct bc_conditions *conditions, const struct bc_point *points,
	size_t n, double *from_pct, double *to_pct)
{
	*from_pct = 0.0;
	*to_pct = 0.0;
	for (size_t i = 0; i < n; i++) {
		if (points[i].kind != BC_READING_AMOUNT)
			continue;
		double below_c = conditions->steam_true_c -
				 bc_site_from_reading(conditions, points[i].observed_c);
		if (below_c < -SHELF_ABOVE_C)
			return;
		if (below_c > SHELF_BELOW_C)
			*from_pct = points[i].recovered_pct;
		*to_pct = points[i].recovered_pct;
	}
}

void bc_water_taken_out(const struct bc_sample *sample, const struct bc_conditions *conditions,
	struct bc_point *points, size_t n)
{
	double water = water_pct(sample);
	double from_pct;
	double to_pct;

	if (!(water > 0.0 && water < 100.0))
		return;
	find_shelf(conditions, points, n, &from_pct, &to_pct);
	/* no more water than distillate can have come over */
	to_pct = fmax(to_pct, from_pct + water);
	double before = 0.0;
	for (size_t i = 0; i < n; i++) {
		struct bc_point *point = &points[i];
		if (point->kind != BC_READING_AMOUNT)
			continue;
		double share = (point->recovered_pct - from_pct) / (to_pct - from_pct);
		double out = water * fmin(fmax(share, 0.0), 1.0);
		double oil = (point->recovered_pct - out) * 100.0 / (100.0 - water);
		point->used = point->used && oil > before + 1e-9;
		point->recovered_pct = fmax(oil, before);
		before = point->recovered_pct;
	}
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
