/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_CROSS_FINDINGS_H
#define BC_FUEL_CROSS_FINDINGS_H

#include "curve/boiloff.h"
#include "curve/finding.h"
#include "fuel/feed.h"
#include "fuel/properties.h"
#include "sample/sample.h"

/* Findings from holding the record against the oil that it gives: an IBP far below the first
 * readings, a measured density unlike the curve, a condenser too cold for a waxy tail. Each is left
 * out where another finding says the same already. t10_c, t50_c: D86 basis. */
void bc_cross_findings(const struct bc_sample *sample, const struct bc_boiloff *boiloff,
	const struct bc_feed *feed, const struct bc_oil *oil, double t10_c, double t50_c,
	struct bc_findings *findings);

#endif
