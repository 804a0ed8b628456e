/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_VERDICT_HAZARD_H
#define BC_VERDICT_HAZARD_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "base/strings.h"
#include "curve/boiloff.h"
#include "fuel/properties.h"

/* A class of one scheme: GHS, CLP, the classic flammable/combustible classes, transport. */
struct bc_hazard {
	const char *scheme;
	const char *class_name; /* JSON key "class" */
	char *from;             /* what it rests on: "flash, low bound 43.1 degC" */
	char *message;          /* plain words for the can and the shed */
	bool front_open;        /* the class of a like liquid that boils lower cannot be excluded */
};

#define BC_HAZARDS_MAX 8
struct bc_hazards {
	struct bc_hazard items[BC_HAZARDS_MAX];
	size_t n;
	bool petrol_like; /* the warning that nobody can overlook */
	bool at_site;     /* it stands only for the pressure here; classes refer to 101.3 kPa */
};

/* From the low flash bound and the history; without a flash claim the class is that of petrol. */
enum bc_status bc_hazards_classify(const struct bc_oil *oil, const struct bc_boiloff *boiloff,
	enum bc_history history, struct bc_hazards *hazards);
void bc_hazards_release(struct bc_hazards *hazards);

/* Cautions that end every report: general ones, and those that this feed, history and flash ask
 * for. want_rerun adds those of the re-run; findings may be NULL. */
enum bc_status bc_cautions_collect(const struct bc_sample *sample, const struct bc_oil *oil,
	const struct bc_hazards *hazards, const struct bc_findings *findings, bool want_rerun,
	struct bc_strings *cautions);

#endif
