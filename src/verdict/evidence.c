/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an oil shows of a limited property: measured, estimated, read on the curve, or nothing. */
#include <math.h>
#include <string.h>

#include "verdict/grade.h"

#define COUNT(array) (sizeof(array) / sizeof *(array))

static const struct {
	const char *property;
	enum bc_property of;
} oil_properties[] = {
	{"flash_point", BC_FLASH},
	{"density", BC_DENSITY15},
	{"kin_viscosity", BC_VISC40},
	{"kin_viscosity_20C", BC_VISC20},
	{"cetane_index", BC_CETANE_INDEX},
	{"cetane_index_d976", BC_CETANE_INDEX_D976},
	{"driveability_index", BC_DRIVEABILITY_INDEX},
};

/* A viscosity is measured at the temperature that was written beside it, else at 40 degC. */
static bool measured_matches(const struct bc_measured *measured, const char *property)
{
	if (strcmp(measured->property, "kin_viscosity") != 0)
		return strcmp(measured->property, property) == 0;
	double temp_c = isnan(measured->temp_c) ? 40.0 : measured->temp_c;
	if (strcmp(property, "kin_viscosity") == 0)
		return fabs(temp_c - 40.0) < 0.5;
	return strcmp(property, "kin_viscosity_20C") == 0 && fabs(temp_c - 20.0) < 0.5;
}

/* A flash reaches the oil through fuel/ alone, which voids it in a wet sample. */
static struct bc_estimate measured_value(const struct bc_evidence *evidence, const char *property)
{
	const struct bc_sample *sample = evidence->sample;
	if (sample == NULL || strcmp(property, "flash_point") == 0)
		return bc_estimate_absent();
	for (size_t i = 0; i < sample->n_measured; i++) {
		if (measured_matches(&sample->measured[i], property))
			return bc_estimate_new(sample->measured[i].value, 0.0, BC_MEASURED);
	}
	return bc_estimate_absent();
}

/* Water by Karl Fischer is part of water and sediment: 1 mg/kg of it fills density/1e7 %. */
static struct bc_estimate water_alone(const struct bc_evidence *evidence, const char *property)
{
	if (strcmp(property, "water_and_sediment") != 0 || evidence->oil == NULL)
		return bc_estimate_absent();
	struct bc_estimate water = measured_value(evidence, "water");
	double density_kgm3 = evidence->oil->property[BC_DENSITY15].value;
	return bc_estimate_new(water.value * density_kgm3 / 1e7, 0.0, BC_MEASURED);
}

/* ---- a predicted product, which has points and no reader */

enum figure { VALUE, LOW, HIGH };

static double figure_of(const struct bc_estimate *point, enum figure which)
{
	if (which == VALUE)
		return point->value;
	return which == LOW ? point->low : point->high;
}

/* Straight between the points at hand. */
static double product_temp_c(const struct bc_points *points, double pct, enum figure which)
{
	size_t before = BC_POINTS;
	for (size_t i = 0; i < BC_POINTS; i++) {
		double temp_c = figure_of(&points->at[i], which);
		if (isnan(temp_c))
			continue;
		if (bc_point_pct[i] >= pct) {
			if (before == BC_POINTS && bc_point_pct[i] > pct)
				return NAN;
			if (before == BC_POINTS)
				return temp_c;
			double share = (pct - bc_point_pct[before]) /
				       (bc_point_pct[i] - bc_point_pct[before]);
			double before_c = figure_of(&points->at[before], which);
			return before_c + share * (temp_c - before_c);
		}
		before = i;
	}
	return NAN;
}

static double product_pct(const struct bc_points *points, double temp_c, enum figure which)
{
	double before_pct = 0.0;
	double before_c = NAN;
	for (size_t i = 0; i < BC_POINTS; i++) {
		double at_c = figure_of(&points->at[i], which);
		if (isnan(at_c))
			continue;
		if (at_c > temp_c) {
			if (isnan(before_c))
				return 0.0;
			return before_pct + (bc_point_pct[i] - before_pct) * (temp_c - before_c) /
						    (at_c - before_c);
		}
		before_pct = bc_point_pct[i];
		before_c = at_c;
	}
	if (isnan(before_c))
		return NAN;
	return before_pct;
}

static struct bc_estimate product_temp_estimate(const struct bc_points *points, double pct)
{
	double value = product_temp_c(points, pct, VALUE);
	if (isnan(value))
		return bc_estimate_absent();
	return (struct bc_estimate){value, product_temp_c(points, pct, LOW),
		product_temp_c(points, pct, HIGH), BC_ESTIMATED};
}

