/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heat and time of a distillation, and how soon a room is full when the cooling fails. */
#include "still/heat.h"

#include <math.h>

#include "base/units.h"
#include "still/k_table.h"

#define KJ_PER_BTU_LB_F 4.187
#define GAS_CONSTANT_KJ 8.314462618e-3 /* CODATA 2018 */

enum bc_status bc_liquid_heat_kjkgk(double temp_c, double sg, double watson_k, double *heat_kjkgk)
{
	*heat_kjkgk = NAN;
	if (!isfinite(temp_c) || !(sg > 0.0 && watson_k > 0.0) || !isfinite(sg * watson_k))
		return BC_BAD_DOMAIN;
	double temp_f = bc_temp_f_from_c(temp_c);
	double heat = (0.6811 - 0.308 * sg + (0.000815 - 0.000306 * sg) * temp_f) *
		      (0.055 * watson_k + 0.35); /* Watson & Nelson */
	if (!(heat > 0.0))
		return BC_BAD_DOMAIN;
	*heat_kjkgk = KJ_PER_BTU_LB_F * heat;
	bool inside = temp_c >= -18.0 && temp_c <= 540.0 && sg >= 0.6 && sg <= 1.1 &&
		      watson_k >= 10.0 && watson_k <= 13.0;
	return inside ? BC_OK : BC_OUTSIDE_RANGE;
}

enum bc_status bc_latent_heat_riedel_kjmol(
	double boiling_k, double critical_k, double critical_bar, double *latent_kjmol)
{
	const double riedel_limit = 0.93;
	double reduced = boiling_k / critical_k;
	*latent_kjmol = NAN;
	if (!(boiling_k > 0.0 && reduced < riedel_limit && reduced > 0.0) ||
		!isfinite(critical_k) || !(critical_bar > exp(1.013)) || !isfinite(critical_bar))
		return BC_BAD_DOMAIN;
	*latent_kjmol = 1.093 * GAS_CONSTANT_KJ * boiling_k * (log(critical_bar) - 1.013) /
			(riedel_limit - reduced); /* Riedel */
	return BC_OK;
}

enum bc_status bc_latent_heat_watson_kjmol(
	double latent_kjmol, double known_k, double temp_k, double critical_k, double *there_kjmol)
{
	const double exponent = 0.38; /* Watson */
	*there_kjmol = NAN;
	if (!(latent_kjmol > 0.0 && known_k > 0.0 && temp_k > 0.0) ||
		!(known_k < critical_k && temp_k < critical_k) ||
		!isfinite(latent_kjmol * critical_k))
		return BC_BAD_DOMAIN;
	*there_kjmol = latent_kjmol * pow((critical_k - temp_k) / (critical_k - known_k), exponent);
	return BC_OK;
}

double bc_reflux_of_plates(double effective_plates) { return fmax(effective_plates - 1.0, 0.0); }

/* Of a slice, where it boils by itself at the pressure. */
static enum bc_status slice_latent_kjmol(
	const struct bc_slice *slice, double pressure_kpa, double *latent_kjmol)
{
	double normal_kjmol;
	enum bc_status status = bc_latent_heat_riedel_kjmol(
		slice->boiling_k, slice->critical_k, slice->critical_bar, &normal_kjmol);
	if (bc_failed(status))
		return status;
	return bc_latent_heat_watson_kjmol(normal_kjmol, slice->boiling_k,
		bc_slice_boils_k(slice, pressure_kpa / 100.0), slice->critical_k, latent_kjmol);
}

/* Mass left in the pot per volume of the charge, as specific gravity. */
static double left_sg(const struct bc_run *run, double over_frac)
{
	double mass = 0.0;
	for (size_t i = 0; i < run->charge.n; i++) {
		const struct bc_slice *slice = &run->charge.items[i];
		mass += (slice->volume_frac - bc_run_over(run, i, over_frac)) * slice->sg;
	}
	return mass;
}

