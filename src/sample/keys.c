/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The keys of a sample file, once: reading, writing, the suggestion for a misspelt key and the
 * blank sheet all follow this table.
 */
#include "sample/keys.h"

#include <assert.h>
#include <string.h>

#include "base/text.h"
#include "sample/cell.h"
#include "sample/sample.h"

/* The coldest there is, and above any boil-off in glass. */
#define COLDEST_C (-273.15)
#define HOTTEST_C 700.0
/* Standard atmosphere (ISO 2533, from memory): 110 kPa at -698 m, 50 kPa at 5574 m. */
#define LOWEST_M (-698.0)
#define HIGHEST_M 5574.0
/* Water boils at 81.3 degC under 50 kPa, at 102.3 degC under 110 kPa (IAPWS-IF97, from memory);
 * half a degree more either way for the thermometer. */
#define WATER_BOILS_LOW_C 80.8
#define WATER_BOILS_HIGH_C 102.8
/* No oil at any condition of a shed lies outside. */
#define LIGHTEST_KGM3 300.0
#define HEAVIEST_KGM3 2000.0
/* From a petrol to a tar; a cup shows nothing beyond. Common practice. */
#define FLASH_LOW_C (-80.0)
#define FLASH_HIGH_C 400.0
/* What still can be divided by. */
#define SMALLEST 1e-3
#define WHOLE_MGKG 1e6

#define AT(field) offsetof(struct bc_sample, field)
#define NO BC_KEY_NO_PLACE
#define WORDS(kind, field) kind, BC_QUANTITY_NONE, "", 0.0, 0.0, field, NO, NULL
#define TEMPERATURE(field)                                                                         \
	BC_KEY_NUMBER, BC_QUANTITY_TEMPERATURE, "C", COLDEST_C, HOTTEST_C, AT(field), NO, NULL
#define MASS(field, low)                                                                           \
	BC_KEY_NUMBER, BC_QUANTITY_MASS, "g", low, BC_KEY_NO_LIMIT, AT(field), NO, NULL
#define LAB_TEMPERATURE(kind, property)                                                            \
	kind, BC_QUANTITY_TEMPERATURE, "C", COLDEST_C, HOTTEST_C, NO, NO, property
#define LAB_SHARE(property)                                                                        \
	BC_KEY_MEASURED, BC_QUANTITY_MASS_FRACTION, "mg/kg", 0.0, WHOLE_MGKG, NO, NO, property
#define LAB_PERCENT(property)                                                                      \
	BC_KEY_MEASURED, BC_QUANTITY_PERCENT, "%", 0.0, 100.0, NO, NO, property
#define LAB_NUMBER(unit, property)                                                                 \
	BC_KEY_MEASURED, BC_QUANTITY_NONE, unit, 0.0, BC_KEY_NO_LIMIT, NO, NO, property

