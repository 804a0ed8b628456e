/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_SHARES_H
#define BC_FUEL_SHARES_H

#include <stddef.h>

#include "base/estimate.h"
#include "base/status.h"
#include "curve/points.h"

/* The partition of the charge by boiling range at 35, 180, 240, 350 degC (corrected). */
enum bc_share {
	BC_SHARE_LIGHT_END,
	BC_SHARE_GASOLINE,
	BC_SHARE_KEROSENE,
	BC_SHARE_DIESEL,
	BC_SHARE_HEAVY,
	BC_SHARE_RESIDUE,
	BC_SHARE_LOST,
	BC_SHARES
};
extern const char *const bc_share_keys[BC_SHARES];  /* "light_end_pct", ... */
extern const char *const bc_share_names[BC_SHARES]; /* for people */

struct bc_shares {
	struct bc_estimate pct[BC_SHARES]; /* values add up to 100 */
};
/*
 * bc_shares_read - the charge as shares by boiling range
 *
 * Given     reader
 * Returned  *shares [% of the charge]: values at least 0 that add up to 100, each within its bounds
 *           and the bounds within 0..100
 * Notes     1. the cuts are conventional: 35 degC (GHS category 1), 180 (gasoline), 240 (kerosene),
 *              350 degC (gas oil, customs); common practice
 *           2. what lies unread above the last reading counts as heavy, whatever a fit says; the
 *              residue is apart from it only when it is known
 *           3. below a first reading that is no IBP the fit answers, and where there is none half
 *              of what came before that reading
 */
void bc_shares_read(const struct bc_reader *reader, struct bc_shares *shares);

/*
 * bc_shares_part - the bare partition
 *
 * Given     over_pct  percent recovered at each of bc_share_cut_c; NaN: below a first reading that
 *           is no IBP, and no fit answers; first_pct, the first percent of the curve; residue and
 *           lost, percent of the charge
 * Returned  pct[BC_SHARES], at least 0; they add up to 100
 */
enum { BC_SHARE_CUTS = 4 };
extern const double bc_share_cut_c[BC_SHARE_CUTS];
void bc_shares_part(const double over_pct[BC_SHARE_CUTS], double first_pct, double residue_pct,
	double lost_pct, double pct[BC_SHARES]);

/* Published boiling ranges (standards-notes/published-ranges.csv); they overlap. */
struct bc_published_share {
	const char *name;
	const char *source;
	double from_c;
	double to_c;
	double share_pct; /* of the charge; NaN where the curve does not say, or the range goes on
			     beyond the last reading and no FBP was read */
};
extern const size_t bc_published_range_count;
/* i below bc_published_range_count. */
void bc_published_share_read(
	const struct bc_reader *reader, size_t i, struct bc_published_share *share);

#endif
