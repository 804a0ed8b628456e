/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_SIGNS_H
#define BC_REPORT_SIGNS_H

#include "base/text.h"

enum bc_sign { BC_SIGN_FLAME, BC_SIGN_HEALTH };

/*
 * A hazard sign of the GHS: a black figure on white in a red square that stands on its point,
 * side mm wide over its diagonal, its middle at x, y. Frame and figure as annex 1 of the GHS
 * describes them (flame: flammable; health hazard: aspiration, cancer), drawn for this program.
 */
void bc_sign_draw(enum bc_sign sign, double x, double y, double side, struct bc_text *svg);

#endif
