/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Slices and properties of an oil, each with its 95 % bounds and where it comes from. */
#include "fuel/properties.h"

#include <math.h>
#include <string.h>

#include "base/stats.h"
#include "fuel/density.h"
#include "fuel/feed.h"
#include "fuel/flash.h"
#include "fuel/oil_findings.h"
#include "fuel/oil_model.h"

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

/* Half-widths (95 %) of the methods: properties.h, note 2. */
static const double density_direct_kgm3 = 0.5; /* hydrometer read at 15 degC; common practice */
static const double density_carried_kgm3 =
	2.0; /* product class is not exact: MPMS 11.1, computed */
static const double density_from_curve_kgm3 = 58.0; /* measured, 60 D86-type curves */
static const double cetane_half_width = 4.0;   /* D4737: under 2 for 65 % of fuels, so 4 for 95 % */
static const double cetane_branched = 25.0;    /* D4737 against cetane number, branched kerosenes */
static const double visc40_share = 0.20;       /* measured, kerosenes and heavier oils */
static const double visc20_share = 0.25;       /* the same, carried 18 degC further; assumed */
static const double molar_mass_share = 0.07;   /* API 2B2.1, average error stated */
static const double mean_boiling_c = 2.0;      /* no error published; assumed */
static const double net_heat_mjkg = 0.4;       /* 1 %; D4868, from memory */
static const double flash_method_c = 12.5;     /* measured, kerosenes to diesels with an IBP */
static const double outside_range_c = 10.0;    /* Riazi-Daubert beyond its range; computed */
static const double unread_point_c = 10.0;     /* a point nobody read and no fit answers; assumed */
static const double unread_ibp_span_c = 111.0; /* widest IBP..10 % measured */
static const double flash_per_kpa = 0.25;      /* ISO 2719, degC/kPa */
static const double sea_level_kpa = 101.3;

/* Above these the pot cracks the oil while the jar fills, and gas goes into it; common practice,
 * from memory. */
static const double pot_limit_c = 340.0;
static const double head_limit_c = 335.0;

double bc_flash_half_width_c(double ibp_c, double t10_c)
{
	double span = t10_c - ibp_c;
	if (!isfinite(span))
		span = unread_ibp_span_c;
	return flash_method_c + 0.15 * fmax(span - 60.0, 0.0);
}

void bc_flash_t10_bounds_c(
	double ibp_c, double t10_c, double flash_c, double *low_c, double *high_c)
{
	double span = t10_c - ibp_c;
	if (!isfinite(span))
		span = unread_ibp_span_c;
	*low_c = flash_c - 15.0 - 0.45 * fmax(span, 0.0);
	*high_c = flash_c + 5.0;
}

/* ---- what is known of the oil */

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

/* The straight line in probit through two readings at the end where pct lies. */
static double line_temp_c(const struct bc_boiloff *boiloff, double pct)
{
	const struct bc_point *outer;
	const struct bc_point *inner;
	if (!end_readings(boiloff, pct > boiloff->last_pct, &outer, &inner))
		return NAN;
	double z = bc_probit_from_pct(pct);
	double z_outer = bc_probit_from_pct(outer->recovered_pct);
	double z_inner = bc_probit_from_pct(inner->recovered_pct);
	double slope = fmax((outer->corrected_c - inner->corrected_c) / (z_outer - z_inner), 0.0);
	return outer->corrected_c + slope * (z - z_outer);
}

/* Points that carry the slices: for a D86 the seven of the conversion, else all that are read. */
static const enum bc_point_at d86_points[] = {
	BC_AT_IBP, BC_AT_T10, BC_AT_T30, BC_AT_T50, BC_AT_T70, BC_AT_T90, BC_AT_T95};
static const enum bc_point_at tbp_points[] = {BC_AT_IBP, BC_AT_T5, BC_AT_T10, BC_AT_T20, BC_AT_T30,
	BC_AT_T40, BC_AT_T50, BC_AT_T60, BC_AT_T70, BC_AT_T80, BC_AT_T90, BC_AT_T95};