static struct bc_estimate product_pct_estimate(const struct bc_points *points, double temp_c)
{
	double value = product_pct(points, temp_c, VALUE);
	if (isnan(value))
		return bc_estimate_absent();
	/* where the curve runs hotter, less is over */
	return (struct bc_estimate){value, product_pct(points, temp_c, HIGH),
		product_pct(points, temp_c, LOW), BC_ESTIMATED};
}

/* ---- an oil that was boiled off */

static bool same(double a, double b) { return !(fabs(a - b) > 1e-9); }

static struct bc_estimate temp_at(const struct bc_evidence *evidence, double pct, bool evaporated)
{
	const struct bc_points *points = evidence->points;
	if (evidence->reader == NULL)
		return product_temp_estimate(points, pct);
	for (size_t i = 0; evaporated && i < BC_EVAPORATED_POINTS; i++) {
		if (same(bc_evaporated_point_pct[i], pct))
			return points->evaporated_point[i];
	}
	if (evaporated)
		return bc_reader_temp_at_evaporated_c(evidence->reader, pct);
	for (size_t i = BC_AT_T5; i <= BC_AT_T95; i++) {
		if (same(bc_point_pct[i], pct))
			return points->at[i];
	}
	return bc_reader_temp_c(evidence->reader, pct, NULL);
}

static struct bc_estimate share_at(
	const struct bc_evidence *evidence, double temp_c, bool evaporated)
{
	const struct bc_points *points = evidence->points;
	if (evidence->reader == NULL)
		return product_pct_estimate(points, temp_c);
	for (size_t i = 0; evaporated && i < BC_EVAPORATED_AT; i++) {
		if (same(bc_evaporated_at_c[i], temp_c))
			return points->evaporated_at[i];
	}
	if (evaporated)
		return bc_reader_evaporated_pct(evidence->reader, temp_c);
	for (size_t i = 0; i < BC_RECOVERED_AT; i++) {
		if (same(bc_recovered_at_c[i], temp_c))
			return points->recovered_at[i];
	}
	return bc_reader_recovered_pct(evidence->reader, temp_c);
}

static struct bc_estimate curve_value(
	const struct bc_evidence *evidence, const char *property, const char *basis)
{
	if (evidence->points == NULL)
		return bc_estimate_absent();
	if (strcmp(property, "IBP") == 0)
		return evidence->points->at[BC_AT_IBP];
	if (strcmp(property, "FBP") == 0)
		return evidence->points->at[BC_AT_FBP];
	double number = bc_limit_property_number(property);
	if (isnan(number))
		return bc_estimate_absent();
	bool evaporated = strcmp(basis, "evaporated") == 0;
	if (property[0] == 'T')
		return temp_at(evidence, number, evaporated);
	return share_at(evidence, number, evaporated);
}

static struct bc_estimate flask_value(const struct bc_boiloff *boiloff, const char *property)
{
	if (boiloff == NULL)
		return bc_estimate_absent();
	if (boiloff->residue_known && strcmp(property, "distillation_residue") == 0)
		return bc_estimate_new(
			boiloff->residue_pct, boiloff->rest_half_width_pct, BC_MEASURED);
	if (boiloff->loss_known && strcmp(property, "distillation_loss") == 0)
		return bc_estimate_new(
			boiloff->loss_pct, boiloff->rest_half_width_pct, BC_MEASURED);
	return bc_estimate_absent();
}

static struct bc_estimate oil_value(const struct bc_oil *oil, const char *property)
{
	for (size_t i = 0; oil != NULL && i < COUNT(oil_properties); i++) {
		if (strcmp(oil_properties[i].property, property) == 0)
			return oil->property[oil_properties[i].of];
	}
	return bc_estimate_absent();
}

struct bc_estimate bc_evidence_value(
	const struct bc_evidence *evidence, const char *property, const char *basis)
{
	struct bc_estimate of_oil = oil_value(evidence->oil, property);
	if (of_oil.how == BC_MEASURED)
		return of_oil; /* with the error of its method */
	struct bc_estimate value = measured_value(evidence, property);
	if (!bc_estimate_present(&value))
		value = water_alone(evidence, property);
	if (bc_estimate_present(&value))
		return value;
	if (bc_estimate_present(&of_oil))
		return of_oil;
	value = flask_value(evidence->boiloff, property);
	return bc_estimate_present(&value) ? value : curve_value(evidence, property, basis);
}
