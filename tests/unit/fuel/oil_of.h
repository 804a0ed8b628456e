/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_UNIT_OIL_OF_H
#define BC_UNIT_OIL_OF_H

/* A sample file taken through the rooms up to fuel/, for tests of what comes out there. */
#include <string.h>

#include "curve/boiloff.h"
#include "curve/points.h"
#include "fuel/properties.h"
#include "fuel/shares.h"
#include "unit/unit.h"

struct bench {
	struct bc_sample *sample;
	struct bc_conditions conditions;
	struct bc_boiloff boiloff;
	struct bc_strings assumed;
	struct bc_findings findings;
	struct bc_curve *curve;
	struct bc_reader reader;
	struct bc_points points;
	struct bc_oil oil;
	struct bc_shares shares;
};

static inline void bench_up(struct bench *bench, const char *text)
{
	double pct[64];
	double temp_c[64];
	size_t n = 0;
	memset(bench, 0, sizeof *bench);
	bc_strings_init(&bench->assumed);
	bc_findings_init(&bench->findings);
	assert_int_equal(bc_sample_read(text, strlen(text), "test", NULL, &bench->sample), BC_OK);
	assert_int_equal(
		bc_conditions_from_sample(bench->sample, &bench->conditions, &bench->assumed),
		BC_OK);
	assert_int_equal(bc_boiloff_from_sample(bench->sample, &bench->conditions, &bench->boiloff,
				 &bench->assumed, &bench->findings),
		BC_OK);
	for (size_t i = 0; i < bench->boiloff.n; i++) {
		const struct bc_point *point = &bench->boiloff.points[i];
		if (!point->used || (n > 0 && point->recovered_pct <= pct[n - 1]))
			continue;
		pct[n] = point->recovered_pct;
		temp_c[n++] = point->corrected_c;
	}
	assert_true(bc_curve_new(pct, temp_c, n, &bench->curve) >= 0);
	bench->reader = (struct bc_reader){&bench->boiloff, &bench->conditions, bench->curve, NULL};
	bc_points_read(&bench->reader, &bench->points);
	assert_int_equal(bc_oil_from_boiloff(bench->sample, &bench->conditions, &bench->boiloff,
				 &bench->reader, &bench->points, &bench->oil, &bench->assumed,
				 &bench->findings),
		BC_OK);
	bc_shares_read(&bench->reader, &bench->shares);
}

static inline void bench_down(struct bench *bench)
{
	bc_curve_free(bench->curve);
	bc_boiloff_release(&bench->boiloff);
	bc_sample_free(bench->sample);
	bc_findings_release(&bench->findings);
	bc_strings_release(&bench->assumed);
}

#endif
