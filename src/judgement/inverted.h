/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_INVERTED_H
#define BC_JUDGEMENT_INVERTED_H

#include "base/status.h"
#include "judgement/judgement.h"

/* Converted and inverted true boiling points that lie further apart are a finding [degC]. On wide
 * oils and gasolines 5 to 9 are usual: there it takes more. Of 46 measured curves three are found,
 * all of doubtful records (two read off a graph, one mixed of two sources). */
#define BC_INVERTED_APART_C 10.0
#define BC_INVERTED_APART_WIDE_C 15.0

/* The still that made this boil-off, when it is known and no plain flask; false: it is not. A
 * column of the sample itself is a still without a name and without bounds. */
bool bc_inverted_apparatus(const struct bc_sample *sample, const struct bc_judge_options *options,
	struct bc_still *apparatus);

/*
 * bc_inverted_oil - the oil behind a boil-off that was made in a known still
 *
 * Given     judgement, up to its points; still
 * Returned  inversion, oil, flask_points and by_inversion of the judgement; by_inversion stays
 *           false, and nothing is changed, where no inversion could be had
 * Status    BC_OK, also then; else as bc_oil_from_boiloff
 * Notes     1. errors (95 %) of the points: those of the readings through the inversion's gains,
 *              BC_FLASK_POINT_C for the still as a model, 10 degC beyond the readings
 *           2. a named still is inverted again at its low bound of plates: the lower bound of both
 *              flashes counts (flash_held), and no claim of that run is no claim. Where the still
 *              is but estimated, or has no bounds, still_guessed is set
 */
enum bc_status bc_inverted_oil(struct bc_judgement *judgement, const struct bc_still *still);

/* The inversion of a plain flask beside the conversion of the judged oil, and a finding where the
 * two differ; no inversion of a wet oil. Status BC_OK, also when there is none; BC_NO_MEMORY. */
enum bc_status bc_inverted_beside(struct bc_judgement *judgement);

/* The percents recovered of the head readings that the inversion was made of. */
void bc_inverted_pcts(
	const struct bc_judgement *judgement, double recovered_pct[BC_INVERSION_READINGS_MAX]);

/* True boiling point of the inversion at a percent recovered [degC]; NaN where there is none, or
 * where nobody read. */
double bc_inverted_c(const struct bc_judgement *judgement, double recovered_pct);

/* Of 10, 30, 50, 70 and 90 %, between readings and inside the range of the conversion, the one
 * where inversion and conversion are furthest apart; NaN: none. *apart_c is inverted less
 * converted. Where no IBP was read, or it lies far below, 10 % is left out: it hangs on the front.
 */
double bc_inverted_apart(const struct bc_judgement *judgement, double *apart_c);

#endif
