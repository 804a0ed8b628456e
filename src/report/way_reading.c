/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the thermometer to the curve: one reading through its corrections, loss, points, fit. */
#include <math.h>
#include <stdio.h>

#include "curve/correction.h"
#include "report/way.h"

static bool in_use(const struct bc_point *point)
{
	return point->used && point->kind == BC_READING_AMOUNT;
}

/* The percent reading in use that is nearest to 50 %, which stands for all. */
static const struct bc_point *middle_reading(const struct bc_boiloff *boiloff)
{
	const struct bc_point *best = NULL;
	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		if (in_use(point) && (best == NULL || fabs(point->recovered_pct - 50.0) <
							      fabs(best->recovered_pct - 50.0)))
			best = point;
	}
	return best;
}

static double or_zero(double value) { return isnan(value) ? 0.0 : value; }

static void pressure_steps(const struct bc_judgement *judgement, struct bc_way *way)
{
	const struct bc_conditions *conditions = &judgement->conditions;
	const struct bc_sample *sample = judgement->sample;
	double pressure_kpa = conditions->pressure_kpa;
	double boils_c = sample->water_boils_c - or_zero(conditions->ice_c);
	switch (conditions->pressure_source) {
	case BC_PRESSURE_ALTITUDE:
		bc_way_formula(way, "pressure_kpa", "altitude.pressure", &sample->altitude_m,
			pressure_kpa);
		break;
	case BC_PRESSURE_WATER_BOILS:
		bc_way_formula(way, "pressure_kpa", "water.pressure_kpa", &boils_c, pressure_kpa);
		bc_way_note(way, "'water boils' of the file, less the ice reading if there is one");
		break;
	case BC_PRESSURE_BAROMETER:
		bc_way_plain(way, "pressure_kpa", pressure_kpa, "kPa");
		bc_way_source(way, "barometer of the file");
		break;
	case BC_PRESSURE_ASSUMED:
		bc_way_plain(way, "pressure_kpa", pressure_kpa, "kPa");
		bc_way_source(way, "assumed: the file gives none");
		break;
	}
	const struct bc_estimate spread = {pressure_kpa,
		pressure_kpa - conditions->pressure_down_kpa,
		pressure_kpa + conditions->pressure_half_width_kpa, BC_ESTIMATED};
	bc_way_bounds(way, &spread);
	bc_way_formula(
		way, "water boils here", "water.boils_c", &pressure_kpa, conditions->steam_true_c);
}

/* What the steam point calibrates to: where a stem correction follows, water less that of water. */
static double steam_target_c(const struct bc_conditions *conditions)
{
	double target_c = conditions->steam_true_c;
	double stem_c = 0.0;
	if (isnan(conditions->immersion_c))
		return target_c;
	/* each turn shrinks the error a hundredfold */
	for (int i = 0; i < 20; i++) {
		bc_stem_correction_c(
			target_c, conditions->immersion_c, conditions->stem_c, &stem_c);
		target_c = conditions->steam_true_c - stem_c;
	}
	return target_c;
}

/* Returns the calibrated reading. */
static double calibration_step(
	const struct bc_conditions *conditions, double observed_c, struct bc_way *way)
{
	if (!isnan(conditions->steam_c)) {
		const double in[] = {observed_c, or_zero(conditions->ice_c), conditions->steam_c,
			steam_target_c(conditions)};
		bc_way_formula(way, "calibrated", "calibration.two_point", in,
			isnan(conditions->immersion_c)
				? bc_site_from_reading(conditions, observed_c)
				: (double)NAN);
		if (!isnan(conditions->immersion_c))
			bc_way_note(way, "steam_true_c is water's less its own stem correction");
		return bc_way_result(way);
	}
	double offset_c = or_zero(conditions->ice_c);
	bc_way_plain(way, "calibrated", observed_c - offset_c, "degC");
	bc_way_input(way, "reading_c", observed_c, "degC");
	if (isnan(conditions->ice_c)) {
		bc_way_source(way, "taken as read: the file has no ice or steam point");
	} else {
		bc_way_input(way, "ice_c", offset_c, "degC");
		bc_way_source(way, "reading less what melting ice reads");
	}
	return bc_way_result(way);
}

