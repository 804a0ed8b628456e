/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut still calibrate': what a still is worth by what it made of an oil. */
#include <string.h>

#include "base/memory.h"
#include "base/number.h"
#include "base/strings.h"
#include "base/text.h"
#include "command/amount.h"
#include "command/case.h"
#include "command/output.h"
#include "command/pictures.h"
#include "command/still_tasks.h"
#include "fuel/pure.h"
#include "judgement/calibrating.h"
#include "report/still.h"

#define RUNS_MAX 12
#define LIQUIDS_MAX 12
#define WORD_SIZE 48

/* Everything that the runs of one command line need, and their answers. */
struct job {
	const struct bc_arguments *arguments;
	struct bc_sample *samples[3 * RUNS_MAX];
	size_t n_samples;
	struct bc_slices blend;
	struct bc_calibrating_request requests[RUNS_MAX];
	struct bc_calibrating *runs[RUNS_MAX];
	size_t n_runs;
	struct bc_still_record record;
	struct bc_still_told told;
	char *path;
};

/* The n-th value of an option, or the only one for every n; NULL where it was not given so. */
static const char *nth(const struct bc_arguments *arguments, const char *name, size_t n)
{
	const char *only = NULL;
	size_t seen = 0;
	for (size_t i = 0; i < arguments->n_given; i++) {
		if (strcmp(arguments->given[i].option->name, name) != 0)
			continue;
		if (seen++ == n)
			return arguments->given[i].value;
		only = arguments->given[i].value;
	}
	return seen == 1 ? only : NULL;
}

static size_t times(const struct bc_arguments *arguments, const char *name)
{
	size_t seen = 0;
	for (size_t i = 0; i < arguments->n_given; i++)
		seen += strcmp(arguments->given[i].option->name, name) == 0;
	return seen;
}

/* ---- the known blend */

static int add_liquid(const struct bc_command *command, const char *word, const char *equals,
	const struct bc_pure **liquid, double *share)
{
	char name[WORD_SIZE];
	const char *names[64];
	size_t length = (size_t)(equals - word);
	*share = 0.0;
	*liquid = NULL;
	if (length >= sizeof name)
		return bc_wrong_usage(command, "'%s' is no liquid with its share", word);
	memcpy(name, word, length);
	name[length] = '\0';
	if (!bc_number_parse(equals + 1, '.', share) || !(*share > 0.0 && *share <= 100.0))
		return bc_wrong_usage(command,
			"'%s' has no share of a blend; expected %% by volume as %s=50", word, name);
	*liquid = bc_pure_find(name);
	if (*liquid != NULL)
		return BC_EXIT_DONE;
	size_t n = 0;
	for (; n < bc_pure_count && n < sizeof names / sizeof names[0]; n++)
		names[n] = bc_pures[n].name;
	return bc_wrong_word(command, name, "a liquid that is known here", names, n);
}

static int read_blend(const struct bc_arguments *arguments, struct bc_slices *blend)
{
	const char *list = bc_arguments_value(arguments, "known");
	const struct bc_pure *liquids[LIQUIDS_MAX];
	double shares[LIQUIDS_MAX];
	double sum = 0.0;
	size_t n = 0;
	int result = BC_EXIT_DONE;
	while (list != NULL && result == BC_EXIT_DONE) {
		char word[WORD_SIZE];
		size_t length = strcspn(list, ",");
		if (length >= sizeof word || n == LIQUIDS_MAX)
			return bc_wrong_usage(arguments->command,
				"'%s' is not a blend; expected such as heptane=50,toluene=50",
				list);
		memcpy(word, list, length);
		word[length] = '\0';
		const char *equals = strchr(word, '=');
		if (equals == NULL)
			return bc_wrong_usage(arguments->command,
				"'%s' is no liquid with its share; expected such as heptane=50",
				word);
		result = add_liquid(arguments->command, word, equals, &liquids[n], &shares[n]);
		sum += result == BC_EXIT_DONE ? shares[n] : 0.0;
		n++;
		list = list[length] == ',' ? list + length + 1 : NULL;
	}
	if (result != BC_EXIT_DONE || n == 0)
		return result;
	if (!(sum >= 99.0 && sum <= 101.0) || n < 2)
		return bc_wrong_usage(arguments->command,
			"'%s' is %.4g %% of %zu liquid%s; expected two or more that make 100",
			bc_arguments_value(arguments, "known"), sum, n, n == 1 ? "" : "s");
	return bc_failed(bc_pure_blend(liquids, shares, n, blend)) ? BC_EXIT_NUMBERS : BC_EXIT_DONE;
}

/* ---- turns */

