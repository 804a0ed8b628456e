/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut still describe': a still by its measures. */
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/number.h"
#include "base/text.h"
#include "command/amount.h"
#include "command/output.h"
#include "command/still_tasks.h"
#include "report/still.h"

#define MM_PER_M 1000.0
#define REFLUX_MAX 1000.0

static int read_length(const struct bc_arguments *arguments, const char *option, double least_mm,
	double most_mm, double *mm)
{
	const struct bc_amount amount = {option, BC_QUANTITY_LENGTH, false, "a length such as 25mm",
		least_mm / MM_PER_M, most_mm / MM_PER_M};
	double metres = *mm / MM_PER_M;
	int result = bc_amount_read(arguments, &amount, &metres);
	*mm = metres * MM_PER_M;
	return result;
}

static int read_packing(const struct bc_arguments *arguments, struct bc_rig *rig)
{
	const char *word = bc_arguments_value(arguments, "packing");
	const char *words[16];
	if (word == NULL)
		return BC_EXIT_DONE;
	rig->packing = bc_packing_find(word);
	if (rig->packing != NULL)
		return BC_EXIT_DONE;
	for (size_t i = 0; i < bc_packing_count; i++)
		words[i] = bc_packings[i].word;
	return bc_wrong_word(arguments->command, word, "a packing", words, bc_packing_count);
}

static int read_reflux(const struct bc_arguments *arguments, struct bc_rig *rig)
{
	const char *word = bc_arguments_value(arguments, "head-reflux");
	double reflux = 0.0;
	if (word == NULL)
		return BC_EXIT_DONE;
	if (!bc_number_parse(word, '.', &reflux) || !(reflux >= 0.0 && reflux <= REFLUX_MAX))
		return bc_wrong_usage(arguments->command,
			"'%s' is not a reflux ratio; expected 0 to %g", word, REFLUX_MAX);
	rig->reflux = reflux;
	return BC_EXIT_DONE;
}

static int read_thermometer(const struct bc_arguments *arguments, struct bc_still *still)
{
	static const enum bc_thermometer kinds[] = {BC_THERMOMETER_GLASS_D86,
		BC_THERMOMETER_GLASS_PARTIAL, BC_THERMOMETER_GLASS_TOTAL, BC_THERMOMETER_PROBE};
	enum { KINDS = sizeof kinds / sizeof kinds[0] };
	const char *words[KINDS];
	const char *word = bc_arguments_value(arguments, "thermometer");
	for (size_t i = 0; i < KINDS && word != NULL; i++) {
		words[i] = bc_thermometer_text(kinds[i]);
		if (strcmp(word, words[i]) == 0) {
			still->thermometer = kinds[i];
			return BC_EXIT_DONE;
		}
	}
	return word == NULL
		       ? BC_EXIT_DONE
		       : bc_wrong_word(arguments->command, word, "a thermometer", words, KINDS);
}

static int read_amounts(const struct bc_arguments *arguments, struct bc_rig *rig)
{
	const struct bc_amount heater = {
		"heater", BC_QUANTITY_POWER, false, "a power such as 500W", 10.0, 1e6};
	const struct bc_amount charge = {
		"charge", BC_QUANTITY_VOLUME, false, "a volume such as 2L", 10.0, 1e7};
	const struct bc_amount vacuum = {"vacuum", BC_QUANTITY_PRESSURE, false,
		"an absolute pressure such as 10kPa", 0.1, 110.0};
	int result = bc_amount_read(arguments, &heater, &rig->heater_w);
	if (result == BC_EXIT_DONE)
		result = bc_amount_read(arguments, &charge, &rig->charge_ml);
	if (result == BC_EXIT_DONE)
		result = bc_amount_read(arguments, &vacuum, &rig->vacuum_kpa);
	return result;
}

