/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_CONTROL_CAUSE_H
#define BC_JUDGEMENT_CONTROL_CAUSE_H

#include "judgement/control.h"

/* Which pattern the changes of control->points show, how large, and what to do; only where the word
 * is not BC_CONTROL_IN. */
void bc_control_find_cause(struct bc_control *control);

#endif
