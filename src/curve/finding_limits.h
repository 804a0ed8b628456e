/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_FINDING_LIMITS_H
#define BC_CURVE_FINDING_LIMITS_H

/*
 * The figures at which findings about the readings, and about record against oil, are raised, each
 * with its reason; those about the computed oil alone stand in fuel/oil_findings.c. How they fare
 * on measured curves stands in standards-notes/findings.csv, written by
 * tests/bench/findings_study.py. Those of slip.c were tuned on D86-type curves; the curves by other
 * methods were seen when the last of them was chosen.
 */

/* ---- a reading that does not belong (slip.c) */

/* Off the curve of the others; four times a cheap thermometer's own 95 % of 2 degC [degC]. */
#define BC_SLIP_LEAST_C 8.0
/* The same beside IBP or FBP: twice their reproducibility, 7.2 degC (ASTM D86, group 1, manual;
 * from memory). */
#define BC_SLIP_EDGE_C 15.0
/* Against the median of what the three on each side lie off: 3 medians are 2 standard deviations.
 */
#define BC_SLIP_MEDIANS 3.0
#define BC_SLIP_REACH 3
/* The neighbours agree without it: it lies this many times further off than they; judgement. */
#define BC_SLIP_NEIGHBOURS 2.0
/* Of the step between its neighbours while it lies between them: a bend may be as sharp, more so at
 * the ends of a curve. */
#define BC_SLIP_SPAN_SHARE 0.10
#define BC_SLIP_EDGE_SPAN_SHARE 0.30
/* Off the lines of the two readings on either side as well, by this share; judgement. */
#define BC_SLIP_SIDE_SHARE 0.4
/* A low front, not a slip: the first reading lies this share as far below the readings behind as
 * the next does; judgement. */
#define BC_SLIP_FIRST_SHARE 0.5
/* A fall at the end, not a slip before it: the next reading rises less than this share of what the
 * two before lead to; judgement. */
#define BC_SLIP_FALL_SHARE 0.6
/* Left out of one record at most: beyond that nobody can tell which are right; judgement. */
#define BC_SLIPS_SHARE 0.20
#define BC_SLIPS_MAX 2
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

/* ---- a reading that looks wrong but stays in use (reading_findings.c) */

/* Off its neighbours on probability paper, all three: degrees, medians, share of the step between
 * them. Tuned on measured D86 curves so that none of them raises it. */
#define BC_JUMP_C 10.0
#define BC_JUMP_MEDIANS 6.0
#define BC_JUMP_SPAN_SHARE 0.30
#define BC_JUMP_FALL_C BC_FALL_C
#define BC_JUMP_READINGS_MIN 5

/* ---- the record (reading_findings.c, boiloff.c) */

/* Fewer decide nothing. */
#define BC_READINGS_MIN 5
/* Neighbouring readings further apart leave the curve between them open; common practice [%]. */
#define BC_GAP_PCT 30.0
#define BC_GAP_WIDE_PCT 50.0
/* No oil comes over hotter at the pressure of the air without cracking; degF among degC is
 * likelier; common practice [degC, observed]. */
#define BC_TOO_HOT_C 400.0
/* A gap that begins before the first of these percents and ends behind the second leaves the front,
 * which decides the flash, to two points; judgement. */
#define BC_GAP_FRONT_FROM_PCT 5.0
#define BC_GAP_FRONT_TO_PCT 20.0
/* A low reading that does not belong, up to here, contradicts the IBP as much as the IBP it;
 * judgement. */
#define BC_SLIP_FRONT_PCT 10.0
/* Half of the finest mark of a receiver, on readings, residue and loss together; common practice.
 */
#define BC_BALANCE_PCT 0.5
/* What may be missing where no end point was read: one step of 10 % that nobody read; judgement. */
#define BC_BALANCE_SHORT_PCT 12.0
/* More on the balance afterwards than before, and two densities of one oil; common practice [%]. */
#define BC_WEIGHED_GAIN_PCT 0.5
#define BC_DENSITIES_APART_PCT 2.0
/* Beyond it the receiver or joints lose vapour; below that IBP it is in the nature of the oil;
 * common practice. */
#define BC_LOSS_LARGE_PCT 4.0
#define BC_LOSS_LIGHT_IBP_C 50.0
/* "Appreciable residue" is outside the scope of ASTM D86, which gives no figure: a word from 5 %, a
 * warning from 10 % of a heavy oil; common practice, judgement. */
#define BC_RESIDUE_LARGE_PCT 5.0
#define BC_SCOPE_RESIDUE_PCT 10.0

/* ---- heat and end */

/* A head so far above the limit for cuts means that the pot passed its own for long; 370 degC is
 * the customary end of boiling at atmospheric pressure, common practice [degC]. */
