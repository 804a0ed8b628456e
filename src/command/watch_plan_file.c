/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plan beside 'watch': what 'tap --json' wrote, or a tapping made on the spot. */
#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/file.h"
#include "base/memory.h"
#include "command/amount.h"
#include "command/case.h"
#include "command/output.h"
#include "command/watch_run.h"
#include "command/wishes.h"
#include "curve/cracking.h"
#include "report/tap.h"

#define PLAN_LIMIT_BYTES ((size_t)16 * 1024 * 1024)

static double number_of(const json_t *object, const char *key)
{
	const json_t *value = json_object_get(object, key);
	return json_is_number(value) ? json_number_value(value) : (double)NAN;
}

static int refuse(const char *path, const char *what)
{
	bc_complain("%s: %s; what 'boilcut tap --json' writes was expected", path, what);
	return BC_EXIT_DATA;
}

/* ---- a tapping, for its head curve or as the plan itself */

static int tap(const struct bc_sample *feed, const struct bc_limits *limits,
	const struct bc_judge_options *wish, const struct bc_tap_request *request,
	struct bc_tapping **tapping)
{
	*tapping = bc_alloc(sizeof **tapping);
	if (*tapping == NULL)
		return bc_no_memory();
	bc_tapping_init(*tapping);
	struct bc_judge_options options = *wish;
	options.limits = limits;
	enum bc_status status = bc_tap(feed, &options, request, *tapping);
	if (status == BC_NO_MEMORY)
		return bc_no_memory();
	if (bc_failed(status) && (*tapping)->refused[0] != '\0')
		bc_complain("%s: %s", feed->file, (*tapping)->refused);
	else if (bc_failed(status))
		bc_case_complain(feed->file, status);
	return bc_exit_from_status(status);
}

static void release(struct bc_tapping *tapping)
{
	bc_tapping_release(tapping);
	bc_free(tapping);
}

/* ---- a file */

static bool read_jar(const json_t *object, struct bc_watch_plan *plan, double *over_frac)
{
	const char *name = json_string_value(json_object_get(object, "jar"));
	double share = number_of(object, "volume_pct") / 100.0;
	if (name == NULL || !(share >= 0.0 && share <= 1.0))
		return false;
	if (share == 0.0)
		return true;
	if (plan->n_jars == BC_JARS_MAX)
		return false;
	struct bc_plan_jar *jar = &plan->jars[plan->n_jars++];
	snprintf(jar->name, sizeof jar->name, "%s", name);
	for (char *s = jar->name; *s != '\0'; s++) {
		if (*s < ' ' || *s > '~')
			*s = '?';
	}
	*over_frac = fmin(*over_frac + share, 1.0);
	jar->light = strcmp(name, "light") == 0;
	jar->until_frac = *over_frac;
	jar->until_reading_c = number_of(object, "to_reading_c");
	double pot_c = number_of(object, "pot_to_c");
	plan->pot_limit_c = isnan(pot_c) ? BC_POT_LIMIT_C : fmin(pot_c, BC_POT_LIMIT_C);
	return true;
}

static bool read_plan(const json_t *root, struct bc_watch_plan *plan)
{
	const json_t *jars = json_object_get(root, "jars");
	double over_frac = 0.0;
	*plan = (struct bc_watch_plan){.charge_ml = number_of(root, "charge_ml"),
		.pot_limit_c = BC_POT_LIMIT_C,
		.near_c = BC_PLAN_NEAR_C,
		.near_frac = BC_PLAN_NEAR_FRAC};
	for (size_t i = 0; i < json_array_size(jars); i++) {
		if (!read_jar(json_array_get(jars, i), plan, &over_frac))
			return false;
	}
	bc_watch_plan_restart(plan);
	return plan->charge_ml > 0.0 && plan->n_jars > 0;
}

static void read_still(const json_t *root, struct bc_tap_request *request)
{
	const json_t *still = json_object_get(root, "still");
	struct bc_column *column = &request->still.column;
	const json_t *reflux = json_object_get(still, "reflux");
	double plates = number_of(still, "effective_plates");
	if (!isnan(number_of(still, "stages")))
		column->stages = number_of(still, "stages");
	if (json_is_string(reflux))
		column->reflux = INFINITY;
	else if (json_is_number(reflux))
		column->reflux = json_number_value(reflux);
	column->effective_plates = plates;
	if (!isnan(number_of(still, "carry_pct")))
		request->still.carry_pct = number_of(still, "carry_pct");
	request->charge_ml = number_of(root, "charge_ml");
	request->split = true;
}

/* The head curve of the plan: its feed on its still once more. Without it the plan has its turns
 * alone, and the jars that remain are not recalculated. */
static int add_curve(const json_t *root, const char *path, const struct bc_limits *limits,
	struct bc_watch_plan *plan)
{
	const struct bc_judge_options none = {.want = BC_GRADES};
	struct bc_tap_request request = bc_tap_request_default();
	struct bc_sample *feed = NULL;
	struct bc_tapping *tapping = NULL;
	const char *text = json_string_value(json_object_get(root, "feed"));
	const double same_kpa = 0.5;
	if (text == NULL)
		return BC_EXIT_DONE;
	enum bc_status status = bc_sample_read(text, strlen(text), path, NULL, &feed);
	if (status == BC_NO_MEMORY)
		return bc_no_memory();
	if (bc_failed(status))
		return refuse(path, "holds a feed that is no sample");
	read_still(root, &request);
	int result = tap(feed, limits, &none, &request, &tapping);
	if (result == BC_EXIT_DONE) {
		double pressure_kpa = number_of(root, "pressure_kpa");
		if (fabs(pressure_kpa - tapping->pressure_kpa) > same_kpa) {
			request.vacuum_kpa = pressure_kpa;
			release(tapping);
			tapping = NULL;
			result = tap(feed, limits, &none, &request, &tapping);
		}
	}
	if (result == BC_EXIT_DONE)
		bc_watch_plan_curve(tapping, plan);
	if (tapping != NULL)
		release(tapping);
	bc_sample_free(feed);
	return result;
}

