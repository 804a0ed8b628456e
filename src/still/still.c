/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The still that is meant where nobody says which. */
#include "still/still.h"

#include <math.h>

const char *const bc_still_source_texts[] = {"stated", "estimated", "calibrated"};

struct bc_still bc_still_default(void)
{
	return (struct bc_still){.name = "default",
		.column = {2.0, 1.0, NAN, NAN},
		.carry_pct = 1.0,
		.carry_half_width_pct = NAN,
		.plates_low = NAN,
		.plates_high = NAN};
}
