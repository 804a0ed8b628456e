/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The units that a sheet of paper may carry, and the one in which the program holds each. */
#include "base/units.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

/*
 * base = (value + shift) * scale, except API gravity. Spellings are folded as fold() does, one
 * blank between them. The first unit of a quantity is the one in which the program holds it.
 */
struct bc_unit {
	enum bc_quantity quantity;
	bool is_api;
	const char *name;
	const char *spellings;
	double scale;
	double shift;
};

/*
 * Factors: NIST SP 811 (2008), appendix B, exact unless said; from memory. mmHg is the conventional
 * one, 13.5951 * 9.80665 Pa; torr is 1/760 atm; inHg (32 degF) is rounded there to 3386.389 Pa.
 */
#define KPA_PER_MMHG 0.133322387415
#define KPA_PER_INHG 3.386389
#define KPA_PER_PSI 6.894757293168 /* 4.4482216152605 N on (0.0254 m)^2 */
#define ML_PER_US_GALLON 3785.411784
#define G_PER_POUND 453.59237
#define G_PER_OUNCE 28.349523125
#define M_PER_FOOT 0.3048

static const struct bc_unit units[] = {
	{BC_QUANTITY_TEMPERATURE, false, "C", "c celsius centigrade", 1.0, 0.0},
	{BC_QUANTITY_TEMPERATURE, false, "F", "f fahrenheit", 1.0 / 1.8, -32.0},
	{BC_QUANTITY_TEMPERATURE, false, "K", "k kelvin", 1.0, -273.15},
	{BC_QUANTITY_TEMPERATURE, false, "R", "r rankine", 1.0 / 1.8, -491.67},

	{BC_QUANTITY_TEMPERATURE_DIFFERENCE, false, "K", "k kelvin", 1.0, 0.0},
	{BC_QUANTITY_TEMPERATURE_DIFFERENCE, false, "C", "c celsius centigrade", 1.0, 0.0},
	{BC_QUANTITY_TEMPERATURE_DIFFERENCE, false, "F", "f fahrenheit r rankine", 1.0 / 1.8, 0.0},

	{BC_QUANTITY_PRESSURE, false, "kPa", "kpa", 1.0, 0.0},
	{BC_QUANTITY_PRESSURE, false, "hPa", "hpa", 0.1, 0.0},
	{BC_QUANTITY_PRESSURE, false, "mbar", "mbar mb millibar millibars", 0.1, 0.0},
	{BC_QUANTITY_PRESSURE, false, "bar", "bar", 100.0, 0.0},
	{BC_QUANTITY_PRESSURE, false, "mmHg", "mmhg mm", KPA_PER_MMHG, 0.0},
	{BC_QUANTITY_PRESSURE, false, "torr", "torr", 101.325 / 760.0, 0.0},
	{BC_QUANTITY_PRESSURE, false, "inHg", "inhg in.hg", KPA_PER_INHG, 0.0},
	{BC_QUANTITY_PRESSURE, false, "psi", "psi psia", KPA_PER_PSI, 0.0},
	{BC_QUANTITY_PRESSURE, false, "atm", "atm", 101.325, 0.0},
	{BC_QUANTITY_PRESSURE, false, "Pa", "pa", 0.001, 0.0},
	{BC_QUANTITY_PRESSURE, false, "MPa", "mpa", 1000.0, 0.0},

	{BC_QUANTITY_DENSITY, false, "kg/m3", "kg/m3 kgm-3 g/l g/dm3", 1.0, 0.0},
	{BC_QUANTITY_DENSITY, false, "g/mL", "g/ml g/cc gml-1", 1000.0, 0.0},
	{BC_QUANTITY_DENSITY, false, "g/cm3", "g/cm3 gcm-3", 1000.0, 0.0},
	{BC_QUANTITY_DENSITY, false, "kg/L", "kg/l kg/dm3", 1000.0, 0.0},
	{BC_QUANTITY_DENSITY, true, "API", "api", NAN, NAN},
	{BC_QUANTITY_DENSITY, false, "SG", "sg s.g. sg60/60 sp.gr. spgr", BC_WATER_DENSITY_60F_KGM3,
		0.0},

	{BC_QUANTITY_VOLUME, false, "mL", "ml cm3 cc milliliter milliliters millilitre millilitres",
		1.0, 0.0},
	{BC_QUANTITY_VOLUME, false, "cL", "cl", 10.0, 0.0},
	{BC_QUANTITY_VOLUME, false, "L", "l dm3 liter liters litre litres", 1000.0, 0.0},
	{BC_QUANTITY_VOLUME, false, "gal", "gal usgal gallon gallons", ML_PER_US_GALLON, 0.0},

	{BC_QUANTITY_MASS, false, "g", "g gram grams gramme grammes", 1.0, 0.0},
	{BC_QUANTITY_MASS, false, "mg", "mg", 0.001, 0.0},
	{BC_QUANTITY_MASS, false, "kg", "kg kilo kilos kilogram kilograms", 1000.0, 0.0},
	{BC_QUANTITY_MASS, false, "lb", "lb lbs pound pounds", G_PER_POUND, 0.0},
	{BC_QUANTITY_MASS, false, "oz", "oz ounce ounces", G_PER_OUNCE, 0.0},

	{BC_QUANTITY_LENGTH, false, "m", "m masl metre metres meter meters", 1.0, 0.0},
	{BC_QUANTITY_LENGTH, false, "mm", "mm", 0.001, 0.0},
	{BC_QUANTITY_LENGTH, false, "cm", "cm", 0.01, 0.0},
	{BC_QUANTITY_LENGTH, false, "km", "km", 1000.0, 0.0},
	{BC_QUANTITY_LENGTH, false, "ft", "ft foot feet", M_PER_FOOT, 0.0},
	{BC_QUANTITY_LENGTH, false, "in", "in inch inches", M_PER_FOOT / 12.0, 0.0},

	{BC_QUANTITY_TIME, false, "s", "s sec secs second seconds", 1.0, 0.0},
	{BC_QUANTITY_TIME, false, "min", "min mins minute minutes", 60.0, 0.0},
	{BC_QUANTITY_TIME, false, "h", "h hr hrs hour hours", 3600.0, 0.0},
	{BC_QUANTITY_TIME, false, "d", "d day days", 86400.0, 0.0},

	{BC_QUANTITY_VISCOSITY, false, "mm2/s", "mm2/s mm2s-1", 1.0, 0.0},
	{BC_QUANTITY_VISCOSITY, false, "cSt", "cst", 1.0, 0.0},

	{BC_QUANTITY_MASS_FRACTION, false, "mg/kg", "mg/kg", 1.0, 0.0},
	{BC_QUANTITY_MASS_FRACTION, false, "ppm", "ppm ppmw wppm", 1.0, 0.0},
	{BC_QUANTITY_MASS_FRACTION, false, "%", "% pct percent", 1e4, 0.0},
	{BC_QUANTITY_MASS_FRACTION, false, "%m/m", "%m/m %w/w %mass mass% wt% wt-% m-%", 1e4, 0.0},

	{BC_QUANTITY_ACID_NUMBER, false, "mgKOH/g", "mgkoh/g mg/g", 1.0, 0.0},

	{BC_QUANTITY_PERCENT, false, "%",
		"% pct percent vol% vol-% %vol %v/v v-% wt% wt-% %m/m %w/w mass%", 1.0, 0.0},

	{BC_QUANTITY_POWER, false, "W", "w watt watts", 1.0, 0.0},
	{BC_QUANTITY_POWER, false, "kW", "kw kilowatt kilowatts", 1000.0, 0.0},

	{BC_QUANTITY_NONE, false, "", "", 1.0, 0.0},
};