static int read_rig(const struct bc_arguments *arguments, struct bc_still_record *record)
{
	struct bc_rig rig = bc_rig_unknown();
	if (!bc_arguments_has(arguments, "riser") || !bc_arguments_has(arguments, "height"))
		return bc_wrong_usage(arguments->command,
			"'still describe' lacks a measure; expected --riser and --height");
	int result = read_length(arguments, "riser", 3.0, 1000.0, &rig.riser_mm);
	if (result == BC_EXIT_DONE)
		result = read_length(arguments, "height", 20.0, 10000.0, &rig.height_mm);
	if (result == BC_EXIT_DONE)
		result = read_length(arguments, "lagging", 0.0, 300.0, &rig.lagging_mm);
	if (result == BC_EXIT_DONE)
		result = read_packing(arguments, &rig);
	if (result == BC_EXIT_DONE)
		result = read_reflux(arguments, &rig);
	if (result == BC_EXIT_DONE)
		result = read_amounts(arguments, &rig);
	if (result == BC_EXIT_DONE)
		result = read_thermometer(arguments, &record->still);
	if (result == BC_EXIT_DONE && rig.riser_mm > rig.height_mm)
		bc_complain(
			"warning: the riser is wider (%.4g mm) than high (%.4g mm): were --riser "
			"and --height swapped?",
			rig.riser_mm, rig.height_mm);
	record->rig = rig;
	return result;
}

/* Measures never overrule what the still was seen to do. */
static void take_estimate(struct bc_still_record *record, const struct bc_rig_estimate *estimate)
{
	struct bc_still *still = &record->still;
	if (record->n_pairs > 0)
		return;
	still->column = (struct bc_column){NAN, NAN, estimate->plates.value, NAN};
	still->plates_low = estimate->plates.low;
	still->plates_high = estimate->plates.high;
	still->source = BC_STILL_ESTIMATED;
}

static int print(const struct bc_arguments *arguments, const struct bc_still_described *described)
{
	struct bc_page_style style = {.colour = bc_wants_colour("auto")};
	struct bc_text text;
	if (bc_arguments_has(arguments, "json")) {
		json_t *json = bc_report_still_described_json(described);
		bool done = bc_out_json(json, 0);
		json_decref(json);
		return done ? BC_EXIT_DONE : bc_no_memory();
	}
	bc_text_init(&text);
	int result = bc_failed(bc_report_still_described(described, &style, &text)) ? bc_no_memory()
										    : BC_EXIT_DONE;
	if (result == BC_EXIT_DONE)
		bc_out_text(&text);
	bc_text_release(&text);
	return result;
}

static int estimate_rig(const struct bc_rig *rig, struct bc_rig_estimate *estimate)
{
	struct bc_calibration_work *work = bc_calibration_work_new();
	if (work == NULL)
		return bc_no_memory();
	enum bc_status status = bc_rig_estimate_of(rig, work, estimate);
	bc_calibration_work_free(work);
	if (bc_failed(status))
		bc_complain("still describe: the numbers failed: %s", bc_status_text(status));
	return bc_exit_from_status(status);
}

int bc_still_describe(const struct bc_arguments *arguments)
{
	static const char *const allowed[] = {"name", "json", "riser", "height", "packing",
		"lagging", "head-reflux", "heater", "charge", "vacuum", "thermometer", NULL};
	struct bc_still_record record;
	struct bc_still_described described = {.record = &record};
	char *path = NULL;
	int result = bc_arguments_count(arguments, 1, 1, "word");
	if (result == BC_EXIT_DONE)
		result = bc_still_only(arguments, allowed);
	if (result == BC_EXIT_DONE)
		result = bc_still_record_of(arguments, &record);
	if (result == BC_EXIT_DONE)
		result = read_rig(arguments, &record);
	if (result == BC_EXIT_DONE)
		result = estimate_rig(&record.rig, &described.estimate);
	if (result == BC_EXIT_DONE) {
		take_estimate(&record, &described.estimate);
		if (!described.estimate.wall_takes_all)
			result = bc_still_keep(arguments, &record, &path);
	}
	described.saved = path;
	if (result == BC_EXIT_DONE)
		result = print(arguments, &described);
	if (result == BC_EXIT_DONE && described.estimate.wall_takes_all)
		result = BC_EXIT_NEGATIVE;
	bc_free(path);
	return result;
}
