/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Slices and properties of an oil, each with its 95 % bounds and where it comes from. */
#include "fuel/properties.h"

#include <math.h>

#include "curve/correction.h"
#include "curve/cracking.h"
#include "fuel/compound.h"
#include "fuel/cross_findings.h"
#include "fuel/density.h"
#include "fuel/flash.h"
#include "fuel/measured.h"
#include "fuel/method_errors.h"
#include "fuel/oil_error.h"
#include "fuel/oil_findings.h"
#include "fuel/oil_given.h"
#include "fuel/oil_model.h"
#include "fuel/oil_points.h"

const char *const bc_property_keys[BC_PROPERTIES] = {
	[BC_DENSITY15] = "density15_kgm3",
	[BC_FLASH] = "flash_c",
	[BC_FLASH_T10] = "flash_t10_c",
	[BC_FLASH_VAPOUR] = "flash_vapour_c",
	[BC_CETANE_INDEX] = "cetane_index",
	[BC_CETANE_INDEX_D976] = "cetane_index_d976",
	[BC_VISC40] = "visc40_mm2s",
	[BC_MOLAR_MASS] = "molar_mass_gmol",
	[BC_WATSON_K] = "watson_k",
	[BC_MEAN_AVERAGE_BP] = "mean_average_bp_c",
	[BC_NET_HEAT] = "net_heat_mjkg",
	[BC_VAPOUR_PRESSURE_37_8] = "vapour_pressure_37_8_kpa",
	[BC_DRIVEABILITY_INDEX] = "driveability_index",
	[BC_VISC20] = "visc20_mm2s",
};

const char *const bc_property_units[BC_PROPERTIES] = {
	[BC_DENSITY15] = "kg/m3",
	[BC_FLASH] = "degC",
	[BC_FLASH_T10] = "degC",
	[BC_FLASH_VAPOUR] = "degC",
	[BC_CETANE_INDEX] = "",
	[BC_CETANE_INDEX_D976] = "",
	[BC_VISC40] = "mm2/s",
	[BC_MOLAR_MASS] = "g/mol",
	[BC_WATSON_K] = "",
	[BC_MEAN_AVERAGE_BP] = "degC",
	[BC_NET_HEAT] = "MJ/kg",
	[BC_VAPOUR_PRESSURE_37_8] = "kPa",
	[BC_DRIVEABILITY_INDEX] = "",
	[BC_VISC20] = "mm2/s",
};

const char *const bc_property_names[BC_PROPERTIES] = {
	[BC_DENSITY15] = "density at 15 degC",
	[BC_FLASH] = "flash point, closed cup",
	[BC_FLASH_T10] = "flash by the 10 % point",
	[BC_FLASH_VAPOUR] = "flash by the vapour space",
	[BC_CETANE_INDEX] = "cetane index (D4737 A)",
	[BC_CETANE_INDEX_D976] = "cetane index (D976)",
	[BC_VISC40] = "viscosity at 40 degC",
	[BC_MOLAR_MASS] = "molar mass",
	[BC_WATSON_K] = "Watson K",
	[BC_MEAN_AVERAGE_BP] = "mean average boiling point",
	[BC_NET_HEAT] = "net heat",
	[BC_VAPOUR_PRESSURE_37_8] = "vapour pressure at 37.8 degC",
	[BC_DRIVEABILITY_INDEX] = "driveability index",
	[BC_VISC20] = "viscosity at 20 degC",
};

enum { AT_IBP, AT_T10, AT_T30, AT_T50, AT_T70, AT_T90, AT_T95 };

double bc_density_from_curve_half_width_kgm3(double t10_c)
{
	return t10_c >= BC_HEAVY_T10_C ? BC_ERROR_DENSITY_HEAVY_KGM3 : BC_ERROR_DENSITY_CURVE_KGM3;
}

double bc_flash_half_width_c(double ibp_c, double t10_c)
{
	double span = t10_c - ibp_c;
	double half_width =
		isfinite(span) ? hypot(BC_ERROR_FLASH_C, BC_ERROR_FLASH_PER_SPAN * fmax(span, 0.0))
			       : BC_ERROR_FLASH_UNREAD_C;
	return t10_c >= BC_HEAVY_T10_C ? fmax(half_width, BC_ERROR_FLASH_HEAVY_C) : half_width;
}

