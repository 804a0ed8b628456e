/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Site and instrument: what carries a thermometer reading to the D86 basis and back, in the order
 * calibration, stem, pressure, thermometer kind. */
#include "curve/conditions.h"

#include <math.h>

#include "curve/correction.h"

/* Common practice for a cheap thermometer read to 1 degC, 95 %. */
#define READING_PLAIN_C 2.0
#define READING_ONE_POINT_C 1.5
#define READING_TWO_POINT_C 1.0 /* calibrated, so of the reading alone */
/* A check point itself, 95 %: common practice; above it the error grows as T/100. */
#define CHECK_POINT_C 0.5

/* 95 % half-widths of the pressure [kPa]: a household barometer, weather around the mean of an
 * altitude (both common practice), one degree of boiling water (slope of IAPWS-IF97 near 100). */
#define BAROMETER_KPA 0.3
#define WEATHER_KPA 1.5
#define WATER_KPA_PER_C 3.6
/* A site that nobody named: weather upwards, downwards about 1000 m of altitude. */
#define UNKNOWN_SITE_UP_KPA 2.0
#define UNKNOWN_SITE_DOWN_KPA 12.0

#define STEM_C 40.0 /* common practice for the thread beside a heated flask */

/* facts of the standard's note on toluene and hexadecane, one fit; from memory */
#define DELTA_FACTOR 1.24e-4
#define DELTA_ZERO_C 20.0

/* Beyond these a check point says more of a slip than of the thermometer; common practice. */
#define ICE_LIMIT_C 10.0
#define STEAM_LIMIT_C 15.0

double bc_thermometer_delta_c(double true_c)
{
	return DELTA_FACTOR * (true_c - DELTA_ZERO_C) * (true_c - DELTA_ZERO_C);
}

double bc_corrected_from_true(double true_c) { return true_c - bc_thermometer_delta_c(true_c); }

double bc_true_from_corrected(double corrected_c)
{
	double rise = corrected_c - DELTA_ZERO_C;
	double root = sqrt(1.0 - 4.0 * DELTA_FACTOR * rise);
	/* the root near the reading, written so that nothing cancels */
	return DELTA_ZERO_C + 2.0 * rise / (1.0 + root);
}

static double with_stem(const struct bc_conditions *conditions, double reading_c)
{
	double correction_c;

	if (!isfinite(conditions->immersion_c))
		return reading_c;
	bc_stem_correction_c(reading_c, conditions->immersion_c, conditions->stem_c, &correction_c);
	return reading_c + correction_c;
}

static double without_stem(const struct bc_conditions *conditions, double true_c)
{
	double immersion_c = conditions->immersion_c;
	double stem_c = conditions->stem_c;

	if (!isfinite(immersion_c) || true_c <= immersion_c)
		return true_c;
	/* T + k (T - immersion)(T - stem) = true, a quadratic in T */
	double b = 1.0 - BC_STEM_PER_C * (immersion_c + stem_c);
	double c = BC_STEM_PER_C * immersion_c * stem_c - true_c;
	return -2.0 * c / (b + sqrt(b * b - 4.0 * BC_STEM_PER_C * c));
}

/* What the steam point calibrates to: the stem stood out of the steam as well, and is added again
 * to every reading. */
static double steam_point_c(const struct bc_conditions *conditions)
{
	return without_stem(conditions, conditions->steam_true_c);
}

static double calibrated_from_reading(const struct bc_conditions *conditions, double reading_c)
{
	double true_c;

	if (isfinite(conditions->steam_c)) {
		double ice_c = isfinite(conditions->ice_c) ? conditions->ice_c : 0.0;
		bc_two_point_c(
			reading_c, ice_c, conditions->steam_c, steam_point_c(conditions), &true_c);
		return true_c;
	}
	return isfinite(conditions->ice_c) ? reading_c - conditions->ice_c : reading_c;
}

static double reading_from_calibrated(const struct bc_conditions *conditions, double true_c)
{
	double ice_c = isfinite(conditions->ice_c) ? conditions->ice_c : 0.0;

	if (isfinite(conditions->steam_c))
		return ice_c + true_c * (conditions->steam_c - ice_c) / steam_point_c(conditions);
	return true_c + ice_c;
}

/* Normal minus site temperature in the table, straight between its rows, flat beyond them. */
static double shift_c(const struct bc_pressure_shift *shift, const double *column, double temp_c)
{
	size_t last = shift->n - 1;
	size_t i = 0;

	if (temp_c <= column[0])
		return shift->normal_c[0] - shift->site_c[0];
	if (temp_c >= column[last])
		return shift->normal_c[last] - shift->site_c[last];
	while (column[i + 1] < temp_c)
		i++;
	double share = (temp_c - column[i]) / (column[i + 1] - column[i]);
	double below = shift->normal_c[i] - shift->site_c[i];
	double above = shift->normal_c[i + 1] - shift->site_c[i + 1];
	return below + share * (above - below);
}

