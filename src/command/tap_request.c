/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a command line to one run of a still: which still, which charge, where to cut. */
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/number.h"
#include "command/amount.h"
#include "command/arguments.h"
#include "command/case.h"
#include "command/learn.h"
#include "command/output.h"
#include "command/still_names.h"
#include "command/tap_request.h"
#include "command/wishes.h"
#include "judgement/tapping.h"

#define CUT_SIZE 32
#define PLATES_MAX 60   /* of bc_column_run */
#define WORTH_MAX 20    /* effective plates; far above any still of this kind */
#define REFLUX_MAX 1000 /* beyond it nothing is drawn any more; 'total' says so */

/* ---- cuts */

/* "170C", "26%", "26%m"; a bare number is refused: nobody can tell what it is. */
static bool cut_parse(const char *word, struct bc_tap_cut *cut)
{
	double number = 0.0;
	size_t taken = bc_number_prefix(word, '.', &number);
	const char *unit = word + taken;
	if (taken == 0)
		return false;
	if (strcmp(unit, "%") == 0 || strcmp(unit, "%v") == 0)
		*cut = (struct bc_tap_cut){BC_TAP_AT_VOLUME, number};
	else if (strcmp(unit, "%m") == 0)
		*cut = (struct bc_tap_cut){BC_TAP_AT_MASS, number};
	else if (bc_amount_parse(word, BC_QUANTITY_TEMPERATURE, false, &number))
		*cut = (struct bc_tap_cut){BC_TAP_AT_HEAD, number};
	else
		return false;
	return true;
}

/* Where a percent may lie: all of the mass may be asked for, since the pot counts with it. */
static bool cut_possible(const struct bc_tap_cut *cut)
{
	switch (cut->kind) {
	case BC_TAP_AT_VOLUME:
		return cut->value > 0.0 && cut->value < 100.0;
	case BC_TAP_AT_MASS:
		return cut->value > 0.0 && cut->value <= 100.0;
	case BC_TAP_AT_HEAD:
		break;
	}
	return cut->value > 0.0 && cut->value < 700.0; /* as head readings of a sample */
}

static int add_cut(
	const struct bc_command *command, const char *word, struct bc_tap_request *request)
{
	struct bc_tap_cut cut;
	if (!cut_parse(word, &cut))
		return bc_wrong_usage(command,
			"'%s' is not a cut; expected a head temperature as 170C, a percent by volume as 26%% "
			"or by mass as 26%%m",
			word);
	if (!cut_possible(&cut))
		return bc_wrong_usage(command,
			"'%s' is no place for a cut; expected above 0, below 100%% (by mass up to "
			"100%%m) or below 700C",
			word);
	for (size_t i = 0; i < request->n_cuts; i++) {
		if (request->cuts[i].kind == cut.kind && !(cut.value > request->cuts[i].value))
			return bc_wrong_usage(command,
				"'%s' does not lie above the cut before it; expected ascending cuts",
				word);
	}
	if (request->n_cuts == BC_TAP_CUTS_MAX)
		return bc_wrong_usage(command, "'%s' is one cut too many; expected no more than %d",
			word, BC_TAP_CUTS_MAX);
	request->cuts[request->n_cuts++] = cut;
	return BC_EXIT_DONE;
}

static int read_cuts(const struct bc_arguments *arguments, struct bc_tap_request *request)
{
	const char *list = bc_arguments_value(arguments, "cuts");
	int result = BC_EXIT_DONE;
	while (list != NULL && result == BC_EXIT_DONE) {
		char word[CUT_SIZE];
		size_t n = strcspn(list, ",");
		size_t blank = strspn(list, " ");
		blank = blank < n ? blank : n;
		if (n - blank >= sizeof word)
			return bc_wrong_usage(arguments->command,
				"'%s' is not a list of cuts; expected such as 170C,26%%,100%%m",
				list);
		memcpy(word, list + blank, n - blank);
		word[n - blank] = '\0';
		result = add_cut(arguments->command, word, request);
		list = list[n] == ',' ? list + n + 1 : NULL;
	}
	for (size_t i = 0; i + 1 < request->n_cuts && result == BC_EXIT_DONE; i++) {
		if (request->cuts[i].kind == BC_TAP_AT_MASS && request->cuts[i].value >= 100.0)
			result = bc_wrong_usage(arguments->command,
				"'100%%m' takes all that is left; expected no cut behind it");
	}
	return result;
}