struct spread {
	double half_width[BC_OIL_POINTS_MAX + 1]; /* of each point, then of the density */
};

static void take_point(const struct bc_boiloff *boiloff, const struct bc_points *points,
	enum bc_point_at at, struct bc_oil_input *input, struct spread *spread)
{
	const struct bc_estimate *read = &points->at[at];
	double temp_c = read->value;
	double half_width = 0.5 * (read->high - read->low);
	if (isnan(temp_c) && at != BC_AT_IBP) {
		temp_c = line_temp_c(boiloff, bc_point_pct[at]);
		half_width = unread_point_c;
	}
	double converted = NAN;
	if (!input->tbp &&
		bc_tbp_from_d86_c(bc_point_pct[at], temp_c, &converted) == BC_OUTSIDE_RANGE)
		half_width = hypot(isfinite(half_width) ? half_width : 0.0, outside_range_c);
	input->pct[input->n] = bc_point_pct[at];
	input->temp_c[input->n] = input->tbp ? bc_true_from_corrected(temp_c) : temp_c;
	spread->half_width[input->n] = isfinite(half_width) ? half_width : 0.0;
	input->n++;
}

static void take_points(const struct bc_conditions *conditions, const struct bc_boiloff *boiloff,
	const struct bc_points *points, struct bc_oil_input *input, struct spread *spread)
{
	bool tbp = conditions->tbp;
	const enum bc_point_at *list = tbp ? tbp_points : d86_points;
	size_t n = tbp ? sizeof tbp_points / sizeof tbp_points[0]
		       : sizeof d86_points / sizeof d86_points[0];
	*input = (struct bc_oil_input){.tbp = tbp};
	for (size_t i = 0; i < n; i++)
		take_point(boiloff, points, list[i], input, spread);
	input->read_from_pct = isnan(boiloff->ibp_c) ? boiloff->first_pct : 0.0;
	input->read_to_pct = isnan(boiloff->fbp_c) ? boiloff->last_pct : boiloff->end_pct;
}

static double point_c(const struct bc_oil_input *input, double pct)
{
	for (size_t i = 0; i < input->n; i++)
		if (input->pct[i] == pct)
			return input->temp_c[i];
	return NAN;
}

static struct bc_estimate measured_density(const struct bc_sample *sample)
{
	double temp_c = isnan(sample->density_temp_c) ? 15.0 : sample->density_temp_c;
	double density15 = NAN;
	bc_density15_from_observed_kgm3(sample->density_kgm3, temp_c, &density15);
	double half_width = fabs(temp_c - 15.0) > 0.05 ? density_carried_kgm3 : density_direct_kgm3;
	return bc_estimate_new(density15, half_width, BC_MEASURED);
}

static struct bc_estimate density_of(const struct bc_sample *sample,
	const struct bc_oil_input *input, const struct bc_feed *feed, struct bc_strings *assumed)
{
	struct bc_estimate density = measured_density(sample);
	if (bc_estimate_present(&density))
		return density;
	double sg = NAN;
	bc_sg_from_d86(point_c(input, 10.0), point_c(input, 50.0), &sg);
	density = bc_estimate_new(bc_density15_from_sg(sg), density_from_curve_kgm3, BC_ESTIMATED);
	if (!bc_estimate_present(&density))
		return density;
	bc_strings_add(assumed, "density %.0f kg/m3, estimated from the curve to within %.0f",
		density.value, density_from_curve_kgm3);
	if (bc_feed_only_polyolefin(feed))
		bc_strings_add(assumed, "oils from polyolefins alone were measured 24 to 48 kg/m3 "
					"lighter than their curves suggest");
	return density;
}

/* ---- errors */

