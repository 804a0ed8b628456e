/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_POINTS_H
#define BC_CURVE_POINTS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/estimate.h"
#include "base/status.h"
#include "curve/boiloff.h"
#include "curve/conditions.h"
#include "curve/curve.h"
#include "curve/fit.h"

/* The percents at which a boil-off is reported, on percent recovered; 0 is IBP, 100 is FBP. */
enum bc_point_at {
	BC_AT_IBP,
	BC_AT_T5,
	BC_AT_T10,
	BC_AT_T20,
	BC_AT_T30,
	BC_AT_T40,
	BC_AT_T50,
	BC_AT_T60,
	BC_AT_T70,
	BC_AT_T80,
	BC_AT_T90,
	BC_AT_T95,
	BC_AT_FBP,
	BC_POINTS
};
extern const char *const bc_point_keys[BC_POINTS]; /* "ibp_c", "t5_c", ... */
extern const double bc_point_pct[BC_POINTS];       /* 0, 5, 10, ... 95, 100 */

enum { BC_EVAPORATED_POINTS = 3, BC_EVAPORATED_AT = 4, BC_RECOVERED_AT = 7 };
extern const double bc_evaporated_point_pct[BC_EVAPORATED_POINTS]; /* 10 50 90 */
extern const double bc_evaporated_at_c[BC_EVAPORATED_AT];          /* 70 100 150 180 */
extern const double bc_recovered_at_c[BC_RECOVERED_AT];            /* 180 200 210 250 300 350 360 */

/*
 * A reader of one curve, inside the readings and outside. Inside, values come from the monotone
 * curve; outside only from the fit, moved to meet the outermost reading, and marked; without a fit
 * they are absent.
 */
struct bc_reader {
	const struct bc_boiloff *boiloff;
	const struct bc_conditions *conditions;
	const struct bc_curve *curve; /* IBP, percent readings, FBP where read */
	const struct bc_fit *fit;     /* NULL: none */
};

/* Temperature [degC, corrected] at a percent recovered, with 95 % bounds. *extrapolated, if not
 * NULL, says whether the fit had to answer. */
struct bc_estimate bc_reader_temp_c(
	const struct bc_reader *reader, double recovered_pct, bool *extrapolated);

/* ... at a percent evaporated (observed loss), by the standard's linear rule between readings. */
struct bc_estimate bc_reader_temp_at_evaporated_c(
	const struct bc_reader *reader, double evaporated_pct);

/* Percent recovered, or evaporated, at a corrected temperature. Below the first point 0, above the
 * last point of a curve with FBP its end. */
struct bc_estimate bc_reader_recovered_pct(const struct bc_reader *reader, double corrected_c);
struct bc_estimate bc_reader_evaporated_pct(const struct bc_reader *reader, double corrected_c);

/*
 * bc_reader_random_c - what is not the same in two runs of one oil at one rig
 *
 * Given     reader of one run, recovered_pct on its curve; table_pct where the precision table is
 *           read, 0 for IBP, 100 for FBP
 * Returned  95 % half-width of one run [degC]: reading (at most BC_READING_RANDOM_C), volume by the
 *           slope, and repeatability r/sqrt(2), by squares; *published_r_c, if not NULL, r itself
 * Source    as the bounds of the points; r of ASTM D86-04b/07b, groups 2 to 4, from memory
 */
double bc_reader_random_c(const struct bc_reader *reader, double recovered_pct, double table_pct,
	double *published_r_c);
/* The fit beyond the readings, moved to meet the outermost of them [degC]; NaN without a fit. */
double bc_reader_beyond_c(const struct bc_reader *reader, double recovered_pct);
/* The bare values behind them, for many curves in turn; NaN where nothing is known. By the
 * standard's straight lines: temperature at a percent evaporated, percent recovered at a
 * temperature between two readings. */
double bc_boiloff_temp_at_evaporated_c(const struct bc_boiloff *boiloff, double evaporated_pct);
double bc_boiloff_linear_pct(const struct bc_boiloff *boiloff, double corrected_c);
/* Percent recovered at a temperature, on the curve or by the fit beyond it. */
double bc_reader_pct(const struct bc_reader *reader, double corrected_c);
/* What one run of the test may be off another's [degC], 95 %: R/sqrt(2) of ASTM D86, groups 2 to
 * 4, manual, at a percent recovered; 0 is the IBP where one was read. From 95 % on the slope is
 * that of the last 5 %, as the standard takes it; from memory. */
double bc_reader_run_half_width_c(const struct bc_reader *reader, double recovered_pct);

/* All reported points. */
struct bc_points {
	struct bc_estimate at[BC_POINTS];
	bool extrapolated[BC_POINTS];
	struct bc_estimate evaporated_point[BC_EVAPORATED_POINTS];
	struct bc_estimate evaporated_at[BC_EVAPORATED_AT];
	struct bc_estimate recovered_at[BC_RECOVERED_AT];
};
void bc_points_read(const struct bc_reader *reader, struct bc_points *points);

#endif
