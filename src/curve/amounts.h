/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_AMOUNTS_H
#define BC_CURVE_AMOUNTS_H

#include "curve/boiloff.h"

/* From amounts as read to percent of the dry charge by volume; inside curve/ only. */

/* Density where the sample states none: between plastic-oil kerosene and diesel cuts; common
 * practice [kg/m3]. */
#define BC_DENSITY_ASSUMED_KGM3 800.0

/* The charge as it went into the flask [mL]. */
double bc_charge_ml(const struct bc_sample *sample);

/* Percent of the charge, in the sample's own basis, for an amount as read. */
double bc_share_pct(const struct bc_sample *sample, double amount);

/* Says once how percents came about: charge, density assumed, mass. */
void bc_amounts_say(const struct bc_sample *sample, struct bc_strings *assumed);

/* Water in the receiver [mL], and as percent of the charge in the sample's own basis; 0 where none
 * is stated. */
double bc_water_ml(const struct bc_sample *sample);
double bc_water_pct(const struct bc_sample *sample);

/* Residue or loss in percent of the dry charge, from percent of the charge where it is finite, else
 * from mL; NaN where neither is. */
double bc_part_pct(const struct bc_sample *sample, double ml, double pct);

/* Mass percent to volume percent along the curve: at constant Watson K a slice's density goes as
 * T^(1/3). loss_pct boils with the first reading, what is left with the last. */
void bc_volume_from_mass(struct bc_point *points, size_t n, double loss_pct);

#endif