/* Returns the temperature at the pressure of the site. */
static double stem_step(const struct bc_conditions *conditions, double observed_c,
	double calibrated_c, struct bc_way *way)
{
	double site_c = bc_site_from_reading(conditions, observed_c);
	if (isnan(conditions->immersion_c))
		return site_c;
	const double in[] = {calibrated_c, conditions->immersion_c, conditions->stem_c};
	bc_way_formula(way, "stem correction", "stem.emergent", in, site_c - calibrated_c);
	bc_way_note(way, "added to the calibrated reading: %.6g degC", site_c);
	return site_c;
}

/* Returns the temperature at 101.3 kPa, still on this thermometer's basis. */
static double to_standard_pressure(const struct bc_conditions *conditions, double observed_c,
	double site_c, struct bc_way *way)
{
	double normal_c = conditions->reads_true_vapour
				  ? bc_true_from_reading(conditions, observed_c)
				  : bc_corrected_from_reading(conditions, observed_c);
	const double in[] = {site_c, conditions->pressure_kpa};
	if (conditions->shift.n == 0) {
		bc_way_formula(way, "at 101.3 kPa", "pressure.sydney_young", in, normal_c);
		return normal_c;
	}
	bc_way_plain(way, "at 101.3 kPa", normal_c, "degC");
	bc_way_input(way, "t_c", site_c, "degC");
	bc_way_input(way, "pressure_kpa", conditions->pressure_kpa, "kPa");
	bc_way_source(way, "vapour pressure of fractions of Watson K 12 by vapour_pressure."
			   "lee_kesler, from 82 to 87 kPa blended with pressure.sydney_young");
	return normal_c;
}

static void reading_spread(
	const struct bc_conditions *conditions, double corrected_c, struct bc_way *way)
{
	double half_c = bc_corrected_half_width_c(conditions, corrected_c);
	bc_way_plain(way, "95 % of this reading", half_c, "degC");
	bc_way_input(way, "reading", conditions->reading_half_width_c, "degC");
	bc_way_input(way, "calibration",
		conditions->calibration_half_width_c * fmax(1.0, corrected_c / 100.0), "degC");
	bc_way_input(way, "pressure",
		bc_pressure_effect_c(corrected_c, conditions->pressure_half_width_kpa), "degC");
	bc_way_source(way, "added by squares; common practice, or the file's reading error");
	double low_c = bc_corrected_low_extra_c(conditions, corrected_c);
	double high_c = bc_corrected_high_extra_c(conditions, corrected_c);
	if (low_c > 0.0)
		bc_way_note(way, "%.6g more downwards: the thermometer is not stated", low_c);
	if (high_c > 0.0)
		bc_way_note(way, "%.6g more upwards: the pressure is not stated", high_c);
}

static void percent_step(
	const struct bc_judgement *judgement, const struct bc_point *point, struct bc_way *way)
{
	static const char *const bases[] = {
		[BC_AMOUNT_VOLUME_PCT] = "percent by volume, as read",
		[BC_AMOUNT_MASS_PCT] = "percent by mass, turned into volume along the curve",
		[BC_AMOUNT_VOLUME_ML] = "mL, of the charge in mL",
		[BC_AMOUNT_MASS_G] = "g, of the charge in g, turned into volume along the curve",
	};
	bc_way_plain(way, "recovered", point->recovered_pct, "%");
	bc_way_source(way, "%s", bases[judgement->sample->amount_basis]);
	if (judgement->boiloff.water_ml > 0.0)
		bc_way_note(way, "%.6g mL of water taken out", judgement->boiloff.water_ml);
}

void bc_way_reading(const struct bc_judgement *judgement, struct bc_way *way)
{
	const struct bc_conditions *conditions = &judgement->conditions;
	const struct bc_point *point = middle_reading(&judgement->boiloff);
	bc_way_section(way, "Site and one reading, as all are corrected");
	pressure_steps(judgement, way);
	if (point == NULL)
		return;
	percent_step(judgement, point, way);
	double observed_c = point->observed_c;
	double calibrated_c = calibration_step(conditions, observed_c, way);
	double site_c = stem_step(conditions, observed_c, calibrated_c, way);
	double normal_c = to_standard_pressure(conditions, observed_c, site_c, way);
	if (conditions->reads_true_vapour) {
		bc_way_formula(way, "corrected", "thermometer.corrected_from_true", &normal_c,
			point->corrected_c);
		bc_way_note(way, "this thermometer reads true vapour; limits and formulae stand on "
				 "the standard's own thermometer");
	} else {
		bc_way_plain(way, "corrected", point->corrected_c, "degC");
		bc_way_source(way, "the thermometer reads on the D86 basis: nothing taken off");
	}
	reading_spread(conditions, point->corrected_c, way);
}

