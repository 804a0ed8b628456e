/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_STILL_RIG_H
#define BC_STILL_RIG_H

#include <stddef.h>

#include "base/estimate.h"
#include "base/status.h"
#include "still/calibration.h"

/* What may fill a riser. */
struct bc_packing {
	const char *word; /* as on a command line and in a file */
	const char *what; /* in a sentence: "stainless scrubbers" */
	double hetp_mm;   /* height that is worth a plate, half to one and a half of it */
	double hold_pct;  /* liquid that it holds, of its volume, half to twice */
};
/* Heights: hobby practice, seen, scrubbers 130, rings of 6 mm 240 and of 13 mm 380, marbles of 10
 * mm 330; an empty pipe and pricked glass from memory. Liquid held: common practice. */
extern const struct bc_packing bc_packings[];
extern const size_t bc_packing_count;
/* "none" is the empty pipe. NULL where there is none of that word. */
const struct bc_packing *bc_packing_find(const char *word);

/* A still as it can be measured with a ruler. NaN: not described. */
struct bc_rig {
	double riser_mm;  /* inner diameter */
	double height_mm; /* of the riser, or of what is packed */
	const struct bc_packing *packing;
	double lagging_mm; /* 0: bare */
	double reflux;     /* that the head returns by design, of what it gives; 0: none */
	double heater_w;
	double charge_ml;
	double vacuum_kpa; /* absolute; NaN: 101.3 */
};
struct bc_rig bc_rig_unknown(void); /* no packing, bare, no reflux, everything else NaN */

/* Estimates with their bounds, 95 % by judgement. */
struct bc_rig_estimate {
	double vapour_c;           /* in the riser */
	double boil_w;             /* the heat that was counted with */
	bool boil_assumed;         /* no heater was stated */
	bool heater_floods;        /* the heater gives more than power_w.value */
	bool wall_takes_all;       /* nothing comes over */
	struct bc_estimate stages; /* the pot among them */
	struct bc_estimate wall_w;
	struct bc_estimate reflux;  /* of wall and head together */
	struct bc_estimate plates;  /* effective */
	struct bc_estimate power_w; /* at which to stay below: 70 % of flooding */
	struct bc_estimate hold_ml;
	struct bc_estimate least_cut_ml; /* smallest jar that the hold-up leaves what it is */
};

/* Vapour that a rig is reckoned with: boils at 200 degC, as the middle of most oils. */
#define BC_RIG_VAPOUR_C 200.0
/* F-factor at which a small random packing is safe, 70 % of where it floods [Pa^0.5]; common
 * practice, a third both ways. An empty pipe takes more. */
#define BC_RIG_SAFE_F 1.2
/* Liquid held should stay below so much of the smallest jar; common practice, 10 to 15 %. */
#define BC_RIG_HOLD_PCT 12.0

/*
 * bc_rig_estimate_of - what a still is worth by its measures
 *
 * Given     rig: riser_mm and height_mm must be positive; work
 * Returned  *estimate
 * Status    BC_BAD_DOMAIN, BC_NO_CONVERGENCE as bc_effective_plates
 * Notes     1. stages 1 + height/HETP; wall U pi D L dT against 20 degC, a third both ways; reflux
 *              (1 + R head)/(1 - wall/boil) - 1
 *           2. without a heater half of power_w is taken
 *           3. effective plates: bc_effective_plates at the ends of stages and reflux
 * Source    fuel/riser_forms.h; latent heat Riedel with Watson's exponent
 * Checks    tests/unit/still/test_rig.c
 */
enum bc_status bc_rig_estimate_of(const struct bc_rig *rig, struct bc_calibration_work *work,
	struct bc_rig_estimate *estimate);

#endif
