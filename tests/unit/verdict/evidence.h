/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_UNIT_VERDICT_EVIDENCE_H
#define BC_UNIT_VERDICT_EVIDENCE_H

/* An oil made by hand: every figure known, no curve behind it. */
#include <string.h>

#include "unit/unit.h"
#include "verdict/rule.h"

#define HEADER                                                                                     \
	"grade,standard,edition,property,basis,min,max,strict,unit,method,role,in_force,judged,"   \
	"seen,note\n"

struct by_hand {
	struct bc_points points;
	struct bc_oil oil;
	struct bc_boiloff boiloff;
	struct bc_sample sample;
	struct bc_measured measured[4];
	struct bc_evidence evidence;
};

/* A heating oil: 201 to 341 degC, flash 71.3 within 9.1, 808.3 kg/m3, 2.43 mm2/s. */
static inline void make_by_hand(struct by_hand *made)
{
	static const double at_c[BC_POINTS] = {201.3, 214.1, 224.7, 238.2, 248.9, 258.3, 267.1,
		276.4, 286.2, 298.7, 316.8, 329.3, 341.2};
	*made = (struct by_hand){0};
	for (size_t i = 0; i < BC_POINTS; i++)
		made->points.at[i] = bc_estimate_new(at_c[i], 4.1, BC_ESTIMATED);
	for (size_t i = 0; i < BC_PROPERTIES; i++)
		made->oil.property[i] = bc_estimate_absent();
	made->oil.property[BC_FLASH] = bc_estimate_new(71.3, 9.1, BC_ESTIMATED);
	made->oil.property[BC_DENSITY15] = bc_estimate_new(808.3, 1.7, BC_MEASURED);
	made->oil.property[BC_VISC40] = bc_estimate_new(2.43, 0.37, BC_ESTIMATED);
	made->oil.flash_claim = true;
	made->oil.flash_low_at_site_c = 60.4;
	made->boiloff.ibp_c = 201.3;
	made->sample.measured = made->measured;
	made->evidence = (struct bc_evidence){.points = &made->points,
		.oil = &made->oil,
		.boiloff = &made->boiloff,
		.sample = &made->sample};
}

static inline struct bc_limits *table_of(const char *rows)
{
	char text[4096];
	struct bc_limits *limits = NULL;
	snprintf(text, sizeof text, "%s%s", HEADER, rows);
	assert_int_equal(bc_limits_read(text, strlen(text), "t", NULL, &limits), BC_OK);
	return limits;
}

static inline void measure(struct by_hand *made, const char *property, double value)
{
	made->measured[made->sample.n_measured++] =
		(struct bc_measured){.property = property, .value = value, .temp_c = NAN};
}

#endif