void bc_flash_t10_bounds_c(
	double ibp_c, double t10_c, double flash_c, double *low_c, double *high_c)
{
	double span = t10_c - ibp_c;
	if (!isfinite(span))
		span = BC_ERROR_FLASH_UNREAD_SPAN_C;
	*low_c = flash_c - BC_ERROR_FLASH_T10_BELOW_C -
		 BC_ERROR_FLASH_T10_BELOW_PER_SPAN * fmax(span, 0.0);
	*high_c = flash_c + BC_ERROR_FLASH_T10_ABOVE_C;
}

static struct bc_estimate density_of(const struct bc_sample *sample,
	const struct bc_boiloff *boiloff, const struct bc_oil_input *input,
	const struct bc_feed *feed, struct bc_strings *assumed)
{
	struct bc_estimate density = bc_density_measured(sample, boiloff, assumed);
	if (bc_estimate_present(&density))
		return density;
	double sg = NAN;
	double t10_c = bc_oil_point_c(input, 10.0);
	double half_width = bc_density_from_curve_half_width_kgm3(t10_c);
	bc_sg_from_d86(t10_c, bc_oil_point_c(input, 50.0), &sg);
	density = bc_estimate_new(bc_density15_from_sg(sg), half_width, BC_ESTIMATED);
	if (!bc_estimate_present(&density))
		return density;
	bc_strings_add(assumed, "density %.0f kg/m3, estimated from the curve to within %.0f",
		density.value, half_width);
	if (bc_feed_only_polyolefin(feed))
		bc_strings_add(assumed, "oils from polyolefins alone were measured 24 to 48 kg/m3 "
					"lighter than their curves suggest");
	return density;
}

static void forget_all(struct bc_oil *oil)
{
	*oil = (struct bc_oil){.flash_at_site_c = NAN,
		.flash_low_at_site_c = NAN,
		.flash_learned_low_c = NAN,
		.flash_cup_low_c = NAN};
	for (size_t i = 0; i < BC_PROPERTIES; i++)
		oil->property[i] = bc_estimate_absent();
	for (size_t i = 0; i < BC_TBP_POINTS; i++)
		oil->tbp_c[i] = NAN;
}

/* ---- flash */

/* The first drops of a wet oil are water's: they come over no later than water does, with 5 degC
 * for the reading; common practice. */
static const double water_no_later_c = 105.0;

const char *bc_flash_no_claim_why(
	const struct bc_sample *sample, const struct bc_boiloff *boiloff, const struct bc_oil *oil)
{
	if (sample->history == BC_HISTORY_RETORT)
		return "straight from the retort: dissolved gas leaves before the first drop";
	if (sample->history == BC_HISTORY_UNKNOWN)
		return "history not stated: dissolved gas would leave before the first drop";
	if (sample->jar_to_pot_c > BC_POT_LIMIT_C || sample->jar_to_c > BC_HEAD_LIMIT_C)
		return "the jar was filled above the pot limit: cracked gas may be in it";
	if (oil->wet && !(boiloff->ibp_c > water_no_later_c))
		return "the first drops were water, so the IBP of the oil was not read";
	if (isnan(boiloff->ibp_c))
		return "no IBP was read, and the first drops decide the flash point";
	return NULL;
}

static void settle_flash(const struct bc_sample *sample, const struct bc_conditions *conditions,
	const struct bc_boiloff *boiloff, const char *front_silent, double t10_c,
	struct bc_oil *oil, struct bc_findings *findings)
{
	struct bc_estimate *flash = &oil->property[BC_FLASH];
	const struct bc_estimate *t10 = &oil->property[BC_FLASH_T10];
	*flash = oil->property[BC_FLASH_VAPOUR];
	if (t10->value < flash->low)
		flash->low = t10->value;
	oil->no_claim_why = bc_flash_no_claim_why(sample, boiloff, oil);
	if (!oil->no_claim_why)
		oil->no_claim_why = front_silent;
	if (!oil->no_claim_why && !bc_estimate_present(flash))
		oil->no_claim_why = "the flash point could not be computed";
	if (oil->no_claim_why)
		flash->low = NAN;
	if (bc_take_measured_flash(sample, t10_c, oil, findings))
		oil->no_claim_why = NULL;
	oil->flash_claim = oil->no_claim_why == NULL;
	double site_c = BC_FLASH_PER_KPA * (BC_STANDARD_PRESSURE_KPA - conditions->pressure_kpa);
	oil->flash_at_site_c = flash->value - site_c;
	oil->flash_low_at_site_c = flash->low - site_c;
}