static double normal_from_site(const struct bc_conditions *conditions, double site_c)
{
	double normal_c;

	if (conditions->shift.n > 0)
		return site_c + shift_c(&conditions->shift, conditions->shift.site_c, site_c);
	bc_sydney_young_corrected_c(site_c, conditions->pressure_kpa, &normal_c);
	return normal_c;
}

static double site_from_normal(const struct bc_conditions *conditions, double normal_c)
{
	double site_c;

	if (conditions->shift.n > 0)
		return normal_c - shift_c(&conditions->shift, conditions->shift.normal_c, normal_c);
	bc_sydney_young_observed_c(normal_c, conditions->pressure_kpa, &site_c);
	return site_c;
}

double bc_site_from_reading(const struct bc_conditions *conditions, double observed_c)
{
	return with_stem(conditions, calibrated_from_reading(conditions, observed_c));
}

static double normal_from_reading(const struct bc_conditions *conditions, double observed_c)
{
	return normal_from_site(conditions, bc_site_from_reading(conditions, observed_c));
}

double bc_true_from_reading(const struct bc_conditions *conditions, double observed_c)
{
	double normal_c = normal_from_reading(conditions, observed_c);

	return conditions->reads_true_vapour ? normal_c : bc_true_from_corrected(normal_c);
}

double bc_corrected_from_reading(const struct bc_conditions *conditions, double observed_c)
{
	double normal_c = normal_from_reading(conditions, observed_c);

	return conditions->reads_true_vapour ? bc_corrected_from_true(normal_c) : normal_c;
}

double bc_reading_from_corrected(const struct bc_conditions *conditions, double corrected_c)
{
	double normal_c =
		conditions->reads_true_vapour ? bc_true_from_corrected(corrected_c) : corrected_c;
	double site_c = site_from_normal(conditions, normal_c);

	return reading_from_calibrated(conditions, without_stem(conditions, site_c));
}

double bc_pressure_effect_c(double corrected_c, double change_kpa)
{
	return BC_YOUNG_PER_KPA * (273.0 + corrected_c) * change_kpa;
}

static double half_width_c(
	const struct bc_conditions *conditions, double corrected_c, double pressure_kpa)
{
	double reading = conditions->reading_half_width_c;
	double calibration = conditions->calibration_half_width_c * fmax(1.0, corrected_c / 100.0);
	double pressure = bc_pressure_effect_c(corrected_c, pressure_kpa);

	return sqrt(reading * reading + calibration * calibration + pressure * pressure);
}

double bc_corrected_half_width_c(const struct bc_conditions *conditions, double corrected_c)
{
	return half_width_c(conditions, corrected_c, conditions->pressure_half_width_kpa);
}

double bc_corrected_high_extra_c(const struct bc_conditions *conditions, double corrected_c)
{
	return half_width_c(conditions, corrected_c, conditions->pressure_down_kpa) -
	       bc_corrected_half_width_c(conditions, corrected_c);
}

double bc_corrected_low_extra_c(const struct bc_conditions *conditions, double corrected_c)
{
	if (conditions->thermometer != BC_THERMOMETER_NOT_STATED || conditions->tbp)
		return 0.0;
	return bc_thermometer_delta_c(corrected_c);
}

static void read_thermometer(const struct bc_sample *sample, struct bc_conditions *conditions,
	struct bc_strings *assumed)
{
	conditions->thermometer = sample->thermometer;
	conditions->tbp = sample->apparatus == BC_APPARATUS_TBP;
	conditions->stem_c = STEM_C;
	if (conditions->tbp) {
		conditions->reads_true_vapour = true;
		bc_strings_add(assumed, "apparatus tbp: readings are true vapour temperatures, "
					"whatever the thermometer");
		return;
	}
	switch (sample->thermometer) {
	case BC_THERMOMETER_NOT_STATED:
		bc_strings_add(assumed,
			"thermometer not stated: taken as 'glass d86', the standard's "
			"glass thermometer; a probe reads higher");
		break;
	case BC_THERMOMETER_GLASS_D86:
		break;
	case BC_THERMOMETER_GLASS_PARTIAL:
	case BC_THERMOMETER_PROBE:
		conditions->reads_true_vapour = true;
		break;
	case BC_THERMOMETER_GLASS_TOTAL:
		conditions->reads_true_vapour = isfinite(sample->immersion_c);
		conditions->immersion_c = sample->immersion_c;
		if (conditions->reads_true_vapour)
			bc_strings_add(assumed,
				"mean temperature of the stem outside the vapour: %.0f C", STEM_C);
		else
			bc_strings_add(assumed, "thermometer 'glass total' without 'immersion': "
						"taken as 'glass d86'");
		break;
	}
}

