/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BOOK_FIGURES_H
#define BC_BOOK_FIGURES_H

#include "book/record.h"
#include "judgement/judgement.h"

struct bc_figures {
	struct bc_figure *items;
	size_t n;
	size_t capacity;
};

/* Every figure of a judgement that can be followed over time, under the keys of 'judge --json':
 * points (t10_c), properties (flash_c), ranges (diesel_pct), loss_pct, corrected_loss_pct,
 * residue_pct, pressure_kpa; also yield_pct (oil out per plastic in, by mass) and what was measured
 * (measured_flash_point). Only what has a value. BC_NO_MEMORY. Release after any status. */
enum bc_status bc_figures_from_judgement(
	const struct bc_judgement *judgement, struct bc_figures *figures);
void bc_figures_release(struct bc_figures *figures);

#endif
