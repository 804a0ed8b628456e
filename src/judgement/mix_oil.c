/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Slices, curve and properties of oils poured together, with the errors that the parts bring. */
#include <math.h>

#include "fuel/flash.h"
#include "fuel/flow_forms.h"
#include "fuel/oil_error.h"
#include "judgement/mix_job.h"
#include "still/tap.h"

/* Unlike oils differ by so much in the slope of ln P against T (0.04 to 0.05 per degC near their
 * flash, computed): an offset that is right at the part's own flash drifts by this for each degC
 * away from it. */
static const double offset_drift = 0.15;
/* Volumes that are not quite ideal, 95 % [kg/m3]: 0.1 %, common practice. */
static const double ideal_density_kgm3 = 1.0;
/* Half-width (95 %) of the viscosity rule, as a factor; judgement. */
static const double visc_rule_share = 0.05;

static const struct bc_estimate *flash_of(const struct bc_judgement *oil)
{
	return &oil->oil.property[BC_FLASH];
}

static bool has_measured_flash(const struct bc_judgement *oil)
{
	return flash_of(oil)->how == BC_MEASURED;
}

static double volume_of(const struct bc_mix_recipe *recipe)
{
	double sum = 0.0;
	for (size_t i = 0; i < recipe->n; i++)
		sum += recipe->volume[i];
	return sum;
}

double bc_mix_mass(const struct bc_mix_recipe *recipe, size_t i)
{
	double sum = 0.0;
	for (size_t k = 0; k < recipe->n; k++)
		sum += recipe->volume[k] * recipe->oil[k]->oil.property[BC_DENSITY15].value;
	return recipe->volume[i] * recipe->oil[i]->oil.property[BC_DENSITY15].value / sum;
}

/* ---- flash */

enum side { SIDE_LOW, SIDE_VALUE, SIDE_HIGH };

/* Header of mixing.h, notes 2 and 3. */
static double shift_of(const struct bc_judgement *oil, enum side side, double mix_c)
{
	const struct bc_estimate *flash = flash_of(oil);
	double slices_c = oil->oil.property[BC_FLASH_VAPOUR].value;
	double drift = has_measured_flash(oil) ? offset_drift * fabs(mix_c - flash->value) : 0.0;
	if (side == SIDE_VALUE)
		return slices_c - flash->value;
	if (side == SIDE_HIGH)
		return slices_c - flash->high - drift;
	/* without a claim the bound that it would have */
	double low_c = isnan(flash->low) ? fmin(oil->oil.property[BC_FLASH_VAPOUR].low,
						   oil->oil.flash_cup_low_c)
					 : flash->low;
	return slices_c - fmin(low_c, flash->value) + drift;
}

static enum bc_status flash_on(
	struct bc_mix_recipe *recipe, enum side side, double mix_c, double *flash_c)
{
	struct bc_blend_vapour parts[BC_BLEND_PARTS_MAX];
	for (size_t i = 0; i < recipe->n; i++)
		parts[i] = (struct bc_blend_vapour){.slices = &recipe->oil[i]->oil.slices,
			.volume = recipe->volume[i],
			.shift_c = shift_of(recipe->oil[i], side, mix_c)};
	enum bc_status status = bc_blend_flash_c(parts, recipe->n, flash_c);
	for (size_t i = 0; i < recipe->n && side == SIDE_VALUE; i++)
		recipe->vapour_frac[i] = bc_failed(status) ? (double)NAN : parts[i].share_frac;
	return status;
}

static const char *why_no_claim(const struct bc_mix_recipe *recipe)
{
	for (size_t i = 0; i < recipe->n; i++)
		if (!recipe->oil[i]->oil.flash_claim || isnan(flash_of(recipe->oil[i])->low))
			return recipe->oil[i]->oil.no_claim_why != NULL
				       ? recipe->oil[i]->oil.no_claim_why
				       : "nothing is claimed of a part";
	return NULL;
}

/* The method's own bar, as far as the vapour comes from oils that it was used on. */
static double method_half_width_c(
	const struct bc_mix_recipe *recipe, const double d86_c[BC_TBP_POINTS])
{
	double estimated = 0.0;
	for (size_t i = 0; i < recipe->n; i++)
		if (!has_measured_flash(recipe->oil[i]))
			estimated += recipe->vapour_frac[i];
	return estimated * bc_flash_half_width_c(d86_c[0], d86_c[1]);
}

