/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_VERDICT_REASON_H
#define BC_VERDICT_REASON_H

#include <stdbool.h>

#include "base/strings.h"
#include "verdict/rule.h"

/* The density criterion by which an oil is too light for the road-diesel standards, or NULL. */
const struct bc_criterion *bc_too_light_for_road(const struct bc_grades *grades);
void bc_reason_too_light(const struct bc_criterion *density, struct bc_strings *because);

/* Why a grade is met, with what stays to be tested and the customs lines that are missed. */
void bc_reasons_met(const struct bc_grade *grade, const struct bc_evidence *evidence,
	struct bc_strings *because);

/* What stands against a grade, strongest first: outside, then doubtful or not measured, safety
 * first in each; customs lines that do not count come last. Where no flash is claimed, the
 * sentence on the flash says why. */
void bc_reasons_against(const struct bc_grade *grade, const struct bc_evidence *evidence,
	struct bc_strings *because);

/* Whether bc_reasons_against has a sentence on the flash. */
bool bc_reasons_tell_flash(const struct bc_grade *grade);

/* What to measure to settle the criteria of a grade that are doubtful or not measured. findings
 * may be NULL. */
void bc_next_to_measure(const struct bc_grade *grade, const struct bc_evidence *evidence,
	const struct bc_findings *findings, struct bc_strings *next);

#endif
