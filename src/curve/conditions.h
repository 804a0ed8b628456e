/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_CONDITIONS_H
#define BC_CURVE_CONDITIONS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "base/strings.h"
#include "sample/sample.h"

enum bc_pressure_source {
	BC_PRESSURE_BAROMETER,
	BC_PRESSURE_ALTITUDE,
	BC_PRESSURE_WATER_BOILS,
	BC_PRESSURE_ASSUMED
};

/*
 * Boiling temperatures at the site against those at 101.3 kPa, from the vapour pressure of
 * slices; rises in both columns. Filled by fuel/ and handed down; used below about 84.5 kPa.
 */
#define BC_PRESSURE_SHIFT_ROWS 96
struct bc_pressure_shift {
	double site_c[BC_PRESSURE_SHIFT_ROWS];
	double normal_c[BC_PRESSURE_SHIFT_ROWS];
	size_t n; /* 0: Sydney Young is used */
};

/* Site, instrument and apparatus: all that carries a reading to the D86 basis and back. */
struct bc_conditions {
	double pressure_kpa;
	double pressure_half_width_kpa; /* 95 %, upwards, and downwards too unless assumed */
	double pressure_down_kpa;       /* 95 %, downwards */
	enum bc_pressure_source pressure_source;
	double altitude_kpa;     /* the mean at the stated altitude; NaN: none stated */
	bool water_unlike_known; /* 'water boils' contradicts a known pressure: not used */
	struct bc_pressure_shift shift;

	enum bc_thermometer thermometer;
	bool reads_true_vapour; /* after calibration and stem correction */
	bool tbp;               /* apparatus,tbp */
	double ice_c;           /* NaN: no such check point */
	double steam_c;
	double steam_true_c;         /* where water boils at pressure_kpa; the steam point holds
					the emergent stem already */
	double immersion_c;          /* NaN: no stem correction */
	double stem_c;               /* mean temperature of the emergent thread, assumed */
	double reading_half_width_c; /* 95 %, of one reading */
	double own_half_width_c;     /* the part of it that each reading has for itself; the rest
					all readings share */
	double water_own_share;      /* of the error of the reading in boiling water that gave the
					pressure: own / reading, as above */
	double calibration_half_width_c; /* 95 %, of the check points, growing as T/100 above 100
					    degC */
};

/*
 * bc_conditions_from_sample - what the sample says of site and instrument
 *
 * Every default that had to be assumed, and every source of pressure that is not used, is added to
 * assumed in words. A pressure that nobody gave is in truth that of the sea or lower. Boiling water
 * gives pressure or calibration, never both (design section 4). Status BC_OK, BC_BAD_DOMAIN,
 * BC_NO_MEMORY.
 */
enum bc_status bc_conditions_from_sample(const struct bc_sample *sample,
	struct bc_conditions *conditions, struct bc_strings *assumed);

/* Observed reading -> what the instrument should have shown: calibration and stem only, still at
 * the pressure of the site [degC]. */
double bc_site_from_reading(const struct bc_conditions *conditions, double observed_c);

/* Observed reading -> true vapour temperature at 101.3 kPa, and -> D86 basis [degC]. */
double bc_true_from_reading(const struct bc_conditions *conditions, double observed_c);
double bc_corrected_from_reading(const struct bc_conditions *conditions, double observed_c);

/* D86 basis or true vapour at 101.3 kPa -> what this thermometer shows here [degC]. */
double bc_reading_from_corrected(const struct bc_conditions *conditions, double corrected_c);

/* D86 basis <-> true vapour, both at 101.3 kPa: reading = T - delta(T), delta = 1.24e-4 (T-20)^2.
 * Source: facts of the standard's note on toluene and hexadecane; one fit, from memory. */
double bc_thermometer_delta_c(double true_c);
double bc_corrected_from_true(double true_c);
double bc_true_from_corrected(double corrected_c);

/* Half-width (95 %) of a corrected reading at corrected_c: reading, calibration, pressure. */
double bc_corrected_half_width_c(const struct bc_conditions *conditions, double corrected_c);
/* What the low side has beyond that: delta where the thermometer is not stated, since it may have
 * read true vapour; else 0. */
double bc_corrected_low_extra_c(const struct bc_conditions *conditions, double corrected_c);
/* What the high side has beyond that: a pressure that nobody gave may be much lower; else 0. */
double bc_corrected_high_extra_c(const struct bc_conditions *conditions, double corrected_c);

/* What of a reading's error changes from reading to reading, 95 %: that of a thermometer with both
 * check points; the rest is the same in all readings of one thermometer. Common practice. */
#define BC_READING_RANDOM_C 1.0

/* By how much a change of pressure moves a corrected temperature [degC]. */
double bc_pressure_effect_c(double corrected_c, double change_kpa);

/* A barometer and an altitude that differ by more mean a pressure reduced to sea level, or a slip;
 * weather alone seldom moves the pressure so far; common practice [kPa]. */
#define BC_BAROMETER_ALTITUDE_KPA 3.0
/* ... and boiling water further from a known pressure is no calibration; common practice [degC]. */
#define BC_WATER_UNLIKE_C 3.0

#endif