/* clang-format off */
const struct bc_key bc_keys[] = {
	{"sample", {"name"}, WORDS(BC_KEY_TEXT, AT(name)), "the jar in your words: Lake shed 14"},
	{"date", {NULL}, WORDS(BC_KEY_TEXT, AT(date)), "the day of the boil-off: 2026-10-03"},
	{"operator", {"by"}, WORDS(BC_KEY_TEXT, AT(operator_name)), NULL},
	{"feed", {"feedstock", "plastic"}, WORDS(BC_KEY_TEXT, AT(feed)),
		"what went into the retort: PP and PE bottle caps"},
	{"history", {NULL}, WORDS(BC_KEY_HISTORY, AT(history)),
		"retort (straight from it), rerun, aired or unknown"},
	{"still", {NULL}, WORDS(BC_KEY_TEXT, AT(still)), NULL},
	{"jar", {NULL}, WORDS(BC_KEY_KEPT, NO), NULL},
	{"colour", {"color"}, WORDS(BC_KEY_KEPT, NO), NULL},
	{"smell", {"odour", "odor"}, WORDS(BC_KEY_KEPT, NO), NULL},
	{"charge", {"charge volume"}, BC_KEY_CHARGE, BC_QUANTITY_VOLUME, "mL", SMALLEST,
		BC_KEY_NO_LIMIT,
		AT(charge_ml), AT(charge_g), NULL, "poured into the flask: 100 mL"},
	{"charge mass", {NULL}, MASS(charge_g, SMALLEST), NULL},
	{"distillate mass", {NULL}, MASS(distillate_g, 0.0), NULL},
	{"residue mass", {NULL}, MASS(residue_g, 0.0), NULL},
	{"residue", {NULL}, BC_KEY_SHARE, BC_QUANTITY_VOLUME, "mL", 0.0, BC_KEY_NO_LIMIT,
		AT(residue_ml), AT(residue_g), NULL, "left in the flask when cold: 1.6 mL"},
	{"loss", {NULL}, BC_KEY_SHARE, BC_QUANTITY_VOLUME, "mL", 0.0, BC_KEY_NO_LIMIT,
		AT(loss_ml), NO, NULL, "charge less receiver less residue: 0.9 mL"},
	{"water in receiver", {"receiver water"}, BC_KEY_SHARE, BC_QUANTITY_VOLUME, "mL", 0.0,
		BC_KEY_NO_LIMIT, AT(water_ml), NO, NULL, NULL},
	{"condenser temp", {"condenser temperature", "condenser"}, TEMPERATURE(condenser_c), NULL},
	{"density", {NULL}, BC_KEY_DENSITY, BC_QUANTITY_DENSITY, "kg/m3", LIGHTEST_KGM3,
		HEAVIEST_KGM3, AT(density_kgm3), NO, NULL,
		"with the temperature of the oil: 0.794 g/mL @ 21 C"},
	{"barometer", {"station pressure", "pressure"}, BC_KEY_BAROMETER,
		BC_QUANTITY_PRESSURE, "kPa",
		50.0, 110.0, AT(barometer_kpa), NO, NULL,
		"as read here, not brought to sea level: 942 hPa"},
	{"altitude", {"elevation"}, BC_KEY_NUMBER, BC_QUANTITY_LENGTH, "m", LOWEST_M, HIGHEST_M,
		AT(altitude_m), NO, NULL, "where there is no barometer: 612 m"},
	{"water boils", {"boiling water"}, BC_KEY_NUMBER, BC_QUANTITY_TEMPERATURE, "C",
		WATER_BOILS_LOW_C, WATER_BOILS_HIGH_C, AT(water_boils_c), NO, NULL, NULL},
	{"thermometer", {NULL}, WORDS(BC_KEY_THERMOMETER, AT(thermometer)),
		"glass d86, glass partial, glass total or probe"},
	{"immersion", {NULL}, TEMPERATURE(immersion_c), NULL},
	{"ice", {"ice point"}, TEMPERATURE(ice_c), "what it shows in melting ice: 0.4 C"},
	{"steam", {"steam point"}, TEMPERATURE(steam_c), "what it shows in boiling water: 97.6 C"},
	{"reading error", {"thermometer error"}, BC_KEY_NUMBER, BC_QUANTITY_TEMPERATURE_DIFFERENCE,
		"K", 0.0, 100.0, AT(reading_error_c), NO, NULL, NULL},
	{"volume error", {"receiver error"}, BC_KEY_NUMBER, BC_QUANTITY_VOLUME, "mL", 0.0, 100.0,
		AT(volume_error_ml), NO, NULL, NULL},
	{"residue error", {"loss error"}, BC_KEY_NUMBER, BC_QUANTITY_VOLUME, "mL", 0.0, 100.0,
		AT(rest_error_ml), NO, NULL, NULL},
	{"pressure error", {"barometer error"}, BC_KEY_NUMBER, BC_QUANTITY_PRESSURE, "kPa", 0.0,
		50.0, AT(pressure_error_kpa), NO, NULL, NULL},
	{"density error", {"hydrometer error"}, BC_KEY_NUMBER, BC_QUANTITY_DENSITY, "kg/m3", 0.0,
		300.0, AT(density_error_kgm3), NO, NULL, NULL},
	{"apparatus", {NULL}, WORDS(BC_KEY_APPARATUS, AT(apparatus)), NULL},
	{"plastic in", {NULL}, MASS(plastic_in_g, 0.0), NULL},
	{"oil out", {NULL}, BC_KEY_OIL, BC_QUANTITY_VOLUME, "mL", 0.0, BC_KEY_NO_LIMIT,
		AT(oil_out_ml),
		AT(oil_out_g), NULL, NULL},
	{"char", {NULL}, MASS(char_g, 0.0), NULL},
	{"jar from", {NULL}, TEMPERATURE(jar_from_c), NULL},
	{"jar to", {NULL}, BC_KEY_JAR_TO, BC_QUANTITY_TEMPERATURE, "C", COLDEST_C, HOTTEST_C,
		AT(jar_to_c), NO, NULL, NULL},
	{"drawn", {NULL}, WORDS(BC_KEY_TEXT, AT(drawn)), NULL},
	{"stored since", {NULL}, WORDS(BC_KEY_TEXT, AT(stored_since)), NULL},
	{"flash", {"flash point"}, BC_KEY_FLASH, BC_QUANTITY_TEMPERATURE, "C", FLASH_LOW_C,
		FLASH_HIGH_C, NO, NO, "flash_point", NULL},
	{"viscosity", {"kinematic viscosity"}, BC_KEY_MEASURED, BC_QUANTITY_VISCOSITY, "mm2/s", 0.0,
		BC_KEY_NO_LIMIT, NO, NO, "kin_viscosity", NULL},
	{"cetane number", {NULL}, LAB_NUMBER("", "cetane_number"), NULL},
	{"cetane index", {NULL}, LAB_NUMBER("", "cetane_index"), NULL},
	{"water", {"water content"}, LAB_SHARE("water"), NULL},
	{"sulphur", {"sulfur"}, LAB_SHARE("sulphur"), NULL},
	{"mercaptan sulphur", {"mercaptan sulfur", "mercaptans"},
		LAB_SHARE("mercaptan_sulphur"), NULL},
	{"chlorine", {NULL}, LAB_SHARE("chlorine"), NULL},
	{"nitrogen", {NULL}, LAB_SHARE("nitrogen"), NULL},
	{"acid number", {"acidity"}, BC_KEY_MEASURED, BC_QUANTITY_ACID_NUMBER, "mgKOH/g",
		0.0, BC_KEY_NO_LIMIT,
		NO, NO, "acid_number", NULL},
	{"copper strip", {"copper corrosion"}, BC_KEY_COPPER, BC_QUANTITY_NONE, "", 0.0,
		4.0, NO, NO,
		"copper_strip", NULL},
	{"cloud point", {"cloud"}, LAB_TEMPERATURE(BC_KEY_MEASURED, "cloud_point"), NULL},
	{"pour point", {"pour"}, LAB_TEMPERATURE(BC_KEY_MEASURED, "pour_point"), NULL},
	{"cold filter", {"cfpp", "cold filter plugging point"},
		LAB_TEMPERATURE(BC_KEY_MEASURED, "CFPP"), NULL},
	{"freezing point", {NULL}, LAB_TEMPERATURE(BC_KEY_MEASURED, "freezing_point"), NULL},
	{"smoke point", {NULL}, LAB_NUMBER("mm", "smoke_point"), NULL},
	{"vapour pressure", {"vapor pressure", "dvpe"}, BC_KEY_MEASURED,
		BC_QUANTITY_PRESSURE, "kPa",
		0.0, BC_KEY_NO_LIMIT, NO, NO, "vapour_pressure_DVPE", NULL},
	{"ash", {NULL}, LAB_SHARE("ash"), NULL},
	{"carbon residue", {NULL}, LAB_SHARE("carbon_residue"), NULL},
	{"sediment", {"total sediment"}, LAB_SHARE("total_sediment"), NULL},
	{"thermal sediment", {NULL}, LAB_SHARE("thermal_sediment"), NULL},
	{"water and sediment", {NULL}, LAB_PERCENT("water_and_sediment"), NULL},
	{"contamination", {"total contamination"}, LAB_SHARE("total_contamination"), NULL},
	{"char value", {NULL}, LAB_SHARE("char_value"), NULL},
	{"styrene", {NULL}, LAB_SHARE("styrene"), NULL},
	{"benzene", {NULL}, LAB_PERCENT("benzene"), NULL},
	{"olefins", {NULL}, LAB_PERCENT("olefins"), NULL},
	{"aromatics", {"total aromatics"}, LAB_SHARE("total_aromatics"), NULL},
	{"polycyclic aromatics", {"poly aromatics"}, LAB_SHARE("poly_aromatics"), NULL},
	{"fame", {"fame content"}, LAB_PERCENT("fame_content"), NULL},
	{"lubricity", {"wear scar"}, LAB_NUMBER("um", "lubricity_wsd"), NULL},
	{"gum", {"existent gum"}, LAB_NUMBER("mg/100mL", "existent_gum"), NULL},
	{"oxidation stability", {NULL}, LAB_NUMBER("g/m3", "oxidation_stability"), NULL},
	{"induction period", {NULL}, LAB_NUMBER("min", "induction_period"), NULL},
	{"ron", {"research octane"}, LAB_NUMBER("", "RON"), NULL},
	{"mon", {"motor octane"}, LAB_NUMBER("", "MON"), NULL},
	{"note", {"notes", "remark"}, WORDS(BC_KEY_TEXT, AT(note)), "anything seen or smelled"},
};
/* clang-format on */

