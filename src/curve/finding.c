/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of what was seen in readings and oil; it remembers a failed allocation, so that a page
 * of checks is written plainly and asked once at its end. */
#include "curve/finding.h"

#include <stdarg.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"

void bc_findings_init(struct bc_findings *findings) { *findings = (struct bc_findings){0}; }

void bc_findings_release(struct bc_findings *findings)
{
	if (!findings)
		return;
	for (size_t i = 0; i < findings->n; i++) {
		bc_free(findings->items[i].message);
		bc_free(findings->items[i].advice);
	}
	bc_free(findings->items);
	bc_findings_init(findings);
}

void bc_findings_add(struct bc_findings *findings, const char *code, enum bc_weight weight,
	double at_pct, const char *message, const char *advice)
{
	if (findings->failed)
		return;
	void *items = findings->items;
	int grown = bc_grow(&items, findings->n, &findings->capacity, sizeof *findings->items);
	findings->items = items;
	char *own_message = bc_strdup(message);
	char *own_advice = bc_strdup(advice);
	if (grown != 0 || !own_message || !own_advice) {
		bc_free(own_message);
		bc_free(own_advice);
		findings->failed = true;
		return;
	}
	findings->items[findings->n++] = (struct bc_finding){
		.code = code,
		.weight = weight,
		.at_pct = at_pct,
		.message = own_message,
		.advice = own_advice,
		.forbids_usable = weight == BC_FINDING_DANGER,
	};
}

void bc_findings_say(struct bc_findings *findings, const char *code, enum bc_weight weight,
	double at_pct, const char *advice, const char *format, ...)
{
	struct bc_text message;
	va_list arguments;

	bc_text_init(&message);
	va_start(arguments, format);
	bc_text_vprintf(&message, format, arguments);
	va_end(arguments);
	if (message.failed)
		findings->failed = true;
	else
		bc_findings_add(
			findings, code, weight, at_pct, message.data ? message.data : "", advice);
	bc_text_release(&message);
}

void bc_findings_forbid(struct bc_findings *findings, bool usable, bool rerun)
{
	if (findings->failed || findings->n == 0)
		return;
	struct bc_finding *last = &findings->items[findings->n - 1];
	last->forbids_usable = last->forbids_usable || usable;
	last->forbids_rerun = last->forbids_rerun || rerun;
}

bool bc_findings_has(const struct bc_findings *findings, const char *code)
{
	for (size_t i = 0; i < findings->n; i++) {
		if (strcmp(findings->items[i].code, code) == 0)
			return true;
	}
	return false;
}

const char *bc_weight_text(enum bc_weight weight)
{
	switch (weight) {
	case BC_FINDING_NOTE:
		return "note";
	case BC_FINDING_WARNING:
		return "warning";
	case BC_FINDING_DANGER:
		return "danger";
	}
	return NULL;
}
