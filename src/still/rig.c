/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a still is worth by its measures: plates, reflux of the wall, flooding, hold-up. */
#include "still/rig.h"

#include <math.h>
#include <string.h>

#include "base/units.h"
#include "fuel/riser_forms.h"
#include "still/heat.h"

#define PI 3.14159265358979323846
#define SHED_C 20.0
#define NORMAL_KPA 101.325
#define STAGES_MOST 60.0
#define THIRD (1.0 / 3.0)

const struct bc_packing bc_packings[] = {
	{"none", "an empty pipe", 450.0, 2.0},
	{"scrubbers", "stainless scrubbers", 130.0, 8.0},
	{"rings-6mm", "ceramic rings of 6 mm", 240.0, 10.0},
	{"rings-13mm", "ceramic rings of 13 mm", 380.0, 7.0},
	{"marbles-10mm", "marbles of 10 mm", 330.0, 6.0},
	{"pricked-glass", "glass with pricks, run very slowly", 125.0, 3.0},
};
const size_t bc_packing_count = sizeof bc_packings / sizeof bc_packings[0];

const struct bc_packing *bc_packing_find(const char *word)
{
	for (size_t i = 0; i < bc_packing_count; i++) {
		if (strcmp(bc_packings[i].word, word) == 0)
			return &bc_packings[i];
	}
	return NULL;
}

struct bc_rig bc_rig_unknown(void)
{
	return (struct bc_rig){.riser_mm = NAN,
		.height_mm = NAN,
		.packing = &bc_packings[0],
		.heater_w = NAN,
		.charge_ml = NAN,
		.vacuum_kpa = NAN};
}

/* The vapour that a rig is reckoned with, and where it boils at a pressure. */
struct vapour {
	double temp_c;
	double molar_mass_gmol;
	double latent_kjmol;
};

static double boils_k(const struct bc_slice *slice, double pressure_kpa)
{
	double low = 250.0;
	double high = 700.0;
	while (high - low > 0.01) {
		double k = 0.5 * (low + high);
		if (100.0 * bc_slice_vapour_bar(slice, k) < pressure_kpa)
			low = k;
		else
			high = k;
	}
	return 0.5 * (low + high);
}

static enum bc_status vapour_of(double pressure_kpa, struct vapour *vapour)
{
	const double exponent = 0.38; /* Watson 1943 */
	const double boiling_k = bc_temp_k_from_c(BC_RIG_VAPOUR_C);
	const double sg = 0.78; /* of such a slice of a paraffinic oil */
	const double whole = 1.0;
	struct bc_slices slices;
	enum bc_status status = bc_slices_from_components(&boiling_k, &sg, &whole, 1, &slices);
	if (bc_failed(status))
		return status;
	const struct bc_slice *slice = &slices.items[0];
	double temp_k = boils_k(slice, pressure_kpa);
	status = bc_latent_heat_riedel_kjmol(
		boiling_k, slice->critical_k, slice->critical_bar, &vapour->latent_kjmol);
	vapour->latent_kjmol *=
		pow((slice->critical_k - temp_k) / (slice->critical_k - boiling_k), exponent);
	vapour->molar_mass_gmol = slice->molar_mass_gmol;
	vapour->temp_c = bc_temp_c_from_k(temp_k);
	return status;
}

static struct bc_estimate estimate(double value, double low, double high)
{
	return (struct bc_estimate){value, low, high, BC_ESTIMATED};
}

static enum bc_status set_power(
	const struct bc_rig *rig, const struct vapour *vapour, struct bc_rig_estimate *e)
{
	double pressure_kpa = isnan(rig->vacuum_kpa) ? NORMAL_KPA : rig->vacuum_kpa;
	double power_w = NAN;
	enum bc_status status = bc_riser_power_w(rig->riser_mm, BC_RIG_SAFE_F, pressure_kpa,
		vapour->temp_c, vapour->molar_mass_gmol, vapour->latent_kjmol, &power_w);
	e->vapour_c = vapour->temp_c;
	e->power_w = estimate(power_w, (1.0 - THIRD) * power_w, (1.0 + THIRD) * power_w);
	e->boil_assumed = isnan(rig->heater_w);
	e->boil_w = e->boil_assumed ? 0.5 * power_w : rig->heater_w;
	e->heater_floods = e->boil_w > power_w;
	e->boil_w = fmin(e->boil_w, power_w);
	return status;
}

