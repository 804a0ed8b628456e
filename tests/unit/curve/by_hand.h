/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_UNIT_CURVE_BY_HAND_H
#define BC_UNIT_CURVE_BY_HAND_H

/* Samples without a file: nothing stated but 100 mL, readings in percent and degC. */
#include <string.h>

#include "curve/points.h"
#include "unit/unit.h"

#define IBP(temp)                                                                                  \
	{                                                                                          \
		BC_READING_IBP, NAN, (temp), NAN, NAN, NULL, 1                                     \
	}
#define FBP(temp)                                                                                  \
	{                                                                                          \
		BC_READING_FBP, NAN, (temp), NAN, NAN, NULL, 99                                    \
	}
#define DRY(temp)                                                                                  \
	{                                                                                          \
		BC_READING_DRY, NAN, (temp), NAN, NAN, NULL, 98                                    \
	}
#define AT(amount, temp)                                                                           \
	{                                                                                          \
		BC_READING_AMOUNT, (amount), (temp), NAN, NAN, NULL, 0                             \
	}
#define TIMED(amount, temp, pot, time)                                                             \
	{                                                                                          \
		BC_READING_AMOUNT, (amount), (temp), (pot), (time), NULL, 0                        \
	}

static inline struct bc_sample sample_by_hand(struct bc_reading *readings, size_t n)
{
	for (size_t i = 0; i < n; i++)
		readings[i].line = i + 1;
	return (struct bc_sample){
		.charge_ml = 100.0,
		.charge_g = NAN,
		.distillate_g = NAN,
		.residue_g = NAN,
		.residue_ml = NAN,
		.loss_ml = NAN,
		.water_ml = NAN,
		.residue_pct = NAN,
		.loss_pct = NAN,
		.water_pct = NAN,
		.condenser_c = NAN,
		.density_kgm3 = NAN,
		.density_step_kgm3 = NAN,
		.density_temp_c = NAN,
		.barometer_kpa = NAN,
		.altitude_m = NAN,
		.water_boils_c = NAN,
		.immersion_c = NAN,
		.ice_c = NAN,
		.steam_c = NAN,
		.reading_error_c = NAN,
		.volume_error_ml = NAN,
		.rest_error_ml = NAN,
		.pressure_error_kpa = NAN,
		.density_error_kgm3 = NAN,
		.column_stages = NAN,
		.column_reflux = NAN,
		.readings = readings,
		.n_readings = n,
	};
}

/* Everything from a sample to its reported points. */
struct worked {
	struct bc_conditions conditions;
	struct bc_strings assumed;
	struct bc_findings findings;
	struct bc_boiloff boiloff;
	struct bc_curve *curve;
	struct bc_fits fits;
	struct bc_reader reader;
	struct bc_points points;
};

static inline void work_release(struct worked *w)
{
	bc_curve_free(w->curve);
	bc_boiloff_release(&w->boiloff);
	bc_findings_release(&w->findings);
	bc_strings_release(&w->assumed);
}

static inline enum bc_status work(const struct bc_sample *sample, struct worked *w)
{
	*w = (struct worked){0};
	bc_strings_init(&w->assumed);
	bc_findings_init(&w->findings);
	enum bc_status status = bc_conditions_from_sample(sample, &w->conditions, &w->assumed);
	if (!bc_failed(status))
		status = bc_boiloff_from_sample(
			sample, &w->conditions, &w->boiloff, &w->assumed, &w->findings);
	if (!bc_failed(status))
		status = bc_boiloff_findings(&w->boiloff, sample, &w->conditions, &w->findings);
	if (!bc_failed(status))
		status = bc_boiloff_curve(&w->boiloff, &w->curve);
	if (bc_failed(status))
		return status;
	enum bc_status fitted = bc_boiloff_fits(&w->boiloff, &w->fits);
	if (fitted == BC_NO_MEMORY)
		return fitted;
	w->reader = (struct bc_reader){&w->boiloff, &w->conditions, w->curve,
		bc_failed(fitted) ? NULL : &w->fits.items[0]};
	bc_points_read(&w->reader, &w->points);
	return status;
}

static inline int says(const struct bc_strings *assumed, const char *part)
{
	for (size_t i = 0; i < assumed->n; i++) {
		if (strstr(assumed->items[i], part))
			return 1;
	}
	return 0;
}

#endif
