/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_STILL_K_TABLE_H
#define BC_STILL_K_TABLE_H

#include <stddef.h>

#include "base/status.h"
#include "fuel/slices.h"

/*
 * K = y/x of every component against temperature at one pressure: cubic Hermite between rows.
 * Rows are BC_K_ROW_K apart (wider where asked for, or where the range would not fit), each holding
 * first all K, then all slopes times the distance of the rows.
 */
#define BC_K_ROWS_MAX 400
#define BC_K_ROW_K 2.0
struct bc_k_table {
	size_t n; /* components */
	size_t rows;
	double low_k; /* of the first and the last row */
	double high_k;
	double step_k;
	double value[BC_K_ROWS_MAX][2][BC_SLICES_MAX];
};

/* K and dK/dT of all components at a temperature, for tables that are not made of slices. */
typedef void bc_k_function(const void *context, double temp_k, double *k, double *slope);

/*
 * bc_k_table_fill - a table from any K that depends on temperature alone
 *
 * Given     n components, 1..BC_SLICES_MAX; the range [K] that no stage may leave; row_k between
 *           rows; a function
 * Status    BC_BAD_DOMAIN  a bad n, range or row_k, or a K that is not finite and positive
 */
enum bc_status bc_k_table_fill(struct bc_k_table *table, size_t n, double low_k, double high_k,
	double row_k, bc_k_function *function, const void *context);

/*
 * bc_k_table_of_slices - Raoult's law over slices, Lee-Kesler vapour pressures
 *
 * Given     slices; pressure_kpa absolute; row_k between rows
 * Returned  *table, from just below where the lightest slice boils to just above where the heaviest
 *           does: no bubble or dew point of the oil or of any part of it lies outside
 * Status    BC_BAD_DOMAIN  no slices, pressure not positive, or a slice that does not boil between
 *                          120 and 1000 K at it
 * Notes     1. within 5e-6 of the formula, relative, where K is above 1e-6; within 5e-5 anywhere
 *              (measured on a wide oil) with rows BC_K_ROW_K apart; the error goes with the fourth
 * power
 *           2. above 1.3 of its critical temperature a slice keeps the K it has there
 * Source    Lee & Kesler, AIChE J. 21 (1975); functions seen in a public copy: fuel/component.h
 */
enum bc_status bc_k_table_of_slices(const struct bc_slices *slices, double pressure_kpa,
	double row_k, struct bc_k_table *table);

/* Where a slice boils at a pressure [K], to 0.01; NaN outside 120..1000 K. */
double bc_slice_boils_k(const struct bc_slice *slice, double pressure_bar);

/* K and dK/dT of all components; a temperature outside the table is taken as its nearest end. */
void bc_k_table_at(const struct bc_k_table *table, double temp_k, double *k, double *slope);

#endif
