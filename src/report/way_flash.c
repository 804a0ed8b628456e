/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The flash point by its two ways, which bound rules, and the hazard classes that follow. */
#include <math.h>

#include "curve/correction.h"
#include "fuel/flash.h"
#include "report/way.h"
#include "report/way_basis.h"

/* The vapour space is a sum over the slices; one of them shows how its terms are made. */
static void vapour_space(const struct bc_oil *oil, struct bc_way *way)
{
	const struct bc_estimate *own = &oil->property[BC_FLASH_VAPOUR];
	const struct bc_slice *light = bc_way_light_slice(&oil->slices);
	double temp_c = NAN;
	if (!bc_estimate_present(own))
		return;
	bc_flash_vapour_space_c(&oil->slices, 101.325, &temp_c);
	const double pressure[] = {
		temp_c + 273.15, light->critical_k, light->critical_bar, light->omega};
	bc_way_formula(way, "the slice's pressure there", "vapour_pressure.lee_kesler", pressure,
		bc_slice_vapour_bar(light, temp_c + 273.15));
	double bar = bc_way_result(way);
	bc_way_formula(way, "its lower limit at 25 degC", "lower_limit.jones",
		&light->molar_mass_gmol, (double)NAN);
	const double limit[] = {bc_way_result(way), temp_c};
	bc_way_formula(
		way, "its lower limit there", "lower_limit.at_temperature", limit, (double)NAN);
	double share = 100.0 * light->mole_frac * bar / (1.01325 * bc_way_result(way));
	bc_way_plain(way, bc_property_keys[BC_FLASH_VAPOUR], temp_c, "degC");
	bc_way_reported(way, own->value);
	bc_way_input(way, "of the sum this slice", share, "");
	bc_way_source(way, "Raoult and Le Chatelier: where the sum over the slices of mole "
			   "fraction times pressure over lower limit is 1, at 101.325 kPa");
	bc_way_bounds(way, own);
	bc_way_note(way,
		"bounds: readings and density %.3g down, %.3g up; the method: 10 degC and 0.17 of "
		"IBP to 10 %%, by squares, measured on 26 oils with an IBP; 45 without an IBP; at "
		"least 75 from a 10 %% point of 290 degC on",
		oil->reach.low[BC_FLASH_VAPOUR], oil->reach.high[BC_FLASH_VAPOUR]);
}

static void by_t10(const struct bc_judgement *judgement, struct bc_way *way)
{
	const struct bc_estimate *own = &judgement->oil.property[BC_FLASH_T10];
	struct bc_way_basis basis;
	bc_way_basis_find(judgement, &basis);
	if (!bc_estimate_present(own))
		return;
	bc_way_formula(way, bc_property_keys[BC_FLASH_T10], "flash.t10_api",
		&basis.d86_c[BC_WAY_T10], own->value);
	bc_way_bounds(way, own);
	bc_way_note(way,
		"bounds: readings and density %.3g down, %.3g up; the method: 15 degC and 0.45 of "
		"IBP to 10 %% down, 5 up, measured on the same oils",
		judgement->oil.reach.low[BC_FLASH_T10], judgement->oil.reach.high[BC_FLASH_T10]);
}

/* Where value and low bound of the flash that rules come from. */
static void rule(const struct bc_judgement *judgement, struct bc_way *way)
{
	const struct bc_oil *oil = &judgement->oil;
	const struct bc_flash_offset *learned = &judgement->learned;
	const struct bc_estimate *flash = &oil->property[BC_FLASH];
	const struct bc_estimate *vapour = &oil->property[BC_FLASH_VAPOUR];
	const struct bc_estimate *t10 = &oil->property[BC_FLASH_T10];
	bc_way_plain(way, bc_property_keys[BC_FLASH], flash->value, "degC");
	bc_way_bounds(way, flash);
	bc_way_input(way, "flash_vapour_c", vapour->value, "degC");
	bc_way_input(way, "flash_t10_c", t10->value, "degC");
	if (flash->how == BC_MEASURED)
		bc_way_source(way, "measured, closed cup; R = 0.071 X of ASTM D93, from memory, at "
				   "least 2 degC");
	else if (learned->pairs > 0)
		bc_way_source(way,
			"value of the vapour space and %+.3g degC from %zu own closed cups, +-%.3g: "
			"the mean of measured less estimated, drawn towards 0",
			learned->offset_c, learned->pairs, learned->half_width_c);
	else
		bc_way_source(way, "value and high bound of the vapour space");
	if (!oil->flash_claim)
		bc_way_note(way, "no low bound is claimed: %s",
			oil->no_claim_why != NULL ? oil->no_claim_why : "not known");
	else if (flash->how == BC_MEASURED)
		bc_way_note(way, "low bound: of the measurement, or an open cup below it");
	else if (learned->pairs > 0 && flash->low == oil->flash_learned_low_c)
		bc_way_note(way, "low bound: of the moved estimate");
	else if (learned->pairs > 0 && flash->low == vapour->value)
		bc_way_note(way, "low bound: the estimate without own cups, above which they do "
				 "not lift it");
	else if (flash->low == vapour->low)
		bc_way_note(way, "low bound: of the vapour space, since the flash by T10 is not "
				 "below it");
	else if (flash->low == t10->value)
		bc_way_note(way, "low bound: the flash by T10, which is below the vapour space's");
	else
		bc_way_note(way, "low bound: the open cup, which a closed one never exceeds");
}

static void at_site(const struct bc_judgement *judgement, struct bc_way *way)
{
	const struct bc_oil *oil = &judgement->oil;
	const double in[] = {oil->flash_at_site_c, judgement->conditions.pressure_kpa};
	if (!bc_estimate_present(&oil->property[BC_FLASH]))
		return;
	bc_way_plain(way, "flash at this site", oil->flash_at_site_c, "degC");
	bc_way_source(way, "flash.at_standard_pressure solved for the site");
	bc_way_formula(way, "and back at 101.3 kPa", "flash.at_standard_pressure", in,
		oil->property[BC_FLASH].value);
}

static void hazard_steps(const struct bc_judgement *judgement, struct bc_way *way)
{
	const struct bc_hazards *hazards = &judgement->hazards;
	bc_way_section(way, "Hazard classes");
	for (size_t i = 0; i < hazards->n; i++) {
		const struct bc_hazard *hazard = &hazards->items[i];
		bc_way_plain(way, hazard->scheme, (double)NAN, "");
		bc_way_words(way, hazard->class_name);
		if (judgement->oil.flash_claim)
			bc_way_input(
				way, "flash_c low", judgement->oil.property[BC_FLASH].low, "degC");
		bc_way_source(way, "%s", hazard->message);
		bc_way_note(way, "by %s", hazard->from);
	}
	bc_way_plain(way, "treated as petrol", (double)NAN, "");
	bc_way_words(way, hazards->petrol_like ? "yes" : "no");
	bc_way_source(way, "yes below 23 degC (GHS category 2) by the low bound, here and at "
			   "101.3 kPa, and wherever no low bound is claimed");
}

void bc_way_flash(const struct bc_judgement *judgement, struct bc_way *way)
{
	bc_way_section(way, "Flash point");
	by_t10(judgement, way);
	vapour_space(&judgement->oil, way);
	rule(judgement, way);
	at_site(judgement, way);
	hazard_steps(judgement, way);
}
