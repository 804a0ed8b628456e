/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_ORDER_H
#define BC_CURVE_ORDER_H

#include "curve/boiloff.h"

/*
 * bc_order_settle - temperatures that fall, put right where one reading is to blame; inside curve/
 *
 * The readings in use are held against the longest chain of them in which none lies more than 3
 * degC below the one before. One reading outside it, among good neighbours, is no longer used
 * ("reading-out-of-line"); with keep_all it is named and stays. Those that slip.h has named are
 * left aside. A fall at the end ends the curve ("temperature-falls"). More than one reading
 * outside, or more than 15 % of them, stay in use and forbid `usable`
 * ("readings-disordered"): nobody can tell which are right. An IBP above the first reading is not
 * used ("ibp-out-of-order"). Status BC_OK, BC_NO_MEMORY.
 */
enum bc_status bc_order_settle(
	struct bc_boiloff *boiloff, bool keep_all, struct bc_findings *findings);

#endif
