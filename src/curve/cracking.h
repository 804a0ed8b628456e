/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_CRACKING_H
#define BC_CURVE_CRACKING_H

/*
 * Above these the pot cracks the oil while the jar fills, and gas goes into the jar: no claim on
 * its flash, and no cut is planned beyond. Common practice; thermal limits depend on time.
 */
#define BC_POT_LIMIT_C 340.0
#define BC_HEAD_LIMIT_C 335.0 /* D86 basis */

#endif
