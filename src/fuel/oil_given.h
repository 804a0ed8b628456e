/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_OIL_GIVEN_H
#define BC_FUEL_OIL_GIVEN_H

#include "fuel/oil_points.h"
#include "fuel/properties.h"

/* True boiling points of an oil that were found otherwise than by conversion of its readings. */
struct bc_oil_given {
	struct bc_oil_input input;   /* but for the density */
	struct bc_oil_errors errors; /* but for the density */
	bool beyond_readings;        /* as in struct bc_oil */
	const char *no_claim_why; /* they say too little of the first drops for a flash; or NULL */
};

/* As bc_oil_from_boiloff, with these points in place of those of the boil-off. */
enum bc_status bc_oil_from_given(const struct bc_sample *sample,
	const struct bc_conditions *conditions, const struct bc_boiloff *boiloff,
	const struct bc_reader *reader, const struct bc_points *points,
	const struct bc_oil_given *given, struct bc_oil *oil, struct bc_strings *assumed,
	struct bc_findings *findings);

#endif