static double reflux_of(const struct bc_rig *rig, double wall_w, double boil_w)
{
	double wall = INFINITY;
	if (bc_failed(bc_riser_wall_reflux(wall_w, boil_w, &wall)))
		return INFINITY;
	return (1.0 + rig->reflux) * (1.0 + wall) - 1.0;
}

static enum bc_status set_wall(const struct bc_rig *rig, struct bc_rig_estimate *e)
{
	double u = NAN;
	double wall_w = NAN;
	enum bc_status status = bc_riser_u_lagged_wm2k(rig->riser_mm, rig->lagging_mm, &u);
	if (!bc_failed(status))
		status = bc_riser_wall_w(
			u, rig->riser_mm, rig->height_mm, fmax(e->vapour_c - SHED_C, 0.0), &wall_w);
	e->wall_w = estimate(wall_w, (1.0 - THIRD) * wall_w, (1.0 + THIRD) * wall_w);
	e->reflux = estimate(reflux_of(rig, wall_w, e->boil_w),
		reflux_of(rig, e->wall_w.low, e->boil_w),
		reflux_of(rig, e->wall_w.high, e->boil_w));
	e->wall_takes_all = wall_w >= e->boil_w;
	return status;
}

static enum bc_status set_plates(
	const struct bc_rig *rig, struct bc_calibration_work *work, struct bc_rig_estimate *e)
{
	double hetp_mm = rig->packing->hetp_mm;
	struct bc_estimate *n = &e->stages;
	struct bc_estimate *plates = &e->plates;
	*n = *plates = estimate(NAN, NAN, NAN);
	enum bc_status status = bc_riser_stages(rig->height_mm, hetp_mm, &n->value);
	if (!bc_failed(status))
		status = bc_riser_stages(rig->height_mm, 1.5 * hetp_mm, &n->low);
	if (!bc_failed(status))
		status = bc_riser_stages(rig->height_mm, 0.5 * hetp_mm, &n->high);
	if (!bc_failed(status))
		status = bc_effective_plates(
			fmin(n->value, STAGES_MOST), e->reflux.value, work, &plates->value);
	if (!bc_failed(status))
		status = bc_effective_plates(
			fmin(n->low, STAGES_MOST), e->reflux.low, work, &plates->low);
	if (!bc_failed(status))
		status = bc_effective_plates(
			fmin(n->high, STAGES_MOST), e->reflux.high, work, &plates->high);
	return status;
}

static void set_hold(const struct bc_rig *rig, struct bc_rig_estimate *e)
{
	double volume_ml = 0.25 * PI * rig->riser_mm * rig->riser_mm * rig->height_mm * 1e-3;
	double hold_ml = rig->packing->hold_pct / 100.0 * volume_ml;
	double share = 100.0 / BC_RIG_HOLD_PCT;
	e->hold_ml = estimate(hold_ml, 0.5 * hold_ml, 2.0 * hold_ml);
	e->least_cut_ml = estimate(share * hold_ml, 0.5 * share * hold_ml, 2.0 * share * hold_ml);
}

enum bc_status bc_rig_estimate_of(
	const struct bc_rig *rig, struct bc_calibration_work *work, struct bc_rig_estimate *e)
{
	struct vapour vapour;
	*e = (struct bc_rig_estimate){0};
	if (!(rig->riser_mm > 0.0 && rig->height_mm > 0.0))
		return BC_BAD_DOMAIN;
	enum bc_status status =
		vapour_of(isnan(rig->vacuum_kpa) ? NORMAL_KPA : rig->vacuum_kpa, &vapour);
	if (!bc_failed(status))
		status = set_power(rig, &vapour, e);
	if (!bc_failed(status))
		status = set_wall(rig, e);
	if (!bc_failed(status))
		status = set_plates(rig, work, e);
	set_hold(rig, e);
	return bc_failed(status) ? status : BC_OK;
}
