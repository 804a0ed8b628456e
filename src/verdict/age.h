/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_VERDICT_AGE_H
#define BC_VERDICT_AGE_H

#include "sample/sample.h"

enum bc_age { BC_AGE_UNKNOWN, BC_AGE_FRESH, BC_AGE_OLD };

/* Whether an oil had stood for more than three months (92 days) when it was boiled off, by its
 * dates in the form 2026-10-03: `drawn` or `stored since` against `date`. A store date that cannot
 * be held against another counts as old; without any store date it is unknown. */
enum bc_age bc_age_of(const struct bc_sample *sample);

/* When a stored oil is to be looked at again, as "2027-01-03": three months after it was drawn,
 * else after its date; "" when neither is such a date. Returns retest. */
#define BC_DATE_SIZE 11
const char *bc_retest_date(const struct bc_sample *sample, char retest[BC_DATE_SIZE]);

#endif
