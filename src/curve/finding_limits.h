/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_FINDING_LIMITS_H
#define BC_CURVE_FINDING_LIMITS_H

/*
 * Every figure at which a finding about readings or oil is raised, with its reason; no other file of
 * curve/ and fuel/ holds one. What they do on measured curves, false and found, stands in
 * standards-notes/findings.csv and is measured by tests/bench/findings_study.py. Where a figure was
 * tuned, it was on one half of the sources.
 */

/* ---- a reading that does not belong (slip.c) */

/* Off the curve of the others; four times a cheap thermometer's own 95 % of 2 degC [degC]. */
#define BC_SLIP_LEAST_C 8.0
/* The same beside IBP or FBP, which scatter more (ASTM D86 precision, from memory) [degC]. */
#define BC_SLIP_EDGE_C 12.0
/* Against the median of what the others lie off; 6 medians are about 4 standard deviations. */
#define BC_SLIP_MEDIANS 6.0
/* The neighbours agree without it: it lies this many times further off than they; judgement. */
#define BC_SLIP_NEIGHBOURS 2.5
/* Of the step between its neighbours while it lies between them: a bend may be as sharp. */
#define BC_SLIP_SPAN_SHARE 0.30
/* Left out of one record at most, as a share of its readings; judgement. */
#define BC_SLIPS_SHARE 0.20
/* Where first drop and end stand on probability paper; judgement [%]. */
#define BC_SLIP_IBP_PCT 1.0
#define BC_SLIP_FBP_PCT 99.0
/* How near a repaired value comes: reading error of both, or this share of the step between the
 * neighbours [degC]. A tens slip fits anything within 5. */
#define BC_SLIP_NEAR_C 4.0
#define BC_SLIP_NEAR_SHARE 0.15
#define BC_SLIP_TENS_NEAR_C 6.0
#define BC_SLIP_TENS_HANDICAP_C 2.0
/* Two readings in each other's place: they fall by more than reading error [degC], and after the
 * exchange nothing near lies further off than this share of the fall; judgement. */
#define BC_SWAP_LEAST_C 6.0
#define BC_SWAP_SHARE 0.35

/* ---- order (order.c) */

/* A fall larger than this is no reading error; common practice [degC]. */
#define BC_FALL_C 3.0
/* Beyond this share it is not one slip among good readings; common practice. */
#define BC_FALLS_SHARE 0.15

#endif
