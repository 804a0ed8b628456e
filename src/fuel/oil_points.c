/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The points of a boil-off that carry the slices, those that nobody read among them, and how far
 * each may be off by itself and all together. */
#include "fuel/oil_points.h"

#include <math.h>

#include "base/stats.h"
#include "fuel/method_errors.h"

/* Correlations that rest on T50 or T90 need them read, or nearly so; judgement. */
static const double far_pct = 30.0;

/* Two percent readings that tell the slope at one end, at least 15 % apart where they can be. */
static bool end_readings(const struct bc_boiloff *boiloff, bool back, const struct bc_point **outer,
	const struct bc_point **inner)
{
	*outer = *inner = NULL;
	for (size_t k = 0; k < boiloff->n; k++) {
		const struct bc_point *point = &boiloff->points[back ? boiloff->n - 1 - k : k];
		if (!point->used || point->kind != BC_READING_AMOUNT ||
			!(point->recovered_pct > 0.5 && point->recovered_pct < 99.5))
			continue;
		if (!*outer)
			*outer = point;
		else if (!*inner || fabs((*inner)->recovered_pct - (*outer)->recovered_pct) < 15.0)
			*inner = point;
	}
	return *inner != NULL;
}

/* The straight line in probit through two readings at the end where pct lies, and how far it has
 * gone from the outer one. */
static double line_temp_c(const struct bc_boiloff *boiloff, double pct, double *way_c)
{
	const struct bc_point *outer;
	const struct bc_point *inner;
	*way_c = NAN;
	if (!end_readings(boiloff, pct > boiloff->last_pct, &outer, &inner))
		return NAN;
	double z = bc_probit_from_pct(pct);
	double z_outer = bc_probit_from_pct(outer->recovered_pct);
	double z_inner = bc_probit_from_pct(inner->recovered_pct);
	double slope = fmax((outer->corrected_c - inner->corrected_c) / (z_outer - z_inner), 0.0);
	*way_c = fabs(slope * (z - z_outer));
	return outer->corrected_c + slope * (z - z_outer);
}

void bc_common_error_c(
	const struct bc_conditions *conditions, double corrected_c, double *low_c, double *high_c)
{
	double half = bc_corrected_half_width_c(conditions, corrected_c);
	double reading = conditions->reading_half_width_c;
	double both = sqrt(fmax(half * half - reading * reading, 0.0));
	*low_c = both + bc_corrected_low_extra_c(conditions, corrected_c);
	*high_c = both + bc_corrected_high_extra_c(conditions, corrected_c);
}

double bc_own_error_c(const struct bc_conditions *conditions, const struct bc_estimate *estimate)
{
	double temp_c = estimate->value;
	double low_c = temp_c - estimate->low - bc_corrected_low_extra_c(conditions, temp_c);
	double high_c = estimate->high - temp_c - bc_corrected_high_extra_c(conditions, temp_c);
	double half = fmax(fmin(low_c, high_c), 0.0);
	double with_reading = bc_corrected_half_width_c(conditions, temp_c);
	double reading = conditions->reading_half_width_c;
	double common_square = with_reading * with_reading - reading * reading;
	return sqrt(fmax(half * half - common_square, 0.0));
}

/* Points that carry the slices: for a D86 the seven of the conversion, else all that are read. */
static const enum bc_point_at d86_points[] = {
	BC_AT_IBP, BC_AT_T10, BC_AT_T30, BC_AT_T50, BC_AT_T70, BC_AT_T90, BC_AT_T95};
static const enum bc_point_at tbp_points[] = {BC_AT_IBP, BC_AT_T5, BC_AT_T10, BC_AT_T20, BC_AT_T30,
	BC_AT_T40, BC_AT_T50, BC_AT_T60, BC_AT_T70, BC_AT_T80, BC_AT_T90, BC_AT_T95};

static double finite_or_zero(double value) { return isfinite(value) ? value : 0.0; }