static int read_turn(const struct job *job, const char *option, size_t i, struct bc_turn_said *turn)
{
	const char *word = nth(job->arguments, option, i);
	double number = 0.0;
	if (word == NULL)
		return BC_EXIT_DONE;
	size_t taken = bc_number_prefix(word, '.', &number);
	bool volume = taken > 0 && strcmp(word + taken, "%") == 0;
	if (!volume && !bc_amount_parse(word, BC_QUANTITY_TEMPERATURE, false, &number))
		return bc_wrong_usage(job->arguments->command,
			"'%s' is not a value of --%s; expected a head temperature as 170C or a "
			"percent by volume as 26%%",
			word, option);
	if (!(number > 0.0 && number < (volume ? 100.0 : 700.0)))
		return bc_wrong_usage(job->arguments->command,
			"'%s' is no place for --%s; expected above 0, below 100%% or 700C", word,
			option);
	*turn = (struct bc_turn_said){
		true, !volume, number, bc_arguments_has(job->arguments, "as-read")};
	return BC_EXIT_DONE;
}

/* ---- samples */

static int read_sample(
	struct job *job, const char *option, size_t i, const struct bc_sample **sample)
{
	const char *path = nth(job->arguments, option, i);
	if (path == NULL)
		return BC_EXIT_DONE;
	struct bc_sample **place = &job->samples[job->n_samples];
	int result = bc_case_sample(path, place);
	if (result == BC_EXIT_DONE) {
		job->n_samples++;
		*sample = *place;
	}
	return result;
}

static int read_request(struct job *job, size_t i)
{
	struct bc_calibrating_request *request = &job->requests[i];
	int result = read_turn(job, "cut", i, &request->from);
	if (result == BC_EXIT_DONE)
		result = read_turn(job, "until", i, &request->to);
	if (result == BC_EXIT_DONE)
		result = read_sample(job, "before", i, &request->before);
	if (result == BC_EXIT_DONE)
		result = read_sample(job, "after", i, &request->after);
	if (result == BC_EXIT_DONE)
		result = read_sample(job, "heads", i, &request->heads);
	if (request->before == NULL) {
		request->known = &job->blend;
		request->known_words = bc_arguments_value(job->arguments, "known");
	}
	return result;
}

static int check_counts(const struct bc_arguments *arguments, size_t *n)
{
	static const char *const each[] = {"after", "cut", "until", "heads"};
	const struct bc_command *command = arguments->command;
	size_t before = times(arguments, "before");
	bool known = bc_arguments_has(arguments, "known");
	size_t after = times(arguments, "after");
	size_t heads = times(arguments, "heads");
	if (known == (before > 0))
		return bc_wrong_usage(
			command, known ? "'--known' is what went in; expected no --before beside it"
				       : "what went in is missing; expected --before or --known");
	if (after == 0 && heads == 0)
		return bc_wrong_usage(
			command, "what came out is missing; expected --after or --heads");
	*n = known ? (after > heads ? after : heads) : before;
	if (*n > RUNS_MAX)
		return bc_wrong_usage(command,
			"%zu runs are too many at once; expected %d or fewer", *n, RUNS_MAX);
	for (size_t i = 0; i < sizeof each / sizeof each[0]; i++) {
		size_t given = times(arguments, each[i]);
		bool one_for_all = i == 1 || i == 2; /* the turns */
		if (given != 0 && given != *n && !(one_for_all && given == 1))
			return bc_wrong_usage(command,
				"'--%s' is there for %zu of %zu runs; expected once for each",
				each[i], given, *n);
	}
	return BC_EXIT_DONE;
}

/* ---- running */

static int run_one(struct job *job, const struct bc_limits *limits, size_t i)
{
	struct bc_calibrating *run = bc_alloc(sizeof *run);
	if (run == NULL)
		return bc_no_memory();
	bc_calibrating_init(run);
	job->runs[job->n_runs++] = run;
	enum bc_status status = bc_calibrating_run(&job->requests[i], limits, run);
	if (bc_failed(status) && run->refused[0] != '\0')
		return bc_wrong_usage(job->arguments->command, "%s", run->refused);
	if (bc_failed(status)) {
		const struct bc_sample *sample =
			run->request.before != NULL ? run->request.before : run->request.after;
		bc_case_complain(sample != NULL ? sample->file : "--known", status);
	}
	return bc_exit_from_status(status);
}

/* Runs that say something join those that are kept; where none does, the best guess is told. */
static int put_together(struct job *job)
{
	struct bc_plates_estimate estimates[RUNS_MAX];
	job->told = (struct bc_still_told){.runs = (const struct bc_calibrating *const *)job->runs,
		.n_runs = job->n_runs,
		.record = &job->record};
	for (size_t i = 0; i < job->n_runs; i++) {
		estimates[i] = job->runs[i]->answer.estimate;
		if (!job->runs[i]->known)
			continue;
		job->told.known = true;
		if (bc_still_record_has(&job->record, &job->runs[i]->kept))
			bc_strings_add(&job->runs[i]->assumed,
				"the run '%s, then %s' is there already, by its readings: this "
				"takes its place and counts once",
				job->runs[i]->kept.before, job->runs[i]->kept.after);
		if (bc_failed(bc_still_record_add(&job->record, &job->runs[i]->kept))) {
			bc_complain("still '%s' holds %d runs, and no more fit",
				job->record.still.name, BC_STILL_PAIRS_MAX);
			return BC_EXIT_NEGATIVE;
		}
	}
	for (size_t i = 0; i < job->n_runs; i++)
		if (job->runs[i]->assumed.failed)
			return bc_no_memory();
	if (job->told.known) {
		bc_still_record_combine(&job->record);
		job->told.all = bc_still_record_estimate(&job->record);
	} else {
		job->told.all = bc_plates_combine(estimates, job->n_runs);
	}
	return BC_EXIT_DONE;
}

