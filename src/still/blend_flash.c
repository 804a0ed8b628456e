/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The flash point of oils poured together, each bringing its own vapour. */
#include <math.h>

#include "fuel/flash.h"
#include "still/blend.h"

#define NORMAL_KPA 101.325
#define COLDEST_C (-120.0)
#define HOTTEST_C 400.0

/* Sum over parts at one temperature; share_frac is left as what each brings. */
static double vapour_sum(struct bc_blend_vapour *parts, size_t n, double temp_c)
{
	double sum = 0.0;
	double moles = 0.0;
	for (size_t i = 0; i < n; i++) {
		const struct bc_slices *slices = parts[i].slices;
		double part = parts[i].volume * slices->sg / slices->molar_mass_gmol;
		double own = NAN;
		bc_vapour_space_sum(slices, NORMAL_KPA, temp_c + parts[i].shift_c, &own);
		parts[i].share_frac = part * own;
		moles += part;
		sum += parts[i].share_frac;
	}
	return sum / moles;
}

enum bc_status bc_blend_flash_c(struct bc_blend_vapour *parts, size_t n, double *flash_c)
{
	*flash_c = NAN;
	if (n == 0 || n > BC_BLEND_PARTS_MAX)
		return BC_BAD_DOMAIN;
	for (size_t i = 0; i < n; i++)
		if (!(parts[i].volume > 0.0) || parts[i].slices->n == 0 ||
			!isfinite(parts[i].shift_c))
			return BC_BAD_DOMAIN;
	double low_c = COLDEST_C;
	double high_c = HOTTEST_C;
	if (!(vapour_sum(parts, n, low_c) < 1.0) || !(vapour_sum(parts, n, high_c) > 1.0))
		return BC_NO_CONVERGENCE;
	while (high_c - low_c > 1e-7) {
		double middle_c = 0.5 * (low_c + high_c);
		if (vapour_sum(parts, n, middle_c) < 1.0)
			low_c = middle_c;
		else
			high_c = middle_c;
	}
	*flash_c = 0.5 * (low_c + high_c);
	vapour_sum(parts, n, *flash_c);
	double sum = 0.0;
	for (size_t i = 0; i < n; i++)
		sum += parts[i].share_frac;
	for (size_t i = 0; i < n; i++)
		parts[i].share_frac /= sum;
	return BC_OK;
}
