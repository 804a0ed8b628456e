/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far a lower barometer moves boiling points, from the vapour pressure of fractions. */
#include "fuel/pressure_shift.h"

#include <math.h>
#include <stdbool.h>

#include "base/units.h"
#include "curve/correction.h"
#include "fuel/component.h"

static const double watson_k_mixed = 12.0; /* paraffinic to mixed oils, UOP 375; seen */
static const double first_row_c = -40.0;
static const double row_step_c = 7.5;

/* Where a fraction that boils at normal_k at 101.3 kPa boils at pressure_bar. */
static enum bc_status site_temp_k(double normal_k, double pressure_bar, double *site_k)
{
	double sg = cbrt(1.8 * normal_k) / watson_k_mixed;
	double critical_k = NAN;
	double critical_bar = NAN;
	double omega = NAN;
	if (bc_failed(bc_critical_temp_kesler_lee_k(normal_k, sg, &critical_k)) ||
		bc_failed(bc_critical_pressure_kesler_lee_bar(normal_k, sg, &critical_bar)) ||
		bc_failed(bc_omega_from_boiling(normal_k, critical_k, critical_bar, &omega)))
		return BC_BAD_DOMAIN;
	double low = 0.7 * normal_k;
	double high = 1.2 * normal_k;
	while (high - low > 1e-7) {
		double middle = 0.5 * (low + high);
		double bar = NAN;
		bc_vapour_pressure_lee_kesler_bar(middle, critical_k, critical_bar, omega, &bar);
		if (bar < pressure_bar)
			low = middle;
		else
			high = middle;
	}
	*site_k = 0.5 * (low + high);
	return BC_OK;
}

/* The same by Sydney Young and by slices in the proportion of this pressure. */
static enum bc_status blended_site_c(double normal_c, double pressure_kpa, double *site_c)
{
	double span_kpa = BC_PRESSURE_SHIFT_BELOW_KPA - BC_PRESSURE_SHIFT_ALONE_KPA;
	double share = fmin((BC_PRESSURE_SHIFT_BELOW_KPA - pressure_kpa) / span_kpa, 1.0);
	double site_k = NAN;
	double young_c = NAN;
	enum bc_status status =
		site_temp_k(bc_temp_k_from_c(normal_c), pressure_kpa / 100.0, &site_k);
	if (bc_failed(status))
		return status;
	status = bc_sydney_young_observed_c(normal_c, pressure_kpa, &young_c);
	*site_c = share * bc_temp_c_from_k(site_k) + (1.0 - share) * young_c;
	return bc_failed(status) ? status : BC_OK;
}

enum bc_status bc_pressure_shift_fill(double pressure_kpa, struct bc_pressure_shift *shift)
{
	shift->n = 0;
	if (!isfinite(pressure_kpa) || pressure_kpa <= 0.0)
		return BC_BAD_DOMAIN;
	bool inside = pressure_kpa >= 50.0 && pressure_kpa <= 110.0;
	enum bc_status result = inside ? BC_OK : BC_OUTSIDE_RANGE;
	if (pressure_kpa >= BC_PRESSURE_SHIFT_BELOW_KPA)
		return result;
	for (size_t i = 0; i < BC_PRESSURE_SHIFT_ROWS; i++) {
		shift->normal_c[i] = first_row_c + row_step_c * (double)i;
		enum bc_status status =
			blended_site_c(shift->normal_c[i], pressure_kpa, &shift->site_c[i]);
		if (bc_failed(status))
			return status;
	}
	shift->n = BC_PRESSURE_SHIFT_ROWS;
	return result;
}
