/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The published corrections around a boil-off: pressure, loss, percent evaporated, thermometer,
 * boiling water, altitude, and the precision of the standard test. */
#include "curve/correction.h"

#include <math.h>
#include <stddef.h>

/* Kelvin scale as the standard's formula rounds it; ASTM D86-12, from memory. */
#define YOUNG_ZERO_C 273.0

static enum bc_status range_status(int inside) { return inside ? BC_OK : BC_OUTSIDE_RANGE; }

static int within(double value, double min, double max) { return value >= min && value <= max; }

enum bc_status bc_sydney_young_corrected_c(
	double observed_c, double pressure_kpa, double *corrected_c)
{
	*corrected_c = NAN;
	if (!isfinite(observed_c) || !isfinite(pressure_kpa) || pressure_kpa <= 0.0 ||
		observed_c <= -273.15)
		return BC_BAD_DOMAIN;
	*corrected_c = observed_c + BC_YOUNG_PER_KPA * (BC_STANDARD_PRESSURE_KPA - pressure_kpa) *
					    (YOUNG_ZERO_C + observed_c);
	return range_status(within(observed_c, -50.0, 700.0) && within(pressure_kpa, 50.0, 110.0));
}

enum bc_status bc_sydney_young_observed_c(
	double corrected_c, double pressure_kpa, double *observed_c)
{
	*observed_c = NAN;
	if (!isfinite(corrected_c) || !isfinite(pressure_kpa) || pressure_kpa <= 0.0 ||
		corrected_c <= -273.15)
		return BC_BAD_DOMAIN;
	double k = BC_YOUNG_PER_KPA * (BC_STANDARD_PRESSURE_KPA - pressure_kpa);
	if (1.0 + k <= 0.0)
		return BC_BAD_DOMAIN;
	*observed_c = (corrected_c - k * YOUNG_ZERO_C) / (1.0 + k);
	return range_status(within(corrected_c, -50.0, 700.0) && within(pressure_kpa, 50.0, 110.0));
}

enum bc_status bc_loss_corrected_pct(double loss_pct, double pressure_kpa, double *corrected_pct)
{
	*corrected_pct = NAN;
	if (!isfinite(loss_pct) || !isfinite(pressure_kpa) || pressure_kpa <= 0.0 ||
		!within(loss_pct, 0.0, 100.0))
		return BC_BAD_DOMAIN;
	double denominator = 1.0 + (BC_STANDARD_PRESSURE_KPA - pressure_kpa) / 8.00;
	if (denominator <= 0.0)
		return BC_BAD_DOMAIN;
	*corrected_pct = 0.5 + (loss_pct - 0.5) / denominator;
	return range_status(within(loss_pct, 0.0, 20.0) && within(pressure_kpa, 70.0, 110.0));
}

enum bc_status bc_recovery_corrected_pct(
	double recovery_pct, double loss_pct, double corrected_loss_pct, double *corrected_pct)
{
	*corrected_pct = NAN;
	if (!isfinite(corrected_loss_pct) || !within(recovery_pct, 0.0, 100.0) ||
		!within(loss_pct, 0.0, 100.0))
		return BC_BAD_DOMAIN;
	*corrected_pct = recovery_pct + (loss_pct - corrected_loss_pct);
	return range_status(within(*corrected_pct, 0.0, 100.0));
}

enum bc_status bc_temp_at_evaporated_c(double evaporated_pct, double loss_pct, double low_pct,
	double low_c, double high_pct, double high_c, double *temp_c)
{
	*temp_c = NAN;
	if (!isfinite(evaporated_pct) || !isfinite(low_pct) || !isfinite(low_c) ||
		!isfinite(high_pct) || !isfinite(high_c) || !within(loss_pct, 0.0, 100.0))
		return BC_BAD_DOMAIN;
	if (high_pct <= low_pct || evaporated_pct < loss_pct)
		return BC_BAD_DOMAIN;
	double recovered_pct = evaporated_pct - loss_pct;
	*temp_c = low_c + (high_c - low_c) * (recovered_pct - low_pct) / (high_pct - low_pct);
	return range_status(within(recovered_pct, low_pct, high_pct));
}

enum bc_status bc_stem_correction_c(
	double reading_c, double immersion_c, double stem_c, double *correction_c)
{
	*correction_c = NAN;
	if (!isfinite(reading_c) || !isfinite(immersion_c) || !isfinite(stem_c))
		return BC_BAD_DOMAIN;
	double emergent = reading_c > immersion_c ? reading_c - immersion_c : 0.0;
	*correction_c = BC_STEM_PER_C * emergent * (reading_c - stem_c);
	return range_status(within(reading_c, -10.0, 400.0) && within(immersion_c, -10.0, 400.0) &&
			    within(stem_c, 0.0, 150.0));
}