/* ---- the still */

static int read_plates(const struct bc_arguments *arguments, struct bc_column *column)
{
	const char *word = bc_arguments_value(arguments, "plates");
	double plates = 0.0;
	if (word == NULL)
		return BC_EXIT_DONE;
	if (!bc_number_parse(word, '.', &plates) || !(plates >= 1.0 && plates <= PLATES_MAX) ||
		plates != floor(plates))
		return bc_wrong_usage(arguments->command,
			"'%s' is not a number of plates; expected 1 (the bare pot) to %d", word,
			PLATES_MAX);
	column->stages = plates;
	column->effective_plates = NAN;
	return BC_EXIT_DONE;
}

static int read_reflux(const struct bc_arguments *arguments, struct bc_column *column)
{
	const char *word = bc_arguments_value(arguments, "reflux");
	double reflux = INFINITY;
	if (word == NULL)
		return BC_EXIT_DONE;
	if (strcmp(word, "total") != 0 &&
		(!bc_number_parse(word, '.', &reflux) || !(reflux >= 0.0 && reflux <= REFLUX_MAX)))
		return bc_wrong_usage(arguments->command,
			"'%s' is not a reflux ratio; expected 0 to %d, or total", word, REFLUX_MAX);
	if (!bc_arguments_has(arguments, "plates"))
		return bc_wrong_usage(arguments->command,
			"'--reflux' says too little alone; expected --plates too");
	column->reflux = reflux;
	return BC_EXIT_DONE;
}

/* A still that a trial run has measured by one number. */
static int read_worth(const struct bc_arguments *arguments, struct bc_column *column)
{
	const char *word = bc_arguments_value(arguments, "worth");
	double plates = 0.0;
	if (word == NULL)
		return BC_EXIT_DONE;
	if (!bc_number_parse(word, '.', &plates) || !(plates >= 1.0 && plates <= WORTH_MAX))
		return bc_wrong_usage(arguments->command,
			"'%s' is not what a still is worth; expected 1 (the bare pot) to %d, as 2.3",
			word, WORTH_MAX);
	if (bc_arguments_has(arguments, "plates"))
		return bc_wrong_usage(arguments->command,
			"'--worth' stands for plates and reflux; expected no --plates beside it");
	*column = (struct bc_column){NAN, NAN, plates, NAN};
	return BC_EXIT_DONE;
}

static int read_room(const struct bc_arguments *arguments, double *room_m3)
{
	const char *word = bc_arguments_value(arguments, "room");
	double number = 0.0;
	if (word == NULL)
		return BC_EXIT_DONE;
	size_t taken = bc_number_prefix(word, '.', &number);
	const char *unit = word + taken + strspn(word + taken, " ");
	bool known = *unit == '\0' || strcmp(unit, "m3") == 0 || strcmp(unit, "m\xC2\xB3") == 0;
	if (taken == 0 || !known || !(number >= 1.0 && number <= 1e6))
		return bc_wrong_usage(arguments->command,
			"'%s' is not a value of --room; expected cubic metres such as 30m3", word);
	if (!bc_arguments_has(arguments, "heater"))
		return bc_wrong_usage(arguments->command,
			"'--room' says too little alone; expected --heater too");
	*room_m3 = number;
	return BC_EXIT_DONE;
}

