/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several files that are looked at together, for 'judge --same' and 'judge --control'. */
#include "command/together.h"

#include <string.h>

#include "base/memory.h"
#include "command/command.h"
#include "command/output.h"

static int read_all(const struct bc_strings *paths, struct bc_together *together)
{
	int worst = BC_EXIT_DONE;
	*together = (struct bc_together){0};
	together->samples = bc_alloc_array(paths->n, sizeof(struct bc_sample *));
	if (together->samples == NULL)
		return bc_no_memory();
	for (size_t i = 0; i < paths->n; i++) {
		together->samples[i] = NULL;
		together->n = i + 1;
		int result = bc_case_sample(paths->items[i], &together->samples[i]);
		worst = result > worst ? result : worst;
	}
	return worst;
}

static int say_failure(const struct bc_strings *paths, size_t failed, enum bc_status status)
{
	if (status == BC_NO_MEMORY)
		return bc_no_memory();
	if (failed < paths->n)
		bc_case_complain(paths->items[failed], status);
	else if (status == BC_TOO_FEW)
		bc_complain("the files do not overlap; expected 3 percents or more that runs of "
			    "one apparatus all were read around");
	else
		bc_complain("the files together: %s", bc_status_text(status));
	return status == BC_TOO_FEW ? BC_EXIT_DATA : bc_exit_from_status(status);
}

/* A flask, a column or a still: each is read in its own way, and their mean is nobody's. Runs of
 * another test altogether are left out by the pool. */
static bool same_apparatus(const struct bc_sample *a, const struct bc_sample *b)
{
	if (a->apparatus != b->apparatus)
		return a->apparatus == BC_APPARATUS_TBP || b->apparatus == BC_APPARATUS_TBP;
	if (a->apparatus == BC_APPARATUS_COLUMN)
		return a->column_stages == b->column_stages && a->column_reflux == b->column_reflux;
	return a->apparatus != BC_APPARATUS_STILL || a->apparatus_still == NULL ||
	       b->apparatus_still == NULL || strcmp(a->apparatus_still, b->apparatus_still) == 0;
}

static int check_apparatus(const struct bc_strings *paths, const struct bc_together *together)
{
	for (size_t i = 1; i < together->n; i++) {
		if (same_apparatus(together->samples[0], together->samples[i]))
			continue;
		bc_complain("%s and %s name different apparatus; expected runs of one apparatus, "
			    "judge them one by one",
			paths->items[0], paths->items[i]);
		return BC_EXIT_DATA;
	}
	return BC_EXIT_DONE;
}

int bc_together_pool(const struct bc_strings *paths, bool keep_all, struct bc_together *together)
{
	size_t failed;
	int result = read_all(paths, together);
	if (result == BC_EXIT_DONE)
		result = check_apparatus(paths, together);
	if (result != BC_EXIT_DONE)
		return result;
	enum bc_status status = bc_pool_new((const struct bc_sample *const *)together->samples,
		together->n, keep_all, &together->pool, &failed);
	return bc_failed(status) ? say_failure(paths, failed, status) : BC_EXIT_DONE;
}

int bc_together_control(const struct bc_strings *paths, struct bc_together *together)
{
	size_t failed;
	int result = read_all(paths, together);
	if (result != BC_EXIT_DONE)
		return result;
	enum bc_status status = bc_control_new((const struct bc_sample *const *)together->samples,
		together->n, &together->control, &failed);
	return bc_failed(status) ? say_failure(paths, failed, status) : BC_EXIT_DONE;
}

int bc_together_judge(const struct bc_together *together, const struct bc_judge_options *options,
	struct bc_case *item)
{
	struct bc_sample *sample = together->pool->sample;
	*item = (struct bc_case){.path = sample->file};
	bc_judgement_init(&item->judgement);
	bc_diagnostics_init(&item->diagnostics);
	enum bc_status status = bc_sample_stills_find(sample, &item->stills, &item->diagnostics);
	if (!bc_failed(status)) {
		struct bc_judge_options pooled = bc_sample_stills_options(&item->stills, options);
		pooled.pool = together->pool;
		status = bc_judge(sample, &pooled, &item->judgement);
	}
	item->result = bc_exit_from_status(status);
	bc_print_diagnostics(&item->diagnostics);
	if (bc_failed(status) && bc_diagnostics_first_error(&item->diagnostics) == NULL)
		bc_case_complain(sample->file, status);
	return item->result;
}

void bc_together_close(struct bc_together *together)
{
	bc_pool_free(together->pool);
	bc_control_free(together->control);
	for (size_t i = 0; i < together->n; i++)
		bc_sample_free(together->samples[i]);
	bc_free(together->samples);
	*together = (struct bc_together){0};
}

static int check_count(
	const struct bc_arguments *arguments, const struct bc_strings *paths, const char *which)
{
	bool same = which[0] == 's';
	size_t most = same ? (size_t)BC_RUNS_MAX : (size_t)BC_CONTROL_RUNS;
	if (paths->n < 2)
		return bc_wrong_usage(arguments->command,
			"'--%s' needs %s; expected 2 FILEs or more", which,
			same ? "runs to compare" : "a history");
	if (paths->n > most)
		return bc_wrong_usage(arguments->command, "'--%s' takes at most %zu FILEs, not %zu",
			which, most, paths->n);
	return BC_EXIT_DONE;
}

int bc_together_check(const struct bc_arguments *arguments, const struct bc_strings *paths)
{
	static const char *const of_one_oil[] = {
		"explain", "want", "standard", "limits", "charts", "fits", "keep-all"};
	bool same = bc_arguments_has(arguments, "same");
	bool control = bc_arguments_has(arguments, "control");
	if (!same && !control)
		return BC_EXIT_DONE;
	if (same && control)
		return bc_wrong_usage(arguments->command,
			"'--same' and '--control' ask two questions; expected one of them");
	if (bc_arguments_has(arguments, "readings"))
		return bc_wrong_usage(arguments->command,
			"'--readings' stands for one file; expected no --%s beside it",
			same ? "same" : "control");
	for (size_t i = 0; control && i < sizeof of_one_oil / sizeof of_one_oil[0]; i++) {
		if (bc_arguments_has(arguments, of_one_oil[i]))
			return bc_wrong_usage(arguments->command,
				"'--%s' judges an oil; expected no --control beside it",
				of_one_oil[i]);
	}
	return check_count(arguments, paths, same ? "same" : "control");
}