static void read_ice(const struct bc_sample *sample, struct bc_conditions *conditions,
	struct bc_strings *assumed)
{
	if (!isfinite(sample->ice_c))
		return;
	if (fabs(sample->ice_c) <= ICE_LIMIT_C)
		conditions->ice_c = sample->ice_c;
	else
		bc_strings_add(assumed,
			"ice %.1f C is too far from 0 C to be melting ice: not used",
			sample->ice_c);
}

static void set_pressure(struct bc_conditions *conditions, double pressure_kpa,
	double half_width_kpa, enum bc_pressure_source source)
{
	conditions->pressure_kpa = pressure_kpa;
	conditions->pressure_half_width_kpa = half_width_kpa;
	conditions->pressure_down_kpa = half_width_kpa;
	conditions->pressure_source = source;
}

/* Pressure from boiling water; false when the reading cannot be boiling water in the open. */
static bool pressure_from_water(const struct bc_sample *sample, struct bc_conditions *conditions,
	struct bc_strings *assumed)
{
	double offset_c = isfinite(conditions->ice_c) ? conditions->ice_c : 0.0;
	double pressure_kpa;
	enum bc_status status =
		bc_water_pressure_kpa(sample->water_boils_c - offset_c, &pressure_kpa);

	if (bc_failed(status) || pressure_kpa < 50.0 || pressure_kpa > 110.0) {
		bc_strings_add(assumed,
			"water boils %.1f C gives no pressure between 50 and 110 kPa: not used",
			sample->water_boils_c);
		return false;
	}
	if (conditions->reading_half_width_c > 0.0)
		conditions->water_own_share =
			fmin(conditions->own_half_width_c / conditions->reading_half_width_c, 1.0);
	set_pressure(conditions, pressure_kpa, WATER_KPA_PER_C * conditions->reading_half_width_c,
		BC_PRESSURE_WATER_BOILS);
	bc_strings_add(assumed, "pressure %.1f kPa, from boiling water%s", pressure_kpa,
		isfinite(conditions->ice_c) ? " less the ice offset" : "");
	return true;
}

static void assume_pressure(struct bc_conditions *conditions, struct bc_strings *assumed)
{
	set_pressure(
		conditions, BC_STANDARD_PRESSURE_KPA, UNKNOWN_SITE_UP_KPA, BC_PRESSURE_ASSUMED);
	conditions->pressure_down_kpa = UNKNOWN_SITE_DOWN_KPA;
	bc_strings_add(assumed, "pressure not given: 101.3 kPa, the sea's; every 100 m of "
				"altitude lowers the readings by about 0.5 C");
}

/* A barometer rules; an altitude beside it that tells another pressure widens the spread. */
static void read_barometer(const struct bc_sample *sample, struct bc_conditions *conditions,
	struct bc_strings *assumed)
{
	double apart_kpa = fabs(sample->barometer_kpa - conditions->altitude_kpa);

	set_pressure(conditions, sample->barometer_kpa,
		apart_kpa > BC_BAROMETER_ALTITUDE_KPA ? apart_kpa : BAROMETER_KPA,
		BC_PRESSURE_BAROMETER);
	if (isfinite(conditions->altitude_kpa))
		bc_strings_add(assumed,
			"altitude %.0f m not used for the pressure: the barometer is",
			sample->altitude_m);
}

static void read_pressure(const struct bc_sample *sample, struct bc_conditions *conditions,
	struct bc_strings *assumed)
{
	if (isfinite(sample->altitude_m) && bc_failed(bc_pressure_from_altitude_kpa(
						    sample->altitude_m, &conditions->altitude_kpa)))
		conditions->altitude_kpa = NAN;
	if (isfinite(sample->barometer_kpa)) {
		read_barometer(sample, conditions, assumed);
	} else if (isfinite(conditions->altitude_kpa)) {
		set_pressure(
			conditions, conditions->altitude_kpa, WEATHER_KPA, BC_PRESSURE_ALTITUDE);
		bc_strings_add(assumed, "pressure %.1f kPa, the mean at %.0f m",
			conditions->altitude_kpa, sample->altitude_m);
	} else if (!isfinite(sample->water_boils_c) ||
		   !pressure_from_water(sample, conditions, assumed)) {
		assume_pressure(conditions, assumed);
	}
}