static const char *const lists[BC_QUANTITIES] = {
	[BC_QUANTITY_TEMPERATURE] = "C, F, K, R",
	[BC_QUANTITY_TEMPERATURE_DIFFERENCE] = "K, C, F",
	[BC_QUANTITY_PRESSURE] = "kPa, hPa, mbar, bar, mmHg, torr, inHg, psi, atm, Pa, MPa",
	[BC_QUANTITY_DENSITY] = "kg/m3, g/mL, g/cm3, kg/L, API, SG",
	[BC_QUANTITY_VOLUME] = "mL, cL, L, gal",
	[BC_QUANTITY_MASS] = "g, mg, kg, lb, oz",
	[BC_QUANTITY_LENGTH] = "m, mm, cm, km, ft, in",
	[BC_QUANTITY_TIME] = "s, min, h, d",
	[BC_QUANTITY_VISCOSITY] = "mm2/s, cSt",
	[BC_QUANTITY_MASS_FRACTION] = "mg/kg, ppm, %, %m/m",
	[BC_QUANTITY_ACID_NUMBER] = "mgKOH/g",
	[BC_QUANTITY_PERCENT] = "%",
	[BC_QUANTITY_POWER] = "W, kW",
	[BC_QUANTITY_NONE] = "none",
};

#define LONGEST_NAME 40