enum bc_status bc_two_point_c(
	double reading_c, double ice_c, double steam_c, double steam_true_c, double *true_c)
{
	*true_c = NAN;
	if (!isfinite(reading_c) || !isfinite(ice_c) || !isfinite(steam_c) ||
		!isfinite(steam_true_c))
		return BC_BAD_DOMAIN;
	if (steam_c <= ice_c || steam_true_c <= 0.0)
		return BC_BAD_DOMAIN;
	*true_c = (reading_c - ice_c) * steam_true_c / (steam_c - ice_c);
	return range_status(within(ice_c, -10.0, 10.0) &&
			    within(steam_c - steam_true_c, -15.0, 15.0) &&
			    within(steam_true_c, 80.0, 103.0));
}

/* IAPWS-IF97, region 4, n1 to n10; from memory, the three values of its verification table come
 * out to six decimals. */
static const double water_n[] = {NAN, 0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2,
	0.12020824702470e5, -0.32325550322333e7, 0.14915108613530e2, -0.48232657361591e4,
	0.40511340542057e6, -0.23855557567849, 0.65017534844798e3};
#define WATER_CRITICAL_KPA 22064.0 /* same release */
#define WATER_CRITICAL_C 373.946
#define WATER_LOWEST_KPA 0.611213 /* at 273.15 K */

enum bc_status bc_water_boils_c(double pressure_kpa, double *temp_c)
{
	const double *n = water_n;
	*temp_c = NAN;
	if (!isfinite(pressure_kpa) || pressure_kpa <= 0.0 || pressure_kpa > WATER_CRITICAL_KPA)
		return BC_BAD_DOMAIN;
	double b = sqrt(sqrt(pressure_kpa / 1000.0));
	double e = b * b + n[3] * b + n[6];
	double f = n[1] * b * b + n[4] * b + n[7];
	double g = n[2] * b * b + n[5] * b + n[8];
	double d = 2.0 * g / (-f - sqrt(f * f - 4.0 * e * g));
	double sum = n[10] + d;
	/* eq. (31) */
	*temp_c = 0.5 * (sum - sqrt(sum * sum - 4.0 * (n[9] + n[10] * d))) - 273.15;
	if (!isfinite(*temp_c))
		return BC_BAD_DOMAIN;
	return range_status(pressure_kpa >= WATER_LOWEST_KPA);
}

enum bc_status bc_water_pressure_kpa(double temp_c, double *pressure_kpa)
{
	const double *n = water_n;
	*pressure_kpa = NAN;
	if (!within(temp_c, -20.0, WATER_CRITICAL_C))
		return BC_BAD_DOMAIN;
	double temp_k = temp_c + 273.15;
	double t = temp_k + n[9] / (temp_k - n[10]);
	double a = t * t + n[1] * t + n[2];
	double b = n[3] * t * t + n[4] * t + n[5];
	double c = n[6] * t * t + n[7] * t + n[8];
	double root = 2.0 * c / (-b + sqrt(b * b - 4.0 * a * c));
	*pressure_kpa = 1000.0 * root * root * root * root; /* eq. (30) */
	return range_status(temp_c >= 0.0);
}

enum bc_status bc_pressure_from_altitude_kpa(double altitude_m, double *pressure_kpa)
{
	*pressure_kpa = NAN;
	double base = 1.0 - 0.0065 * altitude_m / 288.15;
	if (!isfinite(altitude_m) || base <= 0.0)
		return BC_BAD_DOMAIN;
	*pressure_kpa = 101.325 * pow(base, 5.255876);
	return range_status(within(altitude_m, -500.0, 11000.0));
}

struct precision_row {
	const char *set;
	double from_pct;
	double to_pct;
	double repeatability_c;
	double repeatability_per_slope;
	double reproducibility_c;
	double reproducibility_per_slope;
	const char *source;
};

static const struct precision_row precision_rows[] = {
#include "d86-precision.inc"
};

static double row_reproducibility_c(const struct precision_row *row, double slope)
{
	return row->reproducibility_c + row->reproducibility_per_slope * slope;
}

enum bc_status bc_d86_reproducibility_c(
	double recovered_pct, double slope_c_per_pct, double *reproducibility_c)
{
	const size_t n = sizeof precision_rows / sizeof *precision_rows;

	*reproducibility_c = NAN;
	if (!within(recovered_pct, 0.0, 100.0) || !isfinite(slope_c_per_pct) ||
		slope_c_per_pct < 0.0)
		return BC_BAD_DOMAIN;
	size_t i = 0;
	while (i + 1 < n && recovered_pct > precision_rows[i].to_pct)
		i++;
	const struct precision_row *row = &precision_rows[i];
	double value = row_reproducibility_c(row, slope_c_per_pct);
	int between = recovered_pct < row->from_pct;
	if (between) {
		const struct precision_row *before = row - 1;
		double share = (recovered_pct - before->to_pct) / (row->from_pct - before->to_pct);
		value = share * value +
			(1.0 - share) * row_reproducibility_c(before, slope_c_per_pct);
	}
	*reproducibility_c = value;
	return range_status(!between && slope_c_per_pct <= 20.0);
}
