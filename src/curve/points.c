/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One boil-off read at percents and at temperatures, inside the readings by the monotone curve and
 * outside by the fit, each figure with its 95 % bounds. */
#include "curve/points.h"

#include <math.h>

#include "base/stats.h"
#include "curve/correction.h"
#include "curve/precision_forms.h"

const char *const bc_point_keys[BC_POINTS] = {"ibp_c", "t5_c", "t10_c", "t20_c", "t30_c", "t40_c",
	"t50_c", "t60_c", "t70_c", "t80_c", "t90_c", "t95_c", "fbp_c"};
const double bc_point_pct[BC_POINTS] = {0, 5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95, 100};
const double bc_evaporated_point_pct[BC_EVAPORATED_POINTS] = {10, 50, 90};
const double bc_evaporated_at_c[BC_EVAPORATED_AT] = {70, 100, 150, 180};
const double bc_recovered_at_c[BC_RECOVERED_AT] = {180, 200, 210, 250, 300, 350, 360};

/* Half of the 20 % over which the standard's own slope is taken; ASTM D86, from memory. */
#define SLOPE_REACH_PCT 10.0

static double clamp(double value, double low, double high) { return fmin(fmax(value, low), high); }

/* Mean slope around a percent, never negative [degC/%]. */
static double slope_over(const struct bc_curve *curve, double from_pct, double to_pct)
{
	double first = bc_curve_first_pct(curve);
	double last = bc_curve_last_pct(curve);
	double from = clamp(from_pct, first, last);
	double to = clamp(to_pct, first, last);

	if (to <= from)
		return 0.0;
	return fmax((bc_curve_temp_c(curve, to) - bc_curve_temp_c(curve, from)) / (to - from), 0.0);
}

static double slope_around(const struct bc_curve *curve, double pct)
{
	return slope_over(curve, pct - SLOPE_REACH_PCT, pct + SLOPE_REACH_PCT);
}

/* Of a mean of runs, the error of the mean. */
static double volume_half_width_pct(const struct bc_reader *reader)
{
	const struct bc_runs_spread *runs = reader->boiloff->runs;
	double one_run = reader->boiloff->volume_half_width_pct;

	return runs ? one_run / sqrt((double)runs->runs) : one_run;
}

/* ... carried to temperatures by the slope; the spread between runs holds it already. */
static double volume_part_c(const struct bc_reader *reader, double slope)
{
	return reader->boiloff->runs ? 0.0 : slope * volume_half_width_pct(reader);
}

/* Repeatability and reproducibility of the standard test; 0 where there is none. */
static void precision_c(double table_pct, double slope, double *r_c, double *R_c)
{
	double other_c;

	*R_c = 0.0;
	bc_d86_reproducibility_c(table_pct, slope, R_c);
	if (bc_failed(bc_d86_precision_c(BC_PRECISION_24_MANUAL, table_pct, slope, r_c, &other_c)))
		*r_c = 0.0;
}

/* One place's part of the reproducibility of a mean of runs, all of it for one run [degC]. */
static double place_part_c(const struct bc_reader *reader, double r_c, double R_c)
{
	return reader->boiloff->runs ? sqrt(fmax(R_c * R_c - r_c * r_c, 0.0)) : R_c;
}

double bc_reader_run_half_width_c(const struct bc_reader *reader, double recovered_pct)
{
	bool ibp = isfinite(reader->boiloff->ibp_c) && !(recovered_pct > 0.0);
	double table_pct = ibp ? 0.0 : clamp(recovered_pct, 5.0, 95.0);
	double r_c;
	double R_c;

	double reach_pct = recovered_pct < 95.0 ? SLOPE_REACH_PCT : 0.5 * SLOPE_REACH_PCT;
	double slope =
		slope_over(reader->curve, recovered_pct - reach_pct, recovered_pct + reach_pct);
	precision_c(table_pct, slope, &r_c, &R_c);
	return place_part_c(reader, r_c, R_c) / sqrt(2.0);
}

double bc_reader_random_c(const struct bc_reader *reader, double recovered_pct, double table_pct,
	double *published_r_c)
{
	double slope = slope_around(reader->curve, recovered_pct);
	double r_c;
	double R_c;

	precision_c(table_pct, slope, &r_c, &R_c);
	if (published_r_c)
		*published_r_c = r_c;
	double parts[3] = {
		fmin(reader->conditions->reading_half_width_c, BC_READING_RANDOM_C),
		slope * volume_half_width_pct(reader),
		r_c / sqrt(2.0),
	};
	return bc_root_sum_square(parts, 3);
}

