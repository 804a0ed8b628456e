/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heat of combustion from density. */
#include "fuel/heat.h"

#include <math.h>

enum bc_status bc_net_heat_d4868_mjkg(double density15_kgm3, double *net_heat_mjkg)
{
	*net_heat_mjkg = NAN;
	double d = density15_kgm3;
	if (!isfinite(d) || d <= 0.0)
		return BC_BAD_DOMAIN;
	*net_heat_mjkg = 46.423 - 8.792e-6 * d * d + 3.170e-3 * d; /* D4868, net */
	return d >= 750.0 && d <= 1000.0 ? BC_OK : BC_OUTSIDE_RANGE;
}
