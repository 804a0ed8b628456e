/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_CURVE_FINDING_H
#define BC_CURVE_FINDING_H

#include <stdbool.h>
#include <stddef.h>

enum bc_weight { BC_FINDING_NOTE, BC_FINDING_WARNING, BC_FINDING_DANGER };

/* Something seen in the readings or the oil that the person should know. */
struct bc_finding {
	const char *code; /* short and stable: "water-shelf" */
	enum bc_weight weight;
	double at_pct;       /* NaN where it has no place on the curve */
	char *message;       /* what was seen */
	char *advice;        /* what to do; JSON key "do" */
	bool forbids_usable; /* no verdict may be "usable" while it stands; every danger does */
	bool forbids_rerun;  /* nor may the oil be distilled again */
};

struct bc_findings {
	struct bc_finding *items;
	size_t n;
	size_t capacity;
	bool failed; /* memory ran out; the caller must give up */
};

void bc_findings_init(struct bc_findings *findings);
void bc_findings_release(struct bc_findings *findings);
/* Message and advice are copied. */
void bc_findings_add(struct bc_findings *findings, const char *code, enum bc_weight weight,
	double at_pct, const char *message, const char *advice);
/* The same with a formatted message. */
__attribute__((format(printf, 6, 7))) void bc_findings_say(struct bc_findings *findings,
	const char *code, enum bc_weight weight, double at_pct, const char *advice,
	const char *format, ...);
/* Marks the finding added last. */
void bc_findings_forbid(struct bc_findings *findings, bool usable, bool rerun);
bool bc_findings_has(const struct bc_findings *findings, const char *code);
const char *bc_weight_text(enum bc_weight weight); /* "note", "warning", "danger" */

#endif
