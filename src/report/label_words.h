/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_LABEL_WORDS_H
#define BC_REPORT_LABEL_WORDS_H

#include "base/text.h"
#include "curve/finding.h"
#include "sample/sample.h"

/* What the label of a can says of tests, from what was measured of the oil. */

/* "benzene 5 % measured", or that it was not tested. */
void bc_label_benzene(const struct bc_sample *sample, struct bc_text *line);
/* "Not tested: dissolved gas, water, ..."; with figures, what was measured of these stands first.
 */
void bc_label_tests(const struct bc_sample *sample, bool figures, struct bc_text *line);
/* A danger as short as it can be told: its message up to the first reason behind it. */
void bc_label_danger(const struct bc_finding *finding, struct bc_text *line);

#endif