static void loss_steps(const struct bc_judgement *judgement, struct bc_way *way)
{
	const struct bc_boiloff *boiloff = &judgement->boiloff;
	const double in[] = {boiloff->loss_pct, judgement->conditions.pressure_kpa};
	bc_way_plain(way, "loss_pct", boiloff->loss_pct, "%");
	bc_way_source(way, "%s",
		!boiloff->loss_known            ? "not known: taken as none"
		: isnan(boiloff->mass_loss_pct) ? "the file, by volume"
						: "the file, or weighed");
	bc_way_formula(
		way, "corrected_loss_pct", "loss.corrected", in, boiloff->corrected_loss_pct);
}

/* Neighbouring points in use around a percent or a temperature; the last pair. */
static bool pair_around(const struct bc_boiloff *boiloff, bool by_pct, double wanted,
	const struct bc_point **below, const struct bc_point **above)
{
	const struct bc_point *before = NULL;
	*below = *above = NULL;
	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		if (!point->used)
			continue;
		double low = before == NULL ? (double)NAN
			     : by_pct       ? before->recovered_pct
					    : before->corrected_c;
		if (low <= wanted &&
			wanted <= (by_pct ? point->recovered_pct : point->corrected_c)) {
			*below = before;
			*above = point;
		}
		before = point;
	}
	return *below != NULL && *above != NULL;
}

static void evaporated_steps(const struct bc_judgement *judgement, struct bc_way *way)
{
	const struct bc_boiloff *boiloff = &judgement->boiloff;
	const struct bc_points *points = &judgement->points;
	const struct bc_point *below;
	const struct bc_point *above;
	char figure[48];
	for (size_t i = 0; i < BC_EVAPORATED_POINTS; i++) {
		double pct = bc_evaporated_point_pct[i];
		const struct bc_estimate *own = &points->evaporated_point[i];
		if (!bc_estimate_present(own) ||
			!pair_around(boiloff, true, pct - boiloff->loss_pct, &below, &above))
			continue;
		const double in[] = {pct, boiloff->loss_pct, below->recovered_pct,
			below->corrected_c, above->recovered_pct, above->corrected_c};
		snprintf(figure, sizeof figure, "t%.0f_c, evaporated", pct);
		bc_way_formula(way, figure, "evaporated.linear", in, own->value);
		bc_way_bounds(way, own);
	}
	for (size_t i = 0; i < BC_EVAPORATED_AT; i++) {
		double temp_c = bc_evaporated_at_c[i];
		const struct bc_estimate *own = &points->evaporated_at[i];
		if (!bc_estimate_present(own) ||
			!pair_around(boiloff, false, temp_c, &below, &above) ||
			!(above->corrected_c > below->corrected_c))
			continue;
		const double in[] = {temp_c, boiloff->loss_pct, below->recovered_pct,
			below->corrected_c, above->recovered_pct, above->corrected_c};
		snprintf(figure, sizeof figure, "e%.0f_pct", temp_c);
		bc_way_formula(way, figure, "evaporated.at_temperature", in, own->value);
		bc_way_bounds(way, own);
	}
}

/* Slope of the standard's precision table: over 10 % either way, within the curve. */
static double slope_c_per_pct(const struct bc_curve *curve, double pct)
{
	const double reach_pct = 10.0; /* ASTM D86, from memory */
	double from = fmax(pct - reach_pct, bc_curve_first_pct(curve));
	double to = fmin(pct + reach_pct, bc_curve_last_pct(curve));
	return fmax((bc_curve_temp_c(curve, to) - bc_curve_temp_c(curve, from)) / (to - from), 0.0);
}

