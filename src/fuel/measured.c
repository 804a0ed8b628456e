/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was measured beside the boil-off: density, viscosity, flash, and the laboratory's alarms. */
#include "fuel/measured.h"

#include <math.h>
#include <string.h>

#include "fuel/density.h"
#include "fuel/viscosity.h"

bool bc_oil_is_wet(const struct bc_sample *sample, const struct bc_boiloff *boiloff,
	const struct bc_findings *findings)
{
	const double wet_mgkg = 1000.0;
	const double wet_pct = 0.1; /* the same, by volume with what settles */
	const struct bc_measured *water = bc_sample_measured(sample, "water");
	const struct bc_measured *settled = bc_sample_measured(sample, "water_and_sediment");
	return boiloff->wet || (settled && settled->value > wet_pct) ||
	       bc_findings_has(findings, "water-shelf") || (water && water->value > wet_mgkg);
}

/* ---- density: header */

static const double tables_direct_kgm3 = 0.5;
static const double tables_carried_kgm3 = 2.0; /* classes are not exact: MPMS 11.1, computed */
static const double instrument_kgm3 = 1.0;
static const double charge_half_width_kgm3 = 8.0;

static struct bc_estimate density_of_charge(
	const struct bc_boiloff *boiloff, struct bc_strings *assumed)
{
	if (!(boiloff->charge_kgm3 > 0.0))
		return bc_estimate_absent();
	bc_strings_add(assumed,
		"density %.0f kg/m3 from the weighed charge, to within %.0f; its temperature "
		"was not written down",
		boiloff->charge_kgm3, charge_half_width_kgm3);
	return bc_estimate_new(boiloff->charge_kgm3, charge_half_width_kgm3, BC_MEASURED);
}

struct bc_estimate bc_density_measured(const struct bc_sample *sample,
	const struct bc_boiloff *boiloff, struct bc_strings *assumed)
{
	double temp_c = isnan(sample->density_temp_c) ? 15.0 : sample->density_temp_c;
	double density15 = NAN;
	bc_density15_from_observed_kgm3(sample->density_kgm3, temp_c, &density15);
	if (isnan(density15))
		return density_of_charge(boiloff, assumed);
	bool carried = fabs(temp_c - 15.0) > 0.05;
	double tables = carried ? tables_carried_kgm3 : tables_direct_kgm3;
	double digit = isnan(sample->density_step_kgm3) ? 0.0 : sample->density_step_kgm3;
	if (carried)
		bc_strings_add(assumed,
			"density as read at %.0f degC: the expansion of a glass "
			"hydrometer is left out, 0.2 kg/m3 over 10 degC",
			temp_c);
	double half_width = hypot(hypot(tables, digit), instrument_kgm3);
	if (sample->density_error_kgm3 >= 0.0)
		half_width = sample->density_error_kgm3;
	return bc_estimate_new(density15, half_width, BC_MEASURED);
}

/* ---- viscosity */

static struct bc_estimate moved(
	const struct bc_estimate *estimate, double factor, double log_half_width)
{
	double value = estimate->value * factor;
	return (struct bc_estimate){
		value, value * exp(-log_half_width), value * exp(log_half_width), estimate->how};
}

void bc_take_measured_viscosity(
	const struct bc_sample *sample, struct bc_oil *oil, struct bc_findings *findings)
{
	static const struct {
		enum bc_property property;
		double temp_c;
	} places[] = {{BC_VISC20, 20.0}, {BC_VISC40, 40.0}};
	const double per_c = 0.0075;
	const struct bc_measured *visc = bc_sample_measured(sample, "kin_viscosity");
	if (!visc)
		return;
	double temp_c = isnan(visc->temp_c) ? 40.0 : visc->temp_c;
	/* ISO 3104: R = 0.0082 (X + 1) for diesel at 40 degC, from memory; at least 1 % */
	double half_width = fmax(0.0082 * (visc->value + 1.0) / sqrt(2.0), 0.01 * visc->value);
	double estimated = NAN;
	bc_visc_d341_mm2s(20.0, oil->property[BC_VISC20].value, 40.0,
		oil->property[BC_VISC40].value, temp_c, &estimated);
	bool used = false;
	for (size_t i = 0; i < sizeof places / sizeof places[0]; i++) {
		struct bc_estimate *place = &oil->property[places[i].property];
		double way_c = fabs(places[i].temp_c - temp_c);
		if (way_c <= 0.5) {
			*place = bc_estimate_new(visc->value, half_width, BC_MEASURED);
			used = true;
		} else if (isfinite(estimated)) {
			*place = moved(place, visc->value / estimated,
				hypot(half_width / visc->value, per_c * way_c));
			used = true;
		}
	}
	if (!used)
		bc_findings_say(findings, "viscosity-unused", BC_FINDING_NOTE, NAN,
			"Have it measured at 40 degC.",
			"The viscosity measured at %.0f degC could not be used: there is no "
			"estimate along which to carry it to 20 or 40 degC.",
			temp_c);
}

/* ---- flash */

static const struct bc_measured *open_cup(const struct bc_sample *sample)
{
	for (size_t i = 0; i < sample->n_measured; i++)
		if (sample->measured[i].open_cup)
			return &sample->measured[i];
	return NULL;
}