/* 'water boils' with a known pressure: a steam point, unless there is one or it cannot be. */
static double steam_from_water(const struct bc_sample *sample, struct bc_conditions *conditions,
	struct bc_strings *assumed)
{
	double offset_c = isfinite(conditions->ice_c) ? conditions->ice_c : 0.0;
	double apart_c = sample->water_boils_c - offset_c - conditions->steam_true_c;

	if (!(fabs(apart_c) <= BC_WATER_UNLIKE_C)) {
		conditions->water_unlike_known = true;
		bc_strings_add(assumed, "water boils %.1f C does not go with %.1f kPa: not used",
			sample->water_boils_c, conditions->pressure_kpa);
		return NAN;
	}
	if (isfinite(sample->steam_c)) {
		bc_strings_add(assumed,
			"water boils %.1f C not used: pressure and steam point are "
			"known",
			sample->water_boils_c);
		return NAN;
	}
	bc_strings_add(assumed, "pressure is known: 'water boils' taken as the steam point");
	return sample->water_boils_c;
}

/* The steam point, which needs the pressure; with a known pressure 'water boils' is one too. */
static void read_steam(const struct bc_sample *sample, struct bc_conditions *conditions,
	struct bc_strings *assumed)
{
	double steam_c = sample->steam_c;
	bool from_water = conditions->pressure_source == BC_PRESSURE_WATER_BOILS;
	bool known = !from_water && conditions->pressure_source != BC_PRESSURE_ASSUMED;

	if (known && isfinite(sample->water_boils_c)) {
		double other_c = steam_from_water(sample, conditions, assumed);
		steam_c = isfinite(steam_c) ? steam_c : other_c;
	}
	if (!isfinite(steam_c))
		return;
	if (from_water) {
		bc_strings_add(assumed, "boiling water gives the pressure: 'steam' not used for "
					"calibration as well");
		return;
	}
	if (!(fabs(steam_c - conditions->steam_true_c) <= STEAM_LIMIT_C)) {
		bc_strings_add(assumed,
			"steam %.1f C, where water boils at %.1f C: too far, not used", steam_c,
			conditions->steam_true_c);
		return;
	}
	conditions->steam_c = steam_c;
	if (!isfinite(conditions->ice_c))
		bc_strings_add(assumed, "steam point without ice point: ice taken as 0 C");
}

static void read_spread(const struct bc_sample *sample, struct bc_conditions *conditions)
{
	bool ice = isfinite(conditions->ice_c);
	bool steam = isfinite(conditions->steam_c);

	if (isfinite(sample->reading_error_c) && sample->reading_error_c >= 0.0) {
		conditions->reading_half_width_c = sample->reading_error_c;
		conditions->own_half_width_c = sample->reading_error_c;
		return;
	}
	conditions->own_half_width_c = READING_TWO_POINT_C;
	conditions->reading_half_width_c = ice || steam ? READING_ONE_POINT_C : READING_PLAIN_C;
	if (ice && steam) {
		conditions->reading_half_width_c = READING_TWO_POINT_C;
		conditions->calibration_half_width_c = CHECK_POINT_C;
	}
}

static void read_pressure_error(const struct bc_sample *sample, struct bc_conditions *conditions)
{
	if (!(sample->pressure_error_kpa >= 0.0))
		return;
	conditions->pressure_half_width_kpa = sample->pressure_error_kpa;
	conditions->pressure_down_kpa = sample->pressure_error_kpa;
}

enum bc_status bc_conditions_from_sample(const struct bc_sample *sample,
	struct bc_conditions *conditions, struct bc_strings *assumed)
{
	*conditions = (struct bc_conditions){
		.ice_c = NAN,
		.steam_c = NAN,
		.immersion_c = NAN,
		.altitude_kpa = NAN,
	};
	read_thermometer(sample, conditions, assumed);
	read_ice(sample, conditions, assumed);
	read_spread(sample, conditions);
	read_pressure(sample, conditions, assumed);
	enum bc_status status =
		bc_water_boils_c(conditions->pressure_kpa, &conditions->steam_true_c);
	if (bc_failed(status))
		return status;
	read_steam(sample, conditions, assumed);
	read_spread(sample, conditions);
	read_pressure_error(sample, conditions);
	if (!isfinite(sample->reading_error_c))
		bc_strings_add(
			assumed, "reading error %.1f C (95 %%)", conditions->reading_half_width_c);
	return assumed->failed ? BC_NO_MEMORY : BC_OK;
}
