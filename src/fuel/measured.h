/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_MEASURED_H
#define BC_FUEL_MEASURED_H

#include <stdbool.h>

#include "base/estimate.h"
#include "base/strings.h"
#include "curve/boiloff.h"
#include "curve/finding.h"
#include "fuel/properties.h"
#include "sample/sample.h"

/* Water came over, its shelf was seen, or more than 1000 mg/kg of it was measured (a thousandth is
 * more than oil dissolves at room temperature; common practice). */
bool bc_oil_is_wet(const struct bc_sample *sample, const struct bc_boiloff *boiloff,
	const struct bc_findings *findings);

/*
 * bc_density_measured - the density at 15 degC of a sample that was weighed
 *
 * Given     sample, boiloff
 * Returned  [kg/m3] with 95 % bounds, or absent. Half-width: 0.5 of the tables at 15 degC, 2.0
 *           elsewhere, half the last digit written, and 1 of a hydrometer or scale (common
 *           practice), by squares. Without a density that was written, that of the weighed charge,
 *           whose volume a measuring glass tells to 1 %: half-width 8. assumed says so.
 */
struct bc_estimate bc_density_measured(const struct bc_sample *sample,
	const struct bc_boiloff *boiloff, struct bc_strings *assumed);

/*
 * bc_take_measured_viscosity - a measured viscosity in the place of the estimates
 *
 * At 40 or 20 degC it replaces that estimate and moves the other by the same factor; at a third
 * temperature it moves both, along the D341 line of the estimates. Moved ones stay estimates: 0.75
 * % for each degC between, beside the error of the measurement (15 % over 20 degC: what the method
 * loses on that way; assumed). A finding says it when it cannot be used.
 */
void bc_take_measured_viscosity(
	const struct bc_sample *sample, struct bc_oil *oil, struct bc_findings *findings);

/* Half-width (95 %) of one closed cup [degC]: R/sqrt(2), R = 0.071 X (ASTM D93 procedure A, from
 * memory), at least 2. */
double bc_closed_cup_half_width_c(double flash_c);

/*
 * bc_take_measured_flash - a measured closed cup rules, an open cup caps
 *
 * Half-width: bc_closed_cup_half_width_c. Void in a wet sample. Where it contradicts the vapour
 * space a finding says so, but for oils whose T10 is at or above BC_HEAVY_T10_C, where the vapour
 * space does not hold. An open cup reads no lower than a closed one: below the estimate it caps the
 * bounds. True when a closed cup was taken.
 */
bool bc_take_measured_flash(const struct bc_sample *sample, double t10_c, struct bc_oil *oil,
	struct bc_findings *findings);

/* Findings for what the laboratory found too high or too low: standards-notes/measured-alarms.csv.
 */
void bc_measured_alarms(const struct bc_sample *sample, struct bc_findings *findings);

#endif
