/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_UNIT_BOOK_SHELF_H
#define BC_UNIT_BOOK_SHELF_H

/* A book of its own for each test, and batches that were never boiled off. */
#include "unit/book/shed.h"

static struct shed shelf_shed;
#define shelf (shelf_shed.book)

static int shelf_set_up(void **state)
{
	(void)state;
	shed_open_new(&shelf_shed);
	return 0;
}

static int shelf_tear_down(void **state)
{
	(void)state;
	shed_remove(&shelf_shed);
	return 0;
}

/* A batch with this file, day, store day and low bound of the flash. */
static long long shelf_batch(const char *bytes, const char *date, const char *drawn, double flash_c)
{
	const struct bc_figure figures[] = {
		{"flash_c", isnan(flash_c) ? 37.9 : flash_c + 7.3, flash_c, 98.1},
		{"pressure_kpa", 94.1, (double)NAN, (double)NAN},
		{"density15_kgm3", 804.7, 801.2, 808.2},
		{"t50_c", 241.3, 239.8, 242.8},
	};
	struct bc_place place;
	struct bc_entry entry = {.file = "f.csv",
		.bytes = bytes,
		.n = strlen(bytes),
		.name = "Shed",
		.date = date,
		.drawn = drawn,
		.history = "rerun",
		.program = "0",
		.judgement = "{}",
		.word = "usable",
		.basis = {"limits", NULL, NULL, "{}"},
		.figures = figures,
		.n_figures = sizeof figures / sizeof figures[0]};
	assert_int_equal(bc_book_add(&shelf, &entry, &place), BC_OK);
	return place.batch;
}

#endif
