/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_OIL_FINDINGS_H
#define BC_FUEL_OIL_FINDINGS_H

#include "curve/finding.h"
#include "curve/points.h"
#include "fuel/feed.h"
#include "fuel/properties.h"

/* Findings about the oil itself: light ends, wide, waxy, flash routes apart, density against feed
 * and between standards, conversion outside its range. d86_c at bc_tbp_point_pct. */
void bc_oil_findings(const struct bc_oil *oil, const double d86_c[BC_TBP_POINTS],
	const struct bc_feed *feed, const struct bc_reader *reader, struct bc_findings *findings);

#endif