/* Where each figure of the model stands in an array of derivatives. */
static const struct {
	enum bc_property property;
	size_t offset;
} figure_of[] = {
	{BC_FLASH_T10, offsetof(struct bc_oil_figures, flash_t10_c)},
	{BC_FLASH_VAPOUR, offsetof(struct bc_oil_figures, flash_vapour_c)},
	{BC_CETANE_INDEX, offsetof(struct bc_oil_figures, cetane_index)},
	{BC_CETANE_INDEX_D976, offsetof(struct bc_oil_figures, cetane_index_d976)},
	{BC_VISC40, offsetof(struct bc_oil_figures, visc40_mm2s)},
	{BC_MOLAR_MASS, offsetof(struct bc_oil_figures, molar_mass_gmol)},
	{BC_WATSON_K, offsetof(struct bc_oil_figures, watson_k)},
	{BC_MEAN_AVERAGE_BP, offsetof(struct bc_oil_figures, mean_average_bp_c)},
	{BC_NET_HEAT, offsetof(struct bc_oil_figures, net_heat_mjkg)},
	{BC_VAPOUR_PRESSURE_37_8, offsetof(struct bc_oil_figures, vapour_pressure_37_8_kpa)},
	{BC_VISC20, offsetof(struct bc_oil_figures, visc20_mm2s)},
};
enum { FIGURES = sizeof figure_of / sizeof figure_of[0] };

static double figure(const struct bc_oil_figures *figures, size_t i)
{
	double value;
	memcpy(&value, (const char *)figures + figure_of[i].offset, sizeof value);
	return value;
}

/* Half-widths of the figures from those of the readings, by differences, added by squares. */
static void carry_readings(const struct bc_oil_input *input, const struct spread *spread,
	const struct bc_oil_figures *base, double half_width[BC_PROPERTIES])
{
	double square[FIGURES] = {0.0};
	for (size_t k = 0; k <= input->n; k++) {
		if (!(spread->half_width[k] > 0.0))
			continue;
		struct bc_oil_input moved = *input;
		if (k < input->n)
			moved.temp_c[k] += spread->half_width[k];
		else
			moved.density15_kgm3 += spread->half_width[k];
		double d86_c[BC_TBP_POINTS];
		double tbp_c[BC_TBP_POINTS];
		struct bc_tbp_curve curve;
		struct bc_slices slices;
		struct bc_oil_figures figures;
		if (bc_failed(bc_oil_build(&moved, d86_c, tbp_c, &curve, &slices)))
			continue;
		bc_oil_figures_of(&slices, d86_c, moved.density15_kgm3, &figures);
		for (size_t i = 0; i < FIGURES; i++) {
			double difference = figure(&figures, i) - figure(base, i);
			square[i] += isfinite(difference) ? difference * difference : 0.0;
		}
	}
	for (size_t i = 0; i < FIGURES; i++)
		half_width[figure_of[i].property] = sqrt(square[i]);
}

/* A factor either way, as for what is never negative; other_share is a further relative error. */
static struct bc_estimate by_factor(double value, double factor, double other_half_width)
{
	struct bc_estimate estimate = bc_estimate_new(value, 0.0, BC_ESTIMATED);
	double share = other_half_width / value;
	double log_half_width = hypot(log(factor), isfinite(share) ? share : 0.0);
	estimate.low = value * exp(-log_half_width);
	estimate.high = value * exp(log_half_width);
	return estimate;
}

static enum bc_how how_of(enum bc_status status)
{
	return status == BC_OUTSIDE_RANGE ? BC_NOT_VALID : BC_ESTIMATED;
}