/* Reading and the standard's own reproducibility, without the volume [degC]. Of a mean of runs:
 * what the runs share, one place's part of the reproducibility among it, and their spread. */
static double test_half_width_c(
	const struct bc_reader *reader, double table_pct, double slope, double temp_c)
{
	const struct bc_runs_spread *runs = reader->boiloff->runs;
	double r_c;
	double R_c;

	precision_c(table_pct, slope, &r_c, &R_c);
	double parts[3] = {
		bc_corrected_half_width_c(reader->conditions, temp_c),
		place_part_c(reader, r_c, R_c) / sqrt(2.0),
		runs ? bc_runs_spread_c(runs, table_pct) : 0.0,
	};
	return bc_root_sum_square(parts, 3);
}

static struct bc_estimate with_bounds(
	const struct bc_reader *reader, double temp_c, double half_width_c, enum bc_how how)
{
	struct bc_estimate estimate = bc_estimate_new(temp_c, half_width_c, how);

	estimate.low -= bc_corrected_low_extra_c(reader->conditions, temp_c);
	estimate.high += bc_corrected_high_extra_c(reader->conditions, temp_c);
	return estimate;
}

/* table_pct: where the precision table is read; 0 is IBP, 100 is FBP. */
static struct bc_estimate inside(
	const struct bc_reader *reader, double recovered_pct, double table_pct)
{
	double temp_c = bc_curve_temp_c(reader->curve, recovered_pct);
	double slope = slope_around(reader->curve, recovered_pct);
	double parts[2] = {
		test_half_width_c(reader, table_pct, slope, temp_c),
		volume_part_c(reader, slope),
	};

	return with_bounds(reader, temp_c, bc_root_sum_square(parts, 2), BC_MEASURED);
}

/* How far the fit has to be moved to meet the outermost reading: beyond it the curve goes on from
 * there. Without this 90 % is missed by 3 to 13 % more where a D86 is cut off at 50 to 80 %
 * (computed on 31 measured curves). */
static double fit_shift_c(const struct bc_reader *reader, double edge_pct)
{
	return bc_curve_temp_c(reader->curve, edge_pct) - bc_fit_temp_c(reader->fit, edge_pct);
}

double bc_reader_beyond_c(const struct bc_reader *reader, double recovered_pct)
{
	double first = bc_curve_first_pct(reader->curve);
	double edge_pct = recovered_pct < first ? first : bc_curve_last_pct(reader->curve);

	return bc_fit_temp_c(reader->fit, recovered_pct) + fit_shift_c(reader, edge_pct);
}

/* Beyond the readings the fit answers; the spread grows by twice its rms and by half the way from
 * the nearest reading. */
static struct bc_estimate outside(const struct bc_reader *reader, double recovered_pct)
{
	double first = bc_curve_first_pct(reader->curve);
	double edge_pct = recovered_pct < first ? first : bc_curve_last_pct(reader->curve);
	double edge_c = bc_curve_temp_c(reader->curve, edge_pct);
	double temp_c = bc_reader_beyond_c(reader, recovered_pct);

	if (!isfinite(temp_c) || recovered_pct > reader->boiloff->end_pct)
		return bc_estimate_absent();
	double slope = slope_around(reader->curve, edge_pct);
	double parts[4] = {
		test_half_width_c(reader, clamp(recovered_pct, 5.0, 95.0), slope, temp_c),
		volume_part_c(reader, slope),
		2.0 * reader->fit->rms_c,
		0.5 * fabs(temp_c - edge_c),
	};
	return with_bounds(reader, temp_c, bc_root_sum_square(parts, 4), BC_ESTIMATED);
}

static bool on_curve(const struct bc_reader *reader, double recovered_pct)
{
	return recovered_pct >= bc_curve_first_pct(reader->curve) &&
	       recovered_pct <= bc_curve_last_pct(reader->curve);
}

struct bc_estimate bc_reader_temp_c(
	const struct bc_reader *reader, double recovered_pct, bool *extrapolated)
{
	bool curve = on_curve(reader, recovered_pct);
	struct bc_estimate estimate = curve ? inside(reader, recovered_pct, recovered_pct)
					    : outside(reader, recovered_pct);

	if (extrapolated)
		*extrapolated = !curve && bc_estimate_present(&estimate);
	return estimate;
}

/* Neighbouring points in use, for the standard's straight lines: the last pair for which
 * value(below) <= wanted <= value(above). */
struct pair {
	const struct bc_point *below;
	const struct bc_point *above;
};

enum pair_by { PAIR_BY_PERCENT, PAIR_BY_TEMPERATURE };