static void take_point(const struct bc_conditions *conditions, const struct bc_boiloff *boiloff,
	const struct bc_points *points, enum bc_point_at at, struct bc_oil_input *input,
	struct bc_oil_errors *errors)
{
	double temp_c = points->at[at].value;
	double half_width = bc_own_error_c(conditions, &points->at[at]);
	size_t i = input->n++;
	if (isnan(temp_c) && at != BC_AT_IBP) {
		double way_c;
		temp_c = line_temp_c(boiloff, bc_point_pct[at], &way_c);
		half_width = fmax(BC_ERROR_UNREAD_POINT_C, 0.5 * way_c);
		errors->unread_c[i] = half_width;
	}
	double converted = NAN;
	if (!input->tbp &&
		bc_tbp_from_d86_c(bc_point_pct[at], temp_c, &converted) == BC_OUTSIDE_RANGE) {
		errors->outside_c[i] = BC_ERROR_OUTSIDE_RANGE_C;
		half_width = hypot(finite_or_zero(half_width), BC_ERROR_OUTSIDE_RANGE_C);
	}
	double low_c;
	double high_c;
	bc_common_error_c(conditions, temp_c, &low_c, &high_c);
	input->pct[i] = bc_point_pct[at];
	input->temp_c[i] = input->tbp ? bc_true_from_corrected(temp_c) : temp_c;
	errors->point_c[i] = finite_or_zero(half_width);
	errors->common_low_c[i] = finite_or_zero(low_c);
	errors->common_high_c[i] = finite_or_zero(high_c);
}

/* Nearer to the IBP, which stands at 0.5 %, the degrees that a reading may be off turn into a slope
 * of any size; judgement. */
static const double least_front_pct = 1.0;

/* Readings of a true-boiling distillation below the 5 % point: header, note 3. */
static void take_front_readings(const struct bc_conditions *conditions,
	const struct bc_boiloff *boiloff, struct bc_oil_input *input, struct bc_oil_errors *errors)
{
	double before_pct = 0.0;
	for (size_t k = 0, taken = 0; k < boiloff->n && taken < 3; k++) {
		const struct bc_point *point = &boiloff->points[k];
		if (!point->used || point->kind != BC_READING_AMOUNT ||
			!(point->recovered_pct > before_pct &&
				point->recovered_pct >= least_front_pct &&
				point->recovered_pct < 4.5))
			continue;
		size_t i = input->n++;
		input->pct[i] = before_pct = point->recovered_pct;
		input->temp_c[i] = bc_true_from_corrected(point->corrected_c);
		errors->point_c[i] = conditions->reading_half_width_c;
		bc_common_error_c(conditions, point->corrected_c, &errors->common_low_c[i],
			&errors->common_high_c[i]);
		taken++;
	}
}

static bool far_beyond(const struct bc_boiloff *boiloff, double pct)
{
	return pct > boiloff->last_pct + far_pct || pct < boiloff->first_pct - far_pct;
}

bool bc_oil_points_take(const struct bc_conditions *conditions, const struct bc_boiloff *boiloff,
	const struct bc_points *points, struct bc_oil_input *input, struct bc_oil_errors *errors)
{
	bool tbp = conditions->tbp;
	const enum bc_point_at *list = tbp ? tbp_points : d86_points;
	size_t n = tbp ? sizeof tbp_points / sizeof tbp_points[0]
		       : sizeof d86_points / sizeof d86_points[0];
	*input = (struct bc_oil_input){.tbp = tbp};
	*errors = (struct bc_oil_errors){.density_kgm3 = 0.0};
	for (size_t i = 0; i < n; i++) {
		take_point(conditions, boiloff, points, list[i], input, errors);
		if (tbp && list[i] == BC_AT_IBP)
			take_front_readings(conditions, boiloff, input, errors);
	}
	input->read_from_pct = isnan(boiloff->ibp_c) ? boiloff->first_pct : 0.0;
	input->read_to_pct = isnan(boiloff->fbp_c) ? boiloff->last_pct : boiloff->end_pct;
	return far_beyond(boiloff, 50.0) || far_beyond(boiloff, 90.0);
}

double bc_oil_point_c(const struct bc_oil_input *input, double pct)
{
	for (size_t i = 0; i < input->n; i++)
		if (input->pct[i] == pct)
			return input->temp_c[i];
	return NAN;
}
