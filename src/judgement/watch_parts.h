/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_WATCH_PARTS_H
#define BC_JUDGEMENT_WATCH_PARTS_H

#include "judgement/watching.h"

/* Parts of a watched boil-off; inside judgement/ only. */

/* What is wrong with an entry, so that it cannot be kept; false: nothing. */
bool bc_watch_wrong(
	const struct bc_watching *watching, const struct bc_entry *entry, struct bc_text *why);
/* What makes an entry doubtful: a jump that does not belong; false: nothing. */
bool bc_watch_doubtful(
	const struct bc_watching *watching, const struct bc_entry *entry, struct bc_text *why);

/* The line behind a reading, and alarms. */
void bc_watch_tell(
	struct bc_watching *watching, const struct bc_noted *noted, struct bc_text *reply);
void bc_watch_alarm_pot(struct bc_watching *watching, double pot_c);
__attribute__((format(printf, 2, 3))) void bc_watch_alarm(
	struct bc_watching *watching, const char *format, ...);

/* "5 %", "12.5 mL" or "IBP". */
void bc_watch_place(const struct bc_watching *watching, enum bc_reading_kind point, double amount,
	struct bc_text *text);

#endif