static int open_file(const char *path, const struct bc_limits *limits, struct bc_watch_plan *plan)
{
	struct bc_diagnostics diagnostics;
	char *bytes = NULL;
	size_t n = 0;
	json_error_t error;
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = bc_file_read(path, PLAN_LIMIT_BYTES, &bytes, &n, &diagnostics);
	bc_print_diagnostics(&diagnostics);
	bc_diagnostics_release(&diagnostics);
	if (bc_failed(status))
		return status == BC_NO_MEMORY ? bc_no_memory() : bc_exit_from_status(status);
	json_t *root = json_loadb(bytes, n, 0, &error);
	bc_free(bytes);
	if (root == NULL)
		return refuse(path, "is no JSON");
	int result = read_plan(root, plan) ? add_curve(root, path, limits, plan)
					   : refuse(path, "is no plan");
	json_decref(root);
	return result;
}

/* ---- on the spot */

static enum bc_grade_name grade_of(
	const struct bc_judge_options *wish, const struct bc_limits *limits)
{
	for (size_t i = 0; wish->standard != NULL && i < limits->n; i++) {
		if (strcmp(limits->items[i].standard, wish->standard) == 0)
			return wish->want != BC_GRADES ? wish->want : limits->items[i].grade;
	}
	return wish->want;
}

static int make(const struct bc_arguments *arguments, const struct bc_limits *limits,
	const struct bc_sample *sheet, struct bc_watch_plan *plan)
{
	struct bc_judge_options wish;
	struct bc_sample *feed = NULL;
	struct bc_tapping *tapping = NULL;
	struct bc_tap_request request = bc_tap_request_default();
	const char *path = bc_arguments_value(arguments, "feed");
	int result = bc_wishes_read(arguments, limits, &wish);
	if (result == BC_EXIT_DONE)
		result = bc_case_sample(path, &feed);
	if (result == BC_EXIT_DONE) {
		request.want = wish.want = grade_of(&wish, limits);
		request.standard = wish.standard;
		if (sheet != NULL && sheet->charge_stated)
			request.charge_ml = sheet->charge_ml;
		result = tap(feed, limits, &wish, &request, &tapping);
	}
	if (result == BC_EXIT_DONE && !bc_tap_answers(tapping)) {
		bc_complain("%s: no cut of it gives what is wanted; 'boilcut tap' says why", path);
		result = BC_EXIT_NEGATIVE;
	}
	if (result == BC_EXIT_DONE && !bc_watch_plan_from_tapping(tapping, plan))
		result = BC_EXIT_NUMBERS;
	if (tapping != NULL)
		release(tapping);
	bc_sample_free(feed);
	return result;
}

static int check(const struct bc_arguments *arguments)
{
	bool wish = bc_arguments_has(arguments, "want") || bc_arguments_has(arguments, "standard");
	bool feed = bc_arguments_has(arguments, "feed");
	bool plan = bc_arguments_has(arguments, "plan");
	if (feed && plan)
		return bc_wrong_usage(arguments->command,
			"'--plan' is a plan already; expected no --feed beside it");
	if (feed != wish)
		return bc_wrong_usage(arguments->command,
			feed ? "'--feed' says too little alone; expected --want or --standard too"
			     : "'--want' and '--standard' say what to make of a feed; expected "
			       "--feed too");
	if (bc_arguments_has(arguments, "near") && !feed && !plan)
		return bc_wrong_usage(arguments->command,
			"'--near' is about a plan; expected --plan or --feed too");
	return BC_EXIT_DONE;
}

int watch_plan_open(const struct bc_arguments *arguments, const struct bc_limits *limits,
	const struct bc_sample *sheet, struct bc_watch_plan **plan)
{
	const struct bc_amount near = {
		"near", BC_QUANTITY_TEMPERATURE_DIFFERENCE, true, "degrees such as 5", 0.0, 100.0};
	const char *path = bc_arguments_value(arguments, "plan");
	double near_c = BC_PLAN_NEAR_C;
	*plan = NULL;
	int result = check(arguments);
	if (result == BC_EXIT_DONE)
		result = bc_amount_read(arguments, &near, &near_c);
	if (result != BC_EXIT_DONE || (path == NULL && !bc_arguments_has(arguments, "feed")))
		return result;
	*plan = bc_alloc(sizeof **plan);
	if (*plan == NULL)
		return bc_no_memory();
	result = path != NULL ? open_file(path, limits, *plan)
			      : make(arguments, limits, sheet, *plan);
	(*plan)->near_c = near_c;
	if (sheet != NULL && sheet->charge_stated && result == BC_EXIT_DONE)
		(*plan)->charge_ml = sheet->charge_ml;
	return result;
}
