/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Units: check values, spellings, and there and back again. */
#include "base/units.h"
#include "unit/unit.h"

#include <string.h>

static double to_base(enum bc_quantity quantity, const char *name, double value)
{
	const struct bc_unit *unit = bc_unit_find(quantity, name);
	if (unit == NULL)
		fail_msg("unit '%s' is not known", name);
	return bc_unit_to_base(unit, value);
}

/* 1 mmHg, 1 atm, 1 psi: as printed in handbook tables; 29.921 inHg to 1 atm printed to 3 decimals.
 */
static void pressure_check_values(void **state)
{
	(void)state;
	enum bc_quantity pressure = BC_QUANTITY_PRESSURE;
	assert_close(to_base(pressure, "mmHg", 1.0), 0.133322387415, 1e-12);
	assert_close(to_base(pressure, "atm", 1.0), 101.325, 1e-12);
	assert_close(to_base(pressure, "torr", 760.0), 101.325, 1e-9);
	assert_close(to_base(pressure, "psi", 14.696), 101.325, 0.004);
	assert_close(to_base(pressure, "psi", 1.0), 6.894757, 5e-7);
	assert_close(to_base(pressure, "inHg", 29.921), 101.325, 0.002);
	assert_close(to_base(pressure, "inHg", 1.0), 3.386389, 5e-7);
	assert_close(to_base(pressure, "mmHg", 740.0), 98.66, 0.005);
	assert_close(to_base(pressure, "hPa", 983.6), 98.36, 1e-9);
	assert_close(to_base(pressure, "mbar", 941.7), 94.17, 1e-9);
	assert_close(to_base(pressure, "", 97.3), 97.3, 0.0);
	const struct bc_unit *in_hg = bc_unit_find(pressure, "in Hg");
	assert_close(bc_unit_from_base(in_hg, 101.325), 29.9213, 1e-4);
}

/* API gravity at 10, 40 and 65: specific gravity printed as 1.0000, 0.8251 and 0.7201. */
static void gravity_check_values(void **state)
{
	(void)state;
	enum bc_quantity density = BC_QUANTITY_DENSITY;
	double water = BC_WATER_DENSITY_60F_KGM3;
	assert_close(to_base(density, "API", 10.0) / water, 1.0, 1e-12);
	assert_close(to_base(density, "API", 40.0) / water, 0.8251, 5e-5);
	assert_close(to_base(density,
			     "\xC2\xB0"
			     "API",
			     65.0) /
			     water,
		0.7201, 5e-5);
	assert_close(to_base(density, "SG", 0.8251), 0.8251 * 999.012, 1e-9);
	assert_close(to_base(density, "g/mL", 0.7943), 794.3, 1e-9);
}

static void temperature_check_values(void **state)
{
	(void)state;
	enum bc_quantity temperature = BC_QUANTITY_TEMPERATURE;
	assert_close(to_base(temperature, "F", 212.0), 100.0, 1e-12);
	assert_close(to_base(temperature, "F", -40.0), -40.0, 1e-12);
	assert_close(to_base(temperature, "K", 400.45), 127.3, 1e-12);
	assert_close(to_base(temperature, "R", 671.67), 100.0, 1e-12);
	assert_close(to_base(BC_QUANTITY_TEMPERATURE_DIFFERENCE, "F", 8.1), 4.5, 1e-12);
	assert_close(bc_temp_f_from_c(127.3), 261.14, 1e-12);
	assert_close(bc_temp_c_from_f(261.14), 127.3, 1e-12);
	assert_close(bc_temp_k_from_c(127.3), 400.45, 1e-12);
	assert_close(bc_temp_c_from_k(400.45), 127.3, 1e-12);
}

static void other_check_values(void **state)
{
	(void)state;
	assert_close(to_base(BC_QUANTITY_VOLUME, "gal", 2.5), 9463.52946, 1e-9);
	assert_close(to_base(BC_QUANTITY_VOLUME, "l", 0.37), 370.0, 1e-12);
	assert_close(to_base(BC_QUANTITY_MASS, "oz", 16.0), 453.59237, 1e-9);
	assert_close(to_base(BC_QUANTITY_LENGTH, "ft", 2007.87), 611.998776, 1e-9);
	assert_close(to_base(BC_QUANTITY_LENGTH, "in", 12.0), 0.3048, 1e-12);
	assert_close(to_base(BC_QUANTITY_TIME, "h", 1.7), 6120.0, 1e-9);
	assert_close(to_base(BC_QUANTITY_MASS_FRACTION, "%", 0.17), 1700.0, 1e-9);
	assert_close(to_base(BC_QUANTITY_POWER, "kW", 1.35), 1350.0, 1e-9);
}