static int read_numbers(const struct bc_arguments *arguments, struct bc_tap_request *request)
{
	const struct bc_amount charge = {
		"charge", BC_QUANTITY_VOLUME, false, "a volume such as 40L", 10.0, 1e7};
	const struct bc_amount heater = {
		"heater", BC_QUANTITY_POWER, false, "a power such as 2kW", 10.0, 1e6};
	const struct bc_amount vacuum = {"vacuum", BC_QUANTITY_PRESSURE, false,
		"an absolute pressure such as 10kPa", 0.1, 110.0};
	const struct bc_amount limit = {"pot-limit", BC_QUANTITY_TEMPERATURE, true,
		"a temperature such as 330C", 100.0, 450.0};
	const struct bc_amount margin = {"margin", BC_QUANTITY_TEMPERATURE_DIFFERENCE, true,
		"degrees such as 12", 0.0, 100.0};
	const struct bc_amount carry = {
		"carry", BC_QUANTITY_PERCENT, true, "% of the charge such as 1", 0.0, 20.0};
	int result = bc_amount_read(arguments, &charge, &request->charge_ml);
	if (result == BC_EXIT_DONE)
		result = bc_amount_read(arguments, &heater, &request->heater_w);
	if (result == BC_EXIT_DONE)
		result = bc_amount_read(arguments, &vacuum, &request->vacuum_kpa);
	if (result == BC_EXIT_DONE)
		result = bc_amount_read(arguments, &limit, &request->pot_limit_c);
	if (result == BC_EXIT_DONE)
		result = bc_amount_read(arguments, &margin, &request->margin_c);
	if (result == BC_EXIT_DONE)
		result = bc_amount_read(arguments, &carry, &request->still.carry_pct);
	if (result == BC_EXIT_DONE)
		result = read_plates(arguments, &request->still.column);
	if (result == BC_EXIT_DONE)
		result = read_reflux(arguments, &request->still.column);
	if (result == BC_EXIT_DONE)
		result = read_room(arguments, &request->room_m3);
	if (result == BC_EXIT_DONE)
		result = read_worth(arguments, &request->still.column);
	if (bc_arguments_has(arguments, "plates") || bc_arguments_has(arguments, "worth"))
		request->still.name[0] = '\0'; /* no longer the one that is taken for granted */
	return result;
}

/* One of three wishes. */
static int check_wish(const struct bc_arguments *arguments)
{
	bool grade = bc_arguments_has(arguments, "want") || bc_arguments_has(arguments, "standard");
	bool cuts = bc_arguments_has(arguments, "cuts");
	bool split = bc_arguments_has(arguments, "split");
	if (!grade && !cuts && !split)
		return bc_wrong_usage(arguments->command,
			"tap lacks a wish; expected --want, --standard, --cuts or --split");
	if (grade && (cuts || split))
		return bc_wrong_usage(arguments->command,
			"'--%s' says where to cut; expected no --%s beside it",
			cuts ? "cuts" : "split",
			bc_arguments_has(arguments, "want") ? "want" : "standard");
	if (cuts && split)
		return bc_wrong_usage(arguments->command,
			"'--cuts' says where to cut; expected no --split beside it");
	return BC_EXIT_DONE;
}

/* ---- the run */

/* The still of --still, else that which the sample names, else the default; --plates, --worth and
 * --carry have the last word. */
static int choose_still(const struct bc_arguments *arguments, const struct bc_sample_stills *stills,
	struct bc_tap_request *request)
{
	const char *name = bc_arguments_value(arguments, "still");
	struct bc_still_record record;
	if (name == NULL && !stills->has_rerun)
		return BC_EXIT_DONE;
	record.still = stills->rerun;
	int result = BC_EXIT_DONE;
	if (name != NULL)
		result = bc_still_named(arguments->command, name, &record);
	if (result != BC_EXIT_DONE || bc_arguments_has(arguments, "plates") ||
		bc_arguments_has(arguments, "worth"))
		return result;
	struct bc_still own = record.still;
	if (bc_arguments_has(arguments, "carry")) {
		own.carry_pct = request->still.carry_pct;
		own.carry_half_width_pct = NAN;
	}
	request->still = own;
	return BC_EXIT_DONE;
}

