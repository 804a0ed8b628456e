/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The curve so far as a few lines of characters: readings as dots, the line between them fainter.
 */
#include "report/sketch.h"

#include <math.h>
#include <string.h>

#define LEFT 6 /* "  131 " */
enum { ROWS_MAX = 24 };

enum mark { EMPTY, PATH, DOT };

struct grid {
	unsigned char at[ROWS_MAX][BC_SKETCH_COLUMNS_MAX];
	size_t rows;
	size_t columns;
	double low;
	double high;
};

/* A span that is never nothing, in whole tens. */
static void set_span(struct grid *grid, const double *head, size_t n)
{
	double low = head[0];
	double high = head[0];
	for (size_t i = 1; i < n; i++) {
		low = fmin(low, head[i]);
		high = fmax(high, head[i]);
	}
	grid->low = 10.0 * floor(low / 10.0);
	grid->high = fmax(10.0 * ceil(high / 10.0), grid->low + 20.0);
}

static void put(struct grid *grid, double pct, double head, enum mark mark)
{
	double x = pct / 100.0 * (double)(grid->columns - 1);
	double y = (head - grid->low) / (grid->high - grid->low) * (double)(grid->rows - 1);
	if (!(x >= 0.0 && x <= (double)(grid->columns - 1)) ||
		!(y >= 0.0 && y <= (double)(grid->rows - 1)))
		return;
	unsigned char *cell = &grid->at[grid->rows - 1 - (size_t)lround(y)][(size_t)lround(x)];
	if (*cell < mark)
		*cell = (unsigned char)mark;
}

static void draw(struct grid *grid, const double *pct, const double *head, size_t n)
{
	for (size_t i = 0; i + 1 < n; i++) {
		size_t steps = 2 * (grid->columns + grid->rows);
		for (size_t k = 0; k <= steps; k++) {
			double share = (double)k / (double)steps;
			put(grid, pct[i] + share * (pct[i + 1] - pct[i]),
				head[i] + share * (head[i + 1] - head[i]), PATH);
		}
	}
	for (size_t i = 0; i < n; i++)
		put(grid, pct[i], head[i], DOT);
}

static void write_row(const struct grid *grid, size_t row, bool plain, struct bc_text *text)
{
	static const char *const plain_marks[] = {" ", ".", "*"};
	static const char *const marks[] = {" ", "\xC2\xB7", "\xE2\x97\x8F"};
	size_t last = grid->columns;
	while (last > 0 && grid->at[row][last - 1] == EMPTY)
		last--;
	if (row == 0 || row + 1 == grid->rows)
		bc_text_printf(text, "%5.0f ", row == 0 ? grid->high : grid->low);
	else
		bc_text_printf(text, "%*s", LEFT, "");
	bc_text_append(text, plain ? "|" : "\xE2\x94\x82");
	for (size_t i = 0; i < last; i++)
		bc_text_append(text, (plain ? plain_marks : marks)[grid->at[row][i]]);
	bc_text_append(text, "\n");
}

static void write_scale(const struct grid *grid, bool plain, struct bc_text *text)
{
	bc_text_printf(text, "%*s%s", LEFT, "", plain ? "+" : "\xE2\x94\x94");
	size_t half = (grid->columns - 1) / 2;
	for (size_t i = 0; i < grid->columns; i++) {
		if (i == half && i + 4 < grid->columns) {
			bc_text_append(text, "50");
			i++;
		} else if (i + 3 == grid->columns) {
			bc_text_append(text, "100");
			break;
		} else {
			bc_text_append(text, plain ? "-" : "\xE2\x94\x80");
		}
	}
	bc_text_append(text, "\n");
}

void bc_report_sketch(const struct bc_sketch *sketch, const double *pct, const double *head,
	size_t n, struct bc_text *text)
{
	struct grid grid;
	if (n == 0 || sketch->rows < BC_SKETCH_ROWS_MIN || sketch->columns < BC_SKETCH_COLUMNS_MIN)
		return;
	memset(&grid, 0, sizeof grid);
	grid.rows = sketch->rows - 1 < ROWS_MAX ? sketch->rows - 1 : ROWS_MAX;
	grid.columns = sketch->columns - LEFT - 2;
	if (grid.columns > BC_SKETCH_COLUMNS_MAX - LEFT)
		grid.columns = BC_SKETCH_COLUMNS_MAX - LEFT;
	set_span(&grid, head, n);
	draw(&grid, pct, head, n);
	for (size_t row = 0; row < grid.rows; row++)
		write_row(&grid, row, sketch->plain, text);
	write_scale(&grid, sketch->plain, text);
}
