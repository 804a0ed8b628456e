/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_UNITS_H
#define BC_BASE_UNITS_H

#include <stddef.h>

/* Quantities and the unit in which the program holds each. */
enum bc_quantity {
	BC_QUANTITY_TEMPERATURE,            /* degC; C F K R */
	BC_QUANTITY_TEMPERATURE_DIFFERENCE, /* K; C F K */
	BC_QUANTITY_PRESSURE,      /* kPa; kPa hPa mbar bar mmHg torr inHg psi atm Pa MPa */
	BC_QUANTITY_DENSITY,       /* kg/m3; kg/m3 g/mL g/cm3 kg/L API SG */
	BC_QUANTITY_VOLUME,        /* mL; mL cL L gal (US) */
	BC_QUANTITY_MASS,          /* g; mg g kg lb oz */
	BC_QUANTITY_LENGTH,        /* m; mm cm m km ft in */
	BC_QUANTITY_TIME,          /* s; s min h d */
	BC_QUANTITY_VISCOSITY,     /* mm2/s; mm2/s cSt */
	BC_QUANTITY_MASS_FRACTION, /* mg/kg; mg/kg ppm % %m/m */
	BC_QUANTITY_ACID_NUMBER,   /* mgKOH/g */
	BC_QUANTITY_PERCENT,       /* % */
	BC_QUANTITY_POWER,         /* W; W kW */
	BC_QUANTITY_NONE,          /* a bare number */
	BC_QUANTITIES
};

struct bc_unit; /* one unit of one quantity */

/* The unit so called (case-blind except where case tells, degree signs and exponents folded), or
 * NULL. "" is the unit in which the program holds the quantity. */
const struct bc_unit *bc_unit_find(enum bc_quantity quantity, const char *name);
double bc_unit_to_base(const struct bc_unit *unit, double value);
double bc_unit_from_base(const struct bc_unit *unit, double value);
const char *bc_unit_name(const struct bc_unit *unit);

/* "kPa, hPa, mbar, ..." for messages. */
const char *bc_quantity_units(enum bc_quantity quantity);

static inline double bc_temp_k_from_c(double temp_c) { return temp_c + 273.15; }
static inline double bc_temp_c_from_k(double temp_k) { return temp_k - 273.15; }
static inline double bc_temp_f_from_c(double temp_c) { return 1.8 * temp_c + 32.0; }
static inline double bc_temp_c_from_f(double temp_f) { return (temp_f - 32.0) / 1.8; }

/* Density of water at 60 degF, which carries specific gravity 60/60 to density [kg/m3]: API MPMS
 * chapter 11.1:1980, with which its printed API limits and densities agree (2004: 999.016). */
#define BC_WATER_DENSITY_60F_KGM3 999.012

#endif
