/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_STALL_H
#define BC_CURVE_STALL_H

#include "curve/boiloff.h"

/* A head that creeps at the hot end of the run though a curve gets steeper there
 * ("temperature-stalls"); inside curve/ only. Nothing where a fall or too hot a head is said
 * already. Figures: finding_limits.h. */
void bc_find_stall(const struct bc_boiloff *boiloff, struct bc_findings *findings);

#endif