static int print(const struct job *job)
{
	struct bc_page_style style = {.colour = bc_wants_colour("auto")};
	struct bc_text text;
	if (bc_arguments_has(job->arguments, "json")) {
		json_t *json = bc_report_still_told_json(&job->told);
		bool done = bc_out_json(json, 0);
		json_decref(json);
		return done ? BC_EXIT_DONE : bc_no_memory();
	}
	bc_text_init(&text);
	int result = bc_failed(bc_report_still_told(&job->told, &style, &text)) ? bc_no_memory()
										: BC_EXIT_DONE;
	if (result == BC_EXIT_DONE)
		bc_out_text(&text);
	bc_text_release(&text);
	return result;
}

static enum bc_status write_chart(const void *subject, const char *kind, struct bc_text *script)
{
	return bc_report_still_chart(subject, kind, script);
}

static int draw(const struct job *job)
{
	const char *folder = bc_arguments_value(job->arguments, "charts");
	struct bc_pictures pictures;
	if (folder == NULL)
		return BC_EXIT_DONE;
	int result = bc_pictures_open(&pictures, folder);
	for (size_t i = 0; i < job->n_runs && result == BC_EXIT_DONE; i++) {
		const struct bc_calibrating_request *request = &job->requests[i];
		const struct bc_sample *sample =
			request->after != NULL ? request->after : request->heads;
		const char *kinds[3] = {NULL};
		size_t n = 0;
		if (sample == NULL)
			continue;
		if (request->after != NULL)
			kinds[n++] = bc_still_chart_kinds[0];
		if (request->heads != NULL)
			kinds[n++] = bc_still_chart_kinds[1];
		result = bc_pictures_draw_all(
			&pictures, sample->file, kinds, write_chart, job->runs[i]);
	}
	bc_pictures_close(&pictures);
	return result;
}

static int work_through(struct job *job, const struct bc_limits *limits, size_t n)
{
	int result = bc_still_record_of(job->arguments, &job->record);
	for (size_t i = 0; i < n && result == BC_EXIT_DONE; i++)
		result = read_request(job, i);
	for (size_t i = 0; i < n && result == BC_EXIT_DONE; i++)
		result = run_one(job, limits, i);
	if (result == BC_EXIT_DONE)
		result = put_together(job);
	if (result == BC_EXIT_DONE && job->told.known)
		result = bc_still_keep(job->arguments, &job->record, &job->path);
	if (result != BC_EXIT_DONE)
		return result;
	job->told.saved = job->path;
	result = print(job);
	int drawn = result == BC_EXIT_DONE ? draw(job) : BC_EXIT_DONE;
	if (result == BC_EXIT_DONE && !job->told.known)
		result = BC_EXIT_NEGATIVE;
	return drawn > result ? drawn : result;
}

int bc_still_calibrate(const struct bc_arguments *arguments)
{
	static const char *const allowed[] = {"name", "json", "before", "known", "after", "cut",
		"until", "as-read", "heads", "charts", NULL};
	struct bc_limits *limits = NULL;
	size_t n = 0;
	int result = bc_arguments_count(arguments, 1, 1, "word");
	struct job *job = bc_alloc(sizeof *job);
	if (job == NULL)
		return bc_no_memory();
	memset(job, 0, sizeof *job);
	job->arguments = arguments;
	if (result == BC_EXIT_DONE)
		result = bc_still_only(arguments, allowed);
	if (result == BC_EXIT_DONE)
		result = check_counts(arguments, &n);
	if (result == BC_EXIT_DONE)
		result = bc_arguments_folder(arguments, "charts");
	if (result == BC_EXIT_DONE)
		result = read_blend(arguments, &job->blend);
	if (result == BC_EXIT_DONE)
		result = bc_case_limits(NULL, &limits);
	if (result == BC_EXIT_DONE)
		result = work_through(job, limits, n);
	for (size_t i = 0; i < job->n_runs; i++) {
		bc_calibrating_release(job->runs[i]);
		bc_free(job->runs[i]);
	}
	for (size_t i = 0; i < job->n_samples; i++)
		bc_sample_free(job->samples[i]);
	bc_free(job->path);
	bc_free(job);
	bc_limits_free(limits);
	return result;
}
