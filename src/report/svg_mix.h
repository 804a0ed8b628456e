/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_SVG_MIX_H
#define BC_REPORT_SVG_MIX_H

#include "base/text.h"
#include "judgement/mixing.h"

/* Flash of a mixture against the share of one part, with its low bound and the limit. */
void bc_svg_mix(const struct bc_mixing *mixing, struct bc_text *svg);

#endif
