/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Barometers, altitude, boiling water and weighed density in the units of their sources. */
#include "curve/site_forms.h"

#include <math.h>
#include <stdbool.h>

#include "curve/correction.h"

static bool positive(double x) { return isfinite(x) && x > 0.0; }

static enum bc_status mercury(
	double reading_mmhg, double per_c, double temp_c, double *reduced_mmhg)
{
	*reduced_mmhg = NAN;
	if (!positive(reading_mmhg) || !isfinite(temp_c))
		return BC_BAD_DOMAIN;
	*reduced_mmhg = reading_mmhg * (1.0 - per_c * temp_c);
	return reading_mmhg >= 500.0 && reading_mmhg <= 850.0 && temp_c >= -10.0 && temp_c <= 40.0
		       ? BC_OK
		       : BC_OUTSIDE_RANGE;
}

enum bc_status bc_mercury_glass_mmhg(double reading_mmhg, double temp_c, double *reduced_mmhg)
{
	return mercury(reading_mmhg, 0.000172, temp_c, reduced_mmhg);
}

enum bc_status bc_mercury_brass_mmhg(double reading_mmhg, double temp_c, double *reduced_mmhg)
{
	return mercury(reading_mmhg, 0.000161, temp_c, reduced_mmhg);
}

enum bc_status bc_station_from_sea_level_kpa(
	double sea_level_kpa, double altitude_m, double *station_kpa)
{
	double standard_kpa = NAN;
	*station_kpa = NAN;
	if (!positive(sea_level_kpa))
		return BC_BAD_DOMAIN;
	enum bc_status status = bc_pressure_from_altitude_kpa(altitude_m, &standard_kpa);
	if (bc_failed(status))
		return status;
	*station_kpa = sea_level_kpa * standard_kpa / 101.325;
	return sea_level_kpa >= 90.0 && sea_level_kpa <= 110.0 ? status : BC_OUTSIDE_RANGE;
}

enum bc_status bc_pressure_from_feet_inhg(double altitude_ft, double *pressure_inhg)
{
	*pressure_inhg = NAN;
	double left = 1.0 - 6.8753e-6 * altitude_ft;
	if (!isfinite(altitude_ft) || left <= 0.0)
		return BC_BAD_DOMAIN;
	*pressure_inhg = 29.921 * pow(left, 5.2559);
	return altitude_ft >= -1640.0 && altitude_ft <= 36000.0 ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_water_boils_us_f(double pressure_inhg, double *boiling_f)
{
	*boiling_f = NAN;
	if (!positive(pressure_inhg))
		return BC_BAD_DOMAIN;
	*boiling_f = 49.161 * log(pressure_inhg) + 44.932;
	return pressure_inhg >= 25.0 && pressure_inhg <= 31.0 ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_water_density_kgm3(double temp_c, double *density_kgm3)
{
	*density_kgm3 = NAN;
	if (!(temp_c >= -20.0 && temp_c <= 100.0))
		return BC_BAD_DOMAIN;
	/* Tanaka 2001, eq. (1) */
	double from_top = temp_c - 3.983035;
	*density_kgm3 = 999.974950 * (1.0 - from_top * from_top * (temp_c + 301.797) /
						     (522528.9 * (temp_c + 69.34881)));
	return temp_c >= 0.0 && temp_c <= 40.0 ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_pycnometer_volume_ml(
	double empty_g, double with_water_g, double water_gml, double air_gml, double *volume_ml)
{
	*volume_ml = NAN;
	if (!isfinite(empty_g) || !isfinite(with_water_g) || !positive(water_gml) ||
		!(air_gml >= 0.0 && air_gml < water_gml) || with_water_g <= empty_g)
		return BC_BAD_DOMAIN;
	*volume_ml = (with_water_g - empty_g) / (water_gml - air_gml);
	return BC_OK;
}

enum bc_status bc_pycnometer_density_gml(double empty_g, double with_water_g, double with_oil_g,
	double water_gml, double air_gml, double *density_gml)
{
	double volume_ml = NAN;
	*density_gml = NAN;
	enum bc_status status =
		bc_pycnometer_volume_ml(empty_g, with_water_g, water_gml, air_gml, &volume_ml);
	if (bc_failed(status) || !isfinite(with_oil_g) || with_oil_g <= empty_g)
		return BC_BAD_DOMAIN;
	*density_gml = (with_oil_g - empty_g) / volume_ml + air_gml;
	return status;
}

enum bc_status bc_kitchen_scale_density_gml(double empty_g, double with_water_g, double with_oil_g,
	double water_gml, double *density_gml)
{
	return bc_pycnometer_density_gml(
		empty_g, with_water_g, with_oil_g, water_gml, 0.0, density_gml);
}