static void spellings(void **state)
{
	(void)state;
	static const struct {
		enum bc_quantity quantity;
		const char *name;
		const char *unit;
	} table[] = {
		{BC_QUANTITY_TEMPERATURE,
			"\xC2\xB0"
			"C",
			"C"},
		{BC_QUANTITY_TEMPERATURE, "degC", "C"},
		{BC_QUANTITY_TEMPERATURE, "deg C", "C"},
		{BC_QUANTITY_TEMPERATURE, "c", "C"},
		{BC_QUANTITY_TEMPERATURE, "\xE2\x84\x83", "C"},
		{BC_QUANTITY_TEMPERATURE, "Degrees F", "F"},
		{BC_QUANTITY_TEMPERATURE,
			"\xC2\xBA"
			"F",
			"F"},
		{BC_QUANTITY_DENSITY, "g/ml", "g/mL"},
		{BC_QUANTITY_DENSITY, "g/cm\xC2\xB3", "g/cm3"},
		{BC_QUANTITY_DENSITY, "kg/m^3", "kg/m3"},
		{BC_QUANTITY_DENSITY, "KG/M\xC2\xB3", "kg/m3"},
		{BC_QUANTITY_DENSITY, "kg/l", "kg/L"},
		{BC_QUANTITY_DENSITY, "deg API", "API"},
		{BC_QUANTITY_PRESSURE, "MMHG", "mmHg"},
		{BC_QUANTITY_VISCOSITY, "mm\xC2\xB2/s", "mm2/s"},
		{BC_QUANTITY_VISCOSITY, "cSt", "cSt"},
		{BC_QUANTITY_MASS_FRACTION, "% (m/m)", "%m/m"},
		{BC_QUANTITY_ACID_NUMBER, "mg KOH/g", "mgKOH/g"},
	};
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		const struct bc_unit *unit = bc_unit_find(table[i].quantity, table[i].name);
		if (unit == NULL)
			fail_msg("unit '%s' is not known", table[i].name);
		assert_string_equal(bc_unit_name(unit), table[i].unit);
	}
}

static void strangers(void **state)
{
	(void)state;
	assert_null(bc_unit_find(BC_QUANTITY_TEMPERATURE, "kPa"));
	assert_null(bc_unit_find(BC_QUANTITY_TEMPERATURE, "X"));
	assert_null(bc_unit_find(BC_QUANTITY_PRESSURE, "kp"));
	assert_null(bc_unit_find(BC_QUANTITY_DENSITY, "g"));
	assert_null(bc_unit_find(BC_QUANTITY_NONE, "C"));
	assert_null(bc_unit_find(BC_QUANTITY_MASS,
		"a name that is far longer than any unit that anybody has ever written"));
	/* as the field separator of the spellings, a blank must not match two of them */
	assert_null(bc_unit_find(BC_QUANTITY_TEMPERATURE, "c celsius"));
}

/* Every unit that a message lists is known, and takes a value there and back. */
static void listed_units_go_there_and_back(void **state)
{
	(void)state;
	for (int q = 0; q < BC_QUANTITY_NONE; q++) {
		const char *list = bc_quantity_units((enum bc_quantity)q);
		while (*list != '\0') {
			char name[16] = "";
			size_t n = strcspn(list, ",");
			memcpy(name, list, n);
			const struct bc_unit *unit = bc_unit_find((enum bc_quantity)q, name);
			if (unit == NULL)
				fail_msg("listed unit '%s' is not known", name);
			assert_string_equal(bc_unit_name(unit), name);
			double there = bc_unit_to_base(unit, 47.31);
			assert_close(bc_unit_from_base(unit, there), 47.31, 1e-11);
			list += n;
			list += strspn(list, ", ");
		}
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(pressure_check_values),
		cmocka_unit_test(gravity_check_values),
		cmocka_unit_test(temperature_check_values),
		cmocka_unit_test(other_check_values),
		cmocka_unit_test(spellings),
		cmocka_unit_test(strangers),
		cmocka_unit_test(listed_units_go_there_and_back),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