/* What a cup shows of one part, no re-run of the mixture may forget. */
static void take_cups(const struct bc_mix_recipe *recipe, double low_c, struct bc_oil *oil)
{
	for (size_t i = 0; i < recipe->n; i++) {
		const struct bc_oil *own = &recipe->oil[i]->oil;
		if (own->flash_cup_low_c < own->property[BC_FLASH_VAPOUR].value)
			oil->flash_cup_low_c = low_c;
		oil->flash_open_disputed = oil->flash_open_disputed || own->flash_open_disputed;
	}
}

static enum bc_status settle_flash(
	struct bc_mix_recipe *recipe, const double d86_c[BC_TBP_POINTS], struct bc_oil *oil)
{
	double value_c = NAN;
	double low_c = NAN;
	double high_c = NAN;
	struct bc_estimate *flash = &oil->property[BC_FLASH];
	enum bc_status status = flash_on(recipe, SIDE_VALUE, NAN, &value_c);
	if (!bc_failed(status))
		status = flash_on(recipe, SIDE_LOW, value_c, &low_c);
	if (!bc_failed(status))
		status = flash_on(recipe, SIDE_HIGH, value_c, &high_c);
	if (bc_failed(status))
		return status;
	double method_c = method_half_width_c(recipe, d86_c);
	bool all_measured = true;
	for (size_t i = 0; i < recipe->n; i++)
		all_measured = all_measured && has_measured_flash(recipe->oil[i]);
	*flash = (struct bc_estimate){value_c, fmin(low_c, value_c - method_c),
		fmax(high_c, value_c + method_c), BC_ESTIMATED};
	if (!all_measured && oil->property[BC_FLASH_T10].value < flash->low)
		flash->low = oil->property[BC_FLASH_T10].value;
	take_cups(recipe, flash->low, oil);
	oil->no_claim_why = why_no_claim(recipe);
	oil->flash_claim = oil->no_claim_why == NULL;
	if (!oil->flash_claim)
		flash->low = NAN;
	return BC_OK;
}

/* ---- what else the parts bring */

static void add_reach(
	const struct bc_reach *reach, double volume, double vapour, struct bc_reach *sum)
{
	for (size_t i = 0; i < BC_PROPERTIES; i++) {
		bool of_vapour = i == BC_FLASH || i == BC_FLASH_T10 || i == BC_FLASH_VAPOUR ||
				 i == BC_VAPOUR_PRESSURE_37_8;
		double share = of_vapour ? vapour : volume;
		sum->low[i] += share * reach->low[i];
		sum->high[i] += share * reach->high[i];
	}
}

/* Errors of the parts all to one side: no better than the worst, each by its share. */
static struct bc_parent parent_of(const struct bc_mix_recipe *recipe)
{
	double whole = volume_of(recipe);
	struct bc_parent parent = {.cetane_half_width = BC_CETANE_HALF_WIDTH};
	for (size_t i = 0; i < recipe->n; i++) {
		const struct bc_judgement *oil = recipe->oil[i];
		double volume = recipe->volume[i] / whole;
		struct bc_feed feed;
		bc_feed_read(oil->sample->feed, &feed);
		struct bc_parent own = bc_parent_of(&oil->oil, &feed);
		parent.flash_half_width_c += recipe->vapour_frac[i] * own.flash_half_width_c;
		parent.density_half_width_kgm3 += volume * own.density_half_width_kgm3;
		parent.cetane_half_width = fmax(parent.cetane_half_width, own.cetane_half_width);
		add_reach(&own.reach, volume, recipe->vapour_frac[i], &parent.reach);
		parent.d976_void = parent.d976_void || own.d976_void;
		parent.beyond_readings = parent.beyond_readings || own.beyond_readings;
	}
	return parent;
}

static double blended_visc(
	const struct bc_mix_recipe *recipe, enum bc_property property, enum side side)
{
	double share[BC_BLEND_PARTS_MAX];
	double visc[BC_BLEND_PARTS_MAX];
	double blend = NAN;
	double whole = volume_of(recipe);
	for (size_t i = 0; i < recipe->n; i++) {
		const struct bc_estimate *own = &recipe->oil[i]->oil.property[property];
		share[i] = recipe->volume[i] / whole;
		visc[i] = own->value;
		if (side == SIDE_LOW)
			visc[i] = own->low;
		if (side == SIDE_HIGH)
			visc[i] = own->high;
	}
	bc_visc_blend_mm2s(share, visc, recipe->n, &blend);
	return blend;
}