static void cap_by_open_cup(
	const struct bc_sample *sample, struct bc_oil *oil, struct bc_findings *findings)
{
	struct bc_estimate *flash = &oil->property[BC_FLASH];
	const struct bc_measured *open = open_cup(sample);
	if (!open)
		return;
	oil->flash_cup_low_c = fmin(oil->flash_cup_low_c, open->value);
	if (!(open->value < flash->value))
		return;
	oil->flash_open_disputed = open->value < oil->property[BC_FLASH_VAPOUR].low;
	if (!isnan(flash->low))
		flash->low = fmin(flash->low, open->value);
	bc_findings_say(findings, "flash-open-cup-lower", BC_FINDING_DANGER, NAN,
		"Handle it by the open-cup value or lower; have a closed-cup flash measured.",
		"The open cup flashed at %.0f degC, below the estimate of %.0f degC, and a "
		"closed cup flashes lower still: there are light ends that the boil-off did "
		"not show.",
		open->value, flash->value);
}

static void compare_with_vapour_space(
	const struct bc_oil *oil, double t10_c, struct bc_findings *findings)
{
	const struct bc_estimate *flash = &oil->property[BC_FLASH];
	const struct bc_estimate *vapour = &oil->property[BC_FLASH_VAPOUR];
	double half_width = flash->high - flash->value;
	if (t10_c >= BC_HEAVY_T10_C)
		return;
	if (flash->value > vapour->high + half_width) {
		bc_findings_say(findings, "flash-measured-high", BC_FINDING_WARNING, NAN,
			"Measure the flash again, closed cup, on a fresh and dry portion of this "
			"jar.",
			"The measured flash, %.0f degC, is above what the boil-off allows, %.0f "
			"degC at most: an oil with such first drops cannot flash so late.",
			flash->value, vapour->high);
		bc_findings_forbid(findings, true, false);
	} else if (flash->value < vapour->low - half_width) {
		bc_findings_say(findings, "flash-measured-low", BC_FINDING_DANGER, NAN,
			"Air it, or re-run it with a light jar first, then measure again; until "
			"then the measured value holds.",
			"The measured flash, %.0f degC, is below what the boil-off explains, "
			"%.0f degC at least: dissolved gas, or something light that got in and "
			"that the curve does not see.",
			flash->value, vapour->low);
	}
}

double bc_closed_cup_half_width_c(double flash_c)
{
	return fmax(0.071 * fabs(flash_c) / sqrt(2.0), 2.0);
}

bool bc_take_measured_flash(const struct bc_sample *sample, double t10_c, struct bc_oil *oil,
	struct bc_findings *findings)
{
	struct bc_estimate *flash = &oil->property[BC_FLASH];
	const struct bc_measured *closed = bc_sample_measured(sample, "flash_point");
	if (closed && !oil->wet) {
		*flash = bc_estimate_new(
			closed->value, bc_closed_cup_half_width_c(closed->value), BC_MEASURED);
		oil->flash_cup_low_c = flash->low;
		compare_with_vapour_space(oil, t10_c, findings);
	}
	if (closed && oil->wet)
		bc_findings_add(findings, "flash-void-wet", BC_FINDING_WARNING, NAN,
			"The measured flash point is void: there is water in the sample, and wet "
			"oil flashes late or not at all.",
			"Dry the oil and have the flash point measured again.");
	cap_by_open_cup(sample, oil, findings);
	return closed && !oil->wet;
}

/* ---- alarms */

static const struct {
	const char *code;
	const char *property;
	const char *name;
	const char *side;
	double figure;
	const char *unit;
	const char *weight;
	const char *usable;
	const char *rerun;
	const char *source;
	const char *trust;
	const char *message;
	const char *advice;
} alarms[] = {
#include "measured-alarms.inc"
};

static bool rings(const char *side, double figure, double value)
{
	if (strcmp(side, "below") == 0)
		return value < figure;
	return strcmp(side, "from") == 0 ? value >= figure : value > figure;
}

static enum bc_weight weight_of(const char *word)
{
	if (strcmp(word, "danger") == 0)
		return BC_FINDING_DANGER;
	return strcmp(word, "warning") == 0 ? BC_FINDING_WARNING : BC_FINDING_NOTE;
}

void bc_measured_alarms(const struct bc_sample *sample, struct bc_findings *findings)
{
	for (size_t i = 0; i < sizeof alarms / sizeof alarms[0]; i++) {
		const struct bc_measured *measured = bc_sample_measured(sample, alarms[i].property);
		if (!measured || !rings(alarms[i].side, alarms[i].figure, measured->value))
			continue;
		const char *unit = strcmp(alarms[i].unit, "-") == 0 ? "" : alarms[i].unit;
		bc_findings_say(findings, alarms[i].code, weight_of(alarms[i].weight), NAN,
			alarms[i].advice, "Measured %s: %g %s, %s %g (%s). %s", alarms[i].name,
			measured->value, unit,
			strcmp(alarms[i].side, "from") == 0 ? "at or above" : alarms[i].side,
			alarms[i].figure, alarms[i].source, alarms[i].message);
		bc_findings_forbid(findings, strcmp(alarms[i].usable, "yes") == 0,
			strcmp(alarms[i].rerun, "yes") == 0);
	}
}