/* What stands for what in UTF-8: degree and ordinal signs and no-break space fall away. */
static const struct {
	const char *from;
	const char *to;
} symbols[] = {
	{"\xC2\xB0", ""},      /* degree sign */
	{"\xC2\xBA", ""},      /* ordinal sign, often typed for it */
	{"\xC2\xA0", ""},      /* no-break space */
	{"\xC2\xB2", "2"},     /* superscript two */
	{"\xC2\xB3", "3"},     /* superscript three */
	{"\xE2\x84\x83", "c"}, /* degree Celsius */
	{"\xE2\x84\x89", "f"}, /* degree Fahrenheit */
};

/* Appends the folded form of what stands at s to out and returns the bytes taken. */
static size_t fold_one(const char *s, char *out, size_t *n)
{
	for (size_t i = 0; i < sizeof symbols / sizeof *symbols; i++) {
		size_t length = strlen(symbols[i].from);
		if (strncmp(s, symbols[i].from, length) != 0)
			continue;
		if (symbols[i].to[0] != '\0')
			out[(*n)++] = symbols[i].to[0];
		return length;
	}
	if (strchr(" \t()[]^", *s) == NULL)
		out[(*n)++] = *s >= 'A' && *s <= 'Z' ? (char)(*s - 'A' + 'a') : *s;
	return 1;
}

/* Lower case without blanks, brackets, degree signs and the word "deg". False when too long. */
static bool fold(const char *name, char out[LONGEST_NAME + 1])
{
	size_t n = 0;
	while (*name != '\0') {
		if (n == LONGEST_NAME)
			return false;
		name += fold_one(name, out, &n);
	}
	out[n] = '\0';
	static const char *const degrees[] = {"degrees", "degree", "deg.", "deg"};
	for (size_t i = 0; i < sizeof degrees / sizeof *degrees; i++) {
		size_t length = strlen(degrees[i]);
		if (n > length && strncmp(out, degrees[i], length) == 0) {
			memmove(out, out + length, n - length + 1);
			break;
		}
	}
	return true;
}

static bool is_among(const char *word, const char *spellings)
{
	size_t length = strlen(word);
	for (const char *at = spellings; *at != '\0';) {
		size_t n = strcspn(at, " ");
		if (n == length && memcmp(at, word, n) == 0)
			return true;
		at += n;
		at += strspn(at, " ");
	}
	return false;
}

const struct bc_unit *bc_unit_find(enum bc_quantity quantity, const char *name)
{
	char folded[LONGEST_NAME + 1];
	if (!fold(name, folded))
		return NULL;
	for (size_t i = 0; i < sizeof units / sizeof *units; i++) {
		if (units[i].quantity != quantity)
			continue;
		if (folded[0] == '\0' || is_among(folded, units[i].spellings))
			return &units[i];
	}
	return NULL;
}

/* API gravity = 141.5 / SG(60/60 degF) - 131.5, by definition (API MPMS 11.1; ASTM D1298). */
double bc_unit_to_base(const struct bc_unit *unit, double value)
{
	if (unit->is_api)
		return 141.5 / (value + 131.5) * BC_WATER_DENSITY_60F_KGM3;
	return (value + unit->shift) * unit->scale;
}

double bc_unit_from_base(const struct bc_unit *unit, double value)
{
	if (unit->is_api)
		return 141.5 * BC_WATER_DENSITY_60F_KGM3 / value - 131.5;
	return value / unit->scale - unit->shift;
}

const char *bc_unit_name(const struct bc_unit *unit) { return unit->name; }

const char *bc_quantity_units(enum bc_quantity quantity) { return lists[quantity]; }
