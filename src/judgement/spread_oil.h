/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_SPREAD_OIL_H
#define BC_JUDGEMENT_SPREAD_OIL_H

#include <stdbool.h>

#include "fuel/oil_model.h"
#include "fuel/oil_points.h"
#include "judgement/spread_inputs.h"
#include "sample/sample.h"
#include "still/inversion.h"

/* From a drawn curve to the figures of its oil. */
struct bc_oil_drawer {
	const struct bc_conditions *conditions;
	const struct bc_boiloff *boiloff;
	const struct bc_oil *oil; /* as it was judged */
	bool density_measured;
	struct bc_oil_input input;                /* the central points */
	struct bc_oil_errors errors;              /* of them, where they were read on the curve */
	struct bc_estimate method[BC_PROPERTIES]; /* the method's error alone, around its figure */
	bool held[BC_PROPERTIES]; /* measured, or by a rule: drawn between its bounds */

	/* Where the slices come from an inversion: it, and the percents recovered of its head
	 * readings. NULL: from the conversion of D86 points. */
	const struct bc_inversion *inversion;
	const double *inversion_pct;
};
/* inverted: the points that an inversion found; NULL: those of the boil-off carry the slices. */
enum bc_status bc_oil_drawer_new(const struct bc_sample *sample, const struct bc_reader *reader,
	const struct bc_points *points, const struct bc_oil *oil,
	const struct bc_oil_input *inverted, struct bc_oil_drawer *drawer);

/* What one draw makes of the oil. */
struct bc_oil_drawn {
	double property[BC_PROPERTIES]; /* NaN where it has none */
	double d86_c[BC_TBP_POINTS];
	struct bc_tbp_curve curve;
	struct bc_slices slices;
};

/* points: the drawn curve's. Without slices every estimated property is NaN. */
void bc_oil_draw(const struct bc_oil_drawer *drawer, const struct bc_inputs *inputs,
	const struct bc_drawn *drawn, const struct bc_points *points, struct bc_oil_drawn *oil);

/*
 * bc_inversion_drawn - the slices of drawn readings by the linear answer of one inversion
 *
 * Given     inversion; its head readings' percents recovered; inputs, drawn; sg of the whole oil
 * Returned  *curve, *slices: each head reading has changed by what the drawn curve differs from the
 *           central one at its percent, the IBP likewise
 * Status    as bc_inversion_shifted
 */
enum bc_status bc_inversion_drawn(const struct bc_inversion *inversion, const double *pct,
	const struct bc_inputs *inputs, const struct bc_drawn *drawn, double sg,
	struct bc_tbp_curve *curve, struct bc_slices *slices);

#endif
