/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the errors of readings and methods mean for the figures of an oil. */
#include "fuel/oil_error.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "fuel/ignition.h"
#include "fuel/method_errors.h"

/* Where each figure of the model stands in an array of derivatives. */
static const struct {
	enum bc_property property;
	bool factor; /* never negative: its error is a factor */
	size_t offset;
} figure_of[] = {
	{BC_FLASH_T10, false, offsetof(struct bc_oil_figures, flash_t10_c)},
	{BC_FLASH_VAPOUR, false, offsetof(struct bc_oil_figures, flash_vapour_c)},
	{BC_CETANE_INDEX, false, offsetof(struct bc_oil_figures, cetane_index)},
	{BC_CETANE_INDEX_D976, false, offsetof(struct bc_oil_figures, cetane_index_d976)},
	{BC_VISC40, true, offsetof(struct bc_oil_figures, visc40_mm2s)},
	{BC_MOLAR_MASS, true, offsetof(struct bc_oil_figures, molar_mass_gmol)},
	{BC_WATSON_K, false, offsetof(struct bc_oil_figures, watson_k)},
	{BC_MEAN_AVERAGE_BP, false, offsetof(struct bc_oil_figures, mean_average_bp_c)},
	{BC_NET_HEAT, false, offsetof(struct bc_oil_figures, net_heat_mjkg)},
	{BC_VAPOUR_PRESSURE_37_8, true, offsetof(struct bc_oil_figures, vapour_pressure_37_8_kpa)},
	{BC_VISC20, true, offsetof(struct bc_oil_figures, visc20_mm2s)},
};
enum { FIGURES = sizeof figure_of / sizeof figure_of[0] };

static double figure(const struct bc_oil_figures *figures, size_t i)
{
	double value;
	memcpy(&value, (const char *)figures + figure_of[i].offset, sizeof value);
	return figure_of[i].factor ? log(value) : value;
}

double bc_oil_figure(const struct bc_oil_figures *figures, enum bc_property property)
{
	double value = NAN;
	for (size_t i = 0; i < FIGURES; i++)
		if (figure_of[i].property == property)
			memcpy(&value, (const char *)figures + figure_of[i].offset, sizeof value);
	return value;
}

bool bc_property_is_factor(enum bc_property property)
{
	for (size_t i = 0; i < FIGURES; i++)
		if (figure_of[i].property == property)
			return figure_of[i].factor;
	return false;
}

/* Moved less base; 0 where one of the two has no figure. */
static void changes(const struct bc_oil_figures *moved, const struct bc_oil_figures *base,
	double difference[FIGURES])
{
	for (size_t i = 0; i < FIGURES; i++) {
		double change = figure(moved, i) - figure(base, i);
		difference[i] = isfinite(change) ? change : 0.0;
	}
}

/* What a moved input changes. */
static void differences(const struct bc_oil_input *moved, const struct bc_oil_figures *base,
	double difference[FIGURES])
{
	double d86_c[BC_TBP_POINTS];
	double tbp_c[BC_TBP_POINTS];
	struct bc_tbp_curve curve;
	struct bc_slices slices;
	struct bc_oil_figures figures;
	for (size_t i = 0; i < FIGURES; i++)
		difference[i] = 0.0;
	if (bc_failed(bc_oil_build(moved, d86_c, tbp_c, &curve, &slices)))
		return;
	bc_oil_figures_of(&slices, d86_c, moved->density15_kgm3, &figures);
	changes(&figures, base, difference);
}

void bc_oil_reach_of_density(const struct bc_slices *slices, const double d86_c[BC_TBP_POINTS],
	double density15_kgm3, double move_kgm3, const struct bc_oil_figures *base,
	struct bc_reach *reach)
{
	struct bc_oil_figures moved;
	double change[FIGURES];
	bc_oil_figures_of(slices, d86_c, density15_kgm3 + move_kgm3, &moved);
	changes(&moved, base, change);
	for (size_t i = 0; i < FIGURES; i++) {
		double *low = &reach->low[figure_of[i].property];
		double *high = &reach->high[figure_of[i].property];
		*low = hypot(*low, change[i]);
		*high = hypot(*high, change[i]);
	}
}