/* The error of the methods joined to that of the readings. */
static void fill_estimates(const struct bc_oil_figures *f, double cetane_error,
	const double reading[BC_PROPERTIES], struct bc_estimate *property)
{
	double ibp_c = f->d86_c[0];
	double t10_c = f->d86_c[1];
	double flash = bc_flash_half_width_c(ibp_c, t10_c);
	property[BC_FLASH_VAPOUR] = bc_estimate_new(
		f->flash_vapour_c, hypot(flash, reading[BC_FLASH_VAPOUR]), BC_ESTIMATED);
	struct bc_estimate *t10 = &property[BC_FLASH_T10];
	*t10 = bc_estimate_new(f->flash_t10_c, 0.0, BC_ESTIMATED);
	bc_flash_t10_bounds_c(ibp_c, t10_c, f->flash_t10_c, &t10->low, &t10->high);
	t10->low = t10->value - hypot(t10->value - t10->low, reading[BC_FLASH_T10]);
	t10->high = t10->value + hypot(t10->high - t10->value, reading[BC_FLASH_T10]);

	property[BC_CETANE_INDEX] = bc_estimate_new(f->cetane_index,
		hypot(cetane_error, reading[BC_CETANE_INDEX]), how_of(f->cetane_status));
	property[BC_CETANE_INDEX_D976] = bc_estimate_new(f->cetane_index_d976,
		hypot(cetane_error, reading[BC_CETANE_INDEX_D976]), BC_ESTIMATED);
	property[BC_VISC40] = by_factor(f->visc40_mm2s, 1.0 + visc40_share, reading[BC_VISC40]);
	property[BC_VISC20] = by_factor(f->visc20_mm2s, 1.0 + visc20_share, reading[BC_VISC20]);
	property[BC_VISC40].how = property[BC_VISC20].how = how_of(f->visc_status);
	property[BC_MOLAR_MASS] =
		by_factor(f->molar_mass_gmol, 1.0 + molar_mass_share, reading[BC_MOLAR_MASS]);
	property[BC_WATSON_K] = bc_estimate_new(f->watson_k, reading[BC_WATSON_K], BC_ESTIMATED);
	property[BC_MEAN_AVERAGE_BP] = bc_estimate_new(f->mean_average_bp_c,
		hypot(mean_boiling_c, reading[BC_MEAN_AVERAGE_BP]), BC_ESTIMATED);
	property[BC_NET_HEAT] = bc_estimate_new(f->net_heat_mjkg,
		hypot(net_heat_mjkg, reading[BC_NET_HEAT]), how_of(f->heat_status));
	/* vapour pressure changes by about 4.5 % a degree near the flash point (Lee-Kesler), and
	 * the same front end that makes the flash uncertain makes it so */
	property[BC_VAPOUR_PRESSURE_37_8] = by_factor(
		f->vapour_pressure_37_8_kpa, exp(0.045 * flash), reading[BC_VAPOUR_PRESSURE_37_8]);
	for (size_t i = 0; i < BC_PROPERTIES; i++)
		if (isnan(property[i].value))
			property[i] = bc_estimate_absent();
}

static void forget_all(struct bc_oil *oil)
{
	*oil = (struct bc_oil){.flash_at_site_c = NAN};
	for (size_t i = 0; i < BC_PROPERTIES; i++)
		oil->property[i] = bc_estimate_absent();
	for (size_t i = 0; i < BC_TBP_POINTS; i++)
		oil->tbp_c[i] = NAN;
}

/* ---- what was measured, and flash */

/* The first drops of a wet oil are water's: they come over no later than water does. */
static bool ibp_is_of_water(const struct bc_boiloff *boiloff, const struct bc_findings *findings)
{
	const double no_later_c = 105.0; /* with 5 degC for the reading; common practice */
	return (boiloff->wet || bc_findings_has(findings, "water-shelf")) &&
	       boiloff->ibp_c <= no_later_c;
}

static const char *why_no_claim(const struct bc_sample *sample, const struct bc_boiloff *boiloff,
	const struct bc_findings *findings)
{
	if (sample->history == BC_HISTORY_RETORT)
		return "straight from the retort: dissolved gas leaves before the first drop";
	if (sample->history == BC_HISTORY_UNKNOWN)
		return "history not stated: dissolved gas would leave before the first drop";
	if (sample->jar_to_pot_c > pot_limit_c || sample->jar_to_c > head_limit_c)
		return "the jar was filled above the pot limit: cracked gas may be in it";
	if (isnan(boiloff->ibp_c))
		return "no IBP was read, and the first drops decide the flash point";
	if (ibp_is_of_water(boiloff, findings))
		return "the first drops were water, so the IBP of the oil was not read";
	return NULL;
}