/* Slices made from components have no common Watson K; paraffins have about this one. */
static double watson_of(const struct bc_slices *charge)
{
	return isfinite(charge->watson_k) ? charge->watson_k : 12.0;
}

/* kJ per kg of water that fills the volume of the charge. */
static double warming_kjkg(const struct bc_run *run, double mass_sg, double from_c, double to_c)
{
	double heat_kjkgk;
	enum bc_status status = bc_liquid_heat_kjkgk(
		0.5 * (from_c + to_c), run->charge.sg, watson_of(&run->charge), &heat_kjkgk);
	return bc_failed(status) ? (double)NAN : mass_sg * heat_kjkgk * (to_c - from_c);
}

static double residue_kjkg(const struct bc_run *run, double over_frac)
{
	double sum = 0.0;
	double at = 0.0;
	for (size_t node = 1; node < run->n && at < over_frac; node++) {
		double next = fmin(run->over_frac[node], over_frac);
		double from_c = bc_run_at(run, at).pot_c;
		double to_c = bc_run_at(run, next).pot_c;
		sum += warming_kjkg(run, left_sg(run, 0.5 * (at + next)), from_c, to_c);
		at = next;
	}
	return sum;
}

static double latent_kjkg(const struct bc_run *run, double over_frac)
{
	double sum = 0.0;
	for (size_t i = 0; i < run->charge.n; i++) {
		const struct bc_slice *slice = &run->charge.items[i];
		double latent_kjmol;
		if (bc_failed(slice_latent_kjmol(slice, run->column.pressure_kpa, &latent_kjmol)))
			return NAN;
		sum += bc_run_over(run, i, over_frac) * slice->sg * latent_kjmol * 1000.0 /
		       slice->molar_mass_gmol;
	}
	return sum;
}

static double reflux_of(const struct bc_column *column)
{
	if (isfinite(column->effective_plates))
		return bc_reflux_of_plates(column->effective_plates);
	return column->stages > 1.0 ? column->reflux : 0.0;
}

enum bc_status bc_run_heat_mj(const struct bc_run *run, double over_frac, double charge_ml,
	double start_c, struct bc_run_heat *heat)
{
	*heat = (struct bc_run_heat){NAN, NAN, NAN, NAN};
	if (run->n == 0 || !(over_frac >= 0.0 && over_frac <= run->over_frac[run->n - 1]) ||
		!(charge_ml > 0.0) || !isfinite(start_c))
		return BC_BAD_DOMAIN;
	/* MJ of a kJ/kg of water in the volume of the charge; mL to m3 and kJ to MJ */
	double scale = BC_WATER_DENSITY_60F_KGM3 * charge_ml * 1e-6 * 1e-3;
	double reflux = reflux_of(&run->column);
	heat->warm_up_mj = scale * warming_kjkg(run, run->charge.sg, start_c, run->pot_c[0]);
	heat->residue_mj = scale * residue_kjkg(run, over_frac);
	heat->latent_mj = scale * latent_kjkg(run, over_frac);
	heat->reflux_mj = over_frac > 0.0 ? reflux * heat->latent_mj : 0.0;
	return isfinite(heat->warm_up_mj + heat->residue_mj + heat->latent_mj) ? BC_OK
									       : BC_BAD_DOMAIN;
}

double bc_cooling_water_l_min(double power_w, double rise_c)
{
	const double water_kjkgk = 4.186; /* at 15 degC, textbook */
	if (!(power_w > 0.0 && rise_c > 0.0))
		return NAN;
	return power_w / 1000.0 / (water_kjkgk * rise_c) * 60.0;
}

double bc_vapour_fills_s(double power_w, double room_m3, double share_frac)
{
	const double limit_gm3 = 45.0;
	const double latent_jg = 290.0;
	if (!(power_w > 0.0 && room_m3 > 0.0 && share_frac > 0.0))
		return NAN;
	return share_frac * limit_gm3 * room_m3 * latent_jg / power_w;
}
