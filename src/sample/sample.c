/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sample record: release, questions about it, and the words for its kinds. */
#include "sample/sample.h"

#include <string.h>

#include "base/memory.h"

void bc_sample_free(struct bc_sample *sample)
{
	if (sample == NULL)
		return;
	char *texts[] = {sample->file, sample->name, sample->date, sample->operator_name,
		sample->feed, sample->note, sample->still, sample->drawn, sample->stored_since,
		sample->apparatus_still};
	for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
		bc_free(texts[i]);
	for (size_t i = 0; i < sample->n_readings; i++)
		bc_free(sample->readings[i].note);
	for (size_t i = 0; i < sample->n_kept; i++) {
		bc_free(sample->kept[i].key);
		bc_free(sample->kept[i].value);
	}
	bc_free(sample->readings);
	bc_free(sample->measured);
	bc_free(sample->kept);
	bc_strings_release(&sample->assumed);
	bc_free(sample);
}

const struct bc_measured *bc_sample_measured(const struct bc_sample *sample, const char *property)
{
	for (size_t i = 0; i < sample->n_measured; i++) {
		const struct bc_measured *measured = &sample->measured[i];
		if (strcmp(measured->property, property) == 0 && !measured->open_cup)
			return measured;
	}
	return NULL;
}

const char *bc_history_text(enum bc_history history)
{
	switch (history) {
	case BC_HISTORY_RETORT:
		return "retort";
	case BC_HISTORY_RERUN:
		return "rerun";
	case BC_HISTORY_AIRED:
		return "aired";
	default:
		return "unknown";
	}
}

const char *bc_thermometer_text(enum bc_thermometer thermometer)
{
	switch (thermometer) {
	case BC_THERMOMETER_GLASS_D86:
		return "glass d86";
	case BC_THERMOMETER_GLASS_PARTIAL:
		return "glass partial";
	case BC_THERMOMETER_GLASS_TOTAL:
		return "glass total";
	case BC_THERMOMETER_PROBE:
		return "probe";
	default:
		return "not stated";
	}
}
