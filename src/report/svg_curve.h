/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_SVG_CURVE_H
#define BC_REPORT_SVG_CURVE_H

#include "base/text.h"
#include "judgement/judgement.h"

/* The boiling curve with its band, readings, ranges, limits of the grade and turns of the tap. */
void bc_svg_curve(const struct bc_judgement *judgement, struct bc_text *svg);

#endif