void bc_oil_reach(const struct bc_oil_input *input, const struct bc_oil_errors *errors,
	const struct bc_oil_figures *base, struct bc_reach *reach)
{
	double square[FIGURES] = {0.0};
	double change[FIGURES];
	for (size_t k = 0; k <= input->n; k++) {
		double move = k < input->n ? errors->point_c[k] : errors->density_kgm3;
		if (!(move > 0.0))
			continue;
		struct bc_oil_input moved = *input;
		*(k < input->n ? &moved.temp_c[k] : &moved.density15_kgm3) += move;
		differences(&moved, base, change);
		for (size_t i = 0; i < FIGURES; i++)
			square[i] += change[i] * change[i];
	}
	struct bc_oil_input down = *input;
	struct bc_oil_input up = *input;
	for (size_t k = 0; k < input->n; k++) {
		down.temp_c[k] -= errors->common_low_c[k];
		up.temp_c[k] += errors->common_high_c[k];
	}
	double fall[FIGURES];
	differences(&down, base, fall);
	differences(&up, base, change);
	*reach = (struct bc_reach){{0.0}, {0.0}};
	for (size_t i = 0; i < FIGURES; i++) {
		double low = fmax(-fmin(fall[i], change[i]), 0.0);
		double high = fmax(fmax(fall[i], change[i]), 0.0);
		reach->low[figure_of[i].property] = hypot(sqrt(square[i]), low);
		reach->high[figure_of[i].property] = hypot(sqrt(square[i]), high);
	}
}

/* below and above: of the method. */
static struct bc_estimate joined(double value, double below, double above,
	const struct bc_reach *reach, enum bc_property property, enum bc_how how)
{
	return (struct bc_estimate){value, value - hypot(below, reach->low[property]),
		value + hypot(above, reach->high[property]), how};
}

/* A factor either way, as for what is never negative; log_method is its logarithm. A figure known
 * to no better than tenfold is none: not valid, with that bar. */
static struct bc_estimate by_factor(double value, double log_method, const struct bc_reach *reach,
	enum bc_property property, enum bc_how how)
{
	const double widest = log(10.0);
	double below = hypot(log_method, reach->low[property]);
	double above = hypot(log_method, reach->high[property]);
	if (below > widest || above > widest)
		how = BC_NOT_VALID;
	return (struct bc_estimate){
		value, value * exp(-fmin(below, widest)), value * exp(fmin(above, widest)), how};
}

static enum bc_how how_of(enum bc_status status)
{
	return status == BC_OUTSIDE_RANGE ? BC_NOT_VALID : BC_ESTIMATED;
}

static void fill_flash(
	const struct bc_oil_figures *f, const struct bc_reach *reach, struct bc_estimate *property)
{
	double ibp_c = f->d86_c[0];
	double t10_c = f->d86_c[1];
	double half_width = bc_flash_half_width_c(ibp_c, t10_c);
	double below = half_width;
	double low_c;
	double high_c;
	if (t10_c >= BC_HEAVY_T10_C)
		below = fmin(half_width, fmax(BC_ERROR_FLASH_HEAVY_LOW_SHARE * f->flash_vapour_c,
						 BC_ERROR_FLASH_HEAVY_LEAST_C));
	property[BC_FLASH_VAPOUR] =
		joined(f->flash_vapour_c, below, half_width, reach, BC_FLASH_VAPOUR, BC_ESTIMATED);
	bc_flash_t10_bounds_c(ibp_c, t10_c, f->flash_t10_c, &low_c, &high_c);
	property[BC_FLASH_T10] = joined(f->flash_t10_c, f->flash_t10_c - low_c,
		high_c - f->flash_t10_c, reach, BC_FLASH_T10, BC_ESTIMATED);
	property[BC_VAPOUR_PRESSURE_37_8] = by_factor(f->vapour_pressure_37_8_kpa,
		fmin(BC_ERROR_VAPOUR_PER_C * half_width, BC_ERROR_VAPOUR_UNREAD_IBP), reach,
		BC_VAPOUR_PRESSURE_37_8, BC_ESTIMATED);
}

