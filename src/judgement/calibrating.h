/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_CALIBRATING_H
#define BC_JUDGEMENT_CALIBRATING_H

#include <stdbool.h>

#include "judgement/judgement.h"
#include "still/calibration_spread.h"
#include "still/still_file.h"

/* A turn of the tap as somebody wrote it down. */
struct bc_turn_said {
	bool said;
	bool at_head; /* else by volume */
	double value; /* degC corrected, or % of the charge */
	bool as_read; /* degC as the thermometer of the run showed */
};

/* One run of a still and what is known of it. */
struct bc_calibrating_request {
	const struct bc_sample *before; /* boil-off of the feed; NULL: known is the feed */
	const struct bc_slices *known;
	const char *known_words;       /* "heptane=50,toluene=50" */
	const struct bc_sample *after; /* boil-off of the product; NULL with heads alone */
	const struct bc_sample *heads; /* of the run; NULL: none */
	struct bc_turn_said from;
	struct bc_turn_said to;
};

struct bc_calibrating {
	struct bc_calibrating_request request; /* its samples must outlive this */
	char refused[200];                     /* what is wrong with it; "" when nothing is */
	struct bc_judgement feed;              /* with before; points into itself: never copied */
	struct bc_calibration_pair pair;
	struct bc_inversion_input input;
	double feed_pct[BC_INVERSION_READINGS_MAX];
	double feed_c[BC_INVERSION_READINGS_MAX];
	struct bc_calibration_answer answer;
	struct bc_still_pair kept; /* as it goes into the file of the still */
	bool carry_told;           /* the pair says more of carry-over than was believed before */
	bool known;                /* ... and enough of the plates to be of use */
	struct bc_strings assumed;
	struct bc_strings cautions;
};

void bc_calibrating_init(struct bc_calibrating *calibrating);
void bc_calibrating_release(struct bc_calibrating *calibrating);

/*
 * bc_calibrating_run - what a still is worth by one pair of boil-offs
 *
 * Given     request; limits for the judgement of the feed
 * Returned  *calibrating, to be released whatever the status
 * Status    BC_BAD_DOMAIN with refused: nothing to calibrate with, or the turn is not in the run;
 *           BC_TOO_FEW, BC_NO_MEMORY, BC_NO_CONVERGENCE as bc_judge and bc_calibrate_pair
 * Notes     1. percent readings of 4 to 96 % count, at their reading error and 0.7 degC that two
 *              boil-offs of one oil differ by (repeatability of D86 of about 2 degC over 2.77, from
 *              memory); errors that both boil-offs share are taken to cancel
 *           2. a turn at a head temperature is known to the reading error and 1 degC of a hand at
 *              the tap (judgement)
 *           3. a turn that nobody states is that of the product's keys 'jar from' and 'jar to',
 *              which are readings; else the product ends where its own heavy readings say
 *           4. readings that lie more than 6 degC (RMS) from the best prediction tell nothing:
 *              known is then false. A flask is described to 2 to 4 degC (still/inversion.h, note
 * 4), which mostly cancels between feed and product; good pairs lie within 1. A feed given for its
 * own product lies 6.5 off (judgement)
 */
enum bc_status bc_calibrating_run(const struct bc_calibrating_request *request,
	const struct bc_limits *limits, struct bc_calibrating *calibrating);

#endif
