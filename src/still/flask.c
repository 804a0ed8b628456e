/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The flask of a boil-off as the poor still that it is, and what its thermometer would show. */
#include "still/flask.h"

#include <math.h>

#include "curve/conditions.h"

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
