/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_COMPOUND_H
#define BC_FUEL_COMPOUND_H

#include <stdbool.h>

#include "curve/boiloff.h"
#include "curve/finding.h"
#include "fuel/feed.h"
#include "fuel/properties.h"

/*
 * bc_compound_findings - a level stretch, and what it may be
 *
 * Given     boiloff, feed, oil (density, T50)
 * Returned  "one-compound", which names a compound of standards-notes/shelf-compounds.csv only
 * where the feed names its plastic and a measured density does not contradict it, or where the feed
 * is silent and a measured density supports it; "styrenic-oil" where that is styrene, or where an
 * oil of polystyrene weighs and boils like styrene without such a stretch Notes     a stretch of
 * water is "water-shelf" and never seen here: its readings are not in use
 */
void bc_compound_findings(const struct bc_boiloff *boiloff, const struct bc_feed *feed,
	const struct bc_oil *oil, double t50_c, struct bc_findings *findings);

#endif