/* D976 is not for synthetic fuels nor for end points below 260 degC (500 degF): what it is for is
 * an oil that is known to be of petroleum. */
static void limit_d976(const struct bc_sample *sample, const struct bc_boiloff *boiloff,
	const struct bc_feed *feed, double t90_c, struct bc_oil *oil)
{
	const double lowest_end_c = 260.0;
	double end_c = isnan(boiloff->fbp_c) ? t90_c : boiloff->fbp_c;
	bool known_history =
		sample->history == BC_HISTORY_RERUN || sample->history == BC_HISTORY_AIRED;
	if (!bc_feed_only_petroleum(feed) || !known_history || !(end_c >= lowest_end_c))
		oil->property[BC_CETANE_INDEX_D976].how = BC_NOT_VALID;
}

/* What rests on T50 and T90 does not hold where they are guessed. */
static void limit_to_readings(struct bc_oil *oil)
{
	static const enum bc_property resting[] = {
		BC_CETANE_INDEX, BC_CETANE_INDEX_D976, BC_VISC40, BC_VISC20};
	for (size_t i = 0; i < sizeof resting / sizeof resting[0]; i++)
		if (bc_estimate_present(&oil->property[resting[i]]))
			oil->property[resting[i]].how = BC_NOT_VALID;
}

enum bc_status bc_oil_from_boiloff(const struct bc_sample *sample,
	const struct bc_conditions *conditions, const struct bc_boiloff *boiloff,
	const struct bc_reader *reader, const struct bc_points *points, struct bc_oil *oil,
	struct bc_strings *assumed, struct bc_findings *findings)
{
	struct bc_oil_given given = {.no_claim_why = NULL};
	given.beyond_readings =
		bc_oil_points_take(conditions, boiloff, points, &given.input, &given.errors);
	return bc_oil_from_given(
		sample, conditions, boiloff, reader, points, &given, oil, assumed, findings);
}

enum bc_status bc_oil_from_given(const struct bc_sample *sample,
	const struct bc_conditions *conditions, const struct bc_boiloff *boiloff,
	const struct bc_reader *reader, const struct bc_points *points,
	const struct bc_oil_given *given, struct bc_oil *oil, struct bc_strings *assumed,
	struct bc_findings *findings)
{
	struct bc_feed feed;
	struct bc_oil_input input = given->input;
	struct bc_oil_errors errors = given->errors;
	struct bc_oil_figures figures;
	double d86_c[BC_TBP_POINTS];
	forget_all(oil);
	oil->wet = bc_oil_is_wet(sample, boiloff, findings);
	bc_feed_read(sample->feed, &feed);
	bc_feed_findings(&feed, sample, findings);
	bc_measured_alarms(sample, findings);
	oil->beyond_readings = given->beyond_readings;
	struct bc_estimate *density = &oil->property[BC_DENSITY15];
	*density = density_of(sample, boiloff, &input, &feed, assumed);
	input.density15_kgm3 = density->value;
	errors.density_kgm3 = 0.5 * (density->high - density->low);
	oil->tbp_status = bc_oil_build(&input, d86_c, oil->tbp_c, &oil->tbp, &oil->slices);
	if (bc_failed(oil->tbp_status))
		return oil->tbp_status;
	bc_oil_figures_of(&oil->slices, d86_c, density->value, &figures);
	bc_oil_reach(&input, &errors, &figures, &oil->reach);
	bc_oil_estimates(&figures, feed.polypropylene ? BC_CETANE_BRANCHED : BC_CETANE_HALF_WIDTH,
		&oil->reach, oil->property);
	oil->property[BC_DRIVEABILITY_INDEX] = bc_driveability_of(conditions, points);
	limit_d976(sample, boiloff, &feed, d86_c[AT_T90], oil);
	if (oil->beyond_readings)
		limit_to_readings(oil);
	bc_take_measured_viscosity(sample, oil, findings);
	settle_flash(
		sample, conditions, boiloff, given->no_claim_why, d86_c[AT_T10], oil, findings);
	bc_oil_findings(oil, d86_c, &feed, reader, findings);
	bc_compound_findings(boiloff, &feed, oil, d86_c[AT_T50], findings);
	bc_cross_findings(sample, boiloff, &feed, oil, d86_c[AT_T10], d86_c[AT_T50], findings);
	if (oil->property[BC_VAPOUR_PRESSURE_37_8].value > 1.0)
		bc_strings_add_once(assumed,
			"vapour pressure: light ends lost before the first drop are not in it");
	return assumed->failed || findings->failed ? BC_NO_MEMORY : BC_OK;
}

