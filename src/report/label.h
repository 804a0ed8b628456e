/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_LABEL_H
#define BC_REPORT_LABEL_H

#include "base/status.h"
#include "base/text.h"
#include "judgement/judgement.h"

enum bc_label_size { BC_LABEL_CAN, BC_LABEL_A6 }; /* 100 by 60 mm, 105 by 148 mm */

/*
 * The label of a can: batch, date, estimated grade, flash with its low bound, hazard in words and
 * signs, what was not tested, when to look again. It never certifies and says so.
 *
 * Source  signs and statements: GHS, annex 3 (H225, H226, H227, H304, H350), signs after annex 1
 */
enum bc_status bc_report_label_svg(
	const struct bc_judgement *judgement, enum bc_label_size size, struct bc_text *svg);
enum bc_status bc_report_label_html(
	const struct bc_judgement *judgement, enum bc_label_size size, struct bc_text *html);

#endif