static void fill_viscosity(
	const struct bc_oil_figures *f, const struct bc_reach *reach, struct bc_estimate *property)
{
	/* a blend moves by the share of what is off */
	double outside = f->visc_outside_frac * log(BC_ERROR_VISC_OUTSIDE);
	bool thin = f->visc40_mm2s < BC_ERROR_VISC_THIN_MM2S;
	double at40 = log(1.0 + (thin ? BC_ERROR_VISC40_THIN_SHARE : BC_ERROR_VISC40_SHARE));
	double at20 = log(1.0 + (thin ? BC_ERROR_VISC20_THIN_SHARE : BC_ERROR_VISC20_SHARE));
	enum bc_how how = how_of(f->visc_status);
	property[BC_VISC40] =
		by_factor(f->visc40_mm2s, hypot(at40, outside), reach, BC_VISC40, how);
	property[BC_VISC20] =
		by_factor(f->visc20_mm2s, hypot(at20, outside), reach, BC_VISC20, how);
}

void bc_oil_estimates(const struct bc_oil_figures *f, double cetane_half_width,
	const struct bc_reach *reach, struct bc_estimate *property)
{
	fill_flash(f, reach, property);
	fill_viscosity(f, reach, property);
	if (f->cetane_status == BC_OUTSIDE_RANGE)
		cetane_half_width = BC_CETANE_BRANCHED;
	property[BC_CETANE_INDEX] = joined(f->cetane_index, cetane_half_width, cetane_half_width,
		reach, BC_CETANE_INDEX, how_of(f->cetane_status));
	double d976 = fmax(cetane_half_width, BC_CETANE_D976_HALF_WIDTH);
	property[BC_CETANE_INDEX_D976] =
		joined(f->cetane_index_d976, d976, d976, reach, BC_CETANE_INDEX_D976, BC_ESTIMATED);
	property[BC_MOLAR_MASS] = by_factor(f->molar_mass_gmol,
		log(1.0 + BC_ERROR_MOLAR_MASS_SHARE), reach, BC_MOLAR_MASS, BC_ESTIMATED);
	property[BC_WATSON_K] = joined(f->watson_k, 0.0, 0.0, reach, BC_WATSON_K, BC_ESTIMATED);
	property[BC_MEAN_AVERAGE_BP] = joined(f->mean_average_bp_c, BC_ERROR_MEAN_BOILING_C,
		BC_ERROR_MEAN_BOILING_C, reach, BC_MEAN_AVERAGE_BP, BC_ESTIMATED);
	property[BC_NET_HEAT] = joined(f->net_heat_mjkg, BC_ERROR_NET_HEAT_MJKG,
		BC_ERROR_NET_HEAT_MJKG, reach, BC_NET_HEAT, how_of(f->heat_status));
	for (size_t i = 0; i < BC_PROPERTIES; i++)
		if (isnan(property[i].value))
			property[i] = bc_estimate_absent();
}

static double index_of(const double temp_c[BC_EVAPORATED_POINTS])
{
	double index;
	bc_driveability_index(temp_c[0], temp_c[1], temp_c[2], &index);
	return index;
}

struct bc_estimate bc_driveability_of(
	const struct bc_conditions *conditions, const struct bc_points *points)
{
	double at_c[BC_EVAPORATED_POINTS];
	double down_c[BC_EVAPORATED_POINTS];
	double up_c[BC_EVAPORATED_POINTS];
	for (size_t i = 0; i < BC_EVAPORATED_POINTS; i++) {
		double low_c;
		double high_c;
		at_c[i] = points->evaporated_point[i].value;
		bc_common_error_c(conditions, at_c[i], &low_c, &high_c);
		down_c[i] = at_c[i] - low_c;
		up_c[i] = at_c[i] + high_c;
	}
	double value = index_of(at_c);
	double own = 0.0;
	for (size_t i = 0; i < BC_EVAPORATED_POINTS; i++) {
		double moved_c[BC_EVAPORATED_POINTS];
		memcpy(moved_c, at_c, sizeof moved_c);
		moved_c[i] += bc_own_error_c(conditions, &points->evaporated_point[i]);
		own = hypot(own, index_of(moved_c) - value);
	}
	if (isnan(value))
		return bc_estimate_absent();
	return (struct bc_estimate){value, value - hypot(own, value - index_of(down_c)),
		value + hypot(own, index_of(up_c) - value), BC_ESTIMATED};
}
