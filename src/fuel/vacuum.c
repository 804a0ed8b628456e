/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Maxwell and Bonnell in their two published guises: vapour pressure, and the temperature under
 * vacuum carried to 760 mmHg. */
#include "fuel/vacuum.h"

#include <math.h>
#include <stdbool.h>

#include "base/units.h"

static bool positive(double x) { return isfinite(x) && x > 0.0; }

enum bc_status bc_maxwell_bonnell_mmhg(double temp_k, double boiling_k, double *pressure_mmhg)
{
	*pressure_mmhg = NAN;
	double denominator = 748.1 - 0.3861 * boiling_k;
	if (!positive(temp_k) || !positive(boiling_k) || denominator <= 0.0)
		return BC_BAD_DOMAIN;
	double q = (boiling_k / temp_k - 5.1606e-4 * boiling_k) / denominator;
	double log_p = NAN;
	if (q > 0.0022) /* below 2 mmHg */
		log_p = (3000.538 * q - 6.761560) / (43.0 * q - 0.987672);
	else if (q >= 0.0013)
		log_p = (2663.129 * q - 5.994296) / (95.76 * q - 0.972546);
	else /* above 760 mmHg */
		log_p = (2770.085 * q - 6.412631) / (36.0 * q - 0.989679);
	*pressure_mmhg = pow(10.0, log_p);
	return BC_OK;
}

enum bc_status bc_maxwell_bonnell_watson_mmhg(
	double temp_k, double boiling_k, double watson_k, double *pressure_mmhg)
{
	double pressure = NAN;
	*pressure_mmhg = NAN;
	if (!positive(watson_k))
		return BC_BAD_DOMAIN;
	enum bc_status status = bc_maxwell_bonnell_mmhg(temp_k, boiling_k, &pressure);
	double boiling_f = bc_temp_f_from_c(bc_temp_c_from_k(boiling_k));
	double share = fmin(fmax((boiling_f - 200.0) / 200.0, 0.0), 1.0);
	for (int i = 0; i < 100 && !bc_failed(status); i++) {
		double before = pressure;
		double shifted =
			boiling_k - 1.3889 * share * (watson_k - 12.0) * log10(before / 760.0);
		status = bc_maxwell_bonnell_mmhg(temp_k, shifted, &pressure);
		if (fabs(pressure - before) <= 1e-10 * before) {
			*pressure_mmhg = pressure;
			return status;
		}
	}
	return bc_failed(status) ? status : BC_NO_CONVERGENCE;
}

enum bc_status bc_aet_a_mmhg(double pressure_mmhg, double *a)
{
	*a = NAN;
	if (!positive(pressure_mmhg))
		return BC_BAD_DOMAIN;
	double log_p = log10(pressure_mmhg);
	if (pressure_mmhg < 2.0)
		*a = (6.761560 - 0.987672 * log_p) / (3000.538 - 43.0 * log_p);
	else if (pressure_mmhg <= 760.0) /* eq. A8.2 */
		*a = (5.994295 - 0.972546 * log_p) / (2663.129 - 95.76 * log_p);
	else
		*a = (6.412631 - 0.989679 * log_p) / (2770.085 - 36.0 * log_p);
	return BC_OK;
}

enum bc_status bc_aet_a_kpa(double pressure_kpa, double *a)
{
	*a = NAN;
	if (!positive(pressure_kpa))
		return BC_BAD_DOMAIN;
	double log_p = log10(pressure_kpa);
	/* eq. A8.3 */
	*a = (5.143222 - 0.972546 * log_p) / (2579.329 - 95.76 * log_p);
	return pressure_kpa >= 0.266 && pressure_kpa <= 101.325 ? BC_OK : BC_OUTSIDE_RANGE;
}

static const double annex_zero_c = 273.1;

/* eq. A8.1 */
static enum bc_status aet_with(double temp_c, double a, enum bc_status status, double *aet_c)
{
	*aet_c = NAN;
	double temp_k = temp_c + annex_zero_c;
	if (bc_failed(status) || !positive(temp_k))
		return BC_BAD_DOMAIN;
	double denominator = 1.0 / temp_k + 0.3861 * a - 0.00051606;
	if (!(denominator > 0.0) || !(a > 0.0))
		return BC_BAD_DOMAIN;
	*aet_c = 748.1 * a / denominator - annex_zero_c;
	return status;
}

enum bc_status bc_aet_c(double temp_c, double pressure_mmhg, double *aet_c)
{
	double a = NAN;
	enum bc_status status = bc_aet_a_mmhg(pressure_mmhg, &a);
	return aet_with(temp_c, a, status, aet_c);
}

enum bc_status bc_aet_kpa_c(double temp_c, double pressure_kpa, double *aet_c)
{
	double a = NAN;
	enum bc_status status = bc_aet_a_kpa(pressure_kpa, &a);
	return aet_with(temp_c, a, status, aet_c);
}

enum bc_status bc_temp_from_aet_c(double aet_c, double pressure_mmhg, double *temp_c)
{
	double a = NAN;
	*temp_c = NAN;
	enum bc_status status = bc_aet_a_mmhg(pressure_mmhg, &a);
	double aet_k = aet_c + annex_zero_c;
	if (bc_failed(status) || !positive(aet_k) || !positive(a))
		return BC_BAD_DOMAIN;
	double inverse = 748.1 * a / aet_k - 0.3861 * a + 0.00051606;
	if (!(inverse > 0.0))
		return BC_BAD_DOMAIN;
	*temp_c = 1.0 / inverse - annex_zero_c;
	return status;
}

enum bc_status bc_aet_watson_c(double temp_c, double pressure_mmhg, double watson_k, double *aet_c)
{
	double plain_c = NAN;
	*aet_c = NAN;
	if (!positive(watson_k))
		return BC_BAD_DOMAIN;
	enum bc_status status = bc_aet_c(temp_c, pressure_mmhg, &plain_c);
	if (bc_failed(status))
		return status;
	/* eq. A8.5 */
	*aet_c = plain_c - 1.4 * (watson_k - 12.0) * log10(760.0 / pressure_mmhg);
	return status;
}

enum bc_status bc_watson_k_d2892(double boiling_c, double density15_gml, double *watson_k)
{
	*watson_k = NAN;
	double boiling_k = boiling_c + annex_zero_c;
	if (!positive(boiling_k) || !positive(density15_gml))
		return BC_BAD_DOMAIN;
	*watson_k = cbrt(1.8 * boiling_k) / density15_gml;
	/* note 1 */
	bool inside = boiling_c >= -20.0 && boiling_c <= 700.0 && density15_gml >= 0.6 &&
		      density15_gml <= 1.1;
	return inside ? BC_OK : BC_OUTSIDE_RANGE;
}