/* ---- a product */

struct bc_parent bc_parent_of(const struct bc_oil *oil, const struct bc_feed *feed)
{
	const struct bc_estimate *flash = &oil->property[BC_FLASH_VAPOUR];
	const struct bc_estimate *density = &oil->property[BC_DENSITY15];
	return (struct bc_parent){
		/* cups that lower the estimate lower its cuts; those that raise it do not */
		.flash_half_width_c =
			flash->value -
			fmin(flash->low, fmin(oil->flash_learned_low_c, oil->flash_cup_low_c)),
		.density15_kgm3 = density->value,
		.density_half_width_kgm3 = 0.5 * (density->high - density->low),
		.cetane_half_width =
			feed && feed->polypropylene ? BC_CETANE_BRANCHED : BC_CETANE_HALF_WIDTH,
		.reach = oil->reach,
		.d976_void = oil->property[BC_CETANE_INDEX_D976].how != BC_ESTIMATED,
		.beyond_readings = oil->beyond_readings,
	};
}

/* Whether the product's 90 % point lies where the parent was not read. */
static bool rests_on_guesses(const struct bc_slices *slices)
{
	double frac = 0.0;
	for (size_t i = 0; i < slices->n; i++) {
		frac += slices->items[i].volume_frac;
		if (frac >= 0.9)
			return slices->items[i].extrapolated;
	}
	return false;
}

static void settle_product_flash(const struct bc_parent *parent, struct bc_oil *oil)
{
	struct bc_estimate *flash = &oil->property[BC_FLASH];
	*flash = oil->property[BC_FLASH_VAPOUR];
	flash->low = fmin(flash->low, flash->value - parent->flash_half_width_c);
	flash->high = fmax(flash->high, flash->value + parent->flash_half_width_c);
	oil->property[BC_FLASH_VAPOUR] = *flash;
	if (oil->property[BC_FLASH_T10].value < flash->low)
		flash->low = oil->property[BC_FLASH_T10].value;
	oil->flash_claim = bc_estimate_present(flash);
	oil->no_claim_why = oil->flash_claim ? NULL : "the flash point could not be computed";
	oil->flash_at_site_c = flash->value;
	oil->flash_low_at_site_c = flash->low;
}

/* What one Watson K for product and parent may miss [kg/m3]. */
static double product_density_error(const struct bc_parent *parent, double density15_kgm3)
{
	double moved = density15_kgm3 - parent->density15_kgm3;
	return hypot(BC_ERROR_DENSITY_PRODUCT_KGM3,
		isnan(moved) ? 0.0 : BC_ERROR_DENSITY_MOVE_SHARE * moved);
}

enum bc_status bc_oil_from_slices(const struct bc_slices *slices, const double d86_c[BC_TBP_POINTS],
	const struct bc_parent *parent, struct bc_oil *oil)
{
	static const struct bc_parent none = {
		.density15_kgm3 = NAN, .cetane_half_width = BC_CETANE_HALF_WIDTH};
	if (!parent)
		parent = &none;
	forget_all(oil);
	if (slices->n == 0)
		return BC_BAD_DOMAIN;
	double density15 = bc_density15_from_sg(slices->sg);
	oil->slices = *slices;
	for (size_t i = 0; i < BC_TBP_POINTS; i++)
		oil->tbp_c[i] = bc_slices_temp_k(slices, bc_tbp_point_pct[i] / 100.0) - 273.15;
	struct bc_oil_figures figures;
	bc_oil_figures_of(slices, d86_c, density15, &figures);
	double density_error = product_density_error(parent, density15);
	oil->reach = parent->reach;
	bc_oil_reach_of_density(slices, d86_c, density15, density_error, &figures, &oil->reach);
	bc_oil_estimates(&figures, fmax(parent->cetane_half_width, BC_CETANE_HALF_WIDTH),
		&oil->reach, oil->property);
	oil->property[BC_DENSITY15] = bc_estimate_new(
		density15, hypot(density_error, parent->density_half_width_kgm3), BC_ESTIMATED);
	oil->beyond_readings = parent->beyond_readings && rests_on_guesses(slices);
	if (oil->beyond_readings)
		limit_to_readings(oil);
	if (parent->d976_void)
		oil->property[BC_CETANE_INDEX_D976].how = BC_NOT_VALID;
	settle_product_flash(parent, oil);
	return BC_OK;
}
