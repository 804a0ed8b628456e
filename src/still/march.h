/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_STILL_MARCH_H
#define BC_STILL_MARCH_H

#include "still/column.h"
#include "still/k_table.h"
#include "still/stages.h"

/* What is in the pot: volumes of the components, and volume of a mole of each (any units). */
struct bc_charge {
	size_t n;
	double volume[BC_SLICES_MAX]; /* adds up to 1 */
	double molar_volume[BC_SLICES_MAX];
};

struct bc_still_work {
	struct bc_k_table table;
	struct bc_stages stages;
	struct bc_charge charge;
};

/*
 * bc_march - distils work->charge with work->table
 *
 * Returned  the nodes of *run; run->charge and run->column are the caller's
 * Status    as bc_column_run
 */
enum bc_status bc_march(struct bc_still_work *work, const struct bc_column *column,
	const struct bc_run_options *options, struct bc_run *run);

#endif
