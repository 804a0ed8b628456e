/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_SLIP_H
#define BC_CURVE_SLIP_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "curve/boiloff.h"

/* Readings that do not belong among their neighbours, and how they may have been misread; inside
 * curve/ only. */

#define BC_SLIP_NAME_SIZE 160

/*
 * bc_slip_name - how a reading may have been misread or miswritten
 *
 * Given     read_c      as it stands in the record [degC]
 *           expected_c  what this thermometer should have shown by the neighbours [degC]
 *           before_c, after_c  the readings beside it; NaN where there is none
 *           near_c      how near a repaired value must come to expected_c [degC]
 * Returned  in text a clause such as "213.0 C, with two digits swapped, would fit"; where no slip
 *           explains it "about 212 C would fit"
 * Notes     swapped digits, degF among degC and the reverse, a hundreds slip, a lost or doubled
 *           decimal, the neighbour's reading written twice, a tens slip (within 6 degC alone: any
 *           value has one within 5)
 */
void bc_slip_name(double read_c, double expected_c, double before_c, double after_c, double near_c,
	char text[BC_SLIP_NAME_SIZE]);

/*
 * bc_slips_settle - readings left out of the curve because they cannot belong to it
 *
 * Each percent reading is held against the curve through the others (cubic on probability paper,
 * never beyond the two beside it). It is left out ("reading-out-of-line") when it lies off that
 * by the amounts of finding_limits.h: against the median of what the others lie off, and against
 * what its two neighbours lie off once it is gone: they must agree without it. A
 * low first reading and the next that is low with it are a low front, and kept. Two readings that
 * fit when they change places are both left out ("readings-swapped"). At most two findings and a
 * fifth of the readings; from the second on `usable` is forbidden. With keep_all they are named and
 * stay in use. Status BC_OK, BC_NO_MEMORY.
 */
enum bc_status bc_slips_settle(struct bc_boiloff *boiloff, const struct bc_conditions *conditions,
	bool keep_all, struct bc_findings *findings);

#endif