static bool find_pair(
	const struct bc_boiloff *boiloff, enum pair_by by, double wanted, struct pair *pair)
{
	const struct bc_point *before = NULL;
	bool found = false;

	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		if (!point->used)
			continue;
		if (before) {
			double low =
				by == PAIR_BY_PERCENT ? before->recovered_pct : before->corrected_c;
			double high =
				by == PAIR_BY_PERCENT ? point->recovered_pct : point->corrected_c;
			if (low <= wanted && wanted <= high) {
				*pair = (struct pair){before, point};
				found = true;
			}
		}
		before = point;
	}
	return found;
}

double bc_boiloff_temp_at_evaporated_c(const struct bc_boiloff *boiloff, double evaporated_pct)
{
	double recovered_pct = evaporated_pct - boiloff->loss_pct;
	double temp_c;
	struct pair pair;

	if (!(recovered_pct >= 0.0) || !find_pair(boiloff, PAIR_BY_PERCENT, recovered_pct, &pair))
		return NAN;
	enum bc_status status = bc_temp_at_evaporated_c(evaporated_pct, boiloff->loss_pct,
		pair.below->recovered_pct, pair.below->corrected_c, pair.above->recovered_pct,
		pair.above->corrected_c, &temp_c);
	return bc_failed(status) ? (double)NAN : temp_c;
}

struct bc_estimate bc_reader_temp_at_evaporated_c(
	const struct bc_reader *reader, double evaporated_pct)
{
	double recovered_pct = evaporated_pct - reader->boiloff->loss_pct;
	double temp_c = bc_boiloff_temp_at_evaporated_c(reader->boiloff, evaporated_pct);

	if (isnan(temp_c))
		return bc_estimate_absent();
	struct bc_estimate estimate = inside(reader, recovered_pct, recovered_pct);
	double shift = temp_c - estimate.value;
	estimate.value += shift;
	estimate.low += shift;
	estimate.high += shift;
	return estimate;
}

/* Percent recovered at a temperature, wherever it lies; NaN where nothing is known. */
double bc_reader_pct(const struct bc_reader *reader, double temp_c)
{
	double first = bc_curve_first_pct(reader->curve);
	double last = bc_curve_last_pct(reader->curve);

	if (temp_c < bc_curve_temp_c(reader->curve, first)) {
		if (first <= 0.0)
			return 0.0;
		double fitted_c = temp_c - fit_shift_c(reader, first);
		double pct = bc_fit_pct(reader->fit, fitted_c);
		if (isnan(pct) && fitted_c < bc_fit_temp_c(reader->fit, 0.5 * first))
			pct = 0.0;
		return isnan(pct) ? pct : clamp(pct, 0.0, first);
	}
	if (temp_c > bc_curve_temp_c(reader->curve, last)) {
		double end = reader->boiloff->end_pct;
		if (last >= end)
			return end;
		double fitted_c = temp_c - fit_shift_c(reader, last);
		double pct = bc_fit_pct(reader->fit, fitted_c);
		if (isnan(pct) && fitted_c > bc_fit_temp_c(reader->fit, last))
			pct = end;
		return isnan(pct) ? pct : clamp(pct, last, end);
	}
	return bc_curve_pct(reader->curve, temp_c);
}

/* Bounds of a percent from those of the temperature and of the volume. */
static void bound_pct(const struct bc_reader *reader, double temp_c, struct bc_estimate *estimate)
{
	const struct bc_curve *curve = reader->curve;
	double first = bc_curve_first_pct(curve);
	double last = bc_curve_last_pct(curve);
	double at = clamp(estimate->value, first, last);
	double half_c =
		test_half_width_c(reader, clamp(at, 5.0, 95.0), slope_around(curve, at), temp_c);
	double low = bc_reader_pct(
		reader, temp_c - half_c - bc_corrected_high_extra_c(reader->conditions, temp_c));
	double high = bc_reader_pct(
		reader, temp_c + half_c + bc_corrected_low_extra_c(reader->conditions, temp_c));
	bool below = temp_c < bc_curve_temp_c(curve, first) && first > 0.0;
	bool above = temp_c > bc_curve_temp_c(curve, last) && last < reader->boiloff->end_pct;

	/* outside the readings the percent may lie anywhere up to the reading, or to the end */
	if (isnan(low) || below || above)
		low = below ? 0.0 : fmin(last, estimate->value);
	if (isnan(high) || below || above)
		high = below ? first : reader->boiloff->end_pct;
	double volume = reader->boiloff->volume_half_width_pct;
	estimate->low = estimate->value - hypot(estimate->value - low, volume);
	estimate->high = estimate->value + hypot(high - estimate->value, volume);
	estimate->low = clamp(estimate->low, 0.0, estimate->value);
	estimate->high = clamp(
		estimate->high, estimate->value, fmax(reader->boiloff->end_pct, estimate->value));
	if (below || above)
		estimate->how = BC_ESTIMATED;
}