const size_t bc_n_keys = sizeof bc_keys / sizeof *bc_keys;
static_assert(sizeof bc_keys / sizeof *bc_keys <= BC_KEYS_MAX, "arrays by key are too short");

#define ALIASES (sizeof bc_keys[0].aliases / sizeof bc_keys[0].aliases[0])
#define LONGEST_KEY 48

/* Folded, and without the colon that some write behind a key. */
static bool fold_key(const char *name, char folded[LONGEST_KEY])
{
	if (!bc_cell_fold(name, folded, LONGEST_KEY))
		return false;
	size_t n = strlen(folded);
	while (n > 0 && (folded[n - 1] == ':' || folded[n - 1] == ' '))
		folded[--n] = '\0';
	return true;
}

const struct bc_key *bc_key_find(const char *name)
{
	char folded[LONGEST_KEY];
	if (!fold_key(name, folded))
		return NULL;
	for (size_t i = 0; i < bc_n_keys; i++) {
		if (strcmp(bc_keys[i].name, folded) == 0)
			return &bc_keys[i];
		for (size_t k = 0; k < ALIASES && bc_keys[i].aliases[k] != NULL; k++) {
			if (strcmp(bc_keys[i].aliases[k], folded) == 0)
				return &bc_keys[i];
		}
	}
	return NULL;
}

const char *bc_key_nearest(const char *name)
{
	char folded[LONGEST_KEY];
	const char *words[BC_KEYS_MAX * (ALIASES + 1)];
	size_t n = 0;
	if (!fold_key(name, folded))
		return NULL;
	for (size_t i = 0; i < bc_n_keys; i++) {
		words[n++] = bc_keys[i].name;
		for (size_t k = 0; k < ALIASES && bc_keys[i].aliases[k] != NULL; k++)
			words[n++] = bc_keys[i].aliases[k];
	}
	return bc_nearest_word(folded, words, n);
}