/* A measured closed cup: R = 0.071 X (ASTM D93 procedure A, from memory), at least 2. */
static bool take_measured_flash(const struct bc_sample *sample, const struct bc_boiloff *boiloff,
	struct bc_oil *oil, struct bc_findings *findings)
{
	const struct bc_measured *flash = bc_sample_measured(sample, "flash_point");
	if (!flash)
		return false;
	if (boiloff->wet) {
		bc_findings_add(findings, "flash-void-wet", BC_FINDING_WARNING, NAN,
			"The measured flash point is void: water came over, and wet oil flashes "
			"late or not at all.",
			"Dry the oil and have the flash point measured again.");
		return false;
	}
	double half_width = fmax(0.071 * fabs(flash->value) / sqrt(2.0), 2.0);
	oil->property[BC_FLASH] = bc_estimate_new(flash->value, half_width, BC_MEASURED);
	return true;
}

static void settle_flash(const struct bc_sample *sample, const struct bc_conditions *conditions,
	const struct bc_boiloff *boiloff, struct bc_oil *oil, struct bc_findings *findings)
{
	struct bc_estimate *flash = &oil->property[BC_FLASH];
	if (!take_measured_flash(sample, boiloff, oil, findings)) {
		const struct bc_estimate *t10 = &oil->property[BC_FLASH_T10];
		*flash = oil->property[BC_FLASH_VAPOUR];
		if (t10->value < flash->low)
			flash->low = t10->value;
		oil->no_claim_why = why_no_claim(sample, boiloff, findings);
		if (!oil->no_claim_why && !bc_estimate_present(flash))
			oil->no_claim_why = "the flash point could not be computed";
		if (oil->no_claim_why)
			flash->low = NAN;
	}
	oil->flash_claim = oil->no_claim_why == NULL;
	oil->flash_at_site_c =
		flash->value - flash_per_kpa * (sea_level_kpa - conditions->pressure_kpa);
}

/* ISO 3104: R = 0.0082 (X + 1) for diesel at 40 degC, from memory; at least 1 %. */
static void take_measured_visc(const struct bc_sample *sample, struct bc_oil *oil)
{
	const struct bc_measured *visc = bc_sample_measured(sample, "kin_viscosity");
	if (!visc)
		return;
	double temp_c = isnan(visc->temp_c) ? 40.0 : visc->temp_c;
	double half_width = fmax(0.0082 * (visc->value + 1.0) / sqrt(2.0), 0.01 * visc->value);
	if (fabs(temp_c - 40.0) <= 0.5)
		oil->property[BC_VISC40] = bc_estimate_new(visc->value, half_width, BC_MEASURED);
	else if (fabs(temp_c - 20.0) <= 0.5)
		oil->property[BC_VISC20] = bc_estimate_new(visc->value, half_width, BC_MEASURED);
}

/* D976 is not for synthetic fuels nor for end points below 260 degC (500 degF). */
static void limit_d976(const struct bc_boiloff *boiloff, const struct bc_feed *feed, double t90_c,
	struct bc_oil *oil)
{
	double lowest_end_c = 260.0;
	double end_c = isnan(boiloff->fbp_c) ? t90_c : boiloff->fbp_c;
	if (feed->known || !(end_c >= lowest_end_c))
		oil->property[BC_CETANE_INDEX_D976].how = BC_NOT_VALID;
}

static void fill_driveability(const struct bc_points *points, struct bc_oil *oil)
{
	static const double weight[BC_EVAPORATED_POINTS] = {1.5, 3.0, 1.0}; /* ASTM D4814 */
	double value = 0.0;
	double square = 0.0;
	for (size_t i = 0; i < BC_EVAPORATED_POINTS; i++) {
		const struct bc_estimate *point = &points->evaporated_point[i];
		double half_width = 0.5 * (point->high - point->low);
		value += weight[i] * point->value;
		square += weight[i] * weight[i] * half_width * half_width;
	}
	oil->property[BC_DRIVEABILITY_INDEX] = bc_estimate_new(value, sqrt(square), BC_ESTIMATED);
}