static void point_steps(const struct bc_judgement *judgement, struct bc_way *way)
{
	const struct bc_points *points = &judgement->points;
	for (size_t i = 0; i < BC_POINTS; i++) {
		const struct bc_estimate *point = &points->at[i];
		if (!bc_estimate_present(point))
			continue;
		bc_way_plain(way, bc_point_keys[i], point->value, "degC");
		bc_way_bounds(way, point);
		if (points->extrapolated[i])
			bc_way_note(way, "beyond the readings: the fit, moved to meet the last "
					 "reading; bounds wider by 2 rms and half the way");
		else if (i == BC_AT_IBP || i == BC_AT_FBP)
			bc_way_note(way, judgement->boiloff.runs ? "mean of the runs, corrected"
								 : "read, then corrected");
		else
			bc_way_note(way, "read on the curve");
	}
	const struct bc_estimate *middle = &points->at[BC_AT_T50];
	if (!bc_estimate_present(middle) || points->extrapolated[BC_AT_T50])
		return;
	const double in[] = {50.0, slope_c_per_pct(judgement->curve, 50.0)};
	bc_way_formula(way, "R of the test at 50 %", "precision.d86_r", in, (double)NAN);
	if (judgement->boiloff.runs == NULL) {
		bc_way_note(way,
			judgement->spread != NULL
				? "the bounds of a point on the curve: 2.5 and 97.5 percentiles of "
				  "the draws, each with its own readings, percents (0.7 mL of the "
				  "receiver), R/sqrt(2) and flask"
				: "the bounds of a point on the curve: the reading's 95 %%, "
				  "R/sqrt(2), and the slope times 0.7 mL of the receiver, by "
				  "squares");
		return;
	}
	bc_way_plain(way, "spread between the runs at 50 %",
		bc_runs_spread_c(judgement->boiloff.runs, 50.0), "degC");
	bc_way_input(way, "runs", (double)judgement->boiloff.runs->runs, "");
	bc_way_source(way,
		"t s/sqrt(n), the assumed errors of one run and the spread of the runs joined by "
		"their degrees of freedom (JCGM 100:2008, G.4.2, from memory)");
	bc_way_note(way,
		"the bounds of a point on the curve of the mean: what the runs share, as above, "
		"sqrt(R^2 - r^2)/sqrt(2) of the place, and this spread, by squares");
}

static void fit_step(const struct bc_judgement *judgement, struct bc_way *way)
{
	const struct bc_fit *fit = judgement->reader.fit;
	bc_way_plain(way, "rms of the fit", fit != NULL ? fit->rms_c : (double)NAN, "degC");
	if (fit == NULL) {
		bc_way_source(way,
			"no family of curves could be fitted; nothing is told beyond the "
			"readings");
		return;
	}
	for (size_t i = 0; i < fit->model->n_parameters; i++)
		bc_way_input(way, fit->model->parameter_names[i], fit->parameters[i], "");
	bc_way_source(way, "%s: %s", fit->model->name, fit->model->source);
	bc_way_note(way,
		"best of %zu families by AICc on %zu readings, IBP and FBP left out; it answers only "
		"outside the readings",
		judgement->fits.n, fit->points);
}

void bc_way_curve(const struct bc_judgement *judgement, struct bc_way *way)
{
	const struct bc_points *points = &judgement->points;
	char figure[48];
	bc_way_section(way, "Loss, curve, points and fit");
	loss_steps(judgement, way);
	bc_way_plain(way, "curve from", bc_curve_first_pct(judgement->curve), "%");
	bc_way_input(way, "to", bc_curve_last_pct(judgement->curve), "%");
	bc_way_source(way, "monotone curve of Steffen 1990 through IBP, readings and FBP in use");
	point_steps(judgement, way);
	evaporated_steps(judgement, way);
	for (size_t i = 0; i < BC_RECOVERED_AT; i++) {
		if (!bc_estimate_present(&points->recovered_at[i]))
			continue;
		snprintf(figure, sizeof figure, "r%.0f_pct", bc_recovered_at_c[i]);
		bc_way_plain(way, figure, points->recovered_at[i].value, "%");
		bc_way_bounds(way, &points->recovered_at[i]);
		bc_way_note(way, "the curve read the other way");
	}
	fit_step(judgement, way);
}