static void settle_visc(
	const struct bc_mix_recipe *recipe, enum bc_property property, struct bc_oil *oil)
{
	double value = blended_visc(recipe, property, SIDE_VALUE);
	double low = blended_visc(recipe, property, SIDE_LOW);
	double high = blended_visc(recipe, property, SIDE_HIGH);
	enum bc_how how = BC_ESTIMATED;
	for (size_t i = 0; i < recipe->n; i++)
		if (recipe->oil[i]->oil.property[property].how == BC_NOT_VALID)
			how = BC_NOT_VALID;
	oil->property[property] = bc_estimate_absent();
	if (isnan(value))
		return;
	/* a bound below what the rule takes is carried by the value's own */
	double rule = log(1.0 + visc_rule_share);
	double below = hypot(rule, isnan(low) ? log(10.0) : log(value / low));
	double above = hypot(rule, isnan(high) ? log(10.0) : log(high / value));
	oil->property[property] =
		(struct bc_estimate){value, value * exp(-below), value * exp(above), how};
}

static void settle_density(
	const struct bc_mix_recipe *recipe, const struct bc_parent *parent, struct bc_oil *oil)
{
	double mass = 0.0;
	for (size_t i = 0; i < recipe->n; i++)
		mass += recipe->volume[i] * recipe->oil[i]->oil.property[BC_DENSITY15].value;
	oil->property[BC_DENSITY15] = bc_estimate_new(mass / volume_of(recipe),
		parent->density_half_width_kgm3 + ideal_density_kgm3, BC_ESTIMATED);
}

/* At the thinnest air that a part was boiled off in. */
static void settle_site(const struct bc_mix_recipe *recipe, struct bc_oil *oil)
{
	double lowest_kpa = 101.325;
	for (size_t i = 0; i < recipe->n; i++)
		lowest_kpa = fmin(lowest_kpa, recipe->oil[i]->conditions.pressure_kpa);
	double site_c = BC_FLASH_PER_KPA * (101.325 - lowest_kpa);
	oil->flash_at_site_c = oil->property[BC_FLASH].value - site_c;
	oil->flash_low_at_site_c = oil->property[BC_FLASH].low - site_c;
}

/* Nothing was poured to it: what was measured stays so. */
static void keep_measured(const struct bc_oil *own, struct bc_oil *oil)
{
	static const enum bc_property kept[] = {BC_FLASH, BC_DENSITY15, BC_VISC40, BC_VISC20};
	for (size_t i = 0; i < sizeof kept / sizeof kept[0]; i++)
		if (own->property[kept[i]].how == BC_MEASURED)
			oil->property[kept[i]] = own->property[kept[i]];
}

enum bc_status bc_mix_oil(struct bc_mix_recipe *recipe, double d86_c[BC_TBP_POINTS],
	struct bc_oil *oil, struct bc_points *points)
{
	struct bc_blend_part parts[BC_BLEND_PARTS_MAX];
	struct bc_slices slices;
	double unused_c;
	for (size_t i = 0; i < recipe->n; i++)
		parts[i] = (struct bc_blend_part){&recipe->oil[i]->oil.slices, recipe->volume[i]};
	enum bc_status status = bc_blend_slices(parts, recipe->n, BC_BLEND_SLICES, &slices);
	if (!bc_failed(status))
		status = bc_jar_points(&slices, BC_TAP_END_FRAC, d86_c, points);
	if (!bc_failed(status))
		status = flash_on(recipe, SIDE_VALUE, NAN, &unused_c);
	if (bc_failed(status))
		return status;
	bc_mix_settle_points(recipe, &slices, points);
	struct bc_parent parent = parent_of(recipe);
	status = bc_oil_from_slices(&slices, d86_c, &parent, oil);
	if (!bc_failed(status))
		status = settle_flash(recipe, d86_c, oil);
	if (bc_failed(status))
		return status;
	settle_density(recipe, &parent, oil);
	settle_visc(recipe, BC_VISC40, oil);
	settle_visc(recipe, BC_VISC20, oil);
	if (recipe->n == 1)
		keep_measured(&recipe->oil[0]->oil, oil);
	settle_site(recipe, oil);
	for (size_t i = 0; i < recipe->n; i++)
		oil->wet = oil->wet || recipe->oil[i]->oil.wet;
	return BC_OK;
}
