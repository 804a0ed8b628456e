/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_BOILOFF_H
#define BC_CURVE_BOILOFF_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "base/strings.h"
#include "curve/conditions.h"
#include "curve/curve.h"
#include "curve/finding.h"
#include "curve/fit.h"
#include "curve/runs_spread.h"
#include "sample/sample.h"

/* A reading on its way: what was seen, and what it is on the D86 basis. */
struct bc_point {
	enum bc_reading_kind kind;
	double recovered_pct;  /* volume; 0 at IBP, end_pct at FBP and dry point */
	double evaporated_pct; /* recovered + observed loss, at most 100 */
	double observed_c;
	double corrected_c;
	double pot_c;
	double time_s;
	bool used; /* part of the curve */
	bool slip; /* named as one that does not belong, in use or not */
	size_t line;
};

/*
 * The boil-off on the D86 basis (for apparatus,tbp: true vapour less delta). Points rise in
 * percent: IBP first where there is one, FBP and dry point last.
 */
struct bc_boiloff {
	struct bc_point *points;
	size_t n;
	size_t n_amounts; /* different percent readings in use */
	double ibp_c;     /* corrected; NaN where not read */
	double fbp_c;
	double dry_c;
	double first_pct; /* of the percent readings in use */
	double last_pct;
	double end_pct;  /* 100 - residue - loss, where FBP stands */
	double loss_pct; /* observed, or weighed; 0 or what is left where loss_known is false */
	double corrected_loss_pct;
	double residue_pct;
	bool loss_known;
	bool residue_known;
	bool wet; /* water came over, stated or seen: a measured flash of this sample is void */

	double volume_half_width_pct; /* 95 %: of a percent recovered */
	double rest_half_width_pct;   /* ... of residue and loss, where known */

	double charge_ml; /* dry */
	double water_ml;  /* stated; 0 otherwise */

	double mass_loss_pct; /* a weighed boil-off; NaN otherwise */
	double charge_kgm3;   /* dry; NaN unless volume and mass of the charge are both stated */
	double distillate_kgm3;
	double residue_kgm3;

	const struct bc_runs_spread *runs; /* the points are means of several runs; NULL: one run */
};

/*
 * bc_boiloff_from_sample - percent by volume, water taken out, pressure, thermometer, order
 *
 * mL and g are turned into percent by the charge; mass into volume with the density along the
 * curve (constant Watson K: volume goes as mass / T^(1/3)), and said in assumed. Repeated percents
 * are averaged, rows are sorted, a temperature that falls at the end ends the curve, readings that
 * are out of line or on a shelf of water are no longer used, loss is not believed where more came
 * out than went in: each is a finding. Status BC_OK, BC_TOO_FEW (fewer than 3 usable percent
 * readings), BC_NO_MEMORY.
 */
enum bc_status bc_boiloff_from_sample(const struct bc_sample *sample,
	const struct bc_conditions *conditions, struct bc_boiloff *boiloff,
	struct bc_strings *assumed, struct bc_findings *findings);
/* The same; with keep_all readings that do not belong are named and stay in use. */
enum bc_status bc_boiloff_from_readings(const struct bc_sample *sample,
	const struct bc_conditions *conditions, bool keep_all, struct bc_boiloff *boiloff,
	struct bc_strings *assumed, struct bc_findings *findings);
void bc_boiloff_release(struct bc_boiloff *boiloff);

/* The curve through IBP, percent readings and FBP in use; statuses of bc_curve_new. */
enum bc_status bc_boiloff_curve(const struct bc_boiloff *boiloff, struct bc_curve **curve);
/* All families fitted to the percent readings in use; statuses of bc_fit_all. */
enum bc_status bc_boiloff_fits(const struct bc_boiloff *boiloff, struct bc_fits *fits);

/* Findings about the readings alone: steps that do not belong, fast or slow rate, cracking, gaps,
 * too few readings, missing IBP, loss, condenser, thermometer and pressure that cannot be, ... */
enum bc_status bc_boiloff_findings(const struct bc_boiloff *boiloff, const struct bc_sample *sample,
	const struct bc_conditions *conditions, struct bc_findings *findings);

#endif