enum bc_status bc_oil_from_boiloff(const struct bc_sample *sample,
	const struct bc_conditions *conditions, const struct bc_boiloff *boiloff,
	const struct bc_reader *reader, const struct bc_points *points, struct bc_oil *oil,
	struct bc_strings *assumed, struct bc_findings *findings)
{
	struct bc_feed feed;
	struct bc_oil_input input;
	struct spread spread = {{0.0}};
	forget_all(oil);
	bc_feed_read(sample->feed, &feed);
	bc_feed_findings(&feed, sample->feed != NULL, findings);
	take_points(conditions, boiloff, points, &input, &spread);

	struct bc_estimate *density = &oil->property[BC_DENSITY15];
	*density = density_of(sample, &input, &feed, assumed);
	input.density15_kgm3 = density->value;
	spread.half_width[input.n] = 0.5 * (density->high - density->low);

	double d86_c[BC_TBP_POINTS];
	oil->tbp_status = bc_oil_build(&input, d86_c, oil->tbp_c, &oil->tbp, &oil->slices);
	if (bc_failed(oil->tbp_status))
		return oil->tbp_status;
	struct bc_oil_figures figures;
	double reading[BC_PROPERTIES] = {0.0};
	bc_oil_figures_of(&oil->slices, d86_c, density->value, &figures);
	carry_readings(&input, &spread, &figures, reading);
	fill_estimates(&figures, feed.polypropylene ? cetane_branched : cetane_half_width, reading,
		oil->property);
	fill_driveability(points, oil);
	limit_d976(boiloff, &feed, d86_c[5], oil);
	take_measured_visc(sample, oil);
	settle_flash(sample, conditions, boiloff, oil, findings);
	bc_oil_findings(oil, d86_c, &feed, reader, findings);
	if (oil->property[BC_VAPOUR_PRESSURE_37_8].value > 1.0)
		bc_strings_add_once(assumed,
			"vapour pressure: light ends lost before the first drop are not in it");
	return assumed->failed || findings->failed ? BC_NO_MEMORY : BC_OK;
}

enum bc_status bc_oil_from_slices(const struct bc_slices *slices, const double d86_c[BC_TBP_POINTS],
	double flash_half_width_c, struct bc_oil *oil)
{
	forget_all(oil);
	if (slices->n == 0)
		return BC_BAD_DOMAIN;
	double density15 = bc_density15_from_sg(slices->sg);
	oil->slices = *slices;
	for (size_t i = 0; i < BC_TBP_POINTS; i++)
		oil->tbp_c[i] = bc_slices_temp_k(slices, bc_tbp_point_pct[i] / 100.0) - 273.15;
	struct bc_oil_figures figures;
	const double reading[BC_PROPERTIES] = {0.0};
	bc_oil_figures_of(slices, d86_c, density15, &figures);
	fill_estimates(&figures, cetane_half_width, reading, oil->property);
	oil->property[BC_DENSITY15] =
		bc_estimate_new(density15, density_carried_kgm3, BC_ESTIMATED);
	struct bc_estimate *flash = &oil->property[BC_FLASH];
	*flash = oil->property[BC_FLASH_VAPOUR];
	flash->low = fmin(flash->low, flash->value - flash_half_width_c);
	flash->high = fmax(flash->high, flash->value + flash_half_width_c);
	oil->property[BC_FLASH_VAPOUR] = *flash;
	if (oil->property[BC_FLASH_T10].value < flash->low)
		flash->low = oil->property[BC_FLASH_T10].value;
	oil->flash_claim = bc_estimate_present(flash);
	oil->no_claim_why = oil->flash_claim ? NULL : "the flash point could not be computed";
	oil->flash_at_site_c = flash->value;
	return BC_OK;
}