#define BC_CRACKING_HEAD_C 370.0
/* ASTM D86 asks for 4 to 5 mL/min; half and about double that still gives a curve, common practice.
 */
#define BC_RATE_LOW_ML_MIN 2.0
#define BC_RATE_HIGH_ML_MIN 8.0
/* A head that creeps at the end of the run: its last two steps rise by no more than this share of
 * the median step, both per percent, late and hot enough to crack; an end point well above it says
 * that it went on. A curve gets steeper at its end, so judgement. */
#define BC_STALL_SHARE 0.20
#define BC_STALL_FROM_PCT 70.0
#define BC_STALL_FROM_C 280.0
#define BC_STALL_FBP_C 5.0

/* ---- condenser, thermometer, pressure */

/* Light vapour passes a condenser this warm, the lightest a cooler one; common practice [degC]. */
#define BC_CONDENSER_HOT_C 60.0
#define BC_CONDENSER_WARM_C 25.0
#define BC_CONDENSER_LIGHT_IBP_C 100.0
/* Below 40 degC while the head is above 300, wax sets in it: C20 melts at 37 degC, C24 at 51. */
#define BC_CONDENSER_COLD_C 40.0
#define BC_CONDENSER_WAX_HEAD_C 300.0
/* A thermometer further off is broken, or the check was none; common practice [degC]. */
#define BC_ICE_FAR_C 5.0
#define BC_STEAM_FAR_C 6.0
#define BC_CHECKS_APART_C 5.0
/* What a wrong pressure may move at the heavy end before it decides; common practice [degC]. */
#define BC_PRESSURE_DECIDES_C 5.0
#define BC_PRESSURE_LOW_KPA 84.5 /* about 1500 m, where Sydney Young's formula is 10 % short */
/* The mean at sea level, and how far weather seldom moves it; common practice [kPa]. */
#define BC_SEA_LEVEL_KPA 101.3
#define BC_SEA_WEATHER_KPA 3.0

/* ---- water (water.c) */

/* A shelf lies between the lowest boiling point of water with an oil component (benzene, 31 below
 * water alone; computed from Antoine constants and IAPWS-IF97) and water's own, read by a
 * thermometer that was never checked (common practice). */
#define BC_WATER_BELOW_C 31.0
#define BC_WATER_ABOVE_C 4.0
/* How slowly the head rises on it: by steepness, or by little in all; common practice. */
#define BC_WATER_SLOW_C_PER_PCT 1.5
#define BC_WATER_SLOW_C 4.0
/* The jump behind it, much steeper than the shelf itself. Tuned on measured D86 curves so that
 * naphthas and gasolines, which pass through smoothly, show none. */
#define BC_WATER_JUMP_C 40.0
#define BC_WATER_JUMP_WITHIN_PCT 10.0
#define BC_WATER_JUMP_STEEPER 3.0
/* After a stretch as flat as this a smaller jump is enough; common practice. */
#define BC_WATER_FLAT_C_PER_PCT 0.5
#define BC_WATER_SMALL_JUMP_C 15.0
#define BC_WATER_SMALL_JUMP_C_PER_PCT 2.5
#define BC_WATER_LATEST_PCT 60.0

/* ---- the front (fuel/cross_findings.c) */

/* The IBP so far below the line of the first readings on probability paper, and below the first of
 * them: gas or light ends went first; measured curves lie within 40. */
#define BC_FRONT_BELOW_LINE_C 40.0
#define BC_FRONT_STEP_C 45.0
#define BC_FRONT_FIRST_PCT 10.0

/* ---- one compound (fuel/compound.c) */

/* Rises no faster than this [degC/%], nor than this share of the mean slope of the curve, over at
 * least so much of the charge and so many readings; judgement. */
#define BC_COMPOUND_C_PER_PCT 0.30
#define BC_COMPOUND_SHARE 0.25
#define BC_COMPOUND_WIDTH_PCT 15.0
#define BC_COMPOUND_READINGS 3
/* An oil that boils within so little is narrow by itself; its shelf must be flatter. */
#define BC_COMPOUND_NARROW_C 30.0
#define BC_COMPOUND_NARROW_C_PER_PCT 0.03

/* ---- density (fuel/cross_findings.c) */

/* A density this far from the one that the curve suggests: three standard deviations of 60 measured
 * D86-type curves (29 kg/m3). Oils of polyolefins lie 24 to 48 lower, of polystyrene and tyres
 * about as much as aromatics higher (styrene 906 kg/m3 against 780 for a paraffin of its boiling
 * point; handbook values). */
#define BC_DENSITY_APART_KGM3 88.0
#define BC_DENSITY_POLYOLEFIN_KGM3 (-36.0)
#define BC_DENSITY_AROMATIC_KGM3 90.0

#endif