struct bc_estimate bc_reader_recovered_pct(const struct bc_reader *reader, double corrected_c)
{
	double pct = bc_reader_pct(reader, corrected_c);

	if (!isfinite(pct))
		return bc_estimate_absent();
	struct bc_estimate estimate = bc_estimate_new(pct, 0.0, BC_MEASURED);
	bound_pct(reader, corrected_c, &estimate);
	return estimate;
}

double bc_boiloff_linear_pct(const struct bc_boiloff *boiloff, double corrected_c)
{
	struct pair pair;

	if (!find_pair(boiloff, PAIR_BY_TEMPERATURE, corrected_c, &pair))
		return NAN;
	double span_c = pair.above->corrected_c - pair.below->corrected_c;
	double span_pct = pair.above->recovered_pct - pair.below->recovered_pct;
	double share = span_c > 0.0 ? (corrected_c - pair.below->corrected_c) / span_c : 1.0;
	return pair.below->recovered_pct + share * span_pct;
}

struct bc_estimate bc_reader_evaporated_pct(const struct bc_reader *reader, double corrected_c)
{
	struct bc_estimate estimate = bc_reader_recovered_pct(reader, corrected_c);
	double loss_pct = reader->boiloff->loss_pct;

	if (!bc_estimate_present(&estimate))
		return estimate;
	double linear_pct = bc_boiloff_linear_pct(reader->boiloff, corrected_c);
	if (!isnan(linear_pct)) {
		double shift = linear_pct - estimate.value;
		estimate.value += shift;
		estimate.low = fmax(estimate.low + shift, 0.0);
		estimate.high = fmax(estimate.high + shift, estimate.value);
	}
	/* below the IBP part of the loss may have gone already, nobody knows how much */
	estimate.high += loss_pct;
	if (estimate.value > 0.0 || corrected_c >= reader->boiloff->ibp_c) {
		estimate.value += loss_pct;
		estimate.low += loss_pct;
	}
	return estimate;
}

static struct bc_estimate read_ibp(const struct bc_reader *reader)
{
	if (!isfinite(reader->boiloff->ibp_c))
		return bc_estimate_absent();
	return inside(reader, bc_curve_first_pct(reader->curve), 0.0);
}

static struct bc_estimate read_fbp(const struct bc_reader *reader)
{
	if (!isfinite(reader->boiloff->fbp_c))
		return bc_estimate_absent();
	return inside(reader, bc_curve_last_pct(reader->curve), 100.0);
}

/* Bounds rise with the percent like the values: a low bound is not above a later one, a high bound
 * not below an earlier one. */
static void order_bounds(struct bc_estimate *at, size_t n)
{
	double low = INFINITY;
	double high = -INFINITY;

	for (size_t i = n; i-- > 0;) {
		if (bc_estimate_present(&at[i]))
			low = at[i].low = fmin(low, at[i].low);
	}
	for (size_t i = 0; i < n; i++) {
		if (bc_estimate_present(&at[i]))
			high = at[i].high = fmax(high, at[i].high);
	}
}

void bc_points_read(const struct bc_reader *reader, struct bc_points *points)
{
	for (size_t i = 0; i < BC_POINTS; i++) {
		points->extrapolated[i] = false;
		if (i == BC_AT_IBP)
			points->at[i] = read_ibp(reader);
		else if (i == BC_AT_FBP)
			points->at[i] = read_fbp(reader);
		else
			points->at[i] =
				bc_reader_temp_c(reader, bc_point_pct[i], &points->extrapolated[i]);
	}
	order_bounds(points->at, BC_POINTS);
	for (size_t i = 0; i < BC_EVAPORATED_POINTS; i++)
		points->evaporated_point[i] =
			bc_reader_temp_at_evaporated_c(reader, bc_evaporated_point_pct[i]);
	for (size_t i = 0; i < BC_EVAPORATED_AT; i++)
		points->evaporated_at[i] = bc_reader_evaporated_pct(reader, bc_evaporated_at_c[i]);
	for (size_t i = 0; i < BC_RECOVERED_AT; i++)
		points->recovered_at[i] = bc_reader_recovered_pct(reader, bc_recovered_at_c[i]);
}
