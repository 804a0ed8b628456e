/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_UNIT_BOOK_SHELF_H
#define BC_UNIT_BOOK_SHELF_H

/* A book of its own for each test, and batches that were never boiled off. */
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "book/record.h"
#include "unit/unit.h"

static char shelf_folder[64];
static char shelf_path[96];
static struct bc_book shelf;
static struct bc_diagnostics shelf_said;

static int shelf_set_up(void **state)
{
	(void)state;
	snprintf(shelf_folder, sizeof shelf_folder, "/tmp/bc_book_XXXXXX");
	if (mkdtemp(shelf_folder) == NULL)
		return -1;
	snprintf(shelf_path, sizeof shelf_path, "%s/book.db", shelf_folder);
	bc_diagnostics_init(&shelf_said);
	return bc_book_create(shelf_path, &shelf_said, &shelf) == BC_OK ? 0 : -1;
}

static int shelf_tear_down(void **state)
{
	(void)state;
	bc_book_close(&shelf);
	bc_diagnostics_release(&shelf_said);
	unlink(shelf_path);
	return rmdir(shelf_folder);
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
