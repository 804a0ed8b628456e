/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The flask of a boil-off as the poor still that it is, and what its thermometer would show. */
#include "still/flask.h"

#include <math.h>

#include "curve/conditions.h"
#include "still/search.h"

#define FLASK_PLATES 1.75
#define NORMAL_KPA 101.325

struct bc_column bc_flask_column(void)
{
	return (struct bc_column){
		.stages = NAN,
		.reflux = NAN,
		.effective_plates = FLASK_PLATES,
		.pressure_kpa = NORMAL_KPA,
	};
}

enum bc_status bc_simulated_boiloff(const struct bc_slices *slices,
	const struct bc_column *apparatus, const double *pct, size_t n, double *corrected_c,
	struct bc_still_work *work, struct bc_run *run)
{
	double before = -1.0;
	for (size_t i = 0; i < n; i++) {
		corrected_c[i] = NAN;
		if (!(pct[i] > before && pct[i] >= 0.0 && pct[i] <= 100.0 * BC_RUN_STOP_MAX))
			return BC_BAD_DOMAIN;
		before = pct[i];
	}
	if (n == 0)
		return BC_BAD_DOMAIN;
	struct bc_run_options options = {
		.stop_frac = fmax(pct[n - 1] / 100.0, 0.01),
		.pot_limit_c = INFINITY,
		.steps = BC_STEPS_NORMAL,
	};
	enum bc_status status = bc_column_run(slices, apparatus, &options, work, run);
	if (bc_failed(status))
		return status;
	for (size_t i = 0; i < n; i++)
		corrected_c[i] = bc_corrected_from_true(bc_run_at(run, pct[i] / 100.0).head_c);
	return BC_OK;
}

enum bc_status bc_simulated_flask_points(const struct bc_slices *slices,
	const double own_c[BC_POINTS], struct bc_still_work *work, struct bc_run *run,
	struct bc_points *points)
{
	const struct bc_column flask = bc_flask_column();
	const size_t n = BC_AT_FBP - BC_AT_T5;
	double inner_c[BC_POINTS];
	enum bc_status status = bc_flask_points(slices, points);
	if (!bc_failed(status))
		status = bc_simulated_boiloff(
			slices, &flask, bc_point_pct + BC_AT_T5, n, inner_c, work, run);
	if (bc_failed(status))
		return status;
	struct bc_estimate *at = points->at;
	for (size_t i = BC_AT_T5; i < BC_AT_FBP; i++)
		at[i] = bc_estimate_new(inner_c[i - BC_AT_T5], BC_FLASK_POINT_C, BC_ESTIMATED);
	at[BC_AT_IBP].value = fmin(at[BC_AT_IBP].value, at[BC_AT_T5].value);
	at[BC_AT_FBP].value = fmax(at[BC_AT_FBP].value, at[BC_AT_T95].value);
	for (size_t i = 0; i < BC_POINTS; i++) {
		double half_width = i == BC_AT_IBP || i == BC_AT_FBP
					    ? 0.5 * (at[i].high - at[i].low)
					    : BC_FLASK_POINT_C;
		double own = isfinite(own_c[i]) ? own_c[i] : 0.0;
		at[i] = bc_estimate_new(at[i].value, hypot(half_width, own), BC_ESTIMATED);
	}
	bc_points_fill_shares(points);
	return BC_OK;
}