static int read_request(const struct bc_arguments *arguments, struct bc_tap_request *request)
{
	*request = bc_tap_request_default();
	request->split = bc_arguments_has(arguments, "split");
	int result = check_wish(arguments);
	bool plates = bc_arguments_has(arguments, "plates");
	if (result == BC_EXIT_DONE && bc_arguments_has(arguments, "still") &&
		(plates || bc_arguments_has(arguments, "worth")))
		result = bc_wrong_usage(arguments->command,
			"'--still' says what the plates are; expected no --%s beside it",
			plates ? "plates" : "worth");
	if (result == BC_EXIT_DONE)
		result = read_cuts(arguments, request);
	if (result == BC_EXIT_DONE)
		result = read_numbers(arguments, request);
	return result;
}

/* A standard belongs to one grade, which is then what is wanted. */
static enum bc_grade_name wanted_grade(
	const struct bc_judge_options *options, const struct bc_limits *limits)
{
	for (size_t i = 0; options->standard != NULL && i < limits->n; i++) {
		if (strcmp(limits->items[i].standard, options->standard) == 0)
			return options->want != BC_GRADES ? options->want : limits->items[i].grade;
	}
	return options->want;
}

static int tap_once(const struct bc_arguments *arguments, const char *path,
	const struct bc_sample *sample, const struct bc_judge_options *options,
	const struct bc_tap_request *request, bc_tapping_user *use)
{
	struct bc_tapping *tapping = bc_alloc(sizeof *tapping);
	if (tapping == NULL)
		return bc_no_memory();
	bc_tapping_init(tapping);
	enum bc_status status = bc_tap(sample, options, request, tapping);
	int result = bc_exit_from_status(status);
	if (bc_failed(status) && tapping->refused[0] != '\0')
		result = bc_wrong_usage(arguments->command, "%s", tapping->refused);
	else if (bc_failed(status))
		bc_case_complain(path, status);
	else
		result = use(arguments, tapping);
	bc_tapping_release(tapping);
	bc_free(tapping);
	return result;
}

static int find_stills(const char *path, struct bc_sample *sample, struct bc_sample_stills *stills)
{
	struct bc_diagnostics diagnostics;
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = bc_sample_stills_find(sample, stills, &diagnostics);
	bc_print_diagnostics(&diagnostics);
	if (bc_failed(status) && bc_diagnostics_first_error(&diagnostics) == NULL)
		bc_case_complain(path, status);
	bc_diagnostics_release(&diagnostics);
	return bc_exit_from_status(status);
}

/* Before the sample's own still is known, as a judgement learns. */
static int learn(const struct bc_arguments *arguments, struct bc_learning *learning,
	struct bc_judge_options *options)
{
	const char *cups = bc_arguments_value(arguments, "learn");
	if (cups == NULL)
		return BC_EXIT_DONE;
	int result = bc_learn_folder(cups, options, learning);
	options->learned = learning;
	return result;
}

int bc_tapping_of(const struct bc_arguments *arguments, const char *path, bc_tapping_user *use)
{
	struct bc_limits *limits = NULL;
	struct bc_sample *sample = NULL;
	struct bc_judge_options options;
	struct bc_tap_request request;
	struct bc_sample_stills stills;
	struct bc_learning learning;
	bc_learning_init(&learning);
	int result = read_request(arguments, &request);
	if (result == BC_EXIT_DONE)
		result = bc_arguments_folder(arguments, "learn");
	if (result == BC_EXIT_DONE)
		result = bc_case_limits(bc_arguments_value(arguments, "limits"), &limits);
	if (result == BC_EXIT_DONE)
		result = bc_wishes_read(arguments, limits, &options);
	if (result == BC_EXIT_DONE)
		result = learn(arguments, &learning, &options);
	if (result == BC_EXIT_DONE)
		result = bc_case_sample(path, &sample);
	if (result == BC_EXIT_DONE)
		result = find_stills(path, sample, &stills);
	if (result == BC_EXIT_DONE) {
		options = bc_sample_stills_options(&stills, &options);
		result = choose_still(arguments, &stills, &request);
	}
	if (result == BC_EXIT_DONE) {
		request.want = options.want = wanted_grade(&options, limits);
		request.standard = options.standard;
		result = tap_once(arguments, path, sample, &options, &request, use);
	}
	bc_sample_free(sample);
	bc_learning_release(&learning);
	bc_limits_free(limits);
	return result;
}
