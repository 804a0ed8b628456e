/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Flash point: from one point of the curve, from the vapour space, and its pressure. */
#include "fuel/flash.h"

#include <math.h>
#include <stdbool.h>

#include "base/units.h"
#include "curve/correction.h"
#include "fuel/component.h"

enum bc_status bc_flash_from_t10_api(double t10_c, double *flash_c)
{
	*flash_c = NAN;
	if (!isfinite(t10_c) || t10_c <= -273.15)
		return BC_BAD_DOMAIN;
	double t10 = bc_temp_k_from_c(t10_c);
	double inverse = -0.024209 + 2.84947 / t10 + 3.4254e-3 * log(t10); /* eq. (3.114), K */
	if (!(inverse > 0.0))
		return BC_BAD_DOMAIN;
	*flash_c = bc_temp_c_from_k(1.0 / inverse);
	return t10_c >= -20.0 && t10_c <= 400.0 ? BC_OK : BC_OUTSIDE_RANGE; /* note 3 */
}

struct vapour_space {
	const struct bc_slices *slices;
	double limit25_frac[BC_SLICES_MAX];
	double pressure_bar;
};

static void open_space(
	const struct bc_slices *slices, double pressure_kpa, struct vapour_space *space)
{
	space->slices = slices;
	space->pressure_bar = pressure_kpa / 100.0;
	for (size_t i = 0; i < slices->n; i++) {
		double limit_pct = NAN;
		bc_lower_limit_jones_pct(slices->items[i].molar_mass_gmol, &limit_pct);
		space->limit25_frac[i] = limit_pct / 100.0;
	}
}

static double sum_at(const struct vapour_space *space, double temp_k)
{
	double factor = 0.0;
	bc_lower_limit_at_temp_pct(1.0, bc_temp_c_from_k(temp_k), &factor);
	double sum = 0.0;
	for (size_t i = 0; i < space->slices->n; i++) {
		const struct bc_slice *slice = &space->slices->items[i];
		sum += slice->mole_frac * bc_slice_vapour_bar(slice, temp_k) /
		       (space->pressure_bar * space->limit25_frac[i] * factor);
	}
	return sum;
}

/* Zero at the flash point, rises with temperature. */
static double excess(const struct vapour_space *space, double temp_k)
{
	double sum = sum_at(space, temp_k);
	return sum > 0.0 ? log(sum) : -HUGE_VAL;
}

/* Illinois' false position on 1/T, in which the excess is nearly straight. */
static enum bc_status solve(const struct vapour_space *space, double *temp_k)
{
	double low = 1.0 / 153.15;
	double high = 1.0 / 673.15;
	double f_low = excess(space, 1.0 / low);
	double f_high = excess(space, 1.0 / high);
	if (!(f_low < 0.0 && f_high > 0.0))
		return BC_NO_CONVERGENCE;
	for (int step = 0; step < 200; step++) {
		double x = (low * f_high - high * f_low) / (f_high - f_low);
		double f = excess(space, 1.0 / x);
		if (!(fabs(f) > 1e-10)) {
			*temp_k = 1.0 / x;
			return isfinite(f) ? BC_OK : BC_NO_CONVERGENCE;
		}
		if ((f > 0.0) == (f_high > 0.0)) {
			high = x;
			f_high = f;
			f_low *= 0.5;
		} else {
			low = high;
			f_low = f_high;
			high = x;
			f_high = f;
		}
	}
	return BC_NO_CONVERGENCE;
}

enum bc_status bc_flash_vapour_space_c(
	const struct bc_slices *slices, double pressure_kpa, double *flash_c)
{
	*flash_c = NAN;
	if (slices->n == 0 || !isfinite(pressure_kpa) || pressure_kpa <= 0.0)
		return BC_BAD_DOMAIN;
	struct vapour_space space;
	open_space(slices, pressure_kpa, &space);
	double temp_k = NAN;
	enum bc_status status = solve(&space, &temp_k);
	*flash_c = bc_temp_c_from_k(temp_k);
	return status;
}

enum bc_status bc_vapour_space_sum(
	const struct bc_slices *slices, double pressure_kpa, double temp_c, double *sum)
{
	struct vapour_space space;
	*sum = NAN;
	if (slices->n == 0 || !isfinite(pressure_kpa) || pressure_kpa <= 0.0 ||
		!(temp_c > -273.15 && isfinite(temp_c)))
		return BC_BAD_DOMAIN;
	open_space(slices, pressure_kpa, &space);
	*sum = sum_at(&space, bc_temp_k_from_c(temp_c));
	return isfinite(*sum) ? BC_OK : BC_BAD_DOMAIN;
}

enum bc_status bc_flash_corrected_c(double flash_c, double pressure_kpa, double *corrected_c)
{
	*corrected_c = NAN;
	if (!isfinite(flash_c) || !isfinite(pressure_kpa) || pressure_kpa <= 0.0)
		return BC_BAD_DOMAIN;
	*corrected_c = flash_c + BC_FLASH_PER_KPA * (BC_STANDARD_PRESSURE_KPA - pressure_kpa);
	return pressure_kpa >= 82.0 && pressure_kpa <= 104.7 ? BC_OK : BC_OUTSIDE_RANGE;
}
